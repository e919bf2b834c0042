"""A wait: its test, from its earliest on, whether it is over, and what was waited for."""

from bench.brief import joined
from bench.prompting.answers import answer
from bench.prompting.view import Said, View
from bench.shapes.prompts import Besides
from bench.shapes.sheet import Step, WaitStep
from bench.shapes.state import RunningWait
from bench.shapes.units import InstantMs
from bench.steps import is_one_touch, runs_by_itself
from bench.waits import wait_phase
from bench.whole import half_even, span
from bench.words import say

LOOK_AGAIN_SHARE = 10  # "not yet" on a wait looks again after a tenth of its usual time
LEAST_AGAIN_MS = 60_000


def wait(view: View, step: WaitStep) -> Said:
    key, word = step["id"], step["word"]
    running, then = view.waits.get(key), waited_for(view, step)
    also: list[Besides] = [{"kind": "done", "body": {"step": then["id"]}}] if then else []
    says = then["says"] if then else ""
    if running is None or wait_phase(running, view.at) == "counting":
        ask = _too_early(running, view.at, word)
        done = answer(
            "done", say("prompting-over-already", word=word), "done", {"step": key}, ask=ask, also=also
        )
        return Said(joined(step["says"], says), [done])
    again = max(LEAST_AGAIN_MS, half_even(step["usual_ms"], LOOK_AGAIN_SHARE * 60_000) * 60_000)
    label = say("prompting-look-again", length=span(again))
    return Said(
        joined(
            say("prompting-is-it-over", heading=word[:1].upper() + word[1:], word=word), step["test"], says
        ),
        [
            answer("done", say("prompting-over", word=word), "done", {"step": key}, strong=True, also=also),
            answer("again", label, "extended", {"step": key, "ms": again}),
        ],
    )


def waited_for(view: View, step: Step) -> Step | None:
    """What a wait that only the clock ends is for, where it can be told by the same touch: one thing to do."""
    if not runs_by_itself(step) or step["test"] or step["earliest_ms"] != step["usual_ms"]:
        return None
    following = [each for each in view.sheet["steps"] if step["id"] in each["after"]]
    then = following[0] if len(following) == 1 else None
    return then if then and then["after"] == [step["id"]] and is_one_touch(then) else None


def _too_early(wait: RunningWait | None, at: InstantMs, word: str) -> str:
    """What is asked before a wait is ended that still counts: there is no going back from what follows."""
    if wait is None:
        return say("prompting-really-over", word=word)
    return say("prompting-before-earliest", length=span(wait["earliest_at"] - at), word=word)
