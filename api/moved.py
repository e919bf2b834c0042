"""A studio that moved away: the old place refuses every write, in earlier versions of this program too.

The database itself refuses, by triggers, so it makes no difference who writes. Reading goes on. What says
what was done to the database (audit) may still grow.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from sqlalchemy import Connection, select, text, update
from sqlalchemy.engine import make_url
from sqlalchemy.exc import DBAPIError

from api.move_studio import GROWS, tables_of
from api.settings import Settings
from api.store import on_postgresql
from api.tables import Device, Studio
from bench import words

TYPE = "/problems/moved"
# What the database itself says: in one language, in studios that moved with earlier versions too.
_SAID = re.compile(r"This studio has moved to (.*?)\. Open it there\.")
_FUNCTION = "studio_has_moved"
_CHANGES = ("INSERT", "UPDATE", "DELETE")


class MovedError(Exception):
    """The studio is no longer here; the text says where it is."""

    def __init__(self, place: str) -> None:
        super().__init__(place)
        self.place = place

    def __str__(self) -> str:
        return says(self.place)


def says(place: str) -> str:
    return words.say("api-copies-has-moved", place=place)


def place_of(settings: Settings) -> str:
    """Where a studio is, in words that may be shown: an address without its password, or a file."""
    if not settings.database_url:
        return str(settings.database.absolute())
    shown = make_url(settings.database_url).set(password=None)
    return shown.set(
        query={key: value for key, value in shown.query.items() if key != "password"}
    ).render_as_string()


def went_to(connection: Connection) -> str | None:
    """Where the studio went; None while it is here."""
    place: str | None = connection.scalar(select(Studio.moved_to))
    return place


def stay(connection: Connection) -> None:
    """MovedError when the studio is not here any more."""
    if (place := went_to(connection)) is not None:
        raise MovedError(place)


def close_behind(connection: Connection, place: str, at: int) -> None:
    """Say where the studio went, and refuse every write from now on."""
    connection.execute(update(Studio).values(moved_to=place, moved_at=at))
    for statement in _closing(connection, place.replace("'", "''")):
        _run(connection, statement)


def open_again(connection: Connection) -> None:
    """Let the old place be the studio again. What was written at the other since is not here."""
    for name, _ in _triggers(connection):
        drop = f"DROP TRIGGER IF EXISTS {name}"
        _run(connection, f"{drop} ON {_table_of(name)}" if on_postgresql(connection) else drop)
    if on_postgresql(connection):
        _run(connection, f"DROP FUNCTION IF EXISTS {_FUNCTION}")
    connection.execute(update(Studio).values(moved_to=None, moved_at=None))


def refusal_in(error: BaseException) -> str | None:
    """The place that a database's refusal names; None when the error is of another kind."""
    cause = error.orig if isinstance(error, DBAPIError) else error
    found = _SAID.search(str(cause).replace("\n", " "))
    return found[1] if found else None


def _run(connection: Connection, statement: str) -> None:
    connection.execute(text(statement.replace(":", r"\:")))


def _triggers(connection: Connection) -> Iterator[tuple[str, str]]:
    """Each trigger's name and what it comes before. When a device was last seen may be noted still."""
    for table in tables_of(connection):
        if table.name == GROWS:
            continue
        for change in _CHANGES:
            before = change
            if table.name == Device.__tablename__ and change == "UPDATE":
                before = "UPDATE OF " + ", ".join(
                    each.name for each in table.columns if each.name != Device.seen_at.key
                )
            yield f"moved_{table.name}_{change.lower()}", f"{before} ON {table.name}"


def _table_of(trigger: str) -> str:
    return trigger.removeprefix("moved_").rpartition("_")[0]


def _closing(connection: Connection, place: str) -> Iterator[str]:
    if not on_postgresql(connection):
        for name, before in _triggers(connection):
            yield (
                f"CREATE TRIGGER {name} BEFORE {before} BEGIN SELECT RAISE(ABORT,"
                f" 'This studio has moved to {place}. Open it there.'); END"
            )
        return
    yield (
        f"CREATE OR REPLACE FUNCTION {_FUNCTION}() RETURNS trigger LANGUAGE plpgsql AS"
        " $moved$ BEGIN RAISE EXCEPTION USING MESSAGE ="
        f" 'This studio has moved to {place}. Open it there.'; END $moved$"
    )
    for name, before in _triggers(connection):
        yield f"CREATE TRIGGER {name} BEFORE {before} FOR EACH STATEMENT EXECUTE FUNCTION {_FUNCTION}()"
