"""Isopropyl alcohol by its strength, in per cent by volume as the bottle says it."""

import re
from fractions import Fraction
from typing import NamedTuple

ISOPROPYL = "isopropyl-alcohol"  # in the table of substances


class Strength(NamedTuple):
    """Water by mass as it is said; g/ml from and to, at 20 °C (USP 32, specific gravity, of its monographs)."""

    percent: str
    water: str
    low: Fraction
    high: Fraction


STRENGTHS = {
    each.percent: each
    for each in (
        Strength("70", "37 %", Fraction("0.872"), Fraction("0.883")),
        Strength("91", "12 %", Fraction("0.810"), Fraction("0.815")),
        Strength("99", "1 %", Fraction("0.783"), Fraction("0.787")),
    )
}


def strength_of(name: str) -> Strength | None:
    """What a name says of its strength; None where it says none, or one that is not sold."""
    found = re.search(rf"\b({'|'.join(STRENGTHS)})(?:[.,]\d)? ?%", name)
    return STRENGTHS[found[1]] if found else None
