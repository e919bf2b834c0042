"""Starts servers as processes of their own, so that tests can stop, kill and compare them."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from functools import cache
from pathlib import Path
from select import select
from typing import Self
from urllib.request import Request, urlopen

import psutil

from api.join import short_names, with_short_names
from api.pieces import listed
from api.places import FRONTEND
from tests.nursery import ROOT, Nursery, Started

START_SECONDS = 30
SERVE = ("serve", "--port", "0")


def as_sent(script: str) -> str:
    """A script that says a module of the page by its path, `$keep_store`, with the name it has in the piece it is in."""
    return with_short_names(script, short_names(listed(FRONTEND)))


class Server:
    """A server process that prints its address when it listens. Started again, it keeps its port."""

    def __init__(self, arguments: list[str], log: Path, **environment: str) -> None:
        self._arguments = arguments
        self._log = log
        self._environment = environment
        self._started: Started | None = None
        self.url = ""

    def start(self) -> Self:
        port = ["--port", self.url.rsplit(":", 1)[1].strip("/")] if self.url else []
        self._started = self._launch([*self._arguments, *port])
        for line in self._started.said:
            if found := re.search(r"https?://[\w.-]+:\d+/", line):
                self.url = found.group()
                return self
        raise AssertionError(f"The server did not start:\n{self._log.read_text()}")

    def _launch(self, arguments: list[str]) -> Started:
        with self._log.open("a") as log:
            process = psutil.Popen(
                [sys.executable, *arguments],
                cwd=ROOT,
                env={**os.environ, "PYTHONUNBUFFERED": "1", **self._environment},
                stdout=subprocess.PIPE,
                stderr=log,
                text=True,
                start_new_session=True,
            )
        return Started(process, process.stdout)

    @property
    def master(self) -> int:
        """The process that was started, which keeps the others."""
        assert self._started is not None
        pid: int = self._started.process.pid
        return pid

    def kill(self) -> None:
        """kill -9 of the master, the workers and the porter: no chance to finish anything."""
        self._end(lambda process: os.killpg(process.pid, signal.SIGKILL))

    def stop(self) -> None:
        self._end(psutil.Process.terminate)

    def _end(self, how: Callable[[psutil.Process], None]) -> None:
        if self._started is None:
            return
        all_of_it = [self._started.process]
        with suppress(psutil.NoSuchProcess, ProcessLookupError):  # it may have ended by itself
            all_of_it += self._started.process.children(recursive=True)
            how(self._started.process)
        for each in all_of_it:  # a worker that outlives its master answers still
            see_it_end(each)
        self._started.said.close()
        self._started = None


def see_it_end(process: psutil.Process) -> None:
    """Wait until it is dead, not until its number is free: that is up to whoever is the parent of orphans, who may look
    once in two seconds."""
    if isinstance(process, psutil.Popen):  # our own child
        process.wait(START_SECONDS)
        return
    with suppress(ProcessLookupError, psutil.NoSuchProcess):
        if not process.is_running():  # another has its number by now
            return
        end = os.pidfd_open(process.pid)
        try:
            if not select([end], [], [], START_SECONDS)[0]:
                raise psutil.TimeoutExpired(START_SECONDS, process.pid)
        finally:
            os.close(end)


class WarmServer(Server):
    """The same server, forked from a process that has its code in memory already."""

    command = "api.cli"

    def _launch(self, arguments: list[str]) -> Started:
        environment = {"PYTHONUNBUFFERED": "1", **self._environment}
        return nursery().start(arguments, self._log, environment, self.command)


class PseudoServer(WarmServer):
    """And again, with the language that is made up for tests beside those that there are."""

    command = "tests.pseudo"


@cache
def nursery() -> Nursery:
    return Nursery(os.environ.get("PYTEST_XDIST_TESTRUNUID", str(os.getpid())))


def bowlside(database: Path, *options: str) -> Server:
    """The real server on a database, on a free port, with a log beside the database."""
    return Server(["-m", "api.cli", *serve_on(database, *options)], database.with_suffix(".log"))


def warm_bowlside(database: Path, *options: str) -> WarmServer:
    """The same, for tests of what is on a screen: how a server starts and dies is not their matter."""
    return WarmServer(serve_on(database, *options), database.with_suffix(".log"))


def serve_on(database: Path, *options: str) -> list[str]:
    """The arguments of a server on a database, on a free port."""
    return [*SERVE, "--database", str(database), *options]


def demo_open(database: Path, *options: str) -> WarmServer:
    """The demo studio with its bench open day and night, so that no test hangs on the time of day. Started."""
    server = warm_bowlside(database, "--demo", *options).start()
    always = {"makers": [{"name": "Maker", "hours": {"zone": "UTC", "daily": [["0:00", "24:00"]]}}]}
    asked = Request(
        f"{server.url}api/v1/hours",
        json.dumps(always).encode(),
        {"Content-Type": "application/json", "If-Match": "*"},
        method="PUT",
    )
    with urlopen(asked) as answered:
        assert answered.status == 200
    return server


def bowlside_shared(url: str, folder: Path, *options: str) -> Server:
    """The real server on a PostgreSQL database; its log, and all that it keeps beside, in the folder."""
    return Server(["-m", "api.cli", *SERVE, *options], folder / "shared.log", **_shared(url, folder))


def warm_bowlside_shared(url: str, folder: Path, *options: str) -> Server:
    return WarmServer([*SERVE, *options], folder / "shared.log", **_shared(url, folder))


def _shared(url: str, folder: Path) -> dict[str, str]:
    return {"DATABASE_URL": url, "BOWLSIDE_DATABASE": str(folder / "none")}
