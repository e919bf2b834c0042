from __future__ import annotations

import io
import itertools
import json
import sqlite3
import tracemalloc
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from sqlalchemy import update
from sqlalchemy.exc import OperationalError

import bench
from api import exchange
from api.demo import seed
from api.kit import STARTER_KIT
from api.store import writing
from api.tables import Run
from tests.api.studio import Studio
from tests.make import EVENINGS, WHOLE_KIT, make_entry, make_recipe, make_run, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES


@pytest.fixture
def other_studio(new_app: Any) -> Studio:
    return Studio(new_app().test_client())


def furnish(studio: Studio) -> str:
    """A studio with a recipe of two versions, a kit, bench hours and a finished run; gives the run's id."""
    studio.put_kit(WHOLE_KIT)
    studio.put_hours(EVENINGS)
    recipe, run = studio.with_recipe(), uuid4()
    studio.put_recipe(recipe["id"], make_recipe(title="Again 🛁"), if_match=studio.tag(1))
    studio.put_run(run, make_run(recipe))
    studio.post(run, make_entry(run), make_entry(run, kind="finished", body={}))
    for about, duty in ((recipe["id"], "eu-report"), (None, "samples")):
        said = {"about": about, "duty": duty, "state": "seen_to", "day": "2026-11-30", "note": "🧾"}
        assert studio.client.put(f"/api/v1/duties/{uuid4()}", json=said).status_code == 201
    return run


def test_an_export_makes_the_same_studio_elsewhere(studio: Studio, other_studio: Studio) -> None:
    run = furnish(studio)
    everything = studio.get("/export").json

    taken = other_studio.import_(everything).json

    assert taken["refused"] == []
    assert other_studio.get("/export").json == everything
    for path in (f"/runs/{run}/now", "/recipes"):
        assert other_studio.get(path).data == studio.get(path).data
    here, there = (each.get(f"/runs/{run}/record").json for each in (studio, other_studio))
    # When an entry was received, and from whom, is each server's own knowledge.
    assert here.pop("late") and there.pop("late") == []
    assert here == there


def test_importing_again_changes_nothing(studio: Studio) -> None:
    furnish(studio)
    everything = studio.get("/export").json

    taken = studio.import_(everything).json

    assert (taken["kept"], taken["refused"]) == (0, [])
    assert studio.get("/export").json == everything


def test_an_export_made_when_entries_held_more_fields_comes_in_whole(
    studio: Studio, other_studio: Studio
) -> None:
    furnish(studio)
    everything = studio.get("/export").json
    run = everything["runs"][0]
    odd = make_entry(run["id"], body={"text": "like wet sand", "mood": "m" * 70_000})
    run["entries"].append(odd)

    taken = other_studio.import_(everything).json

    assert taken["refused"] == []
    assert odd in other_studio.get("/export").json["runs"][0]["entries"]
    assert other_studio.get(f"/runs/{run['id']}/record").status_code == 200
    assert other_studio.get(f"/runs/{run['id']}/now").status_code == 200


def test_what_contradicts_is_refused_by_itself_and_the_rest_is_kept(
    studio: Studio, other_studio: Studio
) -> None:
    furnish(studio)
    everything = studio.get("/export").json
    everything["recipes"].append(
        {
            "id": uuid4(),
            "versions": [
                {"version": 1, "created_at": 1, "document": {**make_recipe(), "written_for": 0}},
                {"version": 2, "created_at": 1, "document": make_recipe()},
            ],
        }
    )
    everything["runs"][0]["entries"].append({"id": "nonsense"})
    everything["runs"].append(
        {**everything["runs"][0], "id": uuid4(), "recipe": {"id": uuid4(), "version": 1}}
    )
    other_studio.put_kit({**STARTER_KIT, "scales": []})
    everything["hours"]["makers"][0]["hours"]["zone"] = "Nowhere"

    taken = other_studio.import_(everything).json

    assert [each["field"] for each in taken["refused"]] == [
        "recipes.1.versions.0.written_for",
        "recipes.1.versions.1",
        "kit",
        "hours.makers.0.hours.zone",
        "runs.0.entries.2.id",
        "runs.1",
    ]
    assert (taken["kept"], other_studio.get("/runs").json["total"]) == (7, 1)


