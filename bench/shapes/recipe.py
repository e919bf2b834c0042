"""The recipe: as its maker wrote it (`Written…`), and measured into whole numbers; what is said of one.

`read_recipe` makes the measured recipe of the written one. Written documents are what people send, so their
fields carry how long and how many they may be.
"""

from typing import Annotated, Literal, NotRequired, TypeAlias, TypedDict

from bench.shapes.units import (
    Id,
    JsonValue,
    Many,
    Mg,
    MilliK,
    Ms,
    Nl,
    Ppm,
    RecipeKey,
    Says,
    Text,
    Thousandths,
    Ug,
    Within,
    WrittenAmount,
    WrittenRef,
)

StepKind = Literal["weigh", "do", "melt", "split", "check", "pieces", "wait"]
# What a step does, in the trade's verbs: for the recipe check, and to know when a mould comes free.
Does = Literal[
    "grind",
    "sift",
    "mix",
    "wipe",
    "whip",
    "colour",
    "spray",
    "press",
    "pour",
    "pipe",
    "unmould",
    "join",
    "sprinkle",
    "wrap",
    "label",
]
# What an ingredient is, in the trade's words: what the recipe check goes by.
IngredientKind = Literal[
    "acid",
    "alcohol",
    "bicarbonate",
    "botanical",
    "butter",
    "carbonate",
    "citric_acid",
    "dye",
    "fragrance",
    "humectant",
    "lake",
    "mica",
    "oil",
    "pigment",
    "powder",
    "preservative",
    "salt",
    "soap_base",
    "solubiliser",
    "surfactant",
    "water",
    "wax",
    "whipping_base",
    "other",
]
Measures = Literal["us", "imperial", "metric"]
AcidForm = Literal["anhydrous", "monohydrate"]
Hazard = Literal[
    "alcohol", "hot_fat", "hot_soap", "mixer", "powder", "slippery", "superheated", "wet_sockets"
]
# What a piece is for.
ProductUse = Literal["bath", "wash", "left_on", "lips", "eyes", "air", "decoration"]
# Where it is sold: the United States, the European Union, Great Britain, Northern Ireland.
SoldIn = Literal["us", "eu", "uk", "ni"]
# A state that does not keep; see bench/states.py.
StateName = Literal[
    "melted_base",
    "warm_fat",
    "wetted_fizz",
    "whipped_base",
    "beaten_topping",
    "piped_top",
    "first_layer",
    "unwrapped",
]
# What it means to miss a window: lost; brought back at a price; a worse piece and no more.
WindowClass = Literal["ruin", "back", "quality"]

HazardList = Annotated[list[Hazard], Many(8)]

# As written


class WrittenDensity(TypedDict):
    g_per_ml: Annotated[str, Text(20)]
    tapped_g_per_ml: NotRequired[Annotated[str, Text(20)]]
    source: Annotated[str, Text(200)]


class WrittenAllergen(TypedDict):
    name: Annotated[str, Text(120)]
    share: Annotated[str, Text(20)]


class WrittenFragrance(TypedDict):
    limit: NotRequired[Annotated[str, Text(20)]]
    category: NotRequired[Annotated[str, Text(20)]]
    allergens: NotRequired[Annotated[list[WrittenAllergen], Many(100)]]


class WrittenHeat(TypedDict):
    solid_j_per_kg_k: Annotated[int, Within(100, 10_000)]
    liquid_j_per_kg_k: Annotated[int, Within(100, 10_000)]
    latent_j_per_kg: Annotated[int, Within(0, 1_000_000)]
    melts_c: Annotated[str, Text(20)]
    source: Annotated[str, Text(200)]


class WrittenIngredient(TypedDict):
    name: Annotated[str, Text(200)]
    note: NotRequired[Says]
    inci: NotRequired[Annotated[str, Text(200)]]
    kind: NotRequired[IngredientKind]
    form: NotRequired[AcidForm]
    density: NotRequired[WrittenDensity]
    fragrance: NotRequired[WrittenFragrance]
    most_c: NotRequired[Annotated[str, Text(20)]]
    active: NotRequired[Annotated[str, Text(20)]]
    heat: NotRequired[WrittenHeat]
    hazards: NotRequired[HazardList]


class WrittenSubstitute(TypedDict):
    ingredient: Id
    amount: NotRequired[WrittenAmount]
    says: NotRequired[Says]
    changes_method: NotRequired[bool]


