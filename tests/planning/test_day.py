"""What goes into a plan: bench hours as instants, a sheet as tasks, and input that cannot be planned."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

import bench
from bench.errors import PlanError
from bench.planning import make_problem, plan, stretches, tasks_of
from tests.make import make_entry, uuid4
from tests.planning.batches import HOUR, MINUTE, MONDAY, make_gap, make_task
from tests.planning.batches import make_problem as make_bare
from tests.planning.checker import faults
from tests.planning.demo import DAY, HOURS, WEDNESDAY, demo_day, demo_sheet

Json = dict[str, Any]


def utc(*when: int) -> int:
    return int(datetime(*when, tzinfo=UTC).timestamp() * 1000)  # type: ignore[arg-type,misc]


def test_bench_hours_follow_the_clock_of_the_place() -> None:
    """Europe/London puts its clocks forward on 29 March 2026 and back on 25 October (tz database)."""
    hours = {"zone": "Europe/London", "daily": [["9:00", "12:30"]]}

    before, after = stretches(hours, utc(2026, 3, 28), utc(2026, 3, 29, 23))
    assert (before, after) == (
        [utc(2026, 3, 28, 9), utc(2026, 3, 28, 12, 30)],
        [utc(2026, 3, 29, 8), utc(2026, 3, 29, 11, 30)],
    )
    before, after = stretches(hours, utc(2026, 10, 24), utc(2026, 10, 25, 23))
    assert after[0] - before[0] == 25 * HOUR


def test_a_wait_keeps_its_length_when_the_clock_is_put_forward() -> None:
    """Twelve hours from 21:30 end at 10:30 by the clock, an hour later than on other nights."""
    tasks = [make_task("pour", 30), make_task("set", 12 * 60, kind="wait"), make_task("turn out", 10)]
    part = {
        "tasks": tasks,
        "gaps": [make_gap("pour", "set"), make_gap("set", "turn out")],
        "holds": [],
        "equipment": {},
    }
    hours = {"zone": "Europe/London", "daily": [["9:00", "12:00"], ["21:00", "22:00"]]}

    made = plan(
        make_problem([part], [{"name": "You", "hours": hours}], utc(2026, 3, 28, 20), utc(2026, 3, 30))
    )

    assert [step["starts_at"] for step in made["steps"]] == [
        utc(2026, 3, 28, 21),
        utc(2026, 3, 28, 21, 30),
        utc(2026, 3, 29, 9, 30),
    ]


def test_an_hour_that_the_clock_skips_makes_a_stretch_shorter() -> None:
    hours = {"zone": "Europe/London", "daily": [["0:30", "2:30"]]}

    assert stretches(hours, utc(2026, 3, 29), utc(2026, 3, 29, 12)) == [
        [utc(2026, 3, 29, 0, 30), utc(2026, 3, 29, 1, 30)]
    ]


def test_dates_stand_before_weekdays_and_those_before_every_day() -> None:
    hours = {
        "zone": "UTC",
        "daily": [["9:00", "10:00"]],
        "days": {"sat": [["11:00", "12:00"]]},
        "dates": {"2026-11-29": []},
    }

    found = stretches(hours, utc(2026, 11, 27), utc(2026, 11, 30, 12))

    assert [opens for opens, _ in found] == [
        utc(2026, 11, 27, 9),
        utc(2026, 11, 28, 11),
        utc(2026, 11, 30, 9),
    ]


def test_hours_that_go_on_past_midnight_are_one_stretch() -> None:
    hours = {"zone": "UTC", "daily": [["0:00", "1:00"], ["22:00", "24:00"]]}

    assert [utc(2026, 11, 25, 22), utc(2026, 11, 26, 1)] in stretches(
        hours, utc(2026, 11, 25), utc(2026, 11, 27)
    )


@pytest.mark.parametrize(
    ("hours", "where"),
    [
        ({"zone": "UTC", "daily": [["9:00", "12:00"], ["11:00", "13:00"]]}, "makers.0.hours.daily.1"),
        ({"zone": "UTC", "daily": [["19:00", "1:00"]]}, "makers.0.hours.daily.0"),
        ({"zone": "UTC", "days": {"sat": [["9:00", "9:00"]]}}, "makers.0.hours.days.sat.0"),
        ({"zone": "UTC", "days": {"caturday": []}}, "makers.0.hours.days.caturday"),
        ({"zone": "UTC", "dates": {"2026-02-30": []}}, "makers.0.hours.dates.2026-02-30"),
        ({"zone": "UTC", "daily": [["9:00", "25:00"]]}, "makers.0.hours.daily.0"),
        ({"zone": "UTC", "daily": [["9:00"]]}, "makers.0.hours.daily.0"),
        ({"zone": "UTC", "daily": "9 to 5"}, "makers.0.hours.daily"),
        ({"zone": "Atlantis/Deep", "daily": []}, "makers.0.hours.zone"),
        ({"daily": []}, "makers.0.hours.zone"),
        ({"zone": "../../etc/passwd", "daily": []}, "makers.0.hours.zone"),
    ],
)
def test_bench_hours_that_cannot_be(hours: Json, where: str) -> None:
    with pytest.raises(PlanError) as refused:
        make_problem([], [{"name": "You", "hours": hours}], WEDNESDAY, WEDNESDAY + DAY)

    assert refused.value.where == where


def spoilt(**change: Any) -> Json:
    """A small day with something wrong in it."""
    problem = make_bare([make_task("a", 5), make_task("b", 5)], [make_gap("a", "b")])
    return {**problem, **change}


@pytest.mark.parametrize(
    ("problem", "where"),
    [
        (spoilt(makers=[]), "makers"),
        (spoilt(makers=[{"name": "", "hours": []}]), "makers.0.hours"),
        (spoilt(makers=[{"name": "", "hours": [[MONDAY, MONDAY - 1]]}]), "makers.0.hours.0"),
        (
            spoilt(makers=[{"name": "", "hours": [[MONDAY, MONDAY + DAY], [MONDAY, MONDAY + DAY]]}]),
            "makers.0.hours.1",
        ),
        (spoilt(gaps=[make_gap("a", "b", 367 * 24 * 60)]), "gaps.0.least_ms"),
        (spoilt(gaps=[make_gap("a", "b", 10, 5)]), "gaps.0.most_ms"),
        (spoilt(gaps=[make_gap("a", "nothing")]), "gaps.0"),
        (spoilt(gaps=[make_gap([], "a")]), "gaps.0.from"),
        (spoilt(tasks=[make_task("a", 400 * 24 * 60)], gaps=[]), "tasks.0.left_ms"),
        (spoilt(tasks=[make_task("a", 5, uses={"cauldron": 1})], gaps=[]), "tasks.0.uses.cauldron"),
        (spoilt(tasks=[make_task("a", 5), make_task("a", 5)], gaps=[]), "tasks"),
        (spoilt(tasks=[make_task(str(n), 1) for n in range(1001)], gaps=[]), "tasks"),
        (spoilt(holds=[{"equipment": "mould", "many": 1, "from": "a", "until": "b"}]), "holds.0"),
        (spoilt(ready_by=MONDAY - DAY), "ready_by"),
    ],
)
def test_a_day_that_cannot_be_read_names_the_field(problem: Json, where: str) -> None:
    with pytest.raises(PlanError) as refused:
        plan(problem)

    assert refused.value.where == where
    assert refused.value.says.endswith((".", "?"))


def test_ready_by_needs_a_time_and_an_aim_is_one_of_two() -> None:
    with pytest.raises(PlanError, match="ready_by"):
        plan(spoilt(), aim="ready_by")
    with pytest.raises(PlanError, match="aim"):
        plan(spoilt(), aim="fun")


def test_a_plan_reaches_no_further_than_a_year_ahead() -> None:
    with pytest.raises(PlanError, match="until"):
        stretches(HOURS, WEDNESDAY, WEDNESDAY + 500 * DAY)
    with pytest.raises(PlanError, match="until"):
        make_problem([], [{"name": "You", "hours": HOURS}], WEDNESDAY, WEDNESDAY)
    with pytest.raises(PlanError, match="makers"):
        make_problem([], [], WEDNESDAY, WEDNESDAY + DAY)


def step_of(sheet: Json, key: str) -> Json:
    step: Json = next(step for step in sheet["steps"] if step["id"] == key)
    return step


def test_a_window_shorter_than_the_step_it_holds_is_refused() -> None:
    sheet = demo_sheet()
    step_of(sheet, "assembly.1.pipe")["window"]["latest_ms"] = 10 * MINUTE

    with pytest.raises(PlanError) as refused:
        tasks_of(sheet)

    assert refused.value.where == "steps.assembly.1.pipe.window"
    assert "takes 15 min" in refused.value.says and "within 10 min" in refused.value.says


def test_a_wait_of_more_than_a_year_is_refused() -> None:
    sheet = demo_sheet()
    step_of(sheet, "base.1.drying")["usual_ms"] = 367 * DAY

    with pytest.raises(PlanError, match="more than a year"):
        tasks_of(sheet)


def test_hand_times_say_where_they_come_from() -> None:
    sheet = demo_sheet(pieces=24)
    for key in ("base.1.sift", "embed.1.melt", "base.1.damp_rose", "base.1.grind"):
        step_of(sheet, key)["hands_ms"] = None

    told = tasks_of(sheet, hands={"base.1.grind": 432_100}, pad_ppm=0)

    tasks = {task["id"]: task for task in told["tasks"]}
    said = {key: (tasks[key]["takes_ms"], tasks[key]["takes_from"]) for key in tasks}
    assert said["base.1.grind"] == (435_000, "own runs")
    assert said["base.1.sift"] == (180_000, "recipe")
    assert said["embed.1.melt"][1] == "planned bursts"
    assert said["base.1.damp_rose"] == (120_000, "common practice")
    assert said["assembly.1.wrap"] == (40 * MINUTE, "recipe"), (
        "20 min for twelve pieces, 40 for twice as many"
    )


def test_a_tight_chain_is_given_room_and_nothing_else_is() -> None:
    bare = {task["id"]: task["takes_ms"] for task in tasks_of(demo_sheet(), pad_ppm=0)["tasks"]}
    padded = {task["id"]: task["takes_ms"] for task in tasks_of(demo_sheet())["tasks"]}

    assert padded["topping.1.fill"] > bare["topping.1.fill"]
    assert padded["base.1.grind"] == bare["base.1.grind"]


def test_a_mould_is_held_from_pour_to_turning_out() -> None:
    told = tasks_of(demo_sheet())

    moulds = [hold for hold in told["holds"] if hold["equipment"].startswith("moulds.")]
    assert moulds == [
        {"equipment": "moulds.pebble", "many": 15, "from": "embed.1.pour", "until": "embed.1.unmould"}
    ]
    assert told["equipment"]["moulds.pebble"]["many"] == 30


def test_what_the_kit_has_one_of_is_used_by_one_step_at_a_time() -> None:
    tasks = {task["id"]: task for task in tasks_of(demo_sheet())["tasks"]}

    assert tasks["topping.1.beat"]["uses"] == {"mixers.hand_mixer": 1}
    assert tasks["embed.1.melt"]["uses"] == {"heaters.microwave": 1}
    assert "scales.bench" in tasks["base.1.dry"]["uses"]


def test_a_run_under_way_is_planned_from_what_its_journal_says() -> None:
    sheet = demo_sheet()
    run = uuid4()
    entries = [
        make_entry(run, at=WEDNESDAY, kind="done", body={"step": "base.1.grind"}),
        make_entry(run, at=WEDNESDAY + 5 * MINUTE, kind="done", body={"step": "topping.1.weigh_whip"}),
        make_entry(run, at=WEDNESDAY + 9 * MINUTE, kind="began", body={"step": "base.1.sift"}),
        make_entry(run, at=WEDNESDAY + 10 * MINUTE, kind="counted", body={"step": "base.1.press", "good": 6}),
    ]

    tasks = {task["id"]: task for task in tasks_of(sheet, bench.fold(sheet, entries))["tasks"]}

    assert (tasks["base.1.grind"]["status"], tasks["base.1.grind"]["ended_at"]) == ("done", WEDNESDAY)
    assert (tasks["base.1.sift"]["status"], tasks["base.1.sift"]["began_at"]) == (
        "begun",
        WEDNESDAY + 9 * MINUTE,
    )
    assert tasks["topping.1.warm"]["began_at"] == WEDNESDAY + 5 * MINUTE
    assert tasks["base.1.press"]["left_ms"] * 2 == tasks["base.1.press"]["takes_ms"]
    assert tasks["base.1.dry"]["status"] == "open"


def test_several_runs_share_one_bench() -> None:
    problem = demo_day(batches=2)

    made = plan(problem, changes=False)

    assert made["status"] == "proven"
    assert faults(problem, made) == []
    assert {step["run"] for step in made["steps"]} == {"", "run2"}
