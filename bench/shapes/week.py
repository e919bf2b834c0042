"""A week from wants: an order of work, what can be made at which size, and the plan that comes of it.

An instant is whole ms, a duration too. A *sitting* is a stretch of a batch that one maker works without a break; it is
planned whole, and what goes on by itself between two of them holds nobody's hands.
"""

from typing import Literal, NotRequired, TypedDict

from bench.shapes.planning import Equipment, GapClass, MakerHours
from bench.shapes.units import Id, InstantMs, Mg, Ms, Ppm

WeekStatus = Literal["proven", "found", "rule"]  # rule: no solver was there, or it found nothing better
WeekAimName = Literal["short", "back", "quality", "batches", "hands", "age"]
WantState = Literal["open", "met", "dropped"]
Loosened = Literal["hours", "later", "equipment", "lot", "quality"]


class OrderWant(TypedDict):
    """A line of the order of work, as its maker keeps it."""

    id: str
    version: int
    recipe: str
    pieces: int
    by: InstantMs
    outlet: str | None  # for whom: an outlet's id, whose name is kept there and can be erased
    note: str
    state: WantState


class StockedPieces(TypedDict):
    """Finished pieces of one batch that can be handed over."""

    run: str
    recipe: str
    pieces: int
    until: InstantMs | None  # None: they keep


class OrderLine(TypedDict):
    """Where the pieces of a line of the order come from, by a plan."""

    want: str
    there: int  # of finished pieces
    coming: int  # of batches on the bench
    made: int  # of batches that are planned
    short: int


class BegunRun(TypedDict):
    """A batch that was begun since a plan was made."""

    run: str
    recipe: str
    begun_at: InstantMs
    finished_at: InstantMs | None
    good: int | None  # None: not counted yet


class BatchBegun(BegunRun):
    """A planned batch that was begun."""

    batch: int  # its place in the plan


class Want(TypedDict):
    """Good pieces of one recipe, wanted by an instant."""

    id: str
    make: str  # whose `Make`
    pieces: int
    by: InstantMs


class There(TypedDict):
    """Good pieces that are there already, or will be."""

    make: str
    pieces: int
    since: InstantMs
    until: InstantMs | None  # None: they keep


class WeekLot(TypedDict):
    """So much of an ingredient: stock, or a delivery that is expected."""

    id: str
    ingredient: Id
    mg: Mg  # pieces of what is counted
    since: InstantMs
    until: InstantMs | None  # mixed by then; None: it keeps


class WeekBusy(TypedDict):
    """What a batch on the bench has of the kit."""

    equipment: str
    many: int
    since: InstantMs
    until: InstantMs


class Sitting(TypedDict):
    """A stretch of one batch that one maker works without a break."""

    name: str  # what is done in it: the parts, by name
    lasts_ms: Ms
    until_ms: Ms  # from its start: when all that was begun in it has ended, by itself too


Apart = TypedDict(
    "Apart",
    {
        "from": int,  # a sitting, by its place
        "to": int,  # a later one
        "least_ms": Ms,  # from start to start
        "most_ms": Ms | None,  # None: whenever
        "class": GapClass,
        "price_ms": Ms,  # of the hands, to bring back what was left too long
    },
)

WeekHold = TypedDict(
    "WeekHold",
    {
        "equipment": str,
        "many": int,
        "from": int,  # a sitting, by its place
        "from_ms": Ms,  # after its start
        "until": int,
        "until_ms": Ms,
    },
)


class SizeToMake(TypedDict):
    """One batch of a recipe at one size."""

    pieces: int  # to be made
    good: int  # that are likely to be good
    hands_ms: Ms
    sittings: list[Sitting]  # in their order
    apart: list[Apart]
    holds: list[WeekHold]
    takes: dict[Id, int]  # mg, or pieces of what is counted


class PartMade(TypedDict):
    """What a good piece is to batches that it goes into, of a recipe that is a part made ahead."""

    ingredient: Id  # as their `takes` name it
    each: int  # of one piece: mg, or 1 where it is counted


class Make(TypedDict):
    """What can be made of one recipe, at which sizes."""

    id: str
    title: str
    keeps_ms: Ms | None  # a good piece is handed over within; None: it keeps
    sizes: list[SizeToMake]  # the smallest first
    part: NotRequired[PartMade]


