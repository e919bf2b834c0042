"""Strangers at the server's door, from an address of their own, while devices do their work.

    rude   half a request and no more of it; a request whose answer nobody reads; what is no HTTP at all
    slow   heads and bodies that come a byte at a time

Few and bounded: so many connections, a quarter of a minute at most, on this machine alone.
"""

from __future__ import annotations

import itertools
import socket
import threading
from contextlib import suppress

THERE = "127.0.0.9"
CONNECTIONS = 24
LONGEST_S = 15.0
A_BYTE_EVERY_S = 0.1

HEAD = b"POST /api/v1/shelf/entries HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
WHOLE = b"GET /api/v1/recipes HTTP/1.1\r\nHost: localhost\r\n\r\n"
RUDE = (HEAD, WHOLE * 20, b"\x16\x03\x01\x02\x00 this is no HTTP\r\n\r\n", WHOLE[:-2])
SLOW = HEAD + b"Content-Length: 4000\r\n\r\n"


class Strangers:
    """Those who are there until they are sent away."""

    def __init__(self, port: int, how: str) -> None:
        self._away = threading.Event()
        self._connections: list[socket.socket] = []
        for number in range(CONNECTIONS):
            with suppress(OSError):  # refused at the door, as they may be
                connection = socket.create_connection(
                    ("127.0.0.1", port), timeout=1, source_address=(THERE, 0)
                )
                self._connections.append(connection)
                if how == "rude":
                    connection.sendall(RUDE[number % len(RUDE)])
                    connection.shutdown(socket.SHUT_WR)
        self._dripping = threading.Thread(target=self._drip, name="strangers", daemon=True)
        if how == "slow":
            self._dripping.start()

    def leave(self) -> None:
        self._away.set()
        if self._dripping.ident:
            self._dripping.join()
        for connection in self._connections:
            connection.close()

    def _drip(self) -> None:
        drops = itertools.chain(SLOW, itertools.repeat(ord(" ")))
        for _, drop in zip(range(int(LONGEST_S / A_BYTE_EVERY_S)), drops, strict=False):
            for connection in self._connections:
                with suppress(OSError):
                    connection.send(bytes((drop,)))
            if self._away.wait(A_BYTE_EVERY_S):
                return
