"""The edges of the label, each by its published text: the United States, the European Union, the United Kingdom.

Read in the text: 21 CFR, annual edition 2015; Directive 76/211/EEC; German FPackV section 38(2); Regulation (EU)
2019/831. Read second-hand or from memory where a test says so.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import entry, make_recipe, sheet_of

from bench import fold, label, words
from bench.label import least_heights, net_text, shortfall
from bench.label_names import allergen_name, on_market
from bench.label_sheets import COMMON, PAPERS, label_places, sheet_fault, sheet_title
from bench.product import Product, stands_of
from bench.substances import recognised
from bench.substances.on_label import on_label, plain

SODA, ACID = "Sodium Bicarbonate", "Citric Acid"
IN_BATH = {"use": "bath"}


def labelled(market, *parts, options=None, **other):
    """A part is (mg, INCI) or (mg, INCI, what else the ingredient says)."""
    ingredients = {
        f"i{place}": {"name": f"Ingredient {place}", "inci": part[1], **(part[2] if len(part) > 2 else {})}
        for place, part in enumerate(parts)
    }
    other = {key: value for key, value in other.items() if value is not None}
    recipe = make_recipe(*(f"{part[0]} mg" for part in parts), ingredients=ingredients, **other)
    sheet = sheet_of(recipe)
    entries = [
        entry("weighed", line=line["id"], mg=part[0])
        for line, part in zip(sheet["lines"], parts, strict=True)
    ]
    return label(recipe, sheet, fold(sheet, entries), market, options or {})


def lacks(told, what):
    return any(what in need["what"] and not need["there"] for need in told["needs"])


def is_due(part, market, use):
    """Whether the duties of what is for this and sold there say so, each with its source."""
    duties = stands_of(Product(use, [market]), "", [])["duties"]
    assert all(each["source"] for each in duties)
    return any(part in each["says"] for each in duties)


def says(told, part, where="warnings"):
    return any(part in each["says"] for each in told[where])


# Net content


@pytest.mark.parametrize(
    ("mg", "us"),
    [
        (2_000, "Net Wt 0.07 oz (2.0 g)"),  # the review's case
        (283, "Net Wt 0.00 oz (0.2 g)"),
        (284, "Net Wt 0.01 oz (0.2 g)"),
        (28_349, "Net Wt 0.99 oz (28 g)"),
        (28_350, "Net Wt 1.0 oz (28 g)"),
        (453_592, "Net Wt 15.9 oz (453 g)"),
        (453_593, "Net Wt 16.0 oz (1 lb) 453 g"),
        (500_000, "Net Wt 17.6 oz (1 lb 1.6 oz) 500 g"),
        (680_389, "Net Wt 24.0 oz (1 lb 8.0 oz) 680 g"),  # the rule's own: 24 oz (1 lb 8 oz)
        (1_814_369, "Net Wt 63.9 oz (3 lb 15.9 oz) 1814 g"),
        (1_814_370, "Net Wt 4.00 lb (1814 g)"),
        (2_000_000, "Net Wt 4.40 lb (2000 g)"),
    ],
)
def test_701_13_ounces_to_two_places_pounds_beside_them_from_one_and_alone_from_four(mg, us):
    """21 CFR 701.13: decimals of at most two places; from 1 lb pounds in brackets; from 4 lb pounds."""
    assert net_text(mg, "us") == us


def test_701_13_a_content_below_a_hundredth_of_an_ounce_is_none():
    assert lacks(labelled("us", (200, SODA), options={"net_mg": 200}), "net content")
    assert not lacks(labelled("us", (2_000, SODA), options={"net_mg": 2_000}), "net content")


@pytest.mark.parametrize(
    ("mg", "market", "wanted"),
    [
        (4_999, "eu", None),
        (5_000, "eu", 500),  # 9 % is 0.45 g, rounded up to 0.5 g
        (50_000, "eu", 4_500),
        (75_000, "eu", 4_500),
        (150_000, "eu", 6_800),  # 4.5 % is 6.75 g
        (150_000, "uk", 6_800),
        (250_000, "eu", 9_000),
        (301_000, "eu", 9_100),  # 3 % is 9.03 g
        (750_000, "eu", 15_000),
        (1_001_000, "eu", 15_100),
        (10_000_000, "eu", 150_000),
        (10_001_000, "eu", None),
        (150_000, "us", None),
    ],
)
def test_76_211_a_pack_may_fall_short_by_so_much(mg, market, wanted):
    """Directive 76/211/EEC, Annex I: the table, percentages rounded up to 0.1 g."""
    assert shortfall(mg, market) == wanted
    told = labelled(market, (100_000, SODA), options={"net_mg": mg})
    assert told["shortfall_mg"] == wanted


@pytest.mark.parametrize(
    ("mg", "height"),
    [
        (50_000, 2_000),
        (50_999, 2_000),
        (51_000, 3_000),
        (200_000, 3_000),
        (201_000, 4_000),
        (1_000_000, 4_000),
    ]
    + [(1_001_000, 6_000)],
)
def test_the_digits_of_the_net_content_are_so_high_in_europe(mg, height):
    """German FPackV, section 38(2): 2, 3, 4 and 6 mm; the directive's own figures were not found."""
    assert least_heights("eu", None, mg)["net_um"] == least_heights("uk", None, mg)["net_um"] == height


def test_digits_that_are_too_small_are_said_in_europe():
    told = labelled(
        "eu", (100_000, SODA), options={"net_mg": 100_000, "letters": {"list_um": 900, "net_um": 2_999}}
    )

    assert told["heights"]["net"]["fits"] is False and told["heights"]["list"]["fits"] is None
    assert says(told, "2999 µm")


