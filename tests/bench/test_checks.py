"""Every rule of the recipe check: what fires it, and what does not."""

from __future__ import annotations

import pytest
from checking import (
    ACID,
    BICARBONATE,
    DRY_DAY,
    FRAGRANCE,
    SOAP,
    WRAP,
    check,
    do,
    fizz_with_butter,
    make,
    melt,
    pieces,
    says,
    topped,
    wait,
    weigh,
)
from workshop import DEMO_RECIPES, make_document, make_kit, written

from bench import check_recipe, read_kit, read_recipe
from bench.checks import RULES
from bench.checks.finding import LEVELS

# What every finding carries


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_a_finding_says_what_where_and_where_the_rule_comes_from(name):
    found = check_recipe(read_recipe(written(name)), DRY_DAY, read_kit(written("kit.json")))

    assert len(found) >= 4
    assert [each["level"] for each in found] == sorted((each["level"] for each in found), key=LEVELS.index)
    for each in found:
        assert each["what"] and each["where"] and each["source"]
        assert each["why"] and (each["do"] or each["by"])


def test_no_rule_is_listed_twice():
    assert len(RULES) == len(set(RULES))


def test_a_chain_of_two_thousand_steps_is_checked():
    steps = [do(f"s{index}") for index in range(199)]
    document = make_document("100 g", steps=[weigh("in", "l0"), *steps])
    document["components"] = [
        {**document["components"][0], "id": f"c{index}", "steps": [weigh("in", "l0", after=[f"c{index - 1}.s198"] if index else []), *steps]}
        for index in range(12)
    ]  # fmt: skip
    document["assembly"] = {"takes": [{"component": f"c{index}"} for index in range(12)], "steps": []}

    assert check(document)


# Numbers


def test_lines_that_add_up_say_nothing():
    assert not says(check(make("1000 g", part_piece="100 g")), "add up")
    assert says(check(make("1200 g", part_piece="100 g")), "add up to 1200 g", "take 1000 g")


@pytest.mark.parametrize(("amount", "fires"), [("40 g", True), ("41 g", False)])
def test_a_line_too_small_for_any_scale(amount, fires):
    """USP <41>: 0.82 divisions over the tolerance. At 1 g and 2 % that is 41 g."""
    found = check(make(amount), kit=make_kit(("5 kg", "1 g")))

    assert bool(says(found, "too little for any scale")) is fires
    assert not says(check(make(amount)), "too little")  # no kit, no verdict


def test_a_spoon_without_a_density_stays_a_spoon():
    assert says(check(make("1 tsp", measures="metric")), "has no density")
    facts = [{"density": {"g_per_ml": "1", "source": "made up"}}]
    assert not says(check(make("1 tsp", measures="metric", facts=facts)), "has no density")


def test_a_spoon_of_powder_shows_its_range():
    """Bicarbonate 0.869 loose and 1.369 tapped (excipients handbook): 58 % more in the same spoon."""
    density = {"g_per_ml": "0.869", "tapped_g_per_ml": "1,369", "source": "handbook"}
    (finding,) = says(
        check(make("100 ml", measures="metric", facts=[{**BICARBONATE, "density": density}])), "tapped down"
    )

    assert "86.9 g loose, 136.9 g" in finding["what"]
    assert finding["by"] == "57.5 % more when tapped"
    assert not says(check(make("100 g", facts=[{**BICARBONATE, "density": density}])), "tapped")


def test_a_powder_with_one_density_is_pointed_out_and_a_liquid_is_not():
    density = {"g_per_ml": "0.9", "source": "made up"}

    assert says(check(make("10 ml", facts=[{"kind": "powder", "density": density}])), "by volume")
    assert not says(check(make("10 ml", facts=[{"kind": "oil", "density": density}])), "by volume")


def test_drops_are_pointed_out():
    assert says(check(make("10 drops")), "drops")
    assert not says(check(make("10 g")), "drops")


# Fizz


@pytest.mark.parametrize(
    ("bicarbonate", "acid", "told"),
    [  # worked from molmass 2026.1.8
        ("200 g", "100 g", "68.8 g of bicarbonate left over, 34.4 %"),
        ("300 g", "100 g", "168.8 g of bicarbonate left over, 56.2 %"),
        ("100 g", "100 g", "23.8 g of acid left over, 23.7 %"),
    ],
)
def test_what_is_left_over(bicarbonate, acid, told):
    (finding,) = says(check(make(bicarbonate, acid, facts=[BICARBONATE, ACID])), ": 1 by mass")

    assert told in finding["what"] and "1.31 : 1" in finding["why"]
    assert "mol of acid" in finding["by"] and "L of gas" in finding["by"]


