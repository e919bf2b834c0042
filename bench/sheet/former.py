"""Sheets of the first format, read as today's: the same masses, times and ids, and what was said in words as it was.

Such a sheet is kept as it is, and its hash with it; what it says is turned into codes where it is opened. What it
does not hold (for how many pieces its recipe was written, which moulds are held, which step empties them) is taken
from the measured recipe where that is at hand.
"""

import re
from collections.abc import Mapping
from typing import NotRequired, TypedDict, cast

from bench.cautions import ByCode, by_code
from bench.former_words import coded
from bench.lists import group
from bench.shapes.recipe import Component, MeasuredRecipe, RecipeStep
from bench.shapes.sheet import FormerSheet, InSpoons, Sheet, Spoonful, Step
from bench.steps import heated_in, heats

FORMER = "bowlside-sheet/1"
_PART = re.compile(r"(\d+) % of (.+)")
_OFF = re.compile(r"(.+) \((\d+) % (more|less)\)")
_COUNT = re.compile(r"(\d+) (?:× )?(.+)")
_USUAL = {"yes": "yes", "too_far": "too_wet", "verb": "done"}  # the codes of the usual words


# As it was kept, of a shape that is written down no more: what is read of it here, and the rest as it is.


class _KeptSize(TypedDict):
    pieces: int


class _KeptPart(TypedDict):
    count: int
    spares: int
    why: list[str]


class _KeptLine(TypedDict):
    spoons: str
    by_spoon: NotRequired[str]
    instead_of: NotRequired[str]
    note: str


class _Cautioned(TypedDict):
    cautions: list[str]


class _KeptWindow(TypedDict):
    state: NotRequired[str]
    stake: str


class _KeptStep(_Cautioned):
    ways: list[_Cautioned]
    keeps: NotRequired[list[_KeptWindow]]


class _KeptSheet(TypedDict):
    size: _KeptSize
    components: list[_KeptPart]
    lines: list[_KeptLine]
    vessels: list[Mapping[str, object]]
    steps: list[_KeptStep]
    warnings: list[Mapping[str, object]]


def open_sheet(kept: Sheet | FormerSheet, recipe: MeasuredRecipe | None = None) -> Sheet:
    """A sheet as it was kept, of either format, as this version uses it."""
    current = cast(Sheet, _current(cast(_KeptSheet, kept)) if kept["format"] == FORMER else kept)
    return _completed(current, recipe) if recipe and current["written_for"] is None else current


def _current(sheet: _KeptSheet) -> dict[str, object]:
    pieces = sheet["size"]["pieces"]
    return {
        **sheet,
        "format": "bowlside-sheet/2",
        "written_for": None,
        "components": [_component(each, pieces) for each in sheet["components"]],
        "lines": [_line(each) for each in sheet["lines"]],
        "vessels": [{"kit": None, **each} for each in sheet["vessels"]],
        "steps": [_step(each) for each in sheet["steps"]],
        "warnings": [{**each, "kind": "said"} for each in sheet["warnings"]],
    }


def _component(part: _KeptPart, pieces: int) -> dict[str, object]:
    return {
        **part,
        "takes": (part["count"] - part["spares"]) // pieces,
        "mould": None,
        "why": [{"kind": "said", "text": each} for each in part["why"]],
    }


def _line(line: _KeptLine) -> dict[str, object]:
    meant = line.get("instead_of", "")
    return {
        **line,
        "spoons": _in_spoons(line["spoons"]),
        "by_spoon": _in_spoons(line.get("by_spoon", "")),
        "instead_of": meant,
        "note": _own_note(line["note"], meant),
    }


def _own_note(note: str, meant: str) -> str:
    """A note less what our own words said before it: what the line stands in for."""
    before, found, own = note.partition(f": {meant}.")
    return own.lstrip() if meant and found and coded(before) == "instead_of" else note


def _in_spoons(words: str) -> InSpoons | None:
    """Spoons as they were said: "2 tsp + ½ tsp (4 % more)"."""
    if not words:
        return None
    part = _PART.fullmatch(words)
    if part:
        return {
            "spoons": [{"spoon": group(part, 2), "count": 1}],
            "off_percent": 0,
            "part_percent": int(group(part, 1)),
        }
    off = _OFF.fullmatch(words)
    spoons = [_spoonful(each) for each in (group(off, 1) if off else words).split(" + ")]
    percent = int(group(off, 2)) * (1 if group(off, 3) == "more" else -1) if off else 0
    return {"spoons": spoons, "off_percent": percent, "part_percent": None}


def _spoonful(words: str) -> Spoonful:
    counted = _COUNT.fullmatch(words)
    if not counted:
        return {"spoon": words, "count": 1}
    spoon = group(counted, 2)
    return {"spoon": "cup" if spoon == "cups" else spoon, "count": int(group(counted, 1))}


def _step(step: _KeptStep) -> dict[str, object]:
    kept: Mapping[str, object] = {**step}
    said = {name: words for name in _USUAL if isinstance(words := kept.get(name), str)}
    unsaid = {name: "" for name, words in said.items() if coded(words) == _USUAL[name]}
    return {
        **kept,
        **unsaid,
        "does": "",
        "unmoulds": False,
        **_by_code(step),
        "ways": [{**way, **_by_code(way)} for way in step["ways"]],
        "keeps": [_keeps(each) for each in step.get("keeps", [])],
    }


def _keeps(window: _KeptWindow) -> dict[str, object]:
    usual = coded(window["stake"]) == (window.get("state") or None)
    return {**window, "stake": "" if usual else window["stake"]}


def _by_code(cautioned: _Cautioned) -> ByCode:
    return by_code({"cautions": cautioned["cautions"]})


def _completed(sheet: Sheet, recipe: MeasuredRecipe) -> Sheet:
    moulds = {part["id"]: part["mould"] for part in recipe["components"]}
    written = {
        (part["id"], step["id"]): (part, step) for part in recipe["components"] for step in part["steps"]
    }
    return {
        **sheet,
        "written_for": recipe["written_for"],
        "components": [{**each, "mould": moulds.get(each["id"])} for each in sheet["components"]],
        "steps": [_told_of(each, written.get((each["component"], each["step"]))) for each in sheet["steps"]],
    }


def _told_of(step: Step, source: tuple[Component, RecipeStep] | None) -> Step:
    if source is None:
        return step
    component, written = source
    told = {**step, "does": written.get("does", ""), "unmoulds": written["unmoulds"]}
    if heats(written):
        labels = heated_in(written, component)
        told["vessels"] = [f"{component['id']}.{step['round']}.{label}" for label in labels]
    return cast(Step, told)
