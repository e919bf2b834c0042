"""Every error leaves as problem details (RFC 9457), naming the field and the way out.

One shape: {"type", "title", "status", "detail", "instance", "errors": [{"field", "detail"}]}. What the bench
raises becomes a status by one table; a database that cannot keep something says so and nothing is
pretended.
"""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from http import HTTPStatus
from itertools import islice
from typing import Any, Literal, NoReturn

from flask import Flask, Response, current_app, request
from marshmallow import ValidationError
from sqlalchemy.exc import DBAPIError, OperationalError, TimeoutError
from werkzeug.exceptions import HTTPException

from api import moved
from api.logs import request_id
from bench import BenchError, EntryError, RecipeError, words

PROBLEM_TYPE = "application/problem+json"

# From most to least particular; the first that fits gives status and title.
BENCH_PROBLEMS: tuple[tuple[type[BenchError], int, str], ...] = (
    (RecipeError, 422, "recipe"),
    (EntryError, 422, "entry"),
    (BenchError, 422, "made"),
)

# An answer names so many faults; a name and what is said of it are cut at so many characters.
MAX_FAULTS = 50
MAX_NAME = 120
MAX_SAID = 500
What = Literal[
    "device",
    "recipe",
    "version",
    "ingredient",
    "lot",
    "picture",
    "plan",
    "outlet",
    "complaint",
    "want",
    "run",
]
API_DOCUMENT = "/api/v1/openapi.json"
# What is not the request's fault: (part of SQLite's message, how PostgreSQL's SQLSTATE begins
# (https://www.postgresql.org/docs/current/errcodes-appendix.html), status, what it is).
STORAGE_PROBLEMS: tuple[tuple[re.Pattern[str], tuple[str, ...], int, str], ...] = (
    (re.compile("disk is full"), ("53100",), 507, "full"),
    (re.compile("disk I/O error"), ("58",), 507, "failed"),
    (re.compile("readonly database"), ("25006",), 507, "readonly"),
    (re.compile("database is locked"), ("40", "53", "55P03"), 503, "busy"),
)


def short(text: str, most: int = MAX_NAME) -> str:
    """Text that somebody sent, or that speaks of it, as long as an answer may say it."""
    return text if len(text) <= most else f"{text[: most - 1]}…"


