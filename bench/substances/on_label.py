"""What the table says of a name on a label, by that name.

A name is found by the INCI name, the name of a United States label or a Colour Index number; of a colour also by
what the trade calls it. The name of the European Union is the INCI name, of a colour its one number (Annex IV).
Mica stays mica in both: as a name of Annex IV, from memory.
"""

import re
from typing import NotRequired, TypedDict

from bench.lists import every, kept
from bench.shapes.substances import Substance
from bench.substances.table import table

_WORD = re.compile(r"[a-z0-9]+")
_COLOURS = ("dye", "lake", "mica", "pigment")


class OnLabel(TypedDict):
    us: str
    eu: str
    colour: NotRequired[bool]
    unlisted: NotRequired[bool]  # in 21 CFR, and for cosmetics not
    which: NotRequired[bool]  # several Colour Index numbers bear this name
    foams: NotRequired[bool]
    peroxide: NotRequired[bool]
    formaldehyde: NotRequired[bool]  # frees it
    eye: NotRequired[int]  # category of harm to the eye by its classification
    skin: NotRequired[int]  # the same of the skin


def plain(name: str) -> str:
    """Letters a to z and digits alone, in small letters."""
    return " ".join(every(_WORD, name.lower()))


@kept
def on_label() -> dict[str, OnLabel]:
    """Every name that a label may bear, in small letters."""
    named: dict[str, OnLabel] = {}
    for each in table():
        is_colour = "us_colour" in each and each["kind"] in _COLOURS
        of_trade = each["names"]["en"] if is_colour else []
        for name in [each.get("inci", ""), each.get("us", ""), *of_trade]:
            if name and ("inci" in each or "us" in each):
                named.setdefault(plain(name), _row(each, is_colour))
        for number in each.get("ci", []):
            row: OnLabel = {**_row(each, True), "eu": f"CI {number}"}
            row.pop("which", None)
            if named.setdefault(f"ci {number}", row)["us"] != row["us"]:  # two colours bear this number
                named[f"ci {number}"]["us"] = f"CI {number}"
    return named


def _row(each: Substance, is_colour: bool) -> OnLabel:
    inci = each.get("inci", "")
    numbers = each.get("ci", []) if is_colour and each["kind"] in _COLOURS and each["id"] != "mica" else []
    row: OnLabel = {
        "us": each.get("us", inci),
        "eu": f"CI {numbers[0]}" if len(numbers) == 1 else inci,
    }
    if is_colour:
        row["colour"] = True
    if "us_colour" in each and each["us_colour"]["use"] == "none":
        row["unlisted"] = True
    if len(numbers) > 1:
        row["which"] = True
    if "foams" in each.get("traits", []):
        row["foams"] = True
    if "frees_peroxide" in each.get("traits", []):
        row["peroxide"] = True
    if "frees_formaldehyde" in each.get("traits", []):
        row["formaldehyde"] = True
    hazards = each.get("hazards", [])
    if {"H314", "H318", "H319"} & set(hazards):
        row["eye"] = 2 if "H319" in hazards else 1
    if {"H314", "H315"} & set(hazards):
        row["skin"] = 1 if "H314" in hazards else 2
    return row
