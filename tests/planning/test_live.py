"""The day as it goes: planned again, told what is next, and answered when it cannot be done."""

from __future__ import annotations

import random
import threading
from typing import Any

import pytest

from bench import canonical, words
from bench.planning import (
    if_you_stop,
    make_problem,
    next_step,
    options,
    order_of,
    plan,
    plan_in_words,
    replan,
    solver,
    time_savings,
    with_extra_time,
    with_one_more,
    with_second_maker,
)
from tests.often import often
from tests.planning.batches import HOUR, MINUTE, MONDAY, make_batch, make_gap, make_task
from tests.planning.batches import make_problem as make_bare
from tests.planning.checker import faults
from tests.planning.days import live
from tests.planning.demo import HOURS, WEDNESDAY, demo_day, demo_kit

Json = dict[str, Any]


@pytest.fixture(scope="module")
def day() -> Json:
    return demo_day()


@pytest.fixture(scope="module")
def made(day: Json) -> Json:
    return plan(day)


def done_until(made: Json, at: int, late: int = 0) -> dict[str, Json]:
    """What has happened by then, had all gone by the plan, but so much later."""
    done = {}
    for step in made["steps"]:
        begins, ends = step["starts_at"] + late, step["ends_at"] + late
        if ends <= at:
            done[step["id"]] = {"status": "done", "began_at": begins, "ended_at": ends, "left_ms": 0}
        elif begins <= at:
            done[step["id"]] = {"status": "begun", "began_at": begins}
    return done


def test_the_demo_is_planned_with_proof(day: Json, made: Json) -> None:
    assert made["status"] == "proven"
    assert {aim["aim"]: aim["proven"] for aim in made["aims"]}.items() >= {
        "finish": True,
        "sessions": True,
        "span": True,
    }.items()
    assert faults(day, made) == []
    assert all(step["why"]["says"] for step in plan_in_words(made)["steps"] if step["kind"] == "hands")
    assert {step["why"]["kind"] for step in made["steps"] if step["why"]} >= {
        "window",
        "starts_wait",
        "meanwhile",
    }


def test_where_the_order_gains_nothing_a_part_goes_as_its_recipe_is_written(made: Json) -> None:
    """Butter first would be as soon done; but the maker reads the recipe from the top."""
    begun = [step["id"].split(".")[-1] for step in made["steps"] if step["component"] == "base"]

    assert begun[:8] == ["grind", "dry", "sift", "cut_butter", "melt_butter", "wipe", "wet", "join"]


def test_a_usable_plan_comes_first(day: Json) -> None:
    told: list[Json] = []

    plan(day, progress=told.append, changes=False)

    assert told[0]["aim"] == "usable"
    assert faults(day, told[0]["plan"]) == []
    assert {each["aim"] for each in told[1:]} >= {"sessions", "span"}


def test_slack_is_real(day: Json, made: Json) -> None:
    """A step put later by its slack, and all after it, still ends on time; a step with none does not wait."""
    pressing = next(step for step in made["steps"] if step["id"] == "base.1.press")
    assert pressing["slack_ms"] > 0
    later = {**day, "since": day["since"] + pressing["slack_ms"]}

    assert plan(later, changes=False)["finish_at"] == made["finish_at"]
    assert next(step for step in made["steps"] if step["id"] == "assembly.1.wrap")["critical"]


def test_ready_by_begins_as_late_as_it_can() -> None:
    ready_by = WEDNESDAY + 3 * 24 * HOUR - HOUR
    problem = demo_day(ready_by=ready_by)

    made = plan(problem, aim="ready_by")

    assert made["status"] == "proven"
    assert faults(problem, made) == []
    assert made["stays"]
    late = plan({**problem, "since": made["begins_at"] + MINUTE}, changes=False)
    assert not late["stays"], "begun later, hands could not stay on what does not keep, nor be slow"
    later = plan({**problem, "since": made["begins_at"] + 30 * MINUTE}, changes=False)
    assert later["status"] == "impossible"
    assert later["reasons"][0]["kind"] == "ready_by"


# Live


