"""Everything in and out as one JSON, and the published schemas of what a maker can write by hand.

Import adds and never overwrites: what is here already is "had", what contradicts it is refused by
itself with the reason. A file may hold a whole studio, one recipe or one kit.
"""

from __future__ import annotations

import io
import json
import sqlite3
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from tempfile import SpooledTemporaryFile
from typing import IO, Any, TypeAlias, TypedDict
from uuid import UUID, uuid5

from flask import Response, current_app, request
from marshmallow import Schema, ValidationError
from sqlalchemy import Connection, select
from sqlalchemy.exc import DBAPIError
from werkzeug.wsgi import wrap_file

import bench
from api import audit, duties, filing, moved, outlets, papers, shelf, wants
from api.answers import EntryAnswer, Imported
from api.clock import now_ms
from api.duties import DutyGiven
from api.entries import keep_entries
from api.errors import MAX_FAULTS, MAX_SAID, Problem, first_faults, flatten, not_found, short
from api.filing import FilingGiven
from api.hours import HOURS
from api.kit import KIT
from api.outlets import OutletGiven
from api.papers import PaperFile
from api.piecewise import NotAnObject, NotJson, pieces
from api.plan_shapes import MakersWritten
from api.recipes import current_version, find_version, keep_version
from api.rules import OfARun
from api.runs import RunBegun, begin_run
from api.schemas import (
    SettingsWritten,
    StudioDuty,
    StudioExport,
    StudioOutlet,
    StudioPaper,
    StudioRecipe,
    StudioRun,
    StudioWant,
)
from api.shapes_openapi import shape
from api.store import execute, reading, writing
from api.studio_settings import SETTINGS
from api.tables import Recipe, RecipeVersion, Run
from api.wants import WantKept
from api.wire import DEEPEST, Blueprint, answer, answer_text, refuse_too_deep, refuse_unfit, too_deep, unkept
from bench import BenchError, FrozenSeal, JsonObject, JsonValue, canonical, words

blueprint = Blueprint("exchange", __name__, description="Everything in and out, and the schemas")

BATCH = 500
IN_MEMORY = 4 * 1024 * 1024
PART = 256 * 1024
# So long an import writes, and so long others may: longer than SQLite's writers sleep between two tries.
TURN_SECONDS = 0.4
REST_SECONDS = 0.11
LISTS = frozenset({"recipes", "runs", "shelf", "papers", "duties", "outlets", "wants"})
A_RECIPE, A_RUN, A_DUTY, AN_OUTLET, A_WANT, A_PAPER = (
    StudioRecipe(),
    StudioRun(),
    StudioDuty(),
    StudioOutlet(),
    StudioWant(),
    StudioPaper(),
)
AS_BEGUN = (
    "SELECT recipe_id, recipe_version, size, created_at, made_at, json_extract(sheet, '$.kit'), sealed_by, sealed"
    " FROM run WHERE id = :run"
)
JOURNAL_OF = "SELECT text FROM entry WHERE run_id = :run ORDER BY seq"
EXPORT_FORMAT = "bowlside-export/1"
# A recipe file carries no id. Its id is made from what it says, so that the same file twice is one recipe.
RECIPE_FILES = UUID("6f0f2c1e-5b8e-4d5e-9a64-0d6a3b1c7e21")


Faults: TypeAlias = dict[str, dict[int, object]]  # list -> place -> what marshmallow says


class VersionGiven(TypedDict):
    version: int
    created_at: int
    document: JsonObject


class RecipeGiven(TypedDict):
    """`api.schemas.StudioRecipe`, read."""

    id: UUID
    versions: list[VersionGiven]
    filing: FilingGiven | None


class RunGiven(RunBegun):
    """A run of an export (`api.schemas.StudioRun`), with its entries as they came."""

    id: UUID
    created_at: int
    sealed: FrozenSeal | None
    entries: list[JsonValue]


class StudioGiven(TypedDict):
    """Of an export (`api.schemas.StudioExport`) what a studio has once each. Its lists are read piece by piece."""

    kit: JsonObject | None
    settings: JsonObject | None
    hours: JsonObject | None


