"""Plans over HTTP: asked for, looked at while they are worked on, stopped, and read as a calendar."""

from __future__ import annotations

import json
from typing import NamedTuple, TypedDict
from uuid import UUID, uuid4

from flask import Response, current_app
from sqlalchemy import Connection, and_, delete, insert, not_, or_, select, update

import bench
from api.answers import ProblemDetails
from api.clock import now_ms
from api.door import budgets, gate
from api.errors import PROBLEM_TYPE, Problem, not_found
from api.hours import HOURS
from api.plan_calendar import MIME, calendar
from api.plan_shapes import PlanAsked
from api.planner import (
    DAY_MS,
    EXTENSION,
    MAX_AHEAD_MS,
    MAX_S,
    SILENT_MS,
    Asked,
    Made,
    Planner,
    Reading,
    concurrent_runs,
    drop_old,
    due_of,
    known_runs,
    reaches,
    savings_said,
)
from api.runs import no_such_run
from api.security import DATA
from api.shapes_openapi import shape
from api.store import reading, writing
from api.tables import Plan, PlannedRun
from api.wire import Blueprint, answer
from bench import KeptPlan, PlanAimName, PlanFault, PlanProgress, PlanState, RunDue, Size, canonical, words
from bench import Plan as PlanMade

KEPT_PLAN = shape("KeptPlan")

blueprint = Blueprint("plans", __name__, description="The best order over all parts and runs")

# One plan is made at a time in each process; the others wait, and each holds a thread.
MAX_IN_HAND = 16
MAX_OF_ONE = 3
AGAIN_S = 10
WAIT_S = 0.8  # an answer that comes this soon needs no second question


class RecipeGiven(TypedDict):
    id: UUID
    version: int
    size: Size


class PlanGiven(TypedDict):
    """`api.plan_shapes.PlanAsked`, read."""

    runs: list[UUID]
    recipes: list[RecipeGiven]
    aim: PlanAimName
    ready_by: int | None
    due: dict[UUID, int]
    out: list[UUID]
    savings: bool


class PlanRow(NamedTuple):
    """A plan as the database has it; asked, progress, fault and made are JSON."""

    asked: str
    asked_at: int
    state: PlanState
    beat_at: int
    progress: str | None
    fault: str | None
    made: str | None


@blueprint.post("/plans")
@blueprint.arguments(PlanAsked())
@blueprint.response(201, KEPT_PLAN)
@blueprint.alt_response(202, schema=KEPT_PLAN, success=True, description="Still being worked on")
def ask_plan(given: PlanGiven) -> Response:
    """Ask for a plan of runs, or of recipes not begun yet. The runs follow it from now on, unless a recipe is in it.

    The answer comes within about a second; what is not made by then goes on, and is at /plans/{id}.
    """
    if not given["runs"] and not given["recipes"]:
        raise Problem(422, words.say("api-plans-nothing"), errors=[("runs", words.say("api-plans-name-one"))])
    asked = _asked(given)
    at = now_ms()
    budgets.spend(gate.sender_id(), budgets.PLANS_AN_HOUR)
    _check(asked, at)
    plan_id = _add(asked, at)
    _planner().begin(plan_id, WAIT_S)
    kept = _kept(plan_id)
    fault = kept["fault"]
    if fault and kept["plan"] is None:
        raise Problem(
            422,
            fault["detail"],
            title=words.say("api-plans-title-refused"),
            errors=[(fault["field"], fault["detail"])],
        )
    response = answer(kept, 202 if kept["state"] == "working" else 201)
    response.headers["Location"] = f"/api/v1/plans/{plan_id}"
    return response


def _asked(given: PlanGiven) -> Asked:
    """What was asked, as it is kept."""
    due = {str(run): instant for run, instant in given["due"].items()}
    asked: Asked = {
        "runs": list(dict.fromkeys(str(run) for run in given["runs"])),
        "recipes": [
            {"id": str(each["id"]), "version": each["version"], "size": each["size"]}
            for each in given["recipes"]
        ],
        "aim": given["aim"],
        "ready_by": given["ready_by"],
        "savings": given["savings"],
        "due": due,
        "out": sorted({str(run) for run in given["out"]}),
    }
    if len(due) == 1 and asked["runs"] == list(due) and not asked["recipes"]:
        return {**asked, "aim": "ready_by", "ready_by": due[asked["runs"][0]], "due": {}}
    return asked


