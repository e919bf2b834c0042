"""Several batches on one bench, some of which are to be ready by an instant of their own.

A batch that is to be ready by some time is laid as late as that allows, whatever the others do: the first to be
ready is planned first, and the rest go around what is planned already. One that cannot be ready by then says
why, and is planned along with the rest.
"""

from collections.abc import Callable
from typing import Any

from bench.planning.plan import WORK, plan, replan

Json = Any  # until its shape is named

_OF_ALL = ("tasks", "gaps", "holds")


def plan_several(
    problem: Json,
    due: dict[str, int],
    before: Json | None,
    now: int,
    *,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[Json], None] | None = None,
) -> Json:
    """One plan of all runs of a problem, with "due": [{"run", "ready_by", "begins_at", "why"}].

    due: run -> when it is to be ready. before: the plan that was followed, or None. begins_at: the latest start
    found, None where it cannot be ready by then, and then why says why. The aim is that of the rest: to end
    soonest. Each part of the work gets the same share of the budget.
    """
    wanted = sorted((instant, run) for run, instant in due.items())
    share = budget / (len(wanted) + 1)
    how: Json = {"budget": share, "cancelled": cancelled}
    fixed: list[Json] = []
    told: list[Json] = []
    for ready_by, run in wanted:
        why, made = "That is past already.", None
        if ready_by > now:
            own = {**_around(_of(problem, {run}), fixed), "ready_by": ready_by}
            made = plan(own, aim="ready_by", **how)
            why = (
                made["reasons"][0]["says"] if made["reasons"] else "No order was found that is ready in time."
            )
        keeps = made is not None and made["status"] in ("proven", "found")
        if made is not None and keeps:
            fixed.append(made)
        told.append(
            {"run": run, "ready_by": ready_by, "begins_at": made["begins_at"], "why": ""}
            if made is not None and keeps
            else {"run": run, "ready_by": ready_by, "begins_at": None, "why": why}
        )
    planned = {step["run"] for made in fixed for step in made["steps"]}
    rest = _of(problem, {task["run"] for task in problem["tasks"]} - planned)
    rest = {**_around(rest, fixed, _of(problem, planned)), "ready_by": None}
    if all(task["status"] == "open" for task in rest["tasks"] if task["run"] not in planned):
        others = plan(rest, progress=progress if not fixed else None, **how)
    else:
        others = replan(rest, before, now, progress=None, **how)
    return {**_together(problem, others, fixed, planned), "due": told}


def _of(problem: Json, runs: set[str]) -> Json:
    """What of a problem belongs to these runs."""
    own = {task["id"] for task in problem["tasks"] if task["run"] in runs}
    return {
        **problem,
        "tasks": [task for task in problem["tasks"] if task["id"] in own],
        "gaps": [gap for gap in problem["gaps"] if gap["to"] in own],
        "holds": [hold for hold in problem["holds"] if hold["from"] in own],
    }


def _around(problem: Json, fixed: list[Json], other: Json | None = None) -> Json:
    """The problem in what the plans made before leave of the hands. other: the part of the day that they are of,
    taken along as done when it is planned, for the moulds that it holds."""
    makers = []
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
    tasks = [
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


def _less(hours: list[list[int]], taken: list[tuple[int, int]]) -> list[list[int]]:
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


def _together(problem: Json, others: Json, fixed: list[Json], planned: set[str]) -> Json:
    """One plan out of several: its steps in order of start, and the sessions at the bench that they make."""
    if not fixed:
        return others
    steps = [step for step in others["steps"] if step["run"] not in planned]
    steps += [step for made in fixed for step in made["steps"]]
    steps.sort(key=lambda step: (step["starts_at"], step["ends_at"], step["id"]))
    sessions = []
    for maker, each in enumerate(problem["makers"]):
        for opens, closes in each["hours"]:
            here = [
                step
                for step in steps
                if step["status"] == "open"
                and step["kind"] == "hands"
                and step["maker"] == maker
                and opens <= step["starts_at"] < closes
            ]
            if here:
                sessions.append(
                    {
                        "maker": maker,
                        "opens_at": opens,
                        "closes_at": closes,
                        "begins_at": here[0]["starts_at"],
                        "ends_at": max(step["ends_at"] for step in here),
                        "hands_ms": sum(step["ends_at"] - step["starts_at"] for step in here),
                        "steps": [step["id"] for step in here],
                    }
                )
    sessions.sort(key=lambda session: (session["begins_at"], session["maker"]))
    place = {key: number for number, session in enumerate(sessions) for key in session["steps"]}
    begins = [session["begins_at"] for session in sessions]
    every = [others, *fixed]
    return {
        **others,
        "status": next(
            (
                status
                for status in ("impossible", "unknown", "found")
                if any(each["status"] == status for each in every)
            ),
            "proven",
        ),
        "stays": all(each["stays"] for each in every),
        "begins_at": min(begins, default=None),
        "finish_at": max((step["ends_at"] for step in steps), default=None),
        "steps": [{**step, "session": place.get(step["id"])} for step in steps],
        "sessions": sessions,
        "broken": [gap for each in every for gap in each["broken"]],
    }
