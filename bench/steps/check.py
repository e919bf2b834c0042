"""check: what was made is judged: right, not yet, or too far."""

from bench.former_words import coded
from bench.quantities import read_duration_ms
from bench.shapes.recipe import LeftAlone, LooksAt, RecipeCheck, RecipeHead, WrittenCheck
from bench.shapes.sheet import CheckStep, StepHead
from bench.states import MINUTE_MS
from bench.steps.kind import Around, Batch, Traits

USUAL_HANDS_MS = 2 * MINUTE_MS  # common practice
TRAITS = Traits(is_judged=True, ends_by_look=True)


def read(written: WrittenCheck, head: RecipeHead, around: Around) -> RecipeCheck:
    too_far = written.get("too_far")
    left: LeftAlone = (
        {"too_far_ms": read_duration_ms(too_far["wait"], f"{around.at}.too_far.wait")}
        if too_far and "wait" in too_far
        else {}
    )
    unmarked: LooksAt = {}
    return {
        **head,
        **left,
        **unmarked,
        "kind": "check",
        "ask": written["ask"],
        "yes": written.get("yes", ""),
        "not_yet": written["not_yet"]["do"],
        "too_far": too_far["do"] if too_far else None,
    }


def lay_out(step: RecipeCheck, head: StepHead, batch: Batch) -> CheckStep:
    left: LeftAlone = {"too_far_ms": step["too_far_ms"]} if "too_far_ms" in step else {}
    looks: LooksAt = {}
    if "looks_at" in step:
        looks["looks_at"] = [f"{batch.prefix}.{key}" for key in batch.chosen(step["looks_at"])]
    return {
        **head,
        **left,
        **looks,
        "kind": "check",
        "ask": step["ask"],
        "yes": "" if coded(step["yes"]) == "yes" else step["yes"],
        "not_yet": step["not_yet"],
        "too_far": "" if coded(step["too_far"] or "") == "too_wet" else step["too_far"],
    }
