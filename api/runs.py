"""Runs: one making of a sheet, and what the bench says now."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from typing import Literal, NamedTuple, NoReturn, NotRequired, TypedDict
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, Engine, insert, text

import bench
from api import generation
from api.answers import RunItem, RunPage, RunWhole
from api.clock import now_ms
from api.door import budgets, gate
from api.errors import Problem, not_found
from api.kit import measured_kit
from api.openapi import ETAG, IF_NONE_MATCH
from api.recipes import find_version, version_or_404
from api.schemas import RunAsked, RunQuery
from api.searching import conditions as conditions_of
from api.searching import kept_to_search, words_of
from api.shapes_openapi import shape
from api.store import execute, read_row, reading, writing
from api.tables import Run, db
from api.wire import Blueprint, PageAsked, answer, answer_text, described, first_of, paged
from bench import (
    BatchVerdict,
    Entry,
    FrozenSeal,
    InUse,
    Kit,
    OnBench,
    RecipeRef,
    Sheet,
    Size,
    State,
    canonical,
    words,
)

blueprint = Blueprint("runs", __name__, description="Runs, and what the bench says now")

# The journal is one text, joined by the database: 500 entries are then one row to fetch.
JOURNAL = "(SELECT '[' || coalesce(group_concat(text, ','), '') || ']' FROM entry WHERE run_id = run.id)"
ENTRIES = "(SELECT count(*) FROM entry WHERE run_id = run.id)"
CURSOR = "(SELECT coalesce(max(seq), 0) FROM entry WHERE run_id = run.id)"

REACH = f"SELECT {CURSOR} FROM run WHERE id = :run"
HEAD = (
    f"id, recipe_id, recipe_version, title, size, batch_number, created_at, finished_at, {ENTRIES}, {CURSOR},"
    " made_at, sealed_by, release"
)
WITH_SHEET = f"{HEAD}, sheet, sealed"
RUN_WITH_SHEET = f"SELECT {WITH_SHEET} FROM run WHERE id = :run"
# The inner question is answered out of an index: a sheet is long, and the outer one reads those of a page alone.
RUN_LIST = """
    SELECT {columns} FROM run
    WHERE id IN (SELECT id FROM run {where} ORDER BY created_at DESC, id LIMIT :limit OFFSET :offset)
    ORDER BY created_at DESC, id
"""
RUN_COUNT = "SELECT count(*) FROM run {where}"
RUN_AND_JOURNAL = f"SELECT sheet, {JOURNAL}, sealed_by, sealed FROM run WHERE id = :run"
OTHERS_OPEN = """
    SELECT id FROM run WHERE finished_at IS NULL AND id != :run ORDER BY created_at DESC, id LIMIT :most
"""
MAX_BESIDE = 7  # as many as a plan takes along
RUNS_HELD = 32
# The first instant of 2025, before there was this program: a clock that says less is wrong.
EARLIEST_MS = 1_735_689_600_000
SHEETS_HELD = 16


class RunRow(NamedTuple):
    """A run as the database has it; the sheet is canonical JSON, and left out of lists."""

    id: str
    recipe_id: str
    recipe_version: int
    title: str
    size: str
    batch_number: str | None
    created_at: int
    finished_at: int | None
    entries: int
    cursor: int
    made_at: int | None
    sealed_by: str | None
    release: BatchVerdict | None
    sheet: str = ""
    sealed: str | None = None


@dataclass(frozen=True)
class RunView:
    """A run laid out: its sheet, its journal, and the state that the two together say."""

    sheet: Sheet
    entries: list[Entry]
    state: State
    sealed: FrozenSeal | None


class RunsAsked(PageAsked):
    """`api.schemas.RunQuery`, read."""

    open: NotRequired[bool]
    recipe: NotRequired[UUID]
    number: NotRequired[str]
    release: NotRequired[Literal["released", "held", "rejected", "none"]]
    q: NotRequired[str]
    finished_from: NotRequired[int]
    finished_to: NotRequired[int]


class RecipeAsked(TypedDict):
    id: UUID
    version: int


class RunBegun(TypedDict):
    """`api.schemas.RunAsked`, read."""

    recipe: RecipeAsked
    size: Size
    kit: NotRequired[Kit]
    made_at: NotRequired[int]
    sheet_sha256: NotRequired[str]


@blueprint.get("/runs")
@blueprint.arguments(RunQuery(), location="query")
@blueprint.response(200, shape(RunPage))
def list_runs(asked: RunsAsked) -> Response:
    """The runs, the newest first: those on the bench, of a recipe, of a number, or with these words in title or number."""
    with reading() as connection:
        rows, total = listed(connection, asked, HEAD)
    return paged("runs", [_item(row) for row in rows], total, asked)


def listed(connection: Connection, asked: RunsAsked, columns: str) -> tuple[list[RunRow], int]:
    """The rows of a page of a list, and how many the list has in all."""
    where, named = _wanted(connection, asked)
    page = {"limit": asked["page_size"], "offset": first_of(asked)}
    query = text(RUN_LIST.format(columns=columns, where=where))
    rows = [RunRow(*row) for row in connection.execute(query, page | named)]
    return rows, connection.scalar(text(RUN_COUNT.format(where=where)), named) or 0


def _wanted(connection: Connection, asked: RunsAsked) -> tuple[str, dict[str, str | int]]:
    """The condition that a list's runs meet, and the values it names."""
    words = words_of(asked.get("q", ""))
    # A plus keeps the database from going by the day finished, and reading each row for its words.
    finished = "+finished_at" if words else "finished_at"
    conditions, named = conditions_of(connection, "run", words)
    if "open" in asked:
        conditions.append(f"{finished} IS {'' if asked['open'] else 'NOT '}NULL")
    if "finished_from" in asked:
        conditions.append(f"{finished} >= :finished_from")
        named["finished_from"] = asked["finished_from"]
    if "finished_to" in asked:
        conditions.append(f"{finished} < :finished_to")
        named["finished_to"] = asked["finished_to"]
    if "recipe" in asked:
        conditions.append("recipe_id = :recipe")
        named["recipe"] = str(asked["recipe"])
    if "release" in asked:
        conditions.append("coalesce(release, 'none') = :release")
        named["release"] = asked["release"]
    if "number" in asked:
        conditions.append("batch_number = :number")
        named["number"] = asked["number"]
    return f"WHERE {' AND '.join(conditions)}" if conditions else "", named


