"""An edge (api/edge) that really listens, in a thread of this process, with deadlines as short as a test likes."""

from __future__ import annotations

import asyncio
import json
import socket
import ssl
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from api.edge.keeper import Keeper
from api.edge.serving import Edge
from api.edge.wsgi import Environ
from api.serving import port_of, take_sockets

WITHIN_S = 10
PHONE, STRANGER = "127.0.0.1", "127.0.0.2"
ASK = b"GET / HTTP/1.1\r\nHost: studio\r\n\r\n"


class TestKeeper(Keeper):
    """Who shows "phone" is a device; addresses say who comes, as on a network."""

    __test__ = False
    is_alone = False
    knows_addresses = True

    def shows(self, environ: Environ) -> str | None:
        return environ.get("HTTP_COOKIE")

    def device(self, shown: str) -> str | None:
        return "phone" if shown == "phone" else None

    def most(self, environ: Environ, is_known: bool) -> int:
        return 1_000_000 if is_known else 4096


class Running:
    def __init__(self, port: int) -> None:
        self.port = port
        self.edge: Edge

    def connect(self, address: str = PHONE, buffer: int = 0) -> socket.socket:
        client = socket.socket()
        if buffer:
            client.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, buffer)
        client.bind((address, 0))
        client.settimeout(WITHIN_S)
        client.connect((PHONE, self.port))
        return client

    def ask(self, request: bytes = ASK, address: str = PHONE) -> tuple[int, dict[str, str], bytes]:
        with self.connect(address) as client:
            client.sendall(request)
            return read_answer(client)


@contextmanager
def running(
    application: Callable[..., Any],
    keeper: Keeper | None = None,
    context: Callable[[], ssl.SSLContext] | None = None,
    **given: Any,
) -> Iterator[Running]:
    sockets = take_sockets((PHONE,), 0)
    run, ready, enough = Running(port_of(sockets)), threading.Event(), threading.Event()

    async def serve() -> None:
        run.edge = Edge(application, keeper, context, every_answer=[(b"Cache-Control", b"no-store")], **given)
        run.edge.listen(sockets)
        ready.set()
        while not enough.is_set():
            run.edge.look()
            await asyncio.sleep(0.01)
        await run.edge.leave(0.1)

    thread = threading.Thread(target=lambda: asyncio.run(serve()))
    thread.start()
    try:
        assert ready.wait(WITHIN_S)
        yield run
    finally:
        enough.set()
        thread.join()
        for each in sockets:
            each.close()


def hello(environ: Environ, start: Callable[..., Any]) -> list[bytes]:
    """Says what it was asked, as JSON."""
    body = environ["wsgi.input"].read()
    said = {
        "method": environ["REQUEST_METHOD"],
        "path": environ["PATH_INFO"],
        "query": environ["QUERY_STRING"],
        "length": environ.get("CONTENT_LENGTH"),
        "read": len(body),
        "headers": {name: value for name, value in environ.items() if name.startswith("HTTP_")},
    }
    content = json.dumps(said).encode()
    start("200 OK", [("Content-Type", "application/json"), ("Content-Length", str(len(content)))])
    return [] if environ["REQUEST_METHOD"] == "HEAD" else [content]


def read_answer(client: socket.socket) -> tuple[int, dict[str, str], bytes]:
    """One answer of a told length: its status, its headers in small letters, its body."""
    received = b""
    while b"\r\n\r\n" not in received:
        piece = client.recv(65536)
        if not piece:
            raise ConnectionError(f"closed after {received!r}")
        received += piece
    head, _, body = received.partition(b"\r\n\r\n")
    first, *lines = head.decode().split("\r\n")
    headers = {name.lower(): value for name, _, value in (line.partition(": ") for line in lines)}
    length = int(headers.get("content-length", 0))
    while len(body) < length:
        body += client.recv(65536)
    return int(first.split()[1]), headers, body[:length]


def is_closed(client: socket.socket) -> bool:
    """Whether the server closes it, in time; what it says before is thrown away."""
    try:
        while client.recv(65536):
            pass
    except ConnectionError:
        pass
    return True


def eventually(comes_true: Callable[[], object]) -> None:
    until = time.monotonic() + WITHIN_S
    while not comes_true():
        assert time.monotonic() < until, "it did not come true in time"
        time.sleep(0.005)
