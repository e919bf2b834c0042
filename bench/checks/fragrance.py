"""Fragrance: its share of each part that holds it, against its own papers.

Each part of a piece meets the skin by itself: a scented layer is not thinned by the plain one beside it. A limit is only ever the one that the maker copied from the fragrance's certificate.
"""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimals_of, finding
from bench.checks.subject import Subject, mass_ug, rounding
from bench.label_names import allergen_name
from bench.product import use_row
from bench.shapes.recipe import Finding, Ingredient
from bench.sources import cited
from bench.whole import PPM, half_even
from bench.words import say, say_all

# Named on the label when strictly above these: Regulation (EC) 1223/2009 Annex III, second-hand.
RINSE_OFF = Fraction(100, PPM)  # 0.01 %
LEAVE_ON = Fraction(10, PPM)  # 0.001 %
# One substance by itself: no certificate and no declaration of allergens comes with it.
ALONE = ("menthol", "camphor")


def limits(subject: Subject) -> Iterator[Finding]:
    for key in subject.used("fragrance"):
        where, ingredient = f"ingredients.{key}", subject.recipe["ingredients"][key]
        share, part = _most(subject, key)
        limit = _limit(ingredient)
        if any(not mass_ug(line) for _, line in subject.lines() if line["ingredient"] == key):
            yield finding(
                "fragrance-no-weight",
                "look",
                where,
                say("checks-fragrance-no-weight", name=ingredient["name"]),
            )
        elif limit is None and not _is_alone(subject, key):
            yield finding(
                "fragrance-no-limit",
                "look",
                where,
                say(
                    "checks-fragrance-no-limit", name=ingredient["name"], share=cut_per_cent(share), part=part
                ),
                do=_what_to_copy(subject),
            )
        elif limit is not None:
            yield _against(subject, key, limit, share, part)


def _is_alone(subject: Subject, key: str) -> bool:
    found = subject.substance(key)
    return found is not None and found["id"] in ALONE


def _most(subject: Subject, key: str) -> tuple[Fraction, str]:
    """Its share of the part that holds most of it, and what that part is called."""
    shares = subject.shares[key]
    part = max(shares, key=shares.__getitem__, default="")
    return shares.get(part, Fraction(0)), subject.place(part)


def _against(subject: Subject, key: str, limit: Fraction, share: Fraction, part: str) -> Finding:
    """A share beside the limit of the certificate, whether it is over it or not."""
    where, ingredient = f"ingredients.{key}", subject.recipe["ingredients"][key]
    over = share - limit > rounding(subject.recipe)
    decimals = decimals_of(share, limit) if over else 2
    shown, allowed = cut_per_cent(share, decimals), cut_per_cent(limit, decimals)
    category = ingredient["fragrance"]["category"] if ingredient["fragrance"] else ""
    return finding(
        "fragrance-share",
        "look" if over else "know",
        where,
        say("checks-fragrance-share", name=ingredient["name"], share=shown, limit=allowed, part=part),
        by=say("checks-fragrance-share-over", share=cut_per_cent(share - limit, decimals))
        if over
        else say("checks-fragrance-share-used", share=_whole_per_cent(share, limit)),
        do=say("checks-fragrance-share-do") if over else "",
        source=cited(
            "own-sheet",
            say("checks-fragrance-share-source", category=category)
            if category
            else say("checks-fragrance-share-source-unnamed"),
        ),
    )


def together(subject: Subject) -> Iterator[Finding]:
    """Several fragrances, each within its own limit, that use up more than one limit between them."""
    limited = {key: _limit(subject.recipe["ingredients"][key]) for key in subject.used("fragrance")}
    for component in subject.recipe["components"]:
        used: dict[str, Fraction] = {}
        for key, limit in limited.items():
            share = subject.shares[key].get(component["id"])
            if limit and share:
                used[key] = share / limit
        spent = sum(used.values(), Fraction(0))
        if len(used) > 1 and spent > 1 and all(part <= 1 for part in used.values()):
            yield finding(
                "fragrance-together",
                "look",
                component["id"],
                say(
                    "checks-fragrance-together",
                    names=say_all([subject.recipe["ingredients"][key]["name"] for key in used]),
                ),
                by=say("checks-fragrance-together-by", share=int(spent * 100)),
            )


