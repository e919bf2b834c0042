"""A studio as large as is asked for, made quickly: batches of the demo's, copied row by row under other ids."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from sqlalchemy import insert, select

from api import create_app, move_studio, store
from api.demo import seed
from api.settings import Settings
from api.store import reading, writing
from tests.make import uuid4, uuid7


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
    ids = {json.loads(text)["id"]: uuid7() for text in entries}
    rows = []
    for text in entries:
        text = text.replace(run.id, again)
        for old, new in ids.items():
            if old in text:
                text = text.replace(old, new)
        rows.append({"id": json.loads(text)["id"], "run_id": again, "text": text})
    connection.execute(insert(tables["entry"]), rows)
    if with_picture:
        row = {"id": uuid4(), "run_id": again, "sha256": "0" * 64, "content": bytes(range(256)) * 400}
        connection.execute(insert(tables["picture"]), [row])
