"""The batch record and what is drawn from it: a spreadsheet, the cost, the label, and the last times."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from functools import lru_cache
from typing import NamedTuple, NotRequired, TypedDict
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, Engine, text

import bench
from api import generation, projections, shelf
from api.answers import LabelSaid, SettingsSaid
from api.batches import batches_in
from api.clock import now_ms
from api.duties import marks_in
from api.errors import not_found
from api.recipes import current_version, version_or_404
from api.record_rows import RECORD_COLUMNS, record_rows
from api.runs import CURSOR, RunView, load_run, no_such_run, reach_of
from api.schemas import BeforeQuery, LabelQuery
from api.shapes_openapi import shape
from api.shelf import SHELF_REACH
from api.spreadsheet import CSV, spreadsheet
from api.store import read_row, reading
from api.studio_settings import SETTINGS
from api.tables import db
from api.wire import Blueprint, answer, answer_text, described
from bench import (
    BatchFigures,
    Entry,
    KnownLot,
    KnownPerson,
    KnownRemark,
    Label,
    LabelShape,
    LateEntry,
    Market,
    Record,
    RecordLot,
    Shelf,
    WholeRecord,
)

blueprint = Blueprint("records", __name__, description="The batch record and what is drawn from it")

RECEIVED = (
    "SELECT entry.id, received_at, name, given_back FROM entry LEFT JOIN device ON device.id = sender"
    " WHERE run_id = :run ORDER BY seq"
)
OWNERS = "SELECT bench_owner.bench, name, since FROM bench_owner JOIN device ON device.id = device_id"
# All that an answer follows from: how far the run's journal and the shelf's reach, what devices are called,
# and which other runs have the same number.
MARK = f"""
    SELECT {CURSOR}, ({SHELF_REACH}),
        (SELECT coalesce(group_concat(text, ','), '') FROM
            (SELECT id || name AS text, paired_at AS seq FROM device) AS devices),
        (SELECT coalesce(group_concat(text, ','), '') FROM
            (SELECT bench || device_id AS text, since AS seq FROM bench_owner) AS benches),
        (SELECT coalesce(group_concat(text, ','), '') FROM
            (SELECT id AS text, created_at AS seq FROM run AS other
             WHERE other.batch_number = run.batch_number AND other.id <> run.id) AS others)
    FROM run WHERE id = :run
