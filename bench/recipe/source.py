"""What every part of a written recipe is read by: its ingredients, and whose spoons it means."""

from dataclasses import dataclass, field
from fractions import Fraction

from bench.errors import RecipeError
from bench.fizz import is_acid
from bench.quantities import (
    Amount,
    read_amount,
    read_celsius_mk,
    read_density,
    read_mass_mg,
    read_ppm,
    two_ways,
)
from bench.shapes.recipe import (
    Density,
    Fragrance,
    Heat,
    Ingredient,
    Measures,
    TwoWays,
    WrittenDensity,
    WrittenFragrance,
    WrittenHeat,
    WrittenIngredient,
)
from bench.shapes.units import Id, Mg, Ppm, Ug
from bench.substances import has, recognised
from bench.whole import PPM, half_even
from bench.words import say


def nearest(value: Fraction) -> int:
    return half_even(value.numerator, value.denominator)


@dataclass(frozen=True, slots=True)
class Source:
    ingredients: dict[Id, WrittenIngredient]
    measures: Measures | None  # None: the recipe does not say, so it has no spoons
    written_for: int
    kept: bool  # it was taken in by an earlier version; see `read_amount`
    asks: list[TwoWays] = field(default_factory=list)  # what a kept one has that is asked about today

    def mass_mg(self, text: str, where: str) -> Mg:
        self._note(text, where)
        return read_mass_mg(text, where, self.kept)

    def _note(self, text: str, where: str) -> None:
        """Ask about what a kept recipe has and a new one could not."""
        ways = two_ways(text) if self.kept else None
        written = text.strip()[:40]
        if ways:
            self.asks.append({"where": where, "written": written, "ways": list(ways)})

    def density(self, ingredient: Id) -> Fraction | None:
        density = self.ingredients[ingredient].get("density")
        if density is None:
            return None
        return read_density(density["g_per_ml"], f"ingredients.{ingredient}.density.g_per_ml")

    def active_ppm(self, ingredient: Id) -> Ppm | None:
        """The active share of an ingredient by mass, in ppm above nought: 68 % of a surfactant, 100 % of a pure salt."""
        written = self.ingredients[ingredient].get("active")
        if written is None:
            return None
        where = f"ingredients.{ingredient}.active"
        amount = read_amount(written, None, where)
        ppm = nearest(amount.value * PPM) if amount.kind == "percent" else 0
        if not 1 <= ppm <= PPM:
            raise RecipeError(where, say("recipe-not-a-share", written=written))
        return ppm

    def amount(
        self, ingredient: Id, text: str, where: str, part_ug: Ug | None
    ) -> tuple[Amount, Fraction | None]:
        """A written amount of an ingredient and, where it has one on its own, its mass in µg."""
        if ingredient not in self.ingredients:
            known = ", ".join(list(self.ingredients)[:12])
            raise RecipeError(
                f"{where}.ingredient", say("recipe-no-ingredient", name=ingredient, could=known)
            )
        self._note(text, f"{where}.amount")
        amount = read_amount(text, self.measures, f"{where}.amount", self.kept)
        if amount.kind == "mass":
            return amount, amount.value
        if amount.kind == "parts" and part_ug is not None:
            return amount, amount.value * part_ug
        if amount.kind == "volume":
            density = self.density(ingredient)
            return amount, None if density is None else amount.value * density
        return amount, None

    def refuse_ruinous(self) -> None:
        """Lye by any of its names; and what frees chlorine, beside an acid."""
        known = {
            key: [
                recognised(ingredient["name"], ingredient.get("inci", "")),
                recognised(key.replace("_", " ")),
            ]
            for key, ingredient in self.ingredients.items()
        }
        acid = any(found and is_acid(found["id"]) for both in known.values() for found in both)
        for key, both in known.items():
            if any(has(found, "lye") for found in both):
                raise RecipeError(f"ingredients.{key}", say("recipe-lye"))
            if acid and any(has(found, "frees_chlorine") for found in both):
                raise RecipeError(f"ingredients.{key}", say("recipe-chlorine"))

    def ingredient(self, key: Id) -> Ingredient:
        written = self.ingredients[key]
        where = f"ingredients.{key}"
        return {
            "name": written["name"],
            "inci": written.get("inci", ""),
            "note": written.get("note", ""),
            "kind": written.get("kind", ""),
            "form": written.get("form", ""),
            "density": _density(written["density"], f"{where}.density") if "density" in written else None,
            "heat": _heat(written["heat"], f"{where}.heat") if "heat" in written else None,
            "most_mk": read_celsius_mk(written["most_c"], f"{where}.most_c") if "most_c" in written else None,
            "fragrance": _fragrance(written["fragrance"], f"{where}.fragrance")
            if "fragrance" in written
            else None,
            "active_ppm": self.active_ppm(key),
            "hazards": written.get("hazards", []),
            "cautions": [],
        }


def _density(written: WrittenDensity, where: str) -> Density:
    # The density itself is read, and refused, where a line first needs it.
    tapped = written.get("tapped_g_per_ml")
    if tapped is not None:
        read_density(tapped, f"{where}.tapped_g_per_ml")
    return {"g_per_ml": written["g_per_ml"], "tapped_g_per_ml": tapped, "source": written["source"]}


def _heat(written: WrittenHeat, where: str) -> Heat:
    return {
        "solid_j_per_kg_k": written["solid_j_per_kg_k"],
        "liquid_j_per_kg_k": written["liquid_j_per_kg_k"],
        "latent_j_per_kg": written["latent_j_per_kg"],
        "melts_mk": read_celsius_mk(written["melts_c"], f"{where}.melts_c"),
    }


def _fragrance(written: WrittenFragrance, where: str) -> Fragrance:
    """The limit copied from the certificate, and the allergens it names, in ppm of the fragrance."""
    return {
        "limit_ppm": read_ppm(written["limit"], f"{where}.limit") if "limit" in written else None,
        "category": written.get("category", ""),
        "allergens": [
            {"name": each["name"], "ppm": read_ppm(each["share"], f"{where}.allergens.{index}.share")}
            for index, each in enumerate(written.get("allergens", []))
        ],
    }
