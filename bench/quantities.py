"""Amounts, durations and densities as people write them, read into whole numbers.

Pint converts; this module is the only door to it, and it is imported when first used
because it takes a quarter of a second. `oz` is mass and `fl oz` is volume. Spoons, cups
and fluid ounces differ between places: the recipe says whose they are.
"""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from bench.errors import AmountError
from bench.lists import group, kept
from bench.shapes.recipe import Measures, Spoon
from bench.shapes.units import Mg, MilliK, Ms, Ppm
from bench.whole import PPM, UOZ, Division, half_even, uoz_to_mg
from bench.words import say

if TYPE_CHECKING:
    from pint import UnitRegistry

# Spelling -> pint's name. The three sets of kitchen measures differ in the second table.
MASS_UNITS = {
    **dict.fromkeys(("g", "gs", "gm", "gms", "gram", "grams", "gramme", "grammes"), "gram"),
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"), "kilogram"),
    **dict.fromkeys(("mg", "mgs", "milligram", "milligrams"), "milligram"),
    **dict.fromkeys(("oz", "ozs", "ounce", "ounces"), "ounce"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "pound"),
}
_SMALLER = {"pound": "ounce", "kilogram": "gram"}  # what stands behind it: 8 lb 2 oz
METRIC_VOLUME_UNITS = {
    # cc is the cubic centimetre, a millilitre by another name.
    **dict.fromkeys(
        ("ml", "mls", "cc", "millilitre", "millilitres", "milliliter", "milliliters"), "milliliter"
    ),
    **dict.fromkeys(("cl", "cls", "centilitre", "centilitres"), "centiliter"),
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), "liter"),
}
KITCHEN_SPELLINGS = {
    **dict.fromkeys(("tsp", "tsps", "teaspoon", "teaspoons"), "tsp"),
    **dict.fromkeys(("tbsp", "tbsps", "tablespoon", "tablespoons"), "tbsp"),
    **dict.fromkeys(("cup", "cups"), "cup"),
    **dict.fromkeys(("fl oz", "fl ozs", "fluid ounce", "fluid ounces"), "fl oz"),
    **dict.fromkeys(("pt", "pts", "pint", "pints"), "pint"),
    **dict.fromkeys(("qt", "qts", "quart", "quarts"), "quart"),
    **dict.fromkeys(("gal", "gals", "gallon", "gallons"), "gallon"),
}
# US: pint's own, which are NIST Handbook 44 App. C's. Metric: UCUM v2.2 [tsp_m], [tbs_m],
# [cup_m], [foz_m]. Imperial: the fluid ounce, cup (half a pint) and pint are pint's own, from
# the 4.54609 L gallon; British spoons have long been metric ones (common practice).
KITCHEN_UNITS: dict[Measures, dict[str, tuple[Fraction, str]]] = {
    "us": {
        "tsp": (Fraction(1), "teaspoon"),
        "tbsp": (Fraction(1), "tablespoon"),
        "cup": (Fraction(1), "cup"),
        "fl oz": (Fraction(1), "fluid_ounce"),
        "pint": (Fraction(1), "pint"),
        "quart": (Fraction(1), "quart"),
        "gallon": (Fraction(1), "gallon"),
    },
    "imperial": {
        "tsp": (Fraction(5), "milliliter"),
        "tbsp": (Fraction(15), "milliliter"),
        "cup": (Fraction(1, 2), "imperial_pint"),
        "fl oz": (Fraction(1), "imperial_fluid_ounce"),
        "pint": (Fraction(1), "imperial_pint"),
        "quart": (Fraction(2), "imperial_pint"),
        "gallon": (Fraction(8), "imperial_pint"),
    },
    "metric": {
        "tsp": (Fraction(5), "milliliter"),
        "tbsp": (Fraction(15), "milliliter"),
        "cup": (Fraction(240), "milliliter"),
        "fl oz": (Fraction(30), "milliliter"),
    },
}
_GREAT_UNITS = frozenset(  # a thousand of these is past any bench, or no share at all
    (
        "%",
        *(unit for unit, name in MASS_UNITS.items() if name in ("kilogram", "pound")),
        *(unit for unit, name in METRIC_VOLUME_UNITS.items() if name == "liter"),
    )
)
COUNTED_UNITS = {
    **dict.fromkeys(("drop", "drops"), "drops"),
    **dict.fromkeys(("piece", "pieces", "pc", "pcs"), "pieces"),
}
AS_NEEDED = frozenset({"to texture", "as needed", "q.s.", "nach bedarf"})  # as makers and the format write it
DROP_NL = 50_000  # UCUM v2.2 [drp]: 1/20 mL. A convention: real droppers differ.
MOST_UG = 10**13  # ten tonnes: past any bench, and still exact in JavaScript's numbers
DURATION_MS = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), 1000),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), 60_000),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 3_600_000),
    **dict.fromkeys(("d", "day", "days"), 86_400_000),
    **dict.fromkeys(("week", "weeks"), 7 * 86_400_000),
}
FINEST_UOZ = UOZ // 1000  # the finest ounce scale: 28 mg, so that no reading is lost in whole mg
LEAST_STEP_UOZ = UOZ // 10_000  # four decimals of an ounce, a sixteenth among them
LONGEST_MS = 366 * 86_400_000