def test_the_form_of_the_acid_is_asked_for_and_what_hangs_on_it():
    unknown = {"kind": "citric_acid"}
    (finding,) = says(check(make("200 g", "100 g", facts=[BICARBONATE, unknown])), "monohydrate?")

    assert finding["level"] == "look"
    assert "34.4 % of it if anhydrous" in finding["by"] and "40.0 % of it if monohydrate" in finding["by"]
    assert not says(check(make("200 g", "100 g", facts=[BICARBONATE, ACID])), "monohydrate")


def test_bicarbonate_alone_does_not_fizz():
    assert not says(check(make("200 g", facts=[BICARBONATE])), "by mass")


# Fragrance


@pytest.mark.parametrize(("limit", "over"), [("2 %", False), ("1.99 %", True), ("2.01 %", False)])
def test_a_share_at_its_limit_is_not_over_it(limit, over):
    """IFRA: fragrance over whole product, up to and with the limit on the certificate."""
    facts = [{}, {"kind": "fragrance", "fragrance": {"limit": limit, "category": "9"}}]
    (finding,) = says(check(make("98 g", "2 g", facts=facts)), "certificate allows")

    assert (finding["level"] == "look") is over
    assert ("too much" in finding["by"]) is over


def test_a_share_just_over_its_limit_shows_both_whole_and_how_much_too_much():
    facts = [{}, {"kind": "fragrance", "fragrance": {"limit": "1.999 %"}}]
    (finding,) = says(check(make("98 g", "2 g", facts=facts)), "certificate allows")

    assert "is 2.000 % of “Mix”. Its certificate allows 1.999 %" in finding["what"]
    assert finding["by"] == "0.001 % of the part too much"


def test_rounding_to_a_microgram_never_puts_a_share_over_its_limit():
    facts = [{}, {}, {}, {"kind": "fragrance", "fragrance": {"limit": "0.3333 %"}}]
    document = make("1 part", "1 part", "1 part", "0.3333 %", facts=facts, part_piece="7 g", part_loss="3 %")

    assert says(check(document), "certificate allows")[0]["level"] == "know"


def test_no_limit_is_a_question():
    (finding,) = says(check(make("98 g", "2 g", facts=[{}, {"kind": "fragrance"}])), "What is its limit?")

    assert finding["level"] == "look" and "unlimited" in finding["why"]


def test_a_scented_part_is_not_thinned_by_the_plain_one_beside_it():
    """2 % of a 100 g base and 1 % of a 50 g top: the base meets the skin by itself, and 2 % of it counts."""
    document = make("98 g", "2 g", facts=[{}, FRAGRANCE], part_piece="10 g")
    top = {**document["components"][0], "id": "top", "piece": "5 g"}
    top["lines"] = [{**top["lines"][0], "amount": "49.5 g"}, {**top["lines"][1], "amount": "0.5 g"}]
    document["components"].append(top)
    document["assembly"] = {"takes": [{"component": "mix"}, {"component": "top"}], "steps": []}

    assert says(check(document), "2.00 % of “Mix”")


def test_drops_count_towards_the_share_and_spoons_cannot():
    dense = {**FRAGRANCE, "density": {"g_per_ml": "1", "source": "made up"}}

    assert says(check(make("100 g", "20 drops", facts=[{}, dense])), "1.00 % of “Mix”")
    assert says(
        check(make("100 g", "1 tsp", measures="us", facts=[{}, FRAGRANCE])), "share of the piece is unknown"
    )
    assert not says(check(make("100 g", "1 tsp", measures="us", facts=[{}, FRAGRANCE])), "certificate allows")


def test_two_fragrances_may_be_over_together():
    half = {"kind": "fragrance", "fragrance": {"limit": "2 %"}}

    assert says(check(make("97 g", "1.5 g", "1.5 g", facts=[{}, half, half])), "not together")
    assert not says(check(make("98 g", "1 g", "1 g", facts=[{}, half, half])), "not together")


