"""The order of work: which pieces are wanted by when, and for whom, as far as the maker wants to keep that.

Each line is edited by itself, with If-Match. A dropped one stays, so that a device which still has it is told.
"""

from __future__ import annotations

from typing import TypedDict
from uuid import UUID

from flask import Response, request
from sqlalchemy import Connection, RowMapping, Select, func, insert, select, update

from api.answers import WantPage
from api.errors import Problem, not_found
from api.openapi import ETAG, IF_MATCH, IF_NONE_MATCH
from api.recipes import current_version
from api.schemas import WantQuery, WantWritten
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import OutletRow, WantRow
from api.wire import Blueprint, PageAsked, answer, first_of, paged, refuse_unless_read
from bench import OrderWant, WantState, words

blueprint = Blueprint("wants", __name__, description="The order of work: pieces wanted by an instant")

ROWS = select(WantRow.__table__).order_by(WantRow.due, WantRow.id)


class WantGiven(TypedDict):
    """`api.schemas.WantWritten`, read."""

    recipe: UUID
    pieces: int
    by: int
    outlet: UUID | None
    note: str
    state: WantState


class WantKept(WantGiven):
    """A line of an export (`api.schemas.StudioWant`), read."""

    id: UUID
    version: int


class WantsAsked(PageAsked):
    """`api.schemas.WantQuery`, read."""

    state: WantState


@blueprint.get("/wants")
@blueprint.arguments(WantQuery(), location="query")
@blueprint.response(200, shape(WantPage))
def list_wants(asked: WantsAsked) -> Response:
    """What is wanted, the soonest first."""
    mine = WantRow.state == asked["state"]
    size = asked["page_size"]
    with reading() as connection:
        items = _wants(connection, ROWS.where(mine).limit(size).offset(first_of(asked)))
        total = connection.scalar(select(func.count()).select_from(WantRow).where(mine)) or 0
    return paged("wants", items, total, asked)


@blueprint.get("/wants/<uuid:want_id>")
@blueprint.doc(parameters=[IF_NONE_MATCH])
@blueprint.response(200, shape("OrderWant"), headers=ETAG)
@blueprint.alt_response(304, description="Nothing changed")
def get_want(want_id: UUID) -> Response:
    """One line of the order of work."""
    with reading() as connection:
        want = find(connection, str(want_id))
    return _told(want) if want else not_found("want", "/api/v1/wants")


@blueprint.put("/wants/<uuid:want_id>")
@blueprint.doc(parameters=[IF_MATCH])
@blueprint.arguments(WantWritten())
@blueprint.response(200, shape("OrderWant"), headers=ETAG)
@blueprint.alt_response(201, schema=shape("OrderWant"), headers=ETAG, success=True, description="Created")
def put_want(given: WantGiven, want_id: UUID) -> Response:
    """Want something, or change, meet or drop what is wanted, with If-Match. The same again changes nothing."""
    with writing() as connection:
        now = find(connection, str(want_id))
        want = _want(given, str(want_id), now["version"] + 1 if now else 1)
        if now and want == {**now, "version": want["version"]} and not request.if_none_match.star_tag:
            return _told(now)
        refuse_unless_read(connection, now["version"] if now else None, "want")
        if now is None or now["recipe"] != want["recipe"]:  # one whose recipe went can still be changed
            _check_recipe(connection, want)
        if want["outlet"] and (now is None or now["outlet"] != want["outlet"]):
            _check_outlet(connection, want["outlet"])
        _keep(connection, want, new=now is None)
    return _told(want, 200 if now else 201)


def wants_in(connection: Connection, state: WantState | None = None) -> list[OrderWant]:
    """All lines, the soonest first."""
    return _wants(connection, ROWS if state is None else ROWS.where(WantRow.state == state))


def find(connection: Connection, want_id: str) -> OrderWant | None:
    return next(iter(_wants(connection, ROWS.where(WantRow.id == want_id))), None)


def take_in(connection: Connection, given: WantKept) -> bool:
    """Keep a line from elsewhere. False when it is here as it is there; Problem when it is here otherwise."""
    want = _want(given, str(given["id"]), given["version"])
    now = find(connection, want["id"])
    if now is not None:
        if now != {**want, "version": now["version"]}:
            raise Problem(409, words.say("api-wants-another"))
        return False
    _check_recipe(connection, want)
    _keep(connection, want, new=True)
    return True


def _check_recipe(connection: Connection, want: OrderWant) -> None:
    if current_version(connection, want["recipe"]) is None:
        says = words.say("api-plans-week-no-recipe")
        raise Problem(422, says, errors=[("recipe", says)])


def _check_outlet(connection: Connection, outlet: str) -> None:
    if connection.scalar(select(OutletRow.name).where(OutletRow.id == outlet)) is None:
        says = words.say("api-wants-no-outlet")
        raise Problem(422, says, errors=[("outlet", says)])


def _keep(connection: Connection, want: OrderWant, *, new: bool) -> None:
    values: dict[str, object] = {**want}
    for name, column in (("recipe", "recipe_id"), ("by", "due"), ("outlet", "outlet_id")):
        values[column] = values.pop(name)
    if new:
        connection.execute(insert(WantRow).values(**values))
    else:
        connection.execute(update(WantRow).where(WantRow.id == want["id"]).values(**values))


def _want(given: WantGiven, want_id: str, version: int) -> OrderWant:
    return {
        "id": want_id,
        "version": version,
        "recipe": str(given["recipe"]),
        "pieces": given["pieces"],
        "by": given["by"],
        "outlet": str(given["outlet"]) if given["outlet"] else None,
        "note": given["note"],
        "state": given["state"],
    }


def _wants(connection: Connection, rows: Select[tuple[WantRow]]) -> list[OrderWant]:
    return [_read(row) for row in connection.execute(rows).mappings()]


def _read(row: RowMapping) -> OrderWant:
    return {
        "id": row["id"],
        "version": row["version"],
        "recipe": row["recipe_id"],
        "pieces": row["pieces"],
        "by": row["due"],
        "outlet": row["outlet_id"],
        "note": row["note"],
        "state": row["state"],
    }


def _told(want: OrderWant, status: int = 200) -> Response:
    return answer(want, status, etag=str(want["version"]))
