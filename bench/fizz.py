"""Fizz: what bicarbonate and citric acid do to each other, by moles and by mass.

    3 NaHCO3 + C6H8O7 -> Na3C6H5O7 + 3 H2O + 3 CO2

The third proton of citric acid is nearly as weak an acid as carbonic acid (pK3 6.40 against
6.35), so it reacts fully only as the gas escapes: gas figures here are upper bounds.
"""

from dataclasses import dataclass
from fractions import Fraction

# Molar masses in g/mol, from IUPAC atomic weights (checked against two libraries in the tests).
BICARBONATE = Fraction("84.0066")
CITRIC_ACID = {"anhydrous": Fraction("192.1235"), "monohydrate": Fraction("210.1388")}
CARBON_DIOXIDE = Fraction("44.0095")
MOLES_OF_BICARBONATE = 3  # for each mole of citric acid
# Ideal gas at 25 °C and 1 atm, L/mol: R T / p with the CODATA 2018 gas constant.
LITRES_A_MOLE = Fraction("24.4654")


@dataclass(frozen=True)
class Fizz:
    """What is left and what is given off when a mix has fully reacted.

    left_over: "bicarbonate", "acid" or "" when they match exactly. left_mg and gas_mg in mg,
    gas_l in litres at 25 °C and 1 atm, at most. ratio: bicarbonate to acid by mass, as mixed.
    balanced: the ratio at which nothing is left.
    """

    left_over: str
    left_mg: Fraction
    left_share: Fraction
    gas_mg: Fraction
    gas_l: Fraction
    ratio: Fraction
    balanced: Fraction


def balanced_ratio(form: str) -> Fraction:
    """Bicarbonate to citric acid by mass with nothing left over; form: anhydrous or monohydrate."""
    return MOLES_OF_BICARBONATE * BICARBONATE / CITRIC_ACID[form]


def react(bicarbonate_mg: Fraction, acid_mg: Fraction, form: str) -> Fizz:
    """Let these masses (both above nought) react to the end."""
    bicarbonate_mol = bicarbonate_mg / BICARBONATE
    acid_mol = acid_mg / CITRIC_ACID[form]
    reacted = min(bicarbonate_mol, MOLES_OF_BICARBONATE * acid_mol)  # in moles of bicarbonate
    spare_bicarbonate = (bicarbonate_mol - reacted) * BICARBONATE
    spare_acid = (acid_mol - reacted / MOLES_OF_BICARBONATE) * CITRIC_ACID[form]
    if spare_bicarbonate > 0:
        left, of, name = spare_bicarbonate, bicarbonate_mg, "bicarbonate"
    elif spare_acid > 0:
        left, of, name = spare_acid, acid_mg, "acid"
    else:
        left, of, name = Fraction(0), bicarbonate_mg, ""
    return Fizz(
        left_over=name,
        left_mg=left,
        left_share=left / of,
        gas_mg=reacted * CARBON_DIOXIDE,
        gas_l=reacted / 1000 * LITRES_A_MOLE,
        ratio=bicarbonate_mg / acid_mg,
        balanced=balanced_ratio(form),
    )
