"""What is left of the lots while batches take from them."""

from typing import NamedTuple

from bench.shapes.week import WeekLot
from bench.week.bench_time import Batch
from bench.week.units import InUnits


class Taking(NamedTuple):
    """What a batch would take of which lots, and between which instants it may be begun with them."""

    lots: dict[int, int]
    since: int
    until: int


class LotsLeft:
    def __init__(self, lots: list[WeekLot], units: InUnits) -> None:
        self.lots = lots
        self.left = [lot["mg"] for lot in lots]
        self.since = [units.up(lot["since"]) for lot in lots]
        self.until = [units.horizon if lot["until"] is None else units.down(lot["until"]) for lot in lots]
        self.horizon = units.horizon

    def could(self, takes: dict[str, int]) -> Taking | None:
        """What goes off first is taken first. None when there is too little."""
        taken: dict[int, int] = {}
        for ingredient, mg in sorted(takes.items()):
            own = [place for place, lot in enumerate(self.lots) if lot["ingredient"] == ingredient]
            if not own:
                continue  # nobody counts it
            for place in sorted(own, key=lambda each: (self.since[each], self.until[each], each)):
                some = min(mg, self.left[place])
                if some:
                    taken[place] = some
                    mg -= some
            if mg:
                return None
        return Taking(
            taken,
            max([0, *(self.since[place] for place in taken)]),
            min([self.horizon, *(self.until[place] for place in taken)]),
        )

    def take(self, batch: Batch) -> None:
        for place, mg in batch.takes.items():
            self.left[place] -= mg
