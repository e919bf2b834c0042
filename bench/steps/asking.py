"""What the core asks a step of its kind: each trait as a question, and what only some kinds have."""

from typing import TypeGuard, cast, overload

from bench.shapes.recipe import (
    Component,
    LoweredStep,
    PlainStep,
    RecipeCheck,
    RecipeDo,
    RecipeMelt,
    RecipePieces,
    RecipeSplit,
    RecipeStep,
    RecipeWait,
    RecipeWeigh,
    StepKind,
    WrittenStep,
)
from bench.shapes.sheet import (
    CheckStep,
    DoStep,
    MeltStep,
    PiecesStep,
    SplitStep,
    Step,
    WaitStep,
    WeighStep,
)
from bench.shapes.units import Id, Ms
from bench.steps import check, do, melt, pieces, split, wait, weigh
from bench.steps.kind import Traits

TRAITS: dict[StepKind, Traits] = {
    "weigh": weigh.TRAITS,
    "do": do.TRAITS,
    "melt": melt.TRAITS,
    "split": split.TRAITS,
    "check": check.TRAITS,
    "pieces": pieces.TRAITS,
    "wait": wait.TRAITS,
}
UNKNOWN = Traits()  # of a later version: there is no more to it than that hands do it


def traits(step: RecipeStep | Step) -> Traits:
    return TRAITS.get(step["kind"], UNKNOWN)


@overload
def runs_by_itself(step: RecipeStep) -> TypeGuard[RecipeWait]: ...
@overload
def runs_by_itself(step: Step) -> TypeGuard[WaitStep]: ...
def runs_by_itself(step: RecipeStep | Step) -> bool:
    return traits(step).runs_by_itself


@overload
def counts_pieces(step: RecipeStep) -> TypeGuard[RecipePieces]: ...
@overload
def counts_pieces(step: Step) -> TypeGuard[PiecesStep]: ...
def counts_pieces(step: RecipeStep | Step) -> bool:
    return traits(step).counts_pieces


@overload
def puts_in(step: RecipeStep) -> TypeGuard[RecipeWeigh]: ...
@overload
def puts_in(step: Step) -> TypeGuard[WeighStep]: ...
def puts_in(step: RecipeStep | Step) -> bool:
    return traits(step).puts_in


@overload
def by_hand(step: RecipeStep) -> TypeGuard[RecipeDo]: ...
@overload
def by_hand(step: Step) -> TypeGuard[DoStep]: ...
def by_hand(step: RecipeStep | Step) -> bool:
    return traits(step).by_hand


@overload
def heats(step: RecipeStep) -> TypeGuard[RecipeMelt]: ...
@overload
def heats(step: Step) -> TypeGuard[MeltStep]: ...
def heats(step: RecipeStep | Step) -> bool:
    return traits(step).heats


@overload
def divides(step: RecipeStep) -> TypeGuard[RecipeSplit]: ...
@overload
def divides(step: Step) -> TypeGuard[SplitStep]: ...
def divides(step: RecipeStep | Step) -> bool:
    return traits(step).divides


@overload
def is_judged(step: RecipeStep) -> TypeGuard[RecipeCheck]: ...
@overload
def is_judged(step: Step) -> TypeGuard[CheckStep]: ...
def is_judged(step: RecipeStep | Step) -> bool:
    return traits(step).is_judged


def is_plain(written: WrittenStep) -> TypeGuard[PlainStep]:
    """Whether a written step is of a kind that sheets have."""
    return written["kind"] in TRAITS


def is_lowered(written: WrittenStep) -> TypeGuard[LoweredStep]:
    """Whether a written step is said in other kinds."""
    return not is_plain(written)


def is_one_touch(step: Step) -> bool:
    """Whether nothing must be known or chosen before a step is told as done."""
    bare = by_hand(step) and step["mg"] is None and step["about_ms"] is None and not step["tips"]
    return bare and not (step["ways"] or step["hazards"] or step["cautions"])


def as_plain(step: Step) -> DoStep:
    """A step as a thing to do and no more: what a kind of a later version is taken for."""
    bare: dict[str, object] = {"kind": "do", "about_ms": None, "mg": None, "tips": [], "into": ""}
    return step if by_hand(step) else cast(DoStep, {**step, **bare})


def known_kind(step: Step) -> StepKind:
    """The kind that a step is asked about as."""
    return step["kind"] if step["kind"] in TRAITS else "do"


def usual_hands_ms(step: Step) -> Ms:
    """How long hands are on a step of its kind, by common practice."""
    match step["kind"]:
        case "weigh":
            return weigh.usual_hands_ms(step)
        case "melt":
            return melt.USUAL_HANDS_MS
        case "split":
            return split.USUAL_HANDS_MS
        case "check":
            return check.USUAL_HANDS_MS
        case "pieces":
            return pieces.usual_hands_ms(step)
        case _:
            return do.USUAL_HANDS_MS


def planned_ms(step: Step) -> Ms | None:
    """How long a step takes by its own plan; None where it has none."""
    return melt.planned_ms(step) if heats(step) and step["bursts"] else None


def heated_in(step: RecipeStep, component: Component) -> list[Id]:
    """The vessels, by label, that a step heats."""
    return melt.heated_in(step, component) if heats(step) else []


def lines_in(step: RecipeStep) -> list[Id]:
    """The lines that a step puts in."""
    return step["lines"] if puts_in(step) else []


def is_empty(step: Step) -> bool:
    """Whether nothing is left to do, since the maker left out all that it puts in, or looks at."""
    return (puts_in(step) and not step["lines"]) or (is_judged(step) and step.get("looks_at") == [])


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
    return step["usual_ms"] if runs_by_itself(step) else 0


def tipped_by(step: RecipeStep) -> list[Id]:
    """The vessels that a step tips into another."""
    return step["tips"] if by_hand(step) else []


def worked_on(step: RecipeStep) -> list[Id]:
    """The lines that a step works on."""
    return step["of"] if by_hand(step) or heats(step) or counts_pieces(step) else []
