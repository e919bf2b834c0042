"""How soon a plan is there, how good it is against a plain rule, and how the rule with foresight keeps a day.

Times are the process's own, so that what else the machine does is not counted; the solver has one worker.
"""

from __future__ import annotations

import functools
import statistics
import time
from collections.abc import Callable
from typing import Any

from bench.planning import next_step, order_of, plan, replan
from bench.planning.layout import Day, Layout
from tests.perf.registry import figure
from tests.planning.batches import MINUTE, make_batch
from tests.planning.days import Lived, live
from tests.planning.demo import demo_day
from tests.planning.mixed import Fate, WithTheServer, by_recipe, by_the_phone, fate_of

Json = dict[str, Any]

ROUNDS = 5
DEMO_DAYS = 200
GENERATED_DAYS = 120
PLAIN_BATCHES = 200
MIXED_DAYS = 500
PLAN_WORK = 0.5  # of the solver's seconds for each of the many plans of the mixed days


@figure("plan of the demo batch: finish, sessions and span proven, process time", "<= 0.5 s")
def demo_plan() -> float:
    return proven_in(demo_day())


@figure("plan of the demo batch: first usable plan, process time", "<= 0.1 s")
def demo_first() -> float:
    problem = demo_day()
    return statistics.median(first_usable(problem) for _ in range(ROUNDS))


@figure("plan of two batches side by side: finish, sessions and span proven, process time", "<= 5 s")
def two_batches() -> float:
    return proven_in(demo_day(batches=2))


@figure("plan of five fresh batches side by side: first usable plan, process time", "<= 1 s")
def five_first() -> float:
    return first_usable(demo_day(batches=5))


@figure("plan of five fresh batches side by side: finish, sessions and span proven, process time", "<= 10 s")
def five_batches() -> float:
    return proven_in(demo_day(batches=5), rounds=1)


MIXED = "500 days, 1 to 4 batches of all demo recipes, hands off by 30 %, one pause of 20 min"


@functools.cache
def mixed(who: str) -> Fate:
    """The same days by the phone's rule offline, with the server's plans, and by the order of the recipes."""
    return fate_of(
        range(MIXED_DAYS),
        {
            "phone": lambda: by_the_phone,
            "server": lambda: WithTheServer(PLAN_WORK),
            "recipe": lambda: by_recipe,
        }[who],
    )


def _elsewhere(fate: Fate) -> float:
    return 100 * (fate.brought_back - fate.brought_back_by_pause) / max(1, fate.could_be_brought_back)


# What of these days goes wrong, and how it is taken.
WENT_WRONG: dict[str, Callable[[Fate], float]] = {
    "states ruined": lambda fate: fate.ruined + fate.stuck,
    "brought back": lambda fate: 100 * fate.back_share,
    "brought back though the pause fell elsewhere": _elsewhere,
    "windows of quality missed": lambda fate: 100 * fate.missed_share,
}
for _who, _by, _most in (("phone", "the phone's rule offline", 5), ("server", "with the server's plan", 2)):
    for _what, _taken in WENT_WRONG.items():
        _must = "<= 0" if _what == "states ruined" else f"<= {_most} %"
        figure(f"{MIXED}, {_by}: {_what}", _must)(lambda who=_who, taken=_taken: taken(mixed(who)))  # type: ignore[misc]


@figure(f"{MIXED}, the phone's rule offline: longest day / with the server's plan", "<= 1.5")
def longest_day() -> float:
    return mixed("phone").longest_ms / mixed("server").longest_ms


@figure(f"{MIXED}, in the order of the recipes: states ruined", ">= 1")
def recipe_ruined() -> float:
    return mixed("recipe").ruined


