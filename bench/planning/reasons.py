"""Why a step is now, and why a day cannot be done, as data; `plan_words.py` says it."""

from dataclasses import dataclass

from bench.planning import solver
from bench.planning.grid import Grid, Impossible
from bench.planning.layout import Day
from bench.planning.tasks import TIGHT_MS
from bench.shapes.planning import (
    Gap,
    GapChange,
    Plan,
    PlanChange,
    PlanReason,
    ReasonKind,
    StepNamed,
    WhyNow,
    WhyStep,
)

_SUGGEST_WORK = 1.0  # the solver's seconds for each suggestion: it need not be the very least
_CONFLICT_WORK = 3.0  # and for finding which rules clash


@dataclass(frozen=True, slots=True)
class _Placed:
    """A hands-on step in a plan, by number. starts: of all that is planned; slack: None when only the rule made it."""

    day: Day
    index: int
    starts: dict[int, int]
    slack: dict[int, int] | None

    @property
    def starts_at(self) -> int:
        return self.starts[self.index]

    @property
    def is_critical(self) -> bool:
        return self.slack is not None and self.slack.get(self.index) == 0

    def end(self, index: int) -> int:
        if index in self.starts:
            return self.starts[index] + self.day.takes[index]
        return self.day.end[index] or 0

    def waits(self) -> list[int]:
        """The planned waits."""
        return [each for each in self.starts if self.day.tasks[each]["kind"] == "wait"]


def why_now(day: Day, index: int, starts: dict[int, int], slack: dict[int, int] | None) -> WhyStep:
    """Why a hands-on step stands where it does, the strongest reason first.

    kind: window (it must follow soon), opens (what it opens must be closed soon, and now there is room),
    starts_wait (a wait that all else hangs on), frees (a bowl or mould that is needed), late_last (the finish
    hangs on it), meanwhile (hands are free while something waits), next (it is next in its part).
    """
    placed = _Placed(day, index, starts, slack)
    return (
        _in_window(placed)
        or (_starts_wait(placed) if placed.is_critical else None)
        or _frees(placed)
        or _opens(placed)
        or _starts_wait(placed)
        or (_why(day, "late_last", []) if placed.is_critical else None)
        or _meanwhile(placed)
        or _why(day, "next", [])
    )


def _why(day: Day, kind: WhyNow, steps: list[int]) -> WhyStep:
    return {
        "kind": kind,
        "steps": [day.tasks[each]["id"] for each in steps],
        "named": [named(day, each) for each in steps],
    }


def _in_window(placed: _Placed) -> WhyStep | None:
    day = placed.day
    for sources, to, most, gap in day.max_gaps:
        opened = max(placed.end(each) for each in sources)
        if to == placed.index and opened + most - placed.starts_at <= TIGHT_MS:
            why: WhyStep = {**_why(day, "window", sources), "ms": most}
            if "state" in gap:
                return {**why, "state": gap["state"]}
            return {**why, "stake": gap["stake"]}
    return None


def _starts_wait(placed: _Placed) -> WhyStep | None:
    day = placed.day
    waits = [each for each in placed.waits() if any(need == placed.index for need, _ in day.needs[each])]
    if not waits:
        return None
    longest = -max((day.takes[each], -each) for each in waits)[1]
    why = _why(day, "starts_wait", [longest])
    return {**why, "ms": day.takes[longest], "last": placed.is_critical}


def _frees(placed: _Placed) -> WhyStep | None:
    day = placed.day
    for fill, empty, _, key in day.holds:
        if empty == placed.index:
            waiting = [other for other, _, _, each in day.holds if each == key and other in placed.starts]
            if waiting and fill not in waiting[:1]:
                why = _why(day, "frees", waiting[:1])
                vessel = _vessel(day, placed.index, key)
                if vessel is not None:
                    return {**why, "vessel": vessel}
                return {**why, "shape": day.problem["equipment"][key]["name"]}
    return None


def _vessel(day: Day, empty: int, key: str) -> str | None:
    """The bowl or jug that a step empties, by the name that it has at the bench; None for moulds."""
    task = day.tasks[empty]["id"]
    of = next(each for each in day.problem["holds"] if (each["until"], each["equipment"]) == (task, key))
    return of.get("vessel")


def _opens(placed: _Placed) -> WhyStep | None:
    for sources, to, most, _ in placed.day.max_gaps:
        if placed.index in sources and most <= TIGHT_MS:
            return {**_why(placed.day, "opens", [to]), "ms": most}
    return None


def _meanwhile(placed: _Placed) -> WhyStep | None:
    running = [each for each in placed.waits() if placed.starts[each] <= placed.starts_at < placed.end(each)]
    if not running:
        return None
    _, longest = max((placed.end(each), each) for each in running)
    return _why(placed.day, "meanwhile", [longest])


def named(day: Day, index: int) -> StepNamed:
    """A step by its title, and its batch by name where there are several."""
    names, task = day.problem.get("names", {}), day.tasks[index]
    if len(names) > 1 and task["run"] in names:
        return {"title": task["title"], "batch": names[task["run"]]}
    return {"title": task["title"]}


# Why there is no plan. kind: circle, too_long (no stretch of bench hours holds the step), hours (gaps against bench
# hours), rules (gaps that cannot all be kept with these hands and moulds), ready_by. change: the smallest found that
# would make it possible; what the solver suggests is not always the very least.


