"""Labels as PDF at true size: of a batch, alone or on sheets of labels; stickers for lots; a trial of a sheet."""

from __future__ import annotations

from pathlib import Path
from typing import Literal, NotRequired, TypedDict
from uuid import UUID

from flask import Response, current_app

import bench
from api import shelf
from api.answers import ProblemDetails, SettingsSaid
from api.errors import PROBLEM_TYPE, Problem, not_found
from api.records import LabelAsked, Recorded, labelled, recorded, sides_of
from api.schemas import LabelPdfQuery, LotLabelsQuery, SheetTrialQuery
from api.security import DATA
from api.settings import Settings
from api.shapes_openapi import shape
from api.store import reading
from api.studio_settings import SETTINGS
from api.wire import Blueprint
from bench import LabelSheet, words

blueprint = Blueprint("labels", __name__, description="Labels and stickers as PDF at true size")

PDF = "application/pdf"
MM_UM = 1000
# Where nobody said how large a label or a sticker is.
USUAL_UM = 70_000, 50_000
STICKER_MM = 63, 38
# Four of A6 on a sheet of A4.
LEAFLETS: LabelSheet = {
    "name": "",
    "paper": "a4",
    "columns": 2,
    "rows": 2,
    "width_um": 105_000,
    "height_um": 148_500,
    "left_um": 0,
    "top_um": 0,
    "across_um": 105_000,
    "down_um": 148_500,
}


class PdfAsked(LabelAsked):
    """`api.schemas.LabelPdfQuery`, read."""

    of: Literal["label", "leaflet"]
    sheet: NotRequired[str]
    start: int
    count: NotRequired[int]


class StickersAsked(TypedDict):
    """`api.schemas.LotLabelsQuery`, read."""

    lot: list[str]
    sheet: NotRequired[str]
    start: int
    count: int


class TrialAsked(TypedDict):
    """`api.schemas.SheetTrialQuery`, read."""

    sheet: str


@blueprint.get("/runs/<uuid:run_id>/label.pdf")
@blueprint.arguments(LabelPdfQuery(), location="query")
@blueprint.response(200, {"type": "string", "format": "binary"}, content_type=PDF)
@blueprint.alt_response(
    422, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="It cannot be drawn so, and why"
)
def get_label_pdf(asked: PdfAsked, run_id: UUID) -> Response:
    """The label of a batch to print: one of it, or on sheets of labels as many as there are good pieces."""
    from api import label_pdf

    settings = _settings()
    sheet = _sheet(settings, asked["sheet"]) if "sheet" in asked else None
    if sheet:
        width, height = sheet["width_um"], sheet["height_um"]
    else:
        sides = zip(sides_of(settings.get("label", {}), asked), USUAL_UM, strict=True)
        width, height = (side or usual for side, usual in sides)
    asked["width_um"], asked["height_um"] = width, height
    made = recorded(run_id)
    told = labelled(asked, made)
    if asked["of"] == "leaflet":
        return _leaflets(told, asked.get("count") or good_pieces(made))
    face = label_pdf.face_of(told, width, height)
    if not sheet:
        paper: bench.Paper = "letter" if told["market"] == "us" else "a4"
        return _pdf("label.pdf", label_pdf.one_label(face, paper, told["identity"], _font()))
    count = asked.get("count") or good_pieces(made)
    drawn = label_pdf.on_sheets([face] * count, sheet, asked["start"], told["identity"], _font())
    return _pdf("labels.pdf", drawn)


def _leaflets(told: bench.Label, count: int) -> Response:
    """As many as go with the pieces."""
    from api import label_pdf

    if not told["leaflet"]:
        raise Problem(422, words.say("api-labels-no-leaflet"))
    face = label_pdf.leaflet_of(told, LEAFLETS["width_um"], LEAFLETS["height_um"])
    return _pdf("leaflets.pdf", label_pdf.on_sheets([face] * count, LEAFLETS, 1, told["identity"], _font()))


@blueprint.get("/lot-stickers.pdf")
@blueprint.arguments(LotLabelsQuery(), location="query")
@blueprint.response(200, {"type": "string", "format": "binary"}, content_type=PDF)
@blueprint.alt_response(
    422, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="It cannot be drawn so, and why"
)
def get_lot_stickers(asked: StickersAsked) -> Response:
    """Stickers for lots: what it is, number, supplier, dates, a line for when it was opened, and the code it came with."""
    from api import label_pdf

    there = shelf.current_stock()
    sheet = _sheet(_settings(), asked["sheet"]) if "sheet" in asked else None
    width, height = (
        (sheet["width_um"], sheet["height_um"]) if sheet else (side * MM_UM for side in STICKER_MM)
    )
    faces = []
    for lot_id in asked["lot"]:
        lot = there["lots"].get(lot_id)
        if lot is None:
            not_found("lot", "/api/v1/lots")
        plate = bench.lot_plate(lot, bench.called(there, lot["ingredient"]))
        faces += [label_pdf.sticker(plate, width, height, lot["code"])] * asked["count"]
    title = words.say("api-labels-stickers")
    if not sheet:
        return _pdf("stickers.pdf", label_pdf.one_a_page(faces, "a4", title, _font()))
    return _pdf("stickers.pdf", label_pdf.on_sheets(faces, sheet, asked["start"], title, _font()))


@blueprint.get("/label-sheet.pdf")
@blueprint.arguments(SheetTrialQuery(), location="query")
@blueprint.response(200, {"type": "string", "format": "binary"}, content_type=PDF)
@blueprint.alt_response(
    422, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="It cannot be drawn so, and why"
)
def get_sheet_trial(asked: TrialAsked) -> Response:
    """Where the labels of a sheet lie, numbered, to be printed on plain paper and held against it."""
    from api import label_pdf

    return _pdf("sheet.pdf", label_pdf.trial(_sheet(_settings(), asked["sheet"]), _font()))


def good_pieces(made: Recorded) -> int:
    """As many as were counted good; before that, as many as are to be."""
    counted = made.record["yield"]
    return counted["planned"] if counted["good"] is None else max(1, counted["good"])


def _settings() -> SettingsSaid:
    with reading() as connection:
        return SETTINGS.now(connection).document


def _sheet(settings: SettingsSaid, name: str) -> LabelSheet:
    """One of the maker's own by its name, or a common one."""
    own = settings.get("label", {}).get("sheets", [])
    for sheet in (*own, *bench.COMMON_SHEETS):
        if sheet["name"] == name:
            return sheet
    common = ", ".join(sheet["name"] for sheet in bench.COMMON_SHEETS)
    raise Problem(422, words.say("api-labels-no-sheet", name=name, common=common))


def _font() -> Path | None:
    given: Settings = current_app.config["BOWLSIDE"]
    return given.label_font


def _pdf(name: str, drawn: bytes) -> Response:
    headers = (
        *DATA,
        ("Cache-Control", "no-cache"),
        ("Content-Disposition", f'inline; filename="{name}"'),
    )
    return Response(drawn, 200, headers, mimetype=PDF)
