"""A document that the studio has one of, its kit, settings or bench hours: said anew as a whole, in versions.

What holds until somebody has said anything is version 0, and is nowhere kept.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from flask import Response, request
from sqlalchemy import Connection, insert, select, update

from api import audit
from api.clock import now_ms
from api.errors import Problem
from api.store import writing
from api.tables import Hours, Kit, StudioSettings
from api.wire import Edited, answer, refuse_unless_read
from bench import canonical, words

Document = TypeVar("Document", bound=Mapping[str, object])
Measured = TypeVar("Measured", bound=Mapping[str, object] | None)


@dataclass(frozen=True)
class StoredDocument(Generic[Document, Measured]):
    """The document that holds now, what the bench reads in it where that is kept too, and how often it was said anew."""

    version: int
    document: Document
    measured: Measured

    def answer(self, status: int = 200) -> Response:
        whole = {"version": self.version, "document": self.document}
        if self.measured is not None:
            whole["measured"] = self.measured
        return answer(whole, status, etag=str(self.version))


@dataclass(frozen=True)
class SingletonDocument(Generic[Document, Measured]):
    """The one document of its kind.

    name: what errors call it. address: where it is put. default: what holds at version 0.
    read: gives what the bench reads in it, if anything; raises a BenchError that names the field of what
    the bench could not work with. noted: what the audit log calls a change, where it is told there.
    """

    table: type[Kit] | type[StudioSettings] | type[Hours]
    name: Edited
    address: str
    default: Document
    read: Callable[[Document], Measured]
    noted: str | None = None

    def now(self, connection: Connection) -> StoredDocument[Document, Measured]:
        row = connection.execute(select(self.table.__table__)).mappings().one_or_none()
        if row is None:
            return StoredDocument(0, self.default, self.read(self.default))
        return StoredDocument(
            row["version"], json.loads(row["document"]), json.loads(row.get("measured", "null"))
        )

    def put(self, document: Document) -> Response:
        """Answer the request to say it anew; once it was said, with If-Match."""
        measured = self.read(document)
        with writing() as connection:
            now = self.now(connection)
            is_same = now.version and canonical(now.document) == canonical(document)
            if is_same and not request.if_none_match.star_tag:
                return now.answer()
            if now.version or request.if_match:
                refuse_unless_read(connection, now.version, self.name)
            kept = StoredDocument(now.version + 1, document, measured)
            self._keep(connection, kept)
            if self.noted:
                fields = sorted(
                    name
                    for name in now.document.keys() | document.keys()
                    if now.document.get(name) != document.get(name)
                )
                audit.note(connection, self.noted, fields=", ".join(fields))
        return kept.answer(200 if now.version else 201)

    def take_in(self, connection: Connection, document: Document) -> bool:
        """Keep one from elsewhere where nothing was said yet; False when the same is here, Problem for another."""
        measured = self.read(document)
        now = self.now(connection)
        if now.version and canonical(now.document) != canonical(document):
            says = words.say("api-errors-would-replace", what=self.name, request=f"PUT /api/v1{self.address}")
            raise Problem(409, says)
        if not now.version:
            self._keep(connection, StoredDocument(1, document, measured))
        return not now.version

    def _keep(self, connection: Connection, stored: StoredDocument[Document, Measured]) -> None:
        values = {"version": stored.version, "document": canonical(stored.document), "updated_at": now_ms()}
        if stored.measured is not None:
            values["measured"] = canonical(stored.measured)
        if stored.version == 1:
            connection.execute(insert(self.table).values(id=1, **values))
        else:
            connection.execute(update(self.table).values(**values))