def in_a_circle(day: Day, around: list[str]) -> PlanReason:
    """Steps that wait for each other for ever. around: the first of them again at the end."""
    return _reason(day, "circle", [day.number[key] for key in around[1:]], [], [])


def too_long(grid: Grid) -> list[PlanReason]:
    """Each step that no stretch of bench hours can hold."""
    day = grid.day
    found: list[PlanReason] = []
    for index in grid.open:
        if day.hands[index] and day.takes[index] > day.longest:
            change: list[PlanChange] = [{"what": "hours", "ms": day.takes[index] - day.longest}]
            found.append({**_reason(day, "too_long", [index], [], change), "takes_ms": day.takes[index]})
    return found


def only_later(day: Day, ready_by: int, soonest: Plan) -> PlanReason | None:
    """When only the ready-by is in the way: the earliest that could be, by a plan made without it."""
    finish = soonest["finish_at"]
    if finish is None or soonest["broken"]:
        return None
    return _reason(day, "ready_by", [], [], [{"what": "ready_by", "ms": finish - ready_by, "at": finish}])


def clash(grid: Grid, error: Impossible | None, work: solver.Work) -> PlanReason:
    """Gaps that cannot all be kept, and what would do; or, where no gap is in the way, that no hours are left."""
    day = grid.day
    gaps = error.gaps[-1:] if error is not None else []
    change: list[PlanChange] = []
    if solver.available() and not work.out():
        gaps = [grid.max_gaps[place].gap for place in _conflict(grid, work)] or gaps
        change = _least_given(grid, work)
    if not gaps and not change:
        return _reason(day, "hours", [error.index] if error else [], [], [])
    steps = [day.number[gap["to"]] for gap in gaps]
    return _reason(day, "rules" if error is None else "hours", steps, gaps, change)


def _reason(
    day: Day, kind: ReasonKind, steps: list[int], gaps: list[Gap], change: list[PlanChange]
) -> PlanReason:
    told = [*gaps, *(each["gap"] for each in change if each["what"] == "gap")]
    about = [*steps, *(day.number[key] for gap in told for key in (gap["to"], gap["from"][-1]))]
    reason: PlanReason = {
        "kind": kind,
        "steps": [day.tasks[index]["id"] for index in steps],
        "gaps": gaps,
        "change": change,
        "named": {day.tasks[index]["id"]: named(day, index) for index in about},
    }
    zone = day.problem.get("zone")
    return {**reason, "zone": zone} if zone else reason


def _conflict(grid: Grid, work: solver.Work) -> list[int]:
    """Places in grid.max_gaps that cannot all be kept: by assumption, then those that can be spared taken out
    one by one, as far as a little work goes."""
    guilty = _refuted(grid, work, list(range(len(grid.max_gaps))))
    if guilty is None:
        return []
    enough = work.left - _CONFLICT_WORK
    for place in list(guilty):
        if work.left < enough:
            break
        smaller = _refuted(grid, work, [each for each in guilty if each != place])
        if smaller is not None:
            guilty = [each for each in guilty if each in smaller]
    return guilty


def _refuted(grid: Grid, work: solver.Work, kept: list[int]) -> list[int] | None:
    """A set within `kept` that alone is impossible, all other gaps let go; None when not shown."""
    if work.out():
        return None
    return solver.Model(grid, named=list(range(len(grid.max_gaps)))).conflict(work, kept)


def _least_given(grid: Grid, work: solver.Work) -> list[PlanChange]:
    """The fewest gaps to widen, by the least; and, instead, by how much longer hours would do."""
    change: list[PlanChange] = [*_widened(grid, work)]
    if not work.out():
        model = solver.Model(grid, longer_hours=True)
        answer = model.best("longer", model.longer_sum(), work, most=_SUGGEST_WORK)
        change += _longer(grid, answer.extra)
    return change


def _widened(grid: Grid, work: solver.Work) -> list[GapChange]:
    model = solver.Model(grid, soft=True)
    answer = model.best("late", sum(model.late), work, most=_SUGGEST_WORK)
    if not answer.starts:
        return []
    model = solver.Model(grid, soft=True)
    model.hint(answer.starts, answer.makers)
    model.model.add(sum(model.late) <= answer.values["late"])
    closer = model.best("over", sum(model.over), work, most=_SUGGEST_WORK)
    starts = closer.starts or answer.starts
    ends = {index: at + grid.lasts[index] for index, at in starts.items()}
    found: list[GapChange] = []
    for sources, to, most, gap in grid.max_gaps:
        over = starts[to] - max(ends[each] for each in sources) - most
        if over > 0:
            title = grid.day.tasks[to]["title"]
            found.append({"what": "gap", "gap": gap, "title": title, "ms": over * grid.unit})
    return found


def _longer(grid: Grid, extra: dict[tuple[int, int], int]) -> list[PlanChange]:
    """Longer hours as changes; and, when it is the stretch open now that is too short, starting earlier."""
    found: list[PlanChange] = []
    for (maker, place), units in extra.items():
        opens, closes = grid.hours[maker][place]
        ms = units * grid.unit
        if opens == grid.now and len(extra) == 1:
            found.append({"what": "start_by", "at": grid.day.now - ms, "ms": ms})
        found.append({"what": "hours", "maker": maker, "closes_at": grid.ms(closes), "ms": ms})
    return found
