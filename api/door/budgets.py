"""How much one paired device may ask of the server, so that none takes it from the others.

What a device has used is counted in a page of memory that all worker processes share: it is there before
they are forked, a file's lock goes with whoever holds it, and nothing is written to a disk. It is forgotten
when the server is started again. What is in the queue of plans is counted in the database (api/planner.py).

The measure is a hard day's work, several times over: a phone that comes back after a week with five
thousand entries and twenty photographs sends about 12 MB and begins a dozen batches.
"""

from __future__ import annotations

import fcntl
import math
import mmap
import struct
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from typing import NamedTuple, NoReturn

from flask import Flask, current_app

from api.errors import Problem
from bench import words

EXTENSION = "bowlside_budgets"
MIB = 1024 * 1024


class Budget(NamedTuple):
    """So much in so many seconds."""

    place: int
    much: int
    seconds: float
    code: str


BYTES_A_MINUTE = Budget(0, 64 * MIB, 60, "bytes-a-minute")
BYTES_A_DAY = Budget(1, 1024 * MIB, 86_400, "bytes-a-day")
PLANS_AN_HOUR = Budget(2, 120, 3_600, "plans-an-hour")
RUNS_AN_HOUR = Budget(3, 120, 3_600, "runs-an-hour")
BUDGETS = (BYTES_A_MINUTE, BYTES_A_DAY, PLANS_AN_HOUR, RUNS_AN_HOUR)

DEVICES = 256
USE = struct.Struct("dd")  # when the time began, and what was used in it
KEY = 16
ROW = KEY + 8 + USE.size * len(BUDGETS)
TOUCHED = struct.Struct("d")


class Budgets:
    """What each device has used, in all processes that were forked from the one that made this."""

    def __init__(self) -> None:
        self._memory = mmap.mmap(-1, DEVICES * ROW)
        self._file = tempfile.TemporaryFile()  # noqa: SIM115  it lives as long as this
        self._one_thread = threading.Lock()
        self.clock = time.monotonic  # of the machine: the same in every process

    def spend(self, device: str, budget: Budget, much: int) -> float:
        """Use so much of a device's budget; gives 0.0, or when there is too little left, in how many seconds not."""
        now = self.clock()
        with self._alone():
            row = self._row(sha256(device.encode()).digest()[:KEY], now)
            at = row + KEY + TOUCHED.size + USE.size * budget.place
            began, used = USE.unpack_from(self._memory, at)
            if not 0 < began <= now < began + budget.seconds:
                began, used = now, 0.0
            if used and used + much > budget.much:  # one that is larger than all is another limit's matter
                return float(began + budget.seconds - now)
            USE.pack_into(self._memory, at, began, used + much)
        return 0.0

    def used(self, device: str, budget: Budget) -> float:
        with self._alone():
            row = self._row(sha256(device.encode()).digest()[:KEY], self.clock())
            used: float = USE.unpack_from(self._memory, row + KEY + TOUCHED.size + USE.size * budget.place)[1]
        return used

    def forget(self) -> None:
        with self._alone():
            self._memory[:] = bytes(len(self._memory))

    def _row(self, key: bytes, now: float) -> int:
        """Where the device's row is; a new one takes that of whoever was seen longest ago."""
        longest, oldest = math.inf, 0
        for row in range(0, DEVICES * ROW, ROW):
            seen: float = TOUCHED.unpack_from(self._memory, row + KEY)[0]
            if self._memory[row : row + KEY] == key:
                TOUCHED.pack_into(self._memory, row + KEY, now)
                return row
            if seen < longest:
                longest, oldest = seen, row
            if seen == 0.0:
                break
        self._memory[oldest : oldest + ROW] = key + TOUCHED.pack(now) + bytes(ROW - KEY - TOUCHED.size)
        return oldest

    @contextmanager
    def _alone(self) -> Iterator[None]:
        """One thread of one process. A process that dies lets go of the file's lock."""
        with self._one_thread:
            fcntl.lockf(self._file, fcntl.LOCK_EX)
            try:
                yield
            finally:
                fcntl.lockf(self._file, fcntl.LOCK_UN)


def init_app(app: Flask) -> None:
    app.extensions[EXTENSION] = Budgets()


def spend(device: str | None, budget: Budget, much: int = 1) -> None:
    """Count it, or raise 429 when it is too much. Whoever needs not pair has the whole machine."""
    if device is None:
        return
    budgets: Budgets = current_app.extensions[EXTENSION]
    wait = budgets.spend(device, budget, much)
    if wait > 0:
        refuse(budget.code, wait)


def refuse(code: str, wait: float, count: int = 0) -> NoReturn:
    """code: of a budget, or "plans-at-once", of which there are so many."""
    seconds = max(1, math.ceil(wait))
    shown = f"{seconds} s" if seconds < 120 else f"{math.ceil(seconds / 60)} min"
    raise Problem(
        429,
        " ".join(
            (words.say("api-door-budget", what=code, count=count), words.say("api-door-go-on", length=shown))
        ),
        headers={"Retry-After": str(seconds)},
    )
