"""Numbers: what does not add up, and what cannot be measured as written."""

import re
from collections.abc import Iterator
from fractions import Fraction

from bench.checks.alcohol import ISOPROPYL, strength_of
from bench.checks.finding import finding
from bench.checks.subject import Subject, total_ug
from bench.quantities import read_density
from bench.shapes.recipe import Finding
from bench.sources import Cited, cited
from bench.substances import source_of
from bench.weighing import least_mg, uncertainty_ppm
from bench.whole import PPM, half_even, mass, per_cent
from bench.words import point, say, say_all
from bench.yields import make_mg

WIDE_PPM = 50_000  # lines and pieces further apart than this are worth a look: common practice
POWDERS = (
    "bicarbonate",
    "carbonate",
    "citric_acid",
    "acid",
    "powder",
    "salt",
    "mica",
    "lake",
    "pigment",
    "dye",
)
ODD_DENSITY = Fraction(15, 100)  # so far outside the table's range is worth a look: common practice
# An alcohol of known strength is nearer to its range: 5 °C alter it by half a per cent (from memory).
ODD_STRENGTH = Fraction(2, 100)
WIDEST_PPM = 200_000  # a line of these recipes is never weighed so loosely: common practice
# g/ml from and to, by kind; from memory. Powders loose, so air counts.
DENSITIES = {
    "alcohol": ("0.78", "0.97"),
    "butter": ("0.85", "0.98"),
    "fragrance": ("0.8", "1.2"),
    "humectant": ("0.5", "1.5"),
    "oil": ("0.82", "1"),
    "soap_base": ("0.9", "1.2"),
    "solubiliser": ("0.9", "1.2"),
    "surfactant": ("0.2", "1.3"),
    "water": ("0.9", "1.2"),
    "wax": ("0.4", "1.02"),
    "whipping_base": ("0.3", "1.2"),
    "": ("0.1", "2.5"),
}
# One row of the table for many things that a maker keeps apart: two micas are not one mica twice.
FAMILIES = (
    "parfum",
    "essential-oil",
    "mica",
    "melt-and-pour-base",
    "whipping-base",
    "iron-oxides",
    "ultramarines",
    "hydrosol",
    "kaolin",
    "water",
)


def two_ways(subject: Subject) -> Iterator[Finding]:
    """What was taken in before "1.000 g" was asked about."""
    for each in subject.recipe.get("asks", []):
        read, other = each["ways"]
        yield finding(
            "two-ways",
            "look",
            each["where"],
            say("checks-two-ways", written=each["written"], read=read, other=other),
            why=say("checks-two-ways-why", read=read),
        )


def one_twice(subject: Subject) -> Iterator[Finding]:
    """One substance under two names: its shares, its lots and its place on the label would be kept apart."""
    named: dict[str, list[str]] = {}
    for key in subject.all_used:
        found = subject.substance(key)
        if found and found["id"] not in FAMILIES:
            named.setdefault(found["id"], []).append(key)
    for keys in named.values():
        if len(keys) > 1:
            yield finding(
                "one-twice",
                "look",
                f"ingredients.{keys[1]}",
                say(
                    "checks-one-twice",
                    names=say_all([subject.recipe["ingredients"][key]["name"] for key in keys]),
                ),
            )


def odd_density(subject: Subject) -> Iterator[Finding]:
    """A density far outside what the table has for that substance, or what things of its kind have."""
    for key in subject.all_used:
        density = subject.recipe["ingredients"][key]["density"]
        given = _density(density["g_per_ml"]) if density else None
        if given is None:
            continue
        low, high, code, source = _usual_density(subject, key)
        near = ODD_STRENGTH if code == "strength" else ODD_DENSITY
        if not low * (1 - near) <= given <= high * (1 + near):
            yield finding(
                "odd-density",
                "look",
                f"ingredients.{key}",
                say("checks-odd-density", name=subject.recipe["ingredients"][key]["name"]),
                why=say(f"checks-odd-density-{code}", low=_plain(low), high=_plain(high)),
                by=f"{_plain(given)} g/ml",
                source=source,
            )


def _usual_density(subject: Subject, key: str) -> tuple[Fraction, Fraction, str, Cited]:
    """From and to, of what they are, and where that is from: the substance in the table, else its kind."""
    found = subject.substance(key)
    strength = strength_of(subject.recipe["ingredients"][key]["name"])
    if strength and found and found["id"] == ISOPROPYL:
        return strength.low, strength.high, "strength", cited("usp-32")
    if found and "density" in found:
        low, high = map(Fraction, found["density"])
        return low, high, "table", source_of(found, "density")
    low, high = map(Fraction, DENSITIES.get(subject.kind(key), DENSITIES[""]))
    return low, high, "kind", cited("memory")


