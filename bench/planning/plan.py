"""Making a plan, and making it again while the day goes on."""

from collections.abc import Callable

from bench.errors import PlanError
from bench.planning import solver
from bench.planning.aims import Aims, Placed
from bench.planning.as_written import as_written
from bench.planning.by_rule import STEADY_MS, as_late, best_layout, keeps_all
from bench.planning.check import check, circle
from bench.planning.foresight import with_who_stayed
from bench.planning.grid import Grid, Impossible
from bench.planning.layout import Day, Layout
from bench.planning.reasons import clash, in_a_circle, only_later, too_long
from bench.planning.result import Written, broken_gaps, write
from bench.planning.slack import tidy
from bench.shapes.planning import (
    AimName,
    BrokenGap,
    Plan,
    PlanAim,
    PlanAimName,
    PlannedBy,
    PlanReason,
    PlanStatus,
    Problem,
    Progress,
    Task,
    TaskProgress,
)
from bench.words import say

WORK = 20.0  # the solver's own seconds; on a usual machine about as many of the clock's
AIMS = ("finish", "ready_by")


def plan(
    problem: Problem,
    *,
    aim: PlanAimName = "finish",
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[Progress], None] | None = None,
    changes: bool = True,
) -> Plan:
    """The best order found for a problem, and how good it is known to be.

    aim: "finish" is done earliest; "ready_by" begins as late as problem["ready_by"] allows. budget: the
    solver's own seconds over all aims. cancelled is asked about twenty times a second; on True the best
    so far is given. progress hears of the first usable plan, and of each that is better.
    PlanError for a fault of the input; a day that cannot be done has status "impossible" and reasons.
    """
    if aim not in AIMS:
        raise PlanError("aim", say("planning-aim", aims=", ".join(AIMS)))
    if aim == "ready_by" and problem.get("ready_by") is None:
        raise PlanError("ready_by", say("planning-say-when"))

    def planned(day: Problem) -> Plan:
        now = day["since"]
        check(day, now)
        work = solver.Work(budget, cancelled, progress)
        return _Planner(Day(day, now), aim, work, changes).result()

    made = planned(problem)
    natural = any(gap["why"] == "keeps" for gap in problem["gaps"])
    if made["status"] == "impossible" and natural and problem.get("ready_by") is None:
        # What only common practice asks for makes no day impossible: it is planned without, and said.
        own: Problem = {**problem, "gaps": [gap for gap in problem["gaps"] if gap["why"] != "keeps"]}
        other = planned(own)
        if other["status"] in ("proven", "found"):
            return {**other, "broken": _broken_by(problem, other)}
    return made


def replan(
    problem: Problem,
    before: Plan | None,
    now: int,
    *,
    done: dict[str, TaskProgress] | None = None,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[Progress], None] | None = None,
) -> Plan:
    """The plan from now on. What is done is history, what hands are on stays where it is.

    before: the plan that was followed; its order is kept where a better one would gain little. done:
    task id -> what has changed of how far it has come, for a problem that was made before it happened. Gaps
    with a most are soft now: when not all can be kept, no state is ruined that need not be, then the least is
    paid for bringing back, then the fewest windows of quality are missed (`price.py`), and `broken` says which.
    There is always a plan while hours are left that each step fits into; else the status is "impossible",
    with the reasons.
    """
    tasks = [_as_it_stands(task, done or {}) for task in problem["tasks"]]
    problem = {**problem, "tasks": tasks, "since": now, "ready_by": None}
    check(problem, now)
    # Who opened a state outside the hours is at the bench: the plan goes on with it, as the bench does.
    order = order_of(before) if before else []
    work = solver.Work(budget, cancelled, progress)
    return _Planner(with_who_stayed(Day(problem, now), order), "finish", work, False, before).result()


def _as_it_stands(task: Task, done: dict[str, TaskProgress]) -> Task:
    return {**task, **done[task["id"]]} if task["id"] in done else task


def order_of(made: Plan) -> list[str]:
    """The hands-on steps of a plan in their order, as ids."""
    return [task["id"] for task in made["steps"] if task["kind"] != "wait"]