@figure("the demo batch half done and four minutes late, planned again, process time", "<= 300 ms")
def live_again() -> float:
    problem = demo_day()
    made = plan(problem)
    half = made["steps"][len(made["steps"]) // 2]["starts_at"] + 4 * MINUTE
    done = {
        step["id"]: {"status": "done", "ended_at": step["ends_at"] + 4 * MINUTE, "left_ms": 0}
        for step in made["steps"]
        if step["ends_at"] + 4 * MINUTE <= half
    }
    return 1000 * statistics.median(
        seconds(lambda: replan(problem, made, half, done=done)) for _ in range(ROUNDS)
    )


@figure(
    "the rule with foresight, 200 days of the demo batch, hands off by 30 %: days with a broken gap", "<= 0"
)
def demo_days() -> float:
    problem = demo_day()
    order = order_of(plan(problem))
    days = [live(problem, lambda at, now: next_step(at, order, now), seed) for seed in range(DEMO_DAYS)]
    return sum(bool(day.broken) or day.stuck for day in days)


@figure("the rule with foresight, 120 generated days, hands off by 30 %: days with a broken gap", "<= 10")
def generated_days() -> float:
    return sum(bool(day.broken) for day, _ in lived())


@figure("the rule with foresight, 120 generated days: the worst break, min", "<= 5")
def worst_break() -> float:
    return max((over / MINUTE for day, _ in lived() for over in day.broken), default=0)


@figure("the rule with foresight, 120 generated days: days that stood still", "<= 0")
def stuck_days() -> float:
    return sum(day.stuck for day, _ in lived())


@figure(
    "the rule with foresight, 120 generated days: time to finish / by planning again at each step, mean",
    "<= 1.05",
)
def finish_ratio() -> float:
    ratios = [
        day.finish_after / again.finish_after
        for day, again in lived()
        if day.finish is not None and again.finish is not None
    ]
    return statistics.mean(ratios)


@figure("latest finish first / the plan, time to finish, 200 generated batches, mean", ">= 1")
def plain_mean() -> float:
    return statistics.mean(plain_ratios())


@figure("latest finish first / the plan, time to finish, 200 generated batches, worst", ">= 1")
def plain_worst() -> float:
    return max(plain_ratios())


def proven_in(problem: Json, rounds: int = ROUNDS) -> float:
    """The median time to prove the first three aims; without a proof it is for ever."""
    times = []
    for _ in range(rounds):
        began = time.process_time()
        made = plan(problem, changes=False)
        times.append(time.process_time() - began)
        proven = {aim["aim"] for aim in made["aims"] if aim["proven"]}
        if not proven >= {"finish", "sessions", "span"}:
            return float("inf")
    return statistics.median(times)


def first_usable(problem: Json) -> float:
    began = time.process_time()
    times: list[float] = []
    plan(problem, progress=lambda said: times.append(time.process_time() - began), changes=False)
    return times[0]


def seconds(act: Callable[[], Any]) -> float:
    began = time.process_time()
    act()
    return time.process_time() - began


@functools.cache
def lived() -> list[tuple[Lived, Lived]]:
    """120 generated days that fit their hours, each by the rule and by planning again at each step."""
    days = []
    seed = 0
    while len(days) < GENERATED_DAYS:
        problem = make_batch(seed)
        made = plan(problem, changes=False)
        if made["status"] in ("proven", "found"):
            order = order_of(made)
            by_rule = live(problem, lambda at, now, order=order: next_step(at, order, now), seed)  # type: ignore[misc]
            days.append((by_rule, live(problem, planning_again(made), seed)))
        seed += 1
    return days


def planning_again(made: Json) -> Callable[[Json, int], Json]:
    """A maker who has the day planned again whenever hands are free, and does as it says."""
    last = made

    def decide(problem: Json, now: int) -> Json:
        nonlocal last
        last = replan(problem, last, now, budget=2)
        first = next(step for step in last["steps"] if step["kind"] == "hands" and step["status"] == "open")
        if first["starts_at"] < now + MINUTE:
            return {"step": first["id"], "until": None}
        ends = [
            task["began_at"] + task["left_ms"]
            for task in problem["tasks"]
            if task["kind"] == "wait" and task["status"] == "begun"
        ]
        return {"step": None, "until": min([first["starts_at"], *(end for end in ends if end > now)])}

    return decide


@functools.cache
def plain_ratios() -> list[float]:
    ratios = []
    for seed in range(PLAIN_BATCHES):
        problem = make_batch(seed)
        made = plan(problem, changes=False, budget=2)
        day = Day(problem, problem["since"])
        plain = Layout(day, day.by_need(day.latest_finish_first()))
        if made["status"] in ("proven", "found") and plain.placed and not plain.broken:
            ratios.append((plain.finish - day.now) / (made["finish_at"] - day.now))
    return ratios
