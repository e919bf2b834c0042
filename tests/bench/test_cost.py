"""Money: exact, in text, never added over currencies, never a float."""

from __future__ import annotations

import json
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import pycountry
import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import DEMO_RECIPES, HOUR, MORNING, demo_sheet, entry, make_recipe, sheet_of

from bench import (
    EntryError,
    SettingError,
    check_shelf_entry,
    cost,
    fold,
    fold_shelf,
    is_currency,
    money_text,
    places_of,
    read_money,
    record,
)
from bench.cost import cost_basis, sale_price
from bench.money import sharing

SHEET = sheet_of(make_recipe("600 g", "400 g"))
PLACES = {"EUR": 2, "JPY": 0, "BHD": 3, "USD": 2}
SETTINGS = {"currency": "EUR", "hourly_rate": "18.00", "wrap_cost": "0.07"}


def received(lot, ingredient, mg, amount=None, currency="EUR", **tax):
    price = {"price": {"amount": amount, "currency": currency, **tax}} if amount is not None else {}
    body = {
        "lot": lot,
        "ingredient": ingredient,
        "number": lot.upper(),
        "mg": mg,
        "received_on": "2026-01-31",
    }
    return entry("received", MORNING, **body, **price)


def costed(*lots, good=10, spoiled=0, worked=HOUR, settings=SETTINGS, weighed=(600_000, 400_000)):
    shelf = fold_shelf(lots)
    entries = [
        entry("gathered", ingredient=lot["body"]["ingredient"], lot=lot["body"]["lot"]) for lot in lots
    ]
    entries += [entry("weighed", line=f"mix.1.l{place}", mg=mg) for place, mg in enumerate(weighed)]
    entries += [entry("counted", MORNING + 1, step="mix.1.press", good=good, spoiled=spoiled)]
    entries += [entry("worked", MORNING + 2, ms=worked)]
    return cost(record(SHEET, fold(SHEET, entries), entries), SHEET, shelf, settings, PLACES)


def test_a_batch_costs_what_was_used_of_each_lot_the_hands_and_the_wrap():
    told = costed(received("a", "i0", 1_000_000, "4.50"), received("b", "i1", 500_000, "6.00"))

    assert [row["cost"] for row in told["materials"]] == ["2.7000", "4.8000"]
    assert told["totals"] == {
        "EUR": {
            "materials": "7.50",
            "sprays": "0.00",
            "hands": "18.00",
            "cleaning": "0.00",
            "labelling": "0.00",
            "wrap": "0.70",
            "packaging": "0.00",
            "overhead": "0.00",
            "total": "26.20",
            "lost": "0.00",
            "spoiled": "0.00",
            "kept": None,
            "sale": None,
            "per_piece": "2.62",
        }
    }
    assert told["unpriced"] == []


def test_two_currencies_are_never_added():
    told = costed(received("a", "i0", 600_000, "3.00"), received("b", "i1", 400_000, "500", "JPY"))

    assert {currency: each["materials"] for currency, each in told["totals"].items()} == {
        "EUR": "3.00",
        "JPY": "500",
    }
    assert told["totals"]["JPY"]["hands"] == "0"


@pytest.mark.parametrize(
    ("included", "without", "cost_of_all"),
    [(True, False, "11.90"), (True, True, "10.00"), (False, False, "14.16"), (False, True, "11.90")],
)
def test_tax_is_in_or_out_as_the_maker_keeps_it(included, without, cost_of_all):
    """11.90 with 19 % in it is 10.00 without; 19 % on top of 11.90 is 14.161."""
    tax = {"tax": {"percent": "19", "included": included}}
    told = costed(received("a", "i0", 600_000, "11.90", **tax), settings={**SETTINGS, "without_tax": without})

    assert told["totals"]["EUR"]["materials"] == cost_of_all


def test_what_has_no_price_is_listed_and_not_guessed():
    told = costed(received("a", "i0", 600_000))

    assert told["unpriced"] == [
        {"lot": "a", "names": ["Ingredient 0"], "mg": 600_000},
        {"lot": None, "names": ["Ingredient 1"], "mg": 400_000},
    ]
    assert told["totals"]["EUR"]["materials"] == "0.00"


