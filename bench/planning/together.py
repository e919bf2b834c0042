"""One bench: several runs, one or two makers and their hours, put together into a problem."""

from typing import Any

from bench.errors import PlanError
from bench.planning.day import stretches

Json = Any  # until its shape is named

MOST_MAKERS = 4


def make_problem(
    parts: list[Json], makers: list[Json], since: int, until: int, ready_by: int | None = None
) -> Json:
    """A problem out of what `tasks_of` gave for each run.

    makers: [{"name", "hours"}], hours as `stretches` reads them. since: the first instant (ms) to plan from;
    until: no bench hours after this are used. Times that ended before `since` stay as history.
    PlanError names the field: makers.0.hours..., until, ready_by.
    """
    if not 1 <= len(makers) <= MOST_MAKERS:
        raise PlanError("makers", f"A bench has from 1 to {MOST_MAKERS} makers.")
    if until <= since:
        raise PlanError("until", "The time to plan ends before it begins.")
    named = [
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


def _hours(maker: Json, place: int, since: int, until: int) -> list[list[int]]:
    try:
        return stretches(maker["hours"], since, until)
    except PlanError as error:
        where = f"makers.{place}.{error.where}" if error.where.startswith("hours") else error.where
        raise PlanError(where, error.says) from None
