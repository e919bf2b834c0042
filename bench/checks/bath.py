"""What floats on bath water because nothing lets it mix. How much is too much is common practice."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, finding
from bench.checks.subject import BINDERS, Subject, share_of
from bench.shapes.recipe import Component, Finding
from bench.words import say, say_all

FATS = ("butter", "oil", "wax")
MIXES = ("solubiliser", "surfactant", "soap_base", "whipping_base")
FATTY = Fraction(10, 100)  # of a fizzing part: more makes the tub slippery and leaves a ring
OILY_SALTS = Fraction(1, 100)  # of a part of salts
BATH = re.compile(r"\b(?:bath|foot soak|\w*bad|bade\w*|bain|baño|bagno)\b", re.IGNORECASE)


def unmixed_fat(subject: Subject) -> Iterator[Finding]:
    """Fat in a piece for the bath, and nothing that lets it mix with the water."""
    fizzing = subject.fizzing
    for component in _unmixed(subject):
        if component not in fizzing and not _is_salts(subject, component):
            continue
        fats = subject.of_kind(component, *FATS)
        share = share_of(component, fats)
        if share > (FATTY if component in fizzing else OILY_SALTS):
            yield finding(
                "unmixed-fat",
                "look",
                component["id"],
                say("checks-unmixed-fat", names=say_all([subject.ingredient(line)["name"] for line in fats])),
                by=say("checks-unmixed-fat-by", share=cut_per_cent(share, 1)),
            )


def scent_floats(subject: Subject) -> Iterator[Finding]:
    """A scent in what goes into the bath, and nothing that lets it mix with the water: neat, it reaches the skin.

    In a fizz the powder takes up most of it, as makers say, so it is only told.
    """
    fizzing = subject.fizzing
    for component in _unmixed(subject):
        scents = subject.of_kind(component, "fragrance")
        if scents:
            yield finding(
                "scent-floats",
                "know" if component in fizzing else "look",
                component["id"],
                say(
                    "checks-scent-floats",
                    names=say_all([subject.ingredient(line)["name"] for line in scents]),
                ),
                by=say("checks-unmixed-fat-by", share=cut_per_cent(share_of(component, scents), 2)),
            )


def _unmixed(subject: Subject) -> Iterator[Component]:
    """The parts that go into bath water and hold nothing that mixes oil with it."""
    if not subject.is_for_skin:
        return  # a steamer fizzes on the shower's floor, and nobody lies in it
    fizzing = subject.fizzing
    for component in subject.parts:
        bound = subject.of_kind(component, *MIXES) or any(
            subject.known_as(line) in BINDERS for line in component["lines"]
        )
        if not bound and (component in fizzing or _is_bath(subject)):
            yield component


def _is_bath(subject: Subject) -> bool:
    return subject.use == "bath" or bool(BATH.search(subject.recipe["title"]))


def _is_salts(subject: Subject, component: Component) -> bool:
    return share_of(component, subject.of_kind(component, "salt")) > Fraction(1, 2)
