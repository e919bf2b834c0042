"""How much to make of what in which period, against answers that others have printed."""

from __future__ import annotations

from decimal import Decimal

import pytest

from bench.week.lot_sizing import cheapest
from tests.week.lot_sizes import MILLI, SINGLES, problem_of, recursion, several

SETS = several()[:1]  # the others are figures: `python -m tests.perf "lot sizing"`


@pytest.mark.parametrize("single", SINGLES, ids=[each.name for each in SINGLES])
def test_the_least_price_is_the_printed_one(single):
    found = cheapest(problem_of(single), 10)

    assert found.proven
    assert Decimal(found.value or 0) / MILLI == Decimal(single.least)
    if single.room is None and single.most is None:
        assert recursion(single) == Decimal(single.least)


@pytest.mark.skipif(not SETS, reason="BOWLSIDE_LOTSIZING names no folder with the published sets")
@pytest.mark.parametrize(("name", "problem", "least"), SETS)
def test_with_a_capacity_it_is_the_proven_one(name, problem, least):
    found = cheapest(problem, 60)

    assert (found.value, found.least) == (least, least)


def test_what_cannot_be_met_is_no_answer():
    problem = problem_of(SINGLES[0])
    problem["limits"] = [{"of": "hands", "first": 0, "last": 0, "most": 10}]
    problem["items"][0]["each"] = {"hands": 1}

    with pytest.raises(ValueError, match="meet all"):
        cheapest(problem, 5)
    problem["items"][0]["short"] = 1_000_000
    assert cheapest(problem, 5).least >= 59 * 1_000_000
