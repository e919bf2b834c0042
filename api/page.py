"""Serves the phone page: the files of `frontend/` as they are, each with an ETag.

Files are asked about again each time (a 304 is small); what works with no network is the page's
own service worker's business.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from flask import Flask, Response, abort, request
from werkzeug.routing import PathConverter
from werkzeug.security import safe_join

from api.places import FRONTEND

# Not the machine's table of types, which differs from one machine to the next.
TYPES = {
    ".html": "text/html",
    ".css": "text/css",
    ".js": "text/javascript",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".txt": "text/plain",
}


class PagePath(PathConverter):
    """Any path but the API's, whose addresses would otherwise all seem to take GET."""

    regex = r"(?!api/)[^/].*?"


def init_app(app: Flask) -> None:
    app.url_map.converters["page"] = PagePath
    app.url_map.redirect_defaults = False  # /index.html is itself, too
    app.add_url_rule("/", "page", serve, defaults={"path": "index.html"})
    app.add_url_rule("/<page:path>", "page", serve)


def serve(path: str) -> Response:
    found = safe_join(str(FRONTEND), path)
    file = Path(found) if found else None
    if file is None or file.suffix not in TYPES or not file.is_file():
        abort(404)
    content = file.read_bytes()
    response = Response(content, mimetype=TYPES[file.suffix])
    response.headers["Cache-Control"] = "no-cache"
    response.set_etag(hashlib.sha256(content).hexdigest()[:32])
    response.make_conditional(request)
    return response
