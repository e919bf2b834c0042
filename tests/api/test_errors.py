"""Every way a request can fail leaves as problem details that name the field and the way out."""

from __future__ import annotations

import logging
import sqlite3
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from api import create_app
from api.kit import STARTER_KIT
from api.settings import MIB, Settings
from api.store import writing
from api.tables import db
from tests.api.studio import Studio
from tests.make import make_entry, make_recipe, make_run, uuid4

# What is wrong is found out before the database is asked, which is not the subject.
pytestmark = pytest.mark.database("sqlite")


def is_problem(answer: Any, status: int) -> bool:
    return (
        answer.status_code == status
        and answer.mimetype == "application/problem+json"
        and answer.json["status"] == status
        and bool(answer.json["title"] and answer.json["detail"])
        and isinstance(answer.json["errors"], list)
    )


def send(client: Any, body: bytes, content_type: str = "application/json") -> Any:
    return client.put("/api/v1/kit", data=body, content_type=content_type)


@pytest.mark.parametrize("body", [b"", b"{", b"\xff", b"[" * 100_000, b'{"a":' * 60 + b"1" + b"}" * 60])
def test_400_what_is_not_json_or_nested_too_deep(client: Any, body: bytes) -> None:
    assert is_problem(send(client, body), 400)


@pytest.mark.parametrize("path", ["/nope", "/api/v1/nope", "/api/v1/runs/7", "/../api/cli.py", "/%00"])
def test_404_what_is_not_here(client: Any, path: str) -> None:
    assert is_problem(client.get(path), 404)


def test_404_a_version_that_is_not_here(studio: Studio) -> None:
    recipe = studio.with_recipe()

    for version in ("2", "0", "99999999999999999999"):
        assert is_problem(studio.get(f"/recipes/{recipe['id']}/versions/{version}"), 404)


def test_405_names_what_the_address_takes(client: Any) -> None:
    answer = client.delete("/api/v1/kit")

    assert is_problem(answer, 405)
    assert "GET" in answer.headers["Allow"]


def test_405_for_reading_what_can_only_be_sent(client: Any) -> None:
    answer = client.get("/api/v1/import")

    assert is_problem(answer, 405)
    assert "GET" not in answer.headers["Allow"]


def test_409_412_and_428_are_problems(studio: Studio) -> None:
    recipe, run = studio.with_recipe(), uuid4()
    studio.put_run(run, make_run(recipe))

    assert is_problem(studio.put_run(run, make_run(recipe, pieces=3)), 409)
    assert is_problem(studio.put_recipe(recipe["id"], make_recipe(title="x"), if_match=studio.tag(9)), 412)
    assert is_problem(studio.put_recipe(recipe["id"], make_recipe(title="x")), 428)


def test_413_a_body_of_50_mb_on_every_address_that_takes_one(studio: Studio) -> None:
    run = studio.with_run()
    body = b" " * (50 * MIB)

    for method, path in (
        ("put", "/kit"),
        ("put", f"/recipes/{uuid4()}"),
        ("put", f"/runs/{uuid4()}"),
        ("post", f"/runs/{run}/entries"),
        ("post", "/import"),
    ):
        answer = getattr(studio.client, method)(f"/api/v1{path}", data=body, content_type="application/json")
        assert is_problem(answer, 413), path


@pytest.mark.database("sqlite")
def test_413_a_body_of_chunks_that_says_no_length(new_app: Any) -> None:
    client = new_app(body_limit=100, import_limit=100, picture_limit=100).test_client()
    studio = Studio(client)
    run = uuid4()

    for method, path, kind in (
        ("PUT", "/kit", "application/json"),
        ("PUT", f"/recipes/{run}", "application/json"),
        ("POST", f"/runs/{run}/entries", "application/json"),
        ("POST", "/import", "application/json"),
        ("PUT", f"/pictures/{run}", "image/jpeg"),
        ("POST", "/pair", "application/json"),
    ):
        answer = studio.client.open(
            f"/api/v1{path}",
            method=method,
            input_stream=BytesIO(b'{"a": "' + b"x" * 5000 + b'"}'),
            content_type=kind,
            headers={"Transfer-Encoding": "chunked"},
            environ_overrides={"wsgi.input_terminated": True},
        )
        assert is_problem(answer, 413), (path, answer.status, answer.text)


def test_412_to_create_what_is_here_already(studio: Studio) -> None:
    recipe = studio.with_recipe()
    only_new = {"If-None-Match": "*"}

    for path, document in (
        (f"/recipes/{recipe['id']}", make_recipe(title="x")),
        (f"/recipes/{recipe['id']}", make_recipe()),
        ("/kit", STARTER_KIT),
    ):
        if path == "/kit":
            studio.put_kit({**STARTER_KIT, "mixers": []})
        answer = studio.client.put(f"/api/v1{path}", json=document, headers=only_new)
        assert is_problem(answer, 412), path
    assert (
        studio.client.put(f"/api/v1/recipes/{uuid4()}", json=make_recipe(), headers=only_new).status_code
        == 201
    )


