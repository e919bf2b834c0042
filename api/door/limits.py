"""How often one may ask, counted in this process's memory; past that, 429 with Retry-After.

A device may ask far oftener than a page does, so this only stops what has run away. What is not paired
may ask now and then. Wrong codes are counted most closely, by address and in all. A code's own tries
are counted in the database (api/door/pairing.py), over all processes. An IPv6 address counts as the
network that one household has (api/edge/crowd.py), which counts too, before a request is read.
"""

from __future__ import annotations

import math
import threading
import time
from typing import NoReturn

from flask import Flask, current_app, request
from limits import RateLimitItem, parse
from limits.storage import MemoryStorage
from limits.strategies import FixedWindowRateLimiter

from api.edge.crowd import counted_as
from api.errors import Problem
from bench import words

RATES = "bowlside_rates"

DEVICE = parse("6000 per minute")
STRANGER = parse("300 per minute")
# One address may spend no more than the tries of one code.
WRONG_CODE = parse("5 per 10 minutes")
# All together may spend the tries of so many codes; past that wrong ones cost no code a try.
TRIES_OF_ALL = parse("10 per 10 minutes")
CODES_MADE = parse("30 per 10 minutes")
# Each is a row of the audit log, which only grows.
NAMES_GIVEN = parse("60 per hour")


class Rates:
    """The counters. One thread at a time: the library's own store starts its timer from whichever thread asks."""

    def __init__(self) -> None:
        self._store = MemoryStorage()
        self._limiter = FixedWindowRateLimiter(self._store)
        self._lock = threading.Lock()

    def hit(self, rate: RateLimitItem, who: str) -> bool:
        with self._lock:
            return self._limiter.hit(rate, who)

    def is_spent(self, rate: RateLimitItem, who: str) -> bool:
        with self._lock:
            return not self._limiter.test(rate, who)

    def seconds_left(self, rate: RateLimitItem, who: str) -> int:
        with self._lock:
            again = self._limiter.get_window_stats(rate, who).reset_time
        return max(1, math.ceil(again - time.time()))

    def forget(self) -> None:
        with self._lock:
            self._store.reset()


def init_app(app: Flask) -> None:
    app.extensions[RATES] = Rates()


def count(rate: RateLimitItem, who: str | None) -> None:
    """Count one more, and raise 429 if that is one too many."""
    if not rates().hit(rate, who or ""):
        _refuse(rate, who)


def refuse_if_spent(rate: RateLimitItem, who: str | None) -> None:
    """Raise 429 if there is none left, counting nothing."""
    if rates().is_spent(rate, who or ""):
        _refuse(rate, who)


def sender() -> str:
    """Where this request came from, as it is counted."""
    return counted_as(request.remote_addr or "")


def rates() -> Rates:
    held: Rates = current_app.extensions[RATES]
    return held


def _refuse(rate: RateLimitItem, who: str | None) -> NoReturn:
    seconds = rates().seconds_left(rate, who or "")
    says = words.say("api-door-too-many", length=f"{seconds} s")
    raise Problem(429, says, headers={"Retry-After": str(seconds)})
