"""Making plans beside the requests: what is to be planned is read here, solved in a thread, and kept.

One plan is worked on at a time in each process. Whoever works on one says so again and again (`beat_at`),
so that another process, or a next start, takes over what fell silent. The work has a limit in the
solver's own seconds, which are the same on every machine, and is stopped by `plan.cancelled`.
"""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Callable
from datetime import datetime
from typing import NamedTuple, NotRequired, TypeAlias, TypedDict
from zoneinfo import ZoneInfo

from flask import Flask
from sqlalchemy import Connection, delete, func, select, update

import bench
from api import records
from api.clock import now_ms
from api.hours import HOURS
from api.kit import measured_kit
from api.plan_shapes import MAX_TOGETHER
from api.recipes import version_or_404
from api.runs import batch_name, load_run_in
from api.store import reading, writing
from api.tables import Entry, Plan, PlannedRun, Run
from bench import (
    BenchError,
    Kit,
    MeasuredRecipe,
    PlanAimName,
    PlannedPart,
    Problem,
    Progress,
    RecipeRef,
    Sheet,
    Size,
    State,
    TasksOfRun,
    TimeSaving,
    TimeSavingOption,
    TimeSavingSaid,
    canonical,
    words,
)
from bench import (
    Plan as PlanMade,
)

LIMIT = 8.0  # the solver's own seconds for a plan; of the clock's about as many, for a very long day more
MAX_S = 60.0  # of the clock, when looking for a better one ends in any case
SAVINGS_LIMIT = 6.0  # for all that is asked about saving time
LOOK_S = 0.5  # how often work says that it goes on, and looks whether it is still wanted
SILENT_MS = 30_000  # after this long without a word, nobody is at work any more
DAY_MS = 86_400_000
AHEAD_MS = 14 * DAY_MS  # of bench hours beyond all the waits there are
MAX_AHEAD_MS = 399 * DAY_MS
TOGETHER_MS = DAY_MS  # runs that share the bench lay still for less (frontend/keep/studio.js too)
DEMO_DEVICE = "demo-phone"  # whose entries the demo's runs begin with; nobody here has touched such a run yet
KEPT_MS = 7 * DAY_MS  # how long a plan stays that no run follows

EXTENSION = "bowlside_planner"


def init_app(app: Flask) -> None:
    app.extensions[EXTENSION] = Planner(app)


class RecipeToPlan(RecipeRef):
    """A recipe that has not begun, at a size."""

    size: Size


class Asked(TypedDict):
    """What was asked of a plan, as it is kept."""

    runs: list[str]
    recipes: list[RecipeToPlan]
    aim: PlanAimName
    ready_by: int | None
    savings: bool
    due: NotRequired[dict[str, int]]  # run -> when it is to be ready
    out: NotRequired[list[str]]  # runs that the maker left out
    by: NotRequired[str]  # the device that asked


class Made(TypedDict):
    """A plan as it is kept, with what it was made of."""

    hours: int  # their version
    reach: dict[str, int]  # run -> how many entries its journal held
    hands_ms: dict[str, int]  # step -> the maker's own time
    parts: list[PlannedPart]
    savings: list[TimeSaving]
    zone: NotRequired[str]  # of the bench hours
    plan: PlanMade
    made_at: int


class Together(TypedDict):
    """Runs that share the bench."""

    runs: list[str]
    due: dict[str, int]
    out: list[str]


Hands: TypeAlias = dict[str, dict[str, int]]  # recipe -> written step -> the maker's own time in ms


class OfSheet(NamedTuple):
    """A run, or a recipe that has not begun, as it is planned."""

    name: str
    sheet: Sheet
    state: State | None
    recipe: MeasuredRecipe


