"""Why a step is now, and why a day cannot be done: in the maker's words, and as data beside them."""

from typing import Any

from bench.planning import solver
from bench.planning.day import on_the_clock
from bench.planning.grid import Grid, Impossible
from bench.planning.layout import Day
from bench.planning.tasks import TIGHT_MS
from bench.whole import span

Json = Any  # until its shape is named

_SUGGEST_WORK = 1.0  # the solver's seconds for each suggestion: it need not be the very least
_CONFLICT_WORK = 3.0  # and for finding which rules clash


def why_now(day: Day, index: int, starts: dict[int, int], slack: dict[int, int] | None) -> Json:
    """Why a hands-on step stands where it does: {"kind", "steps", "says"}, the strongest reason first.

    kind: window (it must follow soon), opens (what it opens must be closed soon, and now there is room),
    starts_wait (a wait that all else hangs on), frees (a mould that is needed), late_last (the finish
    hangs on it), meanwhile (hands are free while something waits), next (it is next in its part).
    """
    tasks = day.tasks

    def said(kind: str, steps: list[int], says: str) -> Json:
        return {"kind": kind, "steps": [tasks[each]["id"] for each in steps], "says": says}

    def title(each: int) -> str:
        return titled(day, each)

    ends = {each: at + day.takes[each] for each, at in starts.items()}
    for sources, to, most, gap in day.mosts:
        opened = max(ends.get(each, day.end[each] or 0) for each in sources)
        if to == index and opened + most - starts[index] <= TIGHT_MS:
            stake = f" {gap['stake']}" if gap["stake"] else ""
            return said(
                "window", sources, f"It must begin within {span(most)} of {title(sources[-1])}.{stake}"
            )
    waits = [
        each
        for each, at in starts.items()
        if tasks[each]["kind"] == "wait" and any(need == index for need, _ in day.needs[each])
    ]
    critical = slack is not None and slack.get(index) == 0
    if waits and critical:
        longest = max(waits, key=lambda each: (day.takes[each], -each))
        return said(
            "starts_wait",
            [longest],
            f"It starts {title(longest)}, {span(day.takes[longest])}, and the end hangs on that.",
        )
    for fill, empty, _, key in day.holds:
        if empty == index:
            waiting = [other for other, _, _, other_key in day.holds if other_key == key and other in starts]
            if waiting and fill not in waiting[:1]:
                return said("frees", waiting[:1], f"It empties the mould that {title(waiting[0])} needs.")
    for sources, to, most, _ in day.mosts:
        if index in sources and most <= TIGHT_MS:
            return said(
                "opens",
                [to],
                f"From its end {title(to)} has {span(most)}, and from now on there is room for that.",
            )
    if waits:
        longest = max(waits, key=lambda each: (day.takes[each], -each))
        return said("starts_wait", [longest], f"It starts {title(longest)}, {span(day.takes[longest])}.")
    if critical:
        return said("late_last", [], "The end hangs on it: later here is later at the end.")
    running = [
        each
        for each, at in starts.items()
        if tasks[each]["kind"] == "wait" and at <= starts[index] < at + day.takes[each]
    ]
    if running:
        longest = max(running, key=lambda each: (starts[each] + day.takes[each], each))
        return said("meanwhile", [longest], f"Hands are free while {title(longest)} goes on.")
    return said("next", [], "It is next in its part.")


def titled(day: Day, index: int) -> str:
    """A step by its title, and its batch by name where there are several."""
    names, task = day.problem.get("names") or {}, day.tasks[index]
    of = f" of {names[task['run']]}" if len(names) > 1 and task["run"] in names else ""
    return f"“{task['title']}”{of}"


def why_impossible(grid: Grid, error: Impossible | None, work: solver.Work) -> list[Json]:
    """Reasons, the plainest first: [{"kind", "steps", "gaps", "says", "change"}].

    kind: circle, too_long (no stretch of bench hours holds the step), hours (gaps against bench hours), rules
    (gaps that cannot all be kept with these hands and moulds), ready_by. change: the smallest found that
    would make it possible, each {"what", "ms", ...}: gap (give one more time), hours (close later),
    start_by (begin earlier), ready_by; what the solver suggests is not always the very least.
    """
    day = grid.day
    too_long: list[Json] = []
    for index in grid.open:
        if day.hands[index] and day.takes[index] > day.longest:
            too_long.append(
                _reason(
                    day,
                    "too_long",
                    [index],
                    [],
                    f"{titled(day, index)} takes {span(day.takes[index])}, and no stretch of bench hours is longer than {span(day.longest)}.",
                    [{"what": "hours", "ms": day.takes[index] - day.longest}],
                )
            )
    if too_long:
        return too_long
    late = grid.ready_by is not None and _possible_later(grid)
    if late:
        return [late]
    gaps = error.gaps[-1:] if error is not None else []
    change: list[Json] = []
    if solver.available() and not work.out():
        gaps = [grid.mosts[place].gap for place in _conflict(grid, work)] or gaps
        change = _least_given(grid, work)
    if not gaps and not change:
        step = titled(day, error.index) if error else "the last step"
        says = f"No bench hours are left for {step}. Give more, or look further ahead."
        return [_reason(day, "hours", [error.index] if error else [], [], says, [])]
    kind = "hours" if error is not None else "rules"
    steps = [day.number[gap["to"]] for gap in gaps]
    return [_reason(day, kind, steps, gaps, _clash(day, gaps, change), change)]


