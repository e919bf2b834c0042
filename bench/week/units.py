"""A week in whole units: what the rule, the model and the bound count in. What does not divide is rounded to the side
that keeps every promise."""

from itertools import pairwise
from math import gcd
from typing import NamedTuple

from bench.shapes.planning import GapClass
from bench.shapes.week import SizeToMake, Want, Week
from bench.whole import ceiling

LEAST_UNIT_MS = 15_000  # as fine as hand times are kept
COUNTED = "pieces."  # stands before the name of what is taken in pieces, not in mg
MOST_NESTED = 3  # parts of parts, and theirs


class Between(NamedTuple):
    """From the start of one sitting to the start of a later one."""

    one: int
    two: int
    least: int
    most: int | None
    name: GapClass
    price: int


class Held(NamedTuple):
    """A thing of the kit, from an instant of one sitting to one of another."""

    key: str
    many: int
    one: int
    begins: int
    two: int
    ends: int


class Size(NamedTuple):
    """One batch at one size, in units."""

    good: int
    hands: int
    lasts: list[int]
    until: list[int]
    between: list[Between]
    holds: list[Held]
    takes: dict[str, int]


class Part(NamedTuple):
    """What a good piece is to the batches that it goes into."""

    ingredient: str
    each: int


class Stock(NamedTuple):
    """Pieces that are there, for wants of one recipe."""

    make: int
    pieces: int
    since: int
    until: int | None


class InUnits:
    """All of a week that a plan hangs on, numbered, in units from its first instant."""

    def __init__(self, week: Week) -> None:
        self.week = week
        self.unit = _unit(week)
        self.base = week["since"]
        self.place = {make["id"]: place for place, make in enumerate(week["makes"])}
        self.many = {key: each["many"] for key, each in week["equipment"].items()}
        self.due = [self.down(want["by"]) for want in week["wants"]]
        self.of = [self.place[want["make"]] for want in week["wants"]]
        self.pieces = [want["pieces"] for want in week["wants"]]
        self.horizon = max([0, *self.due])
        self.hours = [
            [
                (opens, closes)
                for opens, closes in (
                    (max(0, self.up(one)), min(self.down(two), self.horizon)) for one, two in maker["hours"]
                )
                if opens < closes
            ]
            for maker in week["makers"]
        ]
        self.sizes = [[self._size(each) for each in make["sizes"]] for make in week["makes"]]
        self.keeps = [
            None if make["keeps_ms"] is None else make["keeps_ms"] // self.unit for make in week["makes"]
        ]
        self.stock = [
            Stock(
                self.place[each["make"]],
                each["pieces"],
                self.up(each["since"]),
                None if each["until"] is None else self.down(each["until"]),
            )
            for each in week["there"]
        ]
        self.part = [
            Part(made["ingredient"], made["each"]) if (made := make.get("part")) else None
            for make in week["makes"]
        ]
        self.busy = {key: self._busy(key) for key in self.many}
        self.alone = len(week["makers"]) == 1  # one pair of hands never uses a thing twice at a time

    def up(self, ms: int) -> int:
        return ceiling(ms - self.base, self.unit)

    def down(self, ms: int) -> int:
        return (ms - self.base) // self.unit

    def ms(self, units: int) -> int:
        return self.base + units * self.unit

    def wants_of(self, make: int) -> list[int]:
        """By their instant."""
        return sorted(
            (want for want, of in enumerate(self.of) if of == make), key=lambda each: (self.due[each], each)
        )

    def could_give(self, stock: Stock, want: int) -> bool:
        due = self.due[want]
        return (
            stock.make == self.of[want] and stock.since <= due and (stock.until is None or due <= stock.until)
        )

    def makers_of(self, ingredient: str) -> list[int]:
        """The makes that it is a part of."""
        return [make for make, part in enumerate(self.part) if part and part.ingredient == ingredient]

    def counted(self) -> set[str]:
        """What a batch takes of the shelf or of another batch; all else is there."""
        lots = {lot["ingredient"] for lot in self.week["lots"]}
        return lots | {part.ingredient for part in self.part if part}

    def needed(self) -> list[int]:
        """How many good pieces each make may be asked for: by its wants, and as a part by the batches of others, of
        which there may be one more, since sizes are whole."""
        wanted = [sum(self.pieces[want] for want in self.wants_of(make)) for make in range(len(self.sizes))]
        need = wanted
        for _ in range(MOST_NESTED):  # a part of a part
            need = [
                wanted[make] + sum(self._taken(of, need[of], part) for of in range(len(need)))
                if part
                else wanted[make]
                for make, part in enumerate(self.part)
            ]
        return need

    def _taken(self, make: int, pieces: int, part: Part) -> int:
        return max(
            (
                ceiling(size.takes.get(part.ingredient, 0) * (ceiling(pieces, size.good) + 1), part.each)
                for size in self.sizes[make]
                if size.good and pieces
            ),
            default=0,
        )

    def scarce(self) -> list[str]:
        """What of the kit two batches could want at once, and not both have, those on the bench among them."""
        keys = {
            held.key
            for sizes in self.sizes
            for size in sizes
            for held in size.holds
            if self.busy[held.key] or not (self.alone and held.one == held.two)
        }
        return sorted(keys)

    def _busy(self, key: str) -> list[tuple[int, int, int]]:
        """From when to when so many are in use on the bench, one span after the other, and never more than there are."""
        those = [
            (max(0, self.down(each["since"])), self.up(each["until"]), each["many"])
            for each in self.week["busy"]
            if each["equipment"] == key
        ]
        turns = sorted({at for begins, ends, _ in those for at in (begins, ends)})
        found = []
        for begins, ends in pairwise(turns):
            many = sum(count for one, two, count in those if one <= begins < two)
            if many:
                found.append((begins, ends, min(many, self.many[key])))
        return found

    def _size(self, sized: SizeToMake) -> Size:
        unit = self.unit
        between = []
        for gap in sized["apart"]:
            least = ceiling(gap["least_ms"], unit)
            most = None if gap["most_ms"] is None else max(least, gap["most_ms"] // unit)
            between.append(
                Between(gap["from"], gap["to"], least, most, gap["class"], ceiling(gap["price_ms"], unit))
            )
        holds = [
            Held(
                each["equipment"],
                each["many"],
                each["from"],
                each["from_ms"] // unit,
                each["until"],
                ceiling(each["until_ms"], unit),
            )
            for each in sized["holds"]
        ]
        return Size(
            sized["good"],
            ceiling(sized["hands_ms"], unit),
            [ceiling(each["lasts_ms"], unit) for each in sized["sittings"]],
            [ceiling(each["until_ms"], unit) for each in sized["sittings"]],
            between,
            holds,
            sized["takes"],
        )


def by_instant(wants: list[Want]) -> list[Want]:
    return sorted(wants, key=lambda want: (want["by"], want["id"]))


def _unit(week: Week) -> int:
    times: list[int] = []
    for make in week["makes"]:
        for sized in make["sizes"]:
            for sitting in sized["sittings"]:
                times += [sitting["lasts_ms"], sitting["until_ms"]]
            for gap in sized["apart"]:
                times += [gap["least_ms"], gap["most_ms"] or 0]
            for hold in sized["holds"]:
                times += [hold["from_ms"], hold["until_ms"]]
    return max(LEAST_UNIT_MS, gcd(*times) if times else LEAST_UNIT_MS)
