"""Making a whole round more or less to match a weight that is off, worked out to its end before it is offered."""

from typing import Literal

from bench.brief import joined
from bench.capacity import WeighedLine, carried, loads, too_full
from bench.journal import in_reach
from bench.prompting.answers import answer
from bench.prompting.view import View
from bench.shapes.entries import CarriedBody
from bench.shapes.prompts import Answer
from bench.shapes.sheet import SheetLine
from bench.shapes.units import Mg
from bench.sheet_words import part_name
from bench.weighing import allowed_mg
from bench.whole import apart, mass, more_by, reading, times
from bench.words import say
from bench.yields import pieces_from

Way = Literal["up", "down", "rest"]  # the rest up, all down to what there is, what is to come down


def carry(
    view: View, line: SheetLine, way: Way, num: int, den: int, kept: list[str] | None = None
) -> list[Answer]:
    """The answer that makes every target of this line's round num / den of the sheet's, worked out to its
    end; none where that cannot work. kept: lines that stay as they are."""
    component, number, lines = line["component"], line["round"], view.round_of(line)
    if not in_reach(num, den):
        return []
    ends, over = carried(view.sheet, lines, num, den, kept or [])
    excess = too_full(view.sheet, view.state, loads(view.sheet, component, number, ends))
    if over or (excess and not excess.fits_another):
        return []
    body: CarriedBody = {"component": component, "round": number, "num": num, "den": den}
    if kept:
        body["left"] = kept
    says = joined(_says(view, line, num, den, ends), excess.says if excess else "")
    key = "carry_rest" if kept else "carry"
    return [answer(key, say(f"prompting-match-{way}", factor=times(num, den)), "carried", body, says=says)]


def carry_rest(view: View, line: SheetLine) -> list[Answer]:
    """Make less of what is still to come, so that it keeps its share of what is in."""
    lines = view.round_of(line)
    kept = [each for each in lines if each.in_mg]
    num, den = sum(each.in_mg for each in kept), sum(each.mg for each in kept)
    to_come = any(each.told["status"] == "open" for each in lines)
    if not to_come or num >= den:
        return []
    return carry(view, line, "rest", num, den, sorted(each.id for each in kept))


def _says(view: View, line: SheetLine, num: int, den: int, ends: dict[str, Mg]) -> str:
    """What carrying to match does: the yield, the top-ups, what it makes of the shares."""
    component, lines = view.components[line["component"]], view.round_of(line)
    total = sum(ends.values())
    pieces = pieces_from(component, total)
    becomes = say("prompting-part-becomes", part=part_name(component), mass=mass(total, 1000))
    if component["piece_mg"] and pieces:
        becomes = say(
            "prompting-part-becomes-enough", part=part_name(component), mass=mass(total, 1000), pieces=pieces
        )
    said = [becomes]
    tops = [top for each in lines if (top := _top_up(view, each, num, den, ends[each.id]))]
    if tops:
        said.append(say("prompting-top-up-lines", lines=", ".join(tops)))
    said += _shifted(lines, ends)
    if num > den:
        said.append(say("prompting-need-more", more=more_by(num, den)))
    return "; ".join(said) + "."


def _top_up(view: View, line: WeighedLine, num: int, den: int, end: Mg) -> str:
    """How much of a line that is in already goes in again; "" where none does."""
    division = view.division(line.line)
    more = end - line.in_mg
    if not line.in_mg or more <= allowed_mg(line.line, division.mg, num, den):
        return ""
    return say("prompting-top-up-line", mass=reading(more, division), name=line.name)


def _shifted(lines: list[WeighedLine], ends: dict[str, Mg]) -> list[str]:
    """The two lines whose share of the part differs most from the sheet's, once all is in."""
    whole, meant = sum(ends.values()), sum(each.mg for each in lines)
    if not whole or not meant:
        return []

    def off(line: WeighedLine) -> int:
        return abs(ends[line.id] * meant - line.mg * whole)

    said: list[str] = []
    for line in sorted(lines, key=off, reverse=True)[:2]:
        if 1000 * off(line) > meant * whole:
            now, was = apart((ends[line.id], whole), (line.mg, meant))
            said.append(say("prompting-share-moves", name=line.name, share=now, was=was))
    return said
