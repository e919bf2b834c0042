"""The steps of a part, measured: what all kinds share is read here, the rest by the kind's own module."""

from bench import steps
from bench.errors import RecipeError
from bench.quantities import read_duration_ms
from bench.recipe.lines import unique
from bench.recipe.source import Source, cautions
from bench.shapes.recipe import (
    Guard,
    RecipeHead,
    RecipeLine,
    RecipeStep,
    Way,
    Window,
    WrittenStep,
    WrittenWindow,
)
from bench.shapes.units import Id, RecipeKey
from bench.steps.kind import Around


def read_steps(
    source: Source,
    written: list[WrittenStep],
    where: str,
    component: Id,
    lines: list[RecipeLine],
    first: list[RecipeKey],
) -> list[RecipeStep]:
    """first: what the first step comes after when it does not say."""
    unique([step["id"] for step in written], f"{where}.steps", "step")
    ids, portions = [line["id"] for line in lines], _portions(written, where)
    measured: list[RecipeStep] = []
    for index, step in enumerate(written):
        at = f"{where}.steps.{index}"
        before = [f"{component}.{written[index - 1]['id']}"] if index else first
        head = _head(step, at, component, before)
        measured.append(steps.read(step, head, Around(at, ids, portions, source.mass_mg)))
    _each_weighed_once(measured, lines, where)
    return measured


def _portions(written: list[WrittenStep], where: str) -> set[Id]:
    portions: set[Id] = set()
    for index, step in enumerate(written):
        for portion in steps.portions_of(step):
            if portion in portions:
                raise RecipeError(
                    f"{where}.steps.{index}.portions",
                    f"“{portion}” is used twice. Give each portion its own id.",
                )
            portions.add(portion)
    return portions


def _each_weighed_once(measured: list[RecipeStep], lines: list[RecipeLine], where: str) -> None:
    weighed: dict[Id, Id] = {}
    for index, step in enumerate(measured):
        for key in steps.lines_in(step):
            if key in weighed:
                raise RecipeError(
                    f"{where}.steps.{index}.lines",
                    f"“{key}” is weighed twice, here and in “{weighed[key]}”.",
                )
            weighed[key] = step["id"]
    for index, line in enumerate(lines):
        if line["id"] not in weighed and not line["texture"]:
            raise RecipeError(
                f"{where}.lines.{index}",
                f"No step weighs “{line['id']}”. Name it in a weigh step's lines.",
            )


def _head(step: WrittenStep, at: str, component: Id, before: list[RecipeKey]) -> RecipeHead:
    needs = [_full(ref, component) for ref in step["after"]] if "after" in step else before
    hazards = step.get("hazards", [])
    return {
        "id": step["id"],
        "title": step["title"],
        "says": step.get("says", ""),
        "reason": step.get("reason", ""),
        "after": needs,
        "optional": step.get("optional", False),
        "does": step.get("does", ""),
        "unmoulds": step.get("does") == "unmould",
        "alcohol": "alcohol" in hazards
        or any("alcohol" in way.get("hazards", []) for way in step.get("ways", [])),
        "cautions": [*cautions(hazards), *([step["caution"]] if "caution" in step else [])],
        "ways": _ways(step, at),
        "window": _window(step["window"], at, component, needs) if "window" in step else None,
        "hands_ms": read_duration_ms(step["hands"], f"{at}.hands") if "hands" in step else None,
        "tools": step.get("tools", []),
    }


def _ways(step: WrittenStep, at: str) -> list[Way]:
    ways = step.get("ways", [])
    unique([way["id"] for way in ways], f"{at}.ways", "way")
    return [
        {
            "id": way["id"],
            "name": way["name"],
            "says": way.get("says", ""),
            "cautions": cautions(way.get("hazards", [])),
        }
        for way in ways
    ]


def _window(written: WrittenWindow, at: str, component: Id, needs: list[RecipeKey]) -> Window:
    own: Guard = {"rescue": written["rescue"]} if "rescue" in written else {}
    return {
        **own,
        "from": [_full(written["from"], component)] if "from" in written else needs,
        "latest_ms": read_duration_ms(written["latest"], f"{at}.window.latest"),
        "stake": written["stake"],
    }


def _full(reference: str, component: Id) -> RecipeKey:
    return reference if "." in reference else f"{component}.{reference}"
