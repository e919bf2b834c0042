"""How much to make of what in which period, against answers that others have printed."""

from __future__ import annotations

from decimal import Decimal

import pytest

from bench.week.lot_sizing import cheapest
from tests.week.lot_sizes import MILLI, SINGLES, problem_of, recursion

# Those of several items and a capacity are a figure: `python -m tests.perf "published lot-sizing"`.


@pytest.mark.parametrize("single", SINGLES, ids=[each.name for each in SINGLES])
def test_the_least_price_is_the_printed_one(single):
    found = cheapest(problem_of(single), 10)

    assert found.proven
    assert Decimal(found.value or 0) / MILLI == Decimal(single.least)
    if single.room is None and single.most is None:
        assert recursion(single) == Decimal(single.least)


def test_what_cannot_be_met_is_no_answer():
    problem = problem_of(SINGLES[0])
    problem["limits"] = [{"of": "hands", "first": 0, "last": 0, "most": 10}]
    problem["items"][0]["each"] = {"hands": 1}

    with pytest.raises(ValueError, match="meet all"):
        cheapest(problem, 5)
    problem["items"][0]["short"] = 1_000_000
    assert cheapest(problem, 5).least >= 59 * 1_000_000
