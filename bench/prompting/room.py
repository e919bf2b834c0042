"""Before the first pour: how the air is, where damp would spoil the part, and whether the scale reads a test weight right.

Both are kept with the batch. Air that is too damp is a question before the first pour, never a refusal.
"""

from bench.air import FIZZ_STOP_RH
from bench.brief import joined
from bench.prompting.answers import answer
from bench.prompting.view import Said, View
from bench.shapes.prompts import Answer, ScaleBody
from bench.shapes.sheet import SheetLine
from bench.shapes.units import Mg
from bench.sheet_words import proof_words
from bench.weighing import reads_in
from bench.whole import reading
from bench.words import say

# Of a scale's test weight, in divisions: NIST Handbook 44, 2.20 Table 6, maintenance, class III (second-hand; the
# first row from memory).
_ALLOWED = ((500, 1), (2000, 2), (4000, 3))
_BEYOND = 5
_UNTOUCHED = ("open", "by_hand")


def before_pouring(view: View, line: SheetLine, said: Said) -> Said:
    """What is said of a first pour, with what is asked and known of the room and of the scale."""
    untouched = all(view.state["lines"][each]["status"] in _UNTOUCHED for each in _round_of(view, line))
    if not untouched:
        return said
    asked = line["component"] in view.sheet.get("asks_air", [])
    air = view.state["air"][-1] if view.state["air"] else None
    at_hand, rest = said.answers[:2], said.answers[2:]
    damp = air is not None and air["humidity"] >= FIZZ_STOP_RH
    of_air = say("prompting-air-first") if asked and air is None else ""
    if asked and (air is None or damp):  # damp air is read anew once it is drier
        at_hand = [*at_hand, answer("air", say("prompting-air"), "aired", {}, wants="air")]
    if asked and air and damp:
        of_air = say("prompting-damp-now", humidity=air["humidity"], most=FIZZ_STOP_RH)
        question = say("prompting-damp", humidity=air["humidity"], most=FIZZ_STOP_RH)
        at_hand = [{**each, "ask": question} if each["kind"] == "weighed" else each for each in at_hand]
    off = _off(view, line)
    proof = _proof(view, line, said, is_off=bool(off))
    answers = [*at_hand, *proof, *rest] if off else [*at_hand, *rest, *proof]
    return said._replace(answers=answers, first=joined(said.first, of_air, off))


def _round_of(view: View, line: SheetLine) -> list[str]:
    return [
        each["id"]
        for each in view.sheet["lines"]
        if each["component"] == line["component"] and each["round"] == line["round"]
    ]


def _proof(view: View, line: SheetLine, said: Said, *, is_off: bool) -> list[Answer]:
    """A weighing of the test weight, while the scale shows nought, until one was right."""
    scale = view.scale(line)
    weight = scale.get("test_mg") if scale else None
    told = any(each["scale"] == scale["id"] for each in view.state["proved"]) if scale else True
    if not scale or not weight or (told and not is_off) or (said.weigh and said.weigh["before_mg"]):
        return []
    body: ScaleBody = {"scale": scale["id"], "weight_mg": weight}
    return [
        answer(
            "prove_again" if told else "prove", proof_words(scale, weight), "proved", body, wants="reading"
        )
    ]


def _off(view: View, line: SheetLine) -> str:
    """That the scale read its test weight wrong, the last time it was looked at."""
    scale = view.scale(line)
    told = [each for each in view.state["proved"] if scale and each["scale"] == scale["id"]]
    if not scale or not told:
        return ""
    last = told[-1]
    if abs(last["mg"] - last["weight_mg"]) <= allowed(last["weight_mg"], scale["division_mg"]):
        return ""
    division = reads_in(scale)
    reads, weight = reading(last["mg"], division), reading(last["weight_mg"], division)
    return say("prompting-scale-off", scale=scale["name"], reads=reads, weight=weight)


def allowed(weight: Mg, division: Mg) -> Mg:
    """How far a scale in use may be off at this weight."""
    divisions = next((off for most, off in _ALLOWED if weight <= most * division), _BEYOND)
    return divisions * division
