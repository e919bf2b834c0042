"""The network between the house and each device, which does to each request what it is told.

Requests of one line are served one a connection, so that each has its own fate:

    cut   it never arrives                      half   it breaks off on its way
    lose  it is done, the answer never arrives  torn   the answer breaks off
    slow  it comes late, after later ones       twice  it arrives twice at the same moment
    again it arrives once more, much later
    kill_server, kill_worker, kill_database    it arrives, and so many ms later that process is killed
"""

from __future__ import annotations

import asyncio
import re
import threading
from collections import deque
from collections.abc import Callable, Coroutine
from contextlib import suppress
from typing import Any, TypeVar
from urllib.parse import urlsplit

Fault = tuple[str, int]  # what, and ms
FINE: Fault = ("fine", 0)
KINDS = ("cut", "half", "lose", "torn", "slow", "twice", "again")
GONE = (OSError, asyncio.IncompleteReadError, asyncio.LimitOverrunError)
DROPPED_HEADERS = re.compile(rb"(?im)^(accept-encoding|connection):.*\r\n")
T = TypeVar("T")


class Network:
    """The lines, on a thread of their own. `url()` says where the server is now; `kill(what)` kills."""

    def __init__(self, url: Callable[[], str], kill: Callable[[str], None]) -> None:
        self._url = url
        self.kill = kill
        self._loop = asyncio.new_event_loop()
        self._thread = threading.Thread(target=self._loop.run_forever, name="network", daemon=True)
        self._thread.start()
        self.lines: list[Line] = []

    def line(self) -> Line:
        line = Line(self)
        self.run(line.open())
        self.lines.append(line)
        return line

    def run(self, work: Coroutine[Any, Any, T]) -> T:
        return asyncio.run_coroutine_threadsafe(work, self._loop).result(timeout=60)

    def deliver_late(self) -> None:
        """All that was to arrive once more, the last first."""
        for line in self.lines:
            while line.late:
                self.run(self.ask(line.late.pop()))

    async def connect(self) -> tuple[asyncio.StreamReader, asyncio.StreamWriter]:
        address = urlsplit(self._url())
        return await asyncio.open_connection(address.hostname, address.port)

    async def ask(self, request: bytes, share: float = 1.0) -> bytes:
        """The whole answer; as much as there was of it when somebody died; b"" for none."""
        answer = b""
        with suppress(*GONE):
            reader, writer = await self.connect()
            try:
                writer.write(request[: int(len(request) * share)])
                await writer.drain()
                while share == 1.0 and (piece := await reader.read(65536)):
                    answer += piece
            finally:
                writer.close()
        return answer

    def close(self) -> None:
        self.run(self._hang_up())
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    async def _hang_up(self) -> None:
        for line in self.lines:
            line.hang_up()
        others = asyncio.all_tasks() - {asyncio.current_task()}
        for task in others:
            task.cancel()
        await asyncio.gather(*others, return_exceptions=True)


class Line:
    def __init__(self, network: Network) -> None:
        self._network = network
        self._server: asyncio.Server | None = None
        self.port = 0
        self.is_cut = False
        # What happens to the next requests of the API, one each; after the last all is fine.
        self.faults: deque[Fault] = deque()
        self.late: list[bytes] = []
        self.statuses: set[int] = set()
        self._serving: set[Any] = set()  # asyncio itself does not hold on to what serves a connection

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    async def open(self) -> None:
        self._server = await asyncio.start_server(self._serve, "127.0.0.1", 0)
        self.port = self._server.sockets[0].getsockname()[1]

    def hang_up(self) -> None:
        if self._server:
            self._server.close()

    async def _serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._serving.add(task := asyncio.current_task())
        with suppress(*GONE, asyncio.CancelledError):  # cancelled when the network is closed
            request = await _read(reader)
            path = request.split(b" ", 2)[1]
            if self.is_cut:
                pass
            elif path.startswith(b"/api/") and not path.endswith(b"/live"):
                writer.write(await self._fate(request))
                await writer.drain()
            else:
                await self._stream(request, writer)
        writer.close()
        self._serving.discard(task)

    async def _fate(self, request: bytes) -> bytes:
        """What the device hears of this request."""
        ask = self._network.ask
        what, ms = self.faults.popleft() if self.faults else FINE
        if what == "again":
            self.late.append(request)
        if what.startswith("kill_"):
            asking = asyncio.create_task(ask(request))
            await asyncio.sleep(ms / 1000)
            await asyncio.to_thread(self._network.kill, what.removeprefix("kill_"))
            return self._noted(await asking)
        await asyncio.sleep(ms / 1000)
        match what:
            case "cut":
                return b""
            case "half":
                return await ask(request, share=0.5)
            case "lose":
                self._noted(await ask(request))
                return b""
            case "torn":
                answer = self._noted(await ask(request))
                return answer[: len(answer) // 2]
            case "twice":
                one, other = await asyncio.gather(ask(request), ask(request))
                self._noted(other)
                return self._noted(one) or other
        return self._noted(await ask(request))

    def _noted(self, answer: bytes) -> bytes:
        if answer:
            self.statuses.add(int(answer[9:12]))
        return answer

    async def _stream(self, request: bytes, writer: asyncio.StreamWriter) -> None:
        reader, upstream = await self._network.connect()
        try:
            upstream.write(request)
            while not self.is_cut and (piece := await reader.read(65536)):
                writer.write(piece)
                await writer.drain()
        finally:
            upstream.close()


async def _read(reader: asyncio.StreamReader) -> bytes:
    """One request, made the only one of its connection, and its answer one that is not compressed."""
    head = await reader.readuntil(b"\r\n\r\n")
    length = re.search(rb"(?i)\r\ncontent-length: *(\d+)", head)
    body = await reader.readexactly(int(length[1])) if length else b""
    return DROPPED_HEADERS.sub(b"", head)[:-2] + b"Connection: close\r\n\r\n" + body
