"""A sheet as plain text, for a printer or a terminal."""

from bench.heating import heat_word
from bench.lists import once
from bench.shapes.kit import Scale
from bench.shapes.sheet import Sheet, SheetComponent, SheetLine, SheetWay, Step
from bench.shapes.units import Id, LineKey, StepKey
from bench.sheet_words import (
    cautions_of,
    part_name,
    piece_word,
    reason_words,
    spoons_words,
    too_far_of,
    warning_words,
)
from bench.steps import by_hand, counts_pieces, divides, heats, is_judged, puts_in, runs_by_itself
from bench.weighing import reads_in
from bench.whole import Division, mass, reading, share_out, span, temperature, to_division
from bench.words import say, say_all

LEAST_WHOLE_MG = 10_000  # a part of less is said in tenths


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
    portions = _portions(sheet, lines, scales)
    names = {component["id"]: part_name(component) for component in sheet["components"]}
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
                    out += [f"       {row}" for row in portions.get(step["id"], [])]
            loose = [line for line in _loose(sheet, component) if line["round"] == each["round"]]
            if loose:
                out.append("   " + say("sheet-text-loose"))
                out += [f"       {row}" for line in loose for row in _line(line, scales)]
        out.append("")
    if sheet["warnings"]:
        out.append(say("sheet-text-warnings"))
        for warning in sheet["warnings"]:
            about = names.get(warning["where"])
            out.append(f"   {about}: {warning_words(warning)}" if about else f"   {warning_words(warning)}")
        out.append("")
    return "\n".join(out)


def _loose(sheet: Sheet, component: SheetComponent) -> list[SheetLine]:
    """What no step weighs, such as a spray as needed."""
    return [line for line in sheet["lines"] if line["component"] == component["id"] and line["step"] is None]


def _portions(
    sheet: Sheet, lines: dict[LineKey, SheetLine], scales: dict[Id, Scale]
) -> dict[StepKey, list[str]]:
    """What each portion of a bowl that is divided weighs, by what the sheet puts in; the last one stays."""
    held = {vessel["id"]: 0 for vessel in sheet["vessels"]}
    on = {vessel["id"]: scales.get(vessel["scale"] or "") for vessel in sheet["vessels"]}
    told: dict[StepKey, list[str]] = {}
    for step in sheet["steps"]:
        if puts_in(step):
            held[step["vessel"]] += sum(
                lines[key]["mg"] or lines[key]["about_mg"] or 0 for key in step["lines"]
            )
        elif by_hand(step):
            for vessel in step["tips"]:
                held[step["into"]] += held[vessel]
                held[vessel] = 0
        elif divides(step):
            shares = share_out(held[step["vessel"]], [portion["share"] for portion in step["portions"]])
            held[step["vessel"]] = 0
            for portion, mg in zip(step["portions"], shares, strict=True):
                held[portion["vessel"]] += mg
            told[step["id"]] = [
                f"{portion['name']:<36} {_shown(mg, on[portion['vessel']]):>12}"
                for portion, mg in zip(step["portions"], shares, strict=True)
            ]
    return told


def _shown(mg: int, scale: Scale | None) -> str:
    """What the scale will show; what is too little for it to show, by its own mass."""
    division = reads_in(scale) if scale else Division(1000)
    shown = to_division(mg, division)
    return reading(shown, division) if shown else mass(mg, 10)


def _about(component: SheetComponent) -> list[str]:
    out = [f"{component['letter']}  {part_name(component)}"]
    if component["piece_mg"]:
        piece, made = (
            mass(component["piece_mg"], 100),
            mass(component["make_mg"], 1000 if component["make_mg"] >= LEAST_WHOLE_MG else 100),
        )
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
    if step["tools"]:
        out.append("       " + say("sheet-text-tools", tools=say_all(step["tools"])))
    out += [f"       {each}" for each in _own(sheet, step, lines, scales)]
    out += [f"       ( ) {_way(way)}" for way in step["ways"]]
    if step["window"]:
        within = span(step["window"]["latest_ms"])
        out.append("       " + say("sheet-text-within", span=within, stake=step["window"]["stake"]))
    return out


def _way(way: SheetWay) -> str:
    return f"{way['name']}: {way['says']}" if way["says"] else way["name"]


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
        far = [] if step["too_far"] is None else [say("sheet-text-too-far", way=too_far_of(step))]
        return [step["ask"], say("sheet-text-not-yet", way=step["not_yet"]), *far]
    if runs_by_itself(step):
        word, earliest, usual = step["word"], span(step["earliest_ms"]), span(step["usual_ms"])
        test = [step["test"]] if step["test"] else []
        if step["latest_ms"] is None:
            return [say("sheet-text-wait", word=word, earliest=earliest, usual=usual), *test]
        latest = span(step["latest_ms"])
        told = say("sheet-text-wait-latest", word=word, earliest=earliest, usual=usual, latest=latest)
        return [told, *test]
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
        if line["count"] is not None and line["about_mg"]:
            count = say("sheet-text-about", counted=count, mass=mass(line["about_mg"], 100))
        out = [f"{line['name']:<36} {spoons_words(line['spoons']) or count:>12}"]
    else:
        scale = scales.get(line["scale"] or "")
        named = scale["name"] if scale else ""
        on = say("sheet-text-small-cup", scale=named) if line["cup"] else named
        spoons = spoons_words(line["by_spoon"])
        by_spoon = say("sheet-text-by-spoon", spoons=spoons) if spoons else ""
        out = [f"{line['name']:<36} {_shown(line['mg'], scale):>12}  {on} {by_spoon}".rstrip()]
    meant = line["instead_of"]
    return [*out, "  " + say("sheet-instead-of", name=meant)] if meant else out
