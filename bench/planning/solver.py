"""The order that nothing beats: a constraint model of the day, solved one aim after another.

One model an aim, the answer to the aims before it as constraints and hint: finish (or the latest
start), sessions, span, changes. OR-Tools is imported here, when a plan is asked for, and nowhere
else. One worker, a fixed seed and a limit in the solver's own count of work make an answer
repeatable on one machine and version; a plan is kept, never derived again.
"""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from bench.planning.grid import Grid, Impossible
from bench.planning.layout import SLOW_HANDS, USUAL
from bench.planning.price import LEAST_MOST_MS, WHOLE
from bench.whole import ceiling

Json = Any  # until its shape is named

MOST_CIRCUIT = 60  # steps; beyond it changes of part are left as they come
_LOOK_MS = 50  # how often the maker's cancel is looked at while the solver works


def available() -> bool:
    """Whether the solver is installed (the extra `plan`)."""
    from importlib.util import find_spec

    return find_spec("ortools") is not None


@dataclass
class Answer:
    """What the solver says: starts by task number, in units, and how good they are."""

    status: str  # "proven", "found", "impossible" or "unknown"
    starts: dict[int, int] = field(default_factory=dict)
    makers: dict[int, int] = field(default_factory=dict)
    values: dict[str, int] = field(default_factory=dict)
    bounds: dict[str, int] = field(default_factory=dict)
    extra: dict[tuple[int, int], int] = field(default_factory=dict)  # (maker, stretch) -> closes later by

    def proven(self, aim: str) -> bool:
        return aim in self.values and self.values[aim] == self.bounds.get(aim)


class Work:
    """How much work is left, and whether the maker still wants the answer.

    left: the solver's own seconds, which are the same on every machine. cancelled and progress are
    called from time to time; progress gets {"aim", "value" (None as an aim begins), "work" (the share left)}.
    """

    def __init__(
        self,
        left: float,
        cancelled: Callable[[], bool] | None = None,
        progress: Callable[[Json], None] | None = None,
    ) -> None:
        self.whole = left
        self.left = left
        self.cancelled = cancelled or (lambda: False)
        self.progress = progress or (lambda said: None)

    def out(self) -> bool:
        return self.left <= 0 or self.cancelled()


