"""Why a step is now, and why a day cannot be done: in the maker's words, and as data beside them."""

from dataclasses import dataclass

from bench.planning import solver
from bench.planning.bench_hours import on_the_clock
from bench.planning.grid import Grid, Impossible
from bench.planning.layout import Day
from bench.planning.tasks import TIGHT_MS
from bench.shapes.planning import Gap, GapChange, Plan, PlanChange, PlanReason, ReasonKind, WhyNow, WhyStep
from bench.whole import span

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
        or (_starts_wait(placed, ", and the end hangs on that") if placed.is_critical else None)
        or _frees(placed)
        or _opens(placed)
        or _starts_wait(placed, "")
        or (
            _why(day, "late_last", [], "The end hangs on it: later here is later at the end.")
            if placed.is_critical
            else None
        )
        or _meanwhile(placed)
        or _why(day, "next", [], "It is next in its part.")
    )


def _why(day: Day, kind: WhyNow, steps: list[int], says: str) -> WhyStep:
    return {"kind": kind, "steps": [day.tasks[each]["id"] for each in steps], "says": says}


def _in_window(placed: _Placed) -> WhyStep | None:
    day = placed.day
    for sources, to, most, gap in day.max_gaps:
        opened = max(placed.end(each) for each in sources)
        if to == placed.index and opened + most - placed.starts_at <= TIGHT_MS:
            stake = f" {gap['stake']}" if gap["stake"] else ""
            says = f"It must begin within {span(most)} of {titled(day, sources[-1])}.{stake}"
            return _why(day, "window", sources, says)
    return None


def _starts_wait(placed: _Placed, besides: str) -> WhyStep | None:
    day = placed.day
    waits = [each for each in placed.waits() if any(need == placed.index for need, _ in day.needs[each])]
    if not waits:
        return None
    longest = -max((day.takes[each], -each) for each in waits)[1]
    says = f"It starts {titled(day, longest)}, {span(day.takes[longest])}{besides}."
    return _why(day, "starts_wait", [longest], says)


def _frees(placed: _Placed) -> WhyStep | None:
    day = placed.day
    for fill, empty, _, key in day.holds:
        if empty == placed.index:
            waiting = [other for other, _, _, each in day.holds if each == key and other in placed.starts]
            if waiting and fill not in waiting[:1]:
                says = f"It empties {_held(day, placed.index, key)} for {titled(day, waiting[0])}."
                return _why(day, "frees", waiting[:1], says)
    return None


def _held(day: Day, empty: int, key: str) -> str:
    """What a step empties: the bowl or jug by the name that it has at the bench, or so many moulds."""
    task, problem = day.tasks[empty]["id"], day.problem
    of = next(each for each in problem["holds"] if (each["until"], each["equipment"]) == (task, key))
    return f"“{of['vessel']}”" if "vessel" in of else f"the {problem['equipment'][key]['name']}"


def _opens(placed: _Placed) -> WhyStep | None:
    for sources, to, most, _ in placed.day.max_gaps:
        if placed.index in sources and most <= TIGHT_MS:
            named = titled(placed.day, to)
            says = f"From its end {named} has {span(most)}, and from now on there is room for that."
            return _why(placed.day, "opens", [to], says)
    return None


def _meanwhile(placed: _Placed) -> WhyStep | None:
    day = placed.day
    running = [each for each in placed.waits() if placed.starts[each] <= placed.starts_at < placed.end(each)]
    if not running:
        return None
    _, longest = max((placed.end(each), each) for each in running)
    return _why(day, "meanwhile", [longest], f"Hands are free while {titled(day, longest)} goes on.")


def titled(day: Day, index: int) -> str:
    """A step by its title, and its batch by name where there are several."""
    names, task = day.problem.get("names", {}), day.tasks[index]
    of = f" of {names[task['run']]}" if len(names) > 1 and task["run"] in names else ""
    return f"“{task['title']}”{of}"


# Why there is no plan. kind: circle, too_long (no stretch of bench hours holds the step), hours (gaps against bench
# hours), rules (gaps that cannot all be kept with these hands and moulds), ready_by. change: the smallest found that
# would make it possible; what the solver suggests is not always the very least.


