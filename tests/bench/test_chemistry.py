"""What a maker may put beside what: each fault as one would write it, and its sound twin, which is left alone.

Figures are worked by hand from IUPAC atomic weights; what is only habit is marked so in the finding.
"""

from __future__ import annotations

import pytest
from checking import check, do, make, melt, says, weigh

from bench import read_recipe

FIZZ = ("Baking soda", "Citric acid, anhydrous")


def mix(*named, **other):
    """A part of so much of each: ("Baking soda", "200 g")."""
    names, amounts = zip(*named, strict=True)
    return make(*amounts, facts=[{"name": name} for name in names], **other)


def found(*named, **other):
    return check(mix(*named, **other))


@pytest.mark.parametrize(
    ("sides", "left", "gas"),
    [
        ([("Baking soda", "200 g"), ("Cream of tartar", "150 g")], "133.0 g of bicarbonate", "19.5 L"),
        (
            [("Natron", "200 g"), ("Citric acid, anhydrous", "50 g"), ("Tartaric acid", "50 g")],
            "39.2 % of it",
            "35.4 L",
        ),
        ([("Baking soda", "200 g"), ("Cream of tartar", "100 g")], "77.6 % of it", "13.0 L"),
        ([("Potassium bicarbonate", "200 g"), ("Citric acid, anhydrous", "100 g")], "21.8 % of it", "38.2 L"),
    ],
)
def test_every_acid_and_carbonate_counts(sides, left, gas):
    (balance,) = says(found(*sides), ": 1 by mass")

    assert left in balance["what"] and f"At most {gas}" in balance["by"]


@pytest.mark.parametrize(
    ("soda", "acid", "level"),
    [("200 g", "100 g", "know"), ("100 g", "200 g", "look"), ("10 g", "500 g", "look")],
)
def test_much_acid_left_over_is_pointed_out(soda, acid, level):
    (balance,) = says(found((FIZZ[0], soda), (FIZZ[1], acid)), ": 1 by mass")
    assert balance["level"] == level


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("Baking powder", "not pure bicarbonate"),
        ("Washing soda", "strongly alkaline"),
        ("Ultramarine blue", "do not go together"),
        ("Honey", "draws water"),
        ("Glycerin", "draws water"),
        ("Sea salt", "draws water"),
        ("Aloe vera juice", "as a set amount"),
        ("Rose water", "as a set amount"),
        ("Maize starch", ""),
        ("White kaolin clay", ""),
        ("Cocoa butter", ""),
        ("SLSA", ""),
    ],
)
def test_what_does_not_go_into_a_fizz(name, told):
    looks = [
        each
        for each in found((FIZZ[0], "200 g"), (FIZZ[1], "100 g"), (name, "20 g"))
        if each["where"] == "mix.l2"
    ]
    assert (len(says(looks, told)) == 1) if told else not looks


def test_the_same_things_in_soap_are_left_alone():
    soap = found(("Clear soap base", "200 g"), ("Glycerin", "10 g"), ("Ultramarine blue", "1 g"))
    assert not says(soap, "draws water") and not says(soap, "do not go together")


def test_a_fizz_in_a_shut_jar():
    wrap = do("wrap", does="wrap", says="Seal in airtight jars at once.")
    steps = [weigh("in", "l0", "l1"), wrap]
    shut = found((FIZZ[0], "200 g"), (FIZZ[1], "100 g"), steps=steps)

    (told,) = says(shut, "shuts a fizzing piece in tight")
    assert told["level"] == "look" and "38.2 L of gas" in told["by"]
    wrap["says"] = "Into paper bags, never into airtight jars."
    assert not says(found((FIZZ[0], "200 g"), (FIZZ[1], "100 g"), steps=steps), "shuts")


def test_a_jar_of_soap_may_be_shut():
    assert not says(
        found(("Clear soap base", "200 g"), steps=[weigh("in", "l0"), do("jar", says="Airtight jar.")]),
        "shut",
    )


@pytest.mark.parametrize(
    ("lines", "fires"),
    [
        ([("Rose water", "70 g"), ("Sweet almond oil", "30 g")], True),
        ([("Sugar", "70 g"), ("Coconut oil", "20 g"), ("Fruit purée", "10 g")], True),
        ([("Whipping soap base", "77 g"), ("Fresh milk", "23 g")], True),
        ([("Whipping soap base", "97 g"), ("Honey", "3 g")], True),
        ([("Rose water", "69 g"), ("Sweet almond oil", "30 g"), ("Phenoxyethanol", "1 g")], False),
        ([("Sugar", "70 g"), ("Coconut oil", "30 g")], False),
        ([("Clear soap base", "100 g"), ("Glycerin", "5 g")], False),
        ([("Cocoa butter", "50 g"), ("Beeswax", "10 g")], False),
        (
            [("Baking soda", "200 g"), ("Citric acid, anhydrous", "100 g"), ("Goat milk powder", "10 g")],
            False,
        ),
    ],
)
def test_water_and_food_without_a_preservative_is_asked_about(lines, fires):
    assert bool(says(found(*lines), "Nothing preserves")) is fires


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("Menthol crystals", "child’s breath"),
        ("Eucalyptus oil", "child’s breath"),
        ("Kampfer", "child’s breath"),
        ("Borax", "is a borate"),
        ("Boric acid", "is a borate"),
        ("PET glitter", "microplastic"),
        ("Liquid food colouring", "made for food"),
        ("Beetroot powder", "not list for cosmetics"),
        ("Cinnamon bark oil", "What is its limit?"),
    ],
)
def test_what_is_pointed_out_wherever_it_is_used(name, told):
    assert says(found(("Sweet almond oil", "90 g"), (name, "9 g")), told)
    assert not says(found(("Sweet almond oil", "90 g"), ("Sunflower oil", "9 g")), told)


