"""The maker's settings: said once, edited with If-Match, and only such as the bench can work with."""

from __future__ import annotations

from typing import Any

import pytest

import bench
from tests.api.studio import Studio

WHOLE: dict[str, Any] = {
    "batch_number": "{yy}{mm}{dd}-{mark}{n}",
    "currency": "EUR",
    "hourly_rate": "18.50",
    "wrap_cost": "0.12",
    "without_tax": True,
    "maker": "Marlwick Scullery\nLower Lane 3",
    "label": {"market": "eu", "shape": "rectangle", "width_mm": 70, "height_mm": 50, "opened_months": 12},
}


def put(studio: Studio, document: Any, tag: str | None = None) -> Any:
    headers = {"If-Match": tag} if tag else {}
    return studio.client.put("/api/v1/settings", json=document, headers=headers)


def test_until_the_maker_says_something_there_is_a_pattern_and_nothing_else(studio: Studio) -> None:
    assert studio.get("/settings").json == {"version": 0, "document": {"batch_number": bench.PATTERN}}


def test_what_was_said_is_given_back_and_edited_with_its_tag(studio: Studio) -> None:
    first = put(studio, WHOLE, studio.tag(0))
    again = put(studio, WHOLE)
    blind = put(studio, {**WHOLE, "currency": "GBP"})
    stale = put(studio, {**WHOLE, "currency": "GBP"}, studio.tag(0))
    edited = put(studio, {**WHOLE, "currency": "GBP"}, first.headers["ETag"])

    assert [each.status_code for each in (first, again, blind, stale, edited)] == [201, 200, 428, 412, 200]
    assert studio.get("/settings").json == {"version": 2, "document": {**WHOLE, "currency": "GBP"}}
    assert studio.get("/settings", **{"If-None-Match": edited.headers["ETag"]}).status_code == 304


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"batch_number": "{yy}{mm}{dd}"}, "batch_number"),
        ({"batch_number": None}, "batch_number"),
        ({"currency": "ZZZ"}, "currency"),
        ({"hourly_rate": "18,50"}, "hourly_rate"),
        ({"hourly_rate": 18.5}, "hourly_rate"),
        ({"wrap_cost": "-1"}, "wrap_cost"),
        ({"without_tax": "yes"}, "without_tax"),
        ({"label": {"market": "moon"}}, "label.market"),
        ({"label": {"width_mm": 0}}, "label.width_mm"),
        ({"colour": "copper"}, "colour"),
    ],
)
@pytest.mark.database("sqlite")
def test_what_the_bench_could_not_work_with_is_refused_by_its_field(
    studio: Studio, change: dict[str, Any], field: str
) -> None:
    answer = put(studio, {**WHOLE, **change})

    assert answer.status_code == 422
    assert field in {each["field"] for each in answer.json["errors"]}
    assert studio.get("/settings").json["version"] == 0
