"""One bench: several runs, one or two makers and their hours, put together into a problem."""

from bench.errors import PlanError
from bench.planning.bench_hours import stretches
from bench.shapes.planning import MakerHours, MakerWritten, Problem, Stretch, TasksOfRun
from bench.words import say

MAX_MAKERS = 4


def make_problem(
    parts: list[TasksOfRun], makers: list[MakerWritten], since: int, until: int, ready_by: int | None = None
) -> Problem:
    """A problem out of what `tasks_of` gave for each run.

    since: the first instant (ms) to plan from; until: no bench hours after this are used. Times that ended before `since` stay as history.
    PlanError names the field: makers.0.hours..., until, ready_by.
    """
    if not 1 <= len(makers) <= MAX_MAKERS:
        raise PlanError("makers", say("planning-makers", most=MAX_MAKERS))
    if until <= since:
        raise PlanError("until", say("planning-until-backwards"))
    named: list[MakerHours] = [
        {"name": maker["name"], "hours": _hours(maker, place, since, until)}
        for place, maker in enumerate(makers)
    ]
    return {
        "since": since,
        "ready_by": ready_by,
        "zone": makers[0]["hours"]["zone"],
        "makers": named,
        "equipment": {key: each for part in parts for key, each in part["equipment"].items()},
        "tasks": [task for part in parts for task in part["tasks"]],
        "gaps": [gap for part in parts for gap in part["gaps"]],
        "holds": [hold for part in parts for hold in part["holds"]],
    }


def _hours(maker: MakerWritten, place: int, since: int, until: int) -> list[Stretch]:
    try:
        return stretches(maker["hours"], since, until)
    except PlanError as error:
        where = f"makers.{place}.{error.where}" if error.where.startswith("hours") else error.where
        raise PlanError(where, error.says) from None
