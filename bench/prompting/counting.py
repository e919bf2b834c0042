"""Pieces to count: how many are made, how many are wanted, and out of which portion the next one comes."""

from typing import NamedTuple

from bench.brief import joined
from bench.journal import COUNTED, left_of_mix
from bench.prompting.answers import answer
from bench.prompting.urgency import before_next
from bench.prompting.view import Said, View
from bench.shapes.entries import CountedBody
from bench.shapes.prompts import Answer
from bench.shapes.sheet import PiecesStep
from bench.shapes.state import PieceCount
from bench.shapes.units import Mg
from bench.sheet_words import verb_of
from bench.whole import mass
from bench.words import say

_NONE: PieceCount = {"good": 0, "spoiled": 0, "partial": 0, "of": {}}


class _Made(NamedTuple):
    """How far a count is."""

    told: PieceCount
    seen: int  # all that were counted
    made: int  # those of them that are pieces
    wanted: int
    left: int


class _InHand(NamedTuple):
    """Where the next piece comes from."""

    part: str | None  # the portion's vessel, or "joined"; None: there are no portions
    says: str  # what it still makes
    whole: bool  # whether that is a whole piece


def pieces(view: View, step: PiecesStep) -> Said:
    made = _made(view, step)
    in_hand = _in_hand(view, step, made.told)
    sprayed = len(view.state["looks"].get(step["id"], []))
    says = joined(
        step["again"] if step["again"] and made.made else step["says"],
        say("prompting-sprayed-again", times=sprayed) if sprayed else "",
        in_hand.says or _again_says(view, step, made),
        before_next(view, step),
    )
    caption = say("prompting-of-wanted", wanted=made.wanted, verb=verb_of(step))
    answers = _good(step, made, in_hand) + _not_good(step, made, in_hand) + _all(view, step, made, in_hand)
    return Said(says, answers, {"mg": None, "text": str(made.made), "caption": caption})


def _made(view: View, step: PiecesStep) -> _Made:
    count = view.state["counts"].get(step["id"], _NONE)
    seen = sum(count[each] for each in COUNTED)
    made, wanted = seen - count["spoiled"], view.state["expected"][step["id"]]
    return _Made(count, seen, made, wanted, max(0, wanted - made))


def _body(step: PiecesStep, made: _Made, in_hand: _InHand) -> CountedBody:
    body: CountedBody = {"step": step["id"], "seen": made.seen}
    if in_hand.part is not None:
        body["of"] = in_hand.part
    return body


def _good(step: PiecesStep, made: _Made, in_hand: _InHand) -> list[Answer]:
    body, verb, left = _body(step, made, in_hand), verb_of(step), made.left
    key, good = ("one", 1) if step["one_by_one"] else ("all", left)
    answers = [
        answer(
            f"{key}_{way['id']}",
            say(f"prompting-way-made-{key}", count=good, verb=verb, way=way["name"]),
            "counted",
            {**body, "good": good, "way": way["id"]},
            says=way["says"],
            strong=in_hand.whole and not index,
        )
        for index, way in enumerate(step["ways"])
    ]
    if not step["ways"]:
        label = say(f"prompting-made-{key}", count=good, verb=verb)
        answers = [answer(key, label, "counted", {**body, "good": good}, strong=in_hand.whole)]
    several = say("prompting-other-number")
    if step["one_by_one"]:
        several = say("prompting-several-made", verb=verb)
    return [*answers, answer("some", several, "counted", body, wants="count", most=left)]


def _not_good(step: PiecesStep, made: _Made, in_hand: _InHand) -> list[Answer]:
    key, body = step["id"], _body(step, made, in_hand)
    answers: list[Answer] = []
    if step["again"] is not None:
        label, again = say("prompting-dried"), step["again"]
        answers.append(answer("respray", label, "looked", {"step": key, "answer": "not_yet"}, says=again))
    if step["partial"]:
        strong = not in_hand.whole
        small = say("prompting-small-piece")
        answers.append(answer("partial", small, "counted", {**body, "partial": 1}, strong=strong))
    answers.append(answer("spoiled", say("prompting-spoiled"), "counted", {**body, "spoiled": 1}))
    answers.append(answer("enough", say("prompting-none-left"), "done", {"step": key}))
    return answers