def test_loss_and_spoil_are_the_materials_share_of_the_mass_balance():
    told = costed(
        received("a", "i0", 600_000, "6.00"), received("b", "i1", 400_000, "4.00"), good=7, spoiled=2
    )

    assert (told["totals"]["EUR"]["spoiled"], told["totals"]["EUR"]["lost"]) == ("2.00", "1.00")
    assert told["totals"]["EUR"]["per_piece"] == "4.07"  # 28.49 over seven good pieces


def test_of_no_good_piece_there_is_no_cost_for_each():
    assert costed(good=0, spoiled=10)["totals"]["EUR"]["per_piece"] is None


amounts = st.decimals("0", "999999", places=2).map(str)


@given(amounts, st.integers(1, 10**9), st.integers(0, 10**9))
def test_a_row_is_what_decimal_reckons(amount, received_mg, used):
    told = costed(received("a", "i0", received_mg, amount), weighed=(used, 0))

    exact = Fraction(amount) * used / received_mg
    row = Fraction(told["materials"][0]["cost"])
    assert abs(row - exact) <= Fraction(1, 20_000)
    total = told["totals"]["EUR"]
    assert Decimal(total["total"]) == sum(Decimal(total[part]) for part in PARTS)


@given(st.fractions(-(10**6), 10**6), st.integers(0, 4))
def test_money_is_rounded_half_to_even_as_the_standard_library_does(value, places):
    exact = Fraction(value)
    rounded = Fraction(round(exact * 10**places), 10**places)

    assert Fraction(money_text(exact, places)) == rounded
    halves = Decimal(int(exact * 1000)) / Decimal(1000)
    wanted = halves.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)
    assert Decimal(money_text(Fraction(halves), places)) == wanted


@pytest.mark.parametrize("written", ["1,50", "1 000", "-1", "1e3", "", "12.", ".5", "1.1234567", "NaN", 12])
def test_an_amount_that_is_no_plain_decimal_is_refused(written):
    with pytest.raises(SettingError, match="12.50"):
        read_money(written, "hourly_rate")


def test_every_currency_in_use_is_known():
    """ISO 4217 as pycountry carries it; XAD came in 2024 and Babel does not have it yet."""
    assert {each.alpha_3 for each in pycountry.currencies if not is_currency(each.alpha_3)} <= {"XAD"}
    assert [places_of(code) for code in ("EUR", "JPY", "BHD")] == [2, 0, 3]


def test_a_price_in_no_currency_is_refused():
    with pytest.raises(EntryError) as refused:
        check_shelf_entry(received("a", "i0", 1, "1.00", "QQQ"))

    assert refused.value.where == "body.price.currency"


def test_no_number_in_a_cost_is_a_float():
    def refuse(written):
        raise AssertionError(written)

    told = costed(received("a", "i0", 700_001, "4.49"), worked=12_345_678, spoiled=1)
    assert json.loads(json.dumps(told), parse_float=refuse) == told


# Each thing once, and a price

PARTS = ("materials", "sprays", "hands", "cleaning", "labelling", "wrap", "packaging", "overhead")


def counted_lot(lot, ingredient, count, amount):
    return entry(
        "received",
        MORNING,
        lot=lot,
        ingredient=ingredient,
        number=lot.upper(),
        count=count,
        received_on="2026-01-31",
        price={"amount": amount, "currency": "EUR"},
    )


def wrapped(settings=SETTINGS, kept=0, wrap_price="16.00"):
    """Ten bars out of materials for 7.50, an hour of hands, and 10 of 100 wrappers that cost 16.00."""
    lots = [received("a", "i0", 1_000_000, "4.50"), received("b", "i1", 500_000, "6.00")]
    wrap = counted_lot("w", "wrappers", 100, wrap_price)
    entries = [
        *(entry("gathered", ingredient=each["body"]["ingredient"], lot=each["body"]["lot"]) for each in lots),
        entry("gathered", ingredient="wrap", lot="w", count=10),
        entry("weighed", line="mix.1.l0", mg=600_000),
        entry("weighed", line="mix.1.l1", mg=400_000),
        entry("counted", MORNING + 1, step="mix.1.press", good=10),
        entry("kept", MORNING + 2, pieces=kept),
        entry("worked", MORNING + 2, ms=HOUR),
    ]
    shelf = fold_shelf([*lots, wrap])
    return cost(record(SHEET, fold(SHEET, entries), entries), SHEET, shelf, settings, PLACES)


