"""Making a plan, and making it again while the day goes on."""

from collections.abc import Callable, Iterable
from typing import Any

from bench.errors import PlanError
from bench.planning import solver
from bench.planning.as_written import as_written
from bench.planning.check import check, circle
from bench.planning.grid import Grid, Impossible
from bench.planning.layout import Day, Layout
from bench.planning.reasons import in_a_circle, why_impossible, why_now
from bench.planning.slack import tidy

Json = Any  # until its shape is named

WORK = 20.0  # the solver's own seconds; on a usual machine about as many of the clock's
STEADY_MS = 10 * 60_000  # a day is not reshuffled for less than this
AIMS = ("finish", "ready_by")
_QUICK_SHARE = 0.2  # of that without the linear relaxation, which finds sooner and proves later
_SPAN_SHARE = 0.1  # and so much on the span, at first
_FIRST_SHARE = 0.7  # of the work goes to the first aim at most, so that something is left for the others
_CHANGES_WORK = 0.3  # changes of part come last and are seldom proven: no more work than this on them
_ATTEMPTS = 14  # to find the latest start of a day laid out by the rule, by halving


def plan(
    problem: Json,
    *,
    aim: str = "finish",
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[Json], None] | None = None,
    changes: bool = True,
) -> Json:
    """The best order found for a problem, and how good it is known to be. Shapes: `bench/planning`.

    aim: "finish" is done earliest; "ready_by" begins as late as problem["ready_by"] allows. budget: the
    solver's own seconds over all aims. cancelled is asked about twenty times a second; on True the best
    so far is given. progress gets {"aim", "value", "work"}, and first {"aim": "usable", "plan"}.
    PlanError for a fault of the input; a day that cannot be done has status "impossible" and reasons.
    """
    made = _plan(problem, aim, budget, cancelled, progress, changes)
    natural = any(gap["why"] == "keeps" for gap in problem["gaps"])
    if made["status"] == "impossible" and natural and problem.get("ready_by") is None:
        # What only common practice asks for makes no day impossible: it is planned without, and said.
        own = {**problem, "gaps": [gap for gap in problem["gaps"] if gap["why"] != "keeps"]}
        other = _plan(own, aim, budget, cancelled, progress, changes)
        if other["status"] in ("proven", "found"):
            return {**other, "broken": _broken_by(problem, other)}
    return made


def _plan(
    problem: Json,
    aim: str,
    budget: float,
    cancelled: Callable[[], bool] | None,
    progress: Callable[[Json], None] | None,
    changes: bool,
) -> Json:
    if aim not in AIMS:
        raise PlanError("aim", f"A plan aims at {' or '.join(AIMS)}.")
    if aim == "ready_by" and problem.get("ready_by") is None:
        raise PlanError("ready_by", "Say when it must be ready.")
    now = problem["since"]
    check(problem, now)
    day = Day(problem, now)
    work = solver.Work(budget, cancelled, progress)
    return _Planner(day, aim, work, changes).made()


def replan(
    problem: Json,
    before: Json | None,
    now: int,
    *,
    done: dict[str, Json] | None = None,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[Json], None] | None = None,
) -> Json:
    """The plan from now on. What is done is history, what hands are on stays where it is.

    before: the plan that was followed; its order is kept where a better one would gain little. done:
    task id -> what has changed of its {"status", "began_at", "ended_at", "left_ms"}, for a problem that
    was made before it happened. Gaps with a most are soft now: when not all can be kept, no state is ruined
    that need not be, then the least is paid for bringing back, then the fewest windows of quality are missed
    (`price.py`), and `broken` says which. There is always a plan while hours are left that each step fits
    into; else the status is "impossible", with the reasons.
    """
    if done:
        tasks = [{**task, **done.get(task["id"], {})} for task in problem["tasks"]]
        problem = {**problem, "tasks": tasks}
    problem = {**problem, "since": now, "ready_by": None}
    check(problem, now)
    day = Day(problem, now)
    work = solver.Work(budget, cancelled, progress)
    return _Planner(day, "finish", work, False, before).made()


def order_of(made: Json) -> list[str]:
    """The hands-on steps of a plan in their order, as ids."""
    return [step["id"] for step in made["steps"] if step["kind"] != "wait"]


