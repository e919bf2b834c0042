"""Days at random: both languages lay them out, and say what is next, to the same bytes."""

from __future__ import annotations

import json
import random
from typing import Any

import pytest

from bench import canonical
from tests.bench.workshop import entry
from tests.often import often
from tests.parity.generate import generate
from tests.parity.python_side import batch, call
from tests.planning.batches import DAY, HOUR, MONDAY, make_batch
from tests.planning.crossing import done_in, make_crossing, ways_on
from tests.planning.mixed import part_of
from tests.servers import ROOT

pytestmark = pytest.mark.browser

Json = dict[str, Any]
BATCHES = often(8, 25)
YEAR = 365 * DAY


def lived_until(problem: Json, order: list[str], rng: random.Random) -> tuple[Json, int]:
    """The problem some way into its day: what has ended is done, what runs is begun, now and then late."""
    laid = call({"call": "lay_out", "with": [problem, order, problem["since"], 1000]})
    if not laid["placed"]:
        return problem, problem["since"]
    at = rng.randint(problem["since"], laid["finish"])
    tasks = []
    for task, start, end in zip(problem["tasks"], laid["start"], laid["end"], strict=True):
        if end <= at:
            task = {**task, "status": "done", "began_at": start, "ended_at": end, "left_ms": 0}
        elif start <= at:
            task = {**task, "status": "begun", "began_at": start}
        tasks.append(task)
    return {**problem, "tasks": tasks}, at + rng.choice([0, 0, HOUR // 3, 5 * HOUR])


def cases() -> list[Json]:
    made: list[Json] = []
    for seed in range(BATCHES):
        rng = random.Random(seed)
        problem = make_batch(seed, makers=rng.choice([1, 1, 2]), states=seed % 5 > 0)
        ids = [task["id"] for task in problem["tasks"]]
        order = rng.choice([[], rng.sample(ids, len(ids)), ids])
        problem, at = lived_until(problem, order, rng)
        made.append({"call": "lay_out", "with": [problem, order, at, rng.choice([700, 1000, 1300])]})
        made.append({"call": "next_step", "with": [problem, order, at]})
        made.append({"call": "if_you_stop", "with": [problem, order, at, at + rng.choice([HOUR, 8 * HOUR])]})
    return made


def crossings() -> list[Json]:
    """Bowls and jugs that batches take up from each other, at every step of a random way."""
    made: list[Json] = []
    for seed in range(often(15, 40)):
        rng, problem, ways = random.Random(seed), make_crossing(seed), [frozenset[str]()]
        while ways:
            done = rng.choice(ways)
            made.append({"call": "can_empty", "with": [done_in(problem, done), problem["since"]]})
            if rng.random() < 0.1:
                made.append({"call": "next_step", "with": [done_in(problem, done), [], problem["since"]]})
            ways = ways_on(problem, done)
    return made


def test_what_can_still_be_emptied_is_alike(in_browser: Any) -> None:
    asked = crossings()

    here = [canonical(call(case)) for case in asked]

    assert in_browser("call", asked) == here
    assert {"true", "false"} <= set(here)


def test_days_are_laid_out_and_led_through_alike(in_browser: Any) -> None:
    asked = cases()

    here = [canonical(call(case)) for case in asked]

    assert in_browser("call", asked) == here
    kinds = {call(case)["why"]["kind"] for case in asked if case["call"] == "next_step"}
    assert {"next", "wait", "closed"} <= kinds


def test_who_stays_with_what_is_open_has_longer_hours_alike(in_browser: Any) -> None:
    """Wherever the vectors ask what is next: outside the bench hours, just past them, and within them."""
    vectors = json.loads((ROOT / "tests/vectors/planning.json").read_text(encoding="utf-8"))
    given = [each["data"]["with"] for each in vectors if each["data"]["call"] == "next_step"]
    asked = [{"call": "with_who_stayed", "with": each[:3]} for each in given]

    here = [call(case) for case in asked]

    assert in_browser("call", asked) == [canonical(each) for each in here]
    assert {told == problem for told, (problem, *_) in zip(here, given, strict=True)} == {True, False}


def benches() -> list[Json]:
    """Two batches each on one bench, of the demo's recipes and of made-up ones, somewhere on their way."""
    made: list[Json] = []
    for seed in range(often(7, 25)):
        rng = random.Random(seed)
        laid = []
        while len(laid) < 2:
            case = generate(rng)
            told = batch(case)
            if "sheet" in told:
                entries = case.get("tame", [])
                laid.append(
                    {
                        "name": f"B-{len(laid)}",
                        "sheet": told["sheet"],
                        "entries": entries,
                    }
                )
        made += [{"call": "held", "with": [each["sheet"]]} for each in laid]
        made.append({"call": "in_use", "with": [laid[0], laid[1:]]})
    sheet, _ = part_of(0, 12)
    for kind, body in (
        ("weighed", {"line": "base.1.butter", "mg": 30_000}),
        ("done", {"step": "embed.1.pour"}),
        ("heated", {"step": "topping.1.melt_white", "ms": 30_000}),
    ):
        run = {"name": "one", "sheet": sheet, "entries": []}
        made.append(
            {"call": "in_use", "with": [run, [{**run, "name": "two", "entries": [entry(kind, **body)]}]]}
        )
    return made


def test_what_is_in_use_is_alike(in_browser: Any) -> None:
    asked = benches()

    here = [canonical(call(case)) for case in asked]

    assert in_browser("call", asked) == here
    assert any(call(case) for case in asked if case["call"] == "in_use")


@pytest.mark.parametrize(
    "zone", ["Europe/London", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu", "America/St_Johns"]
)
def test_bench_hours_are_the_same_instants_through_a_year_of_clock_changes(
    zone: str, in_browser: Any
) -> None:
    hours = {
        "zone": zone,
        "daily": [["0:00", "1:30"], ["1:45", "2:15"], ["2:30", "3:10"], ["22:00", "24:00"]],
        "days": {"sat": [["9:00", "17:00"]], "tue": []},
        "dates": {"2027-03-28": [["0:30", "2:00"], ["2:20", "4:00"]]},
    }
    asked = [{"call": "stretches", "with": [hours, MONDAY + 1234, MONDAY + YEAR]}]

    assert in_browser("call", asked) == [canonical(call(case)) for case in asked]
