"""One client's connection: HTTP/1.1 as h11 reads it, from a request's head to the application."""

from __future__ import annotations

import asyncio
import math
from concurrent.futures import Future
from io import BytesIO
from tempfile import SpooledTemporaryFile
from time import monotonic
from typing import IO, TYPE_CHECKING

import h11

from api.edge.answering import Answering
from api.edge.channel import Phase
from api.edge.wsgi import Answer, Environ, environ_of, give_body, give_too_much
from bench import words

if TYPE_CHECKING:
    from api.edge.serving import Edge

AHEAD_BYTES = 64 * 1024
IN_MEMORY = 1024 * 1024  # what is more of a body waits on the disk
NOTHING: IO[bytes] = BytesIO()
TAKES = frozenset({Phase.HEAD, Phase.BODY})


class Connection(Answering):
    def __init__(self, edge: Edge, peer: str, here: tuple[str, int]) -> None:
        super().__init__(edge, peer)
        self._here = here
        self._begun = False
        self._environ: Environ = {}
        self._spent = False
        self._began = 0.0
        self._body: IO[bytes] = NOTHING
        self._size = 0
        self._most = 0

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
            self._send_problem(507, words.say("api-edge-disk-full"))
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


def _is_ambiguous(request: h11.Request) -> bool:
    """Whether its end could be read in two ways, of which a proxy in between might have read the other.

    RFC 9112, 6.1 and 6.3.
    """
    names = {name for name, _ in request.headers}
    return b"transfer-encoding" in names and (b"content-length" in names or request.http_version != b"1.1")
