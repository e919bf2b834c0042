"""The shapes: every document that there is here is of its shape, field for field."""

from __future__ import annotations

import json

import pytest
from workshop import (
    DEMO_RECIPES,
    REF,
    ROOT,
    demo_sheet,
    make_size,
    unlike,
    written,
)

from bench import (
    check_recipe,
    choose_size,
    make_sheet,
    read_kit,
    read_recipe,
    swap_effects,
    swaps_of,
    what_changed,
)

CASES = [
    case["data"]
    for case in json.loads((ROOT / "tests/vectors/sheet.json").read_text(encoding="utf-8"))
    if "request" in case["data"]
]


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_a_demo_recipe_is_of_its_shape_written_measured_and_as_a_sheet(name):
    document = written(name)
    measured = read_recipe(document)

    assert unlike("recipe/WrittenRecipe", document) == []
    assert unlike("recipe/MeasuredRecipe", measured) == []
    assert unlike("sheet/Sheet", demo_sheet(name)) == []
    for line in [f"{part['id']}.{line['id']}" for part in measured["components"] for line in part["lines"]]:
        for ingredient in swaps_of(measured, line):
            assert unlike("recipe/SwapEffect", swap_effects(measured, line, ingredient)) == []


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_what_is_said_of_a_recipe_is_of_its_shape(name):
    air = {"temperature_c": 22, "humidity": 71.5}
    findings = check_recipe(read_recipe(written(name)), air=air, kit=read_kit(written("kit.json")))
    former = {**written(name), "title": "As it was", "written_for": 3}

    assert [unlike("recipe/Finding", each) for each in findings if unlike("recipe/Finding", each)] == []
    changes = what_changed(former, written(name))
    assert (
        changes and [unlike("recipe/Change", each) for each in changes if unlike("recipe/Change", each)] == []
    )


def test_the_kit_of_the_demo_is_of_its_shape_written_and_measured():
    assert unlike("kit/WrittenKit", written("kit.json")) == []
    assert unlike("kit/Kit", read_kit(written("kit.json"))) == []


def test_the_sample_is_of_its_shape():
    assert (
        unlike("sheet/Sheet", json.loads((ROOT / "frontend/sample.json").read_text(encoding="utf-8"))) == []
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: json.dumps(case["request"])[:60])
def test_the_vectors_of_sizes_and_sheets_are_of_their_shapes(case):
    shop = json.loads((ROOT / "tests/vectors/workshop.json").read_text(encoding="utf-8"))
    measured = read_recipe(case.get("recipe", shop["recipe"]))
    kit = read_kit(case.get("kit", shop["kit"]))
    chosen = choose_size(measured, kit, case["request"])

    assert unlike("sheet/SizeRequest", case["request"]) == []
    assert unlike("sheet/ChosenSize", chosen) == []
    assert unlike("sheet/Sheet", make_sheet(measured, REF, chosen["size"], kit)) == []


def test_a_misspelt_field_is_not_of_the_shape():
    sheet = demo_sheet(DEMO_RECIPES[0])
    step = next(step for step in sheet["steps"] if step["kind"] == "wait")
    step["usual"] = step.pop("usual_ms")

    assert any("'usual'" in fault for fault in unlike("sheet/Sheet", sheet))
    assert unlike("sheet/Size", {**make_size(pieces=3), "way": "running"})
