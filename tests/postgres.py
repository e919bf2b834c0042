"""A PostgreSQL server of the tests' own: real, private and gone at the end.

It listens on a socket in its own folder and nowhere else, as a user that is not root (PostgreSQL
refuses to be), and does not wait for the disk unless told to.
"""

from __future__ import annotations

import itertools
import os
import pwd
import shutil
import subprocess
import tempfile
from contextlib import suppress
from pathlib import Path

import psycopg

USER = "bowlside"
WAY_OUT = (
    "These tests need PostgreSQL's server programs (initdb, pg_ctl). `make test` installs them where it"
    " may; else: apt-get install postgresql, or put the folder that has them on PATH."
)
HASTY = ("fsync=off", "full_page_writes=off", "synchronous_commit=off")


class Cluster:
    """A server with databases of its own; `durable` for one that keeps its promises, to be timed."""

    def __init__(self, *, durable: bool = False) -> None:
        self._programs = find_programs()
        # Short, for the name of a socket may have about a hundred characters.
        self.folder = Path(tempfile.mkdtemp(prefix="bowlside-pg-"))
        self._durable = durable
        self._numbers = itertools.count(1)
        self._as_user: list[str] = []
        if os.geteuid() == 0:
            nobody = pwd.getpwnam("nobody")
            os.chown(self.folder, nobody.pw_uid, nobody.pw_gid)
            self._as_user = [
                "setpriv",
                f"--reuid={nobody.pw_uid}",
                f"--regid={nobody.pw_gid}",
                "--clear-groups",
            ]
        self._run(
            "initdb", "--username", USER, "--auth", "trust", "--encoding", "UTF8", "--no-locale", "--no-sync"
        )
        self.start()

    def start(self) -> None:
        settings = [
            "listen_addresses=",
            f"unix_socket_directories={self.folder}",
            *(() if self._durable else HASTY),
        ]
        options = " ".join(f"-c {setting}" for setting in settings)
        log = str(self.folder / "log")
        self._run("pg_ctl", "--wait", "--silent", "--log", log, "--options", options, "start")

    def stop(self) -> None:
        """Nobody who is connected is waited for."""
        self._run("pg_ctl", "--wait", "--silent", "--mode", "fast", "stop")

    def remove(self) -> None:
        with suppress(AssertionError):
            self.stop()
        shutil.rmtree(self.folder)

    def create(self, template: str = "template1") -> str:
        """A new database, a copy of another; gives its name."""
        name = f"studio_{next(self._numbers)}"
        self._ask(f'CREATE DATABASE {name} TEMPLATE "{template}" STRATEGY wal_log')
        return name

    def drop(self, name: str) -> None:
        self._ask(f"DROP DATABASE {name} WITH (FORCE)")

    def url(self, name: str) -> str:
        return f"postgresql://{USER}@/{name}?host={self.folder}"

    def _ask(self, sql: str) -> None:
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            connection.execute(sql)  # type: ignore[call-overload]

    def _run(self, program: str, *arguments: str) -> None:
        done = subprocess.run(
            [
                *self._as_user,
                str(self._programs / program),
                "--pgdata",
                str(self.folder / "data"),
                *arguments,
            ],
            cwd=self.folder,
            stdin=subprocess.DEVNULL,
            stdout=(output := tempfile.TemporaryFile("w+")),  # noqa: SIM115
            stderr=output,
            timeout=60,
        )
        output.seek(0)
        assert done.returncode == 0, f"{program} failed:\n{output.read()}"


def find_programs(debian: Path = Path("/usr/lib/postgresql")) -> Path:
    """The folder of the newest server's programs: where Debian keeps them, or on PATH."""
    found = sorted(debian.glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    if found:
        return found[-1].parent
    on_path = shutil.which("initdb")
    assert on_path is not None, WAY_OUT
    return Path(on_path).resolve().parent
