"""Entries: what happened, one kind a shape, in a run's journal and in the shelf's.

`Entry` is any that a journal keeps, of whatever version. `RunEntry` and `ShelfEntry` are those that a fold has found
readable: told apart by `kind`. What a field must be is its alias's `Fits`; `bench/entries.py` says what fits.
Which kinds there are, with their traits, is the table in `bench/kinds.py`.
"""

from typing import Annotated, Literal, NamedTuple, NotRequired, TypedDict

from bench.shapes.sheet import Weighing
from bench.shapes.units import InstantMs, JsonValue


class Fits(NamedTuple):
    """By which of the types of `bench/entries.py` a field is judged."""

    type: str


SheetId = Annotated[str, "the id of something on the sheet, or of an entry", Fits("id")]
Key = Annotated[str, "1 to 140 letters, digits, dots, - or _", Fits("key")]
Text = Annotated[str, "text of 1 to 2000 characters", Fits("text")]
Mass = Annotated[int, "whole milligrams from 0 to a tonne", Fits("mass")]
Whole = Annotated[int, "a whole number that JavaScript keeps exactly", Fits("whole")]
Count = Annotated[int, "a whole number from 0 to 10 000", Fits("count")]
Factor = Annotated[int, "a whole number from 1 to a million million", Fits("factor")]
Span = Annotated[int, "whole milliseconds from 1 to a year", Fits("span")]
Uuid = Annotated[str, "a UUID in small letters", Fits("uuid")]
Sha256 = Annotated[str, "64 small hexadecimal digits", Fits("sha256")]
EntryIds = Annotated[list[str], "ids of entries, each once and sorted", Fits("ids")]
FieldNames = Annotated[list[str], "names of fields, each once and sorted", Fits("ids")]
DayText = Annotated[str, "a day of the calendar, such as 2027-03-31", Fits("day")]
Humidity = Annotated[int, "relative humidity in whole per cent, 1 to 100", Fits("humidity")]
Warmth = Annotated[int, "thousandths of a degree Celsius, -40 000 to 60 000", Fits("warmth")]
Verdict = Literal["yes", "not_yet", "too_far"]
MeasuredWhat = Literal["piece", "left", "spoiled"]
WeighFitting = Annotated[Weighing, "running total, or zero for each", Fits("weigh")]
Judgement = Literal["released", "held", "rejected", "accepted", "not_accepted"]
LotVerdict = Literal["held", "accepted", "rejected"]
Met = Literal["yes", "no"]
Market = Literal["us", "eu", "uk"]
PaperKind = Literal["safety_sheet", "ifra_certificate", "analysis", "other"]
ComplaintSort = Literal["complaint", "reaction"]
JudgementFitting = Annotated[
    Judgement, "of a batch: released, held or rejected; of a deviation: accepted or not", Fits("judgement")
]
LotVerdictFitting = Annotated[LotVerdict, "how a lot was judged", Fits("lot_verdict")]
MarketFitting = Annotated[Market, "the market of a label", Fits("market")]
MetFitting = Annotated[Met, "whether the pieces are as the recipe wants them", Fits("met")]
# What the file of a paper is.
PaperMedia = Literal["pdf", "jpeg", "png"]
PaperFitting = Annotated[PaperKind, "what a paper is", Fits("paper")]
MediaFitting = Annotated[PaperMedia, "what its file is", Fits("media")]
ComplaintFitting = Annotated[
    ComplaintSort, "of the pieces, or how somebody reacted to them", Fits("complaint")
]
VerdictFitting = Annotated[Verdict, "how a look was answered", Fits("answer")]
MeasuredFitting = Annotated[MeasuredWhat, "what was put on the scale", Fits("measured")]


class Entry(TypedDict):
    """An entry as a journal keeps it, of a kind of any version."""

    id: str  # a UUID of version 7
    run: NotRequired[str]  # the run's id, or "shelf"; not there where the journal itself says it
    device: str  # 1 to 64 letters, digits, - or _
    at: InstantMs  # never earlier than any entry its device has seen
    kind: str
    body: dict[str, JsonValue]


class _Envelope(TypedDict):
    id: str
    run: NotRequired[str]
    device: str
    at: InstantMs


# ---- the bodies of a run's entries


class NumberedBody(TypedDict):
    number: Text


class GatheredBody(TypedDict):
    ingredient: SheetId  # or "wrap"
    lot: Key
    mg: NotRequired[Mass]  # not there: as much as it takes
    count: NotRequired[Count]


class TickedBody(TypedDict):
    thing: Key