class _Planner:
    def __init__(
        self, day: Day, aim: str, work: solver.Work, changes: bool, before: Json | None = None
    ) -> None:
        self.day = day
        self.grid = Grid(day)
        self.aim = aim
        self.work = work
        self.changes = changes and len(day.hours) == 1
        self.before = None if before is None else order_of(before)
        planned = {} if before is None else {step["id"]: step["starts_at"] for step in before["steps"]}
        self.planned = {  # when the plan before would begin each step that is still open
            index: planned[day.tasks[index]["id"]]
            for index in day.open
            if day.hands[index] and day.tasks[index]["id"] in planned
        }
        self.live = before is not None or any(task["status"] != "open" for task in day.tasks)
        self.aims: list[Json] = []
        self.loosened = False
        self.bound: int | None = None

    def made(self) -> Json:
        if not self.day.open:
            return self._told("proven", "rule", {}, {})
        around = circle(self.day.problem)
        if around:
            return {**self._told("impossible", "rule", {}, {}), "reasons": [in_a_circle(self.day, around)]}
        rule = self._by_rule()
        if rule and self._keeps_all(rule):
            self.work.progress({"aim": "usable", "plan": self._of(rule)})
        try:
            self._find_bound(rule)
        except Impossible as error:
            return self._without_all(rule, error)
        if self._keeps_order(rule):
            assert rule is not None
            return self._of(rule)
        if not solver.available() or self.work.out():
            return self._of(rule) if rule and (self.live or self._keeps_all(rule)) else self._unknown(rule)
        return self._solved(rule)

    def _loosen(self) -> None:
        """Let hands leave a state that does not keep: there is no other way to keep what must be kept."""
        self.day.loosened()
        self.loosened = True

    def _keeps_all(self, layout: Layout) -> bool:
        ready_by = self.day.problem.get("ready_by")
        return layout.placed and not layout.broken and (ready_by is None or layout.finish <= ready_by)

    # By the rule, without the solver

    def _by_rule(self) -> Layout | None:
        """The best of a few layouts; with a ready-by, begun as late as it can be."""
        orders: list[list[str]] = [[], self.day.latest_finish_first()]  # as written, when that is as good
        if self.before is not None:
            orders.insert(0, self.before)
        made = [Layout(self.day, self.day.by_need(order)) for order in orders]
        if self.before is not None:
            made.insert(0, Layout(self.day, made[0].order, not_before=self.planned))
        placed = [layout for layout in made if layout.placed]
        if not placed:
            return None
        if self.before is not None and self._keeps_all(made[0]):
            soonest = min(layout.finish for layout in placed if not layout.broken)
            if made[0].finish <= soonest + STEADY_MS:
                return made[0]
        best = min(placed, key=lambda layout: (layout.price, layout.finish))
        return self._as_late(best) if self.aim == "ready_by" else best

    def _as_late(self, layout: Layout) -> Layout | None:
        """The layout begun as late as its finish still keeps the ready-by; None when it never does."""
        ready_by = self.day.problem["ready_by"]
        if layout.finish > ready_by:
            return None
        low, high = self.day.now, ready_by
        for _ in range(_ATTEMPTS):
            middle = (low + high) // 2
            later = Layout(
                self.day,
                layout.order,
                not_before={index: middle for index in self.day.open if self.day.hands[index]},
            )
            if later.placed and later.finish <= ready_by and later.price <= layout.price:
                low, layout = middle, later
            else:
                high = middle
        return layout

    def _find_bound(self, rule: Layout | None) -> None:
        """The finish nothing beats. Impossible when gaps and hours alone leave no room."""
        grid = self.grid
        most = grid.up(rule.finish) if rule and self._keeps_all(rule) else grid.horizon
        self.bound = grid.bound(most)
        if grid.ready_by is not None:
            if self.bound > grid.ready_by:
                raise Impossible(grid.open[-1], [])
            first, last = grid.earliest(), grid.latest(grid.ready_by)
            for index in grid.open:
                if first[index] > last[index]:
                    raise Impossible(index, [])

    def _keeps_order(self, rule: Layout | None) -> bool:
        """Whether the plan before, put later where it must be, is still good enough to be left alone."""
        if self.before is None or rule is None or not self._keeps_all(rule) or self.bound is None:
            return False
        kept = all(
            rule.least.get(index, 0) >= at for index, at in self.planned.items()
        ) and rule.order == self.day.by_need(self.before)
        return kept and rule.finish <= self.grid.ms(self.bound) + STEADY_MS

    def _without_all(self, rule: Layout | None, error: Impossible) -> Json:
        """Live, the least broken of what can be; else the reason why there is no plan."""
        if self.live and not (solver.available() and not self.work.out()):
            return self._of(rule) if rule else self._unknown(rule)
        if self.live:
            return self._least_broken(rule, error)
        return self._impossible(error)

    def _impossible(self, error: Impossible | None) -> Json:
        told = self._told("impossible", "rule" if error else "solver", {}, {})
        told["reasons"] = why_impossible(self.grid, error, self.work)
        return told

    def _unknown(self, rule: Layout | None) -> Json:
        """Nothing found that keeps every rule, and nothing proven either."""
        told = self._of(rule) if rule else self._told("unknown", "rule", {}, {})
        return {**told, "status": "unknown"}

    # By the solver

    def _solved(self, rule: Layout | None) -> Json:
        grid = self.grid
        usable = rule if rule and self._keeps_all(rule) else None
        starts, makers = _units(grid, usable)
        by, share = "rule", self.work.whole * _FIRST_SHARE
        if self.aim == "ready_by":
            finish = grid.ready_by
            assert finish is not None
            model = solver.Model(grid, finish=finish)
            model.hint(starts, makers)
            answer = model.best("start", model.begin_var(), self.work, least=False, most=share)
        else:
            finish = grid.up(usable.finish) if usable else None
            if finish is not None and finish == self.bound:
                answer = solver.Answer("proven", starts, makers, {"finish": finish}, {"finish": finish})
            else:
                answer = self._soonest(finish, starts, makers, share)
        if answer.status == "impossible" and self.day.blocks:
            self._loosen()  # hands cannot stay on every part all through; what must follow when still holds
            return self._solved(rule)
        if answer.status == "impossible":
            return self._least_broken(rule) if self.live else self._impossible(None)
        if answer.status == "unknown":
            return self._of(rule) if rule and (usable or self.live) else self._unknown(rule)
        if answer.starts:
            starts, makers, by = answer.starts, answer.makers, "solver"
        first = "start" if self.aim == "ready_by" else "finish"
        if first == "finish":
            assert self.bound is not None
            finish = answer.values["finish"]
            answer.bounds["finish"] = max(self.bound, answer.bounds["finish"])
        self._note(first, answer, ms=True)
        begin = answer.values.get("start")
        starts, makers = self._tidier(finish, begin, starts, makers)
        return self._told("proven" if answer.proven(first) else "found", by, starts, makers)

    def _soonest(
        self, finish: int | None, starts: dict[int, int], makers: dict[int, int], share: float
    ) -> solver.Answer:
        """The soonest finish: found without much thought, then, where that leaves a doubt, thought through."""
        assert self.bound is not None
        quick = solver.Model(self.grid, finish=finish)
        quick.hint(starts, makers)
        quick.quickly()
        answer = quick.best("finish", quick.finish_var(self.bound), self.work, most=share * _QUICK_SHARE)
        if answer.status in ("proven", "impossible") or self.work.out():
            return answer
        if answer.starts:
            finish, starts, makers = answer.values["finish"], answer.starts, answer.makers
        thorough = solver.Model(self.grid, finish=finish)
        thorough.hint(starts, makers)
        if any(self.grid.hands[index] for index in self.grid.open):
            thorough.sessions()
            thorough.thoroughly()
        other = thorough.best(
            "finish", thorough.finish_var(self.bound), self.work, most=share * (1 - _QUICK_SHARE)
        )
        if not other.starts and answer.starts:
            return answer
        return other

    def _tidier(
        self, finish: int | None, begin: int | None, starts: dict[int, int], makers: dict[int, int]
    ) -> tuple[dict[int, int], dict[int, int]]:
        """The aims after the first, each with those before it kept."""
        if not any(self.grid.hands[index] for index in starts):
            return starts, makers
        known: dict[str, int | None] = {"sessions": None, "span": None}
        aims = ["sessions", "moved"] if self.before is not None else ["sessions", "span", "changes"]
        if self.before is None and (not self.changes or len(starts) > solver.MOST_CIRCUIT):
            aims.remove("changes")

        def best(aim: str, most: float, quick: bool = False) -> solver.Answer:
            model = solver.Model(self.grid, finish=finish)
            model.hint(starts, makers)
            if quick:
                model.quickly()
            if begin is not None:
                model.model.add(model.begin_var() >= begin)
            count, span = model.sessions(known["sessions"], known["span"])
            if aim == "changes":
                objective = model.changes()
            elif aim == "moved":
                objective = model.moved(
                    [i for i in self.day.by_need(self.before or []) if self.grid.hands[i]]
                )
            else:
                objective = {"sessions": count, "span": span}[aim]
            return model.best(aim, objective, self.work, most=most)

        for aim in aims:
            if self.work.out():
                break
            answer = solver.Answer("unknown")
            if aim == "span" and len(self.day.hours) == 1:  # soon found where hands need not wait
                answer = best(aim, self.work.whole * _SPAN_SHARE, quick=True)
                if answer.starts:
                    starts, makers = answer.starts, answer.makers
            if not answer.proven(aim) and not self.work.out():
                other = best(aim, _CHANGES_WORK if aim == "changes" else 1e9)
                answer = other if other.starts else answer
            if not answer.starts:
                break
            starts, makers = answer.starts, answer.makers
            if aim in known:
                known[aim] = answer.values[aim]
            self._note(aim, answer, ms=False)
        return starts, makers

    def _least_broken(self, rule: Layout | None, error: Impossible | None = None) -> Json:
        """Not every gap can be kept any more: what costs least, in the order of `price.py`, then the end.

        Impossible all the same is a step that is longer than any bench hours: being late makes no room for it.
        """
        answer, found = solver.Answer("unknown"), solver.Answer("unknown")
        starts, makers = _units(self.grid, rule)
        known: list[int] = []
        for aim in ("unkept", "share", "finish"):
            try:
                model = solver.Model(self.grid, soft=True)
            except Impossible as unfit:
                if self.day.blocks:
                    self._loosen()
                    return self._least_broken(rule, error)
                return self._impossible(unfit)
            model.hint(starts, makers)
            sums = [model.unkept(), sum(model.share)]
            for value, total in zip(known, sums, strict=False):
                model.model.add(total <= value)
            objective = model.finish_var() if aim == "finish" else sums[len(known)]
            found = model.best(aim, objective, self.work)
            if not found.starts:
                break
            answer = found
            starts, makers = found.starts, found.makers
            if aim != "finish":
                known.append(found.values[aim])
            self._note(aim, found, ms=aim == "finish")
        if not answer.starts and self.day.blocks and found.status == "impossible":
            self._loosen()
            return self._least_broken(rule, error)
        if not answer.starts and rule:
            return self._of(rule)
        if not answer.starts:
            return self._impossible(error) if found.status == "impossible" else self._unknown(rule)
        return self._told("proven" if answer.status == "proven" else "found", "solver", starts, makers)

    def _note(self, aim: str, answer: solver.Answer, ms: bool) -> None:
        value, bound = answer.values[aim], answer.bounds[aim]
        if ms:
            value, bound = self.grid.ms(value), self.grid.ms(bound)
        elif aim == "span":
            value, bound = value * self.grid.unit, bound * self.grid.unit
        self.aims.append({"aim": aim, "value": value, "bound": bound, "proven": answer.proven(aim)})

    # The plan as told

    def _of(self, rule: Layout) -> Json:
        """A layout as a plan."""
        bound = self.grid.ms(self.bound) if self.bound is not None else None
        proven = self.aim == "finish" and not rule.broken and bound is not None and rule.finish <= bound
        aims = [{"aim": "finish", "value": rule.finish, "bound": bound, "proven": proven}]
        told = _told(
            self.day,
            {index: rule.start[index] or 0 for index in self.day.open},
            {index: rule.maker[index] or 0 for index in self.day.open if self.day.hands[index]},
            None,
        )
        return self._headed(told, "proven" if proven else "found", "rule", aims)

    def _told(self, status: str, by: str, starts: dict[int, int], makers: dict[int, int]) -> Json:
        """What the solver found as a plan, every step as early as its order and session allow."""
        grid = self.grid
        makers = {index: makers.get(index, 0) for index in starts if grid.hands[index]}
        if self.before is None:  # else the plan before is what shall not be moved
            starts = as_written(grid, starts, makers)
        early, late = tidy(grid, starts, makers) if starts else ({}, {})
        at = {index: grid.ms(unit) for index, unit in early.items()}
        slack = {index: (late[index] - early[index]) * grid.unit for index in early}
        return self._headed(_told(self.day, at, makers, slack), status, by, self.aims)

    def _headed(self, told: Json, status: str, by: str, aims: list[Json]) -> Json:
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
            **told,
        }


