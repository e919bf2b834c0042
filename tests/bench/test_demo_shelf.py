"""The demo's shelf holds together, and its finished run can be traced, costed and labelled from it."""

from __future__ import annotations

import json
from fractions import Fraction

from workshop import DEMO, DEMO_RECIPES, demo_sheet, written

from bench import (
    check_shelf_entry,
    cost,
    fold,
    fold_shelf,
    is_currency,
    label,
    read_recipe,
    record,
)
from bench.book import card_for, names_of
from demo.make_shelf import SHELF, entries_at, shelf

NOW = 1_800_000_000_000
ENTRIES = entries_at(json.loads(SHELF.read_text("utf-8")), NOW)
STOCK = fold_shelf(ENTRIES)
NAMES = names_of(STOCK)
RECIPE = "recipes/two-layer-soap-bars.json"
SHEET = demo_sheet(RECIPE)
RUN = json.loads((DEMO / "runs/finished-layered-bars.json").read_text("utf-8"))["entries"]
STORY = [{**entry, "run": "run-1", "at": NOW - entry["before_ms"]} for entry in RUN]


def test_the_file_is_what_its_maker_writes():
    assert json.loads(SHELF.read_text("utf-8")) == shelf()


def test_every_entry_passes_the_check_and_none_is_unread():
    for entry in ENTRIES:
        check_shelf_entry(entry)

    assert STOCK["unread"] == []
    assert all(is_currency(lot["price"]["currency"]) for lot in STOCK["lots"].values())


def test_every_ingredient_of_every_recipe_finds_its_card():
    for name in DEMO_RECIPES:
        for ingredient in written(name)["ingredients"].values():
            assert card_for(NAMES, ingredient["name"]), ingredient["name"]


def test_one_lot_is_past_its_date_and_one_was_corrected():
    past = [lot for lot in STOCK["lots"].values() if lot["best_before"] and lot["best_before"] < "2027-01-15"]

    assert len(past) == 1
    assert any(lot["held"] < lot["mg"] for lot in STOCK["lots"].values() if lot["mg"])


def test_the_finished_batch_names_its_lots_closes_its_balance_and_has_a_cost():
    told = record(SHEET, fold(SHEET, STORY), STORY)

    assert told["number"] == "D-A41" and told["signed"] and told["remarks"] == []
    assert all(lot["lot"] in STOCK["lots"] for lot in told["lots"])
    assert told["balance"]["weighed"] == 3
    spent = cost(told, SHEET, STOCK, {"currency": "EUR", "hourly_rate": "16.00"}, {"EUR": 2})
    # What is sprayed is not weighed, so it has no price of its own: it is named.
    assert [each["names"] for each in spent["unpriced"]] == [["Isopropyl alcohol, 70 % by volume"]]
    assert 0 < Fraction(spent["totals"]["EUR"]["per_piece"]) < 20


def test_its_label_lists_what_went_in_with_the_colours_last():
    told = label(read_recipe(written(RECIPE)), SHEET, fold(SHEET, STORY), "eu", {})

    assert told["batch"] == "D-A41"
    assert told["ingredients"][-1]["group"] == "colour"
    assert told["ingredients"][0]["name"] == "Glycerin"
