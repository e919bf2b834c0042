"""A step to do: its ways, how much or how long, and its timer."""

from bench.brief import joined
from bench.prompting.answers import answer
from bench.prompting.urgency import before_next
from bench.prompting.view import Said, View
from bench.shapes.entries import DoneBody
from bench.shapes.prompts import Answer, Besides, Number
from bench.shapes.sheet import DoStep
from bench.sheet_words import yes_of
from bench.steps import is_judged
from bench.whole import mass, span
from bench.words import say


def do(view: View, step: DoStep) -> Said:
    done = answer("done", say("prompting-done"), "done", {"step": step["id"]}, strong=True)
    answers = _ways(step) or [done, *_and_judged(view, step)]
    number: Number | None = None
    if step["mg"] is not None:
        number = {"mg": step["mg"], "text": mass(step["mg"], 1000), "caption": say("prompting-at-least")}
    if step["about_ms"] is not None:
        length = span(step["about_ms"])
        number = number or {"mg": None, "text": length, "caption": say("prompting-about")}
        if step["id"] not in view.guides:
            label = say("prompting-time-it", length=length)
            answers.append(answer("begin", label, "began", {"step": step["id"]}))
    return Said(joined(step["says"], before_next(view, step)), answers, number)


def _and_judged(view: View, step: DoStep) -> list[Answer]:
    """Where what is done is judged as soon as it is done: both by one touch, if it is right."""
    for check in view.sheet["steps"]:
        if is_judged(check) and check["after"] == [step["id"]] and not view.is_settled(check["id"]):
            also: list[Besides] = [{"kind": "looked", "body": {"step": check["id"], "answer": "yes"}}]
            body: DoneBody = {"step": step["id"]}
            label = say("prompting-done-and-judged", right=yes_of(check))
            return [answer("done_yes", label, "done", body, says=check["ask"], also=also)]
    return []


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