_NUMBER = (
    r"(?:(?P<whole>\d{1,9})\s+)?(?P<over>\d{1,9})\s*/\s*(?P<under>\d{1,9})|(?P<plain>\d{1,9}(?:\.\d{1,9})?)"
)
# Thousands kept apart by spaces, apostrophes, points or commas, with a decimal behind them or none.
_SPACED = re.compile(r"(?<![\d.,])(\d{1,3})((?:[ '’]\d{3})+)(?!\d|\s*[/\d])")
_GROUPED = re.compile(r"(?<![\d.,])(\d{1,3})((?:,\d{3}){2,}|(?:,\d{3})+(?=\.\d))(?![\d,])")
_POINTED = re.compile(r"(?<![\d.,])(\d{1,3})((?:\.\d{3}){2,}|(?:\.\d{3})+(?=,\d))(?![\d.])")
_COMMA = re.compile(r"(?<![\d.,])(\d{1,9}),(\d{1,9})(?![\d.,])")
# One comma or point with three figures behind it: a decimal, or thousands? A point asks only before noughts.
_SOME = r"(\d(?:[\d\s./,]*\d)?)"
_IN_TWO = re.compile(rf"\s*{_SOME}\s*([A-Za-z]+)\.?,?\s+{_SOME}\s*([A-Za-z]+)\.?\s*")
_TWO_WAYS = re.compile(r"\s*([1-9][0-9]{0,2})(?:,([0-9]{3})|\.(000))(?![\d.,])")
_AMOUNT = re.compile(rf"(?:{_NUMBER})\s*(?P<unit>%|[A-Za-z][A-Za-z .]*)?")


AmountKind = Literal["mass", "volume", "counted", "parts", "percent", "texture"]


@dataclass(frozen=True, slots=True)
class Amount:
    """One written amount, read.

    kind: "mass" (value in µg), "volume" (nL), "counted" (pieces or drops, see `unit`),
    "parts", "percent" (value is the fraction, 3 % is 3/100) or "texture" (value 0).
    """

    kind: AmountKind
    value: Fraction
    unit: str = ""


@kept
def _registry() -> "UnitRegistry[Fraction]":
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


def convert(value: Fraction, unit: str, into: str) -> Fraction:
    """`value` of pint's `unit` in pint's unit `into`, exactly."""
    return Fraction(_registry().Quantity(value, unit).to(into).magnitude)


def _plain(text: str) -> str:
    """A written number in the one spelling that is read: a decimal point, and thousands together."""
    # "1½" would normalise to "11/2": part the digit from the vulgar fraction first.
    spaced = re.sub(r"([¼-¾⅐-⅞↉])", r" \1", text)
    plain = unicodedata.normalize("NFKC", spaced).replace("\u2044", "/").strip()
    for grouped in (_SPACED, _GROUPED, _POINTED):
        plain = grouped.sub(_joined, plain)
    return _COMMA.sub(_pointed, plain)


def _has_raised(text: str) -> bool:
    """Whether a digit is raised or ringed: "5² g" would read as 52 g."""
    return any(each.isdigit() and not each.isdecimal() for each in text)


def _joined(found: re.Match[str]) -> str:
    return group(found, 1) + re.sub(r"\D", "", group(found, 2))


def _pointed(found: re.Match[str]) -> str:
    return f"{group(found, 1)}.{group(found, 2)}"


_Wanted = Literal["amount", "share", "density", "celsius"]


def _unread(text: str, where: str, wanted: _Wanted) -> AmountError:
    return AmountError(where, say(f"amounts-unread-{wanted}", written=text[:40]))


def _split(text: str, where: str, wanted: _Wanted = "amount") -> tuple[Fraction, str]:
    """A written number and the words after it; a fault says what was wanted."""
    plain = _plain(text)
    match = None if _has_raised(text) else _AMOUNT.fullmatch(plain)
    if not match:
        raise _unread(text, where, wanted)
    unit = " ".join(group(match, "unit").replace(".", " ").split())
    if group(match, "plain"):
        return Fraction(group(match, "plain")), unit
    over, under = int(group(match, "over")), int(group(match, "under"))
    if under == 0:
        raise AmountError(where, say("amounts-by-zero", written=text[:40]))
    return Fraction(over, under) + int(group(match, "whole") or 0), unit


