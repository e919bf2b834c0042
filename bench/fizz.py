"""Fizz: what bicarbonate and citric acid do to each other, by moles and by mass.

    3 NaHCO3 + C6H8O7 -> Na3C6H5O7 + 3 H2O + 3 CO2

The third proton of citric acid is nearly as weak an acid as carbonic acid (pK3 6.40 against
6.35), so it reacts fully only as the gas escapes: gas figures here are upper bounds.
"""

from dataclasses import dataclass
from fractions import Fraction

# Molar masses in g/mol, from the abridged standard atomic weights (CIAAW). The tests hold them
# against two libraries of the periodic table.
BICARBONATE = Fraction("84.006")
CITRIC_ACID = {"anhydrous": Fraction("192.123"), "monohydrate": Fraction("210.138")}
CARBON_DIOXIDE = Fraction("44.009")
MOLES_OF_BICARBONATE = 3  # for each mole of citric acid
# Ideal gas at 25 °C and 1 atm, L/mol: R T / p with the CODATA 2018 gas constant.
LITRES_A_MOLE = Fraction("24.4654")


@dataclass(frozen=True)
class Fizz:
    """What is left and what is given off when a mix has fully reacted.

    left_over: "bicarbonate", "acid" or "" when they match exactly; left_mg, and left_share of
    what was put in. gas_mg, and gas_l in litres at 25 °C and 1 atm: at most. ratio: bicarbonate
    to acid by mass, as mixed. balanced: the ratio at which nothing is left.
    """

    bicarbonate_mol: Fraction
    acid_mol: Fraction
    left_over: str
    left_mg: Fraction
    left_share: Fraction
    gas_mg: Fraction
    gas_l: Fraction
    ratio: Fraction
    balanced: Fraction


def react(bicarbonate_mg: Fraction, acid_mg: dict[str, Fraction]) -> Fizz:
    """Let them react to the end. acid_mg: mass of citric acid by form; both sides above zero."""
    acid = sum(acid_mg.values(), Fraction(0))
    bicarbonate_mmol = bicarbonate_mg / BICARBONATE
    acid_mmol = sum((mg / CITRIC_ACID[form] for form, mg in acid_mg.items()), Fraction(0))
    reacted = min(bicarbonate_mmol, MOLES_OF_BICARBONATE * acid_mmol)  # of bicarbonate
    spare_bicarbonate = 1 - reacted / bicarbonate_mmol
    spare_acid = 1 - reacted / (MOLES_OF_BICARBONATE * acid_mmol)
    if spare_bicarbonate:
        name, share, left = "bicarbonate", spare_bicarbonate, spare_bicarbonate * bicarbonate_mg
    elif spare_acid:
        name, share, left = "acid", spare_acid, spare_acid * acid
    else:
        name, share, left = "", Fraction(0), Fraction(0)
    return Fizz(
        bicarbonate_mol=bicarbonate_mmol / 1000,
        acid_mol=acid_mmol / 1000,
        left_over=name,
        left_mg=left,
        left_share=share,
        gas_mg=reacted * CARBON_DIOXIDE,
        gas_l=reacted / 1000 * LITRES_A_MOLE,
        ratio=bicarbonate_mg / acid,
        balanced=MOLES_OF_BICARBONATE * BICARBONATE * acid_mmol / acid,
    )
