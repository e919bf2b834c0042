"""What follows from what a product is for and where it is sold: the table is whole, and earlier recipes stay valid."""

from __future__ import annotations

import pytest
from checking import check, make
from workshop import DEMO_RECIPES, make_document, written

from bench import check_recipe, read_recipe, words
from bench.product import all_duties, all_laws, bans, limits, stands, use_row
from bench.sources import cited, sources
from bench.substances import substance

MARKETS = ["us", "eu", "uk", "ni"]
USES = ["bath", "wash", "left_on", "lips", "eyes", "air", "decoration"]


def standing(**said):
    return stands(read_recipe(make_document("100 g", **said)), "r", [])


def test_each_use_has_a_law_and_a_duty_in_each_market_and_all_is_said_in_every_language():
    for tag in words.languages():
        with words.speaking(tag):
            for use in USES:
                for market in MARKETS:
                    told = standing(use=use, sold_in=[market])
                    assert told["laws"] and told["duties"], (use, market)
                    for each in (*told["laws"], *told["duties"]):
                        assert each["says"] and each["source"] and each["markets"] == [market]


def test_rows_point_at_what_there_is_and_name_a_source():
    laws = {law["id"] for law in all_laws()}
    assert all(set(duty["laws"]) <= laws for duty in all_duties())
    assert len({duty["id"] for duty in all_duties()}) == len(all_duties())
    for row in (*all_laws(), *all_duties(), *limits(), *bans(), *map(use_row, USES)):
        assert cited(row["source"])["source"]
        assert sources()[row["source"]]["read"] in ("text", "copy", "second-hand", "memory")
    assert all(substance(id_) for limit in limits() for id_ in limit["substances"])


def test_what_is_from_memory_says_so():
    for tag, said in (("en", "from memory"), ("de", "aus dem Gedächtnis")):
        with words.speaking(tag):
            for id_, source in sources().items():
                if id_.startswith("law-") and source["read"] == "memory":
                    assert said in cited(id_)["source"], id_


@pytest.mark.parametrize(
    ("use", "stays_on", "categories"),
    [  # IFRA, 51st Amendment (second-hand); lips and eyes from memory
        ("bath", False, ["9"]),
        ("wash", False, ["9"]),
        ("left_on", True, ["5A", "5B", "5C", "5D"]),
        ("lips", True, ["1"]),
        ("eyes", True, ["3"]),
        ("air", None, ["12"]),
        ("decoration", None, ["12"]),
    ],
)
def test_the_use_tells_whether_it_stays_on_and_which_category_applies(use, stays_on, categories):
    assert read_recipe(make_document("1 g", use=use))["stays_on"] is stays_on
    assert read_recipe(make_document("1 g", use=use, stays_on=True))["stays_on"] is True
    assert use_row(use)["categories"] == categories


def test_a_recipe_of_before_the_question_is_read_as_it_was():
    measured = read_recipe(make_document("1 g", stays_on=True))
    assert "use" not in measured and "sold_in" not in measured and measured["stays_on"] is True


def test_northern_ireland_goes_by_the_eu_and_great_britain_by_itself():
    """GOV.UK guidance of 4 May 2023 (read): 1223/2009 applies in Northern Ireland, its person there or in the EEA."""
    ni, uk = (
        {each["id"] for each in standing(use="bath", sold_in=[market])["duties"]} for market in ("ni", "uk")
    )
    assert {"ni-person", "eu-report", "eu-notice"} <= ni and "eu-person" not in ni
    assert {"uk-person", "uk-report", "uk-notice"} <= uk and not ni & uk - {"samples"}


def test_northern_ireland_names_the_texts_that_say_so():
    """HSENI and HSE on CLP (read); that notices go to CPNP is second-hand."""
    for use, id_, said in (
        ("bath", "eu-notice", "CPNP for Northern Ireland"),
        ("air", "eu-mixture", "HSENI"),
    ):
        for sold_in in (["ni"], ["eu", "ni"], ["eu"]):
            [duty] = [each for each in standing(use=use, sold_in=sold_in)["duties"] if each["id"] == id_]
            assert (said in duty["source"]) is ("ni" in sold_in)
            assert ("1223/2009" in duty["source"] or "1272/2008" in duty["source"]) is ("eu" in sold_in)
    assert "HSE page" in standing(use="air", sold_in=["uk"])["laws"][0]["source"]


def test_the_demo_recipes_say_what_they_are_for_and_their_limits_are_of_the_right_category():
    """Hand cream is category 5C, fizz and bar soap 9 (IFRA, 51st Amendment, second-hand)."""
    categories = {}
    for name in DEMO_RECIPES:
        measured = read_recipe(written(name))
        assert measured["use"] and measured["sold_in"], name
        amiss = [each for each in check_recipe(measured) if each["rule"].startswith(("category-", "use-"))]
        assert amiss == [], name
        for each in measured["ingredients"].values():
            if each["fragrance"] and each["fragrance"]["category"]:
                categories.setdefault(name, set()).add(each["fragrance"]["category"])
    assert categories["recipes/solid-hand-butter.json"] == {"5C"}
    assert categories["recipes/fizzing-base-embed-whipped-top.json"] == {"9"}


# A law's ban is said where that law is: 2019/831 and 2023/2055 (EU; in Northern Ireland by the Windsor Framework),
# SI 2017/1312 and WSI 2018/760 (rinsed off), 21 USC 331(ddd) (beads that scrub, rinsed off).


@pytest.mark.parametrize(
    ("name", "use", "sold_in", "level", "said", "unsaid"),
    [
        ("Borax", "bath", ["us"], "know", "fertility", "forbid"),
        ("Borax", "bath", [], "know", "fertility", "forbid"),
        ("Borax", "bath", ["us", "ni"], "look", "forbid", "plastic"),
        ("Borax", "decoration", ["eu"], "know", "fertility", "forbid"),
        ("PET glitter", "left_on", ["uk"], "know", "water for good", "England"),
        ("PET glitter", "wash", ["uk"], "look", "England and Wales", "The EU"),
        ("PET glitter", "left_on", ["ni"], "look", "The EU ends", "England"),
        ("PET glitter", "wash", ["us"], "know", "water for good", "The US"),
        ("Polyethylene beads", "wash", ["us"], "look", "The US forbids", "The EU"),
        ("Polyethylene beads", "left_on", ["us"], "know", "water for good", "The US"),
    ],
)
def test_a_ban_is_said_where_its_law_is_and_elsewhere_only_what_is_true(
    name, use, sold_in, level, said, unsaid
):
    found = check(make("100 g", facts=[{"name": name}], use=use, sold_in=sold_in))
    (told,) = [each for each in found if each["rule"] in ("trait-borate", "trait-microplastic")]
    assert told["level"] == level
    assert said in told["why"] and unsaid not in told["why"]
    assert bool(told["dated"])


def test_northern_ireland_goes_by_eu_law_with_a_person_of_its_own():
    """GOV.UK guidance for Northern Ireland, 4 May 2023, paragraphs 1 to 5."""
    ni, eu, gb = (standing(use="bath", sold_in=[market]) for market in ("ni", "eu", "uk"))
    duties = [{each["id"] for each in told["duties"]} for told in (ni, eu, gb)]
    assert [law["id"] for law in ni["laws"]] == ["ni-cosmetic"]
    assert "Northern Ireland, 4 May 2023" in ni["laws"][0]["source"]
    assert duties[0] ^ duties[1] == {"ni-person", "eu-person"}
    assert duties[0] & duties[2] == {"samples"}
