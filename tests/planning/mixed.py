"""Days as a studio has them: one to four batches of the demo's recipes, begun at different times, by hands
that are off, with one interruption; and what became of the states and windows on the way."""

from __future__ import annotations

import functools
import json
import random
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import bench
from bench.planning import make_problem, next_step, order_of, plan, replan, tasks_of
from bench.planning.layout import Day
from bench.planning.price import is_ruin
from tests.planning.batches import MINUTE
from tests.planning.demo import DAY, HOURS, WEDNESDAY, demo_kit
from tests.servers import ROOT

Json = dict[str, Any]
Decide = Callable[
    [Json, int, bool], Json
]  # (problem, now, something unforeseen has happened) -> as next_step

PAUSE_MS = 20 * MINUTE
LEAST_MS = 15_000
MOST_DECISIONS = 3000


@dataclass
class Fate:
    """What became of the windows of some days: how many there were of each class, and how many were missed."""

    days: int = 0
    stuck: int = 0
    could_be_brought_back: int = 0
    quality: int = 0
    ruined: int = 0
    brought_back: int = 0
    missed: int = 0
    held_twice: int = 0  # steps that took a bowl, a jug or moulds of which all were in use
    longest_ms: int = 0  # the day that took longest, to the end of its last step
    brought_back_by_pause: int = 0  # of those, kept but for the pause, which fell inside the window

    @property
    def back_share(self) -> float:
        return self.brought_back / max(1, self.could_be_brought_back)

    @property
    def missed_share(self) -> float:
        return self.missed / max(1, self.quality)


@functools.cache
def recipes() -> list[Json]:
    paths = sorted((ROOT / "demo/recipes").glob("*-*.json"))
    return [bench.read_recipe(json.loads(path.read_text(encoding="utf-8"))) for path in paths]


