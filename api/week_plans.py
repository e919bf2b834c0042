"""The plan of the order of work: made of what is wanted and what there is, offered, and followed once a maker says so.

What is followed moves only then. `mark` is another as soon as anything is that a plan hangs on; who sees another one
asks for a plan again, which is offered beside the one that is followed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from itertools import product
from typing import Literal, NamedTuple, TypedDict
from uuid import UUID, uuid4
from zoneinfo import ZoneInfo

from flask import Response
from sqlalchemy import Connection, delete, func, insert, select

import bench
from api import records, wants, weeks
from api.answers import OrderPlan, OrderPlanSaid, WeekNow
from api.buying import OnShelf, on_shelf
from api.clock import now_ms
from api.door import budgets, gate
from api.errors import Problem
from api.hours import HOURS
from api.kit import KIT, measured_kit
from api.parts import PartMakers
from api.plan_shapes import FollowAsked, OrderPlanAsked
from api.planner import DAY_MS
from api.recipes import current_version
from api.runs import RunView, load_run_in
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import BatchPieces, Recipe, Run, ShelfEntry, WeekPlanRow
from api.wire import Blueprint, answer, tag_of
from bench import (
    BatchBegun,
    BegunRun,
    BenchError,
    Book,
    BoughtBy,
    BuyingWant,
    MakerHours,
    MeasuredRecipe,
    OnCard,
    OrderWant,
    PartMade,
    Spoilage,
    StockedPieces,
    There,
    ToMake,
    Week,
    WeekBusy,
    WeekPlan,
    canonical,
    words,
)

blueprint = Blueprint("week_plans", __name__, description="The plan of the order of work")

MOST_WANTS = 40  # lines of one recipe by one instant count as one
ON_THE_BENCH_MS = 60 * DAY_MS  # an open batch that was begun before that is thought forgotten
AFTER_MS = 14 * DAY_MS  # so long after the last want what is on the bench may still go on
WORK_ON_BENCH = 1.0
BARRED = ("held", "rejected")
NOTHING: WeekPlan = {
    "status": "proven",
    "aims": [],
    "batches": [],
    "from_there": {},
    "short": [],
    "within": 0,
    "served": [],
    "helps": [],
}

Place = Literal["followed", "offered"]


class PlanAsked(TypedDict):
    """`api.plan_shapes.OrderPlanAsked`, read."""

    quick: bool


class FollowGiven(TypedDict):
    """`api.plan_shapes.FollowAsked`, read."""

    plan: UUID


class Found(NamedTuple):
    """What a plan of the order is made of."""

    mark: str
    order: list[OrderWant]
    stock: list[StockedPieces]
    stands: weeks.Stands
    bench: dict[str, RunView]  # open runs
    shelf: OnShelf
    parts: PartMakers


@blueprint.get("/week")
@blueprint.response(200, shape(WeekNow))
def get_week() -> Response:
    """How the order of work stands: what is promised, the plan that is followed, and a newer one if there is any."""
    with reading() as connection:
        order = wants.wants_in(connection, "open")
        stock = _stock(connection, HOURS.now(connection).document["makers"][0]["hours"]["zone"])
        newest = _kept(connection, "offered")
        mark = _mark(connection, order, stock, newest["titles"] if newest else ())
        followed, offered = (_kept(connection, place, order) for place in ("followed", "offered"))
        promises = bench.promised(order, stock)
        begun = _begun(connection, followed) if followed else []
    is_newer = (
        offered is not None and offered["mark"] == mark and offered["id"] != (followed and followed["id"])
    )
    now: WeekNow = {
        "at": now_ms(),
        "mark": mark,
        "there": {line: sum(runs.values()) for line, runs in promises.items()},
        "followed": _said(followed),
        "offered": _said(offered) if is_newer else None,
        "begun": begun,
    }
    return answer(now)


@blueprint.post("/week/plan")
@blueprint.arguments(OrderPlanAsked(), location="query")
@blueprint.response(200, shape(OrderPlanSaid))
def plan_order(asked: PlanAsked) -> Response:
    """Plan what is wanted, from pieces, batches, hours, kit and own runs as they stand.

    It is offered; the first one, and one that changes nothing of what is to be done, are followed at once. Lines whose
    instant is past, and what is too much, are named.
    """
    budgets.spend(gate.sender_id(), budgets.PLANS_AN_HOUR)
    with weeks.one_at_a_time():
        made = _made(now_ms(), asked["quick"])
    with writing() as connection:
        _keep(connection, "offered", made)
        followed = _kept(connection, "followed", wants.wants_in(connection, "open"))
        if followed is None or _takes_over(followed, made):
            _keep(connection, "followed", made)
    return answer(_said(made))


def _takes_over(followed: OrderPlan, made: OrderPlan) -> bool:
    """Whether a plan comes in place of the one that is followed unasked: it is the full one, or says the same again."""
    is_fuller = followed["quick"] and followed["mark"] == made["mark"]
    return is_fuller or (
        followed["plan"]["batches"] == made["plan"]["batches"]
        and all(followed[part] == made[part] for part in ("lines", "past", "later", "cannot"))
    )


@blueprint.put("/week/plan")
@blueprint.arguments(FollowAsked())
@blueprint.response(200, shape(OrderPlanSaid))
def follow_plan(given: FollowGiven) -> Response:
    """Follow the plan that is offered."""
    with writing() as connection:
        for place in ("offered", "followed"):
            made = _kept(connection, place)
            if made is not None and made["id"] == str(given["plan"]):
                _keep(connection, "followed", made)
                return answer(_said(made))
    raise Problem(409, words.say("api-plans-week-not-offered"))


# What a plan is made of


def _made(at: int, quick: bool) -> OrderPlan:
    with reading() as connection:
        found = _found(connection, at)
    promises = bench.promised(found.order, found.stock)
    made = bench.to_make(
        found.order, promises, at, at + weeks.MOST_DAYS * DAY_MS, MOST_WANTS, weeks.MOST_RECIPES
    )
    spoilage = weeks.spoilage_in(found.stands.recipes)
    cannot: list[str] = []
    names: dict[str, str] = {}
    plan = NOTHING
    if made.wants:
        week, cannot = _week(at, made, found, spoilage)
        plan = weeks.solved(week, quick=quick) if week["wants"] else NOTHING
        names = {key: thing["name"] for key, thing in week["equipment"].items()}
        cards = {lot["ingredient"] for lot in week["lots"]}
        names |= {card: bench.called(found.shelf.there, card.removeprefix(bench.COUNTED)) for card in cards}
        names |= {make["part"]["ingredient"]: make["title"] for make in week["makes"] if "part" in make}
    return {
        "id": str(uuid4()),
        "quick": quick and bool(made.wants),
        "at": at,
        "mark": found.mark,
        "wants": made.wants,
        "lines": bench.order_lines(promises, made, plan),
        "past": made.past,
        "later": made.later,
        "cannot": cannot,
        "titles": {key: recipe["title"] for key, (_, recipe) in found.stands.recipes.items()},
        "names": names,
        "makers": [maker["name"] for maker in found.stands.makers],
        "spoilage": spoilage,
        "plan": plan,
        "needs": _needs(plan, found.stands.makers[0]["hours"]["zone"]),
    }


def _needs(plan: WeekPlan, zone: str) -> list[BuyingWant]:
    """What is made on which day, as `POST /buying` takes it."""
    return [
        {
            "recipe": batch["make"],
            "pieces": batch["pieces"],
            "on": _day(batch["sittings"][0]["starts_at"], zone),
        }
        for batch in plan["batches"]
    ]


def _week(
    at: int, made: ToMake, found: Found, spoilage: dict[str, Spoilage | None]
) -> tuple[Week, list[str]]:
    """The week, and the recipes of it that are not here or cannot be made: they spoil no other."""
    wanted = list(dict.fromkeys(want["make"] for want in made.wants))
    week = weeks.bare_week(at, found.stands.makers, made.wants, [])
    week["makers"], week["there"], week["busy"] = _beside(week, found, spoilage)
    bench.check_week(week)
    cannot, parts = _put_makes(week, wanted, found, spoilage)
    week["wants"] = [want for want in made.wants if want["make"] not in cannot]
    makes = {make["id"] for make in week["makes"]}
    there = [*week["there"], *_unpromised(at, found, parts)]
    week["there"] = [each for each in there if each["make"] in makes]
    return _shelved(week, found) if week["wants"] else week, cannot


def _put_makes(
    week: Week, wanted: list[str], found: Found, spoilage: dict[str, Spoilage | None]
) -> tuple[list[str], dict[str, PartMade]]:
    """Put in what is wanted, and the parts of it that are made ahead, each after all that it goes into. Of what is
    wanted, that which is not here or cannot be made; and what a piece of each part is to the others."""
    recipes = {key: recipe for key, (_, recipe) in found.stands.recipes.items()}
    cannot = [key for key in wanted if key not in recipes]
    asked: dict[str, list[int]] = {}  # how many pieces of a part
    parts: dict[str, PartMade] = {}
    for key in bench.users_first(wanted, recipes, found.parts.recipe_of):
        if key not in wanted and key not in parts:
            continue  # no batch takes any of it
        months = recipes[key].get("keeps_months")
        keeps_ms = months * 28 * DAY_MS if months else None  # no month is shorter
        try:
            weeks.put_make(week, key, found.stands, spoilage[key], keeps_ms, asked.get(key, ()))
        except BenchError:
            cannot += [key] if key in wanted else []
            continue
        make = week["makes"][-1]
        if key in parts:
            make["part"] = parts[key]
        pieces = [want["pieces"] for want in week["wants"] if want["make"] == key] + asked.get(key, [])
        for ingredient, part in bench.parts_of(recipes[key], found.parts.recipe_of).items():
            name = found.parts.key_of(recipes[key]["ingredients"][ingredient]["name"])
            told = bench.part_asked(make, ingredient, name, pieces, recipes[part]) if name else None
            if told and parts.setdefault(part, told[0]) == told[0]:
                asked[part] = asked.get(part, []) + told[1]
    return cannot, parts


def _unpromised(at: int, found: Found, parts: dict[str, PartMade]) -> list[There]:
    """Finished pieces of parts that are promised to nobody."""
    promises = bench.promised(found.order, found.stock)
    left = {each["run"]: each["pieces"] for each in found.stock}
    for runs in promises.values():
        for run, some in runs.items():
            left[run] -= some
    return [
        {"make": each["recipe"], "pieces": left[each["run"]], "since": at, "until": each["until"]}
        for each in found.stock
        if each["recipe"] in parts and left[each["run"]] > 0
    ]


def _shelved(week: Week, found: Found) -> Week:
    """The week with the lots that it hangs on, less what open batches have still to lay out."""
    shelf = found.shelf
    book = Book(shelf.there)
    zone = week["zone"]
    today = _day(week["since"], zone)
    gone: dict[str, int] = {}
    for sheet in shelf.begun:
        for need in bench.needs_of(sheet, today, book)[0]:
            key = need["card"] if "mg" in need else bench.COUNTED + need["card"]
            gone[key] = gone.get(key, 0) + need.get("mg", need.get("count", 0))
    on_cards: dict[str, OnCard] = {}
    measures: tuple[tuple[str, BoughtBy], ...] = (("", "mg"), (bench.COUNTED, "count"))
    for card, (before, measure) in product(book.cards, measures):
        key, lots = before + card, []
        for lot in bench.free_of(card, measure, shelf.there, shelf.uses):
            taken = min(lot.much, gone.get(key, 0))
            gone[key] = gone.get(key, 0) - taken
            until = _day_ends(lot.best_before, zone) if lot.best_before else None
            lots.append((lot.lot, lot.much - taken, until))
        days = bench.lead_days(book.cards[card])
        on_cards[key] = OnCard(
            lots, None if days is None else _day_ends(today, zone) + 1 + (days - 1) * DAY_MS
        )
    cards = {
        key: {
            ingredient: own
            for ingredient, each in recipe["ingredients"].items()
            if (own := found.parts.key_of(each["name"]))
        }
        for key, (_, recipe) in found.stands.recipes.items()
    }
    return bench.with_lots(week, cards, on_cards)


def _beside(
    week: Week, found: Found, spoilage: dict[str, Spoilage | None]
) -> tuple[list[MakerHours], list[There], list[WeekBusy]]:
    """The hours, less what the batches on the bench still ask for; the pieces that come of them; what they have in use."""
    parts = []
    for run, view in found.bench.items():
        recipe = view.sheet["recipe"]["id"]
        own = bench.of_sheet(view.sheet, bench.planned_hands(records.recent_records(recipe)))
        try:
            parts.append(bench.tasks_of(view.sheet, view.state, run=run, hands=own))
        except BenchError:
            continue  # one that cannot be planned spoils no other
    if not parts:
        return week["makers"], [], []
    until = max(want["by"] for want in week["wants"]) + AFTER_MS
    problem = bench.make_problem(parts, found.stands.makers, week["since"], until)
    plan = bench.replan(problem, None, week["since"], budget=WORK_ON_BENCH)
    ends: dict[str, int] = {}
    for step in plan["steps"]:
        ends[step["run"]] = max(ends.get(step["run"], week["since"]), step["ends_at"])
    busy = bench.hands_of(plan)
    makers: list[MakerHours] = [
        {**maker, "hours": bench.without(maker["hours"], busy.get(place, []))}
        for place, maker in enumerate(week["makers"])
    ]
    there: list[There] = []
    for run, done in ends.items():
        sheet, state = found.bench[run].sheet, found.bench[run].state
        recipe = sheet["recipe"]["id"]
        good = bench.good_so_far(sheet, state)
        if good is None:
            good = bench.good_of(sheet["size"]["pieces"], spoilage.get(recipe))
        if good > 0:
            there.append({"make": recipe, "pieces": good, "since": done, "until": None})
    return makers, there, bench.kit_of(problem, plan, until)


def _found(connection: Connection, at: int) -> Found:
    order = wants.wants_in(connection, "open")
    makers = HOURS.now(connection).document["makers"]
    shelf = on_shelf(connection)
    parts = PartMakers(connection, shelf.there, Book(shelf.there))
    recipes: dict[str, tuple[int, MeasuredRecipe]] = {}
    left = sorted({line["recipe"] for line in order})
    while left:
        key = left.pop()
        version = current_version(connection, key)
        if key not in recipes and version is not None:
            recipe: MeasuredRecipe = json.loads(version.measured)
            recipes[key] = (version.version, recipe)
            left += bench.parts_of(recipe, parts.recipe_of).values()
    runs = {run: load_run_in(connection, run) for run in _open_runs(connection, at)}
    stock = _stock(connection, makers[0]["hours"]["zone"])
    return Found(
        _mark(connection, order, stock, recipes),
        order,
        stock,
        weeks.Stands(measured_kit(connection), makers, recipes),
        runs,
        shelf,
        parts,
    )


def _open_runs(connection: Connection, at: int) -> list[str]:
    rows = select(Run.id).where(Run.finished_at.is_(None), Run.created_at > at - ON_THE_BENCH_MS)
    return list(connection.scalars(rows.order_by(Run.created_at, Run.id)))


def _mark(
    connection: Connection, order: list[OrderWant], stock: list[StockedPieces], planned: Iterable[str]
) -> str:
    """Another as soon as anything is that a plan hangs on. planned: recipes that the newest plan knows, its parts too."""
    recipes = {line["recipe"] for line in order} | {*planned}
    runs = select(Run.id).where(Run.finished_at.is_(None)).order_by(Run.id)
    versions = select(Recipe.id, Recipe.version).order_by(Recipe.id)
    return tag_of(
        [
            [[line["id"], line["version"]] for line in order],
            [[each["run"], each["pieces"], each["until"]] for each in stock],
            list(connection.scalars(runs)),
            HOURS.now(connection).version,
            KIT.now(connection).version,
            [[key, version] for key, version in connection.execute(versions) if key in recipes],
            connection.scalar(select(func.max(ShelfEntry.seq))) or 0,
        ]
    )


def _stock(connection: Connection, zone: str) -> list[StockedPieces]:
    """What can be handed over: what is held or rejected cannot."""
    rows = (
        select(BatchPieces.run_id, Run.recipe_id, BatchPieces.in_stock, BatchPieces.best_before, Run.release)
        .join(Run, Run.id == BatchPieces.run_id)
        .where(BatchPieces.in_stock > 0)
        .order_by(BatchPieces.run_id)
    )
    return [
        {"run": run, "recipe": recipe, "pieces": pieces, "until": _day_ends(day, zone) if day else None}
        for run, recipe, pieces, day, release in connection.execute(rows)
        if release not in BARRED
    ]


def _day_ends(day: str, zone: str) -> int:
    after = datetime.combine(date.fromisoformat(day) + timedelta(days=1), time(), ZoneInfo(zone))
    return int(after.timestamp() * 1000) - 1


def _day(at: int, zone: str) -> str:
    return datetime.fromtimestamp(at / 1000, ZoneInfo(zone)).date().isoformat()


def _begun(connection: Connection, plan: OrderPlan) -> list[BatchBegun]:
    rows = select(
        Run.id, Run.recipe_id, func.coalesce(Run.made_at, Run.created_at), Run.finished_at, BatchPieces.good
    ).outerjoin(BatchPieces, BatchPieces.run_id == Run.id)
    runs: list[BegunRun] = [
        {"run": run, "recipe": recipe, "begun_at": begun, "finished_at": finished, "good": good}
        for run, recipe, begun, finished, good in connection.execute(rows.where(Run.created_at >= plan["at"]))
        if begun >= plan["at"]
    ]
    return bench.begun_for(plan["plan"]["batches"], runs)


# Rows


def _kept(connection: Connection, place: Place, order: list[OrderWant] | None = None) -> OrderPlan | None:
    """A plan; with the order, only one that has something of it still."""
    text = connection.scalar(select(WeekPlanRow.made).where(WeekPlanRow.place == place))
    made: OrderPlan | None = json.loads(text) if text else None
    if made is None or order is None:
        return made
    planned = {line["want"] for line in made["lines"]} | {*made["past"], *made["later"]}
    return made if any(line["id"] in planned for line in order) else None


def _keep(connection: Connection, place: Place, made: OrderPlan) -> None:
    connection.execute(delete(WeekPlanRow).where(WeekPlanRow.place == place))
    connection.execute(insert(WeekPlanRow).values(place=place, id=made["id"], made=canonical(made)))


def _said(plan: OrderPlan | None) -> OrderPlanSaid | None:
    return {**plan, "says": bench.week_in_a_line(plan["plan"])} if plan else None
