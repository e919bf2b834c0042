"""Answers on a client's line: whole, piece by piece, as news that goes on, or a refusal and a while to hear it."""

from __future__ import annotations

import json
import math
from concurrent.futures import Future
from email.utils import formatdate
from functools import lru_cache
from http import HTTPStatus
from time import monotonic, time
from typing import TYPE_CHECKING

import h11

from api.edge.channel import HEAD_BYTES, Channel, Phase
from api.edge.wsgi import Answer, Headers, Line
from bench import words

if TYPE_CHECKING:
    from api.edge.serving import Edge

REFUSED_BYTES = 128 * 1024 * 1024
REFUSED_BYTES_OF_STRANGER = 1024 * 1024


class Answering(Channel):
    """A client that is answered, and may then ask again."""

    def __init__(self, edge: Edge, peer: str) -> None:
        super().__init__(edge, peer)
        self._ahead = bytearray()  # what came before its turn
        self._wants_head_alone = False
        self._is_known = False
        self._thrown = 0
        self._line: Line | None = None
        self._said_at = 0.0

    def _go_on(self) -> None:
        """Answered, and ready for another: whoever reads requests goes on with what came ahead."""
        raise NotImplementedError

    def look(self, now: float) -> None:
        """Called a few times a second."""
        if now > self.due or self._is_taken_too_slowly(now):
            self.drop()
        elif self._line and now - self._said_at > self._edge.patience.heartbeat:
            self._say(b":\n\n")

    def end(self) -> None:
        """The server leaves: whoever is answered may take the answer, and nobody may ask again."""
        if self.phase in (Phase.HEAD, Phase.LINE) or not self._transport:
            self.drop()

    def _answer(self, made: Future[Answer]) -> None:
        self._let_bytes_go()  # of the body
        if error := made.exception():
            self._edge.log_fault(error)
            self._send_problem(500, words.say("api-edge-fault"))
            return
        answer = made.result()
        if self.phase is not Phase.WORK:  # it has gone
            if answer.line:
                answer.line.leave()
            if answer.rest is not None:
                self._edge.in_a_thread(answer.close)
            return
        if answer.line:
            self._hold(answer)
        elif not self._holds(len(answer.body)):
            self._edge.in_a_thread(answer.close)
            self._send_problem(503, words.say("api-edge-busy"))
        elif answer.rest is not None:
            self.phase = Phase.STREAM
            self._edge.run(self._stream(answer))
        else:
            self._send(answer.status, answer.headers, answer.body, answer.reason)

    def _send(self, status: int, headers: Headers, body: bytes, reason: bytes = b"") -> None:
        try:
            content = [h11.Data(data=body)] if body and not self._wants_head_alone else []
            self._write(self._head(status, headers, reason), *content, h11.EndOfMessage())
        except h11.LocalProtocolError as error:
            self._edge.log_fault(error)
            self.drop()
            return
        self._next()

    def _head(self, status: int, headers: Headers, reason: bytes) -> h11.Response:
        sent = [*headers, (b"Date", _date(int(time())))]
        if self._http.their_state not in (h11.DONE, h11.MUST_CLOSE, h11.CLOSED) or self._edge.leaves:
            sent.append((b"Connection", b"close"))
        return h11.Response(status_code=status, headers=sent, reason=reason)

    async def _stream(self, answer: Answer) -> None:
        """A long answer, of which no more is made than the client takes, and no thread waits for it."""
        try:
            self._write(self._head(answer.status, answer.headers, answer.reason), h11.Data(data=answer.body))
            while (piece := await self._edge.in_a_thread(answer.next_piece)) is not None:
                await self._room.wait()
                if self.phase is not Phase.STREAM:
                    return
                self._write(h11.Data(data=piece))
            if self.phase is Phase.STREAM:
                self._write(h11.EndOfMessage())
                self._next()
        except Exception as error:
            self._edge.log_fault(error)
            self.drop()
        finally:
            self._edge.in_a_thread(answer.close)

    def _hold(self, answer: Answer) -> None:
        assert answer.line
        self.phase, self._line = Phase.LINE, answer.line
        self._resume()
        self._write(self._head(answer.status, answer.headers, answer.reason))
        self._said_at = monotonic()
        call = self._edge.call
        self._line.on_news(lambda: call(self._tell))
        self._tell()

    def _tell(self) -> None:
        if self._line:
            piece = self._line.next_piece()
            if piece is None:
                self._line.leave()
                self._line = None
                self._write(h11.EndOfMessage())
                self._leave()
            elif piece:
                self._say(piece)

    def _say(self, piece: bytes) -> None:
        self._said_at = monotonic()
        self._write(h11.Data(data=piece))

    def _next(self) -> None:
        """Answered: be ready for another, or go."""
        http = self._http
        if http.our_state is h11.DONE and http.their_state is h11.DONE:
            http.start_next_cycle()
            self.phase, self.due = Phase.HEAD, monotonic() + self._edge.patience.idle
            if self._edge.leaves:
                self._leave()
            elif self._room.is_set():
                self._edge.call_soon(self._go_on)
        elif http.their_state in (h11.SEND_BODY, h11.ERROR):
            self._linger()
        else:
            self._leave()

    # A refusal

    def _be_late(self, status: int) -> None:
        """One who asks too often hears so after a while, and meanwhile holds nothing but its place."""
        self.phase, self.due = Phase.LATE, math.inf
        says = words.say("api-edge-too-often" if status == 429 else "api-edge-busy")
        self._pause()
        self._edge.call_later(self._edge.patience.late, self._say_late, status, says)

    def _say_late(self, status: int, says: str) -> None:
        if self.phase is Phase.LATE:
            self._send_problem(status, says)

    def _refuse_malformed(self, error: h11.RemoteProtocolError) -> None:
        too_long = error.error_status_hint == 431
        first_line = too_long and b"\r\n" not in self._http.trailing_data[0]
        self._refuse_unreadable(414 if first_line else error.error_status_hint)

    def _refuse_unreadable(self, status: int) -> None:
        says = words.say("api-edge-unreadable")
        self._edge.crowd.party(self._peer).requests.take()
        if status in (414, 431):
            says = words.say("api-edge-too-long", most=HEAD_BYTES)
        if self._http.our_state is h11.IDLE or self._http.our_state is h11.SEND_RESPONSE:
            self._send_problem(status, says)
        else:
            self._leave()

    def _send_problem(self, status: int, says: str) -> None:
        phrase = HTTPStatus(status).phrase
        problem = {"type": "about:blank", "title": phrase, "status": status, "detail": says, "errors": []}
        body = json.dumps(problem).encode()
        headers = [
            (b"Content-Type", b"application/problem+json"),
            (b"Content-Length", b"%d" % len(body)),
            *self._edge.every_answer,
        ]
        if status in (429, 503):
            headers.append((b"Retry-After", b"60" if status == 429 else b"2"))
        self._send(status, headers, body, phrase.encode())

    def _linger(self) -> None:
        """Let one whose request was refused send to the end, within reason.

        A browser takes a connection that is closed while it sends for no answer at all.
        """
        patience = self._edge.patience
        seconds = patience.refused if self._is_known else patience.refused_of_stranger
        self.phase, self.due = Phase.LINGER, monotonic() + seconds
        ahead, self._ahead = bytes(self._ahead), bytearray()
        self._resume()
        self._throw_away(ahead)

    def _throw_away(self, data: bytes) -> None:
        self._thrown += len(data)
        if self._thrown > (REFUSED_BYTES if self._is_known else REFUSED_BYTES_OF_STRANGER):
            self.drop()
            return
        if self._http.their_state is h11.ERROR:
            return  # nobody knows where it ends: until the client closes
        if data:  # none would mean its end
            self._http.receive_data(data)
        try:
            while isinstance(event := self._http.next_event(), h11.Data):
                pass
        except h11.RemoteProtocolError:
            return
        if isinstance(event, h11.EndOfMessage):
            self._leave()


@lru_cache(maxsize=2)
def _date(second: int) -> bytes:
    return formatdate(second, usegmt=True).encode()