def _ask_which(text: str, unit: str, where: str) -> None:
    """AmountError where "1,000 g" may be one gram or a thousand."""
    ways = _two_ways(text, unit)
    if ways:
        raise AmountError(
            where, say("amounts-two-ways", written=text.strip()[:40], one=ways[0], other=ways[1])
        )


def two_ways(text: str) -> tuple[str, str] | None:
    """What a written amount may mean: one gram or a thousand. The first is as which a kept one is read."""
    found = _AMOUNT.fullmatch(_plain(text))
    return _two_ways(text, group(found, "unit").strip().lower()) if found else None


def _two_ways(text: str, unit: str) -> tuple[str, str] | None:
    """None where it can only be read one way: so many of a great unit can only be decimals."""
    found = _TWO_WAYS.match(text)
    if not found or unit in _GREAT_UNITS:
        return None
    whole, part = group(found, 1), group(found, 2) or group(found, 3)
    decimal = f"{whole}.{part}".rstrip("0").rstrip(".")
    named = f" {unit}" if unit else ""
    return f"{decimal}{named}", f"{whole}{part}{named}"


def read_amount(text: str, measures: Measures | None, where: str = "amount", kept: bool = False) -> Amount:
    """Read "240 g", "8 1/2 oz", "8 lb 2 oz", "1½ tsp", "2 parts", "3 %", "1,5 g", "12 drops" or "as needed" (`AS_NEEDED`).

    kept: it was taken in by an earlier version, which asked nothing of "1.000 g".

    measures: whose spoons and cups, "us", "imperial" or "metric"; None when the recipe does
    not say, and then a spoon or a cup is an AmountError.
    """
    if text.strip().lower() in AS_NEEDED:
        return Amount("texture", Fraction(0))
    halves = _in_two(text)
    if halves:
        great, small = (read_amount(half, measures, where, kept).value for half in halves)
        return _bounded(Amount("mass", great + small), text, where)
    number, unit = _split(text, where)
    if number <= 0:
        raise AmountError(where, say("amounts-zero", written=text[:40]))
    if unit not in ("T", "t"):  # a capital once told the tablespoon from the teaspoon: too easily misread
        unit = unit.lower()
    if not kept:
        _ask_which(text, unit, where)
    if unit == "%":
        return Amount("percent", number / 100)
    if unit in ("part", "parts"):
        return Amount("parts", number)
    if unit in COUNTED_UNITS:
        return Amount("counted", number, COUNTED_UNITS[unit])
    if unit in MASS_UNITS:
        return _bounded(Amount("mass", convert(number, MASS_UNITS[unit], "microgram")), text, where)
    if unit in METRIC_VOLUME_UNITS:
        return _bounded(
            Amount("volume", convert(number, METRIC_VOLUME_UNITS[unit], "nanoliter")), text, where
        )
    if unit in KITCHEN_SPELLINGS:
        return _bounded(Amount("volume", kitchen_nl(number, unit, measures, where)), text, where)
    if not unit:
        raise AmountError(where, say("amounts-no-unit", written=text[:40]))
    raise AmountError(where, say("amounts-unknown-unit", unit=unit[:20]))


def _in_two(text: str) -> tuple[str, str] | None:
    """ "8 lb 2 oz" and "1 kg 200 g" in their two halves; None for all else."""
    found = None if _has_raised(text) else _IN_TWO.fullmatch(_plain(text))
    if not found:
        return None
    first, great, second, small = (group(found, place) for place in (1, 2, 3, 4))
    wanted = _SMALLER.get(MASS_UNITS.get(great.lower(), ""))
    fits = wanted is not None and wanted == MASS_UNITS.get(small.lower())
    return (f"{first} {great}", f"{second} {small}") if fits else None


def _bounded(amount: Amount, text: str, where: str) -> Amount:
    if amount.value > MOST_UG:
        raise AmountError(where, say("amounts-too-much", written=text[:40]))
    if amount.value < 1:
        raise AmountError(where, say("amounts-too-little", written=text[:40]))
    return amount


def kitchen_nl(number: Fraction, unit: str, measures: Measures | None, where: str = "amount") -> Fraction:
    """A kitchen measure's volume in nL; AmountError when the recipe does not say whose it is."""
    if measures is None:
        raise AmountError(where, say("amounts-whose-measure", measure=KITCHEN_SPELLINGS[unit]))
    measure = KITCHEN_SPELLINGS[unit]
    if measure not in KITCHEN_UNITS[measures]:
        raise AmountError(where, say("amounts-no-such-measure", measure=measure, measures=measures))
    factor, name = KITCHEN_UNITS[measures][measure]
    return convert(number * factor, name, "nanoliter")


