"""Serves the phone page: the files of `frontend/`, each with an ETag.

There is no build step: a file is slimmed (comments and indents taken out) and compressed once,
when it is first asked for, and again when it changes. Files are asked about again each time (a 304
is small); what works with no network is the page's own service worker's business, which is sent
what the page does not open with in one piece, and told the page's version and files (api/pack.py).
"""

from __future__ import annotations

import gzip
import hashlib
import re
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import brotli
from flask import Flask, Response, abort, request
from werkzeug.routing import PathConverter
from werkzeug.security import safe_join

from api.pack import PACK, WORKER, hash_of, listed, opened_with, packed, worker_of
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


# A comment on lines of its own, and a type within code.
COMMENT = re.compile(r"^[ \t]*/\*[^*]*\*+(?:[^/*][^*]*\*+)*/[ \t]*\n", re.MULTILINE)
TYPE = re.compile(r"/\*\* @type [^\n]*?\*/ ?")
# A comment behind code. It has no quotes in it that could end a string, so it stands in none.
REMARK = re.compile(r"^(.*[;{}\[\](),:?>]) // [^\"`\n]*$", re.MULTILINE)


class PagePath(PathConverter):
    """Any path but the API's, whose addresses would otherwise all seem to take GET."""

    regex = r"(?!api/)[^/].*?"


def init_app(app: Flask) -> None:
    app.url_map.converters["page"] = PagePath
    app.url_map.redirect_defaults = False  # /index.html is itself, too
    app.add_url_rule("/", "page", serve, defaults={"path": "index.html"})
    app.add_url_rule("/<page:path>", "page", serve)


def serve(path: str) -> Response:
    sent = page_file(FRONTEND, path)
    return _answer(sent) if sent else abort(404)


class Sent(NamedTuple):
    """A file as it goes out: its type, the hash of it as it lies here, and its bytes by content encoding.

    The service worker tells by the hashes whether all files are of one version (frontend/sw.js).
    """

    type: str
    tag: str
    encoded: dict[str, bytes]


def page_file(folder: Path, path: str) -> Sent | None:
    """What is sent of the page in this folder under a path; None where there is nothing."""
    if path == PACK:
        return rest_as_sent(folder, files_as_they_are(folder))
    if path == WORKER:
        return worker_as_sent(folder, files_as_they_are(folder), (folder / WORKER).stat().st_mtime_ns)
    found = safe_join(str(folder), path)
    file = Path(found) if found else None
    if file is None or file.suffix not in TYPES or not file.is_file():
        return None
    return as_sent(file, file.stat().st_mtime_ns)


def _answer(sent: Sent) -> Response:
    encoding = request.accept_encodings.best_match(list(sent.encoded), "identity")
    response = Response(sent.encoded[encoding], mimetype=sent.type)
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Vary"] = "Accept-Encoding"
    if encoding != "identity":
        response.headers["Content-Encoding"] = encoding
    response.set_etag(f"{sent.tag}-{encoding}")
    response.make_conditional(request)
    return response


def _encoded(content: bytes) -> dict[str, bytes]:
    return {"br": brotli.compress(content), "gzip": gzip.compress(content, mtime=0), "identity": content}


@lru_cache(maxsize=256)
def as_sent(file: Path, _changed_ns: int) -> Sent:
    """A file slimmed and compressed. Held until the file changes: compressing well takes a while."""
    content = slim(file)
    tag = hashlib.sha256(file.read_bytes()).hexdigest()
    if file.suffix == ".png":  # compressed already
        return Sent(TYPES[".png"], tag, {"identity": content})
    return Sent(TYPES[file.suffix], tag, _encoded(content))


def files_as_they_are(folder: Path) -> tuple[tuple[str, int], ...]:
    """The page's files and when each was changed."""
    return tuple((file, (folder / file).stat().st_mtime_ns) for file in listed(folder))


@lru_cache(maxsize=1)
def rest_as_sent(folder: Path, changed: tuple[tuple[str, int], ...]) -> Sent:
    """All that the page does not open with, in one piece. Held until one of the page's files changes."""
    first = opened_with(folder)
    rest = [file for file, _ in changed if file not in first]
    content = packed(folder, rest, lambda file: TYPES[Path(file).suffix], slim)
    return Sent("application/octet-stream", hash_of(folder, rest), _encoded(content))


@lru_cache(maxsize=1)
def worker_as_sent(folder: Path, _changed: tuple[tuple[str, int], ...], _worker_changed_ns: int) -> Sent:
    """The worker, which names all files that it keeps. Held until one of the page's files changes."""
    content = slimmed(worker_of(folder), ".js").encode("utf-8")
    return Sent(TYPES[".js"], hashlib.sha256(content).hexdigest(), _encoded(content))


def _without_remark(line: re.Match[str]) -> str:
    code = line[1]
    return line[0] if code.count("'") % 2 else code


def slim(file: Path) -> bytes:
    """A file as it is sent."""
    content = file.read_bytes()
    if file.suffix not in (".js", ".css"):
        return content
    return slimmed(content.decode("utf-8"), file.suffix).encode("utf-8")


def slimmed(text: str, suffix: str) -> str:
    """A module or style sheet without what only its readers here need: comments, indents.

    Line by line on purpose. Cleverer minifiers were tried, and two of them changed what a module
    does. The page's own rule makes this one right: no template literal spans lines.
    """
    text = COMMENT.sub("", text)
    if suffix == ".js":
        text = TYPE.sub("", text)
        text = re.sub(r"^[ \t]*//.*\n", "", text, flags=re.MULTILINE)
        text = REMARK.sub(_without_remark, text)
    text = re.sub(r"^[ \t]+|^\n", "", text, flags=re.MULTILINE)
    # A style sheet's lines are no more than its blocks and declarations; no string goes on in the next.
    return re.sub(r"(?<=[{};,])\n| (?={\n)", "", text) if suffix == ".css" else text
