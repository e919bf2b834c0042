"""Fizz: what carbonates and acids do to each other, by moles and by mass.

    3 NaHCO3 + C6H8O7 -> Na3C6H5O7 + 3 H2O + 3 CO2

Each acid gives the protons that free the gas, each carbonate takes up so many to its last bubble (the rows of
bench/substances). The last protons of an acid may be nearly as weak an acid as carbonic acid (citric: pK3 6.40 against
6.35), so they react fully only as the gas escapes: gas figures here are upper bounds.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from bench.shapes.recipe import Ingredient
from bench.substances import known, substance

CARBON_DIOXIDE = Fraction("44.009")  # g/mol, from the abridged standard atomic weights (CIAAW)
# Ideal gas at 25 °C and 1 atm, L/mol: R T / p with the CODATA 2018 gas constant.
LITRES_A_MOLE = Fraction("24.4654")


# Where the maker gives a form or a kind, and the name tells no more.
BY_KIND = {"bicarbonate": "sodium-bicarbonate", "citric_acid": "citric-acid"}
FORMS = {"anhydrous": "citric-acid-anhydrous", "monohydrate": "citric-acid-monohydrate"}


@dataclass(frozen=True)
class Fizz:
    """What is left and what is given off when a mix has fully reacted.

    base_mmol, acid_mmol: what each side can take and give, in mmol of protons. left_over: "carbonate", "acid" or ""
    when they match exactly; left_share of that side, and left_mg, as if all of a side took part alike. gas_mg, and
    gas_l in litres at 25 °C and 1 atm: at most. ratio: carbonate to acid by mass, as mixed. balanced: the ratio at
    which nothing is left.
    """

    base_mmol: Fraction
    acid_mmol: Fraction
    left_over: Literal["carbonate", "acid", ""]
    left_mg: Fraction
    left_share: Fraction
    gas_mg: Fraction
    gas_l: Fraction
    ratio: Fraction
    balanced: Fraction


def counted_as(ingredient: Ingredient) -> str:
    """The substance that an ingredient is counted as in a reaction, by id; "" where nothing tells."""
    found = known(ingredient)
    if found:
        return found["id"]
    return FORMS.get(ingredient["form"], "") or BY_KIND.get(ingredient["kind"], "")


def is_acid(id_: str) -> bool:
    return id_ != "" and "acid_protons" in substance(id_)


def is_carbonate(id_: str) -> bool:
    return id_ != "" and "carbonate_equivalents" in substance(id_)


def moles(id_: str, mg: Fraction) -> Fraction:
    """mmol in so many mg of a substance that the table has a molar mass of."""
    return mg / Fraction(substance(id_)["molar_mass"])


def react(carbonate_mg: dict[str, Fraction], acid_mg: dict[str, Fraction]) -> Fizz:
    """Let them react to the end. Each side: mg by id of the substance; neither may be nothing.

    A carbonate that takes two protons frees no gas at the first: with too little acid it fizzes less than it could.
    """
    bases = {id_: moles(id_, mg) for id_, mg in carbonate_mg.items()}
    base = sum((n * substance(id_)["carbonate_equivalents"] for id_, n in bases.items()), Fraction(0))
    gas = sum((n * substance(id_)["carbon_dioxide"] for id_, n in bases.items()), Fraction(0))
    acid = sum((moles(id_, mg) * substance(id_)["acid_protons"] for id_, mg in acid_mg.items()), Fraction(0))
    base_mg, sour_mg = sum(carbonate_mg.values(), Fraction(0)), sum(acid_mg.values(), Fraction(0))
    reacted = min(base, acid)
    freed = max(Fraction(0), reacted - (base - gas))
    left_over, share, of = _left(base, acid, base_mg, sour_mg)
    return Fizz(
        base_mmol=base,
        acid_mmol=acid,
        left_over=left_over,
        left_mg=share * of,
        left_share=share,
        gas_mg=freed * CARBON_DIOXIDE,
        gas_l=freed / 1000 * LITRES_A_MOLE,
        ratio=base_mg / sour_mg,
        balanced=(base_mg / base) / (sour_mg / acid),
    )


def _left(
    base: Fraction, acid: Fraction, base_mg: Fraction, acid_mg: Fraction
) -> tuple[Literal["carbonate", "acid", ""], Fraction, Fraction]:
    """Which side is left over, what share of it, and the mass of that side."""
    if base > acid:
        return "carbonate", 1 - acid / base, base_mg
    if acid > base:
        return "acid", 1 - base / acid, acid_mg
    return "", Fraction(0), Fraction(0)
