"""wait: time does the work; it has an earliest, a usual and perhaps a latest end."""

from bench.errors import RecipeError
from bench.quantities import read_duration_ms
from bench.shapes.recipe import Guard, RecipeHead, RecipeWait, WrittenWait
from bench.shapes.sheet import StepHead, WaitStep
from bench.states import full_guard
from bench.steps.kind import Around, Batch, Traits
from bench.words import say

TRAITS = Traits(runs_by_itself=True, ends_by_look=True)


def read(written: WrittenWait, head: RecipeHead, around: Around) -> RecipeWait:
    at = around.at
    earliest = read_duration_ms(written["earliest"], f"{at}.earliest")
    usual = read_duration_ms(written["usual"], f"{at}.usual")
    latest = read_duration_ms(written["latest"], f"{at}.latest") if "latest" in written else None
    if usual < earliest or (latest is not None and latest < usual):
        raise RecipeError(at, say("recipe-wait-backwards"))
    own: Guard = {"rescue": written["rescue"]} if "rescue" in written else {}
    return {
        **head,
        **own,
        "kind": "wait",
        "word": written["word"],
        "earliest_ms": earliest,
        "usual_ms": usual,
        "latest_ms": latest,
        "test": written.get("test", ""),
        "stake": written.get("stake", ""),
    }


def lay_out(step: RecipeWait, head: StepHead, batch: Batch) -> WaitStep:
    return {
        **head,
        **full_guard(step),
        "kind": "wait",
        "word": step["word"],
        "earliest_ms": step["earliest_ms"],
        "usual_ms": step["usual_ms"],
        "latest_ms": step["latest_ms"],
        "test": step["test"],
        "stake": step["stake"],
    }
