"""What the bench says now: the prompts, the waits and windows, and what is still owed.

`now` turns a sheet, a state and an instant into words and numbers. Every prompt carries its
possible answers, and an answer is the kind and body of the entry to post, so this alone is
enough to write a client; the phone page draws exactly this. Best next prompt first.
`frontend/bench/prompting/` says the same words.

    view     the sheet, the state and the instant, as all below ask for them
    order    which steps are prompted, the best next one first
    prompt   one prompt: what its kind says (doing, weighing, melting, dividing, judging, counting,
             waiting), why it is urgent (urgency), and its answers
    ending   the answers that end the last step, and so the batch
    running  the strip of waits, windows and guides
"""

from bench.prompting.ending import ended
from bench.prompting.order import in_order, owed, titles
from bench.prompting.prompt import finish, prompt_for
from bench.prompting.running import guides_now, waits_now, windows_now
from bench.prompting.view import View
from bench.shapes.prompts import Now, Prompt
from bench.shapes.sheet import Sheet
from bench.shapes.state import State

__all__ = ["now"]


def now(sheet: Sheet, state: State, at: int) -> Now:
    """The bench at an instant (ms). Pure: the same inputs give the same words here and on the phone."""
    view = View(sheet, state, at)
    finished = state["finished_at"] is not None
    return {
        "at": at,
        "finished": finished,
        "prompts": [] if finished else _prompts(view),
        "waits": waits_now(view),
        "windows": windows_now(view),
        "guides": guides_now(view),
        "skipped": titles(step for step in sheet["steps"] if view.status(step["id"]) == "skipped"),
        "owed": titles(owed(view)),
    }


def _prompts(view: View) -> list[Prompt]:
    steps = in_order(view)
    if not steps and all(view.is_settled(step["id"]) for step in view.sheet["steps"]):
        return [finish(view)]
    return [ended(view, prompt_for(view, step), step) for step in steps]
