"""Preservation: water, and what microbes live on, in a part that nothing preserves."""

import re
from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject, share_of
from bench.shapes.recipe import Finding, RecipeLine
from bench.substances import has, source_of
from bench.words import say, say_all

# Soap by its INCI name: the alkali salt of a fat.
SOAP_INCI = re.compile(
    r"\b(?:sodium|potassium) (?:cocoate|oleate|olivate|palmate|palm kernelate|stearate|laurate|tallowate|castorate|sunflowerate)\b",
    re.IGNORECASE,
)
BASES = ("soap_base", "whipping_base", "surfactant")  # preserved by their makers, for what is in them
LITTLE = 5  # per cent of oats, honey or milk powder in a base, which its own alkali and glycerin keep: common practice


def unpreserved(subject: Subject) -> Iterator[Finding]:
    """Asked for, with what it depends on: no rule of ours says how much of what keeps a piece."""
    for component in subject.parts:
        if subject.of_kind(component, "preservative") or subject.carbonates(component):
            continue
        wet = [line for line in component["lines"] if subject.is_wet(line)]
        moist = wet or subject.of_kind(component, *BASES)
        food = [line for line in component["lines"] if moist and _feeds(subject, line)]
        added = [*wet, *(line for line in food if line not in wet)]
        if added:
            per_cent = int(100 * share_of(component, added))
            little = not wet and subject.of_kind(component, "soap_base") and per_cent < LITTLE
            yield finding(
                "unpreserved",
                "know" if little else "look",
                component["id"],
                say(
                    "checks-unpreserved", names=say_all([subject.ingredient(line)["name"] for line in added])
                ),
                by=say("checks-unpreserved-by", share=per_cent),
            )


def too_alkaline(subject: Subject) -> Iterator[Finding]:
    """What keeps only where it is sour, in soap, which is not."""
    for component in subject.parts:
        soap = any(SOAP_INCI.search(subject.ingredient(line)["inci"]) for line in component["lines"])
        if not soap and not subject.of_kind(component, "soap_base"):
            continue
        for line in component["lines"]:
            found = subject.substance(line["ingredient"])
            if found and has(found, "needs_acid"):
                yield finding(
                    "too-alkaline",
                    "look",
                    f"{component['id']}.{line['id']}",
                    say("checks-too-alkaline", name=subject.ingredient(line)["name"]),
                    source=source_of(found, "needs_acid"),
                )


def _feeds(subject: Subject, line: RecipeLine) -> bool:
    return not line["texture"] and has(subject.substance(line["ingredient"]), "feeds_microbes")
