"""The tables that the page reads too: no second copy is kept, the server writes them in where it sends the page."""

from bench.kinds import RUN_KINDS, SHELF_KINDS, EntryKind, traits_of
from bench.product import all_duties, all_laws
from bench.shapes.product import Duty, Law
from bench.sources import sources


def page_tables() -> dict[str, dict[str, object]]:
    """By module of `frontend/bench`, and by the name that a table has there."""
    return {
        "kinds.js": {
            "RUN_KINDS": {kind: _kind(row) for kind, row in RUN_KINDS.items()},
            "SHELF_KINDS": {kind: _kind(row) for kind, row in SHELF_KINDS.items()},
        },
        "product.js": {"LAWS": [*map(_dated, all_laws())], "DUTIES": [*map(_dated, all_duties())]},
    }


def _kind(row: EntryKind) -> object:
    """A field that may be left out has a question mark behind its name."""
    fields = {name if needed else f"{name}?": fits for name, (fits, needed) in row.fields.items()}
    return {"fields": fields, "traits": traits_of(row)}


def _dated(row: Law | Duty) -> object:
    return {**row, "dated": sources()[row["source"]]["dated"]}
