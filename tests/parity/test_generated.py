"""Python and JavaScript give the same bytes for batches made at random.

PARITY_SEED=anything tries other batches than the usual ones.
"""

from __future__ import annotations

import json
import os
from functools import cache
from random import Random
from typing import Any

import pytest

from bench import canonical, seal, words
from tests.often import often
from tests.parity.generate import Pen, generate, strange
from tests.parity.python_side import batch, call

pytestmark = pytest.mark.browser

SEED = os.environ.get("PARITY_SEED", "copper")
BATCHES = 2
CASES = often(30, 200)


def seeds_of(number: int) -> list[str]:
    return [f"{SEED}-{number}-{case}" for case in range(CASES)]


@cache
def made(number: int) -> list[Any]:
    return [generate(Random(seed)) for seed in seeds_of(number)]


def units_of(number: int) -> words.Units:
    """Every other lot of them is worded in ounces and degrees Fahrenheit."""
    return words.Units("oz", "f") if number % 2 else words.METRIC


@cache
def python_gives(number: int) -> list[Any]:
    with words.measuring(units_of(number)):
        return [batch(case) for case in made(number)]


@pytest.mark.parametrize("number", range(BATCHES))
def test_both_languages_give_the_same_sheet_state_prompts_and_record(number: int, in_browser: Any) -> None:
    seeds = seeds_of(number)
    print(f"seeds {seeds[0]} to {seeds[-1]}")

    there = in_browser("batch", made(number), words.DEFAULT, units_of(number))
    here = [canonical(result) for result in python_gives(number)]

    for seed, ours, theirs in zip(seeds, here, there, strict=True):
        assert ours == theirs, f"seed {seed}: {_first_difference(ours, theirs)}"


def test_the_batches_are_worth_comparing() -> None:
    """Most of them get as far as a sheet with steps done, and some end in an error."""
    results = python_gives(0)

    sheets = [result for result in results if "error" not in result]
    begun = [each for each in sheets if each["state"]["last_at"] is not None]
    assert len(sheets) > CASES // 3
    assert len(begun) > CASES // 4
    assert len(sheets) < CASES


def test_a_kind_of_step_from_a_later_version_is_a_plain_step_in_either_language(in_browser: Any) -> None:
    cases = []
    for seed in (f"{SEED}-later-{number}" for number in range(20)):
        case = generate(Random(seed))
        sheet = batch(case).get("sheet")
        if sheet is None or not sheet["steps"]:
            continue
        step = Random(seed).choice(sheet["steps"])
        own = set(step) - {"id", "component", "round", "step", "title", "says", "reason", "after", "optional"}
        for field in own - {
            "cautions",
            "ways",
            "window",
            "keeps",
            "does",
            "unmoulds",
            "hazards",
            "hands_ms",
            "tools",
            "tail_ms",
            "hold_for",
        }:
            del step[field]
        step["kind"] = "steamed"
        given = [
            sheet,
            [*case["entries"], Pen(Random(seed)).entry("steamed", {"step": step["id"]})],
            case["instants"][0],
        ]
        cases.append({"call": "at_the_bench", "with": given})

    here = [canonical(call(case)) for case in cases]
    there = in_browser("call", cases)

    assert len(cases) > 5
    for ours, theirs in zip(here, there, strict=True):
        assert ours == theirs, _first_difference(ours, theirs)


def test_no_later_entry_changes_a_signed_record_in_either_language(in_browser: Any) -> None:
    """Signed over all there was; then three hundred more of every kind, instant and device."""
    rng = Random(f"{SEED}-later")
    cases: list[Any] = []
    while len(cases) < 4:
        case = generate(rng)
        told = batch(case)
        entries = [
            each for each in case.get("tame", []) if isinstance(each, dict) and each.get("kind") != "signed"
        ]
        if "sheet" in told and len(seal(entries)["entries"]) > 5:
            signed = _signed(rng, entries)
            later = _later(rng, told["sheet"], entries, signed[-1]["at"])
            cases += [{**case, "entries": each, "frozen": None} for each in (signed, signed + later)]

    here = [canonical(batch(case)["record"]) for case in cases]
    there = [canonical(json.loads(text)["record"]) for text in in_browser("batch", cases)]

    assert here == there
    for before, after in zip(here[::2], here[1::2], strict=True):
        assert _stands(before) == _stands(after)
        assert len(json.loads(after)["remarks"]) > 50


def _signed(rng: Random, entries: list[Any]) -> list[Any]:
    signing = Pen(rng).entry("signed", {"name": "M.", **seal(entries)})
    return [*entries, {**signing, "id": "the-signing", "at": signing["at"] + 10**6}]


def _later(rng: Random, sheet: Any, entries: list[Any], signed_at: int) -> list[Any]:
    """What may come, but for what the server refuses: an undo of the signing, and another that stands before it."""
    pen = Pen(rng)
    made = []
    for number in range(300):
        entry = strange(rng, sheet, pen)
        if entry["kind"] == "undone":
            entry["body"] = {"entry": rng.choice(entries).get("id", "gone")}
        earliest = 1 if entry["kind"] == "signed" else -(10**7)
        made.append({**entry, "id": f"later-{number}", "at": signed_at + rng.randint(earliest, 10**7)})
    return made


def _stands(record: str) -> str:
    beside = ("remarks", "unread", "unsigned", "release", "judgements")
    return canonical({key: value for key, value in json.loads(record).items() if key not in beside})


def _first_difference(ours: str, theirs: str) -> str:
    """Where the two part, as a path into the result."""

    def walk(one: Any, other: Any, path: str) -> str:
        if type(one) is type(other) and isinstance(one, dict):
            for key in sorted({*one, *other}):
                if key not in one or key not in other:
                    return f"{path}.{key} is only in {'Python' if key in one else 'JavaScript'}"
                if one[key] != other[key]:
                    return walk(one[key], other[key], f"{path}.{key}")
        if type(one) is type(other) and isinstance(one, list) and len(one) == len(other):
            for index, (left, right) in enumerate(zip(one, other, strict=True)):
                if left != right:
                    return walk(left, right, f"{path}.{index}")
        return f"{path}: Python has {one!r}, JavaScript {other!r}"

    return walk(json.loads(ours), json.loads(theirs), "result")
