"""A line that is past its tolerance: too much or too little of it, and what can be done about that."""

from bench.brief import joined
from bench.capacity import WeighedLine, shares
from bench.journal import carry_up
from bench.prompting.answers import answer
from bench.prompting.carrying import carry, carry_rest
from bench.prompting.on_scale import filling, on_scale
from bench.prompting.view import Said, View
from bench.shapes.prompts import Answer
from bench.shapes.units import Mg
from bench.sheet_words import part_name
from bench.weighing import carry_factor
from bench.whole import PPM, Division, apart, reading, to_division
from bench.words import say


def over(view: View, line: WeighedLine) -> Said:
    """Past tolerance: take some out, leave it, or carry the rest up to match."""
    off, division = line.in_mg - line.target, view.division(line.line)
    to_take = max(to_division(off, division), division.mg)
    shown = reading(to_take, division)
    went_in = _in_and_target(line, division)
    return Said(
        joined(_limit_says(view, line), filling(view, line.line), went_in),
        _too_much(view, line, to_take, shown),
        {"mg": off, "text": f"+{shown}", "caption": say("prompting-too-much-caption")},
        on_scale(view, line.line, "over", -off, shown, None, 0),
        title=say("prompting-too-much", name=line.name, mass=shown),
        kind="over",
    )


def _in_and_target(line: WeighedLine, division: Division) -> str:
    return say(
        "prompting-in-and-target",
        held=reading(line.in_mg, division),
        target=reading(to_division(line.target, division), division),
    )


def _too_much(view: View, line: WeighedLine, to_take: Mg, shown: str) -> list[Answer]:
    # After a choice to make less, what was in already is over by that choice: it stays.
    made_less = view.carried(line.line) < 0
    num, den = carry_up(view.sheet, view.state, line.line["component"], line.line["round"])
    answers = [
        answer(
            "take_out",
            say("prompting-take-out", mass=shown),
            "taken_out",
            {"line": line.id, "mg": to_take, "seen": line.in_mg},
            strong=not made_less,
        ),
        answer(
            "leave",
            say("prompting-leave"),
            "left",
            {"line": line.id},
            says=_new_share(view, line),
            strong=made_less,
        ),
        *carry(view, line.line, "up", num, den),
    ]
    return once(line.told["twice"], answers)


def once(twice: str | None, answers: list[Answer]) -> list[Answer]:
    """These answers, and before them the usual one where two devices told one thing: that it was one."""
    if twice is None:
        return answers
    label, says = say("prompting-entered-twice"), say("prompting-entered-twice-says")
    was_one = answer("told_twice", label, "undone", {"entry": twice}, says=says, strong=True)
    others: list[Answer] = [{**each, "strong": False} for each in answers]
    return [was_one, *others]


def short(view: View, line: WeighedLine, adding: Said) -> Said:
    """Short of the target: add the rest, as `adding` says, leave it, or make less to match."""
    division = view.division(line.line)
    missing = reading(line.target - line.in_mg, division)
    return adding._replace(
        kind="short",
        first="",
        title=say("prompting-too-little", name=line.name, mass=missing),
        says=_in_and_target(line, division),
        answers=[each for each in adding.answers if each["id"] != "zeroed"],
    )


def let_be(view: View, line: WeighedLine) -> list[Answer]:
    """What else there is to do about too little: leave it, or make less to match.

    Where more of the others is in already than that would ask for, only what is still to come can be less.
    """
    leave = answer("leave", say("prompting-leave"), "left", {"line": line.id}, says=_new_share(view, line))
    less = carry(view, line.line, "down", *carry_factor([(line.in_mg, line.mg)]))
    return [leave, *(less or carry_rest(view, line.line))]


def _new_share(view: View, line: WeighedLine) -> str:
    """What leaving it does: the line's share of its component, as it becomes and as it was meant."""
    meant = sum(each.target for each in view.round_of(line.line))
    becomes = meant - line.target + line.in_mg
    part = view.components[line.line["component"]]["name"]
    now, was = apart((line.in_mg, becomes), (line.target, meant))
    said = say("prompting-share-becomes", name=line.name, share=now, part=part, was=was)
    if now == was:
        said = say("prompting-share-stays", name=line.name, share=now, part=part)
    return joined(said, _limit_says(view, line))


def _limit_says(view: View, line: WeighedLine) -> str:
    """That what went in passes the limit of the ingredient's own papers, in the part and in the piece."""
    key, part = line.line["ingredient"], line.line["component"]
    found = next((each for each in view.sheet["ingredients"] if each["id"] == key), None)
    limit = found.get("limit_ppm") if found else None
    if limit is None:
        return ""
    of_part, of_piece = shares(view.sheet, view.state, {line.id: line.in_mg}, key, part)
    asked = shares(view.sheet, view.state, {line.id: line.target}, key, part)
    if max(of_part, of_piece) <= limit or (of_part, of_piece) <= asked:
        return ""
    name = part_name(view.components[part])
    part_says, limit_says = apart((of_part, PPM), (limit, PPM))
    piece_says, _ = apart((of_piece, PPM), (limit, PPM))
    return say("prompting-past-limit", ofPart=part_says, part=name, ofPiece=piece_says, limit=limit_says)
