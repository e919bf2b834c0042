"""A sheet as plain text, for a printer or a terminal."""

from bench.heating import heat_word
from bench.lists import once
from bench.shapes.kit import Scale
from bench.shapes.sheet import Sheet, SheetComponent, SheetLine, Step
from bench.shapes.units import Id, LineKey
from bench.sheet_words import cautions_of, piece_word, reason_words, spoons_words, warning_words
from bench.steps import counts_pieces, heats, is_judged, puts_in, runs_by_itself
from bench.weighing import reads_in
from bench.whole import Division, mass, reading, span, temperature, to_division
from bench.words import say, say_all


def sheet_text(sheet: Sheet) -> str:
    """The whole sheet as lines of text of about 80 columns, ending in a newline."""
    pieces = sheet["size"]["pieces"]
    out = [
        sheet["recipe"]["title"],
        f"{pieces} {piece_word(sheet['piece'], pieces)}",
        "",
    ]
    scales = {scale["id"]: scale for scale in sheet["kit"]["scales"]}
    lines = {line["id"]: line for line in sheet["lines"]}
    for component in sheet["components"]:
        out += _about(component)
        for each in component["rounds"]:
            if len(component["rounds"]) > 1:
                made = mass(each["make_mg"], 1000)
                out.append(
                    "   " + say("sheet-text-round", round=each["round"], count=each["count"], mass=made)
                )
            for step in sheet["steps"]:
                if step["component"] == component["id"] and step["round"] == each["round"]:
                    out += _step(sheet, step, lines, scales)
        out.append("")
    if sheet["warnings"]:
        out.append(say("sheet-text-warnings"))
        out += [f"   {warning['where']}: {warning_words(warning)}" for warning in sheet["warnings"]]
        out.append("")
    return "\n".join(out)


def _about(component: SheetComponent) -> list[str]:
    out = [f"{component['letter']}  {component['name']}"]
    if component["piece_mg"]:
        piece, made = mass(component["piece_mg"], 100), mass(component["make_mg"], 1000)
        out.append("   " + say("sheet-text-part", count=component["count"], piece=piece, mass=made))
    if component["why"]:
        reasons = say_all([reason_words(each) for each in component["why"]])
        out.append("   " + say("sheet-text-rounds", count=len(component["rounds"]), reasons=reasons))
    return out


def _step(sheet: Sheet, step: Step, lines: dict[LineKey, SheetLine], scales: dict[Id, Scale]) -> list[str]:
    out = [f"   [ ] {step['title']}"]
    out += [f"       ! {caution}" for caution in once(cautions_of(step))]
    if step["says"]:
        out.append(f"       {step['says']}")
    out += [f"       {each}" for each in _own(sheet, step, lines, scales)]
    if step["window"]:
        within = span(step["window"]["latest_ms"])
        out.append("       " + say("sheet-text-within", span=within, stake=step["window"]["stake"]))
    return out


def _own(sheet: Sheet, step: Step, lines: dict[LineKey, SheetLine], scales: dict[Id, Scale]) -> list[str]:
    """What only a step of its kind says."""
    if puts_in(step):
        return [row for key in step["lines"] for row in _line(lines[key], scales)]
    if heats(step):
        bursts = ", ".join(span(burst["ms"]) for burst in step["bursts"])
        told = (
            say("sheet-text-bursts", word=heat_word(sheet, step), spans=bursts)
            if bursts
            else say("sheet-text-at-a-time", span=span(step["more"]["ms"]))
        )
        most = step["to_mk"]
        warmest = [] if most is None else [say("sheet-text-no-further", warmth=temperature(most))]
        return [told, say("sheet-text-look", look=step["look_for"]), *warmest]
    if is_judged(step):
        return [step["ask"], say("sheet-text-not-yet", way=step["not_yet"])]
    if runs_by_itself(step):
        word, earliest, usual = step["word"], span(step["earliest_ms"]), span(step["usual_ms"])
        if step["latest_ms"] is None:
            return [say("sheet-text-wait", word=word, earliest=earliest, usual=usual)]
        latest = span(step["latest_ms"])
        return [say("sheet-text-wait-latest", word=word, earliest=earliest, usual=usual, latest=latest)]
    if counts_pieces(step):
        return [say("sheet-text-to-make", count=step["count"]) + " " + "_ " * min(step["count"], 30)]
    return []


def _line(line: SheetLine, scales: dict[Id, Scale]) -> list[str]:
    if line["mg"] is None:
        count = (
            say("prompting-to-texture")
            if line["count"] is None
            else say("prompting-counted", count=line["count"], unit=line["unit"])
        )
        out = [f"{line['name']:<36} {spoons_words(line['spoons']) or count:>12}"]
    else:
        scale = scales.get(line["scale"] or "")
        division, named = (reads_in(scale), scale["name"]) if scale else (Division(1), "")
        weight = reading(to_division(line["mg"], division), division)
        on = say("sheet-text-small-cup", scale=named) if line["cup"] else named
        out = [f"{line['name']:<36} {weight:>12}  {on}".rstrip()]
    meant = line["instead_of"]
    return [*out, "  " + say("sheet-instead-of", name=meant)] if meant else out
