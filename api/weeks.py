"""A week from what is wanted, over HTTP: asked, planned, and answered; nothing is kept.

One week is planned at a time in each process, within so much of the clock: who comes meanwhile is asked to come again.
"""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
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
from api.wire import Blueprint, answer, tag_of
from bench import Kit, MakerWritten, MeasuredRecipe, Spoilage, There, Want, Week, WeekPlan, words

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
    with one_at_a_time():
        return answer(_planned(given, at))


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """Plan a week; Problem (429) where one is planned already."""
    if not _at_work.acquire(blocking=False):
        raise Problem(
            429,
            words.say("api-plans-week-busy", length=f"{AGAIN_S} s"),
            headers={"Retry-After": str(AGAIN_S)},
        )
    try:
        yield
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
    stands = _stands(given)
    wants: list[Want] = [
        {"id": str(place), "make": str(want["recipe"]), "pieces": want["pieces"], "by": want["by"]}
        for place, want in enumerate(given["wants"])
    ]
    there: list[There] = [
        {"make": str(each["recipe"]), "pieces": each["pieces"], "since": at, "until": each["until"]}
        for each in given["there"]
        if str(each["recipe"]) in stands.recipes
    ]
    spoilage = spoilage_in(stands.recipes)
    week = bare_week(at, stands.makers, wants, there)
    for key in stands.recipes:
        put_make(week, key, stands, spoilage[key], given["keeps"].get(UUID(key)))
    plan = solved(week)
    return {
        "at": at,
        "wants": wants,
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


def spoilage_in(recipes: Iterable[str]) -> dict[str, Spoilage | None]:
    """By recipe, from own runs."""
    return {key: bench.spoilage_of(records.recent_records(key)) for key in recipes}


def bare_week(at: int, makers: list[MakerWritten], wants: list[Want], there: list[There]) -> Week:
    """A week of which it is not said yet what can be made."""
    bare = bench.make_problem([], makers, at, max(want["by"] for want in wants))
    return {
        "since": at,
        "zone": bare.get("zone", "UTC"),
        "makers": bare["makers"],
        "equipment": {},
        "wants": wants,
        "makes": [],
        "there": there,
        "lots": [],
        "busy": [],
    }


def put_make(
    week: Week,
    key: str,
    stands: Stands,
    spoilage: Spoilage | None,
    keeps_ms: int | None,
    parts: Sequence[int] = (),
) -> None:
    """Say at which sizes a recipe can be made, in the hours that the week has; BenchError where it cannot be.

    parts: how many pieces of it go into batches of others, by what these are for.
    """
    version, recipe = stands.recipes[key]
    wanted = bench.Wanted(
        key,
        recipe,
        {"id": key, "version": version},
        [*(want["pieces"] for want in week["wants"] if want["make"] == key), *parts],
        keeps_ms,
        spoilage,
        bench.planned_hands(records.recent_records(key)),
    )
    longest = max((closes - opens for maker in week["makers"] for opens, closes in maker["hours"]), default=0)
    of = tag_of([key, version, stands.kit, spoilage, wanted.hands, longest])
    make, equipment = bench.make_of(wanted, stands.kit, longest, _known_sizes(of))
    week["makes"].append(make)
    week["equipment"] |= equipment


@lru_cache(maxsize=64)
def _known_sizes(_of: str) -> bench.KnownSizes:
    """The sizes of a recipe that were laid out before, which takes most of a plan's time. One plan is made at a time."""
    return {}


def solved(week: Week, *, quick: bool = False) -> WeekPlan:
    """The plan within so much of the clock, and where something is short, what would help; quick: by the rule alone."""
    if quick:
        return bench.plan_week(week, budget=0.0)
    ends = time.monotonic() + MAX_S

    def cancelled() -> bool:
        return time.monotonic() > ends

    return bench.with_helps(week, bench.plan_week(week, budget=WORK, cancelled=cancelled), cancelled)
