"""Brings a studio's tables up to this program's, and keeps a copy of what was there before.

A program that is older than the tables says so and touches nothing. The way back to an earlier version is
the copy that was made here, put into an empty place by that version.
"""

from __future__ import annotations

from functools import cache

from alembic.script import ScriptDirectory
from flask import Flask
from sqlalchemy import Connection, inspect, select, text

from api import audit, copies, move_studio, moved, store
from api.places import MIGRATIONS
from api.tables import Studio
from bench import words


class NewerStudio(Exception):
    """The tables are those of a later program; the text says what to do."""


def bring_up_to_date(app: Flask) -> str | None:
    """Make the tables, or migrate them after a copy; gives what was done to a studio that was there, in words."""
    with app.app_context(), store.reading() as connection:
        here = tables_here(connection)
        if here == _latest():
            return None
        has_rows = here is not None and _look(connection, here)
    if here is None:
        store.migrate(app)
        return None
    kept = None
    if has_rows:
        with app.app_context(), store.reading() as connection:
            kept = copies.keep_old(connection, f"{here}-to-{_latest()}")
    store.migrate(app)
    with app.app_context(), store.writing() as connection:
        audit.note(connection, "migrated", tables=_latest(), was=here, file=kept.name if kept else "")
    if kept is None:
        return None
    return words.say("api-copies-brought-up", was=here, tables=_latest(), file=str(kept))


def is_there(app: Flask) -> bool:
    """Whether there are tables of a studio's at all."""
    with app.app_context(), store.reading() as connection:
        return tables_here(connection) is not None


def tables_here(connection: Connection) -> str | None:
    """The tables' version, None where there are none."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    version: str | None = connection.scalar(text("SELECT version_num FROM alembic_version"))
    return version


def _look(connection: Connection, here: str) -> bool:
    """Whether there is anything to keep; raises when this program must not touch it."""
    known = [each.revision for each in ScriptDirectory(str(MIGRATIONS)).walk_revisions()]
    if here not in known:
        raise NewerStudio(words.say("api-copies-newer-studio", tables=here, latest=_latest()))
    if inspect(connection).has_table(Studio.__tablename__):
        place = connection.scalar(select(Studio.moved_to))
        if place is not None:
            raise moved.MovedError(place)
    return not move_studio.is_empty(connection)


@cache
def _latest() -> str:
    head = ScriptDirectory(str(MIGRATIONS)).get_current_head()
    assert head is not None
    return head