@dataclass
class Tally:
    """What became of the things in an import.

    `refused` are (dotted path, why and the way out), the first MAX_FAULTS of them; `refusals` counts all.
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
        if self.refusals <= MAX_FAULTS:
            self.refused.append((short(where), short(says, MAX_SAID)))

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
    """The whole studio, less its photographs: recipes with all versions, kit, bench hours, settings, shelf with its papers, runs with journals."""
    # Written to the disk first: whoever reads slowly holds no view of the database.
    file = SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115
    counts = write_export(file)
    size = file.tell()
    file.seek(0)
    note_export(counts)
    response = answer_text("")
    response.response = wrap_file(request.environ, file)
    response.content_length = size
    response.call_on_close(file.close)
    return unkept(response)


@blueprint.post("/import")
@blueprint.doc(
    requestBody={"required": True, "content": {"application/json": {"schema": {"type": "object"}}}},
    description="A studio's export, a recipe or a kit. Adds and never overwrites. A large one is kept part by part,"
    " so that others can write meanwhile: one that was cut off is sent again, and what is here by then is had.",
)
@blueprint.response(200, shape(Imported))
def post_import() -> Response:
    """Take in a studio's export, a recipe or a kit."""
    request.max_content_length = current_app.config["BOWLSIDE"].import_limit
    if not request.is_json:
        raise Problem(415, words.say("api-errors-send-json"))
    with SpooledTemporaryFile(max_size=IN_MEMORY) as file:
        while part := request.stream.read(PART):
            file.write(part)
        file.seek(0)
        tally = import_file(file)
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


def export_all() -> JsonObject:
    """The whole studio as one document, where it is known to be small."""
    file = io.BytesIO()
    write_export(file)
    document: JsonObject = json.loads(file.getvalue())
    return document


def write_export(file: IO[bytes]) -> dict[str, int]:
    """Write the whole studio as one JSON, a thing a line; gives how many of each table.

    A run is exported as it was begun: its sheet is a pure function of that, and is made again.
    """
    with reading() as connection:
        counts: dict[str, int] = {}

        def put(name: str, things: Iterator[str]) -> None:
            file.write(f',\n"{name}":['.encode())
            for number, thing in enumerate(things):
                file.write(f"{',' if number else ''}\n{thing}".encode())
            file.write(b"]")

        file.write(f'{{"format":"{EXPORT_FORMAT}",\n"exported_at":{now_ms()}'.encode())
        put("recipes", _recipes_as_text(connection, counts))
        for name, one in (("kit", KIT), ("settings", SETTINGS), ("hours", HOURS)):
            now = one.now(connection)
            file.write(f',\n"{name}":{canonical(now.document) if now.version else "null"}'.encode())
        put("duties", _duties_as_text(connection, counts))
        put("outlets", (canonical(each) for each in outlets.outlets_in(connection)))
        put("wants", (canonical(each) for each in wants.wants_in(connection)))
        put("shelf", _counted(connection, "shelf_entry", "SELECT text FROM shelf_entry ORDER BY seq", counts))
        put("papers", papers.as_text(connection))
        put("runs", _runs_as_text(connection, counts))
        file.write(b"}\n")
    return counts


def note_export(counts: dict[str, int]) -> None:
    """Note that everything was taken out. What is only read is given out on a full disk too."""
    with suppress(DBAPIError), writing() as connection:
        audit.note(connection, "exported", runs=counts.get("run", 0), entries=counts.get("entry", 0))


def _recipes_as_text(connection: Connection, counts: dict[str, int]) -> Iterator[str]:
    recipes = select(Recipe.id, Recipe.tags, Recipe.archived_at).order_by(Recipe.id)
    for recipe_id, tags, archived_at in connection.execute(recipes).all():
        counts["recipe"] = counts.get("recipe", 0) + 1
        versions = [
            f'{{"version":{row.version},"created_at":{row.created_at},"document":{row.document}}}'
            for row in connection.execute(
                select(RecipeVersion.version, RecipeVersion.created_at, RecipeVersion.document)
                .where(RecipeVersion.recipe_id == recipe_id)
                .order_by(RecipeVersion.version)
            )
        ]
        filed = f'{{"tags":{tags},"archived_at":{json.dumps(archived_at)}}}'
        yield f'{{"id":"{recipe_id}","filing":{filed},"versions":[{",".join(versions)}]}}'


def _duties_as_text(connection: Connection, counts: dict[str, int]) -> Iterator[str]:
    for mark in duties.marks_in(connection):
        counts["duty_mark"] = counts.get("duty_mark", 0) + 1
        yield canonical(mark)


def _runs_as_text(connection: Connection, counts: dict[str, int]) -> Iterator[str]:
    for (run_id,) in connection.execute(select(Run.id).order_by(Run.created_at, Run.id)).all():
        begun = execute(connection, AS_BEGUN, {"run": run_id}).fetchone()
        recipe, version, size, created, made, kit, signed, ids = begun
        sealed = f'{{"signed":"{signed}","entries":{ids}}}' if signed else "null"
        entries = list(_counted(connection, "entry", JOURNAL_OF, counts, run=run_id))
        counts["run"] = counts.get("run", 0) + 1
        yield (
            f'{{"id":"{run_id}","recipe":{{"id":"{recipe}","version":{version}}},"size":{size},"kit":{kit},'
            f'"created_at":{created},"made_at":{created if made is None else made},"sealed":{sealed},'
            f'"entries":[{",".join(entries)}]}}'
        )


