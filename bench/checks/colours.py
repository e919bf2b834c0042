"""Colours: what each kind does to the water and to the piece, and what its papers must be."""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, finding
from bench.checks.subject import Subject
from bench.shapes.recipe import Finding
from bench.shapes.substances import Substance
from bench.sources import cited, sources
from bench.substances import colours_of
from bench.words import say

COLOURS = ("lake", "dye", "mica", "pigment")
MUCH = Fraction(5, 100)  # of a part: common practice stays below 2 %


def each(subject: Subject) -> Iterator[Finding]:
    for key in subject.used(*COLOURS):
        ingredient = subject.recipe["ingredients"][key]
        kind = subject.kind(key)
        yield finding(
            f"colour-{kind}",
            "know",
            f"ingredients.{key}",
            say("checks-colour", name=ingredient["name"], kind=kind),
            why=say(f"checks-colour-why-{kind}"),
            do=say(f"checks-colour-do-{kind}"),
        )


def by_use(subject: Subject) -> Iterator[Finding]:
    """Colours that the United States list for less than this piece may ask: bath water reaches more than skin."""
    if not subject.is_for_skin or not subject.may_be_sold_in("us"):
        return
    inner = bool(subject.fizzing) or "whipping_base" in subject.kinds or subject.use in ("bath", "lips")
    eyes = subject.use == "eyes"
    for key, name, colour in _held(subject):
        listed, by = colour["us_colour"], colour["by"]["us_colour"]
        use = "eye" if eyes and not listed["eye"] and listed["use"] != "none" else listed["use"]
        if use == "general" or (eyes and listed["eye"]):
            continue
        yield finding(
            "colour-use",
            "look" if inner or use in ("none", "eye") else "know",
            f"ingredients.{key}",
            say("checks-colour-use", name=name, colour=colour["inci"], use=use),
            why=say("checks-colour-use-why", use=use),
            source=cited(by, say("checks-listed-in", section=listed["section"], read=sources()[by]["read"])),
        )


def by_annex(subject: Subject) -> Iterator[Finding]:
    """Colours that Annex IV keeps from what this piece is for. Of whom it lists and how much, nothing is known here."""
    if not subject.is_for_skin or not subject.may_be_sold_in("eu", "uk"):
        return
    inner, left = subject.use in ("bath", "lips", "eyes"), subject.recipe["stays_on"] is True
    kept_from = {"no_eyes": subject.use == "eyes", "no_mucosa": inner, "rinse_off": left}
    for key, name, colour in _held(subject):
        if "eu_colour" not in colour or not kept_from[colour["eu_colour"]]:
            continue
        use, number, by = colour["eu_colour"], f"CI {colour['ci'][0]}", colour["by"]["eu_colour"]
        yield finding(
            "colour-annex",
            "look",
            f"ingredients.{key}",
            say("checks-colour-annex", name=name, colour=number, use=use),
            why=say("checks-colour-annex-why"),
            source=cited(by, say("checks-annex-iv", read=sources()[by]["read"])),
        )


def _held(subject: Subject) -> Iterator[tuple[str, str, Substance]]:
    """Each listed colour in what the recipe uses, with the id and the name of the ingredient that holds it."""
    for key in subject.all_used:
        ingredient = subject.recipe["ingredients"][key]
        for colour in colours_of(subject.substance(key), ingredient["inci"]):
            yield key, ingredient["name"], colour


def unnamed(subject: Subject) -> Iterator[Finding]:
    """A colour for lips or eyes of which nothing tells what is in it."""
    for key in subject.used(*COLOURS) if subject.use in ("lips", "eyes") else []:
        ingredient = subject.recipe["ingredients"][key]
        if not colours_of(subject.substance(key), ingredient["inci"]):
            yield finding(
                "colour-unnamed",
                "look",
                f"ingredients.{key}",
                say("checks-colour-unnamed", name=ingredient["name"]),
            )


def much(subject: Subject) -> Iterator[Finding]:
    """More colour than a piece can hold: a slip of the unit, most often."""
    for key in subject.used(*COLOURS):
        shares = subject.shares[key]
        part = max(shares, key=shares.__getitem__, default="")
        if part and shares[part] > MUCH:
            yield finding(
                "much-colour",
                "look",
                f"ingredients.{key}",
                say(
                    "checks-much-colour",
                    share=cut_per_cent(shares[part], 1),
                    part=subject.place(part),
                    name=subject.recipe["ingredients"][key]["name"],
                ),
                by=say("checks-much-colour-by", share=cut_per_cent(MUCH, 0)),
            )
