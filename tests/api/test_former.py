"""Studios of earlier versions are put back and taken in as they were.

tests/api/former holds what the version before the tables 0005 made of one studio: a copy (`backup`), an export,
and what its own API said of each run. Nine runs, six of them with a picture, five signed, one of these
unsigned again; two devices that had sent by turns. tests/api/former_sheet_1 holds the same of the version before
`bowlside-sheet/2`: eleven runs of the five demo recipes, with rounds, stand-ins, spoons and drops.
"""

from __future__ import annotations

import gzip
import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from api import copies
from bench import canonical, digest
from tests.api.studio import Studio
from tests.api.test_move_studio import all_rows
from tests.often import EITHER_DATABASE

pytestmark = EITHER_DATABASE

FORMER = Path(__file__).parent / "former"
COPY = FORMER / "copy.jsonl.gz"
FOLDERS = [FORMER, Path(__file__).parent / "former_sheet_1"]


@pytest.fixture(params=FOLDERS, ids=lambda folder: folder.name)
def former(request: pytest.FixtureRequest) -> Path:
    folder: Path = request.param
    return folder


def said_then(former: Path) -> dict[str, Any]:
    """As `said_now`."""
    told: dict[str, Any] = json.loads((former / "said.json").read_text("utf-8"))
    return {
        run: {name: value for name, value in said.items() if name not in ("state_sha256", "steps")}
        for run, said in told.items()
    }


def said_now(studio: Studio) -> dict[str, Any]:
    """What the API says of each run, in the words of said.json.

    Its digests were over all entries. That of a signed run is now over what was signed: what it was when signed.
    """
    said = {}
    for each in studio.get("/runs?page_size=100").json["runs"]:
        run, record = studio.get(f"/runs/{each['id']}").json, studio.get(f"/runs/{each['id']}/record").json
        of = [entry for entry in record["entries"] if entry["id"] in (record["sealed"] or [entry["id"]])]
        assert record["digest"] == digest(of)
        said[each["id"]] = {
            "digest": digest(record["entries"]),
            **{name: run[name] for name in ("number", "created_at", "finished_at", "entries")},
            "sheet_sha256": sha256(canonical(run["sheet"]).encode()).hexdigest(),
            "signed": record["signed"] and record["signed"]["name"],
            "masses": [[line["line"], line["actual_mg"], line["status"]] for line in record["lines"]],
            "pieces": [[each["step"], each["good"], each["spoiled"]] for each in record["counts"]],
        }
    return said


def less_sheets(said: dict[str, Any]) -> dict[str, Any]:
    """An export holds no sheet. It is made again, and a later version may write more into it."""
    return {run: {**each, "sheet_sha256": ""} for run, each in said.items()}


def test_a_copy_of_the_version_before_is_put_back_as_it_was(app: Any, former: Path) -> None:
    copy = former / "copy.jsonl.gz"
    copies.restore(app, copy)

    studio = Studio(app.test_client())
    assert said_now(studio) == said_then(former)
    lines = [json.loads(line) for line in gzip.decompress(copy.read_bytes()).splitlines()][1:-1]
    there = {(table, str(row.get("id") or row)): row for table, row in all_rows(app)}
    for line in lines:
        if "id" in line["row"] and line["table"] != "audit":
            row = there[line["table"], str(line["row"]["id"])]
            assert {name: row[name] for name in line["row"]} == line["row"]
    pictures = [each["row"] for each in lines if each["table"] == "picture"]
    assert len(pictures) == {"former": 6}.get(former.name, 0)
    for each in pictures:
        assert sha256(studio.get(f"/pictures/{each['id']}").data).hexdigest() == each["sha256"]


@pytest.mark.database("sqlite")
def test_a_copy_of_the_version_before_is_read_back_whole() -> None:
    copy, unreadable = copies.verify(COPY)

    assert (copy.schema, copy.counts["entry"], unreadable) == ("0004", 525, [])


def test_an_export_of_the_version_before_is_taken_in_as_it_was(app: Any, former: Path) -> None:
    studio = Studio(app.test_client())

    taken = studio.import_(json.loads(gzip.decompress((former / "export.json.gz").read_bytes())))

    assert taken.json["refused"] == []
    assert less_sheets(said_now(studio)) == less_sheets(said_then(former))
