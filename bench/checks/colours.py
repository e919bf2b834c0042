"""Colours: what each kind does to the water and to the piece, and what its papers must be."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding

_COLOURS = {
    "lake": {
        "why": "In the piece it colours by its particles, and does not bleed into the part beside it. In the water "
        "it stays as fine specks, and can mark tub and cloth. Where US rules apply, each batch of it is certified.",
        "do": "Wet it well, and keep the lot's certificate. Write the lot number down with the batch.",
        "source": "21 CFR 82.51 and 82.2051, provisional and not for the eye area (81.1); the marks are common practice",
    },
    "dye": {
        "why": "In the piece it bleeds into the part beside it. In the water it colours all of it, and may stain tub "
        "and skin. Where US rules apply, each batch of it is certified.",
        "do": "Try it in a white tub, and keep the lot's certificate. Write the lot number down with the batch.",
        "source": "21 CFR Part 74; the stains are common practice",
    },
    "mica": {
        "why": "In the piece it shimmers and does not bleed. In the water it does not dissolve, and without a "
        "solubiliser it leaves a ring in the tub. Where US rules apply, mica needs no batch certificate.",
        "do": "Check that its own coating or colour needs none either. Write the lot number down with the batch.",
        "source": "21 CFR 73.2496; the ring is common practice",
    },
    "pigment": {
        "why": "In the piece it gives an even, flat colour and does not bleed. In the water it does not dissolve, "
        "and can leave a ring in the tub.",
        "do": "Ask the supplier whether this grade is meant for cosmetics, and where it may be used.",
        "source": "common practice",
    },
}


def each(subject: Subject) -> Iterator[Finding]:
    for key in subject.used(*_COLOURS):
        ingredient = subject.recipe["ingredients"][key]
        told = _COLOURS[ingredient["kind"]]
        yield finding(
            "know", f"ingredients.{key}", f"{ingredient['name']} is a {ingredient['kind']}.", **told
        )
