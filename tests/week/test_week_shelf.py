"""What of the shelf holds a week up: only what there may be too little of, and an order that comes in time does not."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bench.week import OnCard, faults, plan_week, with_helps, with_lots
from tests.week.test_weeks import bars, evenings, want
from tests.week.weeks import DAY, MONDAY, week_of

Json = dict[str, Any]
CARDS = {"bars": {"salt": "sea-salt", "salt_2": "sea-salt"}}


def week(pieces: int = 12, days: int = 3) -> Json:
    """Six bars a batch of 500 mg of one salt and 100 mg of another that is on the same card."""
    takes = {"salt": 500, "salt_2": 100, "water": 9}
    return week_of([bars(takes=takes)], [want(pieces, MONDAY + days * DAY)], [evenings(days)])


def on_card(*lots: tuple[str, int, int | None], comes: int | None) -> dict[str, OnCard]:
    return {"sea-salt": OnCard(list(lots), comes)}


def test_two_ingredients_of_one_card_are_one_and_what_has_no_card_is_not_counted() -> None:
    found = with_lots(week(), CARDS, on_card(("old", 600, None), comes=MONDAY + DAY))

    assert [size["takes"] for make in found["makes"] for size in make["sizes"]] == [{"sea-salt": 600}]
    assert [(lot["id"], lot["since"]) for lot in found["lots"]] == [
        ("old", MONDAY),
        ("order.sea-salt", MONDAY + DAY),
    ]


def test_a_batch_waits_for_the_order_and_the_first_is_made_of_what_is_there() -> None:
    plan = plan_week(with_lots(week(), CARDS, on_card(("old", 600, None), comes=MONDAY + DAY)))

    took = [(batch["takes"], batch["sittings"][0]["starts_at"]) for batch in plan["batches"]]
    assert plan["short"] == []
    assert sorted(tuple(takes) for takes, _ in took) == [("old",), ("order.sea-salt",)]
    assert all(at >= MONDAY + DAY for takes, at in took if "order.sea-salt" in takes)


def test_an_order_that_comes_too_late_is_said_and_more_of_it_would_help() -> None:
    late = with_lots(week(), CARDS, on_card(("old", 600, None), comes=MONDAY + 9 * DAY))

    plan = with_helps(late, plan_week(late))

    assert plan["short"] == [{"want": "market", "short": 6}]
    assert [(each["what"], each["ingredient"], each["short"]) for each in plan["helps"][:1]] == [
        ("lot", "sea-salt", 0)
    ]


@pytest.mark.parametrize(
    ("lots", "comes"),
    [
        ([("much", 10_000, None)], MONDAY + 9 * DAY),  # enough for all of it
        ([("little", 1, None)], None),  # nobody knows when more would be here
        ([], None),
    ],
)
def test_what_holds_nothing_up_is_left_out(lots: list[Any], comes: int | None) -> None:
    assert with_lots(week(), CARDS, on_card(*lots, comes=comes))["lots"] == []


@given(
    st.integers(1, 30),
    st.lists(st.tuples(st.integers(1, 2_000), st.none() | st.integers(-1, 4)), max_size=3),
    st.none() | st.integers(0, 4),
)
def test_a_plan_by_the_shelf_takes_no_more_than_there_is_and_nothing_before_it_is_there(
    pieces: int, lots: list[tuple[int, int | None]], comes: int | None
) -> None:
    there = [
        (f"lot-{place}", mg, None if until is None else MONDAY + until * DAY)
        for place, (mg, until) in enumerate(lots)
    ]
    found = with_lots(
        week(pieces), CARDS, on_card(*there, comes=None if comes is None else MONDAY + comes * DAY)
    )

    plan = plan_week(found, budget=0.0)

    assert faults(found, plan) == []
    if not found[
        "lots"
    ]:  # then it holds nothing up: the plan is the one of a full shelf, or nobody knows the lead
        assert comes is None or sum(mg for mg, until in lots if until is None or until >= 3) >= 600