@pytest.mark.parametrize(
    ("share", "stays_on", "named"),
    [  # Reg. (EC) 1223/2009 Annex III: above 0.01 % rinsed off, above 0.001 % left on, strictly
        ("0.5 %", False, False),  # 2 % of 0.5 % is exactly 0.010 %
        ("0.5001 %", False, True),
        ("0.6 %", False, True),  # 0.012 %
        ("0.05 %", True, False),  # exactly 0.001 %
        ("0.0501 %", True, True),
        ("0.05 %", False, False),
        ("0.06 %", None, True),  # not known: the stricter
    ],
)
def test_an_allergen_is_named_strictly_above_its_share(share, stays_on, named):
    fragrance = {"limit": "2 %", "allergens": [{"name": "Linalool", "share": share}]}
    document = make("98 g", "2 g", facts=[{}, {"kind": "fragrance", "fragrance": fragrance}])
    if stays_on is not None:
        document["stays_on"] = stays_on
    found = check(document)

    assert bool(says(found, "Linalool")) is named
    assert bool(says(found, "stay on the skin")) is (stays_on is None)


# Colours


@pytest.mark.parametrize("kind", ["lake", "dye", "mica", "pigment"])
def test_a_colour_says_what_it_does_to_water_and_to_the_piece(kind):
    (finding,) = says(check(make("1 g", facts=[{"kind": kind}])), f"is a {kind}")

    assert "In the piece" in finding["why"] and "In the water" in finding["why"]
    assert not says(check(make("1 g", facts=[{"kind": "powder"}])), "is a")


def test_what_goes_in_to_texture_needs_something_to_judge():
    judged = [
        weigh("in", "l0"),
        {"id": "look", "kind": "check", "title": "Judge", "ask": "?", "not_yet": {"do": "Spray."}},
    ]

    assert says(check(make("100 g", "to texture", steps=[weigh("in", "l0")])), "asks for Ingredient 1")
    assert not says(check(make("100 g", "to texture", steps=judged)), "asks for")


# Melt and heat


def test_a_melt_comes_after_its_weighing():
    early = [melt("l0"), weigh("in", "l0")]

    assert says(check(make("98 g", steps=early)), "may come before “in”")
    assert not says(check(make("98 g", steps=early[::-1])), "may come before")


def test_fragrance_among_what_is_melted():
    steps = [weigh("in", "l0", "l1"), melt("l0", "l1")]

    assert says(check(make("98 g", "2 g", facts=[SOAP, FRAGRANCE], steps=steps)), "heated with the melt")
    steps = [weigh("in", "l0"), melt("l0"), weigh("scent", "l1")]
    assert not says(check(make("98 g", "2 g", facts=[SOAP, FRAGRANCE], steps=steps)), "heated with")


def test_fragrance_in_the_pan_already_when_the_heat_comes_on():
    """Not named among what is melted, but weighed into the same vessel before."""
    base_alone = melt("l0")
    together = [weigh("in", "l0", "l1"), base_alone]
    apart = [weigh("in", "l0"), weigh("scent", "l1", into="cup"), base_alone]

    assert says(check(make("98 g", "2 g", facts=[SOAP, FRAGRANCE], steps=together)), "i1 is heated")
    assert not says(check(make("98 g", "2 g", facts=[SOAP, FRAGRANCE], steps=apart)), "is heated")


@pytest.mark.parametrize(
    ("most", "between", "told"),
    [
        ("55", [], "goes into a melt of 60 °C. Its own sheet allows 55 °C"),
        (None, [], "goes into a fresh melt"),
        ("60", [], ""),
        ("55", [wait("cool", "5 min")], ""),
        ("55", [wait("cool", "5 s")], "goes into a melt of 60 °C"),
    ],
)
def test_fragrance_into_a_fresh_melt(most, between, told):
    scent = {**FRAGRANCE, **({"most_c": most} if most else {})}
    steps = [weigh("in", "l0"), melt("l0"), *between, weigh("scent", "l1")]
    found = check(make("98 g", "2 g", facts=[SOAP, scent], steps=steps))

    assert bool(says(found, "i1 goes into")) is bool(told)
    assert not told or says(found, told)


