"""A week from its wants: against every way there is, against the plain rule, and what is said when it cannot be."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from bench.errors import PlanError
from bench.week import faults, plan_week, with_helps
from bench.week.aim_by_aim import Search, places_of
from bench.week.bound import least_short
from bench.week.units import InUnits
from tests.week.exhaustive import best
from tests.week.weeks import (
    DAY,
    HALF,
    HOUR,
    MONDAY,
    hold,
    sized,
    tiny,
    tiny_with_a_part,
    week_of,
    whole,
)

Json = dict[str, Any]

COUNTED = ("short", "back", "quality", "batches", "hands")
SEEDS_WITH_A_PART = (0, 5, 6, 7, 10, 11, 13, 15, 16, 24, 26, 28)  # those that take under a second to try out
SEEDS = range(18)  # 200 are a figure: `python -m tests.perf week`


def counted(search: Search) -> tuple[int, ...]:
    """The aims as the exhaustive search counts them."""
    in_halves = search.units.unit, HALF
    return tuple(
        value * in_halves[0] // in_halves[1] if aim in ("back", "hands") else value
        for aim in COUNTED
        for value in [search.values[aim]]
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_a_small_week_is_as_good_as_any_way_there_is(seed):
    week = tiny(seed)
    units = InUnits(week)
    search = Search(units, 6.0)
    for _ in search.aim_by_aim():
        pass
    places = dict(zip((make["id"] for make in week["makes"]), places_of(units, search.made), strict=True))

    tried = best(week, places)

    assert counted(search) == tried
    assert least_short(units) <= tried[0]
    assert search.plan()["status"] == "proven"


@pytest.mark.parametrize("seed", SEEDS_WITH_A_PART)
def test_a_small_week_with_a_part_made_ahead_is_as_good_as_any_way_there_is(seed):
    week = tiny_with_a_part(seed)
    units = InUnits(week)
    search = Search(units, 6.0)
    for _ in search.aim_by_aim():
        pass
    places = dict(zip((make["id"] for make in week["makes"]), places_of(units, search.made), strict=True))

    tried = best(week, places)

    assert counted(search) == tried
    assert least_short(units) <= tried[0]
    assert faults(week, search.plan()) == [] and search.plan()["status"] == "proven"


def bars(good: int = 6, **other: Any) -> Json:
    return {"id": "bars", "title": "Bars", "keeps_ms": None, "sizes": [sized(good, [HOUR], **other)]}


def evenings(days: int = 3, lasts: int = 2 * HOUR, name: str = "maker") -> Json:
    opens = [MONDAY + day * DAY + 18 * HOUR for day in range(days)]
    return {"name": name, "hours": [[at, at + lasts] for at in opens]}


def want(pieces: int, by: int, key: str = "market", make: str = "bars") -> Json:
    return {"id": key, "make": make, "pieces": pieces, "by": by}


def test_pieces_that_are_there_are_not_made_again():
    there = [{"make": "bars", "pieces": 4, "since": MONDAY, "until": None}]
    week = week_of([bars()], [want(10, MONDAY + 3 * DAY)], [evenings()], there=there)

    plan = plan_week(week)

    assert plan["from_there"] == {"market": 4}
    assert [(each["pieces"], each["gives"]) for each in plan["batches"]] == [(6, {"market": 6})]
    assert plan["short"] == []


def test_each_batch_says_when_to_begin_at_the_latest():
    week = week_of([bars(tail=24 * HOUR)], [want(6, MONDAY + 3 * DAY)], [evenings()])

    (batch,) = plan_week(week)["batches"]

    assert batch["begin_by"] == MONDAY + DAY + 19 * HOUR
    assert batch["ready_at"] <= MONDAY + 3 * DAY


def test_what_keeps_for_a_day_is_made_the_day_before():
    make = {**bars(), "keeps_ms": DAY}
    week = week_of([make], [want(6, MONDAY + 3 * DAY)], [evenings()])

    (batch,) = plan_week(week)["batches"]

    assert MONDAY + 2 * DAY <= batch["ready_at"] <= MONDAY + 3 * DAY


def test_a_delivery_that_comes_later_holds_the_batch_back():
    lots = [{"id": "new", "ingredient": "salt", "mg": 500, "since": MONDAY + DAY, "until": None}]
    week = week_of([bars(takes={"salt": 500})], [want(12, MONDAY + 3 * DAY)], [evenings()], lots=lots)

    plan = plan_week(week)

    assert [batch["takes"] for batch in plan["batches"]] == [{"new": 500}]
    assert plan["batches"][0]["sittings"][0]["starts_at"] >= MONDAY + DAY
    assert plan["short"] == [{"want": "market", "short": 6}]


def test_two_makers_share_one_mould():
    size = {"holds": [hold("mould", 1, 0, 0, 0, HOUR)]}
    week = week_of(
        [bars(**size)],
        [want(18, MONDAY + 20 * HOUR)],
        [evenings(), evenings(name="other")],
        equipment={"mould": {"name": "mould", "many": 1}},
    )

    plan = plan_week(week)

    assert plan["short"] == [{"want": "market", "short": 6}]
    assert plan["status"] == "proven"


def test_a_mould_that_a_batch_on_the_bench_still_holds_is_not_filled_again():
    """Not even by one pair of hands; and what is held until after the market is said to be short."""
    make = bars(holds=[hold("mould", 1, 0, 0, 0, HOUR)])
    equipment = {"mould": {"name": "mould", "many": 1}}

    def held_until(days: float) -> Json:
        busy = [{"equipment": "mould", "many": 3, "since": MONDAY, "until": MONDAY + int(days * DAY)}]
        wants = [want(6, MONDAY + 3 * DAY)]
        week = week_of([make], wants, [evenings()], equipment=equipment, busy=busy)
        return {**plan_week(week), "least": least_short(InUnits(week))}

    (batch,) = held_until(1.5)["batches"]
    assert batch["sittings"][0]["starts_at"] >= MONDAY + int(1.5 * DAY)
    late = held_until(9)
    assert (late["batches"], late["short"]) == ([], [{"want": "market", "short": 6}])
    assert (late["status"], late["least"]) == ("proven", 6)


def part_of_30_g(keeps_ms: int | None = None, **other: Any) -> Json:
    """Eight pieces of a part a batch."""
    part = {"ingredient": "embed", "each": 30}
    return {
        "id": "part",
        "title": "Part",
        "keeps_ms": keeps_ms,
        "sizes": [sized(8, [HOUR], **other)],
        "part": part,
    }


@pytest.mark.parametrize("is_solved", [True, False])
def test_a_part_is_ready_before_the_batch_that_takes_it_with_and_without_the_solver(is_solved, monkeypatch):
    """Two batches of bars take 180 of 240 that one batch of parts gives; two more parts are wanted for themselves."""
    monkeypatch.setattr("bench.week.aim_by_aim.available", lambda: is_solved)
    wants = [want(12, MONDAY + 3 * DAY), want(2, MONDAY + 3 * DAY, "parts", "part")]
    week = week_of([bars(takes={"embed": 90}), part_of_30_g(tail=HOUR)], wants, [evenings()])

    plan = plan_week(week)

    assert plan["short"] == [] and faults(week, plan) == []
    part = next(place for place, each in enumerate(plan["batches"]) if each["make"] == "part")
    assert plan["batches"][part]["begin_by"] is not None
    took = [each for batch in plan["batches"] for each in batch.get("parts", [])]
    assert [(each["much"], each["there"]) for each in took] == [(90, None)] * 2
    assert is_solved is False or [each["batch"] for each in took] == [part] * 2


def test_a_part_that_keeps_for_a_day_is_not_made_three_days_ahead():
    """And pieces of it that are on the bench come first, and are not promised twice."""
    make = {**bars(takes={"embed": 240}), "keeps_ms": DAY}
    there = [{"make": "part", "pieces": 3, "since": MONDAY, "until": None}]
    week = week_of([make, part_of_30_g(12 * HOUR)], [want(6, MONDAY + 3 * DAY)], [evenings()], there=there)

    plan = plan_week(week)

    assert [each["make"] for each in plan["batches"]] == ["part", "bars"]
    assert plan["batches"][0]["sittings"][0]["starts_at"] >= MONDAY + 2 * DAY
    assert faults(week, plan) == []
    late = copy.deepcopy(plan)
    for each in late["batches"][1]["parts"]:
        each["much"] += 240
    assert {"twice", "takes"} <= {fault.split(":")[0] for fault in faults(week, late)}
    stale = copy.deepcopy(plan)
    _at(stale["batches"][0], MONDAY + 18 * HOUR)
    stale["batches"][0]["ready_at"] = MONDAY + 19 * HOUR
    assert any(fault.startswith("unready") for fault in faults(week, stale))


def test_a_size_that_needs_more_moulds_than_there_are_is_not_planned():
    """Not even by one pair of hands, whose sittings never meet."""
    sizes = [sized(6 * many, [HOUR], holds=[hold("mould", many, 0, 0, 0, HOUR)]) for many in (1, 2)]
    make = {**bars(), "sizes": sizes}
    equipment = {"mould": {"name": "mould", "many": 1}}

    plan = plan_week(week_of([make], [want(12, MONDAY + 3 * DAY)], [evenings()], equipment=equipment))

    assert [batch["pieces"] for batch in plan["batches"]] == [6, 6]
    assert plan["short"] == []


def test_without_the_solver_the_plain_rule_plans_and_says_so(monkeypatch):
    monkeypatch.setattr("bench.week.aim_by_aim.available", lambda: False)
    monkeypatch.setattr("bench.week.loosen.available", lambda: False)
    week = week_of([bars()], [want(50, MONDAY + 3 * DAY)], [evenings()])

    plan = with_helps(week, plan_week(week))

    assert plan["status"] == "rule"
    assert plan["short"] == [{"want": "market", "short": 14}]
    assert all(aim["bound"] is None for aim in plan["aims"])
    assert plan["helps"]


def test_progress_hears_of_a_usable_plan_first():
    week = whole(3, makers=1, recipes=2)
    heard: list[Json] = []

    plan_week(week, budget=0.5, progress=heard.append)

    assert heard[0]["status"] == "rule"
    assert all(faults(week, plan) == [] for plan in heard)


def test_what_is_short_says_who_could_be_met_instead_and_what_helps():
    """Two wants for one evening that holds two batches: either is met, or an hour more does for both."""
    wants = [want(12, MONDAY + 22 * HOUR, "stall"), want(12, MONDAY + 22 * HOUR, "shop")]
    week = week_of([bars()], wants, [evenings(days=1, lasts=2 * HOUR)])

    plan = with_helps(week, plan_week(week))

    assert sum(each["short"] for each in plan["short"]) == 12
    assert plan["aims"][0]["bound"] == 12
    assert plan["served"] == [["stall"]] or plan["served"] == [["shop"]]
    hours = [each for each in plan["helps"] if each["what"] == "hours"]
    assert [each["short"] for each in hours] == [6]
    assert plan["helps"][0]["short"] == min(each["short"] for each in plan["helps"])


BROKEN = {
    "hours": lambda plan: _shift(plan["batches"][0], -6 * HOUR),
    "length": lambda plan: _shorter(plan["batches"][0]),
    "hands": lambda plan: _at(plan["batches"][1], plan["batches"][0]["sittings"][0]["starts_at"]),
    "late": lambda plan: plan["batches"][0].update(ready_at=MONDAY + 9 * DAY),
    "good": lambda plan: plan["batches"][0]["gives"].update(market=60),
    "pieces": lambda plan: plan["batches"][0]["gives"].update(market=5),
    "there": lambda plan: plan["from_there"].update(market=1),
    "takes": lambda plan: plan["batches"][0]["takes"].clear(),
    "equipment": lambda plan: _at(plan["batches"][1], plan["batches"][0]["sittings"][0]["starts_at"]),
    "ready": lambda plan: plan["batches"][0].update(ready_at=MONDAY),
}


def _shift(batch: Json, ms: int) -> None:
    for sitting in batch["sittings"]:
        sitting["starts_at"] += ms
        sitting["ends_at"] += ms


def _at(batch: Json, at: int) -> None:
    _shift(batch, at - batch["sittings"][0]["starts_at"])


def _shorter(batch: Json) -> None:
    batch["sittings"][0]["ends_at"] -= HALF


@pytest.fixture(scope="module")
def held():
    """A week with everything that can be broken, and a plan of it that holds."""
    lots = [{"id": "bag", "ingredient": "salt", "mg": 5000, "since": MONDAY, "until": None}]
    size = {"holds": [hold("mould", 1, 0, 0, 0, HOUR)], "takes": {"salt": 500}}
    week = week_of(
        [bars(**size)],
        [want(12, MONDAY + 3 * DAY)],
        [evenings()],
        equipment={"mould": {"name": "mould", "many": 1}},
        lots=lots,
    )
    plan = plan_week(week)
    assert faults(week, plan) == []
    return week, plan


@pytest.mark.parametrize("rule", BROKEN)
def test_the_check_finds_each_rule_that_is_broken(held, rule):
    week, plan = held
    broken = copy.deepcopy(plan)

    BROKEN[rule](broken)

    assert rule in {fault.split(":")[0] for fault in faults(week, broken)}


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"wants": []}, "wants"),
        ({"wants": [want(1, MONDAY)]}, "wants.0.by"),
        ({"wants": [want(1, MONDAY + DAY)] * 41}, "wants"),
        ({"makes": [{"id": "bars", "title": "Bars", "keeps_ms": None, "sizes": []}]}, "makes.0"),
        ({"makers": [{"name": "maker", "hours": []}]}, "makers"),
    ],
)
def test_what_cannot_be_planned_names_its_field(change, field):
    week = {**week_of([bars()], [want(1, MONDAY + DAY)], [evenings()]), **change}

    with pytest.raises(PlanError) as error:
        plan_week(week)

    assert error.value.where == field
    assert error.value.says
