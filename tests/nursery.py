"""Starts servers in a fraction of the time: each is forked from a process that has the code in memory already.

    start = Nursery().start(["serve", "--port", "0"], log, {"BOWLSIDE_HOSTS": "studio.test"})
    start.process.wait(30); start.said.readline()

Run as a program it is that process, which has the page's files compressed too. It hears on a socket what
to start, together with the file descriptors to print to, and answers with the process id.
"""

from __future__ import annotations

import atexit
import gc
import json
import os
import signal
import socket
import subprocess
import sys
from pathlib import Path
from typing import IO, NamedTuple

import psutil

ROOT = Path(__file__).resolve().parent.parent
MOST_BYTES = 65_536


class Started(NamedTuple):
    """A server: its process, which leads a group of its own, and what it prints."""

    process: psutil.Process
    said: IO[str]


class Nursery:
    """The process that servers are forked from; it goes when the tests do."""

    def __init__(self) -> None:
        self._ours, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        with theirs:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "tests.nursery", str(theirs.fileno())],
                cwd=ROOT,
                pass_fds=[theirs.fileno()],
            )
        atexit.register(self._close)

    def start(self, arguments: list[str], log: Path, environment: dict[str, str]) -> Started:
        """Start the command with these arguments; what it says on standard error goes to the log."""
        wanted = json.dumps({"arguments": arguments, "environment": {**os.environ, **environment}})
        reading, writing = os.pipe()
        with log.open("a") as errors:
            socket.send_fds(self._ours, [wanted.encode()], [writing, errors.fileno()])
        os.close(writing)
        return Started(psutil.Process(int(self._ours.recv(MOST_BYTES))), os.fdopen(reading))

    def _close(self) -> None:
        self._ours.close()
        self._process.wait()


def main(ours: socket.socket) -> None:
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody here asks how a server ended
    import ortools.sat.python.cp_model  # noqa: F401  and what a first plan loads

    import api.demo
    import api.door.opening
    import api.serving  # noqa: F401  what `serve` loads when it is called
    from api.cli import main as bowlside
    from api.page import files_as_they_are, page_file, pieces_of
    from api.pieces import WORKER
    from api.places import FRONTEND
    from api.settings import Settings

    api.create_app(Settings(database=Path("none")))  # which loads all that answers, and opens nothing
    for name in (*pieces_of(FRONTEND, files_as_they_are(FRONTEND)).names, WORKER):
        sent = page_file(FRONTEND, name)  # compressing all of it takes most of a second
        assert sent
        sent.encoded(sent.encodings[0])
    gc.collect()
    gc.freeze()  # so that no server goes through all of that once more as it starts

    while True:
        message, files, _, _ = socket.recv_fds(ours, MOST_BYTES, 2)
        if not message:
            return
        if child := os.fork():
            ours.send(str(child).encode())
            for each in files:
                os.close(each)
            continue
        os.setsid()
        signal.signal(signal.SIGCHLD, signal.SIG_DFL)
        for standard, given in zip((1, 2), files, strict=True):
            os.dup2(given, standard)
        ours.close()
        wanted = json.loads(message)
        os.environ.clear()
        os.environ.update(wanted["environment"])
        bowlside(wanted["arguments"], prog_name="bowlside")


if __name__ == "__main__":
    main(socket.socket(fileno=int(sys.argv[1])))
