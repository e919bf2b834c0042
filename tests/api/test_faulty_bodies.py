"""However wrong a body is, what is said of it is short, soon said, and needs little room."""

from __future__ import annotations

import json
import tracemalloc
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from marshmallow import Schema, fields

from api.errors import MAX_FAULTS
from api.schemas import Listed, Mapped, Strict
from tests.api.studio import Studio
from tests.make import make_entry, make_recipe, make_run, uuid4

LONGEST_ANSWER = 512 * 1024
KIT = {"format": "bowlside-kit/1", "scales": []}
EXPORT = {"format": "bowlside-export/1", "exported_at": 1, "recipes": [], "kit": None, "runs": []}


def nest(depth: int, inner: Any, key: str = "k") -> Any:
    for _ in range(depth):
        inner = {key: inner}
    return inner


# Each gives a value of about that many bytes with as many faults in it as will go in.
FAULTS: dict[str, Callable[[int], Any]] = {
    "floats under a long name": lambda size: {"n" * (size // 2): [0.5] * (size // 8)},
    "floats under long names": lambda size: nest(30, [0.5] * (size // 8), "n" * (size // 60)),
    "floats": lambda size: [0.5] * (size // 4),
    "numbers": lambda size: [1] * (size // 2),
    "objects": lambda size: [{}] * (size // 3),
    "lists": lambda size: [[]] * (size // 3),
    "names": lambda size: {f"n{number}": 1 for number in range(size // 12)},
    "objects of names": lambda size: [{f"n{number}": 1 for number in range(200)}] * (size // 2200),
    "one name": lambda size: {"n" * size: 1},
    "one text": lambda size: "é" * (size // 2),
    "broken text": lambda size: ["\ud800"] * (size // 9),
    "broken names": lambda size: {f"\ud800{number}": 1 for number in range(size // 18)},
}
WRONG_AT: dict[str, Callable[[str, Any], tuple[str, str, Any]]] = {
    "kit": lambda run, wrong: ("put", "/kit", wrong),
    "kit.scales": lambda run, wrong: ("put", "/kit", {**KIT, "scales": wrong}),
    "recipe": lambda run, wrong: ("put", f"/recipes/{uuid4()}", wrong),
    "recipe.ingredients": lambda run, wrong: (
        "put",
        f"/recipes/{uuid4()}",
        {**make_recipe(), "ingredients": wrong},
    ),
    "recipe.components": lambda run, wrong: ("post", "/checks", {**make_recipe(), "components": wrong}),
    "hours": lambda run, wrong: ("put", "/hours", {"makers": [{"name": "Ada", "hours": {"zone": "UTC", "daily": wrong, "dates": wrong}}]}),
    "settings": lambda run, wrong: ("put", "/settings", wrong),
    "run": lambda run, wrong: ("put", f"/runs/{uuid4()}", {**make_run({"id": uuid4(), "version": 1}), "size": {"pieces": wrong, "without": wrong, "swaps": wrong}, "kit": {**KIT, "vessels": wrong}}),
    "plan": lambda run, wrong: ("post", "/plans", {"runs": wrong, "recipes": wrong}),
    "batch": lambda run, wrong: ("post", f"/runs/{run}/entries", wrong),
    "batch.entries": lambda run, wrong: ("post", f"/runs/{run}/entries", {"entries": wrong}),
    "entries": lambda run, wrong: ("post", f"/runs/{run}/entries", {"entries": [wrong] * 10}),
    "entry": lambda run, wrong: ("post", f"/runs/{run}/entries", {"entries": [make_entry(run, id=wrong, kind=wrong, body=wrong)]}),
    "entry.body": lambda run, wrong: ("post", "/shelf/entries", {"entries": [make_entry("shelf", kind="described", body={"ingredient": "a", "card": wrong})]}),
    "import": lambda run, wrong: ("post", "/import", wrong),
    "import.recipes": lambda run, wrong: ("post", "/import", {**EXPORT, "recipes": wrong, "runs": wrong}),
    "import.shelf": lambda run, wrong: ("post", "/import", {**EXPORT, "shelf": wrong, "settings": wrong, "hours": wrong}),
    "import.versions": lambda run, wrong: ("post", "/import", {**EXPORT, "recipes": [{"id": uuid4(), "versions": wrong}]}),
    "pairing": lambda run, wrong: ("post", "/pairings", wrong),
}  # fmt: skip


def send(studio: Studio, method: str, path: str, value: Any) -> Any:
    body = json.dumps(value).encode()
    return getattr(studio.client, method)(f"/api/v1{path}", data=body, content_type="application/json")


def is_short(answer: Any) -> bool:
    named = (answer.json or {}).get("errors") or (answer.json or {}).get("refused") or []
    return len(answer.data) <= LONGEST_ANSWER and len(named) <= MAX_FAULTS + 1 and answer.status_code < 500


@pytest.mark.database("sqlite")
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    where=st.sampled_from(sorted(WRONG_AT)),
    fault=st.sampled_from(sorted(FAULTS)),
    size=st.integers(10, 60_000),
)
def test_no_answer_is_long_however_wrong_the_body(studio: Studio, where: str, fault: str, size: int) -> None:
    answer = send(studio, *WRONG_AT[where](uuid4(), FAULTS[fault](size)))

    assert is_short(answer), (answer.status_code, len(answer.data))
    assert len(answer.data) <= 20_000 or "entr" in where


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    ("where", "fault"),
    [
        ("kit", "floats under a long name"),
        ("recipe", "floats under long names"),
        ("recipe.ingredients", "names"),
        ("recipe.components", "objects"),
        ("import.recipes", "numbers"),
        ("import.shelf", "numbers"),
        ("batch", "names"),
        ("entries", "floats under a long name"),
    ],
)
def test_the_largest_body_of_faults_needs_little_room(studio: Studio, where: str, fault: str) -> None:
    """Room for the body as Python holds it, and not for what is wrong with it."""
    run = studio.with_run()
    method, path, value = WRONG_AT[where](run, FAULTS[fault](100_000))
    body = json.dumps(value).encode()
    assert len(body) < 4_000_000
    del value

    tracemalloc.start()
    answer = getattr(studio.client, method)(f"/api/v1{path}", data=body, content_type="application/json")
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()

    assert is_short(answer), (answer.status_code, len(answer.data))
    assert peak < 4_000_000 + 20 * len(body), (peak, len(body))


def kinds_of(kind: type[Schema]) -> set[type[Schema]]:
    return {kind}.union(*(kinds_of(each) for each in kind.__subclasses__()))


def inside(field: Any) -> list[Any]:
    """A field and those that it reads its items by."""
    parts = [getattr(field, name, None) for name in ("inner", "key_field", "value_field")]
    return [field, *(each for part in parts if part is not None for each in inside(part))]


def test_what_reads_a_body_stops_at_as_many_faults_as_an_answer_names() -> None:
    fields_read = [
        each
        for kind in kinds_of(Strict)
        for field in kind._declared_fields.values()
        for each in inside(field)
    ]

    assert len(fields_read) > 100
    assert [
        each for each in fields_read if isinstance(each, fields.List) and not isinstance(each, Listed)
    ] == []
    assert [
        each
        for each in fields_read
        if isinstance(each, fields.Dict) and each.value_field and not isinstance(each, Mapped)
    ] == []


@pytest.mark.database("sqlite")
@pytest.mark.parametrize("value", [0, 1, "yes", "true", "off"])
def test_true_and_false_are_said_by_no_other_word(studio: Studio, value: Any) -> None:
    for path, body in (
        ("/shelf/entries", {"entries": [], "given_back": value}),
        ("/plans", {"savings": value}),
    ):
        answer = send(studio, "post", path, body)
        assert (answer.status_code, next(iter(body.keys() - {"entries"}))) == (
            422,
            answer.json["errors"][0]["field"],
        )
