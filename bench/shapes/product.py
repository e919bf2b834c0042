"""What a product is for and where it is sold, and what follows from that: rows of bench/product/table.json."""

from typing import Annotated, Literal, NotRequired, TypedDict

from bench.shapes.entries import DayText, Uuid
from bench.shapes.recipe import ProductUse, SoldIn
from bench.shapes.substances import Trait
from bench.shapes.units import InstantMs, Text


class UseRow(TypedDict):
    use: ProductUse
    stays_on: bool | None  # None: it is not for the skin
    in_water: bool
    categories: list[str]  # of the IFRA Standards, by use
    other_categories: list[str]  # a limit of one of these is for something else
    source: str  # a row of bench/sources.json, as everywhere here


class Law(TypedDict):
    """A law that applies to these uses in these markets."""

    id: str
    uses: list[ProductUse]
    markets: list[SoldIn]
    soap: NotRequired[bool]  # only of what holds a soap base
    source: str
    source_ni: NotRequired[str]  # where that it holds in Northern Ireland is from


DutyOf = Literal["studio", "recipe"]  # seen to once for all, or for each recipe


class Duty(TypedDict):
    """What is due before, or when, something is sold."""

    id: str
    laws: list[str]
    markets: list[SoldIn]
    of: DutyOf
    since: NotRequired[str]  # a day
    small_free: NotRequired[bool]  # a small business may be free of it
    source: str
    source_ni: NotRequired[str]  # where that it holds in Northern Ireland is from


class AnnexLimit(TypedDict):
    """What an annex of the cosmetics regulation limits. A share is of the product, "" where it is forbidden."""

    id: str
    annex: str
    substances: list[str]  # of the table of substances
    counts: NotRequired[str]  # so much of each counts, where the limit is of what it gives: "84.75 %"
    markets: list[SoldIn]
    rinsed: str
    left_on: str
    source: str


class Ban(TypedDict):
    """A law of these markets that ends the use of what has a trait; all of it, or the substances named."""

    id: str
    trait: Trait
    substances: NotRequired[list[str]]
    rinsed: NotRequired[bool]  # only in what is rinsed off
    markets: list[SoldIn]
    source: str


class ProductTable(TypedDict):
    uses: list[UseRow]
    laws: list[Law]
    duties: list[Duty]
    limits: list[AnnexLimit]
    bans: list[Ban]


# How a duty stands, as a maker said it

DutyState = Literal["open", "seen_to", "not_mine"]


class DutySaid(TypedDict):
    """What a maker says of a duty. `about`: the recipe, or none where it is of the whole studio."""

    about: Uuid | None
    duty: Annotated[str, Text(40)]
    state: DutyState
    day: DayText | None
    note: Annotated[str, Text(400, 0)]


class DutyMark(DutySaid):
    id: Uuid
    at: InstantMs  # when it was said


class DutyStands(TypedDict):
    """A duty of a recipe, in words, and how it stands."""

    id: str
    of: DutyOf
    markets: list[SoldIn]  # of those the recipe is sold in
    says: str
    state: DutyState
    day: DayText | None
    note: str
    more: str  # who may be free of it; "" for nobody
    since: str
    source: str
    dated: str


class LawStands(TypedDict):
    id: str
    markets: list[SoldIn]
    says: str
    source: str
    dated: str


class ProductStands(TypedDict):
    """What follows for a recipe from what it is for and where it is sold."""

    use: ProductUse | None  # None: the recipe does not say
    sold_in: list[SoldIn] | None
    laws: list[LawStands]
    duties: list[DutyStands]
    open: int