def _counted(
    connection: Connection, table: str, query: str, counts: dict[str, int], **asked: str
) -> Iterator[str]:
    for (text,) in execute(connection, query, asked):
        counts[table] = counts.get(table, 0) + 1
        yield text


def import_any(document: Mapping[str, object], *, at_once: bool = True) -> Tally:
    """Take in whichever of the three formats this is; see `import_file`."""
    return import_file(io.BytesIO(json.dumps(document).encode()), at_once=at_once)


def import_file(file: IO[bytes], *, at_once: bool = False) -> Tally:
    """Take in a file of whichever of the three formats; nothing of one that is not as it should be.

    A studio is read piece by piece and kept part by part, unless `at_once`: others write between two parts.
    """
    try:
        known, document = _known(file)
        tally = Tally()
        if known is None:
            assert document is not None
            with writing() as connection:
                IMPORTERS[str(document["format"])](connection, document, tally)
                _note_import(connection, tally)
        else:
            _import_studio(file, known, tally, at_once)
    except RecursionError:
        raise too_deep() from None
    except NotAnObject:
        raise Problem(422, words.say("api-errors-not-an-object")) from None
    except NotJson as error:
        raise Problem(400, str(error)) from None
    return tally


def _known(file: IO[bytes]) -> tuple[StudioGiven | None, JsonObject | None]:
    """Read a file through and judge its shape: what a studio has once each, or the document of another format."""
    single: JsonObject = {}
    faults: Faults = {}
    found = 0

    def judge(name: str, place: int, value: JsonValue) -> int:
        try:
            READ[name](value)
        except ValidationError as error:
            faults.setdefault(name, {})[place] = error.messages
            return sum(1 for _ in first_faults(flatten(error.messages)))
        return 0

    for name, place, value in pieces(file, LISTS):
        refuse_too_deep(value, DEEPEST - (1 if place is None else 2))
        if place is None or place < 0:
            single[name] = value
            if name == "format" and value != EXPORT_FORMAT:
                break
        elif name != "shelf" and single.get("format", EXPORT_FORMAT) == EXPORT_FORMAT and found <= MAX_FAULTS:
            refuse_unfit(_less_entries(value), f"{name}.{place}")
            found += judge(name, place, value)
    if single.get("format") != EXPORT_FORMAT:
        return None, _other_format(file, single)
    refuse_unfit(single)
    try:
        known: StudioGiven = StudioExport().load(single)
    except ValidationError as error:
        raise ValidationError({**_named(error), **faults}) from None
    if faults:
        raise ValidationError(faults)
    return known, None


def _less_entries(value: JsonValue) -> JsonValue:
    if isinstance(value, dict) and isinstance(value.get("entries"), list):
        return {**value, "entries": []}
    return value


def _judged(schema: Schema, value: Any) -> Any:
    """What a schema reads of any JSON value; ValidationError for what it does not take."""
    return schema.load(value)


def _read_run(value: JsonValue) -> RunGiven:
    """A run as it is to be begun. Its entries are judged one by one when they are kept, and not here."""
    run: RunGiven = _judged(A_RUN, _less_entries(value))
    entries = value.get("entries") if isinstance(value, dict) else None
    return {**run, "entries": entries if isinstance(entries, list) else []}


_read_recipe: Callable[[JsonValue], RecipeGiven] = partial(_judged, A_RECIPE)
_read_duty: Callable[[JsonValue], DutyGiven] = partial(_judged, A_DUTY)
_read_outlet: Callable[[JsonValue], OutletGiven] = partial(_judged, AN_OUTLET)
_read_want: Callable[[JsonValue], WantKept] = partial(_judged, A_WANT)
_read_paper: Callable[[JsonValue], PaperFile] = partial(_judged, A_PAPER)
READ: dict[
    str, Callable[[JsonValue], RunGiven | RecipeGiven | DutyGiven | OutletGiven | WantKept | PaperFile]
] = {
    "recipes": _read_recipe,
    "runs": _read_run,
    "duties": _read_duty,
    "outlets": _read_outlet,
    "wants": _read_want,
    "papers": _read_paper,
}


