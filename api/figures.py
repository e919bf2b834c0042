"""The table over all finished batches: yield, hands' time, cost, spoilage, deviations; by pages, as CSV and as Parquet.

A batch that does not tell something has null there, and an empty cell in a file. A file's columns are whole numbers in
the unit that the name says, so that nothing is rounded and no spreadsheet takes a point for a comma.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from typing import NamedTuple, NotRequired, TypedDict
from uuid import UUID

from flask import Response
from sqlalchemy import Connection, text

from api import shelf
from api.answers import BatchCost, BatchItem, BatchPage, ProblemDetails, RecipeBatches, RecipeBatchesPage
from api.batches import Batch, batches_in
from api.costs import Costing
from api.errors import PROBLEM_TYPE, Problem
from api.parquet import PARQUET, can_write, parquet
from api.schemas import FiguresPageQuery, FiguresQuery, RecipeBatchesQuery
from api.shapes_openapi import shape
from api.spreadsheet import CSV, Cell, instant, spreadsheet
from api.store import reading
from api.wire import Blueprint, PageAsked, answer, first_of, paged, pages_of, unkept
from bench import words

blueprint = Blueprint("figures", __name__, description="What finished batches came to")

COUNT = "SELECT count(*) FROM batch_figures {where}"
RECIPES = text(
    "SELECT id, title FROM recipe WHERE EXISTS (SELECT 1 FROM batch_figures WHERE recipe_id = recipe.id)"
    " ORDER BY title, id LIMIT :limit OFFSET :offset"
)
RECIPE_COUNT = text("SELECT count(DISTINCT recipe_id) FROM batch_figures")
PAGE = "LIMIT :limit OFFSET :offset"
LAST_OF_RECIPE = 30
CONDITIONS = {
    "recipe": "recipe_id = :recipe",
    "version": "version = :version",
    "finished_from": "finished_at >= :finished_from",
    "finished_to": "finished_at < :finished_to",
}


class FiguresAsked(TypedDict):
    """`api.schemas.FiguresQuery`, read."""

    recipe: NotRequired[UUID]
    version: NotRequired[int]
    finished_from: NotRequired[int]
    finished_to: NotRequired[int]


class FiguresPageAsked(FiguresAsked, PageAsked):
    """`api.schemas.FiguresPageQuery`, read."""


class Column(NamedTuple):
    """A column of the files: its name with its unit, what it is of, what stands in it, and what that is."""

    name: str
    kind: type[str] | type[int]
    tell: Callable[[BatchItem], Cell]
    description: str


@blueprint.get("/figures")
@blueprint.arguments(FiguresPageQuery(), location="query")
@blueprint.response(200, shape(BatchPage))
def list_figures(asked: FiguresPageAsked) -> Response:
    """The finished batches in figures, the newest first; of one recipe, one version or a time. For makers alone."""
    where, named = _wanted(asked)
    page = {"limit": asked["page_size"], "offset": first_of(asked)}
    there = shelf.current_stock()
    with reading() as connection:
        total = connection.scalar(text(COUNT.format(where=where)), named) or 0
        costing = Costing.now(connection, there)
        items = [_item(each, costing) for each in batches_in(connection, where, {**named, **page}, PAGE)]
    told: BatchPage = {
        "batches": items,
        "page": asked["page"],
        "pages": pages_of(total, asked),
        "total": total,
        "parquet": can_write(),
    }
    return unkept(answer(told))


@blueprint.get("/figures/by-recipe")
@blueprint.arguments(RecipeBatchesQuery(), location="query")
@blueprint.response(200, shape(RecipeBatchesPage))
def list_by_recipe(asked: PageAsked) -> Response:
    """The last thirty finished batches of each recipe, to be seen side by side. For makers alone."""
    there = shelf.current_stock()
    page = {"limit": asked["page_size"], "offset": first_of(asked)}
    with reading() as connection:
        total = connection.scalar(RECIPE_COUNT) or 0
        costing = Costing.now(connection, there)
        recipes = [
            _last_of(connection, id_, title, costing)
            for id_, title in connection.execute(RECIPES, page).all()
        ]
    return unkept(paged("recipes", recipes, total, asked))


@blueprint.get("/figures.csv")
@blueprint.arguments(FiguresQuery(), location="query")
@blueprint.response(200, {"type": "string"}, content_type=CSV)
def get_figures_csv(asked: FiguresAsked) -> Response:
    """The whole table as a spreadsheet: a row a batch, whole numbers in the unit that a column's name says."""
    rows = ([each.tell(item) for each in COLUMNS] for item in _items(asked))
    return unkept(spreadsheet("batches.csv", [each.name for each in COLUMNS], rows))


@blueprint.get("/figures.parquet")
@blueprint.arguments(FiguresQuery(), location="query")
@blueprint.response(200, {"type": "string", "format": "binary"}, content_type=PARQUET)
@blueprint.alt_response(
    501, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="This server writes no Parquet"
)
def get_figures_parquet(asked: FiguresAsked) -> Response:
    """The same table as Apache Parquet; each column says what it is under `description`."""
    if not can_write():
        raise Problem(501, words.say("api-studio-no-parquet", extra="bowlside[parquet]", csv="/figures.csv"))
    rows = ([each.tell(item) for each in COLUMNS] for item in _items(asked))
    return unkept(
        parquet("batches.parquet", [(each.name, each.kind, each.description) for each in COLUMNS], rows)
    )


