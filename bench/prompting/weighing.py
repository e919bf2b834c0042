"""A line to weigh: what to add, what the scale will read, and what to do when it is too little for a scale."""

from typing import Literal, NamedTuple

from bench.brief import joined, sentence
from bench.capacity import WeighedLine
from bench.prompting.answers import answer
from bench.prompting.off_target import let_be, once, over, short
from bench.prompting.on_scale import filling, on_scale
from bench.prompting.room import before_pouring
from bench.prompting.urgency import before_look, before_next
from bench.prompting.view import Said, View
from bench.shapes.entries import WeighedBody
from bench.shapes.kit import Scale
from bench.shapes.prompts import Answer, WeighHow
from bench.shapes.sheet import SheetLine, WeighStep
from bench.shapes.units import Mg
from bench.sheet_words import note_of, piece_word, spoons_words
from bench.weighing import reads_in
from bench.whole import Division, ceiling, mass, reading, to_division
from bench.words import say
from bench.yields import MOST_PIECES

DILUTED = 100  # one part in so many, to weigh what is too little for a scale
_How = Literal["running", "tare", "cup"]


def weigh(view: View, step: WeighStep) -> Said:
    lines = [view.lines[key] for key in step["lines"]]
    weighed = [line for line in map(view.weighed, lines) if line]
    off = next((each for each in weighed if each.told["status"] == "over"), None)
    if off:
        return over(view, off)
    # A line that fell short is asked about, unless its round was carried up: then it is topped up.
    little = next((each for each in weighed if each.told["status"] == "short"), None)
    if little:
        adding = add(view, little, top_up=True)
        return adding if view.carried(little.line) > 0 else short(view, little, adding)
    line = next((each for each in lines if view.state["lines"][each["id"]]["status"] == "open"), lines[-1])
    pour = view.weighed(line)
    adding = add(view, pour, top_up=False) if pour else _by_eye(view, line)
    says = adding.says
    if view.is_first_asked(step):  # what is said of the whole step is said once, before the first pour
        said = joined(sentence(step["title"]), step["says"])
        if adding.weigh and adding.weigh["how"] == "cup" and _names_vessel(view, said, line):
            says = note_of(line)  # where it goes is said
        says = joined(said, says, before_next(view, step))
    says = joined(filling(view, line), says, before_look(view, line))
    return before_pouring(view, line, adding._replace(says=says))


def _names_vessel(view: View, words: str, line: SheetLine) -> bool:
    return view.state["vessels"][line["vessel"] or ""]["name"].lower() in words.lower()


def add(view: View, line: WeighedLine, top_up: bool) -> Said:
    """Add this much; the scale will read that."""
    more, division = line.target - line.in_mg, view.division(line.line)
    pour = _pour(view, line, more, division)
    scale = view.scale(line.line)
    if scale and line.in_mg == 0 < more and to_division(more, division) == 0:
        return _too_little(view, line, more, pour.before, scale)
    text = reading(pour.reads, division)
    amount = reading(pour.reads - to_division(pour.before, division), division)  # by what the scale shows now
    return Said(
        joined(
            say("prompting-then-into", vessel=pour.place) if pour.how == "cup" else "", note_of(line.line)
        ),
        once(line.told.get("out_twice"), _answers(view, line, pour, division, top_up)),
        {"mg": pour.reads, "text": text, "caption": say(f"prompting-caption-{pour.how}")},
        on_scale(view, line.line, pour.how, more, amount, pour.reads, pour.before),
        title=_title(line.name, amount, top_up),
        first=_zeroing(scale["name"], pour.place) if scale and not pour.stands else "",
    )


def _title(name: str, amount: str, top_up: bool = False) -> str:
    return say("prompting-top-up" if top_up else "prompting-add", name=name, amount=amount)


def _zeroing(scale: str, vessel: str) -> str:
    """Which scale, what stands on it, and that it is zeroed then."""
    return say("prompting-zero-with", scale=scale, vessel=vessel)


class _Pour(NamedTuple):
    """How a line goes in, by the scale."""

    how: _How
    before: Mg  # what the scale shows before
    reads: Mg  # and after
    seen: Mg  # the mass that this reading stands for
    place: str  # the name of the vessel
    stands: bool  # whether what is weighed into stands on the scale, zeroed


def _pour(view: View, line: WeighedLine, more: Mg, division: Division) -> _Pour:
    vessel = view.state["vessels"][line.line["vessel"] or ""]
    how: _How = "cup" if line.line["cup"] else view.state["weigh"]
    before = vessel["in_mg"] - vessel["zero_mg"] if how == "running" else 0
    stands = {"running": before > 0, "tare": vessel["in_mg"] > 0, "cup": True}[how]
    rounded = _rounded_away(view, line.line) if how == "running" else 0
    reads = to_division(before + rounded + more, division)
    return _Pour(how, before, reads, _seen(reads - before, more, division), vessel["name"], stands)


