"""Rows go from one database to another as they are, between both kinds."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import Boolean, Integer, LargeBinary, Table, insert, select, text

from api import audit, create_app, move_studio, store
from api.settings import Settings
from api.store import reading, writing
from api.tables import Audit, Device, Pairing, Plan, PlannedRun, db
from bench import words
from tests.api.studio import Studio
from tests.make import EVENINGS, make_entry, make_recipe, uuid4
from tests.often import BOTH_DATABASES, EITHER_DATABASE, in_chaos

pytestmark = BOTH_DATABASES


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


def all_rows(app: Any, *, secrets: bool = False) -> list[move_studio.Row]:
    """All rows but those of what was done to the database itself."""
    with app.app_context(), reading() as connection:
        return [row for row in move_studio.rows(connection, secrets=secrets) if row[0] != move_studio.GROWS]


def heap(app: Any, count: int) -> None:
    """So many rows in each table that may have more than one, with whatever is in them."""
    with app.app_context(), writing() as connection:
        for each in move_studio.tables_of(connection):
            if each.name in move_studio.STAYS:
                continue
            many = 1 if "document" in each.columns and "recipe_id" not in each.columns else count
            connection.execute(insert(each), [_row(each, number) for number in range(1, many + 1)])


def _row(of: Table, number: int) -> dict[str, Any]:
    """Keys are one number, so that what points at a row finds it."""
    row: dict[str, Any] = {}
    for each in of.columns:
        if isinstance(each.type, LargeBinary):
            row[each.name] = bytes((number % 256, 0, 255)) * 400
        elif isinstance(each.type, Boolean):
            row[each.name] = number % 2 == 0
        elif isinstance(each.type, Integer):
            row[each.name] = number if each.name in ("seq", "id") else 1
        else:
            known = {"role": "maker", "state": "open" if of.name == "want" else "made"}
            row[each.name] = known.get(each.name, f"{number:036d}")
    return row


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


@EITHER_DATABASE
def test_there_and_back_is_the_same_rows_in_the_same_order(app: Any, other_kind: Any, new_app: Any) -> None:
    furnish(app)
    home = new_app()

    for source, target in ((app, other_kind), (other_kind, home)):
        with source.app_context(), reading() as here, target.app_context(), writing() as there:
            counts = move_studio.copy_over(here, there, secrets=True)

    assert all_rows(home, secrets=True) == all_rows(app, secrets=True) == all_rows(other_kind, secrets=True)
    assert counts == {
        "recipe": 3,
        "recipe_version": 4,
        "run": 2,
        "entry": 7,
        "run_note": 6,
        "batch_figures": 1,
        "device": 1,
        "bench_hours": 1,
        "plan": 1,
        "planned_run": 1,
    }


def test_a_studio_carried_over_is_read_and_written_on(app: Any, other_kind: Any) -> None:
    run = furnish(app)
    with app.app_context(), reading() as here, other_kind.app_context(), writing() as there:
        move_studio.copy_over(here, there)
    studio, moved = Studio(app.test_client()), Studio(other_kind.test_client())

    assert moved.get(f"/runs/{run}").data == studio.get(f"/runs/{run}").data
    last = moved.get(f"/runs/{run}/entries").json["cursor"]
    moved.post(run, make_entry(run))
    assert len(moved.get(f"/runs/{run}/entries?after={last}").json["entries"]) == 1


@pytest.mark.parametrize("count", [in_chaos(1), in_chaos(move_studio.AT_ONCE), move_studio.AT_ONCE + 1])
def test_no_row_is_lost_however_many_there_are(app: Any, new_app: Any, count: int) -> None:
    heap(app, count)
    home = new_app()

    with app.app_context(), reading() as here, home.app_context(), writing() as there:
        counts = move_studio.copy_over(here, there, secrets=True)

    assert all_rows(home, secrets=True) == all_rows(app, secrets=True)
    assert {name for name, rows in counts.items() if rows != count} == (
        {"kit", "bench_hours", "studio_settings"} if count > 1 else set()
    )


@EITHER_DATABASE
def test_a_thousand_of_each_go_there_and_back(app: Any, other_kind: Any, new_app: Any) -> None:
    heap(app, 1001)
    home = new_app()

    for source, target in ((app, other_kind), (other_kind, home)):
        with source.app_context(), reading() as here, target.app_context(), writing() as there:
            move_studio.copy_over(here, there, secrets=True)

    with app.app_context(), reading() as here, home.app_context(), reading() as there:
        before, after = (move_studio.sums_of(each, secrets=True) for each in (here, there))
    assert {name: (each.rows, each.sha256) for name, each in before.items()} == {
        name: (each.rows, each.sha256) for name, each in after.items()
    }
    assert before["picture"].rows == 1001


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    ("fault", "says"),
    [
        ("BEFORE INSERT ON entry WHEN NEW.seq = 7 BEGIN SELECT RAISE(IGNORE); END", "entry: 20 sent, 19"),
        (
            "AFTER INSERT ON run WHEN NEW.id LIKE '%7' BEGIN UPDATE run SET title = 'x' WHERE id = NEW.id; END",
            "run:",
        ),
        (
            "AFTER INSERT ON picture WHEN NEW.id LIKE '%17' BEGIN INSERT INTO pairing VALUES ('', 'maker', 1, 1, 1, 1); DELETE FROM picture WHERE id = NEW.id; END",
            "picture: 20",
        ),
        ("AFTER INSERT ON kit BEGIN INSERT INTO bench_owner VALUES ('x', 'y', 1); END", "bench_owner"),
    ],
)
def test_what_does_not_arrive_as_it_was_sent_undoes_all(
    app: Any, new_app: Any, fault: str, says: str
) -> None:
    heap(app, 20)
    with app.app_context(), writing() as connection:
        connection.execute(text("DELETE FROM bench_owner"))
    home = new_app()
    with home.app_context(), writing() as connection:
        connection.exec_driver_sql(f"CREATE TRIGGER fault {fault}")

    with pytest.raises(move_studio.CarryError, match=says):
        with app.app_context(), reading() as here, home.app_context(), writing() as there:
            move_studio.copy_over(here, there)

    assert all_rows(home) == []


def test_what_was_done_to_a_database_is_added_to_and_never_taken_out(app: Any, new_app: Any) -> None:
    home = new_app()
    for each, what in ((app, "copied"), (home, "exported")):
        with each.app_context(), writing() as connection:
            audit.note(connection, what)

    for _ in range(2):
        with app.app_context(), reading() as here, home.app_context(), writing() as there:
            move_studio.empty(there)
            move_studio.copy_over(here, there)

    with home.app_context(), reading() as connection:
        done = connection.scalars(select(Audit.what).order_by(Audit.what)).all()
    assert done == ["copied", "exported"]


def test_a_number_that_was_given_once_is_not_given_again_elsewhere(app: Any, other_kind: Any) -> None:
    run = furnish(app)
    last = Studio(app.test_client()).post(run, make_entry(run)).json["cursor"]
    with app.app_context(), writing() as connection:
        connection.execute(text("DELETE FROM entry WHERE seq = :last"), {"last": last})
    with app.app_context(), reading() as here, other_kind.app_context(), writing() as there:
        move_studio.copy_over(here, there)

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
        assert not move_studio.is_empty(connection)
        move_studio.empty(connection)
        assert move_studio.is_empty(connection)
        assert connection.execute(text("SELECT count(*) FROM pairing")).scalar() == 0


def test_every_table_that_is_carried_has_its_words_in_each_language() -> None:
    for language in words.languages():
        with words.speaking(language):
            for table in set(db.metadata.tables) - move_studio.STAYS - {move_studio.GROWS}:
                assert words.say(f"cli-copies-table-{table.replace('_', '-')}", count=2).startswith("2 ")
