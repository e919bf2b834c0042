"""The journal over HTTP: a grow-only set of entries, taken one by one and read on from a cursor.

An entry is never refused because another came first; a malformed one is refused by itself, with
the reason, and the rest of its batch is kept.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any
from urllib.parse import parse_qsl
from uuid import UUID

from flask import Response, request
from sqlalchemy import Connection, Engine

import bench
from api.clock import now_ms
from api.door.gate import sender
from api.runs import REACH, no_such_run, note_finish, reach_of
from api.schemas import EntryAnswers, EntryBatch, EntryPage, EntryQuery
from api.store import HOLD, execute, read_row, writing
from api.tables import db
from api.wire import BatchArguments, Blueprint, answer, answer_text, described, unfit_values
from bench import EntryError, canonical

blueprint = Blueprint("entries", __name__, description="The journal of a run")
blueprint.ARGUMENTS_PARSER = BatchArguments()

AHEAD_MS = 24 * 3_600_000
ENDINGS = frozenset({"finished", "undone"})

# Holds the run before it takes a number. The entries of a run are then numbered in the order in which
# they can be seen, and nobody who reads on from a cursor skips one.
KEEP = (
    "INSERT INTO entry (id, run_id, text, sender)"
    f" SELECT :id, id, :text, :sender FROM run WHERE id = :run {HOLD}"
    " ON CONFLICT (id) DO NOTHING RETURNING seq"
)
KEPT_AS = "SELECT text FROM entry WHERE id = :id"
READ_ON = (
    "SELECT coalesce(group_concat(text, ','), ''), max(seq) FROM"
    " (SELECT seq, text FROM entry WHERE run_id = :run AND seq > :after ORDER BY seq LIMIT :limit) AS page"
)
PAGES_HELD = 32
OTHER_CONTENT = EntryError(
    "id", "Another entry has this id already, and an entry never changes. Send this one with a new id."
)


@blueprint.post("/runs/<uuid:run_id>/entries")
@blueprint.arguments(EntryBatch())
@described(blueprint.response(200, EntryAnswers))
def post_entries(batch: dict[str, list[Any]], run_id: UUID) -> Response:
    """Send entries, at most 500. Each is answered by itself: kept, had already, or refused and why."""
    at, device = now_ms(), sender()
    entries = batch["entries"]
    with writing(alone=False, one_statement=is_a_touch(entries)) as connection:
        answers, cursor = keep_entries(connection, str(run_id), entries, at, device.id if device else None)
    return answer({"answers": answers, "cursor": cursor, "server_ms": at})


@blueprint.get("/runs/<uuid:run_id>/entries")
@described(blueprint.arguments(EntryQuery, location="query"), blueprint.response(200, EntryPage))
def get_entries(run_id: UUID) -> Response:
    """The entries after a cursor, in the order in which they came to this server."""
    after, limit = _asked(request.query_string)
    reach = reach_of(run_id)
    texts, cursor = _held_page(db.engine, str(run_id), after, limit, reach)
    more = "true" if cursor < reach else "false"
    tail = f'],"cursor":{cursor},"more":{more},"server_ms":{now_ms()}}}'
    return answer_text(b"".join((b'{"entries":[', texts, tail.encode())))


@lru_cache(maxsize=PAGES_HELD)
def _asked(query: bytes) -> tuple[int, int]:
    """After which cursor, and how many at most; marshmallow's ValidationError for anything else."""
    asked = EntryQuery().load(dict(parse_qsl(query.decode("latin-1"), errors="replace")))
    return asked["after"], asked["limit"]


@lru_cache(maxsize=PAGES_HELD)
def _held_page(_database: Engine, run_id: str, after: int, limit: int, _reach: int) -> tuple[bytes, int]:
    """Entries joined as JSON, and the cursor after them; held until the journal reaches further."""
    texts, cursor = read_row(READ_ON, {"run": run_id, "after": after, "limit": limit})
    return texts.encode(), cursor or after


def keep_entries(
    connection: Connection, run_id: str, entries: list[Any], at: int, sender: str | None = None
) -> tuple[list[dict[str, Any]], int]:
    """Add entries to a run's journal; gives each one's answer and how far the journal then reaches.

    `sender` is the id of the paired device that sent them.
    """
    cursor = 0
    answers: list[dict[str, Any]] = []
    may_end = False
    for entry in entries:
        try:
            check(entry, run_id, at)
        except EntryError as error:
            answers.append(_refusal(entry, error))
            continue
        kept = {"id": entry["id"], "run": run_id, "text": canonical(entry), "sender": sender}
        if new := execute(connection, KEEP, kept).fetchall():
            cursor = new[0][0]
            may_end = may_end or entry["kind"] in ENDINGS
            answers.append({"id": entry["id"], "result": "kept"})
        elif execute(connection, KEPT_AS, kept).fetchone() == (kept["text"],):
            answers.append({"id": entry["id"], "result": "had"})
        else:
            answers.append(_refusal(entry, OTHER_CONTENT))
    if may_end:
        note_finish(connection, run_id)
    if not cursor:
        reach = execute(connection, REACH, {"run": run_id}).fetchone()
        cursor = reach[0] if reach else no_such_run()
    return answers, cursor


def is_a_touch(entries: list[Any]) -> bool:
    """Whether this is one entry that changes nothing but the journal: what phones send most."""
    return len(entries) == 1 and isinstance(entries[0], dict) and str(entries[0].get("kind")) not in ENDINGS


def check(entry: Any, run_id: str, at: int) -> None:
    """Raises EntryError for what cannot be kept in this run's journal."""
    if not isinstance(entry, dict):
        raise EntryError("", "An entry is a JSON object with id, run, device, at, kind and body.")
    for field, says in unfit_values(entry):
        raise EntryError(field, says)
    bench.check_entry(entry)
    if entry.get("run") != run_id:
        raise EntryError("run", "The entry names another run than the address does. Send it to its own run.")
    if entry["at"] > at + AHEAD_MS:
        raise EntryError(
            "at", "This is more than a day ahead of the server's clock. Check the phone's clock and date."
        )


def _refusal(entry: Any, error: EntryError) -> dict[str, Any]:
    named = entry.get("id") if isinstance(entry, dict) else None
    shown = named if isinstance(named, str) and not any(unfit_values(named)) else None
    return {"id": shown, "result": "refused", "field": error.where, "detail": error.says}
