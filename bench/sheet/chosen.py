"""What the maker chose with the size: optional lines left out, and stand-ins."""

from typing import NamedTuple

from bench.errors import SizeError
from bench.shapes.recipe import Component, MeasuredRecipe, RecipeLine
from bench.shapes.sheet import Size
from bench.shapes.units import Id, RecipeKey
from bench.words import say


class ChosenLine(NamedTuple):
    line: RecipeLine  # a stand-in in the place of what was written, where one was chosen
    instead_of: str  # the name of what was written; "" where it is used


def check_choices(components: list[Component], size: Size) -> None:
    lines = {
        f"{component['id']}.{line['id']}": line for component in components for line in component["lines"]
    }
    for key in size["without"]:
        if key not in lines or not lines[key]["optional"]:
            raise SizeError("without", say("swaps-not-optional", line=key))
    for key, ingredient in size["swaps"].items():
        stand_ins = [each["ingredient"] for each in lines[key]["substitutes"]] if key in lines else []
        if ingredient not in stand_ins:
            raise SizeError(f"swaps.{key}", no_stand_in(ingredient, key, stand_ins))


def no_stand_in(ingredient: Id, line: RecipeKey, others: list[Id]) -> str:
    """Why an ingredient cannot stand in for a line, and which could."""
    if not others:
        return say("swaps-none", ingredient=ingredient, line=line)
    return say("swaps-other", ingredient=ingredient, line=line, could=", ".join(others))


def chosen_lines(recipe: MeasuredRecipe, component: Component, size: Size) -> list[ChosenLine]:
    """The component's lines less those left out, stand-ins in their places."""
    if not size["without"] and not size["swaps"]:
        return [ChosenLine(line, "") for line in component["lines"]]
    chosen = []
    for line in component["lines"]:
        key = f"{component['id']}.{line['id']}"
        if key in size["without"]:
            continue
        swap = size["swaps"].get(key)
        chosen.append(_swapped(recipe, line, swap) if swap else ChosenLine(line, ""))
    return chosen


def _swapped(recipe: MeasuredRecipe, line: RecipeLine, swap: str) -> ChosenLine:
    substitute = next(each for each in line["substitutes"] if each["ingredient"] == swap)
    meant = recipe["ingredients"][line["ingredient"]]["name"]
    notes = (line["note"], substitute["says"])
    stand_in: RecipeLine = {
        **line,
        "ingredient": substitute["ingredient"],
        "ug": substitute["ug"],
        "nl": substitute["nl"],
        "count": substitute["count"],
        "unit": substitute["unit"],
        "about_ug": substitute["about_ug"],
        "texture": substitute["texture"],
        "note": " ".join(each for each in notes if each),
    }
    return ChosenLine(stand_in, meant)