def _units(grid: Grid, layout: Layout | None) -> tuple[dict[int, int], dict[int, int]]:
    """A layout's starts and makers for the solver."""
    if layout is None:
        return {}, {}
    starts = {index: grid.up(layout.start[index] or 0) for index in grid.open}
    return starts, {index: layout.maker[index] or 0 for index in grid.open if grid.hands[index]}


def _told(day: Day, starts: dict[int, int], makers: dict[int, int], slack: dict[int, int] | None) -> Json:
    """Steps, sessions and broken gaps of a plan, history included."""
    ends: dict[int, int] = {index: end for index, end in enumerate(day.end) if end is not None}
    ends |= {index: at + day.takes[index] for index, at in starts.items()}
    steps = []
    for index, task in enumerate(day.tasks):
        open_step = index in starts
        if not open_step and day.end[index] is None:
            continue
        steps.append(
            {
                **{key: task[key] for key in ("id", "run", "component", "letter", "round", "title", "kind")},
                "status": task["status"],
                "starts_at": starts[index] if open_step else day.start[index],
                "ends_at": ends[index],
                "maker": makers.get(index) if open_step else day.maker[index],
                "slack_ms": slack[index] if slack is not None and open_step else None,
                "critical": slack is not None and open_step and slack[index] == 0,
            }
        )
    steps.sort(key=lambda step: (step["starts_at"], step["ends_at"], step["id"]))
    sessions = _sessions(day, starts, makers)
    place = {key: number for number, session in enumerate(sessions) for key in session["steps"]}
    for step in steps:
        step["session"] = place.get(step["id"])
        step["why"] = (
            why_now(day, day.number[step["id"]], starts, slack) if step["session"] is not None else None
        )
    finishes = [ends[index] for index in (starts or ends)]
    hands = [at for index, at in starts.items() if day.hands[index]]
    return {
        "begins_at": min(hands, default=None),
        "finish_at": max(finishes, default=None),
        "steps": steps,
        "sessions": sessions,
        "broken": list(_broken(day, starts, ends)),
    }