class Reading:
    """All that a plan is made of, as it stands in one view of the database."""

    def __init__(self, connection: Connection, asked: Asked) -> None:
        self.hours = HOURS.now(connection)
        self.kit = measured_kit(connection)
        self.reach = reaches(connection, asked["runs"])
        self.sheets: list[OfSheet] = []
        for run_id in asked["runs"]:
            run = load_run_in(connection, run_id)
            measured = _measured(connection, run.sheet["recipe"])
            self.sheets.append(OfSheet(run_id, bench.open_sheet(run.sheet, measured), run.state, measured))
        for number, recipe in enumerate(asked["recipes"], 1):
            ref: RecipeRef = {"id": recipe["id"], "version": recipe["version"]}
            measured = _measured(connection, ref)
            sheet = bench.make_sheet(measured, ref, recipe["size"], self.kit)
            self.sheets.append(OfSheet(f"new-{number}", sheet, None, measured))

    def problem(self, asked: Asked, hands: Hands, at: int, kit: Kit | None = None) -> Problem:
        """kit: plan what has not begun for this kit instead of its own."""
        parts: list[TasksOfRun] = []
        for name, sheet, state, measured in self.sheets:
            own = bench.of_sheet(sheet, hands.get(sheet["recipe"]["id"], {}))
            part = bench.tasks_of(sheet, state, run=name, hands=own)
            if kit is not None and not _begun(part):
                sheet = bench.make_sheet(measured, sheet["recipe"], sheet["size"], kit)
                own = bench.of_sheet(sheet, hands.get(sheet["recipe"]["id"], {}))
                part = bench.tasks_of(sheet, run=name, hands=own)
            parts.append(part)
        waits = sum(task["left_ms"] for part in parts for task in part["tasks"] if task["kind"] == "wait")
        latest = max([asked["ready_by"] or 0, *asked.get("due", {}).values()])
        until = max(at + AHEAD_MS + waits, latest + DAY_MS)
        problem: Problem = bench.make_problem(
            parts, self.hours.document["makers"], at, min(until, at + MAX_AHEAD_MS), asked["ready_by"]
        )
        return {**problem, "names": {part["run"]: part["name"] for part in self.parts()}}

    def parts(self) -> list[PlannedPart]:
        """What the plan is of."""
        return [
            {"run": name, "title": sheet["recipe"]["title"], "name": batch_name(sheet, state)}
            for name, sheet, state, _ in self.sheets
        ]

    def hands(self) -> Hands:
        recipes = {sheet["recipe"]["id"] for _, sheet, _, _ in self.sheets}
        return {recipe: bench.planned_hands(records.recent_records(recipe)) for recipe in recipes}


def _measured(connection: Connection, ref: RecipeRef) -> MeasuredRecipe:
    measured: MeasuredRecipe = json.loads(version_or_404(connection, ref["id"], ref["version"]).measured)
    return measured


def _begun(problem: TasksOfRun) -> bool:
    return any(task["status"] != "open" for task in problem["tasks"])


def reaches(connection: Connection, runs: list[str]) -> dict[str, int]:
    """How many entries each run's journal holds."""
    counted = select(Entry.run_id, func.count()).where(Entry.run_id.in_(runs)).group_by(Entry.run_id)
    found = {run: count for run, count in connection.execute(counted)}
    return {run: found.get(run, 0) for run in runs}


class Planner:
    """Who makes the plans of this process."""

    def __init__(self, app: Flask) -> None:
        self._app = app
        self._at_work = threading.Lock()

    def begin(self, plan_id: str, wait_s: float = 0.0) -> None:
        """Work on a plan whose row says "working"; comes back when it is made, or after `wait_s`."""
        thread = threading.Thread(target=self._work, args=[plan_id, words.spoken()], name="plan", daemon=True)
        thread.start()
        thread.join(wait_s)

    def _work(self, plan_id: str, language: str) -> None:
        with self._app.app_context(), words.speaking(language):
            try:
                while not self._at_work.acquire(timeout=LOOK_S):
                    Watch(self._app, plan_id).look()
                try:
                    _make(self._app, plan_id)
                finally:
                    self._at_work.release()
            except BenchError as error:
                fault = {"field": error.where, "detail": error.says, "spoken": language}
                _keep(plan_id, state="refused", fault=canonical(fault))
            except Exception:  # of the database, or ours: the plan that was there stays
                self._app.logger.exception("Plan %s could not be made", plan_id)
                _keep(plan_id, state="refused", fault=canonical({"field": "", "code": "server"}))


