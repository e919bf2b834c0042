"""The batch record and what is drawn from it: the label, the cost, the tests of dryness, the last times."""

from typing import Annotated, Literal, NotRequired, TypedDict

from bench.shapes.entries import (
    CarriedBody,
    DayText,
    Entry,
    LineBody,
    Market,
    PlacedBody,
    TakenOutBody,
    TookBody,
)
from bench.shapes.kit import Scale
from bench.shapes.recipe import GoodPiece, PieceWords, ProductUse, Start, StepKind
from bench.shapes.sheet import SheetRecipe, Size
from bench.shapes.shelf import Card
from bench.shapes.state import (
    JudgementTold,
    LineStatus,
    Look,
    MetTold,
    Remark,
    StepStatus,
    ToldOfRun,
)
from bench.shapes.units import InstantMs, Mg, Ms, Ppm, Uoz

# ---- the record


class PlacedStep(TypedDict):
    """A step and where it stands on the sheet."""

    step: str
    component: str
    letter: str  # the component's, on the page
    round: int
    title: str


class RecordLine(TypedDict):
    line: str
    component: str
    letter: str
    round: int
    step: str | None  # None: it goes in at no step
    name: str
    instead_of: str  # what the recipe asked for; "" where that was taken
    planned_mg: Mg | None
    asked_mg: Mg | None  # after carrying up or down
    actual_mg: Mg
    deviation_mg: Mg | None  # below zero: too little
    deviation_ppm: Ppm | None
    tolerance_mg: Mg | None
    within: bool | None
    spoons: str | None  # the amount, where it is spooned
    count: int | None  # the amount, where it is counted
    unit: str  # of the count
    scale: str | None
    division_mg: Mg | None
    division_uoz: NotRequired[Uoz]  # of a scale that reads in ounces, exactly
    status: LineStatus


class RecordStep(PlacedStep):
    kind: StepKind
    status: StepStatus
    at: InstantMs | None
    why: str  # why it was skipped
    way: str  # the name of the way that was chosen; ""
    by: list[str]  # the devices that told of it, in the order in which they first did


class RecordWait(PlacedStep):
    word: str  # what it will be: set, cool, dry
    began_at: InstantMs
    ended_at: InstantMs | None
    earliest_ms: Ms
    usual_ms: Ms
    latest_ms: Ms | None
    real_ms: Ms | None
    early: bool
    late: bool


class RecordWindow(PlacedStep):
    opened_at: InstantMs
    ended_at: InstantMs | None
    latest_ms: Ms
    real_ms: Ms | None
    late: bool


HeatWord = Literal["burst", "heat"]


class RecordBursts(PlacedStep):
    planned: int
    used: int
    word: NotRequired[HeatWord]  # what one is called; records of earlier versions do not say
    mg: Mg  # of what is melted
    heated_ms: Ms


class RecordPortion(TypedDict):
    name: str
    mg: Mg


class RecordPortions(PlacedStep):
    portions: list[RecordPortion]


class RecordLooks(PlacedStep):
    tries: int  # looks that did not say yes
    looks: list[Look]


class RecordCount(PlacedStep):
    planned: int | None
    expected: int | None
    good: int
    spoiled: int
    partial: int


class RecordCriterion(GoodPiece):
    """Something that the recipe wants of a good piece, and what was found."""

    found: MetTold | None  # None: nobody answered


class RecordStart(TypedDict):
    """What is asked before the first weighing."""

    what: Start
    at: InstantMs | None  # when it was told; None: nobody did


DeviationKind = Literal["weight", "left_out", "early", "late", "window", "skipped", "criterion", "start"]


class RecordDeviation(TypedDict):
    """Something that departs from the sheet, from its times or from what a good piece is."""

    about: str  # what it is known by, in a judgement
    kind: DeviationKind
    name: str  # the line's name, the step's title, the criterion, or what was asked at the start


class Release(JudgementTold):
    """How the batch was judged last."""

    holds: bool  # false: it was released, and is not signed as it was then


class RecordSkipped(PlacedStep):
    at: InstantMs | None
    why: str


class RecordAdded(PlacedStep):
    at: InstantMs
    ms: Ms  # how much longer a wait was given


class _Correction(TypedDict):
    at: InstantMs
    device: str
    because: str | None  # the id of the line that it answers


class TakenOutCorrection(_Correction, TakenOutBody):
    kind: Literal["taken_out"]


class LineCorrection(_Correction, LineBody):
    kind: Literal["left", "left_out"]


class CarriedCorrection(_Correction, CarriedBody):
    kind: Literal["carried"]


class PlacedCorrection(_Correction, PlacedBody):
    kind: Literal["placed"]


