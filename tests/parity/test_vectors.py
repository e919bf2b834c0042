"""The written cases of tests/vectors/, in both languages.

A case is {description, data, expected}. Data is either one function and its arguments ("call",
"with"), or a batch of workshop.json: a size request, the entries of its journal, and the instants
at which the bench is asked. Expected may name only some fields of an object, or some places of a
list as {"0": ...}; a list written as a list, and an empty object, are meant whole.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from bench import canonical, read_kit, read_recipe, words
from tests.parity.generate import tame
from tests.parity.python_side import batch, call

Json = dict[str, Any]

VECTORS = Path(__file__).resolve().parents[1] / "vectors"
WORKSHOP = json.loads((VECTORS / "workshop.json").read_text("utf-8"))
MINUTE = 60_000
OUNCES = words.Units("oz", "f")


def _cases() -> list[tuple[str, Json]]:
    return [
        (f"{path.stem}: {case['description']}", case)
        for path in sorted(VECTORS.glob("*.json"))
        if path.stem != "workshop"
        for case in json.loads(path.read_text("utf-8"))
    ]


CASES = _cases()


def _written_out(entries: list[Any]) -> list[Any]:
    """A case's entries: one a minute, from one phone, where it says nothing else."""
    return [
        {"id": f"entry-{number}", "device": "phone", "at": number * MINUTE, **entry}
        if isinstance(entry, dict)
        else entry
        for number, entry in enumerate(entries, 1)
    ]


def _recipe_with(steps: list[Json]) -> Json:
    """The workshop's recipe, and these steps before the last of its base."""
    base = WORKSHOP["recipe"]["components"][0]
    return {
        **WORKSHOP["recipe"],
        "components": [{**base, "steps": [*base["steps"][:-1], *steps, base["steps"][-1]]}],
    }


def _batch_of(data: Json) -> Json:
    """The whole input of a case about a batch: what it leaves out filled in."""
    return {
        "recipe": read_recipe(_recipe_with(data.get("and", []))),
        "kit": read_kit(WORKSHOP["kit"]),
        "request": data.get("request", {"by": "pieces", "pieces": 8}),
        "entries": _written_out(data.get("entries", [])),
        "instants": data.get("instants", []),
        "shelf": _written_out(data.get("shelf", [])),
        "uses": data.get("uses", {}),
        "settings": data.get("settings", {"currency": "EUR", "hourly_rate": "18.5"}),
        "labelled": data.get("labelled", {}),
        "frozen": data.get("frozen"),
        "tame": tame(_written_out(data.get("entries", []))),
    }


def _difference(expected: Any, actual: Any, path: str = "") -> str:
    """Where the result is not what was expected; "" when it is."""
    if isinstance(expected, dict) and isinstance(actual, list):
        actual = {str(place): each for place, each in enumerate(actual)}
    if isinstance(expected, dict) and isinstance(actual, dict) and (expected or not actual):
        for key, value in expected.items():
            if key not in actual:
                return f"{path}.{key} is missing"
            if found := _difference(value, actual[key], f"{path}.{key}"):
                return found
        return ""
    if isinstance(expected, list) and isinstance(actual, list) and len(expected) == len(actual):
        for place, (one, other) in enumerate(zip(expected, actual, strict=True)):
            if found := _difference(one, other, f"{path}.{place}"):
                return found
        return ""
    same = type(expected) is type(actual) and expected == actual
    return "" if same else f"{path} is {actual!r}, not {expected!r}"


@pytest.mark.parametrize("case", [case for _, case in CASES], ids=[name for name, _ in CASES])
def test_python_gives_what_is_written(case: Json) -> None:
    data = case["data"]
    result = call(data) if "call" in data else batch(_batch_of(data))

    assert not _difference(case["expected"], result)


@pytest.mark.browser
@pytest.mark.parametrize("name", ["call", "batch"])
def test_javascript_gives_what_is_written(name: str, in_browser: Any) -> None:
    cases = [(title, case) for title, case in CASES if ("call" in case["data"]) == (name == "call")]
    given = [case["data"] if name == "call" else _batch_of(case["data"]) for _, case in cases]

    results = [json.loads(text) for text in in_browser(name, given)]

    wrong = {
        title: found
        for (title, case), result in zip(cases, results, strict=True)
        if (found := _difference(case["expected"], result))
    }
    assert not wrong


@pytest.mark.browser
def test_both_languages_agree_on_all_that_the_written_cases_leave_out(in_browser: Any) -> None:
    cases = [_batch_of(case["data"]) for _, case in CASES if "call" not in case["data"]]

    assert in_browser("batch", cases) == [canonical(batch(case)) for case in cases]


@pytest.mark.browser
def test_both_say_the_same_in_german(in_browser: Any) -> None:
    cases = [_batch_of(case["data"]) for _, case in CASES if "call" not in case["data"]]
    with words.speaking("de"):
        told = [canonical(batch(case)) for case in cases]

    assert in_browser("batch", cases, "de") == told
    assert "Anzeige " in "".join(told)


@pytest.mark.browser
def test_both_say_the_same_in_ounces_and_fahrenheit(in_browser: Any) -> None:
    cases = [_batch_of(case["data"]) for _, case in CASES if "call" not in case["data"]]
    with words.measuring(OUNCES):
        told = [canonical(batch(case)) for case in cases]

    assert in_browser("batch", cases, "en", OUNCES) == told
    assert {" lb ", " oz"} <= set(re.findall(r" lb | oz", "".join(told)))


@pytest.mark.browser
def test_both_read_and_word_every_mass_and_temperature_alike(in_browser: Any) -> None:
    """Noughts, halves, a pound's edge, and what is past 2 ** 53 on the way, on each kind of scale."""
    masses = [*range(-3, 4), 709, 1417, 2126, 14175, 28350, 452_000, 453_592, 907_185, 7_654_321, 2**45]
    divisions = [(1000,), (10,), (5000,), (2835, 100_000), (1417, 50_000), (283, 10_000), (1772, 62_500)]
    calls = [
        *({"call": "mass", "with": [mg, fine]} for mg in masses for fine in (1, 10, 100, 1000)),
        *(
            {"call": "temperature", "with": [mk]}
            for mk in (-40_000, -500, 0, 37_000, 37_500, 60_000, 250_000)
        ),
        *(
            {"call": name, "with": [mg, *division]}
            for name in ("reading", "to_division")
            for mg in masses
            for division in divisions
        ),
    ]
    for units in (words.METRIC, OUNCES):
        with words.measuring(units):
            told = [canonical(call(each)) for each in calls]
        assert in_browser("call", calls, "en", units) == told
