"""What a batch will cost: by hand to the coin, and the same as afterwards where it is made just so."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from workshop import HOUR, MORNING, entry, make_recipe, sheet_of

from bench import cost, cost_ahead, fold, fold_purchases, fold_shelf, record

SHEET = sheet_of(make_recipe("600 g", "400 g"))
PLACES = {"EUR": 2}
TODAY = "2026-12-01"
SETTINGS = {"currency": "EUR", "hourly_rate": "18.00", "wrap_cost": "0.07"}


def described(ingredient):
    return entry("described", MORNING, ingredient=ingredient, card={"name": SHEET_NAMES[ingredient]})


SHEET_NAMES = {each["id"]: each["name"] for each in SHEET["ingredients"]}


def lot(key, ingredient, mg, amount, best="2027-12-31", **more):
    price = {"amount": amount, "currency": "EUR", **more}
    body = {"lot": key, "ingredient": ingredient, "number": key.upper(), "mg": mg, "price": price}
    return entry("received", MORNING, received_on="2026-01-31", best_before=best, **body)


def ahead(entries, uses=None, settings=SETTINGS):
    shelf = fold_shelf(entries)
    told = fold_purchases(entries, shelf)
    return cost_ahead(SHEET, shelf, uses or {}, told, TODAY, settings, PLACES)


def test_a_batch_is_reckoned_by_hand_to_the_coin():
    """By hand: 600 g of i0, 500 g of them at 9.00 a kg (the lot that goes off first) and 100 g at 5.00 for 500 g,
    with a fifth of tax added: 4.50 + 1.00 x 1.2 = 5.70. Of i1 the shelf has 100 g at 12.00 a kg = 1.20, and 300 g are
    to be bought at the noted 2.50 for 250 g = 3.00. Material 9.90; wrap 10 x 0.07 = 0.70; the recipe says no hands."""
    told = ahead(
        [
            *map(described, SHEET_NAMES),
            lot("late", "i0", 500_000, "5.00", "2028-01-31", tax={"percent": "20", "included": False}),
            lot("soon", "i0", 1_000_000, "9.00", "2027-01-31"),
            lot("off", "i0", 1_000_000, "1.00", "2026-11-30"),
            lot("some", "i1", 1_000_000, "12.00"),
            entry(
                "quoted",
                MORNING,
                ingredient="i1",
                mg=250_000,
                on="2026-11-01",
                price={"amount": "2.50", "currency": "EUR"},
            ),
        ],
        {
            "soon": [{"mg": 500_000, "count": 0, "at": 2**52}],
            "some": [{"mg": 900_000, "count": 0, "at": 2**52}],
        },
    )

    total = told["totals"]["EUR"]
    assert [(row["lot"], row["mg"], row["cost"]) for row in told["materials"]] == [
        ("soon", 500_000, "4.5000"),
        ("late", 100_000, "1.2000"),
        ("some", 100_000, "1.2000"),
        ("", 300_000, "3.0000"),
    ]
    assert (total["materials"], total["wrap"], total["total"]) == ("9.90", "0.70", "10.60")
    assert total["per_piece"] == "1.06"


def test_what_nobody_can_price_is_named():
    told = ahead([described("i0"), lot("a", "i0", 100_000, "1.00")])

    # 500 g of i0 lack: they cost what the newest lot did. i1 has no card.
    assert told["totals"]["EUR"]["materials"] == "6.00"
    assert told["unpriced"] == [{"lot": None, "names": [SHEET_NAMES["i1"]], "mg": 0}]


AMOUNTS = st.integers(1, 99_999).map(lambda cents: f"{cents // 100}.{cents % 100:02d}")


@given(
    st.lists(st.tuples(st.integers(1, 900_000), AMOUNTS), min_size=1, max_size=4),
    st.lists(st.tuples(st.integers(1, 900_000), AMOUNTS), min_size=1, max_size=4),
)
def test_made_just_so_a_batch_costs_afterwards_what_was_said_before(one, other):
    """The lots are taken by hand, the one that goes off first first, and each line is weighed to its target."""
    entries = list(map(described, SHEET_NAMES))
    made = []
    for ingredient, lots in (("i0", [*one, (700_000, "7.00")]), ("i1", [*other, (700_000, "7.00")])):
        entries += [
            lot(f"{ingredient}-{place}", ingredient, mg, amount, f"2027-01-{place + 10}")
            for place, (mg, amount) in enumerate(lots)
        ]
        wants = next(each["mg"] for each in SHEET["ingredients"] if each["id"] == ingredient)
        for place, (mg, _) in enumerate(lots):
            take = min(wants, mg)
            wants -= take
            if take:
                made.append(entry("gathered", ingredient=ingredient, lot=f"{ingredient}-{place}", mg=take))
    shelf = fold_shelf(entries)
    before = ahead(entries)
    made += [
        entry("weighed", MORNING + 1, line=line["id"], mg=line["mg"]) for line in SHEET["lines"] if line["mg"]
    ]
    made += [entry("counted", MORNING + 2, step="mix.1.press", good=10), entry("worked", MORNING + 3, ms=0)]

    after = cost(record(SHEET, fold(SHEET, made), made), SHEET, shelf, SETTINGS, PLACES)

    assert after["totals"]["EUR"]["total"] == before["totals"]["EUR"]["total"]
    rows = sum((Fraction(row["cost"]) for row in before["materials"]), Fraction(0))
    assert abs(Fraction(before["totals"]["EUR"]["materials"]) - rows) <= Fraction(1, 200)


def test_hands_are_paid_by_the_recipe_s_own_minutes():
    timed = {**SHEET, "steps": [{**SHEET["steps"][0], "hands_ms": HOUR // 2}]}

    told = cost_ahead(timed, fold_shelf([]), {}, {"orders": [], "quotes": {}}, TODAY, SETTINGS, PLACES)

    assert (told["hands_ms"], told["totals"]["EUR"]["hands"]) == (HOUR // 2, "9.00")


WRAPPED = {
    **SHEET,
    "steps": [*SHEET["steps"], {**SHEET["steps"][-1], "id": "mix.1.wrap", "does": "wrap"}],
}


def wrapping(sheet, *entries, settings=SETTINGS):
    shelf = fold_shelf([*map(described, SHEET_NAMES), *entries])
    told = fold_purchases(list(entries), shelf)
    return cost_ahead(sheet, shelf, {}, told, TODAY, settings, PLACES)


BANDS = entry("described", MORNING, ingredient="bands", card={"name": "Bands", "answers_to": ["wrap"]})
TEN_FOR_TWO = {"amount": "2.00", "currency": "EUR"}


def roll(count, price=TEN_FOR_TWO):
    body = {"lot": "roll", "ingredient": "bands", "number": "R-1", "count": count, "price": price}
    return entry("received", MORNING, received_on="2026-01-31", **body)


def test_wrap_is_paid_of_its_lot_before_as_it_is_after():
    """By hand: 10 pieces, 10 bands at 2.00 for 20: 1.00, and no 0.07 a piece beside it."""
    before = wrapping(WRAPPED, BANDS, roll(20))
    plain = wrapping(SHEET, BANDS, roll(20))

    assert [(row["wrap"], row["count"], row["cost"]) for row in before["materials"]] == [(True, 10, "1.0000")]
    assert (before["totals"]["EUR"]["wrap"], plain["totals"]["EUR"]["wrap"]) == ("1.00", "0.70")

    shelf = fold_shelf([*map(described, SHEET_NAMES), BANDS, roll(20)])
    made = [
        entry("gathered", ingredient="wrap", lot="roll", count=10),
        entry("counted", MORNING + 2, step="mix.1.press", good=10),
    ]
    after = cost(record(SHEET, fold(SHEET, made), made), WRAPPED, shelf, SETTINGS, PLACES)
    assert after["totals"]["EUR"]["wrap"] == before["totals"]["EUR"]["wrap"]


def test_what_the_sum_leaves_out_is_named_wrap_and_sprays_too():
    """What goes in unweighed, and wrap of which nobody said a price; each is quiet where it is paid for."""
    first = SHEET["ingredients"][0]
    sprayed = {**WRAPPED, "ingredients": [{**first, "mg": 0, "name": "Witch hazel"}]}
    bare = {"currency": "EUR"}

    left_out = [each["names"] for each in wrapping(sprayed, settings=bare)["unpriced"]]
    paid = wrapping(sprayed, settings={**SETTINGS, "sprays_cost": "0.50"})

    assert left_out == [["Witch hazel"], ["wrap"]]
    assert paid["unpriced"] == []
    assert (paid["totals"]["EUR"]["sprays"], paid["totals"]["EUR"]["wrap"]) == ("0.50", "0.70")
    assert wrapping(SHEET, settings=bare)["totals"]["EUR"]["wrap"] == "0.00"
