"""How many pieces are spoiled, by own runs, and how many of a batch are likely to be good."""

from math import isqrt

from bench.last_time import LEAST_RUNS
from bench.shapes.record import Record
from bench.shapes.week import Spoilage
from bench.whole import PPM, half_even

# 1.96 of the normal distribution, squared, in ten-thousandths: an interval of 95 %.
_Z2 = 38416
_TENTHS = 10_000


def spoilage_of(records: list[Record]) -> Spoilage | None:
    """Over all runs together; None with fewer than three, from which nothing is learned.

    The interval is the score interval of E. B. Wilson (1927), in whole numbers.
    """
    counted = [each["yield"] for each in records if each["yield"]["good"] is not None]
    if len(counted) < LEAST_RUNS:
        return None
    spoiled = sum(each["spoiled"] or 0 for each in counted)
    made = spoiled + sum((each["good"] or 0) + (each["kept"] or 0) for each in counted)
    if not made:
        return None
    low, high = wilson_ppm(spoiled, made)
    return {
        "runs": len(counted),
        "made": made,
        "spoiled": spoiled,
        "share_ppm": half_even(PPM * spoiled, made),
        "low_ppm": low,
        "high_ppm": high,
    }


def wilson_ppm(hits: int, of: int) -> tuple[int, int]:
    """(p + z²/2n ± z·sqrt(p(1 - p)/n + z²/4n²)) / (1 + z²/n), in ppm."""
    middle = 2 * hits * _TENTHS + _Z2  # all of it times 2n and ten thousand
    # z² · (4·hits·(n - hits)/n + z²), whole: the root is taken a million times as fine.
    under = _Z2 * (4 * hits * (of - hits) * _TENTHS + _Z2 * of) * PPM * PPM // of
    root = isqrt(under)
    below = 2 * (of * _TENTHS + _Z2)
    return (
        max(0, half_even(middle * PPM - root, below)),
        min(PPM, half_even(middle * PPM + root, below)),
    )


def good_of(pieces: int, spoilage: Spoilage | None) -> int:
    """How many of these are likely to be good, rounded down."""
    return pieces if spoilage is None else pieces * (PPM - spoilage["share_ppm"]) // PPM
