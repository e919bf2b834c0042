"""The database: how it is opened, how a transaction begins, and how its tables come up to date.

SQLite in WAL mode with `synchronous=FULL`: an entry that was answered is on the disk, through a
power cut too (https://www.sqlite.org/pragma.html#pragma_synchronous). A transaction that may write
takes the write lock when it begins, because one that reads first and locks later can lose another's
update without a word.
"""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from flask import Flask, current_app
from flask_migrate import Migrate, upgrade
from sqlalchemy import Connection, event

from api.places import MIGRATIONS
from api.tables import db

BUSY_TIMEOUT_MS = 5_000
READERS = "bowlside_readers"


def init_app(app: Flask) -> None:
    app.config["BOWLSIDE"].database.parent.mkdir(parents=True, exist_ok=True)
    app.extensions[READERS] = threading.local()
    db.init_app(app)
    Migrate(app, db, directory=str(MIGRATIONS))
    with app.app_context():
        event.listen(db.engine, "connect", _prepare_connection)
        event.listen(db.engine, "begin", _begin)


def migrate(app: Flask) -> None:
    """Bring the tables up to date, from nothing too."""
    with app.app_context():
        upgrade()


@contextmanager
def reading() -> Iterator[Connection]:
    """One consistent view of the database, that waits for no writer."""
    with db.engine.connect() as connection:
        yield connection.execution_options(bowlside_reads=True)


@contextmanager
def writing() -> Iterator[Connection]:
    """A transaction that holds the write lock; kept whole at the end, or not at all."""
    with db.engine.begin() as connection:
        yield connection


def read_row(sql: str, values: Mapping[str, Any]) -> Any:
    """One row by one statement, or None: what phones ask all day.

    By a connection that the thread keeps for this, because taking one from the pool costs more than
    such a statement does.
    """
    thread = current_app.extensions[READERS]
    if not hasattr(thread, "connection"):
        thread.connection = sqlite3.connect(current_app.config["BOWLSIDE"].database)
        _prepare_connection(thread.connection, None)
    return thread.connection.execute(sql, values).fetchone()


def driver(connection: Connection) -> sqlite3.Connection:
    """The driver's connection beneath, in the same transaction."""
    found = connection.connection.driver_connection
    assert isinstance(found, sqlite3.Connection)
    return found


def _prepare_connection(connection: sqlite3.Connection, _record: Any) -> None:
    connection.isolation_level = None  # the driver would begin transactions at moments of its own
    for pragma in (
        f"busy_timeout={BUSY_TIMEOUT_MS}",
        "journal_mode=WAL",
        "synchronous=FULL",
        "foreign_keys=ON",
    ):
        connection.execute(f"PRAGMA {pragma}")


def _begin(connection: Connection) -> None:
    reads = connection.get_execution_options().get("bowlside_reads", False)
    connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")