def _named(error: ValidationError) -> dict[str, object]:
    return error.messages if isinstance(error.messages, dict) else {"": error.messages}


def _other_format(file: IO[bytes], single: JsonObject) -> JsonObject:
    if str(single.get("format")) not in IMPORTERS:
        known = ", ".join((EXPORT_FORMAT, *IMPORTERS))
        formats = words.say("api-exchange-formats", names=known)
        raise Problem(422, words.say("api-exchange-not-ours"), errors=[("format", formats)])
    file.seek(0)
    document: JsonObject = {name: value for name, _, value in pieces(file)}
    refuse_too_deep(document, DEEPEST)
    refuse_unfit(document)
    return document


def file_id(document: JsonObject) -> str:
    """The id of a recipe that came without one: the same words give the same id."""
    return str(uuid5(RECIPE_FILES, canonical(document)))


def _import_studio(file: IO[bytes], known: StudioGiven, tally: Tally, at_once: bool) -> None:
    turns = Turns(at_once, tally)
    file.seek(0)
    for name, place, value in pieces(file, LISTS):
        if name == "recipes" and place is not None and place >= 0:
            _import_recipe(turns, _read_recipe(value), f"recipes.{place}", tally)
    file.seek(0)
    for name, place, value in pieces(file, LISTS):
        if name == "duties" and place is not None and place >= 0:
            with turns.take() as connection, tally.judging(f"duties.{place}"):
                _import_duty(connection, _read_duty(value), tally)
        elif name == "outlets" and place is not None and place >= 0:
            with turns.take() as connection:
                tally.count(outlets.take_in(connection, _read_outlet(value)))
        elif name == "wants" and place is not None and place >= 0:
            with turns.take() as connection, tally.judging(f"wants.{place}"):
                tally.count(wants.take_in(connection, _read_want(value)))
    for name, given in (("kit", known["kit"]), ("settings", known["settings"]), ("hours", known["hours"])):
        if given is not None:
            with turns.take() as connection, tally.judging(name):
                tally.count(ONCE[name](connection, given))
    _import_shelf(file, turns, tally)
    file.seek(0)
    for name, place, value in pieces(file, LISTS):
        if name == "runs" and place is not None and place >= 0:
            with turns.take() as connection, tally.judging(f"runs.{place}"):
                _import_run(connection, _read_run(value), tally, f"runs.{place}")
    with turns.take() as connection:
        _note_import(connection, tally)
    turns.end()


def _import_shelf(file: IO[bytes], turns: Turns, tally: Tally) -> None:
    """Its journal, and then the files of the papers that it tells of."""
    file.seek(0)
    for first, some in _in_parts(
        value for name, place, value in pieces(file, LISTS) if name == "shelf" and place != -1
    ):
        with turns.take() as connection:
            answers, _ = shelf.keep_entries(connection, some, now_ms(), closed=False)
            _count_entries(answers, tally, "shelf", first)
    file.seek(0)
    for name, place, value in pieces(file, LISTS):
        if name == "papers" and place is not None and place >= 0:
            with turns.take() as connection, tally.judging(f"papers.{place}"):
                tally.count(papers.take_in(connection, _read_paper(value)))


def _import_recipe(turns: Turns, recipe: RecipeGiven, where: str, tally: Tally) -> None:
    for nth, version in enumerate(recipe["versions"]):
        with turns.take() as connection, tally.judging(f"{where}.versions.{nth}"):
            _import_version(connection, str(recipe["id"]), version, tally)
    if recipe["filing"] is not None:
        with turns.take() as connection:
            filing.take_in(connection, str(recipe["id"]), recipe["filing"])


def _note_import(connection: Connection, tally: Tally) -> None:
    audit.note(connection, "imported", kept=tally.kept, had=tally.had, refused=tally.refusals)


class Turns:
    """Transactions that follow each other: each takes what it is given for a while, then lets others write."""

    def __init__(self, at_once: bool, tally: Tally) -> None:
        self._at_once, self._tally = at_once, tally
        self._stack = ExitStack()
        self._connection: Connection | None = None
        self._until = 0.0
        self._kept = 0

    @contextmanager
    def take(self) -> Iterator[Connection]:
        """The transaction that is open, or the next one; what is done in it is kept at its end."""
        try:
            if self._connection is not None and not self._at_once and time.monotonic() > self._until:
                self.end()
                time.sleep(REST_SECONDS)
            if self._connection is None:
                self._connection = self._stack.enter_context(writing())
                self._until = time.monotonic() + TURN_SECONDS
            yield self._connection
        except BaseException as error:
            self._connection = None
            self._stack.__exit__(type(error), error, error.__traceback__)
            if (
                isinstance(error, DBAPIError | sqlite3.Error)
                and self._kept
                and moved.refusal_in(error) is None
            ):
                raise Problem(
                    503,
                    words.say(
                        "api-exchange-database-stopped",
                        why=str(getattr(error, "orig", error)),
                        count=self._kept,
                    ),
                    headers={"Retry-After": "2"},
                ) from error
            raise

    def end(self) -> None:
        self._connection = None
        self._stack.close()
        self._kept = self._tally.kept