def read_number(text: str, where: str) -> Fraction:
    """A written number without a unit, such as a sum of money; AmountError where it may mean two."""
    number, unit = _split(text, where)
    ways = re.fullmatch(r"\s*([1-9][0-9]{0,2})[.,]([0-9]{3})\s*", text)
    if ways:
        one, other = f"{group(ways, 1)}.{group(ways, 2)}", group(ways, 1) + group(ways, 2)
        raise AmountError(where, say("amounts-two-ways", written=text.strip()[:40], one=one, other=other))
    if unit:
        raise _unread(text, where, "amount")
    return number


def read_mass_mg(text: str, where: str, kept: bool = False) -> Mg:
    """A written mass in whole mg."""
    amount = read_amount(text, None, where, kept)
    if amount.kind != "mass":
        raise AmountError(where, say("amounts-not-a-mass", written=text[:40]))
    return half_even(amount.value.numerator, amount.value.denominator * 1000)


def read_division(text: str, where: str) -> Division:
    """A scale's division. One written in ounces is of a scale that is read in ounces, and is held exactly; one written
    in pounds is of such a scale too."""
    number, unit = _split(text, where)
    ounces = {"ounce": 1, "pound": 16}.get(MASS_UNITS.get(unit.lower(), ""))
    if ounces is None:
        return Division(read_mass_mg(text, where))
    uoz = number * ounces * UOZ
    if uoz < FINEST_UOZ or uoz.denominator != 1 or uoz.numerator % LEAST_STEP_UOZ:
        raise AmountError(where, say("amounts-no-ounce-division", written=text[:40]))
    return Division(uoz_to_mg(uoz.numerator), uoz.numerator)


def read_ppm(text: str, where: str) -> Ppm:
    """A written percentage up to 100 % in whole parts per million. "0 %" is allowed."""
    number, unit = _split(text, where, "share")
    ppm = half_even(number.numerator * 10_000, number.denominator)
    if unit != "%" or ppm > PPM:
        raise _unread(text, where, "share")
    return ppm


def read_duration_ms(text: str, where: str) -> Ms:
    """ "15 s", "4 min", "6 h 30 min" or "2 days" in whole ms; above nought, at most a year."""
    total = Fraction(0)
    pieces = [
        (group(found, 1), group(found, 2))
        for found in re.finditer(r"([\d.,/½¼¾\s]*[\d½¼¾])\s*([A-Za-z]+)", text)
    ]
    told = "".join(number + unit for number, unit in pieces)
    if not pieces or "".join(told.split()) != "".join(text.split()):  # nothing written is passed over
        raise AmountError(where, say("amounts-not-a-time", written=text[:40]))
    for number, unit in pieces:
        if unit.lower() not in DURATION_MS:
            raise AmountError(where, say("amounts-unknown-time", unit=unit[:20]))
        total += _split(number, where)[0] * DURATION_MS[unit.lower()]
    ms = half_even(total.numerator, total.denominator)
    if ms <= 0:
        raise AmountError(where, say("amounts-no-time", written=text[:40]))
    if ms > LONGEST_MS:
        raise AmountError(where, say("amounts-over-a-year", written=text[:40]))
    return ms


def read_density(text: str, where: str) -> Fraction:
    """A density in g/mL (the same as µg/nL) between 0.05 and 25."""
    number, unit = _split(text, where, "density")
    if unit or not Fraction(1, 20) <= number <= 25:
        raise _unread(text, where, "density")
    return number


def read_celsius_mk(text: str, where: str) -> MilliK:
    """A temperature from 0 to 250 °C in whole thousandths of a degree."""
    number, unit = _split(text, where, "celsius")
    if unit or number > 250:
        raise _unread(text, where, "celsius")
    return half_even(number.numerator * 1000, number.denominator)


DRAWER = (  # what a kitchen drawer really holds, largest first
    ("cup", Fraction(1), "cup"),
    ("½ cup", Fraction(1, 2), "cup"),
    ("¼ cup", Fraction(1, 4), "cup"),
    ("tbsp", Fraction(1), "tbsp"),
    ("tsp", Fraction(1), "tsp"),
    ("½ tsp", Fraction(1, 2), "tsp"),
    ("¼ tsp", Fraction(1, 4), "tsp"),
    ("⅛ tsp", Fraction(1, 8), "tsp"),
)


def spoon_drawer(measures: Measures) -> list[Spoon]:
    """The spoons and cups of these measures, largest first."""
    drawer: list[Spoon] = []
    for name, share, unit in DRAWER:
        nl = kitchen_nl(share, unit, measures)
        drawer.append({"name": name, "nl": half_even(nl.numerator, nl.denominator)})
    return drawer
