"""Small worlds in which batches take up each other's things, and the ways through them, one step at a time."""

from __future__ import annotations

import random
from typing import Any

from tests.planning.batches import MONDAY, make_gap, make_task
from tests.planning.batches import make_problem as make_bare

Json = dict[str, Any]


def make_crossing(seed: int, **other: Any) -> Json:
    """Two or three batches that take up a bowl and a jug in either order, and the step of nobody's that no day holds:
    with it nothing can be foreseen."""
    rng = random.Random(seed)
    tasks, gaps, holds = [make_task("for ever", 12 * 60, run="four")], [], []
    for run in ("one", "two", "three")[: rng.choice([2, 3])]:
        keys = [f"{run}.{place}" for place in range(5)]
        tasks += [make_task(key, rng.choice([5, 10]), run=run) for key in keys]
        skips = rng.random() < 0.4  # two ways to the same step, one of which takes nothing up
        gaps += [make_gap(one, other) for one, other in zip(keys, keys[1:], strict=False)][skips:]
        gaps += [make_gap(keys[0], keys[2])] if skips else []
        for thing in rng.sample(["bowl", "jug", "cup"], rng.choice([2, 3])):
            begins = rng.randrange(4)
            holds.append(
                {
                    "equipment": thing,
                    "many": rng.choice([1, 2, 2]),
                    "from": keys[begins],
                    "until": keys[rng.randrange(begins + 1, 5)],
                }
            )
    things = {thing: {"name": thing, "many": 2} for thing in ("bowl", "jug", "cup")}
    return make_bare(tasks, gaps, holds=holds, equipment=things, **other)


def done_in(problem: Json, done: frozenset[str]) -> Json:
    ended = {"status": "done", "began_at": MONDAY, "ended_at": MONDAY, "left_ms": 0}
    return {
        **problem,
        "tasks": [{**each, **(ended if each["id"] in done else {})} for each in problem["tasks"]],
    }


def ways_on(problem: Json, done: frozenset[str]) -> list[frozenset[str]]:
    """What can be done next: all before it is, and what it takes up is there. Counted apart from the planner."""
    ways = []
    for task in problem["tasks"]:
        key = task["id"]
        if key in done or any(set(gap["from"]) - done for gap in problem["gaps"] if gap["to"] == key):
            continue
        there = {thing: each["many"] for thing, each in problem["equipment"].items()}
        for hold in problem["holds"]:
            if hold["from"] in done | {key} and hold["until"] not in done:
                there[hold["equipment"]] -= hold["many"]
        if min(there.values()) >= 0:
            ways.append(done | {key})
    return ways
