"""Plans over HTTP: asked for, kept, made anew when the day moves, stopped, and read as a calendar."""

from __future__ import annotations

import itertools
import json
import threading
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from icalendar import Calendar

import bench
from api import planner
from api.places import DEMO
from api.planner import EXTENSION, savings_said
from bench import TimeSaving, words
from tests.api.studio import Studio
from tests.make import Clock, make_entry, uuid4
from tests.planning.checker import faults
from tests.planning.demo import HOURS, demo_day

# A plan is made of what was read; how it is kept and held, the tests say that name both.
pytestmark = pytest.mark.database("sqlite")

Json = dict[str, Any]

WEDNESDAY = int(datetime(2026, 11, 25, 9, tzinfo=UTC).timestamp() * 1000)
HOUR = 3_600_000
DAY = 24 * HOUR
BENCH = {"makers": [{"name": "Ada", "hours": HOURS}]}
BASE = "fizzing-base-embed-whipped-top"


@pytest.fixture
def clock() -> Clock:
    return Clock(WEDNESDAY)


@pytest.fixture(autouse=True)
def patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """An answer waits for the plan, however busy the machine is."""
    monkeypatch.setattr("api.plans.WAIT_S", 30)


@pytest.fixture(autouse=True)
def work_ended(app: Any) -> Iterator[None]:
    """No thread goes on working after its database is gone."""
    yield
    for thread in threading.enumerate():
        if thread.name == "plan":
            thread.join(30)


def ask(studio: Studio, **asked: Any) -> Any:
    return studio.client.post("/api/v1/plans", json=asked)


def at_bench(studio: Studio) -> Json:
    """The demo's three-part recipe in the demo's kit and hours."""
    studio.put_kit(json.loads((DEMO / "kit.json").read_text("utf-8")))
    studio.put_hours(BENCH)
    document = json.loads((DEMO / "recipes" / f"{BASE}.json").read_text("utf-8"))
    recipe: Json = studio.put_recipe(uuid4(), document).json
    return recipe


