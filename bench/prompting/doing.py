"""A step to do: its ways, how much or how long, and its timer."""

from bench.brief import joined
from bench.prompting.answers import answer
from bench.prompting.urgency import before_next
from bench.prompting.view import Said, View
from bench.shapes.prompts import Answer, Number
from bench.shapes.sheet import DoStep
from bench.whole import grams, span


def do(view: View, step: DoStep) -> Said:
    answers = _ways(step) or [answer("done", "Done", "done", {"step": step["id"]}, strong=True)]
    number: Number | None = None
    if step["mg"] is not None:
        number = {"mg": step["mg"], "text": grams(step["mg"], 1000), "caption": "at the least"}
    if step["about_ms"] is not None:
        length = span(step["about_ms"])
        number = number or {"mg": None, "text": length, "caption": "about"}
        if step["id"] not in view.guides:
            answers.append(answer("begin", f"Time it: {length}", "began", {"step": step["id"]}))
    return Said(joined(step["says"], before_next(view, step)), answers, number)


def _ways(step: DoStep) -> list[Answer]:
    return [
        answer(
            f"way_{way['id']}",
            way["name"],
            "done",
            {"step": step["id"], "way": way["id"]},
            says=way["says"],
            strong=not index,
        )
        for index, way in enumerate(step["ways"])
    ]
