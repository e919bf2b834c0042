"""The plain rule: the wants in the order of their instants, each by a batch that is laid as early as it can be.

It needs no solver, gives the first usable plan in milliseconds, and is the plan where OR-Tools is not installed.
"""

from bench.week.bench_time import Batch, BenchTime, Made, ready
from bench.week.lots import LotsLeft
from bench.week.units import InUnits


def in_turn(units: InUnits) -> Made:
    made = Made()
    give_stock(units, made)
    bench = BenchTime(units, [])
    lots = LotsLeft(units.week["lots"], units)
    for want in sorted(range(len(units.due)), key=lambda each: (units.due[each], each)):
        while lacks := made.short(units).get(want, 0):
            batch = _batch_for(units, bench, lots, want, lacks)
            if batch is None:
                break
            bench.take(batch)
            lots.take(batch)
            made.batches.append(batch)
            share_out(units, made, batch)
    return made


def give_stock(units: InUnits, made: Made) -> None:
    """What goes off first goes first, to the first that it keeps for."""
    left = [stock.pieces for stock in units.stock]
    turn = sorted(
        range(len(left)),
        key=lambda each: (units.horizon + 1 if (until := units.stock[each].until) is None else until, each),
    )
    for want in sorted(range(len(units.due)), key=lambda each: (units.due[each], each)):
        for place in turn:
            lacks = made.short(units).get(want, 0)
            pieces = min(lacks, left[place]) if units.could_give(units.stock[place], want) else 0
            if pieces:
                made.given[place, want] = pieces
                left[place] -= pieces


def share_out(units: InUnits, made: Made, batch: Batch) -> None:
    """What a batch gives, to the wants that it is in time and fresh enough for, the first one first."""
    size = units.sizes[batch.make][batch.size]
    left, done, keeps = size.good, ready(size, batch.starts), units.keeps[batch.make]
    for want in units.wants_of(batch.make):
        due = units.due[want]
        if done <= due and (keeps is None or due <= done + keeps):
            pieces = min(left, made.short(units).get(want, 0))
            if pieces:
                batch.gives[want] = pieces
                left -= pieces


def _batch_for(units: InUnits, bench: BenchTime, lots: LotsLeft, want: int, lacks: int) -> Batch | None:
    """The smallest batch that is enough and can be ready in time, else the largest that can."""
    make, due, keeps = units.of[want], units.due[want], units.keeps[units.of[want]]
    sizes = units.sizes[make]
    enough = [place for place, size in enumerate(sizes) if size.good >= lacks]
    less = [place for place, size in enumerate(sizes) if 0 < size.good < lacks]
    for place in [*enough, *reversed(less)]:
        size = sizes[place]
        taken = lots.could(size.takes)
        if taken is None:
            continue
        placed = bench.earliest(size, max(0, taken.since), due)
        if placed and keeps is not None and ready(size, placed[0]) + keeps < due:
            placed = bench.latest(size, placed[0][0], due)
        if placed is None or (keeps is not None and ready(size, placed[0]) + keeps < due):
            continue
        if placed[0][0] > taken.until:
            continue
        return Batch(make, place, *placed, takes=taken.lots)
    return None
