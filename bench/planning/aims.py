"""One model an aim, the answers to the aims before it as constraints and hint; and what each aim reached.

Starts and makers are by task number, starts in whole units of the grid.
"""

from typing import TypeAlias

from bench.planning import solver
from bench.planning.grid import Grid
from bench.shapes.planning import AimName, PlanAim, PlanStatus

Placed: TypeAlias = tuple[dict[int, int], dict[int, int]]  # starts, makers

FIRST_SHARE = 0.7  # of the work goes to the first aim at most, so that something is left for the others
_QUICK_SHARE = 0.2  # of that without the linear relaxation, which finds sooner and proves later
_SPAN_SHARE = 0.1  # and so much on the span, at first
_CHANGES_WORK = 0.3  # changes of part come last and are seldom proven: no more work than this on them


class Aims:
    def __init__(self, grid: Grid, work: solver.Work, before: list[str] | None, changes: bool) -> None:
        """before: the order of the plan that was followed. changes: whether changes of part count."""
        self.grid = grid
        self.work = work
        self.before = before
        self.changes = changes
        self.reached: list[PlanAim] = []

    def latest_start(self, finish: int, placed: Placed) -> solver.Answer:
        model = self._model(finish, placed)
        most = self.work.whole * FIRST_SHARE
        return model.best("start", model.begin_var(), self.work, least=False, most=most)

    def soonest(self, bound: int, finish: int | None, placed: Placed) -> solver.Answer:
        """The soonest finish: found without much thought, then, where that leaves a doubt, thought through."""
        share = self.work.whole * FIRST_SHARE
        quick = self._model(finish, placed)
        quick.quickly()
        answer = quick.best("finish", quick.finish_var(bound), self.work, most=share * _QUICK_SHARE)
        if answer.status in ("proven", "impossible") or self.work.out():
            return answer
        if answer.starts:
            finish, placed = answer.values["finish"], (answer.starts, answer.makers)
        thorough = self._model(finish, placed)
        if any(self.grid.hands[index] for index in self.grid.open):
            thorough.sessions()
            thorough.thoroughly()
        most = share * (1 - _QUICK_SHARE)
        other = thorough.best("finish", thorough.finish_var(bound), self.work, most=most)
        return answer if answer.starts and not other.starts else other

    def tidier(self, finish: int | None, begin: int | None, placed: Placed) -> Placed:
        """The aims after the first, each with those before it kept. begin: the first start, where that is kept."""
        if not any(self.grid.hands[index] for index in placed[0]):
            return placed
        known: dict[AimName, int] = {}
        for aim in self._later_aims(len(placed[0])):
            if self.work.out():
                break
            answer = self._tidied(aim, finish, begin, placed, known)
            if not answer.starts:
                break
            placed = answer.starts, answer.makers
            known[aim] = answer.values[aim]
            self.note(aim, answer)
        return placed

    def _later_aims(self, steps: int) -> list[AimName]:
        if self.before is not None:
            return ["sessions", "moved"]
        return (
            ["sessions", "span", "changes"]
            if self.changes and steps <= solver.MAX_CIRCUIT
            else ["sessions", "span"]
        )

    def _tidied(
        self, aim: AimName, finish: int | None, begin: int | None, placed: Placed, known: dict[AimName, int]
    ) -> solver.Answer:
        """The best for one aim. known: what those before it reached."""

        def best(most: float, placed: Placed, quick: bool = False, exact: int | None = None) -> solver.Answer:
            """exact: the span is to be just that, and whatever keeps it will do."""
            model = self._model(finish, placed)
            if quick:
                model.quickly()
            if begin is not None:
                model.model.add(model.begin_var() >= begin)
            count, span = model.sessions(known.get("sessions"), known.get("span") if exact is None else exact)
            if exact is not None:
                answer = model.best(aim, None, self.work, most=most)
                answer.values, answer.bounds = {aim: exact}, {aim: exact}
                return answer
            objective = count if aim == "sessions" else span
            if aim == "changes":
                objective = model.changes()
            elif aim == "moved":
                order = self.grid.day.by_need(self.before or [])
                objective = model.moved([index for index in order if self.grid.hands[index]])
            return model.best(aim, objective, self.work, most=most)

        answer = solver.Answer("unknown")
        if aim == "span" and len(self.grid.hours) == 1:  # soon found where hands need not wait
            most = self.work.whole * _SPAN_SHARE
            hands = sum(self.grid.lasts[index] for index in placed[0] if self.grid.hands[index])
            answer = best(most, placed, quick=True, exact=hands)
            if not answer.starts and not self.work.out():
                answer = best(most, placed, quick=True)
            if answer.starts:
                placed = answer.starts, answer.makers
        if answer.proven(aim) or self.work.out():
            return answer
        other = best(_CHANGES_WORK if aim == "changes" else 1e9, placed)
        return other if other.starts else answer

    def least_broken(self, placed: Placed) -> tuple[solver.Answer, PlanStatus]:
        """Not every gap can be kept any more: what costs least, in the order of `price.py`, then the end. And how the
        last question ended. Impossible, raised, is a step that is longer than any bench hours."""
        answer = found = solver.Answer("unknown")
        known: list[int] = []
        aims: tuple[AimName, ...] = ("unkept", "share", "finish")
        for aim in aims:
            model = solver.Model(self.grid, soft=True)
            model.hint(*placed)
            sums = [model.unkept(), sum(model.share)]
            for value, total in zip(known, sums, strict=False):
                model.model.add(total <= value)
            objective = model.finish_var() if aim == "finish" else sums[len(known)]
            found = model.best(aim, objective, self.work)
            if not found.starts:
                break
            answer = found
            placed = found.starts, found.makers
            if aim != "finish":
                known.append(found.values[aim])
            self.note(aim, found)
        return answer, found.status

    def note(self, aim: AimName, answer: solver.Answer) -> None:
        value, bound = answer.values[aim], answer.bounds[aim]
        if aim in ("finish", "start"):
            value, bound = self.grid.ms(value), self.grid.ms(bound)
        elif aim == "span":
            value, bound = value * self.grid.unit, bound * self.grid.unit
        self.reached.append({"aim": aim, "value": value, "bound": bound, "proven": answer.proven(aim)})

    def _model(self, finish: int | None, placed: Placed) -> solver.Model:
        model = solver.Model(self.grid, finish=finish)
        model.hint(*placed)
        return model
