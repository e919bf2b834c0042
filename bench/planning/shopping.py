"""Shopping for time: what one more of something would save, each as a day planned anew."""

from collections.abc import Callable
from typing import Any

from bench.planning.layout import Day
from bench.planning.plan import WORK, plan

Json = Any  # until its shape is named

HOUR_MS = 3_600_000
MOST_OFFERS = 12


def with_second_maker(problem: Json, name: str = "A second maker") -> Json:
    """The same day with one more pair of hands in the first maker's hours."""
    return {**problem, "makers": [*problem["makers"], {"name": name, "hours": problem["makers"][0]["hours"]}]}


def with_extra_time(problem: Json, maker: int, stretch: int, ms: int = HOUR_MS) -> Json:
    """The same day with one stretch of a maker's hours closing later, as far as the next one's opening."""
    hours = problem["makers"][maker]["hours"]
    opens, closes = hours[stretch]
    longer = closes + ms
    later = hours[stretch + 1 :]
    while later and later[0][0] <= longer:
        longer = max(longer, later[0][1])
        later = later[1:]
    changed = {**problem["makers"][maker], "hours": [*hours[:stretch], [opens, longer], *later]}
    makers = [*problem["makers"][:maker], changed, *problem["makers"][maker + 1 :]]
    return {**problem, "makers": makers}


def with_one_more(kit: Json, mould: str) -> Json:
    """A kit with one more set of a mould. Its sheets may have fewer rounds, so make them anew."""
    return {
        **kit,
        "moulds": [
            {**each, "sets": each["sets"] + 1} if each["id"] == mould else each for each in kit["moulds"]
        ],
    }


def what_saves(
    problem: Json,
    made: Json,
    others: list[Json],
    *,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
) -> list[Json]:
    """What each offer would save against a plan, the most first.

    others: [{"what", ..., "problem"}], at most twelve; all but the problem is given back. Each answer:
    {"what", ..., "finish_at", "saves_ms", "sessions", "saves_sessions", "proven"}; saves_ms is None when
    one of the two has no plan. budget is shared by all.
    """
    told = []
    for other in others[:MOST_OFFERS]:
        better = plan(
            other["problem"], budget=budget / max(1, len(others)), cancelled=cancelled, changes=False
        )
        possible = better["status"] in ("proven", "found")
        compared = possible and made["status"] in ("proven", "found")
        told.append(
            {
                **{key: each for key, each in other.items() if key != "problem"},
                "finish_at": better["finish_at"] if possible else None,
                "saves_ms": made["finish_at"] - better["finish_at"] if compared else None,
                "sessions": len(better["sessions"]) if possible else None,
                "saves_sessions": len(made["sessions"]) - len(better["sessions"]) if compared else None,
                "proven": better["status"] == "proven" and made["status"] == "proven",
            }
        )
    return sorted(told, key=lambda each: (each["saves_ms"] is None, -(each["saves_ms"] or 0), each["what"]))


def offers(problem: Json, made: Json) -> list[Json]:
    """What can be offered without a new sheet: a second maker, and an hour more on each session of a plan."""
    day = Day(problem, problem["since"])
    found: list[Json] = (
        [{"what": "second_maker", "problem": with_second_maker(problem)}] if len(day.hours) == 1 else []
    )
    for session in made["sessions"]:
        maker = session["maker"]
        stretch = next(
            place for place, hours in enumerate(day.hours[maker]) if hours[0] == session["opens_at"]
        )
        found.append(
            {
                "what": "extra_time",
                "maker": maker,
                "closes_at": session["closes_at"],
                "ms": HOUR_MS,
                "problem": with_extra_time(problem, maker, stretch),
            }
        )
    return found