class WrittenLine(TypedDict):
    id: Id
    ingredient: Id
    amount: WrittenAmount
    tolerance: NotRequired[WrittenAmount]
    optional: NotRequired[bool]
    second_look: NotRequired[bool]  # another person reads the scale too, before anything else goes in
    note: NotRequired[Says]
    substitutes: NotRequired[Annotated[list[WrittenSubstitute], Many(8)]]


class WrittenWay(TypedDict):
    id: Id
    name: Annotated[str, Text(80)]
    says: NotRequired[Says]
    hazards: NotRequired[HazardList]


WrittenWindow = TypedDict(
    "WrittenWindow",
    {
        "from": NotRequired[WrittenRef],  # what opens it; what the step comes after, where it does not say
        "latest": WrittenAmount,
        "stake": Annotated[str, Text(300)],
        "rescue": NotRequired[Annotated[str, Text(300)]],
    },
)


class WrittenHead(TypedDict):
    id: Id
    title: Annotated[str, Text(120)]
    says: NotRequired[Says]
    reason: NotRequired[Says]
    after: NotRequired[Annotated[list[WrittenRef], Many(40)]]
    optional: NotRequired[bool]
    does: NotRequired[Does]
    hazards: NotRequired[HazardList]
    caution: NotRequired[Annotated[str, Text(400)]]
    ways: NotRequired[Annotated[list[WrittenWay], Many(6, 1)]]
    window: NotRequired[WrittenWindow]
    hands: NotRequired[WrittenAmount]
    tools: NotRequired[Annotated[list[Annotated[str, Text(60)]], Many(20)]]


class WrittenWeigh(WrittenHead):
    kind: Literal["weigh"]
    lines: Annotated[list[Id], Many(100, 1)]
    into: NotRequired[Id]


class WrittenDo(WrittenHead):
    kind: Literal["do"]
    about: NotRequired[WrittenAmount]
    of: NotRequired[Annotated[list[Id], Many(20, 1)]]
    tips: NotRequired[Annotated[list[Id], Many(8, 1)]]
    into: NotRequired[Id]


class WrittenMelt(WrittenHead):
    kind: Literal["melt"]
    of: Annotated[list[Id], Many(20, 1)]
    heater: Annotated[str, Text(60)]
    burst: WrittenAmount
    last_burst: NotRequired[WrittenAmount]
    rest: NotRequired[WrittenAmount]
    from_c: NotRequired[WrittenAmount]
    to_c: NotRequired[WrittenAmount]
    look_for: Annotated[str, Text(300)]


class WrittenPortion(TypedDict):
    id: Id
    name: Annotated[str, Text(80)]
    share: NotRequired[Annotated[int, Within(1, 1000)]]
    mass: NotRequired[WrittenAmount]


_WrittenFrom = TypedDict("_WrittenFrom", {"from": NotRequired[Id]})


class WrittenSplit(WrittenHead, _WrittenFrom):
    kind: Literal["split"]
    portions: Annotated[list[WrittenPortion], Many(8, 2)]


class WrittenNotYet(TypedDict):
    do: Annotated[str, Text(400)]


class WrittenTooFar(TypedDict):
    do: Annotated[str, Text(400)]
    wait: NotRequired[WrittenAmount]


class WrittenCheck(WrittenHead):
    kind: Literal["check"]
    ask: Annotated[str, Text(300)]
    yes: NotRequired[Annotated[str, Text(60)]]
    not_yet: WrittenNotYet
    too_far: NotRequired[WrittenTooFar]


class WrittenPieces(WrittenHead):
    kind: Literal["pieces"]
    one_by_one: NotRequired[bool]
    again: NotRequired[Annotated[str, Text(300)]]
    of: NotRequired[Annotated[list[Id], Many(8, 1)]]
    partial: NotRequired[bool]
    verb: NotRequired[Annotated[str, Text(40)]]


class WrittenWait(WrittenHead):
    kind: Literal["wait"]
    word: Annotated[str, Text(20)]
    earliest: WrittenAmount
    usual: WrittenAmount
    latest: NotRequired[WrittenAmount]
    test: NotRequired[Annotated[str, Text(300)]]
    stake: NotRequired[Annotated[str, Text(300)]]
    rescue: NotRequired[Annotated[str, Text(300)]]


class WrittenTurn(WrittenHead):
    kind: Literal["turn"]
    word: Annotated[str, Text(20)]  # what a piece is once it was done: turned
    every: WrittenAmount
    during: Id  # the wait of the same part that goes on meanwhile


