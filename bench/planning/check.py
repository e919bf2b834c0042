"""What a day to be planned may not be. Each fault names its field and the way out."""

from graphlib import CycleError, TopologicalSorter

from bench.errors import PlanError
from bench.quantities import LONGEST_MS
from bench.shapes.planning import Gap, Problem, Stretch
from bench.words import say

MAX_STEPS = 1000


def check(problem: Problem, now: int) -> None:
    """Raise PlanError for a problem that cannot be read as one. A day that is merely too full passes."""
    tasks = problem["tasks"]
    if len(tasks) > MAX_STEPS:
        raise PlanError("tasks", say("planning-too-many-steps", most=MAX_STEPS, count=len(tasks)))
    known = {task["id"] for task in tasks}
    if len(known) < len(tasks):
        raise PlanError("tasks", say("planning-same-id"))
    if not problem["makers"]:
        raise PlanError("makers", say("planning-no-maker"))
    for place, maker in enumerate(problem["makers"]):
        _check_hours(maker["hours"], f"makers.{place}.hours", now)
    for place, gap in enumerate(problem["gaps"]):
        _check_gap(gap, f"gaps.{place}", known)
    _check_tasks(problem)
    _check_holds(problem, known)
    ready_by = problem.get("ready_by")
    if ready_by is not None and ready_by <= now:
        raise PlanError("ready_by", say("planning-past"))


def _check_tasks(problem: Problem) -> None:
    for place, task in enumerate(problem["tasks"]):
        if not 0 <= task["left_ms"] <= LONGEST_MS:
            raise PlanError(f"tasks.{place}.left_ms", say("planning-over-a-year", title=task["title"]))
        for key in task["uses"]:
            if key not in problem["equipment"]:
                raise PlanError(f"tasks.{place}.uses.{key}", say("planning-not-in-kit", key=key))


def _check_holds(problem: Problem, known: set[str]) -> None:
    for place, hold in enumerate(problem["holds"]):
        steps = {hold["from"], hold["until"]}
        if not steps <= known or hold["equipment"] not in problem["equipment"]:
            raise PlanError(f"holds.{place}", say("planning-hold"))


def _check_hours(hours: list[Stretch], where: str, now: int) -> None:
    for index, (opens, closes) in enumerate(hours):
        if closes <= opens:
            raise PlanError(f"{where}.{index}", say("planning-stretch-backwards"))
        if index and opens < hours[index - 1][1]:
            raise PlanError(f"{where}.{index}", say("planning-stretch-overlap"))
    if not any(closes > now for _, closes in hours):
        raise PlanError(where, say("planning-no-stretch"))


def _check_gap(gap: Gap, where: str, known: set[str]) -> None:
    for key in [*gap["from"], gap["to"]]:
        if key not in known:
            raise PlanError(where, say("planning-no-step", key=key))
    if not gap["from"]:
        raise PlanError(f"{where}.from", say("planning-gap-from"))
    least, most = gap["least_ms"], gap["most_ms"]
    for field, ms in (("least_ms", least), ("most_ms", most)):
        if ms is not None and abs(ms) > LONGEST_MS:
            raise PlanError(f"{where}.{field}", say("planning-gap-over-a-year"))
    if least is not None and most is not None and most < least:
        raise PlanError(f"{where}.most_ms", say("planning-gap-backwards"))


def circle(problem: Problem) -> list[str]:
    """Steps that wait for each other in a circle, the first one again at the end; [] when none do."""
    order: TopologicalSorter[str] = TopologicalSorter()
    for gap in problem["gaps"]:
        if gap["least_ms"] is not None and gap["least_ms"] >= 0:
            order.add(gap["to"], *gap["from"])
    try:
        order.prepare()
    except CycleError as error:
        args: tuple[object, ...] = error.args
        return [str(key) for key in args[1]] if isinstance(args[1], list) else []
    return []
