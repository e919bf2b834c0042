"""A batch made in rounds: what is free again before the next can begin."""

from __future__ import annotations

import pytest
from workshop import MORNING, THREE_PART, Maker, demo_sheet, entry, make_document, sheet_of, step_of

from bench import fold, now, read_recipe, record
from bench.sheet_words import reason_words

SHEET = demo_sheet(THREE_PART, pieces=100)  # six rounds of base, four of pebbles, two of top and joining

WEIGH = {"id": "in", "kind": "weigh", "title": "Weigh", "lines": ["l0"]}
DRY = {"kind": "wait", "title": "Dry", "word": "dry", "earliest": "1 h", "usual": "2 h"}
WRAP = {"id": "wrap", "kind": "pieces", "title": "Wrap"}


def test_each_round_of_a_part_has_its_own_lines_vessels_and_steps():
    for component in SHEET["components"]:
        numbers = {line["round"] for line in SHEET["lines"] if line["component"] == component["id"]}
        assert numbers == {part["round"] for part in component["rounds"]}


def test_a_bowl_is_free_for_the_next_round_once_the_pieces_are_pressed():
    assert "base.1.press" in step_of(SHEET, "base.2.grind")["after"]
    assert "base.1.drying" not in step_of(SHEET, "base.2.grind")["after"]


def test_a_held_mould_is_free_once_it_is_emptied():
    assert len(SHEET["components"][1]["rounds"]) > 1
    assert "embed.1.unmould" in step_of(SHEET, "embed.2.cut")["after"]


def test_what_must_be_used_at_once_is_made_again_for_each_round_of_joining():
    topping, joining = SHEET["components"][2], SHEET["components"][3]

    assert len(topping["rounds"]) == len(joining["rounds"]) > 1
    assert "assembly.1.pipe" in step_of(SHEET, "topping.2.weigh_whip")["after"]
    assert step_of(SHEET, "assembly.2.pipe")["window"]["from"] == ["topping.2.join"]
    assert sum(part["count"] for part in joining["rounds"]) == 100
    (reason,) = joining["why"]
    assert reason_words(reason) == "Whipped soap top is made in 2 rounds and must be used at once"


def test_joining_waits_for_every_part_unless_it_says_otherwise():
    """The last steps of each part, the branches too; with "after": [] the maker says it need not."""
    document = make_document(
        "100 g", steps=[WEIGH, {**DRY, "id": "dry"}, {**DRY, "id": "cool", "after": ["in"]}]
    )
    document["assembly"] = {"takes": [{"component": "mix"}], "steps": [WRAP]}

    assert step_of(sheet_of(read_recipe(document)), "assembly.1.wrap")["after"] == ["mix.1.dry", "mix.1.cool"]
    document["assembly"]["steps"] = [{**WRAP, "after": []}]
    assert step_of(sheet_of(read_recipe(document)), "assembly.1.wrap")["after"] == []


def test_the_whole_of_it_can_be_made_and_every_piece_is_counted():
    maker = Maker(SHEET)
    for _ in range(2000):
        if maker.state["finished_at"]:
            break
        maker.strong()

    told = record(SHEET, maker.state, maker.entries)
    assert (told["yield"]["planned"], told["yield"]["good"]) == (100, 100)
    assert maker.state["unread"] == []


def test_a_prompt_says_which_round_of_how_many():
    prompt = Maker(SHEET).prompt

    assert (prompt["round"], prompt["of_rounds"]) == (1, len(SHEET["components"][0]["rounds"]))


def test_carrying_one_round_up_leaves_the_other_as_planned():
    line_one, line_two = "base.1.bicarb", "base.2.bicarb"
    asked = {line["id"]: line["mg"] for line in SHEET["lines"]}

    state = fold(SHEET, [entry("carried", component="base", round=1, num=11, den=10)])

    assert state["lines"][line_one]["target_mg"] == pytest.approx(asked[line_one] * 1.1, abs=1)
    assert state["lines"][line_two]["target_mg"] == asked[line_two]


def test_the_second_round_waits_though_everything_else_is_ready():
    steps = {prompt["step"] for prompt in now(SHEET, fold(SHEET, []), MORNING)["prompts"]}

    assert "base.1.grind" in steps and "base.2.grind" not in steps