PlainStep: TypeAlias = (
    WrittenWeigh | WrittenDo | WrittenMelt | WrittenSplit | WrittenCheck | WrittenPieces | WrittenWait
)
LoweredStep: TypeAlias = WrittenTurn  # said in plain ones as soon as it is read
WrittenStep: TypeAlias = (
    WrittenWeigh
    | WrittenDo
    | WrittenMelt
    | WrittenSplit
    | WrittenCheck
    | WrittenPieces
    | WrittenWait
    | WrittenTurn
)


class MouldNeed(TypedDict):
    shape: Annotated[str, Text(60)]
    held: bool  # whether the piece stays in it until it is turned out, so that the next round must wait


class WrittenComponent(TypedDict):
    id: Id
    name: Annotated[str, Text(120)]
    piece: NotRequired[WrittenAmount]
    spares: NotRequired[Annotated[int, Within(0, 100)]]
    stays_behind: NotRequired[WrittenAmount]
    loss: NotRequired[WrittenAmount]
    part: NotRequired[WrittenAmount]
    vessel: NotRequired[Id]
    mould: NotRequired[MouldNeed]
    lines: NotRequired[Annotated[list[WrittenLine], Many(400)]]
    steps: Annotated[list[WrittenStep], Many(200, 1)]


class WrittenTake(TypedDict):
    component: Id
    count: NotRequired[Annotated[int, Within(1, 100)]]


class WrittenAssembly(TypedDict):
    name: NotRequired[Annotated[str, Text(120)]]
    takes: Annotated[list[WrittenTake], Many(12, 1)]
    lines: NotRequired[Annotated[list[WrittenLine], Many(100)]]
    steps: Annotated[list[WrittenStep], Many(200)]


class PieceWords(TypedDict):
    one: Annotated[str, Text(40)]
    many: Annotated[str, Text(40)]


class WrittenRange(TypedDict):
    """From the least to the most that will do; one of them may be left out."""

    least: NotRequired[WrittenAmount]
    most: NotRequired[WrittenAmount]


class WrittenGoodPiece(TypedDict):
    """What a good piece is: asked at the end, and kept in the record."""

    mass: NotRequired[WrittenRange]
    ph: NotRequired[WrittenRange]
    look: NotRequired[Annotated[str, Text(300)]]
    set: NotRequired[Annotated[str, Text(300)]]
    judge: NotRequired[Annotated[list[Annotated[str, Text(60)]], Many(8)]]  # told in a number or a word


class WrittenOrigin(TypedDict):
    """The recipe that a variant tries to better; or, of a recipe, the variant that it was written from."""

    recipe: Annotated[str, Text(36)]
    version: Annotated[int, Within(1, 100_000)]
    letter: Annotated[str, Text(3)]  # the variant's


class VariantChoice(TypedDict):
    """What a variant may change: a value of the recipe, with its name and as it is."""

    where: str
    name: str
    value: str | int


class VariantChange(TypedDict):
    """The one change of a variant: a value of the recipe by its path, "components.0.lines.1.amount"."""

    where: str
    value: JsonValue


Start = Literal["cleaned", "cleared"]


class WrittenRecipe(TypedDict):
    """A recipe as its maker wrote it: components made apart, and the assembly that joins them."""

    format: Literal["bowlside-recipe/1"]
    title: Annotated[str, Text(200)]
    summary: NotRequired[Annotated[str, Text(2000, 0)]]
    measures: NotRequired[Measures]
    written_for: Annotated[int, Within(1, 1000)]
    piece: NotRequired[PieceWords]
    use: NotRequired[ProductUse]
    sold_in: NotRequired[Annotated[list[SoldIn], Many(4)]]  # none: it is not sold
    keeps_months: NotRequired[Annotated[int, Within(1, 120)]]  # how long a piece keeps unopened
    stays_on: NotRequired[bool]
    looks_like_food: NotRequired[bool]
    good_piece: NotRequired[WrittenGoodPiece]
    trial: NotRequired[WrittenOrigin]  # it is a variant
    written_from: NotRequired[WrittenOrigin]  # the variant that won a trial
    before: NotRequired[Annotated[list[Start], Many(2)]]  # what is asked before the first weighing
    asks_air: NotRequired[bool]
    ingredients: Annotated[dict[Id, WrittenIngredient], Many(400, 1)]
    components: Annotated[list[WrittenComponent], Many(12, 1)]
    assembly: NotRequired[WrittenAssembly]