@pytest.mark.parametrize(
    ("most", "told"), [("59", "allows 59 °C"), ("60", ""), (None, "What is the warmest")]
)
def test_a_base_past_its_own_sheets_limit(most, told):
    base = {"kind": "soap_base", **({"most_c": most} if most else {})}
    found = check(make("98 g", facts=[base], steps=[weigh("in", "l0"), melt("l0")]))

    assert bool(says(found, "i0 is taken to 60 °C") or says(found, "warmest that i0")) is bool(told)
    assert not told or says(found, told)


@pytest.mark.parametrize(
    ("to", "between", "fires"),
    [("50", [], False), ("51", [], True), ("60", [wait("cool", "10 min")], False)],
)
def test_bicarbonate_past_fifty_degrees(to, between, fires):
    """Near 50 °C it begins to give off its gas (excipients handbook)."""
    assert bool(says(check(fizz_with_butter(to, between=between)), "reaches the bicarbonate")) is fires


def test_a_melt_meets_the_fizz_even_where_no_step_says_that_it_is_tipped():
    (finding,) = says(check(fizz_with_butter("60", tips=False)), "reaches the bicarbonate")

    assert (finding["where"], finding["place"]) == ("mix.join", "Mix: join")


def test_a_melt_of_unknown_warmth_beside_bicarbonate_is_asked_about():
    document = fizz_with_butter()
    (melted,) = (step for step in document["components"][0]["steps"] if step["kind"] == "melt")
    del melted["to_c"]

    assert says(check(document), "How warm does the melt")
    assert not says(check(fizz_with_butter()), "How warm")


def test_a_vessel_out_of_a_water_bath_is_wiped_before_the_dry_mix():
    assert says(check(fizz_with_butter(heater="water_bath")), "Nothing is wiped dry")
    assert not says(
        check(fizz_with_butter(heater="water_bath", between=[do("dry_it", does="wipe")])), "wiped"
    )
    assert not says(check(fizz_with_butter(heater="microwave")), "wiped")


def test_water_as_a_set_amount_in_a_fizzing_mix():
    water = {"kind": "water"}

    assert says(check(make("200 g", "5 g", facts=[BICARBONATE, water])), "as a set amount")
    assert not says(check(make("200 g", "to texture", facts=[BICARBONATE, water])), "set amount")
    assert not says(check(make("200 g", "5 g", facts=[{}, water])), "set amount")


def test_rubbing_alcohol_as_a_set_amount_brings_water_into_a_fizzing_mix():
    """70 % by volume is 62.8 % by mass, so more than a third of it is water (second-hand)."""
    alcohol = {"kind": "alcohol"}

    assert says(check(make("200 g", "60 g", facts=[BICARBONATE, alcohol])), "as a set amount")
    assert not says(check(make("200 g", "to texture", facts=[BICARBONATE, alcohol])), "set amount")


def test_an_ingredient_of_no_kind_is_asked_about_and_one_of_another_kind_is_not():
    assert says(check(make("200 g")), "What is Ingredient 0?")
    assert not says(check(make("200 g", facts=[{"kind": "other"}])), "What is i0?")


def test_alcohol_that_nothing_keeps_from_a_heater():
    spray = do("spray", hazards=["alcohol"])
    beside = [weigh("in", "l0"), melt("l0"), {**spray, "after": []}]
    after = [weigh("in", "l0"), melt("l0"), spray]

    assert says(check(make("98 g", facts=[SOAP], steps=beside)), "Alcohol is out", "melt")
    assert not says(check(make("98 g", facts=[SOAP], steps=after)), "Alcohol")


# Structure


@pytest.mark.parametrize(("facts", "told"), [([SOAP], "soap part"), ([BICARBONATE, ACID], "fizzing part")])
def test_a_part_with_no_wrap(facts, told):
    amounts = ["100 g"] * len(facts)
    lines = [f"l{index}" for index in range(len(facts))]

    assert says(check(make(*amounts, facts=facts)), told, "no step wraps")
    assert not says(check(make(*amounts, facts=facts, steps=[weigh("in", *lines), WRAP])), "wraps")