@pytest.mark.parametrize(("area", "sixteenths"), [(400, 4), (400.001, 8)])
def test_701_13_above_400_square_inches_half_an_inch(area, sixteenths):
    size = {"shape": "rectangle", "width_um": 25_400, "height_um": round(area * 25_400)}
    assert least_heights("us", size)["net_um"] == -(-25_400 * sixteenths // 16)


def test_19_1_b_no_content_is_asked_below_5_g_or_of_what_is_used_up_at_once():
    """Regulation (EC) 1223/2009, Art. 19(1)(b), read second-hand."""
    content = "nominal content"
    assert lacks(labelled("eu", (100_000, SODA), options={"net_mg": 0}), content)
    assert not lacks(labelled("eu", (100_000, SODA), options={"net_mg": 4_999}), content)
    assert not lacks(labelled("eu", (100_000, SODA), options={"net_mg": 0, "single_use": True}), content)


@pytest.mark.parametrize("market", ["us", "eu", "uk"])
def test_where_nothing_was_weighed_the_net_content_counts_as_not_checked(market):
    weighed = labelled(market, (100_000, SODA), options={"net_mg": 98_000})
    planned = labelled(market, (100_000, SODA))

    assert says(planned, "no finished piece was weighed", "not_checked")
    assert not says(weighed, "no finished piece was weighed", "not_checked")
    assert any("net content rounded down" in each["what"] for each in weighed["checked"])
    assert not any("net content rounded down" in each["what"] for each in planned["checked"])


# Identity


@pytest.mark.parametrize(
    ("identity", "purpose", "is_enough"),
    [
        ("Moonlight No. 4", "", False),
        ("Moonlight No. 4", "bath bomb", True),
        ("Moonlight bath bomb", "", True),
        ("Lavender Shower Steamers", "", True),
        ("Soapstone", "", False),
        ("Hand butter", "", True),
    ],
)
def test_701_11_a_fanciful_title_needs_a_common_name(identity, purpose, is_enough):
    """21 CFR 701.11: a common, descriptive or fanciful name; which names are common is common practice."""
    told = labelled("us", (100_000, SODA), options={"identity": identity, "function": purpose})
    assert lacks(told, "what it is") is not is_enough


# Where the net content stands, where it was made, and what does not fit on it


@pytest.mark.parametrize(
    ("square_inches", "shape", "is_low"),
    [
        (5, "rectangle", False),
        (5.01, "rectangle", True),
        (12.5, "cylinder", False),  # 40 % of it is the panel
        (12.6, "cylinder", True),
        (12.5, "other", False),
        (12.6, "other", True),
    ],
)
def test_701_13_the_net_content_keeps_to_the_lower_30_per_cent_above_5_square_inches(
    square_inches, shape, is_low
):
    """21 CFR 701.13: bottom 30 % of the panel, not on panels of up to 5 square inches; the panel by 16 CFR 500.21."""
    size = {"shape": shape, "width_um": 25_400, "height_um": round(square_inches * 25_400)}
    told = labelled("us", (100_000, SODA), options={"size": size, "maker": "Maker"})
    parts = [line["part"] for line in told["plate"]]

    assert told["net_low"] is is_low
    assert (parts[-1] == "net") is is_low
    assert any("lower 30 %" in each["what"] for each in told["checked"]) is is_low
    assert not says(told, "lower 30 %", "not_checked")


def test_without_a_size_the_place_of_the_net_content_is_not_checked_and_no_matter_in_europe():
    assert says(labelled("us", (100_000, SODA)), "lower 30 %", "not_checked")
    assert not says(labelled("eu", (100_000, SODA)), "lower 30 %", "not_checked")
    assert labelled("eu", (100_000, SODA))["net_low"] is False


@pytest.mark.parametrize(
    ("market", "words_", "source"),
    [
        ("us", "Made in Utopia", "19 CFR 134"),
        ("uk", "Made in Utopia", "Art. 19(1)(a)"),
        ("eu", "Made in Utopia", "Art. 19(1)(a)"),
    ],
)
def test_what_is_imported_bears_its_country_of_origin(market, words_, source):
    """19 CFR 134.44, 134.45 (copies of 2024 and 2022): conspicuous, in English. Art. 19(1)(a), read second-hand."""
    silent = labelled(market, (100_000, SODA))
    told = labelled(market, (100_000, SODA), options={"origin": "Utopia"})

    assert {"part": "foot", "text": words_} in told["plate"]
    assert not says(told, "imported", "not_checked")
    assert not any("Made in" in line["text"] for line in silent["plate"])
    [asked] = [each for each in silent["not_checked"] if "imported" in each["says"]]
    assert source in asked["source"]


@pytest.mark.parametrize("market", ["eu", "uk"])
def test_19_2_list_and_precautions_may_stand_on_a_leaflet_to_which_the_label_refers(market):
    """Art. 19(2) and (3), from memory: (d) and (g) alone; the rest stays on the label itself.

    That it is enclosed or attached stands in the heading of C-667/19 (Court of Justice, 17 December 2020), which was read.
    """
    parts = (90_000, SODA), (10_000, ACID, {"kind": "citric_acid"})
    options = {"leaflet": True, "batch": "A7", "maker": "Maker"}
    plain = labelled(market, *parts, options={**options, "leaflet": None}, **IN_BATH)
    told = labelled(market, *parts, options=options, **IN_BATH)
    on_it = {line["part"]: line["text"] for line in told["plate"]}

    assert not plain["leaflet"] and plain["text"] in " ".join(line["text"] for line in plain["plate"])
    assert "list" not in on_it and on_it["care"] == "Ingredients and precautions: see the leaflet."
    assert {"name", "net", "foot", "maker"} <= set(on_it)
    assert [line["part"] for line in told["leaflet"]] == ["name", "list", "care"]
    assert told["text"] in told["leaflet"][1]["text"]
    assert told["leaflet"][2]["text"] == " ".join(each["says"] for each in plain["precautions"])
    [asked] = [
        each for each in told["not_checked"] if "what cannot stand on the label itself" in each["says"]
    ]
    assert "from memory" in asked["source"] and "C-667/19" in asked["source"]


def test_no_leaflet_takes_the_list_off_a_us_label_or_the_statements_off_a_mixtures():
    """21 CFR 701.3 asks for the list on the package; CLP Art. 17 for its statements on the label."""
    us = labelled("us", (90_000, SODA), (10_000, ACID), options={"leaflet": True})
    mixture = labelled("eu", (80_000, SODA), (20_000, ACID), use="air", options={"leaflet": True})

    assert not us["leaflet"] and any(line["part"] == "list" for line in us["plate"])
    assert not mixture["leaflet"] and any(line["part"] == "hazard" for line in mixture["plate"])


# Names by market


@pytest.mark.parametrize(
    ("written", "us", "eu"),
    [
        ("Maris Sal", "Sea Salt", "Maris Sal"),
        ("Cera Alba", "Beeswax", "Cera Alba"),
        ("Caprae Lac", "Goat Milk", "Caprae Lac"),
        ("Beeswax", "Beeswax", "Cera Alba"),
        ("aqua", "Water", "Aqua"),
        ("Butyrospermum Parkii Butter", "Shea Butter", "Butyrospermum Parkii Butter"),
        ("CI 77491", "Iron Oxides", "CI 77491"),
        ("ci77492", "Iron Oxides", "CI 77492"),
        ("Iron Oxides (CI 77499)", "Iron Oxides", "CI 77499"),
        ("Titanium Dioxide", "Titanium Dioxide", "CI 77891"),
        ("FD&C Blue 1", "Blue 1", "CI 42090"),
        ("Blue 1 Lake", "Blue 1 Lake", "CI 42090"),
        ("CI 45410", "CI 45410", "CI 45410"),
        ("Mica", "Mica", "Mica"),
        ("CI 77019", "Mica", "CI 77019"),
        ("Sodium Cocoyl Glutamate", "Sodium Cocoyl Glutamate", "Sodium Cocoyl Glutamate"),
    ],
)
def test_a_name_is_that_of_its_market(written, us, eu):
    """21 CFR 701.2(b), 701.3(c) and Parts 73, 74; Art. 19(1)(g), read second-hand: colours by CI number."""
    assert [on_market(written, market)[0] for market in ("us", "eu", "uk")] == [us, eu, eu]


def test_the_names_are_those_of_the_table_of_substances():
    for name in ("Maris Sal", "Cera Alba", "Titanium Dioxide", "Ultramarines", "Paraffinum Liquidum"):
        known = recognised(name)
        assert known and on_label()[plain(name)]["us"] == known["us"]


def test_no_latin_name_comes_on_a_us_label_without_a_word():
    """21 CFR 701.2(b): required words in English."""
    told = labelled("us", (60_000, "Maris Sal"), (30_000, "Cera Alba"), (10_000, "Ovum"))

    assert told["text"] == "Sea Salt, Beeswax, Ovum"
    assert says(told, "Not known here as English names: Ovum.")
    assert not says(labelled("us", (60_000, "Maris Sal")), "Not known here")
    assert not says(labelled("eu", (60_000, "Ovum")), "Not known here")


def test_two_numbers_of_one_us_colour_stand_once_with_their_sum():
    told = labelled("us", (98_000, SODA), (1_500, "CI 77491"), (500, "CI 77499"))

    assert told["text"] == f"{SODA}, Iron Oxides"
    assert told["ingredients"][-1]["ppm"] == 20_000
    assert not says(told, "colour index number alone")


def test_no_line_of_a_label_ends_between_a_number_and_what_it_belongs_to():
    told = labelled("eu", (98_000, SODA), (10, "CI 42090"))

    stands = {each["part"]: each["text"] for each in told["plate"]}
    assert "CI\u00a042090" in stands["list"] and "CI 42090" in told["text"]
    assert not re.search(r"\d g\b", stands["net"])


def test_a_number_that_is_no_us_name_is_said_and_so_is_a_colour_that_is_not_listed():
    """Beet: 21 CFR 73.40 lists it for foods, no 73.2xxx for cosmetics."""
    assert says(labelled("us", (98_000, SODA), (10, "CI 45410")), "not a US name: CI 45410.")
    assert says(labelled("us", (98_000, SODA), (9, "Beta Vulgaris Root Powder")), "Not listed for cosmetics")
    assert not says(labelled("us", (98_000, SODA), (10, "CI 77491")), "Not listed for cosmetics")


@pytest.mark.parametrize("market", ["eu", "uk"])
def test_a_colour_by_its_name_comes_last_by_its_number_in_europe(market):
    told = labelled(market, (50_000, "Titanium Dioxide", {"kind": "powder"}), (40_000, SODA))
    which = labelled(market, (50_000, SODA), (100, "Iron Oxides", {"kind": "pigment"}))

    assert told["text"] == f"{SODA}, CI 77891"
    assert told["ingredients"][-1]["group"] == "colour"
    assert says(which, "colour index numbers") and not says(told, "colour index numbers")


# Allergens


def scented(*allergens):
    return {
        "kind": "fragrance",
        "fragrance": {"allergens": [{"name": name, "share": share} for name, share in allergens]},
    }


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("d-Limonene", "Limonene"),
        ("(R)-(+)-Limonene", "Limonene"),
        ("dl-Citronellol", "Citronellol"),
        ("Linalool", "Linalool"),
        ("Dimethyl something", "Dimethyl something"),
    ],
)
def test_an_allergen_is_named_without_its_mirror_image(written, name):
    assert allergen_name(written) == name


