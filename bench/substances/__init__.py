"""The substances of this trade: what each is, and by which names makers know it.

    recognised("Natron, fein")["id"]     "sodium-bicarbonate"
    source_of(substance, "molar_mass")   where the figure is from

`table.json` has a row for each (bench/shapes/substances.py). A name of five languages, an INCI name, a CAS number or
the name of a United States label tells which it is. What is not known stays unknown: rules then go by the kind that
the maker gives, and ask.
"""

import re
from functools import lru_cache
from typing import Literal
from unicodedata import normalize

from bench.lists import every, kept, once
from bench.shapes.recipe import Ingredient, IngredientKind
from bench.shapes.substances import Substance, Trait
from bench.sources import Cited, cited
from bench.substances.table import table

# Kinds that say more than a name does: "Milk and honey" of the kind fragrance is neither milk nor honey.
_NAMED_AFTER_OTHERS = frozenset(
    {"fragrance", "soap_base", "whipping_base", "mica", "lake", "dye", "pigment", "botanical"}
)
_SHORTEST = 3
_NAMES_HELD = 4096  # whoever sends ever new names fills no memory
# "Lye-free", "sans soude caustique": what it is without is not what it is.
_WITHOUT = re.compile(r"\b(?:without|no|ohne|sans|sin|senza) (?:\w+ ){0,2}?$")
_COLOUR_INDEX = re.compile(r"\bCI ?(\d{5})\b")
# An INCI list in descending order that begins with water, a plant's distillate or its juice.
_WATERY = re.compile(r"^\s*(?:aqua\b|[^,]*\b(?:water|juice)\s*(?:\([^)]*\)\s*)?(?:,|$))", re.IGNORECASE)
_WORD = re.compile(r"\w+")
_FREE = re.compile(r"^ (?:free|frei)\b")


def substance(id_: str) -> Substance:
    """KeyError: there is none of that id."""
    return _by_id()[id_]


@kept
def _by_id() -> dict[str, Substance]:
    return {each["id"]: each for each in table()}


def known(ingredient: Ingredient) -> Substance | None:
    """What a measured ingredient is known as."""
    return recognised(ingredient["name"], ingredient["inci"], ingredient["kind"], ingredient["form"])


def kind_of(ingredient: Ingredient) -> IngredientKind | Literal[""]:
    """The kind of what an ingredient is known as; of what is not known, the kind that the maker gave, else that of
    the name that leads its INCI list, where that is water."""
    found = known(ingredient)
    if found or ingredient["kind"]:
        return found["kind"] if found else ingredient["kind"]
    return "water" if _WATERY.search(ingredient["inci"]) else ""


def has(found: Substance | None, trait: Trait) -> bool:
    return found is not None and trait in found.get("traits", [])


def colours_of(found: Substance | None, inci: str) -> list[Substance]:
    """The listed colours in an ingredient: itself, and those whose Colour Index number its INCI list names."""
    numbers = set(every(_COLOUR_INDEX, inci, 1))
    return [
        each
        for each in table()
        if "us_colour" in each and (each is found or numbers & set(each.get("ci", [])))
    ]


def source_of(found: Substance, field: str) -> Cited:
    """Where a figure or a trait of it is from."""
    return cited(found.get("by", {}).get(field, "memory"))


@lru_cache(maxsize=_NAMES_HELD)
def recognised(name: str, inci: str = "", kind: str = "", form: str = "") -> Substance | None:
    """Which substance it is, or None. A whole name or a CAS number counts before words within a name, and of these
    the longest."""
    for whole in (name, inci):
        found = _of_form(_whole().get(plain(whole), []), form)
        if found:
            return found
    within = [
        found
        for found in _named_within(plain(name))
        if kind not in _NAMED_AFTER_OTHERS or found["kind"] == kind
    ]
    return _of_form(within, form)


def _of_form(found: list[Substance], form: str) -> Substance | None:
    """The first of them, in the form that the maker gave: two forms of a substance bear one INCI name."""
    if not found or not form or found[0].get("form") == form:
        return found[0] if found else None
    alike = (
        each for each in table() if each.get("form") == form and each.get("inci") == found[0].get("inci")
    )
    return next(alike, found[0])


def _named_within(plain: str) -> list[Substance]:
    """Substances whose names stand as words of this one: a scent or a soap base first, then by the longest name."""
    standing = [
        (known, substances[0])
        for known, substances in _whole().items()
        if len(known) >= _SHORTEST and f" {known} " in f" {plain} " and not _is_without(known, plain)
    ]

    def rank(each: tuple[str, Substance]) -> tuple[bool, int, int, str]:
        known, found = each
        return not _is_made_of_others(found), -len(known), -plain.rfind(known), found["id"]

    return [found for _, found in sorted(standing, key=rank)]


def _is_made_of_others(found: Substance) -> bool:
    """It is often named after what it smells of, or what was put into it."""
    return found["id"] == "parfum" or found["kind"] in {"soap_base", "whipping_base"}


def _is_without(known: str, plain: str) -> bool:
    at = f" {plain} ".find(f" {known} ")
    return bool(_WITHOUT.search(plain[:at]) or _FREE.search(plain[at + len(known) :]))


@kept
def _whole() -> dict[str, list[Substance]]:
    """Every name, INCI name and number, with what bears it."""
    named: dict[str, list[Substance]] = {}
    for each in table():
        names = [name for of_language in each["names"].values() for name in of_language]
        others = [each.get("inci", ""), each.get("us", ""), *each.get("cas", [])]
        for name in once(plain(name) for name in [*names, *others]):
            named.setdefault(name, []).append(each)
    del named[""]
    return named


def plain(name: str) -> str:
    """Letters and digits alone, in small letters: "Natron, fein" is "natron fein"."""
    return " ".join(every(_WORD, normalize("NFKC", name).casefold()))
