"""The record: the balance closes, the digest can be reckoned by anyone, a batch number is given once."""

from __future__ import annotations

import json
import re
import shlex
import subprocess

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from workshop import HOUR, MINUTE, MORNING, ROOT, demo_sheet, entry, make_kit, make_recipe, sheet_of

from bench import SettingError, batch_number, check_pattern, digest, fold, record
from bench.batch_number import TOKENS
from bench.hands import PAUSE_MS, hands_of
from bench.journal import read_of

SHEET = demo_sheet()
LINES = [line for line in SHEET["lines"] if line["mg"]]
COUNTS = [step for step in SHEET["steps"] if step["kind"] == "pieces"]
FINAL = [step["id"] for step in COUNTS if step["component"] == SHEET["components"][-1]["id"]][-1]


@st.composite
def batches(draw):
    """Every line weighed near its target, pieces counted, some weighed, something scraped out or binned."""
    entries = [
        entry("weighed", line=line["id"], mg=line["mg"] + draw(st.integers(-line["mg"], 3000)))
        for line in LINES
    ]
    for step in COUNTS:
        good, spoiled = draw(st.integers(0, step["count"])), draw(st.integers(0, 3))
        entries.append(entry("counted", MORNING + 1, step=step["id"], good=good, spoiled=spoiled))
    for what in draw(st.lists(st.sampled_from(["piece", "left", "spoiled"]), max_size=6)):
        entries.append(entry("measured", MORNING + 2, what=what, mg=draw(st.integers(0, 200_000))))
    return entries


@given(batches())
@settings(max_examples=60)
def test_the_mass_balance_closes_to_the_scale_division(entries):
    told = record(SHEET, fold(SHEET, entries), entries)["balance"]

    parts = ("good_mg", "spoiled_mg", "spare_mg", "left_mg", "unaccounted_mg")
    assert sum(told[part] for part in parts) == told["in_mg"]
    assert all(told[part] % told["division_mg"] == 0 for part in parts)
    weighed = sum(each["body"]["mg"] for each in entries if each["kind"] == "weighed")
    assert abs(told["in_mg"] - weighed) <= told["division_mg"] / 2


def test_a_batch_made_as_written_leaves_what_the_recipe_allows_for_bowl_and_loss():
    entries = [entry("weighed", line=line["id"], mg=line["mg"]) for line in LINES]
    entries += [entry("counted", MORNING + 1, step=step["id"], good=step["count"]) for step in COUNTS]

    told = record(SHEET, fold(SHEET, entries), entries)["balance"]

    assert told["good"] == 12 and told["spoiled"] == 0
    assert told["spare_mg"] == 16_000  # two spare pebbles of 8 g
    assert abs(told["unaccounted_mg"] - told["expected_loss_mg"]) <= 3 * told["division_mg"]


@given(st.lists(st.integers(0, 3 * HOUR), min_size=1, max_size=8))
def test_hands_on_time_is_the_gaps_between_entries_and_no_pause_counts_for_more(gaps):
    at, entries = MORNING, [entry("weighed", line=LINES[0]["id"], mg=1)]
    for gap in gaps:
        at += gap
        entries.append(entry("weighed", at, line=LINES[0]["id"], mg=1))
        entries.append(entry("noted", at, text="Not hand work."))

    state = fold(SHEET, entries)
    told = hands_of(SHEET, state, read_of(state, entries))

    step = next(step for step in SHEET["steps"] if step["id"] == LINES[0]["step"])
    assert told["ms"] == sum(min(gap, max(PAUSE_MS, step["hands_ms"])) for gap in gaps)


def test_the_makers_own_word_on_the_whole_time_stands_over_the_reckoning():
    entries = [entry("worked", MORNING, ms=90 * MINUTE)]

    state = fold(SHEET, entries)
    assert hands_of(SHEET, state, read_of(state, entries)) == {"ms": 90 * MINUTE, "steps": {}, "told": True}


def test_a_step_says_every_device_that_told_of_it_in_the_order_in_which_they_did():
    first, second = (line["id"] for line in LINES[:2])
    assert len({line["step"] for line in LINES[:2]}) == 1
    entries = [
        entry("weighed", MORNING, line=first, mg=1) | {"device": "zoe"},
        entry("weighed", MORNING + 1, line=second, mg=1) | {"device": "ann"},
        entry("weighed", MORNING + 2, line=second, mg=2) | {"device": "zoe"},
    ]

    steps = record(SHEET, fold(SHEET, entries), entries)["steps"]

    by = {step["step"]: step["by"] for step in steps}
    assert by.pop(LINES[0]["step"]) == ["zoe", "ann"]
    assert not any(by.values())


