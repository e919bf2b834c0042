"""The plain rule: the wants in the order of their instants, each by a batch that is laid as early as it can be, and
before it the batches of its parts.

It needs no solver, gives the first usable plan in milliseconds, and is the plan where OR-Tools is not installed.
"""

from bench.week.bench_time import Batch, BenchTime, Made, ready
from bench.week.lots import Store
from bench.week.units import MOST_NESTED, InUnits


def in_turn(units: InUnits) -> Made:
    made = Made()
    give_stock(units, made)
    for want in sorted(range(len(units.due)), key=lambda each: (units.due[each], each)):
        while (lacks := made.short(units).get(want, 0)) and _batch_for(units, made, want, lacks):
            share_out(units, made, made.batches[-1])
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


def _batch_for(units: InUnits, made: Made, want: int, lacks: int) -> bool:
    """The smallest batch that is enough and can be ready in time, else the largest that can."""
    make, due = units.of[want], units.due[want]
    return any(
        _placed(units, made, make, place, due, due, [make])
        for place in _sizes_for(lacks, [size.good for size in units.sizes[make]])
    )


def _sizes_for(lacks: int, goods: list[int]) -> list[int]:
    enough = [place for place, good in enumerate(goods) if good >= lacks]
    return [*enough, *reversed([place for place, good in enumerate(goods) if 0 < good < lacks])]


def _placed(
    units: InUnits, made: Made, make: int, place: int, until: int, fresh: int | None, path: list[int]
) -> bool:
    """Whether a batch was placed that is ready by `until`, and keeps until `fresh`; its parts before it. path: makes
    that wait for it."""
    before = len(made.batches)
    size, keeps = units.sizes[make][place], units.keeps[make]
    if _has_parts(units, made, size.takes, until, path):
        taken = Store(units, made).taking(size.takes)
        bench = BenchTime(units, made.batches)
        placed = bench.earliest(size, taken.since, until)
        if placed and fresh is not None and keeps is not None and ready(size, placed[0]) + keeps < fresh:
            placed = bench.latest(size, placed[0][0], until)
        is_fresh = placed and (fresh is None or keeps is None or ready(size, placed[0]) + keeps >= fresh)
        if placed and is_fresh and placed[0][0] <= taken.until:
            for source, much in taken.parts.items():
                made.fed[source, len(made.batches)] = much
            made.batches.append(Batch(make, place, *placed, takes=taken.lots))
            return True
    del made.batches[before:]
    made.fed = {key: much for key, much in made.fed.items() if key[1] < before}
    return False


def _has_parts(units: InUnits, made: Made, takes: dict[str, int], until: int, path: list[int]) -> bool:
    """Whether all that a batch takes is there, once what lacks of its parts was made."""
    while lacks := Store(units, made).taking(takes).lacks:
        ingredient, much = next(iter(lacks.items()))
        is_made = len(path) <= MOST_NESTED and any(
            _placed(units, made, make, place, until, None, [*path, make])
            for make in units.makers_of(ingredient)
            if make not in path and (part := units.part[make])
            for place in _sizes_for(much, [part.each * size.good for size in units.sizes[make]])
        )
        if not is_made:
            return False
    return True
