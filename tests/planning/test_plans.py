"""Plans can be followed, nothing beats them, and the checker that says so can see every fault."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from typing import Any

import pytest

from bench.planning import plan
from tests.often import often
from tests.planning import published
from tests.planning.batches import (
    HOUR,
    MINUTE,
    MONDAY,
    make_batch,
    make_gap,
    make_hours,
    make_problem,
    make_task,
)
from tests.planning.checker import faults
from tests.planning.exhaustive import best_finish

Json = dict[str, Any]

SMALL = 0.5  # of the solver's seconds: enough for one small batch
INSTANCES = published.instances()


def make_small(seed: int, most: int = 7) -> Json:
    """A day of up to seven steps, tight enough that the order matters and hours often get in the way."""
    rng = random.Random(seed)
    tasks: list[Json] = []
    gaps: list[Json] = []
    for place in range(rng.randint(3, most)):
        key = f"s{place}"
        waits = bool(place) and rng.random() < 0.3
        tasks.append(
            make_task(
                key,
                rng.choice([5, 10, 20, 40, 90]) if waits else rng.randint(1, 6) * 5,
                kind="wait" if waits else "hands",
                component=rng.choice("ab"),
                uses={"mixer": 1} if not waits and rng.random() < 0.3 else {},
            )
        )
        if place and (waits or rng.random() < 0.5):
            need = f"s{rng.randrange(place)}"
            gaps.append(
                make_gap(
                    need, key, 0, rng.choice([0, 5, 20, 60]) if not waits and rng.random() < 0.5 else None
                )
            )
    starts = rng.choice([0, 0, 30])
    hours = [
        [
            MONDAY + (9 * 60 + starts + day * 60 * 24 + session * 150) * MINUTE,
            MONDAY + (9 * 60 + starts + day * 60 * 24 + session * 150 + length) * MINUTE,
        ]
        for day in range(4)
        for session, length in enumerate((rng.choice([30, 45, 60]), rng.choice([30, 60])))
    ]
    problem = make_problem(tasks, gaps, hours, equipment={"mixer": {"name": "Mixer", "many": 1}})
    hands = [task["id"] for task in tasks if task["kind"] == "hands"]
    if len(hands) >= 4 and rng.random() < 0.3:
        problem["equipment"]["mould"] = {"name": "Mould", "many": 1}
        problem["holds"] = [
            {"equipment": "mould", "many": 1, "from": one, "until": two}
            for one, two in (hands[:2], hands[2:4])
        ]
        problem["gaps"] += [make_gap(*hands[:2]), make_gap(*hands[2:4])]
    if len(hands) <= 4 and rng.random() < 0.3:
        problem["makers"].append({"name": "Helper", "hours": hours[::2]})
    return problem


def in_blocks(count: int, size: int) -> list[range]:
    return [range(begin, min(begin + size, count)) for begin in range(0, count, size)]


@pytest.mark.parametrize(
    "seeds", in_blocks(often(150, 500), 50), ids=lambda seeds: f"{seeds.start}-{seeds.stop - 1}"
)
def test_no_plan_breaks_a_rule(seeds: range) -> None:
    """Generated batches, one maker and two; what is called impossible is left to the search of all orders."""
    for seed in seeds:
        problem = make_small(seed) if seed % 4 else make_batch(seed, makers=1 + seed // 4 % 2)

        made = plan(problem, budget=SMALL, changes=False)

        if made["status"] in ("proven", "found"):
            assert faults(problem, made) == [], seed


def test_no_order_beats_the_plan() -> None:
    """Every order of small days, tried one by one."""
    possible = 0
    days = often(80, 200)
    for seed in range(days):
        problem = make_small(seed, most=7)

        made = plan(problem, changes=False)

        best = best_finish(problem)
        possible += best is not None
        assert made["finish_at"] == best, seed
        assert made["status"] == ("impossible" if best is None else "proven"), seed
    assert possible > days // 2


@pytest.mark.skipif(not INSTANCES, reason=f"the published instances are not at {published.FOLDER}")
@pytest.mark.parametrize(("name", "optimum"), INSTANCES)
def test_reaches_the_published_optimum_of(name: str, optimum: Any) -> None:
    """PSPLIB j30 and UBO10; `unsat` is found impossible."""
    problem = published.read(published.FOLDER / name)

    made = plan(problem, budget=60)

    if optimum == "unsat":
        assert made["status"] == "impossible"
    else:
        assert (made["finish_at"], made["status"]) == (optimum * published.UNIT_MS, "proven")
        assert faults(problem, made) == []


def test_the_same_input_gives_the_same_plan() -> None:
    problem = make_batch(4)

    assert plan(problem) == plan(copy.deepcopy(problem))


# The checker itself


def make_checked() -> tuple[Json, Json]:
    """A small day with one of everything, and its plan."""
    tasks = [
        make_task("mix", 10, component="a", uses={"mixer": 1}),
        make_task("pour", 5, component="a"),
        make_task("set", 60, kind="wait", component="a"),
        make_task("empty", 5, component="a"),
        make_task("whip", 10, component="b", uses={"mixer": 1}),
        make_task("pour_again", 5, component="b"),
        make_task("empty_again", 5, component="b"),
    ]
    gaps = [
        make_gap("mix", "pour", 0, 10),
        make_gap("pour", "set"),
        make_gap("set", "empty"),
        make_gap("whip", "pour_again"),
        make_gap("pour_again", "empty_again", 15),
    ]
    problem = make_problem(
        tasks,
        gaps,
        make_hours([(9 * 60, 11 * 60)], days=2),
        equipment={"mixer": {"name": "Mixer", "many": 1}, "mould": {"name": "Mould", "many": 1}},
        holds=[
            {"equipment": "mould", "many": 1, "from": "pour", "until": "empty"},
            {"equipment": "mould", "many": 1, "from": "pour_again", "until": "empty_again"},
        ],
        ready_by=MONDAY + 24 * HOUR,
    )
    problem["makers"].append({"name": "Helper", "hours": problem["makers"][0]["hours"]})
    made = plan(problem)
    assert faults(problem, made) == []
    return problem, made


def shift(key: str, minutes: float) -> Callable[[Json, Json], None]:
    def act(problem: Json, made: Json) -> None:
        step = next(step for step in made["steps"] if step["id"] == key)
        step["starts_at"] += round(minutes * MINUTE)
        step["ends_at"] += round(minutes * MINUTE)

    return act


def at(key: str, other: str) -> Callable[[Json, Json], None]:
    """Put a step at the start of another, in the same hands."""

    def act(problem: Json, made: Json) -> None:
        steps = {step["id"]: step for step in made["steps"]}
        lasts = steps[key]["ends_at"] - steps[key]["starts_at"]
        steps[key] |= {"starts_at": steps[other]["starts_at"], "ends_at": steps[other]["starts_at"] + lasts}

    return act


def first(made: Json, key: str) -> Json:
    return next(step for step in made["steps"] if step["id"] == key)


FAULTS = [
    ("all", lambda problem, made: made["steps"].pop()),
    ("once", lambda problem, made: made["steps"].append(made["steps"][0])),
    ("length", lambda problem, made: first(made, "mix").update(ends_at=first(made, "mix")["ends_at"] + 1)),
    ("past", shift("mix", -60)),
    ("ready_by", lambda problem, made: problem.update(ready_by=made["finish_at"] - 1)),
    ("hours", shift("empty_again", 3 * 60)),
    ("maker", lambda problem, made: first(made, "mix").update(maker=2)),
    (
        "hands",
        lambda problem, made: (
            [
                first(made, key).update(maker=0)
                for key in ("set", "whip", "mix", "pour", "pour_again", "empty", "empty_again")
            ]
            and at("whip", "mix")(problem, made)
        ),
    ),
    ("least", at("empty_again", "pour_again")),
    ("most", shift("pour", 15)),
    ("wait", shift("set", 1)),
    ("equipment", at("whip", "mix")),
    ("equipment", lambda problem, made: problem["equipment"]["mould"].update(many=0)),
    ("told", lambda problem, made: made.update(finish_at=made["finish_at"] + 1)),
    ("told", lambda problem, made: made["sessions"].pop()),
    (
        "told",
        lambda problem, made: made["aims"].append(
            {"aim": "sessions", "value": 9, "bound": 9, "proven": True}
        ),
    ),
    (
        "told",
        lambda problem, made: made["aims"].append({"aim": "span", "value": 0, "bound": 0, "proven": True}),
    ),
    (
        "told",
        lambda problem, made: made["aims"].append({"aim": "changes", "value": 0, "bound": 0, "proven": True}),
    ),
    (
        "told",
        lambda problem, made: made["aims"].append(
            {"aim": "start", "value": made["since"] + HOUR, "bound": 0, "proven": False}
        ),
    ),
    ("told", lambda problem, made: made["aims"][0].update(proven=not made["aims"][0]["proven"])),
]


@pytest.mark.parametrize(("rule", "spoil"), FAULTS)
def test_the_checker_sees_a_broken(rule: str, spoil: Callable[[Json, Json], Any]) -> None:
    problem, made = make_checked()

    spoil(problem, made)

    assert any(fault.startswith(f"{rule}:") for fault in faults(problem, made))
