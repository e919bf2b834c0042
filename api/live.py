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
from collections import Counter
from collections.abc import Callable, Iterator
from typing import NamedTuple

from flask import Flask, Response, current_app, request

from api.clock import now_ms
from api.door.gate import sender
from api.edge.wsgi import LINE
from api.errors import Problem
from api.security import DATA
from api.store import read_row
from api.wire import Blueprint
from bench import words

blueprint = Blueprint("live", __name__, description="The live line")

LOOK_S = 0.1
HEARTBEAT_S = 15.0
# At the edge a line holds a socket and no thread, in one process.
MAX_LINES = 512
# A phone has one, perhaps two for a moment, and its owner may have two pages open.
MAX_OF_ONE = 4
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
    device = sender()
    line = lines.take(device.id if device else "")
    if line is None:
        raise Problem(503, words.say("api-studio-lines-full"), headers={"Retry-After": "60"})
    if LINE in request.environ:  # the edge holds it, with no thread
        request.environ[LINE] = line
        return Response(iter(()), headers=HEADERS, content_type="text/event-stream")  # of no told length
    response = Response(line.follow(), headers=HEADERS, content_type="text/event-stream")
    response.call_on_close(line.leave)
    return response


class Mark(NamedTuple):
    """How things stand, as the watcher sees them. Two marks differ when something moved."""

    reach: int
    newest: int
    shelf: int
    begun_at: int
    shut_out: int
    generation: str


class Line:
    """What one browser is told, until it goes, a device is shut out, or it has taken newer ones."""

    def __init__(self, lines: Lines, holder: str) -> None:
        self._lines, self.holder = lines, holder
        self._told: Mark | None = None
        self._ended = False
        self._wake: Callable[[], None] = lambda: None

    def follow(self) -> Iterator[bytes]:
        """All of it, for whoever holds a thread to wait in."""
        while (piece := self.next_piece()) is not None:
            if piece:
                yield piece
            elif not self._lines.wait(self, HEARTBEAT_S):
                # To a browser that is gone a first write may still succeed; a second does not.
                yield b":"
                self._lines.wait(self, LOOK_S)
                yield b"\n\n"

    def on_news(self, wake: Callable[[], None]) -> None:
        self._wake = wake

    def next_piece(self) -> bytes | None:
        """What there is to say now, which may be nothing; None when all is said."""
        mark = self._lines.mark
        if self._ended:
            return None
        if mark is None or mark == self._told:
            return b""
        if self._told and mark.shut_out != self._told.shut_out:
            return None  # whoever is still welcome comes back by itself
        self._told = mark
        return b"event: moved\ndata: %s\n\n" % self._lines.news(mark)

    def leave(self) -> None:
        self._lines.let_go(self)

    def end(self) -> None:
        self._ended = True
        self._wake()

    def wake(self) -> None:
        self._wake()

    @property
    def has_news(self) -> bool:
        return self._ended or self._lines.mark != self._told


class Lines:
    """The lines that this worker holds, and the watcher they share."""

    def __init__(self, app: Flask) -> None:
        self._app = app
        self._changed = threading.Condition()
        self._watching = False
        self._held: dict[Line, None] = {}  # the oldest first
        self.mark: Mark | None = None

    def take(self, holder: str) -> Line | None:
        """A line for this holder, whose oldest gives way when it has many; None when all are held.

        Whoever sits at this machine is no device, and may have as many as there are.
        """
        with self._changed:
            own = [line for line in self._held if holder and line.holder == holder]
            if len(own) >= MAX_OF_ONE:
                self._end(own[0])
            elif len(self._held) >= MAX_LINES and not self._take_from_whoever_has_most(holder, len(own)):
                return None
            line = Line(self, holder)
            self._held[line] = None
            if not self._watching:
                self._watching, self.mark = True, None
                threading.Thread(target=self._watch, name="live", daemon=True).start()
            return line

    def let_go(self, line: Line) -> None:
        with self._changed:
            self._held.pop(line, None)

    def wait(self, line: Line, seconds: float) -> bool:
        """Until there is something to say, or so long; whether there is."""
        with self._changed:
            return self._changed.wait_for(lambda: line.has_news, seconds)

    def _end(self, line: Line) -> None:
        del self._held[line]
        line.end()
        self._changed.notify_all()

    def _take_from_whoever_has_most(self, holder: str, own: int) -> bool:
        """When all lines are held, one who has at least two fewer than another gets that one's oldest."""
        counts = Counter(line.holder for line in self._held)
        most, count = counts.most_common(1)[0] if counts else ("", 0)
        if not holder or count < own + 2:
            return False
        self._end(next(line for line in self._held if line.holder == most))
        return True

    def _watch(self) -> None:
        with self._app.app_context():
            while True:
                mark = self._look()
                with self._changed:
                    if not self._held:
                        self._watching = False
                        return
                    if mark and mark != self.mark:
                        self.mark = mark
                        self._changed.notify_all()
                        for line in self._held:
                            line.wake()
                time.sleep(LOOK_S)

    def _look(self) -> Mark | None:
        try:
            return Mark(*read_row(MARK, {}))
        except Exception as error:  # of either driver: busy, or away for a moment
            self._app.logger.warning("The live line could not look at the database: %s", error)
            return None

    def news(self, mark: Mark) -> bytes:
        with self._app.app_context():
            return json.dumps({"reach": mark.reach, "server_ms": now_ms()}).encode()