@blueprint.put("/runs/<uuid:run_id>")
@blueprint.arguments(RunAsked())
@blueprint.response(200, shape(RunWhole), headers=ETAG)
@blueprint.alt_response(201, schema=shape(RunWhole), headers=ETAG, success=True, description="Created")
def put_run(asked: RunBegun, run_id: UUID) -> Response:
    """Begin a run. The server makes the sheet itself; the same PUT again changes nothing."""
    with writing() as connection:
        at = now_ms()
        made_at = min(max(asked.get("made_at", _made_by_id(run_id, at)), EARLIEST_MS), at)
        row, new = begin_run(connection, str(run_id), asked, at, made_at)
        if new:
            budgets.spend(gate.sender_id(), budgets.RUNS_AN_HOUR)
    return answer_text(whole_run(row), 201 if new else 200, etag=str(row.cursor))


@blueprint.get("/runs/<uuid:run_id>")
@described(
    blueprint.doc(parameters=[IF_NONE_MATCH]),
    blueprint.response(200, shape(RunWhole), headers=ETAG),
    blueprint.alt_response(304, description="Nothing changed"),
)
def get_run(run_id: UUID) -> Response:
    """A run with its sheet; its journal is at /entries."""
    run, reach = str(run_id), reach_of(run_id)
    return answer_text(_held_whole(db.engine, generation.now(), run, reach), etag=str(reach))


@blueprint.get("/runs/<uuid:run_id>/now")
@blueprint.response(200, shape("NowBesideOthers"))
def get_now(run_id: UUID) -> Response:
    """What the bench says now: prompts in words and numbers, waits with absolute instants."""
    run = load_run(run_id)
    return answer({**bench.now(run.sheet, run.state, now_ms()), "in_use": _in_use(str(run_id), run)})


def _in_use(run_id: str, run: RunView) -> list[InUse]:
    """What the next steps need and other open batches have, those begun last."""
    if not bench.wants_kit(run.sheet, run.state):
        return []
    with reading() as connection:
        others = execute(connection, OTHERS_OPEN, {"run": run_id, "most": MAX_BESIDE}).fetchall()
        if not others:
            return []
        beside = [_of_batch(connection, load_run_in(connection, other)) for (other,) in others]
        return bench.in_use(_of_batch(connection, run), beside)


def _of_batch(connection: Connection, run: RunView) -> OnBench:
    sheet = run.sheet
    if sheet["written_for"] is None:  # of the first format, which lacks what its recipe says
        recipe = find_version(connection, sheet["recipe"]["id"], sheet["recipe"]["version"])
        sheet = bench.open_sheet(sheet, json.loads(recipe.measured) if recipe else None)
    return {"name": batch_name(sheet, run.state), "sheet": sheet, "state": run.state}


def batch_name(sheet: Sheet, state: State | None) -> str:
    """What a batch is called: by its number, else by what it is."""
    return (state["number"] if state else None) or sheet["recipe"]["title"]


def _made_by_id(run_id: UUID, at: int) -> int:
    """When the run's id was made (RFC 9562: the first 48 bits of version 7, in ms): a phone of before said no more."""
    return run_id.int >> 80 if run_id.version == 7 else at


