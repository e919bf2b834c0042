"""A sheet as plain text, for a printer or a terminal."""

from typing import Any

from bench.heating import heat_word
from bench.whole import celsius, grams, span

Json = Any  # until its shape is named


def sheet_text(sheet: Json) -> str:
    """The whole sheet as lines of text of about 80 columns, ending in a newline."""
    pieces = sheet["size"]["pieces"]
    out = [
        sheet["recipe"]["title"],
        f"{pieces} {sheet['piece']['one' if pieces == 1 else 'many']}",
        "",
    ]
    scales = {scale["id"]: scale["name"] for scale in sheet["kit"]["scales"]}
    lines = {line["id"]: line for line in sheet["lines"]}
    for component in sheet["components"]:
        out.append(f"{component['letter']}  {component['name']}")
        if component["piece_mg"]:
            out.append(
                f"   {component['count']} of {grams(component['piece_mg'], 100)}, {grams(component['make_mg'], 1000)} in all"
            )
        if component["why"]:
            out.append(f"   in {len(component['rounds'])} rounds, because {' and '.join(component['why'])}")
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
        out += [f"   {warning['where']}: {warning['text']}" for warning in sheet["warnings"]]
        out.append("")
    return "\n".join(out)


def _step(sheet: Json, step: Json, lines: Json, scales: Json) -> list[str]:
    out = [f"   [ ] {step['title']}"]
    of_ways = [caution for way in step["ways"] for caution in way["cautions"]]
    out += [f"       ! {caution}" for caution in dict.fromkeys([*step["cautions"], *of_ways])]
    if step["says"]:
        out.append(f"       {step['says']}")
    for key in step.get("lines", []):
        line = lines[key]
        if line["mg"] is None:
            count = f"{line['count']} {line['unit']}" if line["count"] is not None else "to texture"
            out.append(f"       {line['name']:<36} {line['spoons'] or count:>12}")
        else:
            on = f"  {scales.get(line['scale'], '')}{', small cup' if line['cup'] else ''}"
            out.append(f"       {line['name']:<36} {grams(line['mg'], line['division_mg'] or 1):>12}{on}")
        if line["instead_of"]:
            out.append(f"         instead of: {line['instead_of']}")
    match step["kind"]:
        case "melt" if step["bursts"]:
            spans = ", ".join(span(burst["ms"]) for burst in step["bursts"])
            out.append(f"       {heat_word(sheet, step)}s: {spans}; look: {step['look_for']}")
        case "melt":
            out.append(f"       {span(step['more']['ms'])} at a time; look: {step['look_for']}")
        case "check":
            out.append(f"       {step['ask']}  Not yet: {step['not_yet']}")
        case "wait":
            latest = f", latest {span(step['latest_ms'])}" if step["latest_ms"] is not None else ""
            out.append(
                f"       {step['word']}: earliest {span(step['earliest_ms'])}, usual {span(step['usual_ms'])}{latest}"
            )
        case "pieces":
            out.append(f"       {step['count']} to make: " + "_ " * min(step["count"], 30))
    if step.get("to_mk") is not None:
        out.append(f"       no further than {celsius(step['to_mk'])}")
    if step["window"]:
        out.append(f"       within {span(step['window']['latest_ms'])}: {step['window']['stake']}")
    return out
