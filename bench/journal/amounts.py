"""What follows from a sheet and a state about masses: portions, what is left of a mix, carrying up."""

from collections.abc import Mapping
from typing import Literal

from bench.shapes.sheet import PiecesStep, Sheet, SplitStep
from bench.shapes.state import PieceCount, State
from bench.shapes.units import Mg
from bench.weighing import carry_factor, reads_in
from bench.whole import Division, share_out

MOST_FACTOR = 1000  # a thousand times the batch is a slip of the finger too
COUNTED: tuple[Literal["good"], Literal["spoiled"], Literal["partial"]] = ("good", "spoiled", "partial")


def division_of(sheet: Sheet, scale: str | None) -> Mg | None:
    """The division of a scale of the kit, in mg; None where there is no such scale."""
    return next((each["division_mg"] for each in sheet["kit"]["scales"] if each["id"] == scale), None)


def division_on(sheet: Sheet, scale: str | None) -> Division | None:
    """What a scale of the kit reads in; None where there is no such scale."""
    return next((reads_in(each) for each in sheet["kit"]["scales"] if each["id"] == scale), None)


def portion_targets(step: SplitStep, state: State) -> list[Mg]:
    """What each portion of a split should weigh, in mg, from what really is in the bowl."""
    held = state["vessels"][step["vessel"]]["in_mg"]
    done = state["steps"][step["id"]]["status"] == "done"
    out = sum(state["portions"].get(portion["vessel"], 0) for portion in step["portions"])
    total = out if done else held + out
    return share_out(total, [portion["share"] for portion in step["portions"]])


def left_of_mix(step: PiecesStep, held_mg: Mapping[str, Mg], count: PieceCount | None, sheet: Sheet) -> Mg:
    """What is left of a part's mix, in mg, after the pieces that were counted; never below nought.

    held_mg: what went into each vessel.
    """
    own = [
        each["id"]
        for each in sheet["vessels"]
        if (each["component"], each["round"]) == (step["component"], step["round"])
    ]
    held = sum(held_mg[vessel] for vessel in step["of"] or own)
    gone = sum(count[field] for field in COUNTED) if count else 0
    return max(0, held - gone * step["piece_mg"])


def in_reach(num: int, den: int) -> bool:
    """Whether a carry by num / den can be meant: between a thousandth and a thousand times."""
    return num <= MOST_FACTOR * den and den <= MOST_FACTOR * num


def carry_up(sheet: Sheet, state: State, component: str, number: int) -> tuple[int, int]:
    """k = max(actual / target) over what is in this round's bowl, as (numerator, denominator)."""
    pairs = [
        (state["lines"][line["id"]]["in_mg"], line["mg"])
        for line in sheet["lines"]
        if line["component"] == component and line["round"] == number and line["mg"]
    ]
    return carry_factor([(actual, target) for actual, target in pairs if actual > 0])
