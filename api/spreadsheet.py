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
from io import StringIO

from flask import Response

from api.security import DATA

CSV = "text/csv"
Cell = str | int | None

_FORMULA = re.compile(r"\s*[=+\-@＝＋－＠]|[\t\r\n]")
_AFTER_A_MARK = re.compile(r"([;|\t\r\n]\s*)(?=[=+\-@＝＋－＠])")
_FIGURES = re.compile(r"[\d\s.,:/\-eE]*\d[\d\s.,:/\-eE]*")
_PLAIN_NUMBER = re.compile(r"0|[1-9][0-9]{0,14}")
# Times of this server's own making are meant to be taken for what they are.
_INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ|\d{4}-\d\d-\d\d")


def spreadsheet(name: str, columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> Response:
    """A CSV file to save. `name` is ours, never what somebody sent."""
    written = StringIO()
    out = csv.writer(written)
    out.writerow(columns)
    out.writerows([_cell(cell) for cell in row] for row in rows)
    headers = (
        *DATA,
        ("Cache-Control", "no-cache"),
        ("Content-Disposition", f'attachment; filename="{name}"'),
    )
    return Response(
        written.getvalue().encode("utf-8-sig"), 200, headers, content_type=f"{CSV}; charset=utf-8"
    )


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
