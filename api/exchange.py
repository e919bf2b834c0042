"""Everything in and out as one JSON, and the published schemas of what a maker can write by hand.

Import adds and never overwrites: what is here already is "had", what contradicts it is refused by
itself with the reason. A file may hold a whole studio, one recipe or one kit.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID, uuid5

from flask import Response, current_app, request
from marshmallow import Schema, ValidationError
from sqlalchemy import Connection, select

import bench
from api import shelf
from api.clock import now_ms
from api.entries import keep_entries
from api.errors import MOST_FAULTS, MOST_SAID, Problem, first_faults, flatten, short
from api.hours import HOURS
from api.kit import KIT
from api.plan_shapes import BenchWritten
from api.recipes import current_version, find_version, keep_version
from api.runs import begin_run
from api.schemas import Imported, SettingsWritten, StudioExport
from api.store import reading, writing
from api.studio_settings import SETTINGS
from api.tables import Entry, RecipeVersion, Run, ShelfEntry
from api.wire import Blueprint, answer, read_document, unkept
from bench import BenchError, canonical

blueprint = Blueprint("exchange", __name__, description="Everything in and out, and the schemas")

BATCH = 5000
EXPORT_FORMAT = "bowlside-export/1"
# A recipe file carries no id. Its id is made from what it says, so that the same file twice is one recipe.
RECIPE_FILES = UUID("6f0f2c1e-5b8e-4d5e-9a64-0d6a3b1c7e21")


@dataclass
class Tally:
    """What became of the things in an import.

    `refused` are (dotted path, why and the way out), the first MOST_FAULTS of them; `refusals` counts all.
    """

    kept: int = 0
    had: int = 0
    refusals: int = 0
    refused: list[tuple[str, str]] = field(default_factory=list)

    def count(self, new: bool) -> None:
        if new:
            self.kept += 1
        else:
            self.had += 1

    def refuse(self, where: str, says: str) -> None:
        self.refusals += 1
        if self.refusals <= MOST_FAULTS:
            self.refused.append((short(where), short(says, MOST_SAID)))

    @contextmanager
    def judging(self, where: str) -> Iterator[None]:
        """Refuse by itself what turns out wrong inside."""
        try:
            yield
        except BenchError as error:
            self.refuse(f"{where}.{error.where}".strip("."), error.says)
        except Problem as problem:
            self.refuse(where, problem.detail)


@blueprint.get("/export")
@blueprint.response(200, StudioExport)
def get_export() -> Response:
    """The whole studio, less its pictures: recipes with all versions, kit, bench hours, settings, shelf, runs with journals."""
    return unkept(answer(export_all()))


@blueprint.post("/import")
@blueprint.doc(
    requestBody={"required": True, "content": {"application/json": {"schema": {"type": "object"}}}},
    description="A studio's export, a recipe or a kit. Adds and never overwrites.",
)
@blueprint.response(200, Imported)
def post_import() -> Response:
    """Take in a studio's export, a recipe or a kit."""
    request.max_content_length = current_app.config["BOWLSIDE"].import_limit
    tally = import_any(read_document())
    refused = [{"field": where, "detail": says} for where, says in tally.refused]
    return answer(
        {
            "kept": tally.kept,
            "had": tally.had,
            "refused": refused,
            "more_refused": tally.refusals - len(refused),
        }
    )


@blueprint.get("/schemas/recipe.json")
@blueprint.response(200, {"type": "object"})
def recipe_schema() -> Response:
    """The JSON Schema of a recipe."""
    return answer(bench.RECIPE_SCHEMA)


@blueprint.get("/schemas/kit.json")
@blueprint.response(200, {"type": "object"})
def kit_schema() -> Response:
    """The JSON Schema of a kit."""
    return answer(bench.KIT_SCHEMA)


def export_all() -> dict[str, Any]:
    """A run is exported as it was begun: its sheet is a pure function of that, and is made again."""
    with reading() as connection:
        recipes: dict[str, list[dict[str, Any]]] = {}
        for row in connection.execute(
            select(RecipeVersion.__table__).order_by(RecipeVersion.recipe_id, RecipeVersion.version)
        ):
            recipes.setdefault(row.recipe_id, []).append(
                {"version": row.version, "created_at": row.created_at, "document": json.loads(row.document)}
            )
        journals: dict[str, list[dict[str, Any]]] = {}
        for row in connection.execute(select(Entry.run_id, Entry.text).order_by(Entry.seq)):
            journals.setdefault(row.run_id, []).append(json.loads(row.text))
        runs = [
            {
                "id": row.id,
                "recipe": {"id": row.recipe_id, "version": row.recipe_version},
                "size": json.loads(row.size),
                "kit": json.loads(row.sheet)["kit"],
                "created_at": row.created_at,
                "entries": journals.get(row.id, []),
            }
            for row in connection.execute(select(Run.__table__).order_by(Run.created_at, Run.id))
        ]
        kit = KIT.now(connection)
        settings = SETTINGS.now(connection)
        hours = HOURS.now(connection)
        stock = [
            json.loads(text) for text in connection.scalars(select(ShelfEntry.text).order_by(ShelfEntry.seq))
        ]
    return {
        "format": EXPORT_FORMAT,
        "exported_at": now_ms(),
        "recipes": [{"id": recipe_id, "versions": versions} for recipe_id, versions in recipes.items()],
        "kit": kit.document if kit.version else None,
        "runs": runs,
        "shelf": stock,
        "settings": settings.document if settings.version else None,
        "hours": hours.document if hours.version else None,
    }