def _wanted(asked: FiguresAsked) -> tuple[str, dict[str, object]]:
    """The condition that the batches meet, and the values it names."""
    named: dict[str, object] = {key: value for key, value in asked.items() if key in CONDITIONS}
    where = " AND ".join(CONDITIONS[key] for key in named)
    if "recipe" in named:
        named["recipe"] = str(named["recipe"])
    return f"WHERE {where}" if where else "", named


def _items(asked: FiguresAsked) -> Iterator[BatchItem]:
    where, named = _wanted(asked)
    there = shelf.current_stock()
    with reading() as connection:
        costing = Costing.now(connection, there)
        for each in batches_in(connection, where, named):
            yield _item(each, costing)


def _last_of(connection: Connection, recipe: str, title: str, costing: Costing) -> RecipeBatches:
    page = {"recipe": recipe, "limit": LAST_OF_RECIPE, "offset": 0}
    last = [_item(each, costing) for each in batches_in(connection, "WHERE recipe_id = :recipe", page, PAGE)]
    return {"recipe": recipe, "title": title, "batches": last[::-1]}


def _item(batch: Batch, costing: Costing) -> BatchItem:
    return {
        **batch.figures,
        "run": batch.run,
        "number": batch.number,
        "recipe": batch.recipe,
        "version": batch.version,
        "title": batch.title,
        "finished_at": batch.finished_at,
        "release": batch.release,
        "cost": costing.of(batch.basis),
    }


def _units(amount: str | None, decimals: int) -> int | None:
    """Money in the smallest unit of its currency."""
    return None if amount is None else int(Decimal(amount).scaleb(decimals))


def _cost(tell: Callable[[BatchCost], Cell]) -> Callable[[BatchItem], Cell]:
    return lambda item: tell(item["cost"]) if item["cost"] else None


COLUMNS = (
    Column("batch_id", str, lambda item: item["run"], description="The batch, as the API names it"),
    Column("batch_number", str, lambda item: item["number"], description="Its number"),
    Column("recipe_id", str, lambda item: item["recipe"], description="The recipe, as the API names it"),
    Column(
        "recipe_version", int, lambda item: item["version"], description="The version that it was made by"
    ),
    Column("recipe", str, lambda item: item["title"], description="The recipe's title then"),
    Column(
        "started_utc", str, lambda item: instant(item["started_at"]), description="ISO 8601, to the second"
    ),
    Column(
        "finished_utc", str, lambda item: instant(item["finished_at"]), description="ISO 8601, to the second"
    ),
    Column(
        "release",
        str,
        lambda item: item["release"],
        description="released, held or rejected; empty: not judged",
    ),
    Column(
        "planned_pieces",
        int,
        lambda item: item["pieces_planned"],
        description="Pieces that the sheet was for",
    ),
    Column(
        "good_pieces", int, lambda item: item["pieces_good"], description="Good pieces, kept ones among them"
    ),
    Column(
        "kept_pieces", int, lambda item: item["pieces_kept"], description="Good pieces that were kept back"
    ),
    Column("spoiled_pieces", int, lambda item: item["pieces_spoiled"], description="Spoiled pieces"),
    Column(
        "yield_ppm",
        int,
        lambda item: item["yield_ppm"],
        description="Good pieces of those planned; 10000 is 1 %",
    ),
    Column(
        "spoiled_ppm", int, lambda item: item["spoiled_ppm"], description="Spoiled pieces of those counted"
    ),
    Column(
        "lost_ppm",
        int,
        lambda item: item["lost_ppm"],
        description="Of the mass that went in: left or unaccounted",
    ),
    Column("hands_ms", int, lambda item: item["hands_ms"], description="Time that hands were at work"),
    Column(
        "hands_ms_per_piece",
        int,
        lambda item: item["hands_ms_per_piece"],
        description="The same, a good piece",
    ),
    Column(
        "deviations", int, lambda item: item["deviations"], description="Departures that the record lists"
    ),
    Column("currency", str, _cost(lambda cost: cost["currency"]), description="ISO 4217"),
    Column(
        "currency_decimals",
        int,
        _cost(lambda cost: cost["decimals"]),
        description="2: the unit is a hundredth",
    ),
    Column(
        "cost_units",
        int,
        _cost(lambda cost: _units(cost["total"], cost["decimals"])),
        description="What it cost, in the smallest unit",
    ),
    Column(
        "cost_units_per_piece",
        int,
        _cost(lambda cost: _units(cost["per_piece"], cost["decimals"])),
        description="The same, a good piece that was not kept back",
    ),
    Column(
        "cost_unpriced",
        int,
        _cost(lambda cost: cost["unpriced"]),
        description="Materials without a price: above 0, it cost at least so much",
    ),
)
