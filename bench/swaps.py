"""Swapping: what a stand-in changes in the weights, the method, the check and the label.

The recipe stays as it is. A swap is chosen with the size of a batch and recorded in its run.
"""

from bench.checks import check_recipe
from bench.checks.subject import total_ug, ug_in
from bench.errors import SizeError
from bench.shapes.kit import Kit
from bench.shapes.recipe import Component, Measure, MeasuredRecipe, RecipeLine, Substitute, SwapEffect
from bench.sheet.chosen import no_stand_in
from bench.whole import half_even, mass
from bench.words import say


def swaps_of(recipe: MeasuredRecipe, line: str) -> list[str]:
    """The ingredients that may stand in for this line ("component.line"), by id."""
    return [each["ingredient"] for each in _line(recipe, line)["substitutes"]]


def swap_effects(recipe: MeasuredRecipe, line: str, ingredient: str, kit: Kit | None = None) -> SwapEffect:
    """What changes when `ingredient` stands in for `line` ("component.line") in a measured recipe.

    {"line", "ingredient", "name", "by", "mg_before", "mg_after" (of the batch as written; None where
    it is not weighed), "changes_method", "says": [sentence], "findings_new", "findings_gone",
    "label_new", "label_gone": [name on the label]}. SizeError when it is not one of the line's substitutes.
    """
    written = _line(recipe, line)
    stand_in = next((each for each in written["substitutes"] if each["ingredient"] == ingredient), None)
    if stand_in is None:
        raise SizeError("ingredient", no_stand_in(ingredient, line, swaps_of(recipe, line)))
    swapped = _swapped(recipe, line, stand_in)
    before, after = check_recipe(recipe, kit=kit), check_recipe(swapped, kit=kit)
    label_before, label_after = _label(recipe), _label(swapped)
    mg_before, mg_after = _mg(written), _mg(stand_in)
    return {
        "line": line,
        "ingredient": ingredient,
        "name": recipe["ingredients"][ingredient]["name"],
        "by": stand_in["by"],
        "mg_before": mg_before,
        "mg_after": mg_after,
        "changes_method": stand_in["changes_method"],
        "says": _says(recipe, written, stand_in, mg_before, mg_after),
        "findings_new": [each for each in after if each not in before],
        "findings_gone": [each for each in before if each not in after],
        "label_new": sorted(label_after - label_before),
        "label_gone": sorted(label_before - label_after),
    }


def _line(recipe: MeasuredRecipe, line: str) -> RecipeLine:
    lines = {
        f"{component['id']}.{each['id']}": each
        for component in recipe["components"]
        for each in component["lines"]
    }
    if line not in lines:
        raise SizeError("line", say("swaps-no-line", line=line))
    return lines[line]


def _swapped(recipe: MeasuredRecipe, line: str, stand_in: Substitute) -> MeasuredRecipe:
    """The measured recipe with the stand-in in the line's place, its part scaled to weigh what it did."""
    component_id, line_id = line.split(".")

    def put(component: Component) -> Component:
        lines = [_stood_in(each, stand_in) if each["id"] == line_id else each for each in component["lines"]]
        before, after = total_ug(component), ug_in(lines)
        if after:
            lines = [{**each, "ug": each["ug"] and half_even(each["ug"] * before, after)} for each in lines]
        return {**component, "lines": lines}

    components = [
        put(component) if component["id"] == component_id else component for component in recipe["components"]
    ]
    used = {each["ingredient"] for component in components for each in component["lines"]}
    gone = {_line(recipe, line)["ingredient"]} - used
    kept = {key: each for key, each in recipe["ingredients"].items() if key not in gone}
    return {**recipe, "ingredients": kept, "components": components}


def _stood_in(line: RecipeLine, stand_in: Substitute) -> RecipeLine:
    return {
        **line,
        "ingredient": stand_in["ingredient"],
        "written": stand_in["written"],
        "by_volume": stand_in["by_volume"],
        "ug": stand_in["ug"],
        "nl": stand_in["nl"],
        "count": stand_in["count"],
        "unit": stand_in["unit"],
        "about_ug": stand_in["about_ug"],
        "texture": stand_in["texture"],
        "substitutes": [each for each in line["substitutes"] if each["ingredient"] != stand_in["ingredient"]],
    }


def _label(recipe: MeasuredRecipe) -> set[str]:
    """What the recipe's lines put on the label: the INCI name, else the name."""
    used = (
        recipe["ingredients"][each["ingredient"]] for part in recipe["components"] for each in part["lines"]
    )
    return {each["inci"] or each["name"] for each in used}


def _mg(measure: Measure) -> int | None:
    return None if measure["ug"] is None else half_even(measure["ug"], 1000)


def _says(
    recipe: MeasuredRecipe, written: RecipeLine, stand_in: Substitute, before: int | None, after: int | None
) -> list[str]:
    """The arithmetic and the method, a sentence each."""
    names = recipe["ingredients"]
    old, new = (names[each["ingredient"]]["name"] for each in (written, stand_in))
    told = [say("swaps-how", by=stand_in["by"])]
    if before is not None and after is not None:
        told.append(say("swaps-weights", new=new, old=old, after=mass(after, 10), before=mass(before, 10)))
        if before != after:
            told.append(say("swaps-scaled"))
    elif before is not None and after is None:
        told.append(say("swaps-not-weighed", name=new))
    if stand_in["says"]:
        told.append(stand_in["says"])
    told.append(say("swaps-method", changes="yes" if stand_in["changes_method"] else "no"))
    return told