class Model:
    """The day as constraints. Every rule is hard but those asked to be soft."""

    def __init__(
        self,
        grid: Grid,
        *,
        soft: bool = False,
        longer_hours: bool = False,
        finish: int | None = None,
        named: list[int] | None = None,
    ) -> None:
        """soft: gaps with a most may be broken, at a price. longer_hours: stretches may close later, at
        a price. finish: all ends by then. named: mosts kept only while their literal is true."""
        from ortools.sat.python import cp_model

        self.cp = cp_model
        self.linearization: int | None = None
        self.grid = grid
        self.model = cp_model.CpModel()
        self.soft = soft
        self.longer_hours = longer_hours
        self.horizon = grid.horizon if finish is None else finish
        self.first, self.last = self._between(finish)
        self.longer: dict[tuple[int, int], Any] = {}
        self.start: dict[int, Any] = {}
        self.end: dict[int, Any] = {}
        self.by: dict[tuple[int, int], Any] = {}  # (task, maker) -> literal, only with several makers
        self.intervals: dict[int, Any] = {}
        # Hands-on steps by the piece: [first step, ..., last step] for a block, [step] for any other.
        self.units = self._by_piece()
        self.inside = {index for unit in self.units for index in unit[1:]}
        # What is broken, when soft: literals of states ruined, of those to be brought back with their price in
        # units, of windows of quality missed; and by how much, each by its own size.
        self.ruined: list[Any] = []
        self.back: list[tuple[Any, int]] = []
        self.missed: list[Any] = []
        self.late: list[Any] = []
        self.over: list[Any] = []
        self.share: list[Any] = []
        self.kept: dict[int, Any] = {}  # place in grid.mosts -> literal, when named
        self._tasks()
        self._hands()
        self._needs()
        self._mosts(set(named or []))
        self._equipment()

    def _between(self, finish: int | None) -> tuple[list[int], list[int]]:
        """The first and last start of each task. Soft rules and longer hours leave them wide."""
        count = len(self.grid.kinds)
        if self.soft or self.longer_hours or finish is None:
            return [self.grid.now] * count, [self.horizon - lasts for lasts in self.grid.lasts]
        return self.grid.earliest(), self.grid.latest(finish)

    def _by_piece(self) -> list[list[int]]:
        grid = self.grid
        blocks = [] if self.longer_hours else grid.day.blocks
        inside = {index for block in blocks for index in block}
        return [*blocks, *([index] for index in grid.open if grid.hands[index] and index not in inside)]

    def _block(self, block: list[int]) -> None:
        """One variable for a whole block: each of its steps begins as the one before it ends."""
        grid = self.grid
        after, total = [], 0
        for index in block:
            after.append(total)
            total += grid.lasts[index]
        room = max(total, min(ceiling(total * SLOW_HANDS, USUAL), ceiling(grid.day.longest, grid.unit)))
        low = max(
            max(self.first[index], grid.ready[index]) - off for index, off in zip(block, after, strict=True)
        )
        high = min(self.last[index] - off for index, off in zip(block, after, strict=True))
        self.spans[block[0]] = [self._spans(maker, low, high, room) for maker in range(len(grid.hours))]
        domain = self.cp.Domain.from_intervals(
            sorted(span for those in self.spans[block[0]] for span in those)
        )
        if domain.is_empty():
            raise Impossible(block[0], [])
        head = self.model.new_int_var_from_domain(domain, f"s{block[0]}")
        for index, off in zip(block, after, strict=True):
            self.start[index] = head + off if off else head
            self.end[index] = head + off + grid.lasts[index]
        self.pieces[block[0]] = self.model.new_fixed_size_interval_var(head, total, f"p{block[0]}")
        self.lasts[block[0]] = total

    def _spans(self, maker: int, low: int, high: int, room: int) -> list[list[int]]:
        """The starts, between two instants, of what needs so much room in one stretch of a maker."""
        begins = max(low, self.grid.busy_until[maker])
        spans = [[max(opens, begins), min(closes - room, high)] for opens, closes in self.grid.hours[maker]]
        return [span for span in spans if span[0] <= span[1]]

    def _tasks(self) -> None:
        grid, model = self.grid, self.model
        self.lasts = {
            index: grid.lasts[index] for index in grid.open
        }  # of a block's first step: the whole block
        self.pieces: dict[int, Any] = {}
        self.spans: dict[int, list[list[list[int]]]] = {}
        for unit in self.units:
            if len(unit) > 1:
                self._block(unit)
        for index in grid.open:
            if index in self.start:
                continue
            low, high = max(self.first[index], grid.ready[index]), self.last[index]
            if grid.hands[index] and len(grid.hours) == 1 and not self.longer_hours:
                spans = [
                    [max(low, begins), min(high, ends)]
                    for begins, ends in grid.starts(index, 0)
                    if max(low, begins) <= min(high, ends)
                ]
                domain = self.cp.Domain.from_intervals(spans)
            else:
                domain = self.cp.Domain(low, high) if low <= high else self.cp.Domain.from_intervals([])
            if domain.is_empty():
                raise Impossible(index, [])
            self.start[index] = model.new_int_var_from_domain(domain, f"s{index}")
            self.end[index] = self.start[index] + grid.lasts[index]

    def _hands(self) -> None:
        """No pair of hands does two things at once; with several makers, each step has one of them."""
        grid, model = self.grid, self.model
        tasks = [unit[0] for unit in self.units]
        for index in grid.open:
            self.intervals[index] = model.new_fixed_size_interval_var(
                self.start[index], grid.lasts[index], f"i{index}"
            )
        whole = {index: self.pieces.get(index, self.intervals[index]) for index in tasks}
        if len(grid.hours) == 1:
            if self.longer_hours:
                self._stretched(tasks, 0, None)
            model.add_no_overlap([whole[index] for index in tasks])
            return
        for maker in range(len(grid.hours)):
            theirs = []
            for index in tasks:
                literal = model.new_bool_var(f"m{index}.{maker}")
                self.by[index, maker] = literal
                spans = (
                    self.spans[index][maker]
                    if index in self.spans
                    else [list(each) for each in grid.starts(index, maker)]
                )
                if not self.longer_hours:
                    model.add_linear_expression_in_domain(
                        self.start[index], self.cp.Domain.from_intervals(spans)
                    ).only_enforce_if(literal)
                theirs.append(
                    model.new_optional_fixed_size_interval_var(
                        self.start[index], self.lasts[index], literal, f"i{index}.{maker}"
                    )
                )
            model.add_no_overlap(theirs)
            if self.longer_hours:
                self._stretched(tasks, maker, self.by)
        for index in tasks:
            model.add_exactly_one(self.by[index, maker] for maker in range(len(grid.hours)))
        if tasks and all(hours == grid.hours[0] for hours in grid.hours) and len(set(grid.busy_until)) == 1:
            model.add(self.by[tasks[0], 0] == 1)  # makers alike: the first step is the first one's

    def _stretched(self, tasks: list[int], maker: int, by: dict[tuple[int, int], Any] | None) -> None:
        """Each step in one stretch, which may close later, up to where the next one opens."""
        grid, model = self.grid, self.model
        hours = grid.hours[maker]
        for place, (_, closes) in enumerate(hours):
            room = (hours[place + 1][0] if place + 1 < len(hours) else self.horizon) - closes
            self.longer[maker, place] = model.new_int_var(0, max(0, room), f"x{maker}.{place}")
        for index in tasks:
            heres = []
            for place, (opens, closes) in enumerate(hours):
                here = model.new_bool_var(f"h{index}.{maker}.{place}")
                model.add(self.start[index] >= max(opens, grid.busy_until[maker])).only_enforce_if(here)
                model.add(self.end[index] <= closes + self.longer[maker, place]).only_enforce_if(here)
                heres.append(here)
            model.add(sum(heres) == (1 if by is None else by[index, maker]))

    def _needs(self) -> None:
        """What comes after what; a wait begins the moment the last of its needs ends."""
        grid, model = self.grid, self.model
        for index in grid.open:
            ready = [self.end[need] + least for need, least in grid.needs[index]]
            if grid.kinds[index] == "wait":
                if grid.ready[index] > 0 or not ready:
                    ready.append(max(grid.now, grid.ready[index]))
                if len(ready) == 1:
                    model.add(self.start[index] == ready[0])
                else:
                    model.add_max_equality(self.start[index], ready)
            else:
                for each in ready:
                    model.add(self.start[index] >= each)

    def _mosts(self, named: set[int]) -> None:
        grid, model = self.grid, self.model
        for place, most in enumerate(grid.mosts):
            if len(most.sources) == 1:
                opened = self.end[most.sources[0]]
            else:
                opened = model.new_int_var(grid.now, self.horizon, f"o{place}")
                model.add_max_equality(opened, [self.end[each] for each in most.sources])
            constraint = self._most(self.start[most.to], opened + most.most, most.gap)
            if place in named:
                self.kept[place] = model.new_bool_var(f"k{place}")
                constraint.only_enforce_if(self.kept[place])
        for to, latest, gap in grid.due:
            self._most(self.start[to], latest, gap)
        if grid.ready_by is not None:
            for index in grid.open:
                model.add(self.end[index] <= grid.ready_by)

    def _most(self, start: Any, latest: Any, gap: Json) -> Any:
        """start <= latest, or over it at a price when soft."""
        if not self.soft:
            return self.model.add(start <= latest)
        unit = self.grid.unit
        over = self.model.new_int_var(0, self.horizon, "")
        late = self.model.new_bool_var("")
        self.model.add(over == 0).only_enforce_if(~late)
        self.over.append(over)
        self.late.append(late)
        self.share.append(over * max(1, WHOLE * WHOLE * unit // max(gap["most_ms"], LEAST_MOST_MS)))
        kind, lost = gap.get("class"), gap.get("lost_ms")
        if kind == "ruin":
            self.ruined.append(late)
        elif kind == "back":
            self.back.append((late, ceiling(gap["price_ms"], unit)))
            if lost is not None:
                gone = self.model.new_bool_var("")
                self.model.add(over <= lost // unit).only_enforce_if(~gone)
                self.ruined.append(gone)
        else:
            self.missed.append(late)
        return self.model.add(start <= latest + over)

    def unkept(self) -> Any:
        """What it costs to break gaps, in one number: any ruin is more than all there is to bring back, any of
        that more than all windows of quality."""
        light = len(self.missed) + 1
        heavy = light * (sum(price for _, price in self.back) + 1)
        return (
            heavy * sum(self.ruined)
            + light * sum(price * late for late, price in self.back)
            + sum(self.missed)
        )

    def _equipment(self) -> None:
        grid, model = self.grid, self.model
        using: dict[str, list[tuple[Any, int, bool]]] = {}
        for index in grid.open:
            for key, many in grid.day.uses[index].items():
                using.setdefault(key, []).append((self.intervals[index], many, grid.hands[index]))
        for index, end in enumerate(grid.ended):
            if end is not None and end > grid.now and grid.kinds[index] != "wait":
                for key, many in grid.day.uses[index].items():
                    fixed = model.new_fixed_size_interval_var(grid.now, end - grid.now, f"u{index}.{key}")
                    using.setdefault(key, []).append((fixed, many, grid.hands[index]))
        for fill, empty, many, key in grid.day.holds:
            ended = grid.ended[empty]
            if ended is not None:
                filled = grid.day.start[fill]
                begun = grid.now if filled is None else max(grid.now, grid.up(filled))
                if ended > begun:  # of a batch that is planned already
                    held = model.new_fixed_size_interval_var(begun, ended - begun, f"z{fill}")
                    using.setdefault(key, []).append((held, many, False))
                continue
            start = self.start.get(fill, grid.now)
            size = model.new_int_var(0, self.horizon, f"z{fill}")
            held = model.new_interval_var(start, size, self.end[empty], f"z{fill}")
            using.setdefault(key, []).append((held, many, False))
        for key, users in using.items():
            if len(grid.hours) == 1 and all(by_hand for _, _, by_hand in users):
                continue  # one pair of hands already keeps them apart
            capacity = grid.day.many[key]
            if all(2 * many > capacity for _, many, _ in users):
                model.add_no_overlap([interval for interval, _, _ in users])
                if all(many <= capacity for _, many, _ in users):
                    continue
            model.add_cumulative(
                [interval for interval, _, _ in users], [many for _, many, _ in users], capacity
            )

    # Aims

    def quickly(self) -> None:
        """Search without the linear relaxation."""
        self.linearization = 0

    def thoroughly(self) -> None:
        """Search with all of it."""
        self.linearization = 2

    def finish_var(self, bound: int | None = None) -> Any:
        """bound: no finish is sooner, as is known already."""
        finish = self.model.new_int_var(self.grid.now if bound is None else bound, self.horizon, "finish")
        for index in self.grid.open:
            self.model.add(self.end[index] <= finish)
        return finish

    def begin_var(self) -> Any:
        """The first start of any hands-on step."""
        begin = self.model.new_int_var(self.grid.now, self.horizon, "begin")
        for index in self.grid.open:
            if self.grid.hands[index]:
                self.model.add(begin <= self.start[index])
        return begin

    def sessions(self, count: int | None = None, span: int | None = None) -> tuple[Any, Any]:
        """(how many sessions, the sum of their spans); count and span hold what is already known.

        Three cuts that follow from the rest decide the span at once: a session is no shorter than the
        steps in it, and the sessions kept, and their spans, are long enough for all steps.
        """
        grid, model = self.grid, self.model
        tasks = [unit[0] for unit in self.units]
        last = {unit[0]: unit[-1] for unit in self.units}
        heres: dict[int, list[Any]] = {index: [] for index in tasks}
        used, spans, lengths = [], [], []
        for maker, hours in enumerate(grid.hours):
            for place, (opens, closes) in enumerate(hours):
                could = [
                    index
                    for index in tasks
                    if max(opens, self.first[index]) <= min(closes - self.lasts[index], self.last[index])
                ]
                if not could:
                    continue
                name = f"{maker}.{place}"
                kept = model.new_bool_var(f"w{name}")
                begin = model.new_int_var(opens, closes, f"b{name}")
                end = model.new_int_var(opens, closes, f"e{name}")
                model.add(begin <= end)
                model.add(end == begin).only_enforce_if(~kept)
                here = {index: model.new_bool_var(f"h{index}.{name}") for index in could}
                for index, literal in here.items():
                    model.add_implication(literal, kept)
                    model.add(begin <= self.start[index]).only_enforce_if(literal)
                    model.add(end >= self.end[last[index]]).only_enforce_if(literal)
                    if (index, maker) in self.by:
                        model.add_implication(literal, self.by[index, maker])
                    heres[index].append(literal)
                model.add(end - begin >= sum(self.lasts[index] * literal for index, literal in here.items()))
                used.append(kept)
                spans.append(end - begin)
                lengths.append((closes - opens) * kept)
        for literals in heres.values():
            model.add_exactly_one(literals)
        model.add(sum(lengths) >= sum(self.lasts[index] for index in tasks))
        if len(grid.hours) == 1:  # with two makers it would only make one of them idle
            model.add(sum(spans) >= sum(self.lasts[index] for index in tasks))
        if count is not None:
            model.add(sum(used) <= count)
        if span is not None:
            model.add(sum(spans) <= span)
        return sum(used), sum(spans)

    def longer_sum(self) -> Any:
        """How much longer the hours are in all; of two the same, the earlier stretch is made longer."""
        return sum((1000 + min(place, 500)) * longer for (_, place), longer in self.longer.items())

    def changes(self) -> Any:
        """How often the hands go from one part to another: a tour of the steps, for one maker."""
        grid, model = self.grid, self.model
        tasks = [unit[0] for unit in self.units]
        last = {unit[0]: unit[-1] for unit in self.units}
        part = {index: (task["run"], task["component"]) for index, task in enumerate(grid.day.tasks)}
        arcs, changed = [], []
        for place, one in enumerate(tasks, 1):
            arcs.append((0, place, model.new_bool_var("")))
            arcs.append((place, 0, model.new_bool_var("")))
            for other_place, other in enumerate(tasks, 1):
                if one == other or self.first[one] + self.lasts[one] > self.last[other]:
                    continue
                arc = model.new_bool_var("")
                model.add(self.start[other] >= self.end[last[one]]).only_enforce_if(arc)
                arcs.append((place, other_place, arc))
                if part[last[one]] != part[other]:
                    changed.append(arc)
        model.add_circuit(arcs)
        inside = sum(
            part[one] != part[two] for unit in self.units for one, two in zip(unit, unit[1:], strict=False)
        )
        return sum(changed) + inside

    def moved(self, order: list[int]) -> Any:
        """How many neighbours in an order have changed places."""
        swapped = []
        block = {index: unit[0] for unit in self.units for index in unit}
        for one, other in zip(order, order[1:], strict=False):
            if block[one] == block[other]:
                continue
            literal = self.model.new_bool_var("")
            self.model.add(self.start[one] <= self.start[other]).only_enforce_if(~literal)
            swapped.append(literal)
        return sum(swapped)

    def hint(self, starts: dict[int, int], makers: dict[int, int]) -> None:
        for index, at in starts.items():
            if index in self.start and index not in self.inside:
                self.model.add_hint(self.start[index], at)
        for (index, maker), literal in self.by.items():
            if index in makers:
                self.model.add_hint(literal, makers[index] == maker)

    # Solving

    def best(self, aim: str, objective: Any, work: Work, *, least: bool = True, most: float = 1e9) -> Answer:
        """Solve for one aim. Values and bounds are whole; for a proven answer they are the same."""
        if objective is None:
            pass
        elif least:
            self.model.minimize(objective)
        else:
            self.model.maximize(objective)
        work.progress({"aim": aim, "value": None, "work": work.left / work.whole})
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        if self.linearization is not None:
            solver.parameters.linearization_level = self.linearization
        solver.parameters.max_deterministic_time = max(0.01, min(work.left, most))
        with _watched(solver, work):
            status = solver.solve(self.model, _reporter(self.cp, aim, work))
        work.left -= solver.response_proto.deterministic_time
        if status == self.cp.INFEASIBLE:
            return Answer("impossible")
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            return Answer("unknown")
        answer = Answer("proven" if status == self.cp.OPTIMAL else "found")
        answer.starts = {index: solver.value(start) for index, start in self.start.items()}
        by = {index: maker for (index, maker), it in self.by.items() if solver.value(it)}
        answer.makers = {index: by[unit[0]] for unit in self.units for index in unit if unit[0] in by}
        extra = {place: solver.value(longer) for place, longer in self.longer.items()}
        answer.extra = {place: units for place, units in extra.items() if units}
        if objective is not None:
            value, bound = round(solver.objective_value), round(solver.best_objective_bound)
            answer.values[aim] = value
            answer.bounds[aim] = value if answer.status == "proven" else bound
        return answer

    def conflict(self, work: Work) -> list[int] | None:
        """A set of named mosts that cannot all be kept, by assumption; None when they can or nobody knows."""
        self.model.add_assumptions(list(self.kept.values()))
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.max_deterministic_time = max(0.01, work.left)
        with _watched(solver, work):
            status = solver.solve(self.model)
        work.left -= solver.response_proto.deterministic_time
        if status != self.cp.INFEASIBLE:
            return None
        guilty = set(solver.sufficient_assumptions_for_infeasibility())
        return [place for place, literal in self.kept.items() if literal.index in guilty]


class _watched:
    """Stops a solver once the maker no longer wants its answer."""

    def __init__(self, solver: Any, work: Work) -> None:
        self.solver = solver
        self.work = work
        self.ended = threading.Event()
        self.thread = threading.Thread(target=self._look, daemon=True)

    def __enter__(self) -> None:
        self.thread.start()

    def __exit__(self, *_: object) -> None:
        self.ended.set()
        self.thread.join()

    def _look(self) -> None:
        while not self.ended.wait(_LOOK_MS / 1000):
            if self.work.cancelled():
                self.solver.stop_search()


def _reporter(cp: Any, aim: str, work: Work) -> Any:
    class Reporter(cp.CpSolverSolutionCallback):  # type: ignore[misc]
        def on_solution_callback(self) -> None:
            work.progress({"aim": aim, "value": round(self.objective_value), "work": work.left / work.whole})

    return Reporter()
