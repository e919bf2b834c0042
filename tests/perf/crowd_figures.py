"""A studio with many hands: fifty devices on real servers, on both databases, and what a batch takes.

Servers and databases are processes of their own and wait for the disk as in use. The devices are threads
here that send requests made beforehand, so that little of the machine goes into them.
"""

from __future__ import annotations

import asyncio
import json
import statistics
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit

from sqlalchemy import text

from api import create_app, store
from api.settings import Settings
from api.store import reading
from tests.api.studio import Studio
from tests.make import make_entry, make_recipe, make_run, uuid4
from tests.perf.http_figures import Client
from tests.perf.registry import figure
from tests.postgres import Cluster
from tests.servers import Server, bowlside, bowlside_shared

DEVICES = 50
RUNS = 10
SENT_EACH = 20
ROUNDS = 5
TOUCHES = 300
PACE_S = 1.0
BATCHES = 30
LINES = 200
NEWS = 20
ENTRIES_A_BATCH = 150


@figure("entries/s from 50 devices on SQLite / bare Flask insert on SQLite", ">= 0.5")
def crowd_on_sqlite() -> float:
    with on_sqlite() as studio:
        return crowd_ratio(studio)


@figure("entries/s from 50 devices on PostgreSQL / bare Flask insert on PostgreSQL", ">= 0.5")
def crowd_on_postgresql() -> float:
    with on_postgresql() as studio:
        return crowd_ratio(studio)


@figure("p99 of a touch's sync while 50 others touch each second, SQLite / alone", "<= 10")
def touch_in_a_crowd_on_sqlite() -> float:
    with on_sqlite() as studio:
        return touch_ratio(studio)


@figure("p99 of a touch's sync while 50 others touch each second, PostgreSQL / alone", "<= 10")
def touch_in_a_crowd_on_postgresql() -> float:
    with on_postgresql() as studio:
        return touch_ratio(studio)


@figure("news of an entry to 200 lines, p95", "<= 0.3 s")
def news_to_lines_s() -> float:
    with on_sqlite() as (ours, _bare, runs):
        return asyncio.run(p95_of_news(ours, runs[0]))


@figure("kill -9 and started again, until the first answer of a run", "<= 5 s")
def restart_s() -> float:
    with on_sqlite() as (ours, _bare, runs):
        took = []
        for _ in range(5):
            ours.kill()
            began = time.perf_counter()
            ours.start()
            Client(ours.url).ask("GET", f"/api/v1/runs/{runs[0]}")
            took.append(time.perf_counter() - began)
        return statistics.median(took)


@figure("what the SQLite file grows by a batch / bytes of its sheet and entries", "<= 2")
def growth_on_sqlite() -> float:
    with TemporaryDirectory() as folder:
        size = "SELECT page_count * page_size FROM pragma_page_count, pragma_page_size"
        return growth_ratio(Settings(database=Path(folder) / "studio.sqlite3"), size)


@figure("what the PostgreSQL database grows by a batch / bytes of its sheet and entries", "<= 2")
def growth_on_postgresql() -> float:
    cluster = Cluster()
    try:
        url = cluster.url(cluster.create())
        return growth_ratio(Settings(database_url=url), "SELECT pg_database_size(current_database())")
    finally:
        cluster.remove()


Servers = tuple[Server, Server, list[str]]


@contextmanager
def on_sqlite() -> Iterator[Servers]:
    with TemporaryDirectory() as folder:
        file = Path(folder) / "studio.sqlite3"
        with serving(bowlside(file), str(file), Path(folder)) as servers:
            yield servers


@contextmanager
def on_postgresql() -> Iterator[Servers]:
    cluster = Cluster(durable=True)
    try:
        with TemporaryDirectory() as folder:
            url = cluster.url(cluster.create())
            with serving(bowlside_shared(url, Path(folder)), url, Path(folder)) as servers:
                yield servers
    finally:
        cluster.remove()


@contextmanager
def serving(ours: Server, database: str, folder: Path) -> Iterator[Servers]:
    """Ours and the bare one, on one database, and the runs on it."""
    with ExitStack() as stack:
        stack.callback(ours.stop)
        client = Client(ours.start().url)
        recipe, runs = uuid4(), [uuid4() for _ in range(RUNS)]
        client.ask("PUT", f"/api/v1/recipes/{recipe}", make_recipe(lines=40))
        for run in runs:
            client.ask("PUT", f"/api/v1/runs/{run}", make_run({"id": recipe, "version": 1}))
        (folder / "bodies").mkdir()
        bare = Server(["-m", "tests.perf.bare", database, str(folder / "bodies")], folder / "bare.log")
        stack.callback(bare.stop)
        yield ours, bare.start(), runs


