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
        # USP General Notices 6.40: 0.50 mg for each g is 0.05 %; cases worked from it. Two readings of 0.1 g may
        # stand for 0.2 g, so what a division decides is unclear
        (200_000, 200_000, 100, "dry"),
        (200_000, 199_900, 100, "unclear"),
        (400_000, 399_900, 100, "dry"),  # 0.1 g, and 0.1 g of rounding: exactly at the limit
        (400_000, 399_700, 100, "unclear"),
        (400_000, 399_600, 100, "not_yet"),
        (200_000, 199_899, 1, "unclear"),
        (200_000, 199_898, 1, "not_yet"),
        (200_000, 200_100, 100, "unclear"),
        (200_000, 200_200, 100, "gains"),
        # 100.0 g on a 0.1 g scale is 1000 d: 0.1 g is 1.0 mg for each g, so less cannot show
        (100_000, 99_900, 100, "cannot_tell"),
        (100_000, 100_000, 100, "cannot_tell"),
        (199_999, 199_999, 100, "cannot_tell"),
        # 2 kg at 1 g, 20 g at 0.01 g
        (2_000_000, 2_000_000, 1000, "dry"),
        (1_999_999, 1_999_000, 1000, "cannot_tell"),
        (20_000, 19_990, 10, "unclear"),
        (0, 0, 1, "cannot_tell"),
    ],
)
def test_worked_cases_of_constant_weight(first, second, division, answer):
    assert weighed(first, second, division)["constant"] == answer


@pytest.mark.parametrize(
    ("first", "second", "hours", "answer"),
    [
        (200_000, 199_700, 6, "slower"),  # 1.5 mg for each g, 0.25 an hour
        (200_000, 199_300, 6, "not_yet"),  # 3.5 mg for each g, 0.58 an hour
        (200_000, 199_990, 24, "dry"),
        (200_000, 200_066, 24, "gains"),  # 0.33 mg for each g, and no balance
    ],
)
def test_a_loss_of_many_hours_is_held_against_the_hour(first, second, hours, answer):
    assert weighed(first, second, 10, hours * HOUR)["constant"] == answer


def test_less_than_an_hour_apart_is_too_soon_and_an_hour_is_not():
    assert weighed(200_000, 200_000, 100, HOUR - 1)["constant"] == "too_soon"
    assert weighed(200_000, 200_000, 100, HOUR)["constant"] == "dry"


def test_the_makers_own_threshold_is_judged_beside_and_called_theirs():
    told = weighed(150_000, 149_000, 1000, own_ppm=20_000)

    assert (told["constant"], told["own"]) == ("cannot_tell", "dry")
    assert told["says"] == (
        "This scale cannot tell constant weight below 2000 g: weigh more at once. "
        "By your own threshold it is dry."
    )


@given(st.integers(0, 5 * 10**6), st.integers(-5000, 5000), st.sampled_from([1, 10, 100, 1000]))
def test_dry_is_never_said_on_a_scale_that_could_not_show_it(first, change, division):
    told = weighed(first, max(0, first + change), division)

    if told["constant"] == "dry":
        assert first >= 2000 * division and (abs(told["change_mg"]) + division) * 2000 <= first
    assert (told["constant"] == "cannot_tell") == (first < 2000 * division)


@given(st.integers(200_000, 10**6), st.integers(-400, 400), st.integers(0, 99), st.integers(0, 99))
def test_whatever_was_rounded_away_changes_no_verdict(first, change, before, after):
    """Two true masses, read on a 0.1 g scale: dry is dry and not yet is not yet by the true ones too."""
    true = [first + before, first + change + after]
    read = [mg // 100 * 100 for mg in true]
    told = weighed(*read, 100)["constant"]

    if told == "dry":
        assert abs(true[1] - true[0]) * 2000 <= true[0]
    if told == "not_yet":
        assert (true[0] - true[1]) * 2000 > read[0]
    if told == "gains":
        assert true[1] > true[0]


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


def test_constant_weight_is_said_of_this_rooms_air_and_never_more():
    """A constant weight is balance with that room's air, and a piece that fizzes slowly loses weight too."""
    told = weighed(400_000, 399_900, 100)

    assert told["constant"] == "dry"
    assert "this room’s air" in told["says"] and "slow fizz loses weight too" in told["says"]
    assert not told["says"].lower().startswith("dry")


def test_the_rooms_humidity_is_said_where_somebody_read_it_about_then():
    sheet = demo_sheet()
    wait = next(step["id"] for step in sheet["steps"] if step["kind"] == "wait")

    def said(*air):
        entries = [
            entry("measured", MORNING + at * HOUR, what="piece", step=wait, piece=1, mg=mg, scale="fine")
            for at, mg in ((5, 150_000), (7, 149_990))
        ]
        entries += [entry("aired", MORNING + at * HOUR, humidity=humidity) for at, humidity in air]
        (told,) = dryness_of(sheet, fold(sheet, entries), wait)
        assert told["constant"] == "dry"
        return told["says"]

    assert "humidity" in said() and "Nobody" in said()
    assert "55 % humidity" in said((6, 55)) and "48 % humidity" in said((6, 55), (7, 48))
    assert "Nobody" in said((3, 70), (9, 71))
