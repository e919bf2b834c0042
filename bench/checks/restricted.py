"""Restricted: what a law of a market forbids or limits, or a small child's airways do not stand."""

from collections.abc import Iterator

from bench.checks.finding import cut_per_cent, finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding
from bench.shapes.substances import Trait
from bench.substances import has, source_of
from bench.words import say

# A trait of a substance that is pointed out wherever it is used.
POINTED_OUT: tuple[Trait, ...] = ("borate", "candle_colour", "microplastic", "food_colour", "airways")


def by_trait(subject: Subject) -> Iterator[Finding]:
    for key in subject.all_used:
        found = subject.substance(key)
        for trait in POINTED_OUT:
            if found and has(found, trait):
                code = trait.replace("_", "-")
                yield finding(
                    f"trait-{code}",
                    "look",
                    f"ingredients.{key}",
                    say(f"checks-trait-{code}", name=subject.recipe["ingredients"][key]["name"]),
                    why=say(f"checks-why-trait-{code}"),
                    by=say("checks-largest-share", share=cut_per_cent(subject.largest_share(key))),
                    do=say(f"checks-do-trait-{code}"),
                    source=source_of(found, trait),
                )
