"""Whose hands there are and when the bench is theirs."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from flask import Response
from sqlalchemy import Connection, insert, select, update

import bench
from api.clock import now_ms
from api.errors import Problem
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH
from api.plan_shapes import BenchWhole, BenchWritten
from api.store import reading, writing
from api.tables import BenchHours
from api.wire import Blueprint, answer, if_match
from bench import canonical

blueprint = Blueprint("hours", __name__, description="Makers and their bench hours")

ALWAYS: dict[str, Any] = {
    "makers": [{"name": "Maker", "hours": {"zone": "UTC", "daily": [["0:00", "24:00"]]}}]
}
DAY_MS = 86_400_000


@dataclass(frozen=True)
class HoursNow:
    """The hours that hold now; version 0 is a bench that is always open, until the maker says."""

    version: int
    document: dict[str, Any]

    def answer(self, status: int = 200) -> Response:
        return answer(self.__dict__, status, etag=str(self.version))


@blueprint.get("/hours")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, BenchWhole, headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_hours() -> Response:
    """The makers and their bench hours. In version 0 one maker may always work."""
    with reading() as connection:
        return current_hours(connection).answer()


@blueprint.put("/hours")
@blueprint.doc(parameters=[IF_MATCH])
@blueprint.arguments(BenchWritten())
@blueprint.response(200, BenchWhole, headers=ETAG)
@blueprint.alt_response(201, schema=BenchWhole, headers=ETAG, success=True, description="Created")
def put_hours(document: dict[str, Any]) -> Response:
    """Say whose hands there are and when; once that was said, with If-Match."""
    check_hours(document)
    with writing() as connection:
        now = current_hours(connection)
        tags = if_match()
        if now.version and canonical(now.document) == canonical(document):
            return now.answer()
        if now.version and tags is None:
            raise Problem(428, "There are bench hours already. To edit them, send If-Match with their ETag.")
        if tags is not None and not tags & {"*", str(now.version)}:
            raise Problem(
                412, "The hours have changed since you read them. Read them again, then edit those."
            )
        kept = HoursNow(now.version + 1, document)
        keep_hours(connection, kept)
    return kept.answer(200 if now.version else 201)


def check_hours(document: dict[str, Any]) -> None:
    """Raise PlanError, naming the field, for hours that no day can have."""
    at = now_ms()
    bench.make_problem([], document["makers"], at, at + DAY_MS)


def current_hours(connection: Connection) -> HoursNow:
    row = connection.execute(select(BenchHours.version, BenchHours.document)).one_or_none()
    return HoursNow(row.version, json.loads(row.document)) if row else HoursNow(0, ALWAYS)


def keep_hours(connection: Connection, hours: HoursNow) -> None:
    values = {"version": hours.version, "document": canonical(hours.document), "updated_at": now_ms()}
    if hours.version == 1:
        connection.execute(insert(BenchHours).values(id=1, **values))
    else:
        connection.execute(update(BenchHours).values(**values))
