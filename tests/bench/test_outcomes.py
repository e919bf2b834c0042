"""What changed when a version changed: Welch's interval, held against scipy, and no claim on three batches."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from workshop import HOUR, MORNING, entry, make_recipe, sheet_of

from bench import figures_of, fold, outcomes, record
from bench.outcomes import LEAST_BATCHES, difference, t_of

VALUES = st.lists(st.integers(0, 10**6), min_size=LEAST_BATCHES, max_size=40)


@pytest.fixture(scope="module")
def stats():
    """Two seconds to load: where it is wanted, and not in each process that collects the tests."""
    from scipy import stats

    return stats


@pytest.mark.parametrize("freedom", range(1, 400))
def test_t_is_what_scipy_has_or_that_of_fewer_degrees(stats, freedom):
    exact = stats.t.ppf(0.975, freedom) * 1000

    assert t_of(freedom) >= exact
    if freedom <= 30 or freedom in (40, 60, 120):
        assert t_of(freedom) == pytest.approx(exact, abs=1.5)


@given(before=VALUES, now=VALUES)
def test_the_interval_holds_that_of_scipy_and_is_hardly_wider(stats, before, now):
    assume(len({*before}) > 1 or len({*now}) > 1)

    told = difference("lost", before, now)

    outside = stats.ttest_ind(now, before, equal_var=False).confidence_interval(0.95)
    width = outside.high - outside.low
    assert told["low"] <= outside.low + 1e-6 * width
    assert told["high"] >= outside.high - 1e-6 * width
    # One degree of freedom fewer at most, and the gaps of the table: 3.182 for 2.776 is the widest step from four on.
    assert told["high"] - told["low"] <= 1.17 * width + 6
    assert (told["says"] == "more") == (told["low"] > 0)
    assert (told["says"] == "less") == (told["high"] < 0)


@given(st.lists(st.integers(0, 10**6), max_size=LEAST_BATCHES - 1), VALUES, st.booleans())
def test_on_three_batches_or_fewer_nothing_is_claimed(few, many, turned):
    told = difference("hands", *((many, few) if turned else (few, many)))

    assert (told["low"], told["high"], told["says"]) == (None, None, "too_few")


def test_where_no_batch_differs_from_another_nothing_is_claimed():
    assert difference("deviations", [0] * 5, [1000] * 5)["says"] == "cannot_tell"


SHEET = sheet_of(make_recipe("600 g", "400 g"))


def made(good, spoiled, worked):
    entries = [entry("weighed", line=f"mix.1.l{place}", mg=mg) for place, mg in enumerate((600_000, 400_000))]
    entries += [entry("counted", MORNING + 1, step="mix.1.press", good=good, spoiled=spoiled)]
    entries += [entry("worked", MORNING + 2, ms=worked)]
    return figures_of(record(SHEET, fold(SHEET, entries), entries))


def test_batches_tell_of_minutes_a_piece_and_of_what_was_spoiled():
    """Ten pieces in 60 to 63 minutes, then in 30 to 33: 6.15 and 3.15 minutes a piece; one of ten spoiled in each."""
    former = [made(9, 1, HOUR + place * HOUR // 60) for place in range(4)]
    now = [made(9, 1, HOUR // 2 + place * HOUR // 60) for place in range(4)]

    told = {each["measure"]: each for each in outcomes(1, former, 2, now)["differences"]}

    assert told["hands"]["before"] == 410_000  # 61.5 minutes over nine good pieces
    assert told["hands"]["now"] == 210_000
    assert told["hands"]["low"] < -200_000 < told["hands"]["high"] < 0
    assert told["hands"]["says"] == "less"
    assert (told["spoiled"]["now"], told["spoiled"]["says"]) == (100_000, "cannot_tell")