@pytest.mark.parametrize("market", ["eu", "uk"])
def test_d_limonene_and_limonene_are_one_and_added_up(market):
    """0.6 % and 0.6 % of 1 % are 0.012 %, above 0.01 % rinsed off; each alone is not."""
    one = labelled(market, (99_000, SODA), (1_000, "Parfum", scented(("Limonene", "0.6 %"))), stays_on=False)
    both = labelled(
        market,
        (99_000, SODA),
        (1_000, "Parfum", scented(("d-Limonene", "0.6 %"), ("Limonene", "0.6 %"))),
        stays_on=False,
    )

    assert "Limonene" not in one["text"]
    assert both["text"] == f"{SODA}, Parfum, Limonene"


def test_the_uk_keeps_the_older_list_and_says_what_it_leaves_out():
    """No act of Great Britain that takes up (EU) 2023/1545 was found; the older list is from memory."""
    parts = (99_000, SODA), (1_000, "Parfum", scented(("Vanillin", "5 %"), ("Linalool", "5 %")))
    eu, uk, us = (labelled(market, *parts, stays_on=True)["text"] for market in ("eu", "uk", "us"))

    assert "Vanillin" in eu and "Linalool" in eu
    assert "Vanillin" not in uk and "Linalool" in uk
    assert "Linalool" not in us
    assert says(labelled("uk", *parts, stays_on=True), "so not named: Vanillin.")
    assert not says(labelled("uk", *parts, stays_on=True), "31 July 2026")
    assert says(labelled("eu", *parts, stays_on=True), "New products: from 31 July 2026.")


