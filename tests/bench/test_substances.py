"""The table of substances, against a library of chemicals, a hand-made balance, and what makers write."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from checking import check, make
from chemicals import search_chemical
from workshop import make_document

from bench import propose, read_recipe, words
from bench.errors import RecipeError
from bench.fizz import CARBON_DIOXIDE, LITRES_A_MOLE, is_acid, is_carbonate, react
from bench.label_names import on_market
from bench.states import STATES
from bench.substances import colours_of, recognised, source_of, substance, table

ACIDS = [each["id"] for each in table() if is_acid(each["id"])]
CARBONATES = [each["id"] for each in table() if is_carbonate(each["id"])]
# The library gives another substance under these numbers: the acid of the salt; the salt with no water; a mixture.
OTHERWISE_THERE = {"868-14-4", "533-96-0", "8000-34-8", "11138-66-2", "8024-22-4"}
FIGURES = (
    "molar_mass",
    "crystal_water",
    "water",
    "density",
    "melts_c",
    "flash_c",
    "loses_water_c",
    "hazards",
)


# The table


def test_every_row_is_told_by_its_names_and_no_two_rows_share_one():
    for each in table():
        for name in [name for names in each["names"].values() for name in names]:
            found = recognised(name)
            assert found is not None and found["id"] == each["id"], name


def test_every_figure_and_trait_says_where_it_is_from():
    for each in table():
        told = [*(field for field in FIGURES if field in each), *each.get("traits", [])]
        assert set(told) <= set(each.get("by", {})), each["id"]
        for tag in words.languages():
            with words.speaking(tag):
                assert all(source_of(each, field) for field in told)


def test_numbers_and_molar_masses_are_those_of_a_library_of_chemicals():
    """`chemicals` 1.x: a CAS number finds the substance, and the mass of its formula is ours."""
    met = 0
    for each in table():
        for cas in set(each.get("cas", [])) - OTHERWISE_THERE:
            try:
                found = search_chemical(cas)
            except ValueError:
                continue  # a mixture of nature that the library does not hold
            met += 1
            if "molar_mass" in each:
                assert float(each["molar_mass"]) == pytest.approx(found.MW, abs=0.02), each["id"]
    assert met > 90


@pytest.mark.parametrize(
    ("name", "given", "id_"),
    [
        ("Natron, fein", {}, "sodium-bicarbonate"),
        ("bicarbonato de sodio", {}, "sodium-bicarbonate"),
        ("Cream of tartar", {"kind": "citric_acid"}, "cream-of-tartar"),
        ("Zitronensäure", {"form": "monohydrate"}, "citric-acid-monohydrate"),
        ("Citric acid", {}, "citric-acid"),
        ("Baking powder", {"kind": "bicarbonate"}, "baking-powder"),
        ("Washing soda", {}, "washing-soda"),
        ("Soap base, lye-free", {}, "melt-and-pour-base"),
        ("Base de savon sans soude caustique", {}, "melt-and-pour-base"),
        ("Milk & honey fragrance oil", {}, "parfum"),
        ("Bio-Kakaobutter, desodoriert", {}, "cocoa-butter"),
        ("My secret powder", {"inci": "Kaolin"}, "kaolin"),
        ("Zitronensaft", {}, "fruit-puree"),
    ],
)
def test_what_makers_write_is_known(name, given, id_):
    found = recognised(name, given.get("inci", ""), given.get("kind", ""), given.get("form", ""))
    assert found is not None and found["id"] == id_


@pytest.mark.parametrize(
    ("name", "kind"),
    [("Milk and honey", "fragrance"), ("Orange mica blend", "pigment"), ("Moonlight dust", ""), ("", "")],
)
def test_what_is_named_after_something_else_is_not_that(name, kind):
    assert recognised(name, kind=kind) is None


def test_colours_are_found_by_their_numbers_within_a_blend():
    found = colours_of(recognised("Teal mica", kind="mica"), "Mica, CI 77288, CI 77891")
    assert {each["id"] for each in found} == {"mica", "chromium-oxide", "titanium-dioxide"}


def coloured(numbers, use, sold_in):
    """The rules that tell of a colour so named, in a piece for that use."""
    colour = {"name": "A colour", "kind": "dye", "inci": numbers}
    found = check(
        make("99 g", "1 g", facts=[{"name": "Clear soap base"}, colour], use=use, sold_in=[sold_in])
    )
    return {
        each["rule"]: each
        for each in found
        if each["rule"] in ("colour-use", "colour-annex", "colour-unnamed")
    }


@pytest.mark.parametrize(
    ("number", "use", "sold_in", "rule", "word"),
    [
        # The Food and Drug Administration's table of 2019, in a copy: green 5 is listed for the eye area, red 6 for
        # lips and not for eyes, iron blue for eyes and the outside, orange 4 (21 CFR 74.2254, read) for the outside.
        ("CI 61570", "eyes", "us", None, ""),
        ("CI 15850", "lips", "us", None, ""),
        ("CI 15850", "eyes", "us", "colour-use", "eye area"),
        ("CI 77510", "eyes", "us", None, ""),
        ("CI 77510", "lips", "us", "colour-use", "outside"),
        ("CI 15510", "bath", "us", "colour-use", "outside"),
        ("CI 73015", "bath", "us", "colour-use", "not list"),  # FD&C Blue 2: 74.102 for foods, no 74.2102
        ("CI 74160", "wash", "us", "colour-use", "not list"),  # 74.3045, threads of surgeons
        # Annex IV: J. Cosmet. Sci. 72 (2021) no. 4, table of colours; ECHA's list for CI 21108.
        ("CI 60730", "bath", "eu", "colour-annex", "inner skin"),
        ("CI 60730", "wash", "eu", None, ""),
        ("CI 21108", "left_on", "eu", "colour-annex", "rinse-off"),
        ("CI 21108", "wash", "uk", None, ""),
        ("CI 15510", "eyes", "uk", "colour-annex", "eyes"),
        ("CI 61570", "lips", "eu", None, ""),
    ],
)  # fmt: skip
def test_a_colour_is_held_against_the_list_of_where_it_is_sold(number, use, sold_in, rule, word):
    found = coloured(number, use, sold_in)

    assert set(found) == ({rule} if rule else set())
    if rule:
        assert word in found[rule]["what"]


def test_a_number_that_two_colours_of_the_us_bear_is_not_guessed():
    """D&C Red 6 and its calcium salt D&C Red 7 are both CI 15850."""
    assert on_market("CI 15850", "us")[0] == "CI 15850"
    assert on_market("Red 7 Lake", "us")[0] == "Red 7 Lake"
    assert on_market("Red 7 Lake", "eu")[0] == "CI 15850"
    assert on_market("CI 47005", "us")[0] == "Yellow 10"


def test_ever_new_names_fill_no_memory():
    held = recognised.cache_info().maxsize
    for n in range(held + 100):
        recognised(f"never heard of {n}")
    assert recognised.cache_info().currsize == held


# What a name may be of


@pytest.mark.parametrize(
    ("tag", "text", "first", "called", "taken"),
    [
        ("en", "Natr", "Natron", "sodium bicarbonate", False),
        ("de", "Natr", "Natron", "Natron", False),
        ("en", "polys", "polysorbate 20", "polysorbate 20", False),
        ("en", "144-55-8", "sodium bicarbonate", "sodium bicarbonate", True),
        ("en", "Sodium Bicarbonate", "Sodium Bicarbonate", "sodium bicarbonate", True),
        ("de", "Natron, fein", "Natron, fein", "Natron", True),
        ("en", "cream of t", "cream of tartar", "cream of tartar", False),
        ("en", "cream of tartar", "cream of tartar", "cream of tartar", True),
        ("en", "D&C Red 7", "D&C Red 7", "D&C Red 7", True),
        ("en", "bicarbonato", "bicarbonato sódico", "sodium bicarbonate", False),
    ],
)
def test_a_name_is_met_as_it_is_typed(tag, text, first, called, taken):
    with words.speaking(tag):
        nearest = propose(text)[0]
    assert (nearest["name"], nearest["called"], nearest["taken"]) == (first, called, taken)


def test_what_is_known_of_it_is_as_the_table_says_and_lye_is_not_proposed():
    (soda, *_) = propose("baking soda")
    row = substance("sodium-bicarbonate")
    assert soda["about"] == {
        "name": "baking soda",
        "kind": row["kind"],
        "inci": row["inci"],
        "cas": row["cas"][0],
        "hazards": row["cautions"],
        "density": {
            "g_per_ml": row["density"][0],
            "tapped_g_per_ml": row["density"][1],
            "source": "excipients handbook: loose and tapped powder",
        },
    }
    assert not any("lye" in substance(each["id"]).get("traits", []) for each in propose("Natron"))
    assert propose("Moonlight dust") == propose("q") == propose("") == []


# The reaction


def proton_by_proton(carbonates: dict[str, int], acids: dict[str, int]) -> tuple[int, int, int]:
    """A balance made by hand, in whole mmol: each proton goes to the strongest base there is. Gives gas and both rests."""
    carbonate = bicarbonate = 0
    for id_, mmol in carbonates.items():
        gas, takes = substance(id_)["carbon_dioxide"], substance(id_)["carbonate_equivalents"]
        doubly = takes - gas  # of its carbon dioxide, what is there as carbonate
        carbonate, bicarbonate = carbonate + doubly * mmol, bicarbonate + (gas - doubly) * mmol
    protons = sum(mmol * substance(id_)["acid_protons"] for id_, mmol in acids.items())
    gas = 0
    while protons and (carbonate or bicarbonate):
        protons -= 1
        if carbonate:
            carbonate, bicarbonate = carbonate - 1, bicarbonate + 1
        else:
            bicarbonate, gas = bicarbonate - 1, gas + 1
    return gas, 2 * carbonate + bicarbonate, protons


def test_random_mixtures_react_as_a_balance_made_by_hand():
    """200 mixtures of up to three of each side."""
    chance = random.Random(14)
    for _ in range(200):
        carbonates = {id_: chance.randint(1, 60) for id_ in chance.sample(CARBONATES, chance.randint(1, 3))}
        acids = {id_: chance.randint(1, 60) for id_ in chance.sample(ACIDS, chance.randint(1, 3))}
        gas, base_left, acid_left = proton_by_proton(carbonates, acids)

        told = react(weighed(carbonates), weighed(acids))

        left = {"carbonate": told.base_mmol, "acid": told.acid_mmol, "": Fraction(0)}[told.left_over]
        assert told.gas_mg == gas * CARBON_DIOXIDE
        assert told.left_share * left == (base_left if told.left_over == "carbonate" else acid_left)


def weighed(mmol: dict[str, int]) -> dict[str, Fraction]:
    """mg of each."""
    return {id_: n * Fraction(substance(id_)["molar_mass"]) for id_, n in mmol.items()}


@pytest.mark.parametrize(
    ("acid", "per_bicarbonate", "per_potassium"),
    [  # grams for 100 g of sodium and of potassium bicarbonate, computed from IUPAC weights apart from this code
        ("citric-acid-anhydrous", 76.2, 64.0),
        ("citric-acid-monohydrate", 83.4, 70.0),
        ("tartaric-acid", 89.3, 75.0),
        ("cream-of-tartar", 224.0, 188.0),
        ("malic-acid", 79.8, 67.0),
        ("lactic-acid", 107.2, 90.0),
        ("sapp", 132.1, 110.8),
    ],
)
def test_how_much_acid_balances(acid, per_bicarbonate, per_potassium):
    for base, grams in (("sodium-bicarbonate", per_bicarbonate), ("potassium-bicarbonate", per_potassium)):
        told = react({base: Fraction(100)}, {acid: Fraction(100)})
        assert float(100 / told.balanced) == pytest.approx(grams, abs=0.06)


def test_litres_of_gas_a_gram():
    """At 25 °C and 1 atm: sodium bicarbonate 0.291 L, potassium 0.244, sodium carbonate 0.231."""
    for base, litres in (
        ("sodium-bicarbonate", 0.291),
        ("potassium-bicarbonate", 0.244),
        ("washing-soda", 0.231),
    ):
        told = react({base: Fraction(1000)}, {"citric-acid-anhydrous": Fraction(10_000)})
        assert float(told.gas_l) == pytest.approx(litres, abs=0.0006)
    assert LITRES_A_MOLE


# What is refused


@pytest.mark.parametrize(
    "facts",
    [
        {"name": "Natriumhydroxid"},
        {"name": "Soude caustique"},
        {"name": "My mix", "inci": "Sodium Hydroxide"},
        {"name": "Drain opener, KOH"},
        {"name": "Lye"},
    ],
)
def test_lye_is_refused_by_any_name(facts):
    document = make_document("100 g")
    document["ingredients"]["i0"] |= facts
    with pytest.raises(RecipeError, match="lye"):
        read_recipe(document)


@pytest.mark.parametrize(
    "name", ["Soap base, lye-free", "Seifenbasis ohne Natriumhydroxid", "Lyeberry powder"]
)
def test_what_is_without_lye_is_not(name):
    document = make_document("100 g")
    document["ingredients"]["i0"]["name"] = name
    assert read_recipe(document)


def test_what_frees_chlorine_is_refused_beside_an_acid_alone():
    document = make_document("100 g", "10 g")
    document["ingredients"]["i0"]["name"] = "Chlortabletten"
    assert read_recipe(document)
    document["ingredients"]["i1"]["name"] = "Weinsäure"
    with pytest.raises(RecipeError, match="chlorine gas"):
        read_recipe(document)


# What names, classes or counts it, and is no figure that a maker reads; 21 CFR's section is a colour's own source.
NO_FIGURE = {
    *("id", "inci", "us", "names", "kind", "form", "cas", "ci", "cautions", "traits", "by"),
    *(
        "not_to_be_taken_for",
        "us_colour",
        "eu_colour",
        "acid_protons",
        "carbonate_equivalents",
        "carbon_dioxide",
    ),
}


def test_no_figure_of_any_table_stands_without_where_it_is_from():
    """A field that is new here is a figure until it is said that it is none. Times of states and hands say theirs."""
    bare = [
        (each["id"], field) for each in table() for field in set(each) - NO_FIGURE - set(each.get("by", {}))
    ]
    assert bare == []
    for tag in words.languages():
        with words.speaking(tag):
            assert all(words.say("states-source", state=state) for state in STATES)


@pytest.mark.parametrize("tag", ["en", "de"])
def test_what_is_proposed_says_where_each_figure_is_from(tag):
    with words.speaking(tag):
        for each in table():
            (taken, *_) = propose(each["names"]["en"][0])
            assert taken["taken"] and taken["id"] == each["id"]
            assert bool(taken["hazards_by"]) is bool(each.get("hazards"))
            assert ("density" in taken["about"]) is ("density" in each)
            if "density" in each:
                assert source_of(each, "density")["source"] in taken["about"]["density"]["source"]