# Measured


class Spoon(TypedDict):
    name: str
    nl: Nl


class Density(TypedDict):
    g_per_ml: str  # a decimal, g/ml
    tapped_g_per_ml: str | None  # None: not known
    source: str


class Heat(TypedDict):
    solid_j_per_kg_k: int  # J/(kg K)
    liquid_j_per_kg_k: int  # J/(kg K)
    latent_j_per_kg: int  # J/kg
    melts_mk: MilliK


class Allergen(TypedDict):
    name: str
    ppm: Ppm  # of the fragrance


class Fragrance(TypedDict):
    limit_ppm: Ppm | None  # of the finished piece, from its own certificate; None: not given
    category: str
    allergens: list[Allergen]


class Cautioned(TypedDict):
    """What is warned of: the usual hazards by their code, and cautions of the recipe's own."""

    hazards: NotRequired[list[Hazard]]  # absent: measured long ago, in words among the cautions
    cautions: list[str]


class Ingredient(Cautioned):
    name: str
    inci: str
    note: str
    kind: IngredientKind | Literal[""]
    form: AcidForm | Literal[""]
    density: Density | None  # None: stays in spoons
    heat: Heat | None  # None: no estimate of a melt
    most_mk: MilliK | None  # the warmest it may get; None: its papers were not copied
    fragrance: Fragrance | None
    active_ppm: Ppm | None  # active share by mass; None: not given


class Measure(TypedDict):
    """How much: exactly one of ug, nl, count and texture says how it is measured."""

    ug: Ug | None
    nl: Nl | None
    count: Thousandths | None
    unit: str  # of a count: drops or pieces
    about_ug: Ug | None  # what counted drops are likely to weigh
    texture: bool


SubstituteBy = Literal["amount", "active", "volume", "mass", "count", "texture"]


class Substitute(Measure):
    ingredient: Id
    by: SubstituteBy  # by what it is equal to the line
    written: str
    by_volume: bool
    says: str
    changes_method: bool


class LookedAtTwice(TypedDict):
    second_look: NotRequired[bool]


class RecipeLine(Measure, LookedAtTwice):
    id: Id
    ingredient: Id
    written: str
    by_volume: bool
    tolerance_ppm: Ppm
    optional: bool
    note: str
    substitutes: list[Substitute]


class Way(Cautioned):
    id: Id
    name: str
    says: str


Guard = TypedDict(
    "Guard",
    {
        "state": NotRequired[
            StateName | Literal[""]
        ],  # "": over no state that is known; absent: measured long ago
        "class": NotRequired[WindowClass],
        "price_ms": NotRequired[Ms],  # of the hands, to bring it back
        "lost_ms": NotRequired[Ms | None],  # past the latest, from when it is lost; None: never by time alone
        "rescue": NotRequired[str],  # what helps when it was missed, in the recipe's own words
    },
)

_From = TypedDict("_From", {"from": list[str]})


class Window(_From, Guard):
    """How soon a step must follow: `from` are component.step in a recipe, component.round.step in a sheet."""

    latest_ms: Ms  # after the last of `from` has ended
    stake: str


class RecipeHead(Cautioned):
    id: Id
    title: str
    says: str
    reason: str
    after: list[RecipeKey]
    optional: bool
    does: Does | Literal[""]
    unmoulds: bool
    alcohol: bool  # alcohol is in hand
    ways: list[Way]
    window: Window | None
    hands_ms: Ms | None  # None: the recipe does not say
    tools: list[str]
    keeps: NotRequired[list[Window]]  # windows by nature; absent: measured long ago
    until: NotRequired[list[RecipeKey]]  # done with, once these are: nothing waits for it
    written: NotRequired[Id]  # the step that it is part of, as written


class RecipeWeigh(RecipeHead):
    kind: Literal["weigh"]
    lines: list[Id]
    into: Id


class RecipeDo(RecipeHead):
    kind: Literal["do"]
    about_ms: Ms | None
    of: list[Id]
    tips: list[Id]
    into: Id


class RecipeMelt(RecipeHead):
    kind: Literal["melt"]
    of: list[Id]
    heater: str
    burst_ms: Ms
    last_burst_ms: Ms
    rest_ms: Ms
    from_mk: MilliK | None
    to_mk: MilliK | None
    look_for: str


class RecipePortion(TypedDict):
    id: Id
    name: str
    share: int  # of the sum of all shares; mg where they were written as masses


