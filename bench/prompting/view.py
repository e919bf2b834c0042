"""The bench as the prompts see it: a sheet, a state and an instant, by their ids."""

from typing import NamedTuple

from bench.capacity import WeighedLine, as_weighed, weighed_lines
from bench.journal import division_on
from bench.shapes.kit import Scale
from bench.shapes.prompts import Answer, Number, OnScale, PromptKind
from bench.shapes.sheet import Sheet, SheetLine, Step
from bench.shapes.state import State, StepStatus
from bench.shapes.units import InstantMs
from bench.waits import guide_phase
from bench.whole import Division, to_division


class Said(NamedTuple):
    """What a kind of step says now, of which a prompt is made."""

    says: str
    answers: list[Answer]
    number: Number | None = None
    weigh: OnScale | None = None
    title: str | None = None  # None: the step's own
    kind: PromptKind | None = None  # None: the step's own
    first: str = ""  # said before all else, and never cut: a reading means nothing until it was done


class View:
    def __init__(self, sheet: Sheet, state: State, at: InstantMs) -> None:
        self.sheet = sheet
        self.state = state
        self.at = at
        self.steps: dict[str, Step] = {step["id"]: step for step in sheet["steps"]}
        self.lines = {line["id"]: line for line in sheet["lines"]}
        self.vessels = {vessel["id"]: vessel for vessel in sheet["vessels"]}
        self.components = {component["id"]: component for component in sheet["components"]}
        self.scales = {scale["id"]: scale for scale in sheet["kit"]["scales"]}
        self.waits = {wait["step"]: wait for wait in state["waits"]}
        self.windows = {window["step"]: window for window in state["windows"]}
        self.guides = {guide["step"]: guide for guide in state["guides"]}

    def status(self, step: str) -> StepStatus:
        return self.state["steps"][step]["status"]

    def is_settled(self, step: str) -> bool:
        return self.status(step) in ("done", "skipped")

    def is_first_asked(self, step: Step) -> bool:
        """Whether nothing of the step was answered yet: what holds for all of it is said now, once."""
        return self.status(step["id"]) != "begun"

    def is_counting(self, step: str) -> bool:
        """Whether something is timed at this step, and is not over."""
        guide = self.guides.get(step)
        return guide is not None and guide_phase(guide, self.at) == "counting"

    def scale(self, line: SheetLine) -> Scale | None:
        """The scale that a line goes onto now."""
        return self.scales.get(self.state["lines"][line["id"]]["scale"] or "")

    def division(self, line: SheetLine) -> Division:
        """What the scale that a line goes onto now reads in."""
        return division_on(self.sheet, self.state["lines"][line["id"]]["scale"]) or Division(1)

    def shows(self, line: SheetLine) -> bool:
        """Whether a scale shows anything of a line: not what is counted, nor what is too little for it."""
        pour = self.weighed(line)
        return pour is not None and to_division(pour.target, self.division(line)) > 0

    def factor(self, line: SheetLine) -> tuple[int, int]:
        """What the line's round is made of the sheet's, as numerator and denominator."""
        num, den = self.state["factors"].get(f"{line['component']}.{line['round']}", (1, 1))
        return num, den

    def carried(self, line: SheetLine) -> int:
        """Above nought when the line's round was carried up, below when it was carried down."""
        num, den = self.factor(line)
        return num - den

    def weighed(self, line: SheetLine) -> WeighedLine | None:
        return as_weighed(line, self.state)

    def round_of(self, line: SheetLine) -> list[WeighedLine]:
        """The weighed lines of a line's round."""
        return weighed_lines(self.sheet, self.state, line["component"], line["round"])
