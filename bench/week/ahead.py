"""Parts made ahead: which recipes of a week go into which, and how many pieces of them the others ask for."""

from collections.abc import Callable, Iterable

from bench.shapes.recipe import MeasuredRecipe
from bench.shapes.week import Make, PartMade
from bench.week.units import COUNTED
from bench.whole import ceiling

RecipeOf = Callable[[str], str | None]  # the recipe that makes what is called so


def users_first(wanted: Iterable[str], recipes: dict[str, MeasuredRecipe], recipe_of: RecipeOf) -> list[str]:
    """The recipes and their parts, each after all that it goes into; one that would go into itself stands somewhere."""
    turn: list[str] = []
    seen: set[str] = set()

    def walk(key: str) -> None:
        if key in seen or key not in recipes:
            return
        seen.add(key)
        for part in parts_of(recipes[key], recipe_of).values():
            walk(part)
        turn.append(key)

    for key in wanted:
        walk(key)
    return turn[::-1]


def parts_of(recipe: MeasuredRecipe, recipe_of: RecipeOf) -> dict[str, str]:
    """By ingredient, the recipe that makes it."""
    found = ((key, recipe_of(each["name"])) for key, each in recipe["ingredients"].items())
    return {key: made for key, made in found if made is not None}


def part_asked(
    make: Make, ingredient: str, name: str, pieces: list[int], part: MeasuredRecipe
) -> tuple[PartMade, list[int]] | None:
    """What a piece of the part is to a make that takes it, and how many pieces of it each of its wants asks for.

    name: by what it is counted on the shelf. pieces: of the make, by want. None: it takes none, or by a mass that no
    piece of the part has.
    """
    for key, each in ((ingredient, piece_mg(part)), (COUNTED + ingredient, 1)):
        rates = [
            (size["takes"][key], size["good"])
            for size in make["sizes"]
            if size["good"] and key in size["takes"]
        ]
        if rates and each:
            much, good = max(rates, key=lambda rate: rate[0] / rate[1])
            told = key.removesuffix(ingredient) + name
            return {"ingredient": told, "each": each}, [ceiling(many * much, good * each) for many in pieces]
    return None


def piece_mg(recipe: MeasuredRecipe) -> int:
    """What a piece of a recipe weighs."""
    return sum(part["takes"] * part["piece_mg"] for part in recipe["components"])
