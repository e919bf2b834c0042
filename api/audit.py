"""The audit log: what was done to the studio itself, by whom and when. It only grows (migration 0005).

A row says `what` in a word and the rest in `about`; the words that people read are of the catalogue, for the
page and for the terminal. A kind that has no words yet is told by its own name.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import NotRequired, TypedDict

from flask import Response, has_request_context
from sqlalchemy import Connection, insert, select

from api.answers import AuditItem, AuditPage
from api.clock import now_ms
from api.door import gate
from api.door.gate import DeviceRow
from api.schemas import AuditQuery
from api.shapes_openapi import shape
from api.store import reading
from api.tables import Audit
from api.wire import Blueprint, answer
from bench import JsonValue, canonical, words

blueprint = Blueprint("audit", __name__, description="What was done to the studio, by whom and when")

# Who did it, where it is no device: kept so, and said in the words of whoever reads.
TERMINAL = "the terminal"
ITSELF = "the server"
THIS_COMPUTER = "this computer"
STRANGER = "a stranger"
KINDS = frozenset(
    {
        "code_made",
        "code_spent",
        "paired",
        "role_changed",
        "renamed",
        "shut_out",
        "settings_changed",
        "hours_changed",
        "kit_changed",
        "imported",
        "exported",
        "copied",
        "restored",
        "moved",
        "moved_back",
        "migrated",
        "unsigned",
        "bench_followed",
        "outlet_erased",
    }
)
FIELDS = frozenset(
    {
        "batch_number",
        "currency",
        "hourly_rate",
        "wrap_cost",
        "packaging_cost",
        "sprays_cost",
        "overhead_cost",
        "cleaning_minutes",
        "labelling_seconds",
        "fee_percent",
        "fee_each",
        "margin_percent",
        "tax_percent",
        "without_tax",
        "before",
        "maker",
        "label",
    }
)
OTHERS = {TERMINAL: "terminal", ITSELF: "server", THIS_COMPUTER: "computer", STRANGER: "stranger"}


_by_itself = ContextVar("by_itself", default=False)


@contextmanager
def by_itself() -> Iterator[None]:
    """What is done meanwhile nobody asked for: the server does it in its own time."""
    was = _by_itself.set(True)
    try:
        yield
    finally:
        _by_itself.reset(was)


def note(
    connection: Connection,
    what: str,
    *,
    who: str | None = None,
    by: DeviceRow | None = None,
    **about: JsonValue,
) -> None:
    """Note in the connection's transaction that `what` was done, by the device that asks or from the terminal.

    what: a short word such as "restored". about: whole numbers and text, never a secret. by, who: another device,
    or somebody who is none.
    """
    device = by or gate.sender()
    elsewhere = ITSELF if _by_itself.get() else TERMINAL
    name = device.name if device else THIS_COMPUTER if has_request_context() else elsewhere
    connection.execute(
        insert(Audit).values(
            id=gate.new_id(),
            at=now_ms(),
            actor=device.id if device and not who else None,
            who=who or name,
            what=what,
            about=canonical(about),
        )
    )


class AuditAsked(TypedDict):
    """`api.schemas.AuditQuery`, read."""

    what: NotRequired[str]
    since: NotRequired[int]
    until: NotRequired[int]
    before: NotRequired[str]
    limit: int


@blueprint.get("/audit")
@blueprint.arguments(AuditQuery(), location="query")
@blueprint.response(200, shape(AuditPage))
def get_audit(asked: AuditAsked) -> Response:
    """What was done to the studio itself, the newest first; a maker's question.

    The next page begins `before` the last row of this one, so nothing is told twice while the log grows.
    """
    with reading() as connection:
        rows = read(
            connection,
            asked["limit"] + 1,
            what=asked.get("what"),
            since=asked.get("since"),
            until=asked.get("until"),
            before=asked.get("before"),
        )
    more = len(rows) > asked["limit"]
    page = rows[: asked["limit"]]
    before = f"{page[-1]['at']}-{page[-1]['id']}" if more else None
    response = answer({"audit": page, "before": before})
    response.headers["Cache-Control"] = "no-store"
    return response


def read(
    connection: Connection,
    limit: int,
    *,
    what: str | None = None,
    since: int | None = None,
    until: int | None = None,
    before: str | None = None,
) -> list[AuditItem]:
    """Rows as they are told, the newest first. since and until: instants, the first of them still wanted."""
    asked = select(Audit.id, Audit.at, Audit.actor, Audit.who, Audit.what, Audit.about)
    if what is not None:
        asked = asked.where(Audit.what == what)
    if since is not None:
        asked = asked.where(Audit.at >= since)
    if until is not None:
        asked = asked.where(Audit.at < until)
    if before is not None:
        at, _, last = before.partition("-")
        asked = asked.where((Audit.at < int(at)) | ((Audit.at == int(at)) & (Audit.id < last)))
    rows = connection.execute(asked.order_by(Audit.at.desc(), Audit.id.desc()).limit(limit))
    return [
        {
            "id": entry_id,
            "at": at,
            "actor": actor,
            "who": _named(actor, who),
            "what": what,
            "about": json.loads(about),
            "says": says(what, about),
        }
        for entry_id, at, actor, who, what, about in rows
    ]


def _named(actor: str | None, who: str) -> str:
    return words.say(f"api-audit-who-{OTHERS[who]}") if actor is None and who in OTHERS else who


def says(what: str, about: str) -> str:
    """What was done, in words that follow who did it."""
    said = json.loads(about)
    try:
        if what in KINDS:
            told = {**said, "fields": _fields(said["fields"])} if "fields" in said else said
            return words.say(f"api-audit-{what.replace('_', '-')}", **told)
    except KeyError:
        pass  # it was noted before so much was
    rest = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in said.items())
    return f"{what.replace('_', ' ')}{': ' if rest else ''}{rest}"


def _fields(names: str) -> str:
    """The settings of these names, "batch_number, currency", as people call them."""
    return ", ".join(
        words.say(f"api-audit-field-{each.replace('_', '-')}") if each in FIELDS else each
        for each in names.split(", ")
    )