def test_a_number_with_a_point_is_refused_for_the_point(client: Any) -> None:
    said = send(client, b'{"a": 400.0}').json["errors"][0]["detail"]

    assert "400, not 400.0" in said


def test_415_what_is_not_sent_as_json(client: Any) -> None:
    assert is_problem(send(client, b"{}", "text/plain"), 415)
    assert is_problem(client.put("/api/v1/kit", data=b"{}"), 415)


@pytest.mark.parametrize(
    ("body", "field"),
    [
        (b'{"a": {"b": [1.5]}}', "a.b.0"),
        (b'{"a": NaN}', "a"),
        (b'{"a": 9007199254740992}', "a"),
        (b'{"a": "\\u0000"}', "a"),
        (b'{"a": "\\ud800"}', "a"),
        (b'{"\\ud800": 1}', ""),
    ],
)
def test_422_what_cannot_be_kept_exactly(client: Any, body: bytes, field: str) -> None:
    answer = send(client, body)

    assert is_problem(answer, 422)
    assert answer.json["errors"][0]["field"] == field


def test_422_a_list_where_an_object_belongs(client: Any) -> None:
    assert is_problem(send(client, b"[]"), 422)


def test_422_names_each_field(studio: Studio) -> None:
    answer = studio.put_run(uuid4(), {"recipe": {"id": "x", "version": True}, "size": {}, "colour": 1})

    assert is_problem(answer, 422)
    assert {each["field"] for each in answer.json["errors"]} == {
        "recipe.id",
        "recipe.version",
        "size.pieces",
        "colour",
    }


def test_422_names_a_field_of_a_query_that_an_address_does_not_know(studio: Studio) -> None:
    """A misspelt field left out in silence would give the answer to another question."""
    recipe, run = studio.with_recipe(), studio.with_run()
    paths = studio.client.get("/api/v1/openapi.json").json["paths"]
    asked = [
        path.format(run_id=run, recipe_id=recipe["id"], version=1, lot_id="b1", number="1")
        for path, about in paths.items()
        if any(each["in"] == "query" for each in about.get("get", {}).get("parameters", []))
    ]

    assert len(asked) > 20
    for path in asked:
        answer = studio.client.get(f"{path}?pagesize=5")
        assert is_problem(answer, 422), path
        assert "pagesize" in str(answer.json["errors"]), path


def test_500_tells_the_log_everything_and_the_asker_nothing(
    app: Any, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fault() -> int:
        raise RuntimeError("the secret of the house")

    monkeypatch.setattr("api.clock.now_ms", fault)

    answer = app.test_client().get("/api/v1/clock")

    assert is_problem(answer, 500)
    assert "secret" not in answer.text
    assert "the secret of the house" in caplog.text


@pytest.mark.database("sqlite")
def test_503_a_database_that_someone_else_holds(
    studio: Studio, app: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("api.store.BUSY_TIMEOUT_MS", 0)
    run = studio.with_run()
    with app.app_context():
        db.engine.dispose()
    holder = sqlite3.connect(app.config["BOWLSIDE"].database, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")

    answer = studio.post(run, make_entry(run))
    holder.rollback()

    assert is_problem(answer, 503)
    assert answer.headers["Retry-After"]
    assert studio.post(run, make_entry(run)).json["answers"][0]["result"] == "kept"


@pytest.mark.database("sqlite")
def test_507_a_full_disk_keeps_nothing_and_says_so(studio: Studio, app: Any) -> None:
    run = studio.with_run()
    with app.app_context(), writing() as connection:
        pages = connection.execute(text("PRAGMA page_count")).scalar()
        connection.execute(text(f"PRAGMA max_page_count = {pages}"))

    entries = [make_entry(run, body={"text": "x" * 2000}) for _ in range(100)]
    answer = studio.post(run, *entries)

    assert is_problem(answer, 507)
    assert "Nothing was saved" in answer.json["detail"]
    assert studio.get(f"/runs/{run}/entries").json["entries"] == []


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("disk I/O error", 507),
        ("attempt to write a readonly database", 507),
        ("no such table: recipe", 500),
    ],
)
def test_what_the_database_says_becomes_a_problem(
    app: Any, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture, said: str, status: int
) -> None:
    def fail(*_: Any) -> None:
        raise sqlite3.OperationalError(said)

    monkeypatch.setattr("api.runs.read_row", fail)
    caplog.set_level(logging.ERROR)

    answer = app.test_client().get(f"/api/v1/runs/{uuid4()}")

    assert is_problem(answer, status)
    assert said in caplog.text


def test_limits_are_settings(tmp_path: Path, empty_database: Path) -> None:
    app = create_app(Settings(database=empty_database, body_limit=10))

    assert is_problem(send(app.test_client(), b"{" + b" " * 20 + b"}"), 413)
