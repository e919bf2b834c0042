"""Finished pieces over HTTP: what is there, where it went, what was complained of, and the calling back of it.

What happens to pieces is told to the shelf's journal (`POST /shelf/entries`); this only reads.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from typing import NotRequired
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, Engine, RowMapping, String, bindparam, func, select, text

import bench
from api import finished, generation, traces
from api.answers import ComplaintList, PiecesPage
from api.door.gate import is_helper
from api.errors import not_found
from api.outlets import told_by_id
from api.schemas import PiecesQuery, RecallQuery, RehearsalQuery
from api.shapes_openapi import shape
from api.spreadsheet import CSV, Cell, spreadsheet
from api.store import read_row, reading
from api.tables import BatchPieces as PiecesRow
from api.tables import db
from api.traces import AfterAsked, Has, Spread
from api.wire import Blueprint, PageAsked, answer, first_of, paged, unkept
from bench import Alike, AtOutlet, BatchPieces, Complaint, Outlet, PiecesTold, Recall, RecalledBatch

blueprint = Blueprint("stock", __name__, description="Finished pieces, and where they went")

ROWS = (
    "SELECT run.id, recipe_id, title, batch_number, release, good, kept_there, in_stock, left_count, kept, binned,"
    " place, made_on, best_before FROM batch_pieces JOIN run ON run.id = run_id"
)
COUNT = "SELECT count(*) FROM batch_pieces JOIN run ON run.id = run_id"
ONE = text(f"{ROWS} WHERE run_id = :run")
NAMED = text("SELECT title, batch_number FROM run WHERE id = :run")
COMPLAINED = text(
    "SELECT DISTINCT run_id FROM shelf_entry WHERE run_id IS NOT NULL AND text LIKE :complained"
)
BATCHES = text(
    "SELECT run.id, title, batch_number, good, in_stock + kept AS here FROM run"
    " LEFT JOIN batch_pieces ON run_id = run.id WHERE run.id IN :runs"
).bindparams(bindparam("runs", expanding=True, type_=String))
MOVED = (
    "SELECT (SELECT max(seq) FROM entry), (SELECT max(seq) FROM shelf_entry), (SELECT count(*) FROM outlet),"
    " (SELECT count(name) FROM outlet)"
)
RECALLS_HELD = 64
RECALL = (
    "rehearsal",
    "batch",
    "product",
    "through_lot",
    "pieces_made",
    "pieces_here",
    "pieces_binned",
    "outlet",
    "contact",
    "pieces_there",
    "run",
)


class PiecesAsked(PageAsked):
    """`api.schemas.PiecesQuery`, read."""

    recipe: NotRequired[UUID]
    gone: NotRequired[bool]


class RecallAsked(AfterAsked):
    """`api.schemas.RecallQuery`, read."""

    rehearsal: bool


@blueprint.get("/pieces")
@blueprint.arguments(PiecesQuery(), location="query")
@blueprint.response(200, shape(PiecesPage))
def list_pieces(asked: PiecesAsked) -> Response:
    """The finished batches of which pieces are in stock, those that go off first coming first."""
    values: dict[str, object] = {"gone": asked.get("gone", False)}
    where = "WHERE gone = :gone"
    if "recipe" in asked:
        where, values["recipe"] = f"{where} AND recipe_id = :recipe", str(asked["recipe"])
    size = asked["page_size"]
    page = {"limit": size, "offset": first_of(asked)}
    order = "ORDER BY gone, until, run_id LIMIT :limit OFFSET :offset"
    with reading() as connection:
        rows = connection.execute(text(f"{ROWS} {where} {order}"), values | page).mappings()
        items = [_pieces(row) for row in rows]
        total = connection.scalar(text(f"{COUNT} {where}"), values) or 0
    return paged("pieces", items, total, asked)


@blueprint.get("/pieces/<uuid:run_id>")
@blueprint.response(200, shape("PiecesWhole"))
def get_pieces(run_id: UUID) -> Response:
    """Where all of a batch's pieces are, and what was said of them."""
    run = str(run_id)
    with reading() as connection:
        told = finished.told_in(connection, run)
        batch = _batch(connection, run)
        if batch is None and told == bench.nothing_told() and _named(connection, run) is None:
            not_found("run", "/api/v1/runs")
        at = _at(told, _outlets_of(connection, [told]))
    complaints = (
        [] if is_helper() else told["complaints"]
    )  # what somebody said of a reaction is a maker's to read
    whole = {"run": run, "batch": batch, "at": at, "bins": told["bins"], "complaints": complaints}
    return unkept(answer(whole))


