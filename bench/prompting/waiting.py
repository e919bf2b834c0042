"""A wait: its test, from its earliest on, and whether it is over."""

from bench.brief import joined
from bench.prompting.answers import answer
from bench.prompting.view import Said, View
from bench.shapes.sheet import WaitStep
from bench.shapes.state import RunningWait
from bench.shapes.units import InstantMs
from bench.waits import wait_phase
from bench.whole import half_even, span
from bench.words import say

LOOK_AGAIN_SHARE = 10  # "not yet" on a wait looks again after a tenth of its usual time
LEAST_AGAIN_MS = 60_000


def wait(view: View, step: WaitStep) -> Said:
    key, word = step["id"], step["word"]
    running = view.waits.get(key)
    if running is None or wait_phase(running, view.at) == "counting":
        ask = _too_early(running, view.at, word)
        done = answer("done", say("prompting-over-already", word=word), "done", {"step": key}, ask=ask)
        return Said(step["says"], [done])
    again = max(LEAST_AGAIN_MS, half_even(step["usual_ms"], LOOK_AGAIN_SHARE * 60_000) * 60_000)
    label = say("prompting-look-again", length=span(again))
    return Said(
        joined(say("prompting-is-it-over", heading=word[:1].upper() + word[1:], word=word), step["test"]),
        [
            answer("done", say("prompting-over", word=word), "done", {"step": key}, strong=True),
            answer("again", label, "extended", {"step": key, "ms": again}),
        ],
    )


def _too_early(wait: RunningWait | None, at: InstantMs, word: str) -> str:
    """What is asked before a wait is ended that still counts: there is no going back from what follows."""
    if wait is None:
        return say("prompting-really-over", word=word)
    return say("prompting-before-earliest", length=span(wait["earliest_at"] - at), word=word)
