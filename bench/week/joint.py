"""Sizes and times in one model: which batches, how large, when, by whom, and for whom.

Each recipe has so many places for batches; a place is used at one of the sizes, or not at all. One model an aim, the
answers before as limits and as hint: pieces short; the price of bringing back; windows of quality missed; batches;
the hands' time; the age of what is handed over. One worker, a fixed seed, a limit in the solver's own count of work.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.planning.solver import Work, watched
from bench.shapes.week import WeekAimName
from bench.week.batch_rules import Batches, Place
from bench.week.bench_time import Batch, Made, Source, ready
from bench.week.units import InUnits

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Expr = cp_model.LinearExpr | int

AIMS: tuple[WeekAimName, ...] = ("short", "back", "quality", "batches", "hands", "age")


@dataclass
class Found:
    """What the model says of one aim."""

    made: Made | None
    value: int | None = None
    bound: int | None = None
    impossible: bool = False


class Joint(Batches):
    """places: how many batches each make may have. must: what is known already, aim -> the most."""

    def __init__(
        self,
        units: InUnits,
        places: list[int],
        must: dict[WeekAimName, int],
        floor: dict[WeekAimName, int] | None = None,
    ) -> None:
        super().__init__(units, places)
        self.fed: dict[
            tuple[Source, int], cp_model.IntVar
        ] = {}  # (where it is from, the place that takes it)
        self._give()
        self._take()
        self._share()
        self.aims: dict[WeekAimName, Expr] = self._aims()
        for aim, most in must.items():
            self.model.add(self.aims[aim] <= most)
        for aim, least in (floor or {}).items():
            self.model.add(self.aims[aim] >= least)

    # For whom

    def _give(self) -> None:
        units, model = self.units, self.model
        into: dict[int, list[cp_model.IntVar]] = {want: [] for want in range(len(units.due))}
        for place in self.places:
            goods = [size.good for size in units.sizes[place.make]]
            keeps = units.keeps[place.make]
            for want in units.wants_of(place.make):
                most = min(units.pieces[want], max(goods))
                gives, gave = model.new_int_var(0, most, ""), model.new_bool_var("")
                model.add(gives <= most * gave)
                model.add_implication(gave, place.used)
                model.add(place.end <= units.due[want]).only_enforce_if(gave)
                if keeps is not None:
                    model.add(place.end + keeps >= units.due[want]).only_enforce_if(gave)
                place.gives[want], place.gave[want] = gives, gave
                into[want].append(gives)
        for number, stock in enumerate(units.stock):
            could = [want for want in into if units.could_give(stock, want)]
            for want in could:
                self.given[number, want] = model.new_int_var(0, min(stock.pieces, units.pieces[want]), "")
                into[want].append(self.given[number, want])
        self.short = []
        for want, to in into.items():
            lacks = model.new_int_var(0, units.pieces[want], "")
            model.add(sum(to) + lacks == units.pieces[want])
            self.short.append(lacks)

    def _share(self) -> None:
        """Nobody is given more than there is, as pieces or as parts."""
        for number, place in enumerate(self.places):
            sizes = self.units.sizes[place.make]
            good = sum(size.good * literal for size, literal in zip(sizes, place.chosen, strict=True))
            self._no_more(("batch", number), place.make, [*place.gives.values()], good)
        for number, stock in enumerate(self.units.stock):
            given = [each for (of, _), each in self.given.items() if of == number]
            self._no_more(("there", number), stock.make, given, stock.pieces)

    def _no_more(self, source: Source, make: int, given: "list[cp_model.IntVar]", pieces: "Expr") -> None:
        part = self.units.part[make]
        each = part.each if part else 1
        fed = [much for (of, _), much in self.fed.items() if of == source]
        self.model.add(each * sum(given) + sum(fed) <= each * pieces)

    def _take(self) -> None:
        """From the lots and of parts, each batch what it takes, begun while they are there and good."""
        units, model = self.units, self.model
        lots = units.week["lots"]
        taken: dict[int, list[cp_model.IntVar]] = {number: [] for number in range(len(lots))}
        for at, place in enumerate(self.places):
            sizes = units.sizes[place.make]
            for ingredient in sorted({key for size in sizes for key in size.takes} & units.counted()):
                own = [number for number, lot in enumerate(lots) if lot["ingredient"] == ingredient]
                needs = [size.takes.get(ingredient, 0) for size in sizes]
                for number in own:
                    most = min(lots[number]["mg"], max(needs))
                    takes, some = model.new_int_var(0, most, ""), model.new_bool_var("")
                    model.add(takes <= most * some)
                    model.add(place.starts[0] >= units.up(lots[number]["since"])).only_enforce_if(some)
                    until = lots[number]["until"]
                    if until is not None:
                        model.add(place.starts[0] <= units.down(until)).only_enforce_if(some)
                    place.takes[number] = takes
                    taken[number].append(takes)
                whole = sum(mg * literal for mg, literal in zip(needs, place.chosen, strict=True))
                parts = self._parts(at, place, ingredient, max(needs))
                model.add(sum([*(place.takes[number] for number in own), *parts]) == whole)
        for number, those in taken.items():
            if those:
                model.add(sum(those) <= lots[number]["mg"])

    def _parts(self, at: int, place: Place, ingredient: str, needs: int) -> "list[cp_model.IntVar]":
        """How much of a part comes from where: it is ready before the batch is begun, and still keeps then."""
        units, model = self.units, self.model
        makers, begins = units.makers_of(ingredient), place.starts[0]
        for number, stock in enumerate(units.stock):
            if stock.make in makers:
                some = self._fed(("there", number), at, needs)
                model.add(begins >= stock.since).only_enforce_if(some)
                if stock.until is not None:
                    model.add(begins <= stock.until).only_enforce_if(some)
        for number, other in enumerate(self.places):
            if other.make in makers and number != at:
                some, keeps = self._fed(("batch", number), at, needs), units.keeps[other.make]
                model.add_implication(some, other.used)
                model.add(other.end <= begins).only_enforce_if(some)
                if keeps is not None:
                    model.add(begins <= other.end + keeps).only_enforce_if(some)
        return [
            much
            for ((kind, number), to), much in self.fed.items()
            if to == at and (units.stock if kind == "there" else self.places)[number].make in makers
        ]

    def _fed(self, source: Source, at: int, most: int) -> "cp_model.IntVar":
        """Whether a batch takes of there; how much is kept in `fed`."""
        much, some = self.model.new_int_var(0, most, ""), self.model.new_bool_var("")
        self.model.add(much <= most * some)
        self.fed[source, at] = much
        return some

    # Aims

    def _aims(self) -> "dict[WeekAimName, Expr]":
        units = self.units
        hands = [
            size.hands * literal
            for place in self.places
            for size, literal in zip(units.sizes[place.make], place.chosen, strict=True)
        ]
        return {
            "short": sum(self.short),
            "back": sum(price * late for late, price in self.back),
            "quality": sum(self.missed),
            "batches": sum(place.used for place in self.places),
            "hands": sum(hands),
            "age": sum(self._ages()),
        }

    def _ages(self) -> "list[Expr]":
        """From when a batch is ready to each hand-over that it gives to."""
        ages: list[Expr] = []
        for place in self.places:
            for want, gave in place.gave.items():
                age = self.model.new_int_var(0, self.units.due[want], "")
                self.model.add(age >= self.units.due[want] - place.end).only_enforce_if(gave)
                ages.append(age)
        return ages

    def hint(self, made: Made) -> None:
        """Begin from what is known."""
        left = list(enumerate(made.batches))
        of: dict[int, int] = {}  # place -> batch
        for number, place in enumerate(self.places):
            own = [each for each in left if each[1].make == place.make]
            own.sort(key=lambda each: ready(self.units.sizes[each[1].make][each[1].size], each[1].starts))
            self._hint(place, own[0][1] if own else None)
            if own:
                of[number] = own[0][0]
                left.remove(own[0])
        for ((kind, number), at), much in self.fed.items():
            source = (kind, number if kind == "there" else of.get(number, -1))
            self.model.add_hint(much, made.fed.get((source, of.get(at, -1)), 0))
        for key, pieces in self.given.items():
            self.model.add_hint(pieces, made.given.get(key, 0))

    def _hint(self, place: Place, batch: Batch | None) -> None:
        hint = self.model.add_hint
        hint(place.used, batch is not None)
        for number, literal in enumerate(place.chosen):
            hint(literal, batch is not None and batch.size == number)
        for sitting, start in enumerate(place.starts):
            known = batch is not None and sitting < len(batch.starts)
            hint(start, batch.starts[sitting] if batch is not None and known else 0)
        if not self.units.alone:
            for (sitting, number, maker), literal in place.by.items():
                hint(
                    literal,
                    batch is not None and batch.size == number and batch.makers[sitting] == maker,
                )
        ends = ready(self.units.sizes[batch.make][batch.size], batch.starts) if batch is not None else 0
        hint(place.end, ends)
        for want, gives in place.gives.items():
            pieces = batch.gives.get(want, 0) if batch is not None else 0
            hint(gives, pieces)
            hint(place.gave[want], pieces > 0)
        for lot, takes in place.takes.items():
            hint(takes, batch.takes.get(lot, 0) if batch is not None else 0)

    def best(self, aim: WeekAimName, work: Work, most: float) -> Found:
        """Solve for one aim, with no more than so much work."""
        from ortools.sat.python import cp_model

        self.model.minimize(self.aims[aim])
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.max_deterministic_time = max(0.01, min(work.left, most))
        with watched(solver, work):
            status = solver.solve(self.model)
        work.left -= solver.response_proto.deterministic_time
        if status == cp_model.INFEASIBLE:
            return Found(None, impossible=True)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return Found(None)
        value = round(solver.objective_value)
        bound = value if status == cp_model.OPTIMAL else round(solver.best_objective_bound)
        return Found(self._made(solver), value, bound)

    def _made(self, solver: "cp_model.CpSolver") -> Made:
        made = Made(given={key: count for key, each in self.given.items() if (count := solver.value(each))})
        used = [number for number, place in enumerate(self.places) if solver.value(place.used)]
        of = {number: batch for batch, number in enumerate(used)}
        for ((kind, number), at), each in self.fed.items():
            if much := solver.value(each):
                made.fed[(kind, number if kind == "there" else of[number]), of[at]] = much
        for place in (self.places[number] for number in used):
            number = next(each for each, literal in enumerate(place.chosen) if solver.value(literal))
            size = self.units.sizes[place.make][number]
            by = {
                sitting: maker
                for (sitting, of, maker), literal in place.by.items()
                if of == number and solver.value(literal)
            }
            made.batches.append(
                Batch(
                    place.make,
                    number,
                    [solver.value(start) for start in place.starts[: len(size.lasts)]],
                    [by[sitting] for sitting in range(len(size.lasts))],
                    {want: count for want, each in place.gives.items() if (count := solver.value(each))},
                    {lot: mg for lot, each in place.takes.items() if (mg := solver.value(each))},
                )
            )
        return made
