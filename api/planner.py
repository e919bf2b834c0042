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
from typing import Any
from zoneinfo import ZoneInfo

from flask import Flask
from sqlalchemy import Connection, delete, func, select, update

import bench
from api import records
from api.clock import now_ms
from api.hours import HOURS
from api.kit import measured_kit
from api.plan_shapes import MOST_TOGETHER
from api.recipes import version_or_404
from api.runs import RunView, load_run_in
from api.store import reading, writing
from api.tables import Entry, Plan, PlannedRun, Run
from bench import BenchError, canonical

Json = Any  # until its shape is named

LIMIT = 8.0  # the solver's own seconds for a plan; of the clock's about as many, for a very long day more
MOST_S = 60.0  # of the clock, when looking for a better one ends in any case
SAVINGS_LIMIT = 6.0  # for all that is asked about saving time
LOOK_S = 0.5  # how often work says that it goes on, and looks whether it is still wanted
SILENT_MS = 30_000  # after this long without a word, nobody is at work any more
DAY_MS = 86_400_000
AHEAD_MS = 14 * DAY_MS  # of bench hours beyond all the waits there are
MOST_AHEAD_MS = 399 * DAY_MS
TOGETHER_MS = DAY_MS  # runs that share the bench lay still for less (frontend/keep/studio.js too)
DEMO_DEVICE = "demo-phone"  # whose entries the demo's runs begin with; nobody here has touched such a run yet
KEPT_MS = 7 * DAY_MS  # how long a plan stays that no run follows

EXTENSION = "bowlside_planner"


def init_app(app: Flask) -> None:
    app.extensions[EXTENSION] = Planner(app)


class Reading:
    """All that a plan is made of, as it stands in one view of the database."""

    def __init__(self, connection: Connection, asked: Json) -> None:
        self.hours = HOURS.now(connection)
        self.kit = measured_kit(connection)
        self.reach = reaches(connection, asked["runs"])
        self.sheets: list[tuple[str, Json, Json | None, Json]] = []  # name, sheet, state, measured recipe
        for run_id in asked["runs"]:
            run: RunView = load_run_in(connection, run_id)
            self._add(connection, run_id, run.sheet["recipe"], run.sheet, run.state)
        for number, recipe in enumerate(asked["recipes"], 1):
            ref = {"id": recipe["id"], "version": recipe["version"]}
            self._add(connection, f"new-{number}", ref, None, None, recipe["size"])

    def _add(
        self,
        connection: Connection,
        name: str,
        ref: Json,
        sheet: Json | None,
        state: Json | None,
        size: Json | None = None,  # of what has no sheet yet
    ) -> None:
        measured = json.loads(version_or_404(connection, ref["id"], ref["version"]).measured)
        if sheet is None:
            assert size is not None
            sheet = bench.make_sheet(measured, ref, size, self.kit)
        self.sheets.append((name, sheet, state, measured))

    def problem(self, asked: Json, hands: Json, at: int, kit: Json | None = None) -> Json:
        """kit: plan what has not begun for this kit instead of its own."""
        parts = []
        for name, sheet, state, measured in self.sheets:
            own = _of_sheet(sheet, hands.get(sheet["recipe"]["id"], {}))
            part = bench.tasks_of(sheet, state, run=name, recipe=measured, hands=own)
            if kit is not None and not _begun(part):
                sheet = bench.make_sheet(measured, sheet["recipe"], sheet["size"], kit)
                own = _of_sheet(sheet, hands.get(sheet["recipe"]["id"], {}))
                part = bench.tasks_of(sheet, run=name, recipe=measured, hands=own)
            parts.append(part)
        waits = sum(task["left_ms"] for part in parts for task in part["tasks"] if task["kind"] == "wait")
        latest = max([asked["ready_by"] or 0, *asked.get("due", {}).values()])
        until = max(at + AHEAD_MS + waits, latest + DAY_MS)
        problem = bench.make_problem(
            parts, self.hours.document["makers"], at, min(until, at + MOST_AHEAD_MS), asked["ready_by"]
        )
        return {**problem, "names": {part["run"]: part["name"] for part in self.parts()}}

    def parts(self) -> list[Json]:
        """What the plan is of: {"run", "title", "name"}."""
        return [
            {"run": name, "title": sheet["recipe"]["title"], "name": _name_of(sheet, state)}
            for name, sheet, state, _ in self.sheets
        ]

    def hands(self) -> Json:
        """Recipe -> written step -> the maker's own time in ms."""
        recipes = {sheet["recipe"]["id"] for _, sheet, _, _ in self.sheets}
        return {recipe: bench.planned_hands(records.recent_records(recipe)) for recipe in recipes}


