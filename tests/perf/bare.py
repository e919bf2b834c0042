"""The plain Flask handlers that the API is measured against, served by the same web server.

Run as `python -m tests.perf.bare DATABASE FOLDER`: POST / inserts an entry with the durability that the
API has, into a SQLite file or a postgresql:// address; GET /NAME sends the bytes of a file in the folder,
read once.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import threading
from pathlib import Path
from typing import Any

import psycopg
from flask import Flask, Response, request

from api.serving import port_of, serve, take_sockets


def make_app(database: str, folder: Path) -> Flask:
    app = Flask(__name__, static_folder=None)
    bodies = {path.name: path.read_bytes() for path in folder.iterdir()}
    local = threading.local()

    shared = database.startswith("postgresql://")
    insertion = "INSERT INTO entry (id, run_id, text) VALUES (?, ?, ?)".replace("?", "%s" if shared else "?")

    def connection() -> Any:
        if not hasattr(local, "connection"):
            local.connection = psycopg.connect(database, autocommit=True) if shared else open_file(database)
        return local.connection

    @app.post("/")
    def insert() -> Response:
        entry = request.get_json()["entries"][0]
        db = connection()
        if not shared:
            db.execute("BEGIN IMMEDIATE")
        db.execute(insertion, (entry["id"], entry["run"], json.dumps(entry)))
        if not shared:
            db.execute("COMMIT")
        return Response('{"kept": true}', mimetype="application/json")

    @app.get("/<name>")
    def send(name: str) -> Response:
        return Response(bodies[name], mimetype="application/json")

    return app


def open_file(database: str) -> sqlite3.Connection:
    connection = sqlite3.connect(database, isolation_level=None)
    # With fifty devices some of SQLite's own waiters sleep for longer than our five seconds.
    for pragma in ("busy_timeout=60000", "journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        connection.execute(f"PRAGMA {pragma}")
    return connection


if __name__ == "__main__":
    sockets = take_sockets(("127.0.0.1",), 0)
    print(f"http://127.0.0.1:{port_of(sockets)}/", flush=True)
    serve(make_app(sys.argv[1], Path(sys.argv[2])), sockets)
