"""Starts servers in a fraction of the time: each is forked from a process that has the code in memory already.

    start = Nursery("one-run").start(["serve", "--port", "0"], log, {"BOWLSIDE_HOSTS": "studio.test"})
    start.process.wait(30); start.said.readline()

Run as a program it is that process, which has been through a studio's first minutes and has the page's files
compressed: what an ordinary server does for the first time, slowly, its children do as if they had done it
before, and their tables are made. It hears on a socket what to start, together with the file descriptors to
print to, and answers with the process id. That takes as long as a few tests, so all workers of a run have one;
it goes when the last of them does.
"""

from __future__ import annotations

import atexit
import ctypes
import gc
import json
import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing, suppress
from functools import cache
from importlib import import_module
from itertools import pairwise
from pathlib import Path
from select import select
from typing import IO, Any, NamedTuple
from uuid import uuid4

import psutil

ROOT = Path(__file__).resolve().parent.parent
MOST_BYTES = 65_536
PR_SET_PDEATHSIG = 1  # prctl(2)
Holding = type(cache(lambda: None))
SELDOM = 20_000  # as in tests/conftest.py: objects more, when garbage is searched for
UNDISTURBED_SECONDS = 1200
STAYING = ("api.page", "api.dense", "api.upgrading")
# What a page asks a studio for as it opens.
ASKED = (
    "",
    "api/v1/recipes",
    "api/v1/runs",
    "api/v1/shelf/entries",
    "api/v1/kit",
    "api/v1/settings",
    "api/v1/hours",
)


class Started(NamedTuple):
    """A server: its process, which leads a group of its own, and what it prints."""

    process: psutil.Process
    said: IO[str]


class Nursery:
    """A line to the process that servers are forked from, which the first of a run's workers starts."""

    def __init__(self, run: str) -> None:
        address = f"\0bowlside-nursery-{run}"  # of no file, so nothing is left of it
        self._process: subprocess.Popen[bytes] | None = None
        self._ours = socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        while self._ours.connect_ex(address):
            self._open(address)
        atexit.register(self._ours.close)

    def _open(self, address: str) -> None:
        """Start it, unless another worker is about to: one alone has the address."""
        with socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET) as door, suppress(OSError):
            door.bind(address)
            door.listen()
            self._process = subprocess.Popen(
                [sys.executable, "-m", "tests.nursery", str(door.fileno())],
                cwd=ROOT,
                pass_fds=[door.fileno()],
            )

    def start(
        self, arguments: list[str], log: Path, environment: dict[str, str], command: str = "api.cli"
    ) -> Started:
        """Start the command of a module with these arguments; what it says on standard error goes to the log."""
        wanted = json.dumps(
            {"command": command, "arguments": arguments, "environment": {**os.environ, **environment}}
        )
        reading, writing = os.pipe()
        with log.open("a") as errors:
            socket.send_fds(self._ours, [wanted.encode()], [writing, errors.fileno()])
        os.close(writing)
        return Started(psutil.Process(int(self._ours.recv(MOST_BYTES))), os.fdopen(reading))


def main(door: socket.socket) -> None:
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # nobody here asks how a server ended
    import ortools.sat.python.cp_model  # noqa: F401  and what a first plan loads

    import api.cli
    import api.door.opening
    import api.porter
    import api.serving  # noqa: F401  what `serve` loads when it is called

    # A copy of the studio, read back, costs more than to start it. No test waits so long for one; those of copies
    # have them made (tests/api/test_porter.py, test_nights.py).
    api.porter.FIRST_SECONDS = UNDISTURBED_SECONDS

    tables = go_through_a_studio()
    gc.collect()
    gc.freeze()  # so that no server goes through all of that once more as it starts
    gc.set_threshold(SELDOM)

    workers = [door.accept()[0]]
    while workers:
        for heard in select([door, *workers], [], [])[0]:
            if heard is door:
                workers.append(door.accept()[0])
                continue
            message, files = b"", []
            with suppress(ConnectionError):  # that worker was killed
                message, files, _, _ = socket.recv_fds(heard, MOST_BYTES, 2)
            if not message:
                workers.remove(heard)
                heard.close()
            elif child := os.fork():
                heard.send(str(child).encode())
                for each in files:
                    os.close(each)
            else:
                serve(json.loads(message), files, [door, *workers], tables)


def serve(wanted: dict[str, Any], files: list[int], others: list[socket.socket], tables: bytes) -> None:
    """Become the server that is wanted, and nothing else of what was there."""
    os.setsid()
    ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGTERM)  # no server is left of a run that was killed
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    for standard, given in zip((1, 2), files, strict=True):
        os.dup2(given, standard)
    for each in others:
        each.close()
    os.environ.clear()
    os.environ.update(wanted["environment"])
    furnish(wanted["arguments"], tables)
    import_module(wanted["command"]).main(wanted["arguments"], prog_name="bowlside")


def furnish(arguments: list[str], tables: bytes) -> None:
    """Where the database is not there yet: one with its tables, of a generation of its own."""
    given = dict(pairwise(arguments)).get("--database")
    if given is None or Path(given).exists():
        return
    Path(given).write_bytes(tables)
    with closing(sqlite3.connect(given)) as database, database:
        of_now = (str(uuid4()), time.time_ns() // 1_000_000)
        database.execute("UPDATE studio SET generation = ?, began_at = ?", of_now)


def go_through_a_studio() -> bytes:
    """Make the demo studio and ask it what a page asks, then forget all that was held of it.

    @returns a database with its tables and nothing else in them.
    """
    import api.demo
    from api import create_app, store
    from api.page import make_ready, page_file
    from api.pieces import WORKER
    from api.places import FRONTEND
    from api.settings import Settings
    from api.upgrading import bring_up_to_date
    from bench import words
    from tests.addresses import compile_once

    compile_once()
    words.say("cli-help-help")  # what every command says of itself is read in one go
    make_ready()  # as each server's worker does, of all the pieces
    worker = page_file(FRONTEND, WORKER)
    assert worker
    told = re.search(rb"^const PIECES = (\[.*\]);$", worker.encoded("identity"), re.MULTILINE)
    assert told
    pieces = json.loads(told[1])

    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "studio.sqlite3"
        app = create_app(Settings(database=file))
        for _ in range(2):  # made, and found as they are
            bring_up_to_date(app)
        store.close(app)  # the last connection writes all of the WAL into the file
        tables = file.read_bytes()
        with app.app_context():
            api.demo.seed()
        for path in (*ASKED, *pieces, WORKER):
            answer = app.test_client().get(f"/{path}", headers={"Accept-Encoding": "br"})
            assert answer.status_code == 200, path
        store.close(app)
    # The page as it is sent stays, and its modules as they are read: in a further language they are the same.
    rooms = [each for name, each in sys.modules.items() if name.startswith("api.") and name not in STAYING]
    for room in rooms:
        for each in vars(room).values():
            if isinstance(each, Holding):
                each.cache_clear()
    return tables


if __name__ == "__main__":
    main(socket.socket(fileno=int(sys.argv[1])))
