"""The tally that a fold keeps: the sheet by its ids, and what the entries taken in so far have told."""

from collections.abc import Container
from typing import Literal, NamedTuple

from bench.shapes.entries import Counted, Signed
from bench.shapes.kit import Vessel
from bench.shapes.sheet import Sheet, SheetLine, SplitStep, Step, Weighing
from bench.shapes.state import (
    AirTold,
    GatheredLot,
    Heating,
    JudgementTold,
    LabelsTold,
    Look,
    MeasuredMass,
    MetTold,
    Note,
    Picture,
    PieceCount,
    Remark,
    ScaleProof,
    Signing,
    Unsigned,
)
from bench.shapes.units import InstantMs, Mg, Ms
from bench.steps import divides

WRAP = "wrap"  # what pieces are wrapped in: gathered like an ingredient, though no sheet lists it


class Settled(NamedTuple):
    """How and when a step was settled."""

    status: Literal["done", "skipped"]
    at: InstantMs
    why: str = ""


class Tally:
    """What has been told, as plain sums and lists; `drawing` draws the state from it."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.steps: dict[str, Step] = {step["id"]: step for step in sheet["steps"]}
        self.lines = {line["id"]: line for line in sheet["lines"]}
        self.vessels = {vessel["id"]: vessel for vessel in sheet["vessels"]}
        self.by_id: dict[str, Container[object]] = {
            "step": self.steps,
            "line": self.lines,
            "vessel": self.vessels,
        }
        self.split_of: dict[str, SplitStep] = {
            portion["vessel"]: step
            for step in sheet["steps"]
            if divides(step)
            for portion in step["portions"]
        }
        self.scales = {scale["id"]: scale for scale in sheet["kit"]["scales"]}
        self.kit_vessels: dict[str, Vessel] = {vessel["id"]: vessel for vessel in sheet["kit"]["vessels"]}
        self.gatherable = {each["id"] for each in sheet["ingredients"]} | {WRAP}
        self._begin_times()
        self._begin_bowls()
        self._begin_steps()
        self._begin_paper()

    def _begin_times(self) -> None:
        self.started_at: InstantMs | None = None
        self.finished_at: InstantMs | None = None
        self.last_at: InstantMs | None = None

    def _begin_bowls(self) -> None:
        self.weigh: Weighing = self.sheet["size"]["weigh"]
        self.in_mg: dict[str, Mg] = dict.fromkeys(self.lines, 0)
        self.touched: dict[str, InstantMs] = {}  # line -> when last
        self.decided: dict[str, Literal["left", "left_out"]] = {}  # by line
        self.poured_by: dict[str, str] = {}  # line -> the device that told its first pour
        self.twice: dict[str, str] = {}  # line -> the last pour told by another device
        self.took_out: dict[tuple[str, Mg], str] = {}  # line and what was in it -> who told first
        self.out_twice: dict[str, str] = {}  # line -> the last that another device had told
        self.factors: dict[str, tuple[int, int]] = {}  # by "component.round"
        self.scale_of = {key: vessel["scale"] for key, vessel in self.vessels.items()}
        self.placed: dict[str, str] = {}  # line -> the scale that its small cup was put on
        self.taken: dict[str, str] = {}  # vessel -> the one of the kit that was taken instead
        self.weighed_on: dict[str, str | None] = {}  # line -> the scale of its last pour
        self.vessel_mg: dict[str, Mg] = dict.fromkeys(self.vessels, 0)
        self.zero_mg: dict[str, Mg] = dict.fromkeys(self.vessels, 0)
        self.portions: dict[str, Mg] = {}  # by vessel
        self.portioned_at: dict[str, InstantMs] = {}
        self.portioned_of: set[tuple[str, Mg]] = set()  # vessel and what was seen in the bowl

    def _begin_steps(self) -> None:
        self.settled: dict[str, Settled] = {}
        self.way: dict[str, str] = {}
        self.began: dict[str, InstantMs] = {}
        self.bursts: dict[str, list[Heating]] = {}
        self.looks: dict[str, list[Look]] = {}
        self.counts: dict[str, PieceCount] = {}
        self.counted_at: dict[str, InstantMs] = {}
        self.counted_by: dict[tuple[str, str], Counted] = {}  # step and device -> what it counted last
        self.unseeing: set[str] = set()  # steps of which somebody counted without saying how many were seen
        self.extended: dict[str, InstantMs] = {}

    def _begin_paper(self) -> None:
        self.number: str | None = None
        self.also_numbered: list[str] = []
        self.gathered: list[GatheredLot] = []
        self.ticked: dict[str, InstantMs] = {}
        self.measured: list[MeasuredMass] = []
        self.air: list[AirTold] = []
        self.proved: list[ScaleProof] = []
        self.labelled: list[LabelsTold] = []
        self.pictures: list[Picture] = []
        self.worked: dict[str, Ms] = {}
        self.signed: Signing | None = None
        self.unsigned: list[Unsigned] = []
        self.remarks: list[Remark] = []
        self.notes: list[Note] = []
        self.kept: int | None = None
        self.met: dict[str, MetTold] = {}
        self.judgements: list[JudgementTold] = []
        self.unread: list[str] = []

    def settle(self, step: str, status: Literal["done", "skipped"], at: InstantMs, why: str = "") -> None:
        known = self.settled.get(step)
        if known is None or known.status != status:
            self.settled[step] = Settled(status, at, why)

    def is_done(self, step: str) -> bool:
        settled = self.settled.get(step)
        return settled is not None and settled.status == "done"

    def choose(self, step: str, way: str) -> bool:
        """Note which of a step's ways was taken; False when it has no such way."""
        if not any(each["id"] == way for each in self.steps[step]["ways"]):
            return False
        self.way[step] = way
        return True

    def scale_now(self, line: SheetLine) -> str | None:
        """The scale that the next of a line is weighed on: the sheet's is a proposal."""
        planned, key = line["scale"], line["vessel"]
        if planned is None or key is None:
            return planned
        stands_on = self.scale_of[key]
        moved = stands_on != self.vessels[key]["scale"] and not line["cup"]
        return self.placed.get(line["id"]) or (stands_on if moved else planned)

    def sign(self, signing: Signed, sealed: list[str], named: int) -> None:
        """Close the record by this signing, which named so many entries, of which these are here."""
        at = signing["at"]
        self.signed = {
            "id": signing["id"],
            "at": at,
            "device": signing["device"],
            "name": signing["body"]["name"],
            "entries": sorted(sealed),
            "missing": named - len(sealed),
        }
        self.started_at = at if self.started_at is None else self.started_at
        self.finished_at = at if self.finished_at is None else self.finished_at
        self.last_at = at
