"""One pass over a written recipe, part by part."""

from typing import cast

from bench.errors import RecipeError
from bench.lists import once
from bench.product import stays_on
from bench.quantities import read_ppm, spoon_drawer
from bench.recipe.air import parts_in_air
from bench.recipe.cautioning import caution
from bench.recipe.criteria import read_good_piece
from bench.recipe.lines import read_lines
from bench.recipe.marking import mark
from bench.recipe.needs import check_needs
from bench.recipe.source import Source
from bench.recipe.steps import read_steps, stand_for_wholes
from bench.recipe_schema import RECIPE_SCHEMA
from bench.schema_words import say_what_is_wrong
from bench.shapes.recipe import (
    Component,
    MeasuredRecipe,
    RecipeLine,
    WrittenAssembly,
    WrittenComponent,
    WrittenRecipe,
)
from bench.shapes.units import Id, Mg, Ppm, RecipeKey, Ug
from bench.sheet_words import UNNAMED, UNNAMED_ASSEMBLY
from bench.states import ASSEMBLY
from bench.whole import PPM, half_even
from bench.words import say


def read_recipe(document: object, kept: bool = False) -> MeasuredRecipe:
    """The measured recipe, or a RecipeError / AmountError naming the field and the way out.

    kept: it was taken in by an earlier version; see `read_amount`.
    """
    if fault := say_what_is_wrong(document, RECIPE_SCHEMA):
        raise RecipeError(*fault)
    written = cast(WrittenRecipe, document)  # the schema says so
    source = Source(written["ingredients"], written.get("measures"), written["written_for"], kept)
    source.refuse_ruinous()
    components = _components(source, written)
    check_needs(components)
    ingredients = {key: source.ingredient(key) for key in source.ingredients}
    mark(components, ingredients)
    caution(components, ingredients)
    measures = source.measures or "metric"
    measured: MeasuredRecipe = {
        "format": "bowlside-measured/1",
        "title": written["title"],
        "summary": written.get("summary", ""),
        "measures": measures,
        "spoons": spoon_drawer(measures),
        "written_for": source.written_for,
        "piece": written.get("piece", UNNAMED),
        "stays_on": stays_on(written),
        "looks_like_food": written.get("looks_like_food"),
        "ingredients": ingredients,
        "components": components,
    }
    _said_of_it(measured, written)
    if airy := parts_in_air(components, ingredients, written.get("asks_air")):
        measured["asks_air"] = airy
    if source.asks:
        measured["asks"] = source.asks
    return measured


def _said_of_it(measured: MeasuredRecipe, written: WrittenRecipe) -> None:
    """What is only there where the maker said it."""
    if "use" in written:
        measured["use"] = written["use"]
    if "sold_in" in written:
        measured["sold_in"] = written["sold_in"]
    if "keeps_months" in written:
        measured["keeps_months"] = written["keeps_months"]
    if criteria := read_good_piece(written.get("good_piece", {})):
        measured["good_piece"] = criteria
    if written.get("before"):
        measured["before"] = once(written["before"])


def _components(source: Source, written: WrittenRecipe) -> list[Component]:
    """Every part, the assembly last."""
    ids = [component["id"] for component in written["components"]]
    for index, key in enumerate(ids):
        if key == ASSEMBLY:
            raise RecipeError(f"components.{index}.id", say("recipe-assembly-name"))
        if ids.index(key) != index:
            raise RecipeError(f"components.{index}.id", say("schema-used-twice", kind="part", id=key))
    takes = _takes(written.get("assembly"), ids)
    components = [
        _component(source, component, f"components.{index}", takes[component["id"]])
        for index, component in enumerate(written["components"])
    ]
    stand_for_wholes(components)
    components.append(_assembly(source, written.get("assembly") or {"takes": [], "steps": []}, components))
    stand_for_wholes(components)
    return components


