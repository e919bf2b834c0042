"""What no plan of a week beats: the week as a lot-sizing problem, with all else let go.

The periods end with the instants at which something is wanted. A batch belongs to the one in which it is ready, the
hands that it asks for lie before that, and so do what it holds of the kit and what it takes; of a part made ahead no more
is taken by then than was made by then. Every plan is an answer
of this problem at its own price, so its least price is a bound; and it does not depend on how many batches are looked for.
"""

from bench.shapes.week import LotItem, LotLimit, LotProblem, LotWay
from bench.week.bench_time import BenchTime
from bench.week.lot_sizing import cheapest
from bench.week.units import InUnits, Part, Size
from bench.whole import ceiling

SECONDS = 2.0  # of the clock, for one bound
MOST_BATCHES = 24  # of one recipe: more never pay


def least_short(units: InUnits) -> int:
    """So many pieces are short whatever is done."""
    return cheapest(_problem(units, short=1, batch=0), SECONDS).least


def fewest_batches(units: InUnits, short: int) -> int:
    """No fewer batches leave so few short. short: at most so many pieces."""
    whole = 1 + sum(units.pieces)
    answer = cheapest(_problem(units, short=whole, batch=1), SECONDS)
    return max(0, answer.least - whole * short)


def _problem(units: InUnits, short: int, batch: int) -> LotProblem:
    """short, batch: the price of a piece that is short, and of a batch."""
    ends = sorted(set(units.due))
    items = [_item(units, make, ends, short, batch) for make in range(len(units.sizes))]
    return {"periods": len(ends), "items": items, "limits": _limits(units, ends)}


def _item(units: InUnits, make: int, ends: list[int], short: int, batch: int) -> LotItem:
    wanted = [0] * len(ends)
    for want in units.wants_of(make):
        wanted[ends.index(units.due[want])] += units.pieces[want]
    keeps, part = units.keeps[make], units.part[make]
    bench = BenchTime(units, [])
    ways: list[LotWay] = []
    for size in units.sizes[make]:
        first = _first(ends, bench.soonest(size))
        if first is not None and all(held.many <= units.many[held.key] for held in size.holds):
            ways.append(
                {
                    "gives": size.good,
                    "price": [batch] * len(ends),
                    "uses": _uses(size, _lengths(units), units.part[make]),
                    "first": first,
                }
            )
    for number, stock in enumerate(units.stock):
        first = _first(ends, stock.since)
        if stock.make == make and first is not None:  # piece by piece, each for whom it will
            free = [0] * len(ends)
            uses = {f"there.{number}": 1} | ({} if part is None else {f"shelf.{part.ingredient}": -part.each})
            ways.append({"gives": 1, "price": free, "uses": uses, "first": first})
    return {
        "wanted": wanted,
        "beside": MOST_BATCHES * sum(_taken(units, of, part) for of in range(len(units.sizes)))
        if part
        else 0,
        "short": short,
        "ways": ways,
        "each": {} if part is None else {f"shelf.{part.ingredient}": part.each},
        "piece_price": 0,
        "hold_price": 0,
        "keeps": None if keeps is None else [_periods(ends, at, keeps) for at in range(len(ends))],
        "room": None,
    }


def _first(ends: list[int], ready: int | None) -> int | None:
    """The first period in which something can be ready; None after all of them."""
    if ready is None:
        return None
    return next((period for period, end in enumerate(ends) if ready <= end), None)


def _periods(ends: list[int], at: int, keeps: int) -> int:
    """For how many periods more keeps what is ready at the end of one."""
    return sum(ends[at] < end <= ends[at] + keeps for end in ends)


def _lengths(units: InUnits) -> list[int]:
    """How long the sittings are, each length once."""
    return sorted({lasts for sizes in units.sizes for size in sizes for lasts in size.lasts})


def _taken(units: InUnits, make: int, part: Part) -> int:
    """So many pieces of a part one batch takes at most."""
    return max(ceiling(size.takes.get(part.ingredient, 0), part.each) for size in units.sizes[make])


def _uses(size: Size, lengths: list[int], part: Part | None) -> dict[str, int]:
    """What a batch takes of the hands, the kit and the shelf, to which a part gives. And how many sittings last so long or longer: a
    stretch of bench hours holds only so many of these."""
    uses = {"hands": sum(size.lasts)}
    for length in lengths:
        uses[f"sittings.{length}"] = sum(lasts >= length for lasts in size.lasts)
    for held in size.holds:
        length = held.ends - held.begins + _apart(size, held.one, held.two)
        uses[f"kit.{held.key}"] = uses.get(f"kit.{held.key}", 0) + held.many * length
    for ingredient, mg in size.takes.items():
        uses[f"shelf.{ingredient}"] = mg
    if part is not None:
        key = f"shelf.{part.ingredient}"
        uses[key] = uses.get(key, 0) - part.each * size.good
    return uses


def _apart(size: Size, one: int, two: int) -> int:
    """The least from the start of one sitting to that of another."""
    at = [0] * len(size.lasts)
    for place in range(one + 1, two + 1):
        at[place] = max(
            [at[gap.one] + gap.least for gap in size.between if gap.two == place and gap.one >= one] or [0]
        )
    return at[two] - at[one]


def _limits(units: InUnits, ends: list[int]) -> list[LotLimit]:
    lengths = _lengths(units)
    limits: list[LotLimit] = []

    def limit(of: str, last: int, most: int) -> None:
        limits.append({"of": of, "first": 0, "last": last, "most": most})

    for last, end in enumerate(ends):
        hours = [min(closes, end) - opens for maker in units.hours for opens, closes in maker if opens < end]
        limit("hands", last, sum(each for each in hours if lengths and each >= lengths[0]))
        for length in lengths:
            limit(f"sittings.{length}", last, sum(each // length for each in hours))
        for key in units.scarce():
            taken = [
                many * (min(ends_at, end) - begins)
                for begins, ends_at, many in units.busy[key]
                if begins < end
            ]
            limit(f"kit.{key}", last, units.many[key] * end - sum(taken))
        for ingredient in sorted(units.counted()):
            there = [
                lot["mg"]
                for lot in units.week["lots"]
                if lot["ingredient"] == ingredient and units.up(lot["since"]) <= end
            ]
            limit(f"shelf.{ingredient}", last, sum(there))
    for number, stock in enumerate(units.stock):
        limit(f"there.{number}", len(ends) - 1, stock.pieces)
    return limits
