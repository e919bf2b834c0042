"""A second look: what another person reads on the scale too, before anything else goes in.

Said in other kinds: the weighing ends with each line that the recipe marks, and a check comes after it. The last of
them keeps the id of the step as written, so what comes after the weighing comes after the look. Common practice.
"""

from collections.abc import Iterator

from bench.shapes.recipe import LeftAlone, RecipeCheck, RecipeHead, RecipeStep, RecipeWeigh
from bench.shapes.units import Id
from bench.steps.kind import named_after


def looked_over(step: RecipeWeigh, names: dict[Id, str], component: Id) -> list[RecipeStep]:
    """A weighing as the measured steps that say it. names: what each line that is looked at twice is called."""
    parts = list(_parts(step, names))
    before = step["after"]
    for number, part in enumerate(parts, 1):
        part["after"] = before
        if number < len(parts):
            part.update({"id": named_after(step["id"], f"_{number}"), "written": step["id"]})
        before = [f"{component}.{part['id']}"]
    return parts


def _parts(step: RecipeWeigh, names: dict[Id, str]) -> Iterator[RecipeStep]:
    """What was said of the whole step is said at its first weighing."""
    head, lines = step, list[Id]()
    for line in step["lines"]:
        lines.append(line)
        if line in names:
            yield {**head, "lines": lines}
            yield _check(step, line, names[line])
            head, lines = {**step, **_bare(step, step["title"])}, []
    if lines:
        yield {**head, "lines": lines}


def _check(step: RecipeWeigh, line: Id, name: str) -> RecipeCheck:
    """Its words are the tool's own, so the sheet says none."""
    left: LeftAlone = {}
    return {
        **_bare(step, name),
        **left,
        "kind": "check",
        "ask": "",
        "yes": "",
        "not_yet": "",
        "too_far": None,
        "looks_at": [line],
    }


def _bare(step: RecipeWeigh, title: str) -> RecipeHead:
    return {
        "id": step["id"],
        "title": title,
        "says": "",
        "reason": "",
        "after": [],
        "optional": step["optional"],
        "does": "",
        "unmoulds": False,
        "alcohol": step["alcohol"],
        "ways": [],
        "window": None,
        "hands_ms": None,
        "tools": [],
        "hazards": [],
        "cautions": [],
    }