"""
FINISHED = text(
    f"SELECT id, {CURSOR} FROM run WHERE recipe_id = :recipe AND finished_at IS NOT NULL"
    " ORDER BY created_at DESC, id LIMIT :most"
)
RECORDS_HELD = 64
ANSWERS_HELD = 32
# What was received so long after it happened, in ms, was not sent at once: the phone was out of reach, or the
# entry was made up later.
LATE_MS = 10 * 60_000
LAST_RUNS = 12
LAST_OF_VERSION = 30
MM_UM = 1000


class LabelAsked(TypedDict):
    """`api.schemas.LabelQuery`, read."""

    market: Market
    shape: NotRequired[LabelShape]
    width_mm: NotRequired[int]
    height_mm: NotRequired[int]
    width_um: NotRequired[int]
    height_um: NotRequired[int]
    list_um: NotRequired[int]
    net_um: NotRequired[int]
    opened_months: NotRequired[int]
    best_before: NotRequired[date]
    identity: NotRequired[str]
    function: NotRequired[str]
    maker: NotRequired[str]
    precautions: NotRequired[list[str]]
    use: NotRequired[bench.ProductUse]
    single_use: NotRequired[bool]
    keeps_months: NotRequired[int]
    meant_for: NotRequired[bench.MeantFor]
    origin: NotRequired[str]
    leaflet: NotRequired[bool]
    today: NotRequired[date]


class Recorded(NamedTuple):
    """A run laid out, and its plain record. It is held: nobody may change it."""

    run: RunView
    record: Record
    digest: str  # over the entries that it is of


@blueprint.get("/runs/<uuid:run_id>/record")
@described(blueprint.response(200, shape("WholeRecord")))
def get_record(run_id: UUID) -> Response:
    """The batch record: targets, actual weights, deviations, lots, times, yield, who, and a digest of it all."""
    mark = read_row(MARK, {"run": str(run_id)})
    if not mark:
        no_such_run()
    return answer_text(_held_answer(db.engine, run_id, (*mark, generation.now()), bench.words.manner()))


@blueprint.get("/runs/<uuid:run_id>/record.csv")
@blueprint.response(200, {"type": "string"}, content_type=CSV)
def get_record_csv(run_id: UUID) -> Response:
    """The record as a spreadsheet: one row for each thing in it. Masses in whole mg, times in UTC."""
    return spreadsheet("record.csv", RECORD_COLUMNS, record_rows(whole_record(run_id, recorded(run_id))))


@blueprint.get("/runs/<uuid:run_id>/label")
@blueprint.arguments(LabelQuery(), location="query")
@blueprint.response(200, shape("Label"))
def get_label(asked: LabelAsked, run_id: UUID) -> Response:
    """The label of a batch for one market, from what was really weighed: what it says, and what was checked."""
    return answer(labelled(asked, recorded(run_id)))


def labelled(asked: LabelAsked, made: Recorded) -> Label:
    """The label of a batch."""
    run, record, _ = made
    there = shelf.current_stock()
    with reading() as connection:
        settings = SETTINGS.now(connection).document
        made_by = run.sheet["recipe"]
        recipe = bench.read_recipe(
            json.loads(version_or_404(connection, made_by["id"], made_by["version"]).document), kept=True
        )
        newest = current_version(connection, made_by["id"])
        marks = marks_in(connection)
    if newest:
        recipe = bench.product_of(recipe, json.loads(newest.measured))
    options = _label_options(recipe, there, settings, asked)
    options["open_duties"] = bench.product_stands(_as_answered(recipe, asked), made_by["id"], marks)["open"]
    if record["balance"] and record["balance"]["weighed"]:
        options["net_mg"] = record["balance"]["piece_mg"]
    lots = (there["lots"].get(each["lot"]) for each in record["lots"])
    options["lots_best_before"] = min(
        (lot["best_before"] for lot in lots if lot and lot["best_before"]), default=None
    )
    return bench.label(recipe, run.sheet, run.state, asked["market"], options)


def _as_answered(recipe: bench.MeasuredRecipe, asked: LabelAsked) -> bench.MeasuredRecipe:
    """Where the recipe does not say what it is for and where it is sold, the label's own answers hold."""
    product = recipe.copy()
    if "use" not in recipe and "use" in asked:
        product["use"] = asked["use"]
    if "sold_in" not in recipe:
        product["sold_in"] = [asked["market"]]
    return product


def _label_options(
    recipe: bench.MeasuredRecipe, there: bench.Shelf, settings: SettingsSaid, asked: LabelAsked
) -> bench.LabelOptions:
    """What a label says beside what was weighed: the studio's own settings, and over them what was asked."""
    said = settings.get("label", {})
    best_before = asked.get("best_before")
    cards: dict[str, bench.Card] = {}
    names = bench.names_of(there)
    for key, each in recipe["ingredients"].items():
        found = bench.card_for(names, each["name"])
        card = there["ingredients"][found]["card"] if found else None
        if card:
            cards[key] = card
    options: bench.LabelOptions = {
        "identity": asked.get("identity"),
        "function": asked.get("function"),
        "opened_months": asked.get("opened_months", said.get("opened_months")),
        "best_before": best_before.isoformat() if best_before else None,
        "precautions": asked.get("precautions", []),
        "cards": cards,
        "maker": asked.get("maker", settings.get("maker")) or None,
        "letters": {"list_um": asked.get("list_um"), "net_um": asked.get("net_um")},
        "use": asked.get("use"),
        "single_use": asked.get("single_use"),
        "keeps_months": asked.get("keeps_months"),
        "meant_for": asked.get("meant_for"),
        "origin": asked.get("origin"),
        "leaflet": asked.get("leaflet"),
        "today": (asked.get("today") or datetime.fromtimestamp(now_ms() / 1000, UTC).date()).isoformat(),
    }
    width, height = sides_of(said, asked)
    if width and height:
        shaped = asked.get("shape", said.get("shape", "rectangle"))
        options["size"] = {"shape": shaped, "width_um": width, "height_um": height}
    return options


