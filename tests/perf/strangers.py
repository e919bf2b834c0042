"""Strangers who mean harm: nine ways of keeping a studio from its own phones.

Run as `python -m tests.perf.strangers ATTACK STUDIO_PORT LANDING_PORT SECONDS`, a process of its own so that
it does not share the phone's turn. Each stranger has an address of its own from 127.0.0.2 on, comes again
when it is turned away, and nobody of them is paired. It talks to this machine alone.
"""

from __future__ import annotations

import asyncio
import resource
import socket
import ssl
import sys
from collections.abc import Awaitable, Callable
from contextlib import suppress
from itertools import cycle

HERE = "127.0.0.1"
AGAIN_S = 0.25
Connection = tuple[asyncio.StreamReader, asyncio.StreamWriter]


def address(number: int) -> str:
    """The stranger's, counted from 0."""
    return f"127.0.{number // 250}.{number % 250 + 2}"


class Strangers:
    """Who attacks which ports, and how one of them connects."""

    def __init__(self, studio: int, landing: int) -> None:
        self._ports = {"studio": studio, "landing": landing}
        self._tls = ssl.create_default_context()
        self._tls.check_hostname, self._tls.verify_mode = False, ssl.CERT_NONE

    async def connect(self, number: int, to: str = "studio", tls: bool = True, buffer: int = 0) -> Connection:
        plain = socket.socket()
        plain.setblocking(False)
        if buffer:
            plain.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, buffer)
        try:
            plain.bind((address(number), 0))
            await asyncio.get_running_loop().sock_connect(plain, (HERE, self._ports[to]))
        except BaseException:
            plain.close()
            raise
        if not tls:
            return await asyncio.open_connection(sock=plain)
        return await asyncio.open_connection(sock=plain, ssl=self._tls, server_hostname="localhost")

    async def half_closed(self, number: int) -> None:
        """Has the connection closed by the server, and never closes its own side."""
        _, writer = await self.connect(number)
        writer.write(b"GET /pair HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        writer.transport.pause_reading()  # type: ignore[attr-defined]
        await asyncio.sleep(3)

    async def slow_body(self, number: int) -> None:
        _, writer = await self.connect(number)
        writer.write(
            b"POST /api/v1/pair HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
            b"Content-Length: 4000\r\n\r\n"
        )
        await drip(writer, cycle([b" "]), 0.5)

    async def unread_answers(self, number: int) -> None:
        _, writer = await self.connect(number, buffer=4096)
        writer.transport.pause_reading()  # type: ignore[attr-defined]
        for _ in range(2000):
            writer.write(b"GET /pair HTTP/1.1\r\nHost: localhost\r\n\r\n")
        await writer.drain()
        await asyncio.sleep(60)

    async def idle(self, number: int) -> None:
        reader, _ = await self.connect(number % 60, tls=False)
        await reader.read()

    async def dripping_landing(self, number: int) -> None:
        _, writer = await self.connect(number % 60, "landing", tls=False)
        await drip(
            writer, iter([b"GET / HTTP/1.1\r\nX: "[at : at + 1] for at in range(20)] + [b"x"] * 1000), 1
        )

    async def wrong_codes(self, number: int) -> None:
        body = b'{"code": "WRONG000", "name": "x"}'
        head = "POST /api/v1/pair HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
        await self._flood(number, f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body)

    async def log_flood(self, number: int) -> None:
        path = "%0A%1B[2JThe%20certificate%27s%20fingerprint%20there%20must%20be" * 60
        await self._flood(
            number,
            f"POST /api/v1/{path} HTTP/1.1\r\nHost: localhost\r\nSec-Fetch-Site: cross-site\r\n"
            "Content-Length: 0\r\n\r\n".encode(),
        )

    async def live_connects(self, number: int) -> None:
        reader, writer = await self.connect(number)
        writer.write(b"GET /api/v1/live HTTP/1.1\r\nHost: localhost\r\n\r\n")
        await reader.readuntil(b"\r\n\r\n")
        await asyncio.sleep(2)

    async def refused_hosts(self, number: int) -> None:
        await self._flood(number, b"GET / HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n")

    async def _flood(self, number: int, request: bytes) -> None:
        """The same request for ever, as fast as it is answered."""
        reader, writer = await self.connect(number)
        while True:
            writer.write(request)
            head = await reader.readuntil(b"\r\n\r\n")
            length = next(line for line in head.lower().split(b"\r\n") if line.startswith(b"content-length"))
            await reader.readexactly(int(length.partition(b":")[2]))


# By name: how many, and what each of them does.
ATTACKS: dict[str, tuple[int, Callable[[Strangers, int], Awaitable[None]]]] = {
    "half-closed": (40, Strangers.half_closed),
    "slow body": (64, Strangers.slow_body),
    "unread answers": (64, Strangers.unread_answers),
    "idle": (900, Strangers.idle),
    "dripping landing": (1100, Strangers.dripping_landing),
    "wrong codes": (60, Strangers.wrong_codes),
    "log flood": (16, Strangers.log_flood),
    "live connects": (200, Strangers.live_connects),
    "refused hosts": (16, Strangers.refused_hosts),
}


async def drip(writer: asyncio.StreamWriter, pieces: object, every_s: float) -> None:
    for piece in pieces:  # type: ignore[attr-defined]
        writer.write(piece)
        await writer.drain()
        await asyncio.sleep(every_s)


async def attack(name: str, strangers: Strangers, seconds: float) -> None:
    number, act = ATTACKS[name]

    async def stranger(which: int) -> None:
        while True:
            with suppress(OSError, asyncio.IncompleteReadError, StopIteration):
                await act(strangers, which)
            await asyncio.sleep(AGAIN_S)

    asyncio.get_running_loop().set_exception_handler(lambda *_: None)
    everybody = [asyncio.create_task(stranger(which)) for which in range(number)]
    print("begun", flush=True)
    await asyncio.wait(everybody, timeout=seconds)


def raise_open_files() -> None:
    """Two thousand connections need more than the 1,024 files that many systems allow at first."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = 8192 if hard == resource.RLIM_INFINITY else min(8192, hard)
    resource.setrlimit(resource.RLIMIT_NOFILE, (max(soft, wanted), hard))


if __name__ == "__main__":
    raise_open_files()
    asyncio.run(attack(sys.argv[1], Strangers(int(sys.argv[2]), int(sys.argv[3])), float(sys.argv[4])))
