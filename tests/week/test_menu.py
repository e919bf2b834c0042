"""The sizes of a recipe and its sittings, from the demo's own recipes and kit; and what own runs say of spoiled pieces."""

from __future__ import annotations

import json
from typing import Any

import pytest

import bench
from bench.week.menu import Wanted, make_of
from bench.week.sittings import InSittings
from bench.week.spoilage import good_of, spoilage_of, wilson_ppm
from tests.planning.demo import demo_kit
from tests.servers import ROOT

Json = dict[str, Any]

LONGEST = 210 * 60_000
RECIPES = sorted(path.stem for path in (ROOT / "demo/recipes").glob("*.json") if path.stem != "index")


def recipe(name: str) -> Json:
    return bench.read_recipe(json.loads((ROOT / f"demo/recipes/{name}.json").read_text(encoding="utf-8")))


def wanted(name: str, pieces: list[int], **other: Any) -> Wanted:
    return Wanted(
        name,
        recipe(name),
        {"id": name, "version": 1},
        pieces,
        None,
        other.get("spoilage"),
        other.get("hands", {}),
    )


def test_bars_are_made_in_whole_trays():
    make, equipment = make_of(wanted("two-layer-soap-bars", [12, 20]), demo_kit(), LONGEST)

    assert [size["pieces"] % 6 for size in make["sizes"]] == [0] * len(make["sizes"])
    assert max(size["good"] for size in make["sizes"]) >= 32
    assert "moulds.bar" in equipment


def test_what_is_likely_to_be_spoiled_is_made_on_top():
    spoilage = {"runs": 4, "made": 40, "spoiled": 4, "share_ppm": 100_000, "low_ppm": 0, "high_ppm": 0}

    make, _ = make_of(wanted("shower-steamers", [18], spoilage=spoilage), demo_kit(), LONGEST)

    assert (make["sizes"][-1]["pieces"], make["sizes"][-1]["good"]) == (20, 18)


def test_a_recipe_whose_sittings_are_too_long_for_the_bench_is_refused():
    with pytest.raises(bench.PlanError, match="cannot be made"):
        make_of(wanted("salt-and-oil-scrub", [12]), demo_kit(), 10 * 60_000)


@pytest.mark.parametrize("name", RECIPES)
def test_sittings_are_the_steps_of_the_sheet_laid_out(name):
    """All hands are in them, in one sitting each; what lies between is kept by the layout that they come from."""
    size = {"pieces": 12, "without": [], "swaps": {}, "weigh": "running"}
    sheet = bench.make_sheet(recipe(name), {"id": name, "version": 1}, size, demo_kit())
    part = bench.tasks_of(sheet)
    cut = InSittings(part, {each["id"]: each["name"] for each in sheet["components"]}, LONGEST)

    hands = [task for task in part["tasks"] if task["kind"] == "hands"]
    assert cut.hands_ms() == sum(task["takes_ms"] for task in hands)
    assert sorted(index for group in cut.groups for index in group) == [
        place for place, task in enumerate(part["tasks"]) if task["kind"] == "hands"
    ]
    assert cut.fits
    for gap in cut.apart():
        apart = cut.opens[gap["to"]] - cut.opens[gap["from"]]
        assert gap["least_ms"] <= apart
        assert gap["most_ms"] is None or apart <= gap["most_ms"]
    for held in cut.holds():
        begins = cut.opens[held["from"]] + held["from_ms"]
        assert begins < cut.opens[held["until"]] + held["until_ms"]


# R. G. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998), the
# score method, to four places; from memory.
@pytest.mark.parametrize(
    ("hits", "of", "low", "high"),
    [(81, 263, 2553, 3662), (15, 148, 624, 1605), (0, 20, 0, 1611), (1, 29, 61, 1718)],
)
def test_the_interval_of_a_share_is_wilsons(hits, of, low, high):
    found = wilson_ppm(hits, of)

    assert (round(found[0] / 100), round(found[1] / 100)) == (low, high)


def test_three_runs_are_needed_to_say_how_many_are_spoiled():
    run = {"yield": {"good": 18, "kept": 1, "spoiled": 1}}
    nothing = {"yield": {"good": None, "kept": None, "spoiled": None}}

    assert spoilage_of([run, run, nothing]) is None
    told = spoilage_of([run, run, run])
    assert told is not None
    assert (told["runs"], told["made"], told["spoiled"], told["share_ppm"]) == (3, 60, 3, 50_000)
    assert told["low_ppm"] < 50_000 < told["high_ppm"]
    assert good_of(19, told) == 18


def test_a_size_that_is_too_much_to_lay_out_gives_way_to_half_of_it(monkeypatch):
    """200 of the demo's bars are some 300 steps: nobody makes them as one batch."""
    monkeypatch.setattr("bench.week.menu.MOST_TASKS", 1)
    known: Json = {}

    with pytest.raises(bench.PlanError):
        make_of(wanted("two-layer-soap-bars", [6]), demo_kit(), LONGEST, known)

    assert sorted(known) == [1, 2, 3, 6] and all(size is None for size, _ in known.values())


def test_sizes_that_are_known_are_not_laid_out_again(monkeypatch):
    known: Json = {}
    first = make_of(wanted("shower-steamers", [18]), demo_kit(), LONGEST, known)
    monkeypatch.setattr("bench.week.menu.InSittings", None)

    assert make_of(wanted("shower-steamers", [18]), demo_kit(), LONGEST, known) == first


def test_all_moulds_filled_once_are_a_size_where_more_is_wanted():
    """The demo's kit has so many cavities for bars: a batch that fills them all can be made again and again."""
    moulds = [each for each in demo_kit()["moulds"] if each["shape"] == "bar"]
    at_once = sum(each["cavities"] * each["sets"] for each in moulds)

    make, _ = make_of(wanted("two-layer-soap-bars", [5 * at_once + 1]), demo_kit(), 10 * LONGEST)

    assert at_once > 1 and at_once in {size["pieces"] for size in make["sizes"]}
