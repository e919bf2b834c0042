"""Trials: small variants of a recipe side by side, each with one change. What won becomes the recipe's next version.

A variant is a recipe of its own that says whose it is (`trial`), so sizing, batches, records, export and copies need
nothing new. What is judged at the end are criteria of its `good_piece`.

    variant_of(document, origin, {"where": "components.0.lines.1.amount", "value": "120 g"}, ["Hardness"])
"""

import re
from collections.abc import Iterator
from typing import TypeGuard, cast

from bench.errors import RecipeError
from bench.shapes.recipe import (
    Change,
    VariantChange,
    VariantChoice,
    WrittenComponent,
    WrittenOrigin,
    WrittenRecipe,
)
from bench.shapes.units import JsonValue
from bench.versions import assembly_name, field_name, quoted, what_changed
from bench.words import say

# What one change may be: an amount, an ingredient for another, a value of a step.
_MAY_CHANGE = re.compile(
    r"(components\.\d+|assembly)\.lines\.\d+\.(amount|ingredient)"
    r"|ingredients\.[a-z0-9_]+"
    r"|(components\.\d+|assembly)\.steps\.\d+\.(?!id\b|kind\b|title\b|lines\b|after\b)[a-z_]+(\.[a-z_]+)*"
)
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def letter_of(place: int) -> str:
    """A, B, … Z, AA, AB, …: of the first variant (0), the second and so on."""
    more, own = divmod(place, len(LETTERS))
    return (letter_of(more - 1) if more else "") + LETTERS[own]


def variant_of(
    document: WrittenRecipe, origin: WrittenOrigin, change: VariantChange | None, judges: list[str]
) -> WrittenRecipe:
    """The variant of a recipe with this change, or with none to compare with; RecipeError names the field."""
    made = document.copy()
    if change is not None:
        if not _MAY_CHANGE.fullmatch(change["where"]):
            raise _no_such_place()
        path = change["where"].split(".")
        made = cast(WrittenRecipe, _changed(cast(JsonValue, document), path, change["value"]))
    made.pop("written_from", None)
    made["title"] = say("versions-variant", title=document["title"], letter=origin["letter"])
    made["trial"] = origin
    if judges:
        made["good_piece"] = {**document.get("good_piece", {}), "judge": judges}
    return made


def winner(recipe: WrittenRecipe, variant: WrittenRecipe, origin: WrittenOrigin) -> WrittenRecipe:
    """The recipe's next version: the variant under the recipe's own name, with where it came from."""
    made = variant.copy()
    made.pop("trial", None)
    made.pop("good_piece", None)
    if "good_piece" in recipe:
        made["good_piece"] = recipe["good_piece"]
    made["title"] = recipe["title"]
    made["written_from"] = origin
    return made


def tried(recipe: WrittenRecipe, variant: WrittenRecipe) -> list[Change]:
    """What a variant tries out: all in which it differs from the recipe, but for its name and what is judged."""
    return what_changed(_bare(recipe, recipe), _bare(variant, recipe))


def choices_of(document: WrittenRecipe) -> list[VariantChoice]:
    """What one change may be of: each amount, each ingredient, and each figure of a step."""
    found: list[VariantChoice] = []
    parts = [(f"components.{n}", each, each["name"]) for n, each in enumerate(document["components"])]
    assembly = document.get("assembly")
    if assembly:
        parts.append(("assembly", cast(WrittenComponent, assembly), assembly_name(assembly)))
    for path, part, called in parts:
        for number, line in enumerate(part.get("lines", [])):
            name = document["ingredients"][line["ingredient"]]["name"]
            where = say("versions-in-part", part=called, name=name)
            found.append({"where": f"{path}.lines.{number}.amount", "name": where, "value": line["amount"]})
        for number, step in enumerate(part["steps"]):
            where = say("versions-in-part", part=called, name=quoted(step))
            found += _of_step(f"{path}.steps.{number}", where, cast(JsonValue, step))
    for key, ingredient in document["ingredients"].items():
        where = say("versions-ingredient", name=ingredient["name"])
        found.append({"where": f"ingredients.{key}", "name": where, "value": ingredient["name"]})
    return found


def _of_step(path: str, name: str, at: JsonValue) -> Iterator[VariantChoice]:
    for field, value in at.items() if isinstance(at, dict) else ():
        where, called = f"{path}.{field}", f"{name}, {field_name(field)}"
        if isinstance(value, dict):
            yield from _of_step(where, called, value)
        elif _is_figure(value) and _MAY_CHANGE.fullmatch(where):
            yield {"where": where, "name": called, "value": value}


def _is_figure(value: JsonValue) -> TypeGuard[str | int]:
    """A number, or a text that begins with one, "6 h": not words, of which a step has many."""
    return (
        isinstance(value, int)
        and not isinstance(value, bool)
        or isinstance(value, str)
        and value[:1].isdigit()
    )


def _bare(document: WrittenRecipe, recipe: WrittenRecipe) -> WrittenRecipe:
    bare = document.copy()
    bare.pop("trial", None)
    bare.pop("written_from", None)
    bare.pop("good_piece", None)
    bare["title"] = recipe["title"]
    return bare


def _changed(at: JsonValue, path: list[str], value: JsonValue) -> JsonValue:
    """The same with another value there; RecipeError where the recipe has none, or has that already."""
    if not path:
        if at == value:
            raise RecipeError("change.value", say("versions-variant-same"))
        return value
    key, *rest = path
    if isinstance(at, dict) and key in at:
        return {**at, key: _changed(at[key], rest, value)}
    if isinstance(at, list) and key.isdecimal() and int(key) < len(at):
        place = int(key)
        return [*at[:place], _changed(at[place], rest, value), *at[place + 1 :]]
    raise _no_such_place()


def _no_such_place() -> RecipeError:
    return RecipeError("change.where", say("versions-variant-where"))
