"""What is left of the lots, and of parts made ahead, beside the batches that take from them."""

from dataclasses import dataclass

from bench.week.bench_time import Made, Source, ready
from bench.week.units import InUnits


@dataclass
class Left:
    """So much of one lot, or of a part: one of lot and source says which."""

    lot: int | None
    source: Source | None
    ingredient: str
    much: int
    since: int
    until: int


@dataclass
class Taking:
    """What a batch would take of which lots and parts, and between which instants it may be begun with them."""

    lots: dict[int, int]
    parts: dict[Source, int]
    since: int
    until: int
    lacks: dict[str, int]  # by ingredient


class Store:
    """What there is once all that was made has taken its share."""

    def __init__(self, units: InUnits, made: Made) -> None:
        self.units = units
        self.left = [*self._lots(made), *self._there(made), *self._batches(made)]
        self.counted = units.counted()

    def taking(self, takes: dict[str, int]) -> Taking:
        """What is there first is taken first, and of that what goes off first."""
        told = Taking({}, {}, 0, self.units.horizon, {})
        for ingredient, much in sorted(takes.items()):
            if ingredient not in self.counted:
                continue
            own = [each for each in self.left if each.ingredient == ingredient and each.much > 0]
            for each in sorted(own, key=lambda one: (one.since, one.until)):
                some = min(much, each.much)
                if some:
                    self._take(told, each, some)
                    much -= some
            if much:
                told.lacks[ingredient] = much
        return told

    def _take(self, told: Taking, each: Left, some: int) -> None:
        if each.lot is not None:
            told.lots[each.lot] = some
        elif each.source is not None:
            told.parts[each.source] = some
        told.since, told.until = max(told.since, each.since), min(told.until, each.until)

    def _lots(self, made: Made) -> list[Left]:
        units = self.units
        return [
            Left(
                place,
                None,
                lot["ingredient"],
                lot["mg"] - sum(batch.takes.get(place, 0) for batch in made.batches),
                units.up(lot["since"]),
                units.horizon if lot["until"] is None else units.down(lot["until"]),
            )
            for place, lot in enumerate(units.week["lots"])
        ]

    def _there(self, made: Made) -> list[Left]:
        found = []
        for place, stock in enumerate(self.units.stock):
            given = sum(pieces for (of, _), pieces in made.given.items() if of == place)
            until = self.units.horizon if stock.until is None else stock.until
            found += self._part(made, ("there", place), stock.make, stock.pieces - given, stock.since, until)
        return found

    def _batches(self, made: Made) -> list[Left]:
        found = []
        for place, batch in enumerate(made.batches):
            size, keeps = self.units.sizes[batch.make][batch.size], self.units.keeps[batch.make]
            done = ready(size, batch.starts)
            until = self.units.horizon if keeps is None else done + keeps
            left = size.good - sum(batch.gives.values())
            found += self._part(made, ("batch", place), batch.make, left, done, until)
        return found

    def _part(self, made: Made, source: Source, make: int, pieces: int, since: int, until: int) -> list[Left]:
        part = self.units.part[make]
        if part is None:
            return []
        fed = sum(much for (of, _), much in made.fed.items() if of == source)
        return [Left(None, source, part.ingredient, part.each * pieces - fed, since, until)]
