"""Fragrance: its share of the finished piece, over every part that holds it, against its own papers.

A limit is only ever the one that the maker copied from the fragrance's certificate.
"""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimals_of, finding
from bench.checks.subject import Subject, mass_ug, rounding, share_of_piece
from bench.shapes.recipe import Finding, Ingredient
from bench.whole import PPM, half_even

# Named on the label when strictly above these: Regulation (EC) 1223/2009 Annex III, second-hand.
RINSE_OFF = Fraction(100, PPM)  # 0.01 %
LEAVE_ON = Fraction(10, PPM)  # 0.001 %

_LABEL_RULE = "Regulation (EC) 1223/2009 Annex III, strictly greater (second-hand)"
_IFRA = (
    "IFRA Standards, 51st Amendment (2023). Fizzing bath pieces and bar soap are in category 9 (second-hand)"
)


def limits(subject: Subject) -> Iterator[Finding]:
    for key in subject.used("fragrance"):
        where = f"ingredients.{key}"
        ingredient = subject.recipe["ingredients"][key]
        name, share, limit = ingredient["name"], share_of_piece(subject.recipe, key), _limit(ingredient)
        if any(not mass_ug(line) for _, line in subject.lines() if line["ingredient"] == key):
            yield finding(
                "look",
                where,
                f"{name} has a line with no weight, so its share of the piece cannot be told.",
                why="Its certificate limits it by weight.",
                do="Write the line as a weight, or give its density.",
                source=_IFRA,
            )
            continue
        if limit is None:
            yield finding(
                "look",
                where,
                f"What is the limit of {name}? It is {cut_per_cent(share)} of the finished piece.",
                why="No limit given does not mean unlimited.",
                do="Copy the limit for this kind of product from the fragrance's own IFRA certificate.",
                source=_IFRA,
            )
            continue
        over = share - limit > rounding(subject.recipe)
        decimals = decimals_of(share, limit) if over else 2
        category = ingredient["fragrance"]["category"] if ingredient["fragrance"] else ""
        yield finding(
            "look" if over else "know",
            where,
            f"{name} is {cut_per_cent(share, decimals)} of the finished piece. Its certificate allows {cut_per_cent(limit, decimals)}.",
            why="The share is counted over every part of the piece that holds it. It is not an assessment of the product.",
            by=f"{cut_per_cent(share - limit, decimals)} of the piece too much"
            if over
            else f"{_whole_per_cent(share, limit)} % of what it allows",
            do="Use less of it, in one part or in all." if over else "",
            source=f"the limit you copied from its IFRA certificate, category {category or 'not named'}",
        )


def together(subject: Subject) -> Iterator[Finding]:
    """Several fragrances, each within its own limit, that use up more than one limit between them."""
    used: list[tuple[str, Fraction]] = []
    for key in subject.used("fragrance"):
        limit = _limit(subject.recipe["ingredients"][key])
        if limit:
            used.append((key, share_of_piece(subject.recipe, key) / limit))
    spent = sum((part for _, part in used), Fraction(0))
    if len(used) > 1 and spent > 1 and all(part <= 1 for _, part in used):
        names = " and ".join(subject.recipe["ingredients"][key]["name"] for key, _ in used)
        yield finding(
            "look",
            f"ingredients.{used[0][0]}",
            f"{names} are each below their own limit, but not together.",
            why="Where the same material limits both, their shares of it add up.",
            by=f"{int(spent * 100)} % of one limit between them",
            do="Ask the suppliers whether the same material sets both limits, or use less.",
            source="IFRA limits are for the finished product; adding the shares is the careful reading",
        )


def allergens(subject: Subject) -> Iterator[Finding]:
    """Allergens that the maker copied from the papers, against the share from which a label names them."""
    shares: dict[str, Fraction] = {}
    certain: dict[str, Fraction] = {}
    grace = rounding(subject.recipe)
    for key in subject.used("fragrance"):
        share = share_of_piece(subject.recipe, key)
        for each in (subject.recipe["ingredients"][key]["fragrance"] or {"allergens": []})["allergens"]:
            part = Fraction(each["ppm"], PPM)
            shares[each["name"]] = shares.get(each["name"], Fraction(0)) + share * part
            certain[each["name"]] = certain.get(each["name"], Fraction(0)) + (share - grace) * part
    stays_on = subject.recipe["stays_on"]
    if shares and stays_on is None:
        yield finding(
            "look",
            "stays_on",
            "Does the product stay on the skin, or is it rinsed off? The recipe does not say.",
            why="The share above which a label names an allergen differs tenfold.",
            do="Say in the recipe whether it stays on. Until then the stricter share is used.",
            source=_LABEL_RULE,
        )
    threshold = RINSE_OFF if stays_on is False else LEAVE_ON
    product = "a product that is rinsed off" if stays_on is False else "a product that stays on"
    product += ", which this may be" if stays_on is None else ""
    for name, share in sorted(shares.items()):
        if certain[name] > threshold:
            decimals = max(4, decimals_of(share, threshold))
            yield finding(
                "know",
                "label",
                f"{name} is {cut_per_cent(share, decimals)} of the piece, so an EU or UK label names it.",
                why=f"A label names it above {cut_per_cent(threshold, 3)} in {product}.",
                by=f"{cut_per_cent(share - threshold, decimals)} above",
                do="Name it among the ingredients.",
                source=_LABEL_RULE,
            )


def _limit(ingredient: Ingredient) -> Fraction | None:
    ppm = (ingredient["fragrance"] or {"limit_ppm": None})["limit_ppm"]
    return None if ppm is None else Fraction(ppm, PPM)


def _whole_per_cent(share: Fraction, limit: Fraction) -> int:
    """How much of the limit is used, in whole per cent; of a limit of nought, nothing can be."""
    used = share / limit * 100 if limit else Fraction(0)
    return half_even(used.numerator, used.denominator)
