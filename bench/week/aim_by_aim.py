"""The plan of a week: the plain rule first, then the model aim by aim, each against what no plan beats."""

from collections.abc import Callable, Iterator

from bench.errors import PlanError
from bench.planning.solver import Work, available
from bench.shapes.week import (
    PlacedSitting,
    SizeToMake,
    Week,
    WeekAim,
    WeekAimName,
    WeekBatch,
    WeekPart,
    WeekPlan,
    WeekStatus,
)
from bench.week.bench_time import Batch, BenchTime, Made, ready
from bench.week.bound import fewest_batches, least_short
from bench.week.in_turn import in_turn
from bench.week.joint import AIMS, Joint
from bench.week.keeping import faults
from bench.week.measure import measure
from bench.week.units import InUnits
from bench.whole import ceiling
from bench.words import say

WORK = 12.0  # the solver's own seconds for all aims
MOST_OF_ONE = 8  # batches of one recipe
MOST_BATCHES = 24
MOST_WANTS = 40
_SHARES: dict[WeekAimName, float] = {
    "short": 0.5,
    "back": 0.1,
    "quality": 0.1,
    "batches": 0.3,
    "hands": 0.2,
    "age": 0.3,
}
_IN_MS: tuple[WeekAimName, ...] = ("back", "hands", "age")


def plan_week(
    week: Week,
    *,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
    progress: Callable[[WeekPlan], None] | None = None,
) -> WeekPlan:
    """Which batches of what size, when and for whom, and how good that is known to be.

    budget: the solver's own seconds. progress hears of the first usable plan, and of each that is better.
    PlanError names the field of the week at fault.
    """
    check_week(week)
    searched = Search(InUnits(week), budget, cancelled)
    if progress is not None:
        progress(searched.plan())
    if available():
        for _ in searched.aim_by_aim():
            if progress is not None:
                progress(searched.plan())
    return searched.plan()


def check_week(week: Week) -> None:
    """Raise for what cannot be planned at all."""
    if not week["wants"]:
        raise PlanError("wants", say("week-nothing-wanted"))
    if len(week["wants"]) > MOST_WANTS:
        raise PlanError("wants", say("week-too-many-wants", most=MOST_WANTS, count=len(week["wants"])))
    for place, want in enumerate(week["wants"]):
        if want["by"] <= week["since"]:
            raise PlanError(f"wants.{place}.by", say("week-want-past"))
    for place, make in enumerate(week["makes"]):
        if not make["sizes"]:
            raise PlanError(f"makes.{place}", say("week-no-size", title=make["title"]))
    if not any(maker["hours"] for maker in week["makers"]):
        raise PlanError("makers", say("week-no-hours"))


class Search:
    """The best that is known of a week, and what is known of how good it is."""

    def __init__(self, units: InUnits, budget: float, cancelled: Callable[[], bool] | None = None) -> None:
        self.units = units
        self.budget = budget
        self.work = Work(budget, cancelled)
        self.made = in_turn(units)
        self.values = measure(units, self.made)
        self.bounds: dict[WeekAimName, int | None] = {}
        self.solved = False

    def aim_by_aim(self, aims: tuple[WeekAimName, ...] = AIMS) -> Iterator[WeekAimName]:
        """Each aim in turn; afterwards `made` is the best for it and all before it."""
        known = True  # whether all aims so far are proven: only then is a bound true of the whole
        must: dict[WeekAimName, int] = {}
        for aim in aims:
            floor = self._floor(aim) if known else 0
            if self.values[aim] > floor and not self.work.out():
                floor = self._solve(aim, must, floor)
            self.bounds[aim] = min(floor, self.values[aim]) if known else None
            known = known and self.bounds[aim] == self.values[aim]
            must[aim] = self.values[aim]
            yield aim

    def _floor(self, aim: WeekAimName) -> int:
        """What no plan beats, without a search; only of an aim before which all are proven."""
        if self.values[aim] == 0:
            return 0
        if aim == "short":
            return least_short(self.units)
        return fewest_batches(self.units, self.values["short"]) if aim == "batches" else 0

    def _solve(self, aim: WeekAimName, must: dict[WeekAimName, int], floor: int) -> int:
        model = Joint(self.units, places_of(self.units, self.made), must, {aim: floor})
        model.hint(self.made)
        found = model.best(aim, self.work, self.budget * _SHARES[aim])
        if found.made is not None:
            values = measure(self.units, found.made)
            order = AIMS[: AIMS.index(aim) + 1]
            if [values[each] for each in order] <= [self.values[each] for each in order]:
                self.made, self.values, self.solved = found.made, values, True
        return max(floor, found.bound or 0)

    def plan(self) -> WeekPlan:
        """The best so far. What it does not keep, or not as told, is a fault of ours and never given out."""
        plan = _written(self)
        broken = faults(self.units.week, plan)
        if broken:
            raise AssertionError(f"A week's plan does not hold: {broken[:3]}")
        return plan


