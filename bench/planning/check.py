"""What a day to be planned may not be. Each fault names its field and the way out."""

from graphlib import CycleError, TopologicalSorter

from bench.errors import PlanError
from bench.quantities import LONGEST_MS
from bench.shapes.planning import Gap, Problem, Stretch

MAX_STEPS = 1000


def check(problem: Problem, now: int) -> None:
    """Raise PlanError for a problem that cannot be read as one. A day that is merely too full passes."""
    tasks = problem["tasks"]
    if len(tasks) > MAX_STEPS:
        raise PlanError(
            "tasks",
            f"A plan takes {MAX_STEPS} steps at most; these are {len(tasks)}. Plan fewer runs at once.",
        )
    known = {task["id"] for task in tasks}
    if len(known) < len(tasks):
        raise PlanError("tasks", "Two steps have one id. Give each run its own name.")
    if not problem["makers"]:
        raise PlanError("makers", "A plan needs a maker. Say whose hands they are, and their bench hours.")
    for place, maker in enumerate(problem["makers"]):
        _check_hours(maker["hours"], f"makers.{place}.hours", now)
    for place, gap in enumerate(problem["gaps"]):
        _check_gap(gap, f"gaps.{place}", known)
    _check_tasks(problem)
    _check_holds(problem, known)
    ready_by = problem.get("ready_by")
    if ready_by is not None and ready_by <= now:
        raise PlanError("ready_by", "That is past already. Say when it must be ready from now on.")


def _check_tasks(problem: Problem) -> None:
    for place, task in enumerate(problem["tasks"]):
        if not 0 <= task["left_ms"] <= LONGEST_MS:
            raise PlanError(
                f"tasks.{place}.left_ms",
                f"“{task['title']}” takes more than a year. Plan what comes before it.",
            )
        for key in task["uses"]:
            if key not in problem["equipment"]:
                raise PlanError(f"tasks.{place}.uses.{key}", f"The kit has no “{key}”.")


def _check_holds(problem: Problem, known: set[str]) -> None:
    for place, hold in enumerate(problem["holds"]):
        steps = {hold["from"], hold["until"]}
        if not steps <= known or hold["equipment"] not in problem["equipment"]:
            raise PlanError(
                f"holds.{place}", "A hold is of something in the kit, from one step until another."
            )


def _check_hours(hours: list[Stretch], where: str, now: int) -> None:
    for index, (opens, closes) in enumerate(hours):
        if closes <= opens:
            raise PlanError(f"{where}.{index}", "This stretch of bench hours ends before it begins.")
        if index and opens < hours[index - 1][1]:
            raise PlanError(f"{where}.{index}", "This stretch of bench hours overlaps the one before it.")
    if not any(closes > now for _, closes in hours):
        raise PlanError(
            where, "No bench hours are left in the time to be planned. Give some, or look further ahead."
        )


def _check_gap(gap: Gap, where: str, known: set[str]) -> None:
    for key in [*gap["from"], gap["to"]]:
        if key not in known:
            raise PlanError(where, f"There is no step “{key}”.")
    if not gap["from"]:
        raise PlanError(f"{where}.from", "A gap is counted from the end of a step. Name one.")
    least, most = gap["least_ms"], gap["most_ms"]
    for field, ms in (("least_ms", least), ("most_ms", most)):
        if ms is not None and abs(ms) > LONGEST_MS:
            raise PlanError(
                f"{where}.{field}", "That is a wait of more than a year. Plan what comes before it."
            )
    if least is not None and most is not None and most < least:
        raise PlanError(f"{where}.most_ms", "The latest lies before the earliest. Turn them round.")


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
