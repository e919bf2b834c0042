"""Sheets of the first format, read as today's: the same masses, times and ids, and what was said in words as it was.

Such a sheet is kept as it is, and its hash with it; what it says is turned into codes where it is opened. What it
does not hold (for how many pieces its recipe was written, which moulds are held, which step empties them) is taken
from the measured recipe where that is at hand.
"""

import re
from typing import Any, cast

from bench.cautions import ByCode, by_code
from bench.former_words import coded
from bench.shapes.recipe import MeasuredRecipe, RecipeStep
from bench.shapes.sheet import FormerSheet, InSpoons, Sheet, Spoonful
from bench.shapes.units import Id

FORMER = "bowlside-sheet/1"
_Kept = dict[str, Any]  # as it was kept: of a shape that is written down no more
_PART = re.compile(r"(\d+) % of (.+)")
_OFF = re.compile(r"(.+) \((\d+) % (more|less)\)")
_COUNT = re.compile(r"(\d+) (?:× )?(.+)")


def open_sheet(kept: Sheet | FormerSheet, recipe: MeasuredRecipe | None = None) -> Sheet:
    """A sheet as it was kept, of either format, as this version uses it."""
    sheet = cast(_Kept, kept)
    if sheet["format"] == FORMER:
        sheet = _current(sheet)
    if recipe and sheet["written_for"] is None:
        sheet = _completed(sheet, recipe)
    return cast(Sheet, sheet)


def _current(sheet: _Kept) -> _Kept:
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


def _component(part: _Kept, pieces: int) -> _Kept:
    return {
        **part,
        "takes": (part["count"] - part["spares"]) // pieces,
        "mould": None,
        "why": [{"kind": "said", "text": each} for each in part["why"]],
    }


def _line(line: _Kept) -> _Kept:
    meant = line.get("instead_of", "")
    return {
        **line,
        "spoons": _in_spoons(line["spoons"]),
        "by_spoon": _in_spoons(line.get("by_spoon", "")),
        "instead_of": meant,
        "note": line["note"].removeprefix(f"Instead of: {meant}.").lstrip() if meant else line["note"],
    }


def _in_spoons(words: str) -> InSpoons | None:
    """Spoons as they were said: "2 tsp + ½ tsp (4 % more)"."""
    if not words:
        return None
    part = _PART.fullmatch(words)
    if part:
        return {
            "spoons": [{"spoon": part[2], "count": 1}],
            "off_percent": 0,
            "part_percent": int(part[1]),
        }
    off = _OFF.fullmatch(words)
    spoons = [_spoonful(each) for each in (off[1] if off else words).split(" + ")]
    percent = 0 if off is None else int(off[2]) if off[3] == "more" else -int(off[2])
    return {"spoons": spoons, "off_percent": percent, "part_percent": None}


def _spoonful(words: str) -> Spoonful:
    counted = _COUNT.fullmatch(words)
    if not counted:
        return {"spoon": words, "count": 1}
    return {"spoon": "cup" if counted[2] == "cups" else counted[2], "count": int(counted[1])}


def _step(step: _Kept) -> _Kept:
    usual = {"yes": "yes", "too_far": "too_wet", "verb": "done"}
    unsaid = {name: "" for name, code in usual.items() if coded(step.get(name) or "") == code}
    return {
        **step,
        **unsaid,
        "does": "",
        "unmoulds": False,
        **_by_code(step),
        "ways": [{**way, **_by_code(way)} for way in step["ways"]],
        "keeps": [_keeps(each) for each in step.get("keeps", [])],
    }


def _keeps(window: _Kept) -> _Kept:
    usual = coded(window["stake"]) == (window.get("state") or None)
    return {**window, "stake": "" if usual else window["stake"]}


def _by_code(cautioned: _Kept) -> ByCode:
    return by_code({"cautions": cautioned["cautions"]})


def _completed(sheet: _Kept, recipe: MeasuredRecipe) -> _Kept:
    parts = {part["id"]: part for part in recipe["components"]}
    written: dict[tuple[Id, Id], RecipeStep] = {
        (part["id"], step["id"]): step for part in recipe["components"] for step in part["steps"]
    }
    steps = []
    for step in sheet["steps"]:
        source = written.get((step["component"], step["step"]))
        known = {"does": source.get("does", ""), "unmoulds": source["unmoulds"]} if source else {}
        steps.append({**step, **known})
    return {
        **sheet,
        "written_for": recipe["written_for"],
        "components": [
            {**each, "mould": parts[each["id"]]["mould"] if each["id"] in parts else None}
            for each in sheet["components"]
        ],
        "steps": steps,
    }
