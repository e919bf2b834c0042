"""A document that the studio has one of, such as its settings or its bench hours: said anew as a whole, in versions.

What holds until somebody has said anything is version 0, and is nowhere kept.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from flask import Response
from sqlalchemy import Connection, insert, select, update

from api.clock import now_ms
from api.errors import Problem
from api.store import writing
from api.wire import answer, if_match
from bench import canonical

Json = dict[str, Any]


@dataclass(frozen=True)
class Held:
    """The document that holds now, and how often it was said anew."""

    version: int
    document: Json

    def answer(self, status: int = 200) -> Response:
        return answer(self.__dict__, status, etag=str(self.version))


@dataclass(frozen=True)
class OneOf:
    """The one document of its kind.

    table: a table of one row with version, document and updated_at. name: as people say it, "bench hours".
    address: where it is put. unsaid: what holds at version 0. check: raises a BenchError that names the
    field of what the bench could not work with.
    """

    table: Any
    name: str
    address: str
    unsaid: Json
    check: Callable[[Json], None]

    def now(self, connection: Connection) -> Held:
        row = connection.execute(select(self.table.version, self.table.document)).one_or_none()
        return Held(row.version, json.loads(row.document)) if row else Held(0, self.unsaid)

    def put(self, document: Json) -> Response:
        """Answer the request to say it anew; once it was said, with If-Match."""
        self.check(document)
        with writing() as connection:
            now = self.now(connection)
            tags = if_match()
            if now.version and canonical(now.document) == canonical(document):
                return now.answer()
            if now.version and tags is None:
                raise Problem(
                    428, f"There are {self.name} already. To edit them, send If-Match with their ETag."
                )
            if tags is not None and not tags & {"*", str(now.version)}:
                raise Problem(
                    412,
                    f"The {self.name} have changed since you read them. Read them again, then edit those.",
                )
            kept = Held(now.version + 1, document)
            self._keep(connection, kept)
        return kept.answer(200 if now.version else 201)

    def take_in(self, connection: Connection, document: Json) -> bool:
        """Keep one from elsewhere where nothing was said yet; False when the same is here, Problem for another."""
        self.check(document)
        now = self.now(connection)
        if now.version and canonical(now.document) != canonical(document):
            raise Problem(
                409, f"Other {self.name} are here already. To change them: PUT /api/v1{self.address}."
            )
        if not now.version:
            self._keep(connection, Held(1, document))
        return not now.version

    def _keep(self, connection: Connection, held: Held) -> None:
        values = {"version": held.version, "document": canonical(held.document), "updated_at": now_ms()}
        if held.version == 1:
            connection.execute(insert(self.table).values(id=1, **values))
        else:
            connection.execute(update(self.table).values(**values))
