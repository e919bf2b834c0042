"""The search over all: recipes, batches, ingredients, lots and notes, each group by pages."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from itertools import islice
from typing import Any, NamedTuple, NotRequired

from flask import Response
from sqlalchemy import Connection, Engine, text

import bench
from api import generation, shelf
from api.answers import (
    Found,
    FoundBatch,
    FoundGroup,
    FoundIngredient,
    FoundKind,
    FoundLot,
    FoundNote,
    FoundPage,
    FoundRecipe,
)
from api.schemas import SearchQuery
from api.searching import conditions, words_of
from api.shapes_openapi import shape
from api.store import reading
from api.tables import db
from api.wire import Blueprint, PageAsked, answer, first_of
from bench import Shelf, ShelfNote

blueprint = Blueprint("search", __name__, description="The search over all")

SHELVES_HELD = 2
# The inner question is answered out of an index that holds the texts; the outer one reads the rows of a page alone.
RECIPES = """
    SELECT id, title, version, tags, archived_at FROM recipe WHERE {where}
    ORDER BY title, id LIMIT :limit OFFSET :offset
"""
BATCHES = """
    SELECT id, title, batch_number, size, finished_at, release FROM run
    WHERE id IN (SELECT id FROM run WHERE {where} ORDER BY created_at DESC, id LIMIT :limit OFFSET :offset)
    ORDER BY created_at DESC, id
"""
NOTES = """
    SELECT note.id, note.run_id, run.title, run.batch_number, note.at, note.text
    FROM run_note AS note JOIN run ON run.id = note.run_id
    WHERE (note.run_id, note.id) IN (
        SELECT run_id, id FROM run_note WHERE {where} ORDER BY at DESC, id LIMIT :limit OFFSET :offset
    )
    ORDER BY note.at DESC, note.id
"""


class SearchAsked(PageAsked):
    """`api.schemas.SearchQuery`, read."""

    q: str
    kind: NotRequired[FoundKind]


class Wanted(NamedTuple):
    """What is looked for, and how much of it: one more than a page, to know whether there is a next."""

    connection: Connection
    words: list[str]
    limit: int
    offset: int

    def rows(self, table: str, query: str) -> Sequence[Any]:
        where, named = conditions(self.connection, table, self.words)
        asked = {"limit": self.limit, "offset": self.offset, **named}
        return self.connection.execute(text(query.format(where=" AND ".join(where))), asked).all()


class ShelfText(NamedTuple):
    """A thing of the shelf as it is searched: by its names first, then by what was noted of it."""

    found: FoundIngredient | FoundLot
    names: str
    notes: list[tuple[str, str]]  # folded, and as written


@blueprint.get("/search")
@blueprint.arguments(SearchQuery(), location="query")
@blueprint.response(200, shape(FoundPage))
def find(asked: SearchAsked) -> Response:
    """Find words in recipes, batches, ingredients, lots and notes; neither case nor accents matter.

    A batch is found by title and number, a lot by its number, code, supplier, ingredient and notes.
    """
    size, groups = asked["page_size"], list[FoundGroup]()
    words = words_of(asked["q"])
    with reading() as connection:
        wanted = Wanted(connection, words, size + 1, first_of(asked))
        for kind in (asked["kind"],) if "kind" in asked else FINDERS:
            found = list(FINDERS[kind](wanted)) if words else []
            if found:
                groups.append({"kind": kind, "found": found[:size], "more": len(found) > size})
    return answer({"page": asked["page"], "groups": groups})


def _recipes(wanted: Wanted) -> Iterator[FoundRecipe]:
    for id_, title, version, tags, archived_at in wanted.rows("recipe", RECIPES):
        yield {
            "kind": "recipe",
            "id": id_,
            "title": title,
            "version": version,
            "tags": json.loads(tags),
            "archived_at": archived_at,
        }


def _batches(wanted: Wanted) -> Iterator[FoundBatch]:
    for id_, title, number, size, finished_at, release in wanted.rows("run", BATCHES):
        yield {
            "kind": "batch",
            "id": id_,
            "title": title,
            "number": number,
            "pieces": json.loads(size)["pieces"],
            "finished_at": finished_at,
            "release": release,
        }


def _notes(wanted: Wanted) -> Iterator[FoundNote]:
    for id_, run, title, number, at, said in wanted.rows("run_note", NOTES):
        yield {
            "kind": "note",
            "id": id_,
            "run": run,
            "title": title,
            "number": number,
            "at": at,
            "text": said,
        }


def _ingredients(wanted: Wanted) -> Iterator[Found]:
    return _on_shelf(wanted, "ingredient")


def _lots(wanted: Wanted) -> Iterator[Found]:
    return _on_shelf(wanted, "lot")


def _on_shelf(wanted: Wanted, kind: FoundKind) -> Iterator[Found]:
    there = _held_texts(db.engine, generation.now(), shelf.reach())
    found = (each for text in there if text.found["kind"] == kind for each in _matching(text, wanted.words))
    return islice(found, wanted.offset, wanted.offset + wanted.limit)


def _matching(there: ShelfText, words: list[str]) -> Iterator[Found]:
    if all(word in there.names for word in words):
        yield there.found
        return
    for folded, written in there.notes:
        if all(word in folded for word in words):
            found = there.found.copy()
            found["note"] = written
            yield found
            return


@lru_cache(maxsize=SHELVES_HELD)
def _held_texts(_database: Engine, _generation: str, _reach: int) -> list[ShelfText]:
    """What of the shelf is searched, by name: it follows from the journal, so it is held until that reaches further."""
    return sorted(_texts(shelf.current_stock()), key=lambda each: (each.names, each.found["id"]))


def _texts(there: Shelf) -> Iterator[ShelfText]:
    for key, each in there["ingredients"].items():
        title = bench.called(there, key)
        inci = each["card"].get("inci", "") if each["card"] else ""
        names = bench.folded(f"{title} {inci}")
        yield ShelfText(
            {"kind": "ingredient", "id": key, "title": title, "note": None}, names, _notes_of(each["notes"])
        )
    for key, lot in there["lots"].items():
        found: FoundLot = {
            "kind": "lot",
            "id": key,
            "title": bench.called(there, lot["ingredient"]),
            "number": lot["number"],
            "ingredient": lot["ingredient"],
            "supplier": lot["supplier"],
            "note": None,
        }
        names = " ".join([found["number"], found["title"], lot["supplier"] or "", lot["code"] or ""])
        yield ShelfText(found, bench.folded(names), _notes_of(lot["notes"]))


def _notes_of(notes: list[ShelfNote]) -> list[tuple[str, str]]:
    return [(bench.folded(note["text"]), note["text"]) for note in notes]


# The groups, in the order in which they are told.
FINDERS: dict[FoundKind, Callable[[Wanted], Iterator[Found]]] = {
    "batch": _batches,
    "recipe": _recipes,
    "ingredient": _ingredients,
    "lot": _lots,
    "note": _notes,
}
