"""Dry to constant weight: worked cases of the 0.50 mg per g rule, and when a scale cannot tell."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import HOUR, MINUTE, MORNING, demo_sheet, entry

from bench import dryness, dryness_of, fold


def weighed(first_mg, second_mg, division_mg, apart=HOUR, own_ppm=None):
    return dryness(
        {"at": MORNING, "mg": first_mg}, {"at": MORNING + apart, "mg": second_mg}, division_mg, own_ppm
    )


@pytest.mark.parametrize(
    ("first", "second", "division", "answer"),
    [
        # USP General Notices 6.40: 0.50 mg for each g is 0.05 %; cases reckoned from it
        (200_000, 199_900, 100, "dry"),  # exactly at the limit
        (200_000, 199_899, 1, "not_yet"),
        (200_000, 200_100, 100, "dry"),
        (200_000, 200_200, 100, "gains"),
        (400_000, 399_700, 100, "not_yet"),
        # 100.0 g on a 0.1 g scale is 1000 d: 0.1 g is 1.0 mg for each g, so less cannot show
        (100_000, 99_900, 100, "cannot_tell"),
        (100_000, 100_000, 100, "cannot_tell"),
        (199_999, 199_999, 100, "cannot_tell"),
        # 2 kg at 1 g, 20 g at 0.01 g
        (2_000_000, 1_999_000, 1000, "dry"),
        (1_999_999, 1_999_000, 1000, "cannot_tell"),
        (20_000, 19_990, 10, "dry"),
        (0, 0, 1, "cannot_tell"),
    ],
)
def test_worked_cases_of_constant_weight(first, second, division, answer):
    assert weighed(first, second, division)["constant"] == answer


def test_less_than_an_hour_apart_is_too_soon_and_an_hour_is_not():
    assert weighed(200_000, 200_000, 100, HOUR - 1)["constant"] == "too_soon"
    assert weighed(200_000, 200_000, 100, HOUR)["constant"] == "dry"


def test_the_makers_own_threshold_is_judged_beside_and_called_theirs():
    told = weighed(150_000, 149_000, 1000, own_ppm=10_000)

    assert (told["constant"], told["own"]) == ("cannot_tell", "dry")
    assert told["says"] == (
        "This scale cannot tell constant weight below 2000 g: weigh more at once. "
        "By your own threshold it is dry."
    )


@given(st.integers(0, 5 * 10**6), st.integers(-5000, 5000), st.sampled_from([1, 10, 100, 1000]))
def test_dry_is_never_said_on_a_scale_that_could_not_show_it(first, change, division):
    told = weighed(first, max(0, first + change), division)

    if told["constant"] == "dry":
        assert first >= 2000 * division and abs(told["change_mg"]) * 2000 <= first
    assert (told["constant"] == "cannot_tell") == (first < 2000 * division)


def test_each_piece_is_held_against_its_own_weighing_an_hour_before():
    sheet = demo_sheet()
    wait = next(step["id"] for step in sheet["steps"] if step["kind"] == "wait")
    weighings = [(0, 1, 150_000), (1, 2, 151_000), (50, 1, 149_500), (70, 1, 149_400), (80, 2, 150_990)]
    entries = [
        entry("measured", MORNING + at * MINUTE, what="piece", step=wait, piece=piece, mg=mg, scale="fine")
        for at, piece, mg in weighings
    ]

    told = dryness_of(sheet, fold(sheet, entries), wait)

    assert [(each["piece"], each["constant"], each["change_mg"]) for each in told] == [
        (1, "not_yet", -600),
        (2, "dry", -10),
    ]
