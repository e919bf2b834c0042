"""The usual cautions, shown before the hand reaches the hazard.

They are reminders and defer to the supplier's safety sheet, to local codes and to licensed
practice. A recipe names a hazard; the words live here, each with where it comes from.
"""

from collections.abc import Iterable
from typing import TypedDict

from bench.shapes.recipe import Hazard


class Told(TypedDict):
    says: str
    source: str


class ByCode(TypedDict):
    hazards: list[Hazard]
    cautions: list[str]


HAZARDS: dict[Hazard, Told] = {
    "hot_soap": {
        "says": "Melted soap clings and burns: 60 °C can burn deeply in about 5 s. Sleeves down, cold water near.",
        "source": "published burn tables for hot water at 140 °F give 5 to 6 s; the shorter is shown",
    },
    "hot_fat": {
        "says": "Hot butter or oil burns, and can catch. Low heat, never left alone, no water near it.",
        "source": "common practice",
    },
    "powder": {
        "says": "Fine powder irritates eyes and lungs. Tip it low and slowly, mask on, no fan on the bench.",
        "source": "citric acid: H319 and H335 in Regulation (EU) 2021/849; P261 on supplier's sheets",
    },
    "alcohol": {
        "says": "Alcohol vapour lights easily: its flash point is near 12 °C. Heaters and flames off, window open.",
        "source": "2-propanol, IEC 60079-20-1:2010",
    },
    "wet_sockets": {
        "says": "Wet hands and mains don't mix. Dry them before the plug, the switch or the mixer.",
        "source": "common practice; local wiring codes apply",
    },
    "superheated": {
        "says": "Microwaved liquid can boil over, when moved or stirred. Short bursts, then wait before you lift it.",
        "source": "US FDA consumer page on superheated water, 28 Nov 2007",
    },
    "mixer": {
        "says": "Stop the mixer, unplug it: only then fingers or a spatula near the whisk.",
        "source": "common practice; the mixer's own booklet applies",
    },
    "slippery": {
        "says": "Spilt oil or soap is slippery. Wipe it up before you carry anything.",
        "source": "common practice",
    },
}

LYE = (
    "lye",
    "sodium hydroxide",
    "potassium hydroxide",
    "caustic soda",
    "caustic potash",
    "naoh",
    "koh",
)

_CODES = {told["says"]: hazard for hazard, told in HAZARDS.items()}


def by_code(cautions: Iterable[str]) -> ByCode:
    """Cautions as a measured recipe has them, in words: the usual ones by their hazard, the maker's own as they are."""
    told = list(cautions)
    return {
        "hazards": [_CODES[each] for each in told if each in _CODES],
        "cautions": [each for each in told if each not in _CODES],
    }
