"""The event loop's side: takes connections in, sees who is overdue, and shares what all of them use."""

from __future__ import annotations

import asyncio
import logging
import math
import socket
import ssl
from collections import OrderedDict, deque
from collections.abc import Callable, Coroutine, Sequence
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from time import monotonic
from typing import Any

from api.edge.channel import Patience, Phase
from api.edge.connection import Connection
from api.edge.crowd import Bounds, Crowd, Memory
from api.edge.keeper import Keeper
from api.edge.lanes import Lane
from api.edge.wsgi import Application, Headers

LOOK_S = 0.2
FORGET_EVERY = 50
ACCEPTED_AT_ONCE = 16
NO_FILES_S = 0.2
# A line or an unsent answer to a machine that is gone ends after so long (tcp(7), TCP_USER_TIMEOUT).
GONE_MS = 60_000

# How long a device is taken for known with no asking. It decides who gives way and nothing else: whether a
# request is answered the gate asks every time.
RECALL_S = 60
RECALLED = 4096

THREADS = 20
THREADS_OF_ONE = 4
THREADS_OF_STRANGERS = 2
MAX_WAITING = 1024
MAX_STRANGERS_WAITING = 128


class Edge:
    def __init__(
        self,
        application: Application,
        keeper: Keeper | None = None,
        context: Callable[[], ssl.SSLContext] | None = None,
        *,
        patience: Patience | None = None,
        bounds: Bounds | None = None,
        every_answer: Headers = [],  # noqa: B006  never changed
        log: logging.Logger | None = None,
    ) -> None:
        self.application, self.keeper = application, keeper or Keeper()
        self.patience = patience or Patience()
        self.every_answer = every_answer
        self.scheme = "https" if context else "http"
        self.leaves = False
        bounds = bounds or Bounds()
        self.crowd = Crowd(bounds, by_address=self.keeper.knows_addresses)
        of_one = bounds.bytes_of_all if self.keeper.is_alone else bounds.bytes_of_one
        self.memory = Memory(of_one, bounds.bytes_of_all)
        self._context = context
        self._log = log or logging.getLogger(__name__)
        self._loop = asyncio.get_running_loop()
        self._loop.set_exception_handler(self._say_fault)
        self._pool = ThreadPoolExecutor(THREADS + 2 * THREADS_OF_STRANGERS, "answers")
        threads_of_one = THREADS if self.keeper.is_alone else THREADS_OF_ONE
        self.working = Lane(self._pool, THREADS, threads_of_one, MAX_WAITING)
        self.strangers = Lane(self._pool, THREADS_OF_STRANGERS, 1, MAX_STRANGERS_WAITING)
        self.asking = Lane(self._pool, THREADS_OF_STRANGERS, 1, MAX_STRANGERS_WAITING)
        self._tasks: set[asyncio.Task[Any]] = set()
        self._listening: list[socket.socket] = []
        self._recalled: OrderedDict[bytes, tuple[float, str]] = OrderedDict()
        self._at_the_gate: deque[tuple[Connection, socket.socket]] = deque()
        self._looks = 0
        self.call_soon, self.call_later = self._loop.call_soon, self._loop.call_later

    def listen(self, sockets: Sequence[socket.socket]) -> None:
        for each in sockets:
            each.setblocking(False)
            self._listening.append(each)
            self._loop.add_reader(each, self._accept, each)

    def look(self) -> None:
        """See who is overdue, and let in whose turn has come. To be called every LOOK_S or so."""
        now = monotonic()
        for each in self.crowd.everybody():
            assert isinstance(each, Connection)
            each.look(now)
        self._let_in()
        self._looks += 1
        if self._looks % FORGET_EVERY == 0:
            self.crowd.forget()

    async def leave(self, seconds: float) -> None:
        """Take nobody in any more, and finish what is being answered."""
        self.leaves = True
        for listening in self._listening:
            self._loop.remove_reader(listening)
        until = monotonic() + seconds
        for each in self.crowd.everybody():
            assert isinstance(each, Connection)
            each.end()
        while len(self.crowd) and monotonic() < until:
            await asyncio.sleep(0.02)
        for each in self.crowd.everybody():
            each.drop()
        self._pool.shutdown(wait=False, cancel_futures=True)

    # Who is known.

    def recall(self, shown: str | None) -> str | None:
        """The device that showed this a short while ago."""
        if self.keeper.is_alone:
            return ""
        if not shown:
            return None
        key = sha256(shown.encode()).digest()
        until, device = self._recalled.get(key, (0.0, ""))
        return device if monotonic() < until else None

    def remember(self, shown: str, device: str) -> None:
        key = sha256(shown.encode()).digest()
        self._recalled.pop(key, None)
        self._recalled[key] = monotonic() + RECALL_S, device
        while len(self._recalled) > RECALLED:
            self._recalled.popitem(last=False)

    # What connections use.

    def call(self, function: Callable[[], object]) -> None:
        """From whatever thread: have it called in the loop."""
        if not self._loop.is_closed():
            self._loop.call_soon_threadsafe(function)

    def in_a_thread(self, function: Callable[[], Any]) -> asyncio.Future[Any]:
        return self._loop.run_in_executor(self._pool, function)

    def run(self, coroutine: Coroutine[Any, Any, None]) -> asyncio.Task[None]:
        task = self._loop.create_task(coroutine)
        self._tasks.add(task)  # the loop itself does not hold on to it
        task.add_done_callback(self._tasks.discard)
        return task

    def log_fault(self, error: BaseException) -> None:
        self._log.error("Unforeseen error at the edge", exc_info=error)

    # Taking in.

    def _accept(self, listening: socket.socket) -> None:
        for _ in range(ACCEPTED_AT_ONCE):
            try:
                accepted, peer = listening.accept()
            except (BlockingIOError, InterruptedError, ConnectionAbortedError):
                return
            except OSError:  # no file is left for it
                if not self.crowd.make_room():
                    self._loop.remove_reader(listening)
                    self._loop.call_later(NO_FILES_S, self._listen_again, listening)
                return
            self._seat(accepted, peer[0])

    def _listen_again(self, listening: socket.socket) -> None:
        if not self.leaves:
            self._loop.add_reader(listening, self._accept, listening)

    def _seat(self, accepted: socket.socket, peer: str) -> None:
        party = self.crowd.party(peer)
        if not self.crowd.lets_sit(party):
            accepted.close()
            return
        accepted.setblocking(False)
        if hasattr(socket, "TCP_USER_TIMEOUT"):
            accepted.setsockopt(socket.IPPROTO_TCP, socket.TCP_USER_TIMEOUT, GONE_MS)
        connection = Connection(self, peer, accepted.getsockname()[:2])
        connection.let_go = accepted.close
        self.crowd.sit(connection)
        if self._context and self.keeper.knows_addresses and not party.is_known:
            self._at_the_gate.append((connection, accepted))
            self._let_in()
        else:
            self._open(connection, accepted)

    def _let_in(self) -> None:
        """Strangers begin TLS, which costs this server more than them, only so often."""
        while self._at_the_gate:
            connection, accepted = self._at_the_gate[0]
            if accepted.fileno() >= 0 and not self.crowd.handshakes.take():
                return
            self._at_the_gate.popleft()
            if accepted.fileno() >= 0:
                self._open(connection, accepted)

    def _open(self, connection: Connection, accepted: socket.socket) -> None:
        task = self.run(self._bring_in(connection, accepted))
        connection.let_go = task.cancel
        # One that is cancelled before its first step never comes to its own end.
        task.add_done_callback(lambda ended: accepted.close() if ended.cancelled() else None)

    async def _bring_in(self, connection: Connection, accepted: socket.socket) -> None:
        context, patience = self._context() if self._context else None, self.patience
        try:
            await self._loop.connect_accepted_socket(
                lambda: connection,
                accepted,
                ssl=context,
                ssl_handshake_timeout=patience.handshake if context else None,
                ssl_shutdown_timeout=patience.leave if context else None,
            )
        except (OSError, asyncio.CancelledError):
            self.crowd.leave(connection)
            connection.phase, connection.due = Phase.LEAVE, math.inf
            accepted.close()

    def _say_fault(self, _loop: asyncio.AbstractEventLoop, context: dict[str, Any]) -> None:
        error = context.get("exception")
        if error is not None and not isinstance(error, OSError):
            self.log_fault(error)