def _clash(day: Day, gaps: list[Json], change: list[Json]) -> str:
    """What cannot be kept, what is in the way, and each change that would do, as one sentence."""
    rules = " and ".join(_named(day, gap) for gap in gaps[:3]) or "What is left does not fit"
    hours = [each for each in change if each["what"] == "hours"]
    if len(hours) == 1 and day.problem.get("zone"):
        weekday, clock = on_the_clock(hours[0]["closes_at"], day.problem["zone"])
        rules += f", but {weekday}’s bench hours end at {clock}"
    else:
        rules += ", but with these hands, hours and moulds that cannot be"
    does = []
    for each in change:
        if each["what"] == "start_by" and day.problem.get("zone"):
            does.append(f"start by {on_the_clock(each['at'], day.problem['zone'])[1]}")
        elif each["what"] == "start_by":
            does.append(f"start {span(each['ms'])} earlier")
        elif each["what"] == "gap":
            step = titled(day, day.number[each["gap"]["to"]])
            does.append(f"let {step} come {span(each['ms'])} later than its latest")
    if hours:
        does.append(f"add {span(sum(each['ms'] for each in hours))} to the bench hours")
    return f"{rules}: {', or '.join(does)}." if does else f"{rules}."


def in_a_circle(day: Day, around: list[str]) -> Json:
    """Steps that wait for each other for ever."""
    named = " after ".join(titled(day, day.number[key]) for key in around)
    says = f"These steps wait for each other in a circle: {named}."
    return _reason(day, "circle", [day.number[key] for key in around[1:]], [], says, [])


def _reason(day: Day, kind: str, steps: list[int], gaps: list[Json], says: str, change: list[Json]) -> Json:
    return {
        "kind": kind,
        "steps": [day.tasks[index]["id"] for index in steps],
        "gaps": gaps,
        "says": says,
        "change": change,
    }


def _named(day: Day, gap: Json) -> str:
    """A gap in words: “Pipe” must begin within 10 min of “Whip”."""
    to, source = titled(day, day.number[gap["to"]]), f"“{day.tasks[day.number[gap['from'][-1]]]['title']}”"
    return f"{to} must begin within {span(gap['most_ms'])} of {source}"


def _possible_later(grid: Grid) -> Json | None:
    """When only the ready-by is in the way: the earliest that could be."""
    from bench.planning.plan import plan  # here, because a plan gives reasons and a reason may need a plan

    day = grid.day
    problem = {**day.problem, "ready_by": None}
    other = plan(problem, changes=False)
    if other["finish_at"] is None or other["broken"]:
        return None
    late = other["finish_at"] - day.problem["ready_by"]
    zone = day.problem.get("zone")
    at = f"{' '.join(on_the_clock(other['finish_at'], zone))}, " if zone else ""
    says = f"It cannot be ready by then: the earliest is {at}{span(late)} later."
    change = [{"what": "ready_by", "ms": late, "at": other["finish_at"]}]
    return _reason(day, "ready_by", [], [], says, change)


def _conflict(grid: Grid, work: solver.Work) -> list[int]:
    """Places in grid.mosts that cannot all be kept: by assumption, then those that can be spared taken out
    one by one, as far as a little work goes."""
    guilty = _refuted(grid, work, list(range(len(grid.mosts))))
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
    """A set within `kept` that alone is impossible, all other mosts let go; None when not shown."""
    if work.out():
        return None
    model = solver.Model(grid, named=list(range(len(grid.mosts))))
    for place in model.kept:
        if place not in kept:
            model.model.add(model.kept[place] == 0)
    model.kept = {place: literal for place, literal in model.kept.items() if place in kept}
    return model.conflict(work)


def _least_given(grid: Grid, work: solver.Work) -> list[Json]:
    """The fewest gaps to widen, by the least; and, instead, by how much longer hours would do."""
    day = grid.day
    change: list[Json] = []
    model = solver.Model(grid, soft=True)
    answer = model.best("late", sum(model.late), work, most=_SUGGEST_WORK)
    if answer.starts:
        model = solver.Model(grid, soft=True)
        model.hint(answer.starts, answer.makers)
        model.model.add(sum(model.late) <= answer.values["late"])
        closer = model.best("over", sum(model.over), work, most=_SUGGEST_WORK)
        answer = closer if closer.starts else answer
        ends = {index: at + grid.lasts[index] for index, at in answer.starts.items()}
        for most in grid.mosts:
            over = answer.starts[most.to] - max(ends[each] for each in most.sources) - most.most
            if over > 0:
                title = day.tasks[most.to]["title"]
                change.append({"what": "gap", "gap": most.gap, "title": title, "ms": over * grid.unit})
    if not work.out():
        model = solver.Model(grid, longer_hours=True)
        answer = model.best("longer", model.longer_sum(), work, most=_SUGGEST_WORK)
        change += _longer(grid, answer.extra)
    return change


def _longer(grid: Grid, extra: dict[tuple[int, int], int]) -> list[Json]:
    """Longer hours as changes; and, when it is the stretch open now that is too short, starting earlier."""
    found: list[Json] = []
    for (maker, place), units in extra.items():
        opens, closes = grid.hours[maker][place]
        ms = units * grid.unit
        if opens == grid.now and len(extra) == 1:
            found.append({"what": "start_by", "at": grid.day.now - ms, "ms": ms})
        found.append({"what": "hours", "maker": maker, "closes_at": grid.ms(closes), "ms": ms})
    return found
