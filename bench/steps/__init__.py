"""Kinds of step. Each is a module: its traits, how it is read and how it is laid out on a sheet.

The core asks traits and these few questions, and never names a kind. A new kind is a module here, its shapes in
`bench/shapes`, and its row below. One that is not known here is taken for a plain `do`.
"""

from bench.shapes.recipe import RecipeHead, RecipeStep, StepKind, WrittenStep
from bench.shapes.sheet import Step, StepHead
from bench.shapes.units import Id, Ms
from bench.steps import check, do, melt, pieces, split, wait, weigh
from bench.steps.kind import Around, Batch, Traits

TRAITS: dict[StepKind, Traits] = {
    "weigh": weigh.TRAITS,
    "do": do.TRAITS,
    "melt": melt.TRAITS,
    "split": split.TRAITS,
    "check": check.TRAITS,
    "pieces": pieces.TRAITS,
    "wait": wait.TRAITS,
}


def traits(step: RecipeStep | Step) -> Traits:
    return TRAITS.get(step["kind"], do.TRAITS)


def read(written: WrittenStep, head: RecipeHead, around: Around) -> RecipeStep:
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


def lines_in(step: RecipeStep) -> list[Id]:
    """The lines that a step puts in."""
    return step["lines"] if step["kind"] == "weigh" else []


def is_empty(step: Step) -> bool:
    """Whether nothing is left to do, since the maker left out all that it puts in."""
    return step["kind"] == "weigh" and not step["lines"]


def portions_of(step: RecipeStep | WrittenStep) -> list[Id]:
    """The portions that a step makes."""
    return [portion["id"] for portion in step["portions"]] if step["kind"] == "split" else []


def vessels_named(step: RecipeStep) -> list[Id]:
    """The vessels by label that a step works with, in the order in which it comes to them."""
    match step["kind"]:
        case "weigh":
            return [step["into"]]
        case "do" if step["tips"]:
            return [*step["tips"], step["into"]]
        case "split":
            return [step["from"], *portions_of(step)]
    return []


def usual_wait_ms(step: RecipeStep | Step) -> Ms:
    """How long a step is usually left to itself."""
    return step["usual_ms"] if step["kind"] == "wait" else 0
