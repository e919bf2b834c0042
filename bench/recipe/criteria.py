"""What a recipe wants of a good piece: between which masses and which pH, how it looks, how it has set."""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from bench.errors import RecipeError
from bench.quantities import read_mass_mg
from bench.shapes.recipe import GoodPiece, WrittenGoodPiece, WrittenRange
from bench.whole import half_even
from bench.words import say

_PH = re.compile(r"([0-9]{1,2})(?:[.,]([0-9]{1,3}))?")
MOST_PH = 14


def read_good_piece(written: WrittenGoodPiece) -> list[GoodPiece]:
    """Each criterion that is written, in one order."""
    found: list[GoodPiece] = []
    if "mass" in written:
        found.append(_range("mass", written["mass"], read_mass_mg))
    if "ph" in written:
        found.append(_range("ph", written["ph"], _ph))
    if "look" in written:
        found.append({"criterion": "look", "least": None, "most": None, "says": written["look"]})
    if "set" in written:
        found.append({"criterion": "set", "least": None, "most": None, "says": written["set"]})
    for place, judged in enumerate(written.get("judge", []), 1):
        found.append({"criterion": f"judge-{place}", "least": None, "most": None, "says": judged})
    return found


def _range(
    criterion: Literal["mass", "ph"], written: WrittenRange, read: Callable[[str, str], int]
) -> GoodPiece:
    where = f"good_piece.{criterion}"
    least = read(written["least"], f"{where}.least") if "least" in written else None
    most = read(written["most"], f"{where}.most") if "most" in written else None
    if least is None and most is None:
        raise RecipeError(where, say("recipe-no-bound"))
    if least is not None and most is not None and least > most:
        raise RecipeError(where, say("recipe-bounds-crossed", least=written["least"], most=written["most"]))
    return {"criterion": criterion, "least": least, "most": most, "says": ""}


def _ph(text: str, where: str) -> int:
    """A pH in thousandths: "5.5" is 5500."""
    found = _PH.fullmatch(text.strip().lower().removeprefix("ph").strip())
    value = Fraction(f"{found[1]}.{found[2] or 0}") if found else None
    if value is None or value > MOST_PH:
        raise RecipeError(where, say("recipe-no-ph", written=text[:40]))
    return half_even(value.numerator * 1000, value.denominator)