def sides_of(said: LabelSaid, asked: LabelAsked) -> tuple[int | None, int | None]:
    """Width and height in µm: as asked, else as the settings say; None where neither does."""
    width_mm, height_mm = said.get("width_mm"), said.get("height_mm")
    width_mm, height_mm = asked.get("width_mm", width_mm), asked.get("height_mm", height_mm)
    width = asked.get("width_um", width_mm and width_mm * MM_UM)
    height = asked.get("height_um", height_mm and height_mm * MM_UM)
    return width, height


@blueprint.get("/recipes/<uuid:recipe_id>/last")
@blueprint.response(200, shape("LastTimes"))
def get_last(recipe_id: UUID) -> Response:
    """What happened the last times, step by step, and what the maker's own runs teach once there are three."""
    with reading() as connection:
        if current_version(connection, str(recipe_id)) is None:
            not_found("recipe", "/api/v1/recipes")
    records = recent_records(str(recipe_id))
    return answer(
        {
            "runs": len(records),
            "last": bench.last_times(records),
            "learned": bench.learned(records),
            "hands_ms": bench.planned_hands(records),
        }
    )


@blueprint.get("/recipes/<uuid:recipe_id>/versions/<int:version>/outcomes")
@blueprint.arguments(BeforeQuery(), location="query")
@blueprint.response(200, shape("Outcomes"))
def get_outcomes(asked: dict[str, int], recipe_id: UUID, version: int) -> Response:
    """What batches of a version came to beside those of another: minutes a piece, spoiled, lost, deviations.

    Each difference has Welch's interval, over at most the last thirty batches of each; on three or fewer of either
    nothing is claimed.
    """
    with reading() as connection:
        for each in (asked["before"], version):
            version_or_404(connection, str(recipe_id), each)
        former, now = (_figures_of(connection, str(recipe_id), each) for each in (asked["before"], version))
    return answer(bench.outcomes(asked["before"], former, version, now))


def _figures_of(connection: Connection, recipe: str, version: int) -> list[BatchFigures]:
    """What a version's last finished batches came to."""
    named = {"recipe": recipe, "version": version, "limit": LAST_OF_VERSION}
    where = "WHERE recipe_id = :recipe AND version = :version"
    return [each.figures for each in batches_in(connection, where, named, "LIMIT :limit")]


def recent_records(recipe_id: str) -> list[Record]:
    """The records of a recipe's last finished runs, the newest first. They are held: nobody may change them."""
    with reading() as connection:
        found = connection.execute(FINISHED, {"recipe": recipe_id, "most": LAST_RUNS}).all()
    return [
        _held_record(db.engine, generation.now(), UUID(run), reach, bench.words.manner()).record
        for run, reach in found
    ]


def recorded(run_id: UUID) -> Recorded:
    return _held_record(db.engine, generation.now(), run_id, reach_of(run_id), bench.words.manner())


@lru_cache(maxsize=RECORDS_HELD)
def _held_record(_database: Engine, _generation: str, run_id: UUID, _reach: int, _spoken: str) -> Recorded:
    """All of it follows from the run's journal and the language, so it is held until the journal reaches further."""
    run = load_run(run_id)
    record = bench.record(run.sheet, run.state, run.entries)
    return Recorded(run, record, bench.digest(bench.of_record(run.state, run.entries)))


@lru_cache(maxsize=ANSWERS_HELD)
def _held_answer(
    database: Engine, run_id: UUID, mark: tuple[int, int, str, str, str, str], spoken: str
) -> bytes:
    """The record as JSON, held for as long as nothing moves that it follows from."""
    whole = whole_record(run_id, _held_record(database, mark[-1], run_id, mark[0], spoken))
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":")).encode()


