"""Fat in a bath piece that nothing lets mix with the water. How much is too much is common practice."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, finding
from bench.checks.subject import Subject, share_of
from bench.shapes.recipe import Component, Finding
from bench.words import say, say_all

FATS = ("butter", "oil", "wax")
MIXES = ("solubiliser", "surfactant", "soap_base", "whipping_base")
FATTY = Fraction(10, 100)  # of a fizzing part: more makes the tub slippery and leaves a ring
OILY_SALTS = Fraction(1, 100)  # of a part of salts, scents and all
BATH = re.compile(r"\b(?:bath|foot soak|\w*bad|bade\w*|bain|baño|bagno)\b", re.IGNORECASE)


def unmixed_fat(subject: Subject) -> Iterator[Finding]:
    """Fat or scented oil in a piece for the bath, and nothing that lets it mix with the water."""
    fizzing = subject.fizzing
    for component in subject.parts:
        if subject.of_kind(component, *MIXES):
            continue
        if component in fizzing:
            fats, most = subject.of_kind(component, *FATS), FATTY
        elif _is_bath(subject) and _is_salts(subject, component):
            fats, most = subject.of_kind(component, *FATS, "fragrance"), OILY_SALTS
        else:
            continue
        share = share_of(component, fats)
        if share > most:
            yield finding(
                "unmixed-fat",
                "look",
                component["id"],
                say("checks-unmixed-fat", names=say_all([subject.ingredient(line)["name"] for line in fats])),
                why=say("checks-unmixed-fat-why"),
                by=say("checks-unmixed-fat-by", share=cut_per_cent(share, 1)),
                do=say("checks-unmixed-fat-do"),
            )


def _is_bath(subject: Subject) -> bool:
    return subject.use == "bath" or bool(BATH.search(subject.recipe["title"]))


def _is_salts(subject: Subject, component: Component) -> bool:
    return share_of(component, subject.of_kind(component, "salt")) > Fraction(1, 2)
