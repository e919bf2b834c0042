"""Batches by the dozen, from a seed: two to four parts with their waits and windows, joined at the end.

Nothing here comes from a recipe; the ranges are those of the demo's own, spread wide.
"""

from __future__ import annotations

import random
from typing import Any

Json = dict[str, Any]

MINUTE = 60_000
HOUR = 60 * MINUTE
DAY = 24 * HOUR
MONDAY = 1_795_392_000_000  # a Monday, 0:00 UTC
CLASSES = [
    {"class": "ruin", "price_ms": 0, "lost_ms": None},
    {"class": "back", "price_ms": 2 * MINUTE, "lost_ms": None},
    {"class": "back", "price_ms": 5 * MINUTE, "lost_ms": 20 * MINUTE},
    {"class": "quality", "price_ms": 0, "lost_ms": None},
]
PATTERNS = [
    [(9 * 60, 12 * 60 + 30), (19 * 60, 22 * 60)],
    [(9 * 60, 17 * 60)],
    [(18 * 60, 22 * 60)],
    [(7 * 60, 9 * 60), (13 * 60, 15 * 60), (20 * 60, 22 * 60 + 30)],
    [(8 * 60, 12 * 60), (13 * 60, 18 * 60)],
]


def make_hours(pattern: list[tuple[int, int]], days: int = 14) -> list[list[int]]:
    return [
        [MONDAY + day * DAY + opens * MINUTE, MONDAY + day * DAY + closes * MINUTE]
        for day in range(days)
        for opens, closes in pattern
    ]


def make_task(key: str, minutes: float, kind: str = "hands", component: str = "part", **other: Any) -> Json:
    return {
        "id": key,
        "run": "",
        "component": component,
        "letter": component[:1].upper(),
        "round": 1,
        "title": key,
        "kind": kind,
        "takes_ms": round(minutes * MINUTE),
        "takes_from": "recipe",
        "uses": {},
        "status": "open",
        "began_at": None,
        "ended_at": None,
        "left_ms": round(minutes * MINUTE),
        **other,
    }


def make_gap(sources: str | list[str], to: str, least: float | None = 0, most: float | None = None) -> Json:
    """A gap in minutes."""
    return {
        "from": [sources] if isinstance(sources, str) else sources,
        "to": to,
        "least_ms": None if least is None else round(least * MINUTE),
        "most_ms": None if most is None else round(most * MINUTE),
        "why": "after" if most is None else "window",
        "stake": "",
    }


def make_problem(
    tasks: list[Json], gaps: list[Json], hours: list[list[int]] | None = None, **other: Any
) -> Json:
    hours = hours if hours is not None else make_hours([(9 * 60, 17 * 60)])
    return {
        "since": hours[0][0] if hours else MONDAY,
        "ready_by": None,
        "makers": [{"name": "You", "hours": hours}],
        "equipment": {},
        "tasks": tasks,
        "gaps": gaps,
        "holds": [],
        **other,
    }


def make_batch(seed: int, makers: int = 1, states: bool = False) -> Json:
    """One batch that a maker could meet. It may or may not fit its bench hours.

    states: its windows are over states that do not keep, or over mere quality.
    """
    rng = random.Random(seed)
    made = _Batch(rng)
    ends = [made.part(f"part{place}") for place in range(rng.randint(2, 4))]
    made.joining(ends)
    hours = make_hours(rng.choice(PATTERNS))
    problem = make_problem(made.tasks, made.gaps, hours, equipment=made.equipment, holds=made.holds)
    problem["makers"] = [{"name": f"Maker {place + 1}", "hours": hours} for place in range(makers)]
    if states:
        problem["gaps"] = [{**gap, **rng.choice(CLASSES)} for gap in problem["gaps"]]
    return problem


class _Batch:
    def __init__(self, rng: random.Random) -> None:
        self.rng = rng
        self.tasks: list[Json] = []
        self.gaps: list[Json] = []
        self.holds: list[Json] = []
        self.equipment: Json = {"mixer": {"name": "Mixer", "many": 1}}

    def hands(self, part: str, minutes: int, after: list[str]) -> str:
        key = f"{part}.{len(self.tasks)}"
        uses = {"mixer": 1} if self.rng.random() < 0.15 else {}
        self.tasks.append(make_task(key, minutes, component=part, uses=uses))
        self.gaps += [make_gap(need, key) for need in after]
        return key

    def wait(self, part: str, after: list[str]) -> tuple[str, int | None]:
        """A wait, and how long after its usual end what follows may begin, in minutes."""
        key = f"{part}.{len(self.tasks)}"
        usual = self.rng.choice([20, 30, 45, 60, 90, 120, 180, 240, 360, 480])
        self.tasks.append(make_task(key, usual, kind="wait", component=part))
        self.gaps += [make_gap(need, key) for need in after]
        spare = self.rng.choice([None, None, 2 * usual, 720, 1080])
        return key, spare

    def chain(self, part: str, after: list[str]) -> list[str]:
        """Hands-on steps in a row, some of them to be finished soon after one was begun."""
        keys: list[str] = []
        lengths: list[int] = []
        for _ in range(self.rng.randint(2, 5)):
            minutes = self.rng.choice([1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25])
            keys.append(self.hands(part, minutes, keys[-1:] or after))
            lengths.append(minutes)
        if self.rng.random() < 0.75:
            opens = self.rng.randrange(len(keys) - 1)
            closes = self.rng.randrange(opens + 1, len(keys))
            between = sum(lengths[opens + 1 : closes])
            most = round(between * self.rng.uniform(1.25, 2)) + self.rng.choice([1, 3, 5, 10, 20])
            self.gaps.append(make_gap(keys[opens], keys[closes], None, most))
        return keys

    def part(self, part: str) -> tuple[str, int | None]:
        """A part and how its last step may be followed; sometimes in two loads through one mould."""
        loads = 2 if self.rng.random() < 0.25 else 1
        freed: list[str] = []
        last: tuple[str, int | None] = ("", None)
        for _ in range(loads):
            keys = self.chain(part, freed)
            last = self.wait(part, keys[-1:])
            if self.rng.random() < 0.5 or loads > 1:
                empty = self.hands(part, self.rng.choice([3, 5, 8]), [])
                self.gaps.append(make_gap(last[0], empty, 0, last[1]))
                self.equipment[f"mould.{part}"] = {"name": f"{part} mould", "many": 1}
                self.holds.append({"equipment": f"mould.{part}", "many": 1, "from": keys[-1], "until": empty})
                freed, last = [empty] if loads > 1 else [], (empty, None)
        return last

    def joining(self, ends: list[tuple[str, int | None]]) -> None:
        keys = self.chain("joining", [])
        for end, most in ends:
            self.gaps.append(make_gap(end, self.rng.choice(keys), 0, most))
        setting, most = self.wait("joining", keys[-1:])
        wrap = self.hands("joining", self.rng.choice([10, 15, 20, 30]), [])
        self.gaps.append(make_gap(setting, wrap, 0, most))
