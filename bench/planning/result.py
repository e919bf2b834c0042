"""A plan as it is written down: its steps in order of start, the sessions they make, and the gaps not kept."""

from collections.abc import Iterator
from typing import NamedTuple

from bench.planning.layout import Day
from bench.planning.reasons import why_now
from bench.shapes.planning import BrokenGap, PlanSession, PlanStep, Stretch


class AtBench(NamedTuple):
    """Hands on an open step."""

    step: str
    maker: int
    begins: int
    ends: int


class Written(NamedTuple):
    begins_at: int | None
    finish_at: int | None
    steps: list[PlanStep]
    sessions: list[PlanSession]
    broken: list[BrokenGap]


def write(day: Day, starts: dict[int, int], makers: dict[int, int], slack: dict[int, int] | None) -> Written:
    """starts: of each task that is planned, in ms; makers: of those that are by hand. History is taken along."""
    ends: dict[int, int] = {index: end for index, end in enumerate(day.end) if end is not None}
    ends |= {index: at + day.takes[index] for index, at in starts.items()}
    by_hand = sorted((at, index) for index, at in starts.items() if day.hands[index])
    work = [AtBench(day.tasks[i]["id"], makers.get(i, 0), at, at + day.takes[i]) for at, i in by_hand]
    sessions = sessions_of(day.hours, work)
    place = {key: number for number, session in enumerate(sessions) for key in session["steps"]}
    steps = [
        _step(day, index, starts, makers, slack, ends[index], place.get(day.tasks[index]["id"]))
        for index in range(len(day.tasks))
        if index in ends
    ]
    finishes = [ends[index] for index in (starts or ends)]
    return Written(
        begins_at=min((at for at, _ in by_hand), default=None),
        finish_at=max(finishes, default=None),
        steps=sorted(steps, key=by_start),
        sessions=sessions,
        broken=list(broken_gaps(day, starts, ends)),
    )


def by_start(step: PlanStep) -> tuple[int, int, str]:
    return step["starts_at"], step["ends_at"], step["id"]


def _step(
    day: Day,
    index: int,
    starts: dict[int, int],
    makers: dict[int, int],
    slack: dict[int, int] | None,
    ends_at: int,
    session: int | None,
) -> PlanStep:
    task = day.tasks[index]
    left = slack[index] if slack is not None and index in starts else None
    began = day.start[index]
    return {
        "id": task["id"],
        "run": task["run"],
        "component": task["component"],
        "letter": task["letter"],
        "round": task["round"],
        "title": task["title"],
        "kind": task["kind"],
        "status": task["status"],
        "starts_at": starts[index] if index in starts else ends_at if began is None else began,
        "ends_at": ends_at,
        "maker": makers.get(index) if index in starts else day.maker[index],
        "slack_ms": left,
        "critical": left == 0,
        "session": session,
        "why": None if session is None else why_now(day, index, starts, slack),
    }


def sessions_of(hours: list[list[Stretch]], work: list[AtBench]) -> list[PlanSession]:
    """The stretches of bench hours that are used, in order. work: in order of start."""
    found: list[PlanSession] = []
    for maker, stretches in enumerate(hours):
        for opens, closes in stretches:
            here = [each for each in work if each.maker == maker and opens <= each.begins < closes]
            if here:
                found.append(
                    {
                        "maker": maker,
                        "opens_at": opens,
                        "closes_at": closes,
                        "begins_at": here[0].begins,
                        "ends_at": max(each.ends for each in here),
                        "hands_ms": sum(each.ends - each.begins for each in here),
                        "steps": [each.step for each in here],
                    }
                )
    return sorted(found, key=_by_begin)


def _by_begin(session: PlanSession) -> tuple[int, int]:
    return session["begins_at"], session["maker"]


def broken_gaps(day: Day, starts: dict[int, int], ends: dict[int, int]) -> Iterator[BrokenGap]:
    """The gaps that a plan does not keep, and by how much."""
    for sources, to, most, gap in day.max_gaps:
        if to in starts and all(each in ends for each in sources):
            over = starts[to] - max(ends[each] for each in sources) - most
            if over > 0:
                yield {**gap, "over_ms": over}