class WeighedBody(TypedDict):
    line: SheetId
    mg: NotRequired[Mass]  # not there only where the line has no mass
    reading_mg: NotRequired[Whole]  # what the scale showed


class TakenOutBody(TypedDict):
    line: SheetId
    mg: Mass
    seen: NotRequired[Mass]  # how much of it was in, as the answer says


class LineBody(TypedDict):
    line: SheetId


class CarriedBody(TypedDict):
    component: SheetId
    round: Count
    num: Factor
    den: Factor
    left: NotRequired[EntryIds]  # lines that stay as they are


class ZeroedBody(TypedDict):
    vessel: SheetId


class PlacedBody(TypedDict):
    vessel: SheetId
    scale: Key
    line: NotRequired[SheetId]  # this line's small cup alone


class TookBody(TypedDict):
    vessel: SheetId
    instead: Key  # a vessel of the kit


class SwitchedBody(TypedDict):
    weigh: WeighFitting


class ChoseBody(TypedDict):
    step: SheetId
    way: SheetId


class DoneBody(TypedDict):
    step: SheetId
    way: NotRequired[SheetId]


class SkippedBody(TypedDict):
    step: SheetId
    why: NotRequired[Text]


class BeganBody(TypedDict):
    step: SheetId


class HeatedBody(TypedDict):
    step: SheetId
    ms: Span
    rest_ms: NotRequired[Span]  # how long it rests, stirred, before the look


class LookedBody(TypedDict):
    step: SheetId
    answer: VerdictFitting
    way: NotRequired[SheetId]
    text: NotRequired[Text]  # who looked, where another person had to


class PortionedBody(TypedDict):
    vessel: SheetId
    mg: Mass
    seen: NotRequired[Mass]  # how much was in the bowl, as the answer says


class CountedBody(TypedDict):
    step: SheetId
    good: NotRequired[Count]
    spoiled: NotRequired[Count]
    partial: NotRequired[Count]
    of: NotRequired[SheetId]  # the vessel that they came from, or "joined"
    way: NotRequired[SheetId]
    seen: NotRequired[Count]  # how many were counted already


class ExtendedBody(TypedDict):
    step: SheetId
    ms: Span


class MeasuredBody(TypedDict):
    what: MeasuredFitting
    mg: Mass
    piece: NotRequired[Count]
    step: NotRequired[SheetId]
    scale: NotRequired[Key]


class AiredBody(TypedDict):
    humidity: Humidity
    mk: NotRequired[Warmth]


class ProvedBody(TypedDict):
    scale: Key
    weight_mg: Mass  # what the test weight weighs
    mg: Whole  # what the scale showed


class LabelledBody(TypedDict):
    """Labels of the batch, counted: those that are neither on a piece nor binned are left over."""

    market: MarketFitting
    printed: Count
    on: Count  # pieces
    binned: Count
    text: NotRequired[Text]  # what stood on them


class PicturedBody(TypedDict):
    picture: Uuid
    sha256: Sha256
    text: NotRequired[Text]
    step: NotRequired[SheetId]


class WorkedBody(TypedDict):
    ms: Span
    step: NotRequired[SheetId]  # not there: all of the run


class NotedBody(TypedDict):
    text: Text
    step: NotRequired[SheetId]


class KeptBody(TypedDict):
    pieces: Count  # kept back of the good ones, all in all
    text: NotRequired[Text]  # where they are


class MetBody(TypedDict):
    criterion: Key  # of the recipe's `good_piece`
    answer: MetFitting
    text: NotRequired[Text]  # what was measured or seen


class FinishedBody(TypedDict):
    pass


class SignedBody(TypedDict):
    name: Text
    entries: NotRequired[EntryIds]  # what it seals; not there in earlier versions
    digest: NotRequired[Sha256]  # over them; there when they are


class JudgedBody(TypedDict):
    """A judgement of a batch, or of one of its deviations. A further one corrects it; none is taken back."""

    about: Key  # "batch", or what the record's deviation is known by
    verdict: JudgementFitting
    name: Text  # who judges
    why: NotRequired[Text]  # there unless it was released or accepted
    signing: NotRequired[Uuid]  # of what was released: the signing that held


class UndoneBody(TypedDict):
    entry: SheetId


# ---- a run's entries


class Numbered(_Envelope):
    """The batch was given its number."""

    kind: Literal["numbered"]
    body: NumberedBody


class Gathered(_Envelope):
    """A lot was picked for an ingredient."""

    kind: Literal["gathered"]
    body: GatheredBody


class Ticked(_Envelope):
    """A tool, a vessel or protection is laid out."""

    kind: Literal["ticked"]
    body: TickedBody


