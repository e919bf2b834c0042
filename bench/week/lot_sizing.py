"""Lot sizing: how much of what to make in which period, so that all that is wanted is there at the least price.

The model is the facility-location one (Krarup and Bilde, 1977): a quantity is told by the period in which it is made
and the one for which it is wanted, so that without limits its linear relaxation is whole. The week asks it for a
bound (`bound.py`): whatever is left out there only makes the answer too hopeful. The published problems of the tests
go through the same function. OR-Tools is imported when a problem is solved; HiGHS, which comes with it, solves.
"""

from dataclasses import dataclass, field
from math import ceil, floor
from typing import TYPE_CHECKING

from bench.shapes.week import LotItem, LotProblem

if TYPE_CHECKING:
    from ortools.linear_solver.python import model_builder

    Sum = model_builder.LinearExprT

_EXACT = 1e-6  # what a solver calls whole may be off by so much


@dataclass
class LotAnswer:
    """What was found. least: no answer is cheaper. value: the price of the one that was found, None without one."""

    proven: bool
    least: int
    value: int | None = None
    made: dict[tuple[int, int, int], float] = field(
        default_factory=dict
    )  # (item, period made, period wanted) -> how much


def cheapest(problem: LotProblem, seconds: float) -> LotAnswer:
    """The cheapest way to have what is wanted, or what is known of it after so many seconds of the solver's own clock.

    Prices are whole numbers, so the bound is rounded up. What is short costs the want's own price, where it has one;
    without one all must be met, and then a problem that has no answer is a ValueError.
    """
    from ortools.linear_solver.python import model_builder

    model = _Lots(problem)
    model.minimise()
    solver = model_builder.Solver("scip")
    solver.set_time_limit_in_seconds(seconds)
    status = solver.solve(model.model)
    if status == model_builder.SolveStatus.INFEASIBLE:
        raise ValueError("No quantities meet all that is wanted.")
    if status not in (model_builder.SolveStatus.OPTIMAL, model_builder.SolveStatus.FEASIBLE):
        return LotAnswer(False, 0)
    least = max(0, ceil(solver.best_objective_bound - _EXACT))
    value = floor(solver.objective_value + 0.5)
    made = {key: float(amount) for key, each in model.made.items() if (amount := solver.value(each)) > _EXACT}
    proven = status == model_builder.SolveStatus.OPTIMAL and least >= value
    return LotAnswer(proven, least, value, made)


class _Lots:
    def __init__(self, problem: LotProblem) -> None:
        from ortools.linear_solver.python import model_builder

        self.problem = problem
        self.model = model_builder.Model()  # type: ignore[no-untyped-call]
        self.many: dict[tuple[int, int, int], model_builder.Variable] = {}  # (item, period, way) -> batches
        self.made: dict[tuple[int, int, int], model_builder.Variable] = {}
        self.short: dict[tuple[int, int], model_builder.Variable] = {}
        for place, item in enumerate(problem["items"]):
            self._batches(place, item)
            self._quantities(place, item)
            self._wanted(place, item)
        self._limits()

    def _batches(self, place: int, item: LotItem) -> None:
        whole = sum(item["wanted"]) + item.get("beside", 0)
        for way, each in enumerate(item["ways"]):
            most = 1 if each["gives"] is None else ceil(whole / each["gives"]) if each["gives"] else 0
            for period in range(each["first"], self.problem["periods"]):
                self.many[place, period, way] = self.model.new_int_var(0, most, "")

    def _quantities(self, place: int, item: LotItem) -> None:
        """Made in a period for a period: no more than is wanted there by each batch that could give it."""
        for wanted, pieces in enumerate(item["wanted"]):
            keeps = item["keeps"]
            for period in range(wanted + 1):
                if pieces and (keeps is None or wanted - period <= keeps[period]):
                    self.made[place, period, wanted] = self.model.new_num_var(0, pieces, "")
        for period in range(self.problem["periods"]):
            ways = self._ways(place, period)
            mine = self._of(place, period)
            gives = [(self._gives(item, way), many) for way, many in ways]
            if mine:
                self.model.add(sum(mine.values()) <= sum(most * many for most, many in gives))
            for wanted, amount in mine.items():
                pieces = item["wanted"][wanted]
                self.model.add(amount <= sum(min(most, pieces) * many for most, many in gives))

    def _ways(self, place: int, period: int) -> "list[tuple[int, model_builder.Variable]]":
        count = len(self.problem["items"][place]["ways"])
        return [
            (way, self.many[place, period, way]) for way in range(count) if (place, period, way) in self.many
        ]

    def _of(self, place: int, period: int) -> "dict[int, model_builder.Variable]":
        wanted = range(period, self.problem["periods"])
        return {each: self.made[place, period, each] for each in wanted if (place, period, each) in self.made}

    def _gives(self, item: LotItem, way: int) -> int:
        gives = item["ways"][way]["gives"]
        return sum(item["wanted"]) if gives is None else gives

    def _wanted(self, place: int, item: LotItem) -> None:
        for wanted, pieces in enumerate(item["wanted"]):
            given = [
                self.made[place, at, wanted] for at in range(wanted + 1) if (place, at, wanted) in self.made
            ]
            if not pieces:
                continue
            if item["short"] is None:
                self.model.add(sum(given) == pieces)
            else:
                lacks = self.short[place, wanted] = self.model.new_num_var(0, pieces, "")
                self.model.add(sum(given) + lacks == pieces)

    def _limits(self) -> None:
        """Of each thing no more is used in a span of periods than there is; and what is kept has room."""
        for limit in self.problem["limits"]:
            used: list[Sum] = []
            for place, item in enumerate(self.problem["items"]):
                for period in range(limit["first"], limit["last"] + 1):
                    used += [
                        item["ways"][way]["uses"].get(limit["of"], 0) * many
                        for way, many in self._ways(place, period)
                    ]
                    each = item["each"].get(limit["of"], 0)
                    used += [each * amount for amount in self._of(place, period).values() if each]
            if used:
                self.model.add(sum(used) <= limit["most"])
        for place, item in enumerate(self.problem["items"]):
            room = item["room"]
            for period in range(self.problem["periods"]):
                if room is None:
                    break
                kept = [
                    amount for (of, at, to), amount in self.made.items() if of == place and at <= period < to
                ]
                if kept:
                    self.model.add(sum(kept) <= room)

    def minimise(self) -> None:
        terms: list[Sum] = []
        for (place, period, way), many in self.many.items():
            terms.append(self.problem["items"][place]["ways"][way]["price"][period] * many)
        for (place, period, wanted), amount in self.made.items():
            item = self.problem["items"][place]
            price = item["piece_price"] + item["hold_price"] * (wanted - period)
            terms += [price * amount] if price else []
        for (place, _), lacks in self.short.items():
            terms.append((self.problem["items"][place]["short"] or 0) * lacks)
        self.model.minimize(sum(terms))