class _Planner:
    def __init__(
        self, day: Day, aim: PlanAimName, work: solver.Work, changes: bool, before: Plan | None = None
    ) -> None:
        self.day = day
        self.grid = Grid(day)
        self.aim = aim
        self.work = work
        self.before = None if before is None else order_of(before)
        planned = {} if before is None else {step["id"]: step["starts_at"] for step in before["steps"]}
        self.planned = {  # when the plan before would begin each step that is still open
            index: planned[day.tasks[index]["id"]]
            for index in day.open
            if day.hands[index] and day.tasks[index]["id"] in planned
        }
        self.live = before is not None or any(task["status"] != "open" for task in day.tasks)
        self.aims = Aims(self.grid, work, self.before, changes and len(day.hours) == 1)
        self.loosened = False
        self.bound: int | None = None

    def result(self) -> Plan:
        if not self.day.open:
            return self._written("proven", "rule", ({}, {}))
        around = circle(self.day.problem)
        if around:
            return self._refused("rule", [in_a_circle(self.day, around)])
        rule = self._by_rule()
        if rule and keeps_all(rule):
            self.work.progress({"aim": "usable", "plan": self._of(rule)})
        try:
            self._find_bound(rule)
        except Impossible as error:
            return self._without_all(rule, error)
        if rule and self._keeps_order(rule):
            return self._of(rule)
        if not solver.available() or self.work.out():
            return self._of(rule) if rule and (self.live or keeps_all(rule)) else self._unknown(rule)
        return self._solved(rule)

    def _by_rule(self) -> Layout | None:
        """With a ready-by, begun as late as it can be."""
        best = best_layout(self.day, self.before, self.planned)
        ready_by = self.day.problem.get("ready_by")
        return as_late(best, ready_by) if best and self.aim == "ready_by" and ready_by is not None else best

    def _loosen(self) -> None:
        """Let hands leave a state that does not keep: there is no other way to keep what must be kept."""
        self.day.loosened()
        self.loosened = True

    def _find_bound(self, rule: Layout | None) -> None:
        """The finish nothing beats. Impossible when gaps and hours alone leave no room."""
        grid = self.grid
        most = grid.up(rule.finish) if rule and keeps_all(rule) else grid.horizon
        self.bound = grid.bound(most)
        if grid.ready_by is not None:
            if self.bound > grid.ready_by:
                raise Impossible(grid.open[-1], [])
            first, last = grid.earliest(), grid.latest(grid.ready_by)
            for index in grid.open:
                if first[index] > last[index]:
                    raise Impossible(index, [])

    def _keeps_order(self, rule: Layout) -> bool:
        """Whether the plan before, put later where it must be, is still good enough to be left alone."""
        if self.before is None or not keeps_all(rule) or self.bound is None:
            return False
        kept = all(
            rule.least.get(index, 0) >= at for index, at in self.planned.items()
        ) and rule.order == self.day.by_need(self.before)
        return kept and rule.finish <= self.grid.ms(self.bound) + STEADY_MS

    # Where there is no plan that keeps all

    def _without_all(self, rule: Layout | None, error: Impossible) -> Plan:
        """Live, the least broken of what can be; else the reason why there is no plan."""
        if self.live and not (solver.available() and not self.work.out()):
            return self._of(rule) if rule else self._unknown(rule)
        if self.live:
            return self._least_broken(rule, error)
        return self._impossible(error)

    def _impossible(self, error: Impossible | None) -> Plan:
        late = too_long(self.grid) or self._only_later()
        return self._refused("rule" if error else "solver", late or [clash(self.grid, error, self.work)])

    def _only_later(self) -> list[PlanReason]:
        ready_by = self.day.problem.get("ready_by")
        if ready_by is None:
            return []
        late = only_later(self.day, ready_by, plan({**self.day.problem, "ready_by": None}, changes=False))
        return [late] if late else []

    def _refused(self, by: PlannedBy, reasons: list[PlanReason]) -> Plan:
        return {**self._written("impossible", by, ({}, {})), "reasons": reasons}

    def _unknown(self, rule: Layout | None) -> Plan:
        """Nothing found that keeps every rule, and nothing proven either."""
        made = self._of(rule) if rule else self._written("unknown", "rule", ({}, {}))
        return {**made, "status": "unknown"}

    def _least_broken(self, rule: Layout | None, error: Impossible | None = None) -> Plan:
        """What costs least. Impossible all the same is a step that is longer than any bench hours: being late
        makes no room for it."""
        try:
            answer, last = self.aims.least_broken(_units(self.grid, rule))
        except Impossible as unfit:
            if not self.day.blocks:
                return self._impossible(unfit)
            self._loosen()
            return self._least_broken(rule, error)
        if answer.starts:
            status: PlanStatus = "proven" if answer.status == "proven" else "found"
            return self._written(status, "solver", (answer.starts, answer.makers))
        if self.day.blocks and last == "impossible":
            self._loosen()
            return self._least_broken(rule, error)
        if rule:
            return self._of(rule)
        return self._impossible(error) if last == "impossible" else self._unknown(rule)

    # By the solver

    def _solved(self, rule: Layout | None) -> Plan:
        usable = rule if rule and keeps_all(rule) else None
        placed = _units(self.grid, usable)
        answer, finish = self._first(usable, placed)
        if answer.status == "impossible" and self.day.blocks:
            self._loosen()  # hands cannot stay on every part all through; what must follow when still holds
            return self._solved(rule)
        if answer.status == "impossible":
            return self._least_broken(rule) if self.live else self._impossible(None)
        if answer.status == "unknown":
            return self._of(rule) if rule and (usable or self.live) else self._unknown(rule)
        by: PlannedBy = "solver" if answer.starts else "rule"
        if answer.starts:
            placed = answer.starts, answer.makers
        if self.aim == "finish" and self.bound is not None:
            finish = answer.values["finish"]
            answer.bounds["finish"] = max(self.bound, answer.bounds["finish"])
        first: AimName = "start" if self.aim == "ready_by" else "finish"
        self.aims.note(first, answer)
        placed = self.aims.tidier(finish, answer.values.get("start"), placed)
        return self._written("proven" if answer.proven(first) else "found", by, placed)

    def _first(self, usable: Layout | None, placed: Placed) -> tuple[solver.Answer, int | None]:
        """The answer to the first aim, and what all must end by."""
        grid = self.grid
        if self.aim == "ready_by" and grid.ready_by is not None:
            return self.aims.latest_start(grid.ready_by, placed), grid.ready_by
        finish = grid.up(usable.finish) if usable else None
        if finish is not None and finish == self.bound:
            return solver.Answer("proven", *placed, {"finish": finish}, {"finish": finish}), finish
        return self.aims.soonest(self.bound or grid.now, finish, placed), finish

    # The plan as it is written down

    def _of(self, rule: Layout) -> Plan:
        """A layout as a plan."""
        bound = self.grid.ms(self.bound) if self.bound is not None else None
        proven = self.aim == "finish" and not rule.broken and bound is not None and rule.finish <= bound
        written = write(
            self.day,
            {index: rule.start[index] or 0 for index in self.day.open},
            {index: rule.maker[index] or 0 for index in self.day.open if self.day.hands[index]},
            None,
        )
        aims: list[PlanAim] = [{"aim": "finish", "value": rule.finish, "bound": bound, "proven": proven}]
        return self._plan(written, "proven" if proven else "found", "rule", aims)

    def _written(self, status: PlanStatus, by: PlannedBy, placed: Placed) -> Plan:
        """What the solver found as a plan, every step as early as its order and session allow."""
        grid = self.grid
        starts, found = placed
        makers = {index: found.get(index, 0) for index in starts if grid.hands[index]}
        if self.before is None:  # else the plan before is what shall not be moved
            starts = as_written(grid, starts, makers)
        early, late = tidy(grid, starts, makers) if starts else ({}, {})
        at = {index: grid.ms(unit) for index, unit in early.items()}
        slack = {index: (late[index] - early[index]) * grid.unit for index in early}
        return self._plan(write(self.day, at, makers, slack), status, by, self.aims.reached)

    def _plan(self, written: Written, status: PlanStatus, by: PlannedBy, aims: list[PlanAim]) -> Plan:
        return {
            "status": status,
            "by": by,
            "aim": self.aim,
            "since": self.day.now,
            "ready_by": self.day.problem.get("ready_by"),
            "cancelled": self.work.cancelled(),
            "stays": not self.loosened,
            "bound_at": self.grid.ms(self.bound) if self.bound is not None else None,
            "aims": aims,
            "reasons": [],
            "begins_at": written.begins_at,
            "finish_at": written.finish_at,
            "steps": written.steps,
            "sessions": written.sessions,
            "broken": written.broken,
        }


def _units(grid: Grid, layout: Layout | None) -> Placed:
    """A layout's starts and makers for the solver."""
    if layout is None:
        return {}, {}
    starts = {index: grid.up(layout.start[index] or 0) for index in grid.open}
    return starts, {index: layout.maker[index] or 0 for index in grid.open if grid.hands[index]}


def _broken_by(problem: Problem, made: Plan) -> list[BrokenGap]:
    """The gaps of a problem that a plan made without some of them does not keep."""
    day = Day(problem, made["since"])
    ends = {day.number[step["id"]]: step["ends_at"] for step in made["steps"]}
    starts = {day.number[step["id"]]: step["starts_at"] for step in made["steps"] if step["status"] == "open"}
    return list(broken_gaps(day, starts, ends))
