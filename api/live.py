"""The live line: tells phones that something moved, so that they ask at once rather than in a while.

It says only how far the journals reach. What is new a phone then asks for as ever, so a line that
breaks, or that a proxy holds back, costs a few seconds and no entry. It is server-sent events
(https://html.spec.whatwg.org/multipage/server-sent-events.html).

Each worker process has one watcher, a thread that looks at the database while somebody listens and
ends when nobody does. So a phone hears of what came in by another worker, with nothing between them
but the database they share.
"""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import NamedTuple

from flask import Flask, Response, current_app

from api.clock import now_ms
from api.errors import Problem
from api.security import DATA
from api.store import read_row
from api.wire import Blueprint

blueprint = Blueprint("live", __name__, description="The live line")

LOOK_S = 0.2
HEARTBEAT_S = 15.0
# Each line holds a thread of the worker, and some must be left to answer with.
MOST_LINES = 48
LINES = "bowlside_lines"

# With the highest number, how many of the newest there are: on PostgreSQL an entry may be committed
# after one with a higher number. A run that was begun moves things too, and so does the door.
MARK = """
    WITH far AS (SELECT coalesce(max(seq), 0) AS reach FROM entry)
    SELECT reach, (SELECT count(*) FROM entry WHERE seq > reach - 1000),
        (SELECT coalesce(max(seq), 0) FROM shelf_entry),
        (SELECT coalesce(max(created_at), 0) FROM run),
        (SELECT count(*) FROM device WHERE shut_out_at IS NOT NULL),
        (SELECT generation FROM studio)
    FROM far
"""
EVENT = {
    "type": "object",
    "properties": {"event": {"const": "moved"}, "data": {"type": "string"}},
    "required": ["event", "data"],
}
HEADERS = (("Cache-Control", "no-store"), ("X-Accel-Buffering", "no"), *DATA)


def init_app(app: Flask) -> None:
    app.extensions[LINES] = Lines(app)


@blueprint.get("/live")
@blueprint.response(200, EVENT, content_type="text/event-stream")
@blueprint.alt_response(503, description="Enough lines are held; ask now and then instead")
def get_live() -> Response:
    """Server-sent events: `moved` {"reach", "server_ms"} at once, and whenever a journal grew or a run began."""
    lines: Lines = current_app.extensions[LINES]
    if lines.held >= MOST_LINES:
        raise Problem(503, "Enough lines are held. Ask now and then instead.", headers={"Retry-After": "60"})
    return Response(lines.follow(), headers=HEADERS, content_type="text/event-stream")


class Mark(NamedTuple):
    """How things stand, as the watcher sees them. Two marks differ when something moved."""

    reach: int
    newest: int
    shelf: int
    begun_at: int
    shut_out: int
    generation: str


class Lines:
    """The lines that this worker holds, and the watcher they share."""

    def __init__(self, app: Flask) -> None:
        self._app = app
        self._changed = threading.Condition()
        self._mark: Mark | None = None
        self._watching = False
        self.held = 0

    def follow(self) -> Iterator[bytes]:
        """What one browser is told, until it goes or a device is shut out."""
        with self._line():
            told: Mark | None = None
            while True:
                mark = self._other_than(told, HEARTBEAT_S)
                if mark == told or mark is None:
                    # To a browser that is gone a first write may still succeed; a second does not.
                    yield b":"
                    self._other_than(told, LOOK_S)
                    yield b"\n\n"
                    continue
                if told and mark.shut_out != told.shut_out:
                    return  # whoever is still welcome comes back by itself
                told = mark
                yield b"event: moved\ndata: %s\n\n" % self._news(mark)

    @contextmanager
    def _line(self) -> Iterator[None]:
        with self._changed:
            self.held += 1
            if not self._watching:
                self._watching, self._mark = True, None
                threading.Thread(target=self._watch, name="live", daemon=True).start()
        try:
            yield
        finally:
            with self._changed:
                self.held -= 1

    def _other_than(self, told: Mark | None, seconds: float) -> Mark | None:
        """The mark, as soon as it is another; after so many seconds, whatever it is."""
        with self._changed:
            self._changed.wait_for(lambda: self._mark != told, seconds)
            return self._mark

    def _watch(self) -> None:
        with self._app.app_context():
            while True:
                mark = self._look()
                with self._changed:
                    if not self.held:
                        self._watching = False
                        return
                    if mark and mark != self._mark:
                        self._mark = mark
                        self._changed.notify_all()
                time.sleep(LOOK_S)

    def _look(self) -> Mark | None:
        try:
            return Mark(*read_row(MARK, {}))
        except Exception as error:  # of either driver: busy, or away for a moment
            self._app.logger.warning("The live line could not look at the database: %s", error)
            return None

    def _news(self, mark: Mark) -> bytes:
        with self._app.app_context():
            return json.dumps({"reach": mark.reach, "server_ms": now_ms()}).encode()
