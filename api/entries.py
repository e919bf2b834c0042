"""The journal of a run over HTTP (how it is kept: api/journals.py)."""

from __future__ import annotations

import json
from collections.abc import Sequence
from uuid import UUID

from flask import Response
from sqlalchemy import Connection

from api import generation, projections
from api.answers import EntryAnswer, EntryAnswers, EntryPage, WholeRunPage
from api.clock import now_ms
from api.door.gate import sender
from api.journals import OF_A_RUN, BatchAsked, add, read_on
from api.rules import OfARun
from api.runs import REACH, WITH_SHEET, RunRow, RunsAsked, listed, no_such_run, reach_of, whole_run
from api.schemas import EntryBatch, EntryQuery, WholeRunQuery
from api.shapes_openapi import shape
from api.store import execute, reading, writing
from api.wire import BatchArguments, Blueprint, answer, answer_text, described, pages_of

MOST_AT_ONCE = 500

blueprint = Blueprint("entries", __name__, description="The journal of a run")
blueprint.ARGUMENTS_PARSER = BatchArguments()


@blueprint.post("/runs/<uuid:run_id>/entries")
@blueprint.arguments(EntryBatch())
@described(blueprint.response(200, shape(EntryAnswers)))
def post_entries(batch: BatchAsked, run_id: UUID) -> Response:
    """Send entries, at most 500. Each is answered by itself: kept, had already, or refused and why."""
    at, device = now_ms(), sender()
    entries, run = batch["entries"], str(run_id)
    # Who says which generation is meant needs two statements that nothing comes between.
    one_statement = is_a_touch(entries) and generation.meant() is None
    with writing(alone=False, one_statement=one_statement) as connection:
        rules = OfARun(connection, run, device, batch.get("given_back", False))
        answers, cursor = keep_entries(
            connection, run, entries, at, device.id if device else None, rules=rules
        )
    return answer({"answers": answers, "cursor": cursor, "generation": generation.now(), "server_ms": at})


@blueprint.get("/runs/<uuid:run_id>/entries")
@described(blueprint.arguments(EntryQuery, location="query"), blueprint.response(200, shape(EntryPage)))
def get_entries(run_id: UUID) -> Response:
    """The entries after a cursor, in the order in which they came to this server."""
    return read_on(OF_A_RUN, str(run_id), reach_of(run_id))


@blueprint.get("/runs/whole")
@blueprint.arguments(WholeRunQuery(), location="query")
@blueprint.response(200, shape(WholeRunPage))
def list_whole_runs(asked: RunsAsked) -> Response:
    """The runs of such a list with their sheets, and with their journals as far as 500 entries reach: for a phone
    that has none of them yet."""
    with reading() as connection:
        rows, total = listed(connection, asked, WITH_SHEET)
        items = [_with_journal(connection, row) for row in rows]
    tail = {"page": asked["page"], "pages": pages_of(total, asked), "total": total}
    return answer_text(b'{"runs":[' + b",".join(items) + b"]," + json.dumps(tail).encode()[1:])


def _with_journal(connection: Connection, row: RunRow) -> bytes:
    asked = {"run": row.id, "after": 0, "limit": MOST_AT_ONCE}
    texts, read_to = execute(connection, OF_A_RUN.read_on, asked).fetchone()
    return whole_run(row)[:-1] + f',"journal":[{texts}],"read_to":{read_to or 0}}}'.encode()


def keep_entries(
    connection: Connection,
    run_id: str,
    entries: Sequence[object],
    at: int,
    sender: str | None = None,
    closed: bool = True,
    rules: OfARun | None = None,
) -> tuple[list[EntryAnswer], int]:
    """Add entries to a run's journal; gives each one's answer and how far the journal then reaches.

    `sender` is the id of the paired device that sent them; closed: see `journals.add`. rules: what the run asks
    of them; None for a whole journal that another studio has taken in already.
    """
    added = add(connection, OF_A_RUN, run_id, entries, at, sender, closed, rules or (lambda _: False))
    if rules:
        rules.note(added.new)
    projections.refresh(connection, run_id, added.new)
    numbered = {entry["id"] for entry in added.new if entry["kind"] == "numbered"}
    if numbered and (others := projections.same_number(connection, run_id)):
        for each in added.answers:
            if each["id"] in numbered:
                each["also_used_by"] = others
    cursor = added.cursor
    if not cursor:
        reach = execute(connection, REACH, {"run": run_id}).fetchone()
        cursor = reach[0] if reach else no_such_run()
    return added.answers, cursor


def is_a_touch(entries: Sequence[object]) -> bool:
    """Whether this is one entry that changes nothing but the journal: what phones send most."""
    if len(entries) != 1:
        return False
    return isinstance(entries[0], dict) and str(entries[0].get("kind")) not in projections.MOVED_BY
