"""Outlets: where finished pieces go. A name and a contact are kept here and nowhere else, so that they can be erased.

Entries name an outlet by its id alone. Erasing takes name and contact from the row and from the database's own files;
the row and all numbers stay. Copies and exports that were made before still hold them: those in the studio's folder
that do are named in the answer.
"""

from __future__ import annotations

from collections.abc import Set
from typing import TypedDict
from uuid import UUID

from flask import Response, current_app
from sqlalchemy import Connection, RowMapping, insert, select, update

from api import audit, copies
from api.answers import OutletErased, OutletList
from api.clock import now_ms
from api.door.gate import is_helper
from api.errors import Problem, not_found
from api.openapi import IF_NONE_MATCH
from api.schemas import OutletWritten
from api.shapes_openapi import shape
from api.store import forget, reading, writing
from api.tables import OutletRow
from api.wire import Blueprint, answer, tag_of, unkept
from bench import Outlet, words

blueprint = Blueprint("outlets", __name__, description="Where finished pieces go")


class OutletSaid(TypedDict):
    """`api.schemas.OutletWritten`, read."""

    name: str
    contact: str | None


class OutletGiven(TypedDict):
    """An outlet of an export (`api.schemas.StudioOutlet`), read."""

    id: UUID
    name: str | None
    contact: str | None
    erased_at: int | None


@blueprint.get("/outlets")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape(OutletList))
@blueprint.alt_response(304, description="Nothing changed")
def list_outlets() -> Response:
    """Where pieces went or may go, by name; an erased one has none. A helper is told no contact."""
    with reading() as connection:
        outlets = [_as_told(each) for each in outlets_in(connection)]
    return unkept(answer({"outlets": outlets}, etag=tag_of(outlets)))


@blueprint.put("/outlets/<uuid:outlet_id>")
@blueprint.arguments(OutletWritten())
@blueprint.response(200, shape("Outlet"))
@blueprint.alt_response(201, schema=shape("Outlet"), success=True, description="Kept")
def put_outlet(said: OutletSaid, outlet_id: UUID) -> Response:
    """Name an outlet, or name it anew. One that was erased stays so."""
    told: Outlet = {"id": str(outlet_id), **said, "erased_at": None}
    with writing() as connection:
        row = _row(connection, told["id"])
        if row is None:
            connection.execute(insert(OutletRow).values(**told))
        elif row["erased_at"] is not None:
            raise Problem(409, words.say("api-outlets-erased"))
        else:
            connection.execute(update(OutletRow).where(OutletRow.id == told["id"]).values(**said))
    return unkept(answer(told, 201 if row is None else 200))


@blueprint.delete("/outlets/<uuid:outlet_id>")
@blueprint.response(200, shape(OutletErased))
def erase_outlet(outlet_id: UUID) -> Response:
    """Erase an outlet's name and contact. What it was sold stays told, of somebody who has no name any more."""
    with writing() as connection:
        row = _row(connection, str(outlet_id))
        if row is None:
            not_found("outlet", "/api/v1/outlets")
        erased_at = row["erased_at"] or now_ms()
        if row["erased_at"] is None:
            gone = {"name": None, "contact": None, "erased_at": erased_at}
            connection.execute(update(OutletRow).where(OutletRow.id == str(outlet_id)).values(**gone))
            audit.note(connection, "outlet_erased", outlet=str(outlet_id))
    forget(OutletRow.__tablename__)
    naming = copies.that_name(current_app.config["BOWLSIDE"], OutletRow.__tablename__, outlet_id)
    return answer(
        {"id": str(outlet_id), "name": None, "contact": None, "erased_at": erased_at, "copies": naming}
    )


def outlets_in(connection: Connection) -> list[Outlet]:
    """All of them by name, those without one last."""
    rows = connection.execute(select(OutletRow.__table__)).mappings()
    return sorted(
        (_outlet(row) for row in rows),
        key=lambda each: (each["name"] is None, (each["name"] or "").casefold(), each["id"]),
    )


def told_by_id(connection: Connection, ids: Set[str]) -> dict[str, Outlet]:
    rows = connection.execute(select(OutletRow.__table__).where(OutletRow.id.in_(ids))).mappings()
    return {row["id"]: _as_told(_outlet(row)) for row in rows}


def take_in(connection: Connection, given: OutletGiven) -> bool:
    """Keep an outlet from elsewhere. One that is here stays as it is, erased ones too; False then."""
    if _row(connection, str(given["id"])) is not None:
        return False
    connection.execute(insert(OutletRow).values(**{**given, "id": str(given["id"])}))
    return True


def _as_told(outlet: Outlet) -> Outlet:
    return {**outlet, "contact": None} if is_helper() else outlet


def _row(connection: Connection, outlet_id: str) -> RowMapping | None:
    found = select(OutletRow.__table__).where(OutletRow.id == outlet_id)
    return connection.execute(found).mappings().one_or_none()


def _outlet(row: RowMapping) -> Outlet:
    return {
        "id": row["id"],
        "name": row["name"],
        "contact": row["contact"],
        "erased_at": row["erased_at"],
    }