@pytest.mark.parametrize("late", [0, 4 * MINUTE, 40 * MINUTE])
def test_what_is_done_is_history_and_what_hands_are_on_stays(day: Json, made: Json, late: int) -> None:
    press = next(step for step in made["steps"] if step["id"] == "base.1.press")
    now = press["starts_at"] + late + 3 * MINUTE

    again = replan(day, made, now, done=done_until(made, now, late))

    steps = {step["id"]: step for step in again["steps"]}
    assert steps["base.1.press"]["starts_at"] == press["starts_at"] + late
    assert steps["base.1.press"]["ends_at"] == press["ends_at"] + late
    assert steps["base.1.grind"]["status"] == "done"
    assert all(step["starts_at"] >= now for step in again["steps"] if step["status"] == "open")
    assert again["broken"] == []


def test_a_few_minutes_do_not_reshuffle_the_day(day: Json, made: Json) -> None:
    now = made["steps"][4]["starts_at"] + 4 * MINUTE
    done = done_until(made, now - 4 * MINUTE)

    again = replan(day, made, now, done=done)

    left = [key for key in order_of(made) if done.get(key, {}).get("status") != "done"]
    assert [key for key in order_of(again) if key in left] == left


def test_a_maker_who_is_late_still_gets_a_plan_that_says_what_breaks() -> None:
    tasks = [make_task("whip", 10), make_task("fill", 10), make_task("pipe", 20)]
    problem = make_bare(
        tasks, [make_gap("whip", "fill"), make_gap("fill", "pipe"), make_gap("whip", "pipe", None, 15)]
    )
    done = {
        "whip": {
            "status": "done",
            "began_at": MONDAY,
            "ended_at": problem["since"] + 10 * MINUTE,
            "left_ms": 0,
        }
    }

    again = replan(problem, plan(problem), problem["since"] + 20 * MINUTE, done=done)

    assert [(gap["to"], gap["over_ms"]) for gap in again["broken"]] == [("pipe", 5 * MINUTE)]
    assert [step["id"] for step in again["steps"]] == ["whip", "fill", "pipe"]


