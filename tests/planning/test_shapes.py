"""The documents of planning are of their shapes, each field named: hours, problems, plans, what is next."""

from __future__ import annotations

import json
from typing import Any

import pytest

from bench.planning import (
    if_you_stop,
    make_problem,
    next_step,
    options,
    order_of,
    plan,
    plan_several,
    replan,
    time_savings,
)
from tests.bench.workshop import unlike
from tests.parity.python_side import call
from tests.planning.batches import HOUR, MONDAY, make_batch, make_gap, make_task
from tests.planning.batches import make_problem as make_bare
from tests.planning.demo import DAY, HOURS, WEDNESDAY, demo_day
from tests.planning.mixed import mixed_day
from tests.servers import ROOT

Json = dict[str, Any]

VECTORS = json.loads((ROOT / "tests/vectors/planning.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", VECTORS, ids=lambda case: case["description"])
def test_each_vector_of_planning_is_of_its_shapes(case: Json) -> None:
    takes, gives = {
        "next_step": ("planning/Problem", "planning/Advice"),
        "if_you_stop": ("planning/Problem", "planning/IfStopped"),
        "lay_out": ("planning/Problem", None),
        "stretches": ("planning/HoursWritten", None),
        "keeps_ms": ("recipe/Window", None),
    }[case["data"]["call"]]

    assert unlike(takes, case["data"]["with"][0]) == []
    assert gives is None or unlike(gives, call(case["data"])) == []


@pytest.mark.parametrize("seed", range(4))
def test_a_day_of_the_demos_recipes_and_its_plans_are_of_their_shapes(seed: int) -> None:
    problem, _ = mixed_day(seed)
    said: list[Json] = []

    made = plan(problem, budget=0.2, progress=said.append)
    now = made["begins_at"] + HOUR
    again = replan(problem, made, now, budget=0.2)

    assert unlike("planning/Problem", problem) == []
    assert [fault for each in said for fault in unlike("planning/Progress", each)] == []
    assert unlike("planning/Plan", made) + unlike("planning/Plan", again) == []
    for at in (now, now + 20 * HOUR):
        assert unlike("planning/Advice", next_step(problem, order_of(made), at)) == []
        assert unlike("planning/IfStopped", if_you_stop(problem, [], at, at + 9 * HOUR)) == []


def test_what_is_said_of_days_that_cannot_be_and_of_options_is_of_its_shapes() -> None:
    day = demo_day()
    soon = {**day, "ready_by": WEDNESDAY + HOUR}
    long = make_bare([make_task("press", 600)], [])
    late = make_bare(
        [make_task("melt", 5), make_task("set", 20 * 60, kind="wait"), make_task("cut", 10)],
        [make_gap("melt", "set"), make_gap("set", "cut", 0, 60)],
    )
    around = make_bare([make_task("a", 5), make_task("b", 5)], [make_gap("a", "b"), make_gap("b", "a")])
    tried = [plan(soon, aim="ready_by"), plan(long), plan(late), plan(around)]
    choices = options(day, made := plan(day, budget=0.5))
    named = {**day, "tasks": [{**task, "run": "one"} for task in day["tasks"]]}

    assert {reason["kind"] for each in tried for reason in each["reasons"]} >= {
        "ready_by",
        "too_long",
        "circle",
    }
    assert {change["what"] for each in tried for reason in each["reasons"] for change in reason["change"]}
    assert [fault for each in tried for fault in unlike("planning/Plan", each)] == []
    assert [fault for each in choices for fault in unlike("planning/TimeSavingOption", each)] == []
    for saving in time_savings(day, made, choices[:2], budget=0.3):
        assert unlike("planning/TimeSaving", saving) == []
    assert (
        unlike(
            "planning/Plan", plan_several(named, {"one": WEDNESDAY + 5 * DAY}, None, WEDNESDAY, budget=0.5)
        )
        == []
    )


@pytest.mark.parametrize("seed", range(10))
def test_a_batch_of_any_make_and_its_plan_are_of_their_shapes(seed: int) -> None:
    problem = make_batch(seed, makers=1 + seed % 2, states=True)

    assert unlike("planning/Plan", plan(problem, budget=0.3)) == []
    assert unlike("planning/Problem", problem) == []


def test_hours_and_makers_as_written_are_of_their_shape() -> None:
    assert unlike("planning/MakerWritten", {"name": "You", "hours": HOURS}) == []
    made = make_problem([], [{"name": "You", "hours": HOURS}], MONDAY, MONDAY + DAY)
    assert unlike("planning/Problem", made) == []
