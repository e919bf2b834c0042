"""Requests a second over real HTTP, as ratios to bare Flask handlers on the same web server."""

from __future__ import annotations

import json
import re
import socket
import sqlite3
import statistics
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.parse import urlsplit

from tests.make import make_entry, make_run, uuid4
from tests.perf.registry import figure
from tests.servers import Server, bowlside

ROUNDS = 15
POSTS = 100
GETS = 100
RUN_ENTRIES = 500
LENGTH = re.compile(rb"(?i)content-length: *(\d+)")


class Client:
    """One keep-alive connection, with as little work of its own as can be: it is the server that is timed."""

    def __init__(self, url: str) -> None:
        host, port = urlsplit(url).netloc.split(":")
        self._socket = socket.create_connection((host, int(port)))
        self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self._host = host

    def ask(self, method: str, path: str, body: object = None) -> bytes:
        content = b"" if body is None else json.dumps(body).encode()
        head = f"{method} {path} HTTP/1.1\r\nHost: {self._host}\r\nContent-Type: application/json\r\n"
        self._socket.sendall(f"{head}Content-Length: {len(content)}\r\n\r\n".encode() + content)
        received = b""
        while b"\r\n\r\n" not in received:
            received += self._socket.recv(1 << 20)
        head_end = received.index(b"\r\n\r\n") + 4
        assert received.startswith(b"HTTP/1.1 2"), received
        length = int(LENGTH.search(received, 0, head_end)[1])  # type: ignore[index]
        parts = [received[head_end:]]
        missing = length - len(parts[0])
        while missing:
            parts.append(self._socket.recv(1 << 20))
            missing -= len(parts[-1])
        return b"".join(parts)


@figure("POST of one entry / bare Flask insert, requests/s", ">= 0.6")
def post_one_entry() -> float:
    with servers() as (ours, bare, run):

        def post(client: Client, path: str) -> Callable[[], None]:
            return lambda: client.ask("POST", path, {"entries": [make_entry(run)]}) and None

        return ratio(post(ours, f"/api/v1/runs/{run}/entries"), post(bare, "/"), POSTS)


@figure("GET of a run with 500 entries / bare Flask handler sending the same bytes, requests/s", ">= 0.7")
def get_run() -> float:
    """The run with its sheet and then its journal, as a phone reads them."""
    with servers() as (ours, bare, run):

        def get_both(client: Client, paths: tuple[str, str]) -> Callable[[], None]:
            return lambda: [client.ask("GET", path) for path in paths] and None

        mine = get_both(ours, (f"/api/v1/runs/{run}", f"/api/v1/runs/{run}/entries?limit={RUN_ENTRIES}"))
        return ratio(mine, get_both(bare, ("/run.json", "/entries.json")), GETS)


def ratio(ours: Callable[[], None], theirs: Callable[[], None], times: int) -> float:
    """Our rate over theirs: the median of rounds taken in turn, so that a busy moment hits both."""
    rounds = []
    for _ in range(ROUNDS + 1):
        rounds.append(seconds(theirs, times) / seconds(ours, times))
    return statistics.median(rounds[1:])  # the first warms both up


def seconds(act: Callable[[], None], times: int) -> float:
    began = time.perf_counter()
    for _ in range(times):
        act()
    return time.perf_counter() - began


@contextmanager
def servers() -> Iterator[tuple[Client, Client, str]]:
    """Ours with a run of 500 entries, and the bare one beside it on a copy of the same database."""
    with TemporaryDirectory() as folder:
        database, bodies = Path(folder) / "ours.sqlite3", Path(folder) / "bodies"
        bodies.mkdir()
        real = bowlside(database, "--demo").start()
        ours = Client(real.url)
        recipe = json.loads(ours.ask("GET", "/api/v1/recipes"))["recipes"][0]
        run = uuid4()
        ours.ask("PUT", f"/api/v1/runs/{run}", make_run(recipe))
        ours.ask(
            "POST", f"/api/v1/runs/{run}/entries", {"entries": [make_entry(run) for _ in range(RUN_ENTRIES)]}
        )
        (bodies / "run.json").write_bytes(ours.ask("GET", f"/api/v1/runs/{run}"))
        (bodies / "entries.json").write_bytes(
            ours.ask("GET", f"/api/v1/runs/{run}/entries?limit={RUN_ENTRIES}")
        )
        (bodies / "record.json").write_bytes(ours.ask("GET", f"/api/v1/runs/{run}/record"))
        real.stop()
        copy = Path(folder) / "bare.sqlite3"
        with sqlite3.connect(database) as source, sqlite3.connect(copy) as target:
            source.backup(target)
        bare = Server(["-m", "tests.perf.bare", str(copy), str(bodies)], Path(folder) / "bare.log").start()
        real.start()
        try:
            yield Client(real.url), Client(bare.url), run
        finally:
            real.stop()
            bare.stop()