class Weighed(_Envelope):
    """So much of a line went in."""

    kind: Literal["weighed"]
    body: WeighedBody


class TakenOut(_Envelope):
    """Some of a line was taken out again."""

    kind: Literal["taken_out"]
    body: TakenOutBody


class Left(_Envelope):
    """A line was left off its tolerance, knowingly."""

    kind: Literal["left"]
    body: LineBody


class LeftOut(_Envelope):
    """A line was not used."""

    kind: Literal["left_out"]
    body: LineBody


class Carried(_Envelope):
    """All targets of one round became num/den of the sheet's."""

    kind: Literal["carried"]
    body: CarriedBody


class Zeroed(_Envelope):
    """The scale lost its count."""

    kind: Literal["zeroed"]
    body: ZeroedBody


class Placed(_Envelope):
    """A vessel, or one line's small cup, stands on another scale."""

    kind: Literal["placed"]
    body: PlacedBody


class Took(_Envelope):
    """Another vessel of the kit was taken, with what was in the sheet's."""

    kind: Literal["took"]
    body: TookBody


class Switched(_Envelope):
    """Weighing changed between running total and zero for each."""

    kind: Literal["switched"]
    body: SwitchedBody


class Chose(_Envelope):
    """One of a step's ways was chosen."""

    kind: Literal["chose"]
    body: ChoseBody


class Done(_Envelope):
    """A step was done."""

    kind: Literal["done"]
    body: DoneBody


class Skipped(_Envelope):
    """A step was passed over, and why."""

    kind: Literal["skipped"]
    body: SkippedBody


class Began(_Envelope):
    """A timed step began."""

    kind: Literal["began"]
    body: BeganBody


class Heated(_Envelope):
    """A burst began."""

    kind: Literal["heated"]
    body: HeatedBody


class Looked(_Envelope):
    """A look after a burst, or a judgement."""

    kind: Literal["looked"]
    body: LookedBody


class Portioned(_Envelope):
    """A portion was weighed out of the bowl."""

    kind: Literal["portioned"]
    body: PortionedBody


class Counted(_Envelope):
    """So many good, spoiled or partial pieces."""

    kind: Literal["counted"]
    body: CountedBody


class Extended(_Envelope):
    """A wait was given more time."""

    kind: Literal["extended"]
    body: ExtendedBody


class Measured(_Envelope):
    """A piece, what was left or what was spoiled was weighed."""

    kind: Literal["measured"]
    body: MeasuredBody


class Aired(_Envelope):
    """The room's air was read."""

    kind: Literal["aired"]
    body: AiredBody


class Proved(_Envelope):
    """A test weight was put on a scale."""

    kind: Literal["proved"]
    body: ProvedBody


class Labelled(_Envelope):
    """Labels were counted."""

    kind: Literal["labelled"]
    body: LabelledBody


class Pictured(_Envelope):
    """A photograph was taken."""

    kind: Literal["pictured"]
    body: PicturedBody


class Worked(_Envelope):
    """The hands-on time was put right."""

    kind: Literal["worked"]
    body: WorkedBody


class Noted(_Envelope):
    """A remark."""

    kind: Literal["noted"]
    body: NotedBody


class Kept(_Envelope):
    """So many of the good pieces were kept back."""

    kind: Literal["kept"]
    body: KeptBody


class WasMet(_Envelope):
    """The pieces were held against something that the recipe wants of them."""

    kind: Literal["met"]
    body: MetBody


class Finished(_Envelope):
    """The run was closed."""

    kind: Literal["finished"]
    body: FinishedBody


class Signed(_Envelope):
    """The record was closed by name, over the entries that it names."""

    kind: Literal["signed"]
    body: SignedBody


class Judged(_Envelope):
    """A batch, or a deviation of it, was judged."""

    kind: Literal["judged"]
    body: JudgedBody


class Undone(_Envelope):
    """An earlier entry was taken back."""

    kind: Literal["undone"]
    body: UndoneBody


# ---- the shelf's entries


class Tax(TypedDict):
    percent: str  # a decimal, as text
    included: bool


class PriceBody(TypedDict):
    amount: str  # a decimal, as text
    delivery: NotRequired[str]  # what bringing it here cost, in the same currency and with the same tax
    currency: str  # three capital letters of ISO 4217
    tax: NotRequired[Tax]


Price = Annotated[PriceBody, "money as text, never a float", Fits("price")]


class DescribedBody(TypedDict):
    ingredient: Key
    card: Annotated[dict[str, JsonValue], Fits("card")]  # as it was written