def in_a_circle(day: Day, around: list[str]) -> PlanReason:
    """Steps that wait for each other for ever."""
    named = " after ".join(titled(day, day.number[key]) for key in around)
    says = f"These steps wait for each other in a circle: {named}."
    return _reason(day, "circle", [day.number[key] for key in around[1:]], [], says, [])


def too_long(grid: Grid) -> list[PlanReason]:
    """Each step that no stretch of bench hours can hold."""
    day = grid.day
    return [
        _reason(
            day,
            "too_long",
            [index],
            [],
            f"{titled(day, index)} takes {span(day.takes[index])}, and no stretch of bench hours is longer than {span(day.longest)}.",
            [{"what": "hours", "ms": day.takes[index] - day.longest}],
        )
        for index in grid.open
        if day.hands[index] and day.takes[index] > day.longest
    ]


def only_later(day: Day, ready_by: int, soonest: Plan) -> PlanReason | None:
    """When only the ready-by is in the way: the earliest that could be, by a plan made without it."""
    finish = soonest["finish_at"]
    if finish is None or soonest["broken"]:
        return None
    late = finish - ready_by
    zone = day.problem.get("zone")
    at = f"{' '.join(on_the_clock(finish, zone))}, " if zone else ""
    says = f"It cannot be ready by then: the earliest is {at}{span(late)} later."
    return _reason(day, "ready_by", [], [], says, [{"what": "ready_by", "ms": late, "at": finish}])


def clash(grid: Grid, error: Impossible | None, work: solver.Work) -> PlanReason:
    """Gaps that cannot all be kept, and what would do; or, where no gap is in the way, that no hours are left."""
    day = grid.day
    gaps = error.gaps[-1:] if error is not None else []
    change: list[PlanChange] = []
    if solver.available() and not work.out():
        gaps = [grid.max_gaps[place].gap for place in _conflict(grid, work)] or gaps
        change = _least_given(grid, work)
    if not gaps and not change:
        step = titled(day, error.index) if error else "the last step"
        says = f"No bench hours are left for {step}. Give more, or look further ahead."
        return _reason(day, "hours", [error.index] if error else [], [], says, [])
    steps = [day.number[gap["to"]] for gap in gaps]
    return _reason(day, "rules" if error is None else "hours", steps, gaps, _clash(day, gaps, change), change)


def _clash(day: Day, gaps: list[Gap], change: list[PlanChange]) -> str:
    """What cannot be kept, what is in the way, and each change that would do, as one sentence."""
    rules = " and ".join(_named(day, gap) for gap in gaps[:3]) or "What is left does not fit"
    hours = [each for each in change if each["what"] == "hours"]
    zone = day.problem.get("zone")
    closes_at = hours[0].get("closes_at") if len(hours) == 1 else None
    if closes_at is not None and zone:
        weekday, clock = on_the_clock(closes_at, zone)
        rules += f", but {weekday}’s bench hours end at {clock}"
    else:
        rules += ", but with these hands, hours and moulds that cannot be"
    does = [says for each in change if (says := _does(day, each, zone))]
    if hours:
        does.append(f"add {span(sum(each['ms'] for each in hours))} to the bench hours")
    return f"{rules}: {', or '.join(does)}." if does else f"{rules}."


def _does(day: Day, change: PlanChange, zone: str | None) -> str:
    """A change in words; longer hours are said together."""
    if change["what"] == "start_by":
        return (
            f"start by {on_the_clock(change['at'], zone)[1]}"
            if zone
            else f"start {span(change['ms'])} earlier"
        )
    if change["what"] == "gap":
        step = titled(day, day.number[change["gap"]["to"]])
        return f"let {step} come {span(change['ms'])} later than its latest"
    return ""


def _reason(
    day: Day, kind: ReasonKind, steps: list[int], gaps: list[Gap], says: str, change: list[PlanChange]
) -> PlanReason:
    return {
        "kind": kind,
        "steps": [day.tasks[index]["id"] for index in steps],
        "gaps": gaps,
        "says": says,
        "change": change,
    }


def _named(day: Day, gap: Gap) -> str:
    """A gap in words: “Pipe” must begin within 10 min of “Whip”."""
    to, source = titled(day, day.number[gap["to"]]), f"“{day.tasks[day.number[gap['from'][-1]]]['title']}”"
    return f"{to} must begin within {span(gap['most_ms'] or 0)} of {source}"


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
