"""What the shelf and the record cost: the record beside its bytes, growth, kills."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

import bench
from api import create_app, store
from api.demo import seed
from api.settings import Settings
from tests.api.later import changed_by
from tests.api.shelf_kills import faults_after
from tests.api.studio import Studio
from tests.bench.pieces_history import history
from tests.make import make_entry, make_run, uuid4
from tests.perf.http_figures import GETS, Client, ratio, servers
from tests.perf.registry import figure

ROUNDS = 9
KILLS = 200
GROWTH_BATCHES = 40
HISTORIES = 10_000


@figure("record of a run with 500 entries / bare Flask handler sending the same bytes, time", "<= 1.5")
def get_record() -> float:
    with servers() as (ours, bare, run):

        def get(client: Client, path: str) -> Callable[[], None]:
            return lambda: client.ask("GET", path) and None

        return 1 / ratio(get(ours, f"/api/v1/runs/{run}/record"), get(bare, "/record.json"), GETS)


@figure("signed records: figures changed by 10,000 later entries of every kind, instant and device", "<= 0")
def later_entries() -> float:
    with TemporaryDirectory() as folder:
        app = create_app(Settings(database=Path(folder) / "bowlside.sqlite3", pairing=True))
        store.migrate(app)
        try:
            counts = changed_by(app, Random("later"), 10_000)
        finally:
            store.close(app)
    assert counts["kept"] > 1_000 and counts["refused"] > 1_000, counts
    return float(counts["figures"])


@figure("database growth for each finished batch of the demo, less its photographs", "<= 150 KiB")
def growth_of_a_batch() -> float:
    with studio() as (app, client, file):
        with app.app_context():
            seed()
        run = client.get("/runs?open=false").json["runs"][0]
        entries = client.get(f"/runs/{run['id']}/entries?limit=1000").json["entries"]

        def size() -> int:
            with sqlite3.connect(file) as database:
                database.execute("PRAGMA wal_checkpoint(TRUNCATE)")
            return file.stat().st_size

        before = size()
        for _ in range(GROWTH_BATCHES):
            again = uuid4()
            client.put_run(again, make_run(run["recipe"], pieces=run["size"]["pieces"]))
            copied = [
                make_entry(again, **{key: each[key] for key in ("at", "kind", "body")}) for each in entries
            ]
            answers = client.post(again, *copied).json["answers"]
            assert {each["result"] for each in answers} == {"kept"}
        return (size() - before) / GROWTH_BATCHES / 1024


@figure("entries lost over 200 kill -9 while two devices receive, use and correct lots", "<= 0")
def lost_to_kills() -> float:
    faults, _ = faults_after(KILLS, seed=1)
    return len(faults)


@contextmanager
def studio() -> Iterator[tuple[Any, Studio, Path]]:
    with TemporaryDirectory() as folder:
        file = Path(folder) / "bowlside.sqlite3"
        app = create_app(Settings(database=file))
        store.migrate(app)
        try:
            yield app, Studio(app.test_client()), file
        finally:
            store.close(app)


@figure("conservation laws of finished pieces broken over 10,000 random histories", "<= 0")
def pieces_lost_or_counted_twice() -> float:
    broken = 0
    for number in range(HISTORIES):
        came, moved = history(Random(number))
        told = bench.fold_pieces(came)
        for run, was in moved.items():
            now = bench.stand({"good": 60, "kept": 1}, told.get(run) or bench.nothing_told())
            is_whole = now["made"] == now["in_stock"] + now["left"] + now["kept"] + now["binned"] == 60
            broken += not is_whole or (now["in_stock"], now["binned"]) != (59 + was["stock"], was["bin"])
    return broken
