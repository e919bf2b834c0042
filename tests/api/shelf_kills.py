"""Two devices receive, use and correct lots while the server is killed under them, again and again.

    python -m tests.api.shelf_kills [KILLS [SEED]]

A device sends each entry until it is answered, and counts it as kept only then. After the last kill every
such entry must be there once, and what the tables say of lots must be what the journals say.
"""

from __future__ import annotations

import json
import random
import sys
import threading
import time
from collections.abc import Iterator
from http.client import HTTPException
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import bench
from tests.api.stock import described, gathered, received, weighed
from tests.make import make_entry, make_recipe, make_run, uuid4
from tests.servers import Server, warm_bowlside

LONGEST_LIFE_S = 0.4
AGAIN_S = 0.02
ANSWER_S = 10


class Device(threading.Thread):
    """Works through a story of its own making, with no regard to how the server is."""

    def __init__(self, name: str, url: str, run: str, seed: int, over: threading.Event) -> None:
        super().__init__(name=name, daemon=True)
        self._url, self._run, self._over = url, run, over
        self._chosen = random.Random(seed)
        self._lots: list[str] = []
        self.kept: list[tuple[str, dict[str, Any]]] = []
        self.refused: list[str] = []

    def run(self) -> None:
        count = 0
        while not self._over.is_set():
            count += 1
            path, entries = self._next(count)
            entries = [{**each, "device": self.name} for each in entries]
            while (answer := attempt(f"{self._url}api/v1{path}", {"entries": entries})) is None:
                if self._over.wait(AGAIN_S):
                    return
            results = [each["result"] for each in answer["answers"]]
            self.refused += [f"{each['detail']}" for each in answer["answers"] if "detail" in each]
            self.kept += [
                (path, each) for each, said in zip(entries, results, strict=True) if said != "refused"
            ]

    def _next(self, count: int) -> tuple[str, list[dict[str, Any]]]:
        does = self._chosen.choice(["receive", "use", "use", "correct", "write off"])
        if does == "receive" or not self._lots:
            self._lots.append(uuid4())
            return "/shelf/entries", [described(), received(self._lots[-1])]
        lot, mg = self._chosen.choice(self._lots), self._chosen.randrange(1, 50_000)
        if does == "use":
            used = [
                gathered(self._run, lot, at=count * 10, mg=mg),
                weighed(self._run, mg, at=count * 10 + 1),
            ]
            return f"/runs/{self._run}/entries", used
        if does == "correct":
            return "/shelf/entries", [make_entry("shelf", kind="corrected", body={"lot": lot, "mg": mg})]
        lost = {"lot": lot, "mg": mg, "why": "spilt"}
        return "/shelf/entries", [make_entry("shelf", kind="wrote_off", body=lost)]


def attempt(url: str, body: Any = None) -> Any:
    """The answer as JSON; None while the server is away, busy, or cut off in the middle of an answer."""
    data = None if body is None else json.dumps(body).encode()
    asked = Request(url, data, {"Content-Type": "application/json"})
    try:
        with urlopen(asked, timeout=ANSWER_S) as answer:
            return json.load(answer)
    except HTTPError as error:
        if error.code == 503:
            return None
        raise AssertionError(f"{url}: {error.code} {error.read()[:500]!r}") from None
    except (OSError, HTTPException, ValueError):
        return None


def faults_after(kills: int, seed: int) -> tuple[list[str], int]:
    """What was lost or does not agree after so many kills, and how many entries were kept."""
    chosen, over = random.Random(seed), threading.Event()
    with TemporaryDirectory() as folder:
        server = warm_bowlside(Path(folder) / "bowlside.sqlite3").start()
        try:
            run = begin(server)
            devices = [
                Device(name, server.url, run, seed + at, over) for at, name in enumerate(("one", "two"))
            ]
            for device in devices:
                device.start()
            for _ in range(kills):
                time.sleep(chosen.uniform(0, LONGEST_LIFE_S))
                server.kill()
                server.start()
            stopped = [f"device {each.name} gave up" for each in devices if not each.is_alive()]
            over.set()
            for device in devices:
                device.join()
            kept = [each for device in devices for each in device.kept]
            refused = [each for device in devices for each in device.refused]
            return [*stopped, *refused, *_faults(server.url, run, kept)], len(kept)
        finally:
            over.set()
            server.stop()


def begin(server: Server) -> str:
    """The id of a run of a new recipe."""
    recipe, run = uuid4(), uuid4()
    for path, body in (
        (f"recipes/{recipe}", make_recipe()),
        (f"runs/{run}", make_run({"id": recipe, "version": 1})),
    ):
        asked = Request(f"{server.url}api/v1/{path}", json.dumps(body).encode(), method="PUT")
        asked.add_header("Content-Type", "application/json")
        urlopen(asked, timeout=ANSWER_S).close()
    return run


def _faults(url: str, run: str, kept: list[tuple[str, dict[str, Any]]]) -> Iterator[str]:
    journals = {path: _journal(url, path) for path in ("/shelf/entries", f"/runs/{run}/entries")}
    for path, entry in kept:
        if (there := journals[path].count(entry)) != 1:
            yield f"{entry['kind']} {entry['id']} is there {there} times"
    entries = journals[f"/runs/{run}/entries"]
    sheet = attempt(f"{url}api/v1/runs/{run}")["sheet"]
    uses = bench.use_of(sheet, bench.fold(sheet, entries), entries)
    lots = bench.fold_shelf(journals["/shelf/entries"])["lots"]
    for lot in {*uses, *lots}:
        traced = attempt(f"{url}api/v1/lots/{lot}/trace")["runs"]
        said = {each["id"]: each["mg"] for each in traced}
        if said != ({run: uses[lot]["mg"]} if lot in uses else {}):
            yield f"of lot {lot} the tables say {said}"
    for lot, told in lots.items():
        left = bench.left_of(told, [uses[lot]] if lot in uses else [])
        if (said := attempt(f"{url}api/v1/lots/{lot}")["left_mg"]) != left:
            yield f"lot {lot} has {left} left, and the server says {said}"


def _journal(url: str, path: str) -> list[dict[str, Any]]:
    entries: list[dict[str, Any]] = []
    cursor, more = 0, True
    while more:
        page = attempt(f"{url}api/v1{path}?after={cursor}&limit=1000")
        entries += page["entries"]
        cursor, more = page["cursor"], page["more"]
    return entries


if __name__ == "__main__":
    given = [int(each) for each in sys.argv[1:]]
    kills, seed = (*given, *(200, 1)[len(given) :])
    found, entries = faults_after(kills, seed)
    print(f"{kills} kills, {entries} entries answered as kept, {len(found)} faults")
    sys.exit("\n".join(found) if found else 0)
