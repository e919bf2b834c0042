"""The usual cautions, shown before the hand reaches the hazard.

They are reminders and defer to the supplier's safety sheet, to local codes and to licensed
practice. A recipe names a hazard; the words stand in the catalogue, each with where it comes from.
"""

from typing import TypedDict, get_args

from bench.former_words import coded
from bench.shapes.recipe import Cautioned, Hazard
from bench.words import say

HAZARDS: tuple[Hazard, ...] = get_args(Hazard)


class ByCode(TypedDict):
    hazards: list[Hazard]
    cautions: list[str]


def caution(hazard: Hazard) -> str:
    """The usual caution, in full."""
    return say(f"cautions-{hazard}")


def by_code(measured: Cautioned) -> ByCode:
    """What a measured recipe warns of: the usual hazards, and the maker's own cautions. One that was measured long ago
    has the usual ones in words among these."""
    if not measured["cautions"]:
        return {"hazards": [*measured.get("hazards", [])], "cautions": []}
    told = {each: coded(each) for each in measured["cautions"]}
    former = [hazard for each in told.values() for hazard in HAZARDS if hazard == each]
    return {
        "hazards": [*measured.get("hazards", []), *former],
        "cautions": [each for each, code in told.items() if code not in HAZARDS],
    }


def in_full(told: ByCode) -> list[str]:
    return [*map(caution, told["hazards"]), *told["cautions"]]
