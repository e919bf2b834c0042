"""Which batches have of which lots, both ways, and through parts made ahead: a lot that names the batch it was made in.

A lot leads to the batches that took of it, and through the lots made in those to further ones. A batch leads to its
lots, and through those that were made here to the lots of the batches that they were made in.

A list of batches goes on from a batch, not from a number of rows: what comes or goes meanwhile leaves none out, and a
page of a long list costs what one of a short list does. The lots that were made here are few, and are all reached first.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple, NoReturn, NotRequired, TypedDict
from uuid import UUID

from sqlalchemy import Connection, Select, String, and_, bindparam, func, or_, select, text

from api import shelf
from api.errors import Problem, not_found
from api.tables import LotUse
from bench import BatchVerdict, LotRun, OriginLot, words

AT_ONCE = 500
BATCHES = text(
    "SELECT id, title, recipe_version, batch_number, size, created_at, finished_at, release FROM run"
    " WHERE id IN :runs"
).bindparams(bindparam("runs", expanding=True, type_=String))
LOTS_OF = text("SELECT lot_id FROM lot_use WHERE run_id = :run ORDER BY lot_id")
TOOK = text("SELECT run_id FROM lot_use WHERE lot_id = :lot ORDER BY used_at DESC, run_id")


class Spread(NamedTuple):
    """How far a lot went, or a batch: the batch, where it is one; then every lot by which others have of it."""

    batch: str | None
    lots: tuple[str, ...]


class Has(NamedTuple):
    """A batch that has of a lot, and by which: None where it is the batch that was asked for."""

    run: str
    lot: str | None
    mg: int = 0
    counted: int = 0


class AfterAsked(TypedDict):
    """Which part of a list of batches: `api.schemas.AfterQuery`, read."""

    after: NotRequired[UUID]
    page_size: int


class Part(NamedTuple):
    batches: list[Has]
    next: str | None  # what to ask for `after` to go on


def no_such_lot() -> NoReturn:
    not_found("lot", "/api/v1/lots")


def of_lot(connection: Connection, lot_id: str) -> Spread:
    """A lot's, or 404; one that no shelf tells of is known where a batch took of it."""
    if lot_id not in shelf.current_stock()["lots"] and connection.scalar(TOOK, {"lot": lot_id}) is None:
        no_such_lot()
    return of_lots(connection, [lot_id])


def of_lots(connection: Connection, lots: list[str], batch: str | None = None) -> Spread:
    return Spread(batch, _reached(connection, lots))


def of_batch(connection: Connection, run_id: str) -> Spread:
    return of_lots(connection, shelf.made_here().get(run_id, []), run_id)


def count(connection: Connection, spread: Spread) -> int:
    """How many batches have of it, the batch itself among them."""
    others = connection.scalar(select(func.count()).select_from(takers(spread).subquery())) or 0
    return others + (spread.batch is not None)


def takers(spread: Spread) -> Select[Any]:
    """The ids of the batches that took of its lots, each once."""
    ids = select(LotUse.run_id).where(LotUse.lot_id.in_(spread.lots))
    ids = ids.where(LotUse.run_id != spread.batch) if spread.batch else ids
    return ids.distinct() if len(spread.lots) > 1 else ids


def page(connection: Connection, spread: Spread, after: str | None, size: int) -> list[Has]:
    """So many batches from the one after `after` on: the batch itself, then lot by lot, the last to use it first."""
    begins = after is None
    found = [Has(spread.batch, None)] if begins and spread.batch else []
    place, used_at = (0, None) if after in (None, spread.batch) else _place_of(connection, spread, after)
    while place < len(spread.lots) and len(found) < size:
        rows = connection.execute(_of_one(spread, place, used_at, after).limit(size - len(found)))
        found += [Has(*row) for row in rows]
        place, used_at = place + 1, None
    return found


def page_after(connection: Connection, spread: Spread, asked: AfterAsked) -> Part:
    """The part of the list that was asked for, and how to go on."""
    after, size = asked.get("after"), asked["page_size"]
    found = page(connection, spread, None if after is None else str(after), size + 1)
    return Part(found[:size], found[size - 1].run if len(found) > size else None)


