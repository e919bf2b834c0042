"""Cautions follow from the substance and what is done with it, whatever box was ticked.

    weighed     a fine powder, an alcohol
    heated      fat, soap; in a microwave, what can boil over as it is moved
    by mixer    fingers and the whisk

What the recipe itself names stays, before these. They are reminders and defer to the supplier's safety sheet.
"""

from collections.abc import Mapping

from bench.heating import in_bursts
from bench.lists import once
from bench.shapes.recipe import Component, Hazard, Ingredient, RecipeStep
from bench.shapes.units import Id
from bench.steps import heats
from bench.substances import kind_of, known

_WEIGHED: tuple[Hazard, ...] = ("powder", "alcohol")
# Of what is not in the table of substances the kind tells.
_BY_KIND: dict[str, Hazard] = {
    "alcohol": "alcohol",
    "acid": "powder",
    "bicarbonate": "powder",
    "carbonate": "powder",
    "citric_acid": "powder",
    "powder": "powder",
}
_HEATED: dict[str, Hazard] = {
    "butter": "hot_fat",
    "oil": "hot_fat",
    "wax": "hot_fat",
    "soap_base": "hot_soap",
    "whipping_base": "hot_soap",
}
_BOILS_OVER = frozenset({"soap_base", "whipping_base", "water"})


def caution(components: list[Component], ingredients: dict[Id, Ingredient]) -> None:
    """Give measured ingredients and steps the hazards that follow from what they are."""
    for ingredient in ingredients.values():
        ingredient["hazards"] = once([*ingredient.get("hazards", []), *_when_weighed(ingredient)])
    for component in components:
        kinds = {line["id"]: kind_of(ingredients[line["ingredient"]]) for line in component["lines"]}
        for step in component["steps"]:
            step["hazards"] = once([*step.get("hazards", []), *_when_done(step, kinds)])


def _when_weighed(ingredient: Ingredient) -> list[Hazard]:
    found = known(ingredient)
    if found:
        return [hazard for hazard in found.get("cautions", []) if hazard in _WEIGHED]
    usual = _BY_KIND.get(ingredient["kind"])
    return [usual] if usual else []


def _when_done(step: RecipeStep, kinds: Mapping[Id, str]) -> list[Hazard]:
    told: list[Hazard] = []
    if heats(step):
        heated = [kinds[line] for line in step["of"]]
        told += [_HEATED[kind] for kind in heated if kind in _HEATED]
        if in_bursts(step["heater"]) and _BOILS_OVER & set(heated):
            told.append("superheated")
    if any("mixer" in tool.lower() for tool in step["tools"]):
        told.append("mixer")
    return told
