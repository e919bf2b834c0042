"""What may come in over HTTP, and how an answer goes out.

A body is JSON, of bounded size and depth. Text has no NUL and no half characters, numbers are
whole and small enough for JavaScript to hold exactly: what gets in can be kept, signed and read
again on a phone without changing.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from hashlib import sha256
from itertools import chain
from typing import Any, Literal, TypedDict

import flask_smorest
from flask import Request, Response, request
from marshmallow import Schema
from sqlalchemy import Connection
from webargs.flaskparser import FlaskParser
from werkzeug.exceptions import RequestEntityTooLarge

from api import generation
from api.errors import MAX_NAME, Problem, short
from api.security import DATA
from bench import JsonObject, JsonValue, canonical, words

DEEPEST = 40
HEADERS = (("Cache-Control", "no-cache"), *DATA)
LARGEST_WHOLE = 2**53 - 1
Edited = Literal["recipe", "kit", "hours", "settings", "want"]

_UNFIT_TEXT = re.compile("[\x00\ud800-\udfff]")


def read_body() -> bytes:
    """The request's body, as large as it may be, or 413.

    Of one that came in chunks and said no length, what is beyond the limit is left unread without a word.
    """
    body = request.get_data(cache=False)
    most = request.max_content_length
    if request.content_length is None and most is not None and len(body) >= most:
        raise RequestEntityTooLarge
    return body


def read_json() -> JsonValue:
    """The request's body as JSON, or a Problem (400, 413, 415) that says what to send instead."""
    if not request.is_json:
        raise Problem(415, words.say("api-errors-send-json"))
    try:
        value: JsonValue = json.loads(read_body().decode("utf-8"), parse_constant=float)
    except RecursionError:
        raise too_deep() from None
    except ValueError as error:
        raise Problem(400, _not_json(error)) from None
    refuse_too_deep(value, DEEPEST)
    return value


def _not_json(error: ValueError) -> str:
    if isinstance(error, json.JSONDecodeError):
        return words.say("api-errors-not-json-at", line=error.lineno, column=error.colno)
    return words.say("api-errors-not-json")


def read_document() -> JsonObject:
    """The request's body as a JSON object whose every value is fit to keep."""
    value = read_json()
    if not isinstance(value, dict):
        raise Problem(422, words.say("api-errors-not-an-object"))
    refuse_unfit(value)
    return value


def refuse_unfit(value: object, path: str = "") -> None:
    """Problem (422) when a value in it cannot be kept."""
    faults = unfit_values(value, path)
    for first in faults:
        raise Problem(422, words.say("api-errors-unfit"), errors=chain([first], faults))


def refuse_too_deep(value: object, most: int) -> None:
    if _depth_exceeds(value, most):
        raise too_deep()


