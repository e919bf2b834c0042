"""What is due before something is sold, and what makers said of it.

Which duties a recipe has follows from what it is for and where it is sold (bench/product). What was said of one is
kept and never changed: a further word is a further mark, and the last one holds. Nothing here stops any work.
"""

from __future__ import annotations

import json
from datetime import date
from typing import NotRequired, TypedDict
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, RowMapping, func, insert, select

import bench
from api.answers import DutyMarks
from api.clock import now_ms
from api.errors import Problem, not_found
from api.openapi import IF_NONE_MATCH
from api.recipes import current_version
from api.schemas import DueQuery, DutyWritten
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import DutyMarkRow
from api.wire import Blueprint, answer, tag_of
from bench import DutyMark, DutyState, words

blueprint = Blueprint("duties", __name__, description="What is due before something is sold")


class DutyRead(TypedDict):
    """`api.schemas.DutyWritten`, read."""

    about: UUID | None
    duty: str
    state: DutyState
    day: date | None
    note: str


class DutyGiven(DutyRead):
    """A mark of an export (`api.schemas.StudioDuty`), read."""

    id: UUID
    at: int


class DueAsked(TypedDict):
    """`api.schemas.DueQuery`, read."""

    use: bench.ProductUse
    sold_in: list[bench.SoldIn]
    soap: bool
    recipe: NotRequired[UUID]


@blueprint.get("/duties")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape(DutyMarks))
@blueprint.alt_response(304, description="Nothing changed")
def list_duties() -> Response:
    """What holds of each duty that somebody said something of: of the studio, and of each recipe."""
    with reading() as connection:
        marks = bench.duties_holding(marks_in(connection))
    return answer({"marks": marks}, etag=tag_of(marks))


@blueprint.get("/duties/due")
@blueprint.arguments(DueQuery(), location="query")
@blueprint.response(200, shape("ProductStands"))
def get_due(asked: DueAsked) -> Response:
    """The laws and duties of what is for this and sold there, a recipe or none yet, and how each duty stands."""
    product = bench.Product(asked["use"], asked["sold_in"], asked["soap"])
    with reading() as connection:
        marks = marks_in(connection)
    return answer(bench.product_stands_of(product, str(asked.get("recipe", "")), marks))


@blueprint.put("/duties/<uuid:mark_id>")
@blueprint.arguments(DutyWritten())
@blueprint.response(200, shape("DutyMark"))
@blueprint.alt_response(201, schema=shape("DutyMark"), success=True, description="Kept")
def put_duty(said: DutyRead, mark_id: UUID) -> Response:
    """Say how a duty stands: open, seen to, or not this maker's. The same again changes nothing."""
    if not bench.is_due(said["duty"]):
        raise Problem(
            422, words.say("api-duties-unknown"), errors=[("duty", words.say("api-duties-unknown"))]
        )
    if (said["about"] is None) is not bench.is_of_studio(said["duty"]):
        raise Problem(422, words.say("api-duties-about"), errors=[("about", words.say("api-duties-about"))])
    with writing() as connection:
        if said["about"] is not None and current_version(connection, str(said["about"])) is None:
            not_found("recipe", "/api/v1/recipes")
        last = connection.scalar(select(func.max(DutyMarkRow.at))) or 0
        mark, new = keep(connection, {**said, "id": mark_id, "at": max(now_ms(), last + 1)}, same_at=False)
    return answer(mark, 201 if new else 200)


@blueprint.get("/recipes/<uuid:recipe_id>/duties")
@blueprint.response(200, shape("ProductStands"))
def get_duties(recipe_id: UUID) -> Response:
    """Which laws are known here for what the recipe is for and where it is sold, and how each duty stands."""
    with reading() as connection:
        recipe = current_version(connection, str(recipe_id))
        if recipe is None:
            not_found("recipe", "/api/v1/recipes")
        marks = marks_in(connection)
    return answer(bench.product_stands(json.loads(recipe.measured), str(recipe_id), marks))


def marks_in(connection: Connection) -> list[DutyMark]:
    """All that was ever said, in the order in which it was."""
    rows = connection.execute(select(DutyMarkRow.__table__).order_by(DutyMarkRow.at, DutyMarkRow.id))
    return [_mark(row) for row in rows.mappings()]


def _mark(row: RowMapping) -> DutyMark:
    return {
        "id": row["id"],
        "about": row["recipe_id"],
        "duty": row["duty"],
        "state": row["state"],
        "day": row["day"],
        "note": row["note"],
        "at": row["at"],
    }


def keep(connection: Connection, given: DutyGiven, *, same_at: bool) -> tuple[DutyMark, bool]:
    """Keep a mark; gives it, and whether it is new. Problem for another one under its id.

    same_at: whether its instant is a part of what it says, as it is in an export.
    """
    mark: DutyMark = {
        "id": str(given["id"]),
        "about": str(given["about"]) if given["about"] else None,
        "duty": given["duty"],
        "state": given["state"],
        "day": given["day"].isoformat() if given["day"] else None,
        "note": given["note"],
        "at": given["at"],
    }
    found = select(DutyMarkRow.__table__).where(DutyMarkRow.id == mark["id"])
    row = connection.execute(found).mappings().one_or_none()
    if row is None:
        values = {**mark, "recipe_id": mark["about"]}
        del values["about"]
        connection.execute(insert(DutyMarkRow).values(**values))
        return mark, True
    here = _mark(row)
    if here != (mark if same_at else {**mark, "at": here["at"]}):
        raise Problem(409, words.say("api-duties-another"))
    return here, False
