"""Days that do not go as planned: a maker whose hands are off, followed to the end of the day."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

Json = dict[str, Any]

LEAST_MS = 15_000
MOST_DECISIONS = 2000


@dataclass
class Lived:
    """How a day went: what broke and by how much, when it ended, whether it ever stood still."""

    broken: list[int] = field(default_factory=list)
    finish: int | None = None
    stuck: bool = False
    begun: dict[str, int] = field(default_factory=dict)
    finish_after: int = 0  # how long after the beginning it ended, in ms


def live(problem: Json, decide: Callable[[Json, int], Json], seed: int, off: float = 0.3) -> Lived:
    """One day with one maker. decide(problem, now) answers as `next_step` does.

    Hand times are off by up to `off`, each step by itself; waits last as planned.
    """
    rng = random.Random(seed)
    real = {
        task["id"]: max(
            LEAST_MS,
            round(task["takes_ms"] * (rng.uniform(1 - off, 1 + off) if task["kind"] == "hands" else 1)),
        )
        for task in problem["tasks"]
    }
    problem = {**problem, "tasks": [dict(task) for task in problem["tasks"]]}
    tasks = {task["id"]: task for task in problem["tasks"]}
    ends: dict[str, int] = {}
    lived = Lived()
    now = problem["since"]
    for _ in range(MOST_DECISIONS):
        _let_waits_run(problem, tasks, ends, now)
        if all(task["status"] == "done" for task in tasks.values() if task["kind"] == "hands"):
            lived.finish = max(_ends(tasks, ends))
            lived.finish_after = lived.finish - problem["since"]
            lived.broken = _broken(problem, lived.begun, ends)
            return lived
        told = decide(problem, now)
        if told["step"] is not None:
            key = told["step"]
            lived.begun[key] = now
            now += real[key]
            ends[key] = now
            tasks[key] |= {"status": "done", "began_at": lived.begun[key], "ended_at": now, "left_ms": 0}
        elif told["until"] is None or told["until"] <= now:
            break
        else:
            now = told["until"]
    lived.stuck = True
    return lived


def _let_waits_run(problem: Json, tasks: Json, ends: dict[str, int], now: int) -> None:
    """Waits begin when the last of their needs ends, and end as planned."""
    changed = True
    while changed:
        changed = False
        for task in tasks.values():
            if task["kind"] != "wait" or task["status"] == "done":
                continue
            if task["status"] == "open":
                needs = [
                    (key, gap["least_ms"])
                    for gap in problem["gaps"]
                    if gap["to"] == task["id"] and gap["least_ms"] is not None
                    for key in gap["from"]
                ]
                if any(key not in ends for key, _ in needs):
                    continue
                began = max([ends[key] + least for key, least in needs] or [problem["since"]])
                task |= {"status": "begun", "began_at": began}
                changed = True
            if task["began_at"] + task["left_ms"] <= now:
                ends[task["id"]] = task["began_at"] + task["left_ms"]
                task |= {"status": "done", "ended_at": ends[task["id"]], "left_ms": 0}
                changed = True


def _ends(tasks: Json, ends: dict[str, int]) -> list[int]:
    return [
        *ends.values(),
        *(task["began_at"] + task["left_ms"] for task in tasks.values() if task["status"] == "begun"),
    ]


def _broken(problem: Json, begun: dict[str, int], ends: dict[str, int]) -> list[int]:
    """By how much each gap with a most was overrun, in ms, those that were."""
    over = [
        begun[gap["to"]] - max(ends[key] for key in gap["from"]) - gap["most_ms"]
        for gap in problem["gaps"]
        if gap["most_ms"] is not None and gap["to"] in begun
    ]
    return [each for each in over if each > 0]