@blueprint.get("/runs/<uuid:run_id>/origin")
@blueprint.response(200, shape("Origin"))
def get_origin(run_id: UUID) -> Response:
    """Every lot that a batch has of, straight or through a part made ahead."""
    with reading() as connection:
        if _named(connection, str(run_id)) is None:
            not_found("run", "/api/v1/runs")
        return answer({"run": str(run_id), "lots": traces.lots_in(connection, str(run_id))})


@blueprint.get("/lots/<string:lot_id>/recall")
@blueprint.arguments(RecallQuery(), location="query")
@blueprint.response(200, shape("Recall"))
def recall_lot(asked: RecallAsked, lot_id: str) -> Response:
    """Where the pieces are of the batches that have of a lot, and how many of all are found; `next` goes on.

    It only reads: to try it changes nothing.
    """
    with reading() as connection:
        return _as_told(connection, traces.of_lot(connection, lot_id), asked)


@blueprint.get("/runs/<uuid:run_id>/recall")
@blueprint.arguments(RecallQuery(), location="query")
@blueprint.response(200, shape("Recall"))
def recall_run(asked: RecallAsked, run_id: UUID) -> Response:
    """Where the pieces are of a batch, and of the batches that have of a part made in it; `next` goes on."""
    with reading() as connection:
        return _as_told(connection, _of_run(connection, str(run_id)), asked)


@blueprint.get("/lots/<string:lot_id>/recall-outlets.csv")
@blueprint.arguments(RehearsalQuery(), location="query")
@blueprint.response(200, {"type": "string"}, content_type=CSV)
def recall_lot_csv(asked: dict[str, bool], lot_id: str) -> Response:
    """All of it as a spreadsheet: a row a batch and outlet."""
    with reading() as connection:
        return _as_csv(connection, traces.of_lot(connection, lot_id), asked["rehearsal"])


@blueprint.get("/runs/<uuid:run_id>/recall-outlets.csv")
@blueprint.arguments(RehearsalQuery(), location="query")
@blueprint.response(200, {"type": "string"}, content_type=CSV)
def recall_run_csv(asked: dict[str, bool], run_id: UUID) -> Response:
    """All of it as a spreadsheet: a row a batch and outlet."""
    with reading() as connection:
        return _as_csv(connection, _of_run(connection, str(run_id)), asked["rehearsal"])


@blueprint.get("/complaints")
@blueprint.response(200, shape(ComplaintList))
def list_complaints() -> Response:
    """What was complained of, and who reacted how; the newest first."""
    with reading() as connection:
        complaints = sorted(_complaints(connection), key=lambda each: (-each["at"], each["id"]))
    return unkept(answer({"complaints": complaints}))


@blueprint.get("/complaints/<uuid:entry_id>")
@blueprint.response(200, shape("Alike"))
def get_complaint(entry_id: UUID) -> Response:
    """What a complaint leads to: its batch, the lots in it, the batches that share one, and what was said of those."""
    with reading() as connection:
        every = _complaints(connection)
        complaint = next((each for each in every if each["id"] == str(entry_id)), None)
        if complaint is None:
            not_found("complaint", "/api/v1/complaints")
        told = _alike(connection, complaint, every)
    return unkept(answer(told))


def _of_run(connection: Connection, run_id: str) -> Spread:
    if _named(connection, run_id) is None:
        not_found("run", "/api/v1/runs")
    return traces.of_batch(connection, run_id)


def _as_told(connection: Connection, spread: Spread, asked: RecallAsked) -> Response:
    found = traces.page_after(connection, spread, asked)
    made, unknown = _sums_of(connection, spread)
    recall: Recall = {
        "rehearsal": asked["rehearsal"],
        "batches": _recalled(connection, found.batches),
        "next": found.next,
        "total": traces.count(connection, spread),
        "made": made,
        "found": max(0, made - unknown),
        "unknown": unknown,
    }
    return unkept(answer(recall))


def _sums_of(connection: Connection, spread: Spread) -> tuple[int, int]:
    """How many pieces all of the batches made, and how many of those are with nobody who can be asked."""
    return _held_sums(db.engine, generation.now(), spread, *read_row(MOVED, {}))


@lru_cache(maxsize=RECALLS_HELD)
def _held_sums(_database: Engine, _generation: str, spread: Spread, *_moved: int | None) -> tuple[int, int]:
    """All of it follows from the journals and from which outlets have a name, so it is held until one moves."""
    with reading() as connection:
        runs = traces.takers(spread)
        made = connection.scalar(select(func.sum(PiecesRow.good)).where(PiecesRow.run_id.in_(runs))) or 0
        told = [*finished.told_of(connection, runs).values()]
        if spread.batch:
            batch = _batch(connection, spread.batch)
            made += batch["made"] if batch else 0
            told.append(finished.told_in(connection, spread.batch))
        outlets = _outlets_of(connection, told)
    unknown = sum(max(0, at["there"]) for each in told for at in _at(each, outlets) if at["name"] is None)
    return made, unknown


