"""turn: pieces turned while they dry, said in waits and things to do, so that nothing else need know of it."""

from typing import Any

import pytest
from workshop import Maker, make_document, make_kit, sheet_of

from bench import RecipeError, check_recipe, read_recipe, record, sheet_text, tasks_of

HOUR = 3_600_000
WEIGH = {"id": "weigh", "kind": "weigh", "title": "Weigh it in", "lines": ["l0"]}
PRESS = {"id": "press", "kind": "pieces", "title": "Press the bars"}
DRY = {
    "id": "dry",
    "kind": "wait",
    "title": "Let them dry",
    "word": "dry",
    "earliest": "12 h",
    "usual": "24 h",
}
TURN = {
    "id": "turn",
    "kind": "turn",
    "title": "Turn the bars",
    "says": "Onto the other face.",
    "word": "turned",
    "every": "6 h",
    "during": "dry",
}
WRAP = {"id": "wrap", "kind": "pieces", "title": "Wrap the bars"}


def document(*steps: Any, **other: Any) -> Any:
    return make_document("1 kg", steps=[WEIGH, PRESS, *(steps or (DRY, TURN, WRAP))], **other)


def steps_of(*steps: Any) -> dict[str, Any]:
    return {step["id"]: step for step in read_recipe(document(*steps))["components"][0]["steps"]}


def drying() -> Maker:
    """A batch that has just been pressed."""
    maker = Maker(sheet_of(read_recipe(document())))
    maker.run_to("mix.1.press")
    maker.tell("counted", step="mix.1.press", good=10)
    return maker


def titles(maker: Maker) -> list[str]:
    return [wait["title"] for wait in maker.sees["waits"]]


def turned(maker: Maker) -> None:
    prompt = next(each for each in maker.sees["prompts"] if each["title"].startswith("Turn"))
    maker.all_of(next(each for each in prompt["answers"] if each["id"] == "done"))


def test_it_is_lowered_to_a_wait_and_a_thing_to_do_for_each_turn_before_the_wait_is_over() -> None:
    steps = steps_of()

    assert list(steps) == [
        "weigh", "press", "dry", "turn_1_due", "turn_1", "turn_2_due", "turn_2", "turn_3_due", "turn_3", "wrap",
    ]  # fmt: skip
    assert {step["kind"] for key, step in steps.items() if key.endswith("_due")} == {"wait"}
    assert steps["turn_2"]["kind"] == "do" and steps["turn_2"]["title"] == "Turn the bars (2/3)"
    assert steps["turn_1_due"]["after"] == steps["dry"]["after"]  # it begins with the drying
    assert steps["turn_2_due"]["after"] == ["mix.turn_1"]  # the next is counted from the last
    assert steps["wrap"]["after"] == ["mix.dry"]  # nothing waits for a turn
    one = steps_of(DRY, {**TURN, "every": "12 h"}, WRAP)
    assert one["turn_1"]["title"] == "Turn the bars"


def test_what_is_said_to_come_after_the_turns_comes_after_the_wait_they_last_until() -> None:
    wrap = {**WRAP, "after": ["turn", "dry"], "window": {"from": "turn", "latest": "2 h", "stake": "Damp."}}
    steps = steps_of(TURN, DRY, wrap)  # written before the wait, too

    assert steps["dry"]["after"] == ["mix.press"]
    assert steps["wrap"]["after"] == ["mix.dry"] and steps["wrap"]["window"]["from"] == ["mix.dry"]


def test_drying_goes_on_while_turns_come_due_and_one_touch_tells_a_turn() -> None:
    maker = drying()
    assert titles(maker) == ["Turn the bars (1/3)", "Let them dry"]
    pressed = maker.state["waits"][0]["began_at"]

    maker.wait(6 * HOUR)
    prompt = next(each for each in maker.sees["prompts"] if each["title"] == "Turn the bars (1/3)")
    assert prompt["says"] == "Turned yet? Onto the other face."
    turned(maker)

    assert [maker.state["steps"][f"mix.1.turn_1{each}"]["status"] for each in ("_due", "")] == [
        "done",
        "done",
    ]
    waits = {each["step"]: each for each in maker.state["waits"]}
    assert waits["mix.1.dry"]["began_at"] == pressed  # it went on
    assert waits["mix.1.turn_2_due"]["earliest_at"] == maker.state["steps"]["mix.1.turn_1"]["at"] + 6 * HOUR


def test_a_client_that_tells_only_the_wait_is_asked_for_the_turn() -> None:
    maker = drying()
    maker.wait(6 * HOUR)
    maker.tell("done", step="mix.1.turn_1_due")

    assert maker.prompt_for("mix.1.turn_1")["title"] == "Turn the bars (1/3)"
    assert "mix.1.turn_2_due" not in {each["step"] for each in maker.state["waits"]}


