"""Quiet answers while a line is weighed: another scale than the sheet's, another vessel of the kit."""

from bench.materials import is_metal
from bench.prompting.answers import answer
from bench.prompting.view import View
from bench.shapes.entries import PlacedBody
from bench.shapes.kit import Vessel
from bench.shapes.prompts import Answer
from bench.shapes.sheet import SheetLine
from bench.shapes.state import VesselState
from bench.words import say

_STAND_FIRM = ("bowl", "jug", "pan")  # a melt is poured into no bag


def other_kit(view: View, line: SheetLine) -> list[Answer]:
    key, scale = line["vessel"], view.state["lines"][line["id"]]["scale"]
    if key is None or scale is None:
        return []
    vessel = view.state["vessels"][key]
    return _scales(view, line, key, vessel, scale) + _vessels(view, key, vessel)


def _scales(view: View, line: SheetLine, key: str, vessel: VesselState, scale: str) -> list[Answer]:
    heavy = 0 if line["cup"] else vessel["empty_mg"] + vessel["in_mg"]
    found: list[Answer] = []
    for each in view.sheet["kit"]["scales"]:
        if each["id"] != scale and each["capacity_mg"] >= heavy:
            body: PlacedBody = {"vessel": key, "scale": each["id"]}
            if line["cup"]:
                body["line"] = line["id"]
            label = say("prompting-other-scale", scale=each["name"])
            found.append(answer(f"scale_{each['id']}", label, "placed", body))
    return found


def vessels_of_glass(view: View, key: str, vessel: VesselState) -> list[Answer]:
    """What may be taken for a melt in a microwave instead: no metal, of whatever kind it is."""
    return [
        _took(key, each)
        for each in view.sheet["kit"]["vessels"]
        if not is_metal(each) and each["kind"] in _STAND_FIRM and each["holds_mg"] >= vessel["in_mg"]
    ]


def _vessels(view: View, key: str, vessel: VesselState) -> list[Answer]:
    kit = view.sheet["kit"]["vessels"]
    kind = next((each["kind"] for each in kit if each["id"] == vessel["kit"]), None)
    return [
        _took(key, each)
        for each in kit
        if each["id"] != vessel["kit"]
        and (each["kind"] == kind or (kind is None and each["kind"] != "cup"))
        and each["holds_mg"] >= vessel["in_mg"]
    ]


def _took(key: str, vessel: Vessel) -> Answer:
    label = say("prompting-other-vessel", vessel=vessel["name"])
    return answer(f"took_{vessel['id']}", label, "took", {"vessel": key, "instead": vessel["id"]})
