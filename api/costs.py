"""What a batch costs: before it is made, by the shelf's prices, and after, by what was really used. For makers alone."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import UTC, datetime
from decimal import Decimal
from functools import lru_cache
from typing import ClassVar
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, select

import bench
from api import shelf
from api.answers import BatchCost, ProblemDetails, SettingsSaid
from api.buying import on_shelf
from api.clock import now_ms
from api.errors import PROBLEM_TYPE, Problem, not_found
from api.finished import OF_THE_SHELF
from api.kit import measured_kit
from api.recipes import current_version, sized
from api.records import recorded
from api.schemas import SizeRequest
from api.shapes_openapi import shape
from api.store import execute, reading
from api.studio_settings import DECIMALS, SETTINGS
from api.tables import LotUse
from api.wire import Blueprint, answer, unkept
from bench import Cost, CostBasis, CostSettings, Purchases, Sheet, Shelf, Taken, words

blueprint = Blueprint("costs", __name__, description="What a batch costs, before and after")
COSTS_HELD = 2048
NO_CURRENCY = blueprint.alt_response(
    409, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="There is no currency yet"
)


@blueprint.get("/runs/<uuid:run_id>/cost")
@blueprint.response(200, shape("WholeCost"))
@NO_CURRENCY
def get_cost(run_id: UUID) -> Response:
    """What the batch cost, by lot at what was really used, hands, wrap and all else; per good piece, with a price.

    `ahead` is what its sheet would have cost on the shelf as it stood when the batch was begun.
    """
    made = recorded(run_id)
    there = shelf.current_stock()
    begun = made.record["started_at"]
    with reading() as connection:
        lots = [there["lots"].get(each["lot"]) for each in made.record["lots"]]
        paid = [lot["price"]["currency"] for lot in lots if lot and lot["price"]]
        money = _money(connection, paid)
        ahead = None if begun is None else _as_it_was(connection, str(run_id), made.run.sheet, begun, money)
    told = bench.cost(made.record, made.run.sheet, there, money, _places(there, money))
    return unkept(answer({"currency": money["currency"], "ahead": ahead, **told}))


@blueprint.post("/recipes/<uuid:recipe_id>/cost")
@blueprint.arguments(SizeRequest())
@blueprint.response(200, shape("WholeCost"))
@NO_CURRENCY
def get_cost_ahead(asked: bench.SizeRequest, recipe_id: UUID) -> Response:
    """What a size of a recipe would cost, by the lots that would be taken and else by the newest prices. Nothing is kept."""
    told = shelf.current_purchases()
    with reading() as connection:
        found = current_version(connection, str(recipe_id))
        if found is None:
            not_found("recipe", "/api/v1/recipes")
        _, sheet = sized(found, measured_kit(connection), asked)
        stands = on_shelf(connection)
        money = _money(connection, _currencies(stands.there))
    cost = _ahead(sheet, stands.there, stands.uses, told, now_ms(), money)
    return unkept(answer({"currency": money["currency"], "ahead": None, **cost}))


def _as_it_was(connection: Connection, run: str, sheet: Sheet, begun: int, money: CostSettings) -> Cost:
    entries = [
        each
        for each in json.loads(execute(connection, OF_THE_SHELF, {}).fetchone()[0])
        if each["at"] <= begun
    ]
    there = bench.fold_shelf(entries)
    told = bench.fold_purchases(entries, there)
    return _ahead(sheet, there, _uses(connection, run, begun), told, begun, money)


def _ahead(
    sheet: Sheet, there: Shelf, uses: dict[str, list[Taken]], told: Purchases, at: int, money: CostSettings
) -> Cost:
    day = datetime.fromtimestamp(at / 1000, UTC).date().isoformat()
    priced = [quote["price"]["currency"] for quote in told["quotes"].values()]
    return bench.cost_ahead(sheet, there, uses, told, day, money, _places(there, money, priced))


def _uses(connection: Connection, but: str, until: int) -> dict[str, list[Taken]]:
    """What batches took of each lot until then; of its own nothing."""
    uses: dict[str, list[Taken]] = {}
    for run, lot, mg, count, at in connection.execute(
        select(LotUse.run_id, LotUse.lot_id, LotUse.mg, LotUse.count, LotUse.used_at)
    ):
        if run != but and at <= until:
            uses.setdefault(lot, []).append({"mg": mg, "count": count, "at": at})
    return uses


class Costing:
    """What finished batches cost at the shelf's prices and by the settings, as both are now; as `get_cost` tells.

    `of(basis)` takes a batch's basis as it is kept, as text: what was worked out once is known until either moves.
    """

    _last: ClassVar[Costing | None] = None

    def __init__(self, settings: SettingsSaid, there: Shelf) -> None:
        self._settings = settings
        self._there = there
        self._places = {each: bench.places_of(each) for each in _currencies(there)}
        self.of = lru_cache(maxsize=COSTS_HELD)(self._cost_of)

    @classmethod
    def now(cls, connection: Connection, there: Shelf) -> Costing:
        """The last one, while neither moved: the shelf is held (`shelf.current_stock`)."""
        settings, last = SETTINGS.now(connection).document, cls._last
        if last is None or last._there is not there or last._settings != settings:
            cls._last = last = cls(settings, there)
        return last

    def _cost_of(self, kept: str) -> BatchCost | None:
        """In the maker's own currency; None where nothing of it has a price."""
        basis: CostBasis = json.loads(kept)
        lots = (self._there["lots"].get(each["lot"]) for each in basis["lots"])
        paid = (lot["price"]["currency"] for lot in lots if lot and lot["price"])
        own = self._settings.get("currency") or next(paid, None)
        if own is None:
            return None
        places = self._places.setdefault(own, bench.places_of(own))
        told = bench.cost_of(basis, self._there, money_of(self._settings, own), self._places)
        total = told["totals"][own]
        foreign = [row for row in told["materials"] if row["currency"] != own]
        unpriced = len(told["unpriced"]) + len(foreign)
        if unpriced and not Decimal(total["total"]):
            return None
        return {
            "currency": own,
            "decimals": places,
            "total": total["total"],
            "per_piece": total["per_piece"],
            "unpriced": unpriced,
        }


def money_of(settings: SettingsSaid, own: str) -> CostSettings:
    """What the settings say of money, as the bench reckons with it."""
    money = CostSettings(
        currency=own,
        without_tax=settings.get("without_tax", False),
        cleaning_minutes=settings.get("cleaning_minutes", 0),
        labelling_seconds=settings.get("labelling_seconds", 0),
    )
    for field in DECIMALS:
        money[field] = settings.get(field) or ""
    return money


def _money(connection: Connection, currencies: list[str]) -> CostSettings:
    """By the maker's own currency, else the first of these."""
    settings = SETTINGS.now(connection).document
    own = settings.get("currency") or next(iter(currencies), None)
    if own is None:
        raise Problem(409, words.say("api-studio-currency-wanted", request="PUT /api/v1/settings"))
    return money_of(settings, own)


def _currencies(there: Shelf) -> list[str]:
    return [lot["price"]["currency"] for lot in there["lots"].values() if lot["price"]]


def _places(there: Shelf, money: CostSettings, more: Iterable[str] = ()) -> dict[str, int]:
    known = {money["currency"], *_currencies(there), *more}
    return {currency: bench.places_of(currency) for currency in known}