def _all(view: View, step: PiecesStep, made: _Made, in_hand: _InHand) -> list[Answer]:
    """All of a row by one touch. It goes before the others do, so it stands last and none of them moves up."""
    in_a_row, of_all = _in_a_row(view, step, made, in_hand.part)
    if step["ways"] or not step["one_by_one"] or not in_hand.whole or in_a_row <= 1:
        return []
    verb, body = verb_of(step), _body(step, made, in_hand)
    if of_all or in_hand.part is None:
        label = say("prompting-made-all", count=in_a_row, verb=verb)
    else:  # "All 6", of one half
        name = view.vessels[in_hand.part]["name"]
        label = say("prompting-way-made-all", count=in_a_row, verb=verb, way=name)
    if of_all:
        body.pop("of", None)
    return [answer("all", label, "counted", {**body, "good": in_a_row})]


def _again_says(view: View, step: PiecesStep, made: _Made) -> str:
    """That what is left of the mix makes good for what was spoiled."""
    if step["follows"] or step["piece_mg"] <= 0 or made.seen < made.wanted:
        return ""
    held = {key: vessel["in_mg"] for key, vessel in view.state["vessels"].items()}
    left = left_of_mix(step, held, made.told, view.sheet)
    more = left // step["piece_mg"]
    return say("prompting-left-makes", mass=mass(left, 1000), pieces=more) if more else ""


def _in_a_row(view: View, step: PiecesStep, made: _Made, part: str | None) -> tuple[int, bool]:
    """How many whole pieces are told by one touch: all that are left, out of every portion, where the mix gives
    them; else those of the portion in hand. And whether they are of every portion."""
    piece = step["piece_mg"]
    if part is None or piece <= 0:
        return made.left, False
    if part == "joined":
        return 1, False
    held = sum(max(0, _left_in(view, step, made.told, vessel)) for vessel in step["of"])
    if 1 < made.left <= (held - made.told["of"].get("joined", 0) * piece) // piece:
        return made.left, True
    return min(made.left, _left_in(view, step, made.told, part) // piece), False


def _in_hand(view: View, step: PiecesStep, count: PieceCount) -> _InHand:
    """Portions are used in turn, each as far as it gives whole pieces; what is left of them is then joined into
    a last, perhaps partial, piece."""
    piece = step["piece_mg"]
    if not step["of"] or piece <= 0:
        return _InHand(None, "", True)
    leftovers: list[tuple[str, Mg]] = []
    for vessel in step["of"]:
        left, name = _left_in(view, step, count, vessel), view.vessels[vessel]["name"]
        if left >= piece:
            whole = left // piece
            return _InHand(vessel, say("prompting-from-portion", name=name, pieces=whole), True)
        leftovers.append((name, max(0, left)))
    joined_mg = max(0, sum(mg for _, mg in leftovers) - count["of"].get("joined", 0) * piece)
    if joined_mg >= piece:
        parts = [say("prompting-join-part", mass=mass(mg, 1000), name=name) for name, mg in leftovers if mg]
        says = say("prompting-join-left", parts=", ".join(parts), pieces=joined_mg // piece)
        return _InHand("joined", says, True)
    says = say("prompting-left-too-little", mass=mass(joined_mg, 1000), piece=mass(piece, 1000))
    return _InHand("joined", says, not step["partial"])


def _left_in(view: View, step: PiecesStep, count: PieceCount, vessel: str) -> Mg:
    """What is left of a portion after the pieces that were made of it."""
    return view.state["vessels"][vessel]["in_mg"] - count["of"].get(vessel, 0) * step["piece_mg"]
