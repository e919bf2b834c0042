"""The journal of the shelf over HTTP, and what it says is in the house."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import lru_cache

from flask import Response
from sqlalchemy import Connection, Engine

import bench
from api import finished, generation, papers
from api.answers import EntryAnswer, EntryAnswers, EntryPage
from api.clock import now_ms
from api.door.gate import sender
from api.journals import OF_THE_SHELF, BatchAsked, Judge, add, read_on
from api.rules import of_the_shelf
from api.schemas import EntryBatch, EntryQuery
from api.shapes_openapi import shape
from api.store import execute, read_row, writing
from api.tables import db
from api.wire import BatchArguments, Blueprint, answer, described
from bench import Purchases, Shelf

blueprint = Blueprint("shelf", __name__, description="The journal of the shelf")
blueprint.ARGUMENTS_PARSER = BatchArguments()

SHELF = "shelf"
REACH = "SELECT coalesce(max(seq), 0) FROM shelf_entry"
# What is told of finished pieces moves no lot.
SHELF_REACH = "SELECT coalesce(max(seq), 0) FROM shelf_entry WHERE run_id IS NULL"
SHELVES_HELD = 4


@blueprint.post("/shelf/entries")
@blueprint.arguments(EntryBatch())
@blueprint.response(200, shape(EntryAnswers))
def post_entries(batch: BatchAsked) -> Response:
    """Send entries of the shelf, at most 500. Each is answered by itself, as a run's are."""
    at, device = now_ms(), sender()
    with writing() as connection:
        judge = of_the_shelf(connection, device, batch.get("given_back", False))
        answers, cursor = keep_entries(
            connection, batch["entries"], at, device.id if device else None, judge=judge
        )
    return answer({"answers": answers, "cursor": cursor, "generation": generation.now(), "server_ms": at})


@blueprint.get("/shelf/entries")
@described(blueprint.arguments(EntryQuery, location="query"), blueprint.response(200, shape(EntryPage)))
def get_entries() -> Response:
    """The shelf's entries after a cursor, in the order in which they came to this server."""
    return read_on(OF_THE_SHELF, SHELF, reach())


def keep_entries(
    connection: Connection,
    entries: Sequence[object],
    at: int,
    sender: str | None = None,
    closed: bool = True,
    judge: Judge = lambda _: False,
) -> tuple[list[EntryAnswer], int]:
    """Add entries to the shelf's journal; gives each one's answer and how far the journal then reaches."""
    added = add(connection, OF_THE_SHELF, SHELF, entries, at, sender, closed, judge)
    finished.note(connection, added.new)
    papers.expect(connection, added.new)
    return added.answers, added.cursor or execute(connection, REACH, {}).fetchone()[0]


def reach() -> int:
    """How far the shelf's journal reaches: the cursor of its last entry, 0 for none."""
    found: int = read_row(REACH, {})[0]
    return found


def current_stock() -> Shelf:
    """The shelf as `bench.fold_shelf` gives it. It is held: nobody may change it."""
    return _held_shelf(db.engine, generation.now(), read_row(SHELF_REACH, {})[0])


def current_purchases() -> Purchases:
    """What was ordered and did not come yet, and the last prices that were noted. It is held, as the shelf is."""
    return _held_purchases(db.engine, generation.now(), read_row(SHELF_REACH, {})[0])


def made_here() -> dict[str, list[str]]:
    """The lots that were made here, by the batch that they were made in. It is held, as the shelf is."""
    return _held_made_here(db.engine, generation.now(), read_row(SHELF_REACH, {})[0])


@lru_cache(maxsize=SHELVES_HELD)
def _held_made_here(_database: Engine, _generation: str, _reach: int) -> dict[str, list[str]]:
    lots: dict[str, list[str]] = {}
    for key, lot in current_stock()["lots"].items():
        if lot["run"]:
            lots.setdefault(lot["run"], []).append(key)
    return lots


@lru_cache(maxsize=SHELVES_HELD)
def _held_purchases(_database: Engine, _generation: str, _reach: int) -> Purchases:
    return bench.fold_purchases(json.loads(read_row(finished.OF_THE_SHELF, {})[0]), current_stock())


@lru_cache(maxsize=SHELVES_HELD)
def _held_shelf(_database: Engine, _generation: str, _reach: int) -> Shelf:
    """All of the shelf follows from its journal, so it is held until that reaches further."""
    return bench.fold_shelf(json.loads(read_row(finished.OF_THE_SHELF, {})[0]))