def test_a_batch_whose_wrapping_was_skipped_has_no_wrap_without_a_price():
    sheet = next(
        made for made in map(demo_sheet, DEMO_RECIPES) if any(is_wrap(each) for each in made["steps"])
    )
    skips = [
        entry("skipped", MORNING + 1, step=each["id"], why="sold bare")
        for each in sheet["steps"]
        if is_wrap(each)
    ]
    for entries, bare in (([], True), (skips, False)):
        told = cost_basis(record(sheet, fold(sheet, entries), entries), sheet)
        assert ("wrap" in told["bare"]) is bare


def is_wrap(step):
    return step["does"] == "wrap"


def test_wrap_is_counted_once_by_its_lot_where_one_was_gathered():
    """Each wrapper was 0.16, so ten are 1.60; the 0.16 a piece of the settings was added to that: 29.10, not 27.50."""
    told = wrapped({**SETTINGS, "wrap_cost": "0.16"})["totals"]["EUR"]

    assert (told["materials"], told["wrap"], told["total"]) == ("7.50", "1.60", "27.10")
    assert (
        costed(
            received("a", "i0", 1_000_000, "4.50"),
            received("b", "i1", 500_000, "6.00"),
            settings={**SETTINGS, "wrap_cost": "0.16"},
        )["totals"]["EUR"]["total"]
        == "27.10"
    )


def test_wrap_of_no_lot_and_with_no_price_is_named_and_not_taken_for_free():
    done = {**SHEET["steps"][-1], "id": "mix.1.wrap", "does": "wrap"}
    sheet = {**SHEET, "steps": [*SHEET["steps"], done]}
    entries = [entry("weighed", line="mix.1.l0", mg=600_000), entry("counted", step="mix.1.press", good=10)]
    told = record(sheet, fold(sheet, entries), entries)

    def unpriced(**settings):
        found = cost(told, sheet, fold_shelf([]), {"currency": "EUR", **settings}, PLACES)["unpriced"]
        return [each["names"] for each in found if each["mg"] == 0]

    assert unpriced() == [["wrap"]]
    assert unpriced(wrap_cost="0.07") == []
    assert cost(told, SHEET, fold_shelf([]), {"currency": "EUR"}, PLACES)["unpriced"][-1]["names"] != ["wrap"]


def test_all_else_that_a_batch_costs_is_in_a_part_of_its_own():
    told = wrapped(
        {
            **SETTINGS,
            "packaging_cost": "0.30",
            "sprays_cost": "0.12",
            "overhead_cost": "2.00",
            "cleaning_minutes": 20,
            "labelling_seconds": 36,
        }
    )["totals"]["EUR"]

    assert {part: told[part] for part in PARTS} == {
        "materials": "7.50",
        "sprays": "0.12",
        "hands": "18.00",
        "cleaning": "6.00",  # a third of an hour at 18.00
        "labelling": "1.80",  # 360 s of it
        "wrap": "1.60",
        "packaging": "3.00",
        "overhead": "2.00",
    }
    assert (told["total"], told["per_piece"]) == ("40.02", "4.00")


def test_delivery_is_shared_by_what_was_used_of_the_lot():
    told = costed(
        received("a", "i0", 1_200_000, "4.00", tax={"percent": "20", "included": False}),
        received("b", "i1", 400_000, "1.00"),
    )
    shipped = received("a", "i0", 1_200_000, "4.00", tax={"percent": "20", "included": False})
    shipped["body"]["price"]["delivery"] = "2.00"
    with_delivery = costed(check_shelf_entry(shipped), received("b", "i1", 400_000, "1.00"))

    assert told["materials"][0]["cost"] == "2.4000"
    assert with_delivery["materials"][0]["cost"] == "3.6000"  # half of 6.00 and 20 %


def test_pieces_kept_back_are_paid_by_those_that_are_sold():
    told = wrapped(kept=2)["totals"]["EUR"]

    assert (told["total"], told["kept"], told["per_piece"]) == ("27.10", "5.42", "3.39")


def test_what_goes_in_unweighed_is_named_until_a_batch_has_a_sum_for_it():
    recipe = make_recipe("600 g", "to texture")
    sheet = sheet_of(recipe)
    entries = [entry("weighed", line="mix.1.l0", mg=600_000), entry("weighed", line="mix.1.l1")]
    told = record(sheet, fold(sheet, entries), entries)

    def unpriced(settings):
        found = cost(told, sheet, fold_shelf([]), settings, PLACES)["unpriced"]
        return [(each["names"], each["mg"]) for each in found]

    assert unpriced(SETTINGS) == [(["Ingredient 0"], 600_000), (["Ingredient 1"], 0)]
    assert unpriced({**SETTINGS, "sprays_cost": "0.12"}) == [(["Ingredient 0"], 600_000)]


