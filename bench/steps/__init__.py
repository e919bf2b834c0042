"""Kinds of step. Each is a module: its traits, how it is read and how it is laid out on a sheet.

The core asks traits and these few questions, and never names a kind. A new kind is a module here, its shapes in
`bench/shapes`, and its row below. One that is not known here is taken for a plain `do`. A kind that the others
can say is lowered to them as soon as it is read: then no sheet, journal, prompt or plan need know of it.
"""

from bench.shapes.recipe import LoweredStep, PlainStep, RecipeHead, RecipeStep
from bench.shapes.sheet import Step, StepHead
from bench.steps import check, do, melt, pieces, split, turn, wait, weigh
from bench.steps.asking import (
    as_plain,
    by_hand,
    counts_pieces,
    divides,
    heated_in,
    heats,
    is_empty,
    is_judged,
    is_lowered,
    is_one_touch,
    is_plain,
    known_kind,
    lines_in,
    planned_ms,
    portions_of,
    puts_in,
    runs_by_itself,
    tipped_by,
    traits,
    usual_hands_ms,
    usual_wait_ms,
    vessels_named,
    worked_on,
)
from bench.steps.kind import Around, Batch, Beside

__all__ = [
    "as_plain",
    "by_hand",
    "counts_pieces",
    "divides",
    "heated_in",
    "heats",
    "is_empty",
    "is_judged",
    "is_lowered",
    "is_one_touch",
    "is_plain",
    "known_kind",
    "lay_out",
    "lines_in",
    "lower",
    "planned_ms",
    "portions_of",
    "puts_in",
    "read",
    "runs_by_itself",
    "tipped_by",
    "traits",
    "usual_hands_ms",
    "usual_wait_ms",
    "vessels_named",
    "worked_on",
]


def lower(written: LoweredStep, head: RecipeHead, beside: Beside) -> list[RecipeStep]:
    """A written step as the measured steps that say it, all with its id as `written`."""
    return turn.lower(written, head, beside)


def read(written: PlainStep, head: RecipeHead, around: Around) -> RecipeStep:
    """A written step, measured."""
    match written["kind"]:
        case "weigh":
            return weigh.read(written, head, around)
        case "do":
            return do.read(written, head, around)
        case "melt":
            return melt.read(written, head, around)
        case "split":
            return split.read(written, head, around)
        case "check":
            return check.read(written, head, around)
        case "pieces":
            return pieces.read(written, head, around)
        case "wait":
            return wait.read(written, head, around)


def lay_out(step: RecipeStep, head: StepHead, batch: Batch) -> Step:
    """A measured step, as one round's step on the sheet."""
    match step["kind"]:
        case "weigh":
            return weigh.lay_out(step, head, batch)
        case "do":
            return do.lay_out(step, head, batch)
        case "melt":
            return melt.lay_out(step, head, batch)
        case "split":
            return split.lay_out(step, head, batch)
        case "check":
            return check.lay_out(step, head, batch)
        case "pieces":
            return pieces.lay_out(step, head, batch)
        case "wait":
            return wait.lay_out(step, head, batch)
