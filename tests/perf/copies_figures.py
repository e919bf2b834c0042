"""A studio of 5,000 runs goes into a copy, back out of it, to the other kind of database and home again: what is lost?

And while a thousand runs are brought in: how long does a phone wait that writes beside it?
"""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from api import copies, create_app, exchange, move_studio, store
from api.settings import Settings
from api.store import reading
from tests.api.studio import Studio
from tests.make import make_entry
from tests.perf.registry import figure
from tests.postgres import Cluster
from tests.servers import ROOT
from tests.studios import large_studio

RUNS, PICTURES = 5_000, 40
BROUGHT_IN = 1_000


@figure("rows lost of 5,000 runs by backup, restore, a move to PostgreSQL and the move home", "<= 0")
def rows_lost() -> float:
    return _carried()[0]


@figure("tables of those whose SHA-256 is another on the way or at the end", "<= 0")
def digests_changed() -> float:
    return _carried()[1]


@figure("5,000 runs: backup, read back, restore, two moves, time", "<= 600 s")
def carried_in() -> float:
    return _carried()[2]


@figure("1,000 runs brought in by the command: the longest that a writer beside it waits", "<= 1.5 s")
def wait_beside_an_import() -> float:
    return _brought_in()[0]


@figure("1,000 runs brought in by the command, with a writer beside it, time", "<= 60 s")
def brought_in() -> float:
    return _brought_in()[1]


@figure("memory that bringing them in takes beyond bringing in ten / size of the file", "<= 0.5")
def memory_of_an_import() -> float:
    return _brought_in()[2]


@cache
def _carried() -> tuple[int, int, float]:
    with TemporaryDirectory() as name, _cluster() as cluster:
        folder = Path(name)
        app = large_studio(folder / "first.sqlite3", RUNS, PICTURES)
        before = _sums(app, secrets=False)
        _say("built", before)
        began = time.monotonic()
        with app.app_context():
            copies.write(folder / "copy.gz")
        copies.verify(folder / "copy.gz", beside=folder)
        restored = create_app(Settings(database=folder / "restored.sqlite3"))
        store.migrate(restored)
        copies.restore(restored, folder / "copy.gz")
        there = create_app(Settings(database_url=cluster.url(cluster.create()), database=folder / "none"))
        store.migrate(there)
        copies.move(restored, there)
        home = create_app(Settings(database=folder / "home.sqlite3"))
        store.migrate(home)
        copies.move(there, home)
        took = time.monotonic() - began
        lost = changed = 0
        for each in (restored, there, home):
            now = _sums(each, secrets=False)
            lost += sum(abs(rows - now.get(table, (0, ""))[0]) for table, (rows, _) in before.items())
            changed += sum(now.get(table) != said for table, said in before.items())
        return lost, changed, took


@cache
def _brought_in() -> tuple[float, float, float]:
    with TemporaryDirectory() as name:
        folder = Path(name)
        everything = _export(folder / "all.json", BROUGHT_IN)
        least = _export(folder / "few.json", 10)
        app = create_app(Settings(database=folder / "to.sqlite3"))
        store.migrate(app)
        phone = Studio(app.test_client())
        run = phone.with_run()
        _, few = _import(least, folder / "few-to.sqlite3")
        process = _start(everything, folder / "to.sqlite3")
        began, longest = time.monotonic(), 0.0
        while process.poll() is None:
            at = time.monotonic()
            assert phone.post(run, make_entry(run)).status_code == 200
            longest = max(longest, time.monotonic() - at)
            time.sleep(0.02)
        took = time.monotonic() - began
        assert process.stdout is not None
        many = int(process.stdout.read().split()[-1])
        assert process.returncode == 0
        store.close(app)
        return longest, took, (many - few) * 1024 / everything.stat().st_size


def _export(file: Path, runs: int) -> Path:
    app = large_studio(file.with_suffix(".sqlite3"), runs)
    with app.app_context(), file.open("wb") as out:
        exchange.write_export(out)
    store.close(app)
    return file


def _start(file: Path, database: Path) -> subprocess.Popen[str]:
    """The command on a file; it says at its end how much memory it took, in KiB.

    By VmHWM: what getrusage says begins with the memory of the process that started it.
    """
    words = ["import", "--new", str(file), "--database", str(database)]
    code = (
        "import re, sys; from api.cli import main\n"
        f"try: main({words!r})\n"
        "except SystemExit as left:\n"
        "    print(re.search(r'VmHWM:\\s+(\\d+)', open('/proc/self/status').read())[1]); sys.exit(left.code)"
    )
    return subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, cwd=ROOT)


def _import(file: Path, database: Path) -> tuple[int, int]:
    process = _start(file, database)
    said, _ = process.communicate()
    return process.returncode, int(said.split()[-1])


def _sums(app: Any, *, secrets: bool) -> dict[str, tuple[int, str]]:
    with app.app_context(), reading() as connection:
        sums = {
            name: (each.rows, each.sha256)
            for name, each in move_studio.sums_of(connection, secrets=secrets).items()
        }
    store.close(app)
    return sums


def _say(what: str, sums: dict[str, tuple[int, str]]) -> None:
    counts = ", ".join(f"{rows:,} {table}" for table, (rows, _) in sums.items())
    print(f"{what}: {counts}", file=sys.stderr, flush=True)


@contextmanager
def _cluster() -> Iterator[Cluster]:
    cluster = Cluster()
    try:
        yield cluster
    finally:
        cluster.remove()
