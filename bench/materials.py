"""What a vessel is made of, and what follows: metal does not go into a microwave.

A kit says it; where one of earlier does not, a name that says it counts. `frontend/bench/materials.js` is the same.
"""

import re

from bench.heating import in_bursts
from bench.shapes.kit import Kit, Vessel
from bench.shapes.recipe import Component
from bench.shapes.units import Id
from bench.steps import heated_in, heats

METALS = ("aluminium", "copper", "enamel", "steel")  # enamel is glass on steel
NAMED_METAL = re.compile(
    r"(?<![^\W\d_])(?:steel|enamel|metal|alumini?um|copper|iron|tin"
    r"|(?:edel)?stahl[^\W\d_]*|emaill?e[^\W\d_]*|metall[^\W\d_]*|alu|kupfer[^\W\d_]*|eisen[^\W\d_]*"
    r"|blech[^\W\d_]*|acier|émail[^\W\d_]*|métal[^\W\d_]*|cuivre|inox|acero|esmalt[^\W\d_]*|cobre"
    r"|acciaio|smalt[^\W\d_]*|metallo|rame)(?![^\W\d_])",
    re.IGNORECASE,
)


def is_metal(vessel: Vessel) -> bool:
    material = vessel.get("material")
    return material in METALS if material else bool(NAMED_METAL.search(vessel["name"]))


def unfit(kit: Kit, component: Component, label: Id, kind: str) -> frozenset[Id]:
    """The vessels of a kind that are not proposed for a label: metal for a microwave, where there is another."""
    if label not in microwaved(component):
        return frozenset()
    having = [each for each in kit["vessels"] if each["kind"] == kind]
    metal = frozenset(each["id"] for each in having if is_metal(each))
    return metal if len(metal) < len(having) else frozenset()


def microwaved(component: Component) -> set[Id]:
    """The vessels of a part, by label, that stand in a microwave."""
    return {
        label
        for step in component["steps"]
        if heats(step) and in_bursts(step["heater"])
        for label in heated_in(step, component)
    }
