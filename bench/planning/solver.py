"""The order that nothing beats: a constraint model of the day, solved one aim after another.

One model an aim, the answer to the aims before it as constraints and hint: finish (or the latest
start), sessions, span, changes. OR-Tools is imported here, when a plan is asked for, and nowhere
else. One worker, a fixed seed and a limit in the solver's own count of work make an answer
repeatable on one machine and version; a plan is kept, never derived again.
"""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

from bench.planning.rules import Rules
from bench.shapes.planning import AimName, PlanStatus, Progress, Suggestion

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    from bench.planning.rules import Expr

MAX_CIRCUIT = 60  # steps; beyond it changes of part are left as they come
_LOOK_MS = 50  # how often the maker's cancel is looked at while the solver works


def available() -> bool:
    """Whether the solver is installed (the extra `plan`)."""
    from importlib.util import find_spec

    return find_spec("ortools") is not None


@dataclass
class Answer:
    """What the solver says: starts by task number, in units, and how good they are."""

    status: PlanStatus
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
        progress: Callable[[Progress], None] | None = None,
    ) -> None:
        self.whole = left
        self.left = left
        self.cancelled = cancelled or (lambda: False)
        self.progress = progress or (lambda said: None)

    def out(self) -> bool:
        return self.left <= 0 or self.cancelled()


class Model(Rules):
    """The day as constraints, to be solved for one aim."""

    linearization: int | None = None  # None: the solver's own

    # Aims

    def quickly(self) -> None:
        """Search without the linear relaxation."""
        self.linearization = 0

    def thoroughly(self) -> None:
        """Search with all of it."""
        self.linearization = 2

    def finish_var(self, bound: int | None = None) -> "Expr":
        """bound: no finish is sooner, as is known already."""
        finish = self.model.new_int_var(self.grid.now if bound is None else bound, self.horizon, "finish")
        for index in self.grid.open:
            self.model.add(self.end[index] <= finish)
        return finish

    def begin_var(self) -> "Expr":
        """The first start of any hands-on step."""
        begin = self.model.new_int_var(self.grid.now, self.horizon, "begin")
        for index in self.grid.open:
            if self.grid.hands[index]:
                self.model.add(begin <= self.start[index])
        return begin

    def sessions(self, count: int | None = None, span: int | None = None) -> "tuple[Expr, Expr]":
        """(how many sessions, the sum of their spans); count and span hold what is already known.

        Three cuts that follow from the rest decide the span at once: a session is no shorter than the
        steps in it, and the sessions kept, and their spans, are long enough for all steps.
        """
        grid, model = self.grid, self.model
        tasks = [unit[0] for unit in self.units]
        heres: dict[int, list[cp_model.IntVar]] = {index: [] for index in tasks}
        used: list[cp_model.IntVar] = []
        spans: list[Expr] = []
        lengths: list[Expr] = []
        for maker, hours in enumerate(grid.hours):
            for place, (opens, closes) in enumerate(hours):
                could = [
                    index
                    for index in tasks
                    if max(opens, self.first[index]) <= min(closes - self.lasts[index], self.last[index])
                ]
                if could:
                    kept, length = self._session(maker, place, could, heres)
                    used.append(kept)
                    spans.append(length)
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

    def _session(
        self, maker: int, place: int, could: list[int], heres: "dict[int, list[cp_model.IntVar]]"
    ) -> "tuple[cp_model.IntVar, Expr]":
        """Whether a stretch is used, and from its first step to its last. heres: by step, whether it is in here."""
        model = self.model
        opens, closes = self.grid.hours[maker][place]
        last = {unit[0]: unit[-1] for unit in self.units}
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
        return kept, end - begin

    def longer_sum(self) -> "Expr":
        """How much longer the hours are in all; of two the same, the earlier stretch is made longer."""
        return sum((1000 + min(place, 500)) * longer for (_, place), longer in self.longer.items())

    def changes(self) -> "Expr":
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
        inside = sum(part[one] != part[two] for unit in self.units for one, two in pairwise(unit))
        return sum(changed) + inside

    def moved(self, order: list[int]) -> "Expr":
        """How many neighbours in an order have changed places."""
        swapped = []
        block = {index: unit[0] for unit in self.units for index in unit}
        for one, other in pairwise(order):
            if block[one] == block[other]:
                continue
            literal = self.model.new_bool_var("")
            self.model.add(self.start[one] <= self.start[other]).only_enforce_if(~literal)
            swapped.append(literal)
        return sum(swapped)

    def hint(self, starts: dict[int, int], makers: dict[int, int]) -> None:
        for index, at in starts.items():
            if index in self.heads:
                self.model.add_hint(self.heads[index], at)
        for (index, maker), literal in self.by.items():
            if index in makers:
                self.model.add_hint(literal, makers[index] == maker)

    # Solving

    def best(
        self,
        aim: AimName | Suggestion,
        objective: "Expr | None",
        work: Work,
        *,
        least: bool = True,
        most: float = 1e9,
    ) -> Answer:
        """Solve for one aim. Values and bounds are whole; for a proven answer they are the same."""
        from ortools.sat.python import cp_model

        if objective is not None:
            if least:
                self.model.minimize(objective)
            else:
                self.model.maximize(objective)
        work.progress({"aim": aim, "value": None, "work": work.left / work.whole})
        solver = self._solver(min(work.left, most))
        if self.linearization is not None:
            solver.parameters.linearization_level = self.linearization
        with watched(solver, work):
            status = solver.solve(self.model, _reporter(aim, work))
        work.left -= solver.response_proto.deterministic_time
        if status == cp_model.INFEASIBLE:
            return Answer("impossible")
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return Answer("unknown")
        answer = Answer("proven" if status == cp_model.OPTIMAL else "found")
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

    def conflict(self, work: Work, kept: list[int]) -> list[int] | None:
        """Of the named gaps in `kept`, the others let go, some that cannot all be kept, by assumption; None when
        they can or nobody knows."""
        from ortools.sat.python import cp_model

        for place, literal in self.kept.items():
            if place not in kept:
                self.model.add(literal == 0)
        named = {place: literal for place, literal in self.kept.items() if place in kept}
        self.model.add_assumptions(list(named.values()))
        solver = self._solver(work.left)
        with watched(solver, work):
            status = solver.solve(self.model)
        work.left -= solver.response_proto.deterministic_time
        if status != cp_model.INFEASIBLE:
            return None
        guilty = set(solver.sufficient_assumptions_for_infeasibility())
        return [place for place, literal in named.items() if literal.index in guilty]

    def _solver(self, work: float) -> "cp_model.CpSolver":
        """One worker and a fixed seed: the same answer to the same question."""
        from ortools.sat.python import cp_model

        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.max_deterministic_time = max(0.01, work)
        return solver


class watched:
    """Stops a solver once the maker no longer wants its answer."""

    def __init__(self, solver: "cp_model.CpSolver", work: Work) -> None:
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


def _reporter(aim: AimName | Suggestion, work: Work) -> "cp_model.CpSolverSolutionCallback":
    from ortools.sat.python import cp_model

    class Reporter(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            work.progress({"aim": aim, "value": round(self.objective_value), "work": work.left / work.whole})

    return Reporter()
