"""A journal as this server keeps it, a run's or the shelf's: entries are taken one by one, and read on from
a cursor.

An entry is never refused because another came first; a malformed one is refused by itself, with the
reason, and the rest of its batch is kept.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NotRequired, TypedDict
from urllib.parse import parse_qsl

from flask import Response, current_app, request
from sqlalchemy import Connection, Engine

import bench
from api import generation
from api.answers import EntryAnswer
from api.clock import behind, day, now_ms
from api.door.gate import is_helper
from api.errors import MAX_SAID, short
from api.schemas import EntryQuery
from api.store import HOLD, execute, read_row
from api.tables import db
from api.wire import answer_text, unfit_values
from bench import Entry, EntryError, canonical, words

AHEAD_MS = 24 * 3_600_000
LARGEST_ENTRY = 64 * 1024  # bytes of its text; cards are the longest, with a few thousand
LARGEST_SIGNING = 1024 * 1024
PAGES_HELD = 32


# Raises EntryError for what is not taken; gives whether it was given back by another than its bench.
Judge = Callable[[Entry], bool]


class BatchAsked(TypedDict):
    """`api.schemas.EntryBatch`, read."""

    entries: list[object]
    given_back: NotRequired[bool]


@dataclass(frozen=True, eq=False)
class Journal:
    """A kind of journal: what its entries must be, and the statements that keep and read them."""

    check: Callable[[object, bool], Entry]
    keep: str
    kept_as: str
    read_on: str
    # An entry as a helper's device is told it, where that is not all of it.
    for_helpers: Callable[[Entry], Entry] | None = None


def less_for_helpers(entry: Entry) -> Entry:
    """An entry of the shelf less what a lot was bought for, and less what somebody said of a reaction."""
    hidden = "text" if entry["kind"] == "complained" else "price"
    if hidden not in entry["body"]:
        return entry
    return {**entry, "body": {name: value for name, value in entry["body"].items() if name != hidden}}


def _read_on(entries: str) -> str:
    return (
        "SELECT coalesce(group_concat(text, ','), ''), max(seq) FROM"
        f" (SELECT seq, text FROM {entries} AND seq > :after ORDER BY seq LIMIT :limit) AS page"
    )


OF_A_RUN = Journal(
    bench.check_entry,
    # Holds the run before it takes a number. The entries of a run are then numbered in the order in which
    # they can be seen, and nobody who reads on from a cursor skips one.
    keep="INSERT INTO entry (id, run_id, text, sender, received_at, given_back)"
    f" SELECT :id, id, :text, :sender, :at, :given FROM run WHERE id = :run {HOLD}"
    " ON CONFLICT (id) DO NOTHING RETURNING seq",
    kept_as="SELECT text FROM entry WHERE id = :id",
    read_on=_read_on("entry WHERE run_id = :run"),
)
# Whoever adds to it is alone, so its numbers come in order too.
OF_THE_SHELF = Journal(
    bench.check_shelf_entry,
    keep="INSERT INTO shelf_entry (id, text, sender, received_at) VALUES (:id, :text, :sender, :at)"
    " ON CONFLICT (id) DO NOTHING RETURNING seq",
    kept_as="SELECT text FROM shelf_entry WHERE id = :id",
    read_on=_read_on("shelf_entry WHERE TRUE"),
    for_helpers=less_for_helpers,
)


@dataclass
class Added:
    """What became of a batch: each entry's answer, those that are new, and the last one's number (0: none new)."""

    answers: list[EntryAnswer]
    new: list[Entry]
    cursor: int = 0


def add(
    connection: Connection,
    journal: Journal,
    run: str,
    entries: Sequence[object],
    at: int,
    sender: str | None,
    closed: bool = True,
    judge: Judge = lambda _: False,
) -> Added:
    """Add entries. `run` is what they name as their run; `sender` the id of the paired device that sent them.

    closed: whether one with a field that nobody reads, or one too large, is refused. An import is not closed:
    journals kept before this was asked must come back whole, and when they were received is not known any more.
    judge: what is asked besides, of one that is not here yet (api/rules.py).
    """
    added, wrong_clock = Added([], []), None
    for given in entries:
        try:
            entry = check(given, journal, run, closed)
            if entry["at"] > at + AHEAD_MS and wrong_clock is None:
                wrong_clock = _wrong_clock(connection, at)
        except EntryError as error:
            added.answers.append(_refusal(given, error))
            continue
        _add_one(connection, journal, run, entry, sender, at if closed else None, judge, added)
    return added


def _add_one(
    connection: Connection,
    journal: Journal,
    run: str,
    entry: Entry,
    sender: str | None,
    received_at: int | None,
    judge: Judge,
    added: Added,
) -> None:
    """Add an entry that is fit for this journal, and say what became of it."""
    refused, given_back = None, False
    try:
        given_back = judge(entry)
    except EntryError as error:
        refused = error
    kept = {
        "id": entry["id"],
        "run": run,
        "text": canonical(entry),
        "sender": sender,
        "at": received_at,
        "given": given_back,
    }
    new = execute(connection, journal.keep, kept).fetchall() if refused is None else []
    if new:
        added.cursor = new[0][0]
        added.new.append(entry)
        added.answers.append({"id": entry["id"], "result": "kept"})
    elif _is_the_same(journal, entry, execute(connection, journal.kept_as, kept).fetchone()):
        added.answers.append({"id": entry["id"], "result": "had"})
    else:
        added.answers.append(
            _refusal(entry, refused or EntryError("id", words.say("api-entries-other-content")))
        )


def _is_the_same(journal: Journal, entry: Entry, row: tuple[str] | None) -> bool:
    """Whether an entry is the one that is kept under its id: as it is, or as a helper was told it.

    From a helper what it is not told is not compared: the answer would say whether it guessed right.
    """
    if row is None:
        return False
    kept, sent, hide = row[0], canonical(entry), journal.for_helpers
    if kept == sent or hide is None:
        return kept == sent
    shown = canonical(hide(json.loads(kept)))
    return shown == (canonical(hide(entry)) if is_helper() else sent)


def read_on(journal: Journal, run: str, reach: int) -> Response:
    """The page of entries that the request asks for, of a journal that reaches so far."""
    hide = journal.for_helpers if is_helper() else None
    after, limit = _asked(request.query_string)
    texts, cursor = _held_page(db.engine, generation.now(), journal, run, after, limit, reach, hide)
    more = "true" if cursor < reach else "false"
    tail = f'],"cursor":{cursor},"more":{more},"generation":"{generation.now()}","server_ms":{now_ms()}}}'
    return answer_text(b"".join((b'{"entries":[', texts, tail.encode())))


@lru_cache(maxsize=PAGES_HELD)
def _asked(query: bytes) -> tuple[int, int]:
    """After which cursor, and how many at most; marshmallow's ValidationError for anything else."""
    asked = EntryQuery().load(dict(parse_qsl(query.decode("latin-1"), errors="replace")))
    return asked["after"], asked["limit"]


