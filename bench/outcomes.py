"""What changed at the bench when a version changed: differences between batches, each with an interval.

    outcomes(1, figures_of_1, 2, figures_of_2)

The interval is Welch's (B. L. Welch, Biometrika 34, 1947): the difference of two means of unequal spread, 95 % by
Student's t with the degrees of freedom of Welch and Satterthwaite, rounded down, so that it is rather too wide. Batches
count, never their pieces, since those of one batch share its day. On three batches or fewer of either nothing is
claimed, nor where no batch differs from another. Of twenty intervals one misses by chance; and what else changed between
the batches (air, hands, lots) is in the difference too.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import isqrt

from bench.shapes.figures import BatchFigures
from bench.shapes.outcomes import Difference, OutcomeMeasure, Outcomes
from bench.whole import PPM, ceiling, half_even

LEAST_BATCHES = 4
# Student's t, 97.5 %, in thousandths, for 1 to 30 degrees of freedom and then 40, 60 and 120
# (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2; from memory, held against scipy by the test).
_T: tuple[int, ...] = (
    12706,
    4303,
    3182,
    2776,
    2571,
    2447,
    2365,
    2306,
    2262,
    2228,
    2201,
    2179,
    2160,
    2145,
    2131,
)
_T += (2120, 2110, 2101, 2093, 2086, 2080, 2074, 2069, 2064, 2060, 2056, 2052, 2048, 2045, 2042)
_T_BEYOND = ((120, 1980), (60, 2000), (40, 2021))


def outcomes(
    before: int, former: Sequence[BatchFigures], version: int, now: Sequence[BatchFigures]
) -> Outcomes:
    """What batches of a version came to beside those of a former one. Batches in any order."""
    return {
        "before": before,
        "version": version,
        "differences": [
            difference(measure, _values(former, tell), _values(now, tell)) for measure, tell in _MEASURES
        ],
    }


def difference(measure: OutcomeMeasure, before: Sequence[int], now: Sequence[int]) -> Difference:
    """The difference of two means with its interval, rounded outwards to the whole."""
    told: Difference = {
        "measure": measure,
        "batches": [len(before), len(now)],
        "before": half_even(sum(before), len(before)) if before else None,
        "now": half_even(sum(now), len(now)) if now else None,
        "low": None,
        "high": None,
        "says": "too_few",
    }
    if min(len(before), len(now)) < LEAST_BATCHES:
        return told
    one, other = _share(before), _share(now)
    if not one + other:
        return {**told, "says": "cannot_tell"}
    freedom = (one + other) ** 2 / (one**2 / (len(before) - 1) + other**2 / (len(now) - 1))
    wide = (one + other) * t_of(int(freedom)) ** 2 / PPM  # t is in thousandths, and this is its square
    margin = isqrt(ceiling(wide.numerator, wide.denominator)) + 1
    apart = Fraction(sum(now), len(now)) - Fraction(sum(before), len(before))
    low = -ceiling(-apart.numerator, apart.denominator) - margin
    high = ceiling(apart.numerator, apart.denominator) + margin
    return {
        **told,
        "low": low,
        "high": high,
        "says": "more" if low > 0 else "less" if high < 0 else "cannot_tell",
    }


def t_of(freedom: int) -> int:
    """Student's t for 97.5 %, in thousandths; between the table's rows that of fewer degrees, which is the wider.

    One more than the table has, which is rounded to the nearest.
    """
    if freedom <= len(_T):
        return _T[max(freedom, 1) - 1] + 1
    return next((t for least, t in _T_BEYOND if freedom >= least), _T[-1]) + 1


def _share(values: Sequence[int]) -> Fraction:
    """The variance of a mean: the sample's, by how many there are."""
    many, total = len(values), sum(values)
    squares = many * sum(each * each for each in values) - total * total
    return Fraction(squares, many * many * (many - 1))


def _values(batches: Sequence[BatchFigures], tell: Callable[[BatchFigures], int | None]) -> list[int]:
    return [value for each in batches if (value := tell(each)) is not None]


def _deviations(batch: BatchFigures) -> int:
    return 1000 * batch["deviations"]


_MEASURES: tuple[tuple[OutcomeMeasure, Callable[[BatchFigures], int | None]], ...] = (
    ("hands", lambda batch: batch["hands_ms_per_piece"]),
    ("spoiled", lambda batch: batch["spoiled_ppm"]),
    ("lost", lambda batch: batch["lost_ppm"]),
    ("deviations", _deviations),
)
