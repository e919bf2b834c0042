"""The web server: waitress, to this machine alone."""

from __future__ import annotations

import gc
from typing import Any

import waitress
from flask import Flask

HOST = "127.0.0.1"
THREADS = 8


def listen(app: Flask) -> tuple[Any, str]:
    """Take the port; gives the server, not yet running, and its address. OSError when it is taken."""
    settings = app.config["BOWLSIDE"]
    # What is loaded by now stays; the collector need not go through it again and again.
    gc.collect()
    gc.freeze()
    server = waitress.create_server(
        app,
        host=HOST,
        port=settings.port,
        threads=THREADS,
        ident="bowlside",
        # The application refuses what is too large, as a problem. This only stops a body that would
        # fill the disk while it is being received.
        max_request_body_size=4 * settings.import_limit,
    )
    return server, f"http://{HOST}:{server.effective_port}/"