@pytest.mark.parametrize("market", ["eu", "uk"])
def test_a_fragrance_whose_allergens_nobody_told_is_said(market):
    silent = labelled(market, (99_000, SODA), (1_000, "Parfum", {"kind": "fragrance"}))
    told = labelled(market, (99_000, SODA), (1_000, "Parfum", scented(("Linalool", "0.01 %"))))

    assert says(silent, "No allergens are known for Ingredient 1.")
    assert not says(told, "No allergens are known")


# Dates


@pytest.mark.parametrize("market", ["eu", "uk"])
@pytest.mark.parametrize(
    ("options", "is_dated"),
    [
        ({}, False),
        ({"opened_months": 12}, False),  # nobody said that it keeps for longer
        ({"opened_months": 12, "keeps_months": 30}, False),  # up to 30 months: a date
        ({"opened_months": 12, "keeps_months": 31}, True),
        ({"keeps_months": 31}, False),
        ({"keeps_months": 31, "single_use": True}, True),  # a time after opening means nothing
        ({"opened_months": 12, "single_use": True}, False),
        ({"best_before": "2027-06-30", "single_use": True}, True),
        ({"best_before": "2029-05-30", "today": "2026-11-30"}, True),  # 30 months to the day
        ({"best_before": "2029-05-31", "today": "2026-11-30"}, False),  # beyond them the open jar
        ({"best_before": "2029-05-31", "today": "2026-11-30", "opened_months": 6}, True),
        ({"opened_months": 12, "lots_best_before": "2028-01-31", "today": "2026-11-30"}, False),
    ],
)
def test_19_1_c_a_date_up_to_30_months_and_the_open_jar_past_them_where_it_means_something(
    market, options, is_dated
):
    """Regulation (EC) 1223/2009, Art. 19(1)(c), and Commission note 04/ENTR/COS/28; both read second-hand."""
    told = labelled(market, (100_000, SODA), options=options)
    assert lacks(told, "best before, or the period") is not is_dated


def test_no_open_jar_comes_on_what_is_used_up_at_once():
    once = labelled("eu", (100_000, SODA), options={"opened_months": 12, "single_use": True})
    kept = labelled("eu", (100_000, SODA), options={"opened_months": 12, "single_use": False})
    open_ = labelled("eu", (100_000, SODA), options={"opened_months": 12})

    assert once["opened"] is None and says(once, "The open jar is left out")
    assert kept["opened"] == "12M" and not says(kept, "The open jar")
    assert says(open_, "Is it used up at once?", "not_checked")
    assert not says(kept, "Is it used up at once?", "not_checked")


@pytest.mark.parametrize("market", ["us", "eu", "uk"])
@pytest.mark.parametrize(
    ("best", "past", "beyond"),
    [
        ("2026-11-29", True, False),
        ("2026-11-30", False, False),
        ("2027-03-31", False, False),
        ("2027-04-01", False, True),
    ],
)
def test_a_date_that_is_past_or_beyond_its_lots_is_said(market, best, past, beyond):
    told = labelled(
        market,
        (100_000, SODA),
        options={"best_before": best, "today": "2026-11-30", "lots_best_before": "2027-03-31"},
    )
    assert (says(told, "is past"), says(told, "the earliest of its lots: 2027-03-31")) == (past, beyond)
    assert says(
        labelled(market, (100_000, SODA), options={"best_before": best}), "its lots were", "not_checked"
    )


# Cautions

CAUTION = (
    "Caution—Use only as directed. Excessive use or prolonged exposure may cause irritation to skin and urinary"
    " tract. Discontinue use if rash, redness, or itching occurs. Consult your physician if irritation persists."
    " Keep out of reach of children"
)
SLES = "Sodium Laureth Sulfate 30 %, Aqua 70 %"


