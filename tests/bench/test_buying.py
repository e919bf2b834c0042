"""What to buy: needs less what is free, whole packs, by when to order; and when to order again, from own use."""

from __future__ import annotations

from itertools import combinations
from statistics import stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import DEMO_RECIPES, MORNING, demo_sheet, entry

from bench import EntryError, SettingError, check_shelf_entry, fold, fold_shelf
from bench.book import Book
from bench.buying import by_hand_of, check_buying, needs_of, to_buy, ungathered
from bench.purchases import fold_purchases
from bench.reorder import WEEK_MS, Used, point, reorder_points, weekly, weeks_of

KG = 1_000_000
TODAY = "2026-12-01"
SUPPLY = {"supplier": "Hillside", "pack": "1 kg", "lead_days": 5}
PAID = {"amount": "7.56", "currency": "EUR"}


def shelf_of(*lots, **supply):
    card = {"name": "Citric acid", **({"supply": supply} if supply else {})}
    told = [entry("described", MORNING, ingredient="citric", card=card)]
    for place, (mg, best_before) in enumerate(lots):
        more = {"price": PAID} | ({"best_before": best_before} if best_before else {})
        told.append(
            entry(
                "received",
                MORNING,
                lot=f"l{place}",
                ingredient="citric",
                number=str(place),
                mg=mg,
                received_on="2026-01-01",
                **more,
            )
        )
    return fold_shelf(told)


def need(on, mg):
    return {"card": "citric", "on": on, "mg": mg}


def test_what_lacks_is_bought_in_whole_packs_and_ordered_in_time():
    shelf = shelf_of((900_000, None), **SUPPLY)
    needs = [need("2026-12-20", KG), need("2026-12-12", 600_000)]

    [row] = to_buy(needs, shelf, {"l0": [{"mg": 200_000, "count": 0, "at": 2**53}]}, TODAY)

    # 700 g are free: all of 600 g on the 12th, 100 g of 1 kg on the 20th; 900 g lack, which is one pack of 1 kg.
    # The newest lot cost 7.56 for 900 g, which is 8.40 a pack.
    assert (row["wanted"], row["free"], row["lacking"]) == (1_600_000, 700_000, 900_000)
    assert (row["first_lacking_on"], row["order_by"], row["late"]) == ("2026-12-20", "2026-12-15", False)
    assert row["packs"] == {
        "count": 1,
        "each": KG,
        "supplier": "Hillside",
        "price": "8.40",
        "currency": "EUR",
    }
    [late] = to_buy([need("2026-12-04", 3 * KG)], shelf, {}, TODAY)
    assert (late["order_by"], late["late"], late["packs"]["count"], late["packs"]["price"]) == (
        "2026-11-29",
        True,
        3,
        "25.20",
    )


def test_what_goes_off_before_its_day_is_left_out_and_named():
    [row] = to_buy([need("2026-12-20", KG)], shelf_of((KG, "2026-12-19"), (400_000, "2026-12-20")), {}, TODAY)

    unusable = [each["lot"] for each in row["unusable"]]
    assert (row["free"], row["lacking"], unusable, row["packs"]) == (400_000, 600_000, ["l0"], None)


def test_what_is_on_order_counts_from_its_day_until_it_arrives():
    shelf = shelf_of((100_000, None), **SUPPLY)
    order = entry("ordered", MORNING, ingredient="citric", mg=KG, due="2026-12-10", supplier="Hillside")
    needs = [need("2026-12-05", 300_000), need("2026-12-12", 500_000)]

    def rows(*told):
        [row] = to_buy(needs, shelf, {}, TODAY, fold_purchases(told, shelf))
        return row["on_order"], row["comes_late"], row["lacking"], row["first_lacking_on"]

    # It comes too late for 200 g of the 5th, which are not bought twice, and is enough for the 12th.
    assert rows(order) == (500_000, 200_000, 0, None)
    assert rows() == (0, 0, 700_000, "2026-12-05")
    assert rows(order, entry("arrived", MORNING + 1, order=order["id"])) == rows()
    assert rows(order, entry("undone", MORNING + 1, entry=order["id"])) == rows()
    told = fold_purchases([order], shelf)
    own = shelf_of((100_000, None), **SUPPLY, reorder_at="500 g")
    assert [each["due"] for each in reorder_points([], own, {}, MORNING)] == [True]
    assert [each["due"] for each in reorder_points([], own, {}, MORNING, told)] == [False]


