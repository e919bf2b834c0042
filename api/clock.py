"""The server's clock. Nothing else in the API reads the time, so that tests can hold it still."""

from __future__ import annotations

from flask import Response, current_app

from api import generation
from api.schemas import Clock
from api.wire import Blueprint, answer

blueprint = Blueprint("clock", __name__, description="The server's clock")


def now_ms() -> int:
    """Whole milliseconds since 1970, UTC."""
    ms: int = current_app.config["BOWLSIDE"].clock_ms()
    return ms


@blueprint.get("/clock")
@blueprint.response(200, Clock)
def read_clock() -> Response:
    """The server's clock, so that a phone can learn how far its own is off."""
    return answer({"generation": generation.now(), "server_ms": now_ms()})
