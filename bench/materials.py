"""What a vessel is made of, and what follows: metal does not go into a microwave.

A kit says it; where one of earlier does not, a name that says it counts. `frontend/bench/materials.js` is the same.
"""

import re

from bench.heating import in_bursts
from bench.shapes.kit import Kit, Vessel
from bench.shapes.recipe import Component
from bench.shapes.units import Id
from bench.steps import heats, puts_in

METALS = ("aluminium", "copper", "enamel", "steel")  # enamel is glass on steel
_NAMED_METAL = re.compile(
    r"\b(?:steel|enamel|metal|alumini?um|copper|iron|tin"
    r"|(?:edel)?stahl\w*|emaill?e\w*|metall\w*|alu|kupfer\w*|eisen\w*|blech\w*"
    r"|acier|émail\w*|métal\w*|cuivre|inox|acero|esmalt\w*|cobre|acciaio|smalt\w*|metallo|rame)\b",
    re.IGNORECASE,
)


def is_metal(vessel: Vessel) -> bool:
    material = vessel.get("material")
    return material in METALS if material else bool(_NAMED_METAL.search(vessel["name"]))


def metals(kit: Kit) -> frozenset[Id]:
    return frozenset(each["id"] for each in kit["vessels"] if is_metal(each))


def microwaved(component: Component) -> set[Id]:
    """The vessels of a part, by label, that stand in a microwave."""
    melted = {
        key for step in component["steps"] if heats(step) and in_bursts(step["heater"]) for key in step["of"]
    }
    return {step["into"] for step in component["steps"] if puts_in(step) and melted & set(step["lines"])}
