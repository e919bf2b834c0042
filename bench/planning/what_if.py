"""What if there were one more of something: what that would save, each as a day planned anew."""

from collections.abc import Callable

from bench.planning.plan import WORK, plan
from bench.shapes.kit import Kit
from bench.shapes.planning import MakerHours, Plan, Problem, TimeSaving, TimeSavingOption

HOUR_MS = 3_600_000
MAX_OPTIONS = 12


def with_second_maker(problem: Problem, name: str = "") -> Problem:
    """The same day with one more pair of hands in the first maker's hours."""
    return {**problem, "makers": [*problem["makers"], {"name": name, "hours": problem["makers"][0]["hours"]}]}


def with_extra_time(problem: Problem, maker: int, stretch: int, ms: int = HOUR_MS) -> Problem:
    """The same day with one stretch of a maker's hours closing later, as far as the next one's opening."""
    hours = problem["makers"][maker]["hours"]
    opens, closes = hours[stretch]
    longer = closes + ms
    later = hours[stretch + 1 :]
    while later and later[0][0] <= longer:
        longer = max(longer, later[0][1])
        later = later[1:]
    changed: MakerHours = {
        **problem["makers"][maker],
        "hours": [*hours[:stretch], [opens, longer], *later],
    }
    return {**problem, "makers": [*problem["makers"][:maker], changed, *problem["makers"][maker + 1 :]]}


def with_one_more(kit: Kit, mould: str) -> Kit:
    """A kit with one more set of a mould. Its sheets may have fewer rounds, so make them anew."""
    return {
        **kit,
        "moulds": [
            {**each, "sets": each["sets"] + 1} if each["id"] == mould else each for each in kit["moulds"]
        ],
    }


def time_savings(
    problem: Problem,
    made: Plan,
    others: list[TimeSavingOption],
    *,
    budget: float = WORK,
    cancelled: Callable[[], bool] | None = None,
) -> list[TimeSaving]:
    """What each option, of twelve at most, would save against a plan, the most first. budget is shared by all."""
    share = budget / max(1, len(others))
    found = [
        _saving(other, made, plan(other["problem"], budget=share, cancelled=cancelled, changes=False))
        for other in others[:MAX_OPTIONS]
    ]
    return sorted(found, key=_most_first)


def _most_first(saving: TimeSaving) -> tuple[bool, int, str]:
    return saving["saves_ms"] is None, -(saving["saves_ms"] or 0), saving["what"]


def _saving(option: TimeSavingOption, made: Plan, better: Plan) -> TimeSaving:
    was, ends = _finish(made), _finish(better)
    saves = None if was is None or ends is None else was - ends
    sessions = None if ends is None else len(better["sessions"])
    figures: TimeSaving = {
        "what": option["what"],
        "finish_at": ends,
        "saves_ms": saves,
        "sessions": sessions,
        "saves_sessions": None if saves is None or sessions is None else len(made["sessions"]) - sessions,
        "proven": better["status"] == "proven" and made["status"] == "proven",
    }
    if option["what"] == "extra_time":
        return {
            **figures,
            "maker": option["maker"],
            "closes_at": option["closes_at"],
            "ms": option["ms"],
        }
    if option["what"] == "mould" and "name" in option:
        return {**figures, "name": option["name"]}
    return figures


def _finish(made: Plan) -> int | None:
    return made["finish_at"] if made["status"] in ("proven", "found") else None


def options(problem: Problem, made: Plan) -> list[TimeSavingOption]:
    """What can be had without a new sheet: a second maker, and an hour more on each session of a plan."""
    found: list[TimeSavingOption] = []
    if len(problem["makers"]) == 1:
        found.append({"what": "second_maker", "problem": with_second_maker(problem)})
    for session in made["sessions"]:
        maker = session["maker"]
        opens = [opens for opens, _ in problem["makers"][maker]["hours"]]
        found.append(
            {
                "what": "extra_time",
                "maker": maker,
                "closes_at": session["closes_at"],
                "ms": HOUR_MS,
                "problem": with_extra_time(problem, maker, opens.index(session["opens_at"])),
            }
        )
    return found
