"""Waits and windows: where an instant stands between earliest, usual and latest.

Everything is an absolute instant in ms, so a sleeping phone, a restart or a second device shows
the same time. A phase is what the wait asks for; a ring falls due when a phase begins.
"""

from bench.shapes.prompts import GuidePhase, Ring, WaitPhase, WindowPhase
from bench.shapes.state import OpenWindow, RunningGuide, RunningWait

WARN_SHARE = 10  # "nearly late" begins in the last tenth before the latest time
MOST_WARN_MS = 60 * 60_000


def warn_at(began_at: int, latest_at: int) -> int:
    """When to warn that the latest time is near: a tenth of the way before it, an hour at most."""
    return latest_at - min(MOST_WARN_MS, (latest_at - began_at) // WARN_SHARE)


def wait_phase(wait: RunningWait, at: int) -> WaitPhase:
    """counting, then look (earliest), ready (usual), soon_late (warned), late (latest)."""
    latest = wait["latest_at"]
    if latest is not None and at >= latest:
        return "late"
    if at < wait["earliest_at"]:
        return "counting"
    if latest is not None and at >= max(wait["usual_at"], warn_at(wait["began_at"], latest)):
        return "soon_late"
    return "ready" if at >= wait["usual_at"] else "look"


def window_phase(window: OpenWindow, at: int) -> WindowPhase:
    """open, then soon_late, then late."""
    if at >= window["latest_at"]:
        return "late"
    return "soon_late" if at >= warn_at(window["opened_at"], window["latest_at"]) else "open"


def guide_phase(guide: RunningGuide, at: int) -> GuidePhase:
    """counting, then ready."""
    return "ready" if at >= guide["until"] else "counting"


def rings(wait: RunningWait) -> list[Ring]:
    """When a wait rings, in order: [{"kind": look | ready | late, "at"}]."""
    due: list[Ring] = [{"kind": "ready", "at": wait["usual_at"]}]
    if wait["usual_at"] > wait["earliest_at"]:
        due.insert(0, {"kind": "look", "at": wait["earliest_at"]})
    if wait["latest_at"] is not None:
        due.append(
            {"kind": "late", "at": max(wait["usual_at"], warn_at(wait["began_at"], wait["latest_at"]))}
        )
    return due
