"""The plan of the order of work: from finished pieces and batches on the bench, offered and followed, never twice."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from api import copies, week_plans, weeks
from api.kit import STARTER_KIT
from tests.api.doorway import paired
from tests.api.stock import described, to_shelf
from tests.api.studio import Studio
from tests.api.test_finished_pieces import told
from tests.make import Clock, make_entry, make_recipe, make_run, uuid4
from tests.planning.demo import HOURS

Json = dict[str, Any]
WEDNESDAY = int(datetime(2026, 11, 25, 9, tzinfo=UTC).timestamp() * 1000)
DAY = 86_400_000
NOBODY = "00000000-0000-4000-8000-000000000000"


@pytest.fixture
def clock() -> Clock:
    return Clock(WEDNESDAY)


@pytest.fixture
def recipe(studio: Studio) -> Json:
    studio.put_hours({"makers": [{"name": "Ada", "hours": HOURS}]})
    document = make_recipe()
    document["components"][0]["steps"].append({"id": "press", "kind": "pieces", "title": "Press"})
    made: Json = studio.put_recipe(uuid4(), document).json
    return made


def want(studio: Studio, recipe: Json, pieces: int, days: float = 3, **more: Any) -> str:
    key = uuid4()
    said = {"recipe": recipe["id"], "pieces": pieces, "by": WEDNESDAY + int(days * DAY), **more}
    assert studio.client.put(f"/api/v1/wants/{key}", json=said).status_code == 201
    return key


def change(studio: Studio, key: str, **said: Any) -> None:
    kept = studio.get(f"/wants/{key}")
    body = {name: kept.json[name] for name in ("recipe", "pieces", "by", "outlet", "note", "state")} | said
    headers = {"If-Match": kept.headers["ETag"]}
    assert studio.client.put(f"/api/v1/wants/{key}", json=body, headers=headers).status_code == 200


def planned(studio: Studio) -> Json:
    answer = studio.client.post("/api/v1/week/plan")
    assert answer.status_code == 200, answer.json
    made: Json = answer.json
    return made


def lines(plan: Json) -> dict[str, tuple[int, int, int, int]]:
    return {
        each["want"]: (each["there"], each["coming"], each["made"], each["short"]) for each in plan["lines"]
    }


def begin(studio: Studio, recipe: Json, at: int, pieces: int = 12) -> str:
    run = uuid4()
    size = {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running"}
    assert studio.put_run(run, {**make_run(recipe), "size": size, "made_at": at}).status_code == 201
    return run


def counts(studio: Studio, run: str, at: int, good: int, *, ends: bool) -> None:
    step = next(
        each["id"] for each in studio.get(f"/runs/{run}").json["sheet"]["steps"] if each["kind"] == "pieces"
    )
    entries = [make_entry(run, at=at, kind="counted", body={"step": step, "good": good})]
    entries += [make_entry(run, at=at + 1, kind="finished", body={})] if ends else []
    assert studio.post(run, *entries).status_code == 200


def test_two_lines_become_batches_and_the_first_plan_is_followed(studio: Studio, recipe: Json) -> None:
    first, second = want(studio, recipe, 12), want(studio, recipe, 8)

    plan = planned(studio)
    now = studio.get("/week").json

    assert [(each["pieces"], each["by"]) for each in plan["wants"]] == [(20, WEDNESDAY + 3 * DAY)]
    assert lines(plan) == {first: (0, 0, 12, 0), second: (0, 0, 8, 0)}
    assert now["followed"] == plan and now["offered"] is None and now["mark"] == plan["mark"]
    batch = plan["plan"]["batches"][0]
    day = datetime.fromtimestamp(batch["sittings"][0]["starts_at"] / 1000, UTC).date().isoformat()
    assert plan["needs"][0] == {"recipe": recipe["id"], "pieces": batch["pieces"], "on": day}
    asked = {"wants": plan["needs"], "today": "2026-11-25"}
    assert studio.client.post("/api/v1/buying", json=asked).status_code == 200


def test_a_first_plan_comes_at_once_and_the_full_one_takes_its_place(studio: Studio, recipe: Json) -> None:
    key = want(studio, recipe, 12)

    quick = studio.client.post("/api/v1/week/plan?quick=true").json
    assert quick["quick"] and quick["plan"]["batches"] and studio.get("/week").json["followed"] == quick
    full = planned(studio)
    assert not full["quick"] and studio.get("/week").json["followed"] == full
    to_shelf(studio, described("Goose feathers", "feathers"))  # of no recipe, but the shelf was written
    assert studio.get("/week").json["mark"] != full["mark"]
    again = planned(studio)  # to do the same again is no news
    now = studio.get("/week").json
    assert (now["followed"], now["offered"]) == (again, None)
    assert again["plan"]["batches"] == full["plan"]["batches"]
    change(studio, key, pieces=30)  # what is to be done differs: it is offered, and nothing moves
    another = planned(studio)
    now = studio.get("/week").json
    assert (now["followed"]["id"], now["offered"]) == (again["id"], another)

    change(studio, key, state="met")
    want(studio, recipe, 3, days=5)
    assert studio.get("/week").json["followed"] is None  # nothing of the new order is in it
    assert studio.get("/week").json["offered"] is None
    assert planned(studio) == studio.get("/week").json["followed"]


def test_finished_pieces_come_first_and_each_is_promised_once(studio: Studio, recipe: Json) -> None:
    run = begin(studio, recipe, WEDNESDAY - DAY)
    counts(studio, run, WEDNESDAY - DAY + 9, 10, ends=True)
    first, second = want(studio, recipe, 6, days=2), want(studio, recipe, 9)

    plan = planned(studio)

    assert studio.get("/week").json["there"] == {first: 6, second: 4}
    assert lines(plan) == {first: (6, 0, 0, 0), second: (4, 0, 5, 0)}
    change(studio, first, state="met")  # they go with it
    sold = told("sold", run, pieces=6)
    sold["at"] = WEDNESDAY
    to_shelf(studio, sold)
    assert studio.get("/week").json["there"] == {second: 4}


def test_pieces_that_are_held_or_go_off_before_are_promised_to_nobody(studio: Studio, recipe: Json) -> None:
    run = begin(studio, recipe, WEDNESDAY - DAY)
    counts(studio, run, WEDNESDAY - DAY + 9, 10, ends=True)
    key = want(studio, recipe, 6)
    assert studio.get("/week").json["there"] == {key: 6}

    held = make_entry(
        run,
        at=WEDNESDAY,
        kind="judged",
        body={"about": "batch", "verdict": "held", "name": "Ada", "why": "Soft."},
    )
    assert [each["result"] for each in studio.post(run, held).json["answers"]] == ["kept"]

    assert studio.get("/week").json["there"] == {}


def test_a_batch_that_was_begun_is_taken_from_the_plan(studio: Studio, recipe: Json, clock: Clock) -> None:
    key = want(studio, recipe, 12)
    followed = planned(studio)
    clock.ms += 60_000
    run = begin(studio, recipe, clock.ms)

    now = studio.get("/week").json
    assert now["mark"] != followed["mark"] and now["offered"] is None and now["followed"] == followed
    assert [(each["batch"], each["run"], each["finished_at"]) for each in now["begun"]] == [(0, run, None)]

    offered = planned(studio)
    assert lines(offered) == {key: (0, 12, 0, 0)} and offered["plan"]["batches"] == []
    assert studio.get("/week").json["followed"] == followed  # nothing moves under a hand
    assert studio.get("/week").json["offered"] == offered
    took = studio.client.put("/api/v1/week/plan", json={"plan": offered["id"]})
    assert took.json == offered and studio.get("/week").json["followed"] == offered
    assert studio.client.put("/api/v1/week/plan", json={"plan": followed["id"]}).status_code == 409

    counts(studio, run, clock.ms + 5, 9, ends=True)  # three were spoiled: they are made again
    assert lines(planned(studio)) == {key: (9, 0, 3, 0)}


def test_hands_that_are_on_a_batch_are_not_planned_for_another(
    studio: Studio, recipe: Json, clock: Clock
) -> None:
    run = begin(studio, recipe, clock.ms - 60_000)
    want(studio, recipe, 30)
    studio.client.post("/api/v1/plans", json={"runs": [run]})
    hands = [
        (step["starts_at"], step["ends_at"])
        for step in studio.get(f"/runs/{run}/plan").json["plan"]["steps"]
        if step["maker"] is not None and step["ends_at"] > step["starts_at"]
    ]

    plan = planned(studio)["plan"]

    spans = [(each["starts_at"], each["ends_at"]) for batch in plan["batches"] for each in batch["sittings"]]
    assert hands and spans and plan["from_there"] == {"0": 12}
    assert [(one, two) for one in hands for two in spans if one[0] < two[1] and two[0] < one[1]] == []


def test_what_a_plan_hangs_on_makes_another_mark_and_what_it_does_not_makes_none(
    studio: Studio, recipe: Json, clock: Clock
) -> None:
    key = want(studio, recipe, 12)
    run = begin(studio, recipe, clock.ms)
    marks = [studio.get("/week").json["mark"]]

    def mark() -> None:
        marks.append(studio.get("/week").json["mark"])

    change(studio, key, pieces=13)
    mark()
    studio.put_hours({"makers": [{"name": "Bea", "hours": HOURS}]}, studio.get("/hours").headers["ETag"])
    mark()
    begin(studio, recipe, clock.ms + 1)
    mark()
    counts(studio, run, clock.ms + 2, 12, ends=True)
    mark()
    document = studio.get(f"/recipes/{recipe['id']}")
    studio.put_recipe(
        recipe["id"], {**document.json["document"], "title": "Another"}, document.headers["ETag"]
    )
    mark()
    assert len(set(marks)) == len(marks) == 6

    studio.with_recipe(title="Of nobody's order")
    mark()
    assert marks[-1] == marks[-2]


def test_lines_that_are_past_too_far_or_too_many_are_named_and_the_rest_is_planned(
    studio: Studio, recipe: Json, clock: Clock
) -> None:
    past = want(studio, recipe, 5, days=-1)
    near = want(studio, recipe, 12)
    far = want(studio, recipe, 5, days=weeks.MOST_DAYS + 9)

    plan = planned(studio)

    assert (plan["past"], plan["later"]) == ([past], [far])
    assert lines(plan) == {near: (0, 0, 12, 0)}
    clock.ms += 4 * DAY  # the clock leaps over the market
    later = planned(studio)
    assert later["past"] == [past, near] and later["plan"]["batches"] == []
    assert later["says"] == "Nothing to make."


def test_a_recipe_that_is_gone_or_cannot_be_made_spoils_no_other(
    studio: Studio, recipe: Json, monkeypatch: pytest.MonkeyPatch
) -> None:
    key, other = want(studio, recipe, 12), want(studio, studio.with_recipe(title="Gone"), 4)
    real = week_plans.current_version

    def current(connection: Any, recipe_id: str) -> Any:
        return real(connection, recipe_id) if recipe_id == recipe["id"] else None

    monkeypatch.setattr(week_plans, "current_version", current)
    plan = planned(studio)

    gone = studio.get(f"/wants/{other}").json["recipe"]
    assert plan["cannot"] == [gone]
    assert lines(plan) == {key: (0, 0, 12, 0), other: (0, 0, 0, 4)}
    monkeypatch.undo()
    assert studio.get("/week").json["followed"] == plan


def test_with_no_hours_the_way_out_is_said_and_what_was_followed_stays(studio: Studio, recipe: Json) -> None:
    want(studio, recipe, 12)
    followed = planned(studio)
    never = {"zone": "UTC", "daily": []}
    studio.put_hours({"makers": [{"name": "Ada", "hours": never}]}, studio.get("/hours").headers["ETag"])

    refused = studio.client.post("/api/v1/week/plan")

    assert refused.status_code == 422 and "hours" in refused.json["detail"]
    assert studio.get("/week").json["followed"] == followed


@pytest.mark.database("sqlite")
def test_without_the_solver_the_rule_plans(
    studio: Studio, recipe: Json, monkeypatch: pytest.MonkeyPatch
) -> None:
    key = want(studio, recipe, 12)
    for module in ("bench.week.aim_by_aim", "bench.week.loosen", "bench.planning.solver"):
        monkeypatch.setattr(f"{module}.available", lambda: False)

    plan = planned(studio)

    assert plan["plan"]["status"] == "rule" and lines(plan) == {key: (0, 0, 12, 0)}


def test_a_plan_is_in_a_copy_and_no_order_leaves_none(
    studio: Studio, recipe: Json, app: Any, tmp_path: Any
) -> None:
    key = want(studio, recipe, 12)
    followed = planned(studio)
    with app.app_context():
        copies.write(tmp_path / "copy.jsonl.gz")
    change(studio, key, state="dropped")
    assert studio.get("/week").json["followed"] is None
    with app.app_context():
        copies.restore(app, tmp_path / "copy.jsonl.gz")

    assert studio.get("/week").json["followed"] == followed


@pytest.mark.database("sqlite")
def test_one_week_is_planned_at_a_time_and_a_helper_plans_none(
    new_app: Any, studio: Studio, recipe: Json
) -> None:
    want(studio, recipe, 12)
    with weeks._at_work:
        assert studio.client.post("/api/v1/week/plan").status_code == 429
    helper = Studio(paired(new_app(pairing=True), "helper", "helper"))
    assert helper.get("/week").status_code == 200
    assert helper.client.post("/api/v1/week/plan").status_code == 403
    assert helper.client.put("/api/v1/week/plan", json={"plan": NOBODY}).status_code == 403


def test_a_batch_waits_for_what_must_be_ordered_and_what_to_buy_by_when_follows(
    studio: Studio, recipe: Json, clock: Clock
) -> None:
    said = [
        {
            "kind": "described",
            "body": {"ingredient": "salt", "card": {"name": "Sea salt", "supply": {"lead_days": 2}}},
        },
        {
            "kind": "received",
            "body": {
                "lot": "l-1",
                "number": "L-1",
                "ingredient": "salt",
                "mg": 1000,
                "received_on": "2026-11-20",
            },
        },
    ]
    for each in said:
        answer = to_shelf(studio, make_entry("shelf", at=clock.ms - DAY, **each))
        assert [each["result"] for each in answer.json["answers"]] == ["kept"], answer.json
    key = want(studio, recipe, 12)

    plan = planned(studio)

    assert lines(plan) == {key: (0, 0, 12, 0)}
    ordered = [each for each in plan["plan"]["batches"] if "order.salt" in each["takes"]]
    assert ordered and plan["names"]["salt"] == "Sea salt"
    there = int(datetime(2026, 11, 27, tzinfo=UTC).timestamp() * 1000)
    assert all(each["sittings"][0]["starts_at"] >= there for each in ordered)
    (row,) = studio.client.post("/api/v1/buying", json={"wants": plan["needs"], "today": "2026-11-25"}).json[
        "rows"
    ]
    assert row["lacking"] > 0 and "2026-11-25" <= row["order_by"] and not row["late"]


def poured() -> Json:
    """Twelve bars of 100 g in the only tray, poured and left to set for two days."""
    document = make_recipe(lines=1)
    document["written_for"] = 12
    part = document["components"][0]
    part |= {"piece": "100 g", "mould": {"shape": "bar", "held": True}}
    part["lines"][0]["amount"] = "1200 g"
    part["steps"][1:] = [
        {"id": "pour", "kind": "pieces", "does": "pour", "title": "Pour", "hands": "5 min"},
        {
            "id": "setting",
            "kind": "wait",
            "title": "Let it set",
            "word": "set",
            "earliest": "48 h",
            "usual": "48 h",
        },
        {"id": "unmould", "kind": "pieces", "does": "unmould", "title": "Turn out", "hands": "5 min"},
    ]
    return document


def test_moulds_that_an_open_batch_holds_are_filled_again_only_once_they_are_empty(
    studio: Studio, clock: Clock
) -> None:
    studio.put_hours({"makers": [{"name": name, "hours": HOURS} for name in ("Ada", "Bea")]})
    tray = {"id": "tray", "name": "Tray", "shape": "bar", "cavities": 12, "sets": 1, "cavity": "120 g"}
    assert studio.put_kit({**STARTER_KIT, "moulds": [tray]}).status_code == 201
    recipe = studio.put_recipe(uuid4(), poured()).json
    run, at = begin(studio, recipe, clock.ms - 60_000), clock.ms - 50_000
    sheet = studio.get(f"/runs/{run}").json["sheet"]
    step = {each["step"]: each["id"] for each in sheet["steps"]}
    (line,) = sheet["lines"]
    said: list[Json] = [
        {"kind": "weighed", "body": {"line": line["id"], "mg": line["mg"]}},
        {"kind": "counted", "body": {"step": step["pour"], "good": 12}},
        {"kind": "done", "body": {"step": step["pour"]}},
        {"kind": "began", "body": {"step": step["setting"]}},
    ]
    answer = studio.post(run, *(make_entry(run, at=at + place, **each) for place, each in enumerate(said)))
    assert [each["result"] for each in answer.json["answers"]] == ["kept"] * len(said), answer.json
    want(studio, recipe, 24, days=9)

    (batch,) = planned(studio)["plan"]["batches"]

    assert batch["sittings"][0]["starts_at"] >= at + 2 * DAY


def test_a_part_is_made_ahead_of_the_batch_that_it_goes_into(studio: Studio, clock: Clock) -> None:
    """Soaks that each take a shell: no shell is there, so a batch of shells comes first, and is not bought."""
    studio.put_hours({"makers": [{"name": "Ada", "hours": HOURS}]})
    shells = studio.put_recipe(uuid4(), make_recipe(title="Sugar shell")).json
    document = make_recipe(title="Soak with a shell")
    document["ingredients"]["shell"] = {"name": "Sugar shell"}
    document["components"][0]["lines"].append({"id": "shell", "ingredient": "shell", "amount": "10 pieces"})
    document["components"][0]["steps"][0]["lines"].append("shell")
    soaks = studio.put_recipe(uuid4(), document).json
    want(studio, soaks, 10)

    plan = planned(studio)

    assert [each["make"] for each in plan["plan"]["batches"]] == [shells["id"], soaks["id"]]
    shell, soak = plan["plan"]["batches"]
    assert shell["gives"] == {} and shell["ready_at"] <= soak["sittings"][0]["starts_at"]
    (part,) = soak["parts"]
    assert (part["much"], part["batch"], part["there"]) == (10, 0, None) and shell["good"] >= 10
    assert plan["titles"][shells["id"]] == "Sugar shell"
    buying = studio.client.post("/api/v1/buying", json={"wants": plan["needs"], "today": "2026-11-25"}).json
    assert [each["name"] for each in buying["unjoined"]] == ["Sea salt"]

    shelf = [  # twelve from a batch of before are on the shelf by now: nothing is to be made ahead
        {"kind": "described", "body": {"ingredient": "shell", "card": {"name": "Sugar shell"}}},
        {
            "kind": "received",
            "body": {
                "lot": "l-1",
                "number": "L-1",
                "ingredient": "shell",
                "count": 40,
                "received_on": "2026-11-20",
            },
        },
    ]
    for each in shelf:
        answer = to_shelf(studio, make_entry("shelf", at=clock.ms - DAY, **each))
        assert [each["result"] for each in answer.json["answers"]] == ["kept"], answer.json
    assert [each["make"] for each in planned(studio)["plan"]["batches"]] == [soaks["id"]]
    mark = studio.get("/week").json["mark"]
    begin(studio, shells, clock.ms, pieces=5)
    assert studio.get("/week").json["mark"] != mark
