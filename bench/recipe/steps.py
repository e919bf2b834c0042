"""The steps of a part, measured: what all kinds share is read here, the rest by the kind's own module."""

from bench import steps
from bench.errors import RecipeError
from bench.lists import once
from bench.quantities import read_duration_ms
from bench.recipe.lines import unique
from bench.recipe.second_look import looked_over
from bench.recipe.source import Source
from bench.shapes.recipe import (
    Component,
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
from bench.steps.kind import Around, Beside
from bench.words import say


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
    twice = {
        line["id"]: source.ingredients[line["ingredient"]]["name"]
        for line in lines
        if line.get("second_look")
    }
    plain: dict[Id, RecipeStep] = {}
    heads: dict[Id, tuple[str, RecipeHead]] = {}
    before = first
    for index, step in enumerate(written):
        at = f"{where}.steps.{index}"
        head = _head(step, at, component, before)
        heads[step["id"]] = at, head
        if steps.is_plain(step):
            before = [f"{component}.{step['id']}"]
            plain[step["id"]] = steps.read(step, head, Around(at, ids, portions, source.mass_mg))
    measured: list[RecipeStep] = []
    for step in written:
        at, head = heads[step["id"]]
        if steps.is_lowered(step):
            measured += steps.lower(step, head, Beside(at, component, list(plain.values())))
        else:
            measured += _looked_over(plain[step["id"]], component, twice)
    _each_of_one_name(measured, where)
    _each_weighed_once(measured, lines, where)
    return measured


def _looked_over(step: RecipeStep, component: Id, twice: dict[Id, str]) -> list[RecipeStep]:
    return looked_over(step, twice, component) if steps.puts_in(step) else [step]


def places(measured: list[RecipeStep]) -> list[int]:
    """Where each measured step stands in the recipe as written."""
    written = once(step.get("written", step["id"]) for step in measured)
    index = {key: place for place, key in enumerate(written)}
    return [index[step.get("written", step["id"])] for step in measured]


def stand_for_wholes(components: list[Component]) -> None:
    """Let what comes after a step that was lowered come after what all of it lasts until."""
    ends = {
        f"{component['id']}.{step['written']}": step["until"]
        for component in components
        for step in component["steps"]
        if "written" in step and "until" in step
    }
    for step in (step for component in components for step in component["steps"]):
        window = step["window"]
        for needs in (step["after"], *([window["from"]] if window else [])):
            needs[:] = once(end for need in needs for end in ends.get(need, [need]))


def _each_of_one_name(measured: list[RecipeStep], where: str) -> None:
    """A step that was lowered takes ids of its own, which no other may have."""
    seen: set[Id] = set()
    for step, index in zip(measured, places(measured), strict=True):
        if step["id"] in seen:
            raise RecipeError(
                f"{where}.steps.{index}.id", say("schema-used-twice", kind="step", id=step["id"])
            )
        seen.add(step["id"])


def _portions(written: list[WrittenStep], where: str) -> set[Id]:
    portions: set[Id] = set()
    for index, step in enumerate(written):
        for portion in steps.portions_of(step):
            if portion in portions:
                raise RecipeError(
                    f"{where}.steps.{index}.portions",
                    say("schema-used-twice", kind="portion", id=portion),
                )
            portions.add(portion)
    return portions


def _each_weighed_once(measured: list[RecipeStep], lines: list[RecipeLine], where: str) -> None:
    weighed: dict[Id, Id] = {}
    for index, step in zip(places(measured), measured, strict=True):
        for key in steps.lines_in(step):
            if key in weighed:
                raise RecipeError(
                    f"{where}.steps.{index}.lines",
                    say("recipe-weighed-twice", line=key, step=weighed[key]),
                )
            weighed[key] = step["id"]
    for index, line in enumerate(lines):
        if line["id"] not in weighed and not line["texture"]:
            raise RecipeError(
                f"{where}.lines.{index}",
                say("recipe-not-weighed", line=line["id"]),
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
        "hazards": hazards,
        "cautions": [step["caution"]] if "caution" in step else [],
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
            "hazards": way.get("hazards", []),
            "cautions": [],
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
