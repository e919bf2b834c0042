"""The sheet: a recipe at one size for one kit; and the size, as asked for and as chosen.

A field that is not required is one that sheets of earlier versions do not have.
"""

from typing import Literal, NotRequired, TypeAlias, TypedDict

from bench.shapes.kit import Kit
from bench.shapes.recipe import Guard, LeftAlone, PieceWords, Way, Window
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


class SheetComponent(TypedDict):
    id: Id
    letter: str
    name: str
    count: int  # pieces, spares among them
    spares: int
    piece_mg: Mg
    stays_behind_mg: Mg
    loss_ppm: Ppm
    make_mg: Mg
    rounds: list[Round]
    why: list[str]  # why there are several rounds


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
    spoons: str
    by_spoon: NotRequired[str]  # in spoons what is too little for its scale to show
    optional: bool
    note: str
    instead_of: NotRequired[str]


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
    cautions: list[str]
    ways: list[Way]
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


class CheckStep(StepHead, LeftAlone):
    kind: Literal["check"]
    ask: str
    yes: str
    not_yet: str
    too_far: str | None


class Follows(TypedDict):
    """A count that the pieces of another come from."""

    steps: list[StepKey]  # all its rounds, sorted
    takes: int  # how many of its pieces one of these takes


class PiecesStep(StepHead):
    kind: Literal["pieces"]
    one_by_one: bool
    again: str | None
    partial: bool
    verb: str
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


class Warn(TypedDict):
    where: str
    text: str


class Sheet(TypedDict):
    """A recipe at one size for one kit: every weight on a scale, every wait and burst."""

    format: Literal["bowlside-sheet/1"]
    recipe: SheetRecipe
    size: Size
    piece: PieceWords
    kit: Kit
    components: list[SheetComponent]
    ingredients: list[SheetIngredient]
    lines: list[SheetLine]
    vessels: list[SheetVessel]
    steps: list[Step]
    warnings: list[Warn]