def test_the_newest_price_counts_whether_it_was_paid_or_noted():
    shelf = shelf_of((900_000, None), **SUPPLY)  # received on 2026-01-01 for 7.56, which is 8.40 a kg
    noted = entry(
        "quoted",
        MORNING,
        on="2026-11-30",
        ingredient="citric",
        mg=5 * KG,
        price={"amount": "30", "currency": "EUR"},
    )

    [row] = to_buy([need("2026-12-20", 2 * KG)], shelf, {}, TODAY, fold_purchases([noted], shelf))

    assert (row["packs"]["count"], row["packs"]["price"]) == (2, "12.00")  # 6.00 a kg
    with pytest.raises(EntryError, match=r"."):
        check_shelf_entry(entry("quoted", MORNING, ingredient="citric", price=PAID))


DAYS = st.integers(1, 9).map(lambda day: f"2026-12-0{day}")


@given(
    st.lists(st.tuples(DAYS, st.integers(1, 9)), min_size=1, max_size=5),
    st.lists(st.tuples(st.integers(1, 9), st.none() | DAYS), max_size=5),
)
def test_no_other_way_of_taking_from_the_lots_leaves_less_to_buy(needs, lots):
    """Against the least cut of needs and lots, tried over every set of needs: the most that any way can serve
    (Ford and Fulkerson: the greatest flow is the least cut)."""
    [row] = to_buy([need(*each) for each in needs], shelf_of(*lots), {}, TODAY)

    cuts = []
    for many in range(len(needs) + 1):
        for chosen in combinations(range(len(needs)), many):
            beyond = sum(mg for place, (_, mg) in enumerate(needs) if place not in chosen)
            latest = min((needs[place][0] for place in chosen), default="99999")
            cuts.append(beyond + sum(mg for mg, until in lots if (until or "9999") >= latest))
    assert row["free"] == min(cuts)
    assert row["lacking"] == sum(mg for _, mg in needs) - row["free"]


def test_a_sheet_says_its_needs_and_what_no_card_answers_to():
    sheet = demo_sheet(DEMO_RECIPES[0])
    first = sheet["ingredients"][0]
    shelf = fold_shelf([entry("described", MORNING, ingredient="one", card={"name": first["name"].upper()})])

    needs, unjoined = needs_of(sheet, TODAY, Book(shelf))

    assert needs == [{"card": "one", "on": TODAY, "mg": first["mg"], "what": sheet["recipe"]["title"]}]
    assert first["name"] not in {each["name"] for each in unjoined}
    assert unjoined


def test_what_goes_in_as_needed_or_by_the_spoon_is_named_once_with_what_wants_it():
    """By eye on the demo's pages: the bars' mist of alcohol is "to texture"; the scrub's petals have no density."""
    bars, scrub = (
        demo_sheet(f"recipes/{name}.json") for name in ("two-layer-soap-bars", "salt-and-oil-scrub")
    )
    told = {each["name"]: each["recipes"] for each in by_hand_of([bars, scrub, bars])}

    assert told["Isopropyl alcohol, 70 % by volume"] == [bars["recipe"]["title"]]
    weighed = {each["name"] for sheet in (bars, scrub) for each in sheet["ingredients"] if each["mg"]}
    assert not weighed & set(told)


@pytest.mark.parametrize(
    "name", ["Citric acid anhydrous", "citric acid (anhydrous)", "Citric-acid, anhydrous."]
)
def test_a_comma_makes_no_other_ingredient(name):
    card = entry("described", MORNING, ingredient="acid", card={"name": "Citric acid, anhydrous"})
    assert Book(fold_shelf([card])).card_for(name) == "acid"
    assert Book(fold_shelf([card])).card_for("Citric acid") is None


