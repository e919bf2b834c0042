"""The lines of a round: how much, on which scale, how far it may be off, or by how many spoons."""

from bench.quantities import read_density
from bench.shapes.kit import Kit, Scale
from bench.shapes.recipe import Ingredient, MeasuredRecipe, RecipeLine, RecipeWeigh, Spoon
from bench.shapes.sheet import InSpoons, SheetLine, SheetVessel, Spoonful
from bench.shapes.units import Id, LineKey, Mg, Nl
from bench.sheet.chosen import ChosenLine
from bench.sheet.parts import Part, Warnings
from bench.sizing import vessel_for
from bench.weighing import cup_scale, reads_in, tolerance_mg, uncertainty_ppm
from bench.whole import half_even, to_division

_SPOON_GRAIN = 8  # nL: what the drawer's own rounding comes to over several spoons


class Lines:
    def __init__(self, recipe: MeasuredRecipe, kit: Kit, warnings: Warnings) -> None:
        self.ingredients = recipe["ingredients"]
        self.spoons = recipe["spoons"]
        self.kit = kit
        self.scales = {scale["id"]: scale for scale in kit["scales"]}
        self.warnings = warnings

    def of_round(
        self, part: Part, weighed_in: dict[Id, RecipeWeigh], places: dict[Id, SheetVessel]
    ) -> list[SheetLine]:
        return [self._line(part, chosen, weighed_in.get(chosen.line["id"]), places) for chosen in part.lines]

    def _line(
        self, part: Part, chosen: ChosenLine, step: RecipeWeigh | None, places: dict[Id, SheetVessel]
    ) -> SheetLine:
        line, ingredient = chosen.line, self.ingredients[chosen.line["ingredient"]]
        vessel = places[step["into"]] if step else None
        mg = part.masses[line["id"]]
        is_weighed = bool(line["ug"])
        where = f"{part.prefix}.{line['id']}"
        scale, in_cup = None, False
        if is_weighed and vessel:
            scale, in_cup = self._scale_for(line, mg, self.scales.get(vessel["scale"] or ""), where)
        top, bottom = part.factor
        nl = half_even(line["nl"] * top, bottom) if line["nl"] is not None else None
        about_ug = line["about_ug"]
        self._warn(part, line, nl)
        shown_mg = scale["division_mg"] if scale else None
        return {
            "id": where,
            "component": part.component["id"],
            "round": part.number,
            "line": line["id"],
            "ingredient": line["ingredient"],
            "name": ingredient["name"],
            "vessel": vessel["id"] if vessel else None,
            "step": f"{part.prefix}.{step['id']}" if step else None,
            "mg": mg if is_weighed else None,
            "nl": nl,
            "count": self._count(part, line),
            "unit": line["unit"],
            "about_mg": half_even(about_ug * top, bottom * 1000) if about_ug is not None else None,
            "tolerance_mg": tolerance_mg(mg, line["tolerance_ppm"], shown_mg) if shown_mg else 0,
            "scale": scale["id"] if scale else None,
            "division_mg": shown_mg,
            "cup": in_cup,
            "spoons": in_spoons(self.spoons, nl) if nl is not None else None,
            "by_spoon": self._by_spoon(ingredient, mg, scale),
            "optional": line["optional"],
            "note": line["note"],
            "instead_of": chosen.instead_of,
        }

    def _count(self, part: Part, line: RecipeLine) -> int | None:
        """A count, at least one; None for what is not counted."""
        if line["count"] is None:
            return None
        top, bottom = part.factor
        return half_even(line["count"] * top, bottom * 1000) or 1

    def _warn(self, part: Part, line: RecipeLine, nl: Nl | None) -> None:
        """What is wrong with a line that is not weighed: said once, however many rounds there are."""
        if nl is None and line["count"] is None and line["unit"] != "drops":
            return
        written = f"{part.component['id']}.{line['id']}"
        name = self.ingredients[line["ingredient"]]["name"]
        top, bottom = part.factor
        if line["count"] is not None and not half_even(line["count"] * top, bottom * 1000):
            self.warnings.add({"where": written, "kind": "less_than_one", "name": name})
        if nl is not None and 2 * nl < self.spoons[-1]["nl"]:
            self.warnings.add({"where": written, "kind": "less_than_a_spoon", "name": name})
        if line["unit"] == "drops":
            self.warnings.add({"where": written, "kind": "drops"})

    def _by_spoon(self, ingredient: Ingredient, mg: Mg, scale: Scale | None) -> InSpoons | None:
        """What is too little for its scale to show, in spoons, where its density is known."""
        if not scale or not 0 < mg < scale["division_mg"] or to_division(mg, reads_in(scale)):
            return None
        density = ingredient.get("density")  # a recipe measured long ago does not say
        if not density:
            return None
        per_nl = read_density(density["g_per_ml"], "density")  # g/mL is µg/nL
        nl = half_even(mg * 1000 * per_nl.denominator, per_nl.numerator)
        return in_spoons(self.spoons, nl) if nl else None

    def _scale_for(
        self, line: RecipeLine, mg: Mg, scale: Scale | None, where: LineKey
    ) -> tuple[Scale | None, bool]:
        """The scale this line is weighed on, and whether in a small cup first."""
        if scale and (mg == 0 or uncertainty_ppm(mg, scale["division_mg"]) <= line["tolerance_ppm"]):
            return scale, False
        cup = vessel_for(self.kit, "cup", mg)
        found = cup_scale(self.kit, cup["empty_mg"] if cup else 0, mg, line["tolerance_ppm"]) if mg else None
        if found is None:
            return scale, False
        finer, meets = found
        if not meets:
            self.warnings.add(
                {
                    "where": where,
                    "kind": "too_little",
                    "name": self.ingredients[line["ingredient"]]["name"],
                    "mg": mg,
                    "scale": finer["name"],
                    "off_ppm": uncertainty_ppm(mg, finer["division_mg"]),
                }
            )
        if scale and finer["id"] == scale["id"]:
            return scale, False
        return finer, True


def in_spoons(drawer: list[Spoon], nl: Nl) -> InSpoons:
    """A volume in spoons a drawer really holds: 2¾ tsp is 2 tsp, ½ tsp and ¼ tsp.

    To the nearest smallest spoon, and what that is off by in per cent. Less than half the smallest is a share of it.
    """
    smallest = drawer[-1]
    if 2 * nl < smallest["nl"]:
        part = max(1, half_even(100 * nl, smallest["nl"]))
        return {"spoons": [{"spoon": smallest["name"], "count": 1}], "off_percent": 0, "part_percent": part}
    left = nl + smallest["nl"] // 2
    spoons: list[Spoonful] = []
    told = 0
    for spoon in drawer:
        count = (left + _SPOON_GRAIN) // spoon["nl"]
        left = max(0, left - count * spoon["nl"])
        told += count * spoon["nl"]
        if count:
            spoons.append({"spoon": spoon["name"], "count": count})
    off = half_even(100 * abs(told - nl), nl)
    return {"spoons": spoons, "off_percent": off if told > nl else -off, "part_percent": None}