def whole_record(run_id: UUID, recorded: Recorded) -> WholeRecord:
    """The plain record, and what only the server knows: names, the shelf's words on lots, other runs."""
    run, record, digest = recorded
    stock = shelf.current_stock()
    with reading() as connection:
        received = [Receipt(*row) for row in connection.execute(text(RECEIVED), {"run": str(run_id)})]
        owners = {row[0]: (row[1], row[2]) for row in connection.execute(text(OWNERS))}
        others = projections.same_number(connection, str(run_id))
    entries = bench.of_record(run.state, run.entries)
    names = names_of(entries, received, owners)
    received_at = {each.entry: each.at for each in received}
    people: list[KnownPerson] = [
        {**each, "name": next(iter(names[each["device"]]), None), "also": names[each["device"]][1:]}
        for each in record["people"]
    ]
    remarks: list[KnownRemark] = [
        {**each, "received_at": received_at.get(each["id"])} for each in record["remarks"]
    ]
    return {
        **record,
        "digest": digest,
        "sealed": [entry["id"] for entry in entries] if record["signed"] else None,
        "entries": run.entries,
        "also_used_by": others,
        "people": people,
        "remarks": remarks,
        "late": late(run, received),
        "lots": [_known_lot(each, stock) for each in record["lots"]],
    }


def _known_lot(used: RecordLot, stock: Shelf) -> KnownLot:
    lot = stock["lots"].get(used["lot"])
    return {
        **used,
        "number": lot["number"] if lot else None,
        "supplier": lot["supplier"] if lot else None,
        "best_before": lot["best_before"] if lot else None,
    }


class Receipt(NamedTuple):
    """What this server knows of an entry that it was sent: when, by which paired device, and whether it was
    given back for another."""

    entry: str
    at: int | None
    sender: str | None
    given_back: bool | None


def names_of(
    entries: list[Entry], received: list[Receipt], owners: dict[str, tuple[str, int]]
) -> dict[str, list[str]]:
    """Names for what these entries call their devices: of the paired devices that sent them, as they came.

    What was given back names the device whose the bench was when it was made. Where nobody is known to have sent
    it there is no name: who takes up a bench later did not do what was done there before.
    """
    here = {entry["id"]: entry for entry in entries}
    names: dict[str, dict[str, None]] = {entry["device"]: {} for entry in entries}
    for each in received:
        entry = here.get(each.entry)
        if entry is None:
            continue
        name = each.sender
        if each.given_back:
            owner, since = owners.get(entry["device"], ("", entry["at"]))
            name = owner if since < entry["at"] else None
        if name:
            names[entry["device"]][name] = None
    return {device: list(sent) for device, sent in names.items()}


def late(run: RunView, received: list[Receipt]) -> list[LateEntry]:
    """The entries that were received long after they happened, as they came, and those that were given back."""
    entries = {entry["id"]: entry for entry in run.entries}
    names = {
        **{step["id"]: step["title"] for step in run.sheet["steps"]},
        **{each["id"]: each["name"] for each in run.sheet["ingredients"]},
        **{each["id"]: each["name"] for each in run.sheet["vessels"]},
        **{line["id"]: line["name"] for line in run.sheet["lines"]},
    }
    return [
        {
            "id": entry["id"],
            "at": entry["at"],
            "received_at": each.at,
            "device": entry["device"],
            "sender": each.sender,
            "given_back": bool(each.given_back),
            "kind": entry["kind"],
            "about": _about(entry, names),
        }
        for each in received
        if (entry := entries.get(each.entry)) and each.at is not None
        if each.given_back or each.at - entry["at"] > LATE_MS
    ]


def _about(entry: Entry, names: dict[str, str]) -> str:
    """What an entry tells of, by name; "" for nothing on the sheet."""
    named = (entry["body"].get(field) for field in ("line", "step", "ingredient", "vessel"))
    return next((names[key] for key in named if isinstance(key, str) and key in names), "")