def import_any(document: dict[str, Any]) -> Tally:
    """Take in whichever of the three formats this is."""
    importer = IMPORTERS.get(str(document.get("format")))
    if importer is None:
        known = ", ".join(IMPORTERS)
        raise Problem(
            422, "This is not a file of Bowlside's.", errors=[("format", f"It must be one of: {known}.")]
        )
    tally = Tally()
    with writing() as connection:
        importer(connection, document, tally)
    return tally


def file_id(document: dict[str, Any]) -> str:
    """The id of a recipe that came without one: the same words give the same id."""
    return str(uuid5(RECIPE_FILES, canonical(document)))


def _import_studio(connection: Connection, document: dict[str, Any], tally: Tally) -> None:
    studio = StudioExport().load(document)
    for index, recipe in enumerate(studio["recipes"]):
        for nth, version in enumerate(recipe["versions"]):
            with tally.judging(f"recipes.{index}.versions.{nth}"):
                _import_version(connection, str(recipe["id"]), version, tally)
    if studio["kit"] is not None:
        with tally.judging("kit"):
            _import_kit(connection, studio["kit"], tally)
    if studio["settings"] is not None:
        with tally.judging("settings"):
            tally.count(SETTINGS.take_in(connection, _loaded(SettingsWritten(), studio["settings"])))
    if studio["hours"] is not None:
        with tally.judging("hours"):
            tally.count(HOURS.take_in(connection, _loaded(BenchWritten(), studio["hours"])))
    for first, some in _in_batches(studio["shelf"]):
        answers, _ = shelf.keep_entries(connection, some, now_ms(), closed=False)
        _count_entries(answers, tally, "shelf", first)
    for index, run in enumerate(studio["runs"]):
        with tally.judging(f"runs.{index}"):
            _import_run(connection, run, tally, f"runs.{index}")


def _import_recipe_file(connection: Connection, document: dict[str, Any], tally: Tally) -> None:
    version = {"version": 1, "created_at": now_ms(), "document": document}
    _import_version(connection, file_id(document), version, tally)


def _import_version(connection: Connection, recipe_id: str, asked: dict[str, Any], tally: Tally) -> None:
    measured = bench.read_recipe(asked["document"])
    here = find_version(connection, recipe_id, asked["version"])
    if here is not None and here.document != canonical(asked["document"]):
        raise Problem(
            409, "Another text of this version is here already. Add this one as a recipe of its own."
        )
    if here is None:
        now = current_version(connection, recipe_id)
        if asked["version"] != (now.version + 1 if now is not None else 1):
            raise Problem(409, "The version before this one is missing. Import the file that has it first.")
        keep_version(
            connection, recipe_id, asked["version"], asked["document"], measured, asked["created_at"]
        )
    tally.count(here is None)


def _import_kit(connection: Connection, document: dict[str, Any], tally: Tally) -> None:
    tally.count(KIT.take_in(connection, document))


def _import_run(connection: Connection, asked: dict[str, Any], tally: Tally, where: str) -> None:
    run_id = str(asked["id"])
    _, new = begin_run(connection, run_id, asked, asked["created_at"])
    tally.count(new)
    for first, some in _in_batches(asked["entries"]):
        answers, _ = keep_entries(connection, run_id, some, now_ms(), closed=False)
        _count_entries(answers, tally, f"{where}.entries", first)


def _in_batches(entries: list[Any]) -> Iterator[tuple[int, list[Any]]]:
    """A journal in parts, each with the place of its first entry: what is said of each need not be held for all."""
    for first in range(0, len(entries) or 1, BATCH):
        yield first, entries[first : first + BATCH]


def _loaded(schema: Schema, document: dict[str, Any]) -> dict[str, Any]:
    """What a schema reads, or Problem that names what it does not take."""
    try:
        loaded: dict[str, Any] = schema.load(document)
    except ValidationError as error:
        raise Problem(
            422, "; ".join(f"{name}: {says}" for name, says in first_faults(flatten(error.messages)))
        ) from None
    return loaded


def _count_entries(answers: list[dict[str, Any]], tally: Tally, where: str, first: int) -> None:
    for index, entry in enumerate(answers, first):
        if entry["result"] == "refused":
            tally.refuse(f"{where}.{index}.{entry['field']}".strip("."), entry["detail"])
        else:
            tally.count(entry["result"] == "kept")


IMPORTERS: dict[str, Callable[[Connection, dict[str, Any], Tally], None]] = {
    EXPORT_FORMAT: _import_studio,
    "bowlside-recipe/1": _import_recipe_file,
    "bowlside-kit/1": _import_kit,
}