@pytest.mark.parametrize("installed", [True, False])
def test_whatever_has_happened_there_is_a_plan_and_it_breaks_only_what_it_says(
    installed: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Generated days, caught at any time, all of it later than planned by up to an hour."""
    for seed in range(often(8, 16)):
        problem = make_batch(seed, makers=1 + seed % 2)
        made = plan(problem, changes=False, budget=1)
        if made["status"] not in ("proven", "found"):
            continue
        rng = random.Random(seed)
        late = rng.choice([0, 7, 60]) * MINUTE
        now = rng.randint(problem["since"], made["finish_at"]) + late
        monkeypatch.setattr(solver, "available", lambda: installed)
        done = done_until(made, now, late)

        again = replan(problem, made, now, done=done, budget=1)

        tasks = [{**task, **done.get(task["id"], {})} for task in problem["tasks"]]
        broken = {f"most: {gap['to']}" for gap in again["broken"]}
        assert set(faults({**problem, "tasks": tasks}, again)) <= broken, seed
        monkeypatch.undo()


def test_what_is_all_done_is_a_plan_of_nothing(day: Json, made: Json) -> None:
    now = made["finish_at"]
    again = replan(day, made, now, done=done_until(made, now))

    assert (again["status"], again["finish_at"], again["sessions"]) == ("proven", made["finish_at"], [])


# Without a solver, or without time


def test_without_the_solver_the_rule_plans_and_the_bound_says_how_well(
    day: Json, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(solver, "available", lambda: False)

    made = plan(day)

    assert made["by"] == "rule"
    assert faults(day, made) == []
    assert made["finish_at"] >= made["bound_at"]
    assert (made["status"] == "proven") == (made["finish_at"] == made["bound_at"])


def test_ready_by_without_the_solver(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solver, "available", lambda: False)
    problem = demo_day(ready_by=WEDNESDAY + 3 * 24 * HOUR)

    made = plan(problem, aim="ready_by")

    assert (made["status"], made["by"]) == ("found", "rule")
    assert faults(problem, made) == []
    assert made["begins_at"] > WEDNESDAY + 12 * HOUR


def test_no_work_left_is_the_best_so_far(day: Json) -> None:
    made = plan(day, budget=0)

    assert made["by"] == "rule"
    assert faults(day, made) == []


def test_a_cancel_ends_the_search() -> None:
    """Eight batches at once would keep the solver busy; the maker turns away at the first usable plan."""
    problem = demo_day(batches=8)
    gone = threading.Event()

    made = plan(problem, budget=1000, cancelled=gone.is_set, progress=lambda said: gone.set())

    assert made["cancelled"]
    assert made["status"] in ("found", "proven")
    assert faults(problem, made) == []


# When it cannot be done


def tight_evening(most: int = 10, hours: list[list[str]] | None = None) -> Json:
    """Mix, whip, rest, pipe: 2 h 55 min of it, on one Tuesday evening that has begun."""
    tasks = [
        make_task("Mix", 60),
        make_task("Whip", 30),
        make_task("Rest", 60, kind="wait"),
        make_task("Pipe", 25),
    ]
    gaps = [make_gap("Mix", "Whip", 0, 30), make_gap("Whip", "Rest"), make_gap("Rest", "Pipe", 0, most)]
    part = {"tasks": tasks, "gaps": gaps, "holds": [], "equipment": {}}
    tuesday = WEDNESDAY - 24 * HOUR
    evening = {
        "zone": "Europe/London",
        "dates": {"2026-11-24": hours or [["19:00", "22:00"]]},
        "daily": [["9:00", "9:30"]],
    }
    return make_problem(
        [part], [{"name": "You", "hours": evening}], tuesday + 10 * HOUR + 30 * MINUTE, WEDNESDAY + 6 * HOUR
    )


def test_the_reason_names_the_hours_and_the_smallest_changes() -> None:
    made = plan(tight_evening())

    assert made["status"] == "impossible"
    (reason,) = plan_in_words(made)["reasons"]
    assert reason["says"] == (
        "“Pipe” must start within 10 min of “Rest”. Tuesday: bench hours end at 22:00. Any one of these would do: "
        "Let “Pipe” start 9 h 50 min late. Start by 19:05. Add 25 min to the bench hours."
    )
    changes = {each["what"]: each["ms"] for each in reason["change"]}
    assert changes == {"gap": 9 * HOUR + 50 * MINUTE, "start_by": 25 * MINUTE, "hours": 25 * MINUTE}


def test_a_plan_is_kept_without_words_and_said_in_the_language_of_its_reader() -> None:
    for made in (plan(tight_evening()), plan(make_bare([make_task("Press", 30)], []))):
        assert '"says"' not in canonical(made)
        for tag, beginning in (("en", "“P"), ("de", "„P")):
            with words.speaking(tag):
                said = plan_in_words(made)
            says = [each["says"] for each in [*said["reasons"], *(step["why"] for step in said["steps"])]]
            assert says and all(each.startswith(beginning) or made["steps"] for each in says)
    earlier = {"kind": "rules", "steps": [], "gaps": [], "says": "As it was kept.", "change": []}
    assert plan_in_words({**made, "reasons": [earlier]})["reasons"] == [earlier]


@pytest.mark.parametrize("change", [tight_evening(most=10 + 590), tight_evening(hours=[["19:00", "22:25"]])])
def test_each_change_it_names_would_do(change: Json) -> None:
    made = plan(change)

    assert made["status"] == "proven"
    assert faults(change, made) == []


def test_a_step_that_no_stretch_can_hold_is_named() -> None:
    made = plan(make_bare([make_task("Press", 12 * 60)], []))

    assert made["status"] == "impossible"
    assert (
        plan_in_words(made)["reasons"][0]["says"] == "“Press” takes 12 h. No bench hours are longer than 8 h."
    )


@pytest.mark.parametrize("makers", [1, 2])
def test_once_begun_too_a_step_that_no_stretch_can_hold_is_named(makers: int) -> None:
    """Hours that were cut short while the batch was under way: being late makes no room."""
    began = MONDAY + 9 * HOUR
    weighed = {"status": "done", "began_at": began, "ended_at": began + 5 * MINUTE, "left_ms": 0}
    day = make_bare(
        [make_task("Weigh", 5, **weighed), make_task("Press", 12 * 60)], [make_gap("Weigh", "Press")]
    )
    day["makers"] *= makers

    made = replan(day, None, began + 10 * MINUTE)

    assert made["status"] == "impossible"
    assert (
        plan_in_words(made)["reasons"][0]["says"] == "“Press” takes 12 h. No bench hours are longer than 8 h."
    )


def test_steps_that_wait_for_each_other_are_named() -> None:
    made = plan(make_bare([make_task("a", 5), make_task("b", 5)], [make_gap("a", "b"), make_gap("b", "a")]))

    assert made["status"] == "impossible"
    assert made["reasons"][0]["kind"] == "circle"


def test_rules_that_clash_for_want_of_hands_are_found_and_none_too_many() -> None:
    """Six trays of 15 min to be pressed within 60 min of one mixing; a seventh rule has no part in it."""
    tasks = [make_task("mix", 10), make_task("label", 5), *(make_task(f"press {n}", 15) for n in range(6))]
    gaps = [make_gap("mix", "label", 0, 600)]
    gaps += [make_gap("mix", f"press {n}", 0, 60) for n in range(6)]

    made = plan(make_bare(tasks, gaps))

    (reason,) = made["reasons"]
    assert reason["kind"] == "rules"
    assert {gap["to"] for gap in reason["gaps"]} == {f"press {n}" for n in range(6)}
    assert [(each["what"], each["ms"]) for each in reason["change"]] == [("gap", 15 * MINUTE)]


# What next


def test_hands_that_are_off_by_a_third_break_nothing_on_the_demo(day: Json, made: Json) -> None:
    order = order_of(made)

    for seed in range(6):
        lived = live(day, lambda problem, now: next_step(problem, order, now), seed)

        assert (lived.broken, lived.stuck) == ([], False), seed


def test_generated_days_go_well_and_never_stand_still() -> None:
    broken = []
    for seed in range(often(12, 30)):
        problem = make_batch(seed)
        planned = plan(problem, changes=False, budget=1)
        if planned["status"] not in ("proven", "found"):
            continue
        order = order_of(planned)

        lived = live(problem, lambda at, now, order=order: next_step(at, order, now), seed)  # type: ignore[misc]

        assert not lived.stuck, seed
        broken += lived.broken
    assert len(broken) <= 2
    assert all(over <= 5 * MINUTE for over in broken)


def whip_and_pipe(hours: list[list[int]]) -> Json:
    tasks = [make_task("whip", 10), make_task("fill", 10), make_task("pipe", 30)]
    gaps = [make_gap("whip", "fill"), make_gap("fill", "pipe"), make_gap("whip", "pipe", None, 25)]
    return make_bare(tasks, gaps, hours)


def test_why_wait_is_said_with_the_gap_and_the_closing() -> None:
    """Whip now and piping would begin after the evening's end: the next start is tomorrow's opening."""
    hours = [[MONDAY, MONDAY + 40 * MINUTE], [MONDAY + 24 * HOUR, MONDAY + 26 * HOUR]]

    told = next_step(whip_and_pipe(hours), ["whip", "fill", "pipe"], MONDAY)

    assert told["step"] is None
    assert told["until"] == MONDAY + 24 * HOUR
    assert (told["why"]["kind"], told["why"]["step"], told["why"]["gap"]["to"]) == ("window", "whip", "pipe")
    assert told["why"]["closes_at"] == MONDAY + 40 * MINUTE


def test_outside_bench_hours_it_waits_for_the_opening() -> None:
    hours = [[MONDAY, MONDAY + HOUR], [MONDAY + 24 * HOUR, MONDAY + 26 * HOUR]]

    told = next_step(whip_and_pipe(hours), [], MONDAY + 2 * HOUR)

    assert (told["step"], told["until"], told["why"]["kind"]) == (None, MONDAY + 24 * HOUR, "closed")


def test_when_all_is_done_it_says_so_and_when_no_hours_are_left_too() -> None:
    problem = whip_and_pipe([[MONDAY, MONDAY + HOUR]])
    ended = [{**task, "status": "done", "ended_at": MONDAY + MINUTE} for task in problem["tasks"]]

    assert next_step({**problem, "tasks": ended}, [], MONDAY + HOUR)["why"] == {"kind": "finished"}
    assert next_step(problem, [], MONDAY + 2 * HOUR)["why"] == {"kind": "no_hours"}


def test_past_its_window_a_step_is_still_next_and_the_break_is_said() -> None:
    problem = whip_and_pipe([[MONDAY, MONDAY + 5 * HOUR]])
    for task in problem["tasks"][:2]:
        task |= {"status": "done", "ended_at": MONDAY + 10 * MINUTE}

    told = next_step(problem, ["whip", "fill", "pipe"], MONDAY + HOUR)

    assert told["step"] == "pipe"
    assert [each["over_ms"] for each in told["broken"]] == [25 * MINUTE]


def test_a_maker_stays_on_for_a_moment_rather_than_lose_the_pieces() -> None:
    problem = whip_and_pipe([[MONDAY, MONDAY + 39 * MINUTE], [MONDAY + 24 * HOUR, MONDAY + 26 * HOUR]])
    for task in problem["tasks"][:2]:
        task |= {"status": "done", "ended_at": MONDAY + 10 * MINUTE}

    told = next_step(problem, ["whip", "fill", "pipe"], MONDAY + 12 * MINUTE)

    assert (told["step"], told["why"]["kind"], told["why"]["by_ms"]) == ("pipe", "stay", 3 * MINUTE)


def test_a_window_missed_by_a_little_is_not_left_till_morning_to_go_home_in_time() -> None:
    """Both miss it, by one minute or by a night: a few minutes past the hours are asked of the maker."""
    problem = whip_and_pipe([[MONDAY, MONDAY + HOUR], [MONDAY + 24 * HOUR, MONDAY + 26 * HOUR]])
    for task in problem["tasks"][:2]:
        task |= {"status": "done", "ended_at": MONDAY + 10 * MINUTE}

    told = next_step(problem, ["whip", "fill", "pipe"], MONDAY + 36 * MINUTE)

    assert (told["step"], told["why"]["kind"], told["why"]["by_ms"]) == ("pipe", "stay", 6 * MINUTE)


def test_stopping_now_says_what_happens() -> None:
    problem = whip_and_pipe([[MONDAY, MONDAY + 5 * HOUR]])
    problem["tasks"][0] |= {"status": "done", "ended_at": MONDAY + 10 * MINUTE}

    told = if_you_stop(problem, ["whip", "fill", "pipe"], MONDAY + 10 * MINUTE, MONDAY + HOUR)

    assert told["later_ms"] == 50 * MINUTE
    assert [(each["gap"]["to"], each["over_ms"]) for each in told["broken"]] == [("pipe", 35 * MINUTE)]


# Shopping for time


def test_each_offer_is_a_solved_number() -> None:
    """Two trays of an hour each in a bench that opens two hours a day, with one mould for both."""
    tasks = [make_task("pour", 10), make_task("set", 90, kind="wait"), make_task("turn out", 10)]
    tasks += [make_task("pour 2", 10), make_task("set 2", 90, kind="wait"), make_task("turn out 2", 10)]
    gaps = [
        make_gap("pour", "set"),
        make_gap("set", "turn out"),
        make_gap("pour 2", "set 2"),
        make_gap("set 2", "turn out 2"),
    ]
    hours = [[MONDAY + day * 24 * HOUR, MONDAY + day * 24 * HOUR + 2 * HOUR] for day in range(4)]
    problem = make_bare(
        tasks,
        gaps,
        hours,
        equipment={"mould": {"name": "Mould", "many": 1}},
        holds=[
            {"equipment": "mould", "many": 1, "from": "pour", "until": "turn out"},
            {"equipment": "mould", "many": 1, "from": "pour 2", "until": "turn out 2"},
        ],
    )
    made = plan(problem)
    second = {**problem, "equipment": {"mould": {"name": "Mould", "many": 2}}}

    told = time_savings(problem, made, [{"what": "mould", "problem": second}, *options(problem, made)])

    saves = {each["what"]: each["saves_ms"] for each in told}
    assert saves["mould"] == 22 * HOUR + 10 * MINUTE
    assert saves["second_maker"] == 0
    assert told[0]["what"] == "mould"
    assert all(each["proven"] for each in told)


def test_an_hour_more_joins_the_next_stretch_where_it_meets_it() -> None:
    hours = [[0, 2 * HOUR], [2 * HOUR + 30 * MINUTE, 4 * HOUR], [9 * HOUR, 10 * HOUR]]
    problem = make_bare([make_task("a", 5)], [], hours)

    assert with_extra_time(problem, 0, 0)["makers"][0]["hours"] == [[0, 4 * HOUR], [9 * HOUR, 10 * HOUR]]
    assert problem["makers"][0]["hours"] == hours


def test_one_more_set_of_a_mould_is_one_more_and_no_other() -> None:
    kit = demo_kit()

    sets = {mould["id"]: mould["sets"] for mould in with_one_more(kit, "pebble_tray")["moulds"]}

    assert sets == {mould["id"]: mould["sets"] + (mould["id"] == "pebble_tray") for mould in kit["moulds"]}


def test_two_makers_work_at_once_and_never_share_a_step() -> None:
    problem = with_second_maker(demo_day())

    made = plan(problem, changes=False)

    assert faults(problem, made) == []
    assert {step["maker"] for step in made["steps"] if step["kind"] == "hands"} == {0, 1}
    assert HOURS["daily"] == [["9:00", "12:30"], ["19:00", "22:00"]]
