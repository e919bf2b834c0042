"""Numbers: what does not add up, and what cannot be measured as written."""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import finding
from bench.checks.subject import Subject, total_ug
from bench.shapes.recipe import Finding
from bench.weighing import least_mg, uncertainty_ppm
from bench.whole import PPM, grams, half_even, per_cent
from bench.words import say
from bench.yields import make_mg

WIDE_PPM = 50_000  # lines and pieces further apart than this are worth a look: common practice
POWDERS = ("bicarbonate", "citric_acid", "powder", "salt", "mica", "lake", "pigment", "dye")


def two_ways(subject: Subject) -> Iterator[Finding]:
    """What was taken in before "1.000 g" was asked about."""
    for each in subject.recipe.get("asks", []):
        read, other = each["ways"]
        yield finding(
            "look",
            each["where"],
            say("checks-two-ways", written=each["written"], read=read, other=other),
            why=say("checks-two-ways-why", read=read),
            do=say("checks-two-ways-do"),
        )


def sums(subject: Subject) -> Iterator[Finding]:
    """Lines that come to another mass than the pieces as written take."""
    for component in subject.parts:
        written = half_even(total_ug(component), 1000)
        count = subject.recipe["written_for"] * component["takes"] + component["spares"]
        needs = make_mg(component, count)
        if written and abs(written - needs) * PPM > needs * WIDE_PPM:
            yield finding(
                "look",
                component["id"],
                say(
                    "checks-sums",
                    name=component["name"],
                    written=grams(written, 1000),
                    count=count,
                    needs=grams(needs, 1000),
                ),
                why=say("checks-sums-why"),
                by=say("checks-sums-by", share=per_cent(abs(written - needs), needs)),
                do=say("checks-sums-do"),
            )


def too_small(subject: Subject) -> Iterator[Finding]:
    """A line that no scale of the kit weighs to its tolerance."""
    if subject.kit is None:
        return
    for where, line in subject.lines():
        mg = half_even(line["ug"] or 0, 1000)
        able = [scale for scale in subject.kit["scales"] if scale["capacity_mg"] >= mg]
        if not line["ug"] or not able:
            continue
        finest = min(able, key=lambda scale: scale["division_mg"])
        least = least_mg(finest["division_mg"], line["tolerance_ppm"])
        if mg < least:
            uncertain = per_cent(uncertainty_ppm(mg, finest["division_mg"]), PPM)
            off = (
                say("checks-too-small-by", scale=finest["name"], share=uncertain)
                if mg
                else say("checks-under-1-mg")
            )
            yield finding(
                "look",
                where,
                say(
                    "checks-too-small",
                    mass=grams(mg, 100 if mg >= 1000 else 1),
                    name=subject.ingredient(line)["name"],
                ),
                why=say(
                    "checks-too-small-why",
                    share=per_cent(line["tolerance_ppm"], PPM),
                    scale=finest["name"],
                    least=grams(least, 10),
                ),
                by=off,
                do=say("checks-too-small-do"),
                source=say("checks-too-small-source"),
            )


def no_density(subject: Subject) -> Iterator[Finding]:
    for where, line in subject.lines():
        if line["nl"] is not None:
            yield finding(
                "know",
                where,
                say("checks-no-density", name=subject.ingredient(line)["name"]),
                why=say("checks-no-density-why"),
                do=say("checks-no-density-do"),
            )


def drops(subject: Subject) -> Iterator[Finding]:
    for where, line in subject.lines():
        if line["unit"] == "drops":
            yield finding(
                "know",
                where,
                say("checks-drops", name=subject.ingredient(line)["name"]),
                why=say("checks-drops-why"),
                by=say("checks-drops-by"),
                do=say("checks-drops-do"),
                source=say("checks-drops-source"),
            )


def spoons_of_powder(subject: Subject) -> Iterator[Finding]:
    """A powder by the spoon, with its range where loose and tapped densities are known."""
    for where, line in subject.lines():
        ingredient = subject.ingredient(line)
        density = ingredient["density"]
        if not line["by_volume"] or not density or not line["ug"]:
            continue
        if density["tapped_g_per_ml"]:
            loose, tapped = Fraction(density["g_per_ml"]), Fraction(density["tapped_g_per_ml"])
            low, high = sorted((line["ug"], int(line["ug"] * tapped / loose)))
            yield finding(
                "look",
                where,
                say(
                    "checks-spoons",
                    written=line["written"],
                    name=ingredient["name"],
                    low=grams(half_even(low, 1000), 100),
                    high=grams(half_even(high, 1000), 100),
                ),
                why=say("checks-spoons-why"),
                by=say("checks-spoons-by", share=per_cent(high - low, low)),
                do=say("checks-spoons-do"),
                source=density["source"],
            )
        elif ingredient["kind"] in POWDERS:
            yield finding(
                "know",
                where,
                say("checks-by-volume", name=ingredient["name"]),
                why=say("checks-by-volume-why"),
                by=say("checks-by-volume-by"),
                do=say("checks-by-volume-do"),
                source=say("checks-by-volume-source"),
            )


def unknown(subject: Subject) -> Iterator[Finding]:
    """Ingredients of which the recipe does not say what they are: the other rules pass them by."""
    for key in subject.used(""):
        name = subject.recipe["ingredients"][key]["name"]
        yield finding(
            "look",
            f"ingredients.{key}",
            say("checks-unknown", name=name),
            why=say("checks-unknown-why"),
            do=say("checks-unknown-do"),
            source=say("checks-source-this-check"),
        )