percents = st.decimals("0", "60", places=1).map(str)


@given(amounts, percents, percents, st.decimals("0", "2", places=2).map(str), percents, st.integers(0, 3))
def test_a_price_pays_tax_fees_and_cost_and_leaves_the_margin(each, margin, fee, fee_each, tax, places):
    asked = {"margin_percent": margin, "fee_percent": fee, "fee_each": fee_each, "tax_percent": tax}
    told = sale_price(Fraction(each), {"currency": "EUR", **asked}, places)

    stays = (1 - Fraction(margin) / 100) / (1 + Fraction(tax) / 100) - Fraction(fee) / 100
    assert (told is None) == (stays <= 0)
    if told is None:
        return
    price, taken = (
        Fraction(told["price"]),
        {key: Fraction(told[key]) for key in ("tax", "fees", "cost", "margin")},
    )
    assert price == sum(taken.values())
    unit = Fraction(1, 10**places)
    net = price / (1 + Fraction(tax) / 100)
    assert taken["margin"] >= net * Fraction(margin) / 100 - 2 * unit
    less = price - unit
    assert less / (1 + Fraction(tax) / 100) * (1 - Fraction(margin) / 100) - less * Fraction(fee) / 100 < (
        Fraction(each) + Fraction(fee_each)
    )


def test_no_price_is_reckoned_unasked_nor_where_fees_and_margin_take_it_all():
    assert sale_price(Fraction(2), {"currency": "EUR"}, 2) is None
    assert (
        sale_price(Fraction(2), {"currency": "EUR", "margin_percent": "80", "fee_percent": "20"}, 2) is None
    )
    # 2.62 a piece, 40 % of the price without 19 % tax, 3 % and 0.25 to whoever takes the money
    asked = {"margin_percent": "40", "fee_percent": "3", "fee_each": "0.25", "tax_percent": "19"}
    assert sale_price(Fraction("2.62"), {"currency": "EUR", **asked}, 2) == {
        "price": "6.06",
        "tax": "0.97",
        "fees": "0.43",
        "cost": "2.62",
        "margin": "2.04",
    }


@given(
    st.fixed_dictionaries({}, optional={
        "packaging_cost": amounts, "sprays_cost": amounts, "overhead_cost": amounts, "wrap_cost": amounts,
        "cleaning_minutes": st.integers(0, 600), "labelling_seconds": st.integers(0, 600),
    }),
    st.integers(0, 10),
    amounts,
)  # fmt: skip
def test_the_parts_are_the_total_and_nothing_is_in_two_of_them(said, kept, wrap_price):
    told = wrapped({"currency": "EUR", "hourly_rate": "18.00", **said}, kept, wrap_price)
    totals = told["totals"]["EUR"]

    assert Decimal(totals["total"]) == sum(Decimal(totals[part]) for part in PARTS)
    rows = sum(Fraction(row["cost"]) for row in told["materials"])
    assert abs(Fraction(totals["materials"]) + Fraction(totals["wrap"]) - rows) <= Fraction(1, 100)
    for kind, total in ((False, "materials"), (True, "wrap")):
        of_kind = [row for row in told["materials"] if row["wrap"] == kind]
        assert not of_kind or Decimal(totals[total]) == sum(Decimal(row["read"]) for row in of_kind)


@given(st.lists(st.fractions(0, 1000, max_denominator=30_000), max_size=12), st.sampled_from([0, 2, 3]))
def test_what_is_read_of_each_row_adds_up_to_what_is_read_of_the_sum(values, places):
    read = [Fraction(each) for each in sharing(values, places)]

    assert sum(read, Fraction(0)) == Fraction(money_text(sum(values, Fraction(0)), places))
    assert all(
        abs(shown - value) < Fraction(1, 10**places) for shown, value in zip(read, values, strict=True)
    )


def test_five_rows_that_would_each_be_rounded_up_are_not():
    """By hand: 6.3460, 0.0462, 0.3264, 1.3175 and 4.2588 are 12.2949; each rounded, they would be 12.31."""
    rows = [Fraction(each) for each in ("6.3460", "0.0462", "0.3264", "1.3175", "4.2588")]
    assert sharing(rows, 2) == ["6.34", "0.04", "0.33", "1.32", "4.26"]
