"""The demo's three-part batch as a day to be planned."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any

import bench
from bench.planning import make_problem, tasks_of
from tests.servers import ROOT

Json = dict[str, Any]

WEDNESDAY = int(datetime(2026, 11, 25, 9, tzinfo=UTC).timestamp() * 1000)
DAY = 86_400_000
HOURS = {"zone": "Europe/London", "daily": [["9:00", "12:30"], ["19:00", "22:00"]]}


def demo_recipe() -> Json:
    text = (ROOT / "demo/recipes/fizzing-base-embed-whipped-top.json").read_text(encoding="utf-8")
    return bench.read_recipe(json.loads(text))


def demo_kit() -> Json:
    return bench.read_kit(json.loads((ROOT / "demo/kit.json").read_text(encoding="utf-8")))


def demo_sheet(pieces: int = 12, kit: Json | None = None) -> Json:
    size = {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running"}
    return bench.make_sheet(demo_recipe(), {"id": "demo", "version": 1}, size, kit or demo_kit())


def demo_day(batches: int = 1, *, pieces: int = 12, since: int = WEDNESDAY, **other: Any) -> Json:
    """So many of the demo's batches side by side on one bench, in the demo's hours."""
    kit = other.pop("kit", None)
    runs = ["", *(f"run{number}" for number in range(2, batches + 1))]
    parts = [tasks_of(demo_sheet(pieces, kit), run=run) for run in runs]
    makers = other.pop("makers", [{"name": "You", "hours": HOURS}])
    return make_problem(parts, makers, since, since + 10 * DAY, **other)
