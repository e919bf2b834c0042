"""Every line of two reviews of what the tool said: what a maker wrote, and what it must say of that now.

The figures beside the lines are the reviewers', worked by hand from atomic weights.
"""

from __future__ import annotations

import pytest
from checking import check, do, make, melt, wait, weigh
from test_chemistry import found, mix

from bench import read_kit, read_recipe
from bench.errors import RecipeError

SODA, CITRIC = "Baking soda", "Citric acid, anhydrous"
FIZZ = ((SODA, "200 g"), (CITRIC, "100 g"))
SCENT = {"limit": "3.1 %", "category": "9"}


def told(findings, *words, level="look"):
    """The findings of that level of which all says hold all of these words."""
    return [
        each
        for each in findings
        if each["level"] == level
        and all(
            word in " ".join((each["what"], each["why"], each["by"], each["do"], each["source"]))
            for word in words
        )
    ]


def soap(*steps, **base):
    return make("500 g", facts=[{"name": "Clear soap base", **base}], steps=[weigh("in", "l0"), *steps])


# The lines tried: what was written, the level, and what is said


LINES = [
    ("cream of tartar", [(SODA, "200 g"), ("Cream of tartar", "150 g")], "know", ["133.0 g of bicarbonate", "19.5 L"]),
    ("two acids", [(SODA, "200 g"), (CITRIC, "50 g"), ("Tartaric acid", "50 g")], "know", ["39.2 %", "35.4 L"]),
    ("tartar alone", [(SODA, "200 g"), ("Cream of tartar", "100 g")], "know", ["77.6 %", "13.0 L"]),
    ("no wrap", [(SODA, "200 g"), ("Cream of tartar", "100 g")], "look", ["no step wraps it"]),
    ("honey", [*FIZZ, ("Honey", "20 g")], "look", ["draws water"]),
    ("aloe juice", [*FIZZ, ("Aloe vera juice", "20 g")], "look", ["set amount"]),
    ("epsom", [*FIZZ, ("Epsom salt", "100 g")], "know", ["51.17 % water"]),
    ("glycerin", [*FIZZ, ("Glycerin", "27 g")], "look", ["draws water"]),
    ("ultramarine", [*FIZZ, ("Ultramarine blue", "2 g")], "look", ["fades", "bad eggs"]),
    ("acid in excess", [(SODA, "100 g"), (CITRIC, "200 g")], "look", ["61.8 % of it"]),
    ("much acid", [(SODA, "10 g"), (CITRIC, "500 g")], "look", ["sour"]),
    ("potassium", [("Potassium bicarbonate", "200 g"), (CITRIC, "100 g")], "know", ["21.8 %"]),
    ("baking powder", [("Baking powder", "200 g"), (CITRIC, "100 g")], "look", ["not pure bicarbonate"]),
    ("washing soda", [("Washing soda", "200 g"), (CITRIC, "100 g")], "look", ["strongly alkaline"]),
    ("food colour", [*FIZZ, ("Liquid food colouring", "5 g")], "look", ["made for food"]),
    ("beetroot", [*FIZZ, ("Beetroot powder", "5 g")], "look", ["not list for cosmetics"]),
    ("glitter", [*FIZZ, ("PET glitter", "5 g")], "look", ["microplastic"]),
    ("menthol", [*FIZZ, ("Menthol crystals", "30 g")], "look", ["breath"]),
    ("cinnamon as oil", [("Sweet almond oil", "91 g"), ("Cinnamon bark oil", "9 g")], "look", ["What is its limit?"]),
    ("boric acid", [*FIZZ, ("Boric acid", "5 g")], "look", ["EU", "forbid"]),
    ("isopropyl 91 %", [*FIZZ, ("Isopropyl alcohol 91 %", "20 g")], "know", ["12 % water"]),
    ("borax", [*FIZZ, ("Borax", "5 g")], "look", ["EU", "forbid"]),
    ("two names", [(SODA, "100 g"), ("Natron", "100 g"), (CITRIC, "100 g")], "look", ["one substance"]),
    ("rose water left on", [("Rose water", "70 g"), ("Sweet almond oil", "30 g")], "look", ["Nothing preserves"]),
    ("sugar scrub with fruit", [("Sugar", "70 g"), ("Fruit purée", "10 g"), ("Olive oil", "20 g")], "look", ["Nothing preserves"]),
    ("whip with milk", [("Whipping soap base", "77 g"), ("Fresh milk", "23 g")], "look", ["Nothing preserves"]),
    ("witch hazel", [*FIZZ, ("Witch hazel", "10 g")], "look", ["set amount"]),
    ("fresh petals", [*FIZZ, ("Fresh rose petals", "10 g")], "look", ["set amount"]),
    ("fresh petals in soap", [("Clear soap base", "300 g"), ("Fresh lavender flowers", "10 g")], "look", ["Nothing preserves"]),
    ("butter in the bath", [*FIZZ, ("Shea butter", "45 g")], "look", ["solubiliser"]),
    ("candle dye as other", [*FIZZ, ("Candle dye", "1 g")], "look", ["candles"]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("lines", "level", "words"), [line[1:] for line in LINES], ids=[line[0] for line in LINES]
)
def test_each_line_that_was_tried(lines, level, words):
    assert told(found(*lines), *words, level=level)


@pytest.mark.parametrize("name", ["Natriumhydroxid", "Soude caustique", "Sosa cáustica", "KOH"])
def test_lye_in_four_languages_is_refused(name):
    with pytest.raises(RecipeError, match="lye"):
        read_recipe(mix((name, "10 g")))


def test_what_frees_chlorine_is_refused_beside_acid_and_lye_free_is_no_lye():
    with pytest.raises(RecipeError, match="chlorine"):
        read_recipe(mix(*FIZZ, ("Bleach", "10 g")))
    assert read_recipe(mix(("Soap base, lye-free", "10 g")))


def test_a_jar_is_no_wrap_for_a_fizz_and_a_step_called_wrap_is_one():
    seal = do("wrap", says="Seal in airtight jars at once.")
    steps = [weigh("in", "l0", "l1"), do("press", does="press"), wait("dry", "12 h"), seal]
    assert told(found(*FIZZ, steps=steps), "shuts a fizzing piece in tight")
    steps[-1] = do("wrap", title="Wrap in film")
    assert not told(found(*FIZZ, steps=steps), "no step wraps it")


@pytest.mark.parametrize("inci", ["Aqua", "Water", "Hamamelis Virginiana Leaf Water", "Aqua, Glycerin"])
def test_water_by_its_inci_name_alone_is_water_in_a_fizz(inci):
    """Whatever its maker calls it. The fizz alone is left in peace."""
    lines = ["200 g", "100 g", "20 g"]
    facts = [{"name": SODA}, {"name": CITRIC}, {"name": "House mist", "inci": inci}]
    assert told(check(make(*lines, facts=facts)), "House mist", "set amount")
    assert not told(found(*FIZZ), "set amount")


# Fragrance


def test_nobody_lies_in_the_water_of_a_steamer():
    """It scents the air: what floats on bath water is no matter of it."""
    lines = [*FIZZ, ("Lavender essential oil", "3 g"), ("Shea butter", "45 g")]
    floats = {"scent-floats", "unmixed-fat"}

    assert floats <= {each["rule"] for each in found(*lines, use="bath")}
    assert not floats & {each["rule"] for each in found(*lines, use="air")}


def test_a_part_is_not_thinned_by_the_others_and_papers_are_asked_for():
    scent = {"name": "Rose fragrance oil", "fragrance": SCENT}
    top = make("92.2 g", "7.8 g", facts=[{"name": "Clear soap base"}, scent], part_piece="10 g")
    plain = make("900 g", part_piece="90 g")["components"][0]
    both = {**top, "components": [{**plain, "id": "base"}, top["components"][0]]}
    both["assembly"] = {"takes": [{"component": "base"}, {"component": "mix"}], "steps": []}
    assert told(check(both), "7.80 %", "3.10 %")
    assert told(check(top), "allergens", "not entered")


# Heat


@pytest.mark.parametrize(
    ("step", "words"),
    [
        (melt("l0", to="95"), ["95 °C"]),
        (melt("l0", burst="3 min"), ["3 min"]),
        (melt("l0", burst="15 min"), ["15 min"]),
        (melt("l0", to="40"), ["40 °C"]),
    ],
)
def test_a_melt_out_of_the_usual(step, words):
    assert told(check(soap(step, most_c="120")), *words)
    assert not told(check(soap(melt("l0", to="65"), most_c="70")), "usual")


def test_the_least_heat_that_a_heater_can_give():
    """14 g of cocoa butter from 20 to 34 °C and on to 45: 10 s at 500 W are 5000 J, where a fraction is needed."""
    butter = {"name": "Cocoa butter", "most_c": "60", "heat": {
        "solid_j_per_kg_k": 2010, "liquid_j_per_kg_k": 2090, "latent_j_per_kg": 157_000, "melts_c": "34", "source": "handbook"}}  # fmt: skip
    kit = read_kit({"format": "bowlside-kit/1", "scales": [{"id": "s", "name": "S", "capacity": "5 kg", "division": "1 g"}],
                    "heaters": [{"id": "m", "name": "M", "kind": "microwave", "absorbed_w": 500}]})  # fmt: skip

    def heated(amount):
        steps = [weigh("in", "l0"), melt("l0", to="35", from_c="20")]
        return check(make(amount, facts=[butter], steps=steps), kit=kit)

    assert told(heated("14 g"), "5000 J", "60 °C")
    assert not told(heated("140 g"), " J")


def test_alcohol_in_the_very_jug_that_is_melted():
    steps = [weigh("in", "l0", "l1", into="jug"), melt("l0")]
    facts = [{"name": "Clear soap base"}, {"name": "Isopropyl alcohol"}]
    assert told(check(make("500 g", "20 g", facts=facts, steps=steps)), "Isopropyl alcohol", "heated")
    steps = [weigh("in", "l0", into="jug"), weigh("spray", "l1", into="cup"), melt("l0")]
    assert not told(check(make("500 g", "20 g", facts=facts, steps=steps)), "Isopropyl alcohol", "is heated")


@pytest.mark.parametrize(
    ("name", "amounts", "source"),
    [
        # Crystal forms that melt at 17.3 to 36.3 C: an industrial chocolate handbook, 4th edition 2009.
        ("Cocoa butter", ("100 g", "0.1 g"), "chocolate handbook"),
        ("Shea butter", ("60 g", "40 g"), "common practice"),
        ("Shea butter", ("10 g", "90 g"), None),
    ],
)
def test_butters_that_turn_grainy_or_bloom(name, amounts, source):
    steps = [weigh("in", "l0", "l1"), melt("l0", "l1", to="55")]
    facts = [{"name": name}, {"name": "Sweet almond oil"}]
    found = told(check(make(*amounts, facts=facts, steps=steps)), name, "grainy", level="know")
    assert [source in each["source"] for each in found] == ([True] if source else [])


def test_a_limit_of_all_of_it_and_a_scent_that_is_all_allergen():
    """A certificate gives 100 % where a category has no restriction, as that of candles often has."""
    pure = {"limit": "100 %", "category": "12", "allergens": [{"name": "Linalool", "share": "100 %"}]}
    scent = {"name": "Linalool fragrance oil", "fragrance": pure}
    found = check(make("91 g", "9 g", facts=[{"name": "Soy wax"}, scent], use="air"))
    assert told(found, "9.00 %", "100.00 %", level="know")
    with pytest.raises(RecipeError, match="nothing is left"):
        read_recipe(make("100 g", part_piece="10 g", part_loss="100 %"))


def test_metal_in_the_microwave_and_glass_under_pressure():
    def kit(name, material):
        return read_kit({"format": "bowlside-kit/1", "scales": [{"id": "s", "name": "S", "capacity": "5 kg", "division": "1 g"}],
            "vessels": [{"id": "v", "name": name, "kind": "bowl", "empty": "600 g", "holds": "3 kg", **material}]})  # fmt: skip

    melted = soap(melt("l0"))
    assert told(check(melted, kit=kit("Big bowl", {"material": "steel"})), "Big bowl", "microwave")
    assert told(check(melted, kit=kit("Big steel bowl", {})), "Big steel bowl", "microwave")
    assert not told(check(melted, kit=kit("Big bowl", {"material": "glass"})), "microwave")
    assert told(
        check(mix(*FIZZ, steps=[weigh("in", "l0", "l1"), do("jar", says="Into screw-top glass jars.")])),
        "splinters",
    )


# Drying


@pytest.mark.parametrize(("dried", "fires"), [("6 min", True), ("6 h", False), ("60 d", True)])
def test_a_fizz_dried_for_minutes_or_weeks(dried, fires):
    steps = [weigh("in", "l0", "l1"), do("press", does="press"), wait("dry", dried), do("wrap", does="wrap")]
    assert bool(told(found(*FIZZ, steps=steps), "usual")) is fires


# What a recipe says twice, or not at all


def test_an_ingredient_in_its_own_place():
    line = {"amount": "100 g", "substitutes": [{"ingredient": "i0"}]}
    assert told(check(make(line, facts=[{"name": "Kaolin"}])), "itself")
    other = make({"amount": "100 g", "substitutes": [{"ingredient": "i1"}]}, "5 g")
    assert not told(check(other), "itself")


@pytest.mark.parametrize(("tolerance", "fires"), [("99 %", True), ("20 %", False), ("2 %", False)])
def test_a_tolerance_that_lets_everything_pass(tolerance, fires):
    assert bool(told(check(make({"amount": "100 g", "tolerance": tolerance})), "tolerance")) is fires


def test_a_portion_that_nothing_uses():
    split = {"id": "share", "kind": "split", "title": "Share out", "portions": [
        {"id": key, "name": key, "share": 1} for key in ("blue", "white", "rest")]}  # fmt: skip
    press = {"id": "press", "kind": "pieces", "title": "Press", "of": ["blue", "white"]}
    assert told(check(make("300 g", steps=[weigh("in", "l0"), split, press])), "rest", "Nothing uses")
    press["of"] = ["blue", "white", "rest"]
    assert not told(check(make("300 g", steps=[weigh("in", "l0"), split, press])), "Nothing uses")


@pytest.mark.parametrize(
    ("name", "kind", "density", "fires"),
    [
        ("Sweet almond oil", "", "0.091", True),
        ("Sweet almond oil", "", "0.91", False),
        ("Sweet almond oil", "", "0,91", False),
        ("Sweet almond oil", "", "thick", False),  # no line needs it
        ("My oil", "oil", "9.1", True),
        ("My powder", "powder", "0.05", True),
        ("My powder", "powder", "0.4", False),
    ],
)
def test_a_density_ten_times_off(name, kind, density, fires):
    facts = [
        {
            "name": name,
            "density": {"g_per_ml": density, "source": "made up"},
            **({"kind": kind} if kind else {}),
        }
    ]
    assert bool(told(check(make("100 g", facts=facts)), "density")) is fires


def test_what_is_not_known_is_asked_once_and_what_names_itself_is_not():
    unnamed = [f"Mystery {n}" for n in range(7)]
    lines = [*((name, "10 g") for name in unnamed), ("Teal mica", "1 g"), ("Rose fragrance oil", "1 g")]
    (asked,) = told(found(*lines), "What are")
    assert all(name in asked["what"] for name in unnamed)
    assert "mica" not in asked["what"] and "fragrance" not in asked["what"]
    assert not told(found(*lines), "What is Mystery")
