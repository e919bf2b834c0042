"""A studio as large as is asked for, made quickly: batches of the demo's, copied row by row under other ids."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from sqlalchemy import insert, select

import bench
from api import create_app, move_studio, store
from api.demo import seed
from api.recipes import keep_version
from api.settings import Settings
from api.store import reading, writing
from api.tables import RecipeVersion
from tests.make import make_entry, uuid4, uuid7


def large_studio(file: Path, runs: int, pictures: int = 0) -> Any:
    """The demo and so many finished batches more, the first so many with a photograph each; gives the application."""
    app = create_app(Settings(database=file))
    store.migrate(app)
    with app.app_context():
        seed()
        with reading() as connection:
            tables = {each.name: each for each in move_studio.tables_of(connection)}
            run = connection.execute(
                select(tables["run"]).where(tables["run"].c.finished_at.is_not(None)).limit(1)
            ).one()
            entries = connection.scalars(
                select(tables["entry"].c.text).where(tables["entry"].c.run_id == run.id)
            ).all()
        for first in range(0, runs, 100):
            with writing() as connection:
                for number in range(first, min(first + 100, runs)):
                    _copy(connection, tables, run, entries, with_picture=number < pictures)
    store.close(app)
    return app


def _copy(connection: Any, tables: Any, run: Any, entries: Any, *, with_picture: bool) -> None:
    again = uuid4()
    connection.execute(insert(tables["run"]), [{**run._mapping, "id": again, "batch_number": None}])
    _journal(connection, tables, run.id, again, entries)
    if with_picture:
        row = {"id": uuid4(), "run_id": again, "sha256": "0" * 64, "content": bytes(range(256)) * 400}
        connection.execute(insert(tables["picture"]), [row])


def _journal(connection: Any, tables: Any, run: str, again: str, entries: Any) -> None:
    """A run's entries once more, of another run and under other ids."""
    ids = {json.loads(text)["id"]: uuid7() for text in entries}
    rows = []
    for text in entries:
        text = text.replace(run, again)
        for old, new in ids.items():
            if old in text:
                text = text.replace(old, new)
        rows.append({"id": json.loads(text)["id"], "run_id": again, "text": text})
    connection.execute(insert(tables["entry"]), rows)


def grown_studio(file: Path, *, runs: int, recipes: int, lots: int, whole: int) -> Any:
    """The demo and so many finished batches, recipes and lots more; gives the application.

    Each batch has a number, a note, ten pieces and ten of the lots, and the newest so many their whole journals.
    """
    app = create_app(Settings(database=file))
    store.migrate(app)
    with app.app_context():
        seed()
        _more_recipes(recipes)
        _more_lots(app, lots)
        with reading() as connection:
            tables = {each.name: each for each in move_studio.tables_of(connection)}
            finished = select(tables["run"]).where(tables["run"].c.finished_at.is_not(None)).limit(1)
            run = connection.execute(finished).one()
            entries = connection.scalars(
                select(tables["entry"].c.text).where(tables["entry"].c.run_id == run.id)
            ).all()
            pieces = connection.execute(select(tables["batch_pieces"]).limit(1)).one()
            told = connection.execute(select(tables["batch_figures"]).limit(1)).one()
        for first in range(0, runs, 500):
            numbers = range(first, min(first + 500, runs))
            with writing() as connection:
                ids = _grow(connection, tables, run, (pieces, told), numbers, lots)
                for number, again in zip(numbers, ids, strict=True):
                    if number >= runs - whole:
                        _journal(connection, tables, run.id, again, entries)
    store.close(app)
    return app


def _grow(connection: Any, tables: Any, run: Any, drawn: Any, numbers: range, lots: int) -> list[str]:
    """Batches of a grown studio, each with what it used, its pieces, figures and note; gives their ids."""
    pieces, told = drawn
    ids = [uuid4() for _ in numbers]
    rows: dict[str, list[dict[str, Any]]] = {
        name: [] for name in ("run", "lot_use", "batch_pieces", "batch_figures", "run_note")
    }
    for number, again in zip(numbers, ids, strict=True):
        name, at = f"G-{number:05}", run.created_at + number
        text = f"a remark-{number:05} on how it went"
        row = {**run._mapping, "id": again, "batch_number": name, "created_at": at}
        rows["run"].append(
            {**row, "finished_at": run.finished_at + number, "search": f"{run.search} {name.lower()}"}
        )
        rows["lot_use"] += [
            {
                "run_id": again,
                "lot_id": f"lot-{(number * 7 + place) % lots}",
                "mg": 1000,
                "count": 0,
                "used_at": at,
            }
            for place in range(min(10, lots))
        ]
        piece = {**pieces._mapping, "run_id": again, "good": 10, "in_stock": 10, "left_count": 0}
        rows["batch_pieces"].append({**piece, "kept": 0, "binned": 0})
        row = {**told._mapping, "run_id": again, "number": name, "finished_at": run.finished_at + number}
        rows["batch_figures"].append({**row, "reach": 0})
        rows["run_note"].append({"run_id": again, "id": uuid7(), "at": at, "text": text, "search": text})
    for table, these in rows.items():
        connection.execute(insert(tables[table]), these)
    return ids


def _more_recipes(count: int) -> None:
    """A recipe of the demo's, under other titles."""
    with writing() as connection:
        from_demo = connection.execute(select(RecipeVersion.document).limit(1)).scalar_one()
        for number in range(count):
            written = {**json.loads(from_demo), "title": f"Bath piece {number:04}"}
            keep_version(connection, uuid4(), 1, written, bench.read_recipe(written), 1_750_000_000_000)


def _more_lots(app: Any, count: int) -> None:
    """Described and received over HTTP, an ingredient a lot."""
    client = app.test_client()
    for first in range(0, count, 200):
        told = []
        for number in range(first, min(first + 200, count)):
            key = f"grown-{number}"
            card = {"ingredient": key, "card": {"name": f"Powder {number:04}"}}
            lot = {"lot": f"lot-{number}", "ingredient": key, "number": f"L-{number:04}", "mg": 10**9}
            told.append(make_entry("shelf", kind="described", body=card))
            told.append(make_entry("shelf", kind="received", body={**lot, "received_on": "2025-03-01"}))
        answers = client.post("/api/v1/shelf/entries", json={"entries": told}).json["answers"]
        assert {each["result"] for each in answers} == {"kept"}, answers[:2]
