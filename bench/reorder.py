"""When to order again: by the maker's own figure, else from what was really used, week by week.

The point is what is used while an order is on its way, and as much more as the spread between the weeks asks for: mean
use a week times the lead time in weeks, and z times the weeks' standard deviation times the root of that time (the
usual formula for a demand that varies by week and a lead time that does not; independent weeks, a normal spread). With
z = 1.645 it lasts in 95 of 100 such times. Fewer than `LEAST_BATCHES` batches say nothing about a spread.
"""

from collections.abc import Sequence
from math import isqrt
from typing import NamedTuple

from bench.buying import free_of, lead_days, orders_of, own_point, packs_for
from bench.gather import Uses
from bench.purchases import nothing_bought
from bench.shapes.buying import BoughtBy, Purchases, ReorderPoint
from bench.shapes.shelf import Shelf
from bench.shelf import called
from bench.whole import ceiling, half_even

LEAST_BATCHES = 5
LEAST_WEEKS = 4
MOST_WEEKS = 26  # older use is no news of today's
WEEK_MS = 7 * 86_400_000
Z_PER_MILLE = 1645  # the 95 % quantile of the normal distribution, 1.645


class Used(NamedTuple):
    """What one batch took of an ingredient."""

    card: str
    at: int
    mg: int
    pieces: int


class Weekly(NamedTuple):
    """Use a week: its mean, and the standard deviation between weeks, both rounded to the whole."""

    mean: int
    spread: int


def weekly(weeks: Sequence[int]) -> Weekly:
    """Mean and sample standard deviation of at least two weeks' use."""
    many, total = len(weeks), sum(weeks)
    squares = many * sum(each * each for each in weeks) - total * total  # n(n-1) times the variance
    return Weekly(half_even(total, many), isqrt(squares // (many * (many - 1))))


def point(a_week: int, spread: int, lead_days: int, z_per_mille: int = Z_PER_MILLE) -> int:
    """At how much to order again, rounded up; a_week and spread in one unit, whichever."""
    safety = z_per_mille * spread
    # The root of the lead time in weeks, by whole numbers: sqrt(safety² x days / 7) / 1000.
    return ceiling(a_week * lead_days, 7) + ceiling(isqrt(safety * safety * lead_days // 7), 1000)


def weeks_of(used: Sequence[Used], measure: BoughtBy, now: int) -> list[int]:
    """Use in each whole week back from now, the newest first, as far as the first batch or `MOST_WEEKS`."""
    if not used:
        return []
    many = min(MOST_WEEKS, max(1, ceiling(now - min(each.at for each in used), WEEK_MS)))
    weeks = [0] * many
    for each in used:
        place = (now - each.at) // WEEK_MS
        if 0 <= place < many:
            weeks[place] += each.mg if measure == "mg" else each.pieces
    return weeks


def reorder_points(
    used: Sequence[Used], shelf: Shelf, uses: Uses, now: int, told: Purchases | None = None
) -> list[ReorderPoint]:
    """For each card of which something is bought or used, when to order again; those that are due first.

    What is on order counts as there: else it would be ordered again every day until it comes.
    """
    by_card: dict[str, list[Used]] = {}
    for each in used:
        by_card.setdefault(each.card, []).append(each)
    points = [
        _point(key, by_card.get(key, []), shelf, uses, now, told or nothing_bought())
        for key in sorted(shelf["ingredients"])
        if shelf["ingredients"][key]["card"] is not None
    ]
    known = [each for each in points if each["batches"] or each["by"] == "maker"]
    return sorted(known, key=lambda each: (not each["due"], each["by"] == "unknown", each["name"]))


def _point(key: str, used: list[Used], shelf: Shelf, uses: Uses, now: int, told: Purchases) -> ReorderPoint:
    card = shelf["ingredients"][key]["card"]
    measure = _measure_of(key, shelf)
    weeks = weeks_of(used, measure, now)
    since = now - len(weeks) * WEEK_MS
    batches = len(
        [each for each in used if each.at > since and (each.mg if measure == "mg" else each.pieces)]
    )
    lead, own = lead_days(card), own_point(card, measure)
    says = weekly(weeks) if batches >= LEAST_BATCHES and len(weeks) >= LEAST_WEEKS else None
    at = own
    if own is None and says and lead is not None:
        at = point(says.mean, says.spread, lead)
    left = sum(lot.much for lot in free_of(key, measure, shelf, uses))
    coming = sum(much for _, much in orders_of(told["orders"], key, measure))
    due = at is not None and left + coming <= at
    return {
        "card": key,
        "name": called(shelf, key),
        "measure": measure,
        "left": left,
        "on_order": coming,
        "at": at,
        "by": "maker" if own is not None else "unknown" if at is None else "use",
        "batches": batches,
        "weeks": len(weeks),
        "a_week": says.mean if says else None,
        "spread": says.spread if says else None,
        "lead_days": lead,
        "due": due,
        "packs": packs_for(shelf, key, measure, max(1, (at or 0) - left - coming), told) if due else None,
    }


def _measure_of(key: str, shelf: Shelf) -> BoughtBy:
    """An ingredient is counted where its newest lot is."""
    lots = [lot for lot in shelf["lots"].values() if lot["ingredient"] == key]
    newest = max(lots, key=lambda lot: lot["received_on"], default=None)
    return "count" if newest and newest["count"] is not None else "mg"