_SplitFrom = TypedDict("_SplitFrom", {"from": Id})


class RecipeSplit(RecipeHead, _SplitFrom):
    kind: Literal["split"]
    portions: list[RecipePortion]


class LeftAlone(TypedDict):
    too_far_ms: NotRequired[Ms]  # what went too far is to be left for so long before it is judged again


class LooksAt(TypedDict):
    # The line that another person reads on the scale: then the words are the tool's own. []: it was left out.
    looks_at: NotRequired[list[Id]]


class RecipeCheck(RecipeHead, LeftAlone, LooksAt):
    kind: Literal["check"]
    ask: str
    yes: str  # "": not said
    not_yet: str
    too_far: str | None  # None: it cannot go too far; "": common practice helps


class RecipePieces(RecipeHead):
    kind: Literal["pieces"]
    one_by_one: bool
    again: str | None  # asked after each
    of: list[Id]
    partial: bool
    verb: str  # "": not said


class RecipeWait(RecipeHead, Guard):
    kind: Literal["wait"]
    word: str
    earliest_ms: Ms
    usual_ms: Ms
    latest_ms: Ms | None  # None: it never ends too late
    test: str
    stake: str


RecipeStep: TypeAlias = (
    RecipeWeigh | RecipeDo | RecipeMelt | RecipeSplit | RecipeCheck | RecipePieces | RecipeWait
)


class Component(TypedDict):
    id: Id
    name: str
    takes: int  # how many of its pieces one finished piece takes
    spares: int
    piece_mg: Mg  # 0: it is not weighed
    stays_behind_mg: Mg
    loss_ppm: Ppm
    vessel: Id
    mould: MouldNeed | None
    lines: list[RecipeLine]
    steps: list[RecipeStep]


class TwoWays(TypedDict):
    """A written amount that can be read in two ways, and was taken in before it was asked about."""

    where: str  # a field of the recipe
    written: str
    ways: list[str]  # as which it is read, and as which it may have been meant


class GoodPiece(TypedDict):
    """One thing that a recipe wants of a good piece."""

    criterion: str  # mass, ph, look or set; "judge-1": what the maker judges, in words of its own
    least: int | None  # whole mg, or thousandths of a pH; None: no bound
    most: int | None
    says: str  # of what is looked at; ""


class MeasuredRecipe(TypedDict):
    """A recipe whose amounts have been read into whole numbers, every default filled in."""

    format: Literal["bowlside-measured/1"]
    title: str
    summary: str
    measures: Measures
    spoons: list[Spoon]  # the largest first
    written_for: int  # pieces
    piece: PieceWords
    use: NotRequired[ProductUse]
    sold_in: NotRequired[list[SoldIn]]  # none: it is not sold
    keeps_months: NotRequired[int]  # how long a piece keeps unopened
    stays_on: bool | None  # None: neither said nor told by its use
    looks_like_food: bool | None  # None: not said
    good_piece: NotRequired[list[GoodPiece]]  # absent: the recipe does not say
    before: NotRequired[list[Start]]
    asks_air: NotRequired[
        list[Id]
    ]  # the parts before which the air is asked for; absent: none, or of earlier
    ingredients: dict[Id, Ingredient]
    components: list[Component]  # the assembly last
    asks: NotRequired[list[TwoWays]]  # of a recipe that is kept


# What is said of a recipe

Level = Literal["will_not_run", "look", "know"]


class Finding(TypedDict):
    rule: str  # its id in bench/checks/rules.json
    level: Level
    where: str  # component, component.line, component.step, ingredients.id or a field of the recipe
    what: str
    why: str
    by: str
    do: str
    source: str
    dated: str  # of its text: a day, a month, a year or "unknown"; "" where there is none
    place: NotRequired[str]  # what `where` points at, in words


class RoomAir(TypedDict):
    """Today's air in the room."""

    temperature_c: float
    humidity: float  # per cent


class SwapEffect(TypedDict):
    line: RecipeKey
    ingredient: Id
    name: str
    by: SubstituteBy
    mg_before: Mg | None  # of the batch as written; None: not weighed
    mg_after: Mg | None
    changes_method: bool
    says: list[str]
    findings_new: list[Finding]
    findings_gone: list[Finding]
    label_new: list[str]
    label_gone: list[str]


class Change(TypedDict):
    """One thing that is different in another version of a recipe."""

    where: str
    what: str
