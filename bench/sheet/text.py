"""A sheet as plain text, for a printer or a terminal."""

from bench.heating import heat_word
from bench.lists import once
from bench.shapes.sheet import Sheet, SheetComponent, SheetLine, Step
from bench.shapes.units import Id, LineKey
from bench.sheet_words import cautions_of, reason_words, spoons_words, warning_words
from bench.steps import counts_pieces, heats, is_judged, puts_in, runs_by_itself
from bench.whole import celsius, grams, span
from bench.words import say_all


def sheet_text(sheet: Sheet) -> str:
    """The whole sheet as lines of text of about 80 columns, ending in a newline."""
    pieces = sheet["size"]["pieces"]
    out = [
        sheet["recipe"]["title"],
        f"{pieces} {sheet['piece']['one'] if pieces == 1 else sheet['piece']['many']}",
        "",
    ]
    scales = {scale["id"]: scale["name"] for scale in sheet["kit"]["scales"]}
    lines = {line["id"]: line for line in sheet["lines"]}
    for component in sheet["components"]:
        out += _about(component)
        for each in component["rounds"]:
            if len(component["rounds"]) > 1:
                out.append(
                    f"   Round {each['round']}: {each['count']} pieces, {grams(each['make_mg'], 1000)}"
                )
            for step in sheet["steps"]:
                if step["component"] == component["id"] and step["round"] == each["round"]:
                    out += _step(sheet, step, lines, scales)
        out.append("")
    if sheet["warnings"]:
        out.append("Look at this")
        out += [f"   {warning['where']}: {warning_words(warning)}" for warning in sheet["warnings"]]
        out.append("")
    return "\n".join(out)


def _about(component: SheetComponent) -> list[str]:
    out = [f"{component['letter']}  {component['name']}"]
    if component["piece_mg"]:
        out.append(
            f"   {component['count']} of {grams(component['piece_mg'], 100)}, {grams(component['make_mg'], 1000)} in all"
        )
    if component["why"]:
        reasons = [reason_words(each) for each in component["why"]]
        out.append(f"   in {len(component['rounds'])} rounds, because {say_all(reasons)}")
    return out


def _step(sheet: Sheet, step: Step, lines: dict[LineKey, SheetLine], scales: dict[Id, str]) -> list[str]:
    out = [f"   [ ] {step['title']}"]
    out += [f"       ! {caution}" for caution in once(cautions_of(step))]
    if step["says"]:
        out.append(f"       {step['says']}")
    out += [f"       {each}" for each in _own(sheet, step, lines, scales)]
    if step["window"]:
        out.append(f"       within {span(step['window']['latest_ms'])}: {step['window']['stake']}")
    return out


def _own(sheet: Sheet, step: Step, lines: dict[LineKey, SheetLine], scales: dict[Id, str]) -> list[str]:
    """What only a step of its kind says."""
    if puts_in(step):
        return [row for key in step["lines"] for row in _line(lines[key], scales)]
    if heats(step):
        bursts = ", ".join(span(burst["ms"]) for burst in step["bursts"])
        told = f"{heat_word(sheet, step)}s: {bursts}" if bursts else f"{span(step['more']['ms'])} at a time"
        warmest = [] if step["to_mk"] is None else [f"no further than {celsius(step['to_mk'])}"]
        return [f"{told}; look: {step['look_for']}", *warmest]
    if is_judged(step):
        return [f"{step['ask']}  Not yet: {step['not_yet']}"]
    if runs_by_itself(step):
        latest = f", latest {span(step['latest_ms'])}" if step["latest_ms"] is not None else ""
        return [
            f"{step['word']}: earliest {span(step['earliest_ms'])}, usual {span(step['usual_ms'])}{latest}"
        ]
    if counts_pieces(step):
        return [f"{step['count']} to make: " + "_ " * min(step["count"], 30)]
    return []


def _line(line: SheetLine, scales: dict[Id, str]) -> list[str]:
    if line["mg"] is None:
        count = f"{line['count']} {line['unit']}" if line["count"] is not None else "to texture"
        out = [f"{line['name']:<36} {spoons_words(line['spoons']) or count:>12}"]
    else:
        on = f"  {scales.get(line['scale'] or '', '')}{', small cup' if line['cup'] else ''}"
        out = [f"{line['name']:<36} {grams(line['mg'], line['division_mg'] or 1):>12}{on}"]
    instead_of = line["instead_of"]
    return [*out, f"  instead of: {instead_of}"] if instead_of else out
