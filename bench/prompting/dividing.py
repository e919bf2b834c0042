"""A mix to divide: each portion weighed out of the bowl in turn, and the last one stays in it."""

from bench.brief import joined
from bench.journal import portion_targets
from bench.prompting.answers import answer
from bench.prompting.view import Said, View
from bench.shapes.prompts import Answer, OnScale
from bench.shapes.sheet import SplitStep
from bench.shapes.units import Mg
from bench.weighing import reads_in
from bench.whole import Division, ceiling, reading, to_division
from bench.words import say


def split(view: View, step: SplitStep) -> Said:
    weighed_out, rest = step["portions"][:-1], step["portions"][-1]
    portions = view.state["portions"]
    waiting = (place for place, each in enumerate(weighed_out) if each["vessel"] not in portions)
    index = next(waiting, 0)
    portion, targets = step["portions"][index], portion_targets(step, view.state)
    scale = view.scales.get(view.state["vessels"][portion["vessel"]]["scale"] or "")
    division = reads_in(scale) if scale else Division(1000)
    reads = to_division(targets[index], division)
    text = reading(reads, division)
    stays = say("prompting-rest-stays", mass=reading(targets[-1], division), name=rest["name"])
    weigh: OnScale = {
        "line": None,
        "name": portion["name"],
        "add_mg": targets[index],
        "add": text,
        "reads_mg": reads,
        "reads": text,
        "before_mg": 0,
        "how": "portion",
        "scale": scale["name"] if scale else "",
        "division_mg": division.mg,
        "tolerance_mg": ceiling(division.mg, 2),
        "vessel": portion["vessel"],
    }
    if division.uoz is not None:
        weigh["division_uoz"] = division.uoz
    there = view.state["vessels"][step["vessel"]]["in_mg"]
    mg = min(reads, there) if reads > 0 else targets[index]
    return Said(
        joined(step["says"] if view.is_first_asked(step) else "", stays),
        _answers(portion["vessel"], text, mg, there),
        {"mg": reads, "text": text, "caption": say("prompting-weigh-out-for", name=portion["name"])},
        weigh,
        first=say("prompting-zero-empty", scale=scale["name"]) if scale else "",
    )


def _answers(vessel: str, text: str, mg: Mg, there: Mg) -> list[Answer]:
    return [
        answer(
            "reads",
            say("prompting-reads", reading=text),
            "portioned",
            {"vessel": vessel, "mg": mg, "seen": there},
            strong=True,
        ),
        answer(
            "other",
            say("prompting-reads-else"),
            "portioned",
            {"vessel": vessel, "seen": there},
            wants="reading",
            most=there,
        ),
    ]
