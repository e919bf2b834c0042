"""The pH, where the recipe says which a good piece has: asked at the check that names it, else before the batch ends.

What was read is kept as an entry, `met`, in the maker's own words, and stands in the record. The same as
frontend/bench/prompting/acidity.js.
"""

import re

from bench.prompting.answers import answer
from bench.prompting.view import View
from bench.shapes.prompts import Answer
from bench.shapes.recipe import GoodPiece
from bench.shapes.sheet import Step
from bench.sheet_words import ph_words
from bench.steps import is_judged
from bench.words import say

_NAMED = re.compile(r"\bpH\b")


def ph_answers(view: View, step: Step | None) -> list[Answer]:
    """Both answers, each of which wants what was read. step: None at the end. None of them once it is as wanted."""
    wanted = _wanted(view)
    told = view.state["met"].get("ph")
    if wanted is None or (told and told["answer"] == "yes") or _asked_at(view) != (step and step["id"]):
        return []
    words, says = wanted_words(wanted), say("prompting-ph-says")
    return [
        answer(
            f"ph_{each}",
            say("prompting-ph", wanted=words, answer=each),
            "met",
            {"criterion": "ph", "answer": each},
            says=says,
            wants="note",
        )
        for each in ("yes", "no")
    ]


def ph_first(view: View) -> str:
    """What is said before the end; "" where nothing is asked there."""
    wanted = _wanted(view)
    return say("prompting-ph-first", wanted=wanted_words(wanted)) if wanted and ph_answers(view, None) else ""


def wanted_words(wanted: GoodPiece) -> str:
    """Between which pH: thousandths, as a maker reads them."""
    least, most = wanted["least"], wanted["most"]
    bounds = "both" if least is not None and most is not None else "most" if least is None else "least"
    return say("prompting-ph-wanted", bounds=bounds, least=_shown(least), most=_shown(most))


def _wanted(view: View) -> GoodPiece | None:
    return next((each for each in view.sheet.get("good_piece", []) if each["criterion"] == "ph"), None)


def _asked_at(view: View) -> str | None:
    """The last check whose own words name it, by id; None: none does, and the end asks."""
    named = [
        each["id"]
        for each in view.sheet["steps"]
        if is_judged(each) and _NAMED.search(f"{each['title']} {each['ask']} {each['says']}")
    ]
    return named[-1] if named else None


def _shown(thousandths: int | None) -> str:
    return "" if thousandths is None else ph_words(thousandths)