def test_wrap_is_bought_as_it_is_laid_out_one_a_piece_until_a_batch_has_its_own():
    sheet = demo_sheet(DEMO_RECIPES[0])
    last = sheet["steps"][-1]["id"]
    steps = [{**each, "does": "wrap" if each["id"] == last else "mix"} for each in sheet["steps"]]
    sheet = {**sheet, "steps": steps}
    bands = {"name": "Bands", "answers_to": ["wrap"]}
    book = Book(fold_shelf([entry("described", MORNING, ingredient="bands", card=bands)]))

    def wanted(*entries):
        needs, _ = needs_of(ungathered(sheet, fold(sheet, entries)), TODAY, book)
        return [(each["card"], each["count"]) for each in needs]

    assert wanted() == [("bands", sheet["size"]["pieces"])]
    assert wanted(entry("gathered", MORNING, ingredient="wrap", lot="l0", count=3)) == []
    assert wanted(entry("skipped", MORNING, step=last)) == []
    assert needs_of({**sheet, "steps": sheet["steps"][:-1]}, TODAY, book)[0] == []


def test_an_open_batch_wants_what_it_has_not_gathered():
    sheet = demo_sheet(DEMO_RECIPES[0])
    first, *others = [each["id"] for each in sheet["ingredients"] if each["mg"]]
    begun = fold(sheet, [entry("gathered", MORNING, ingredient=first, lot="l0")])

    rest = ungathered(sheet, begun)

    assert first not in {each["id"] for each in rest["ingredients"]}
    assert {each["id"] for each in rest["ingredients"] if each["mg"]} == set(others)


@pytest.mark.parametrize(
    ("supply", "where"),
    [
        ({"pack": "some"}, "pack"),
        ({"reorder_at": "1.000 g"}, "reorder_at"),
        ({"lead_days": 400}, "lead_days"),
    ],
)
def test_a_card_that_is_bought_as_nobody_can_read_is_refused(supply, where):
    with pytest.raises(EntryError) as refused:
        check_shelf_entry(entry("described", MORNING, ingredient="a", card={"name": "A", "supply": supply}))

    assert refused.value.where == f"body.card.supply.{where}"


def test_a_want_on_no_day_is_refused():
    with pytest.raises(SettingError) as refused:
        check_buying({"today": TODAY, "wants": [{"recipe": "r", "pieces": 4, "on": "soon"}]})

    assert refused.value.where == "wants.0.on"


# ---- when to order again


def test_the_reorder_point_is_that_of_a_textbook():
    """A carpet shop sells 30 yards a day, with a standard deviation of 5; an order takes 10 days, and z is 1.65: reorder
    at 326.1 yards (the worked example of a textbook of operations management, "Reorder point with variable demand").
    A textbook's day is a week here, and a yard 1000."""
    assert round(point(30_000, 5_000, 7 * 10, 1650) / 1000, 1) == 326.1


@given(st.lists(st.integers(0, 10**7), min_size=2, max_size=26))
def test_mean_and_spread_are_those_of_the_standard_library(weeks):
    found = weekly(weeks)

    assert abs(found.mean - sum(weeks) / len(weeks)) <= 0.5
    assert found.spread <= stdev(weeks) < found.spread + 1


NOW = MORNING + 40 * WEEK_MS


def used(*weeks_ago):
    return [Used("citric", NOW - weeks * WEEK_MS - 1, 500_000, 0) for weeks in weeks_ago]


def test_use_is_counted_by_whole_weeks_back_from_now():
    assert weeks_of(used(0, 0, 2), "mg", NOW) == [KG, 0, 500_000]
    assert len(weeks_of(used(0, 39), "mg", NOW)) == 26
    assert weeks_of([], "mg", NOW) == []


def test_three_batches_claim_nothing_five_do_and_the_makers_figure_overrules():
    shelf = shelf_of((KG, None), **SUPPLY)

    [few] = reorder_points(used(0, 2, 5), shelf, {}, NOW)
    assert (few["by"], few["at"], few["a_week"], few["batches"], few["due"]) == (
        "unknown",
        None,
        None,
        3,
        False,
    )

    [enough] = reorder_points(used(0, 1, 2, 3, 4), shelf, {}, NOW)
    assert (enough["by"], enough["batches"], enough["weeks"]) == ("use", 5, 5)
    assert (enough["a_week"], enough["spread"]) == (500_000, 0)
    assert enough["at"] == -(-500_000 * 5 // 7)  # five days' use, and no spread

    [own] = reorder_points(used(0, 1, 2, 3, 4), shelf_of((KG, None), **SUPPLY, reorder_at="1.5 kg"), {}, NOW)
    assert (own["by"], own["at"], own["due"], own["packs"]["count"]) == ("maker", 1_500_000, True, 1)
