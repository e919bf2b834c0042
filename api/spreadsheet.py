"""Tables that a spreadsheet opens: CSV (RFC 4180) in UTF-8, with a mark at its start by which one knows that.

A text that a spreadsheet would take for a formula, and run, or for a number or a date, and change, gets
an apostrophe before it (common practice against the first). So does what follows a mark inside a text at which
some spreadsheet parts its cells: where the decimal point is a comma, a semicolon is such a mark.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from io import TextIOWrapper
from tempfile import SpooledTemporaryFile
from typing import IO

from flask import Response, request
from werkzeug.wsgi import wrap_file

from api.security import DATA

CSV = "text/csv"
IN_MEMORY = 2**20
Cell = str | int | None

_FORMULA = re.compile(r"\s*[=+\-@＝＋－＠]|[\t\r\n]")
_AFTER_A_MARK = re.compile(r"([;|\t\r\n]\s*)(?=[=+\-@＝＋－＠])")
_FIGURES = re.compile(r"[\d\s.,:/\-eE]*\d[\d\s.,:/\-eE]*")
_PLAIN_NUMBER = re.compile(r"0|[1-9][0-9]{0,14}")
# Times of this server's own making are meant to be taken for what they are.
_INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ|\d{4}-\d\d-\d\d")


def spreadsheet(name: str, columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Response:
    """A CSV file to save. `name` is ours, never what somebody sent."""
    file = SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115
    written = TextIOWrapper(file, "utf-8-sig", newline="", write_through=True)
    out = csv.writer(written)
    out.writerow(columns)
    out.writerows([_cell(cell) for cell in row] for row in rows)
    written.detach()
    return to_save(name, file, f"{CSV}; charset=utf-8")


def to_save(name: str, file: IO[bytes], content_type: str) -> Response:
    """A file that was written first and is closed once it is sent: whoever reads slowly holds no view of the database."""
    headers = (
        *DATA,
        ("Cache-Control", "no-cache"),
        ("Content-Disposition", f'attachment; filename="{name}"'),
    )
    size = file.tell()
    file.seek(0)
    response = Response(wrap_file(request.environ, file), 200, headers, content_type=content_type)
    response.content_length = size
    response.call_on_close(file.close)
    return response


def instant(ms: int | None) -> str | None:
    """An instant to the second, in UTC; None where nobody could have meant it."""
    try:
        return None if ms is None else datetime.fromtimestamp(ms // 1000, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    except (ValueError, OverflowError):
        return None


def _cell(cell: Cell) -> Cell:
    if not isinstance(cell, str) or _INSTANT.fullmatch(cell):
        return cell
    misread = _FIGURES.fullmatch(cell) and not _PLAIN_NUMBER.fullmatch(cell)
    guarded = _AFTER_A_MARK.sub(r"\1'", cell)
    return f"'{guarded}" if misread or _FORMULA.match(cell) else guarded