def parts(connection: Connection, spread: Spread) -> Iterator[list[Has]]:
    """All of the list, part by part."""
    after = None
    while some := page(connection, spread, after, AT_ONCE):
        yield some
        after = some[-1].run


def runs_of(connection: Connection, found: list[Has]) -> list[LotRun]:
    """These batches as they are told."""
    rows = {row[0]: row for row in connection.execute(BATCHES, {"runs": [each.run for each in found]})}
    return [_as_told(each, *rows[each.run][1:]) for each in found]


def lots_in(connection: Connection, run_id: str) -> list[OriginLot]:
    """Every lot that a batch has of: those gathered for it, then those of the batches that these were made in."""
    there = shelf.current_stock()
    found: list[OriginLot] = []
    runs, seen = [run_id], {run_id}
    for run in runs:  # it grows
        for lot_id in connection.scalars(LOTS_OF, {"run": run}).all():
            lot = there["lots"].get(lot_id)
            card = there["ingredients"][lot["ingredient"]]["card"] if lot else None
            made_in = lot["run"] if lot else None
            found.append(
                {
                    "lot": lot_id,
                    "number": lot["number"] if lot else None,
                    "ingredient": card["name"] if card else None,
                    "into": run,
                    "made_in": made_in,
                }
            )
            if made_in and made_in not in seen:
                runs.append(made_in)
                seen.add(made_in)
    return found


def _reached(connection: Connection, lots: list[str]) -> tuple[str, ...]:
    """These lots, and every lot that was made in a batch that has of one before it."""
    made_here, reached = shelf.made_here(), dict.fromkeys(lots)
    for lot in (growing := [*lots]) if made_here else ():
        for run in connection.scalars(TOOK, {"lot": lot}):
            further = [each for each in made_here.get(run, []) if each not in reached]
            growing += further
            reached |= dict.fromkeys(further)
    return tuple(reached)


def _of_one(spread: Spread, place: int, used_at: int | None, after: str | None) -> Select[Any, Any, Any, Any]:
    """The batches that took of one of its lots, and of none before it, after a batch that used it at that instant."""
    earlier = select(LotUse.run_id).where(LotUse.lot_id.in_(spread.lots[:place]))
    rows = select(LotUse.run_id, LotUse.lot_id, LotUse.mg, LotUse.count).where(
        LotUse.lot_id == spread.lots[place]
    )
    if place:
        rows = rows.where(LotUse.run_id.not_in(earlier))
    if spread.batch:
        rows = rows.where(LotUse.run_id != spread.batch)
    if used_at is not None:
        rows = rows.where(
            LotUse.used_at <= used_at,
            or_(LotUse.used_at < used_at, and_(LotUse.used_at == used_at, LotUse.run_id > after)),
        )
    return rows.order_by(LotUse.used_at.desc(), LotUse.run_id)


def _place_of(connection: Connection, spread: Spread, run: str | None) -> tuple[int, int]:
    """By which of its lots a batch is in the list, and when it used that; Problem (422) when it is not in it."""
    used = select(LotUse.lot_id, LotUse.used_at).where(LotUse.run_id == run, LotUse.lot_id.in_(spread.lots))
    places = [(spread.lots.index(lot), used_at) for lot, used_at in connection.execute(used)]
    if not places:
        said = words.say("api-studio-after")
        raise Problem(422, said, errors=[("after", said)])
    return min(places)


def _as_told(
    has: Has,
    title: str,
    version: int,
    number: str | None,
    size: str,
    at: int,
    finished_at: int | None,
    release: BatchVerdict | None,
) -> LotRun:
    return {
        "id": has.run,
        "title": title,
        "recipe_version": version,
        "number": number,
        "pieces": _pieces(size),
        "at": at,
        "finished_at": finished_at,
        "mg": has.mg,
        "count": has.counted,
        "release": release,
        "lot": has.lot or "",
    }


@lru_cache(maxsize=1024)
def _pieces(size: str) -> int:
    """How many pieces a kept size is of: thousands of batches have the same few."""
    pieces: int = json.loads(size)["pieces"]
    return pieces