@pytest.mark.parametrize("tag", ["en", "de"])
@pytest.mark.parametrize(
    ("market", "inci", "options", "wanted"),
    [
        ("us", SLES, IN_BATH, f"{CAUTION}."),
        ("us", SLES, {**IN_BATH, "meant_for": "children"}, f"{CAUTION} except under adult supervision."),
        ("us", SLES, {**IN_BATH, "meant_for": "adults"}, None),
        ("us", SLES, {"use": "wash"}, None),
        ("us", SLES, {}, None),
        ("us", "Polysorbate 80", IN_BATH, None),
        ("eu", SLES, IN_BATH, None),
    ],
)
def test_740_17_stands_word_for_word_on_a_foaming_bath_product_by_its_inci(
    tag, market, inci, options, wanted
):
    """21 CFR 740.17; the ingredient's kind is not looked at."""
    with words.speaking(tag):
        told = labelled(market, (100_000, inci), options=options)
    printed = [each["says"] for each in told["precautions"]]
    assert [text for text in printed if text.startswith("Caution")] == ([wanted] if wanted else [])


def test_740_17_is_asked_about_where_nobody_says_what_it_is_for():
    assert says(labelled("us", (100_000, SLES)), "Say what it is for.")
    assert not says(labelled("us", (100_000, SLES), options={"use": "wash"}), "740.17")
    assert says(labelled("us", (100_000, SLES), options=IN_BATH), "needs directions")
    bought = (100_000, "Whip", {"kind": "whipping_base"})  # what is in it, nobody told
    assert says(labelled("us", bought, options=IN_BATH), "Say what it is for.")
    assert not says(labelled("us", bought, options={"use": "left_on"}), "Say what it is for.")


def test_740_10_gives_the_words_for_safety_that_nobody_has_shown():
    """21 CFR 740.10."""
    told = labelled("us", (100_000, SODA))
    assert says(told, "“Warning—The safety of this product has not been determined.”")


@pytest.mark.parametrize("market", ["us", "eu", "uk"])
@pytest.mark.parametrize(
    ("use", "stays_on", "slips"),
    [
        ("bath", False, True),
        ("wash", False, True),
        ("left_on", True, False),
        (None, True, False),
        ("air", None, False),
    ]
    + [(None, None, False)],
)
def test_only_what_goes_into_bath_or_shower_makes_it_slippery(market, use, stays_on, slips):
    """Common practice."""
    butter = (100_000, "Shea Butter", {"kind": "butter"})
    told = labelled(market, butter, options={"use": use}, stays_on=stays_on)
    assert says(told, "slippery", "precautions") is slips
    assert says(told, "What it is for", "not_checked") is (use is None and stays_on is None)
    if use:  # as the recipe says, with nobody asked at the label
        told = labelled(market, butter, use=use)
        assert says(told, "slippery", "precautions") is slips
        assert not says(told, "What it is for", "not_checked")


def test_what_fizzes_is_for_the_bath_unless_the_maker_says_otherwise():
    fizz = (60_000, SODA, {"kind": "bicarbonate"}), (30_000, ACID, {"kind": "citric_acid"})
    oil = (10_000, "Sunflower Seed Oil", {"kind": "oil"})

    assert says(labelled("eu", *fizz, oil), "slippery", "precautions")
    assert not says(labelled("eu", *fizz, oil, options={"use": "air"}), "slippery", "precautions")


@pytest.mark.parametrize("market", ["us", "eu", "uk"])
def test_what_frees_formaldehyde_bears_the_eu_s_words_and_a_uk_label_is_asked_about(market):
    """Regulation (EU) 2022/1194, above 0.001 % (second-hand); the older 0.05 % of Great Britain is from memory."""
    much, least = (labelled(market, (100_000 - mg, "Glycerin"), (mg, "DMDM Hydantoin")) for mg in (400, 1))

    assert says(much, "releases formaldehyde", "precautions") is (market == "eu")
    assert says(much, "contains formaldehyde", "warnings") is (market == "uk")
    assert not says(least, "formaldehyde", "precautions") and not says(least, "formaldehyde", "warnings")


@pytest.mark.parametrize(("market", "stands"), [("us", False), ("eu", True), ("uk", True)])
def test_what_frees_hydrogen_peroxide_bears_the_words_of_annex_iii(market, stands):
    """Regulation (EU) 2019/831, Annex III 12; that percarbonate counts is inferred."""
    told = labelled(market, (100_000, "Sodium Carbonate Peroxide"))
    wanted = (
        "Contains hydrogen peroxide. Avoid contact with eyes."
        " Rinse immediately if product comes into contact with them."
    )
    assert says(told, wanted, "precautions") is stands


@pytest.mark.parametrize(
    ("market", "acid", "use", "is_irritant"),
    [
        ("eu", 28_900, "air", True),  # the review's steamer
        ("uk", 28_900, "air", True),
        ("eu", 10_000, "air", True),
        ("eu", 9_999, "air", False),
        ("eu", 28_900, "bath", False),
        ("us", 28_900, "air", False),
    ],
)
def test_what_only_scents_the_air_is_a_mixture_and_irritates_from_10_per_cent(market, acid, use, is_irritant):
    """CLP limits read second-hand; citric acid is H319 by Regulation (EU) 2021/849."""
    told = labelled(market, (100_000 - acid, SODA), (acid, ACID), options={"use": use})
    assert says(told, "counts as eye irritant") is is_irritant
    assert says(told, "no cosmetic") is (use == "air")
    assert says(told, "law on mixtures") is (use == "air" and market != "us")


# What is no cosmetic, and no mixture either: goods. 16 CFR 500.4 and 500.5 read in copies, 500.6 by its heading,
# Regulation (EU) 2023/988 Art. 9(5) in a copy; Art. 9(6) and (7), SI 2005/1803 and 16 CFR 1500 from memory.