def test_another_text_of_a_version_that_is_here_is_refused(studio: Studio) -> None:
    furnish(studio)
    everything = studio.get("/export").json
    everything["recipes"][0]["versions"][0]["document"]["title"] = "Other"

    taken = studio.import_(everything).json

    assert [each["field"] for each in taken["refused"]] == ["recipes.0.versions.0"]


def test_a_recipe_file_taken_in_twice_is_one_recipe(studio: Studio) -> None:
    taken = [studio.import_(make_recipe()).json for _ in range(2)]

    assert [(each["kept"], each["had"]) for each in taken] == [(1, 0), (0, 1)]
    assert studio.get("/recipes").json["total"] == 1


def test_a_kit_file_is_taken_in(studio: Studio) -> None:
    assert studio.import_(STARTER_KIT).json["kept"] == 1
    assert studio.get("/kit").json["version"] == 1


@pytest.mark.parametrize(
    ("document", "field"),
    [
        ({"format": "cookbook/9"}, "format"),
        ({}, "format"),
        ({"format": "bowlside-export/1", "recipes": 3}, "recipes"),
        ({**make_recipe(), "written_for": 0}, "written_for"),
    ],
)
def test_a_file_that_is_not_one_is_422(studio: Studio, document: object, field: str) -> None:
    answer = studio.import_(document)

    assert answer.status_code == 422
    assert field in {each["field"] for each in answer.json["errors"]}


def test_the_published_schemas_are_schemas_and_take_what_the_bench_takes(studio: Studio) -> None:
    for name, document in (("recipe", make_recipe()), ("kit", STARTER_KIT)):
        schema = studio.get(f"/schemas/{name}.json").json
        Draft202012Validator.check_schema(schema)
        Draft202012Validator(schema).validate(document)


def test_the_demo_studio_is_taken_in_whole_and_only_into_an_empty_database(app: Any, studio: Studio) -> None:
    with app.app_context():
        first, again = seed(), seed()

    assert first is not None
    assert (first.refused, again) == ([], None)
    assert studio.get("/recipes").json["total"] >= 4
    assert studio.get("/runs?open=true").json["total"] >= 1
    assert studio.get("/runs?open=false").json["total"] >= 1
    assert studio.get("/hours").json["version"] == 1


def test_in_the_demo_three_waits_go_at_once(app: Any, studio: Studio) -> None:
    with app.app_context():
        seed()

    open_runs = studio.get("/runs?open=true").json["runs"]
    waits = [wait for run in open_runs for wait in studio.get(f"/runs/{run['id']}/now").json["waits"]]

    assert len(waits) >= 3
    assert bench.canonical(waits)


def test_an_export_says_when_a_run_was_made_and_it_comes_back(
    studio: Studio, other_studio: Studio, app: Any
) -> None:
    run = furnish(studio)
    with app.app_context(), writing() as connection:
        connection.execute(update(Run).values(made_at=1_234))
    everything = studio.get("/export").json
    assert [each["made_at"] for each in everything["runs"]] == [1_234]

    other_studio.import_(everything)
    assert other_studio.get("/export").json == everything

    del everything["runs"][0]["made_at"]
    everything["runs"][0]["id"] = again = uuid4()
    everything["runs"][0]["entries"] = [make_entry(again, at=7), {"at": "soon"}]
    other_studio.import_(everything)
    made = {each["id"]: each["made_at"] for each in other_studio.get("/export").json["runs"]}
    assert made == {run: 1_234, again: 7}


