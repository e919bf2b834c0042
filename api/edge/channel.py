"""A client's line as it stands: its phase, until when something is awaited of it, what is written and not yet taken.

What is awaited of the client is one of the phases below; `due` says until when. An overdue connection is
cut, and so is one that takes its answer too slowly.
"""

from __future__ import annotations

import asyncio
import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum, auto
from time import monotonic
from typing import TYPE_CHECKING

import h11

from api.edge.wsgi import AT_ONCE

if TYPE_CHECKING:
    from api.edge.serving import Edge

HEAD_BYTES = 32 * 1024


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


class Channel(asyncio.Protocol):
    """One client's transport, and the bytes that are held for it."""

    def __init__(self, edge: Edge, peer: str) -> None:
        self._edge, self._peer = edge, peer
        self.party = edge.crowd.party(peer)
        self.phase = Phase.HEAD
        self.due = monotonic() + edge.patience.handshake
        self.let_go: Callable[[], object] = lambda: None  # while there is no transport
        self._transport: asyncio.Transport | None = None
        self._http = h11.Connection(h11.SERVER, max_incomplete_event_size=HEAD_BYTES)
        self._room = asyncio.Event()
        self._room.set()
        self._written = 0
        self._unsent: tuple[float, int] | None = None
        self._lane_of = ""
        self._held = ("", 0)  # whose bytes, and how many

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

    def _leave(self) -> None:
        """Close, once what was written is taken."""
        if self.phase is not Phase.LEAVE:
            self.phase, self.due = Phase.LEAVE, math.inf
        if self._transport and self._room.is_set() and not self._transport.is_closing():
            self.due = monotonic() + self._edge.patience.leave + self._edge.patience.answer
            self._transport.close()

    def _write(self, *events: h11.Event) -> None:
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
