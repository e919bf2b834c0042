"""All rows out of a database, and into another: what a copy and a move are made of.

A row is carried as it is kept, byte for byte: a sheet is copied, not made again. Columns are found in the
database, not listed, so that one of an earlier version is carried with the tables of its time. Bytes are
carried as Base64, so that a row is JSON.

What was carried is compared with what is there then: how many rows, and a hash over all of them.
"""

from __future__ import annotations

import hashlib
import json
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import groupby, islice
from typing import Any

from sqlalchemy import Column, Connection, LargeBinary, MetaData, String, Table, func, insert, select
from sqlalchemy.sql.elements import ColumnElement

from api.store import last_number, number_after, on_postgresql
from api.tables import Audit, Device, Pairing, SteadyClock, Studio, db

Value = str | int | bytes | bool | None
Fields = dict[str, Value]  # of one row, by column
Row = tuple[str, Fields]

# Codes live for minutes, and are secrets. What a database is, is its own; so is a computer's clock.
STAYS = frozenset({Pairing.__tablename__, Studio.__tablename__, SteadyClock.__tablename__})
# It only grows: what is carried is added to what is there.
GROWS = Audit.__tablename__
SECRET = (Device.__tablename__, "secret_sha256")
AT_ONCE = 500
# Of rows that hold pictures, which are large.
FEW = 8


class CarryError(Exception):
    """What arrived is not what was carried.

    how: "unfit", "count" or "changed"; so many rows were sent of the table, so many are there.
    """

    def __init__(self, how: str, table: str, sent: int = 0, count: int = 0) -> None:
        super().__init__(how, table, sent, count)
        self.how, self.table, self.sent, self.count = how, table, sent, count

    def __str__(self) -> str:
        return f"{self.table}: {self.sent} sent, {self.count} there"


@dataclass
class Sum:
    """How many rows, and the SHA-256 over them in the order of their keys."""

    columns: tuple[str, ...]
    rows: int = 0
    # Of a table that grows, the ids that were carried.
    ids: set[str] = field(default_factory=set, repr=False, compare=False)
    _hash: hashlib._Hash = field(default_factory=hashlib.sha256, repr=False, compare=False)

    def add(self, row: Fields) -> None:
        self.rows += 1
        said = json.dumps([row[each] for each in self.columns], ensure_ascii=False, separators=(",", ":"))
        self._hash.update(said.encode() + b"\n")

    @property
    def sha256(self) -> str:
        return self._hash.hexdigest()


def rows(connection: Connection, *, secrets: bool = False) -> Iterator[Row]:
    """Every row as (table, {column: value}), what is pointed at before what points at it.

    Without `secrets` a device is carried as a name only, and has to pair again.
    """
    for each in tables_of(connection):
        if each.name not in STAYS:
            for row in _rows_of(connection, each, [column.name for column in each.columns], secrets=secrets):
                yield each.name, row


def fill(connection: Connection, carried: Iterable[Row], *, secrets: bool = False) -> dict[str, int]:
    """Add rows to a database that lacks them, and compare what is there then; gives how many by table.

    CarryError when a table does not hold just what was carried.
    """
    tables = {each.name: each for each in tables_of(connection)}
    sums: dict[str, Sum] = {}
    for (name, names), alike in groupby(carried, key=lambda row: (row[0], tuple(row[1]))):
        into = tables.get(name)
        if into is None or name in STAYS or name in sums or not set(names) <= set(into.columns.keys()):
            raise CarryError("unfit", name)
        sums[name] = Sum(names)
        _add(connection, into, (row for _, row in alike), sums[name])
    for name, into in tables.items():
        if name not in STAYS:
            _compare(connection, into, sums.get(name), secrets=secrets)
    return {name: each.rows for name, each in sums.items()}


def empty(connection: Connection) -> None:
    """Take out every row, codes and all; what the database is and what was done to it stays."""
    for each in reversed(tables_of(connection)):
        if each.name not in (GROWS, Studio.__tablename__, SteadyClock.__tablename__):
            connection.execute(each.delete())


def is_empty(connection: Connection) -> bool:
    """Whether there is no row of a studio's: what was done to the database itself is none."""
    return not any(
        connection.execute(select(each).limit(1)).first()
        for each in tables_of(connection)
        if each.name not in STAYS and each.name != GROWS
    )


def copy_over(source: Connection, target: Connection, *, secrets: bool = False) -> dict[str, int]:
    """Fill an empty database from another, so that it numbers entries on from there; gives counts."""
    counts = fill(target, rows(source, secrets=secrets), secrets=secrets)
    number_after(target, last_number(source))
    return counts


def sums_of(connection: Connection, *, secrets: bool = False) -> dict[str, Sum]:
    """The sums of all tables that have rows, but for what was done to the database itself."""
    sums: dict[str, Sum] = {}
    for name, row in rows(connection, secrets=secrets):
        if name != GROWS:
            sums.setdefault(name, Sum(tuple(row))).add(row)
    return sums


def tables_of(connection: Connection) -> list[Table]:
    """Our tables as this database has them, what is pointed at first."""
    found = MetaData()
    found.reflect(bind=connection, only=lambda name, _: name in db.metadata.tables, resolve_fks=False)
    return found.sorted_tables


def _rows_of(
    connection: Connection, source: Table, columns: Iterable[str], *, secrets: bool
) -> Iterator[Fields]:
    bulky = _bytes_in(source)
    order = [_bytewise(key, connection) for key in source.primary_key.columns]
    query = select(*(source.columns[each] for each in columns)).order_by(*order)
    for row in connection.execute(query.execution_options(yield_per=FEW if bulky else AT_ONCE)).mappings():
        said = dict(row)
        if source.name == SECRET[0] and SECRET[1] in said and not secrets:
            said[SECRET[1]] = ""
        for name in bulky:
            said[name] = said[name] and b64encode(said[name]).decode()
        yield said


def _add(connection: Connection, into: Table, carried: Iterator[Fields], said: Sum) -> None:
    bulky = _bytes_in(into)
    there = set(connection.scalars(select(into.columns.id))) if into.name == GROWS else set()
    while batch := list(islice(carried, FEW if bulky else AT_ONCE)):
        values = []
        for row in batch:
            said.add(row)
            if not there or row["id"] not in there:
                values.append(
                    {**row, **{each: (value := row[each]) and b64decode(str(value)) for each in bulky}}
                )
            if into.name == GROWS:
                said.ids.add(str(row["id"]))
        if values:
            connection.execute(insert(into), values)


def _compare(connection: Connection, into: Table, said: Sum | None, *, secrets: bool) -> None:
    """Read a table again. Of one that grows, the rows that were carried alone: others may be there."""
    if said is None:
        there = connection.scalar(select(func.count()).select_from(into)) if into.name != GROWS else 0
        if there:
            raise CarryError("count", into.name, 0, there)
        return
    found = Sum(said.columns)
    for row in _rows_of(connection, into, said.columns, secrets=secrets):
        if into.name != GROWS or row["id"] in said.ids:
            found.add(row)
    if found.rows != said.rows:
        raise CarryError("count", into.name, said.rows, found.rows)
    if found.sha256 != said.sha256:
        raise CarryError("changed", into.name, said.rows, found.rows)


def _bytes_in(table: Table) -> list[str]:
    """A table's columns of bytes."""
    return [each.name for each in table.columns if isinstance(each.type, LargeBinary)]


def _bytewise(key: Column[Any], connection: Connection) -> ColumnElement[Any]:
    """The key in the order that both databases have, whatever language one was set up for."""
    return key.collate("C") if isinstance(key.type, String) and on_postgresql(connection) else key
