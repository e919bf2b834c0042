"""The table of the check's rules, walked: each has a source with its date, an example that fires it, one that does not.

A new rule is a row of bench/checks/rules.json, a `finding(…)` of that id, and its two examples here.
"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from checking import (
    ACID,
    BICARBONATE,
    DRY_DAY,
    FRAGRANCE,
    SOAP,
    WRAP,
    do,
    fizz_with_butter,
    make,
    melt,
    pieces,
    topped,
    wait,
    weigh,
)
from workshop import make_kit

import bench
from bench import check_recipe, read_recipe, words
from bench.checks.finding import rule_table
from bench.sources import cited, sources

PLAIN = make("100 g", facts=[{"kind": "other"}], looks_like_food=False, use="bath", sold_in=[])
FIZZ = (BICARBONATE, ACID)
BASE = {"kind": "soap_base", "most_c": "70"}
WHIP = {"kind": "whipping_base"}
DAMP_DAY = {"temperature_c": 20, "humidity": 70}
KIT = make_kit(("5 kg", "1 g"))
MICROWAVE = make_kit(heaters=[{"id": "m", "name": "M", "kind": "microwave", "absorbed_w": 500}])
IN, WAITED = weigh("in", "l0"), wait("cool", "10 min")


def of(*names, amounts=(), **other):
    """A recipe of these ingredients, by what they are called."""
    return make(*amounts or ["100 g"] * len(names), facts=[{"name": name} for name in names], **other)


def mixed(*facts, amounts=(), **other):
    return make(*amounts or ["100 g"] * len(facts), facts=facts, **other)


def scented(most=None, **fragrance):
    about = {"kind": "fragrance", **({"fragrance": fragrance} if fragrance else {})}
    return about | ({"most_c": most} if most else {})


def scent_into_melt(scent, *between):
    return mixed(BASE, scent, amounts=["98 g", "2 g"], steps=[IN, melt("l0"), *between, weigh("scent", "l1")])


def base_melted(base, **other):
    return mixed(base, steps=[IN, melt("l0", **other)])


def jar(says):
    steps = [weigh("in", "l0", "l1"), {**WRAP, "says": says}]
    return mixed(*FIZZ, steps=steps)


def within(latest, **last):
    window = {"from": "first", "latest": latest, "stake": "It sets."}
    between = [] if last else [wait()]
    return make("100 g", steps=[IN, do("first"), *between, do("last", window=window, **last)])


def sprayed(**when):
    spray = do("spray", hazards=["alcohol"], **when)
    return mixed(SOAP, steps=[IN, melt("l0"), spray])


def without_warmth():
    document = fizz_with_butter("60")
    for step in document["components"][0]["steps"]:
        step.pop("to_c", None)
    return document


def for_use(use, *category, title="A plain mix"):
    """2 % of a scent whose limit is of that category; none where it is not named."""
    scent = scented(limit="3 %", **({"category": category[0]} if category else {}))
    return mixed({}, scent, amounts=["98 g", "2 g"], use=use, title=title)


def preserved(name, grams, **other):
    return of("Water", name, amounts=[f"{100 - grams} g", f"{grams} g"], **other)


def spooned(density, kind="powder"):
    about = {"kind": kind, "density": {"source": "made up", **density}}
    return mixed(about, amounts=["10 ml"], measures="metric")


def unkept(**last):
    steps = [IN, melt("l0"), pieces("pour", "pour") | last]
    return mixed(BASE, steps=steps)


def with_linalool(share):
    scent = scented(limit="2 %", allergens=[{"name": "Linalool", "share": share}])
    return mixed({}, scent, amounts=["98 g", "2 g"], stays_on=False)


def two_scents(grams):
    half = scented(limit="2 %")
    return mixed({}, half, half, amounts=[f"{100 - 2 * grams} g", f"{grams} g", f"{grams} g"])


def beeswax_melted(to):
    return of("Beeswax", steps=[IN, melt("l0", to=to)])


def butter_melted(amount):
    heat = {"solid_j_per_kg_k": 2010, "liquid_j_per_kg_k": 2090, "latent_j_per_kg": 157_000, "melts_c": "34"}
    butter = {"kind": "butter", "heat": heat | {"source": "handbook"}}
    return mixed(butter, amounts=[amount], steps=[IN, melt("l0", to="40", from_c="20")])


def with_alcohol(into):
    steps = [IN, weigh("more", "l1", into=into), melt("l0")]
    return mixed(SOAP, {"kind": "alcohol"}, steps=steps)


def bowl(material):
    about = {
        "id": "v",
        "name": "Bowl",
        "kind": "bowl",
        "empty": "600 g",
        "holds": "3 kg",
        "material": material,
    }
    return make_kit(vessels=[about])


def dried(usual):
    press = {**pieces("press", "press"), "after": ["in"]}
    return mixed(*FIZZ, steps=[weigh("in", "l0", "l1"), press, wait("dry", usual), WRAP])


def dried_unsaid(usual):
    """What the pieces step does is not said."""
    document = dried(usual)
    del document["components"][0]["steps"][1]["does"]
    return document


def stand_in(key):
    return make({"amount": "100 g", "substitutes": [{"ingredient": key}]}, "5 g")


def split_up(*used):
    portions = [{"id": each, "name": each, "share": 1} for each in ("blue", "white", "rest")]
    split = {"id": "split", "kind": "split", "title": "split", "portions": portions}
    return make("300 g", steps=[IN, split, *(do(f"use_{each}", into=each) for each in used), do("stir")])


def loose(tolerance):
    return make({"amount": "100 g", "tolerance": tolerance})


def filled(*after, **fill):
    """Weighed and mixed, filled, and what comes after that."""
    steps = [weigh("in", "l0"), do("stir"), pieces("fill", "wrap") | fill, *after]
    return make("100 g", "5 g", steps=steps)


def jugged(label, **tip):
    steps = [weigh("in", "l0"), weigh("oils", "l1", into="jug"), do("stir", **tip), pieces("fill", "wrap")]
    return make("100 g", "5 g", steps=steps, part_vessel=label)


def pressed(*order):
    kept = {
        "dry": weigh("in", "l0", "l1"),
        "damp": do("damp", does="spray"),
        "press": pieces("press", "press"),
    }
    return mixed(*FIZZ, steps=[kept[each] for each in order])


def joined(*after):
    document = make("100 g", steps=[IN, do("stir"), wait("dry")])
    steps = [{**pieces("wrap", "wrap"), "after": list(after)}]
    document["assembly"] = {"takes": [{"component": "mix"}], "steps": steps}
    return document


def layered(set_for, between):
    first, second = do("first", does="pour"), pieces("second", "pour")
    mist = [do("mist", does="spray")] if between else []
    return mixed(SOAP, steps=[IN, melt("l0"), first, wait("skin", set_for), *mist, second])


def sprayed_then_pressed(latest):
    window = {"from": "damp", "latest": latest, "stake": "It dries."}
    document = pressed("dry", "damp", "press")
    document["components"][0]["steps"][2]["window"] = window
    return document


def stand_in_for_acid(key):
    document = mixed(*FIZZ, {"name": "Tartaric acid"})
    document["components"][0]["lines"][1]["substitutes"] = [{"ingredient": key}]
    return document


def with_listed_allergens(share):
    both = [{"name": "Linalool", "share": "50 %"}, {"name": "Coumarin", "share": share}]
    return mixed(scented(limit="2 %", allergens=both))


def bases_and(name, share, **other):
    steps = [weigh("in", "l0"), melt("l0"), weigh("more", "l1"), pieces("fill", "wrap")]
    return mixed(BASE, {"name": name}, amounts=[f"{100 - share} g", f"{share} g"], steps=steps, **other)


def kept_by(share):
    return mixed({}, {"kind": "preservative"}, amounts=[f"{100 - share} g", f"{share} g"])


def turned_out(after):
    waited = [pieces("pour", "pour"), wait("set", after), pieces("out", "unmould")]
    return mixed(BASE, steps=[IN, melt("l0"), *waited])


def dried_where(title):
    document = dried("1 d")
    document["components"][0]["steps"][2]["title"] = title
    return document


def alcohol_after(*between):
    steps = [IN, melt("l0", to="70"), *between, weigh("late", "l1")]
    return mixed({"name": "Soy wax"}, {"name": "Isopropyl alcohol"}, steps=steps)


def emulsion(*melted):
    """20 % wax, 80 % water, and what is melted of them."""
    steps = [weigh("in", "l0"), weigh("water", "l1", into="jug"), melt(*melted)]
    return of("Emulsifying wax", "Water", amounts=["20 g", "80 g"], steps=steps)


PUT_ON = weigh("buds", "l1")


def glasses(how):
    pour = {**pieces("pour", "pour"), "title": f"Pour into the glasses, {how}"}
    return mixed(BASE, steps=[IN, melt("l0"), pour])


# By rule: what fires it, and what does not. Beside a recipe, the day's air and the kit, where the rule asks for them.
EXAMPLES = {
    "use-unsaid": (make("100 g", use="bath"), PLAIN),
    "use-stays-on": (PLAIN | {"stays_on": True}, PLAIN | {"stays_on": False}),
    "use-by-title": (
        PLAIN | {"title": "Whipped body butter", "stays_on": False, "use": None},
        PLAIN | {"title": "Whipped body butter", "stays_on": True, "use": None},
    ),
    "category-unsaid": (for_use("left_on"), for_use("left_on", "5C")),
    "category-other": (for_use("left_on", "9"), for_use("bath", "9")),
    "category-hands": (for_use("left_on", "5B", title="Hand butter"), for_use("left_on", "5C", title="Hand butter")),
    "annex-forbidden": (
        preserved("Methylisothiazolinone", 0.001, use="left_on"),
        preserved("Methylisothiazolinone", 0.001, use="wash"),
    ),
    "annex-limit": (preserved("Sodium benzoate", 3, use="wash"), preserved("Sodium benzoate", 2.9, use="wash")),
    "dew-point": ((PLAIN, DRY_DAY), PLAIN),
    "damp-fizz": ((mixed(*FIZZ), DAMP_DAY), (mixed(*FIZZ), DRY_DAY)),
    "dry-for-fizz": ((mixed(*FIZZ), DRY_DAY), (mixed(*FIZZ), DAMP_DAY)),
    "damp-soap": ((mixed(SOAP), DAMP_DAY), (mixed(SOAP), DRY_DAY)),
    "like-food": (PLAIN | {"looks_like_food": True}, PLAIN),
    "like-food-unknown": (make("100 g"), PLAIN),
    "colour-lake": (mixed({"kind": "lake"}), PLAIN),
    "colour-dye": (mixed({"kind": "dye"}), PLAIN),
    "colour-mica": (mixed({"kind": "mica"}), PLAIN),
    "colour-pigment": (mixed({"kind": "pigment"}), PLAIN),
    "colour-use": (
        mixed({"kind": "mica", "inci": "Mica, CI 77288"}),
        mixed({"kind": "mica", "inci": "Mica, CI 77891"}),
    ),
    "colour-annex": (
        mixed({"name": "Violet bath dye", "kind": "dye", "inci": "CI 60730"}, use="bath"),
        mixed({"name": "Violet bath dye", "kind": "dye", "inci": "CI 60730"}, use="wash"),
    ),
    "citric-form": (mixed(BICARBONATE, {"kind": "citric_acid"}), mixed(*FIZZ)),
    "fizz-balance": (mixed(*FIZZ), mixed(BICARBONATE)),
    "fizz-unknown": (mixed({"kind": "acid"}), mixed(*FIZZ)),
    "fizz-sealed": (mixed(*FIZZ), mixed(BICARBONATE)),
    "in-fizz-baking-powder": (of("Baking soda", "Baking powder"), of("Baking soda", "Citric acid")),
    "in-fizz-alkali": (of("Washing soda", "Citric acid"), of("Baking soda", "Citric acid")),
    "in-fizz-sulfide": (of("Baking soda", "Citric acid", "Ultramarine"), of("Ultramarine")),
    "in-fizz-draws-water": (of("Baking soda", "Citric acid", "Glycerin"), of("Glycerin")),
    "crystal-water": (of("Baking soda", "Citric acid", "Epsom salt"), of("Baking soda", "Epsom salt")),
    "water-in-fizz": (mixed(BICARBONATE, {"kind": "water"}), mixed({}, {"kind": "water"})),
    "alcohol-in-fizz": (of("Baking soda", "Rubbing alcohol"), of("Rubbing alcohol")),
    "fragrance-no-weight": (
        mixed({}, FRAGRANCE, amounts=["100 g", "1 tsp"], measures="us"),
        mixed({}, FRAGRANCE, amounts=["99 g", "1 g"]),
    ),
    "fragrance-no-limit": (mixed({}, scented()), mixed({}, FRAGRANCE)),
    "fragrance-share": (mixed({}, FRAGRANCE), mixed({}, scented())),
    "fragrance-together": (two_scents(1.5), two_scents(1)),
    "allergens-unlisted": (mixed({}, FRAGRANCE), with_linalool("0.5 %")),
    "stays-on": (
        {key: told for key, told in with_linalool("0.6 %").items() if key != "stays_on"},
        with_linalool("0.6 %"),
    ),
    "allergen": (with_linalool("0.6 %"), with_linalool("0.5 %")),
    "fragrance-heated": (
        mixed(SOAP, FRAGRANCE, steps=[weigh("in", "l0", "l1"), melt("l0", "l1")]),
        scent_into_melt(FRAGRANCE),
    ),
    "fragrance-warm-unknown": (scent_into_melt(FRAGRANCE), scent_into_melt(FRAGRANCE, WAITED)),
    "fragrance-warm": (scent_into_melt(scented("55")), scent_into_melt(scented("60"))),
    "base-limit-unknown": (base_melted({"kind": "soap_base"}), base_melted(BASE)),
    "base-too-warm": (base_melted(BASE, to="71"), base_melted(BASE, to="70")),
    "warm-fizz": (without_warmth(), fizz_with_butter("50")),
    "water-bath": (fizz_with_butter(heater="water_bath"), fizz_with_butter()),
    "alcohol-heater": (sprayed(after=[]), sprayed()),
    "two-ways": (make("100 g", part_piece="1.000 g"), make("100 g", part_piece="1 g")),
    "one-twice": (of("Baking soda", "Natron"), of("Rose mica", "Teal mica")),
    "odd-density": (
        mixed({"name": "Baking soda", "density": {"g_per_ml": "869", "source": "made up"}}),
        mixed({"name": "Baking soda", "density": {"g_per_ml": "0.9", "source": "made up"}}),
    ),
    "sums": (make("1200 g", part_piece="100 g"), make("1000 g", part_piece="100 g")),
    "too-small": ((make("40 g"), None, KIT), (make("41 g"), None, KIT)),
    "no-density": (make("1 tsp", measures="metric"), make("1 g")),
    "drops": (make("10 drops"), make("10 g")),
    "spoons": (spooned({"g_per_ml": "0.9", "tapped_g_per_ml": "1.3"}), spooned({"g_per_ml": "0.9"})),
    "by-volume": (spooned({"g_per_ml": "0.9"}), spooned({"g_per_ml": "0.9"}, kind="oil")),
    "unknown-kind": (make("100 g"), PLAIN),
    "unpreserved": (of("Rose water", "Sweet almond oil"), of("Sweet almond oil")),
    "trait-borate": (of("Borax"), PLAIN),
    "trait-microplastic": (of("PET glitter"), PLAIN),
    "trait-food-colour": (of("Liquid food colouring"), PLAIN),
    "trait-airways": (of("Menthol crystals"), PLAIN),
    "window-wait": (within("59 min"), within("60 min")),
    "window-hands": (within("5 min", hands="6 min"), within("6 min", hands="6 min")),
    "unkept": (unkept(), unkept(window={"latest": "5 min", "stake": "It sets."})),
    "no-wait": (mixed({}, steps=[IN, pieces("pour", "pour")]), mixed({}, steps=[IN, pieces("pour", "pour"), WAITED])),
    "unwrapped-soap": (mixed(SOAP), mixed(SOAP, steps=[IN, WRAP])),
    "unwrapped-fizz": (mixed(*FIZZ), mixed(*FIZZ, steps=[weigh("in", "l0", "l1"), WRAP])),
    "whipped-alone": (mixed(WHIP), mixed(WHIP, SOAP)),
    "heavy-embed": (topped("21 g"), topped("20 g")),
    "unasked": (make("100 g", "to texture", steps=[IN]), make("100 g", steps=[IN])),
    "melted-early": (make("98 g", steps=[melt("l0"), IN]), make("98 g", steps=[IN, melt("l0")])),
    "long-burst": (base_melted(BASE, burst="61 s"), base_melted(BASE, burst="60 s")),
    "too-cool-to-melt": (beeswax_melted("60"), beeswax_melted("61")),
    "odd-warmth": (beeswax_melted("117"), beeswax_melted("116")),
    "grainy": (of("Cocoa butter", steps=[IN, melt("l0")]), of("Cocoa butter", "Baking soda", amounts=["19 g", "81 g"], steps=[weigh("in", "l0", "l1"), melt("l0")])),
    "least-heat": ((butter_melted("14 g"), None, MICROWAVE), (butter_melted("140 g"), None, MICROWAVE)),
    "alcohol-heated": (with_alcohol("bowl"), with_alcohol("cup")),
    "metal": ((base_melted(BASE), None, bowl("steel")), (base_melted(BASE), None, bowl("glass"))),
    "short-drying": (dried("119 min"), dried("2 h")),
    "long-wait": (dried("337 h"), dried("14 d")),
    "own-substitute": (stand_in("i0"), stand_in("i1")),
    "unused-portion": (split_up("blue"), split_up("blue", "white")),
    "wide-tolerance": (loose("20.1 %"), loose("20 %")),
    "unmixed-fat": (of("Baking soda", "Citric acid", "Shea butter"), of("Baking soda", "Citric acid", "Shea butter", "Polysorbate 80")),
    "scent-floats": (
        of("Epsom salt", "Lavender essential oil", amounts=["990 g", "5 g"], use="bath"),
        of("Epsom salt", "Lavender essential oil", "Polysorbate 20", amounts=["985 g", "5 g", "10 g"], use="bath"),
    ),
    "trait-candle-colour": (of("Candle dye"), PLAIN),
    "late-weighing": (filled(PUT_ON), filled(PUT_ON, do("sprinkle", does="sprinkle"))),
    "damp-after-press": (pressed("dry", "press", "damp"), pressed("dry", "damp", "press")),
    "nothing-follows": (joined("mix.stir"), joined("mix.dry")),
    "uncounted": (make("100 g", steps=[IN, do("stir")]), PLAIN),
    "unmixed": (mixed({}, {}), mixed({}, {}, steps=[weigh("in", "l0", "l1"), do("stir")])),
    "left-standing": (jugged("bowl"), jugged("bowl", tips=["jug"])),
    "tips-nothing": (jugged("bowl", tips=["cup"]), jugged("bowl", tips=["jug"])),
    "twice-in-one": (make("90 g", {"amount": "10 g", "ingredient": "i0"}), make("90 g", "10 g")),
    "unused": (make("100 g", ingredients={"spare": {"name": "Spare"}}), PLAIN),
    "other-side": (stand_in_for_acid("i0"), stand_in_for_acid("i2")),
    "long-hands": (make("100 g", steps=[IN, do("last", hands="241 min")]), make("100 g", steps=[IN, do("last", hands="4 h")])),
    "long-window": (sprayed_then_pressed("121 min"), sprayed_then_pressed("2 h")),
    "soon-layer": (layered("179 s", between=True), layered("3 min", between=True)),
    "dry-layer": (layered("10 min", between=False), layered("10 min", between=True)),
    "much-colour": (mixed({}, {"kind": "mica"}, amounts=["94 g", "6 g"]), mixed({}, {"kind": "mica"}, amounts=["95 g", "5 g"])),
    "like-food-named": (PLAIN | {"title": "Cupcakes for the bath"}, PLAIN | {"title": "Vanilla bath"}),
    "allergens-over": (with_listed_allergens("51 %"), with_listed_allergens("50 %")),
    "oily-base": (bases_and("Olive oil", 11), bases_and("Olive oil", 10)),
    "two-phases": (of("Water", "Olive oil"), of("Water", "Olive oil", "Emulsifying wax")),
    "much-preservative": (kept_by(3), kept_by(2)),
    "sour": (of("Citric acid"), of("Citric acid", "Baking soda")),
    "never-melted": (mixed(BASE, steps=[IN, pieces("pour", "pour")]), mixed(BASE, steps=[IN, melt("l0"), pieces("pour", "pour")])),
    "short-setting": (turned_out("14 min"), turned_out("15 min")),
    "dried-hot": (dried_where("Dry in the oven"), dried_where("Dry, never in an oven")),
    "alcohol-into-hot": (alcohol_after(), alcohol_after(wait("cool", "20 min"))),
    "shut-melt": (base_melted(BASE, says="Lid shut."), base_melted(BASE, says="Lid off.")),
    "strong-airways": (bases_and("Menthol", 6), bases_and("Menthol", 5)),
    "sour-spray": (of("Baking soda", "Cider vinegar"), of("Cider vinegar")),
    "metal-said": (base_melted(BASE, says="In the steel bowl."), base_melted(BASE, heater="water_bath", says="In the steel bowl.")),
    "cold-glass": (glasses("straight from the freezer"), glasses("warmed first")),
    "trait-gives-gas": (of("Dry ice"), PLAIN),
    "trait-strong-acid": (of("Baking soda", "Sodium bisulfate"), of("Baking soda", "Citric acid")),
    "claims": (PLAIN | {"title": "Anti-acne soap", "sold_in": ["us"]}, PLAIN | {"title": "Anti-acne soap"}),
    "too-alkaline": (
        mixed({"name": "Soap", "inci": "Aqua, Potassium Oleate"}, {"name": "Potassium sorbate"}),
        mixed({"name": "Gel", "inci": "Aqua, Xanthan Gum"}, {"name": "Potassium sorbate"}),
    ),
    "long-heat": (base_melted(BASE, heater="hob", burst="11 min"), base_melted(BASE, heater="hob", burst="10 min")),
    "cold-phase": (emulsion("l0"), emulsion("l0", "l1")),
    "dried-cold": (dried_where("Dry in the fridge"), dried_where("Dry, never in a fridge")),
    "colour-unnamed": (
        mixed({"kind": "pigment"}, use="lips"),
        mixed({"kind": "pigment", "inci": "CI 77491"}, use="lips"),
    ),
}  # fmt: skip


def rules_of(example):
    """As of a kept recipe, which alone may hold what is asked about today."""
    document, *other = example if isinstance(example, tuple) else (example,)
    document = {key: told for key, told in document.items() if told is not None}
    return {each["rule"] for each in check_recipe(read_recipe(document, kept=True), *other)}


def test_the_examples_are_of_the_rules_there_are():
    assert list(EXAMPLES) == list(rule_table())


@pytest.mark.parametrize("rule", EXAMPLES)
def test_a_rule_fires_where_it_should_and_is_silent_where_it_should(rule):
    fires, silent = EXAMPLES[rule]

    assert rule in rules_of(fires)
    assert rule not in rules_of(silent)


@pytest.mark.parametrize("beside", ["Citric acid", "Maize starch"])
def test_what_gives_gas_by_itself_is_not_shut_in_tight_either(beside):
    """Baking powder holds both sides: no balance is known, and a shut jar bursts all the same."""
    fill = {**pieces("fill", "wrap"), "title": "Fill into airtight jars"}
    steps = [weigh("in", "l0", "l1"), fill]
    (said,) = (
        each
        for each in check_recipe(read_recipe(of("Baking powder", beside, steps=steps)))
        if each["rule"] == "fizz-sealed"
    )
    assert said["level"] == "look"
    assert said["by"] == "Baking powder gives gas by itself, as soon as it is damp"


def test_a_fizz_made_into_pieces_dries_too_short_whether_or_not_the_recipe_says_that_they_are_pressed():
    assert "short-drying" in rules_of(dried_unsaid("119 min"))
    assert "short-drying" not in rules_of(dried_unsaid("2 h"))


@pytest.mark.parametrize(
    ("rule", "document"),
    [
        ("one-twice", of("White clay", "Pink clay")),
        ("trait-microplastic", of("Glitter, cellulose")),
        ("trait-microplastic", of("Savon en paillettes")),  # French for flakes and for glitter
        (
            "sour",
            of("Baking powder", "Citric acid"),
        ),  # baking powder holds bicarbonate: something uses the acid up
        (
            "no-wait",
            mixed({}, steps=[IN, {**pieces("pour", "pour"), "title": "Fill the jars"}]),
        ),  # it stays in them
        (
            "dried-hot",
            mixed(*FIZZ, steps=[do("warm", title="Dry the bowl in the oven"), weigh("in", "l0", "l1")]),
        ),
    ],
)
def test_what_would_be_false_is_not_said(rule, document):
    assert rule not in {each["rule"] for each in check_recipe(read_recipe(document))}


def test_every_finding_is_by_a_rule_of_the_table_and_every_rule_has_one():
    """Read from the source: the first argument of each `finding(…)`, "in-fizz-{code}" standing for all that begin so."""
    named, beginnings = set(), set()
    for path in (Path(bench.__file__).parent / "checks").glob("*.py"):
        for call in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(call, ast.Call) and ast.unparse(call.func) in ("finding", "_poured"):
                rule = call.args[0]
                if isinstance(rule, ast.JoinedStr):
                    beginnings.add(ast.literal_eval(rule.values[0]))
                elif isinstance(rule, ast.Constant):
                    named.add(rule.value)
    table = set(rule_table())
    assert named <= table
    assert all(any(rule.startswith(each) for rule in table) for each in beginnings)
    assert {rule for rule in table - named if not rule.startswith(tuple(beginnings))} == set()


def test_every_source_has_words_and_says_of_what_date_its_text_is_and_how_it_was_read():
    """What is read has a date, "unknown" where it says none; what is not read has none. No words without a row."""
    for id_, source in sources().items():
        assert bool(source["dated"]) is (source["read"] in ("text", "copy", "second-hand")), id_
        for tag in words.languages():
            with words.speaking(tag):
                assert cited(id_)["source"]
    assert {each["source"] for each in rule_table().values()} <= set(sources())
    catalogue = (Path(bench.__file__).parent / "words/en/sources.ftl").read_text("utf-8")
    said = {line.split(" = ")[0].removeprefix("sources-") for line in catalogue.splitlines() if " = " in line}
    assert said == set(sources())
