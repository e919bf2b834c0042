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
    at: dict[str, PlanStep] = {}  # what is planned already, by task
    dues: list[RunDue] = []
    for ready_by, run in wanted:
        ways = _ways(problem, run, at) if ready_by > now else []
        made = _as_late([{**own, "ready_by": ready_by} for own in ways], share, cancelled)
        if made is not None and made["status"] in ("proven", "found"):
            new = [step for step in made["steps"] if step["id"] not in at]
            fixed.append({**made, "steps": new})
            at |= {step["id"]: step for step in new}
            dues.append({"run": run, "ready_by": ready_by, "begins_at": _begins_at(at, run), "why": ""})
        else:
            dues.append(_not_ready(run, ready_by, made))
    left = {task["id"] for task in problem["tasks"]} - at.keys()
    rest: Problem = {**_around(problem, left, at), "ready_by": None}
    if all(task["status"] == "open" for task in rest["tasks"] if task["id"] in left):
        told = progress if not fixed else None
        others = plan(rest, progress=told, budget=share, cancelled=cancelled)
    else:
        others = replan(rest, before, now, budget=share, cancelled=cancelled)
    return {**_together(problem, others, fixed, set(at)), "due": dues}


def _as_late(ways: list[Problem], budget: float, cancelled: Callable[[], bool] | None) -> Plan | None:
    """The plan of the first of these ways that is ready in time, else of the last; None when there are none."""
    made: Plan | None = None
    for own in ways:
        made = plan(own, aim="ready_by", budget=budget, cancelled=cancelled)
        if made["status"] in ("proven", "found"):
            break
    return made


def _not_ready(run: str, ready_by: int, made: Plan | None) -> RunDue:
    """That a run cannot be ready in time, and why. made: its plan, None when the instant is past."""
    due: RunDue = {"run": run, "ready_by": ready_by, "begins_at": None, "why": ""}
    if made is not None and made["reasons"]:
        return {**due, "reason": made["reasons"][0]}
    return {**due, "late": "past" if made is None else "unfound"}


def _begins_at(at: dict[str, PlanStep], run: str) -> int | None:
    """When hands are first on a batch that is planned."""
    own = [step for step in at.values() if step["run"] == run and step["status"] == "open"]
    return min((step["starts_at"] for step in own if step["kind"] == "hands"), default=None)


def _ways(problem: Problem, run: str, at: dict[str, PlanStep]) -> list[Problem]:
    """A batch by itself in what the plans made before leave it. Where another that is not planned yet has bowls or
    moulds in use that this one needs, first with the steps that empty them taken along, then without these things."""
    own = {task["id"] for task in problem["tasks"] if task["run"] == run and task["id"] not in at}
    needed = {hold["equipment"] for hold in problem["holds"] if hold["from"] in own}
    state = {task["id"]: task["status"] for task in problem["tasks"]}
    in_use = [
        hold
        for hold in problem["holds"]
        if hold["from"] not in own
        and hold["until"] not in at
        and state[hold["from"]] != "open"
        and state[hold["until"]] != "done"
    ]
    in_use = [hold for hold in in_use if hold["equipment"] in needed]
    if not in_use:
        return [_around(problem, own, at)]
    along = _all_before(problem, {hold["until"] for hold in in_use}) | {hold["from"] for hold in in_use}
    without = _around(problem, own, at)
    equipment = dict(problem["equipment"])
    for hold in in_use:
        thing = equipment[hold["equipment"]]
        equipment[hold["equipment"]] = {**thing, "many": max(0, thing["many"] - hold["many"])}
    return [_around(problem, own | (along - at.keys()), at), {**without, "equipment": equipment}]


def _all_before(problem: Problem, tasks: set[str]) -> set[str]:
    """These tasks and all that they need."""
    needs: dict[str, list[str]] = {}
    for gap in problem["gaps"]:
        if gap["least_ms"] is not None:
            needs.setdefault(gap["to"], []).extend(gap["from"])
    found, stack = set(tasks), list(tasks)
    while stack:
        for need in needs.get(stack.pop(), []):
            if need not in found:
                found.add(need)
                stack.append(need)
    return found


def _around(problem: Problem, own: set[str], at: dict[str, PlanStep]) -> Problem:
    """Some tasks of a problem, in what the plans made before leave of the hands; what is planned is taken along as
    done when it is planned, for the bowls and moulds that it holds. at: the planned steps, by task."""
    makers: list[MakerHours] = []
    for place, maker in enumerate(problem["makers"]):
        taken = sorted(
            (step["starts_at"], step["ends_at"])
            for step in at.values()
            if step["status"] != "done" and step["kind"] == "hands" and step["maker"] == place
        )
        makers.append({**maker, "hours": _less(maker["hours"], taken)})
    tasks: list[Task] = [task for task in problem["tasks"] if task["id"] in own]
    tasks += [
        {
            **task,
            "uses": {},
            "status": "done",
            "began_at": at[task["id"]]["starts_at"],
            "ended_at": at[task["id"]]["ends_at"],
            "left_ms": 0,
        }
        for task in problem["tasks"]
        if task["id"] in at and task["id"] not in own
    ]
    known = {task["id"] for task in tasks}
    return {
        **problem,
        "makers": makers,
        "tasks": tasks,
        "gaps": [gap for gap in problem["gaps"] if gap["to"] in own and known.issuperset(gap["from"])],
        "holds": [hold for hold in problem["holds"] if {hold["from"], hold["until"]} <= known],
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
    """One plan out of several: its steps in order of start, and the sessions at the bench that they make.

    planned: the tasks that were planned before the others.
    """
    if not fixed:
        return others
    steps = [step for step in others["steps"] if step["id"] not in planned]
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
