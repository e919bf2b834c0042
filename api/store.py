"""The database: how it is opened, how a transaction begins, and how its tables come up to date.

One file of SQLite's, unless the settings name a PostgreSQL server. Both are asked in the same SQL;
what they word or lock differently is in this module alone. What was answered is on the disk, through
a power cut too: SQLite in WAL mode with `synchronous=FULL`
(https://www.sqlite.org/pragma.html#pragma_synchronous), PostgreSQL as it comes.

A transaction that may write takes its lock when it begins, because one that reads first and locks
later can lose another's update without a word.
"""

from __future__ import annotations

import re
import sqlite3
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from functools import lru_cache
from pathlib import Path
from typing import Any

from flask import Flask, current_app
from flask_migrate import Migrate, upgrade
from sqlalchemy import Connection, Engine, event
from sqlalchemy.exc import OperationalError

from api.places import MIGRATIONS
from api.settings import Settings
from api.tables import db

BUSY_TIMEOUT_MS = 5_000
LOCK_TRIES = 4
READERS = "bowlside_readers"
WRITERS = "bowlside_writers"
FIRST_LOOK = "bowlside_first_look"

# Ends a SELECT: let no other transaction hold these rows until this one ends. SQLite, where who writes is
# alone, reads it as a remark.
HOLD = "/* hold */"
# The same, but others may hold them so too.
HOLD_SHARED = "/* hold, with others */"
# Any number of ours, among the advisory locks of a PostgreSQL database.
WRITING_ALONE = 8420

ITS_WORDS = (
    ("group_concat(text, ',')", "string_agg(text, ',' ORDER BY seq)"),
    (HOLD, "FOR NO KEY UPDATE"),
    ("json_extract(sheet, '$.kit')", "sheet::json->>'kit'"),
    ("json_extract(measured, '$.keeps_months')", "measured::json->>'keeps_months'"),
    ("json_extract(document, '$.trial.recipe')", "document::json->'trial'->>'recipe'"),
    (HOLD_SHARED, "FOR SHARE"),
)

# Connections of one process: what several of them take together stays under the hundred that a
# server gives out when nobody says otherwise. None beyond the pool, for those are opened and closed
# again for a single request.
POSTGRESQL: dict[str, object] = {
    "pool_size": 16,
    "max_overflow": 0,
    "pool_timeout": BUSY_TIMEOUT_MS / 1000,
    "connect_args": {"connect_timeout": 5, "options": f"-c lock_timeout={BUSY_TIMEOUT_MS}"},
}
ONE_VIEW: dict[str, dict[str, bool | str]] = {
    "sqlite": {"bowlside_reads": True},
    "postgresql": {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True},
}


def init_app(app: Flask) -> None:
    settings = app.config["BOWLSIDE"]
    app.extensions[READERS] = None if settings.database_url else threading.local()
    app.extensions[WRITERS] = threading.Lock()
    app.config["SQLALCHEMY_ENGINE_OPTIONS"] = {
        "hide_parameters": True,  # what was written, and hashes of secrets, must stay out of logs
        **(POSTGRESQL if settings.database_url else {}),
    }
    db.init_app(app)
    Migrate(app, db, directory=str(MIGRATIONS))
    if not settings.database_url:
        settings.database.parent.mkdir(parents=True, exist_ok=True)
        with app.app_context():
            event.listen(db.engine, "connect", lambda *_: keep_to_owner(settings.database))
            event.listen(db.engine, "connect", _prepare_sqlite)
            event.listen(db.engine, "begin", _begin_sqlite)


def alone(settings: Settings) -> Flask:
    """An application that has a database and answers nobody: what a copy is laid out in."""
    app = Flask(__name__, static_folder=None)
    app.config.from_mapping(settings.as_flask_config())
    init_app(app)
    return app


def before_writing(app: Flask, look: Callable[[Connection], None]) -> None:
    """Let this be called at the start of each transaction that writes, but one of `one_statement`; what it
    raises ends that one."""
    app.extensions.setdefault(FIRST_LOOK, []).append(look)


def migrate(app: Flask) -> None:
    """Bring the tables up to date, from nothing too."""
    with app.app_context():
        upgrade()


def keep_to_owner(database: Path) -> None:
    """Let nobody but its owner read a SQLite file, nor what stands beside it; what SQLite makes anew follows it."""
    for end in ("", "-wal", "-shm", "-journal"):
        file = database.with_name(database.name + end)
        with suppress(OSError):  # not there, or another's, who has to do it
            if file.stat().st_mode & 0o077:
                file.chmod(0o600)


def close(app: Flask) -> None:
    """Close what is open; a process that forks must not share its connections with its children."""
    with app.app_context():
        db.engine.dispose()
    if app.extensions[READERS] is not None:
        app.extensions[READERS] = threading.local()


@contextmanager
def reading() -> Iterator[Connection]:
    """One consistent view of the database, that waits for no writer."""
    with db.engine.connect() as connection:
        yield connection.execution_options(**ONE_VIEW[connection.dialect.name])


@contextmanager
def writing(*, alone: bool = True, one_statement: bool = False) -> Iterator[Connection]:
    """A transaction that holds the write lock; kept whole at the end, or not at all.

    One that is not `alone` may go beside others where the database can do that, and holds by itself
    what it changes (`HOLD`). When all that it changes is by `one_statement`, that is a transaction in
    itself there, and two round trips are saved.
    """
    if on_postgresql(db.engine) and one_statement:
        with db.engine.connect() as connection:
            yield connection.execution_options(isolation_level="AUTOCOMMIT")
        return
    if on_postgresql(db.engine):
        with db.engine.begin() as connection:
            if alone:
                hold_all(connection)
            _look_first(connection)
            yield connection
        return
    with _turn(), db.engine.begin() as connection:
        _look_first(connection)
        yield connection