def begin(studio: Studio, recipe: Json, pieces: int = 12) -> str:
    run = uuid4()
    body = {
        "recipe": {"id": recipe["id"], "version": recipe["version"]},
        "size": {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running"},
    }
    assert studio.put_run(run, body).status_code == 201
    return run


def until_made(studio: Studio, path: str) -> Json:
    """The plan once nobody works on it any more."""
    for _ in range(600):
        told: Json = studio.get(path).json
        if told["state"] != "working":
            return told
        for thread in threading.enumerate():
            if thread.name == "plan":
                thread.join(0.1)
    raise AssertionError("the plan was never made")


class TestHours:
    def test_until_the_maker_says_the_bench_is_always_open(self, studio: Studio) -> None:
        hours = studio.get("/hours")

        assert hours.json["version"] == 0
        assert hours.json["document"]["makers"][0]["hours"]["daily"] == [["0:00", "24:00"]]

    @pytest.mark.database("sqlite", "postgresql")
    def test_they_are_said_once_then_edited_with_if_match(self, studio: Studio) -> None:
        assert studio.put_hours(BENCH).status_code == 201
        assert studio.put_hours(BENCH).status_code == 200
        two = {"makers": [*BENCH["makers"], {"name": "Bo", "hours": {**HOURS, "daily": [["8:00", "12:00"]]}}]}
        assert studio.put_hours(two).status_code == 428
        assert studio.put_hours(two, studio.tag(7)).status_code == 412

        assert studio.put_hours(two, studio.tag(1)).headers["ETag"] == studio.tag(2)
        assert studio.get("/hours").json["document"] == two
        assert studio.get("/hours", **{"If-None-Match": studio.tag(2)}).status_code == 304

    @pytest.mark.parametrize(
        ("daily", "says"),
        [
            ([["9:00", "12:00"], ["11:00", "13:00"]], "overlaps"),
            ([["12:00", "9:00"]], "ends before it begins"),
            ([["9:00", "25:00"]], "not a time of day"),
            ([["9:00"]], "a beginning and an end"),
        ],
    )
    def test_hours_that_no_day_can_have_are_refused_with_the_reason(
        self, studio: Studio, daily: Any, says: str
    ) -> None:
        answer = studio.put_hours({"makers": [{"name": "Ada", "hours": {**HOURS, "daily": daily}}]})

        assert answer.status_code == 422
        assert answer.json["errors"][0]["field"].startswith("makers.0.hours.daily")
        assert says in answer.json["errors"][0]["detail"]

    def test_a_place_that_has_no_clock_is_refused(self, studio: Studio) -> None:
        answer = studio.put_hours({"makers": [{"name": "Ada", "hours": {"zone": "Nowhere/Else"}}]})

        assert answer.json["errors"][0]["field"] == "makers.0.hours.zone"

    def test_a_bench_without_a_maker_is_refused(self, studio: Studio) -> None:
        assert studio.put_hours({"makers": []}).status_code == 422


class TestPlan:
    def test_a_run_is_planned_when_first_asked_and_says_how_good_that_is(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))

        studio.get(f"/runs/{run}/plan")
        told = until_made(studio, f"/runs/{run}/plan")

        assert (told["state"], told["plan"]["status"], told["behind"]) == ("made", "proven", 0)
        assert told["says"] == "No order ends sooner."
        assert told["plan"]["bound_at"] <= told["plan"]["finish_at"]
        assert all(step["id"].startswith(f"{run}/") for step in told["plan"]["steps"])
        problem = demo_day(since=WEDNESDAY)
        renamed = json.loads(json.dumps(told["plan"]).replace(f"{run}/", ""))
        assert faults(problem, renamed) == []

    def test_it_is_kept_and_not_made_again(self, studio: Studio, clock: Clock) -> None:
        run = begin(studio, at_bench(studio))
        studio.get(f"/runs/{run}/plan")
        first = until_made(studio, f"/runs/{run}/plan")
        clock.ms += 7_000

        again = studio.get(f"/runs/{run}/plan").json

        assert again["plan"] == first["plan"]
        assert (again["made_at"], again["age_ms"]) == (first["made_at"], 7_000)

    @pytest.mark.database("sqlite", "postgresql")
    def test_what_happens_moves_it_and_what_is_done_is_history(self, studio: Studio, clock: Clock) -> None:
        run = begin(studio, at_bench(studio))
        studio.get(f"/runs/{run}/plan")
        first = until_made(studio, f"/runs/{run}/plan")
        step = next(each for each in first["plan"]["steps"] if each["kind"] == "hands")
        clock.ms = step["ends_at"]
        studio.post(
            run,
            make_entry(run, at=clock.ms, kind="skipped", body={"step": step["id"].split("/")[1]}),
        )

        behind = studio.get(f"/plans/{first['id']}").json
        studio.get(f"/runs/{run}/plan")
        after = until_made(studio, f"/runs/{run}/plan")

        assert behind["behind"] == 1
        assert behind["plan"] == first["plan"]
        assert after["behind"] == 0
        assert after["made_at"] == clock.ms
        done = {each["id"] for each in after["plan"]["steps"] if each["status"] == "done"}
        assert step["id"] in done

    def test_changed_hours_move_it_too(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))
        studio.get(f"/runs/{run}/plan")
        until_made(studio, f"/runs/{run}/plan")
        studio.put_hours(
            {"makers": [{"name": "Ada", "hours": {**HOURS, "daily": [["19:00", "22:00"]]}}]}, studio.tag(1)
        )

        plan_id = studio.get(f"/runs/{run}/plan").json["id"]
        after = until_made(studio, f"/runs/{run}/plan")

        assert (after["id"], after["behind"]) == (plan_id, 0)
        assert all(session["opens_at"] % DAY == 19 * HOUR for session in after["plan"]["sessions"])

    def test_a_recipe_not_begun_yet_is_planned(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        new = {"id": recipe["id"], "version": recipe["version"], "size": {"pieces": 12}}

        answer = ask(studio, recipes=[new])
        told = until_made(studio, f"/plans/{answer.json['id']}")

        assert answer.status_code in (201, 202)
        assert answer.headers["Location"] == f"/api/v1/plans/{told['id']}"
        assert told["parts"] == [{"run": "new-1", "title": recipe["title"], "name": recipe["title"]}]
        assert told["plan"]["status"] == "proven"

    @pytest.mark.database("sqlite", "postgresql")
    def test_two_runs_share_one_bench_and_one_plan(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        runs = [begin(studio, recipe, 4), begin(studio, recipe, 4)]

        answer = ask(studio, runs=runs)
        told = until_made(studio, f"/plans/{answer.json['id']}")

        hands = sorted(
            (step["starts_at"], step["ends_at"]) for step in told["plan"]["steps"] if step["kind"] == "hands"
        )
        assert all(one[1] <= other[0] for one, other in zip(hands, hands[1:], strict=False))
        assert {step["run"] for step in told["plan"]["steps"]} == set(runs)
        assert all(studio.get(f"/runs/{run}/plan").json["id"] == told["id"] for run in runs)

    def test_a_run_begun_beside_another_is_planned_with_it(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        first = begin(studio, recipe, 4)
        until_made(studio, f"/runs/{first}/plan")
        never_looked_at = begin(studio, recipe, 4)

        second = begin(studio, recipe, 4)
        told = until_made(studio, f"/runs/{second}/plan")

        assert [part["run"] for part in told["parts"]] == [second, first]
        assert studio.get(f"/runs/{first}/plan").json["id"] == told["id"]
        assert studio.get(f"/runs/{never_looked_at}/plan").json["id"] != told["id"]

    def test_a_run_has_the_bench_alone_when_the_others_have_ended_or_lie_still(
        self, studio: Studio, clock: Clock
    ) -> None:
        recipe = at_bench(studio)
        finished, left = (begin(studio, recipe, 4) for _ in range(2))
        for run in (finished, left):
            until_made(studio, f"/runs/{run}/plan")
        studio.post(finished, make_entry(finished, at=WEDNESDAY, kind="finished", body={}))
        clock.ms += 4 * DAY

        run = begin(studio, recipe, 4)

        assert [part["run"] for part in until_made(studio, f"/runs/{run}/plan")["parts"]] == [run]

    def test_what_is_to_be_ready_by_some_time_bends_to_no_other_and_the_others_go_around_it(
        self, studio: Studio
    ) -> None:
        recipe = at_bench(studio)
        saturday = WEDNESDAY + 9 * DAY
        wanted = begin(studio, recipe, 4)
        plan = ask(studio, runs=[wanted], due={wanted: saturday}).json["id"]
        alone = until_made(studio, f"/plans/{plan}")
        assert (alone["aim"], alone["ready_by"]) == ("ready_by", saturday)
        other = begin(studio, recipe, 4)

        studio.get(f"/runs/{other}/plan")
        told = until_made(studio, f"/runs/{other}/plan")

        assert told["id"] != plan and told["id"] == studio.get(f"/runs/{wanted}/plan").json["id"]
        latest = alone["plan"]["begins_at"]
        assert told["due"] == [{"run": wanted, "ready_by": saturday, "begins_at": latest, "why": ""}]
        assert told["due"] == alone["due"] and told["plan"]["status"] == "proven"
        steps = told["plan"]["steps"]
        ends = {run: max(step["ends_at"] for step in steps if step["run"] == run) for run in (wanted, other)}
        assert ends[other] < WEDNESDAY + 3 * DAY < latest <= ends[wanted] <= saturday
        hands = sorted((step["starts_at"], step["ends_at"]) for step in steps if step["kind"] == "hands")
        assert all(one[1] <= two[0] for one, two in itertools.pairwise(hands))

    def test_each_batch_has_its_own_time_and_what_is_said_names_it(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        runs = [begin(studio, recipe, 4) for _ in range(2)]
        for number, run in zip("12", runs, strict=True):
            studio.post(run, make_entry(run, at=WEDNESDAY, kind="numbered", body={"number": f"N{number}"}))
        due = {runs[0]: WEDNESDAY + 8 * DAY, runs[1]: WEDNESDAY + HOUR}

        told = until_made(studio, f"/plans/{ask(studio, runs=runs, due=due).json['id']}")

        soon, later = told["due"]
        assert (soon["run"], soon["begins_at"]) == (runs[1], None) and "Earliest: " in soon["why"]
        assert later["begins_at"] > WEDNESDAY + 5 * DAY and later["why"] == ""
        assert [part["name"] for part in told["parts"]] == ["N1", "N2"]
        says = [step["why"]["says"] for step in told["plan"]["steps"] if step["why"]]
        assert any("” of N1" in each for each in says) and any("” of N2" in each for each in says)

    def test_what_the_maker_left_out_is_planned_by_itself_and_stays_out(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        first, second = begin(studio, recipe, 4), begin(studio, recipe, 4)
        until_made(studio, f"/runs/{first}/plan")
        both = until_made(studio, f"/runs/{second}/plan")
        assert {part["run"] for part in both["parts"]} == {first, second}

        told = ask(studio, runs=[first], out=[second]).json
        alone = until_made(studio, f"/runs/{second}/plan")
        third = begin(studio, recipe, 4)
        three = until_made(studio, f"/runs/{third}/plan")

        assert (told["out"], [part["run"] for part in alone["parts"]]) == ([second], [second])
        assert studio.get(f"/runs/{second}/plan").json["id"] == alone["id"]
        assert {part["run"] for part in three["parts"]} == {third, first}

    def test_asking_about_what_is_not_begun_leaves_the_plan_of_the_others_alone(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        run = begin(studio, recipe, 4)
        plan = until_made(studio, f"/runs/{run}/plan")
        new = {"id": recipe["id"], "version": recipe["version"], "size": {"pieces": 4}}

        told = until_made(studio, f"/plans/{ask(studio, runs=[run], recipes=[new]).json['id']}")

        assert {step["run"] for step in told["plan"]["steps"]} == {run, "new-1"}
        assert studio.get(f"/runs/{run}/plan").json["id"] == plan["id"]

    def test_a_time_that_is_past_or_of_a_run_not_in_the_plan_is_refused(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        run, other = begin(studio, recipe, 4), begin(studio, recipe, 4)

        stray = ask(studio, runs=[run], due={other: WEDNESDAY + DAY})
        past = ask(studio, runs=[run, other], due={other: WEDNESDAY - 1})

        assert [answer.json["errors"][0]["field"] for answer in (stray, past)] == [f"due.{other}"] * 2

    def test_a_run_that_nobody_touched_for_a_day_does_not_join_nor_does_the_demos_own(
        self, studio: Studio, clock: Clock
    ) -> None:
        recipe = at_bench(studio)
        left, demo = begin(studio, recipe, 4), begin(studio, recipe, 4)
        for run in (left, demo):
            until_made(studio, f"/runs/{run}/plan")
        clock.ms += DAY + HOUR
        told = make_entry(demo, at=clock.ms, kind="noted", body={"text": "Shown"}, device="demo-phone")
        assert studio.post(demo, told).json["answers"][0]["result"] == "kept"

        run = begin(studio, recipe, 4)

        assert [part["run"] for part in until_made(studio, f"/runs/{run}/plan")["parts"]] == [run]

    def test_ready_by_begins_as_late_as_that_allows(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))
        ready_by = WEDNESDAY + 5 * DAY

        told = until_made(
            studio, f"/plans/{ask(studio, runs=[run], aim='ready_by', ready_by=ready_by).json['id']}"
        )

        assert told["plan"]["finish_at"] <= ready_by
        assert told["plan"]["begins_at"] > WEDNESDAY + 2 * DAY

    def test_once_begun_there_is_a_plan_even_if_it_cannot_be_ready_by_then(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))
        grind = {"step": "base.1.grind"}
        studio.post(run, make_entry(run, at=WEDNESDAY, kind="done", body=grind))

        answer = ask(studio, runs=[run], aim="ready_by", ready_by=WEDNESDAY + 2 * HOUR)
        told = until_made(studio, f"/plans/{answer.json['id']}")

        assert told["says"].startswith("It can no longer be ready by then.")
        assert told["plan"]["finish_at"] > WEDNESDAY + 2 * HOUR

    def test_without_a_solver_the_plain_rule_plans_and_says_so(
        self, studio: Studio, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr("bench.planning.solver.available", lambda: False)
        run = begin(studio, at_bench(studio))

        studio.get(f"/runs/{run}/plan")
        told = until_made(studio, f"/runs/{run}/plan")

        assert told["plan"]["by"] == "rule"
        assert told["plan"]["status"] == "proven" or told["says"].startswith("By the plain rule")

    def test_what_would_save_time_is_said_in_words(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))

        told = until_made(studio, f"/plans/{ask(studio, runs=[run], savings=True).json['id']}")

        assert {each["what"] for each in told["savings"]} >= {"second_maker", "extra_time", "mould"}
        most = told["savings"][0]
        assert (
            bench.span(most["saves_ms"]) in most["says"]
            if most["saves_ms"]
            else "Changes nothing" in most["says"]
        )


def test_what_time_could_be_saved_is_said_in_the_language_of_the_reader() -> None:
    nothing: TimeSaving = {
        "what": "second_maker", "finish_at": 0, "saves_ms": 0, "sessions": 1, "saves_sessions": 0, "proven": False,
    }  # fmt: skip
    longer: TimeSaving = {
        **nothing, "what": "extra_time", "closes_at": 1_800_000_000_000, "saves_ms": HOUR, "saves_sessions": 2, "proven": True,
    }  # fmt: skip
    made: Any = {"savings": [nothing, longer, {**nothing, "what": "mould", "name": "Tray", "saves_ms": None}], "zone": "Europe/Berlin"}  # fmt: skip
    told = {}
    for tag in ("en", "de"):
        with words.speaking(tag):
            told[tag] = [each["says"] for each in savings_said(made)]

    assert told["en"] == [
        "A second maker. Changes nothing. As far as was found.",
        "One hour more on Friday, past 9:00. Ends 1 h sooner. Saves 2 sessions at the bench.",
        "One more set: Tray. No plan was found to compare.",
    ]
    assert told["de"] == [
        "Eine zweite Person am Arbeitstisch. Ändert nichts. Soweit gefunden.",
        "Eine Stunde mehr am Freitag, über 9:00 hinaus. Endet 1 h früher. Spart 2 Einsätze am Arbeitstisch.",
        "Ein Satz mehr: Tray. Kein Plan zum Vergleichen gefunden.",
    ]


class TestRefused:
    def test_nothing_to_plan(self, studio: Studio) -> None:
        assert ask(studio).status_code == 422

    def test_a_run_that_is_not_here(self, studio: Studio) -> None:
        assert ask(studio, runs=[uuid4()]).json["errors"][0]["field"] == "runs.0"
        assert studio.get(f"/runs/{uuid4()}/plan").status_code == 404
        assert studio.get(f"/plans/{uuid4()}").status_code == 404

    def test_a_ready_by_in_the_past_left_out_or_too_far_ahead(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))

        past = ask(studio, runs=[run], aim="ready_by", ready_by=WEDNESDAY - 1)
        missing = ask(studio, runs=[run], aim="ready_by")
        far = ask(studio, runs=[run], aim="ready_by", ready_by=WEDNESDAY + 500 * DAY)

        for answer in (past, missing, far):
            assert answer.status_code == 422
            assert answer.json["errors"][0]["field"] == "ready_by"

    def test_a_ready_by_that_cannot_be_kept_is_answered_with_the_earliest(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))

        answer = ask(studio, runs=[run], aim="ready_by", ready_by=WEDNESDAY + 2 * HOUR)
        told = until_made(studio, f"/plans/{answer.json['id']}")

        assert told["plan"]["status"] == "impossible"
        assert "Earliest: " in told["says"]
        assert told["plan"]["reasons"][0]["change"][0]["what"] == "ready_by"

    def test_no_bench_hours_at_all(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        studio.put_hours({"makers": [{"name": "Ada", "hours": {**HOURS, "daily": []}}]}, studio.tag(1))

        answer = ask(studio, runs=[begin(studio, recipe)])

        assert answer.status_code == 422
        assert "No bench hours left" in answer.json["errors"][0]["detail"]


@pytest.fixture
def endless(monkeypatch: pytest.MonkeyPatch) -> None:
    """A search that never ends by itself: it goes on until it is told that it is not wanted."""
    plan = bench.plan

    def search(problem: Json, *, cancelled: Any, progress: Any, **how: Any) -> Json:
        made = plan(problem, changes=False, **how)
        progress({"aim": "usable", "plan": made})
        progress({"aim": "span", "value": None, "work": 0.25})
        while not cancelled():
            threading.Event().wait(0.01)  # the other threads have work to do
        return {**made, "cancelled": True}

    monkeypatch.setattr(bench, "plan", search)
    monkeypatch.setattr(planner, "LOOK_S", 0.02)
    monkeypatch.setattr("api.plans.WAIT_S", 0.2)


class TestWork:
    @pytest.mark.database("sqlite", "postgresql")
    @pytest.mark.usefixtures("endless")
    def test_a_search_is_stopped_and_the_best_so_far_stays(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))

        answer = ask(studio, runs=[run])
        while studio.get(f"/plans/{answer.json['id']}").json["progress"] is None:
            pass
        going = studio.get(f"/plans/{answer.json['id']}").json
        studio.client.post(f"/api/v1/plans/{going['id']}/cancel")
        told = until_made(studio, f"/plans/{going['id']}")

        assert answer.status_code == 202
        assert going["progress"] == {"aim": "span", "share": 0.25}
        assert going["plan"]["status"] == "proven"  # a usable plan is there while the search goes on
        assert told["says"].endswith("The search was stopped before its end.")

    @pytest.mark.database("sqlite", "postgresql")
    @pytest.mark.usefixtures("endless")
    def test_asking_anew_ends_the_search_before(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))
        before = ask(studio, runs=[run]).json["id"]

        after = ask(studio, runs=[run]).json["id"]
        ended = until_made(studio, f"/plans/{before}")
        studio.client.post(f"/api/v1/plans/{after}/cancel")

        assert ended["plan"]["cancelled"]
        assert until_made(studio, f"/plans/{after}")["plan"]["status"] == "proven"

    @pytest.mark.usefixtures("endless")
    def test_no_search_goes_on_beyond_its_limit(
        self, studio: Studio, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr(planner, "MAX_S", 0.3)
        recipe = at_bench(studio)
        part = {"pieces": 12, "without": [], "swaps": {}, "weigh": "running"}

        asked = ask(studio, recipes=[{"id": recipe["id"], "version": recipe["version"], "size": part}]).json

        assert until_made(studio, f"/plans/{asked['id']}")["plan"]["cancelled"]

    @pytest.mark.database("sqlite", "postgresql")
    def test_work_that_fell_silent_is_taken_up_again(self, app: Any, studio: Studio, clock: Clock) -> None:
        run = begin(studio, at_bench(studio))
        begins = app.extensions[EXTENSION].begin
        app.extensions[EXTENSION].begin = lambda *_: None  # as if the process had ended there
        assert studio.get(f"/runs/{run}/plan").json["state"] == "working"
        app.extensions[EXTENSION].begin = begins

        assert studio.get(f"/runs/{run}/plan").json["plan"] is None
        clock.ms += planner.SILENT_MS + 1

        studio.get(f"/runs/{run}/plan")
        assert until_made(studio, f"/runs/{run}/plan")["plan"]["status"] == "proven"

    @pytest.mark.database("sqlite", "postgresql")
    @pytest.mark.parametrize("later", [planner.SILENT_MS + 1, -7_200_000])
    def test_one_that_was_left_in_the_middle_is_not_worked_on_for_ever(
        self, app: Any, studio: Studio, clock: Clock, later: int
    ) -> None:
        """The server was killed; in the second case its clock was set back besides."""
        run = begin(studio, at_bench(studio))
        begins = app.extensions[EXTENSION].begin
        app.extensions[EXTENSION].begin = lambda *_: None
        plan = ask(studio, runs=[run]).json["id"]
        assert studio.get(f"/plans/{plan}").json["state"] == "working"
        app.extensions[EXTENSION].begin = begins

        clock.ms += later
        told = studio.get(f"/plans/{plan}").json

        assert (told["state"], "Ask again" in told["fault"]["detail"]) == ("refused", True)
        studio.get(f"/runs/{run}/plan")
        assert until_made(studio, f"/plans/{plan}")["plan"]["status"] == "proven"

    @pytest.mark.database("sqlite", "postgresql")
    def test_a_fault_of_ours_leaves_the_plan_that_was_there(
        self, studio: Studio, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        run = begin(studio, at_bench(studio))
        studio.get(f"/runs/{run}/plan")
        first = until_made(studio, f"/runs/{run}/plan")
        monkeypatch.setattr("api.planner._best", lambda *_: 1 / 0)
        studio.post(run, make_entry(run, at=WEDNESDAY))

        studio.get(f"/runs/{run}/plan")
        for thread in threading.enumerate():
            if thread.name == "plan":
                thread.join()
        told = studio.get(f"/plans/{first['id']}").json

        assert (told["state"], told["plan"]) == ("refused", first["plan"])
        assert "Its log says what" in told["fault"]["detail"]


class TestCalendar:
    def test_sessions_and_waits_are_read_back_by_a_calendar(self, studio: Studio) -> None:
        run = begin(studio, at_bench(studio))
        assert studio.get(f"/runs/{run}/calendar.ics").status_code == 409
        studio.get(f"/runs/{run}/plan")
        plan = until_made(studio, f"/runs/{run}/plan")["plan"]

        answer = studio.get(f"/runs/{run}/calendar.ics")

        assert answer.headers["Content-Type"].startswith("text/calendar")
        read = Calendar.from_ical(answer.data)
        events = {str(event["uid"]): event for event in read.walk("VEVENT")}
        waits = [step for step in plan["steps"] if step["kind"] == "wait"]
        assert len(events) == len(plan["sessions"]) + len(waits)
        first = next(event for uid, event in events.items() if uid.startswith("session-1-"))
        assert first["dtstart"].dt == datetime.fromtimestamp(plan["sessions"][0]["begins_at"] / 1000, UTC)
        assert first["dtend"].dt == datetime.fromtimestamp(plan["sessions"][0]["ends_at"] / 1000, UTC)
        for event in events.values():
            (alarm,) = event.walk("VALARM")
            assert alarm["action"] == "DISPLAY"
            before = timedelta(minutes=-15) if event["uid"].startswith("session") else timedelta(0)
            assert alarm["trigger"].dt == before
        ends = {event["dtstart"].dt for uid, event in events.items() if not uid.startswith("session")}
        assert ends == {datetime.fromtimestamp(step["ends_at"] // 1000, UTC) for step in waits}

    def test_a_plan_of_what_is_not_begun_has_one_too(self, studio: Studio) -> None:
        recipe = at_bench(studio)
        new = {"id": recipe["id"], "version": recipe["version"], "size": {"pieces": 12}}
        plan_id = ask(studio, recipes=[new]).json["id"]
        until_made(studio, f"/plans/{plan_id}")

        read = Calendar.from_ical(studio.get(f"/plans/{plan_id}/calendar.ics").data)

        assert str(read.walk("VEVENT")[0]["summary"]) == f"At the bench: {recipe['title']}"
