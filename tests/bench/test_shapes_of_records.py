"""Records, labels, costs, last times and the shelf of the demo, made whole, are each of their shape."""

from __future__ import annotations

import json
from typing import get_args

import pytest
from workshop import DEMO, DEMO_RECIPES, Json, Maker, demo_sheet, unlike, written

from bench import (
    cost,
    dryness_of,
    fold_shelf,
    gather,
    label,
    last_times,
    learned,
    pick,
    read_recipe,
    record,
    use_of,
)
from bench.kinds import CORRECTIONS
from bench.shapes.record import Correction
from bench.shapes.schema import fields_of
from demo.make_shelf import SHELF, entries_at

NOW = 1_800_000_000_000
STOCK = fold_shelf(entries_at(json.loads(SHELF.read_text("utf-8")), NOW))
MONEY: Json = {"currency": "EUR", "hourly_rate": "18.00", "wrap_cost": "0.12"}


def made(name: str) -> Maker:
    maker = Maker(demo_sheet(name))
    while not maker.state["finished_at"]:
        maker.strong()
    return maker


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_what_is_drawn_from_a_whole_making_is_of_its_shape(name: str) -> None:
    maker, recipe = made(name), read_recipe(written(name))
    plain = record(maker.sheet, maker.state, maker.entries)

    assert unlike("record/Record", plain) == []
    assert unlike("record/Cost", cost(plain, maker.sheet, STOCK, MONEY, {"EUR": 2})) == []
    assert unlike("shelf/Gather", gather(recipe, maker.sheet, maker.state, STOCK, {}, "2026-11-28")) == []
    assert [f for each in learned([plain] * 3).values() for f in unlike("record/Learned", each)] == []
    assert last_times([plain])
    for market in ("us", "eu"):
        options = {"size": {"shape": "rectangle", "width_um": 60_000, "height_um": 40_000}, "net_mg": 90_000}
        assert unlike("record/Label", label(recipe, maker.sheet, maker.state, market, options)) == []


def test_a_record_of_lots_corrections_and_weighed_pieces_is_of_its_shape() -> None:
    maker = Maker(demo_sheet("recipes/two-layer-soap-bars.json"))
    run = json.loads((DEMO / "runs/finished-layered-bars.json").read_text("utf-8"))["entries"]
    maker.entries = [
        {**entry, "run": "run-1", "at": NOW - entry["before_ms"]}
        for entry in run
        if entry["kind"] != "signed"
    ]
    for entry in maker.entries:
        del entry["before_ms"]
    maker.at = NOW
    line, vessel = maker.sheet["lines"][0], maker.sheet["vessels"][0]
    pieces = next(step for step in maker.sheet["steps"] if step["kind"] == "pieces")
    for kind, body in (
        ("taken_out", {"line": line["id"], "mg": 1_000}),
        ("left", {"line": line["id"]}),
        ("left_out", {"line": line["id"]}),
        ("carried", {"component": line["component"], "round": line["round"], "num": 11, "den": 10}),
        ("placed", {"vessel": vessel["id"], "scale": maker.sheet["kit"]["scales"][0]["id"]}),
        ("took", {"vessel": vessel["id"], "instead": maker.sheet["kit"]["vessels"][0]["id"]}),
        ("measured", {"what": "piece", "piece": 1, "mg": 90_000, "step": pieces["id"]}),
        ("measured", {"what": "piece", "piece": 1, "mg": 89_900, "step": pieces["id"]}),
    ):
        maker.tell(kind, **body)
    plain = record(maker.sheet, maker.state, maker.entries)
    uses = use_of(maker.sheet, maker.state, maker.entries)

    assert {each["kind"] for each in plain["corrections"]} >= CORRECTIONS - {"took"}
    assert unlike("record/Record", plain) == []
    assert uses and [fault for each in uses.values() for fault in unlike("shelf/LotUse", each)] == []
    assert unlike("record/PieceDryness", dryness_of(maker.sheet, maker.state, pieces["id"])[0]) == []


def test_the_shelf_and_what_is_picked_from_it_are_of_their_shape() -> None:
    lots = [
        {"lot": "one", "left": 500, "best_before": None, "received_on": "2026-01-02"},
        {"lot": "two", "left": 500, "best_before": "2026-01-01", "received_on": "2025-01-02"},
    ]

    assert unlike("shelf/Shelf", STOCK) == []
    assert unlike("shelf/Pick", pick(700, lots, "2026-11-28")) == []


def test_each_kind_of_entry_that_corrects_has_its_shape_in_the_record() -> None:
    shown = {
        kind
        for shape in get_args(Correction)
        for key, hint, _ in fields_of(shape)
        if key == "kind"
        for kind in get_args(hint)
    }

    assert shown == CORRECTIONS
