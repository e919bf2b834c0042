"""Whole numbers: the one place where anything is rounded.

Masses are whole milligrams, instants and durations whole milliseconds, fractions whole
parts per million. Shares in a recipe as written are whole micrograms and volumes whole
nanolitres, so that scaling a recipe up a thousandfold does not show their rounding.
Rounding is half to even on integers, so Python and JavaScript agree to the last digit.
"""

import json

from bench.words import point, say

PPM = 1_000_000
_TENS = (1, 10, 100, 1000, 10_000)


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
    parts: list[int] = []
    so_far = before = 0
    for weight in weights:
        so_far += weight
        upto = half_even(total * so_far, whole) if whole else 0
        parts.append(upto - before)
        before = upto
    return parts


def to_division(mg: int, division_mg: int) -> int:
    """The reading a scale of this division shows for a mass: mg, a multiple of division_mg."""
    return half_even(mg, division_mg) * division_mg


def canonical(value: object) -> str:
    """The one spelling of a JSON value: sorted keys, no spaces, UTF-8 left as it is."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def grams(mg: int, division_mg: int) -> str:
    """A mass in grams with as many decimals as the scale shows: 2350 mg at 10 mg is "2.35 g"."""
    decimals = 0
    step = 1000
    while step > 1 and division_mg % step:
        step //= 10
        decimals += 1
    shown = half_even(mg, step)
    sign = "-" if shown < 0 else ""
    units, rest = divmod(abs(shown), _TENS[decimals])
    return f"{sign}{units}{point()}{rest:0{decimals}d} g" if decimals else f"{sign}{units} g"


def per_cent(numerator: int, denominator: int) -> str:
    """A share in per cent with one decimal: "33.3 %"; of nothing, "0.0 %"."""
    tenths = half_even(1000 * numerator, denominator) if denominator else 0
    sign = "-" if tenths < 0 else ""
    units, rest = divmod(abs(tenths), 10)
    return f"{sign}{units}{point()}{rest} %"


def apart(one: tuple[int, int], other: tuple[int, int]) -> tuple[str, str]:
    """Two shares in per cent, with as many decimals as it takes to tell them apart: one to four."""
    for decimals in (1, 2, 3, 4):
        first, second = _share_text(*one, decimals), _share_text(*other, decimals)
        if first != second:
            return first, second
    return per_cent(*one), per_cent(*other)


def _share_text(numerator: int, denominator: int, decimals: int) -> str:
    shown = half_even(100 * _TENS[decimals] * numerator, denominator) if denominator else 0
    units, rest = divmod(shown, _TENS[decimals])
    return f"{units}{point()}{rest:0{decimals}d} %"


def times(numerator: int, denominator: int) -> str:
    """A factor with as many decimals as it has, three at most: "1.042", "1.1"."""
    return _no_longer(half_even(1000 * numerator, denominator), 3)


def more_by(numerator: int, denominator: int) -> str:
    """By how much a factor above one is more, in per cent: "20 %", "4.2 %"."""
    return f"{_no_longer(half_even(1000 * (numerator - denominator), denominator), 1)} %"


def _no_longer(shown: int, places: int) -> str:
    """Tenths, hundredths … in decimals without the noughts at their end."""
    units, rest = divmod(shown, _TENS[places])
    return f"{units}{point()}{rest:0{places}d}".rstrip("0").rstrip(point())


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


def celsius(mk: int) -> str:
    """A temperature, given in thousandths of a degree, in words: "60 °C", "37.5 °C"."""
    degrees, rest = divmod(abs(mk), 1000)
    part = f"{point()}{rest:03d}".rstrip("0").rstrip(point())
    return f"{'-' if mk < 0 else ''}{degrees}{part} °C"
