"""The plain Flask handlers that the API is measured against, served by the same web server.

Run as `python -m tests.perf.bare DATABASE FOLDER`: POST / inserts an entry with the durability that the
API has; GET /NAME sends the bytes of a file in the folder, read once.
"""

from __future__ import annotations

import json
import sqlite3
import sys
import threading
from pathlib import Path

from flask import Flask, Response, request

from api.serving import port_of, serve, take_sockets


def make_app(database: str, folder: Path) -> Flask:
    app = Flask(__name__, static_folder=None)
    bodies = {path.name: path.read_bytes() for path in folder.iterdir()}
    local = threading.local()

    def connection() -> sqlite3.Connection:
        if not hasattr(local, "connection"):
            local.connection = sqlite3.connect(database, isolation_level=None)
            for pragma in ("busy_timeout=5000", "journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
                local.connection.execute(f"PRAGMA {pragma}")
        return local.connection

    @app.post("/")
    def insert() -> Response:
        entry = request.get_json()["entries"][0]
        db = connection()
        db.execute("BEGIN IMMEDIATE")
        db.execute(
            "INSERT INTO entry (id, run_id, text) VALUES (?, ?, ?)",
            (entry["id"], entry["run"], json.dumps(entry)),
        )
        db.execute("COMMIT")
        return Response('{"kept": true}', mimetype="application/json")

    @app.get("/<name>")
    def send(name: str) -> Response:
        return Response(bodies[name], mimetype="application/json")

    return app


if __name__ == "__main__":
    sockets = take_sockets(("127.0.0.1",), 0)
    print(f"http://127.0.0.1:{port_of(sockets)}/", flush=True)
    serve(make_app(sys.argv[1], Path(sys.argv[2])), sockets)