class Watch:
    """Says now and then that a plan is worked on, and how far; knows whether it is still wanted.

    The solver asks from threads of its own.
    """

    def __init__(self, app: Flask, plan_id: str) -> None:
        self._app = app
        self.plan_id = plan_id
        self.cancelled = False
        self.progress: dict[str, str | int] | None = None
        self._looked = 0.0
        self._ends = time.monotonic() + MAX_S

    def look(self) -> bool:
        """Whether to stop."""
        if time.monotonic() - self._looked >= LOOK_S:
            self._looked = time.monotonic()
            progress = {"progress": canonical(self.progress)} if self.progress else {}
            with self._app.app_context():
                _keep(self.plan_id, beat_at=now_ms(), **progress)
                with reading() as connection:
                    wanted = select(Plan.cancelled).where(Plan.id == self.plan_id)
                    self.cancelled = bool(connection.scalar(wanted))
        return self.cancelled or time.monotonic() > self._ends


def _make(app: Flask, plan_id: str) -> None:
    watch = Watch(app, plan_id)
    with reading() as connection:
        row = connection.execute(select(Plan.asked, Plan.made).where(Plan.id == plan_id)).one()
        asked: Asked = json.loads(row.asked)
        found = Reading(connection, asked)
    before: PlanMade | None = json.loads(row.made)["plan"] if row.made else None
    hands = found.hands()
    at = now_ms()
    problem = found.problem(asked, hands, at)
    savings: list[TimeSaving] = []

    def keep(plan: PlanMade, state: str) -> None:
        made: Made = {
            "hours": found.hours.version,
            "reach": found.reach,
            "hands_ms": _own_times(found, hands),
            "parts": found.parts(),
            "savings": savings,
            "zone": problem["zone"],
            "plan": plan,
            "made_at": now_ms(),
        }
        _keep(plan_id, state=state, made=canonical(made))

    def progress(found: Progress) -> None:
        if found["aim"] == "usable":
            if before is None:
                with app.app_context():
                    keep(found["plan"], "working")
            return
        # `canonical` takes whole numbers alone, so the share is kept in thousandths.
        watch.progress = {"aim": found["aim"], "share": round(1000 * (found["work"] or 0))}

    best = _best(problem, asked, before, at, watch.look, progress)
    keep(best, "working" if asked["savings"] else "made")
    if asked["savings"]:
        savings += _savings(found, asked, hands, at, problem, best, watch.look)
        keep(best, "made")


def _best(
    problem: Problem,
    asked: Asked,
    before: PlanMade | None,
    at: int,
    cancelled: Callable[[], bool],
    progress: Callable[[Progress], None],
) -> PlanMade:
    """The plan from now on: by what was asked, and once the day is under way, near to the plan before."""
    begun = _begun(problem)
    made: PlanMade
    if due := asked.get("due"):
        made = bench.plan_several(
            problem, due, before, at, budget=LIMIT, cancelled=cancelled, progress=progress
        )
        return made
    if asked["aim"] == "ready_by" and not (begun and (asked["ready_by"] or 0) <= at):
        made = bench.plan(problem, aim="ready_by", budget=LIMIT, cancelled=cancelled, progress=progress)
        if made["status"] not in ("impossible", "unknown") or not begun:
            return made
    elif not begun:
        made = bench.plan(problem, budget=LIMIT, cancelled=cancelled, progress=progress)
        return made
    made = bench.replan(problem, before, at, budget=LIMIT, cancelled=cancelled, progress=progress)
    return made


def _own_times(found: Reading, hands: Hands) -> dict[str, int]:
    return {
        f"{name}/{step}": ms
        for name, sheet, _, _ in found.sheets
        for step, ms in bench.of_sheet(sheet, hands.get(sheet["recipe"]["id"], {})).items()
    }


# Shopping for time


def _savings(
    found: Reading,
    asked: Asked,
    hands: Hands,
    at: int,
    problem: Problem,
    made: PlanMade,
    cancelled: Callable[[], bool],
) -> list[TimeSaving]:
    """What one more of something would save, each as a day planned anew."""
    asks_again: Problem = {**problem, "ready_by": None}
    others: list[TimeSavingOption] = bench.options(asks_again, made)
    plain: Asked = {**asked, "ready_by": None}
    for mould in found.kit["moulds"]:
        more = bench.with_one_more(found.kit, mould["id"])
        other = found.problem(plain, hands, at, more)
        if other["equipment"] != problem["equipment"]:
            others.append({"what": "mould", "name": mould["name"], "problem": other})
    soonest = (
        made
        if asked["aim"] == "finish" and not asked.get("due")
        else bench.plan(asks_again, budget=SAVINGS_LIMIT / 4)
    )
    savings: list[TimeSaving] = bench.time_savings(
        asks_again, soonest, others, budget=SAVINGS_LIMIT, cancelled=cancelled
    )
    return savings


