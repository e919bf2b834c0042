"""A second look: who else read the scale, asked right after the line that the recipe marks. Common practice."""

from typing import Any

import pytest
from workshop import Maker, make_document, sheet_of

from bench import RecipeError, check_recipe, read_recipe, record, sheet_text

SALT, SCENT, COLOUR = {"amount": "100 g"}, {"amount": "2 g", "second_look": True}, {"amount": "10 g"}
STIR = {"id": "stir", "kind": "do", "title": "Stir"}
ALL_IN = {
    "id": "in",
    "kind": "weigh",
    "title": "Weigh them in",
    "lines": ["l0", "l1", "l2"],
    "says": "Slowly.",
}
PRESS = {"id": "press", "kind": "pieces", "title": "Press the pieces"}


def document(*lines: Any, steps: Any = None) -> Any:
    return make_document(*(lines or (SALT, SCENT, COLOUR)), steps=steps or [ALL_IN, STIR, PRESS])


def steps_of(written: Any) -> dict[str, Any]:
    return {step["id"]: step for step in read_recipe(written)["components"][0]["steps"]}


def looking() -> Maker:
    """A maker whose scent is in, with nothing after it."""
    maker = Maker(sheet_of(read_recipe(document())))
    while maker.prompt["kind"] == "weigh":
        maker.reads(maker.prompt["weigh"]["before_mg"] + maker.prompt["weigh"]["add_mg"])
    return maker


def test_the_look_comes_right_after_its_line_and_all_that_follows_after_the_look() -> None:
    steps = steps_of(document())

    assert [(key, step["kind"], step["after"]) for key, step in steps.items()] == [
        ("in_1", "weigh", []),
        ("in_2", "check", ["mix.in_1"]),
        ("in", "weigh", ["mix.in_2"]),
        ("stir", "do", ["mix.in"]),
        ("press", "pieces", ["mix.stir"]),
    ]
    assert [steps[key].get("lines") for key in ("in_1", "in")] == [["l0", "l1"], ["l2"]]
    assert steps["in_1"]["says"] == "Slowly." and steps["in"]["says"] == ""  # said once
    last = steps_of(document(SALT, COLOUR, SCENT))
    assert [key for key, step in last.items() if step["kind"] == "check"] == [
        "in"
    ]  # what follows, follows it
    assert list(steps_of(document(SALT, COLOUR, {"amount": "1 g"}))) == ["in", "stir", "press"]


def test_an_id_that_the_look_would_take_is_refused_where_it_stands() -> None:
    with pytest.raises(RecipeError) as refused:
        read_recipe(document(steps=[ALL_IN, {**STIR, "id": "in_2"}, PRESS]))
    assert refused.value.where == "components.0.steps.1.id"


def test_it_is_said_before_the_pour_and_asked_with_what_went_in_and_tells_who_looked() -> None:
    maker = Maker(sheet_of(read_recipe(document())))
    assert "somebody else looks" not in maker.prompt["says"]
    maker.reads(100_000)
    assert "somebody else looks next" in maker.prompt["says"]

    maker = looking()
    prompt = maker.prompt
    assert (prompt["kind"], prompt["title"], prompt["number"]["text"]) == ("check", "Ingredient 1", "2 g")
    assert prompt["number"]["caption"] == "went in: the scale reads 102 g"
    assert prompt["says"] == "Somebody else checks amount and label. Both right?"
    assert [(each["id"], each["input"]) for each in prompt["answers"]] == [
        ("yes", "note"), ("not_yet", None), ("skip", "note"),
    ]  # fmt: skip
    maker.choose("not_yet")
    assert maker.prompt["says"].startswith("Undo the weighing")
    maker.choose("yes", note="Ben")
    assert maker.prompt["weigh"]["line"] == "mix.1.l2"

    told = record(maker.sheet, maker.state, maker.entries)["looks"]
    assert [
        (each["title"], [(look["answer"], look.get("text")) for look in each["looks"]]) for each in told
    ] == [("Ingredient 1", [("not_yet", None), ("yes", "Ben")])]


@pytest.mark.parametrize("amount", ["12 drops", "2 pieces", "0.003 g"])
def test_what_no_scale_shows_is_asked_about_with_no_weight_that_went_in(amount: str) -> None:
    maker = Maker(sheet_of(read_recipe(document(SALT, {"amount": amount, "second_look": True}, COLOUR))))
    maker.reads(100_000)
    assert "the scale" not in maker.prompt["says"] and "Somebody else looks next." in maker.prompt["says"]
    while maker.prompt["kind"] != "check":
        maker.strong()

    assert maker.prompt["number"] is None
    assert maker.prompt["says"] == "Somebody else checks amount and label. Both right?"


def test_a_maker_who_is_alone_passes_over_it_with_a_reason_that_the_record_has() -> None:
    maker = looking()
    maker.choose("skip", note="Nobody there")

    skipped = record(maker.sheet, maker.state, maker.entries)["skipped"]
    assert [(each["title"], each["why"]) for each in skipped] == [("Ingredient 1", "Nobody there")]


def test_there_is_no_look_at_what_was_left_out_of_the_batch() -> None:
    recipe = read_recipe(document(SALT, {**SCENT, "optional": True}, COLOUR))

    steps = sheet_of(recipe, without=["mix.l1"])["steps"]
    assert [step["kind"] for step in steps] == ["weigh", "weigh", "do", "pieces"]
    assert steps[1]["after"] == [steps[0]["id"]]


def test_the_sheet_says_it_and_the_check_finds_no_fault_in_it() -> None:
    recipe = read_recipe(document())
    assert [each["where"] for each in check_recipe(recipe) if ".in_" in each["where"]] == []
    assert "Somebody else checks amount and label. Both right?" in sheet_text(sheet_of(recipe))