class ReceivedBody(TypedDict):
    lot: Key
    ingredient: Key
    supplier: NotRequired[Text]
    number: Text
    mg: NotRequired[Mass]  # one of mg and count is there
    count: NotRequired[Count]
    received_on: DayText
    best_before: NotRequired[DayText]
    price: NotRequired[Price]
    code: NotRequired[Text]
    run: NotRequired[Uuid]  # the batch that it was made in, of a part made ahead


class CorrectedBody(TypedDict):
    lot: Key
    mg: NotRequired[Mass]  # one of mg and count is there
    count: NotRequired[Count]


class MendedBody(TypedDict):
    """What a lot is said to be, said anew: the fields that are here. What it was said to be stays in the journal."""

    lot: Key
    ingredient: NotRequired[Key]
    supplier: NotRequired[Text]
    number: NotRequired[Text]
    mg: NotRequired[Mass]  # as received, in the measure that it was received in
    count: NotRequired[Count]
    received_on: NotRequired[DayText]
    best_before: NotRequired[DayText]
    price: NotRequired[Price]
    code: NotRequired[Text]
    without: NotRequired[FieldNames]  # of supplier, best_before, price and code those that are not so


class WroteOffBody(TypedDict):
    lot: Key
    mg: NotRequired[Mass]  # one of mg and count is there
    count: NotRequired[Count]
    why: Text


class OrderedBody(TypedDict):
    ingredient: Key
    mg: NotRequired[Mass]  # one of mg and count is there
    count: NotRequired[Count]
    due: NotRequired[DayText]  # when it is to be there
    supplier: NotRequired[Text]


class ArrivedBody(TypedDict):
    order: Uuid  # the entry that told of it; what came is lots of its own


class QuotedBody(TypedDict):
    """What so much of an ingredient costs, before any of it is bought."""

    ingredient: Key
    mg: NotRequired[Mass]  # one of mg and count is there
    count: NotRequired[Count]
    price: Price
    on: DayText  # when it was asked


class ShelfNotedBody(TypedDict):
    text: Text
    lot: NotRequired[Key]  # one of lot and ingredient is there
    ingredient: NotRequired[Key]


class LotJudgedBody(TypedDict):
    lot: Key
    verdict: LotVerdictFitting
    name: NotRequired[Text]
    why: NotRequired[Text]


class PaperedBody(TypedDict):
    """A paper about a lot or an ingredient: one of the two is there. Of its file all three are, or none."""

    lot: NotRequired[Key]
    ingredient: NotRequired[Key]
    paper: PaperFitting
    reference: Text  # its number, or where it is kept
    dated: NotRequired[DayText]
    expires: NotRequired[DayText]
    amendment: NotRequired[Text]  # of an IFRA certificate
    category: NotRequired[Text]
    picture: NotRequired[Uuid]
    sha256: NotRequired[Sha256]
    media: NotRequired[MediaFitting]


class LeavingBody(TypedDict):
    """Pieces of a batch that leave, or come back. It holds no name: an outlet is named by its id."""

    run: Uuid
    pieces: Count
    outlet: NotRequired[Uuid]


class BinnedBody(TypedDict):
    run: Uuid
    pieces: Count
    why: Text


class SampledBody(TypedDict):
    """Pieces kept as a sample beside those that the batch's own record tells of."""

    run: Uuid
    pieces: Count


class ShelvedBody(TypedDict):
    run: Uuid
    pieces: Count
    lot: Key  # the lot that they are from here on


class StoodBody(TypedDict):
    run: Uuid
    place: Text


class ComplainedBody(TypedDict):
    run: Uuid
    sort: ComplaintFitting
    text: Text  # what is wrong, and nobody's name
    pieces: NotRequired[Count]
    outlet: NotRequired[Uuid]


class Described(_Envelope):
    """An ingredient got its card."""

    kind: Literal["described"]
    body: DescribedBody


class Received(_Envelope):
    """A lot came in."""

    kind: Literal["received"]
    body: ReceivedBody


class Corrected(_Envelope):
    """So much of a lot is there, counted or weighed anew."""

    kind: Literal["corrected"]
    body: CorrectedBody


class Mended(_Envelope):
    """A lot was received as something else than was written."""

    kind: Literal["mended"]
    body: MendedBody


class WroteOff(_Envelope):
    """So much of a lot is gone, and why."""

    kind: Literal["wrote_off"]
    body: WroteOffBody


class LotJudged(_Envelope):
    """A lot was judged: may it be used?"""

    kind: Literal["judged"]
    body: LotJudgedBody


