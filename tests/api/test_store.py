from __future__ import annotations

import sqlite3
import threading
from pathlib import Path
from typing import Any

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from flask_migrate import downgrade, upgrade
from sqlalchemy import text

from api import create_app, store
from api.settings import Settings
from api.store import reading, writing
from api.tables import Base, db
from tests.api.studio import Studio
from tests.make import make_entry

EXPECTED_PRAGMAS = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 5000}


def test_the_database_is_opened_for_full_durability(app: Any) -> None:
    with app.app_context(), reading() as connection:
        found = {name: connection.execute(text(f"PRAGMA {name}")).scalar() for name in EXPECTED_PRAGMAS}

    assert found == EXPECTED_PRAGMAS


def test_a_transaction_that_reads_then_writes_loses_no_update(app: Any) -> None:
    with app.app_context(), writing() as connection:
        connection.execute(text("CREATE TABLE tally (n INTEGER)"))
        connection.execute(text("INSERT INTO tally VALUES (0)"))

    def add_twenty() -> None:
        for _ in range(20):
            with app.app_context(), writing() as connection:
                n = connection.execute(text("SELECT n FROM tally")).scalar() or 0
                connection.execute(text("UPDATE tally SET n = :n"), {"n": n + 1})

    threads = [threading.Thread(target=add_twenty) for _ in range(5)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    with app.app_context(), reading() as connection:
        assert connection.execute(text("SELECT n FROM tally")).scalar() == 100


def test_a_reader_does_not_wait_for_a_writer(studio: Studio, app: Any) -> None:
    run = studio.with_run()
    with app.app_context(), writing():
        assert studio.get(f"/runs/{run}").status_code == 200
        assert studio.get("/recipes").status_code == 200


def test_the_migrations_go_forward_and_back_and_agree_with_the_tables(tmp_path: Path) -> None:
    app = create_app(Settings(database=tmp_path / "new" / "bowlside.sqlite3"))

    with app.app_context():
        upgrade()
        with db.engine.connect() as connection:
            assert compare_metadata(MigrationContext.configure(connection), Base.metadata) == []
        downgrade(revision="base")
        with db.engine.connect() as connection:
            left = connection.execute(text("SELECT name FROM sqlite_master WHERE type = 'table'")).scalars()
            assert set(left) <= {"alembic_version", "sqlite_sequence"}
        upgrade()


def test_migrating_again_keeps_everything(studio: Studio, app: Any) -> None:
    run = studio.with_run()
    studio.post(run, make_entry(run))

    store.migrate(app)

    assert studio.get(f"/runs/{run}").json["entries"] == 1


def test_the_cursor_is_never_given_twice(studio: Studio, app: Any) -> None:
    run = studio.with_run()
    first = studio.post(run, make_entry(run)).json["cursor"]
    with sqlite3.connect(app.config["BOWLSIDE"].database) as connection:
        connection.execute("DELETE FROM entry")

    assert studio.post(run, make_entry(run)).json["cursor"] > first
