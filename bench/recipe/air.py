"""Before which parts the bench asks for the room's air: those that fizz, or what the recipe says."""

from bench.fizz import counted_as, is_acid, is_carbonate
from bench.shapes.recipe import Component, Ingredient
from bench.shapes.units import Id
from bench.states import ASSEMBLY


def parts_in_air(
    components: list[Component], ingredients: dict[Id, Ingredient], asks: bool | None
) -> list[Id]:
    """asks: what the recipe says; None where it says nothing."""
    parts = [each for each in components if each["id"] != ASSEMBLY and each["lines"]]
    if asks is not None:
        return [each["id"] for each in parts] if asks else []
    return [each["id"] for each in parts if _fizzes(each, ingredients)]


def _fizzes(component: Component, ingredients: dict[Id, Ingredient]) -> bool:
    held = [counted_as(ingredients[line["ingredient"]]) for line in component["lines"]]
    return any(map(is_acid, held)) and any(map(is_carbonate, held))