class Papered(_Envelope):
    """A paper was seen."""

    kind: Literal["papered"]
    body: PaperedBody


class Ordered(_Envelope):
    """So much of an ingredient was ordered."""

    kind: Literal["ordered"]
    body: OrderedBody


class Arrived(_Envelope):
    """An order is done with: it came."""

    kind: Literal["arrived"]
    body: ArrivedBody


class Quoted(_Envelope):
    """A supplier's price."""

    kind: Literal["quoted"]
    body: QuotedBody


class ShelfNoted(_Envelope):
    """A remark about a lot or an ingredient."""

    kind: Literal["noted"]
    body: ShelfNotedBody


class Sold(_Envelope):
    """Pieces were sold."""

    kind: Literal["sold"]
    body: LeavingBody


class Given(_Envelope):
    """Pieces were given away."""

    kind: Literal["given"]
    body: LeavingBody


class Returned(_Envelope):
    """Pieces that had left came back."""

    kind: Literal["returned"]
    body: LeavingBody


class Binned(_Envelope):
    """Finished pieces were thrown away, and why."""

    kind: Literal["binned"]
    body: BinnedBody


class Sampled(_Envelope):
    """Finished pieces were put aside as a sample."""

    kind: Literal["sampled"]
    body: SampledBody


class Shelved(_Envelope):
    """Finished pieces became a lot of the shelf."""

    kind: Literal["shelved"]
    body: ShelvedBody


class Stood(_Envelope):
    """Where a batch's pieces stand."""

    kind: Literal["stood"]
    body: StoodBody


class Complained(_Envelope):
    """Somebody complained of a batch's pieces, or reacted to one."""

    kind: Literal["complained"]
    body: ComplainedBody


RunEntry = (
    Numbered
    | Gathered
    | Ticked
    | Weighed
    | TakenOut
    | Left
    | LeftOut
    | Carried
    | Zeroed
    | Placed
    | Took
    | Switched
    | Chose
    | Done
    | Skipped
    | Began
    | Heated
    | Looked
    | Portioned
    | Counted
    | Extended
    | Measured
    | Aired
    | Proved
    | Labelled
    | Pictured
    | Worked
    | Noted
    | Kept
    | WasMet
    | Finished
    | Signed
    | Judged
    | Undone
)
BuyingEntry = Ordered | Arrived | Quoted
PiecesEntry = Sold | Given | Returned | Binned | Sampled | Shelved | Stood | Complained
ShelfEntry = Described | Received | Corrected | Mended | WroteOff | LotJudged | Papered | ShelfNoted | Undone

EntryBody = (
    NumberedBody
    | GatheredBody
    | TickedBody
    | WeighedBody
    | TakenOutBody
    | LineBody
    | CarriedBody
    | ZeroedBody
    | PlacedBody
    | TookBody
    | SwitchedBody
    | ChoseBody
    | DoneBody
    | SkippedBody
    | BeganBody
    | HeatedBody
    | LookedBody
    | PortionedBody
    | CountedBody
    | ExtendedBody
    | MeasuredBody
    | AiredBody
    | ProvedBody
    | LabelledBody
    | PicturedBody
    | WorkedBody
    | NotedBody
    | KeptBody
    | MetBody
    | FinishedBody
    | SignedBody
    | JudgedBody
    | UndoneBody
)

RunKind = Literal[
    "numbered",
    "gathered",
    "ticked",
    "weighed",
    "taken_out",
    "left",
    "left_out",
    "carried",
    "zeroed",
    "placed",
    "took",
    "switched",
    "chose",
    "done",
    "skipped",
    "began",
    "heated",
    "looked",
    "portioned",
    "counted",
    "extended",
    "measured",
    "aired",
    "proved",
    "labelled",
    "pictured",
    "worked",
    "noted",
    "kept",
    "met",
    "finished",
    "signed",
    "judged",
    "undone",
]
ShelfKind = Literal[
    "described",
    "received",
    "corrected",
    "mended",
    "wrote_off",
    "judged",
    "papered",
    "noted",
    "ordered",
    "arrived",
    "quoted",
    "undone",
    "sold",
    "given",
    "returned",
    "binned",
    "sampled",
    "shelved",
    "stood",
    "complained",
]


class Seal(TypedDict):
    """What a signing says besides the name."""

    entries: list[str]  # ids, sorted
    digest: str


class FrozenSeal(TypedDict):
    """What a signing of an earlier version, which names nothing, was found to seal."""

    signed: str  # the signing's id
    entries: list[str]  # ids, sorted