def _recalled(connection: Connection, found: Sequence[Has]) -> list[RecalledBatch]:
    runs = [each.run for each in found]
    rows = {row["id"]: row for row in connection.execute(BATCHES, {"runs": runs}).mappings()}
    told = finished.told_of(connection, runs)
    outlets = _outlets_of(connection, told.values())
    batches: list[RecalledBatch] = []
    for each in found:
        row, of_it = rows.get(each.run), told.get(each.run) or bench.nothing_told()
        batches.append(
            {
                "run": each.run,
                "title": row["title"] if row else "",
                "number": row["batch_number"] if row else None,
                "lot": each.lot,
                "made": row["good"] if row else None,
                "here": (row["here"] or 0) if row else 0,
                "binned": of_it["binned"],
                "at": _at(of_it, outlets),
                "shelved": of_it["shelved"],
            }
        )
    return batches


def _outlets_of(connection: Connection, told: Iterable[PiecesTold]) -> dict[str, Outlet]:
    return told_by_id(connection, {at["outlet"] for each in told for at in each["outlets"] if at["outlet"]})


def _as_csv(connection: Connection, spread: Spread, rehearsal: bool) -> Response:
    name = "recall-rehearsal.csv" if rehearsal else "recall-outlets.csv"
    parts = traces.parts(connection, spread)
    batches = (each for part in parts for each in _recalled(connection, part))
    return unkept(spreadsheet(name, RECALL, _rows(batches, rehearsal)))


def _rows(batches: Iterable[RecalledBatch], rehearsal: bool) -> Iterator[tuple[Cell, ...]]:
    for batch in batches:
        of_batch = (
            "rehearsal" if rehearsal else None,
            batch["number"],
            batch["title"],
            batch["lot"],
            batch["made"],
            batch["here"],
            batch["binned"],
        )
        for at in batch["at"]:
            yield (*of_batch, at["name"] or at["outlet"], at["contact"], at["there"], batch["run"])
        if not batch["at"]:
            yield (*of_batch, None, None, None, batch["run"])


def _at(told: PiecesTold, outlets: dict[str, Outlet]) -> list[AtOutlet]:
    """Where the pieces went, those that have most of them first."""
    at: list[AtOutlet] = []
    for each in told["outlets"]:
        outlet = outlets.get(each["outlet"] or "")
        at.append(
            {
                **each,
                "name": outlet["name"] if outlet else None,
                "contact": outlet["contact"] if outlet else None,
                "there": bench.at_outlet(each),
            }
        )
    return sorted(at, key=lambda each: (-each["there"], each["outlet"] or ""))


def _complaints(connection: Connection) -> list[Complaint]:
    runs = connection.scalars(COMPLAINED, {"complained": '%"kind":"complained"%'}).all()
    return [each for run in sorted(runs) for each in finished.told_in(connection, run)["complaints"]]


def _alike(connection: Connection, complaint: Complaint, every: Sequence[Complaint]) -> Alike:
    run = complaint["run"]
    named, lots = _named(connection, run), traces.lots_in(connection, run)
    spread = traces.of_lots(connection, [each["lot"] for each in lots], run)
    others = [each for part in traces.parts(connection, spread) for each in part]
    alike = {each.run for each in others}
    return {
        "complaint": complaint,
        "title": named["title"] if named else None,
        "number": named["batch_number"] if named else None,
        "lots": lots,
        "others": _recalled(connection, others),
        "told_of_others": [each for each in every if each["run"] in alike and each["id"] != complaint["id"]],
    }


def _named(connection: Connection, run: str) -> RowMapping | None:
    return connection.execute(NAMED, {"run": run}).mappings().one_or_none()


def _batch(connection: Connection, run: str) -> BatchPieces | None:
    row = connection.execute(ONE, {"run": run}).mappings().one_or_none()
    return _pieces(row) if row else None


def _pieces(row: RowMapping) -> BatchPieces:
    return {
        "run": row["id"],
        "recipe": row["recipe_id"],
        "title": row["title"],
        "number": row["batch_number"],
        "made_on": row["made_on"],
        "best_before": row["best_before"],
        "place": row["place"],
        "release": row["release"],
        "good": row["good"],
        "kept_there": row["kept_there"],
        "made": row["good"],
        "in_stock": row["in_stock"],
        "left": row["left_count"],
        "kept": row["kept"],
        "binned": row["binned"],
    }