def places_of(units: InUnits, made: Made) -> list[int]:
    """How many batches of each make are looked for: one an instant, or as many as its largest size asks for; of a part
    one for each batch that it may go into, if it does not keep."""
    found: list[int] = []
    needed = units.needed()
    for make, sizes in enumerate(units.sizes):
        wants = units.wants_of(make)
        need = needed[make]
        largest = max(size.good for size in sizes)
        by_size = ceiling(need, largest) + 1 if largest else 0
        own = sum(batch.make == make for batch in made.batches)
        instants = len({units.due[want] for want in wants})
        found.append(max(own, min(MOST_OF_ONE, max(instants, by_size))))
    for make, part in enumerate(units.part):
        if part is not None and units.keeps[make] is not None:
            into = [
                many
                for many, sizes in zip(found, units.sizes, strict=True)
                if any(part.ingredient in size.takes for size in sizes)
            ]
            found[make] = max(found[make], min(MOST_OF_ONE, sum(into)))
    return found


def _written(search: Search) -> WeekPlan:
    units, week = search.units, search.units.week
    wants = [want["id"] for want in week["wants"]]
    told = [_batch(units, search.made, place) for place in range(len(search.made.batches))]
    turn = sorted(
        range(len(told)),
        key=lambda at: (told[at]["sittings"][0]["starts_at"], told[at]["ready_at"], told[at]["make"]),
    )
    batches = [_with_parts(units, search.made, told[at], at, turn) for at in turn]
    there: dict[str, int] = {}
    for (_, want), pieces in search.made.given.items():
        there[wants[want]] = there.get(wants[want], 0) + pieces
    aims = [_aim(search, aim) for aim in AIMS]
    status: WeekStatus = "proven" if aims[0]["proven"] else "found" if search.solved else "rule"
    return {
        "status": status,
        "aims": aims,
        "batches": batches,
        "from_there": there,
        "short": [
            {"want": wants[want], "short": pieces} for want, pieces in search.made.short(units).items()
        ],
        "within": sum(places_of(units, search.made)),
        "served": [],
        "helps": [],
    }


def _aim(search: Search, aim: WeekAimName) -> WeekAim:
    scale = search.units.unit if aim in _IN_MS else 1
    value, bound = search.values[aim], search.bounds.get(aim)
    return {
        "aim": aim,
        "value": value * scale,
        "bound": None if bound is None else bound * scale,
        "proven": value == bound,
    }


def _with_parts(units: InUnits, made: Made, told: WeekBatch, at: int, turn: list[int]) -> WeekBatch:
    """With the parts that it takes, the batches they come from by their place in the plan."""
    parts: list[WeekPart] = []
    for ((kind, place), to), much in sorted(made.fed.items()):
        make = units.stock[place].make if kind == "there" else made.batches[place].make
        part = units.part[make]
        if to == at and part is not None:
            where = (turn.index(place), None) if kind == "batch" else (None, place)
            parts.append({"ingredient": part.ingredient, "much": much, "batch": where[0], "there": where[1]})
    return {**told, "parts": parts} if parts else told


def _batch(units: InUnits, made: Made, place: int) -> WeekBatch:
    batch = made.batches[place]
    make = units.week["makes"][batch.make]
    sized, size = make["sizes"][batch.size], units.sizes[batch.make][batch.size]
    wants, lots = units.week["wants"], units.week["lots"]
    return {
        "make": make["id"],
        "size": batch.size,
        "pieces": sized["pieces"],
        "good": sized["good"],
        "sittings": _sittings(units, sized, batch),
        "ready_at": units.ms(ready(size, batch.starts)),
        "gives": {wants[want]["id"]: pieces for want, pieces in sorted(batch.gives.items())},
        "takes": {lots[lot]["id"]: mg for lot, mg in sorted(batch.takes.items())},
        "begin_by": _begin_by(units, made, place),
    }


def _sittings(units: InUnits, sized: SizeToMake, batch: Batch) -> list[PlacedSitting]:
    lasts = units.sizes[batch.make][batch.size].lasts
    found: list[PlacedSitting] = []
    for place, sitting in enumerate(sized["sittings"]):
        most = [
            gap["most_ms"] for gap in sized["apart"] if gap["from"] == place and gap["most_ms"] is not None
        ]
        found.append(
            {
                "name": sitting["name"],
                "starts_at": units.ms(batch.starts[place]),
                "ends_at": units.ms(batch.starts[place] + lasts[place]),
                "maker": batch.makers[place],
                "keeps_ms": min(most) if most else None,
            }
        )
    return found


def _begin_by(units: InUnits, made: Made, place: int) -> int | None:
    """The latest start that is found with all other batches where they are, while what it takes is good."""
    batch = made.batches[place]
    takers = [to for (source, to) in made.fed if source == ("batch", place)]
    dues = [*(units.due[want] for want in batch.gives), *(made.batches[to].starts[0] for to in takers)]
    if not dues:
        return None
    bench = BenchTime(units, [other for other in made.batches if other is not batch])
    latest = bench.latest(units.sizes[batch.make][batch.size], batch.starts[0], min(dues))
    last = max(batch.starts[0], latest[0][0]) if latest else batch.starts[0]
    return units.ms(max(batch.starts[0], min([last, *_good_until(units, made, place)])))


def _good_until(units: InUnits, made: Made, place: int) -> list[int]:
    """Until when each thing keeps that a batch takes."""
    lots = (units.week["lots"][lot]["until"] for lot in made.batches[place].takes)
    found = [units.down(until) for until in lots if until is not None]
    for (kind, number), to in made.fed:
        if to != place:
            continue
        if kind == "there":
            until = units.stock[number].until
        else:
            part = made.batches[number]
            keeps = units.keeps[part.make]
            until = None if keeps is None else ready(units.sizes[part.make][part.size], part.starts) + keeps
        found += [] if until is None else [until]
    return found
