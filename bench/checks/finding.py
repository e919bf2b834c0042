"""One finding, and how it says a share."""

from fractions import Fraction

from bench.shapes.recipe import Finding, Level
from bench.words import point, say

LEVELS: tuple[Level, ...] = ("will_not_run", "look", "know")  # the gravest first


def finding(
    level: Level,
    where: str,
    what: str,
    *,
    why: str = "",
    by: str = "",
    do: str = "",
    source: str = "",
) -> Finding:
    """where: "component", "component.line", "component.step", "ingredients.id" or a field of the recipe.

    source: common practice where none is given.
    """
    source = source or say("checks-source-common-practice")
    return {"level": level, "where": where, "what": what, "why": why, "by": by, "do": do, "source": source}


def cut_per_cent(share: Fraction, decimals: int = 2) -> str:
    """A share in per cent, cut and not rounded, so that it never reads past a limit it is below."""
    units, rest = divmod(int(share * 100 * 10**decimals), 10**decimals)
    return f"{units}{point()}{rest:0{decimals}d} %"


def decimals_of(share: Fraction, limit: Fraction) -> int:
    """How many decimals, from two to six, a per cent needs before it shows a limit whole and a share
    above it as larger."""
    whole = next((n for n in range(2, 6) if (limit * 100 * 10**n).denominator == 1), 6)
    return next(
        (n for n in range(whole, 6) if cut_per_cent(share - limit, n) != cut_per_cent(limit * 0, n)), 6
    )


def decimal(value: Fraction | float, decimals: int) -> str:
    """A number above zero for reading, to so many decimals."""
    return f"{float(value):.{decimals}f}".replace(".", point())


def number(value: float) -> str:
    """A number as it was given: 21, 21.5."""
    return f"{value:g}".replace(".", point())