def test_labels_that_were_counted_stand_in_the_record_with_what_was_on_them():
    told = {"market": "eu", "printed": 12, "on": 10, "binned": 1, "text": "Bar\nIngredients: Aqua"}
    entries = [entry("labelled", MORNING, **told) | {"device": "ann"}]

    state = fold(SHEET, entries)

    assert record(SHEET, state, entries)["labelled"] == [{"at": MORNING, "device": "ann", **told}]


ONE_LINER = re.search(
    r"python3 -c '(.+?)' record\.json", (ROOT / "DEVELOPERS.md").read_text("utf-8"), re.DOTALL
)


def test_anyone_can_reckon_the_digest_with_the_line_in_the_guide(tmp_path):
    assert ONE_LINER
    entries = [entry("noted", MORNING, text="Größer \x7f 🛁 “quoted”\n"), entry("finished", MORNING - 1)]
    (tmp_path / "record.json").write_text(json.dumps({"entries": entries, "sealed": None}), "utf-8")

    command = shlex.split(ONE_LINER[0])
    reckoned = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=20, check=True)

    assert reckoned.stdout.strip() == digest(entries)


@given(st.data())
@settings(max_examples=30)
def test_any_change_changes_the_digest_and_the_order_of_arrival_does_not(data):
    entries = [entry("weighed", MORNING + at, line="base.1.bicarb", mg=at) for at in range(4)]
    whole = digest(entries)

    assert digest(data.draw(st.permutations(entries)) + entries[:1]) == whole
    touched = data.draw(st.integers(0, 3))
    changed = [
        {**each, "body": {**each["body"], "mg": each["body"]["mg"] + (place == touched)}}
        for place, each in enumerate(entries)
    ]
    assert digest(changed) != whole
    assert digest(entries[:-1]) != whole


@given(
    st.lists(st.sampled_from([*(f"{{{token}}}" for token in TOKENS), "-", "/", "A", "7", "B0"]), max_size=9),
    st.lists(
        st.tuples(
            st.text("AB", min_size=1, max_size=3),
            st.sampled_from([*range(1, 13), 111, 121]),
            st.sampled_from(["2026-11-11", "2021-01-11", "2011-11-12"]),
            st.sampled_from(["Alpha", "Alpha bar", "A 1 bar", "1", "11 A"]),
        ),
        max_size=30,
        unique_by=lambda made: made[:2],
    ),
)
@settings(max_examples=300)
def test_over_any_offline_devices_no_number_is_given_twice(parts, made):
    """A device's mark is its own and its count goes up: so (mark, n) never comes twice."""
    pattern = "".join(parts) + "{mark}" * ("{mark}" not in parts) + "{n}" * ("{n}" not in parts)
    try:
        check_pattern(pattern)
    except SettingError:
        assume(False)

    numbers = [batch_number(pattern, on, mark, n, title) for mark, n, on, title in made]

    assert len(set(numbers)) == len(numbers)


def test_a_weight_outside_its_tolerance_is_said_even_when_it_was_left():
    sheet = sheet_of(make_recipe("500 g", "500 g"), make_kit())
    key, other = (line["id"] for line in sheet["lines"])
    entries = [
        entry("weighed", line=key, mg=511_000),
        entry("left", MORNING + 1, line=key),
        entry("weighed", MORNING + 2, line=other, mg=510_000),
    ]

    lines = record(sheet, fold(sheet, entries), entries)["lines"]

    assert [(line["status"], line["within"]) for line in lines] == [("left", False), ("in", True)]


@pytest.mark.parametrize("kind", ["noted", "weighed", "undone", "pictured"])
def test_whatever_comes_after_the_signing_is_a_remark_with_its_own_time(kind):
    bodies = {
        "noted": {"text": "One cracked."},
        "weighed": {"line": LINES[0]["id"], "mg": 5},
        "undone": {"entry": "some-entry"},
        "pictured": {"picture": "018f0000-0000-7000-8000-000000000001", "sha256": "0" * 64},
    }
    signing = entry("signed", MORNING, name="M. Marlwick")
    later = entry(kind, MORNING + HOUR, **bodies[kind])

    told = record(SHEET, fold(SHEET, [signing, later]), [signing, later])

    assert [(each["kind"], each["at"]) for each in told["remarks"]] == [(kind, MORNING + HOUR)]
    assert told["notes"] == told["pictures"] == [] and told["yield"]["actual_mg"] == 0