def begin_run(
    connection: Connection,
    run_id: str,
    asked: RunBegun,
    at: int,
    made_at: int,
    sealed: FrozenSeal | None = None,
) -> tuple[RunRow, bool]:
    """Make the run, or find that it was begun just so; gives its row and whether it is new.

    made_at: when it was begun at the bench. sealed: what a signing seals that names nothing, where one is known.
    """
    recipe_id, version = str(asked["recipe"]["id"]), asked["recipe"]["version"]
    size, kit = canonical(asked["size"]), asked.get("kit")
    if (found := _find(connection, run_id)) is not None:
        _refuse_another(found, recipe_id, version, size, kit)
        return found, False
    recipe = version_or_404(connection, recipe_id, version)
    kit = kit or measured_kit(connection)
    sheet = _sheet_of(recipe.measured, recipe_id, version, size, canonical(kit))
    _refuse_another_sheet(sheet, asked.get("sheet_sha256"))
    connection.execute(
        insert(Run).values(
            id=run_id,
            recipe_id=recipe_id,
            recipe_version=version,
            title=recipe.title,
            size=size,
            sheet=sheet,
            created_at=at,
            made_at=made_at,
            **sealed_columns(sealed),
            search=kept_to_search(recipe.title),
        )
    )
    return RunRow(*execute(connection, RUN_WITH_SHEET, {"run": run_id}).fetchone()), True


def _refuse_another(run: RunRow, recipe_id: str, version: int, size: str, kit: Kit | None) -> None:
    same_kit = kit is None or canonical(kit) == canonical(json.loads(run.sheet)["kit"])
    if (run.recipe_id, run.recipe_version, run.size) != (recipe_id, version, size) or not same_kit:
        raise Problem(409, words.say("api-studio-other-batch"))


def _refuse_another_sheet(sheet: str, of_the_asker: str | None) -> None:
    if of_the_asker not in (None, sha256(sheet.encode()).hexdigest()):
        raise Problem(409, words.say("api-studio-other-sheet"))


def sealed_columns(sealed: FrozenSeal | None) -> dict[str, str | None]:
    """How a run's row says what a signing seals that names nothing."""
    if sealed is None:
        return {"sealed_by": None, "sealed": None}
    return {"sealed_by": sealed["signed"], "sealed": canonical(sealed["entries"])}


def sealed_of(signed: str | None, ids: str | None) -> FrozenSeal | None:
    return {"signed": signed, "entries": json.loads(ids)} if signed and ids else None


@lru_cache(maxsize=SHEETS_HELD)
def _sheet_of(measured: str, recipe_id: str, version: int, size: str, kit: str) -> str:
    """The sheet as canonical JSON. It follows from these alone, and many runs are begun alike."""
    ref: RecipeRef = {"id": recipe_id, "version": version}
    return canonical(bench.make_sheet(json.loads(measured), ref, json.loads(size), json.loads(kit)))


def no_such_run() -> NoReturn:
    not_found("run", "/api/v1/runs")


def reach_of(run_id: UUID) -> int:
    """How far the run's journal reaches: the cursor of its last entry, 0 for none."""
    found = read_row(REACH, {"run": str(run_id)})
    if not found:
        no_such_run()
    reach: int = found[0]
    return reach


def load_run(run_id: UUID) -> RunView:
    found = read_row(RUN_AND_JOURNAL, {"run": str(run_id)})
    return _fold(found) if found else no_such_run()


def load_run_in(connection: Connection, run_id: str) -> RunView:
    """A run that is known to be here, as this transaction sees it."""
    return _fold(execute(connection, RUN_AND_JOURNAL, {"run": run_id}).fetchone())


def _find(connection: Connection, run_id: str) -> RunRow | None:
    found = execute(connection, RUN_WITH_SHEET, {"run": run_id}).fetchone()
    return RunRow(*found) if found else None


def _fold(row: tuple[str, str, str | None, str | None]) -> RunView:
    sheet, entries, sealed = (
        bench.open_sheet(json.loads(row[0])),
        json.loads(row[1]),
        sealed_of(row[2], row[3]),
    )
    return RunView(sheet, entries, bench.fold(sheet, entries, sealed), sealed)


def _item(row: RunRow) -> RunItem:
    return {
        "id": row.id,
        "recipe": {"id": row.recipe_id, "version": row.recipe_version, "title": row.title},
        "size": json.loads(row.size),
        "number": row.batch_number,
        "created_at": row.created_at,
        "finished_at": row.finished_at,
        "entries": row.entries,
        "cursor": row.cursor,
        "made_at": row.made_at,
        "sealed_by": row.sealed_by,
        "release": row.release,
    }


@lru_cache(maxsize=RUNS_HELD)
def _held_whole(_database: Engine, _generation: str, run_id: str, _reach: int) -> bytes:
    """A run as JSON. All of it follows from how far its journal reaches, so it is held until that grows."""
    return whole_run(RunRow(*read_row(RUN_WITH_SHEET, {"run": run_id})))


def whole_run(row: RunRow) -> bytes:
    """A run with its sheet, as JSON."""
    head = json.dumps({**_item(row), "sealed": sealed_of(row.sealed_by, row.sealed)}, ensure_ascii=False)
    return f'{head[:-1]}, "sheet": {row.sheet}}}'.encode()
