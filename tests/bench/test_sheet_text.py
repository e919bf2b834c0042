"""The sheet as text: what a scale cannot show, what no step weighs, portions, ways and names are all on it."""

from __future__ import annotations

import json
import re

import pytest
from workshop import ROOT, demo_kit, demo_recipe, make_recipe, sheet_of

from bench import read_kit, read_recipe, sheet_text, words
from tests.make import ASKED_AT_THE_END, ASKED_BEFORE, WHOLE_KIT, make_asking_recipe

OIL = {"g_per_ml": "0.91", "source": "supplier"}


def printed(pieces):
    sheet = sheet_of(demo_recipe(), demo_kit(), pieces=pieces)
    return sheet, sheet_text(sheet)


@pytest.mark.parametrize("pieces", [1, 2, 8, 14])
def test_nothing_weighs_nought_and_no_warning_names_an_id(pieces):
    sheet, text = printed(pieces)

    assert not re.search(r" 0 g\b", text)
    assert ("1 piece\n" in text) is (pieces == 1)
    assert not any(f"{each['where']}:" in text for each in sheet["warnings"])
    assert all(line["name"] in text for line in sheet["lines"])


def test_what_no_step_weighs_stands_under_its_part():
    _, text = printed(8)

    assert re.search(r"Weighed in no step:\n +Witch hazel distillate +as needed", text)


def test_portions_weigh_what_the_sheet_puts_into_the_bowl():
    sheet, text = printed(8)
    [split] = [step for step in sheet["steps"] if step["kind"] == "split"]
    before = [
        line["mg"]
        for step in sheet["steps"][: sheet["steps"].index(split)]
        if step["kind"] == "weigh" and step["component"] == split["component"]
        for line in sheet["lines"]
        if line["id"] in step["lines"]
    ]
    shown = [int(found) for found in re.findall(r"(?:Rose|Blue) half +([0-9]+) g", text)]
    assert len(shown) == 2 and abs(sum(shown) * 1000 - sum(before)) <= 1000


def test_ways_tools_tests_and_what_is_too_far_are_on_it():
    sheet, text = printed(8)
    flat = " ".join(text.split())

    for step in sheet["steps"]:
        wanted = [*step["tools"], *(f"( ) {way['name']}" for way in step["ways"])]
        wanted += [step.get("test"), step.get("too_far"), step.get("look_for")]
        assert all(" ".join(each.split()) in flat for each in wanted if each), step["id"]
    assert any(step["ways"] for step in sheet["steps"])
    assert any(step.get("too_far") for step in sheet["steps"])


def test_it_says_all_that_the_printed_page_says():
    """What goes in and what the scale reads then, what to fetch, and every word of the maker's of a step."""
    sheet, text = printed(8)
    flat = " ".join(text.split())

    for step in sheet["steps"]:
        window = step["window"]
        wanted = [
            step["title"],
            step["says"],
            step.get("stake"),
            step.get("again"),
            window and window["stake"],
        ]
        assert all(" ".join(each.split()) in flat for each in wanted if each), step["id"]
    assert re.search(r"Citric acid, anhydrous +([0-9]+) g +Bench scale +scale reads [0-9]+ g", text)
    fetched = text.partition("To fetch")[2].partition("\n\n")[0]
    assert all(each["name"] in fetched for each in sheet["ingredients"])


def test_what_the_bench_asks_besides_the_steps_is_on_it():
    """Before the first weighing, of a second look, and of a good piece."""
    text = sheet_text(sheet_of(read_recipe(make_asking_recipe()), read_kit(WHOLE_KIT), pieces=4))

    for asked in [*ASKED_BEFORE, "100 g test weight on Bench: ____", "Note the air: ____", *ASKED_AT_THE_END]:
        assert f"   [ ] {asked}" in text, asked
    assert "who looked: ____" in text and "Undo" not in text
    assert text.index("Before the first weighing") < text.index("To fetch") < text.index("A good piece")


def test_drops_say_about_what_they_weigh():
    told = sheet_text(
        sheet_of(make_recipe("185 drops", "100 g", ingredients={"i0": {"name": "Oil", "density": OIL}}))
    )
    assert re.search(r"185 drops, about [0-9.]+ g", told)


def test_an_assembly_without_a_name_is_named_by_the_usual_word_of_the_language():
    """The sheet says the same in either, so that its hash does."""
    sheet = json.loads((ROOT / "frontend" / "sample.json").read_text("utf-8"))
    with words.speaking("de"):
        assert "\nC  Zusammensetzen\n" in sheet_text(sheet)
    assert "\nC  Assembly\n" in sheet_text(sheet)

    sheet["components"][-1]["name"] = "Joining"
    assert "\nC  Joining\n" in sheet_text(sheet)