def _answers(view: View, line: WeighedLine, pour: _Pour, division: Division, top_up: bool) -> list[Answer]:
    leave_out, optional = _leave_out(line.line), line.line["optional"]
    read: WeighedBody = {"line": line.id, "mg": pour.seen, "reading_mg": pour.reads}
    answers = [
        answer(
            "reads",
            say("prompting-reads", reading=reading(pour.reads, division)),
            "weighed",
            read,
            strong=True,
        ),
        answer("other", say("prompting-reads-else"), "weighed", {"line": line.id}, wants="reading"),
    ]
    if top_up:
        answers += let_be(view, line)
    elif optional:
        answers.append(leave_out)
    if pour.how == "running" and pour.before > 0:
        vessel = line.line["vessel"] or ""
        held = reading(view.state["vessels"][vessel]["in_mg"], division)
        label, says = say("prompting-scale-reset"), say("prompting-scale-reset-says", held=held)
        answers.append(answer("zeroed", label, "zeroed", {"vessel": vessel}, says=says))
    if not (top_up or optional):
        answers.append(leave_out)
    return answers


def _leave_out(line: SheetLine) -> Answer:
    return answer("left_out", say("prompting-leave-out"), "left_out", {"line": line["id"]})


def _by_eye(view: View, line: SheetLine) -> Said:
    """What has no mass: by spoon, by count, or as much as the texture asks for."""
    how, amount = _amount(line)
    body: WeighedBody = {"line": line["id"], "mg": line["about_mg"] or 0}
    return Said(
        note_of(line),
        [answer("in", say("prompting-added"), "weighed", body, strong=True), _leave_out(line)],
        {"mg": None, "text": amount, "caption": say("prompting-caption-spoons") if how == "spoons" else ""},
        on_scale(view, line, how, 0, amount, None, 0),
        title=_title(line["name"], amount),
    )


def _amount(line: SheetLine) -> tuple[WeighHow, str]:
    if line["spoons"]:
        return "spoons", spoons_words(line["spoons"])
    if line["count"] is None:
        return "texture", say("prompting-to-texture")
    return "count", say("prompting-counted", count=line["count"], unit=line["unit"])


def _rounded_away(view: View, line: SheetLine) -> Mg:
    """What readings before this line rounded away in its vessel, in mg: the next reading takes it up, so
    that roundings never add up. What is off by more was poured so, and is nothing to make good."""
    off = 0
    for other in view.sheet["lines"]:
        told = view.state["lines"][other["id"]]
        if other["vessel"] != line["vessel"] or other["id"] == line["id"] or other["cup"]:
            continue
        if told["target_mg"] is None or told["in_mg"] == 0:
            continue
        away = told["target_mg"] - told["in_mg"]
        off += away if abs(away) <= ceiling(other["division_mg"] or 1, 2) else 0
    return off


def _seen(shown: Mg, asked: Mg, division: Division) -> Mg:
    """The mass that a reading as it was asked for stands for: what the scale shows, but within half its
    division of what was asked, which is as much as one reading can say of a pour between two."""
    if shown <= 0:  # too small for the scale to show
        return asked
    half = division.mg // 2 if division.uoz is None else ceiling(division.mg, 2)  # a reading in whole mg
    return min(max(shown, asked - half), asked + half)


def _too_little(view: View, line: WeighedLine, more: Mg, before: Mg, scale: Scale) -> Said:
    """Less than the scale can show: by spoon, stirred into more of another line, or in a larger batch."""
    division = reads_in(scale)
    shown = mass(more, next(each for each in (100, 10, 1) if more >= each))
    pieces = ceiling(view.sheet["size"]["pieces"] * division.mg, more)
    spoon = spoons_words(line.line["by_spoon"])
    ways = (
        say("prompting-too-little-for-scale", mass=shown, scale=scale["name"]),
        _diluted(view, line, more, division, shown),
        _shows_from(pieces, piece_word(view.sheet["piece"], pieces)),
        note_of(line.line),
    )
    read: WeighedBody = {"line": line.id, "mg": more}
    caption = say("prompting-caption-by-spoon") if spoon else say("prompting-caption-by-eye")
    return Said(
        joined(*ways),
        [
            answer("in", say("prompting-is-in"), "weighed", read, strong=True),
            answer("other", say("prompting-reads-else"), "weighed", {"line": line.id}, wants="reading"),
            _leave_out(line.line),
        ],
        {"mg": None, "text": spoon or shown, "caption": caption},
        on_scale(view, line.line, "spoons", more, spoon or shown, None, before),
        title=_title(line.name, spoon or shown),
    )


def _shows_from(pieces: int, many: str) -> str:
    return say("prompting-shows-from", pieces=pieces, many=many) if pieces <= MOST_PIECES else ""


def _diluted(view: View, line: WeighedLine, more: Mg, division: Division, shown: str) -> str:
    """How to weigh a hundredth: a little of it stirred into much of another line that is still to come."""
    take, stock = DILUTED * more, ceiling(5 * division.mg, 1000) * 1000
    for other in view.round_of(line.line):
        open_still = other.told["status"] == "open" and other.id != line.id
        if open_still and other.target >= take >= 5 * division.mg:
            return say(
                "prompting-dilute",
                some=mass(stock, 1000),
                into=mass((DILUTED - 1) * stock, 1000),
                name=other.name,
                take=reading(take, division),
                mass=shown,
            )
    return ""
