"""Seeds an empty database with the demo studio: recipes, a kit, bench hours, a shelf, and runs as if just made.

The demo's entries say when they happened as `before_ms`, so that its waits are always under way. Its bench
hours go by this machine's own clock.
"""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, NotRequired, TypedDict

from sqlalchemy import func, select
from tzlocal import get_localzone_name

import bench
from api.answers import StudioHours
from api.clock import now_ms
from api.exchange import EXPORT_FORMAT, Tally, import_any
from api.places import DEMO
from api.store import reading
from api.tables import Recipe
from bench import Entry, JsonObject, RecipeRef, Size


class DemoEntry(TypedDict):
    """An entry of the folder: how long ago it happened, and which days its body names, counted from today."""

    id: str
    device: str
    before_ms: int
    kind: str
    body: JsonObject
    days: NotRequired[dict[str, int]]


class DemoRun(TypedDict):
    id: str
    recipe: RecipeRef
    size: Size
    entries: list[DemoEntry]


def seed() -> Tally | None:
    """Fill the database, unless there is a recipe in it; gives what was kept."""
    with reading() as connection:
        if connection.scalar(select(func.count()).select_from(Recipe)):
            return None
    return import_any(studio(DEMO, now_ms()))


def studio(folder: Path, at: int) -> dict[str, object]:
    """The demo folder as an export of a studio, at an instant in ms."""
    kit = _read(folder / "kit.json")
    measured_kit = bench.read_kit(kit)
    return {
        "format": EXPORT_FORMAT,
        "exported_at": at,
        "recipes": [
            {
                "id": recipe["id"],
                "versions": [
                    {"version": 1, "created_at": at, "document": _read(folder / "recipes" / recipe["file"])}
                ],
            }
            for recipe in _read(folder / "recipes" / "index.json")
        ],
        "kit": kit,
        "hours": _hours(_read(folder / "hours.json")),
        "runs": [
            {"kit": measured_kit, **_run(_read(path), at)}
            for path in sorted((folder / "runs").glob("*.json"))
        ],
        "shelf": [_at(entry, "shelf", at) for entry in _read(folder / "shelf.json")],
    }


def _hours(document: StudioHours) -> StudioHours:
    zone = get_localzone_name() or "UTC"
    return {"makers": [{**maker, "hours": {**maker["hours"], "zone": zone}} for maker in document["makers"]]}


def _run(run: DemoRun, at: int) -> dict[str, object]:
    entries = [_at(entry, run["id"], at) for entry in run["entries"]]
    return {**run, "created_at": min((entry["at"] for entry in entries), default=at), "entries": entries}


def _at(entry: DemoEntry, run: str, at: int) -> Entry:
    """An entry of the folder as a journal has it. Its days are written as days from today (`days`)."""
    today = datetime.fromtimestamp(at / 1000, UTC).date()
    days = {key: str(today + timedelta(days=off)) for key, off in entry.get("days", {}).items()}
    return {
        "id": entry["id"],
        "run": run,
        "device": entry["device"],
        "at": at - entry["before_ms"],
        "kind": entry["kind"],
        "body": {**entry["body"], **days},
    }


def _read(path: Path) -> Any:
    return json.loads(path.read_text(encoding="utf-8"))
