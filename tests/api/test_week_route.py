"""A week over HTTP: planned from what is wanted, bounded in size, time and number, and nothing of it kept."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from api import weeks
from api.plan_shapes import MOST_WANTS
from tests.api.studio import Studio
from tests.make import Clock
from tests.planning.demo import HOURS

# What is read is read by functions that other tests ask of both databases.
pytestmark = pytest.mark.database("sqlite")

Json = dict[str, Any]

WEDNESDAY = int(datetime(2026, 11, 25, 9, tzinfo=UTC).timestamp() * 1000)
DAY = 86_400_000


@pytest.fixture
def clock() -> Clock:
    return Clock(WEDNESDAY)


@pytest.fixture
def asked(studio: Studio) -> Json:
    """Twelve of the sample's pieces by Saturday, in the demo's hours."""
    studio.put_hours({"makers": [{"name": "Ada", "hours": HOURS}]})
    recipe = studio.with_recipe()["id"]
    return {"wants": [{"recipe": recipe, "pieces": 12, "by": WEDNESDAY + 3 * DAY}]}


def test_what_is_wanted_becomes_batches_with_a_latest_start(studio: Studio, asked: Json) -> None:
    found = studio.client.post("/api/v1/week", json=asked)

    assert found.status_code == 200, found.json
    plan = found.json["plan"]
    assert sum(sum(batch["gives"].values()) for batch in plan["batches"]) == 12
    assert all(batch["ready_at"] <= WEDNESDAY + 3 * DAY for batch in plan["batches"])
    assert all(batch["begin_by"] >= batch["sittings"][0]["starts_at"] for batch in plan["batches"])
    assert plan["short"] == []
    assert found.json["says"].startswith("Everything is ready in time")
    assert found.json["spoilage"] == {asked["wants"][0]["recipe"]: None}


def test_pieces_that_are_there_are_counted_and_german_is_spoken(studio: Studio, asked: Json) -> None:
    there = [{"recipe": asked["wants"][0]["recipe"], "pieces": 12}]

    found = studio.client.post(
        "/api/v1/week", json={**asked, "there": there}, headers={"Accept-Language": "de"}
    )

    assert found.json["plan"]["batches"] == []
    assert found.json["plan"]["from_there"] == {"0": 12}
    assert found.json["says"].startswith("Alles wird rechtzeitig fertig")


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"by": WEDNESDAY - DAY}, "wants.0.by"),
        ({"by": WEDNESDAY + 61 * DAY}, "wants.0.by"),
        ({"pieces": 0}, "wants.0.pieces"),
        ({"recipe": "00000000-0000-4000-8000-000000000000"}, "wants.0.recipe"),
    ],
)
def test_what_cannot_be_asked_names_its_field(studio: Studio, asked: Json, change: Json, field: str) -> None:
    found = studio.client.post("/api/v1/week", json={"wants": [{**asked["wants"][0], **change}]})

    assert found.status_code == 422
    assert [each["field"] for each in found.json["errors"]] == [field]


def test_a_week_is_bounded_in_size(studio: Studio, asked: Json) -> None:
    found = studio.client.post("/api/v1/week", json={"wants": asked["wants"] * (MOST_WANTS + 1)})

    assert found.status_code == 422


def test_one_week_is_planned_at_a_time(studio: Studio, asked: Json) -> None:
    with weeks._at_work:
        found = studio.client.post("/api/v1/week", json=asked)

    assert found.status_code == 429
    assert int(found.headers["Retry-After"]) == weeks.AGAIN_S
