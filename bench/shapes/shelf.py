"""The shelf: what is in the house; its cards and lots, what a run takes of them, and gathering."""

from typing import Annotated, Literal, NotRequired, TypedDict

from bench.shapes.entries import DayText, LotVerdict, PaperKind, PaperMedia, Price
from bench.shapes.recipe import WrittenIngredient
from bench.shapes.state import BatchVerdict
from bench.shapes.units import InstantMs, Many, Mg, Text, Within, WrittenAmount


class Supply(TypedDict):
    """How an ingredient is bought. What it costs its lots say, which makers alone are told."""

    supplier: NotRequired[Annotated[str, Text(200)]]
    pack: NotRequired[WrittenAmount]  # what is in one, such as 1 kg
    lead_days: NotRequired[Annotated[int, "days from the order until it is there", Within(0, 366)]]
    reorder_at: NotRequired[WrittenAmount]  # the maker's own figure: order once no more is left


class Card(WrittenIngredient):
    """What is known of an ingredient, its fields written as in a recipe's."""

    cas: NotRequired[Annotated[str, Text(12, 7)]]
    limits: NotRequired[Annotated[list[Annotated[str, Text(300)]], Many(20)]]
    supply: NotRequired[Supply]
    answers_to: NotRequired[Annotated[list[Annotated[str, Text(200)]], Many(50)]]  # further names for it


class Proposal(TypedDict):
    """What a name may be of, and what is known of that."""

    id: str
    name: str  # the name of it that was met
    called: str  # its first name in the language asked for
    taken: bool  # the name as it stands is taken for it
    about: Card  # what the table knows, its fields written as on a card
    hazards: list[str]  # hazard statements of its classification
    hazards_by: str  # where that is from, in words; "" where there are none


class ShelfNote(TypedDict):
    at: InstantMs
    device: str
    text: str


class ShelfPaper(TypedDict):
    """A paper that was seen, and where it is."""

    at: InstantMs
    device: str
    paper: PaperKind
    reference: str
    dated: DayText | None
    expires: DayText | None
    amendment: str | None  # of an IFRA certificate
    category: str | None
    picture: NotRequired[str]  # its file's id, where it has one
    media: NotRequired[PaperMedia]


class LotJudgement(TypedDict):
    """Whether a lot may be used."""

    at: InstantMs
    device: str
    verdict: LotVerdict
    name: str | None  # who judged
    why: str | None


class ShelfIngredient(TypedDict):
    card: Card | None  # the last one that was written; None while there is none
    notes: list[ShelfNote]
    papers: list[ShelfPaper]  # as they were told


class WrittenOff(TypedDict):
    at: InstantMs
    much: int  # mg, or pieces where the lot is counted
    why: str


class LotSaid(TypedDict, total=False):
    """Fields of a lot as somebody wrote them; None: it has none."""

    ingredient: str
    number: str
    supplier: str | None
    code: str | None
    received_on: DayText
    best_before: DayText | None
    price: Price | None
    mg: Mg | None
    count: int | None


class LotMending(TypedDict):
    """A lot was mended: what stood in those fields until then."""

    at: InstantMs
    device: str
    was: LotSaid


class ShelfLot(TypedDict):
    """A lot, in mg or in pieces: one of the two is None."""

    ingredient: str
    number: str  # the supplier's
    supplier: str | None
    code: str | None  # what its bar or QR code says
    run: str | None  # the batch that it was made in, of a part made ahead
    received_on: DayText
    best_before: DayText | None
    price: Price | None
    mg: Mg | None  # as received
    count: int | None  # as received
    held: int  # what was there when it was last corrected, less what was written off since
    held_at: InstantMs
    wrote_off: list[WrittenOff]
    mended: list[LotMending]  # as they were told
    notes: list[ShelfNote]
    judgements: list[LotJudgement]  # as they were told; the last one stands
    papers: list[ShelfPaper]


class Shelf(TypedDict):
    ingredients: dict[str, ShelfIngredient]
    lots: dict[str, ShelfLot]
    unread: list[str]  # entries set aside, by id


# ---- as the API gives them


class LotThere(ShelfLot):
    id: str
    left_mg: Mg | None  # below zero when more was used than booked
    left_count: int | None


class IngredientThere(ShelfIngredient):
    id: str
    left_mg: Mg  # what its lots have left together
    left_count: int


class IngredientWhole(IngredientThere):
    lots: list[LotThere]


class LotRun(TypedDict):
    """A run that took of a lot."""

    id: str
    title: str
    recipe_version: int
    number: str | None  # the batch number
    pieces: int  # planned
    at: InstantMs  # when it was begun
    finished_at: InstantMs | None
    mg: Mg  # what was really used of the lot
    count: int
    release: BatchVerdict | None  # None: nobody judged the batch as it is signed now
    lot: str  # the lot that it took: the traced one, or one that was made of it


class Trace(TypedDict):
    lot: str
    runs: list[LotRun]  # a part of them
    next: str | None  # the last of these, where more follow
    total: int


# ---- what runs take


class Taken(TypedDict):
    """What a run took of a lot."""

    mg: Mg
    count: int
    at: InstantMs  # when the last of it was weighed, or when it was gathered while nothing was


class LotUse(Taken):
    booked_mg: Mg


class LotOffered(TypedDict):
    """A lot to pick from."""

    lot: str
    left: int
    best_before: DayText | None
    received_on: DayText
    barred: NotRequired[bool]  # held or rejected


class Picked(TypedDict):
    lot: str
    take: int
    past: bool  # past its date


class Pick(TypedDict):
    picked: list[Picked]
    short: int  # what is still lacking
    passed_over: list[str]  # lots past their date
    barred: list[str]  # lots that are held or rejected


# ---- gathering


class PaperDue(TypedDict):
    """A paper that is past its date, or will be within 30 days."""

    paper: PaperKind
    expires: DayText
    past: bool


class GatherLot(TypedDict):
    lot: str
    number: str | None  # None: the shelf does not know the lot
    best_before: DayText | None
    left: int | None
    take: int  # mg or pieces
    past: bool
    verdict: LotVerdict | None  # None: nobody judged it
    papers_due: list[PaperDue]  # of the lot and its ingredient, where none is newer
    gathered: bool


class GatherIngredient(TypedDict):
    ingredient: str
    name: str
    mg: Mg
    division_mg: Mg
    count: int
    shelf: str | None  # the shelf's ingredient
    lots: list[GatherLot]
    short: int  # mg or pieces
    passed_over: list[str]
    barred: list[str]  # lots that are held or rejected
    by_hand: bool  # its amount is judged or spooned: a lot is named with nothing to take


ThingKind = Literal["start", "scale", "vessel", "mould", "heater", "tool", "protection"]


class Thing(TypedDict):
    thing: str
    kind: ThingKind
    name: str


class GatherThing(Thing):
    ticked: bool


class Gather(TypedDict):
    ingredients: list[GatherIngredient]
    things: list[GatherThing]
    cautions: list[str]
    open: int  # how many are left
