"""Fizz: which of bicarbonate and acid is left over, and how much gas there can be."""

from collections.abc import Iterator
from fractions import Fraction

from bench.brief import joined
from bench.checks.finding import cut_per_cent, decimal, finding
from bench.checks.subject import Subject
from bench.fizz import CITRIC_ACID, Fizz, react
from bench.shapes.recipe import Component, Finding
from bench.whole import grams, half_even
from bench.words import say


def form(subject: Subject) -> Iterator[Finding]:
    """Citric acid that may be either form: ask, and say what hangs on it."""
    for component, bicarbonate_ug, acid_ug in _mixes(subject):
        if not acid_ug.get(""):
            continue
        left = {
            assumed: _left(react(Fraction(bicarbonate_ug, 1000), _as(assumed, acid_ug)))
            for assumed in CITRIC_ACID
        }
        yield finding(
            "look",
            component["id"],
            say("checks-citric-form"),
            why=say("checks-citric-form-why"),
            by=say("checks-citric-form-by", anhydrous=left["anhydrous"], monohydrate=left["monohydrate"]),
            do=say("checks-citric-form-do"),
            source=say("checks-citric-form-source"),
        )


def balance(subject: Subject) -> Iterator[Finding]:
    for component, bicarbonate_ug, acid_ug in _mixes(subject):
        told = react(Fraction(bicarbonate_ug, 1000), _as("anhydrous", acid_ug))
        acid = sum(acid_ug.values())
        yield finding(
            "know",
            component["id"],
            joined(
                say("checks-fizz-balance", ratio=decimal(told.ratio, 2), left=_left(told)),
                say("checks-fizz-balance-as-anhydrous") if acid_ug.get("") else "",
            ),
            why=say("checks-fizz-balance-why", ratio=decimal(told.balanced, 2)),
            by=say(
                "checks-fizz-balance-by",
                bicarbonate=grams(half_even(bicarbonate_ug, 1000), 100),
                bicarbonate_mol=decimal(told.bicarbonate_mol, 2),
                acid=grams(half_even(acid, 1000), 100),
                acid_mol=decimal(told.acid_mol, 2),
                gas=decimal(told.gas_l, 1),
            ),
            do=say("checks-fizz-balance-do"),
            source=say("checks-fizz-balance-source"),
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
        return say("checks-fizz-left-nothing")
    share = cut_per_cent(told.left_share, 1)
    return say("checks-fizz-left", of=told.left_over, mass=grams(int(told.left_mg), 100), share=share)