def _sessions(day: Day, starts: dict[int, int], makers: dict[int, int]) -> list[Json]:
    """The stretches of bench hours that the plan uses, in order."""
    found = []
    for maker, hours in enumerate(day.hours):
        for opens, closes in hours:
            here = sorted(
                (at, index)
                for index, at in starts.items()
                if day.hands[index] and makers.get(index, 0) == maker and opens <= at < closes
            )
            if here:
                found.append(
                    {
                        "maker": maker,
                        "opens_at": opens,
                        "closes_at": closes,
                        "begins_at": here[0][0],
                        "ends_at": max(at + day.takes[index] for at, index in here),
                        "hands_ms": sum(day.takes[index] for _, index in here),
                        "steps": [day.tasks[index]["id"] for _, index in here],
                    }
                )
    return sorted(found, key=lambda session: (session["begins_at"], session["maker"]))


def _broken_by(problem: Json, made: Json) -> list[Json]:
    """The gaps of a problem that a plan made without some of them does not keep."""
    day = Day(problem, made["since"])
    ends = {day.number[step["id"]]: step["ends_at"] for step in made["steps"]}
    starts = {day.number[step["id"]]: step["starts_at"] for step in made["steps"] if step["status"] == "open"}
    return list(_broken(day, starts, ends))


def _broken(day: Day, starts: dict[int, int], ends: dict[int, int]) -> Iterable[Json]:
    """The gaps that this plan does not keep, and by how much."""
    for sources, to, most, gap in day.mosts:
        if to in starts and all(each in ends for each in sources):
            over = starts[to] - max(ends[each] for each in sources) - most
            if over > 0:
                yield {**gap, "over_ms": over}
