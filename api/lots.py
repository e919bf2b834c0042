"""What is on the shelf: ingredients, lots and what is left of each, and every batch that one went into."""

from __future__ import annotations

from flask import Response
from sqlalchemy import Connection, select

import bench
from api import shelf, traces
from api.answers import IngredientPage, LotPage
from api.door.gate import is_helper
from api.errors import not_found
from api.schemas import AfterQuery, LotQuery, PageQuery
from api.shapes_openapi import shape
from api.spreadsheet import CSV, Cell, instant, spreadsheet
from api.store import reading
from api.tables import LotUse
from api.traces import AfterAsked
from api.wire import Blueprint, PageAsked, answer, first_of, paged
from bench import IngredientThere, LotMending, LotRun, LotThere, Shelf, ShelfIngredient, ShelfLot, Taken

blueprint = Blueprint("lots", __name__, description="Ingredients and lots, and the batches they went into")

RECALLED = (
    "ingredient",
    "supplier",
    "lot_number",
    "lot",
    "batch",
    "product",
    "recipe_version",
    "pieces_planned",
    "begun",
    "finished",
    "release",
    "used_mg",
    "used_count",
    "run",
)


class LotAsked(PageAsked, total=False):
    """`api.schemas.LotQuery`, read."""

    ingredient: str
    open: bool


@blueprint.get("/ingredients")
@blueprint.arguments(PageQuery(), location="query")
@blueprint.response(200, shape(IngredientPage))
def list_ingredients(asked: PageAsked) -> Response:
    """The ingredients by name: the card of each, and what all its lots have left together."""
    there = shelf.current_stock()
    keys = sorted(there["ingredients"], key=lambda key: (_name(there["ingredients"][key]), key))
    first = first_of(asked)
    with reading() as connection:
        items = [_ingredient(connection, there, key)[0] for key in keys[first : first + asked["page_size"]]]
    return paged("ingredients", items, len(keys), asked)


@blueprint.get("/ingredients/<string:ingredient_id>")
@blueprint.response(200, shape("IngredientWhole"))
def get_ingredient(ingredient_id: str) -> Response:
    """An ingredient with its card, its notes and its lots."""
    there = shelf.current_stock()
    if ingredient_id not in there["ingredients"]:
        not_found("ingredient", "/api/v1/ingredients")
    with reading() as connection:
        item, lots = _ingredient(connection, there, ingredient_id)
    return answer({**item, "lots": lots})


@blueprint.get("/lots")
@blueprint.arguments(LotQuery(), location="query")
@blueprint.response(200, shape(LotPage))
def list_lots(asked: LotAsked) -> Response:
    """The lots, those that go off first coming first; `open=true` for those with something left."""
    lots = shelf.current_stock()["lots"]
    if "ingredient" in asked:
        lots = {key: lot for key, lot in lots.items() if lot["ingredient"] == asked["ingredient"]}
    first = first_of(asked)
    page = slice(first, first + asked["page_size"])
    with reading() as connection:
        if "open" not in asked:  # what is left of the others need not be known
            keys = sorted(lots, key=lambda key: _goes_off(key, lots[key]))[page]
            return paged(
                "lots", lots_with_left(connection, {key: lots[key] for key in keys}), len(lots), asked
            )
        found = [lot for lot in lots_with_left(connection, lots) if is_open(lot) == asked["open"]]
    return paged("lots", found[page], len(found), asked)


@blueprint.get("/lots/<string:lot_id>")
@blueprint.response(200, shape("LotThere"))
def get_lot(lot_id: str) -> Response:
    """A lot and what is left of it."""
    lots = shelf.current_stock()["lots"]
    if lot_id not in lots:
        traces.no_such_lot()
    with reading() as connection:
        return answer(lots_with_left(connection, {lot_id: lots[lot_id]})[0])


