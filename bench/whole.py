"""Whole numbers: the one place where anything is rounded.

Masses are whole milligrams, instants and durations whole milliseconds, fractions whole
parts per million. Shares in a recipe as written are whole micrograms and volumes whole
nanolitres, so that scaling a recipe up a thousandfold does not show their rounding.
Rounding is half to even on integers, so Python and JavaScript agree to the last digit.
"""

import json
from typing import NamedTuple

from bench.words import point, say, units

PPM = 1_000_000
_TENS = (1, 10, 100, 1000, 10_000)
_OUNCE_PLACES = ((100, 2), (10, 3), (0, 4))  # decimals of an ounce, by how finely grams are said


def ten_to(places: int) -> int:
    """One with so many noughts."""
    power: int = 10**places
    return power


def half_even(numerator: int, denominator: int) -> int:
    """numerator / denominator to the nearest whole number, halves to the even one.

    The denominator must be positive.
    """
    quotient, remainder = divmod(numerator, denominator)
    twice = 2 * remainder
    if twice > denominator or (twice == denominator and quotient % 2):
        quotient += 1
    return quotient


def ceiling(numerator: int, denominator: int) -> int:
    """numerator / denominator, rounded up. The denominator must be positive."""
    return -(-numerator // denominator)


def share_out(total: int, weights: list[int]) -> list[int]:
    """Divide `total` in proportion to `weights`, whole parts that sum to it exactly.

    Each part is the difference of two rounded running sums, so no part is off by more
    than one unit and the error never adds up.
    """
    whole = sum(weights)
    if not whole:
        return [0] * len(weights)
    parts: list[int] = []
    so_far = before = 0
    for weight in weights:
        so_far += weight
        upto = half_even(total * so_far, whole)
        parts.append(upto - before)
        before = upto
    return parts


class Division(NamedTuple):
    """The steps a scale reads in. uoz: of one that reads in ounces, exactly, in millionths of an ounce; its `mg` is
    that to the nearest whole one, and what follows from a division (tolerance, least mass) follows from it."""

    mg: int
    uoz: int | None = None


# The avoirdupois ounce is the sixteenth of a pound of exactly 453.592 37 g (NIST Handbook 44, App. C; NIST SP 811,
# B.8): 28.349 523 125 g. A millionth of it is so many mg, top and bottom:
OUNCE = (45_359_237, 1_600_000_000)
UOZ = 1_000_000


def uoz_to_mg(uoz: int) -> int:
    """Millionths of an ounce in whole mg. Readings of 0.0001 oz and more, told so, come back as they were."""
    return half_even(uoz * OUNCE[0], OUNCE[1])


def to_division(mg: int, division: Division) -> int:
    """The reading a scale of this division shows for a mass, in whole mg."""
    if division.uoz is None:
        return half_even(mg, division.mg) * division.mg
    return uoz_to_mg(half_even(mg * OUNCE[1], division.uoz * OUNCE[0]) * division.uoz)


def canonical(value: object) -> str:
    """The one spelling of a JSON value: sorted keys, no spaces, UTF-8 left as it is."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def reading(mg: int, division: Division) -> str:
    """What a scale shows, in its own unit with its own decimals, whatever units are asked for elsewhere: 2350 mg at
    10 mg is "2.35 g"; 151670 mg at 0.05 oz is "5.35 oz"."""
    if division.uoz is None:
        return _in_grams(mg, division.mg)
    places = 4
    while places and division.uoz % ten_to(7 - places) == 0:
        places -= 1
    return f"{decimal(_ounces(mg, places), places)} oz"


def mass(mg: int, fineness_mg: int) -> str:
    """A mass that is no scale's reading, in the units that are asked for (bench/words/units.py) and about as finely
    as said, 1, 10, 100 or 1000 mg: "150 g", "5.29 oz", and from a pound on "1 lb 3.2 oz"."""
    if units().mass == "g":
        return _in_grams(mg, fineness_mg)
    tenths = _ounces(abs(mg), 1)
    if tenths < 160:
        places = next(places for finest, places in _OUNCE_PLACES if fineness_mg >= finest)
        return f"{decimal(_ounces(mg, places), places)} oz"
    pounds, rest = divmod(tenths, 160)
    sign = "-" if mg < 0 else ""
    return f"{sign}{pounds} lb {_no_longer(rest, 1)} oz" if rest else f"{sign}{pounds} lb"


def _in_grams(mg: int, division_mg: int) -> str:
    """With as many decimals as a division has."""
    decimals = 0
    step = 1000
    while step > 1 and division_mg % step:
        step //= 10
        decimals += 1
    return f"{decimal(half_even(mg, step), decimals)} g"


def _ounces(mg: int, places: int) -> int:
    """A mass in tenths, hundredths … of an ounce."""
    return half_even(mg * OUNCE[1], ten_to(6 - places) * OUNCE[0])


def decimal(shown: int, places: int) -> str:
    """Tenths, hundredths … in decimals: (235, 2) is "2.35"."""
    whole, rest = divmod(abs(shown), _TENS[places])
    sign = "-" if shown < 0 else ""
    return f"{sign}{whole}{point()}{rest:0{places}d}" if places else f"{sign}{whole}"


def per_cent(numerator: int, denominator: int) -> str:
    """A share in per cent with one decimal: "33.3 %"; of nothing, "0.0 %"."""
    return f"{decimal(half_even(1000 * numerator, denominator) if denominator else 0, 1)} %"


def apart(one: tuple[int, int], other: tuple[int, int]) -> tuple[str, str]:
    """Two shares in per cent, with as many decimals as it takes to tell them apart: one to four."""
    for decimals in (1, 2, 3, 4):
        first, second = _share_text(*one, decimals), _share_text(*other, decimals)
        if first != second:
            return first, second
    return per_cent(*one), per_cent(*other)


def _share_text(numerator: int, denominator: int, decimals: int) -> str:
    shown = half_even(100 * _TENS[decimals] * numerator, denominator) if denominator else 0
    return f"{decimal(shown, decimals)} %"


def times(numerator: int, denominator: int) -> str:
    """A factor with as many decimals as it has, three at most: "1.042", "1.1"."""
    return _no_longer(half_even(1000 * numerator, denominator), 3)


def more_by(numerator: int, denominator: int) -> str:
    """By how much a factor above one is more, in per cent: "20 %", "4.2 %"."""
    return f"{_no_longer(half_even(1000 * (numerator - denominator), denominator), 1)} %"


def _no_longer(shown: int, places: int) -> str:
    """Tenths, hundredths … in decimals without the noughts at their end."""
    return decimal(shown, places).rstrip("0").rstrip(point())


def span(ms: int) -> str:
    """A duration in words: "15 s", "2 min 30 s", "6 h 10 min", "2 days"."""
    seconds = half_even(ms, 1000)
    days, seconds = divmod(seconds, 86400)
    parts = [say("span-days", count=days)] if days else []
    for size, unit in ((3600, "h"), (60, "min"), (1, "s")):
        count, seconds = divmod(seconds, size)
        if count:
            parts.append(f"{count} {unit}")
    return " ".join(parts[:2]) or "0 s"


def temperature(mk: int) -> str:
    """A temperature, given in thousandths of a degree Celsius, in the units that are asked for: "60 °C", "37.5 °C";
    "140 °F", whole where it is whole in °C, else to a tenth."""
    if units().warmth == "c":
        return f"{_no_longer(mk, 3)} °C"
    places = 1 if mk % 1000 else 0
    shown = half_even(mk * 9 * _TENS[places], 5000) + 32 * _TENS[places]
    return f"{decimal(shown, places)} °F"


def warmer(mk: int) -> str:
    """By how much one temperature is above another, in the units that are asked for: "5 °C", "9 °F"."""
    if units().warmth == "c":
        return temperature(mk)
    return f"{_no_longer(half_even(mk * 9, 500), 1)} °F"
