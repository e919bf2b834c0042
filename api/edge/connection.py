"""One client's connection: HTTP/1.1 as h11 reads and writes it, and a deadline for all that is awaited.

What is awaited of the client is one of the phases below; `due` says until when. An overdue connection is
cut (`look`, a few times a second), and so is one that takes its answer too slowly.
"""

from __future__ import annotations

import asyncio
import json
import math
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass
from email.utils import formatdate
from enum import Enum, auto
from functools import lru_cache
from http import HTTPStatus
from io import BytesIO
from tempfile import SpooledTemporaryFile
from time import monotonic, time
from typing import IO, TYPE_CHECKING, Any

import h11

from api.edge.wsgi import AT_ONCE, Answer, Environ, Headers, Line, environ_of, give_body, give_too_much

if TYPE_CHECKING:
    from api.edge.serving import Edge

HEAD_BYTES = 32 * 1024
AHEAD_BYTES = 64 * 1024
BUSY = "Too many ask at once. Try again soon."
IN_MEMORY = 1024 * 1024  # what is more of a body waits on the disk
NOTHING: IO[bytes] = BytesIO()
REFUSED_BYTES = 128 * 1024 * 1024
REFUSED_BYTES_OF_STRANGER = 1024 * 1024


@dataclass(frozen=True)
class Patience:
    """How long a client is waited for, in seconds, and what it must manage in bytes a second."""

    handshake: float = 5
    head: float = 8
    idle: float = 20
    body: float = 10  # and for its first 4 KB; a studio's whole file may take as long as it moves
    body_rate: float = 4096
    answer: float = 10
    answer_rate: float = 4096
    refused: float = 10
    refused_of_stranger: float = 3
    leave: float = 5
    late: float = 1  # how long one who asks too often waits to hear it
    heartbeat: float = 15


class Phase(Enum):
    HEAD = auto()  # between requests too
    WHO = auto()
    BODY = auto()
    WORK = auto()
    STREAM = auto()
    LINE = auto()
    LATE = auto()
    LINGER = auto()  # answered; what is still being sent is thrown away, or the answer could be lost
    LEAVE = auto()


IDLE = frozenset({Phase.HEAD, Phase.BODY, Phase.LATE, Phase.LINGER, Phase.LEAVE})
TAKES = frozenset({Phase.HEAD, Phase.BODY})


