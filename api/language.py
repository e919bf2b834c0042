"""In which language a request is answered: the one that this browser's maker chose, else one that it asks for.

The page keeps the choice in a cookie, since the page itself is asked for before any of it runs; whoever else asks
says it in Accept-Language. The language is part of what a page is: its pieces, and with them its version, are of one.

The units are chosen beside it, in a cookie of their own; no header asks for any, and the page words its own masses.
"""

from __future__ import annotations

from flask import Flask, Response, g, request
from werkzeug.datastructures import LanguageAccept
from werkzeug.http import parse_accept_header

from bench import words

COOKIE = "language"
UNITS_COOKIE = "units"


def init_app(app: Flask) -> None:
    app.before_request(_begin)
    app.teardown_request(_end)
    app.after_request(_tell)


def asked() -> str:
    """The language of this request."""
    chosen = request.cookies.get(COOKIE, "")
    if chosen in words.languages():
        return chosen
    return best_of(request.headers.get("Accept-Language", ""))


def best_of(accepted: str) -> str:
    """Of the languages that there are, the one that an Accept-Language header likes best."""
    return parse_accept_header(accepted, LanguageAccept).best_match(words.languages()) or words.DEFAULT


def _begin() -> None:
    g.speaking = words.begin_speaking(asked())
    g.measuring = words.begin_measuring(words.units_of(request.cookies.get(UNITS_COOKIE, "")))


def _end(_error: BaseException | None) -> None:
    if token := g.pop("speaking", None):
        words.end_speaking(token)
    if measuring := g.pop("measuring", None):
        words.end_measuring(measuring)


def _tell(response: Response) -> Response:
    response.vary.update(["Accept-Language", "Cookie"])
    response.content_language.add(words.spoken())
    return response