def _takes(assembly: WrittenAssembly | None, ids: list[Id]) -> dict[Id, int]:
    """How many pieces of each component one finished piece takes."""
    if assembly is None:
        if len(ids) > 1:
            raise RecipeError("assembly", say("recipe-no-assembly"))
        return {ids[0]: 1}
    takes: dict[Id, int] = {}
    for index, take in enumerate(assembly["takes"]):
        where, key = f"assembly.takes.{index}.component", take["component"]
        if key not in ids:
            raise RecipeError(where, say("recipe-no-part", part=key, could=", ".join(ids)))
        if key in takes:
            raise RecipeError(where, say("recipe-taken-twice", part=key))
        takes[key] = take.get("count", 1)
    for key in ids:
        if key not in takes:
            raise RecipeError("assembly.takes", say("recipe-not-taken", part=key))
    return takes


def _component(source: Source, written: WrittenComponent, where: str, takes: int) -> Component:
    spares = written.get("spares", 0)
    count = source.written_for * takes + spares
    behind = (
        source.mass_mg(written["stays_behind"], f"{where}.stays_behind") if "stays_behind" in written else 0
    )
    loss = read_ppm(written["loss"], f"{where}.loss") if "loss" in written else 0
    if loss == PPM:
        raise RecipeError(f"{where}.loss", say("amounts-loses-all"))
    piece = source.mass_mg(written["piece"], f"{where}.piece") if "piece" in written else None
    if piece == 0:
        raise RecipeError(f"{where}.piece", say("recipe-piece-too-light"))
    whole = None if piece is None else half_even((count * piece + behind) * PPM, PPM - loss)
    part = 1000 * source.mass_mg(written["part"], f"{where}.part") if "part" in written else None
    lines = read_lines(source, written.get("lines", []), where, part, whole)
    return {
        "id": written["id"],
        "name": written["name"],
        "takes": takes,
        "spares": spares,
        "piece_mg": _piece_mg(lines, count, behind, loss, where) if piece is None else piece,
        "stays_behind_mg": behind,
        "loss_ppm": loss,
        "vessel": written.get("vessel", "bowl"),
        "mould": written.get("mould"),
        "lines": lines,
        "steps": read_steps(source, written["steps"], where, written["id"], lines, []),
    }


def _piece_mg(lines: list[RecipeLine], count: int, behind: Mg, loss: Ppm, where: str) -> Mg:
    """What a piece weighs where the recipe does not say: its share of what the lines give."""
    total = _total_ug(lines)
    if not total:
        return 0
    piece = half_even(total * (PPM - loss) - behind * 1000 * PPM, count * 1000 * PPM)
    if piece <= 0:
        raise RecipeError(where, say("recipe-all-stays-behind"))
    return piece


def _assembly(source: Source, written: WrittenAssembly, components: list[Component]) -> Component:
    """The assembly, as a component whose one round joins the finished pieces: unless its first
    step says otherwise, once every step of every part is done."""
    lines = read_lines(source, written.get("lines", []), ASSEMBLY, None, None)
    ends = [end for part in components for end in _ends(part)]
    return {
        "id": ASSEMBLY,
        "name": written.get("name", UNNAMED_ASSEMBLY),
        "takes": 1,
        "spares": 0,
        "piece_mg": half_even(_total_ug(lines), source.written_for * 1000),
        "stays_behind_mg": 0,
        "loss_ppm": 0,
        "vessel": "bowl",
        "mould": None,
        "lines": lines,
        "steps": read_steps(source, written["steps"], ASSEMBLY, ASSEMBLY, lines, ends),
    }


def _total_ug(lines: list[RecipeLine]) -> Ug:
    return sum(line["ug"] or 0 for line in lines)


def _ends(component: Component) -> list[RecipeKey]:
    """The steps of a component that none of its own comes after, and that last for their own sake."""
    needed = {need for step in component["steps"] for need in step["after"]}
    keys = [f"{component['id']}.{step['id']}" for step in component["steps"] if "until" not in step]
    return [key for key in keys if key not in needed]
