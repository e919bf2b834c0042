"""How good the plan of a week is: against every way there is, against the plain rule, and against what no plan beats.

Times are the process's own; the solver has one worker. The weeks are generated from seeds (`tests/week/weeks.py`).
"""

from __future__ import annotations

import functools
import json
import time
from typing import Any

from bench.week.aim_by_aim import Search, places_of
from bench.week.in_turn import in_turn
from bench.week.lot_sizing import cheapest
from bench.week.measure import measure
from bench.week.units import InUnits
from tests.perf.registry import figure
from tests.week.exhaustive import best, ways_there_are
from tests.week.lot_sizes import several
from tests.week.test_weeks import counted
from tests.week.weeks import HOUR, tiny, whole

Json = dict[str, Any]

TINY = 200
MOST_WAYS = 1_000_000  # so that every one can be tried
WEEKS = 200
AMPLE = 10  # weeks that are looked at to the end
RULE_WORK = 2.0  # the solver's own seconds for each of the many weeks
LONG_WORK = 30.0


@figure("small weeks that are as good as the best of all ways, of 200 generated ones", f">= {TINY}")
def small_weeks() -> float:
    equal = tried = seed = 0
    while tried < TINY:
        week = tiny(seed)
        seed += 1
        search = Search(InUnits(week), 6.0)
        for _ in search.aim_by_aim():
            pass
        search.plan()  # it has been followed, and holds
        made = (make["id"] for make in week["makes"])
        places = dict(zip(made, places_of(search.units, search.made), strict=True))
        if ways_there_are(week, places) <= MOST_WAYS:
            tried += 1
            equal += counted(search) == best(week, places)
    return equal


@figure(
    "published lot-sizing sets whose least price is proven in 60 s each, where they are at hand; of all, missed",
    "== 0",
)
def published_sets() -> float:
    missed = 0
    for name, problem, least in several():
        found = cheapest(problem, 60)
        told = {"set": name, "found": found.value, "least": found.least, "published": least}
        print(json.dumps(told), flush=True)
        missed += found.least > least or (found.value is not None and found.value < least)
    return missed


@functools.cache
def ample() -> list[Json]:
    """Weeks of 6 recipes, some 10 batches, 2 makers and 7 days, each searched for 30 of the solver's seconds."""
    found = []
    for seed in range(AMPLE):
        units = InUnits(whole(seed))
        begun = time.process_time()
        search = Search(units, LONG_WORK)
        search.plan()
        first = time.process_time() - begun
        for _ in search.aim_by_aim(("short", "back", "quality", "batches")):
            pass
        gap = (search.values["short"] - (search.bounds["short"] or 0)) / sum(units.pieces)
        told = {
            "week": seed,
            "first_s": round(first, 3),
            "pieces": sum(units.pieces),
            "short": search.values["short"],
            "bound": search.bounds["short"],
            "batches": search.values["batches"],
            "batches_bound": search.bounds["batches"],
            "s": round(time.process_time() - begun, 1),
        }
        print(json.dumps(told), flush=True)
        found.append({**told, "gap": 100 * gap})
    return found


@figure("week of 6 recipes, 10 batches, 2 makers, 7 days: first usable plan, the slowest of 10", "<= 3 s")
def first_of_week() -> float:
    return max(each["first_s"] for each in ample())


@figure(
    "week of 6 recipes, 10 batches, 2 makers, 7 days: pieces from the bound after 30 s, the worst of 10",
    "<= 3 %",
)
def gap_of_week() -> float:
    return max(each["gap"] for each in ample())


@functools.cache
def against_the_rule() -> Json:
    """200 weeks for one maker or two: wants late, pieces short and hands-on hours, by the plain rule and by the plan."""
    told = {"rule": [0, 0, 0, 0.0], "plan": [0, 0, 0, 0.0]}
    for seed in range(WEEKS):
        units = InUnits(whole(seed, makers=1 + seed % 2))
        search = Search(units, RULE_WORK)
        for name, made in (("rule", in_turn(units)), ("plan", search.made)):
            if name == "plan":
                for _ in search.aim_by_aim(("short", "back", "quality", "batches", "hands")):
                    pass
                made = search.made
            values = measure(units, made)
            one = told[name]
            one[0] += len(made.short(units))
            one[1] += values["short"]
            one[2] += values["batches"]
            one[3] += values["hands"] * units.unit / HOUR
    print(
        json.dumps(
            {
                name: dict(zip(("late", "short", "batches", "hours"), each, strict=True))
                for name, each in told.items()
            }
        )
    )
    return told


@figure("200 generated weeks: wants late by the plan, for each late by the plain rule", "<= 1")
def late_by_the_plan() -> float:
    told = against_the_rule()
    return told["plan"][0] / max(1, told["rule"][0])
