"""Published scheduling instances, read into problems of ours: no hands, only things that are few.

Where the files are is not part of this project; the tests that use them say so where they are absent.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

Json = dict[str, Any]

UNIT_MS = 60_000
FOLDER = Path(os.environ.get("BOWLSIDE_PSPLIB", Path(__file__).parents[3] / "shared" / "psplib"))


def instances() -> list[tuple[str, Any]]:
    """(file name, optimal makespan or "unsat"), [] where the folder is absent."""
    optima = FOLDER / "optima.json"
    if not optima.is_file():
        return []
    tables = json.loads(optima.read_text()).values()
    return [pair for table in tables for pair in table.items()]


def read(path: Path) -> Json:
    return _read_sch(path) if path.suffix == ".sch" else _read_sm(path)


def _read_sm(path: Path) -> Json:
    """PSPLIB's .sm: needs, then durations and requests a job, then what there is of each resource."""
    lines = path.read_text().splitlines()
    heads = {line.split(":")[0].strip(): place for place, line in enumerate(lines) if ":" in line}
    count = int(lines[heads["jobs (incl. supersource/sink )"]].split(":")[1])
    numbers = [[int(each) for each in line.split() if each.lstrip("-").isdigit()] for line in lines]
    needs = heads["PRECEDENCE RELATIONS"] + 2
    asks = heads["REQUESTS/DURATIONS"] + 3
    rows = numbers[asks : asks + count]
    lasts = {row[0]: row[2] for row in rows}
    gaps = [(row[0], other, 0, None) for row in numbers[needs : needs + count] for other in row[3:]]
    capacity = numbers[heads["RESOURCEAVAILABILITIES"] + 2]
    return _problem(lasts, {row[0]: row[3:] for row in rows}, gaps, capacity)


def _read_sch(path: Path) -> Json:
    """ProGen/max's .sch: start-to-start lags; one below nought is a most the other way."""
    rows = [line.split() for line in path.read_text().splitlines() if line.split()]
    count = int(rows[0][0]) + 2
    arcs, jobs, capacity = rows[1 : 1 + count], rows[1 + count : 1 + 2 * count], rows[1 + 2 * count]
    lasts = {int(row[0]): int(row[2]) for row in jobs}
    gaps = []
    for row in arcs:
        one, many = int(row[0]), int(row[2])
        for other, lag in zip(map(int, row[3 : 3 + many]), row[3 + many :], strict=True):
            after = int(lag.strip("[]"))
            if after >= 0:
                gaps.append((one, other, after - lasts[one], None))
            else:
                gaps.append((other, one, None, -after - lasts[other]))
    return _problem(
        lasts,
        {int(row[0]): [int(each) for each in row[3:]] for row in jobs},
        gaps,
        [int(each) for each in capacity],
    )


def _problem(lasts: Json, asks: Json, gaps: list[Any], capacity: list[int]) -> Json:
    horizon = (sum(lasts.values()) + sum(abs(gap[2] or 0) for gap in gaps)) * UNIT_MS + UNIT_MS
    return {
        "since": 0,
        "ready_by": None,
        "makers": [{"name": "nobody", "hours": [[0, horizon]]}],
        "equipment": {f"r{place}": {"name": "", "many": many} for place, many in enumerate(capacity)},
        "tasks": [
            {
                "id": str(key),
                "run": "",
                "component": "",
                "letter": "",
                "round": 1,
                "title": str(key),
                "kind": "free",
                "takes_ms": last * UNIT_MS,
                "takes_from": "published",
                "uses": {f"r{place}": many for place, many in enumerate(asks[key]) if many},
                "status": "open",
                "began_at": None,
                "ended_at": None,
                "left_ms": last * UNIT_MS,
            }
            for key, last in lasts.items()
        ],
        "gaps": [
            {
                "from": [str(one)],
                "to": str(other),
                "least_ms": None if least is None else least * UNIT_MS,
                "most_ms": None if most is None else most * UNIT_MS,
                "why": "published",
                "stake": "",
            }
            for one, other, least, most in gaps
        ],
        "holds": [],
    }