@functools.cache
def part_of(recipe: int, pieces: int) -> tuple[Json, Json]:
    measured = recipes()[recipe]
    size = {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running"}
    return bench.make_sheet(measured, {"id": f"r{recipe}", "version": 1}, size, demo_kit()), measured


def mixed_day(seed: int) -> tuple[Json, dict[str, int]]:
    """A problem of several batches, and when each is begun on."""
    rng = random.Random(seed)
    parts, begun = [], {}
    for number in range(rng.randint(1, 4)):
        sheet, measured = part_of(rng.randrange(len(recipes())), rng.choice([6, 12]))
        run = f"run{number}"
        parts.append(tasks_of(sheet, run=run))
        begun[run] = WEDNESDAY + (rng.randrange(0, 30) * 30 * MINUTE if number else 0)
    return make_problem(parts, [{"name": "You", "hours": HOURS}], WEDNESDAY, WEDNESDAY + 12 * DAY), begun


def live(
    problem: Json, begun: dict[str, int], decide: Decide, seed: int, fate: Fate, off: float = 0.3
) -> None:
    """Live a day to its end and add to the fate. Waits last as planned; hands are off, each step by itself."""
    rng = random.Random(seed)
    tasks = {task["id"]: dict(task) for task in problem["tasks"]}
    real = {
        key: max(LEAST_MS, round(task["takes_ms"] * rng.uniform(1 - off, 1 + off)))
        for key, task in tasks.items()
        if task["kind"] == "hands"
    }
    pause_in = rng.choice(sorted(real))  # the bell rings while this is done
    ends: dict[str, int] = {}
    starts: dict[str, int] = {}
    now, moved, paused = problem["since"], True, 0
    fate.days += 1
    for _ in range(MOST_DECISIONS):
        _let_waits_run(problem, tasks, ends, now)
        if all(task["status"] == "done" for task in tasks.values() if task["kind"] == "hands"):
            return _count(problem, starts, ends, fate, paused)
        here = {run for run, at in begun.items() if at <= now}
        later = [at for at in begun.values() if at > now]
        told = decide(_seen(problem, tasks, here), now, moved)
        moved = False
        if told["step"] is not None:
            key = told["step"]
            fate.held_twice += is_taken(problem, key, starts, ends)
            starts[key] = now
            now += real[key]
            if key == pause_in:
                now, moved = now + PAUSE_MS, True
                paused = now
            ends[key] = now
            tasks[key] |= {"status": "done", "began_at": starts[key], "ended_at": now, "left_ms": 0}
            moved = moved or any(starts[key] < at <= now for at in later)
        else:
            until = min([at for at in [told["until"], *later] if at is not None and at > now], default=None)
            if until is None:
                break
            moved = until in later
            now = until
    fate.stuck += 1


def is_taken(problem: Json, key: str, starts: dict[str, int], ends: dict[str, int]) -> bool:
    """Whether a step takes up what all is in use, counted apart from the planner."""
    for hold in problem["holds"]:
        if hold["from"] == key:
            there = sum(
                other["many"]
                for other in problem["holds"]
                if other["equipment"] == hold["equipment"]
                and other["from"] in starts
                and other["until"] not in ends
            )
            if there + hold["many"] > problem["equipment"][hold["equipment"]]["many"]:
                return True
    return False


def _seen(problem: Json, tasks: Json, runs: set[str]) -> Json:
    """The day as far as it has been begun on."""
    own = {key for key, task in tasks.items() if task["run"] in runs}
    return {
        **problem,
        "tasks": [tasks[key] for key in tasks if key in own],
        "gaps": [gap for gap in problem["gaps"] if gap["to"] in own],
        "holds": [hold for hold in problem["holds"] if hold["from"] in own],
    }


def _let_waits_run(problem: Json, tasks: Json, ends: dict[str, int], now: int) -> None:
    needs: dict[str, list[tuple[str, int]]] = {}
    for gap in problem["gaps"]:
        if gap["least_ms"] is not None:
            needs.setdefault(gap["to"], []).extend((key, gap["least_ms"]) for key in gap["from"])
    changed = True
    while changed:
        changed = False
        for key, task in tasks.items():
            if task["kind"] != "wait" or task["status"] == "done":
                continue
            before = needs.get(key, [])
            if task["status"] == "open" and all(need in ends for need, _ in before):
                began = max([ends[need] + least for need, least in before] or [problem["since"]])
                task |= {"status": "begun", "began_at": began}
            if task["status"] == "begun" and task["began_at"] + task["left_ms"] <= now:
                ends[key] = task["began_at"] + task["left_ms"]
                task |= {"status": "done", "ended_at": ends[key], "left_ms": 0}
                changed = True


def _count(problem: Json, starts: dict[str, int], ends: dict[str, int], fate: Fate, paused: int) -> None:
    """paused: when the pause was over."""
    fate.longest_ms = max(fate.longest_ms, max(ends.values()) - problem["since"])
    for gap in problem["gaps"]:
        if gap["most_ms"] is None or gap["to"] not in starts:
            continue
        over = starts[gap["to"]] - max(ends[key] for key in gap["from"]) - gap["most_ms"]
        fate.could_be_brought_back += gap["class"] == "back"
        fate.quality += gap["class"] == "quality"
        if over > 0 and is_ruin(gap, over):
            fate.ruined += 1
        elif over > 0:
            inside = max(ends[key] for key in gap["from"]) < paused <= starts[gap["to"]] and over <= PAUSE_MS
            fate.brought_back += gap["class"] == "back"
            fate.brought_back_by_pause += gap["class"] == "back" and inside
            fate.missed += gap["class"] == "quality"


def by_the_phone(problem: Json, now: int, moved: bool) -> Json:
    """Offline: the plain order, judged by looking ahead."""
    day = Day(problem, now)
    return next_step(problem, day.latest_finish_first(), now)


class WithTheServer:
    """The server's plan, made again whenever something unforeseen has happened; the phone looks ahead along it."""

    def __init__(self, budget: float) -> None:
        self.budget = budget
        self.made: Json | None = None

    def __call__(self, problem: Json, now: int, moved: bool) -> Json:
        if moved or self.made is None:
            fresh = all(task["status"] == "open" for task in problem["tasks"])
            self.made = (
                plan({**problem, "since": now}, budget=self.budget, changes=False)
                if fresh
                else replan(problem, self.made, now, budget=self.budget)
            )
        return next_step(problem, order_of(self.made), now)


def by_recipe(problem: Json, now: int, moved: bool) -> Json:
    """No plan and no foresight: the first step that is ready, as the recipes are written."""
    day = Day(problem, now)
    closes = next((closes for opens, closes in day.hours[0] if opens <= now < closes), None)
    ready = [
        index
        for index in day.open
        if day.hands[index] and all((day.end[n] or now + 1) + least <= now for n, least in day.needs[index])
    ]
    fits = [index for index in ready if closes and now + day.takes[index] <= closes]
    if fits:
        return {"step": day.tasks[fits[0]]["id"], "until": None}
    coming = [end for end in day.end if end is not None and end > now]
    coming += [opens for opens, _ in day.hours[0] if opens > now]
    return {"step": None, "until": min(coming, default=None)}


def fate_of(days: range, decide: Callable[[], Decide]) -> Fate:
    fate = Fate()
    for seed in days:
        problem, begun = mixed_day(seed)
        live(problem, begun, decide(), seed, fate)
    return fate