def first_faults(faults: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """The faults that an answer names, and whether there are more. No others are looked for."""
    found = list(islice(faults, MAX_FAULTS + 1))
    named = [(short(field), short(says, MAX_SAID)) for field, says in found[:MAX_FAULTS]]
    if len(found) > len(named):
        named.append(("", words.say("api-errors-and-more", most=MAX_FAULTS)))
    return tuple(named)


class Problem(Exception):
    """Ends a request with a problem. `errors` are (dotted field, what to do about it)."""

    def __init__(
        self,
        status: int,
        detail: str,
        *,
        title: str | None = None,
        errors: Iterable[tuple[str, str]] = (),
        headers: Mapping[str, str] | None = None,
        type: str = "about:blank",
    ) -> None:
        super().__init__(detail)
        self.type = type
        self.status = status
        self.detail = short(detail, MAX_SAID)
        self.title = title or HTTPStatus(status).phrase
        self.errors = first_faults(errors)
        self.headers = dict(headers or {})

    def response(self) -> Response:
        body = {
            "type": self.type,
            "title": self.title,
            "status": self.status,
            "detail": self.detail,
            # By it a maker names a fault, and finds it in the log.
            "instance": f"/requests/{request_id()}",
            "errors": [{"field": field, "detail": detail} for field, detail in self.errors],
        }
        response = Response(json.dumps(body), self.status, mimetype=PROBLEM_TYPE)
        response.headers.update(self.headers)
        response.headers["Cache-Control"] = "no-store"
        return response


def init_app(app: Flask) -> None:
    for kind in (Problem, BenchError, ValidationError):
        app.register_error_handler(kind, from_input)
    app.register_error_handler(DBAPIError, from_database)
    app.register_error_handler(TimeoutError, from_full_pool)
    app.register_error_handler(sqlite3.DatabaseError, from_database)
    app.register_error_handler(Exception, from_fault)


def not_found(what: What, where: str) -> NoReturn:
    raise Problem(404, words.say("api-errors-not-found", what=what, where=where))


def as_problem(error: Problem | BenchError | ValidationError) -> Problem:
    """What was wrong with the input, in the one shape."""
    if isinstance(error, Problem):
        return error
    if isinstance(error, ValidationError):
        return Problem(422, words.say("api-errors-fields-wrong"), errors=flatten(error.messages))
    status, code = next((status, code) for kind, status, code in BENCH_PROBLEMS if isinstance(error, kind))
    title = words.say(f"api-errors-title-{code}")
    return Problem(status, error.says, title=title, errors=[(error.where, error.says)])


def from_input(error: Problem | BenchError | ValidationError) -> Response:
    return as_problem(error).response()


def from_database(error: DBAPIError | sqlite3.DatabaseError) -> Response:
    cause = error.orig if isinstance(error, DBAPIError) else error
    if (place := moved.refusal_in(error)) is not None:
        title = words.say("api-errors-title-moved")
        return Problem(410, moved.says(place), title=title, type=moved.TYPE).response()
    said, state = str(cause), getattr(cause, "sqlstate", None) or ""
    for told, states, status, code in STORAGE_PROBLEMS:
        if told.search(said) or state.startswith(states):
            return _not_kept(said, status, code)
    # The rest of PostgreSQL's operational errors are of the connection: it did not open, or was cut.
    if isinstance(error, OperationalError) and not isinstance(cause, sqlite3.Error):
        return _not_kept(said, 503, "unreachable")
    return from_fault(error)


def from_full_pool(error: TimeoutError) -> Response:
    return _not_kept(str(error), 503, "busy")


def _not_kept(said: str, status: int, code: str) -> Response:
    current_app.logger.error("The database could not keep a request: %s", said)
    headers = {"Retry-After": "2"} if status == 503 else {}
    return Problem(status, words.say(f"api-errors-storage-{code}"), headers=headers).response()


def from_fault(error: Exception) -> Response:
    """A fault of ours: the log gets all of it, the asker none."""
    current_app.logger.error("Unforeseen error in %s %s", request.method, request.path, exc_info=error)
    return Problem(500, words.say("api-errors-fault", request=request_id())).response()


def from_http(error: HTTPException) -> Response:
    """What Flask, Werkzeug and webargs raise."""
    status = error.code or 500
    if error.response is not None or status < 400:
        return error.get_response()  # type: ignore[return-value]
    data: Mapping[str, Any] = getattr(error, "data", None) or {}
    fields = first_faults(flatten(data.get("messages", {})))
    detail = words.say("api-errors-fields-wrong") if fields else _way_out(status)
    headers = {key: value for key, value in error.get_headers() if key in ("Allow", "Retry-After")}
    return Problem(status, detail, errors=fields, headers=headers).response()


def _way_out(status: int) -> str:
    if status == 404:
        return words.say("api-errors-no-address", where=API_DOCUMENT)
    if status == 405:
        return words.say("api-errors-no-method", method=request.method)
    if status == 413:
        is_import = request.path == "/api/v1/import"
        return words.say(
            "api-errors-file-too-large" if is_import else "api-errors-too-large",
            most=request.max_content_length or 0,
        )
    if status >= 500:
        return words.say("api-errors-fault", request=request_id())
    return words.say("api-errors-other")


def flatten(messages: Any, path: str = "") -> Iterator[tuple[str, str]]:
    """Marshmallow's nested messages as (dotted field, detail); the outermost key, a location, is dropped."""
    if isinstance(messages, Mapping):
        for key, inner in messages.items():
            key = short(str(key))
            name = "" if not path and key in ("json", "query") else f"{path}.{key}".lstrip(".")
            yield from flatten(inner, name)
    else:
        for message in messages:
            yield path, str(message)
