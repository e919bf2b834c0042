"""The waits, windows and guides that run now, with absolute instants."""

from collections.abc import Iterator
from typing import TypedDict

from bench.journal.tally import Tally
from bench.shapes.sheet import CheckStep, MeltStep, Step, WaitStep
from bench.shapes.state import Heating, OpenWindow, RunningGuide, RunningWait, StepState
from bench.shapes.units import InstantMs, Ms
from bench.states import open_window
from bench.steps import by_hand, heats, is_judged, runs_by_itself


class Running(TypedDict):
    waits: list[RunningWait]
    windows: list[OpenWindow]
    guides: list[RunningGuide]


def running(tally: Tally, steps: dict[str, StepState]) -> Running:
    """What runs, by how the steps stand."""
    found: Running = {"waits": [], "windows": [], "guides": []}
    if tally.started_at is None or tally.finished_at is not None:
        return found
    ended = {key: each.at for key, each in tally.settled.items()}
    humidity = tally.air[-1]["humidity"] if tally.air else None
    for step in tally.sheet["steps"]:
        key = step["id"]
        if key in tally.settled:
            continue
        ready_at = steps[key]["ready_at"]
        if runs_by_itself(step) and ready_at is not None:
            found["waits"].append(_wait(step, ready_at, tally.extended.get(key)))
        window = open_window(step, ended, humidity)
        if window:
            found["windows"].append(
                {"step": key, "opened_at": window["opened_at"], "latest_at": window["latest_at"]}
            )
        found["guides"].extend(_guides(tally, step))
    return found


def _wait(step: WaitStep, ready_at: InstantMs, again: InstantMs | None) -> RunningWait:
    """again: when to look again, after a "not yet"."""
    return {
        "step": step["id"],
        "began_at": ready_at,
        "earliest_at": ready_at + step["earliest_ms"] if again is None else again,
        "usual_at": ready_at + step["usual_ms"] if again is None else again,
        "latest_at": None if step["latest_ms"] is None else ready_at + step["latest_ms"],
    }


def _guides(tally: Tally, step: Step) -> Iterator[RunningGuide]:
    key = step["id"]
    if by_hand(step) and step["about_ms"] is not None and key in tally.began:
        yield _guide(key, tally.began[key], step["about_ms"])
    bursts = tally.bursts.get(key)
    if bursts and bursts[-1]["answer"] is None:
        yield _heating(key, bursts[-1])
    elif (looks := tally.looks.get(key)) and (left_ms := _left_alone_ms(tally, step)):
        yield _guide(key, looks[-1]["at"], left_ms)


def _heating(step: str, burst: Heating) -> RunningGuide:
    """A burst that nobody looked at yet: until it is over, or with its rest, until that is."""
    if "rest_ms" not in burst:
        return _guide(step, burst["at"], burst["ms"])
    guide = _guide(step, burst["at"], burst["ms"] + burst["rest_ms"])
    guide["rests_at"] = burst["at"] + burst["ms"]
    return guide


def _guide(step: str, began_at: InstantMs, ms: Ms) -> RunningGuide:
    return {"step": step, "began_at": began_at, "until": began_at + ms}


def _left_alone_ms(tally: Tally, step: Step) -> Ms:
    """How long it is to be left since it was last looked at."""
    if is_judged(step):
        return _too_far_ms(tally, step)
    return _rest_ms(tally, step) if heats(step) else 0


def _too_far_ms(tally: Tally, step: CheckStep) -> Ms:
    """How long a mix that was judged too far is to be left."""
    look = tally.looks[step["id"]][-1]
    return step.get("too_far_ms") or 0 if look["answer"] == "too_far" else 0


def _rest_ms(tally: Tally, step: MeltStep) -> Ms:
    """How long a melt that is not there yet is to be left before its next burst."""
    look, bursts = tally.looks[step["id"]][-1], tally.bursts.get(step["id"])
    if not bursts or look["answer"] != "not_yet" or look["at"] < bursts[-1]["at"]:
        return 0
    following = step["bursts"][len(bursts)] if len(bursts) < len(step["bursts"]) else step["more"]
    return following["rest_ms"]
