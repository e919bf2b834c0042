"""Fizz: which of bicarbonate and acid is left over, and how much gas there can be."""

from collections.abc import Iterator
from fractions import Fraction

from bench.checks.finding import cut_per_cent, decimal, finding
from bench.checks.subject import Subject
from bench.fizz import CITRIC_ACID, Fizz, react
from bench.shapes.recipe import Component, Finding
from bench.whole import grams, half_even


def form(subject: Subject) -> Iterator[Finding]:
    """Citric acid that may be either form: ask, and say what hangs on it."""
    for component, bicarbonate_ug, acid_ug in _mixes(subject):
        if not acid_ug.get(""):
            continue
        left = " or ".join(
            f"{_left(react(Fraction(bicarbonate_ug, 1000), _as(assumed, acid_ug)))} if {assumed}"
            for assumed in CITRIC_ACID
        )
        yield finding(
            "look",
            component["id"],
            "Is the citric acid anhydrous or the monohydrate? The recipe does not say.",
            why="The monohydrate holds 8.6 % water, so the same weight fizzes less.",
            by=left,
            do="Read the bag, and set the form of the ingredient.",
            source="molar masses 192.12 and 210.14 g/mol, from CIAAW atomic weights",
        )


def balance(subject: Subject) -> Iterator[Finding]:
    for component, bicarbonate_ug, acid_ug in _mixes(subject):
        told = react(Fraction(bicarbonate_ug, 1000), _as("anhydrous", acid_ug))
        taken = " The acid is taken as anhydrous." if acid_ug.get("") else ""
        yield finding(
            "know",
            component["id"],
            f"Bicarbonate to citric acid is {decimal(told.ratio, 2)} : 1 by mass. When they have reacted, {_left(told)}.{taken}",
            why=f"The trade mixes about 2 : 1 (common practice); the reaction balances at {decimal(told.balanced, 2)} : 1. "
            "Bicarbonate left over makes the water mildly alkaline. Acid left over makes it sour.",
            by=f"{grams(half_even(bicarbonate_ug, 1000), 100)} is {decimal(told.bicarbonate_mol, 2)} mol of bicarbonate; "
            f"{grams(half_even(sum(acid_ug.values()), 1000), 100)} is {decimal(told.acid_mol, 2)} mol of acid. "
            f"At most {decimal(told.gas_l, 1)} L of gas at 25 °C from the batch as written",
            do="Nothing, if that is what you meant.",
            source="3 NaHCO3 to 1 citric acid by moles. Citric acid's third proton is about as weak as carbonic "
            "acid (pK 6.40 and 6.35), so the gas is an upper bound",
        )


def _mixes(subject: Subject) -> Iterator[tuple[Component, int, dict[str, int]]]:
    """Each part that fizzes: its bicarbonate in µg, and its citric acid in µg by form ("" unknown)."""
    for component in subject.parts:
        bicarbonate = sum(line["ug"] or 0 for line in subject.of_kind(component, "bicarbonate"))
        acid: dict[str, int] = {}
        for line in subject.of_kind(component, "citric_acid"):
            if line["ug"]:
                form = subject.ingredient(line)["form"]
                acid[form] = acid.get(form, 0) + line["ug"]
        if bicarbonate and acid:
            yield component, bicarbonate, acid


def _as(assumed: str, acid_ug: dict[str, int]) -> dict[str, Fraction]:
    """Citric acid by form in mg, what is of unknown form counted as `assumed`."""
    acid: dict[str, Fraction] = {}
    for form, ug in acid_ug.items():
        acid[form or assumed] = acid.get(form or assumed, Fraction(0)) + Fraction(ug, 1000)
    return acid


def _left(told: Fizz) -> str:
    if not told.left_over:
        return "nothing is left over"
    return f"{grams(int(told.left_mg), 100)} of {told.left_over} is left over, {cut_per_cent(told.left_share, 1)} of it"
