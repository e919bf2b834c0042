"""Labels at the edges of the rules, with the source of each figure beside it."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import MORNING, demo_sheet, entry, make_recipe, sheet_of, written

from bench import fold, label, read_recipe
from bench.label import least_heights, names_in, net_text, shares_of

INCH = 25_400


def labelled(market, *parts, weighed=None, **other):
    """The label of a one-part batch. A part is (mg, INCI) or (mg, INCI, what else the ingredient says)."""
    options = other.pop("options", {})
    ingredients = {
        f"i{place}": {"name": f"Ingredient {place}", "inci": part[1], **(part[2] if len(part) > 2 else {})}
        for place, part in enumerate(parts)
    }
    recipe = make_recipe(*(f"{part[0]} mg" for part in parts), ingredients=ingredients, **other)
    sheet = sheet_of(recipe)
    entries = [
        entry("weighed", line=line["id"], mg=mg)
        for line, mg in zip(sheet["lines"], weighed or [part[0] for part in parts], strict=True)
    ]
    return label(recipe, sheet, fold(sheet, entries), market, options)


def test_a_batch_that_is_kept_back_says_so_before_all_else_on_its_label():
    recipe = make_recipe("600 g", ingredients={"i0": {"name": "Salt", "inci": "Maris Sal"}})
    sheet = sheet_of(recipe)
    judged = [
        entry("judged", MORNING + place, about="batch", verdict=verdict, name="Ada", why="A crack.")
        for place, verdict in enumerate(("held", "rejected"))
    ]

    told = [label(recipe, sheet, fold(sheet, judged[:count]), "eu", {})["warnings"] for count in range(3)]
    assert not any("batch is" in each["says"] for each in told[0])
    assert [each[0]["says"] for each in told[1:]] == [
        "This batch is held: its pieces wait.",
        "This batch is rejected: no piece of it goes out.",
    ]


def groups(told):
    return [(row["name"], row["group"]) for row in told["ingredients"]]


SODA, ACID, MICA = "Sodium Bicarbonate", "Citric Acid", "CI 77491"


@pytest.mark.parametrize(
    ("mg", "us", "eu"),
    [(9_999, "free", "free"), (10_000, "free", "over"), (10_001, "over", "over")],
)
def test_at_exactly_one_per_cent_the_order_is_free_in_the_us_and_not_in_the_eu(mg, us, eu):
    """21 CFR 701.3(f)(2): not exceeding 1 %. Regulation 1223/2009 Art. 19(1)(g): less than 1 %."""
    parts = [(1_000_000 - mg, SODA), (mg, ACID)]

    assert groups(labelled("us", *parts))[1] == (ACID, us)
    assert groups(labelled("eu", *parts))[1] == (ACID, eu)


def test_the_list_goes_by_what_was_weighed_and_not_by_what_was_planned():
    parts = [(600_000, SODA), (400_000, ACID)]

    assert labelled("eu", *parts)["text"] == f"{SODA}, {ACID}"
    assert labelled("eu", *parts, weighed=[400_000, 410_000])["text"] == f"{ACID}, {SODA}"


def test_colours_come_last_in_any_amount_and_in_both_markets():
    """21 CFR 701.3(f)(3); Art. 19(1)(g)."""
    for market, name in (("us", "Iron Oxides"), ("eu", MICA), ("uk", MICA)):
        told = labelled(market, (500_000, MICA, {"kind": "mica"}), (400_000, SODA), (100, ACID))
        assert groups(told) == [(SODA, "over"), (ACID, "free"), (name, "colour")]


@pytest.mark.parametrize(
    ("linalool", "stays_on", "named"),
    [
        ("0.6 %", False, True),  # an oil at 2 % with 0.6 %: 0.012 %, above 0.01 % rinsed off
        ("0.5 %", False, False),  # exactly 0.010 %: not above it
        ("0.05 %", True, False),  # exactly 0.001 % on what stays on
        ("0.06 %", True, True),
        ("0.06 %", False, False),
    ],
)
def test_an_allergen_is_named_strictly_above_its_limit_in_the_eu(linalool, stays_on, named):
    """Annex III of Regulation 1223/2009, read second-hand; worked cases reckoned for this test."""
    oil = {"kind": "fragrance", "fragrance": {"allergens": [{"name": "Linalool", "share": linalool}]}}
    parts = [(980_000, SODA), (20_000, "Lavender oil", oil)]

    assert ("Linalool" in labelled("eu", *parts, stays_on=stays_on)["text"]) is named
    assert labelled("us", *parts, stays_on=stays_on)["text"] == f"{SODA}, Fragrance"
    assert "Parfum" in labelled("eu", *parts, stays_on=stays_on)["text"]


def test_an_allergen_of_two_fragrances_is_added_up():
    half = {"kind": "fragrance", "fragrance": {"allergens": [{"name": "Linalool", "share": "0.3 %"}]}}
    parts = [(980_000, SODA), (20_000, "Parfum", half)]
    twice = [(960_000, SODA), (20_000, "Parfum", half), (20_000, "Parfum", half)]

    assert "Linalool" not in labelled("eu", *parts, stays_on=False)["text"]
    assert "Linalool" in labelled("eu", *twice, stays_on=False)["text"]


def test_one_name_from_two_ingredients_stands_once_with_their_sum():
    told = labelled("us", (400_000, "Aqua"), (350_000, SODA), (250_000, "Water 80 %, Glycerin 20 %"))

    assert [(row["name"], row["ppm"]) for row in told["ingredients"]] == [
        ("Water", 600_000),
        (SODA, 350_000),
        ("Glycerin", 50_000),
    ]


def test_what_is_not_known_within_a_blend_is_called_a_guess():
    """Half the piece is the base: no guess may put its first name before what is half the piece itself."""
    told = labelled("eu", (500_000, SODA), (500_000, "Glycerin, Sorbitol, CI 77891"))

    assert [(row["name"], row["ppm"], row["sure"]) for row in told["ingredients"]] == [
        (SODA, 500_000, True),
        ("Glycerin", None, False),
        ("Sorbitol", None, False),
        ("CI 77891", None, False),
    ]
    assert any("within Ingredient 1. So" in each["says"] for each in told["warnings"])


@pytest.mark.parametrize(
    ("inci", "ppm"),
    [
        ("Aqua", [1_000_000]),
        ("Aqua, Glycerin", [750_000, 250_000]),  # (1 + 1/2) / 2 and (1/2) / 2
        ("Aqua, Glycerin, Sorbitol", [611_111, 277_778, 111_111]),  # 11/18, 5/18, 2/18
        ("Aqua 40 %, Glycerin, Sorbitol", [400_000, 450_000, 150_000]),
        ("Aqua 70 %, Glycerin 20 %", [700_000, 200_000]),  # a tenth is not named
        ("Aqua 70 %, Glycerin 40 %", [750_000, 250_000]),  # 110 % is not believed
    ],
)
def test_the_names_of_a_base_share_it_and_no_more_than_it(inci, ppm):
    """The mean pieces of a stick broken at random, from memory; the sums here are by hand."""
    shares = shares_of(names_in(inci))
    whole = shares_of([("Aqua", None)])[0][0]

    assert [round(share * 1_000_000 / whole) for share, _ in shares] == ppm


@given(
    st.lists(st.tuples(st.just("Aqua"), st.none() | st.integers(0, 1_000_000)), min_size=1, max_size=30),
)
@settings(max_examples=100)
def test_a_base_never_gives_more_than_itself(names):
    whole = shares_of([("Aqua", None)])[0][0]
    shares = shares_of(names)

    assert sum(share for share, _ in shares) <= whole
    guesses = [share for share, known in shares if not known]
    assert guesses == sorted(guesses, reverse=True)


def test_a_base_that_does_not_name_all_of_itself_is_asked_about():
    told = labelled("eu", (500_000, SODA), (500_000, "Aqua 70 %, Glycerin 20 %"))

    assert [row["ppm"] for row in told["ingredients"]] == [500_000, 350_000, 100_000]
    assert any("within Ingredient 1. So" in each["says"] for each in told["warnings"])


def test_what_was_added_by_hand_unweighed_is_listed_and_said():
    recipe = make_recipe("100 g", "to texture", ingredients={"i1": {"name": "Spray", "inci": "Aqua"}})
    sheet = sheet_of(recipe)
    entries = [entry("weighed", line="mix.1.l0", mg=100_000), entry("weighed", line="mix.1.l1")]
    told = label(recipe, sheet, fold(sheet, entries), "eu", {})

    assert groups(told) == [("Ingredient 0", "over"), ("Aqua", "by_hand")]
    assert any("Spray was not weighed" in each["says"] for each in told["warnings"])


@given(
    st.lists(
        st.tuples(
            st.integers(1_000, 10**6), st.sampled_from([SODA, ACID, MICA, "Kaolin", "Aqua", "Glycerin"])
        ),
        min_size=1,
        max_size=8,
    ),
    st.sampled_from(["us", "eu", "uk"]),
)
@settings(max_examples=60)
def test_above_one_per_cent_it_never_rises_and_each_name_stands_once(parts, market):
    told = labelled(market, *parts)
    rows = told["ingredients"]

    over = [row["ppm"] for row in rows if row["group"] == "over"]
    assert over == sorted(over, reverse=True)
    assert all(ppm >= 10_000 for ppm in over)
    assert all(row["ppm"] <= 10_000 for row in rows if row["group"] == "free")
    assert len({row["name"] for row in rows}) == len(rows)
    assert abs(sum(row["ppm"] for row in rows) - 1_000_000) <= len(rows)
    order = ["over", "free", "by_hand", "colour"]
    places = [order.index(row["group"]) for row in rows]
    assert places == sorted(places)


def test_over_several_parts_each_counts_by_what_it_gives_to_a_piece():
    """The pebble is 8 g of a piece of 150 + 8 + 36 g, however much of its mix stays in the jug."""
    sheet = demo_sheet()
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    entries = [entry("weighed", line=line["id"], mg=line["mg"]) for line in sheet["lines"] if line["mg"]]
    told = label(recipe, sheet, fold(sheet, entries), "eu", {})
    parts = {each["id"]: each["piece_mg"] for each in sheet["components"]}
    mix = [line for line in sheet["lines"] if line["component"] == "base" and line["mg"]]
    soda = next(line["mg"] for line in mix if line["ingredient"] == "bicarb")

    wanted = soda / sum(line["mg"] for line in mix) * parts["base"] / sum(parts.values())
    row = told["ingredients"][0]
    assert row["name"] == SODA
    assert abs(row["ppm"] - wanted * 10**6) <= 1
    assert any("looks like food" in each["says"] for each in told["warnings"])


@pytest.mark.parametrize(
    ("mg", "us", "eu"),
    [
        (150_999, "Net Wt 5.3 oz (150 g)", "150 g"),
        (28_349, "Net Wt 0.99 oz (28 g)", "28 g"),  # one ounce is 28.349523125 g (UCUM v2.2)
        (28_350, "Net Wt 1.0 oz (28 g)", "28 g"),
        (9_990, "Net Wt 0.35 oz (9.9 g)", "9.9 g"),
        (453_592, "Net Wt 15.9 oz (453 g)", "453 g"),  # a pound is 453.59237 g
        (453_593, "Net Wt 16.0 oz (1 lb) 453 g", "453 g"),
    ],
)
def test_net_content_is_never_more_than_is_there(mg, us, eu):
    assert (net_text(mg, "us"), net_text(mg, "eu")) == (us, eu)


def square_inches(area, shape="rectangle"):
    return {"shape": shape, "width_um": INCH, "height_um": round(area * INCH)}


@pytest.mark.parametrize(
    ("area", "sixteenths"),
    [(5, 1), (5.001, 2), (25, 2), (25.001, 3), (100, 3), (100.001, 4)],
)
def test_the_net_contents_letters_grow_with_the_panel(area, sixteenths):
    """21 CFR 701.13 by the scheme of 16 CFR 500.21."""
    assert least_heights("us", square_inches(area))["net_um"] == -(-INCH * sixteenths // 16)


def test_of_a_cylinder_two_fifths_of_its_side_is_the_panel():
    """16 CFR 500.21: 40 % of height by circumference."""
    assert least_heights("us", square_inches(12.5, "cylinder"))["net_um"] == 1588  # 5 square inches
    assert least_heights("us", square_inches(12.6, "cylinder"))["net_um"] == 3175


def test_the_lists_letters_may_be_half_as_high_below_twelve_square_inches():
    """21 CFR 701.3(b): 1/16 in, and 1/32 in where the label's surface is below 12 square inches."""
    assert least_heights("us", square_inches(11.999))["list_um"] == 794
    assert least_heights("us", square_inches(12))["list_um"] == 1588
    assert least_heights("eu", square_inches(12)) == {"list_um": None, "net_um": None}


