"""What this program says of itself: one line a record, whoever logs it and whatever is in it.

Paths, names and codes come from strangers, and a log is read in a terminal. So every field is cut, and
whatever is not plain text (control characters, line ends, marks that turn the direction) is written as
an escape: nothing that was sent can begin a line of its own, clear a screen or turn one around (api/plain.py,
through which goes what the commands print, too).

Two forms, by the setting BOWLSIDE_LOG. "plain", for reading:

    2026-03-01T14:02:11.204Z WARNING request=5d0c… device=3f1a… api: Pairing: a wrong code from 192.0.2.7

and "json", the same as one JSON object a line. A traceback is folded into its line.

A flood costs little: of one message so many a minute are written, and the next one says how many were not.
"""

from __future__ import annotations

import json
import logging
import math
import re
import sys
import threading
import time
import traceback
from collections.abc import Callable
from datetime import UTC, datetime
from types import TracebackType
from typing import Any
from uuid import uuid4

from flask import Flask, Response, current_app, g, has_request_context, request

from api.plain import LONGEST_FIELD, LONGEST_MESSAGE, cut, escaped

LONGEST_TRACEBACK = 6_000
# What is escaped grows; a line longer than this is cut once more.
LONGEST_LINE = 16_000
SAME_A_MINUTE = 60
MINUTE_S = 60.0

HEADER = "X-Request-Id"
# What a proxy may call a request. Anything else is not taken over.
GIVEN_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{7,63}")
FORMS = ("plain", "json")

HANDLER = "bowlside"


# Requests


def init_app(app: Flask) -> None:
    """Each request gets an id, which its answer carries and every line about it. To be called before all else."""
    set_up(app.config["BOWLSIDE"].log)

    @app.before_request
    def name_request() -> None:
        g.request_id = _given_id() or uuid4().hex

    @app.after_request
    def tell(response: Response) -> Response:
        response.headers[HEADER] = request_id()
        return response


def request_id() -> str:
    """What this request is called in the log; empty outside of one."""
    return str(g.get("request_id", "")) if has_request_context() else ""


def _given_id() -> str | None:
    """What the proxy calls this request; of anyone else it is not believed."""
    settings = current_app.config["BOWLSIDE"]
    given = request.headers.get(HEADER, "") if settings.mode == "proxy" and settings.proxies else ""
    return given if GIVEN_ID.fullmatch(given) else None


# Records


class Lines(logging.Formatter):
    """A record as one line."""

    def __init__(self, form: str = "plain") -> None:
        super().__init__()
        self._form = form

    def format(self, record: logging.LogRecord) -> str:
        at = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")
        said = {
            "time": at.replace("+00:00", "Z"),
            "level": record.levelname,
            "request": request_id(),
            "device": str(g.get("device_id", "")) if has_request_context() else "",
            "by": record.name,
            "what": cut(_message(record), LONGEST_MESSAGE),
            "traceback": cut(_traceback(record), LONGEST_TRACEBACK),
        }
        return _as_json(said) if self._form == "json" else _as_text(said)


def _as_json(said: dict[str, str]) -> str:
    kept = {name: text for name, text in said.items() if text}
    line = json.dumps(kept).replace("\x7f", "\\u007f")
    if len(line) <= LONGEST_LINE:
        return line
    # So much that had to be escaped was nobody's honest text.
    return json.dumps({**kept, "what": kept["what"][:LONGEST_FIELD], "traceback": "[left out]"}).replace(
        "\x7f", "?"
    )


def _as_text(said: dict[str, str]) -> str:
    whose = "".join(f" {name}={said[name]}" for name in ("request", "device") if said[name])
    trace = f" | {said['traceback']}" if said["traceback"] else ""
    line = f"{said['time']} {said['level']}{whose} {said['by']}: {said['what']}{trace}"
    return cut(escaped(line), LONGEST_LINE)


class _Field:
    """An argument of a record, bounded, however it is asked to show itself."""

    def __init__(self, value: object) -> None:
        self._value = value

    def __str__(self) -> str:
        return cut(str(self._value), LONGEST_FIELD)

    def __repr__(self) -> str:
        return cut(repr(self._value), LONGEST_FIELD)


def _message(record: logging.LogRecord) -> str:
    args = record.args
    if isinstance(args, tuple) and args:
        bounded = tuple(each if isinstance(each, int | float) else _Field(each) for each in args)
        try:
            return str(record.msg) % bounded
        except (TypeError, ValueError):  # it asks for something that a field is not
            pass
    try:
        return record.getMessage()
    except (TypeError, ValueError):
        return str(record.msg)


def _traceback(record: logging.LogRecord) -> str:
    error = record.exc_info[1] if isinstance(record.exc_info, tuple) else None
    return "".join(traceback.format_exception(error)).rstrip() if error else record.exc_text or ""


class Sparing:
    """Lets so many of one message through in a minute, and says with the next one how many it did not."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._counts: dict[tuple[str, str], int] = {}
        self._until = -math.inf

    def let(self, record: logging.LogRecord) -> logging.LogRecord | None:
        """The record, with what was left out before it; None for one too many."""
        key = (record.name, str(record.msg)[:LONGEST_FIELD])
        now, missed = self._clock(), 0
        if now >= self._until:
            missed = sum(max(0, count - SAME_A_MINUTE) for count in self._counts.values())
            self._counts, self._until = {}, now + MINUTE_S
        count = self._counts[key] = self._counts.get(key, 0) + 1
        if count > SAME_A_MINUTE:
            return None
        if not missed:
            return record
        shown = logging.makeLogRecord(record.__dict__)
        shown.msg, shown.args = f"{_message(record)} ({missed} omitted)", ()
        return shown


class _ToStderr(logging.StreamHandler[Any]):
    """To standard error as it is at that moment."""

    def __init__(self) -> None:
        super().__init__(sys.stderr)
        self.name = HANDLER
        self._sparing = Sparing()

    def emit(self, record: logging.LogRecord) -> None:
        let = self._sparing.let(record)
        if let:
            self.stream = sys.stderr
            super().emit(let)


def set_up(form: str = "plain") -> None:
    """Whatever is logged in this process, by libraries too, is written by this module's rules."""
    root = logging.getLogger()
    ours = next((each for each in root.handlers if each.name == HANDLER), None)
    if ours is None:
        ours = _ToStderr()
        root.addHandler(ours)
    ours.setFormatter(Lines(form))


def log_of(name: str) -> logging.Logger:
    """The log of a part of the house that has no request: the porter, the landing page. It may say good news too."""
    if not any(each.name == HANDLER for each in logging.getLogger().handlers):
        set_up()
    log = logging.getLogger(name)
    log.setLevel(logging.INFO)
    return log


def take_over() -> None:
    """In a process that is all ours: warnings, and what nobody caught, are log lines as well."""
    logging.captureWarnings(True)
    log = log_of("bowlside")

    def uncaught(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            return
        log.critical("Nobody caught this", exc_info=(kind, error, trace))

    def uncaught_in_thread(args: threading.ExceptHookArgs) -> None:
        if args.exc_value is not None and not issubclass(args.exc_type, SystemExit):
            uncaught(args.exc_type, args.exc_value, args.exc_traceback)

    sys.excepthook = uncaught
    threading.excepthook = uncaught_in_thread


def adopt(log: logging.Logger) -> None:
    """Let a library's log that brings a handler of its own be written by this module's rules instead."""
    for handler in list(log.handlers):
        log.removeHandler(handler)
    log.propagate = True
