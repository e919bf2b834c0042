"""Preservation: water, and what microbes live on, in a part that nothing preserves."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject, share_of
from bench.shapes.recipe import Finding, RecipeLine
from bench.substances import has
from bench.words import say, say_all

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


def _feeds(subject: Subject, line: RecipeLine) -> bool:
    return not line["texture"] and has(subject.substance(line["ingredient"]), "feeds_microbes")
