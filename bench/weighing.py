"""Which scale for which line, and what a mass in the bowl means.

A reading of division d carries a standard uncertainty of at least 0.41 d, so the smallest net
mass worth weighing to a tolerance t is 2 x 0.41 d / t: the minimum-weight rule of USP <41>
(2019), with the maker's own t in place of its 0.10 %. The weight of the vessel does not count
towards it. Vessel and contents together stay within the scale's capacity.
"""

from bench.errors import KitError
from bench.shapes.kit import Kit, Scale
from bench.shapes.sheet import SheetLine
from bench.shapes.units import Mg, Ppm
from bench.whole import PPM, Division, ceiling, half_even
from bench.words import say


def reads_in(scale: Scale) -> Division:
    """What a scale reads in."""
    return Division(scale["division_mg"], scale.get("division_uoz"))


def least_mg(division_mg: Mg, tolerance_ppm: Ppm) -> Mg:
    """The smallest net mass, in mg, that a scale of this division weighs to this tolerance."""
    return ceiling(82 * division_mg * PPM, 100 * tolerance_ppm)


def tolerance_mg(mg: Mg, tolerance_ppm: Ppm, division_mg: Mg) -> Mg:
    """How far a line may be off, in mg: its tolerance, but never less than half a division."""
    return max(half_even(mg * tolerance_ppm, PPM), ceiling(division_mg, 2))


def allowed_mg(line: SheetLine, division_mg: Mg | None, num: int = 1, den: int = 1) -> Mg:
    """How far a sheet's line may be off, in mg, on a scale of this division, while its round is made num / den
    of the sheet's: the one rule by which the fold, the bench and the record judge."""
    return max(half_even(line["tolerance_mg"] * num, den), ceiling(division_mg or 1, 2))


def coarsest_first(kit: Kit) -> list[Scale]:
    """The kit's scales, coarsest division first; KitError when there is none."""
    if not kit["scales"]:
        raise KitError("scales", say("kit-no-scale"))
    return sorted(kit["scales"], key=_coarseness)


def _coarseness(scale: Scale) -> tuple[int, int, str]:
    return -scale["division_mg"], -scale["capacity_mg"], scale["id"]


def bowl_scale(kit: Kit, load_mg: Mg, lines: list[tuple[Mg, Ppm]]) -> Scale | None:
    """The scale a vessel stands on while these (mg, tolerance_ppm) lines go in.

    load_mg: vessel and contents together. The coarsest scale that meets every line, else the
    coarsest that carries the load; None when none carries it.
    """
    able = [scale for scale in coarsest_first(kit) if scale["capacity_mg"] >= load_mg]
    for scale in able:
        if all(mg >= least_mg(scale["division_mg"], tolerance) for mg, tolerance in lines):
            return scale
    return able[0] if able else None


def cup_scale(kit: Kit, cup_mg: Mg, mg: Mg, tolerance_ppm: Ppm) -> tuple[Scale, bool] | None:
    """The scale for a line too small for its bowl's scale, weighed in a small cup first.

    The coarsest that meets the line (and True), else the finest that can carry it (and False);
    None when no scale carries it.
    """
    able = [scale for scale in coarsest_first(kit) if scale["capacity_mg"] >= cup_mg + mg]
    for scale in able:
        if mg >= least_mg(scale["division_mg"], tolerance_ppm):
            return scale, True
    return (able[-1], False) if able else None


def uncertainty_ppm(mg: Mg, division_mg: Mg) -> Ppm:
    """Twice the standard uncertainty of one reading, as a share of the mass, in ppm."""
    return half_even(82 * division_mg * PPM, 100 * mg)


def carry_factor(lines: list[tuple[Mg, Mg]]) -> tuple[int, int]:
    """k = max(actual / target) over what is in the bowl, as a whole numerator and denominator.

    lines: (actual mg, target mg) pairs with something in and a target above nought. (1, 1)
    when there is none.
    """
    best = (1, 1)
    first = True
    for actual, target in lines:
        if first or actual * best[1] > best[0] * target:
            best, first = (actual, target), False
    return best