@blueprint.get("/plans/<uuid:plan_id>")
@blueprint.response(200, KEPT_PLAN)
def get_plan(plan_id: UUID) -> Response:
    """A plan, and how far the work on it is."""
    return answer(_kept(str(plan_id)))


@blueprint.post("/plans/<uuid:plan_id>/cancel")
@blueprint.response(200, KEPT_PLAN)
def cancel_plan(plan_id: UUID) -> Response:
    """Stop looking for a better one. The best so far stays, and says so."""
    with writing(alone=False) as connection:
        connection.execute(update(Plan).where(Plan.id == str(plan_id)).values(cancelled=True))
    return answer(_kept(str(plan_id)))


@blueprint.get("/runs/<uuid:run_id>/plan")
@blueprint.response(200, KEPT_PLAN)
def get_run_plan(run_id: UUID) -> Response:
    """The plan that a run follows, as it was kept.

    When entries came since, or the bench hours changed, the day is planned anew in the background, and
    the plan that was there is given meanwhile. A run that has none yet is planned now, together with the
    others on the bench: there is one pair of hands for all of them.
    """
    run = str(run_id)
    with reading() as connection:
        if not known_runs(connection, [run]):
            no_such_run()
        plan_id = connection.scalar(select(PlannedRun.plan_id).where(PlannedRun.run_id == run))
    if plan_id is None:
        at = now_ms()
        budgets.spend(gate.sender_id(), budgets.PLANS_AN_HOUR)
        with reading() as connection:
            together = concurrent_runs(connection, run, at)
        asked: Asked = {
            "runs": together["runs"],
            "recipes": [],
            "aim": "finish",
            "ready_by": None,
            "savings": False,
            "due": together["due"],
            "out": together["out"],
        }
        plan_id = _add(asked, at)
        _planner().begin(plan_id, WAIT_S)
        return answer(_kept(plan_id))
    if _take_up(plan_id):
        _planner().begin(plan_id)
    return answer(_kept(plan_id))


@blueprint.get("/runs/<uuid:run_id>/calendar.ics")
@blueprint.response(200, {"type": "string"}, content_type=MIME)
@blueprint.alt_response(
    409, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="There is no plan yet"
)
def get_run_calendar(run_id: UUID) -> Response:
    """The sessions and waits of the run's plan for a calendar, with alarms."""
    with reading() as connection:
        if not known_runs(connection, [str(run_id)]):
            no_such_run()
        plan_id = connection.scalar(select(PlannedRun.plan_id).where(PlannedRun.run_id == str(run_id)))
    return _calendar(_kept(plan_id) if plan_id else None)


@blueprint.get("/plans/<uuid:plan_id>/calendar.ics")
@blueprint.response(200, {"type": "string"}, content_type=MIME)
@blueprint.alt_response(
    409, schema=shape(ProblemDetails), content_type=PROBLEM_TYPE, description="There is no plan yet"
)
def get_calendar(plan_id: UUID) -> Response:
    """The sessions and waits of a plan for a calendar, with alarms."""
    return _calendar(_kept(str(plan_id)))


def _calendar(kept: KeptPlan | None) -> Response:
    plan = kept["plan"] if kept else None
    if kept is None or plan is None or not plan["steps"]:
        raise Problem(409, words.say("api-plans-no-calendar", request="POST /api/v1/plans"))
    several = len(kept["parts"]) > 1  # then it is said which
    titles = {
        part["run"]: part.get("name", part["title"]) if several else part["title"] for part in kept["parts"]
    }
    text = calendar(kept["id"], kept["made_at"] or kept["at"], plan, titles)
    response = Response(text, content_type=f"{MIME}; charset=utf-8", headers=[*DATA])
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Content-Disposition"] = 'inline; filename="bench.ics"'
    return response


def _planner() -> Planner:
    planner: Planner = current_app.extensions[EXTENSION]
    return planner


