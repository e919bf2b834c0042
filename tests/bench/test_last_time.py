"""Last time: words for what happened, and what three runs teach."""

from __future__ import annotations

import statistics

from hypothesis import given
from hypothesis import strategies as st
from workshop import HOUR, MINUTE, MORNING, SECOND, demo_sheet, entry, step_of

from bench import fold, last_times, learned, planned_hands, record

SHEET = demo_sheet()


def run(bursts=5, sprays=7, dry_ms=6 * HOUR + 10 * MINUTE, over_mg=3000, grind_ms=4 * MINUTE):
    """The record of a batch in which these things happened."""
    soda = next(line for line in SHEET["lines"] if line["id"] == "base.1.bicarb")
    entries = [
        entry("began", MORNING, step="base.1.grind"),
        entry("done", MORNING + grind_ms, step="base.1.grind"),
        entry("weighed", MORNING + grind_ms + MINUTE, line="base.1.bicarb", mg=soda["mg"] + over_mg),
    ]
    at = MORNING + HOUR
    for _ in range(bursts):
        entries.append(entry("heated", at, step="embed.1.melt", ms=15 * SECOND))
    for _ in range(sprays):
        entries.append(entry("looked", at, step="base.1.damp_rose", answer="not_yet"))
    entries.append(entry("done", at, step="base.1.press"))
    entries.append(entry("done", at + dry_ms, step="base.1.drying"))
    return record(SHEET, fold(SHEET, entries), entries)


def test_what_happened_last_time_is_said_beside_its_step():
    said = last_times([run(), run(bursts=1, sprays=1, over_mg=-400)])

    assert said["embed.melt"] == ["5 bursts", "1 burst"]
    assert said["base.damp_rose"] == ["7 tries", "1 try"]
    assert said["base.drying"] == ["dry after 6 h 10 min"] * 2
    assert said["base.dry/bicarb"] == ["3 g too much", "0.40 g too little"]  # of its own line, at no other
    assert not [key for key in said if key.split("/")[0] == "base.dry" and key != "base.dry/bicarb"]
    assert "base.grind" not in said


def test_two_runs_teach_nothing_and_three_do():
    assert learned([run(), run()])["base.drying"]["wait_ms"] is None
    assert planned_hands([run(), run()]) == {}

    taught = learned([run(dry_ms=hours * HOUR) for hours in (5, 6, 9)])
    assert taught["base.drying"]["wait_ms"] == {
        "runs": 3,
        "median": 6 * HOUR,
        "low": 5 * HOUR + 30 * MINUTE,
        "high": 7 * HOUR + 30 * MINUTE,
    }


def test_heat_is_learned_by_the_mass_that_was_melted():
    mg = step_of(SHEET, "embed.1.melt")["mg"]

    taught = learned([run(bursts=count) for count in (4, 5, 6)])["embed.melt"]

    assert taught["bursts"]["median"] == 5
    assert taught["heat_ms_per_kg"]["median"] == round(75_000 * 10**6 / mg)


def test_the_minutes_of_hand_work_for_the_plan_are_the_middle_of_the_makers_own():
    runs = [run(grind_ms=minutes * MINUTE) for minutes in (3, 8, 4)]

    assert planned_hands(runs)["base.grind"] == 4 * MINUTE


@given(st.lists(st.integers(1, 30), min_size=3, max_size=9))
def test_the_spread_is_that_of_the_standard_library(bursts):
    taught = learned([run(bursts=count) for count in bursts])["embed.melt"]["bursts"]

    low, middle, high = statistics.quantiles(bursts, n=4, method="inclusive")
    assert (taught["low"], taught["median"], taught["high"]) == (round(low), round(middle), round(high))
    assert taught["runs"] == len(bursts)
