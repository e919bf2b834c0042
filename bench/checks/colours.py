"""Colours: what each kind does to the water and to the piece, and what its papers must be."""

from collections.abc import Iterator

from bench.checks.finding import finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding
from bench.words import say

COLOURS = ("lake", "dye", "mica", "pigment")


def each(subject: Subject) -> Iterator[Finding]:
    for key in subject.used(*COLOURS):
        ingredient = subject.recipe["ingredients"][key]
        kind = ingredient["kind"]
        yield finding(
            "know",
            f"ingredients.{key}",
            say("checks-colour", name=ingredient["name"], kind=kind),
            why=say(f"checks-colour-why-{kind}"),
            do=say(f"checks-colour-do-{kind}"),
            source=say(f"checks-colour-source-{kind}"),
        )
