"""How the bench's work grows with what it is given."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from typing import Any

import bench
from tests.bench.workshop import DEMO_RECIPES, THREE_PART, Maker, demo_sheet, unsaid
from tests.make import make_entry, make_recipe, uuid4
from tests.perf.registry import figure

KIT = bench.read_kit(
    {
        "format": "bowlside-kit/1",
        "scales": [{"id": "kitchen", "name": "Kitchen scale", "capacity": "50 kg", "division": "1 g"}],
    }
)
ROUNDS = 7


@figure("sheet of 400 lines / of 40, time", "<= 12")
def sheet_growth() -> float:
    return growth(make_sheet_maker(40), make_sheet_maker(400))


@figure("fold of 10,000 entries / of 1,000, time", "<= 12")
def fold_growth() -> float:
    sheet = make_sheet_maker(40)()
    run = uuid4()
    lines = [line["id"] for line in sheet["lines"]]
    entries = [
        make_entry(run, at=at, kind="weighed", body={"line": lines[at % len(lines)], "mg": 1000})
        for at in range(10_000)
    ]
    return growth(lambda: bench.fold(sheet, entries[:1000]), lambda: bench.fold(sheet, entries))


@figure("demo steps whose title or words do not reach the bench, of all", "<= 0")
def unsaid_steps() -> float:
    return len({said.rsplit(".", 1)[0] for name in DEMO_RECIPES for said in unsaid(demo_sheet(name))})


@figure("touches for the whole three-part piece, no mistakes / steps", "<= 1.3")
def touches_a_step() -> float:
    sheet = demo_sheet(THREE_PART)
    return touches(sheet) / len(sheet["steps"])


def touches(sheet: Any) -> int:
    """How often a maker who makes no mistake touches the bench, from the first prompt to the end: pieces that
    are pressed in a row are told in a row, and what is done and found right is told at once."""
    maker = Maker(sheet)
    answered = 0
    while not maker.state["finished_at"]:
        maker.briefly()
        answered += 1
    return answered


def make_sheet_maker(lines: int) -> Callable[[], Any]:
    measured = bench.read_recipe(make_recipe(lines=lines))
    size = {"pieces": 10, "without": [], "swaps": {}, "weigh": "running"}
    return lambda: bench.make_sheet(measured, {"id": uuid4(), "version": 1}, size, KIT)


def growth(small: Callable[[], Any], large: Callable[[], Any]) -> float:
    """Time of the large over time of the small, the median of rounds taken in turn."""
    small()
    return statistics.median(seconds(large) / seconds(small) for _ in range(ROUNDS))


def seconds(act: Callable[[], Any]) -> float:
    began = time.perf_counter()
    act()
    return time.perf_counter() - began