def test_a_colour_for_outside_use_in_a_bath():
    blend = {"name": "Teal mica", "kind": "mica", "inci": "Mica, CI 77288"}
    fizz = [{"name": FIZZ[0]}, {"name": FIZZ[1]}]
    bath = make("200 g", "100 g", "1 g", facts=[*fizz, blend])
    bar = make("200 g", "1 g", facts=[{"name": "Clear soap base"}, blend])

    assert [each["level"] for each in says(check(bath), "outside use")] == ["look"]
    assert [each["level"] for each in says(check(bar), "outside use")] == ["know"]
    blend = {**blend, "inci": "Mica, CI 77891"}
    assert not says(check(make("200 g", "100 g", "1 g", facts=[*fizz, blend])), "outside use")


def test_one_substance_under_two_names():
    assert says(found(("Baking soda", "100 g"), ("Natron", "100 g")), "one substance")
    assert not says(
        found(("Rose mica", "1 g"), ("Teal mica", "1 g"), ("Baking soda", "100 g")), "one substance"
    )


@pytest.mark.parametrize(("density", "fires"), [("869", True), ("0.1", True), ("0.9", False)])
def test_a_density_out_of_range(density, fires):
    soda = {"name": "Baking soda", "density": {"g_per_ml": density, "source": "made up"}}
    assert bool(says(check(make("100 g", facts=[soda])), "out of its range")) is fires


def test_allergens_of_two_names_are_one_and_what_is_not_entered_is_asked():
    scent = {"kind": "fragrance", "fragrance": {"limit": "2 %", "allergens": [
        {"name": "d-Limonene", "share": "0.3 %"}, {"name": "Limonene", "share": "0.3 %"}]}}  # fmt: skip
    document = make("98 g", "2 g", facts=[{}, scent]) | {"stays_on": False}

    (told,) = says(check(document), "Limonene")
    assert told["what"].startswith("Limonene: 0.0120 %")
    assert not says(check(document), "not entered")
    scent["fragrance"].pop("allergens")
    assert says(check(make("98 g", "2 g", facts=[{}, scent])), "allergens", "not entered")


# At the bench


def hazards(document):
    measured = read_recipe(document)
    steps = [step["hazards"] for part in measured["components"] for step in part["steps"]]
    return {key: each["hazards"] for key, each in measured["ingredients"].items()}, steps


def test_cautions_follow_from_substance_and_act_with_no_box_ticked():
    """A soap base in the microwave, 3 kg of fizz powder and rubbing alcohol gave no caution at all."""
    powders, _ = hazards(mix(("Baking soda", "2 kg"), ("Citric acid", "1 kg"), ("Rubbing alcohol", "20 g")))
    assert list(powders.values()) == [["powder"], ["powder"], ["alcohol"]]

    steps = [weigh("in", "l0", "l1"), melt("l0", "l1"), do("whip", tools=["stand mixer"])]
    _, (_, heated, whipped) = hazards(mix(("Clear soap base", "1 kg"), ("Shea butter", "50 g"), steps=steps))
    assert heated == ["hot_soap", "hot_fat", "superheated"] and whipped == ["mixer"]
    steps[1] = melt("l0", "l1", heater="Mikrowelle")
    assert hazards(mix(("Clear soap base", "1 kg"), ("Shea butter", "50 g"), steps=steps))[1][1] == heated


def test_what_the_recipe_names_stays_first_and_nothing_is_said_twice():
    document = mix(("Baking soda", "2 kg"), steps=[weigh("in", "l0"), do("press", hazards=["slippery"])])
    document["ingredients"]["i0"]["hazards"] = ["powder"]

    ingredients, (_, pressed) = hazards(document)
    assert ingredients["i0"] == ["powder"] and pressed == ["slippery"]


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("Isopropyl alcohol 70 %", "37 % water"),
        ("Rubbing alcohol, 91 %", "12 % water"),
        ("Isopropanol 99,9 %", "1 % water"),
        ("Vodka", "The rest"),
    ],
)
def test_an_alcohol_brings_the_water_of_its_strength(name, told):
    (looked,) = says(found((FIZZ[0], "200 g"), (FIZZ[1], "100 g"), (name, "20 g")), "as a set amount")
    assert told in looked["why"] and looked["level"] == "know"


def test_epsom_salt_brings_water_in_its_crystals():
    """MgSO4·7H2O: 7 x 18.015 / 246.466 is 51.2 %."""
    assert says(found((FIZZ[0], "200 g"), (FIZZ[1], "100 g"), ("Epsom salt", "20 g")), "51.17 % water")
    assert not says(found(("Sea salt", "200 g"), ("Epsom salt", "20 g")), "in its crystals")
