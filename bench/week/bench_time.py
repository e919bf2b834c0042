"""One bench over days: who has it when, and what of the kit is in use, those of before included. Batches go into the holes, as early as they can."""

from dataclasses import dataclass, field
from typing import Literal

from bench.shapes.planning import Stretch
from bench.week.units import InUnits, Size

_ROUNDS = 120  # of putting a sitting later; a batch that needs more finds no place this way
_HALVINGS = 16


Source = tuple[Literal["there", "batch"], int]  # pieces that are there, or a batch, by its place


@dataclass
class Batch:
    """A batch that has its place."""

    make: int
    size: int
    starts: list[int]
    makers: list[int]
    gives: dict[int, int] = field(default_factory=dict)  # want -> pieces
    takes: dict[int, int] = field(default_factory=dict)  # lot -> mg


@dataclass
class Made:
    """What a week comes to: batches, and what is given of the pieces that are there already."""

    batches: list[Batch] = field(default_factory=list)
    given: dict[tuple[int, int], int] = field(default_factory=dict)  # (stock, want) -> pieces
    fed: dict[tuple[Source, int], int] = field(
        default_factory=dict
    )  # (where a part is from, the batch that takes it) -> mg or pieces

    def short(self, units: InUnits) -> dict[int, int]:
        """What each want lacks, those that lack nothing left out."""
        lacks = dict(enumerate(units.pieces))
        for batch in self.batches:
            for want, pieces in batch.gives.items():
                lacks[want] -= pieces
        for (_, want), pieces in self.given.items():
            lacks[want] -= pieces
        return {want: pieces for want, pieces in lacks.items() if pieces > 0}


def ready(size: Size, starts: list[int]) -> int:
    return max(start + until for start, until in zip(starts, size.until, strict=True))


def without(hours: list[Stretch], busy: list[Stretch]) -> list[Stretch]:
    """Stretches, less those that are taken."""
    left = hours
    for begins, ends in busy:
        left = [
            part
            for opens, closes in left
            for part in ([opens, min(closes, begins)], [max(opens, ends), closes])
            if part[0] < part[1]
        ]
    return left


class BenchTime:
    def __init__(self, units: InUnits, batches: list[Batch]) -> None:
        self.units = units
        self.busy: list[list[tuple[int, int]]] = [[] for _ in units.hours]
        self.used = {key: [*spans] for key, spans in units.busy.items()}
        for batch in batches:
            self.take(batch)

    def take(self, batch: Batch) -> None:
        size = self.units.sizes[batch.make][batch.size]
        for start, lasts, maker in zip(batch.starts, size.lasts, batch.makers, strict=True):
            self.busy[maker].append((start, start + lasts))
            self.busy[maker].sort()
        for held in size.holds:
            span = (batch.starts[held.one] + held.begins, batch.starts[held.two] + held.ends, held.many)
            self.used.setdefault(held.key, []).append(span)

    def earliest(self, size: Size, since: int, until: int) -> tuple[list[int], list[int]] | None:
        """Starts and makers of one batch, begun from `since` on and ready by `until`; None where there is no place."""
        floor = [since, *([0] * (len(size.lasts) - 1))]
        for _ in range(_ROUNDS):
            placed = self._in_turn(size, floor)
            if placed is None or ready(size, placed[0]) > until:
                return None
            later = self._later(size, placed[0])
            if later is None:
                return placed
            place, at = later
            floor[place] = max(at, floor[place] + 1)
        return None

    def latest(self, size: Size, since: int, until: int) -> tuple[list[int], list[int]] | None:
        """The latest such start that halving finds. since: a start that is known to do."""
        found = self.earliest(size, since, until)
        low, high = since, until
        for _ in range(_HALVINGS if found else 0):
            middle = (low + high + 1) // 2
            later = self.earliest(size, middle, until)
            if later is None:
                high = middle - 1
            else:
                low, found = max(middle, later[0][0]), later
            if low >= high:
                break
        return found

    def soonest(self, size: Size) -> int | None:
        """When a batch would be ready at the earliest, by hours and hands alone: no plan has it sooner."""
        placed = self._in_turn(size, [0] * len(size.lasts))
        return ready(size, placed[0]) if placed else None

    def _in_turn(self, size: Size, floor: list[int]) -> tuple[list[int], list[int]] | None:
        starts: list[int] = []
        makers: list[int] = []
        for place, lasts in enumerate(size.lasts):
            least = [starts[gap.one] + gap.least for gap in size.between if gap.two == place]
            free = [
                (at, maker)
                for maker in range(len(self.busy))
                if (at := self._hole(maker, max([floor[place], *least]), lasts)) is not None
            ]
            if not free:
                return None
            at, maker = min(free)
            starts.append(at)
            makers.append(maker)
        return starts, makers

    def _hole(self, maker: int, since: int, lasts: int) -> int | None:
        for opens, closes in self.units.hours[maker]:
            at = max(since, opens)
            for begins, ends in self.busy[maker]:
                if begins < at + lasts and at < ends:
                    at = ends
            if at + lasts <= closes:
                return at
        return None

    def _later(self, size: Size, starts: list[int]) -> tuple[int, int] | None:
        """The sitting that must begin later, and when at the earliest; None when all is kept."""
        for gap in size.between:
            if gap.most is not None and starts[gap.two] - starts[gap.one] > gap.most:
                return gap.one, starts[gap.two] - gap.most
        own = [
            (held.key, (starts[held.one] + held.begins, starts[held.two] + held.ends, held.many))
            for held in size.holds
        ]
        for held, (key, (begins, ends, _)) in zip(size.holds, own, strict=True):
            mine = [span for of, span in own if of == key]
            free = self._free([*mine, *self.used.get(key, [])], self.units.many[key], begins, ends)
            if free is not None:
                return held.one, max(free - held.begins, starts[held.one] + 1)
        return None

    def _free(self, spans: list[tuple[int, int, int]], many: int, begins: int, ends: int) -> int | None:
        """When more of a thing may be free, where there is too little between two instants; None where there is enough."""
        for at in [begins, *(first for first, _, _ in spans if begins < first < ends)]:
            those = [(last, count) for first, last, count in spans if first <= at < last]
            if sum(count for _, count in those) > many:
                return min(last for last, _ in those)
        return None
