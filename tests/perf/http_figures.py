"""Requests a second over real HTTP, as ratios to bare Flask handlers on the same web server."""

from __future__ import annotations

import http.client
import json
import statistics
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.parse import urlsplit

from tests.make import make_entry, make_run, uuid4
from tests.perf.registry import figure
from tests.servers import Server, bowlside

ROUNDS = 15
POSTS = 100
GETS = 100
RUN_ENTRIES = 500


class Client:
    """One keep-alive connection."""

    def __init__(self, url: str) -> None:
        self._connection = http.client.HTTPConnection(urlsplit(url).netloc)

    def ask(self, method: str, path: str, body: object = None) -> bytes:
        text = None if body is None else json.dumps(body)
        self._connection.request(method, path, text, {"Content-Type": "application/json"})
        response = self._connection.getresponse()
        answer = response.read()
        assert response.status < 300, answer
        return answer


@figure("POST of one entry / bare Flask insert, requests/s", ">= 0.6")
def post_one_entry() -> float:
    with servers() as (ours, bare, run):

        def post(client: Client, path: str) -> Callable[[], None]:
            return lambda: client.ask("POST", path, {"entries": [make_entry(run)]}) and None

        return ratio(post(ours, f"/api/v1/runs/{run}/entries"), post(bare, "/"), POSTS)


@figure("GET of a run with 500 entries / bare Flask handler sending the same bytes, requests/s", ">= 0.7")
def get_run() -> float:
    """The run with its sheet and then its journal, as a phone reads them."""
    with servers() as (ours, bare, run):

        def get_both(client: Client, paths: tuple[str, str]) -> Callable[[], None]:
            return lambda: [client.ask("GET", path) for path in paths] and None

        mine = get_both(ours, (f"/api/v1/runs/{run}", f"/api/v1/runs/{run}/entries?limit={RUN_ENTRIES}"))
        return ratio(mine, get_both(bare, ("/run.json", "/entries.json")), GETS)


def ratio(ours: Callable[[], None], theirs: Callable[[], None], times: int) -> float:
    """Our rate over theirs: the median of rounds taken in turn, so that a busy moment hits both."""
    rounds = []
    for _ in range(ROUNDS + 1):
        rounds.append(seconds(theirs, times) / seconds(ours, times))
    return statistics.median(rounds[1:])  # the first warms both up


def seconds(act: Callable[[], None], times: int) -> float:
    began = time.perf_counter()
    for _ in range(times):
        act()
    return time.perf_counter() - began


@contextmanager
def servers() -> Iterator[tuple[Client, Client, str]]:
    """Ours with a run of 500 entries, and the bare one beside it on a copy of the same database."""
    with TemporaryDirectory() as folder:
        database, bodies = Path(folder) / "ours.sqlite3", Path(folder) / "bodies"
        bodies.mkdir()
        real = bowlside(database, "--demo").start()
        ours = Client(real.url)
        recipe = json.loads(ours.ask("GET", "/api/v1/recipes"))["recipes"][0]
        run = uuid4()
        ours.ask("PUT", f"/api/v1/runs/{run}", make_run(recipe))
        ours.ask(
            "POST", f"/api/v1/runs/{run}/entries", {"entries": [make_entry(run) for _ in range(RUN_ENTRIES)]}
        )
        (bodies / "run.json").write_bytes(ours.ask("GET", f"/api/v1/runs/{run}"))
        (bodies / "entries.json").write_bytes(
            ours.ask("GET", f"/api/v1/runs/{run}/entries?limit={RUN_ENTRIES}")
        )
        real.stop()
        copy = Path(folder) / "bare.sqlite3"
        copy.write_bytes(database.read_bytes())
        bare = Server(["-m", "tests.perf.bare", str(copy), str(bodies)], Path(folder) / "bare.log").start()
        real.start()
        try:
            yield Client(real.url), Client(bare.url), run
        finally:
            real.stop()
            bare.stop()
