"""The server's clock. Nothing else in the API reads the time, so that tests can hold it still."""

from __future__ import annotations

import sqlite3
from datetime import UTC, datetime

from flask import Response, current_app, g, has_request_context
from sqlalchemy import Connection
from sqlalchemy.exc import DBAPIError

from api import generation, steady
from api.answers import Clock
from api.settings import RELEASED_MS, Settings
from api.shapes_openapi import shape
from api.steady import Anchor
from api.store import execute
from api.wire import Blueprint, answer
from bench import words

blueprint = Blueprint("clock", __name__, description="The server's clock")


def now_ms() -> int:
    """Whole milliseconds since 1970, UTC. They go on steadily, whatever is done to the computer's clock."""
    settings: Settings = current_app.config["BOWLSIDE"]
    if settings.steady_ms is None or (anchor := _anchor()) is None:
        return settings.clock_ms()
    return anchor.now(settings.steady_ms())


def wall_ms() -> int:
    """What the computer's clock says."""
    ms: int = current_app.config["BOWLSIDE"].clock_ms()
    return ms


def _anchor() -> Anchor | None:
    """As it was when this request was first looked at; outside a request as it is."""
    if has_request_context():
        return generation.anchor()
    try:
        return steady.find()
    except (DBAPIError, sqlite3.OperationalError):
        return None  # no such table yet: a studio of an earlier version, before it is brought up to date


# A clock that is put right by its machine goes back by seconds.
SLACK_MS = 5 * 60_000
# The newest that this server itself noted by its own clock; of the journals the last so many.
NEWEST = """
SELECT max(noted.at) FROM (
  SELECT max(received_at) AS at FROM (SELECT received_at FROM entry ORDER BY seq DESC LIMIT 1000) AS one
  UNION ALL
  SELECT max(received_at) AS at FROM (SELECT received_at FROM shelf_entry ORDER BY seq DESC LIMIT 1000) AS two
  UNION ALL
  SELECT max(at) AS at FROM audit
) AS noted
"""


def behind(connection: Connection) -> str | None:
    """What shows that the clock of the server's computer is wrong; None when nothing does.

    It is then no measure for anybody's: a phone that is right must not be blamed, nor what it sends refused.
    """
    at = wall_ms()
    if at < RELEASED_MS:
        return words.say("api-studio-clock-old", at=day(at), made=day(RELEASED_MS))
    newest = execute(connection, NEWEST, {}).fetchone()[0]
    if newest is not None and at < newest - SLACK_MS:
        return words.say("api-studio-clock-behind", at=day(at), before=day(newest))
    return None


def day(ms: int) -> str:
    """An instant as people read it: 2026-11-25 14:00 UTC."""
    return f"{datetime.fromtimestamp(ms / 1000, UTC):%Y-%m-%d %H:%M} UTC"


@blueprint.get("/clock")
@blueprint.response(200, shape(Clock))
def read_clock() -> Response:
    """The server's clock, so that a phone can learn how far its own is off."""
    return answer({"generation": generation.now(), **standing(), "server_ms": now_ms()})


def standing() -> dict[str, int | None]:
    """How often the computer's clock was seen to leap, and by how much it is not followed yet; looks at it."""
    try:
        g.anchor = anchor = steady.look()
    except (DBAPIError, sqlite3.OperationalError):  # a full disk is no reason not to say the time
        anchor = _anchor()
    return {
        "epoch": anchor.epoch if anchor else 0,
        "held_back_ms": (anchor.held_ms or None) if anchor else None,
    }