def crowd_ratio(servers: Servers) -> float:
    """Our rate over the bare one, the median of rounds taken in turn; the first warms both up."""
    ours, bare, runs = servers
    rounds = [
        crowd_seconds(bare, runs, lambda run: "/")
        / crowd_seconds(ours, runs, lambda run: f"/api/v1/runs/{run}/entries")
        for _ in range(ROUNDS + 1)
    ]
    return statistics.median(rounds[1:])


def crowd_seconds(server: Server, runs: list[str], path: Callable[[str], str]) -> float:
    """How long all devices together take to send what each has, one entry a request, as fast as it goes."""
    at_once = threading.Barrier(DEVICES + 1)

    def device(number: int) -> None:
        run = runs[number % RUNS]
        client = Client(server.url)
        bodies = [{"entries": [make_entry(run, device=f"phone-{number}")]} for _ in range(SENT_EACH)]
        at_once.wait()
        for body in bodies:
            client.ask("POST", path(run), body)

    with ThreadPoolExecutor(DEVICES) as devices:
        sending = [devices.submit(device, number) for number in range(DEVICES)]
        at_once.wait()
        began = time.perf_counter()
        for each in sending:
            each.result()
        return time.perf_counter() - began


def touch_ratio(servers: Servers) -> float:
    """The slowest hundredth of one device's touches among others, over the same with nobody else."""
    ours, _, runs = servers
    touch_p99(ours, runs[0])
    alone = touch_p99(ours, runs[0])
    home = threading.Event()

    def other(number: int) -> None:
        client, run = Client(ours.url), runs[number % RUNS]
        home.wait(PACE_S * number / DEVICES)  # they do not touch in step
        while not home.wait(PACE_S):
            client.ask("POST", f"/api/v1/runs/{run}/entries", {"entries": [make_entry(run)]})

    with ThreadPoolExecutor(DEVICES) as devices:
        others = [devices.submit(other, number) for number in range(DEVICES)]
        try:
            time.sleep(2 * PACE_S)  # until all of them are at work
            among_others = touch_p99(ours, runs[0])
        finally:
            home.set()
        for each in others:
            each.result()
    return among_others / alone


async def p95_of_news(server: Server, run: str) -> float:
    """How long after it was sent each line hears of an entry."""
    at, client = urlsplit(server.url), Client(server.url)
    sent_at, heard = [0.0], []
    all_listen = asyncio.Semaphore(0)

    async def listen() -> None:
        reader, writer = await asyncio.open_connection(at.hostname, at.port)
        writer.write(b"GET /api/v1/live HTTP/1.1\r\nHost: localhost\r\n\r\n")
        await reader.readuntil(b"data: ")
        all_listen.release()
        while True:
            await reader.readuntil(b"data: ")
            heard.append(time.monotonic() - sent_at[0])

    lines = [asyncio.create_task(listen()) for _ in range(LINES)]
    for _ in lines:
        await all_listen.acquire()
    for number in range(NEWS):
        sent_at[0] = time.monotonic()
        body = {"entries": [make_entry(run)]}
        await asyncio.to_thread(client.ask, "POST", f"/api/v1/runs/{run}/entries", body)
        while len(heard) < LINES * (number + 1):
            await asyncio.sleep(0.01)
    for line in lines:
        line.cancel()
    return sorted(heard)[int(len(heard) * 0.95)]


def touch_p99(server: Server, run: str) -> float:
    client, took = Client(server.url), []
    for _ in range(TOUCHES):
        body = {"entries": [make_entry(run)]}
        began = time.perf_counter()
        client.ask("POST", f"/api/v1/runs/{run}/entries", body)
        took.append(time.perf_counter() - began)
    return sorted(took)[int(TOUCHES * 0.99) - 1]


def growth_ratio(settings: Settings, size: str) -> float:
    """Growth over many batches, each of a demo-sized sheet and a journal that came one by one."""
    app = create_app(settings)
    store.migrate(app)
    studio = Studio(app.test_client())
    recipe = studio.with_recipe(lines=40)

    def measure() -> int:
        with app.app_context(), reading() as connection:
            return int(connection.scalar(text(size)) or 0)

    def batch() -> int:
        run = uuid4()
        studio.put_run(run, make_run(recipe))
        entries: list[dict[str, Any]] = [make_entry(run) for _ in range(ENTRIES_A_BATCH)]
        for entry in entries:
            studio.post(run, entry)
        return len(studio.get(f"/runs/{run}").data) + sum(len(json.dumps(each)) for each in entries)

    batch()
    before = measure()
    said = sum(batch() for _ in range(BATCHES))
    grown = measure() - before
    store.close(app)
    return grown / said