def _look_first(connection: Connection) -> None:
    for look in current_app.extensions.get(FIRST_LOOK, ()):
        look(connection)


@contextmanager
def closed_to_writers() -> Iterator[Connection]:
    """A transaction beside which nobody else writes a row, entries neither; reading goes on.

    On PostgreSQL those who write may wait for each other's tables and ours; then we step back and try again.
    """
    for attempt in range(1, LOCK_TRIES + 1):
        with ExitStack() as stack:
            connection = stack.enter_context(writing())
            if on_postgresql(connection):
                try:
                    execute(connection, f"LOCK TABLE {', '.join(db.metadata.tables)} IN EXCLUSIVE MODE", {})
                except OperationalError:
                    if attempt == LOCK_TRIES:
                        raise
                    continue
            yield connection
            return


def read_row(sql: str, values: Mapping[str, object]) -> Any:
    """One row by one statement, or None: what phones ask all day.

    On SQLite by a connection that the thread keeps for this, because taking one from the pool costs
    more than such a statement does.
    """
    thread = current_app.extensions[READERS]
    if thread is None:
        with db.engine.connect() as connection:
            connection.execution_options(isolation_level="AUTOCOMMIT")
            return execute(connection, sql, values).fetchone()
    if not hasattr(thread, "connection"):
        thread.connection = sqlite3.connect(current_app.config["BOWLSIDE"].database)
        _prepare_sqlite(thread.connection, None)
    return thread.connection.execute(sql, values).fetchone()


def execute(connection: Connection, sql: str, values: Mapping[str, object]) -> Any:
    """Run a statement in the connection's transaction; gives its cursor.

    For the statements that phones cause all day: by the driver, and nothing in between. Written as
    SQLite takes it, with `:name` for a value.
    """
    if on_postgresql(connection):
        return connection.exec_driver_sql(_for_postgresql(sql), dict(values))
    sqlite = connection.connection.driver_connection
    assert isinstance(sqlite, sqlite3.Connection)
    return sqlite.execute(sql, values)


# The journals' tables; a copy knows one number for both.
NUMBERED = ("entry", "shelf_entry")


def last_number(connection: Connection) -> int:
    """The last number that was given to an entry, of whichever journal, deleted ones too; 0 for none."""
    if on_postgresql(connection):
        given = " UNION ALL ".join(
            f"SELECT CASE WHEN is_called THEN last_value ELSE 0 END AS seq FROM {each}_seq_seq"
            for each in NUMBERED
        )
    else:
        names = ", ".join(f"'{each}'" for each in NUMBERED)
        given = f"SELECT seq FROM sqlite_sequence WHERE name IN ({names})"
    found = execute(connection, f"SELECT coalesce(max(seq), 0) FROM ({given}) AS given", {}).fetchone()
    number: int = found[0]
    return number


def number_after(connection: Connection, number: int) -> None:
    """Let the next entry's number be greater than this one, in each journal."""
    for each in NUMBERED:
        if on_postgresql(connection):
            execute(connection, f"SELECT setval('{each}_seq_seq', greatest(:n, 1), :n > 0)", {"n": number})
            continue
        execute(connection, "DELETE FROM sqlite_sequence WHERE name = :name", {"name": each})
        execute(
            connection,
            "INSERT INTO sqlite_sequence (name, seq) VALUES (:name, :n)",
            {"name": each, "n": number},
        )


def hold_all(connection: Connection) -> None:
    """Let no other transaction that wants to be alone begin until this one ends."""
    if on_postgresql(connection):
        execute(connection, "SELECT pg_advisory_xact_lock(:lock)", {"lock": WRITING_ALONE})


def forget(table: str) -> None:
    """After rows of a small table were changed: let no file of the database hold what they said before.

    Beyond that lie PostgreSQL's own log, for as long as it is kept, and what the disk under it remembers.
    """
    with db.engine.connect() as connection:
        free = connection.execution_options(isolation_level="AUTOCOMMIT")
        if on_postgresql(connection):
            free.exec_driver_sql(f"VACUUM FULL {table}")
            return
    with _turn(), sqlite3.connect(current_app.config["BOWLSIDE"].database) as alone:
        _prepare_sqlite(alone, None)
        alone.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def on_postgresql(bind: Connection | Engine) -> bool:
    return bind.dialect.name == "postgresql"


@lru_cache
def _for_postgresql(sql: str) -> str:
    """SQL as SQLite takes it, in the driver's and PostgreSQL's words."""
    named = re.sub(r"(?<!:):(\w+)", r"%(\1)s", sql)
    for words, its_words in ITS_WORDS:
        named = named.replace(words, its_words)
    return named


@contextmanager
def _turn() -> Iterator[None]:
    """SQLite's writers of this process, each in its turn.

    Left to SQLite they would sleep and try again, and where there are many, some would for seconds.
    """
    writers = current_app.extensions[WRITERS]
    if not writers.acquire(timeout=BUSY_TIMEOUT_MS / 1000):
        raise sqlite3.OperationalError("database is locked")
    try:
        yield
    finally:
        writers.release()


def _prepare_sqlite(connection: sqlite3.Connection, _record: Any) -> None:
    connection.isolation_level = None  # the driver would begin transactions at moments of its own
    for pragma in (
        f"busy_timeout={BUSY_TIMEOUT_MS}",
        "journal_mode=WAL",
        "synchronous=FULL",
        "foreign_keys=ON",
        "secure_delete=ON",  # what was erased is written over, and not only let go
    ):
        connection.execute(f"PRAGMA {pragma}")


def _begin_sqlite(connection: Connection) -> None:
    reads = connection.get_execution_options().get("bowlside_reads", False)
    connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")