def _name_of(sheet: Json, state: Json | None) -> str:
    """What a batch is called: by its number, else by what it is."""
    name: str = (state["number"] if state else None) or sheet["recipe"]["title"]
    return name


def _begun(problem: Json) -> bool:
    return any(task["status"] != "open" for task in problem["tasks"])


def _of_sheet(sheet: Json, hands: Json) -> Json:
    """The hand times of a sheet's own steps."""
    own = {step["id"]: hands.get(f"{step['component']}.{step['step']}") for step in sheet["steps"]}
    return {key: ms for key, ms in own.items() if ms is not None}


def reaches(connection: Connection, runs: list[str]) -> Json:
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
        thread = threading.Thread(target=self._work, args=[plan_id], name="plan", daemon=True)
        thread.start()
        thread.join(wait_s)

    def _work(self, plan_id: str) -> None:
        with self._app.app_context():
            try:
                while not self._at_work.acquire(timeout=LOOK_S):
                    Watch(self._app, plan_id).look()
                try:
                    _make(self._app, plan_id)
                finally:
                    self._at_work.release()
            except BenchError as error:
                _keep(plan_id, state="refused", fault=canonical({"field": error.where, "detail": error.says}))
            except Exception:  # of the database, or ours: the plan that was there stays
                self._app.logger.exception("Plan %s could not be made", plan_id)
                says = "Something went wrong on the server while this was planned. Its log says what."
                _keep(plan_id, state="refused", fault=canonical({"field": "", "detail": says}))


class Watch:
    """Says now and then that a plan is worked on, and how far; knows whether it is still wanted.

    The solver asks from threads of its own.
    """

    def __init__(self, app: Flask, plan_id: str) -> None:
        self._app = app
        self.plan_id = plan_id
        self.cancelled = False
        self.progress: Json | None = None
        self._looked = 0.0
        self._ends = time.monotonic() + MOST_S

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
        asked = json.loads(row.asked)
        found = Reading(connection, asked)
    before = json.loads(row.made)["plan"] if row.made else None
    hands = found.hands()
    at = now_ms()
    problem = found.problem(asked, hands, at)
    whole = {
        "hours": found.hours.version,
        "reach": found.reach,
        "hands_ms": _own_times(found, hands),
        "parts": found.parts(),
        "savings": [],
    }

    def keep(plan: Json, state: str) -> None:
        _keep(plan_id, state=state, made=canonical({**whole, "plan": plan, "made_at": now_ms()}))

    def progress(said: Json) -> None:
        if said["aim"] == "usable":
            if before is None:
                with app.app_context():
                    keep(said["plan"], "working")
            return
        # `canonical` takes whole numbers alone, so the share is kept in thousandths.
        watch.progress = {"aim": said["aim"], "share": round(1000 * (said["work"] or 0))}

    made = _best(problem, asked, before, at, watch.look, progress)
    keep(made, "working" if asked["savings"] else "made")
    if asked["savings"]:
        whole["savings"] = _savings(found, asked, hands, at, problem, made, watch.look)
        keep(made, "made")


