"""A house: the real server in several processes, on a real database, on a disk that can be full.

It is killed often, and is forked each time from a process that has its code in memory (tests/nursery.py).
The disk is a small one of its own in memory, where this user may mount one. Else a full disk is only
as good as a limit on how large the server's files may grow, and for PostgreSQL there is none.
"""

from __future__ import annotations

import itertools
import json
import resource
import shutil
import signal
import subprocess
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import Request, urlopen

import psutil
from sqlalchemy.exc import DBAPIError

from api import copies, create_app, store
from api.copies import CopyError
from api.settings import Settings
from tests.frontend.phones import RECIPE
from tests.make import uuid4
from tests.postgres import Cluster
from tests.servers import Server, warm_bowlside, warm_bowlside_shared

WORKERS = "2"
SQLITE_MIB = 12
POSTGRESQL_MIB = 400
# A wait short enough to be heard to its end. In ms, the earliest, the usual and the latest time.
WAIT_MS = (3_000, 4_000, 6_000)


class Disk:
    """A folder, on a disk of so many MiB where that can be had."""

    def __init__(self, mib: int) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="chaos-"))
        self.folder.chmod(0o755)
        size = ["-o", f"size={mib}m,mode=1777"]
        mounting = ["mount", "-t", "tmpfs", *size, "tmpfs", str(self.folder)]
        self.is_small = (
            shutil.which("mount") is not None
            and not subprocess.run(mounting, stderr=subprocess.DEVNULL).returncode
        )
        self._ballast = self.folder / "ballast"

    def fill(self) -> None:
        with suppress(OSError), self._ballast.open("ab", buffering=0) as ballast:
            while True:
                ballast.write(bytes(4096))

    def free(self) -> None:
        self._ballast.unlink(missing_ok=True)

    def remove(self) -> None:
        if self.is_small:
            subprocess.run(["umount", "--lazy", str(self.folder)], check=True)
        shutil.rmtree(self.folder, ignore_errors=True)


class Postgres:
    """A PostgreSQL server that keeps its promises, on a disk of its own, and can be killed."""

    def __init__(self) -> None:
        self.disk = Disk(POSTGRESQL_MIB)
        with folder_of_temporaries(self.disk.folder):
            self.cluster = Cluster(durable=True)

    def kill(self) -> None:
        """Its own way to die at once: nothing is finished, and the next start recovers from the log."""
        pid_file = self.cluster.folder / "data" / "postmaster.pid"
        with suppress(FileNotFoundError, psutil.NoSuchProcess):
            process = psutil.Process(int(pid_file.read_text().split()[0]))
            process.send_signal(signal.SIGQUIT)
            process.wait(timeout=30)

    def revive(self) -> None:
        """Start it if it is not there, for it also ends by itself when its log finds no room."""
        pid_file = self.cluster.folder / "data" / "postmaster.pid"
        with suppress(FileNotFoundError, IndexError):
            if psutil.pid_exists(int(pid_file.read_text().split()[0])):
                return
        self.cluster.start()

    def remove(self) -> None:
        self.cluster.remove()
        self.disk.remove()


