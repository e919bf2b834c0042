"""What to buy for what is planned, and what to order again: nothing is kept, all follows from shelf and records."""

from __future__ import annotations

from typing import NamedTuple
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, select

import bench
from api import shelf
from api.clock import now_ms
from api.errors import Problem
from api.kit import measured_kit
from api.openapi import document_body
from api.parts import PartMakers
from api.recipes import current_version, sized
from api.runs import load_run_in
from api.shapes_openapi import shape
from api.store import reading
from api.tables import LotUse, Run
from api.wire import Blueprint, answer, read_document
from bench import Book, BuyingNeed, BuyingUnjoined, OpenOrder, Sheet, Taken, Used, WrittenBuying, words

blueprint = Blueprint("buying", __name__, description="What to buy, and when to order again")


@blueprint.post("/buying")
@blueprint.doc(requestBody=document_body({**shape("WrittenBuying")}))
@blueprint.response(200, shape("Buying"))
def what_to_buy() -> Response:
    """What these recipes want by their days, less what is there and free, in whole packs and by when to order.

    What open batches have set aside is not free; what they have not gathered yet is wanted today. `reorder` says of
    every ingredient at how much to order again: the maker's own figure, or one from use in at least five batches.
    """
    asked = bench.check_buying(read_document())
    told = shelf.current_purchases()
    orders = told["orders"]
    with reading() as connection:
        sheets = _sheets(connection, asked)
        there, uses, used, begun = on_shelf(connection)
        parts = PartMakers(connection, there, Book(there))
    book = Book(there)
    told = {**told, "orders": [*told["orders"], *_made_ahead(sheets, parts)]}
    planned = {sheet["recipe"]["id"] for sheet, _ in sheets}
    needs: list[BuyingNeed] = []
    unjoined: list[BuyingUnjoined] = []
    every = [*sheets, *((sheet, asked["today"]) for sheet in begun)]
    for sheet, on in every:
        wanted, strange = bench.needs_of(sheet, on, book)
        needs += wanted
        unjoined += strange
    return answer(
        {
            "rows": bench.to_buy(needs, there, uses, asked["today"], told),
            "reorder": bench.reorder_points(used, there, uses, now_ms(), told),
            "unjoined": bench.joined_unjoined(
                [each for each in unjoined if parts.recipe_of(each["name"]) not in planned]
            ),
            "by_hand": bench.by_hand_of(sheet for sheet, _ in every),
            "orders": orders,
        }
    )


class OnShelf(NamedTuple):
    """The shelf, and what is taken of it or wanted at once."""

    there: bench.Shelf
    uses: dict[str, list[Taken]]  # by lot, what all runs took or set aside
    used: list[Used]  # by run and card
    begun: list[Sheet]  # of each open batch what it has still to lay out


def on_shelf(connection: Connection) -> OnShelf:
    there = shelf.current_stock()
    uses, used = _uses(connection, there)
    begun: list[Sheet] = []
    for run in connection.scalars(select(Run.id).where(Run.finished_at.is_(None))):
        view = load_run_in(connection, run)
        for lot, aside in bench.aside_of(view.sheet, view.state, view.entries).items():
            uses.setdefault(lot, []).append(aside)
        begun.append(bench.ungathered(view.sheet, view.state))
    return OnShelf(there, uses, used, begun)


def _made_ahead(sheets: list[tuple[Sheet, str]], parts: PartMakers) -> list[OpenOrder]:
    """What is made of the shelf's cards by their days, as if it were on order: it need not be bought."""
    cards = {made: card for card in parts.book.cards if (made := parts.maker_of(card))}
    return [
        {
            "order": "",
            "card": card,
            "name": sheet["recipe"]["title"],
            "mg": sheet["size"]["pieces"]
            * sum(each["takes"] * each["piece_mg"] for each in sheet["components"]),
            "count": sheet["size"]["pieces"],
            "due": on,
            "supplier": None,
        }
        for sheet, on in sheets
        if (card := cards.get(sheet["recipe"]["id"]))
    ]


def _sheets(connection: Connection, asked: WrittenBuying) -> list[tuple[Sheet, str]]:
    """The sheet of each recipe that is wanted, and its day."""
    kit = measured_kit(connection)
    made: list[tuple[Sheet, str]] = []
    for place, want in enumerate(asked["wants"]):
        try:
            found = current_version(connection, str(UUID(want["recipe"])))
        except ValueError:
            found = None
        if found is None:
            raise Problem(
                422,
                words.say("api-buying-no-recipe"),
                errors=[(f"wants.{place}.recipe", words.say("api-buying-no-recipe"))],
            )
        made.append((sized(found, kit, {"by": "pieces", "pieces": want["pieces"]})[1], want["on"]))
    return made


def _uses(connection: Connection, there: bench.Shelf) -> tuple[dict[str, list[Taken]], list[Used]]:
    """What all runs took, by lot; and by run and card."""
    uses: dict[str, list[Taken]] = {}
    by_run: dict[tuple[str, str], Used] = {}
    for run, lot, mg, count, at in connection.execute(
        select(LotUse.run_id, LotUse.lot_id, LotUse.mg, LotUse.count, LotUse.used_at)
    ):
        uses.setdefault(lot, []).append({"mg": mg, "count": count, "at": at})
        if lot in there["lots"]:
            card = there["lots"][lot]["ingredient"]
            had = by_run.get((run, card), Used(card, at, 0, 0))
            by_run[run, card] = Used(card, max(at, had.at), had.mg + mg, had.pieces + count)
    return uses, list(by_run.values())
