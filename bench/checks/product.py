"""What it is for and where it is sold: asked for once, and what does not fit it."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimals_of, finding
from bench.checks.subject import Subject, is_said, rounding
from bench.label_list import names_in
from bench.lists import group
from bench.product import limits, use_row
from bench.quantities import read_ppm
from bench.shapes.product import AnnexLimit, UseRow
from bench.shapes.recipe import Finding, Fragrance, Ingredient
from bench.sources import cited
from bench.substances import recognised, substance
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
# Less is no solution, but how much of it to take.
_SOLUTION = re.compile(r"(?<![\d.,])((?:[3-9]|[1-9]\d)(?:[.,]\d+)?) ?%")
_NO_SCENT: Fragrance = {"limit_ppm": None, "category": "", "allergens": []}
# What only a drug, or a medicine, may promise, as makers write it.
_CLAIMS = re.compile(
    r"\b(?:anti-?)?(?:acn[eé]|akne)\b|anti-?ba[ck]t[eé]ri\w*|antibatteric\w*|anti-?(?:septic|fungal|viral|inflammatory)"
    r"|\b(?:eczema|eczéma|ekzem\w*|eccema|eczema|psoriasis|dermatitis|neurodermitis|schuppenflechte)\b"
    r"|\bSPF\b|sun ?screen|sonnenschutz|lichtschutz\w*|protection solaire|\bkills? (?:germs?|bacteria)|desinfizier\w*"
    r"|\bheal(?:s|ing)?\b|\bheil(?:t|end\w*|salbe)\b|\bpain relief\b|schmerz\w*",
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


def claims(subject: Subject) -> Iterator[Finding]:
    """A title or a summary that promises what only a drug may."""
    if not subject.is_for_skin or not subject.may_be_sold_in("us", "eu", "uk", "ni"):
        return
    for field, text in (("title", subject.recipe["title"]), ("summary", subject.recipe["summary"])):
        said = _CLAIMS.search(text) if is_said(_CLAIMS, text) else None
        if said:
            yield finding("claims", "look", field, say("checks-claims", words=said[0]))
            return


def annexes(subject: Subject) -> Iterator[Finding]:
    """More of a substance than an annex of the cosmetics regulation allows, where it may be sold under it."""
    if not subject.is_for_skin:
        return
    for key in subject.all_used:
        for limit in limits():
            held = _held(subject, key, limit)
            if held is not None and subject.may_be_sold_in(*limit["markets"]):
                yield from _over(subject, key, limit, held)


def _held(subject: Subject, key: str, limit: AnnexLimit) -> Fraction | None:
    """At least so much of an ingredient is what the annex limits: of a blend of n names, the first is an n-th or more,
    and of another nobody knows. None: it is not in it."""
    found, ingredient = subject.substance(key), subject.recipe["ingredients"][key]
    if found and found["id"] in limit["substances"]:
        return _strength(ingredient)
    names = names_in(ingredient["inci"])
    held = _in_scent(ingredient, limit) or None
    for place, (name, ppm) in enumerate(names):
        of_it = recognised(name)
        if of_it and of_it["id"] in limit["substances"]:
            least = Fraction(1, len(names)) if place == 0 else Fraction(0)
            held = (held or Fraction(0)) + (least if ppm is None else Fraction(ppm, PPM))
    return held


def _strength(ingredient: Ingredient) -> Fraction:
    """How much of it is the substance: its active share, or the per cent of a solution that its name says."""
    if ingredient["active_ppm"] is not None:
        return Fraction(ingredient["active_ppm"], PPM)
    said = _SOLUTION.search(ingredient["name"])
    return Fraction(said[1].replace(",", ".")) / 100 if said else Fraction(1)


def _in_scent(ingredient: Ingredient, limit: AnnexLimit) -> Fraction:
    """What the papers of a fragrance name of it."""
    named = (
        (recognised(each["name"]), each["ppm"])
        for each in (ingredient["fragrance"] or _NO_SCENT)["allergens"]
    )
    return Fraction(sum(ppm for found, ppm in named if found and found["id"] in limit["substances"]), PPM)


def _called(limit: AnnexLimit) -> str:
    """What is limited, by its INCI name."""
    found = substance(limit["substances"][0])
    return found.get("inci") or found["names"]["en"][0]


def _over(subject: Subject, key: str, limit: AnnexLimit, held: Fraction) -> Iterator[Finding]:
    allowed = limit["rinsed" if subject.recipe["stays_on"] is False else "left_on"]
    name, annex = subject.recipe["ingredients"][key]["name"], limit["annex"]
    if not allowed:
        yield finding(
            "annex-forbidden",
            "look",
            f"ingredients.{key}",
            say("checks-annex-forbidden", name=name, rinsed="no" if limit["rinsed"] == "" else "yes"),
            why=say("checks-annex-forbidden-why", annex=annex, substance=_called(limit)),
            do=say("checks-annex-forbidden-do", annex=annex),
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