def _density(written: str) -> Fraction | None:
    """None: no line needed it, so nothing refused that it is no number. One in kg/m³ is a number."""
    plain = re.fullmatch(r"\s*(\d{1,9})(?:[.,](\d{1,9}))?\s*", written)
    return Fraction(f"{plain[1]}.{plain[2] or 0}") if plain else None


def _plain(value: Fraction) -> str:
    return f"{float(value):g}".replace(".", point())


def sums(subject: Subject) -> Iterator[Finding]:
    """Lines that come to another mass than the pieces as written take."""
    for component in subject.parts:
        written = half_even(total_ug(component), 1000)
        count = subject.recipe["written_for"] * component["takes"] + component["spares"]
        needs = make_mg(component, count)
        if written and abs(written - needs) * PPM > needs * WIDE_PPM:
            yield finding(
                "sums",
                "look",
                component["id"],
                say(
                    "checks-sums",
                    name=component["name"],
                    written=mass(written, 1000),
                    count=count,
                    needs=mass(needs, 1000),
                ),
                by=say("checks-sums-by", share=per_cent(abs(written - needs), needs)),
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
                say(
                    "checks-too-small-by",
                    scale=finest["name"],
                    share=per_cent(uncertainty_ppm(mg, finest["division_mg"]), PPM),
                )
                if mg
                else say("checks-under-1-mg")
            )
            yield finding(
                "too-small",
                "look",
                where,
                say(
                    "checks-too-small",
                    mass=mass(mg, 100 if mg >= 1000 else 1),
                    name=subject.ingredient(line)["name"],
                ),
                why=say(
                    "checks-too-small-why",
                    share=per_cent(line["tolerance_ppm"], PPM),
                    scale=finest["name"],
                    least=mass(least, 10),
                ),
                by=off,
            )


def no_density(subject: Subject) -> Iterator[Finding]:
    for where, line in subject.lines():
        if line["nl"] is not None:
            yield finding(
                "no-density", "know", where, say("checks-no-density", name=subject.ingredient(line)["name"])
            )


def drops(subject: Subject) -> Iterator[Finding]:
    for where, line in subject.lines():
        if line["unit"] == "drops":
            yield finding(
                "drops",
                "know",
                where,
                say("checks-drops", name=subject.ingredient(line)["name"]),
                by=say("checks-drops-by"),
            )


def spoons_of_powder(subject: Subject) -> Iterator[Finding]:
    """A powder by the spoon, with its range where loose and tapped densities are known."""
    for where, line in subject.lines():
        ingredient = subject.ingredient(line)
        density = ingredient["density"]
        if not line["by_volume"] or not density or not line["ug"]:
            continue
        if density["tapped_g_per_ml"]:
            loose = read_density(density["g_per_ml"], where)
            tapped = read_density(density["tapped_g_per_ml"], where)
            low, high = sorted((line["ug"], int(line["ug"] * tapped / loose)))
            yield finding(
                "spoons",
                "look",
                where,
                say(
                    "checks-spoons",
                    written=line["written"],
                    name=ingredient["name"],
                    low=mass(half_even(low, 1000), 100),
                    high=mass(half_even(high, 1000), 100),
                ),
                by=say("checks-spoons-by", share=per_cent(high - low, low)),
                source=cited("supplier-sheet", density["source"]),
            )
        elif subject.kind(line["ingredient"]) in POWDERS:
            yield finding(
                "by-volume",
                "know",
                where,
                say("checks-by-volume", name=ingredient["name"]),
                by=say("checks-by-volume-by"),
            )


def unknown(subject: Subject) -> Iterator[Finding]:
    """Ingredients of which neither the recipe nor the table says what they are: the other rules pass them by. They are
    asked about once."""
    counted = {line["ingredient"] for _, line in subject.lines() if line["unit"] == "pieces"}
    keys = [key for key in subject.used("") if key not in counted]  # a jar or a bag goes round the piece
    if keys:
        names = [subject.recipe["ingredients"][key]["name"] for key in keys]
        yield finding(
            "unknown-kind",
            "look",
            f"ingredients.{keys[0]}",
            say("checks-unknown", count=len(keys), names=say_all(names)),
            why=say("checks-unknown-why"),
            do=say("checks-unknown-do"),
        )


def wide_tolerance(subject: Subject) -> Iterator[Finding]:
    """A tolerance that lets nearly any weight pass."""
    for where, line in subject.lines():
        if line["tolerance_ppm"] > WIDEST_PPM:
            yield finding(
                "wide-tolerance",
                "look",
                where,
                say(
                    "checks-wide-tolerance",
                    name=subject.ingredient(line)["name"],
                    share=per_cent(line["tolerance_ppm"], PPM),
                ),
                by=say("checks-wide-tolerance-by", share=per_cent(WIDEST_PPM, PPM)),
            )
