"""All rows out of a database, and into another: what a copy and a move are made of.

A row is carried as it is kept, byte for byte: a sheet is copied, not made again. Tables are found, not
listed, so that one that comes later is carried too. Bytes are carried as Base64, so that a row is JSON.
"""

from __future__ import annotations

from base64 import b64decode, b64encode
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import Any

from sqlalchemy import Column, Connection, LargeBinary, String, Table, column, insert, select, table
from sqlalchemy.sql.elements import ColumnElement

from api.store import last_number, number_after, on_postgresql
from api.tables import Audit, Device, Pairing, Studio, db

Row = tuple[str, dict[str, Any]]

# Codes live for minutes, and are secrets. What a database is, and what was done to it, is its own.
STAYS = (Pairing.__table__, Studio.__table__, Audit.__table__)
SECRET = Device.__table__.c.secret_sha256
AT_ONCE = 500
# Of rows that hold pictures, which are large.
FEW = 8


def rows(connection: Connection, *, secrets: bool = False) -> Iterator[Row]:
    """Every row as (table, {column: value}), what is pointed at before what points at it.

    Without `secrets` a device is carried as a name only, and has to pair again.
    """
    for each in _tables():
        order = [_bytewise(key, connection) for key in each.primary_key.columns]
        bulky = _bytes_in(each.name)
        found = connection.execution_options(yield_per=FEW if bulky else AT_ONCE).execute(
            select(each).order_by(*order)
        )
        for row in found.mappings():
            said = dict(row)
            if each is SECRET.table and not secrets:
                said[SECRET.name] = ""
            for name in bulky:
                said[name] = said[name] and b64encode(said[name]).decode()
            yield each.name, said


def fill(connection: Connection, carried: Iterable[Row]) -> dict[str, int]:
    """Add rows to a database that lacks them; gives how many by table."""
    counts: Counter[str] = Counter()
    for (name, columns), alike in groupby(carried, key=lambda row: (row[0], tuple(row[1]))):
        into = insert(table(name, *(column(each) for each in columns)))
        bulky = _bytes_in(name)
        values = ({**row, **{each: row[each] and b64decode(row[each]) for each in bulky}} for _, row in alike)
        while batch := [row for row, _ in zip(values, range(FEW if bulky else AT_ONCE), strict=False)]:
            connection.execute(into, batch)
            counts[name] += len(batch)
    return dict(counts)


def empty(connection: Connection) -> None:
    """Take out every row, codes and all; what the database is and what was done to it stays."""
    for each in reversed(db.metadata.sorted_tables):
        if each not in STAYS or each is Pairing.__table__:
            connection.execute(each.delete())


def is_empty(connection: Connection) -> bool:
    return not any(connection.execute(select(each).limit(1)).first() for each in _tables())


def copy_over(source: Connection, target: Connection, *, secrets: bool = False) -> dict[str, int]:
    """Fill an empty database from another, so that it numbers entries on from there; gives counts."""
    counts = fill(target, rows(source, secrets=secrets))
    number_after(target, last_number(source))
    return counts


def _tables() -> list[Table]:
    return [each for each in db.metadata.sorted_tables if each not in STAYS]


def _bytes_in(name: str) -> list[str]:
    """A table's columns of bytes."""
    known = db.metadata.tables.get(name)
    return (
        [] if known is None else [each.name for each in known.columns if isinstance(each.type, LargeBinary)]
    )


def _bytewise(key: Column[Any], connection: Connection) -> ColumnElement[Any]:
    """The key in the order that both databases have, whatever language one was set up for."""
    return key.collate("C") if isinstance(key.type, String) and on_postgresql(connection) else key
