"""Fragrance: its share of the finished piece, over every part that holds it, against its own papers.

A limit is only ever the one that the maker copied from the fragrance's certificate.
"""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimals_of, finding
from bench.checks.subject import Subject, mass_ug, rounding, share_of_piece
from bench.shapes.recipe import Finding, Ingredient
from bench.whole import PPM, half_even
from bench.words import say, say_all

# Named on the label when strictly above these: Regulation (EC) 1223/2009 Annex III, second-hand.
RINSE_OFF = Fraction(100, PPM)  # 0.01 %
LEAVE_ON = Fraction(10, PPM)  # 0.001 %


def limits(subject: Subject) -> Iterator[Finding]:
    for key in subject.used("fragrance"):
        where, ingredient = f"ingredients.{key}", subject.recipe["ingredients"][key]
        share, limit = share_of_piece(subject.recipe, key), _limit(ingredient)
        if any(not mass_ug(line) for _, line in subject.lines() if line["ingredient"] == key):
            yield finding(
                "look",
                where,
                say("checks-fragrance-no-weight", name=ingredient["name"]),
                why=say("checks-fragrance-no-weight-why"),
                do=say("checks-fragrance-no-weight-do"),
                source=say("checks-source-ifra"),
            )
        elif limit is None:
            yield finding(
                "look",
                where,
                say("checks-fragrance-no-limit", name=ingredient["name"], share=cut_per_cent(share)),
                why=say("checks-fragrance-no-limit-why"),
                do=say("checks-fragrance-no-limit-do"),
                source=say("checks-source-ifra"),
            )
        else:
            yield _against(limit, where, ingredient, share, share - limit > rounding(subject.recipe))


def _against(limit: Fraction, where: str, ingredient: Ingredient, share: Fraction, over: bool) -> Finding:
    """A share beside the limit of the certificate, whether it is over it or not."""
    decimals = decimals_of(share, limit) if over else 2
    shown, allowed = cut_per_cent(share, decimals), cut_per_cent(limit, decimals)
    category = ingredient["fragrance"]["category"] if ingredient["fragrance"] else ""
    return finding(
        "look" if over else "know",
        where,
        say("checks-fragrance-share", name=ingredient["name"], share=shown, limit=allowed),
        why=say("checks-fragrance-share-why"),
        by=say("checks-fragrance-share-over", share=cut_per_cent(share - limit, decimals))
        if over
        else say("checks-fragrance-share-used", share=_whole_per_cent(share, limit)),
        do=say("checks-fragrance-share-do") if over else "",
        source=say("checks-fragrance-share-source", category=category)
        if category
        else say("checks-fragrance-share-source-unnamed"),
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
        names = say_all([subject.recipe["ingredients"][key]["name"] for key, _ in used])
        yield finding(
            "look",
            f"ingredients.{used[0][0]}",
            say("checks-fragrance-together", names=names),
            why=say("checks-fragrance-together-why"),
            by=say("checks-fragrance-together-by", share=int(spent * 100)),
            do=say("checks-fragrance-together-do"),
            source=say("checks-fragrance-together-source"),
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
            say("checks-stays-on"),
            why=say("checks-stays-on-why"),
            do=say("checks-stays-on-do"),
            source=say("checks-allergen-source"),
        )
    threshold = RINSE_OFF if stays_on is False else LEAVE_ON
    product = "open" if stays_on is None else "stays" if stays_on else "rinsed"
    for name, share in sorted(shares.items()):
        if certain[name] > threshold:
            decimals = max(4, decimals_of(share, threshold))
            yield finding(
                "know",
                "label",
                say("checks-allergen", name=name, share=cut_per_cent(share, decimals)),
                why=say("checks-allergen-why", share=cut_per_cent(threshold, 3), product=product),
                by=say("checks-allergen-by", share=cut_per_cent(share - threshold, decimals)),
                do=say("checks-allergen-do"),
                source=say("checks-allergen-source"),
            )


def _limit(ingredient: Ingredient) -> Fraction | None:
    ppm = (ingredient["fragrance"] or {"limit_ppm": None})["limit_ppm"]
    return None if ppm is None else Fraction(ppm, PPM)


def _whole_per_cent(share: Fraction, limit: Fraction) -> int:
    """How much of the limit is used, in whole per cent; of a limit of nought, nothing can be."""
    used = share / limit * 100 if limit else Fraction(0)
    return half_even(used.numerator, used.denominator)