@pytest.mark.parametrize(
    ("market", "use", "source", "is_goods"),
    [
        ("us", "air", "16 CFR 500.4", True),
        ("us", "decoration", "16 CFR 500.5", True),
        ("us", "bath", "16 CFR 500", False),
        ("eu", "decoration", "2023/988, Art. 9(6)", True),
        ("eu", "air", "2023/988, Art. 9", False),  # a mixture
        ("eu", "wash", "2023/988, Art. 9", False),
        ("uk", "decoration", "Regulations 2005", True),
        ("uk", "left_on", "Regulations 2005", False),
    ],
)
def test_goods_are_asked_for_what_goods_are_and_for_nothing_of_a_cosmetic(market, use, source, is_goods):
    told = labelled(market, (90_000, SODA), (10_000, ACID), options={"use": use})
    everything = [
        each["source"] for part in ("needs", "warnings", "not_checked", "checked") for each in told[part]
    ]
    of_cosmetics = [each for each in everything if "21 CFR" in each or "1223/2009" in each]

    assert any(source in each["source"] for each in told["needs"]) is is_goods
    assert (of_cosmetics == []) is (is_goods or use == "air")
    assert says(told, "general rules on goods") is is_goods


def test_goods_are_signed_by_who_made_them():
    plain_name = {"use": "decoration", "maker": "Marlwick Scullery, Sink Lane, Marlwick"}
    with_web = {**plain_name, "maker": plain_name["maker"] + ", www.marlwick.example"}
    with_zip = {**plain_name, "maker": "Marlwick Scullery, 4 Sink Lane, Marlwick, VT 05001"}

    assert lacks(labelled("eu", (90_000, SODA), options=plain_name), "electronic address")
    assert not lacks(labelled("eu", (90_000, SODA), options=with_web), "electronic address")
    assert not lacks(labelled("uk", (90_000, SODA), options=plain_name), "address")
    assert lacks(labelled("us", (90_000, SODA), options=plain_name), "ZIP")
    assert not lacks(labelled("us", (90_000, SODA), options=with_zip), "ZIP")


# A label that is wanted while its batch is being made


@pytest.mark.parametrize("market", ["us", "eu", "uk"])
def test_what_is_still_to_be_weighed_stands_as_the_recipe_has_it_and_that_is_said(market):
    recipe = make_recipe(
        "600 g", "300 g", "100 g",
        ingredients={
            "i0": {"name": "Soda", "inci": SODA}, "i1": {"name": "Acid", "inci": ACID}, "i2": {"name": "Clay", "inci": "Kaolin"},
        },
    )  # fmt: skip
    sheet = sheet_of(recipe)
    keys = [line["id"] for line in sheet["lines"]]
    sheet["lines"][1]["optional"] = True  # who left it out at the size page has no such line
    begun = [entry("weighed", line=keys[0], mg=600_000), entry("weighed", line=keys[2], mg=350_000)]
    told = label(recipe, sheet, fold(sheet, begun), market, {})
    ended = label(recipe, sheet, fold(sheet, [*begun, entry("finished")]), market, {})
    nothing = label(recipe, sheet, fold(sheet, [entry("finished")]), market, {})

    assert [row["name"] for row in told["ingredients"]] == [SODA, "Kaolin", ACID]
    assert told["not_checked"][0]["says"].startswith("Not weighed yet: Acid.")
    assert [row["name"] for row in ended["ingredients"]] == [SODA, "Kaolin"]
    assert not says(ended, "Not weighed yet", "not_checked")
    assert "list" not in [each["part"] for each in nothing["plate"]]


# A mixture under CLP. Limits, statements and elements read second-hand; Article 17 and Table 1.3 in copies of the text.

AIR = {"use": "air"}
PHONED = {**AIR, "maker": "Marlwick Scullery, Sink Lane, Marlwick, +49 30 5550100", "net_mg": 40_000}
BIG = {"shape": "rectangle", "width_um": 74_000, "height_um": 52_000}


@pytest.mark.parametrize(
    ("parts", "signal", "hazards", "pictograms"),
    [
        (((90_001, SODA), (9_999, ACID)), None, [], []),
        (((90_000, SODA), (10_000, ACID)), "Warning", ["H319"], ["GHS07"]),
        (((90_001, SODA), (9_999, "Menthol")), None, [], []),
        (
            ((90_000, SODA), (10_000, "Menthol", {"kind": "fragrance"})),
            "Warning",
            ["H319", "H315"],
            ["GHS07"],
        ),
        (((99_001, SODA), (999, "Tartaric Acid")), None, [], []),
        (((99_000, SODA), (1_000, "Tartaric Acid")), "Warning", ["H319"], ["GHS07"]),
        (((97_001, SODA), (2_999, "Tartaric Acid")), "Warning", ["H319"], ["GHS07"]),
        (((97_000, SODA), (3_000, "Tartaric Acid")), "Danger", ["H318"], ["GHS05"]),
        (((94_500, SODA), (500, "Tartaric Acid"), (5_000, ACID)), "Warning", ["H319"], ["GHS07"]),
        (((94_501, SODA), (500, "Tartaric Acid"), (4_999, ACID)), None, [], []),
    ],
)
@pytest.mark.parametrize("market", ["eu", "uk"])
def test_clp_a_mixtures_class_is_added_up_with_its_signal_word_statements_and_pictogram(
    market, parts, signal, hazards, pictograms
):
    told = labelled(market, *parts, options=AIR)

    assert told["clp"]["signal"] == signal
    assert [each["code"] for each in told["clp"]["hazards"]] == hazards
    assert told["clp"]["pictograms"] == pictograms
    assert says(told, "to be confirmed", "not_checked") and says(told, "H317", "not_checked")
    assert labelled("us", *parts, options=AIR)["clp"] is None
    assert labelled(market, *parts, options={"use": "bath"})["clp"] is None