class TookCorrection(_Correction, TookBody):
    kind: Literal["took"]


Correction = TakenOutCorrection | LineCorrection | CarriedCorrection | PlacedCorrection | TookCorrection


class RecordSigned(TypedDict):
    id: str  # of the entry; who unsigns names it
    at: InstantMs
    device: str
    name: str
    entries: int  # how many it seals
    missing: int  # how many of those are not here


class RecordPerson(TypedDict):
    """Who a device is, the caller knows."""

    device: str  # as the entries call it
    first_at: InstantMs
    last_at: InstantMs
    entries: int


class RecordKit(TypedDict):
    scales: list[Scale]  # that lines and portions were weighed on
    vessels: list[str]
    heaters: list[str]


class RecordLot(TypedDict):
    lot: str
    names: list[str]  # the ingredients'
    wrap: bool  # whether it is what the pieces are wrapped in
    mg: Mg  # what was really used
    count: int  # the same, of what is counted
    booked_mg: Mg
    over_mg: Mg


class Yield(TypedDict):
    """Pieces asked and made, by the last count on the sheet, and the mass that went in."""

    planned: int
    good: int | None  # less what was kept back
    spoiled: int | None
    partial: int | None
    kept: int | None  # kept back of the good ones
    planned_mg: Mg
    actual_mg: Mg


class Balance(TypedDict):
    """Where the mass that went in has gone: in = good + kept + spoiled + spare + left + unaccounted, at division_mg."""

    in_mg: Mg
    good_mg: Mg
    kept_mg: Mg
    spoiled_mg: Mg
    spare_mg: Mg
    left_mg: Mg
    unaccounted_mg: Mg  # may be below zero
    expected_loss_mg: Mg  # what the sheet allows for the bowl and for loss
    division_mg: Mg
    division_uoz: NotRequired[Uoz]  # where that scale reads in ounces, exactly
    good: int
    kept: int
    partial: int
    spoiled: int
    piece_mg: Mg  # what a piece weighs on average
    weighed: int  # how many pieces were weighed


class HandsOn(TypedDict):
    ms: Ms
    steps: dict[str, Ms]  # by step of the sheet; "" is what belongs to none
    told: bool  # whether the maker gave the whole


class _RecordBody(ToldOfRun):
    recipe: SheetRecipe
    size: Size
    piece: PieceWords
    signed: RecordSigned | None
    kit: RecordKit
    lines: list[RecordLine]
    steps: list[RecordStep]
    waits: list[RecordWait]
    windows: list[RecordWindow]
    bursts: list[RecordBursts]
    portions: list[RecordPortions]
    looks: list[RecordLooks]
    counts: list[RecordCount]
    corrections: list[Correction]
    skipped: list[RecordSkipped]
    added: list[RecordAdded]
    starts: list[RecordStart]
    criteria: list[RecordCriterion]
    deviations: list[RecordDeviation]
    release: Release | None  # None: nobody judged the batch
    balance: Balance | None  # None until finished pieces have been counted
    hands: HandsOn


_WithYield = TypedDict("_WithYield", {"yield": Yield})


class Record(_RecordBody, _WithYield):
    """The plain batch record of a run, finished or not."""

    people: list[RecordPerson]
    lots: list[RecordLot]
    remarks: list[Remark]


# ---- the record as the API gives it: with who, and with the shelf's word on lots


class KnownPerson(RecordPerson):
    name: str | None  # of the paired device that sent the first of them; None where none is known
    also: list[str]  # other devices that sent some, one that took this one's place


class KnownLot(RecordLot):
    number: str | None  # the supplier's; None where the shelf does not know the lot
    supplier: str | None
    best_before: DayText | None


class KnownRemark(Remark):
    received_at: InstantMs | None  # by the server's clock; None where it was not noted


class LateEntry(TypedDict):
    """An entry that was received long after it happened."""

    id: str
    at: InstantMs  # when it happened, by the device that made it
    received_at: InstantMs  # when this server had it
    device: str
    sender: str | None  # the paired device that sent it; None with no pairing
    given_back: bool
    kind: str
    about: str  # the line, step, ingredient or vessel that it tells of


class NamedRun(TypedDict):
    id: str
    title: str


class WholeRecord(_RecordBody, _WithYield):
    """What is kept of a batch: the record, and all that it is drawn from."""

    people: list[KnownPerson]
    lots: list[KnownLot]
    remarks: list[KnownRemark]
    also_used_by: list[NamedRun]  # other runs with this number
    late: list[LateEntry]
    digest: str  # SHA-256 over the entries that it is of; see the contributor's guide
    sealed: list[str] | None  # of a signed run: the ids of the entries that the digest is over
    entries: list[Entry]  # the run's whole journal, as it was sent


