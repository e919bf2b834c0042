"""Which steps are prompted, and in which order: the best next one first."""

from collections.abc import Iterable, Iterator

from bench.prompting.view import View
from bench.shapes.prompts import StepTitle
from bench.shapes.sheet import Step
from bench.steps import heats, runs_by_itself
from bench.waits import wait_phase

_WAITS = {"late": 2, "soon_late": 3, "ready": 6, "look": 7, "counting": 9}


def in_order(view: View) -> list[Step]:
    """The steps that can be worked on."""
    ready = [step for step in view.sheet["steps"] if view.status(step["id"]) in ("ready", "begun")]
    latest = _last_round(view)

    def rank(step: Step) -> tuple[int, int]:
        return _rank(view, step, latest)

    return sorted(ready, key=rank)


def _last_round(view: View) -> tuple[str, int] | None:
    """The component and round worked on last, so that one goes on with what is in hand."""
    best: tuple[str, int] | None = None
    best_at = 0
    for step in view.sheet["steps"]:
        told = view.state["steps"][step["id"]]
        at = told["at"] if view.is_settled(step["id"]) and not runs_by_itself(step) else None
        if at is not None and (best is None or at >= best_at):
            best, best_at = (step["component"], step["round"]), at
    return best


def _rank(view: View, step: Step, latest: tuple[str, int] | None) -> tuple[int, int]:
    """Small is sooner: what is running, then windows, then the part in hand, then long tails."""
    key = step["id"]
    if key in view.guides and heats(step):
        return 0, view.guides[key]["until"]
    if key in view.windows:
        return 1, view.windows[key]["latest_at"]
    if runs_by_itself(step):
        wait = view.waits.get(key)
        return (_WAITS[wait_phase(wait, view.at)], wait["earliest_at"]) if wait else (_WAITS["counting"], 0)
    if any(not view.is_settled(need) for need in step["hold_for"]):
        return 8, -step["tail_ms"]
    in_hand = (step["component"], step["round"]) == latest
    if in_hand or key in view.guides or view.status(key) == "begun":
        return 4, -step["tail_ms"]
    return 5, -step["tail_ms"]


def owed(view: View) -> Iterator[Step]:
    """Steps passed over: not settled, though something that needs them is."""
    steps = view.sheet["steps"]
    passed = {need for step in steps if view.is_settled(step["id"]) for need in step["after"]}
    return (step for step in steps if step["id"] in passed and not view.is_settled(step["id"]))


def titles(steps: Iterable[Step]) -> list[StepTitle]:
    return [{"step": step["id"], "title": step["title"]} for step in steps]