def test_turned_late_moves_the_next_and_what_is_not_due_when_dry_falls_away() -> None:
    maker = drying()
    maker.wait(14 * HOUR)  # slept through the first
    turned(maker)
    late = maker.state["steps"]["mix.1.turn_1"]["at"]
    assert {each["step"]: each["earliest_at"] for each in maker.state["waits"]}[
        "mix.1.turn_2_due"
    ] == late + 6 * HOUR

    maker.wait(6 * HOUR)
    turned(maker)
    maker.wait(4 * HOUR)
    dry = maker.prompt_for("mix.1.dry")
    maker.all_of(next(each for each in dry["answers"] if each["id"] == "done"))

    stands = maker.state["steps"]
    assert [stands[f"mix.1.turn_{each}"]["status"] for each in (1, 2, 3)] == ["done", "done", "skipped"]
    assert stands["mix.1.turn_3"]["why"] == "“Let them dry” was over first."
    assert titles(maker) == [] and maker.prompt["step"] == "mix.1.wrap"


def test_a_turn_that_is_skipped_is_recorded_and_the_next_is_counted_from_there() -> None:
    maker = drying()
    maker.wait(6 * HOUR)
    prompt = maker.prompt_for("mix.1.turn_1_due")
    maker.all_of(next(each for each in prompt["answers"] if each["id"] == "skip"))

    assert maker.state["steps"]["mix.1.turn_1"]["status"] == "skipped"
    assert titles(maker) == ["Let them dry", "Turn the bars (2/3)"]
    told = record(maker.sheet, maker.state, maker.entries)
    assert [each["title"] for each in told["skipped"]] == ["Turn the bars (1/3)"]  # its wait too


def test_at_the_end_a_title_is_asked_about_once() -> None:
    maker = drying()
    for step in maker.sheet["steps"]:
        if not maker.state["steps"][step["id"]]["at"]:
            maker.tell("skipped" if "turn_1" in step["id"] else "done", step=step["id"])

    assert maker.prompt["says"] == "Skipped: Turn the bars (1/3). Was that meant?"


def test_turns_are_hands_at_work_in_a_plan_and_stand_on_paper() -> None:
    sheet = sheet_of(read_recipe(document()))
    tasks = {task["id"]: task for task in tasks_of(sheet)["tasks"]}

    assert tasks["mix.1.turn_2"]["kind"] == "hands" and tasks["mix.1.turn_2_due"]["kind"] == "wait"
    assert "Turn the bars (2/3)" in sheet_text(sheet)


def test_each_round_turns_until_its_own_drying_is_over() -> None:
    mould = {"shape": "bar", "held": True}
    kit = make_kit(moulds=[{"id": "m", "name": "Tray", "shape": "bar", "cavities": 5}])
    sheet = sheet_of(read_recipe(document(part_mould=mould)), kit)
    until = {step["id"]: step["until"] for step in sheet["steps"] if "until" in step}

    assert until["mix.1.turn_3"] == ["mix.1.dry"] and until["mix.2.turn_1_due"] == ["mix.2.dry"]
    weigh = next(step for step in sheet["steps"] if step["id"] == "mix.2.weigh")
    assert weigh["after"] == ["mix.1.wrap"]  # never a turn


@pytest.mark.parametrize(
    ("changed", "where", "says"),
    [
        ({"during": "cool"}, "during", "There is no wait “cool” in this part. It could be dry."),
        ({"during": "press"}, "during", "There is no wait “press” in this part. It could be dry."),
        ({"every": "24 h"}, "every", "the wait usually lasts 1 day. Write less"),
        ({"every": "1 min"}, "every", "At most 24 turns fit"),
    ],
)
def test_what_cannot_be_turned_names_its_field(changed: Any, where: str, says: str) -> None:
    with pytest.raises(RecipeError) as fault:
        read_recipe(document(DRY, {**TURN, **changed}, WRAP))

    assert fault.value.where == f"components.0.steps.3.{where}"
    assert says in fault.value.says


def test_faults_and_findings_after_a_turn_name_the_place_as_written() -> None:
    with pytest.raises(RecipeError) as fault:
        read_recipe(document(DRY, TURN, {**WRAP, "after": ["gone"]}))
    assert fault.value.where == "components.0.steps.4.after"

    with pytest.raises(RecipeError) as fault:
        read_recipe(document(DRY, TURN, {**WRAP, "id": "turn_2"}))
    assert fault.value.where == "components.0.steps.4.id"

    long = {**TURN, "hands": "2 h", "window": {"latest": "1 h", "stake": "It sags."}}
    found = check_recipe(read_recipe(document(DRY, long, WRAP)))
    assert "mix.turn" in {each["where"] for each in found}
    assert not any("turn_" in each["where"] for each in found)