@pytest.mark.parametrize(
    ("tag", "market", "hazard", "care"),
    [
        ("en", "eu", "Causes serious eye irritation.", "Keep out of reach of children."),
        ("de", "eu", "Verursacht schwere Augenreizung.", "Darf nicht in die Hände von Kindern gelangen."),
        ("de", "uk", "Causes serious eye irritation.", "Keep out of reach of children."),
    ],
)
def test_clp_what_stands_on_it_is_in_the_words_of_the_law_and_no_ingredient_list(tag, market, hazard, care):
    with words.speaking(tag):
        told = labelled(market, (80_000, SODA), (20_000, ACID), options={**PHONED, "size": BIG})
    stands = {each["part"]: each["text"] for each in told["plate"]}

    assert list(stands) == ["name", "signal", "hazard", "advice", "net", "maker"]
    assert (stands["hazard"], stands["net"]) == (hazard, "40\u00a0g")
    assert stands["advice"].startswith(care)
    assert [each["code"] for each in told["clp"]["precautions"]] == [
        "P102",
        "P264",
        "P305+P351+P338",
        "P337+P313",
    ]


def test_clp_its_elements_are_asked_for_and_what_is_not_drawn_is_said():
    """Regulation (EC) 1272/2008, Art. 17(1); the UFI from memory."""
    parts = (80_000, SODA), (20_000, ACID)
    bare, whole = labelled("eu", *parts, options=AIR), labelled("eu", *parts, options=PHONED)
    assert lacks(bare, "supplier") and lacks(bare, "UFI")
    assert not lacks(whole, "supplier") and not lacks(whole, "pictogram")
    with_ufi = {**PHONED, "precautions": ["UFI: A1B2-C3D4-E5F6-G7H8"]}
    assert not lacks(labelled("eu", *parts, options=with_ufi), "UFI")
    assert not any("UFI" in each["what"] for each in labelled("uk", *parts, options=AIR)["needs"])
    worse = labelled("eu", (97_000, SODA), (3_000, "Tartaric Acid"), options=PHONED)
    assert lacks(worse, "pictogram GHS05") and lacks(worse, "precautionary statements")
    assert says(worse, "serious damage") and not says(whole, "serious damage")
    assert says(whole, "may count from 3 %")


def test_clp_names_without_a_known_class_are_said_not_counted():
    told = labelled("eu", (80_000, SODA), (20_000, "Made Up Oil"), options=AIR)
    assert says(told, "No class is known here, so not counted: Made Up Oil.", "not_checked")
    assert not says(labelled("eu", (80_000, SODA), options=AIR), "No class is known", "not_checked")


@pytest.mark.parametrize(
    ("width", "height", "side", "is_small"),
    [
        (52_000, 74_000, 16_017, False),
        (74_000, 52_000, 16_017, False),
        (51_999, 74_000, 16_017, True),
        (30_000, 30_000, 10_000, True),
    ],
)
def test_clp_table_1_3_a_pictogram_covers_a_fifteenth_of_the_label_and_no_less_than_a_square_centimetre(
    width, height, side, is_small
):
    """Annex I, 1.2.1.3 and Table 1.3, read in a copy: up to 3 l at least 10 x 10 mm; the label 52 x 74 if possible."""
    size = {"shape": "rectangle", "width_um": width, "height_um": height}
    told = labelled("eu", (80_000, SODA), (20_000, ACID), options={**AIR, "size": size})
    assert told["clp"]["side_um"] == side
    assert says(told, "52 × 74 mm") is is_small


def test_clp_duties_are_those_of_a_mixture():
    assert is_due("poison centres", "eu", "air") and not is_due("safety report", "eu", "air")
    assert not is_due("poison centres", "uk", "air")


# Who answers for it


@pytest.mark.parametrize(
    ("maker", "place", "contact"),
    [
        ("", True, True),
        ("Marlwick Scullery, Sink Lane", True, True),
        ("Marlwick Scullery, 4 Sink Lane, Marlwick, VT 05001", False, False),
        ("Marlwick Scullery, 4 Sink Lane, Marlwick VT 05001-1234", False, False),
        ("Marlwick Scullery, 802-555-0100", True, False),
        ("Marlwick Scullery, help@marlwick.example", True, False),
        ("Marlwick Scullery, https://marlwick.example", True, False),
        ("Marlwick Scullery, Sink Lane, Marlwick MW1 2AB", True, True),
    ],
)
def test_701_12_and_364e_a_us_place_and_a_us_contact(maker, place, contact):
    """21 CFR 701.12: city, state, ZIP. 21 USC 364e, read second-hand: US address, US phone or electronic."""
    told = labelled("us", (100_000, SODA), options={"maker": maker})
    assert (lacks(told, "ZIP"), lacks(told, "adverse events")) == (place, contact)


@pytest.mark.parametrize(
    ("maker", "eu", "uk"),
    [
        ("", True, True),
        ("Marlwick Scullery, 12345 Marlwick", False, True),
        ("Marlwick Scullery, Marlwick MW1 2AB", False, False),
    ],
)
def test_the_uk_asks_for_its_own_responsible_person(maker, eu, uk):
    """GOV.UK guidance of 4 May 2023."""
    parts, options = (100_000, SODA), {"maker": maker}
    assert lacks(labelled("eu", parts, options=options), "responsible person, name") is eu
    assert lacks(labelled("uk", parts, options=options), "responsible person in the UK") is uk