class Connection(asyncio.Protocol):
    def __init__(self, edge: Edge, peer: str, here: tuple[str, int]) -> None:
        self._edge, self._peer, self._here = edge, peer, here
        self.party = edge.crowd.party(peer)
        self.phase = Phase.HEAD
        self.due = monotonic() + edge.patience.handshake
        self.let_go: Callable[[], Any] = lambda: None  # while there is no transport
        self._transport: asyncio.Transport | None = None
        self._http = h11.Connection(h11.SERVER, max_incomplete_event_size=HEAD_BYTES)
        self._begun = False
        self._ahead = bytearray()
        self._room = asyncio.Event()
        self._room.set()
        self._written = 0
        self._unsent: tuple[float, int] | None = None
        self._environ: Environ = {}
        self._wants_head_alone = False
        self._lane_of = ""
        self._is_known = False
        self._spent = False
        self._began = 0.0
        self._body: IO[bytes] = NOTHING
        self._size = 0
        self._most = 0
        self._held = ("", 0)  # whose bytes, and how many
        self._thrown = 0
        self._line: Line | None = None
        self._said_at = 0.0

    @property
    def is_idle(self) -> bool:
        return self.phase in IDLE

    def drop(self) -> None:
        """Go at once."""
        self._edge.crowd.leave(self)
        if self._transport:
            self._transport.abort()
        else:
            self.let_go()

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

    # What the transport tells.

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        assert isinstance(transport, asyncio.Transport)
        self._transport = transport
        self.due = monotonic() + self._edge.patience.head

    def connection_lost(self, _error: Exception | None) -> None:
        self._edge.crowd.leave(self)
        self._let_bytes_go()
        self._drop_body()
        self.phase = Phase.LEAVE
        self._room.set()
        if self._line:
            self._line.leave()
            self._line = None

    def eof_received(self) -> bool:
        if self.phase in (Phase.WORK, Phase.STREAM, Phase.WHO):
            self._ahead.clear()
            # It has asked, and may only have closed its own side; TLS knows no such thing.
            return self._edge.scheme == "http"
        return False

    def pause_writing(self) -> None:
        self._room.clear()

    def resume_writing(self) -> None:
        self._room.set()
        if self.phase is Phase.LEAVE:
            self._leave()
        elif self.phase is Phase.HEAD:
            self._go_on()

    def data_received(self, data: bytes) -> None:
        if self.phase in TAKES and self._room.is_set():
            if not self._begun:
                self._begun = True
                self.due = monotonic() + self._edge.patience.head
            self._http.receive_data(data)
            self._advance()
        elif self.phase is Phase.LINGER:
            self._throw_away(data)
        elif self.phase is not Phase.LEAVE:
            self._ahead += data
            self._pause()
            if len(self._ahead) > AHEAD_BYTES and self.phase is Phase.LINE:
                self.drop()

    # A request, from its head to the application.

    def _advance(self) -> None:
        while self.phase in TAKES:
            try:
                event = self._http.next_event()
            except h11.RemoteProtocolError as error:
                self._refuse_malformed(error)
                return
            if isinstance(event, h11.Request):
                self._take_head(event)
            elif isinstance(event, h11.Data):
                self._take_body(event.data)
            elif isinstance(event, h11.EndOfMessage):
                give_body(self._environ, self._body, self._size)
                self._work()
            elif event is h11.NEED_DATA:
                return
            else:  # closed, or nothing more is awaited
                self._leave()
                return

    def _take_head(self, request: h11.Request) -> None:
        if _is_ambiguous(request):
            self._refuse_unreadable(400)
            return
        edge = self._edge
        self._environ = environ = environ_of(request, edge.scheme, self._peer, self._here)
        self._body, self._size = NOTHING, 0
        self._wants_head_alone = request.method == b"HEAD"
        address = edge.keeper.address(environ)
        shown = edge.keeper.shows(environ)
        known = edge.recall(shown)
        self._spent = False
        if known is None:
            # Counted before anything else is done with it, whatever comes of it.
            party = edge.crowd.party(address)
            self._spent = not (party.requests.take() and edge.crowd.requests.take())
        if known is not None or shown is None:
            self._admit(known, address)
            return
        self.phase, self.due = Phase.WHO, math.inf
        self._pause()
        put = edge.asking.put(
            address, lambda: edge.keeper.device(shown), lambda found: self._is(shown, found, address)
        )
        if not put:
            self._be_late(503)

    def _is(self, shown: str, found: Future[str | None], address: str) -> None:
        if self.phase is not Phase.WHO:
            return  # it went meanwhile
        device = None if found.exception() else found.result()
        if device is not None:
            self._edge.remember(shown, device)
        self._admit(device, address)
        self._go_on_with_body()

    def _go_on_with_body(self) -> None:
        if self.phase is Phase.BODY:
            self._resume()
            self._advance()

    def _admit(self, device: str | None, address: str) -> None:
        """Its head was read and it is known who it is: its body may come, if it is not too large."""
        edge, environ = self._edge, self._environ
        self._is_known, self._lane_of = device is not None, device or address
        if device is None and self._spent:
            self._be_late(429)
            return
        if device is not None and edge.keeper.knows_addresses:
            edge.crowd.know(self.party)
        self._most = edge.keeper.most(environ, self._is_known)
        declared = int(environ.get("CONTENT_LENGTH") or 0)
        if declared > self._most:
            self._refuse_body(declared)
            return
        if not self._holds(declared):
            self._be_late(503)
            return
        if self._http.they_are_waiting_for_100_continue:
            self._write(h11.InformationalResponse(status_code=100, headers=[]))
        self.phase, self._began = Phase.BODY, monotonic()
        self._set_body_due()

    def _take_body(self, data: bytes) -> None:
        self._size += len(data)
        if self._size > self._most:
            self._drop_body()
            self._refuse_body(self._size)
            return
        if not self._holds(self._size):
            self._drop_body()
            self._be_late(503)
            return
        try:
            if self._body is NOTHING:
                self._body = SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115  closed with the answer
            self._body.write(data)
        except OSError:
            self._drop_body()
            self._send_problem(
                507, "The server's disk is full. Nothing was kept; make room and send this again."
            )
            return
        self._set_body_due()

    def _drop_body(self) -> None:
        if self._body is not NOTHING:
            self._body.close()
        self._body = NOTHING

    def _set_body_due(self) -> None:
        patience = self._edge.patience
        self.due = self._began + patience.body + self._size / patience.body_rate

    def _refuse_body(self, size: int) -> None:
        """What is wrong with it the application says, as with any other, and need not see it for that."""
        give_too_much(self._environ, size)
        self._work()

    def _work(self) -> None:
        edge, environ, answer = self._edge, self._environ, Answer()
        self.phase, self.due, self._begun = Phase.WORK, math.inf, False
        self._environ, self._body = {}, NOTHING
        lane = edge.working if self._is_known else edge.strangers
        if not lane.put(self._lane_of, lambda: answer.fill(edge.application, environ), self._answer):
            environ["wsgi.input"].close()
            self._be_late(503)

    def _holds(self, size: int) -> bool:
        """Whether so many bytes may be held for this request or its answer; a few always may."""
        _, held = self._held
        if size <= max(held, AT_ONCE):
            return True
        if not self._edge.memory.take(self._lane_of, size - held):
            return False
        self._held = self._lane_of, size
        return True

    def _let_bytes_go(self) -> None:
        who, held = self._held
        if held:
            self._edge.memory.give_back(who, held)
            self._held = "", 0

    # An answer.

    def _answer(self, made: Future[Answer]) -> None:
        self._let_bytes_go()  # of the body
        if error := made.exception():
            self._edge.log_fault(error)
            self._send_problem(500, "Something went wrong on the server. Its log says what.")
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
            self._send_problem(503, BUSY)
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

    def _go_on(self) -> None:
        """With what came ahead, as far as the client takes its answers."""
        if self.phase is not Phase.HEAD or not self._room.is_set():
            return
        ahead, self._ahead = bytes(self._ahead), bytearray()
        self._resume()
        if ahead:
            self.data_received(ahead)
        elif self._http.trailing_data[0]:
            self._begun = True
            self.due = monotonic() + self._edge.patience.head
            self._advance()

    # An end.

    def _be_late(self, status: int) -> None:
        """One who asks too often hears so after a while, and meanwhile holds nothing but its place."""
        self.phase, self.due = Phase.LATE, math.inf
        says = "Too many at once. Try again in 60 s." if status == 429 else BUSY
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
        says = "This is not HTTP as it should be: it cannot be read."
        self._edge.crowd.party(self._peer).requests.take()
        if status in (414, 431):
            says = f"What is asked for, with its headers, is longer than {HEAD_BYTES:,} bytes."
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

    def _leave(self) -> None:
        """Close, once what was written is taken."""
        if self.phase is not Phase.LEAVE:
            self.phase, self.due = Phase.LEAVE, math.inf
        if self._transport and self._room.is_set() and not self._transport.is_closing():
            self.due = monotonic() + self._edge.patience.leave + self._edge.patience.answer
            self._transport.close()

    # The transport.

    def _write(self, *events: Any) -> None:
        data = b"".join(self._http.send(event) or b"" for event in events)
        if self._transport and not self._transport.is_closing():
            self._written += len(data)
            self._transport.write(data)

    def _is_taken_too_slowly(self, now: float) -> bool:
        if not self._transport:
            return False
        size = self._transport.get_write_buffer_size()
        if not size:
            self._unsent = None
            if self.phase is Phase.HEAD:
                self._let_bytes_go()  # of the answer
            return False
        sent = self._written - size
        if self._unsent is None:
            self._unsent = now, sent
        since, before = self._unsent
        patience = self._edge.patience
        return now - since > patience.answer + (sent - before) / patience.answer_rate

    def _pause(self) -> None:
        if self._transport and not self._transport.is_closing():
            self._transport.pause_reading()

    def _resume(self) -> None:
        if self._transport and not self._transport.is_closing():
            self._transport.resume_reading()


def _is_ambiguous(request: h11.Request) -> bool:
    """Whether its end could be read in two ways, of which a proxy in between might have read the other.

    RFC 9112, 6.1 and 6.3.
    """
    names = {name for name, _ in request.headers}
    return b"transfer-encoding" in names and (b"content-length" in names or request.http_version != b"1.1")


@lru_cache(maxsize=2)
def _date(second: int) -> bytes:
    return formatdate(second, usegmt=True).encode()
