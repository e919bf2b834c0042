"""One finding, the table of rules it is by, and how it says a share."""

from fractions import Fraction
from typing import TypedDict, cast

from bench.lists import kept
from bench.shapes.recipe import Finding, Level
from bench.sources import Cited, cited
from bench.table import read_table
from bench.whole import ten_to
from bench.words import point, say_if_there

LEVELS: tuple[Level, ...] = ("will_not_run", "look", "know")  # the gravest first


class RuleRow(TypedDict):
    id: str
    source: str  # a row of bench/sources.json


@kept
def rule_table() -> dict[str, RuleRow]:
    """Every rule of the check by its id: rules.json."""
    return {each["id"]: each for each in cast(list[RuleRow], read_table("checks/rules.json"))}


def finding(
    rule: str,
    level: Level,
    where: str,
    what: str,
    *,
    why: str | None = None,
    by: str = "",
    do: str | None = None,
    source: Cited | None = None,
) -> Finding:
    """rule: a row of rules.json, which says where the rule is from.

    where: "component", "component.line", "component.step", "ingredients.id" or a field of the recipe.
    why, do: where the case at hand decides; else what the catalogue says of the rule, "checks-{rule}-why", if anything.
    source: where the case at hand has its own, as a substance has of its traits.
    """
    origin = source or cited(rule_table()[rule]["source"])
    return {
        "rule": rule,
        "level": level,
        "where": where,
        "what": what,
        "why": _usual(rule, "why") if why is None else why,
        "by": by,
        "do": _usual(rule, "do") if do is None else do,
        "source": origin["source"],
        "dated": origin["dated"],
    }


def _usual(rule: str, part: str) -> str:
    return say_if_there("-".join(("checks", rule, part)))


def cut_per_cent(share: Fraction, decimals: int = 2) -> str:
    """A share in per cent, cut and not rounded, so that it never reads past a limit it is below."""
    units, rest = divmod(int(share * 100 * ten_to(decimals)), ten_to(decimals))
    return f"{units}{point()}{rest:0{decimals}d} %" if decimals else f"{units} %"


def decimals_of(share: Fraction, limit: Fraction) -> int:
    """How many decimals, from two to six, a per cent needs before it shows a limit whole and a share
    above it as larger."""
    whole = next((n for n in range(2, 6) if (limit * 100 * ten_to(n)).denominator == 1), 6)
    return next(
        (n for n in range(whole, 6) if cut_per_cent(share - limit, n) != cut_per_cent(limit * 0, n)), 6
    )


def decimal(value: Fraction | float, decimals: int) -> str:
    """A number above zero for reading, to so many decimals."""
    return f"{float(value):.{decimals}f}".replace(".", point())


def number(value: float) -> str:
    """A number as it was given: 21, 21.5."""
    return f"{value:g}".replace(".", point())