def unlisted(subject: Subject) -> Iterator[Finding]:
    """A fragrance whose allergens were not copied: a label that must name them cannot."""
    if not _is_named(subject):
        return
    for key in subject.used("fragrance"):
        ingredient = subject.recipe["ingredients"][key]
        if not (ingredient["fragrance"] or {"allergens": []})["allergens"] and not _is_alone(subject, key):
            yield finding(
                "allergens-unlisted",
                "look",
                f"ingredients.{key}",
                say("checks-allergens-unlisted", name=ingredient["name"]),
            )


def over_the_whole(subject: Subject) -> Iterator[Finding]:
    """Allergens that come to more than the fragrance that they are shares of."""
    for key in subject.used("fragrance"):
        fragrance = subject.recipe["ingredients"][key]["fragrance"]
        together = (
            Fraction(sum(each["ppm"] for each in fragrance["allergens"]), PPM) if fragrance else Fraction(0)
        )
        if together > 1:
            yield finding(
                "allergens-over",
                "look",
                f"ingredients.{key}",
                say(
                    "checks-allergens-over",
                    name=subject.recipe["ingredients"][key]["name"],
                    share=cut_per_cent(together, 0),
                ),
            )


def allergens(subject: Subject) -> Iterator[Finding]:
    """Allergens that the maker copied from the papers, against the share from which a label names them."""
    if not _is_named(subject):
        return
    shares, certain = _allergens(subject)
    stays_on = subject.recipe["stays_on"]
    if shares and stays_on is None:
        yield finding("stays-on", "look", "stays_on", say("checks-stays-on"))
    threshold = RINSE_OFF if stays_on is False else LEAVE_ON
    product = "open" if stays_on is None else "stays" if stays_on else "rinsed"
    for name, share in sorted(shares.items()):
        if certain[name] > threshold:
            decimals = max(4, decimals_of(share, threshold))
            yield finding(
                "allergen",
                "know",
                "label",
                say("checks-allergen", name=name, share=cut_per_cent(share, decimals)),
                why=say("checks-allergen-why", share=cut_per_cent(threshold, 3), product=product),
                by=say("checks-allergen-by", share=cut_per_cent(share - threshold, decimals)),
            )


def _is_named(subject: Subject) -> bool:
    """Whether a label may have to name allergens: on a cosmetic of Europe."""
    return subject.is_for_skin and subject.may_be_sold_in("eu", "ni", "uk")


def _allergens(subject: Subject) -> tuple[dict[str, Fraction], dict[str, Fraction]]:
    """Each allergen's share of the part that holds most of it, and what of that is no rounding; by name.

    "d-Limonene" and "Limonene" are one name on a label, and are added up.
    """
    shares: dict[str, Fraction] = {}
    certain: dict[str, Fraction] = {}
    grace = rounding(subject.recipe)
    for component in subject.recipe["components"]:
        held: dict[str, Fraction] = {}
        sure: dict[str, Fraction] = {}
        for key in subject.used("fragrance"):
            share = subject.shares[key].get(component["id"], Fraction(0))
            for each in (subject.recipe["ingredients"][key]["fragrance"] or {"allergens": []})["allergens"]:
                name, part = allergen_name(each["name"]), Fraction(each["ppm"], PPM)
                held[name] = held.get(name, Fraction(0)) + share * part
                sure[name] = sure.get(name, Fraction(0)) + max(share - grace, Fraction(0)) * part
        for name in held:
            shares[name] = max(shares.get(name, Fraction(0)), held[name])
            certain[name] = max(certain.get(name, Fraction(0)), sure[name])
    return shares, certain


def _what_to_copy(subject: Subject) -> str:
    """Which limit of a certificate, as far as the recipe says what it is for."""
    use = subject.recipe.get("use")
    if use is None:
        return say("checks-fragrance-no-limit-do")
    return say("checks-fragrance-no-limit-of", categories=", ".join(use_row(use)["categories"]))


def _limit(ingredient: Ingredient) -> Fraction | None:
    ppm = (ingredient["fragrance"] or {"limit_ppm": None})["limit_ppm"]
    return None if ppm is None else Fraction(ppm, PPM)


def _whole_per_cent(share: Fraction, limit: Fraction) -> int:
    """How much of the limit is used, in whole per cent; of a limit of nought, nothing can be."""
    used = share / limit * 100 if limit else Fraction(0)
    return half_even(used.numerator, used.denominator)
