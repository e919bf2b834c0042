"""The server's clock. Nothing else in the API reads the time, so that tests can hold it still."""

from __future__ import annotations

from datetime import UTC, datetime

from flask import Response, current_app
from sqlalchemy import Connection

from api import generation
from api.schemas import Clock
from api.settings import RELEASED_MS
from api.store import execute
from api.wire import Blueprint, answer

blueprint = Blueprint("clock", __name__, description="The server's clock")


def now_ms() -> int:
    """Whole milliseconds since 1970, UTC."""
    ms: int = current_app.config["BOWLSIDE"].clock_ms()
    return ms


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


def behind(connection: Connection, at: int) -> str | None:
    """What shows that the server's clock, which says `at`, is wrong; None when nothing does.

    It is then no measure for anybody's: a phone that is right must not be blamed, nor what it sends refused.
    """
    if at < RELEASED_MS:
        return (
            f"The server's clock says {day(at)}, before this version was made ({day(RELEASED_MS)}). Set it."
        )
    newest = execute(connection, NEWEST, {}).fetchone()[0]
    if newest is not None and at < newest - SLACK_MS:
        return (
            f"The server's clock says {day(at)}, but it said {day(newest)} before. It is behind now,"
            " or was ahead then. Set it."
        )
    return None


def day(ms: int) -> str:
    """An instant as people read it: 2026-11-25 14:00 UTC."""
    return f"{datetime.fromtimestamp(ms / 1000, UTC):%Y-%m-%d %H:%M} UTC"


@blueprint.get("/clock")
@blueprint.response(200, Clock)
def read_clock() -> Response:
    """The server's clock, so that a phone can learn how far its own is off."""
    return answer({"generation": generation.now(), "server_ms": now_ms()})