def savings_said(made: Made) -> list[TimeSavingSaid]:
    """What a plan as it is kept says of time that could be saved, in words."""
    zone = made.get("zone", "UTC")
    return [{**each, "says": _saving_words(each, zone)} for each in made["savings"]]


def _saving_words(saving: TimeSaving, zone: str) -> str:
    what, gains = _one_more(saving, zone), []
    if saving["saves_ms"] is None:
        return f"{what} {words.say('api-plans-saves-unknown')}"
    if saving["saves_ms"] > 0:
        gains.append(words.say("api-plans-saves-length", length=bench.span(saving["saves_ms"])))
    count = saving["saves_sessions"] or 0
    if count > 0:
        gains.append(words.say("api-plans-saves-sessions", count=count))
    sure = [] if saving["proven"] else [words.say("api-plans-saves-as-found")]
    return " ".join([what, *(gains or [words.say("api-plans-saves-nothing")]), *sure])


def _one_more(saving: TimeSaving, zone: str) -> str:
    """Of what there would be one more."""
    if saving["what"] == "mould":
        return words.say("api-plans-saving-mould", name=saving["name"])
    if saving["what"] == "second_maker":
        return words.say("api-plans-saving-second-maker")
    closes = datetime.fromtimestamp(saving["closes_at"] / 1000, ZoneInfo(zone))
    return words.say(
        "api-plans-saving-extra-time",
        at=words.weekday(closes.weekday()),
        closes=f"{closes.hour}:{closes:%M}",
    )


# Rows


def _keep(plan_id: str, **values: str | int | None) -> None:
    with writing(alone=False) as connection:
        connection.execute(update(Plan).where(Plan.id == plan_id).values(**values))


def drop_old(connection: Connection, at: int) -> None:
    """Let go of plans that nobody follows any more."""
    followed = select(PlannedRun.plan_id)
    connection.execute(delete(Plan).where(Plan.asked_at < at - KEPT_MS, Plan.id.not_in(followed)))


def known_runs(connection: Connection, runs: list[str]) -> set[str]:
    return set(connection.execute(select(Run.id).where(Run.id.in_(runs))).scalars())


def due_of(asked: Asked) -> dict[str, int]:
    """Run -> when it is to be ready, of what was asked of a plan; one with an aim of its own is for all its runs."""
    ready_by = asked["ready_by"]
    if asked["aim"] == "ready_by" and ready_by is not None:
        return dict.fromkeys(asked["runs"], ready_by)
    return asked.get("due", {})


def concurrent_runs(connection: Connection, run: str, at: int) -> Together:
    """A run with the others that share the bench with it, as a plan is asked for.

    The others are at most seven, those begun last first. They are open, somebody here did something in them in the last day, and they follow a plan. One that cannot
    be planned spoils no other; what the maker left out stays out; the demo's own never joins.
    """
    followed = (
        select(Run.id, Run.created_at, Plan.asked)
        .join(PlannedRun, PlannedRun.run_id == Run.id)
        .join(Plan, Plan.id == PlannedRun.plan_id)
        .where(Run.id != run, Run.finished_at.is_(None), Plan.state != "refused")
        .order_by(Run.created_at.desc(), Run.id)
    )
    rows = [(str(row.id), row.created_at, json.loads(row.asked)) for row in connection.execute(followed)]
    out = {each for _, _, asked in rows for each in asked.get("out", [])}
    found: list[str] = []
    due: dict[str, int] = {}
    for other, created_at, asked in rows:
        newest = select(Entry.text).where(Entry.run_id == other).order_by(Entry.seq.desc()).limit(1)
        text = connection.scalar(newest)
        last = json.loads(text) if text else {"at": created_at, "device": None}
        touched = last["device"] != DEMO_DEVICE and last["at"] > at - TOGETHER_MS
        if touched and other not in out and run not in asked.get("out", []):
            found.append(other)
            wanted = due_of(asked).get(other)
            if wanted is not None and wanted > at:
                due[other] = wanted
    runs = [run, *found[: MAX_TOGETHER - 1]]
    return {
        "runs": runs,
        "due": {each: instant for each, instant in due.items() if each in runs},
        "out": sorted(out - set(runs)),
    }
