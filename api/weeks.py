"""A week from what is wanted, over HTTP: asked, planned, and answered; nothing is kept.

One week is planned at a time in each process, within so much of the clock: who comes meanwhile is asked to come again.
"""

from __future__ import annotations

import json
import threading
import time
from typing import NamedTuple, TypedDict
from uuid import UUID

from flask import Response

import bench
from api import records
from api.answers import WeekAnswer
from api.clock import now_ms
from api.door import budgets, gate
from api.errors import Problem
from api.hours import HOURS
from api.kit import measured_kit
from api.plan_shapes import WeekAsked
from api.planner import DAY_MS
from api.recipes import current_version
from api.shapes_openapi import shape
from api.store import reading
from api.wire import Blueprint, answer
from bench import Kit, MakerWritten, MeasuredRecipe, Spoilage, Want, Week, words

blueprint = Blueprint("weeks", __name__, description="From what is wanted by when to batches")

WORK = 6.0  # the solver's own seconds
MAX_S = 15.0  # of the clock, for the plan and for what would help
AGAIN_S = 15
MOST_RECIPES = 12
MOST_DAYS = 60

_at_work = threading.Lock()


class WantGiven(TypedDict):
    recipe: UUID
    pieces: int
    by: int


class ThereGiven(TypedDict):
    recipe: UUID
    pieces: int
    until: int | None


class WeekGiven(TypedDict):
    """`api.plan_shapes.WeekAsked`, read."""

    wants: list[WantGiven]
    there: list[ThereGiven]
    keeps: dict[UUID, int]


class Stands(NamedTuple):
    """What the studio has for a week."""

    kit: Kit
    makers: list[MakerWritten]
    recipes: dict[str, tuple[int, MeasuredRecipe]]  # id -> version, recipe


@blueprint.post("/week")
@blueprint.arguments(WeekAsked())
@blueprint.response(200, shape(WeekAnswer))
def plan_week(given: WeekGiven) -> Response:
    """Which batches of what size, when and by whom, so that what is wanted is ready; what cannot be, and what helps.

    It is planned from the kit, the bench hours and own runs as they stand. Nothing of it is kept.
    """
    at = now_ms()
    _check(given, at)
    budgets.spend(gate.sender_id(), budgets.PLANS_AN_HOUR)
    if not _at_work.acquire(blocking=False):
        raise Problem(
            429,
            words.say("api-plans-week-busy", length=f"{AGAIN_S} s"),
            headers={"Retry-After": str(AGAIN_S)},
        )
    try:
        return answer(_planned(given, at))
    finally:
        _at_work.release()


def _check(given: WeekGiven, at: int) -> None:
    """Raise for what is too much, before any work is done."""
    for place, want in enumerate(given["wants"]):
        if want["by"] <= at:
            raise bench.PlanError(f"wants.{place}.by", words.say("week-want-past"))
        if want["by"] > at + MOST_DAYS * DAY_MS:
            raise bench.PlanError(f"wants.{place}.by", words.say("api-plans-week-too-far", count=MOST_DAYS))
    if len({want["recipe"] for want in given["wants"]}) > MOST_RECIPES:
        raise bench.PlanError("wants", words.say("api-plans-week-too-many-recipes", most=MOST_RECIPES))


def _planned(given: WeekGiven, at: int) -> WeekAnswer:
    ends = time.monotonic() + MAX_S

    def cancelled() -> bool:
        return time.monotonic() > ends

    stands = _stands(given)
    spoilage = {key: bench.spoilage_of(records.recent_records(key)) for key in stands.recipes}
    week = _week(given, at, stands, spoilage)
    plan = bench.plan_week(week, budget=WORK, cancelled=cancelled)
    plan = bench.with_helps(week, plan, cancelled)
    return {
        "at": at,
        "wants": week["wants"],
        "titles": {make["id"]: make["title"] for make in week["makes"]},
        "makers": [maker["name"] for maker in week["makers"]],
        "spoilage": spoilage,
        "plan": plan,
        "says": bench.week_in_a_line(plan),
    }


def _stands(given: WeekGiven) -> Stands:
    with reading() as connection:
        recipes: dict[str, tuple[int, MeasuredRecipe]] = {}
        for place, want in enumerate(given["wants"]):
            found = current_version(connection, str(want["recipe"]))
            if found is None:
                raise bench.PlanError(f"wants.{place}.recipe", words.say("api-plans-week-no-recipe"))
            recipes[str(want["recipe"])] = (found.version, json.loads(found.measured))
        return Stands(measured_kit(connection), HOURS.now(connection).document["makers"], recipes)


def _week(given: WeekGiven, at: int, stands: Stands, spoilage: dict[str, Spoilage | None]) -> Week:
    last = max(want["by"] for want in given["wants"])
    bare = bench.make_problem([], stands.makers, at, last)
    longest = max((closes - opens for maker in bare["makers"] for opens, closes in maker["hours"]), default=0)
    week: Week = {
        "since": at,
        "zone": bare["zone"],
        "makers": bare["makers"],
        "equipment": {},
        "wants": [_want(place, want) for place, want in enumerate(given["wants"])],
        "makes": [],
        "there": [
            {"make": str(each["recipe"]), "pieces": each["pieces"], "since": at, "until": each["until"]}
            for each in given["there"]
            if str(each["recipe"]) in stands.recipes
        ],
        "lots": [],
    }
    for key, (version, recipe) in stands.recipes.items():
        wanted = bench.Wanted(
            key,
            recipe,
            {"id": key, "version": version},
            [want["pieces"] for want in week["wants"] if want["make"] == key],
            given["keeps"].get(UUID(key)),
            spoilage[key],
            bench.planned_hands(records.recent_records(key)),
        )
        make, equipment = bench.make_of(wanted, stands.kit, longest)
        week["makes"].append(make)
        week["equipment"] |= equipment
    return week


def _want(place: int, want: WantGiven) -> Want:
    return {"id": str(place), "make": str(want["recipe"]), "pieces": want["pieces"], "by": want["by"]}