@pytest.mark.database("sqlite")
def test_a_large_file_is_read_in_little_memory(app: Any) -> None:
    entries = ",".join(json.dumps("x" * 500) for _ in range(32_000))
    head = (
        '{"format": "bowlside-export/1", "exported_at": 1, "recipes": [], "kit": null, "runs": [], "shelf": ['
    )
    file = io.BytesIO(f"{head}{entries}]}}".encode())
    del entries

    with app.app_context():
        tracemalloc.start()
        tally = exchange.import_file(file)
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.stop()

    assert tally.refusals == 32_000
    assert peak < 9_000_000 < len(file.getvalue())


def large(studio: Studio, other: Studio, runs: int = 6) -> dict[str, Any]:
    """An export with so many runs, that is not at the other studio yet."""
    recipe = studio.with_recipe()
    for _ in range(runs):
        run = uuid4()
        studio.put_run(run, make_run(recipe))
        studio.post(run, make_entry(run), make_entry(run, kind="finished", body={}))
    everything: dict[str, Any] = studio.get("/export").json
    return everything


def test_while_a_large_file_is_taken_in_others_write(
    studio: Studio, other_studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    everything = large(studio, other_studio)
    written = []

    def write_meanwhile(_seconds: float) -> None:
        written.append(other_studio.put_recipe(uuid4(), make_recipe()).status_code)

    monkeypatch.setattr(exchange, "TURN_SECONDS", 0)
    monkeypatch.setattr(exchange.time, "sleep", write_meanwhile)
    taken = other_studio.import_(everything)

    assert (taken.status_code, taken.json["refused"]) == (200, [])
    assert len(written) >= 6 and set(written) == {201}
    assert other_studio.get("/export").json["runs"] == everything["runs"]


def test_an_import_that_was_cut_off_says_so_and_is_sent_again(
    studio: Studio, other_studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    everything = large(studio, other_studio)
    begin, count = exchange.begin_run, itertools.count()

    def fail_at_the_fourth(*given: Any) -> Any:
        if next(count) == 3:
            raise OperationalError("INSERT", {}, sqlite3.OperationalError("database or disk is full"))
        return begin(*given)

    with monkeypatch.context() as patched:
        patched.setattr(exchange, "TURN_SECONDS", 0)
        patched.setattr(exchange.time, "sleep", lambda _: None)
        patched.setattr(exchange, "begin_run", fail_at_the_fourth)
        cut = other_studio.import_(everything)

    assert cut.status_code == 503
    assert "disk is full" in cut.json["detail"] and "Send it again" in cut.json["detail"]
    assert other_studio.get("/runs").json["total"] == 3
    again = other_studio.import_(everything).json
    assert (again["had"], again["refused"]) == (10, [])
    assert other_studio.get("/export").json["runs"] == everything["runs"]


def test_nothing_of_a_file_that_is_not_as_it_should_be_is_kept(studio: Studio, other_studio: Studio) -> None:
    everything = large(studio, other_studio)
    everything["runs"][5]["size"] = {"pieces": "many"}

    taken = other_studio.import_(everything)

    assert taken.status_code == 422
    assert "runs.5.size.pieces" in {each["field"] for each in taken.json["errors"]}
    assert other_studio.get("/recipes").json["total"] == 0


def test_a_file_that_is_too_large_for_the_api_is_told_how_else(new_app: Any) -> None:
    studio = Studio(new_app(import_limit=1000).test_client())

    refused = studio.import_({"format": "x" * 2000})

    assert refused.status_code == 413
    assert "bowlside import" in refused.json["detail"] and "1000 bytes" in refused.json["detail"]


def test_what_was_taken_in_and_out_is_noted(studio: Studio, other_studio: Studio) -> None:
    other_studio.import_(large(studio, other_studio, runs=1))

    noted = [each["what"] for each in other_studio.get("/audit").json["audit"]]
    assert noted[0] == "imported"
    assert studio.get("/audit").json["audit"][0]["what"] == "exported"