class House:
    """Made on SQLite, or on the PostgreSQL server that is given."""

    def __init__(self, postgres: Postgres | None = None) -> None:
        self._postgres = postgres
        self._lock = threading.Lock()
        self._own = Disk(SQLITE_MIB)
        self._database_url: str | None = None
        self.server: Server
        if postgres:
            url = self._database_url = postgres.cluster.url(postgres.cluster.create())
            self.server = warm_bowlside_shared(url, self._own.folder, "--workers", WORKERS)
        else:
            self.server = warm_bowlside(self._own.folder / "studio.sqlite3", "--workers", WORKERS)
        self._disk = postgres.disk if postgres else self._own
        self._is_up = False
        self._shelf = Path(tempfile.mkdtemp(prefix="copies-"))
        self._copies: list[Path] = []
        self._numbers = itertools.count()
        self.start()

    @property
    def file(self) -> Path | None:
        """The SQLite file, if there is one."""
        return None if self._postgres else self._own.folder / "studio.sqlite3"

    @property
    def url(self) -> str:
        return self.server.url

    @property
    def port(self) -> int:
        port = urlsplit(self.url).port
        assert port
        return port

    def copy(self) -> None:
        """Copy everything, if that can be done now."""
        file = self._shelf / f"{next(self._numbers)}.gz"
        with self._opened() as app, app.app_context():
            copies.write(file)
            self._copies.append(file)

    def put_back(self) -> None:
        """Put the last copy back, if there is one and it can be done now; the server may run meanwhile."""
        if self._copies:
            with self._opened() as app:
                copies.restore(app, self._copies[-1], keep=True)

    def forget_copies(self) -> None:
        self._copies.clear()

    @contextmanager
    def _opened(self) -> Iterator[Any]:
        """The application on this house's database; nothing is said of what breakage makes impossible."""
        app = create_app(
            Settings(
                database=self.file or self._shelf / "none",
                database_url=self._database_url,
                copies=self._shelf / "before",
            )
        )
        try:
            with suppress(CopyError, DBAPIError):
                yield app
        finally:
            store.close(app)

    def start(self) -> None:
        """Start the server unless it runs."""
        with self._lock:
            if not self._is_up:
                self.server.start()
                self._is_up = True

    def kill(self, what: str) -> None:
        with self._lock:
            if what == "database" and self._postgres:
                self._postgres.kill()
            elif self._is_up and what == "server":
                self.server.kill()
                self._is_up = False
            elif self._is_up and what == "worker":
                for child in self._processes()[1:2]:
                    child.kill()

    def fill(self) -> None:
        if self._disk.is_small:
            self._disk.fill()
        elif not self._postgres:
            self._limit(max((file.stat().st_size for file in self._own.folder.glob("studio*")), default=0))

    def heal(self) -> None:
        if self._disk.is_small:
            self._disk.free()
        elif not self._postgres:
            self._limit(resource.RLIM_INFINITY)
        if self._postgres:
            self._postgres.revive()
        self.start()

    def remove(self) -> None:
        self.kill("server")
        self._own.remove()
        shutil.rmtree(self._shelf, ignore_errors=True)

    def log(self) -> str:
        return "".join(file.read_text(errors="replace") for file in self._own.folder.glob("*.log"))

    def ask(self, method: str, path: str, body: Any = None) -> bytes:
        """Straight from the server, by no line."""
        data = None if body is None else json.dumps(body).encode()
        headers = {"Content-Type": "application/json"}
        request = Request(f"{self.url}api/v1{path}", method=method, data=data, headers=headers)
        with urlopen(request, timeout=30) as response:
            answer: bytes = response.read()
            return answer

    def with_recipe(self) -> dict[str, Any]:
        """A recipe of this history's own, by id and version; its runs are told from others' by it."""
        document = json.loads(json.dumps(RECIPE))
        wait = document["components"][0]["steps"][1]
        for name, ms in zip(("earliest", "usual", "latest"), WAIT_MS, strict=True):
            wait[name] = f"{ms // 1000} s"
        recipe = uuid4()
        self.ask("PUT", f"/recipes/{recipe}", document)
        return {"id": recipe, "version": 1}

    def _processes(self) -> list[psutil.Process]:
        master = psutil.Process(self.server.master)
        return [master, *sorted(master.children(), key=lambda child: child.create_time())]

    def _limit(self, size: int) -> None:
        for process in self._processes():
            with suppress(psutil.NoSuchProcess):
                process.rlimit(psutil.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))


@contextmanager
def folder_of_temporaries(folder: Path) -> Iterator[None]:
    before = tempfile.tempdir
    tempfile.tempdir = str(folder)
    try:
        yield
    finally:
        tempfile.tempdir = before


def now_ms() -> int:
    return time.time_ns() // 1_000_000
