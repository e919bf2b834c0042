"""What comes after what on a sheet, and within how long, once every round has its steps."""

from collections.abc import Callable
from typing import NamedTuple

from bench.shapes.recipe import Component, RecipeStep, Window
from bench.shapes.sheet import Step
from bench.shapes.units import Id, RecipeKey, StepKey
from bench.states import ASSEMBLY, full_guard
from bench.steps import traits


class Leader(NamedTuple):
    """The component whose window the assembly must keep, so whose rounds it follows."""

    component: Id
    closing: Id  # the assembly's step that closes the window


def leader_of(components: list[Component]) -> Leader | None:
    for component in components:
        for step in component["steps"] if component["id"] == ASSEMBLY else ():
            for reference in step["window"]["from"] if step["window"] else ():
                source = reference.split(".")[0]
                if source != ASSEMBLY:
                    return Leader(source, step["id"])
    return None


def link(
    steps: list[Step], components: list[Component], number_of: dict[Id, int], leader: Leader | None
) -> None:
    """Fill in `after`, `window` and `keeps`. number_of: the rounds of each component."""
    paired = {ASSEMBLY, leader.component} if leader else set()
    written = {
        f"{component['id']}.{step['id']}": step for component in components for step in component["steps"]
    }
    for step in steps:
        here, number = step["component"], step["round"]

        def instances(reference: RecipeKey, here: Id = here, number: int = number) -> list[StepKey]:
            source, name = reference.split(".")
            if source == here or {source, here} <= paired:
                return [f"{source}.{number}.{name}"]
            return [f"{source}.{each}.{name}" for each in range(1, number_of[source] + 1)]

        _link_one(step, written[f"{here}.{step['step']}"], instances)
    _one_round_after_another(steps, components, number_of, leader)


def _link_one(step: Step, source: RecipeStep, instances: Callable[[RecipeKey], list[StepKey]]) -> None:
    def opened(window: Window) -> Window:
        return {
            **full_guard(window),
            "from": [each for reference in window["from"] for each in instances(reference)],
            "latest_ms": window["latest_ms"],
            "stake": window["stake"],
        }

    step["after"] = [each for reference in source["after"] for each in instances(reference)]
    if source["window"]:
        step["window"] = opened(source["window"])
    # What is at stake by nature follows from the state: `stake_of` says it.
    step["keeps"] = [{**opened(window), "stake": ""} for window in source.get("keeps", [])]
    if "until" in source:
        step["until"] = [each for reference in source["until"] for each in instances(reference)]


def _one_round_after_another(
    steps: list[Step], components: list[Component], number_of: dict[Id, int], leader: Leader | None
) -> None:
    """The steps that begin a round come after what frees the mould, the bowl or the hands of the round before."""
    by_id = {step["id"]: step for step in steps}
    for component in components:
        for number in range(2, number_of[component["id"]] + 1):
            frees = _frees(component, number - 1, leader)
            prefix = f"{component['id']}.{number}."
            for step in component["steps"]:
                first = by_id[prefix + step["id"]]
                inside = any(need.startswith(prefix) for need in first["after"])
                if not inside and frees not in first["after"]:
                    first["after"].append(frees)


def _frees(component: Component, number: int, leader: Leader | None) -> StepKey:
    """The step of a round that gives back what the next round needs: mould, bowl or hands."""
    if leader and component["id"] == leader.component:
        return f"{ASSEMBLY}.{number}.{leader.closing}"
    steps = [step for step in component["steps"] if "until" not in step]
    if component["mould"] and component["mould"]["held"]:
        freeing = next((step for step in steps if step["unmoulds"]), steps[-1])
    else:  # a bowl comes free at the first piece-by-piece step: the pressing, pouring or piping
        freeing = next((step for step in steps if traits(step).counts_pieces), steps[-1])
    return f"{component['id']}.{number}.{freeing['id']}"
