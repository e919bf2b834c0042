"""What it is for and where it is sold: asked for once, and what does not fit it."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimals_of, finding
from bench.checks.subject import Subject, rounding
from bench.product import limits, use_row
from bench.quantities import read_ppm
from bench.shapes.product import AnnexLimit
from bench.shapes.recipe import Finding
from bench.sources import cited
from bench.whole import PPM
from bench.words import say

_CATEGORY = re.compile(r"(?<!\d)(1[0-2]|[1-9]) ?([A-D])?(?![\w.])", re.IGNORECASE)
# A cream for the hands has a category of its own among what is left on.
_HANDS = re.compile(r"\b(?:hands?|hand\w*|händ\w*|mains?|manos?|mani)\b", re.IGNORECASE)
HAND_CREAM, OTHER_CREAMS = "5C", ("5A", "5B", "5D")


def unsaid(subject: Subject) -> Iterator[Finding]:
    missing = [field for field in ("use", "sold_in") if field not in subject.recipe]
    if missing:
        yield finding(
            "use-unsaid",
            "know",
            missing[0],
            say("checks-use-unsaid", missing="both" if len(missing) == 2 else missing[0]),
            why=say("checks-use-unsaid-why"),
            do=say("checks-use-unsaid-do"),
        )


def against_itself(subject: Subject) -> Iterator[Finding]:
    """The recipe says that it is rinsed off, or stays on, and its use says otherwise."""
    use, said = subject.recipe.get("use"), subject.recipe["stays_on"]
    if use and use_row(use)["stays_on"] not in (None, said):
        yield finding(
            "use-stays-on",
            "look",
            "stays_on",
            say("checks-use-stays-on", stays="yes" if said else "no"),
            why=say("checks-stays-on-why"),
            do=say("checks-use-stays-on-do"),
        )


def category(subject: Subject) -> Iterator[Finding]:
    """A limit that was copied for another use than this one."""
    use = subject.recipe.get("use")
    if use is None:
        return
    row = use_row(use)
    for key in subject.used("fragrance"):
        ingredient = subject.recipe["ingredients"][key]
        found = _category_of((ingredient["fragrance"] or {"category": ""})["category"])
        if found in row["other_categories"]:
            yield finding(
                "category-other",
                "look",
                f"ingredients.{key}",
                say("checks-category-other", name=ingredient["name"], category=found),
                why=say("checks-category-other-why", categories=", ".join(row["categories"])),
                do=say("checks-category-other-do"),
                source=cited(row["source"]),
            )
        elif use == "left_on" and found in OTHER_CREAMS and _HANDS.search(subject.recipe["title"]):
            yield finding(
                "category-hands",
                "look",
                f"ingredients.{key}",
                say("checks-category-other", name=ingredient["name"], category=found),
                why=say("checks-category-hands-why", category=HAND_CREAM),
                do=say("checks-category-other-do"),
            )


def _category_of(written: str) -> str:
    found = _CATEGORY.search(written)
    return f"{found[1]}{(found[2] or '').upper()}" if found else ""


def annexes(subject: Subject) -> Iterator[Finding]:
    """More of a substance than an annex of the cosmetics regulation allows, where it may be sold under it."""
    if not subject.is_for_skin:
        return
    for key in subject.all_used:
        found = subject.substance(key)
        for limit in limits() if found else []:
            if found and found["id"] in limit["substances"] and subject.may_be_sold_in(*limit["markets"]):
                yield from _over(subject, key, limit)


def _over(subject: Subject, key: str, limit: AnnexLimit) -> Iterator[Finding]:
    allowed = limit["rinsed" if subject.recipe["stays_on"] is False else "left_on"]
    name, annex = subject.recipe["ingredients"][key]["name"], limit["annex"]
    if not allowed:
        yield finding(
            "annex-forbidden",
            "look",
            f"ingredients.{key}",
            say("checks-annex-forbidden", name=name, annex=annex),
            why=say("checks-annex-why"),
            do=say("checks-annex-forbidden-do"),
            source=cited(limit["source"]),
        )
        return
    most = Fraction(read_ppm(allowed, limit["id"]), PPM)
    counts = Fraction(read_ppm(limit["counts"], limit["id"]), PPM) if "counts" in limit else 1
    share = subject.largest_share(key) * counts
    if share - most > rounding(subject.recipe):
        decimals = decimals_of(share, most)
        yield finding(
            "annex-limit",
            "look",
            f"ingredients.{key}",
            say("checks-annex-limit", name=name, annex=annex, limit=cut_per_cent(most, decimals)),
            why=say("checks-annex-why"),
            by=say("checks-annex-by", share=cut_per_cent(share, decimals)),
            do=say("checks-annex-limit-do"),
            source=cited(limit["source"]),
        )
