"""The strip of waits, windows and guides that run, the most urgent first."""

from bench.prompting.urgency import guarding
from bench.prompting.view import View
from bench.shapes.prompts import Beside, GuideNow, WaitNow, WaitPhase, WindowNow
from bench.shapes.sheet import WaitStep
from bench.shapes.state import OpenWindow, RunningGuide, RunningWait
from bench.shapes.units import InstantMs
from bench.states import stake_of
from bench.steps import runs_by_itself
from bench.waits import guide_phase, wait_phase, window_phase
from bench.words import say


def _earliest(wait: RunningWait) -> tuple[InstantMs, str]:
    return wait["earliest_at"], wait["step"]


def _latest(window: OpenWindow) -> tuple[InstantMs, str]:
    return window["latest_at"], window["step"]


def _until(guide: RunningGuide) -> tuple[InstantMs, str]:
    return guide["until"], guide["step"]


def waits_now(view: View) -> list[WaitNow]:
    ordered = sorted(view.state["waits"], key=_earliest)
    steps = [(wait, view.steps[wait["step"]]) for wait in ordered]
    return [_wait(view, wait, step) for wait, step in steps if runs_by_itself(step)]


def windows_now(view: View) -> list[WindowNow]:
    ordered = sorted(view.state["windows"], key=_latest)
    return [
        {
            **_beside(view, window["step"]),
            **window,
            "phase": window_phase(window, view.at),
            "stake": stake_of(guarding(view, view.steps[window["step"]])),
        }
        for window in ordered
    ]


def guides_now(view: View) -> list[GuideNow]:
    ordered = sorted(view.state["guides"], key=_until)
    return [
        {**_beside(view, guide["step"]), **guide, "phase": guide_phase(guide, view.at)} for guide in ordered
    ]


def _beside(view: View, key: str) -> Beside:
    step = view.steps[key]
    return {
        "component": step["component"],
        "letter": view.components[step["component"]]["letter"],
        "title": step["title"],
    }


def _asks(phase: WaitPhase, step: WaitStep) -> str:
    """What a wait asks for by now."""
    match phase:
        case "counting":
            return ""
        case "look":
            return say("prompting-may-be-over", word=step["word"])
        case "ready":
            return say("prompting-should-be-over", word=step["word"])
        case "soon_late":
            return step["stake"] or say("prompting-soon-late")
        case "late":
            return step["stake"] or say("prompting-late")


def _wait(view: View, wait: RunningWait, step: WaitStep) -> WaitNow:
    phase = wait_phase(wait, view.at)
    return {
        **_beside(view, wait["step"]),
        **wait,
        "word": step["word"],
        "phase": phase,
        "asks": _asks(phase, step),
    }
