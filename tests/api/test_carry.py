"""Rows go from one database to another as they are, between both kinds."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import insert, text

from api import carry, create_app, store
from api.settings import Settings
from api.store import reading, writing
from api.tables import Device, Pairing, Plan, PlannedRun
from tests.api.studio import Studio
from tests.make import EVENINGS, make_entry, make_recipe, uuid4


def furnish(app: Any) -> str:
    """Recipes, a finished run and another with its plan, bench hours, a paired device and a code; gives the run's id."""
    studio = Studio(app.test_client())
    run, other = studio.with_run(), studio.with_run()
    for _ in range(3):  # so that the numbers of one run have gaps
        studio.post(run, make_entry(run, body={"text": "ö 🧼 'quoted' \\ \n"}))
        studio.post(other, make_entry(other))
    studio.post(run, make_entry(run, kind="finished", body={}))
    recipe = studio.with_recipe(title="Zest")
    studio.put_recipe(recipe["id"], make_recipe(title="äther"), if_match=studio.tag(1))
    studio.put_hours(EVENINGS)
    device = {"id": uuid4(), "name": "Bench", "role": "maker", "secret_sha256": "5ec7e7" * 10}
    with app.app_context(), writing() as connection:
        connection.execute(insert(Device).values(**device, paired_at=1, seen_at=2))
        plan = {
            "id": uuid4(),
            "asked": "{}",
            "asked_at": 1,
            "state": "made",
            "beat_at": 2,
            "cancelled": False,
        }
        connection.execute(insert(Plan).values(**plan, made='{"plan":null}'))
        connection.execute(insert(PlannedRun).values(run_id=other, plan_id=plan["id"]))
        connection.execute(
            insert(Pairing).values(
                code_sha256="c0de" * 16, role="helper", made_at=1, expires_at=2, tries_left=5
            )
        )
    return run


def all_rows(app: Any, *, secrets: bool = False) -> list[carry.Row]:
    with app.app_context(), reading() as connection:
        return list(carry.rows(connection, secrets=secrets))


@pytest.fixture
def other_kind(
    database: Callable[[], dict[str, Any]], cluster: Any, empty_postgresql: str, tmp_path: Any
) -> Any:
    """An empty application on the other kind of database."""
    name = cluster.create(empty_postgresql)
    on_file = "database_url" in database()
    file = tmp_path / "other.sqlite3"
    app = create_app(Settings(database=file, **({} if on_file else {"database_url": cluster.url(name)})))
    store.migrate(app)
    yield app
    store.close(app)
    cluster.drop(name)


def test_there_and_back_is_the_same_rows_in_the_same_order(app: Any, other_kind: Any, new_app: Any) -> None:
    furnish(app)
    home = new_app()

    for source, target in ((app, other_kind), (other_kind, home)):
        with source.app_context(), reading() as here, target.app_context(), writing() as there:
            counts = carry.copy_over(here, there, secrets=True)

    assert all_rows(home, secrets=True) == all_rows(app, secrets=True) == all_rows(other_kind, secrets=True)
    assert counts == {
        "recipe": 3,
        "recipe_version": 4,
        "run": 2,
        "entry": 7,
        "device": 1,
        "bench_hours": 1,
        "plan": 1,
        "planned_run": 1,
    }


def test_a_studio_carried_over_is_read_and_written_on(app: Any, other_kind: Any) -> None:
    run = furnish(app)
    with app.app_context(), reading() as here, other_kind.app_context(), writing() as there:
        carry.copy_over(here, there)
    studio, moved = Studio(app.test_client()), Studio(other_kind.test_client())

    assert moved.get(f"/runs/{run}").data == studio.get(f"/runs/{run}").data
    last = moved.get(f"/runs/{run}/entries").json["cursor"]
    moved.post(run, make_entry(run))
    assert len(moved.get(f"/runs/{run}/entries?after={last}").json["entries"]) == 1


def test_a_number_that_was_given_once_is_not_given_again_elsewhere(app: Any, other_kind: Any) -> None:
    run = furnish(app)
    last = Studio(app.test_client()).post(run, make_entry(run)).json["cursor"]
    with app.app_context(), writing() as connection:
        connection.execute(text("DELETE FROM entry WHERE seq = :last"), {"last": last})
    with app.app_context(), reading() as here, other_kind.app_context(), writing() as there:
        carry.copy_over(here, there)

    assert Studio(other_kind.test_client()).post(run, make_entry(run)).json["cursor"] > last


def test_no_secret_is_carried_unless_asked_for_and_never_a_code(app: Any) -> None:
    furnish(app)

    said = str(all_rows(app))

    assert "Bench" in said
    assert "5ec7e7" not in said
    assert "5ec7e7" in str(all_rows(app, secrets=True))
    assert "c0de" not in str(all_rows(app, secrets=True))


def test_an_emptied_database_is_empty(app: Any) -> None:
    furnish(app)
    with app.app_context(), writing() as connection:
        assert not carry.is_empty(connection)
        carry.empty(connection)
        assert carry.is_empty(connection)
        assert connection.execute(text("SELECT count(*) FROM pairing")).scalar() == 0