def _best(
    problem: Json,
    asked: Json,
    before: Json | None,
    at: int,
    cancelled: Callable[[], bool],
    progress: Callable[[Json], None],
) -> Json:
    """The plan from now on: by what was asked, and once the day is under way, near to the plan before."""
    how: Json = {"budget": LIMIT, "cancelled": cancelled, "progress": progress}
    begun = _begun(problem)
    if asked.get("due"):
        return bench.plan_several(problem, asked["due"], before, at, **how)
    if asked["aim"] == "ready_by" and not (begun and asked["ready_by"] <= at):
        made = bench.plan(problem, aim="ready_by", **how)
        if made["status"] not in ("impossible", "unknown") or not begun:
            return made
    elif not begun:
        return bench.plan(problem, **how)
    return bench.replan(problem, before, at, **how)


def _own_times(found: Reading, hands: Json) -> Json:
    return {
        f"{name}/{step}": ms
        for name, sheet, _, _ in found.sheets
        for step, ms in _of_sheet(sheet, hands.get(sheet["recipe"]["id"], {})).items()
    }


# Shopping for time


def _savings(
    found: Reading,
    asked: Json,
    hands: Json,
    at: int,
    problem: Json,
    made: Json,
    cancelled: Callable[[], bool],
) -> list[Json]:
    """What one more of something would save, each as a day planned anew, in words."""
    asks_again = {**problem, "ready_by": None}
    others = bench.offers(asks_again, made)
    plain = {**asked, "ready_by": None}
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
    told = bench.what_saves(asks_again, soonest, others, budget=SAVINGS_LIMIT, cancelled=cancelled)
    return [{**each, "says": _saving_words(each, problem["zone"])} for each in told]


def _saving_words(saving: Json, zone: str) -> str:
    what = "A second maker"
    if saving["what"] == "mould":
        what = f"One more set of {saving['name']}"
    elif saving["what"] == "extra_time":
        what = f"An hour more on {_on_the_clock(saving['closes_at'], zone)}"
    if saving["saves_ms"] is None:
        return f"{what}: no plan was found to compare."
    gains = []
    if saving["saves_ms"] > 0:
        gains.append(f"ends it {bench.span(saving['saves_ms'])} sooner")
    if saving["saves_sessions"] > 0:
        count = saving["saves_sessions"]
        gains.append(f"saves {count} {'session' if count == 1 else 'sessions'} at the bench")
    sure = "" if saving["proven"] else ", as far as was found"
    return f"{what} {' and '.join(gains)}{sure}." if gains else f"{what} would change nothing{sure}."


def _on_the_clock(ms: int, zone: str) -> str:
    local = datetime.fromtimestamp(ms / 1000, ZoneInfo(zone))
    return f"{local:%A}, when the bench closes at {local.hour}:{local:%M},"


# Rows


def _keep(plan_id: str, **values: Any) -> None:
    with writing(alone=False) as connection:
        connection.execute(update(Plan).where(Plan.id == plan_id).values(**values))


def drop_old(connection: Connection, at: int) -> None:
    """Let go of plans that nobody follows any more."""
    followed = select(PlannedRun.plan_id)
    connection.execute(delete(Plan).where(Plan.asked_at < at - KEPT_MS, Plan.id.not_in(followed)))


def known_runs(connection: Connection, runs: list[str]) -> set[str]:
    return set(connection.execute(select(Run.id).where(Run.id.in_(runs))).scalars())


def due_of(asked: Json) -> dict[str, int]:
    """Run -> when it is to be ready, of what was asked of a plan; one with an aim of its own is for all its runs."""
    due: dict[str, int] = asked.get("due", {})
    return {run: asked["ready_by"] for run in asked["runs"]} if asked["aim"] == "ready_by" else due


def beside(connection: Connection, run: str, at: int) -> Json:
    """A run with the others that share the bench with it, as a plan is asked for: {"runs", "due", "out"}.

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
    runs = [run, *found[: MOST_TOGETHER - 1]]
    return {
        "runs": runs,
        "due": {each: instant for each, instant in due.items() if each in runs},
        "out": sorted(out - set(runs)),
    }
