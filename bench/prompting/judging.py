"""A check: the question, what "right" is, and what to do when it is not there yet or went too far."""

from bench.brief import joined, sentence
from bench.prompting.answers import answer
from bench.prompting.view import Said, View
from bench.shapes.entries import LookedBody
from bench.shapes.prompts import Answer, Number
from bench.shapes.sheet import CheckStep, SheetLine
from bench.shapes.state import Look
from bench.shapes.units import LineKey
from bench.sheet_words import ask_of, not_yet_of, too_far_of, yes_of
from bench.whole import reading, span
from bench.words import say


def check(view: View, step: CheckStep) -> Said:
    key = step["id"]
    if "looks_at" in step:
        return _second(view, step, step["looks_at"])
    answers = [answer("yes", yes_of(step), "looked", {"step": key, "answer": "yes"}, strong=True)]
    answers += _not_yet(step)
    if step["too_far"] is not None:
        too_far = too_far_of(step)
        answers.append(
            answer(
                "too_far",
                say("prompting-too-far"),
                "looked",
                {"step": key, "answer": "too_far"},
                says=too_far,
            )
        )
    number: Number | None = None
    if view.is_counting(key):
        left = view.guides[key]
        length = span(left["until"] - left["began_at"])
        number = {"mg": None, "text": length, "caption": say("prompting-judge-again")}
    return Said(_says(step, view.state["looks"].get(key, [])), answers, number)


def _second(view: View, step: CheckStep, looks_at: list[LineKey]) -> Said:
    """Another person reads what went in; who it was is told with the answer."""
    line = view.lines[looks_at[0]]
    number = _went_in(view, line) if view.shows(line) else None
    yes: LookedBody = {"step": step["id"], "answer": "yes"}
    who = say("prompting-second-who")
    answers = [answer("yes", yes_of(step), "looked", yes, says=who, strong=True, wants="note")]
    return Said(_says(step, view.state["looks"].get(step["id"], [])), [*answers, *_not_yet(step)], number)


def _went_in(view: View, line: SheetLine) -> Number:
    """What went in, and what the scale reads where that is another."""
    mg, division = view.state["lines"][line["id"]]["in_mg"], view.division(line)
    bowl = view.state["vessels"].get(line["vessel"] or "")
    reads = bowl["in_mg"] - bowl["zero_mg"] if bowl and not line["cup"] else mg
    caption = (
        say("prompting-second-went-in")
        if reads == mg
        else say("prompting-second-shows", reads=reading(reads, division))
    )
    return {"mg": None, "text": reading(mg, division), "caption": caption}


def _not_yet(step: CheckStep) -> list[Answer]:
    key, says = step["id"], not_yet_of(step)
    no = say("prompting-second-no") if "looks_at" in step else say("prompting-not-yet")
    if not step["ways"]:
        return [answer("not_yet", no, "looked", {"step": key, "answer": "not_yet"}, says=says)]
    return [
        answer(
            f"not_yet_{way['id']}",
            say("prompting-not-yet-way", way=way["name"]),
            "looked",
            {"step": key, "answer": "not_yet", "way": way["id"]},
            says=joined(says, way["says"]),
        )
        for way in step["ways"]
    ]


def _says(step: CheckStep, looks: list[Look]) -> str:
    """What the last answer asks to be done, then the question; what "right" is stands before the first."""
    tries = [look for look in looks if look["answer"] != "yes"]
    if not tries:
        right = "" if "looks_at" in step else say("prompting-right", right=sentence(yes_of(step)))
        return joined(ask_of(step), step["says"] or right)
    way = next((way for way in step["ways"] if way["id"] == tries[-1]["way"]), None)
    do = too_far_of(step) if tries[-1]["answer"] == "too_far" else not_yet_of(step)
    tried = say("prompting-tried", times=len(tries))
    return joined(f"{way['name']}:" if way else "", do or "", ask_of(step), tried)