def unfit_values(value: object, path: str = "") -> Iterator[tuple[str, str]]:
    """Each value that cannot be kept, as (dotted path, what to do about it); a path is cut where it is long."""
    if isinstance(value, str):
        if _UNFIT_TEXT.search(value):
            yield path, words.say("api-errors-unfit-text")
    elif isinstance(value, dict):
        for key, item in value.items():
            if _UNFIT_TEXT.search(key):
                yield path, words.say("api-errors-unfit-name")
            else:
                yield from unfit_values(item, _inside(path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from unfit_values(item, _inside(path, str(index)))
    elif isinstance(value, float):
        yield path, words.say("api-errors-unfit-float")
    elif isinstance(value, int) and not -LARGEST_WHOLE <= value <= LARGEST_WHOLE:
        yield path, words.say("api-errors-unfit-whole", least=f"-{LARGEST_WHOLE}", most=f"{LARGEST_WHOLE}")


def _inside(path: str, key: str) -> str:
    """The path of what is in there; one that is too long to be said stays as it is."""
    if len(path) > MAX_NAME:
        return path
    return f"{path}.{short(key)}" if path else short(key)


def tag_of(value: object) -> str:
    """An ETag that is another as soon as the value is."""
    return sha256(canonical(value).encode()).hexdigest()[:16]


def answer(value: object, status: int = 200, *, etag: str | None = None) -> Response:
    """A JSON answer; with an ETag, one that turns into 304 when the asker has it already."""
    return answer_text(json.dumps(value, ensure_ascii=False, separators=(",", ":")), status, etag=etag)


def answer_text(text: str | bytes, status: int = 200, *, etag: str | None = None) -> Response:
    """Like `answer`, for what is JSON text already."""
    response = Response(text, status, HEADERS, content_type="application/json")
    if etag is not None:
        response.set_etag(generation.tag(etag))
        if "If-None-Match" in request.headers and request.method in ("GET", "HEAD"):
            response.make_conditional(request)
    return response


def unkept(response: Response) -> Response:
    """An answer that no cache on the way or in the browser may keep: money, and the whole studio."""
    response.headers["Cache-Control"] = "no-store"
    return response


class PageAsked(TypedDict):
    """Which page of a list: `api.schemas.PageQuery`, read."""

    page: int
    page_size: int


def first_of(asked: PageAsked) -> int:
    """How many of a list stand before its page."""
    return (asked["page"] - 1) * asked["page_size"]


def paged(name: str, items: Sequence[object], total: int, asked: PageAsked) -> Response:
    """One page of a list, with how many there are in all."""
    return answer({name: items, "page": asked["page"], "pages": pages_of(total, asked), "total": total})


def pages_of(total: int, asked: PageAsked) -> int:
    """On how many pages so many stand."""
    return -(-total // asked["page_size"])


def refuse_unless_read(connection: Connection, version: int | None, what: Edited) -> None:
    """At an edit, in its transaction: refuse one that does not name by If-Match the version that is here.

    version: None when there is none, and then no header is needed.
    """
    if version is not None and request.if_none_match.star_tag:
        raise Problem(412, words.say("api-errors-here-already", what=what))
    if not request.if_match:
        if version is not None:
            raise Problem(428, words.say("api-errors-read-first", what=what))
        return
    if version is not None and request.if_match.star_tag:
        return
    # A compressed answer carries its coding in the tag ("3:br"); that says nothing about the resource.
    tags = {tag.partition(":")[0] for tag in request.if_match if tag}
    generation.in_writing(connection)
    if version is not None and generation.tag(version) in tags:
        return
    if any(tag.isdecimal() for tag in tags):
        raise Problem(412, words.say("api-errors-whole-etag"))
    raise Problem(412, words.say("api-errors-changed-since", what=what))


class Arguments(FlaskParser):
    """Lets flask-smorest read bodies through this module's one door; a query's unknown fields are named, as a body's."""

    DEFAULT_UNKNOWN_BY_LOCATION = FlaskParser.DEFAULT_UNKNOWN_BY_LOCATION | {"query": None}

    def load_json(self, req: Request, schema: Schema) -> JsonValue:
        return read_document()


class BatchArguments(Arguments):
    """For a batch whose items are judged one by one: an unfit value spoils only its own."""

    def load_json(self, req: Request, schema: Schema) -> JsonValue:
        return read_json()


def described(*decorators: Callable[[Any], Any]) -> Callable[[Any], Any]:
    """Document a view as flask-smorest's decorators do, without their work at each request.

    For the few views that phones ask all day, and that make their own Response.
    """

    def describe(view: Any) -> Any:
        documented = view
        for decorator in reversed(decorators):
            documented = decorator(documented)
        view._apidoc = documented._apidoc
        return view

    return describe


class Blueprint(flask_smorest.Blueprint):
    ARGUMENTS_PARSER: FlaskParser = Arguments()

    def register_views_in_doc(self, api: Any, *about: Any, **more: Any) -> None:
        """Leave it to the API when its description is put together (api/openapi.py)."""
        api.describe_later(partial(super().register_views_in_doc, api, *about, **more))


def _depth_exceeds(value: object, most: int) -> bool:
    level = [value]
    for _ in range(most):
        level = [
            item
            for holder in level
            if isinstance(holder, dict | list)
            for item in (holder.values() if isinstance(holder, dict) else holder)
        ]
        if not level:
            return False
    return True


def too_deep() -> Problem:
    return Problem(400, words.say("api-errors-too-deep", most=DEEPEST))
