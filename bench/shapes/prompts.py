"""What the bench says now: prompts with their answers, waits, windows and guides, in words and numbers."""

from typing import Literal, NotRequired, TypedDict

from bench.shapes.entries import EntryBody, RunKind
from bench.shapes.recipe import StepKind
from bench.shapes.sheet import Sheet
from bench.shapes.state import OpenWindow, RunningGuide, RunningWait, State
from bench.shapes.units import InstantMs, Mg, Uoz

WaitPhase = Literal["counting", "look", "ready", "soon_late", "late"]
WindowPhase = Literal["open", "soon_late", "late"]
GuidePhase = Literal["counting", "ready"]
RingKind = Literal["look", "ready", "late"]
PromptKind = StepKind | Literal["over", "short", "heating", "finish"]
AnswerInput = Literal["reading", "count", "note", "air"]
WeighHow = Literal["running", "tare", "cup", "spoons", "count", "texture", "over", "portion"]


class Ring(TypedDict):
    kind: RingKind
    at: InstantMs


class VesselBody(TypedDict):
    """A portion that is still to be read off the scale."""

    vessel: str
    seen: Mg  # how much was in the bowl


class ScaleBody(TypedDict):
    """A test weight that is still to be read off the scale."""

    scale: str
    weight_mg: Mg


class Besides(TypedDict):
    kind: RunKind
    body: EntryBody


class Answer(TypedDict):
    """The kind and body of an entry to post, and how it is offered."""

    id: str
    label: str
    says: str
    kind: RunKind
    body: EntryBody | VesselBody | ScaleBody  # less what `input` asks for
    input: AnswerInput | None  # what it still wants
    most: int | None  # the most that may be given
    strong: bool  # the likeliest: what a pedal or a spoken "yes" gives
    ask: str  # what to ask before it is posted; "" for nothing
    also: NotRequired[list[Besides]]  # what the same touch tells too, after it


class Caution(TypedDict):
    short: str  # six words at most
    full: str
    seen: bool  # it stood with a step that was begun before


class Number(TypedDict):
    """The large figure of a prompt."""

    mg: Mg | None  # None: it is no mass
    text: str
    caption: str


class OnScale(TypedDict):
    line: str | None  # None: a portion
    name: str
    add_mg: Mg  # below zero: to be taken out
    add: str
    reads_mg: Mg | None  # None: no scale shows it
    reads: str
    before_mg: Mg  # what the scale shows before
    how: WeighHow
    scale: str  # its name; ""
    division_mg: Mg | None
    division_uoz: NotRequired[Uoz]  # of a scale that reads in ounces, exactly
    tolerance_mg: Mg
    vessel: str | None


class Prompt(TypedDict):
    step: str | None  # None: to finish the batch
    component: str | None
    letter: str
    round: int
    of_rounds: int
    kind: PromptKind
    title: str
    says: str
    why: str
    more: str
    cautions: list[Caution]
    aid: NotRequired[list[str]]  # first aid, beside what is hot: a line by itself, then the rest
    number: Number | None
    weigh: OnScale | None
    answers: list[Answer]


class StepTitle(TypedDict):
    step: str
    title: str


class Beside(TypedDict):
    component: str
    letter: str
    title: str


class WaitNow(RunningWait, Beside):
    word: str
    phase: WaitPhase
    asks: str  # "" while it counts


class WindowNow(OpenWindow, Beside):
    phase: WindowPhase
    stake: str


class GuideNow(RunningGuide, Beside):
    phase: GuidePhase


class Now(TypedDict):
    at: InstantMs
    finished: bool
    prompts: list[Prompt]  # the best next one first
    waits: list[WaitNow]  # the most urgent first
    windows: list[WindowNow]
    guides: list[GuideNow]
    skipped: list[StepTitle]
    owed: list[StepTitle]  # passed over: what needs them is settled


class InUse(TypedDict):
    """Something that a step which could be begun now needs, and another batch has."""

    step: str
    what: Literal["vessel", "mould", "tool"]
    by: str  # what the other batch is called
    says: str
    place: str | None  # the sheet's vessel; None for anything else
    instead: str | None  # the next vessel of the kit that fits and is free


class OnBench(TypedDict):
    """A batch on the bench, as `in_use` takes it."""

    name: str  # what it is called
    sheet: Sheet
    state: State


class NowBesideOthers(Now):
    """What the bench says now, and what other batches have in use of the kit."""

    in_use: list[InUse]