@lru_cache(maxsize=PAGES_HELD)
def _held_page(
    _database: Engine,
    _generation: str,
    journal: Journal,
    run: str,
    after: int,
    limit: int,
    reach: int,
    hide: Callable[[Entry], Entry] | None,
) -> tuple[bytes, int]:
    """Entries joined as JSON, and the cursor after them; held until the journal reaches further."""
    texts, cursor = read_row(journal.read_on, {"run": run, "after": after, "limit": limit})
    if hide is not None:
        texts = ",".join(canonical(hide(entry)) for entry in json.loads(f"[{texts}]"))
    return texts.encode(), cursor or min(after, reach)


def _wrong_clock(connection: Connection, at: int) -> str:
    """Of an entry that is ahead of the server's clock: what is wrong with that clock; else EntryError."""
    if found := behind(connection):
        with words.speaking(words.DEFAULT):  # as the log is
            current_app.logger.warning("%s An entry that is ahead of it was taken.", behind(connection))
        return found
    raise EntryError(
        "at",
        words.say("api-entries-ahead", at=day(at)),
    )


def check(given: object, journal: Journal, run: str, closed: bool = True) -> Entry:
    """The entry, fit for this journal; else EntryError; closed: see `add`."""
    if not isinstance(given, dict):
        raise EntryError("", words.say("api-entries-shape"))
    for field, says in unfit_values(given):
        raise EntryError(field, says)
    entry = journal.check(given, closed)
    # A signing names entries that must be here, so it is no longer than the journal lets it be.
    most = LARGEST_SIGNING if entry["kind"] == "signed" else LARGEST_ENTRY
    if closed and (size := len(canonical(entry).encode())) > most:
        raise EntryError("body", words.say("api-entries-too-long", size=size, most=most))
    if entry.get("run") != run:
        raise EntryError("run", words.say("api-entries-other-run"))
    return entry


def _refusal(given: object, error: EntryError) -> EntryAnswer:
    named = given.get("id") if isinstance(given, dict) else None
    shown = named if isinstance(named, str) and len(named) <= 64 and not any(unfit_values(named)) else None
    return {
        "id": shown,
        "result": "refused",
        "field": short(error.where),
        "detail": short(error.says, MAX_SAID),
    }