# ---- the label

Um = Annotated[int, "whole micrometres"]

MeantFor = Literal["all", "adults", "children"]
ListGroup = Literal["over", "free", "by_hand", "colour"]


LabelShape = Literal["rectangle", "cylinder", "other"]


class LabelSize(TypedDict):
    shape: LabelShape
    width_um: Um  # of a cylinder, its girth
    height_um: Um


class Letters(TypedDict):
    """How high letters are: of the small o, of capitals where all are; in Europe the digits of the net content."""

    list_um: NotRequired[Um | None]
    net_um: NotRequired[Um | None]


class LabelOptions(TypedDict):
    cards: NotRequired[dict[str, Card]]  # by the recipe's ingredient
    net_mg: NotRequired[Mg | None]  # what a piece weighs; reckoned from the sheet where nobody says
    batch: NotRequired[str | None]
    maker: NotRequired[str | None]  # name and address
    identity: NotRequired[str | None]
    function: NotRequired[str | None]
    opened_months: NotRequired[int | None]
    best_before: NotRequired[DayText | None]
    precautions: NotRequired[list[str]]
    size: NotRequired[LabelSize | None]
    letters: NotRequired[Letters | None]
    use: NotRequired[ProductUse | None]  # None: read from the recipe, where that tells
    single_use: NotRequired[bool | None]  # used up at once; None: not said
    keeps_months: NotRequired[int | None]  # unopened
    open_duties: NotRequired[int | None]  # of selling; None: nobody looked
    today: NotRequired[DayText | None]
    lots_best_before: NotRequired[DayText | None]  # the earliest of the lots that went in
    meant_for: NotRequired[MeantFor | None]
    origin: NotRequired[str | None]  # the country it was made in, of what is imported
    leaflet: NotRequired[bool | None]  # list and cautions stand on one, in the EU and the UK


class LabelName(TypedDict):
    name: str
    ppm: Ppm | None  # None: not known
    group: ListGroup
    sure: bool


class Sourced(TypedDict):
    says: str
    source: str


class LabelNeed(TypedDict):
    what: str
    there: bool
    source: str


class CheckedRule(TypedDict):
    what: str
    source: str


class LeastHeights(TypedDict):
    """Least letter heights; None where no rule is known here."""

    list_um: Um | None
    net_um: Um | None


class LetterHeight(TypedDict):
    least_um: Um | None
    has_um: Um | None
    fits: bool | None


class LabelHeights(TypedDict):
    list: LetterHeight
    net: LetterHeight


class ClpStatement(TypedDict):
    code: str  # as in H319
    says: str  # in the words of the law


class Clp(TypedDict):
    """Of what only scents the air: what the classes of the substances known here add up to, for eyes and skin."""

    signal: str | None  # None: nothing adds up to a class
    pictograms: list[str]  # as in GHS07
    side_um: Um  # of a pictogram, at least
    hazards: list[ClpStatement]
    precautions: list[ClpStatement]
    eye_ppm: Ppm  # what counts as irritant to eyes, what damages them ten times
    skin_ppm: Ppm


# The parts of a label, from its head to its foot.
PlatePart = Literal["name", "purpose", "signal", "hazard", "advice", "net", "list", "care", "foot", "maker"]


class PlateLine(TypedDict):
    part: PlatePart
    text: str


Paper = Literal["a4", "letter"]


class LabelSheet(TypedDict):
    """A sheet of labels. From the paper's edge to the first label, and from each label's edge to the next one's."""

    name: str
    paper: Paper
    columns: int
    rows: int
    width_um: Um
    height_um: Um
    left_um: Um
    top_um: Um
    across_um: Um
    down_um: Um


class LabelPlace(TypedDict):
    """The upper left corner of a label on its page."""

    x_um: Um
    y_um: Um


class Label(TypedDict):
    market: Market
    identity: str
    ingredients: list[LabelName]
    text: str  # the ingredient list as one line
    net_mg: Mg
    net: str
    shortfall_mg: Mg | None  # by how much one pack may fall short; None: no figure is known here
    batch: str | None
    opened: str | None  # the period after opening, as in 12M
    best_before: DayText | None
    maker: str | None
    precautions: list[Sourced]
    clp: Clp | None  # None where it is no mixture under CLP
    plate: list[PlateLine]  # the words on it, in order
    leaflet: list[PlateLine]  # the words on what goes with it; none: all stands on the label
    net_low: bool  # the net content belongs in the lower 30 %
    heights: LabelHeights
    needs: list[LabelNeed]
    warnings: list[Sourced]
    not_checked: list[Sourced]
    checked: list[CheckedRule]
    law: str