def _import_recipe_file(connection: Connection, document: JsonObject, tally: Tally) -> None:
    version: VersionGiven = {"version": 1, "created_at": now_ms(), "document": document}
    _import_version(connection, file_id(document), version, tally)


def _import_version(connection: Connection, recipe_id: str, asked: VersionGiven, tally: Tally) -> None:
    measured = bench.read_recipe(asked["document"])
    here = find_version(connection, recipe_id, asked["version"])
    if here is not None and here.document != canonical(asked["document"]):
        raise Problem(409, words.say("api-studio-other-text"))
    if here is None:
        now = current_version(connection, recipe_id)
        if asked["version"] != (now.version + 1 if now is not None else 1):
            raise Problem(409, words.say("api-studio-version-missing"))
        keep_version(
            connection, recipe_id, asked["version"], asked["document"], measured, asked["created_at"]
        )
    tally.count(here is None)


def _import_duty(connection: Connection, asked: DutyGiven, tally: Tally) -> None:
    """One of a later version, which is not known here, is kept as well."""
    if asked["about"] is not None and current_version(connection, str(asked["about"])) is None:
        not_found("recipe", "/api/v1/recipes")
    _, new = duties.keep(connection, asked, same_at=True)
    tally.count(new)


def _import_kit(connection: Connection, document: JsonObject, tally: Tally) -> None:
    tally.count(KIT.take_in(connection, document))


def _import_run(connection: Connection, asked: RunGiven, tally: Tally, where: str) -> None:
    """A whole journal is taken as the other studio took it in; what is added to one that is here is asked more."""
    run_id, entries = str(asked["id"]), asked["entries"]
    begun = [each["at"] for each in bench.in_order(entries)[:1]]
    made_at = asked.get("made_at", min([asked["created_at"], *begun]))
    sealed = asked.get("sealed") or bench.frozen_seal(entries)
    _, new = begin_run(connection, run_id, asked, asked["created_at"], made_at, sealed)
    tally.count(new)
    rules = None if new else OfARun(connection, run_id, None, from_file=True)
    for first, some in _in_batches(asked["entries"]):
        answers, _ = keep_entries(connection, run_id, some, now_ms(), closed=False, rules=rules)
        _count_entries(answers, tally, f"{where}.entries", first)


def _in_batches(entries: list[JsonValue]) -> Iterator[tuple[int, list[JsonValue]]]:
    """A journal in parts, each with the place of its first entry: what is said of each need not be held for all."""
    yield from _in_parts(iter(entries), always=True)


def _in_parts(entries: Iterator[JsonValue], *, always: bool = False) -> Iterator[tuple[int, list[JsonValue]]]:
    first = 0
    while (some := list(islice(entries, BATCH))) or always:
        yield first, some
        first, always = first + len(some), False


def _loaded(schema: Schema, document: JsonObject) -> Any:
    """What a schema reads, or Problem that names what it does not take."""
    try:
        return schema.load(document)
    except ValidationError as error:
        raise Problem(
            422, "; ".join(f"{name}: {says}" for name, says in first_faults(flatten(error.messages)))
        ) from None


def _count_entries(answers: list[EntryAnswer], tally: Tally, where: str, first: int) -> None:
    for index, entry in enumerate(answers, first):
        if entry["result"] == "refused":
            tally.refuse(f"{where}.{index}.{entry.get('field', '')}".strip("."), entry.get("detail", ""))
        else:
            tally.count(entry["result"] == "kept")


IMPORTERS: dict[str, Callable[[Connection, JsonObject, Tally], None]] = {
    "bowlside-recipe/1": _import_recipe_file,
    "bowlside-kit/1": _import_kit,
}
# What a studio has one of, and how each is taken in.
ONCE: dict[str, Callable[[Connection, JsonObject], bool]] = {
    "kit": KIT.take_in,
    "settings": lambda connection, given: SETTINGS.take_in(connection, _loaded(SettingsWritten(), given)),
    "hours": lambda connection, given: HOURS.take_in(connection, _loaded(MakersWritten(), given)),
}
