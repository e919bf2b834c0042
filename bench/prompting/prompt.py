"""One prompt: what the kind of step says, why it is urgent, its cautions, and what can always be answered."""

from collections.abc import Callable
from typing import TypeGuard, TypeVar

from bench.brief import brief, in_short, joined
from bench.lists import once
from bench.prompting.acidity import ph_answers, ph_first
from bench.prompting.answers import answer
from bench.prompting.counting import pieces
from bench.prompting.dividing import split
from bench.prompting.doing import do
from bench.prompting.ending import settles
from bench.prompting.judging import check
from bench.prompting.melting import melt
from bench.prompting.other_kit import other_kit
from bench.prompting.urgency import urgent
from bench.prompting.view import Said, View
from bench.prompting.waiting import wait, waited_for
from bench.prompting.weighing import weigh
from bench.shapes.entries import SkippedBody
from bench.shapes.prompts import Answer, Besides, Caution, Prompt
from bench.shapes.sheet import Step
from bench.sheet_words import cautions_of
from bench.steps import (
    as_plain,
    counts_pieces,
    divides,
    heats,
    is_judged,
    known_kind,
    puts_in,
    runs_by_itself,
)
from bench.words import say

_S = TypeVar("_S", bound=Step)
_Asks = Callable[[View, Step], Said | None]


def _where(is_one: Callable[[Step], TypeGuard[_S]], ask: Callable[[View, _S], Said]) -> _Asks:
    """What a step of one kind asks, of any other nothing."""
    return lambda view, step: ask(view, step) if is_one(step) else None


# What a step asks, by what it is; any other is a thing to do.
_ASKS = (
    _where(puts_in, weigh),
    _where(heats, melt),
    _where(divides, split),
    _where(is_judged, check),
    _where(counts_pieces, pieces),
    _where(runs_by_itself, wait),
)


def prompt_for(view: View, step: Step) -> Prompt:
    asked = (ask(view, step) for ask in _ASKS)
    said = next((said for said in asked if said), None) or do(view, as_plain(step))
    component = view.components[step["component"]]
    title = step["title"] if said.title is None else said.title
    says, why, more = _words(view, step, title, said)
    prompt: Prompt = {
        "step": step["id"],
        "component": step["component"],
        "letter": component["letter"],
        "round": step["round"],
        "of_rounds": len(component["rounds"]),
        "kind": said.kind or known_kind(step),
        "title": title,
        "says": says,
        "why": why,
        "more": more,
        "cautions": _cautions(view, step),
        "number": said.number,
        "weigh": said.weigh,
        "answers": [
            *_over_with(view, step, [*said.answers, *ph_answers(view, step), _skip(step)]),
            *_other_kit(view, said),
        ],
    }
    if heats(step):
        prompt["aid"] = [
            say(f"prompting-burn-{each}") for each in ("short", "cool", "cover", "call", "source")
        ]
    return prompt


def _words(view: View, step: Step, title: str, said: Said) -> tuple[str, str, str]:
    """What it says, why, and what stands beneath: few words where a number or a countdown stands."""
    pressing = urgent(view, step)
    reason = step["reason"] if view.is_first_asked(step) else ""
    says = joined(said.says, reason) if pressing else said.says
    why = pressing or reason
    if said.number is None and not runs_by_itself(step):
        return joined(said.first, says), why, ""
    cut = brief({"title": title, "says": says, "why": why}, bool(pressing), said.first)
    return joined(said.first, cut["says"]), cut["why"], cut["more"]


def _skip(step: Step) -> Answer:
    many = puts_in(step) and len(step["lines"]) > 1
    return answer(
        "skip",
        say("prompting-skip-weighing") if many else say("prompting-skip-step"),
        "skipped",
        {"step": step["id"]},
        says=say("prompting-skip-says", title=step["title"]),
        wants="note",
    )


def _over_with(view: View, step: Step, answers: list[Answer]) -> list[Answer]:
    """The answers, of which those that settle a step pass over what lasts no longer than it. Who skips a wait
    skips what it was for."""
    over = [
        _passed(each, say("prompting-over-first", title=step["title"]))
        for each in view.sheet["steps"]
        if step["id"] in each.get("until", []) and not view.is_settled(each["id"])
    ]
    then = waited_for(view, step)
    for each in answers:
        skips = each["kind"] == "skipped"
        also = [_passed(then)] if then and skips else []
        also += over if skips or settles(view, step, each) else []
        if also:
            each["also"] = [*each.get("also", []), *also]
    return answers


def _passed(step: Step, why: str = "") -> Besides:
    body: SkippedBody = {"step": step["id"], "why": why} if why else {"step": step["id"]}
    return {"kind": "skipped", "body": body}


def _other_kit(view: View, said: Said) -> list[Answer]:
    line = said.weigh["line"] if said.weigh else None
    return other_kit(view, view.lines[line]) if line else []


def _cautions(view: View, step: Step) -> list[Caution]:
    """In full and in short; `seen` when it stood with a step that was begun before."""
    before = {
        caution
        for each in view.sheet["steps"]
        if view.status(each["id"]) in ("begun", "done")
        for caution in cautions_of(each)
    }
    return [
        {"short": in_short(each), "full": each, "seen": each in before} for each in once(cautions_of(step))
    ]


def finish(view: View) -> Prompt:
    """What is asked once every step is settled."""
    skipped = once(step["title"] for step in view.sheet["steps"] if view.status(step["id"]) == "skipped")
    says = say("prompting-finish-says")
    if skipped:
        says = say("prompting-finish-skipped", titles=", ".join(skipped))
    return {
        "step": None,
        "component": None,
        "letter": "",
        "round": 1,
        "of_rounds": 1,
        "kind": "finish",
        "title": say("prompting-finish-title"),
        "says": joined(ph_first(view), says),
        "why": "",
        "more": "",
        "cautions": [],
        "number": None,
        "weigh": None,
        "answers": [
            *ph_answers(view, None),
            answer("finish", say("prompting-finish-label"), "finished", {}, strong=True),
        ],
    }
