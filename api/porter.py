"""The porter: a process beside the workers that looks after the house.

It renews the server's certificate and makes the nightly copy. It looks once a minute what is due, leaves
with the master, and is started again when it dies. So does the landing page of a network, which is another
process: strangers reach it, and they must not keep the porter from its work.
"""

from __future__ import annotations

import os
import signal
import socket
import sys
import time
from collections.abc import Callable, Sequence
from logging import Logger
from typing import Protocol

from api.logs import log_of

FIRST_SECONDS = 10  # the studio opens first
ROUND_SECONDS = 60
LOOK_SECONDS = 1
REST_SECONDS = 2

Chore = Callable[[], None]


class Landing(Protocol):
    """A page that is served while the master is there."""

    socket: socket.socket

    def serve(self, goes_on: Callable[[], bool]) -> None: ...


class Child:
    """A process beside the workers, kept by the master: started, started again when it has died, and stopped."""

    def __init__(self, work: Callable[[Callable[[], bool]], None]) -> None:
        self._work = work
        self._process = 0
        self._not_before = 0.0

    def look(self, not_its: Sequence[socket.socket]) -> None:
        """See that it is there. It closes the sockets that are `not_its`."""
        if self._process and _is_running(self._process):
            return
        if time.monotonic() < self._not_before:
            return
        self._not_before = time.monotonic() + REST_SECONDS
        sys.stdout.flush()
        sys.stderr.flush()
        master = os.getpid()
        self._process = os.fork()
        if self._process:
            return
        try:
            for each in (signal.SIGINT, signal.SIGHUP):
                signal.signal(each, signal.SIG_IGN)  # meant for the master, who will say
            signal.signal(signal.SIGTERM, lambda *_: os._exit(0))
            for sock in not_its:
                sock.close()
            self._work(lambda: os.getppid() == master)
        except BaseException:
            log_of("porter").exception("A process beside the workers failed; started again.")
        finally:
            os._exit(0)

    def stop(self) -> None:
        self._not_before = float("inf")
        if self._process and _is_running(self._process):
            os.kill(self._process, signal.SIGTERM)
        self._process = 0


class Porter:
    """The master's side: keeps the porter, and the landing page in a process of its own."""

    def __init__(self, chores: Sequence[Chore], landing: Landing | None = None) -> None:
        self.chores = chores
        self._landing = landing
        self._house = Child(lambda goes_on: keep_house(chores, goes_on))
        self._page = Child(landing.serve) if landing else None

    def look(self, not_ours: Sequence[socket.socket]) -> None:
        """See that both are there. They close the sockets that are `not_ours`."""
        self._house.look([*not_ours, *([self._landing.socket] if self._landing else [])])
        if self._page:
            self._page.look(not_ours)

    def let_go(self) -> None:
        """In a worker: let go of what is the landing page's."""
        if self._landing:
            self._landing.socket.close()

    def stop(self) -> None:
        for each in (self._house, self._page):
            if each:
                each.stop()


def keep_house(chores: Sequence[Chore], goes_on: Callable[[], bool]) -> None:
    """Do what is due, round after round, for as long as it goes on."""
    next_round = time.monotonic() + FIRST_SECONDS
    while goes_on():
        if time.monotonic() >= next_round:
            do_round(chores)
            next_round = time.monotonic() + ROUND_SECONDS
        time.sleep(LOOK_SECONDS)


def do_round(chores: Sequence[Chore]) -> None:
    """One chore that fails keeps none of the others from being done."""
    for chore in chores:
        try:
            chore()
        except Exception:
            log_of("porter").exception("%s failed; tried again in a minute.", chore.__name__)


def log() -> Logger:
    return log_of("porter")


def _is_running(process: int) -> bool:
    """Whether a child is there; one that has ended is waited for, so that it leaves no trace."""
    try:
        return os.waitpid(process, os.WNOHANG) == (0, 0)
    except ChildProcessError:  # the master waited for it already
        return False