@pytest.mark.parametrize(
    ("market", "due", "open_"),
    [
        ("us", "Report serious events within 15 business days", "lower 30 % of the front"),
        ("us", "List the product", "Distributed by"),
        ("eu", "(CPNP)", "country of origin"),
        ("eu", "safety report", "each country sets its own"),
        ("uk", "(SCPN)", "country of origin"),
        ("uk", "responsible person in the UK", "Northern Ireland"),
    ],
)
def test_what_is_due_before_the_sale_and_what_was_not_looked_at_is_said_with_its_source(market, due, open_):
    told = labelled(market, (100_000, SODA))
    assert is_due(due, market, "wash") and says(told, open_, "not_checked")
    assert all(each["source"] for each in told["not_checked"])


def test_northern_ireland_takes_the_eus_label_with_a_person_of_its_own():
    """GOV.UK guidance of 4 May 2023: Regulation 1223/2009 applies; the person is in Northern Ireland or the EEA."""
    told = labelled("uk", (100_000, SODA))
    assert says(told, "take the EU's label, in English", "not_checked")
    assert says(told, "in Northern Ireland or the EEA", "not_checked")
    assert not says(labelled("eu", (100_000, SODA)), "Northern Ireland", "not_checked")


@pytest.mark.parametrize("market", ["us", "eu", "uk"])
def test_what_a_recipe_is_for_is_asked_of_no_one_again(market):
    """The recipe's own use; the label's answer goes before it."""
    butter = (100_000, "Shea Butter", {"kind": "butter"})
    for use, options, slips in (
        ("bath", {}, True),
        ("left_on", {}, False),
        ("bath", {"use": "left_on"}, False),
        ("left_on", {"use": "wash"}, True),
    ):
        told = labelled(market, butter, use=use, options=options)
        assert says(told, "slippery", "precautions") is slips
        assert not says(told, "What it is for", "not_checked")
    mixture = labelled(market, (80_000, SODA), (20_000, ACID), use="air")
    assert (mixture["clp"] is None) is (market == "us")


@pytest.mark.parametrize("market", ["us", "uk"])
def test_the_label_itself_is_english_in_every_language_there(market):
    """21 CFR 701.2(b); of the UK from memory."""
    options = {"use": "bath"}
    parts = (90_000, "Shea Butter", {"kind": "butter"}), (9_000, ACID, {"kind": "citric_acid"})
    percarbonate = (1_000, "Sodium Carbonate Peroxide")
    english = labelled(market, *parts, percarbonate, options=options)
    with words.speaking("de"):
        german = labelled(market, *parts, percarbonate, options=options)
        european = labelled("eu", *parts, percarbonate, options=options)

    said = [[each["says"] for each in told["precautions"]] for told in (english, german, european)]
    assert said[0] == said[1] != said[2]


@pytest.mark.parametrize(("mg", "uk"), [(9_999, "free"), (10_000, "over"), (10_001, "over")])
def test_the_uk_orders_its_list_as_the_eu_does(mg, uk):
    """Art. 19(1)(g), read second-hand: below 1 % in any order."""
    told = labelled("uk", (1_000_000 - mg, SODA), (mg, ACID))
    assert told["ingredients"][1]["group"] == uk


# Sheets of labels: common practice; a sheet that cannot be is refused


@pytest.mark.parametrize("sheet", COMMON, ids=[each["name"] for each in COMMON])
def test_every_common_sheet_lies_on_its_paper_and_its_labels_beside_each_other(sheet):
    width, height = PAPERS[sheet["paper"]]
    each = sheet["columns"] * sheet["rows"]
    [page] = label_places(sheet, 1, each)

    assert sheet_fault(sheet) is None
    assert all(0 <= place["x_um"] <= width - sheet["width_um"] for place in page)
    assert all(0 <= place["y_um"] <= height - sheet["height_um"] + 500 for place in page)
    for number, one in enumerate(page):
        for other in page[:number]:
            is_aside = abs(one["x_um"] - other["x_um"]) >= sheet["width_um"]
            assert is_aside or abs(one["y_um"] - other["y_um"]) >= sheet["height_um"]
    assert len({each["name"] for each in COMMON}) == len(COMMON)


@given(st.sampled_from(COMMON), st.integers(1, 70), st.integers(1, 200))
def test_labels_fill_a_sheet_from_the_start_position_and_then_whole_pages(sheet, start, count):
    each = sheet["columns"] * sheet["rows"]
    pages = label_places(sheet, start, count)
    first = min(start, each)

    assert sum(map(len, pages)) == count
    assert len(pages[0]) == min(count, each - first + 1)
    assert all(len(page) == each for page in pages[1:-1])
    whole = label_places(sheet, 1, each)[0]
    assert pages[0] == whole[first - 1 : first - 1 + len(pages[0])]
    assert all(page == whole[: len(page)] for page in pages[1:])


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        ({"across_um": 69_999}, "over_across"),
        ({"down_um": 36_999}, "over_down"),
        ({"left_um": 501}, "too_wide"),
        ({"top_um": 1_501}, "too_high"),
        ({"columns": 1, "across_um": 0}, None),
        ({"left_um": 500, "top_um": 1_500}, None),
    ],
)
def test_a_sheet_whose_labels_lie_over_each_other_or_beyond_the_paper_is_refused(changed, fault):
    assert sheet_fault({**COMMON[3], **changed}) == fault


@pytest.mark.parametrize(
    ("place", "title"),
    [
        (2, "3 × 7 of 63.5 × 38.1 mm, A4"),
        (3, "3 × 8 of 70 × 37 mm, A4"),
        (6, "3 × 10 of 2.625 × 1 in, Letter"),
    ],
)
def test_a_common_sheet_is_called_by_its_size_and_ones_own_by_its_name(place, title):
    assert sheet_title(COMMON[place]) == title
    assert sheet_title({**COMMON[place], "name": "Jars"}) == "Jars"