class Spoilage(TypedDict):
    """How many of the pieces made are spoiled, by own runs. The interval is Wilson's, of 95 %."""

    runs: int
    made: int
    spoiled: int
    share_ppm: Ppm  # of the runs together
    low_ppm: Ppm
    high_ppm: Ppm


class Week(TypedDict):
    """All that a week is planned from."""

    since: InstantMs
    zone: str
    makers: list[MakerHours]
    equipment: dict[str, Equipment]
    wants: list[Want]
    makes: list[Make]
    there: list[There]
    lots: list[WeekLot]  # an ingredient that has none, and is no recipe's part, is not counted
    busy: list[WeekBusy]


class PlacedSitting(TypedDict):
    """A sitting with its time and its maker."""

    name: str
    starts_at: InstantMs
    ends_at: InstantMs
    maker: int  # its place in makers
    keeps_ms: Ms | None  # what comes after it may begin so long after its start; None: whenever


class WeekPart(TypedDict):
    """What a batch takes of a part that is made ahead; one of batch and there is a place."""

    ingredient: Id
    much: int  # mg, or pieces of what is counted
    batch: int | None  # in the plan's batches
    there: int | None  # in the week's pieces that are there


class WeekBatch(TypedDict):
    """One batch of the plan."""

    make: str
    size: int  # its place in sizes
    pieces: int
    good: int
    sittings: list[PlacedSitting]
    ready_at: InstantMs
    gives: dict[str, int]  # want -> good pieces
    takes: dict[str, int]  # lot -> how much
    parts: NotRequired[list[WeekPart]]  # where it takes some
    begin_by: (
        InstantMs | None
    )  # begun later than this, all else as planned, it is late; None: nothing waits for it


class WeekShort(TypedDict):
    """A want that is not met."""

    want: str
    short: int


class WeekAim(TypedDict):
    """One aim: pieces, broken windows or batches as a count, all else in ms."""

    aim: WeekAimName
    value: int
    bound: int | None  # nothing is better than this with these sizes and sittings; None: not known
    proven: bool


class WeekHelp(TypedDict):
    """One thing loosened, and how many pieces would still be short."""

    what: Loosened
    short: int
    want: NotRequired[str]  # for later
    ms: NotRequired[Ms]  # how much later, or how much longer
    maker: NotRequired[int]  # for hours: its place in makers
    at: NotRequired[InstantMs]  # for hours: when that stretch closes now
    equipment: NotRequired[str]
    ingredient: NotRequired[Id]


class WeekPlan(TypedDict):
    """Which batches of what size, when, by whom, for whom; and how good that is known to be."""

    status: WeekStatus  # of the first aim
    aims: list[WeekAim]  # in their order
    batches: list[WeekBatch]  # by their first start
    from_there: dict[str, int]  # want -> pieces that were there already
    short: list[WeekShort]
    within: int  # of so many batches at most; a proof holds for these
    served: list[
        list[str]
    ]  # where something is short: wants that could all be met, instead of those that are now
    helps: list[WeekHelp]  # the best first


class LotWay(TypedDict):
    """One way to make an item."""

    gives: int | None  # at most; None: as much as is wanted
    price: list[int]  # by period
    uses: dict[str, int]  # what it takes, whatever the quantity
    first: int  # the first period in which it can be ready


class LotItem(TypedDict):
    """One item of a lot-sizing problem."""

    wanted: list[int]  # by period
    beside: NotRequired[int]  # so many more at most go into other items, as the limits say
    short: int | None  # the price of one that is missing; None: none may be
    ways: list[LotWay]
    each: dict[str, int]  # what one piece takes
    piece_price: int
    hold_price: int  # of a piece, a period
    keeps: list[int] | None  # for how many periods, by the one in which it was made; None: for all
    room: int | None  # how many can be kept from one period to the next; None: any


class LotLimit(TypedDict):
    """So much there is of one thing in a span of periods."""

    of: str
    first: int
    last: int
    most: int


class LotProblem(TypedDict):
    """How much of what to make in which period."""

    periods: int
    items: list[LotItem]
    limits: list[LotLimit]
