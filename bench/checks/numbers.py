"""Numbers: what does not add up, and what cannot be measured as written."""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import finding
from bench.checks.subject import Subject, total_ug
from bench.shapes.recipe import Finding
from bench.sizing import make_mg
from bench.weighing import least_mg, uncertainty_ppm
from bench.whole import PPM, grams, half_even, per_cent

WIDE_PPM = 50_000  # lines and pieces further apart than this are worth a look: common practice
POWDERS = ("bicarbonate", "citric_acid", "powder", "salt", "mica", "lake", "pigment", "dye")


def two_ways(subject: Subject) -> Iterator[Finding]:
    """What was taken in before "1.000 g" was asked about."""
    for each in subject.recipe.get("asks", []):
        read, other = each["ways"]
        yield finding(
            "look",
            each["where"],
            f"“{each['written']}”: {read} or {other}?",
            why=f"It is read as {read}.",
            do="Write one of them.",
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
                f"The lines of {component['name']} add up to {grams(written, 1000)}. "
                f"{count} pieces, with what stays behind, take {grams(needs, 1000)}.",
                why="A batch is sized by its pieces, so every line will be scaled to match.",
                by=f"{per_cent(abs(written - needs), needs)} apart",
                do="Check the mass of a piece, the spares and what stays behind.",
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
            off = (
                f"{finest['name']} may be off by {per_cent(uncertainty_ppm(mg, finest['division_mg']), PPM)}"
                if mg
                else "less than 1 mg"
            )
            yield finding(
                "look",
                where,
                f"{grams(mg, 100 if mg >= 1000 else 1)} of {subject.ingredient(line)['name']} is too little for any scale in the kit.",
                why=f"To weigh to {per_cent(line['tolerance_ppm'], PPM)}, {finest['name']} needs {grams(least, 10)} or more.",
                by=off,
                do="Make a larger batch, use a finer scale, or weigh it out mixed into something else.",
                source="USP <41> (2019): a reading is uncertain by at least 0.41 of a division (second-hand)",
            )


def no_density(subject: Subject) -> Iterator[Finding]:
    for where, line in subject.lines():
        if line["nl"] is not None:
            yield finding(
                "know",
                where,
                f"{subject.ingredient(line)['name']} has no density, so it stays in spoons.",
                why="A spoon of the same thing varies more than a weight does.",
                do="Give its density, with a source, to have it weighed.",
            )


def drops(subject: Subject) -> Iterator[Finding]:
    for where, line in subject.lines():
        if line["unit"] == "drops":
            yield finding(
                "know",
                where,
                f"{subject.ingredient(line)['name']} is counted in drops.",
                why="A drop is 0.05 ml by convention only. Real droppers differ.",
                by="15 % either way even from a calibrated dropper",
                do="Weigh it where the amount matters.",
                source="UCUM v2.2 [drp]; USP 32 <1101>",
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
                f"{line['written']} of {ingredient['name']} is {grams(half_even(low, 1000), 100)} loose "
                f"and {grams(half_even(high, 1000), 100)} tapped down.",
                why="A spoon of powder holds what it is filled with. The loose figure is used.",
                by=f"{per_cent(high - low, low)} more when tapped",
                do="Write the line as a weight.",
                source=density["source"],
            )
        elif ingredient["kind"] in POWDERS:
            yield finding(
                "know",
                where,
                f"{ingredient['name']} is measured by volume.",
                why="A spoon of powder holds more when it is tapped down.",
                by="58 % more for bicarbonate, as one published case",
                do="Write the line as a weight, or give the tapped density to see the range.",
                source="excipients handbook (second-hand): bicarbonate 0.869 loose, 1.369 g/ml tapped",
            )


def unknown(subject: Subject) -> Iterator[Finding]:
    """Ingredients of which the recipe does not say what they are: the other rules pass them by."""
    for key in subject.used(""):
        name = subject.recipe["ingredients"][key]["name"]
        yield finding(
            "look",
            f"ingredients.{key}",
            f"What is {name}? The recipe does not say what kind of ingredient it is.",
            why="The check looks at each by its kind: fizz, fragrance, colour, soap base, alcohol. This one it passes by.",
            do="Choose its kind in the recipe, “other” where none fits.",
            source="how this check works",
        )