def test_a_whipped_base_alone_never_hardens():
    whipped = {"kind": "whipping_base"}

    assert says(check(make("100 g", facts=[whipped])), "never hardens")[0]["level"] == "look"
    assert not says(check(make("100 g", "90 g", facts=[whipped, SOAP])), "never hardens")
    wrapped = check(make("100 g", facts=[whipped], steps=[weigh("in", "l0"), WRAP]))
    assert says(wrapped, "never hardens")[0]["level"] == "know"


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        ([pieces("pour", "pour")], "No wait follows"),
        ([pieces("pour", "pour"), pieces("out", "unmould"), wait()], "with no wait between"),
        ([pieces("press", "press"), WRAP, wait()], "with no wait between"),
        ([pieces("pour", "pour"), wait(), pieces("out", "unmould")], ""),
        ([pieces("press", "press"), wait(), WRAP], ""),
        ([do("tip", does="pour", tips=["jug"])], ""),
    ],
)
def test_a_wait_missing_after_a_pour_or_a_press(steps, told):
    cup = weigh("cup", "l1", into="jug")
    found = check(make("100 g", "1 g", steps=[weigh("in", "l0"), cup, *steps]))

    assert bool(says(found, "wait")) is bool(told)
    assert not told or says(found, told)


@pytest.mark.parametrize(("latest", "fires"), [("59 min", True), ("60 min", False)])
def test_a_window_that_no_order_can_keep(latest, fires):
    last = do("last", window={"from": "first", "latest": latest, "stake": "It sets."})
    found = check(make("100 g", steps=[weigh("in", "l0"), do("first"), wait(), last]))

    assert bool(says(found, "A longer wait lies between")) is fires
    if fires:
        assert found[0]["level"] == "will_not_run" and found[0]["by"] == "1 min too long at the least"


@pytest.mark.parametrize(("hands", "fires"), [("6 min", True), ("5 min", False)])
def test_a_window_too_short_for_one_pair_of_hands(hands, fires):
    """Two steps of 5 min side by side are still 10 min of one maker's time."""
    steps = [
        weigh("in", "l0"),
        do("first"),
        do("left", after=["first"], hands=hands),
        do("right", after=["first"], hands="5 min"),
        do(
            "last", after=["left", "right"], window={"from": "first", "latest": "10 min", "stake": "It sets."}
        ),
    ]
    found = says(check(make("100 g", steps=steps)), "The hand work")

    assert [each["level"] for each in found] == (["look"] if fires else [])


def test_a_wait_that_cannot_end_in_time():
    """A wait of at most 2 h, and what follows it first needs another wait of 3 h that begins after it."""
    steps = [
        weigh("in", "l0"),
        wait("short", "1 h", latest="2 h", stake="It dries out."),
        wait("long", "3 h", after=["in"]),
        do("next", after=["short", "long"]),
    ]

    assert says(check(make("100 g", steps=steps)), "A longer wait lies between")
    steps[2] = wait("long", "2 h", after=["in"])
    assert not says(check(make("100 g", steps=steps)), "a longer wait")


def test_an_embed_heavier_than_its_top_is_a_question_and_a_base_is_not():
    (finding,) = says(check(topped("21 g")), "Will that hold it?")

    assert (finding["level"], finding["where"], finding["by"]) == ("know", "embed", "21 g on 20 g")
    assert not says(check(topped("20 g")), "carry")


# Appearance


@pytest.mark.parametrize(("looks", "level"), [(True, "look"), (None, "know"), (False, "")])
def test_a_piece_that_looks_like_food(looks, level):
    other = {} if looks is None else {"looks_like_food": looks}
    found = [each for each in check(make("100 g", **other)) if each["where"] == "looks_like_food"]

    assert [each["level"] for each in found] == ([level] if level else [])


# Today's air


def in_air(humidity, *facts):
    document = make(*["100 g"] * len(facts), facts=facts)
    return [
        each
        for each in check(document, {"temperature_c": 20, "humidity": humidity})
        if each["where"] == "air"
    ]


@pytest.mark.parametrize(
    ("humidity", "told"), [(54, "Drier than 55 %"), (55, "Damp air for"), (65, "too damp")]
)
def test_air_for_fizz(humidity, told):
    found = in_air(humidity, BICARBONATE, ACID)

    assert says(found, told)
    assert "below the published" in says(found, told)[0]["why"] or "below" in says(found, told)[0]["what"]


@pytest.mark.parametrize(("humidity", "fires"), [(59, False), (60, True)])
def test_air_for_soap(humidity, fires):
    assert bool(says(in_air(humidity, SOAP), "sweat")) is fires


def test_the_dew_point_is_said_when_the_air_is_known():
    assert says(in_air(50, {}), "Dew point 9.3 °C")
    assert not [each for each in check(make("1 g")) if each["where"] == "air"]