# ---- the cost: money is decimal text


class CostSettings(TypedDict):
    currency: str  # ISO 4217; the amounts here are in it
    hourly_rate: NotRequired[str]
    wrap_cost: NotRequired[str]  # for each good piece, where no priced lot was gathered
    packaging_cost: NotRequired[str]  # for each good piece: box, label
    sprays_cost: NotRequired[str]  # for each batch: what goes in unweighed
    overhead_cost: NotRequired[str]  # for each batch: rent, power, insurance
    cleaning_minutes: NotRequired[int]  # for each batch, at the hourly rate
    labelling_seconds: NotRequired[int]  # for each good piece, at the hourly rate
    fee_percent: NotRequired[str]  # of the price that is paid, tax and all
    fee_each: NotRequired[str]  # for each piece sold
    margin_percent: NotRequired[str]  # of the price without tax; "": no price is reckoned
    tax_percent: NotRequired[str]  # that is added to the price without tax
    without_tax: NotRequired[bool]  # whether tax is reclaimed


class PaidRow(TypedDict):
    """What was taken of a lot, and what that cost."""

    lot: str
    number: str
    names: list[str]
    wrap: bool
    mg: Mg
    count: int
    currency: str  # ISO 4217
    cost: str  # with two decimals more than the currency has


class CostRow(PaidRow):
    """As it stands in a batch's cost."""

    read: str  # with as many as the currency has, adding up to the sums


class Unpriced(TypedDict):
    lot: str | None
    names: list[str]
    mg: Mg


class CostParts(TypedDict):
    """What the total is made of: each thing stands in one of them."""

    materials: str  # less the wrap
    sprays: str
    hands: str
    cleaning: str
    labelling: str
    wrap: str
    packaging: str
    overhead: str


class SalePrice(TypedDict):
    """A price for one piece: price = tax + fees + cost + margin."""

    price: str  # as it is paid, tax and all
    tax: str
    fees: str
    cost: str
    margin: str  # what is left


class CostTotal(CostParts):
    """Of one currency; several are never added."""

    total: str
    lost: str | None  # of the materials: dried off, scraped out, unaccounted
    spoiled: str | None
    kept: str | None  # of the total: the pieces that were kept back; None: none were
    sale: SalePrice | None  # from the margin that is asked; None: none is, or no price gives it
    per_piece: str | None  # for each good piece


class Cost(TypedDict):
    materials: list[CostRow]
    unpriced: list[Unpriced]
    hands_ms: Ms
    good: int | None
    totals: dict[str, CostTotal]  # by currency


class WholeCost(Cost):
    currency: str  # the maker's own
    ahead: (
        Cost | None
    )  # what it would cost by its sheet, on the shelf as it was when it was begun; None: not begun


# ---- dry or not

DryAnswer = Literal["dry", "not_yet", "gains", "too_soon", "cannot_tell", "slower", "unclear"]


class PieceWeighing(TypedDict):
    at: InstantMs
    mg: Mg


class Dryness(TypedDict):
    constant: DryAnswer
    own: DryAnswer | None  # by the maker's own threshold
    change_mg: int  # below zero: it lost
    change_ppm: int | None
    least_mg: Mg  # what a piece must weigh on this scale for constant weight to show
    says: str


class PieceDryness(Dryness):
    piece: int


# ---- the last times


class StepHistory(TypedDict):
    """One run's word on a written step; None where it has nothing to say."""

    bursts: int | None
    heat_word: HeatWord
    heat_ms_per_kg: int | None
    tries: int | None
    wait_ms: Ms | None
    word: str  # what the wait was for; ""
    hands_ms: Ms | None


class Spread(TypedDict):
    runs: int
    median: int
    low: int  # the lower quartile
    high: int


class Learned(TypedDict):
    """What the runs teach of a step, or of the batch; None: too few have it, so the recipe's word stands."""

    bursts: NotRequired[Spread | None]
    heat_ms_per_kg: NotRequired[Spread | None]
    tries: NotRequired[Spread | None]
    wait_ms: NotRequired[Spread | None]
    hands_ms: NotRequired[Spread | None]
    loss_ppm: NotRequired[Spread | None]  # of the batch alone


class LastTimes(TypedDict):
    """What recent runs say of a recipe's steps, by written step ("base.press")."""

    runs: int  # how many finished runs were read, the newest ones
    last: dict[str, list[str]]  # in words, the newest first, by step; of what was weighed by step/line
    learned: dict[str, Learned]
    hands_ms: dict[str, Ms]  # hands-on time for planning