def _check(asked: Asked, at: int) -> None:
    """Raise for what can never be planned, before any work is done."""
    with reading() as connection:
        missing = set(asked["runs"]) - known_runs(connection, asked["runs"])
        if missing:
            places = [asked["runs"].index(run) for run in sorted(missing)]
            raise Problem(
                422,
                words.say("api-plans-not-here"),
                errors=[(f"runs.{place}", words.say("api-plans-no-such-batch")) for place in places],
            )
        for run, instant in asked.get("due", {}).items():
            if run not in asked["runs"]:
                raise bench.PlanError(f"due.{run}", words.say("api-plans-not-in-plan"))
            _check_instant(f"due.{run}", instant, at)
        if asked["aim"] == "ready_by" and asked["ready_by"] is None:
            raise bench.PlanError("ready_by", words.say("api-plans-say-when"))
        if asked["ready_by"] is not None:
            _check_instant("ready_by", asked["ready_by"], at)
        Reading(connection, asked).problem(asked, {}, at)


def _check_instant(field: str, instant: int, at: int) -> None:
    if instant <= at:
        raise bench.PlanError(field, words.say("api-plans-past"))
    if instant > at + MAX_AHEAD_MS:
        raise bench.PlanError(field, words.say("api-plans-too-far", count=MAX_AHEAD_MS // DAY_MS))


def _add(asked: Asked, at: int) -> str:
    plan_id, by = str(uuid4()), gate.sender_id()
    if by:
        asked = {**asked, "by": by}
    with writing(alone=False) as connection:
        _refuse_too_many(connection, at, by)
        connection.execute(
            insert(Plan).values(
                id=plan_id, asked=canonical(asked), asked_at=at, state="working", beat_at=at, cancelled=False
            )
        )
        # What is not begun yet is only asked about: the runs keep the plan that they follow.
        follow = [] if asked["recipes"] else asked["runs"]
        former = select(PlannedRun.plan_id).where(PlannedRun.run_id.in_(follow))
        connection.execute(update(Plan).where(Plan.id.in_(former)).values(cancelled=True))
        # What was left out of it is given a plan of its own when it is asked for.
        left = (PlannedRun.plan_id.in_(former)) & (PlannedRun.run_id.in_(asked.get("out", [])))
        connection.execute(delete(PlannedRun).where(left))
        for run in follow:
            connection.execute(delete(PlannedRun).where(PlannedRun.run_id == run))
            connection.execute(insert(PlannedRun).values(run_id=run, plan_id=plan_id))
        drop_old(connection, at)
    return plan_id


def _in_hand(connection: Connection, at: int) -> list[Asked]:
    """What was asked of each plan that somebody is at, in any process, or that waits for its turn."""
    working = (Plan.state == "working") & (Plan.beat_at >= at - SILENT_MS)
    return [json.loads(asked) for asked in connection.execute(select(Plan.asked).where(working)).scalars()]


def _refuse_too_many(connection: Connection, at: int, by: str | None) -> None:
    in_hand = _in_hand(connection, at)
    of_one = sum(asked.get("by") == by for asked in in_hand) if by else 0
    if of_one >= MAX_OF_ONE:
        budgets.refuse("plans-at-once", AGAIN_S, of_one)
    if len(in_hand) >= MAX_IN_HAND:
        raise Problem(
            429,
            words.say("api-plans-too-many", count=len(in_hand), length=f"{AGAIN_S} s"),
            headers={"Retry-After": str(AGAIN_S)},
        )


def _take_up(plan_id: str) -> bool:
    """Whether this plan is to be made anew, and by us: the day has moved, and nobody is at it."""
    with reading() as connection:
        row = _row(connection, plan_id)
        if len(_in_hand(connection, now_ms())) >= MAX_IN_HAND:
            return False
        if row.state != "working" and _behind(connection, row) == 0:
            return False
    at = now_ms()
    # After a clock was set back, a word from what is then the future is no word either.
    spoke = Plan.beat_at.between(at - SILENT_MS, at + SILENT_MS)
    idle = or_(Plan.state != "working", not_(spoke))
    with writing(alone=False) as connection:
        taken = connection.execute(
            update(Plan)
            .where(and_(Plan.id == plan_id, idle))
            .values(state="working", beat_at=at, cancelled=False, progress=None, fault=None)
        )
    return bool(taken.rowcount)


def _row(connection: Connection, plan_id: str) -> PlanRow:
    columns = (Plan.asked, Plan.asked_at, Plan.state, Plan.beat_at, Plan.progress, Plan.fault, Plan.made)
    row = connection.execute(select(*columns).where(Plan.id == plan_id)).one_or_none()
    return PlanRow(*row) if row is not None else not_found("plan", "/api/v1/runs/{id}/plan")


def _behind(connection: Connection, row: PlanRow) -> int:
    """How many entries came since the plan was made; changed hours count as one."""
    if row.made is None:
        return int(row.state == "refused")
    made: Made = json.loads(row.made)
    now = reaches(connection, json.loads(row.asked)["runs"])
    entries = sum(now[run] - made["reach"].get(run, 0) for run in now)
    return entries + int(HOURS.now(connection).version != made["hours"])


def _kept(plan_id: str) -> KeptPlan:
    at = now_ms()
    with reading() as connection:
        row = _row(connection, plan_id)
        behind = _behind(connection, row)
    state: PlanState = row.state
    fault = _fault_said(row.fault)
    if state == "working" and abs(at - row.beat_at) > SILENT_MS:
        state = "made" if row.made else "refused"
        fault = None if row.made else _fault_said('{"field": "", "code": "stopped-server"}')
    asked: Asked = json.loads(row.asked)
    made = _in_words(json.loads(row.made)) if row.made else None
    progress: PlanProgress | None = json.loads(row.progress) if row.progress and state == "working" else None
    return {
        "id": plan_id,
        "at": at,
        "state": state,
        "asked_at": row.asked_at,
        "aim": asked["aim"],
        "ready_by": asked["ready_by"],
        "runs": asked["runs"],
        "due": _due_of(asked, made),
        "out": asked.get("out", []),
        "limit": MAX_S,
        "parts": made["parts"] if made else [],
        "progress": {**progress, "share": progress["share"] / 1000} if progress else None,
        "fault": fault,
        "made_at": made["made_at"] if made else None,
        "age_ms": max(0, at - made["made_at"]) if made else None,
        "behind": behind,
        "plan": made["plan"] if made else None,
        "hands_ms": made["hands_ms"] if made else {},
        "savings": savings_said(made) if made else [],
        "says": _in_a_line(made["plan"], asked["aim"]) if made else words.say("api-plans-none-yet"),
    }


def _fault_said(kept: str | None) -> PlanFault | None:
    """Why a plan was refused: kept as a code, or in the words of the language that it was asked in."""
    fault = json.loads(kept) if kept else None
    if fault is None:
        return None
    code = fault.get("code") or ("" if fault.get("spoken", words.DEFAULT) == words.spoken() else "refused")
    return {
        "field": fault["field"],
        "detail": words.say(f"api-plans-fault-{code}") if code else fault["detail"],
    }


def _in_words(made: Made) -> Made:
    """A plan as it is kept, in the language of this request."""
    return {**made, "plan": bench.plan_in_words(made["plan"])}


def _due_of(asked: Asked, made: Made | None) -> list[RunDue]:
    """When each run is to be ready, its latest start, or why not."""
    if made is None:
        return []
    plan = made["plan"]
    if "due" in plan:
        return plan["due"]
    keeps = plan["aim"] == asked["aim"] and plan["status"] in ("proven", "found")
    why = "" if keeps else plan["reasons"][0]["says"] if plan["reasons"] else words.say("api-plans-begun")
    begins = plan["begins_at"] if keeps else None
    return [
        {"run": run, "ready_by": instant, "begins_at": begins, "why": why}
        for run, instant in due_of(asked).items()
    ]


def _in_a_line(plan: PlanMade, asked: str) -> str:
    """How good the plan is known to be, and whether it is what was asked: once begun, there is always a plan."""
    if plan["reasons"]:
        return plan["reasons"][0]["says"]
    if asked != plan["aim"]:
        return f"{words.say('api-plans-not-by-then')} {_in_a_line(plan, plan['aim'])}"
    if plan["broken"]:
        sure = "proven" if plan["status"] == "proven" else "found"
        missed = words.say("api-plans-missed", count=len(plan["broken"]))
        return f"{missed} {words.say(f'api-plans-missed-{sure}')}"
    says = words.say(f"api-plans-order-{_how_good(plan)}")
    return f"{says} {words.say('api-plans-cut-short')}" if plan["cancelled"] else says


def _how_good(plan: PlanMade) -> str:
    """How the message ends that says it."""
    status = plan["status"]
    if status == "proven":
        return "latest-start" if plan["aim"] == "ready_by" else "soonest"
    if status == "found":
        return "by-rule" if plan["by"] == "rule" else "best-found"
    return status
