"""New tables: a copy first, a way back, and an older program that touches nothing."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from alembic.script import ScriptDirectory
from click.testing import CliRunner
from flask_migrate import downgrade, upgrade
from sqlalchemy import event, text

from api import copies, copyfile, create_app, move_studio, scratch, store, upgrading
from api.cli import main
from api.places import MIGRATIONS
from api.settings import Settings
from api.store import reading, writing
from tests.api.studio import Studio
from tests.api.test_copies import done_to, generation_of
from tests.api.test_former import COPY, FORMER, said_now, said_then
from tests.api.test_move_studio import all_rows
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

HEAD = ScriptDirectory(str(MIGRATIONS)).get_current_head()


@pytest.fixture
def former(database: Any, tmp_path: Path, clock: Any) -> Any:
    """A studio as the version before had it: its tables, and in them what it had copied."""
    app = create_app(Settings(**database(), clock_ms=clock))
    with app.app_context():
        downgrade(revision="0004")
        with writing() as connection:
            move_studio.fill(connection, copyfile.rows(COPY))
            store.number_after(connection, copies.read_through(COPY).reach)
    yield app
    store.close(app)


def rows_of(app: Any) -> list[move_studio.Row]:
    with app.app_context(), reading() as connection:
        return list(move_studio.rows(connection))


def test_a_copy_is_made_before_new_tables_and_leads_back(former: Any, tmp_path: Path) -> None:
    before = rows_of(former)

    said = upgrading.bring_up_to_date(former)

    (kept,) = former.config["BOWLSIDE"].copies_folder.glob("before-*")
    assert kept.name.startswith(f"before-0004-to-{HEAD}-") and said and str(kept) in said
    assert said_now(Studio(former.test_client())) == said_then(FORMER)
    assert done_to(former) == ["migrated"]
    assert upgrading.bring_up_to_date(former) is None
    # What the version before would lay out of it is what was there.
    assert list(copyfile.rows(kept)) == before
    copy = copies.read_through(kept)
    assert (copy.schema, copy.generation) == ("0004", None)
    with scratch.folder(tmp_path) as folder:
        stage = create_app(Settings(database=folder / "stage.sqlite3"))
        with stage.app_context():
            upgrade(revision="0004")
            with writing() as connection:
                move_studio.fill(connection, copyfile.rows(kept))
        assert rows_of(stage) == before
        store.close(stage)


def test_tables_can_be_taken_back_with_all_that_the_version_before_knew(former: Any) -> None:
    before = rows_of(former)
    upgrading.bring_up_to_date(former)

    with former.app_context():
        downgrade(revision="0004")

    assert rows_of(former) == before


def test_an_empty_studio_is_brought_up_to_date_without_a_copy(former: Any) -> None:
    with former.app_context(), writing() as connection:
        move_studio.empty(connection)

    assert upgrading.bring_up_to_date(former) is None
    assert not former.config["BOWLSIDE"].copies_folder.exists()
    assert generation_of(former)


def test_no_table_is_touched_when_the_copy_cannot_be_made(former: Any, monkeypatch: Any) -> None:
    before = rows_of(former)

    def fail(*_given: Any, **_more: Any) -> Any:
        raise copies.CopyError("not-written", file="all.gz", why="No space left on device")

    monkeypatch.setattr(copyfile, "write", fail)
    with pytest.raises(copies.CopyError):
        upgrading.bring_up_to_date(former)

    assert rows_of(former) == before
    with former.app_context(), reading() as connection:
        assert upgrading.tables_here(connection) == "0004"


def test_of_several_steps_all_are_kept_or_none(former: Any) -> None:
    before = rows_of(former)

    def fail_at_the_last(
        _connection: Any, _cursor: Any, statement: str, values: Any, _context: Any, _many: Any
    ) -> None:
        if statement.startswith("UPDATE alembic_version") and HEAD in f"{statement} {values}":
            raise OSError("No space left on device")

    with former.app_context():
        engine = store.db.engine
    event.listen(engine, "before_cursor_execute", fail_at_the_last)
    with pytest.raises(OSError):
        upgrading.bring_up_to_date(former)
    event.remove(engine, "before_cursor_execute", fail_at_the_last)

    with former.app_context(), reading() as connection:
        assert upgrading.tables_here(connection) == "0004"
    assert rows_of(former) == before
    assert upgrading.bring_up_to_date(former)


def test_an_older_program_says_so_and_touches_nothing(app: Any, tmp_path: Path, monkeypatch: Any) -> None:
    Studio(app.test_client()).with_run()
    with app.app_context(), writing() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0999'"))
    before = all_rows(app)
    settings = app.config["BOWLSIDE"]
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BOWLSIDE_DATABASE", str(settings.database))
    if settings.database_url:
        monkeypatch.setenv("DATABASE_URL", settings.database_url)
    (tmp_path / "x.json").write_text(json.dumps({}))

    for words in (
        ["serve", "--port", "0"],
        ["backup", "x.gz"],
        ["export", "y.json"],
        ["import", "x.json"],
        ["devices"],
        ["move", "x.sqlite3"],
        ["restore", str(COPY), "--yes"],
    ):
        told = CliRunner().invoke(main, words, catch_exceptions=False)
        assert (told.exit_code, "0999" in told.stderr, HEAD in told.stderr) == (1, True, True), words
        assert "Traceback" not in told.output
    assert all_rows(app) == before
    assert not (tmp_path / "x.gz").exists() and not (tmp_path / "y.json").exists()
