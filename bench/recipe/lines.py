"""The lines of a part: what is written as weights, volumes, parts, per cents and counts, as whole numbers."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from bench.errors import RecipeError
from bench.quantities import DROP_NL, MOST_UG, Amount, read_ppm
from bench.recipe.source import Source, nearest
from bench.shapes.recipe import (
    LookedAtTwice,
    Measure,
    RecipeLine,
    Substitute,
    SubstituteBy,
    WrittenLine,
    WrittenSubstitute,
)
from bench.shapes.units import Id, Mg, Ppm, Ug
from bench.whole import half_even
from bench.words import point, say

DEFAULT_TOLERANCE_PPM = 20_000  # 2 % a line: common practice for hand-made batches


def read_lines(
    source: Source, written: list[WrittenLine], where: str, part_ug: Ug | None, written_mg: Mg | None
) -> list[RecipeLine]:
    """The lines of a part, parts and per cents as µg of it as written.

    part_ug: what "one part" weighs; None where the recipe does not say. written_mg: the mass of the part as
    written, from its pieces; None where that follows from the lines.
    """
    at = f"{where}.lines"
    unique([line["id"] for line in written], at, "line")
    amounts = [
        source.amount(line["ingredient"], line["amount"], f"{at}.{index}", part_ug)
        for index, line in enumerate(written)
    ]
    whole = _whole_of(amounts, at, written_mg)
    return [
        _line(source, line, f"{at}.{index}", amount, whole.ug_of(amount, ug), part_ug)
        for index, (line, (amount, ug)) in enumerate(zip(written, amounts, strict=True))
    ]


def unique(ids: list[Id], where: str, kind: Literal["line", "step", "way"]) -> None:
    seen: set[Id] = set()
    for index, key in enumerate(ids):
        if key in seen:
            raise RecipeError(f"{where}.{index}.id", say("schema-used-twice", kind=kind, id=key))
        seen.add(key)


@dataclass(frozen=True, slots=True)
class _Whole:
    """What a part's lines come to, for those written as a share of it."""

    total_ug: Fraction
    percent: Fraction  # of all lines written as per cents, as a fraction
    parts: Fraction  # of all lines written as parts of no known weight

    def ug_of(self, amount: Amount, ug: Fraction | None) -> Ug | None:
        if amount.kind == "percent":
            return nearest(self.total_ug * amount.value)
        if amount.kind == "parts" and ug is None:
            return nearest(self.total_ug * (1 - self.percent) * amount.value / self.parts)
        return None if ug is None else nearest(ug)


def _whole_of(amounts: list[tuple[Amount, Fraction | None]], at: str, written_mg: Mg | None) -> _Whole:
    percent = sum((amount.value for amount, _ in amounts if amount.kind == "percent"), Fraction(0))
    parts = sum(
        (amount.value for amount, ug in amounts if amount.kind == "parts" and ug is None), Fraction(0)
    )
    fixed_ug = sum((ug for _, ug in amounts if ug is not None), Fraction(0))
    if percent > 1 or (percent == 1 and (parts or fixed_ug)):
        raise RecipeError(at, say("recipe-per-cents-no-room", share=_share(percent)))
    if parts and fixed_ug:
        raise RecipeError(at, say("recipe-parts-beside-weights"))
    if parts or (percent and not fixed_ug):
        if not parts and percent != 1:
            raise RecipeError(at, say("recipe-per-cents-short", share=_share(percent)))
        if written_mg is None:
            raise RecipeError(at, say("recipe-no-mass"))
        total_ug = Fraction(written_mg * 1000)
    else:
        total_ug = fixed_ug / (1 - percent)
    if total_ug > MOST_UG:
        raise RecipeError(at, say("recipe-too-heavy"))
    return _Whole(total_ug, percent, parts)


def _share(percent: Fraction) -> str:
    return f"{float(percent * 100):g} %".replace(".", point())


