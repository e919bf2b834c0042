"""Every address of the API is in its document; that the document is true, test_schemathesis.py sees to."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from api.answers import LabelSaid
from api.shapes_openapi import shape
from bench.shapes.schema import fields_of
from tests.frontend.answers import FILE, Answers
from tests.servers import ROOT


def test_every_address_of_the_api_is_in_the_document(app: Any, client: Any) -> None:
    documented = client.get("/api/v1/openapi.json").json["paths"]
    rules = {
        re.sub(r"<(?:[^:>]*:)?(\w+)>", r"{\1}", rule.rule)
        for rule in app.url_map.iter_rules()
        if rule.rule.startswith("/api/v1/")
    }

    assert documented.keys() == rules - {"/api/v1/openapi.json"}


@pytest.mark.database("sqlite")
def test_what_the_bench_says_is_described_by_its_own_shapes(client: Any) -> None:
    """And what comes in, which the API describes itself, has the fields of the shape that bears its name."""
    described = client.get("/api/v1/openapi.json").json["components"]["schemas"]
    shapes = json.loads((ROOT / "bench/shapes/schemas.json").read_text(encoding="utf-8"))["planning"]

    for name in ("KeptPlan", "Plan", "PlanStep", "HoursWritten", "MakerWritten"):
        assert described[name]["properties"].keys() == shapes[name]["properties"].keys(), name
    assert described["PlanReason"]["properties"]["change"]["items"] == {
        "$ref": "#/components/schemas/PlanChange"
    }
    assert described["PlanChange"]["discriminator"]["mapping"]["hours"] == "#/components/schemas/HoursChange"
    assert "additionalProperties" not in described["Plan"]


def test_a_shape_that_the_bench_has_not_is_named_when_the_api_is_put_together() -> None:
    with pytest.raises(LookupError, match="Plann"):
        shape("Plann")


def test_the_page_is_checked_by_the_answers_as_they_are_made() -> None:
    """`python -m tests.frontend.answers` writes what the page's type check reads."""
    assert FILE.read_text(encoding="utf-8") == Answers().text()


def test_a_shape_of_which_nothing_must_be_said_says_so() -> None:
    """A label's settings: a maker may have said its market alone."""
    needed = {key: needed for key, _, needed in fields_of(LabelSaid)}

    assert needed["market"] is False and not any(needed.values())
    assert "  readonly market?: Market;" in Answers().text()
