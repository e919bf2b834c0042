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
OTHERS_OUT = """SELECT pg_terminate_backend(pid, 10000) FROM pg_stat_activity
    WHERE datname = current_database() AND pid <> pg_backend_pid()"""
# All that is no row: 16384 is the first number of what is not PostgreSQL's own. A copy has the numbers of its template.
SHAPE = """SELECT md5(string_agg(told, ' ' ORDER BY told)) FROM (
    SELECT concat_ws(' ', 'a', attrelid, attnum, attname, atttypid, attnotnull, atthasdef, attisdropped) told
        FROM pg_attribute WHERE attrelid >= 16384
    UNION ALL SELECT concat_ws(' ', 'c', oid, relname, relkind, relnamespace) FROM pg_class WHERE oid >= 16384
    UNION ALL SELECT concat_ws(' ', 't', oid, tgenabled) FROM pg_trigger WHERE oid >= 16384
    UNION ALL SELECT concat_ws(' ', 'k', oid, conname) FROM pg_constraint WHERE oid >= 16384
    UNION ALL SELECT concat_ws(' ', 'p', oid, md5(prosrc)) FROM pg_proc WHERE oid >= 16384
    UNION ALL SELECT concat_ws(' ', 'n', oid, nspname) FROM pg_namespace WHERE oid >= 16384
    UNION ALL SELECT concat_ws(' ', 'x', oid, extname) FROM pg_extension
    UNION ALL SELECT concat_ws(' ', 's', setconfig) FROM pg_db_role_setting
) each"""
TABLES = "SELECT relname FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace"
BYTES = "SELECT sum(pg_relation_size(oid)) FROM pg_class WHERE relkind = 'r' AND oid >= 16384"
NUMBERS_ANEW = "SELECT setval(seqrelid::regclass, seqstart, false) FROM pg_sequence"
MOST_BYTES = 1_000_000  # of rows, those that were taken out included


class Template:
    """A database as it is to be had again and again: making a copy costs many times what emptying one does."""

    def __init__(self, connection: psycopg.Connection) -> None:
        self._shape = connection.execute(SHAPE).fetchone()
        self._tables = [name for (name,) in connection.execute(TABLES)]
        self._rows = {
            name: rows
            for name in self._tables
            for (rows,) in connection.execute(f'SELECT json_agg(row)::text FROM "{name}" row')  # type: ignore[call-overload]
            if rows
        }
        self.free: list[str] = []

    def is_again(self, connection: psycopg.Connection) -> bool:
        """Take out of a copy what came since; False where more was changed than rows, or very many were."""
        connection.execute(OTHERS_OUT)
        size = connection.execute(BYTES).fetchone()
        if connection.execute(SHAPE).fetchone() != self._shape or not size or size[0] > MOST_BYTES:
            return False
        connection.execute("SET LOCAL session_replication_role = replica")  # no trigger, whatever only grows
        connection.execute("; ".join(f'DELETE FROM "{name}"' for name in self._tables))  # type: ignore[call-overload]
        for name, rows in self._rows.items():
            put = f'INSERT INTO "{name}" SELECT * FROM json_populate_recordset(NULL::"{name}", %s)'
            connection.execute(put, [rows])  # type: ignore[call-overload]
        connection.execute(NUMBERS_ANEW)
        return True


class Cluster:
    """A server with databases of its own; `durable` for one that keeps its promises, to be timed."""

    def __init__(self, *, durable: bool = False) -> None:
        self._programs = find_programs()
        # Short, for the name of a socket may have about a hundred characters.
        self.folder = Path(tempfile.mkdtemp(prefix="bowlside-pg-"))
        self._durable = durable
        self._numbers = itertools.count(1)
        self._templates: dict[str, Template] = {}
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

    def take(self, template: str) -> str:
        """The same, one that was given back where there is one."""
        if template not in self._templates:
            with psycopg.connect(self.url(template)) as connection:
                self._templates[template] = Template(connection)
        free = self._templates[template].free
        return free.pop() if free else self.create(template)

    def give_back(self, name: str, template: str) -> None:
        """For the next who takes one: as it was, or gone."""
        with psycopg.connect(self.url(name)) as connection:
            is_again = self._templates[template].is_again(connection)
        if is_again:
            self._templates[template].free.append(name)
        else:
            self.drop(name)

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
