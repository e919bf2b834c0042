"""What it is for and where it is sold: asked for once, and what does not fit it."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimals_of, finding
from bench.checks.subject import Subject, rounding
from bench.label_list import names_in
from bench.lists import group
from bench.product import limits, use_row
from bench.quantities import read_ppm
from bench.shapes.product import AnnexLimit, UseRow
from bench.shapes.recipe import Finding
from bench.sources import cited
from bench.substances import recognised
from bench.whole import PPM
from bench.words import say

_CATEGORY = re.compile(r"(?<!\d)(1[0-2]|[1-9]) ?([A-D])?(?![\w.])", re.IGNORECASE)
# A cream for the hands has a category of its own among what is left on.
_HANDS = re.compile(r"\b(?:hands?|hand\w*|händ\w*|mains?|manos?|mani)\b", re.IGNORECASE)
# What a title tells of how it is used, as makers write it.
_STAYS = re.compile(
    r"\b(?:(?:body|hand|foot|lip|whipped|solid) (?:butters?|balms?)|lotions?|lip balms?|lotion bars?|deodorants?"
    r"|(?:körper|hand|fuß|lippen)(?:butter|balsam|creme)|bodylotion)\b",
    re.IGNORECASE,
)
_RINSED = re.compile(
    r"\b(?:soaps?|soap bars?|bath \w+|body wash|shower \w+|scrubs?|rinse\w*|wash\w*|seifen?|\w*bad|bade\w+|dusch\w+"
    r"|\w*peeling)\b",
    re.IGNORECASE,
)
HAND_CREAM, OTHER_CREAMS = "5C", ("5A", "5B", "5D")


def unsaid(subject: Subject) -> Iterator[Finding]:
    missing = [field for field in ("use", "sold_in") if field not in subject.recipe]
    if missing:
        yield finding(
            "use-unsaid",
            "know",
            missing[0],
            say("checks-use-unsaid", missing="both" if len(missing) == 2 else missing[0]),
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
        )


def category(subject: Subject) -> Iterator[Finding]:
    """A limit that was copied for another use than this one, or for nobody knows which."""
    use = subject.use
    if use is None or not subject.is_for_skin:
        return
    row = use_row(use)
    for key in subject.used("fragrance"):
        ingredient = subject.recipe["ingredients"][key]
        about, name = ingredient["fragrance"], ingredient["name"]
        if about is None or about["limit_ppm"] is None:
            continue
        found = _category_of(about["category"])
        code = _amiss(found, row, subject.recipe["title"])
        if code:
            yield finding(
                f"category-{code}",
                "look",
                f"ingredients.{key}",
                say("checks-category-other", name=name, category=found)
                if found
                else say("checks-category-unsaid", name=name),
                why=say("checks-category-hands-why", category=HAND_CREAM)
                if code == "hands"
                else say("checks-category-other-why", categories=", ".join(row["categories"])),
                do=say("checks-category-other-do"),
                source=cited(row["source"]),
            )


def _amiss(category: str, row: UseRow, title: str) -> str:
    """What is amiss with a category for that use; "" for nothing."""
    if not category:
        return "unsaid"
    if category in row["other_categories"]:
        return "other"
    is_cream = row["use"] == "left_on" and category in OTHER_CREAMS
    return "hands" if is_cream and _HANDS.search(title) else ""


def _category_of(written: str) -> str:
    found = _CATEGORY.search(written)
    return f"{found[1]}{group(found, 2).upper()}" if found else ""


def named_otherwise(subject: Subject) -> Iterator[Finding]:
    """The recipe says that it is rinsed off, and is called what stays on the skin; or the other way about."""
    said, title = subject.recipe["stays_on"], subject.recipe["title"]
    if "use" in subject.recipe or said is None:
        return
    stays, rinsed = bool(_STAYS.search(title)), bool(_RINSED.search(title))
    if stays != rinsed and stays != said:
        yield finding(
            "use-by-title",
            "look",
            "stays_on",
            say("checks-use-by-title", title=title, stays="yes" if said else "no"),
            why=say("checks-stays-on-why"),
        )


def annexes(subject: Subject) -> Iterator[Finding]:
    """More of a substance than an annex of the cosmetics regulation allows, where it may be sold under it."""
    if not subject.is_for_skin:
        return
    for key in subject.all_used:
        for limit in limits():
            held = _held(subject, key, limit)
            if held and subject.may_be_sold_in(*limit["markets"]):
                yield from _over(subject, key, limit, held)


def _held(subject: Subject, key: str, limit: AnnexLimit) -> Fraction:
    """At least so much of an ingredient is what the annex limits: of a blend of n names, the first is an n-th or more."""
    found = subject.substance(key)
    if found and found["id"] in limit["substances"]:
        return Fraction(1)
    names = names_in(subject.recipe["ingredients"][key]["inci"])
    held = Fraction(0)
    for place, (name, ppm) in enumerate(names):
        of_it = recognised(name)
        if of_it and of_it["id"] in limit["substances"]:
            least = Fraction(1, len(names)) if place == 0 else Fraction(0)
            held += least if ppm is None else Fraction(ppm, PPM)
    return held


def _over(subject: Subject, key: str, limit: AnnexLimit, held: Fraction) -> Iterator[Finding]:
    allowed = limit["rinsed" if subject.recipe["stays_on"] is False else "left_on"]
    name, annex = subject.recipe["ingredients"][key]["name"], limit["annex"]
    if not allowed:
        yield finding(
            "annex-forbidden",
            "look",
            f"ingredients.{key}",
            say("checks-annex-forbidden", name=name),
            why=say("checks-annex-forbidden-why", annex=annex),
            source=cited(limit["source"]),
        )
        return
    most = Fraction(read_ppm(allowed, limit["id"]), PPM)
    counts = Fraction(read_ppm(limit["counts"], limit["id"]), PPM) if "counts" in limit else 1
    share = subject.largest_share(key) * held * counts
    if share - most > rounding(subject.recipe):
        decimals = decimals_of(share, most)
        yield finding(
            "annex-limit",
            "look",
            f"ingredients.{key}",
            say("checks-annex-limit", name=name, annex=annex, limit=cut_per_cent(most, decimals)),
            why=say("checks-annex-why"),
            by=say("checks-annex-by", share=cut_per_cent(share, decimals)),
            source=cited(limit["source"]),
        )