def test_letters_that_are_too_small_are_said():
    options = {"size": square_inches(20), "letters": {"list_um": 1587, "net_um": 3175}}
    told = labelled("us", (1_000_000, SODA), options=options)

    assert told["heights"]["list"]["fits"] is False and told["heights"]["net"]["fits"] is True
    assert any("1587 µm" in each["says"] for each in told["warnings"])


def test_what_a_label_still_lacks_is_listed_and_nothing_is_called_lawful():
    bare = labelled("eu", (1_000_000, SODA))
    full = labelled(
        "eu",
        (1_000_000, SODA),
        options={
            "maker": "Marlwick Scullery, Sink Lane",
            "opened_months": 12,
            "keeps_months": 36,
            "batch": "261125-A1",
            "function": "bath piece",
            "precautions": ["Not for eating."],
        },
    )

    assert [need["what"] for need in bare["needs"] if not need["there"]][0].startswith("responsible person")
    assert all(need["there"] for need in full["needs"])
    assert full["opened"] == "12M" and full["batch"] == "261125-A1"
    assert not re.search(r"compliant|lawful", str(full))
    assert full["law"].endswith("the law where it is sold rules.")


@pytest.mark.parametrize(
    ("inci", "names"),
    [
        ("Aqua", [("Aqua", None)]),
        ("Aqua 40 %, Glycerin 0.25%", [("Aqua", 400_000), ("Glycerin", 2_500)]),
        ("Mica, CI 77491; CI 77891", [("Mica", None), ("CI 77491", None), ("CI 77891", None)]),
        ("1,2-Hexanediol, Aqua", [("1,2-Hexanediol", None), ("Aqua", None)]),
        (" , ", []),
    ],
)
def test_names_are_read_from_an_inci_text(inci, names):
    assert names_in(inci) == names
