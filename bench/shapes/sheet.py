"""The sheet: a recipe at one size for one kit; and the size, as asked for and as chosen.

A sheet holds codes, values and the recipe's own words, and no words of ours: `bench/sheet/words.py` says it. Where a
text that the recipe may leave out is "", the usual words stand for it. What sheets of the first format said is read
by `bench/sheet/former.py`; a field that is not required is one that some of those do not have.
"""

from typing import Literal, NotRequired, TypeAlias, TypedDict

from bench.shapes.kit import Kit
from bench.shapes.recipe import (
    Does,
    GoodPiece,
    Guard,
    Hazard,
    LeftAlone,
    LooksAt,
    MouldNeed,
    PieceWords,
    Start,
    Window,
)
from bench.shapes.units import Id, LineKey, Mg, MilliK, Ms, Nl, Ppm, RecipeKey, StepKey, VesselKey

Weighing = Literal["running", "tare"]  # one running total, or zero for each line


class Size(TypedDict):
    pieces: int
    without: list[RecipeKey]  # optional lines left out, sorted
    swaps: dict[RecipeKey, Id]  # line -> the ingredient that stands in for its own
    weigh: Weighing


class _Choices(TypedDict):
    without: NotRequired[list[RecipeKey]]
    swaps: NotRequired[dict[RecipeKey, Id]]
    weigh: NotRequired[Weighing]


class ByPieces(_Choices):
    by: Literal["pieces"]
    pieces: int


class ByMass(_Choices):
    by: Literal["mass"]
    mg: Mg


class ByMoulds(_Choices):
    by: Literal["moulds"]
    component: Id
    moulds: int


class ByMix(_Choices):
    by: Literal["mix"]
    component: Id
    mg: Mg  # so much of its mix is left to use up


class ByStock(_Choices):
    by: Literal["stock"]
    stock: dict[Id, Mg]


SizeRequest: TypeAlias = ByPieces | ByMass | ByMoulds | ByMix | ByStock


class ChosenSize(TypedDict):
    size: Size
    says: str
    runs_out: Id | None  # the ingredient that stops a larger batch; by stock only


class RecipeRef(TypedDict):
    id: str
    version: int


class SheetRecipe(RecipeRef):
    title: str


class Round(TypedDict):
    round: int  # from 1
    count: int
    make_mg: Mg


class MouldsHold(TypedDict):
    """There are several rounds, since the moulds of the kit hold so many at once."""

    kind: Literal["moulds"]
    shape: str
    holds: int


class VesselTakes(TypedDict):
    """There are several rounds, since the largest vessel takes so much at once."""

    kind: Literal["vessel"]
    name: str
    mg: Mg


class ScaleTakes(TypedDict):
    """There are several rounds, since no vessel of the kit limits them and the largest scale takes so much at once."""

    kind: Literal["scale"]
    name: str
    mg: Mg


class UsedAtOnce(TypedDict):
    """There are several rounds, since another part is made in so many and does not keep."""

    kind: Literal["at_once"]
    name: str
    rounds: int


class AsSaid(TypedDict):
    """What a sheet of the first format said in words."""

    kind: Literal["said"]
    text: str


RoundsReason: TypeAlias = MouldsHold | VesselTakes | ScaleTakes | UsedAtOnce | AsSaid


class SheetComponent(TypedDict):
    id: Id
    letter: str
    name: str
    takes: int  # how many of its pieces one finished piece takes
    mould: MouldNeed | None
    count: int  # pieces, spares among them
    spares: int
    piece_mg: Mg
    stays_behind_mg: Mg
    loss_ppm: Ppm
    make_mg: Mg
    rounds: list[Round]
    why: list[RoundsReason]  # why there are several rounds


class SheetIngredient(TypedDict):
    """What the whole batch takes of an ingredient."""

    id: Id
    name: str
    mg: Mg
    nl: Nl
    count: int
    limit_ppm: NotRequired[
        Ppm
    ]  # the most of the finished piece that its own papers allow; absent: they do not say


class Spoonful(TypedDict):
    spoon: str  # one of the recipe's drawer: "½ tsp"
    count: int


class InSpoons(TypedDict):
    """A volume in spoons that a drawer really holds."""

    spoons: list[Spoonful]  # the largest first
    off_percent: int  # how much more than the volume they hold; below nought, less
    part_percent: int | None  # of the one spoon, where less than half of the smallest is wanted


class SheetLine(TypedDict):
    id: LineKey
    component: Id
    round: int
    line: Id
    ingredient: Id
    name: str
    vessel: VesselKey | None  # None: no step weighs it
    step: StepKey | None
    mg: Mg | None  # None: not weighed
    nl: Nl | None
    count: int | None
    unit: str
    about_mg: Mg | None  # what a count is likely to weigh
    tolerance_mg: Mg
    scale: Id | None
    division_mg: Mg | None  # of that scale
    cup: bool  # weighed in a small cup first
    spoons: InSpoons | None  # None: not measured by volume
    by_spoon: InSpoons | None  # what is too little for its scale to show, where its density is known
    optional: bool
    note: str
    instead_of: str  # what the recipe means here; "" where it is used


class SheetVessel(TypedDict):
    id: VesselKey
    component: Id
    round: int
    label: Id
    name: str
    scale: Id | None  # None: nothing is weighed into it
    empty_mg: Mg
    holds_mg: Mg | None  # None: none of the kit
    kit: NotRequired[Id | None]  # which of the kit


