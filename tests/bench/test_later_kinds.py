"""A kind of step, or of entry, that a later version has: done as a plain step, kept as it came."""

import copy
from typing import Any

import pytest
from workshop import Maker, demo_sheet, entry, walk

from bench import fold, in_use, record, sheet_text, tasks_of

HEAD = (
    "id",
    "component",
    "round",
    "step",
    "title",
    "says",
    "reason",
    "after",
    "optional",
    "does",
    "unmoulds",
    "hazards",
    "cautions",
    "ways",
)
SHARED = (*HEAD, "window", "keeps", "hands_ms", "tools", "tail_ms", "hold_for", "until")


def later(step: str) -> Any:
    """The demo sheet, in which this step is of a kind that nobody here knows."""
    sheet = copy.deepcopy(demo_sheet())
    for index, each in enumerate(sheet["steps"]):
        if each["id"] == step:
            own = {"kind": "steamed", "steams": {"for": 3}}
            sheet["steps"][index] = {**{key: each[key] for key in SHARED if key in each}, **own}
    return sheet


ONE_OF_EACH = ["base.1.dry", "base.1.work_rose", "base.1.drying", "embed.1.melt", "base.1.press"]


@pytest.mark.parametrize("step", ONE_OF_EACH)
def test_a_later_kind_is_done_as_a_plain_step(step: str) -> None:
    sheet = later(step)
    assert any(each["kind"] == "steamed" for each in sheet["steps"]), "no such step"

    asked = next(prompt for prompt in walk(sheet) if prompt["step"] == step)

    assert (asked["kind"], asked["title"]) == (
        "do",
        next(e["title"] for e in sheet["steps"] if e["id"] == step),
    )
    assert [each["id"] for each in asked["answers"] if each["strong"]] in (["done"], ["way_film"])


def test_all_else_takes_it_for_a_thing_to_do() -> None:
    sheet = later("base.1.drying")
    maker = Maker(sheet)
    maker.tell("done", step="base.1.drying")
    tasks = {task["id"]: task for task in tasks_of(sheet)["tasks"]}

    assert tasks["base.1.drying"]["kind"] == "hands"
    assert maker.state["steps"]["base.1.drying"]["status"] == "done"
    assert "Let the bases dry" in sheet_text(sheet)
    assert record(sheet, maker.state, maker.entries)["number"] is None
    here, other = ({"name": name, "sheet": sheet, "state": maker.state} for name in ("A", "B"))
    assert in_use(here, [other]) == []


def test_a_later_entry_is_kept_unread_and_changes_nothing() -> None:
    sheet = demo_sheet()
    told = entry("steamed", at=1_000, step="base.1.press", steams=3)

    assert fold(sheet, [told])["unread"] == [told["id"]]
    assert {**fold(sheet, [told]), "unread": []} == fold(sheet, [])