@blueprint.get("/lots/<string:lot_id>/trace")
@blueprint.arguments(AfterQuery(), location="query")
@blueprint.response(200, shape("Trace"))
def trace_lot(asked: AfterAsked, lot_id: str) -> Response:
    """The batches that a lot went into, the last to use it first, and how much; then those that have it through a part.

    `next` is what to ask for `after` to go on, or null.
    """
    with reading() as connection:
        spread = traces.of_lot(connection, lot_id)
        found = traces.page_after(connection, spread, asked)
        runs = traces.runs_of(connection, found.batches)
        total = traces.count(connection, spread)
    return answer({"lot": lot_id, "runs": runs, "next": found.next, "total": total})


@blueprint.get("/lots/<string:lot_id>/recall.csv")
@blueprint.response(200, {"type": "string"}, content_type=CSV)
def recall(lot_id: str) -> Response:
    """The same as a spreadsheet: a list to recall by. Masses in whole mg, times in UTC."""
    with reading() as connection:
        parts = traces.parts(connection, traces.of_lot(connection, lot_id))
        runs = [run for part in parts for run in traces.runs_of(connection, part)]
    there = shelf.current_stock()
    lot = there["lots"].get(lot_id)
    card = there["ingredients"][lot["ingredient"]]["card"] if lot else None
    of_lot = (
        card["name"] if card else None,
        lot["supplier"] if lot else None,
        lot["number"] if lot else None,
        lot_id,
    )
    return spreadsheet("recall.csv", RECALLED, ((*of_lot, *_recalled(run)) for run in runs))


def _recalled(run: LotRun) -> tuple[Cell, ...]:
    return (
        run["number"],
        run["title"],
        run["recipe_version"],
        run["pieces"],
        instant(run["at"]),
        instant(run["finished_at"]),
        run["release"],
        run["mg"],
        run["count"],
        run["id"],
    )


def lots_with_left(connection: Connection, lots: dict[str, ShelfLot]) -> list[LotThere]:
    """These lots of the folded shelf with what each has left, those that go off first coming first.

    A helper is not told what they were bought for.
    """
    uses: dict[str, list[Taken]] = {}
    for lot_id, mg, count, used_at in connection.execute(
        select(LotUse.lot_id, LotUse.mg, LotUse.count, LotUse.used_at).where(LotUse.lot_id.in_(lots))
    ):
        uses.setdefault(lot_id, []).append({"mg": mg, "count": count, "at": used_at})
    found: list[LotThere] = []
    for key, lot in lots.items():
        left = bench.left_of(lot, uses.get(key, []))
        weighed = lot["count"] is None
        found.append(
            {
                **(less_money(lot) if is_helper() else lot),
                "id": key,
                "left_mg": left if weighed else None,
                "left_count": None if weighed else left,
            }
        )
    return sorted(found, key=lambda lot: _goes_off(lot["id"], lot))


def _goes_off(key: str, lot: ShelfLot) -> tuple[bool, str, str, str]:
    """The order of lots: those that go off first coming first, those of no day last."""
    return lot["best_before"] is None, lot["best_before"] or "", lot["received_on"], key


def less_money(lot: ShelfLot) -> ShelfLot:
    """A lot, less what it was bought for and what it once was said to be bought for."""
    mended: list[LotMending] = []
    for each in lot["mended"]:
        was = each["was"].copy()
        was.pop("price", None)
        mended.append({**each, "was": was})
    return {**lot, "price": None, "mended": mended}


def is_open(lot: LotThere) -> bool:
    """Whether a lot has something left."""
    return (lot["left_mg"] or lot["left_count"] or 0) > 0


def _name(ingredient: ShelfIngredient) -> str:
    return ingredient["card"]["name"].casefold() if ingredient["card"] else ""


def _ingredient(connection: Connection, there: Shelf, key: str) -> tuple[IngredientThere, list[LotThere]]:
    """An ingredient as it is listed, and its lots."""
    lots = lots_with_left(
        connection, {lot: each for lot, each in there["lots"].items() if each["ingredient"] == key}
    )
    ingredient = there["ingredients"][key]
    return {
        **ingredient,
        "id": key,
        "left_mg": sum(max(0, lot["left_mg"] or 0) for lot in lots),
        "left_count": sum(max(0, lot["left_count"] or 0) for lot in lots),
    }, lots
