"""Money: exact, in text, never added over currencies, never a float."""

from __future__ import annotations

import json
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import pycountry
import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import HOUR, MORNING, entry, make_recipe, sheet_of

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
    return cost(record(SHEET, fold(SHEET, entries), entries), shelf, settings, PLACES)


def test_a_batch_costs_what_was_used_of_each_lot_the_hands_and_the_wrap():
    told = costed(received("a", "i0", 1_000_000, "4.50"), received("b", "i1", 500_000, "6.00"))

    assert [row["cost"] for row in told["materials"]] == ["2.7000", "4.8000"]
    assert told["totals"] == {
        "EUR": {
            "materials": "7.50",
            "hands": "18.00",
            "wrap": "0.70",
            "total": "26.20",
            "lost": "0.00",
            "spoiled": "0.00",
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
    assert Decimal(total["total"]) == sum(Decimal(total[part]) for part in ("materials", "hands", "wrap"))


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
