"""Serves the phone page: the files of `frontend/`, each with an ETag.

There is no build step: a file is slimmed (comments and indents taken out) and compressed once,
when it is first asked for, and again when it changes. The modules that the page opens with are sent
as one, and so is the rest of them (api/pieces.py); under its own path each is there as it is. Files are
asked about again each time (a 304 is small); what works with no network is the page's own service
worker's business.
"""

from __future__ import annotations

import gzip
import hashlib
import os
import re
from functools import lru_cache
from pathlib import Path

import brotli
from flask import Flask, Response, abort, request
from werkzeug.routing import PathConverter
from werkzeug.security import safe_join

from api import page_words, pressed
from api.pieces import MADE, Pieces, listed
from api.places import FRONTEND
from bench import words

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


def make_ready() -> None:
    """Join and compress all pieces, so that a first visit need not wait for it: some seconds of work the first time.

    In the language that is spoken first, then in each other one.
    """
    for tongue in (words.spoken(), *words.languages()):
        with words.speaking(tongue):
            for name in MADE:
                if sent := page_file(FRONTEND, name):
                    sent.encoded(sent.encodings[0])


class Sent:
    """What goes out: its type, the hash of it, and its bytes, compressed when they are asked for.

    The service worker tells by the hashes whether all pieces are of one version (frontend/sw.js).
    """

    def __init__(self, type_: str, content: bytes, br: bytes | None = None) -> None:
        self.type, self.tag = type_, hashlib.sha256(content).hexdigest()
        self._encoded = {"identity": content, **({"br": br} if br else {})}
        # A picture is compressed already.
        self.encodings = ["identity"] if type_ == TYPES[".png"] else ["br", "gzip", "identity"]

    def encoded(self, encoding: str) -> bytes:
        if encoding not in self._encoded:
            content = self._encoded["identity"]
            self._encoded[encoding] = (
                # One block for all of a piece: a part in a thousand smaller.
                brotli.compress(content, lgblock=24) if encoding == "br" else gzip.compress(content, mtime=0)
            )
        return self._encoded[encoding]


def page_file(folder: Path, path: str) -> Sent | None:
    """What is sent of the page in this folder under a path; None where there is nothing."""
    if path in MADE:
        return piece_as_sent(folder, path, files_as_they_are(folder), words.spoken())
    found = safe_join(str(folder), path)
    file = Path(found) if found else None
    if file is None or file.suffix not in TYPES or not file.is_file():
        return None
    return as_sent(file, file.stat().st_mtime_ns, words.spoken() if file.name in page_words.WORDED else "")


def _answer(sent: Sent) -> Response:
    encoding = request.accept_encodings.best_match(sent.encodings, "identity")
    response = Response(sent.encoded(encoding), mimetype=sent.type)
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Vary"] = "Accept-Encoding"
    if encoding != "identity":
        response.headers["Content-Encoding"] = encoding
    response.set_etag(f"{sent.tag}-{encoding}")
    response.make_conditional(request)
    return response


@lru_cache(maxsize=256)
def as_sent(file: Path, _changed_ns: int, _spoken: str) -> Sent:
    """A file slimmed, as it is sent by itself. Held until it changes: compressing well takes a while."""
    return Sent(TYPES[file.suffix], slim(file))


Files = tuple[tuple[str, int], ...]


def files_as_they_are(folder: Path) -> Files:
    """The page's files and when each was changed."""
    served = (file for file in listed(folder) if file.endswith(tuple(TYPES)))
    return tuple((file, os.stat(f"{folder}/{file}").st_mtime_ns) for file in served)


def pieces_of(folder: Path, changed: Files) -> Pieces:
    """The pieces in the language that is spoken."""
    return _pieces(folder, changed, words.spoken())


@lru_cache(maxsize=4)
def _pieces(folder: Path, changed: Files, _spoken: str) -> Pieces:
    return Pieces(folder, [file for file, _ in changed], slim)


@lru_cache(maxsize=4 * len(MADE))
def piece_as_sent(folder: Path, name: str, changed: Files, spoken: str) -> Sent:
    """A piece in the language that is spoken, held until one of the page's files changes, and kept for the next start."""
    type_ = TYPES[Path(name).suffix]
    if folder != FRONTEND:
        return Sent(type_, _pieces(folder, changed, spoken).content(name))
    if kept := pressed.kept(name, changed, spoken):
        return Sent(type_, *kept)
    made = Sent(type_, _pieces(folder, changed, spoken).content(name))
    pressed.keep(name, changed, spoken, made.encoded("br"))
    return made


def _without_remark(line: re.Match[str]) -> str:
    code = line[1]
    return line[0] if code.count("'") % 2 else code


def slim(file: Path) -> bytes:
    """A file as it is sent."""
    if file.suffix in (".js", ".css"):
        return slimmed(page_words.as_it_is(file), file.suffix).encode("utf-8")
    if file.name in page_words.BEFORE_MODULES:
        return page_words.as_it_is(file).encode("utf-8")
    return file.read_bytes()


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
