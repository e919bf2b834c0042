"""The needs of a recipe's steps: every step named exists, and the needs never run in a circle."""

from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from bench.errors import RecipeError
from bench.recipe.steps import places
from bench.shapes.recipe import Component, RecipeStep
from bench.shapes.units import RecipeKey
from bench.states import ASSEMBLY
from bench.words import say


@dataclass(frozen=True, slots=True)
class _Placed:
    step: RecipeStep
    where: str  # in the document


def check_needs(components: list[Component]) -> None:
    steps = {
        f"{component['id']}.{step['id']}": _Placed(step, f"{_root(component, place)}.steps.{index}")
        for place, component in enumerate(components)
        for index, step in zip(places(component["steps"]), component["steps"], strict=True)
    }
    for key, placed in steps.items():
        window = placed.step["window"]
        _check_named(key, placed.step["after"], f"{placed.where}.after", steps)
        _check_named(key, window["from"] if window else [], f"{placed.where}.window.from", steps)
    circle = _circle(steps)
    if circle:
        raise RecipeError(
            f"{steps[circle[0]].where}.after", say("recipe-circle", steps=" → ".join(reversed(circle)))
        )


def _root(component: Component, place: int) -> str:
    return ASSEMBLY if component["id"] == ASSEMBLY else f"components.{place}"


def _check_named(
    key: RecipeKey, references: list[RecipeKey], where: str, steps: dict[RecipeKey, _Placed]
) -> None:
    for reference in references:
        if reference not in steps:
            raise RecipeError(where, say("recipe-no-step", step=reference))
        if reference == key:
            raise RecipeError(where, say("recipe-after-itself", step=key))


def _circle(steps: dict[RecipeKey, _Placed]) -> list[RecipeKey]:
    """Steps of which each comes after the next, the first named again at the end; [] where there are none."""
    try:
        TopologicalSorter({key: placed.step["after"] for key, placed in steps.items()}).prepare()
    except CycleError as error:
        found: list[RecipeKey] = error.args[1]
        return found[::-1]
    return []
