"""What the demo says in figures, against where the figures come from.

The demo's recipes are read by makers, so a number in them is held to its source like one in the code.
"""

from __future__ import annotations

import re

import periodictable
import pytest
from molmass import Formula
from workshop import DEMO_RECIPES, THREE_PART, written

from bench import read_recipe

INGREDIENTS = {
    (name, key): ingredient
    for name in DEMO_RECIPES
    for key, ingredient in written(name)["ingredients"].items()
}


def molmass(formula):
    return Formula(formula).mass


def periodic(formula):
    return periodictable.formula(formula).mass


@pytest.mark.parametrize("mass_of", [molmass, periodic])
def test_three_moles_of_bicarbonate_to_one_of_citric_acid(mass_of):
    """3 NaHCO3 + C6H8O7 -> Na3C6H5O7 + 3 H2O + 3 CO2: 1.3118 by mass to the anhydrous acid."""
    ratio = 3 * mass_of("NaHCO3") / mass_of("C6H8O7")
    note = written(THREE_PART)["ingredients"]["citric"]["note"]

    assert ratio == pytest.approx(1.3118, abs=0.0001)
    assert re.search(r"about ([\d.]+) to 1", note)[1] == f"{ratio:.2f}"


@pytest.mark.parametrize("name", [THREE_PART, "recipes/shower-steamers.json"])
def test_a_fizzing_part_holds_two_of_bicarbonate_to_one_of_acid(name):
    """Two to one by weight is common practice; the note says that some bicarbonate is left over."""
    part = read_recipe(written(name))["components"][0]
    ug = {line["ingredient"]: line["ug"] for line in part["lines"]}

    assert ug["bicarb"] == 2 * ug["citric"]


# Published ranges, g/mL (specific gravities stand for densities to well within them).
RANGES = {
    "polysorbate": (1.06, 1.09, "USP-NF 23"),
    "witch_hazel": (0.979, 0.983, "USP"),
    "alcohol": (0.872, 0.883, "USP 32, 68 to 72 % by volume, 20 °C"),
    "almond_oil": (0.910, 0.915, "USP 29 NF"),
    "glycerin": (1.249, 1.268, "USP 29: not less than 1.249; Ph. Eur. grade sheet: to 1.268"),
    "bicarb": (0.869, 1.369, "excipients handbook, loose to tapped"),
    "cocoa_butter": (0.858, 0.864, "National Formulary, 100/25 °C"),
}


@pytest.mark.parametrize("key", sorted(RANGES))
def test_a_density_lies_where_its_source_says(key):
    least, most, source = RANGES[key]
    found = [each["density"] for (_, name), each in INGREDIENTS.items() if name == key and "density" in each]

    assert found
    for density in found:
        assert least <= float(density["g_per_ml"]) <= most, source


def test_cocoa_butter_is_heated_by_the_handbooks_figures():
    """Industrial chocolate handbook, 4th edition 2009; melting points of forms V and VI 33.8 and 36.3 °C."""
    found = [
        each["heat"] for (_, key), each in INGREDIENTS.items() if key == "cocoa_butter" and "heat" in each
    ]

    assert found
    for heat in found:
        assert (heat["solid_j_per_kg_k"], heat["liquid_j_per_kg_k"], heat["latent_j_per_kg"]) == (
            2010,
            2090,
            157_000,
        )
        assert 33.8 <= float(heat["melts_c"]) <= 36.3


def test_every_figure_of_an_ingredient_names_its_source():
    for ingredient in INGREDIENTS.values():
        for figure in ("density", "heat"):
            assert figure not in ingredient or ingredient[figure]["source"]


def test_soap_bases_heat_figures_are_owned_up_to_as_guesses():
    """No published value was found for melt-and-pour base."""
    for (_, key), ingredient in INGREDIENTS.items():
        if key in ("clear_base", "white_base") and "heat" in ingredient:
            assert "guess" in ingredient["heat"]["source"]


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_no_fizzing_part_is_dried_hot(name):
    """Bicarbonate begins to give off its gas at about 50 °C, so a wait to dry one never means an oven."""
    document = written(name)
    if "bicarb" not in document["ingredients"]:
        return
    waits = [step for part in document["components"] for step in part["steps"] if step["kind"] == "wait"]

    assert any("never in an oven" in step.get("says", "") for step in waits if step["word"] == "dry")
