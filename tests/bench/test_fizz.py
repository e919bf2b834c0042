"""Fizz, against two libraries of the periodic table and figures worked from them."""

from __future__ import annotations

from fractions import Fraction

import molmass
import periodictable
import pytest

from bench.fizz import CARBON_DIOXIDE, LITRES_A_MOLE, react
from bench.substances import substance

BICARBONATE = Fraction(substance("sodium-bicarbonate")["molar_mass"])
CITRIC_ACID = {
    form: Fraction(substance(f"citric-acid-{form}")["molar_mass"]) for form in ("anhydrous", "monohydrate")
}


@pytest.mark.parametrize(
    ("ours", "formula"),
    [
        (BICARBONATE, "NaHCO3"),
        (CITRIC_ACID["anhydrous"], "C6H8O7"),
        (CITRIC_ACID["monohydrate"], "C6H10O8"),  # the acid and one water
        (CARBON_DIOXIDE, "CO2"),
    ],
)
def test_molar_masses_are_those_of_two_periodic_tables(ours, formula):
    assert float(ours) == pytest.approx(molmass.Formula(formula).mass, abs=0.0015)
    assert float(ours) == pytest.approx(periodictable.formula(formula).mass, abs=0.0005)


def test_a_mole_of_gas_is_the_ideal_one():
    """R T / p at 25 °C and 1 atm, CODATA 2018."""
    assert float(LITRES_A_MOLE) == pytest.approx(8.31446261815324 * 298.15 / 101.325, abs=1e-4)


def mix(bicarbonate, anhydrous=0, monohydrate=0):
    acid = {"citric-acid-anhydrous": Fraction(anhydrous), "citric-acid-monohydrate": Fraction(monohydrate)}
    return react({"sodium-bicarbonate": Fraction(bicarbonate)}, {id_: mg for id_, mg in acid.items() if mg})


@pytest.mark.parametrize(
    ("bicarbonate", "acid", "left_over", "left", "gas"),
    [  # worked from molmass 2026.1.8: share of what is left over, and g of gas a g of mix
        (2, 1, "carbonate", 0.344, 0.2291),
        (3, 1, "carbonate", 0.563, 0.1718),
        (1, 1, "acid", 0.238, 0.2619),
    ],
)
def test_the_trades_mixes(bicarbonate, acid, left_over, left, gas):
    told = mix(bicarbonate, acid)

    assert told.left_over == left_over
    assert float(told.left_share) == pytest.approx(left, abs=0.0005)
    assert float(told.gas_mg / (bicarbonate + acid)) == pytest.approx(gas, abs=0.00006)


@pytest.mark.parametrize(("form", "ratio"), [("anhydrous", 1.3118), ("monohydrate", 1.1993)])
def test_the_reaction_balances(form, ratio):
    told = mix(3 * BICARBONATE, **{form: CITRIC_ACID[form]})

    assert float(told.balanced) == pytest.approx(ratio, abs=0.00006)
    assert (told.left_over, told.left_mg, told.left_share) == ("", 0, 0)
    assert told.ratio == told.balanced


def test_gas_of_a_balanced_mix():
    """0.2973 g and 0.1653 L a gram at 25 °C and 1 atm."""
    told = mix(Fraction("0.5674"), Fraction("0.4326"))

    assert float(told.gas_mg) == pytest.approx(0.2973, abs=0.0001)
    assert float(told.gas_l * 1000) == pytest.approx(0.1653, abs=0.0001)


@pytest.mark.parametrize(
    ("given", "gas", "litres"),
    [
        ((1, 100), 0.5239, 0.2912),  # a gram of bicarbonate, acid to spare
        ((100, 1), 0.6872, 0.3820),  # a gram of anhydrous acid, bicarbonate to spare
        ((100, 0, 1), 0.6283, None),  # a gram of the monohydrate
    ],
)
def test_gas_a_gram_of_either_side(given, gas, litres):
    told = mix(*given)

    assert float(told.gas_mg) == pytest.approx(gas, abs=0.00006)
    if litres:
        assert float(told.gas_l * 1000) == pytest.approx(litres, abs=0.00006)


def test_the_monohydrate_is_the_acid_and_its_water():
    assert float(CITRIC_ACID["monohydrate"] / CITRIC_ACID["anhydrous"]) == pytest.approx(1.09377, abs=0.00001)
    assert float(1 - CITRIC_ACID["anhydrous"] / CITRIC_ACID["monohydrate"]) == pytest.approx(
        0.08573, abs=0.00001
    )


def test_both_forms_in_one_mix_count_by_moles():
    together = mix(100, Fraction(10), Fraction(10) * CITRIC_ACID["monohydrate"] / CITRIC_ACID["anhydrous"])

    assert together.gas_mg == mix(100, 20).gas_mg
    assert together.acid_mmol == mix(100, 20).acid_mmol
