"""What a maker types, read in both languages: amounts at random, and recipes as they are written."""

from __future__ import annotations

import json
from functools import cache
from itertools import chain, count
from pathlib import Path
from random import Random
from typing import Any

import pytest

from bench import canonical
from tests.often import often
from tests.parity.generate import _document
from tests.parity.python_side import call

DEMO = Path(__file__).resolve().parents[2] / "demo/recipes"
BITS = [*"0123459 ./%⁄½¼⅞²①٣१,-+", "1½", "10", "g", "kg", "oz", "fl oz", "tsp", "Tbsp", "T", "cup", "pint"]
BITS += ["parts", "%", "drops", "piece", "to texture", "min", "h", "days", "s", "\u00a0", "ml.", "L"]
READERS = ["read_amount", "read_duration_ms", "read_mass_mg", "read_ppm", "read_density", "read_celsius_mk"]


def _typed(rng: Random) -> dict[str, Any]:
    text = "".join(rng.choice(BITS) for _ in range(rng.randint(1, 6)))
    reader = rng.choice(READERS)
    measures = [rng.choice(["us", "imperial", "metric", None])] if reader == "read_amount" else []
    return {"call": reader, "with": [text, *measures, "here"]}


@cache
def typed_and_read() -> list[tuple[dict[str, Any], str]]:
    """What is typed, and what Python makes of it."""
    rng = Random("amounts")
    return [(case, canonical(call(case))) for case in (_typed(rng) for _ in range(often(6_000, 20_000)))]


@pytest.mark.browser
def test_both_languages_read_whatever_is_typed_alike(in_browser: Any) -> None:
    here = typed_and_read()

    told = in_browser("call", [case for case, _ in here])

    assert [case for (case, read), said in zip(here, told, strict=True) if said != read] == []


@pytest.mark.browser
def test_the_sketch_of_a_written_recipe_has_the_masses_the_server_measures(in_browser: Any) -> None:
    rng = Random("recipes")
    written = [json.loads(path.read_text("utf-8")) for path in DEMO.glob("*-*.json")]
    measured: list[tuple[dict[str, Any], Any]] = []
    for document in chain(written, (_document(rng) for _ in count())):
        case = {"call": "sketch", "with": [document]}
        told = call(case)
        if "error" not in told or len(measured) < len(written):
            measured.append((case, told))
        if len(measured) == often(100, 300):
            break

    assert in_browser("call", [case for case, _ in measured]) == [canonical(told) for _, told in measured]


def test_python_refuses_some_of_what_is_typed_and_takes_some() -> None:
    """So that the agreement above is about more than refusals."""
    read = [case for case, told in typed_and_read() if "error" not in told]

    assert len(read) > often(100, 500)
