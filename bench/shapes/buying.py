"""What to buy: needs by day, less what is there and free, in whole packs, and by when to order."""

from typing import Annotated, Literal, NotRequired, TypedDict

from bench.shapes.entries import DayText, Price
from bench.shapes.units import Many, Mg, Within

BoughtBy = Literal["mg", "count"]


class OpenOrder(TypedDict):
    """What was ordered and did not come yet: in mg or in pieces, one of the two is None."""

    order: str  # the entry that told of it
    card: str
    name: str
    mg: Mg | None
    count: int | None
    due: DayText | None
    supplier: str | None


class Quote(TypedDict):
    """What a mg, or a piece, costs by the last price that was noted: price / much."""

    on: DayText
    measure: BoughtBy
    much: int
    price: Price


class Purchases(TypedDict):
    """What the shelf's journal tells of buying."""

    orders: list[OpenOrder]  # those that are due first coming first
    quotes: dict[str, Quote]  # by card


class BuyingUnusable(TypedDict):
    """A lot that goes off before a day on which it is lacking."""

    lot: str
    number: str
    best_before: DayText | None


class BuyingNeed(TypedDict):
    """So much of an ingredient is wanted on a day: in mg or in pieces, one of the two."""

    card: str  # the shelf's
    on: DayText
    mg: NotRequired[Mg]
    count: NotRequired[int]
    what: NotRequired[str]  # what it is for, in its maker's words


class BuyingWant(TypedDict):
    """So many pieces of a recipe, to be begun on a day."""

    recipe: str
    pieces: Annotated[int, Within(1, 10_000)]
    on: DayText


class WrittenBuying(TypedDict):
    wants: Annotated[list[BuyingWant], Many(40)]
    today: DayText


class BuyingPacks(TypedDict):
    """Whole packs as the supplier has them, and what they come to."""

    count: int
    each: int  # mg or pieces
    supplier: str | None
    price: str | None  # of all of them by the newest price, paid or noted, money as text
    currency: str | None


class BuyingRow(TypedDict):
    card: str
    name: str
    measure: BoughtBy
    wanted: int
    free: int  # of what is there, what goes into these needs
    on_order: int  # of what is ordered, what comes in time for these needs
    comes_late: int  # of what is ordered, what comes after their day
    lacking: int
    first_lacking_on: DayText | None
    order_by: DayText | None  # the last day on which it still comes in time; None: nothing lacks
    late: bool  # that day is past
    lead_days: int | None  # None: the card does not say
    packs: BuyingPacks | None  # None: nothing lacks, or the card knows no pack
    unusable: list[BuyingUnusable]


class ReorderPoint(TypedDict):
    """When to order again: by the maker's own figure, or from own use where enough batches say so."""

    card: str
    name: str
    measure: BoughtBy
    left: int  # what is there and free
    on_order: int
    at: int | None  # order once no more than this is left or on order; None: nobody knows
    by: Literal["maker", "use", "unknown"]
    batches: int  # that used it, in the weeks looked at
    weeks: int
    a_week: int | None  # of the weeks looked at, rounded; None where too few batches say
    spread: int | None  # the standard deviation between the weeks
    lead_days: int | None
    due: bool  # it is time
    packs: BuyingPacks | None


class BuyingUnjoined(TypedDict):
    """An ingredient of a recipe that no card answers to, and the cards that are probably it, by id: their names."""

    name: str
    recipes: list[str]
    maybe: dict[str, str]


class BuyingByHand(TypedDict):
    """What goes in with no mass: as needed, or by the spoon; how much is the maker's to know."""

    name: str
    recipes: list[str]


class Buying(TypedDict):
    rows: list[BuyingRow]  # the soonest to order first, and what lacks nothing last
    reorder: list[ReorderPoint]
    unjoined: list[BuyingUnjoined]
    by_hand: list[BuyingByHand]
    orders: list[OpenOrder]  # those that are due first coming first
