"""A paired helper that means harm, or whose page has run away: as much of everything as it can send.

Run as `python -m tests.perf.one_helper STUDIO_PORT COOKIE SECONDS`, a process of its own so that it does not
share the other device's turn. It talks to this machine alone.
"""

from __future__ import annotations

import http.client
import json
import ssl
import sys
import threading
import time
import uuid
from collections.abc import Callable
from contextlib import suppress

HERE = "127.0.0.1"
HANDS = 2  # connections for each of the three kinds
PLANS = 60
FF = b"\xff\xd8" + b"\xff" * (2 * 1024 * 1024 - 2)
JSON = "application/json"


class Helper:
    def __init__(self, port: int, cookie: str) -> None:
        self._port, self._cookie = port, cookie
        self._tls = ssl.create_default_context()
        self._tls.check_hostname, self._tls.verify_mode = False, ssl.CERT_NONE
        self._plans = iter(range(PLANS))
        run = json.loads(self.send(self.connect(), "GET", "/api/v1/runs", b"")[1])["runs"][0]
        self._run = run["id"]
        recipe = {"id": run["recipe"]["id"], "version": run["recipe"]["version"], "size": run["size"]}
        self._plan = json.dumps({"recipes": [recipe] * 3, "savings": True}).encode()
        unread = {
            "id": 7,
            "run": self._run,
            "device": "x",
            "at": "now",
            "kind": "noted",
            "body": {"a": [1.5] * 40},
        }
        self._faulty = json.dumps({"entries": [unread] * 500}).encode()
        line = {"id": "?", "ingredient": "none", "amount": "much", "of": 1.5}
        part = {"id": "?", "name": "", "lines": [line] * 200, "steps": [{"kind": "dance"}] * 200}
        self._recipe = json.dumps({"format": "bowlside-recipe/1", "components": [part] * 60}).encode()

    def connect(self) -> http.client.HTTPSConnection:
        return http.client.HTTPSConnection(HERE, self._port, timeout=20, context=self._tls)

    def send(
        self, to: http.client.HTTPSConnection, method: str, path: str, body: bytes, kind: str = JSON
    ) -> tuple[int, bytes]:
        to.request(method, path, body, {"Cookie": self._cookie, "Content-Type": kind})
        answer = to.getresponse()
        return answer.status, answer.read()

    def pictures(self, to: http.client.HTTPSConnection) -> None:
        self.send(to, "PUT", f"/api/v1/pictures/{uuid.uuid4()}", FF, "image/jpeg")

    def plans(self, to: http.client.HTTPSConnection) -> None:
        if next(self._plans, None) is not None:
            self.send(to, "POST", "/api/v1/plans", self._plan)

    def faults(self, to: http.client.HTTPSConnection) -> None:
        self.send(to, "POST", f"/api/v1/runs/{self._run}/entries", self._faulty)
        self.send(to, "POST", "/api/v1/checks", self._recipe)

    def go_on(self, what: Callable[[http.client.HTTPSConnection], None], until: float) -> None:
        while time.monotonic() < until:
            to = self.connect()
            with suppress(OSError, http.client.HTTPException):
                while time.monotonic() < until:
                    what(to)
            to.close()


def main(port: str, cookie: str, seconds: str) -> None:
    helper = Helper(int(port), cookie)
    until = time.monotonic() + float(seconds)
    kinds = (helper.pictures, helper.plans, helper.faults)
    hands = [
        threading.Thread(target=helper.go_on, args=[kind, until]) for kind in kinds for _ in range(HANDS)
    ]
    for hand in hands:
        hand.start()
    print("begun", flush=True)
    for hand in hands:
        hand.join()


if __name__ == "__main__":
    main(*sys.argv[1:])
