"""The state: what a sheet and a journal together say. Drawn by `fold`, never kept as the truth."""

from typing import Literal, NotRequired, TypedDict

from bench.shapes.entries import Judgement, Market, MeasuredWhat, Met, Verdict
from bench.shapes.sheet import Weighing
from bench.shapes.units import InstantMs, JsonValue, Mg, MilliK, Ms

StepStatus = Literal["waiting", "ready", "begun", "done", "skipped"]
BatchVerdict = Literal["released", "held", "rejected"]
LineStatus = Literal["by_hand", "open", "short", "in", "over", "left", "left_out"]


class StepState(TypedDict):
    status: StepStatus
    ready_at: InstantMs | None  # when the last of its needs was settled; None while one is not
    at: InstantMs | None  # when it was settled; None while it is not
    way: str | None  # the way that was chosen
    why: str  # why it was skipped; "" where nobody said


class LineState(TypedDict):
    target_mg: Mg | None  # by now: carried, and by its portion; None where it has no mass
    in_mg: Mg
    status: LineStatus
    twice: str | None  # the last pour told by another device than the first; None: one device told all
    out_twice: NotRequired[str]  # the last taking out that another device had told before
    scale: str | None  # of the kit: where the next pour goes; None where it is not weighed
    weighed_on: str | None  # of the kit: where the last pour went


class VesselState(TypedDict):
    in_mg: Mg  # of contents
    zero_mg: Mg  # of contents when its scale was zeroed last
    name: str
    empty_mg: Mg
    holds_mg: Mg | None  # None: nobody said, or the kit has none
    scale: str | None  # of the kit
    kit: str | None  # the vessel of the kit that it is by now; None where the kit has none


class Heating(TypedDict):
    at: InstantMs
    ms: Ms
    answer: Verdict | None  # None: nobody looked yet
    rest_ms: NotRequired[Ms]  # between the burst and the look


class Look(TypedDict):
    at: InstantMs
    answer: Verdict
    way: str | None  # of a "not yet": what was tried
    text: NotRequired[str]  # who looked, where another person had to


class PieceCount(TypedDict):
    good: int
    spoiled: int
    partial: int
    of: dict[str, int]  # vessel, or "joined" -> how many came out of it


class RunningWait(TypedDict):
    step: str
    began_at: InstantMs
    earliest_at: InstantMs
    usual_at: InstantMs
    latest_at: InstantMs | None  # None: it may take as long as it likes


class OpenWindow(TypedDict):
    step: str
    opened_at: InstantMs
    latest_at: InstantMs


class RunningGuide(TypedDict):
    """Something that is timed to help, and asks for nothing: a burst, a rest, a step of so many minutes."""

    step: str
    began_at: InstantMs
    until: InstantMs
    rests_at: NotRequired[InstantMs]  # a burst that rests before the look: when it is over


class GatheredLot(TypedDict):
    at: InstantMs
    ingredient: str
    lot: str
    mg: Mg | None  # None: as much as it takes
    count: int | None


class MeasuredMass(TypedDict):
    at: InstantMs
    what: MeasuredWhat
    mg: Mg
    step: str | None
    piece: int | None
    scale: str | None


class AirTold(TypedDict):
    at: InstantMs
    device: str
    humidity: int  # whole per cent
    mk: MilliK | None  # None: nobody said


class ScaleProof(TypedDict):
    """What a scale showed of its test weight."""

    at: InstantMs
    device: str
    scale: str
    weight_mg: Mg
    mg: Mg


class LabelsTold(TypedDict):
    """Labels as they were counted: printed, on pieces, binned; and what stood on them."""

    at: InstantMs
    device: str
    market: Market
    printed: int
    on: int
    binned: int
    text: str  # "" where nobody said


class Picture(TypedDict):
    at: InstantMs
    device: str
    picture: str  # its id
    sha256: str
    text: str
    step: str | None


class Signing(TypedDict):
    """The signing that holds."""

    id: str
    at: InstantMs
    device: str
    name: str
    entries: list[str]  # ids of those sealed that are here, sorted
    missing: int  # how many of the sealed are not here


class Unsigned(TypedDict):
    """A signing that was taken back."""

    at: InstantMs
    device: str
    name: str
    signed_at: InstantMs
    signed_by: str


class Remark(TypedDict):
    """An entry that was not signed, beside a record that is."""

    id: str
    at: InstantMs
    device: str
    kind: str
    body: dict[str, JsonValue]


class Note(TypedDict):
    at: InstantMs
    device: str
    step: str | None
    text: str


class JudgementTold(TypedDict):
    """A judgement of the batch, or of one of its deviations."""

    id: str
    at: InstantMs
    device: str
    about: str  # "batch", or what the record's deviation is known by
    verdict: Judgement
    name: str  # who judged
    why: str  # "" where nobody said
    signing: str | None  # of what was released: the signing that held


class MetTold(TypedDict):
    """How the pieces were held against something that the recipe wants of them."""

    at: InstantMs
    device: str
    answer: Met
    text: str


class ToldOfRun(TypedDict):
    """What the state says of a whole run, and the record as the state does."""

    number: str | None
    also_numbered: list[str]
    started_at: InstantMs | None
    finished_at: InstantMs | None
    unsigned: list[Unsigned]
    notes: list[Note]
    air: list[AirTold]
    proved: list[ScaleProof]
    labelled: list[LabelsTold]
    pictures: list[Picture]
    judgements: list[JudgementTold]  # signed or not, as they were told
    unread: list[str]  # ids of entries, sorted


class State(ToldOfRun):
    last_at: InstantMs | None
    weigh: Weighing
    steps: dict[str, StepState]
    lines: dict[str, LineState]
    vessels: dict[str, VesselState]
    bursts: dict[str, list[Heating]]  # by step
    looks: dict[str, list[Look]]  # by step
    counts: dict[str, PieceCount]  # by step
    expected: dict[str, int]  # by step: how many good pieces a count now expects
    portions: dict[str, Mg]  # by vessel
    factors: dict[str, list[int]]  # by "component.round": numerator and denominator
    waits: list[RunningWait]
    windows: list[OpenWindow]
    guides: list[RunningGuide]
    gathered: list[GatheredLot]
    ticked: dict[str, InstantMs]
    measured: list[MeasuredMass]
    worked: dict[str, Ms]  # by step; "" is the whole run
    signed: Signing | None
    remarks: list[Remark]
    kept: int | None  # pieces kept back of the good ones; None: nobody said
    met: dict[str, MetTold]  # by criterion, as it was answered last
