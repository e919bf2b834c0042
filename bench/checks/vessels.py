"""What the words of a step tell of vessels: metal in a microwave, something hot into cold glass."""

import re
from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.heat import melts
from bench.checks.subject import GLASS, NOT, Subject, is_said
from bench.heating import in_bursts
from bench.materials import NAMED_METAL
from bench.shapes.recipe import Finding, RecipeStep
from bench.words import say

COLD = re.compile(
    r"\b(?:freezer|fridge|frozen|chilled|ice[- ]cold|gefrier\w*|tiefkühl\w*|kühlschrank|eiskalt\w*|congélateur|frigo\w*"
    r"|congelador|nevera|congelatore)\b",
    re.IGNORECASE,
)


def metal_said(subject: Subject) -> Iterator[Finding]:
    for where, melt, _ in melts(subject):
        if in_bursts(melt["heater"]) and any(is_said(NAMED_METAL, text) for text in _texts(melt)):
            yield finding(
                "metal-said",
                "look",
                where,
                say("checks-metal-said", title=melt["title"]),
                why=say("checks-metal-why"),
            )


def cold_glass(subject: Subject) -> Iterator[Finding]:
    """Something poured into glass that was just cold."""
    for key, step in subject.order.of(does="pour"):
        text = " ".join(_texts(step))
        if GLASS.search(text) and is_said(COLD, text) and not NOT.search(text):
            yield finding("cold-glass", "look", key, say("checks-cold-glass", title=step["title"]))


def _texts(step: RecipeStep) -> list[str]:
    return [step["title"], step["says"], *step["tools"]]
