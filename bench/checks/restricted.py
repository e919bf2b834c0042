"""Restricted: what a law of a market forbids or limits, or a small child's airways do not stand."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, finding
from bench.checks.subject import Subject
from bench.product import bans
from bench.shapes.product import Ban
from bench.shapes.recipe import Finding
from bench.shapes.substances import Substance, Trait
from bench.sources import Cited, cited
from bench.substances import has, source_of
from bench.words import say

# A trait of a substance that is pointed out wherever it is used.
POINTED_OUT: tuple[Trait, ...] = ("candle_colour", "food_colour", "airways", "gives_gas", "strong_acid")
# A trait that a law of some markets ends, and elsewhere is only told.
ENDED_SOMEWHERE: tuple[Trait, ...] = ("borate", "microplastic")
STRONG = Fraction(5, 100)  # of a part, of what acts on the airways: common practice stays at 1 to 3 %
CHILDREN = re.compile(r"\b(?:child\w*|bab(?:y|ies)|kind\w*|enfants?|niñ[oa]s?|bambin\w)\b", re.IGNORECASE)


def by_trait(subject: Subject) -> Iterator[Finding]:
    for key in subject.all_used:
        found = subject.substance(key)
        for trait in POINTED_OUT:
            if found and has(found, trait):
                code = trait.replace("_", "-")
                yield finding(
                    f"trait-{code}",
                    "know" if trait == "airways" and _names_children(subject) else "look",
                    f"ingredients.{key}",
                    say(f"checks-trait-{code}", name=subject.recipe["ingredients"][key]["name"]),
                    why=say(f"checks-why-trait-{code}"),
                    by=say("checks-largest-share", share=cut_per_cent(subject.largest_share(key))),
                    do=say(f"checks-do-trait-{code}"),
                    source=source_of(found, trait),
                )


def by_law(subject: Subject) -> Iterator[Finding]:
    """What a law of a market ends the use of; of no such market, what is true of it anywhere."""
    for key in subject.all_used:
        found, name = subject.substance(key), subject.recipe["ingredients"][key]["name"]
        for trait in ENDED_SOMEWHERE:
            if found and has(found, trait):
                ended = [ban for ban in bans() if _ends(subject, ban, trait, found)]
                yield finding(
                    f"trait-{trait}",
                    "look" if ended else "know",
                    f"ingredients.{key}",
                    say(f"checks-trait-{trait}", name=name),
                    why=" ".join(
                        [*(say(f"checks-ban-{ban['id']}") for ban in ended), say(f"checks-why-{trait}")]
                    ),
                    by=say("checks-largest-share", share=cut_per_cent(subject.largest_share(key))),
                    do=say(f"checks-do-trait-{trait}"),
                    source=_of_bans(ended) if ended else source_of(found, trait),
                )


def _ends(subject: Subject, ban: Ban, trait: Trait, found: Substance) -> bool:
    is_rinsed = subject.recipe["stays_on"] is not True
    return (
        ban["trait"] == trait
        and subject.is_for_skin
        and subject.may_be_sold_in(*ban["markets"])
        and (is_rinsed or not ban.get("rinsed"))
        and found["id"] in ban.get("substances", [found["id"]])
    )


def _of_bans(ended: list[Ban]) -> Cited:
    """Where they stand, each after the other, with the date of the first."""
    told = [cited(ban["source"]) for ban in ended]
    return {"source": "; ".join(each["source"] for each in told), "dated": told[0]["dated"]}


def _names_children(subject: Subject) -> bool:
    """Whether the recipe says who it is not for, as its label will."""
    texts = [subject.recipe["summary"], *(step["says"] for step in subject.order.steps.values())]
    return any(
        re.search(r"\b(?:not?|nicht|kein\w*|pas|non?)\b", clause, re.IGNORECASE) and CHILDREN.search(clause)
        for text in texts
        for clause in re.split(r"[.;]", text)
    )


def strong(subject: Subject) -> Iterator[Finding]:
    """Menthol, camphor or cineole past what the trade takes of them."""
    for key in subject.all_used:
        share = subject.largest_share(key)
        if has(subject.substance(key), "airways") and share > STRONG:
            yield finding(
                "strong-airways",
                "look",
                f"ingredients.{key}",
                say(
                    "checks-strong-airways",
                    share=cut_per_cent(share, 1),
                    name=subject.recipe["ingredients"][key]["name"],
                ),
                why=say("checks-why-trait-airways"),
                by=say("checks-strong-airways-by"),
            )