class SheetWay(TypedDict):
    id: Id
    name: str
    says: str
    hazards: list[Hazard]
    cautions: list[str]


class StepHead(TypedDict):
    id: StepKey
    component: Id
    round: int
    step: Id
    title: str
    says: str
    reason: str
    after: list[StepKey]
    optional: bool
    does: Does | Literal[""]
    unmoulds: bool  # it empties a held mould
    hazards: list[Hazard]
    cautions: list[str]  # the recipe's own
    ways: list[SheetWay]
    window: Window | None
    keeps: NotRequired[list[Window]]  # windows by nature
    until: NotRequired[list[StepKey]]  # done with, once these are: nothing waits for it
    hands_ms: Ms | None  # None: the recipe does not say
    tools: list[str]
    tail_ms: Ms  # the longest run of usual waits from its start to the end of the batch
    hold_for: list[StepKey]  # what else should be ready before it is worth beginning


class WeighStep(StepHead):
    kind: Literal["weigh"]
    lines: list[LineKey]
    vessel: VesselKey


class DoStep(StepHead):
    kind: Literal["do"]
    about_ms: Ms | None
    mg: Mg | None
    tips: list[VesselKey]
    into: VesselKey


class Burst(TypedDict):
    ms: Ms
    rest_ms: Ms  # a pause with a stir before the burst


class MeltStep(StepHead):
    kind: Literal["melt"]
    mg: Mg
    vessels: NotRequired[list[VesselKey]]  # that are heated; absent: of an earlier version
    heater: str
    bursts: list[Burst]  # []: not planned
    more: Burst
    to_mk: MilliK | None
    look_for: str


class Portion(TypedDict):
    vessel: VesselKey
    name: str
    share: int  # of the sum of all shares


class SplitStep(StepHead):
    kind: Literal["split"]
    vessel: VesselKey
    portions: list[Portion]


class CheckStep(StepHead, LeftAlone, LooksAt):
    kind: Literal["check"]
    ask: str
    yes: str  # "": plainly yes
    not_yet: str
    too_far: str | None  # None: it cannot go too far; "": common practice helps


class Follows(TypedDict):
    """A count that the pieces of another come from."""

    steps: list[StepKey]  # all its rounds, sorted
    takes: int  # how many of its pieces one of these takes


class PiecesStep(StepHead):
    kind: Literal["pieces"]
    one_by_one: bool
    again: str | None
    partial: bool
    verb: str  # "": done
    count: int
    of: list[VesselKey]
    piece_mg: Mg
    follows: list[Follows]


class WaitStep(StepHead, Guard):
    kind: Literal["wait"]
    word: str
    earliest_ms: Ms
    usual_ms: Ms
    latest_ms: Ms | None
    test: str
    stake: str


Step: TypeAlias = WeighStep | DoStep | MeltStep | SplitStep | CheckStep | PiecesStep | WaitStep


class _At(TypedDict):
    where: str  # a part, a vessel or a line: of the recipe where it is the same in each round


class NoMould(_At):
    kind: Literal["no_mould"]
    shape: str


class NoScale(_At):
    """Vessel and content are more than any scale carries."""

    kind: Literal["no_scale"]
    mg: Mg


class TooFull(_At):
    kind: Literal["too_full"]
    vessel: str
    holds_mg: Mg
    mg: Mg


class ForTwoParts(_At):
    """One vessel is needed for two parts that are made side by side."""

    kind: Literal["for_two_parts"]
    vessel: str
    part: str
    other: str


class NeededTwice(_At):
    """One vessel is needed twice for one part."""

    kind: Literal["needed_twice"]
    vessel: str
    part: str
    vessel_kind: str


class Metal(_At):
    """Only metal is there for what goes into a microwave."""

    kind: Literal["metal"]
    vessel: str


class LessThanOne(_At):
    kind: Literal["less_than_one"]
    name: str


class LessThanASpoon(_At):
    kind: Literal["less_than_a_spoon"]
    name: str


class Drops(_At):
    kind: Literal["drops"]


class TooLittle(_At):
    """No scale of the kit weighs so little to its tolerance."""

    kind: Literal["too_little"]
    name: str
    mg: Mg
    scale: str
    off_ppm: Ppm


class SaidBefore(_At, AsSaid):
    """As a sheet of the first format said it."""


Warn: TypeAlias = (
    NoMould
    | NoScale
    | TooFull
    | ForTwoParts
    | NeededTwice
    | Metal
    | LessThanOne
    | LessThanASpoon
    | Drops
    | TooLittle
    | SaidBefore
)


class FormerSheet(TypedDict):
    """A sheet of the first format, as it was kept; `open_sheet` reads it. Its other fields are written down no more."""

    format: Literal["bowlside-sheet/1"]


class Sheet(TypedDict):
    """A recipe at one size for one kit: every weight on a scale, every wait and burst."""

    format: Literal["bowlside-sheet/2"]
    recipe: SheetRecipe
    size: Size
    written_for: (
        int | None
    )  # for how many pieces the recipe was written; None: read from the first format alone
    piece: PieceWords
    good_piece: NotRequired[list[GoodPiece]]  # absent: the recipe does not say
    before: NotRequired[list[Start]]  # what is asked before the first weighing
    kit: Kit
    components: list[SheetComponent]
    ingredients: list[SheetIngredient]
    lines: list[SheetLine]
    vessels: list[SheetVessel]
    steps: list[Step]
    warnings: list[Warn]
    asks_air: NotRequired[list[Id]]  # the parts before which the air is asked for
