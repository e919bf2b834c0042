"""Several batches on one bench, some of which are to be ready by an instant of their own.

A batch that is to be ready by some time is laid as late as that allows, whatever the others do: the first to be
ready is planned first, and the rest go around what is planned already. One that cannot be ready by then says
why, and is planned along with the rest.
"""

from collections.abc import Callable

from bench.planning.plan import WORK, plan, replan
from bench.planning.result import AtBench, by_start, sessions_of
from bench.shapes.planning import (
    MakerHours,
    Plan,
    PlanStatus,
    PlanStep,
    Problem,
    Progress,
    RunDue,
    Stretch,
    Task,
)


def plan_several(
    problem: Problem,
    due: dict[str, int],
    before: Plan | None,
    now: int,
    *,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[Progress], None] | None = None,
) -> Plan:
    """One plan of all runs of a problem, with when each that is to be ready by an instant begins, or why it cannot.

    due: run -> when it is to be ready. before: the plan that was followed, or None. The aim is that of the rest: to end
    soonest. Each part of the work gets the same share of the budget.
    """
    wanted = sorted((instant, run) for run, instant in due.items())
    share = budget / (len(wanted) + 1)
    fixed: list[Plan] = []
    dues: list[RunDue] = []
    for ready_by, run in wanted:
        own: Problem = {**_around(_of(problem, {run}), fixed), "ready_by": ready_by}
        made = plan(own, aim="ready_by", budget=share, cancelled=cancelled) if ready_by > now else None
        if made is not None and made["status"] in ("proven", "found"):
            fixed.append(made)
            dues.append({"run": run, "ready_by": ready_by, "begins_at": made["begins_at"], "why": ""})
        else:
            dues.append({"run": run, "ready_by": ready_by, "begins_at": None, "why": _why_late(made)})
    planned = {step["run"] for made in fixed for step in made["steps"]}
    left = _of(problem, {task["run"] for task in problem["tasks"]} - planned)
    rest: Problem = {**_around(left, fixed, _of(problem, planned)), "ready_by": None}
    if all(task["status"] == "open" for task in rest["tasks"] if task["run"] not in planned):
        told = progress if not fixed else None
        others = plan(rest, progress=told, budget=share, cancelled=cancelled)
    else:
        others = replan(rest, before, now, budget=share, cancelled=cancelled)
    return {**_together(problem, others, fixed, planned), "due": dues}


def _why_late(made: Plan | None) -> str:
    """Why a run cannot be ready in time. made: its plan, None when the instant is past."""
    if made is None:
        return "That is past already."
    return made["reasons"][0]["says"] if made["reasons"] else "No order was found that is ready in time."


def _of(problem: Problem, runs: set[str]) -> Problem:
    """What of a problem belongs to these runs."""
    own = {task["id"] for task in problem["tasks"] if task["run"] in runs}
    return {
        **problem,
        "tasks": [task for task in problem["tasks"] if task["id"] in own],
        "gaps": [gap for gap in problem["gaps"] if gap["to"] in own],
        "holds": [hold for hold in problem["holds"] if hold["from"] in own],
    }


def _around(problem: Problem, fixed: list[Plan], other: Problem | None = None) -> Problem:
    """The problem in what the plans made before leave of the hands. other: the part of the day that they are of,
    taken along as done when it is planned, for the moulds that it holds."""
    makers: list[MakerHours] = []
    for place, maker in enumerate(problem["makers"]):
        taken = sorted(
            (step["starts_at"], step["ends_at"])
            for made in fixed
            for step in made["steps"]
            if step["status"] != "done" and step["kind"] == "hands" and step["maker"] == place
        )
        makers.append({**maker, "hours": _less(maker["hours"], taken)})
    if other is None:
        return {**problem, "makers": makers}
    at = {step["id"]: step for made in fixed for step in made["steps"]}
    tasks: list[Task] = [
        {
            **task,
            "uses": {},
            "status": "done",
            "began_at": at[task["id"]]["starts_at"],
            "ended_at": at[task["id"]]["ends_at"],
            "left_ms": 0,
        }
        for task in other["tasks"]
        if task["id"] in at
    ]
    return {
        **problem,
        "makers": makers,
        "tasks": [*problem["tasks"], *tasks],
        "holds": [*problem["holds"], *other["holds"]],
    }


def _less(hours: list[Stretch], taken: list[tuple[int, int]]) -> list[Stretch]:
    """The hours without what is taken of them."""
    left = hours
    for begins, ends in taken:
        left = [
            piece
            for opens, closes in left
            for piece in ([opens, min(closes, begins)], [max(opens, ends), closes])
            if piece[0] < piece[1]
        ]
    return left


def _together(problem: Problem, others: Plan, fixed: list[Plan], planned: set[str]) -> Plan:
    """One plan out of several: its steps in order of start, and the sessions at the bench that they make."""
    if not fixed:
        return others
    steps = [step for step in others["steps"] if step["run"] not in planned]
    steps += [step for made in fixed for step in made["steps"]]
    steps.sort(key=by_start)
    work = [
        AtBench(step["id"], step["maker"], step["starts_at"], step["ends_at"])
        for step in steps
        if step["status"] == "open" and step["kind"] == "hands" and step["maker"] is not None
    ]
    sessions = sessions_of([maker["hours"] for maker in problem["makers"]], work)
    place = {key: number for number, session in enumerate(sessions) for key in session["steps"]}
    placed: list[PlanStep] = [{**step, "session": place.get(step["id"])} for step in steps]
    every = [others, *fixed]
    return {
        **others,
        "status": _worst([each["status"] for each in every]),
        "stays": all(each["stays"] for each in every),
        "begins_at": min((session["begins_at"] for session in sessions), default=None),
        "finish_at": max((step["ends_at"] for step in steps), default=None),
        "steps": placed,
        "sessions": sessions,
        "broken": [gap for each in every for gap in each["broken"]],
    }


def _worst(found: list[PlanStatus]) -> PlanStatus:
    order: tuple[PlanStatus, ...] = ("impossible", "unknown", "found")
    return next((status for status in order if status in found), "proven")
