"""A melt: so many bursts, a rest with a stir between, and a look after each."""

from bench.brief import joined, sentence
from bench.heating import heat_word
from bench.materials import is_metal
from bench.prompting.answers import answer
from bench.prompting.other_kit import vessels_of_glass
from bench.prompting.view import Said, View
from bench.shapes.entries import HeatedBody, LookedBody
from bench.shapes.prompts import Answer, Number
from bench.shapes.sheet import Burst, MeltStep
from bench.shapes.state import Heating, VesselState
from bench.whole import span, temperature
from bench.words import say


def melt(view: View, step: MeltStep) -> Said:
    bursts = view.state["bursts"].get(step["id"], [])
    if bursts and bursts[-1]["answer"] is None:
        return _heating(view, step, bursts)
    metal = _metal(view, step)
    length, word = span(_following(step, len(bursts))["ms"]), heat_word(view.sheet, step)
    resting = view.guides.get(step["id"])
    caption = say("prompting-heat-next", word=word, number=len(bursts) + 1, heater=step["heater"])
    number: Number = {"mg": None, "text": length, "caption": caption}
    if resting:
        rest_ms = _following(step, len(bursts))["rest_ms"]
        number = {"mg": None, "text": span(rest_ms), "caption": say("prompting-rest-then", length=length)}
    says = (
        say("prompting-stir-resting") if resting else "",
        step["says"] if not bursts else "",
        say("prompting-right", right=sentence(step["look_for"])),
        _no_further(step),
        _expected(step, word, len(bursts)),
    )
    begin = answer(
        "heat",
        say("prompting-heat-begin", length=length),
        "heated",
        _next_heat(step, len(bursts)),
        strong=not view.is_counting(step["id"]),
        ask=say("prompting-metal-ask", vessel=metal[1]["name"]) if metal else "",
    )
    answers = [begin, _melted(step), *(vessels_of_glass(view, *metal) if metal else [])]
    first = say("prompting-metal", vessel=metal[1]["name"]) if metal else ""
    return Said(joined(*says), answers, number, first=first)


def _metal(view: View, step: MeltStep) -> tuple[str, VesselState] | None:
    """The first vessel of metal that this melt would take into a microwave: its place, and what stands there."""
    if heat_word(view.sheet, step) != "burst":
        return None
    kit = {each["id"]: each for each in view.sheet["kit"]["vessels"]}
    for key in step.get("vessels", []):
        vessel = view.state["vessels"][key]
        own = kit.get(vessel["kit"] or "")
        if own and is_metal(own):
            return key, vessel
    return None


def _following(step: MeltStep, given: int) -> Burst:
    """The burst that comes next, after so many."""
    return step["bursts"][given] if given < len(step["bursts"]) else step["more"]


def _melted(step: MeltStep, strong: bool = False) -> Answer:
    body: LookedBody = {"step": step["id"], "answer": "yes"}
    return answer("yes", say("prompting-melted"), "looked", body, says=step["look_for"], strong=strong)


def _expected(step: MeltStep, word: str, given: int) -> str:
    planned = step["bursts"]
    if not planned:
        return ""
    usual = _usual(planned, word)
    if given < len(planned):
        return say("prompting-heat-usual", usual=usual)
    return say("prompting-heat-past-usual", usual=usual)


def _usual(planned: list[Burst], word: str) -> str:
    """How much heat a melt is expected to take: so many bursts, or so long."""
    if word == "burst":
        return say("prompting-bursts", count=len(planned))
    return span(sum(each["ms"] for each in planned))


def _no_further(step: MeltStep) -> str:
    """How warm a melt may end, where the recipe says so. Sheets of earlier versions do not hold it."""
    most = step.get("to_mk")
    return say("prompting-no-further", warmth=temperature(most)) if most is not None else ""


def _next_heat(step: MeltStep, given: int) -> HeatedBody:
    """The body of an entry that the next burst began; with the rest that is expected between it and its look."""
    planned = step["bursts"]
    body: HeatedBody = {"step": step["id"], "ms": _following(step, given)["ms"]}
    rest_ms = planned[given + 1]["rest_ms"] if given + 1 < len(planned) else 0
    if rest_ms:
        body["rest_ms"] = rest_ms
    return body


def _heating(view: View, step: MeltStep, bursts: list[Heating]) -> Said:
    """A burst counts, or is over: look. Nothing is lit while it counts, so no pedal ends it. Heat on stands first
    and “melted” second, as before the burst, whichever is likelier: none changes places under a thumb."""
    over, enough = not view.is_counting(step["id"]), len(bursts) >= len(step["bursts"])
    last, word = bursts[-1], heat_word(view.sheet, step)
    again, melted = _again(step, bursts, over and not enough), _melted(step, over and enough)
    right = sentence(step["look_for"])
    stir = say("prompting-stir-look", right=right)
    if "rest_ms" in last:
        stir = say("prompting-stir-rest-look", rest=span(last["rest_ms"]), right=right)
    return Said(
        joined(stir, _no_further(step)),
        [again, melted],
        {
            "mg": None,
            "text": span(last["ms"]),
            "caption": say("prompting-heat-runs", word=word, number=len(bursts)),
        },
        kind="heating",
    )


def _again(step: MeltStep, bursts: list[Heating], strong: bool) -> Answer:
    """Not melted yet: rest first, where this burst did not rest already, or heat on."""
    following = _following(step, len(bursts))
    if following["rest_ms"] and "rest_ms" not in bursts[-1]:
        label = say("prompting-not-yet-rest", length=span(following["rest_ms"]))
        return answer("again", label, "looked", {"step": step["id"], "answer": "not_yet"}, strong=strong)
    label = say("prompting-not-yet-more", length=span(following["ms"]))
    return answer("again", label, "heated", _next_heat(step, len(bursts)), strong=strong)
