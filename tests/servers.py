"""Starts servers as processes of their own, so that tests can stop, kill and compare them."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from urllib.request import Request, urlopen

ROOT = Path(__file__).resolve().parent.parent
START_SECONDS = 30


class Server:
    """A server process that prints its address when it listens. Started again, it keeps its port."""

    def __init__(self, arguments: list[str], log: Path, **environment: str) -> None:
        self._arguments = arguments
        self._log = log
        self._environment = environment
        self._process: subprocess.Popen[str] | None = None
        self.url = ""

    def start(self) -> Server:
        port = ["--port", self.url.rsplit(":", 1)[1].strip("/")] if self.url else []
        with self._log.open("a") as log:
            self._process = subprocess.Popen(
                [sys.executable, *self._arguments, *port],
                cwd=ROOT,
                env={**os.environ, "PYTHONUNBUFFERED": "1", **self._environment},
                stdout=subprocess.PIPE,
                stderr=log,
                text=True,
                start_new_session=True,
            )
        assert self._process.stdout is not None
        for line in self._process.stdout:
            if found := re.search(r"https?://[\w.-]+:\d+/", line):
                self.url = found.group()
                return self
        raise AssertionError(f"The server did not start:\n{self._log.read_text()}")

    @property
    def master(self) -> int:
        """The process that was started, which keeps the others."""
        assert self._process is not None
        return self._process.pid

    def kill(self) -> None:
        """kill -9 of the master, the workers and the porter: no chance to finish anything."""
        self._end(lambda process: os.killpg(process.pid, signal.SIGKILL))

    def stop(self) -> None:
        self._end(subprocess.Popen.terminate)

    def _end(self, how: Callable[[subprocess.Popen[str]], None]) -> None:
        if self._process is None:
            return
        how(self._process)
        self._process.wait(timeout=START_SECONDS)
        assert self._process.stdout is not None
        self._process.stdout.close()
        self._process = None


def bowlside(database: Path, *options: str) -> Server:
    """The real server on a database, on a free port, with a log beside the database."""
    return Server(
        ["-m", "api.cli", "serve", "--port", "0", "--database", str(database), *options],
        database.with_suffix(".log"),
    )


def demo_open(database: Path, *options: str) -> Server:
    """The demo studio with its bench open day and night, so that no test hangs on the time of day. Started."""
    server = bowlside(database, "--demo", *options).start()
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
    return Server(
        ["-m", "api.cli", "serve", "--port", "0", *options],
        folder / "shared.log",
        DATABASE_URL=url,
        BOWLSIDE_DATABASE=str(folder / "none"),
    )
