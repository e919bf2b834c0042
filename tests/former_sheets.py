"""Runs of a studio that was kept by the version before `bowlside-sheet/2`, for tests: tests/api/former_sheet_1."""

from __future__ import annotations

import gzip
import json
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

FOLDER = Path(__file__).parent / "api" / "former_sheet_1"
COPY = FOLDER / "copy.jsonl.gz"


class FormerRun(NamedTuple):
    id: str
    sheet: Any  # as it was kept
    measured: Any
    entries: list[Any]


@cache
def former_runs() -> list[FormerRun]:
    rows: dict[str, list[Any]] = {}
    for line in [json.loads(each) for each in gzip.decompress(COPY.read_bytes()).splitlines()][1:-1]:
        rows.setdefault(line["table"], []).append(line["row"])
    measured = {
        (row["recipe_id"], row["version"]): json.loads(row["measured"]) for row in rows["recipe_version"]
    }
    entries: dict[str, list[Any]] = {}
    for row in rows["entry"]:
        entries.setdefault(row["run_id"], []).append(json.loads(row["text"]))
    return [
        FormerRun(
            row["id"],
            json.loads(row["sheet"]),
            measured[row["recipe_id"], row["recipe_version"]],
            entries.get(row["id"], []),
        )
        for row in rows["run"]
    ]
