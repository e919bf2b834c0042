"""Versions in words, the batches made with each, and the code another device reads."""

from __future__ import annotations

import re
from typing import Any

import pytest

from tests.api.studio import Studio
from tests.make import make_recipe, make_run, uuid4


def edited(studio: Studio) -> dict[str, Any]:
    """A recipe in its third version."""
    recipe = studio.with_recipe(title="First")
    studio.put_recipe(recipe["id"], make_recipe(title="Second"), if_match=studio.tag(1))
    return studio.put_recipe(recipe["id"], make_recipe(lines=3, title="Second"), if_match=studio.tag(2)).json


@pytest.mark.database("sqlite")
def test_what_a_version_changed_is_said_against_the_one_before(studio: Studio) -> None:
    recipe = edited(studio)["id"]

    second = studio.get(f"/recipes/{recipe}/versions/2/changes").json
    third = studio.get(f"/recipes/{recipe}/versions/3/changes").json

    assert second == {
        "version": 2,
        "since": 1,
        "changes": [{"where": "The recipe", "what": "Second, was First"}],
    }
    assert {"where": "Soak, Sea salt", "what": "added, 100 g"} in third["changes"]


@pytest.mark.database("sqlite")
def test_or_against_any_other_version_forwards_or_back(studio: Studio) -> None:
    recipe = edited(studio)["id"]

    forth = studio.get(f"/recipes/{recipe}/versions/3/changes?since=1").json["changes"]
    back = studio.get(f"/recipes/{recipe}/versions/1/changes?since=3").json["changes"]

    assert {"where": "The recipe", "what": "Second, was First"} in forth
    assert {"where": "The recipe", "what": "First, was Second"} in back


@pytest.mark.database("sqlite")
def test_a_first_version_changed_nothing_and_a_missing_one_is_404(studio: Studio) -> None:
    recipe = edited(studio)["id"]

    assert studio.get(f"/recipes/{recipe}/versions/1/changes").json == {
        "version": 1,
        "since": None,
        "changes": [],
    }
    assert studio.get(f"/recipes/{recipe}/versions/9/changes").status_code == 404
    assert studio.get(f"/recipes/{recipe}/versions/1/changes?since=9").status_code == 404
    assert studio.get(f"/recipes/{recipe}/versions/1/changes?since=0").status_code == 422
    assert studio.get(f"/recipes/{uuid4()}/versions/1/changes").status_code == 404


def test_runs_can_be_asked_for_by_recipe(studio: Studio) -> None:
    studio.with_run()
    recipe, run = studio.with_recipe(), uuid4()
    studio.put_run(run, make_run(recipe))

    of_it = studio.get(f"/runs?recipe={recipe['id']}").json

    assert [(each["id"], each["recipe"]["version"]) for each in of_it["runs"]] == [(run, 1)]
    assert of_it["total"] == 1
    assert studio.get(f"/runs?recipe={recipe['id']}&open=false").json["total"] == 0
    assert studio.get(f"/runs?recipe={uuid4()}").json["runs"] == []
    assert studio.get("/runs?recipe=nonsense").status_code == 422
    assert studio.get("/runs").json["total"] == 2


@pytest.mark.database("sqlite")
def test_the_code_is_a_drawing_with_nothing_that_runs_and_follows_the_host(new_app: Any) -> None:
    studio = Studio(new_app(hosts=("bench.example", "another.example")).test_client())
    recipe = studio.with_recipe()["id"]

    here = studio.get(f"/recipes/{recipe}/qr.svg", Host="bench.example:8080")
    elsewhere = studio.get(f"/recipes/{recipe}/qr.svg", Host="another.example")

    assert (here.status_code, here.mimetype) == (200, "image/svg+xml")
    assert set(re.findall(r"<(\w+)", here.text)) <= {"svg", "path", "g"}
    assert here.data != elsewhere.data
    assert studio.get(f"/recipes/{uuid4()}/qr.svg").status_code == 404
