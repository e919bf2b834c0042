"""What a paired phone notices while strangers do their worst (tests/perf/strangers.py), by TLS on a network."""

from __future__ import annotations

import http.client
import json
import ssl
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple
from urllib.parse import urlsplit

from api import create_app, store
from api.serving import port_of, take_sockets
from api.settings import Settings
from tests.api.doorway import code_for
from tests.nursery import ROOT
from tests.perf.registry import figure
from tests.perf.strangers import ATTACKS, HERE, raise_open_files
from tests.servers import Server, bowlside

QUIET_S = 2.0
ATTACK_S = 6.0
PACE_S = 0.02
# Every so often the phone comes by a new connection, as one does that slept.
ANEW_EVERY = 10
GIVES_UP_S = 10.0


class Noticed(NamedTuple):
    """Of a paired phone under one attack."""

    ratio: float
    longest_gap_s: float
    log_bytes: int


class Phone:
    """A paired device that asks how its open runs stand, one question after the other."""

    def __init__(self, port: int, cookie: str = "") -> None:
        self._tls = ssl.create_default_context()
        self._tls.check_hostname, self._tls.verify_mode = False, ssl.CERT_NONE
        self._port, self.cookie = port, cookie
        self._connection = self._new()

    def _new(self) -> http.client.HTTPSConnection:
        return http.client.HTTPSConnection(HERE, self._port, timeout=GIVES_UP_S, context=self._tls)

    def pair(self, code: str) -> None:
        body = json.dumps({"code": code, "name": "Phone by the bowl"})
        self._connection.request("POST", "/api/v1/pair", body, {"Content-Type": "application/json"})
        answer = self._connection.getresponse()
        assert answer.status == 201, answer.read()
        self.cookie = answer.headers["Set-Cookie"].partition(";")[0]
        answer.read()

    def ask(self) -> None:
        self._connection.request("GET", "/api/v1/runs?open=true", headers={"Cookie": self.cookie})
        answer = self._connection.getresponse()
        answer.read()
        assert answer.status == 200, answer.status

    def ask_for(self, seconds: float) -> tuple[float, float]:
        """The median answer, and the longest that the phone was without one, both in s."""
        began = answered_at = time.monotonic()
        took, gaps, number = [], [0.0], 0
        while (asked_at := time.monotonic()) < began + seconds:
            number += 1
            if number % ANEW_EVERY == 0:
                self._connection.close()
            with suppress(OSError, http.client.HTTPException):
                self.ask()
                gaps.append(time.monotonic() - answered_at - PACE_S)
                answered_at = time.monotonic()
            if answered_at < asked_at:
                self._connection.close()
            took.append(time.monotonic() - asked_at)
            time.sleep(PACE_S)
        gaps.append(time.monotonic() - answered_at - PACE_S)
        return statistics.median(took), max(gaps)


@contextmanager
def studio() -> Iterator[tuple[Server, Phone, int, Path]]:
    """A studio on the network, its phone, its landing page's port and its log."""
    raise_open_files()
    with TemporaryDirectory() as folder:
        database = Path(folder) / "studio.sqlite3"
        free = take_sockets((HERE,), 0)
        landing = port_of(free)
        free[0].close()
        server = bowlside(database, "--demo", "--lan", "--landing-port", str(landing)).start()
        try:
            port = urlsplit(server.url).port
            assert port
            app = create_app(Settings(database=database, lan=True, pairing=True))
            code = code_for(app)
            store.close(app)
            phone = Phone(port)
            phone.pair(code)
            yield server, phone, landing, database.with_suffix(".log")
        finally:
            server.stop()


@cache
def under(attack: str) -> Noticed:
    with studio() as (server, phone, landing, log):
        phone.ask_for(QUIET_S / 2)
        quiet, _ = phone.ask_for(QUIET_S)
        port = urlsplit(server.url).port
        command = [
            sys.executable,
            "-m",
            "tests.perf.strangers",
            attack,
            str(port),
            str(landing),
            str(ATTACK_S),
        ]
        strangers = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE)
        try:
            assert strangers.stdout and strangers.stdout.readline() == b"begun\n"
            before = log.stat().st_size
            median, gap = phone.ask_for(ATTACK_S - 0.5)
            written = log.stat().st_size - before
        finally:
            strangers.kill()
            strangers.wait()
            strangers.stdout.close() if strangers.stdout else None
        return Noticed(median / quiet, gap, written)


for _attack, (_number, _) in ATTACKS.items():
    _what = f"a paired phone while strangers attack ({_attack}, {_number})"
    figure(f"{_what}: median answer / quiet", "<= 3")(lambda attack=_attack: under(attack).ratio)  # type: ignore[misc]
    figure(f"{_what}: longest gap", "<= 2 s")(lambda attack=_attack: under(attack).longest_gap_s)  # type: ignore[misc]


@figure("what the server logs in 6 s while strangers attack (log flood, 16)", "<= 100 kB")
def logged_kb() -> float:
    return under("log flood").log_bytes / 1000