def _line(
    source: Source, line: WrittenLine, where: str, amount: Amount, ug: Ug | None, part_ug: Ug | None
) -> RecipeLine:
    tolerance = (
        read_ppm(line["tolerance"], f"{where}.tolerance") if "tolerance" in line else DEFAULT_TOLERANCE_PPM
    )
    if tolerance < 100:
        raise RecipeError(f"{where}.tolerance", say("recipe-tolerance-too-fine"))
    twice: LookedAtTwice = {"second_look": True} if line.get("second_look") else {}
    return {
        **twice,
        **_measure(source, amount, ug, line["ingredient"]),
        "id": line["id"],
        "ingredient": line["ingredient"],
        "written": line["amount"],
        "by_volume": amount.kind == "volume",
        "tolerance_ppm": tolerance,
        "optional": line.get("optional", False),
        "note": line.get("note", ""),
        "substitutes": [
            _substitute(source, line, amount, ug, substitute, f"{where}.substitutes.{index}", part_ug)
            for index, substitute in enumerate(line.get("substitutes", []))
        ],
    }


def _substitute(
    source: Source,
    line: WrittenLine,
    amount: Amount,
    ug: Ug | None,
    substitute: WrittenSubstitute,
    where: str,
    part_ug: Ug | None,
) -> Substitute:
    """A stand-in: its own written amount, else equal in active share where both name one, else
    the line's amount, a volume through its own density. `by` says which."""
    ingredient = substitute["ingredient"]
    by = _as_the_line(amount)
    if "amount" in substitute:
        by = "amount"
        amount, own_ug = source.amount(ingredient, substitute["amount"], where, part_ug)
        if amount.kind in ("percent", "parts") and own_ug is None:
            raise RecipeError(f"{where}.amount", say("recipe-substitute-amount"))
        ug = None if own_ug is None else nearest(own_ug)
    elif ug is not None and (actives := _actives(source, line["ingredient"], ingredient)):
        by = "active"
        ug = half_even(ug * actives[0], actives[1])
        amount = Amount("mass", Fraction(ug))
    elif amount.kind == "volume" or ingredient not in source.ingredients:
        by = "volume"
        amount, own_ug = source.amount(ingredient, line["amount"], where, part_ug)
        ug = None if own_ug is None else nearest(own_ug)
    return {
        **_measure(source, amount, ug, ingredient),
        "ingredient": ingredient,
        "by": by,
        "written": substitute.get("amount", line["amount"]),
        "by_volume": amount.kind == "volume",
        "says": substitute.get("says", ""),
        "changes_method": substitute.get("changes_method", False),
    }


def _as_the_line(amount: Amount) -> SubstituteBy:
    if amount.kind == "counted":
        return "count"
    return "texture" if amount.kind == "texture" else "mass"


def _actives(source: Source, line: Id, stand_in: Id) -> tuple[Ppm, Ppm] | None:
    """The active shares of a line's ingredient and of its stand-in; None unless both name one."""
    if stand_in not in source.ingredients:
        return None
    has, wants = source.active_ppm(line), source.active_ppm(stand_in)
    return (has, wants) if has and wants else None


def _measure(source: Source, amount: Amount, ug: Ug | None, ingredient: Id) -> Measure:
    measure: Measure = {
        "ug": ug,
        "nl": None,
        "count": None,
        "unit": "",
        "about_ug": None,
        "texture": amount.kind == "texture",
    }
    if amount.kind == "volume" and ug is None:
        measure["nl"] = nearest(amount.value)
    elif amount.kind == "counted":
        # Kept in thousandths so that half a piece written is still half a piece when scaled.
        measure["count"] = nearest(amount.value * 1000)
        measure["unit"] = amount.unit
        density = source.density(ingredient)
        if amount.unit == "drops" and density is not None:
            measure["about_ug"] = nearest(amount.value * DROP_NL * density)
    return measure
