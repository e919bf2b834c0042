"""A sheet as plain text, for a printer or a terminal."""

from bench.heating import heat_word
from bench.lists import once
from bench.shapes.kit import Scale
from bench.shapes.sheet import Sheet, SheetComponent, SheetLine, SheetWay, Step
from bench.shapes.units import Id, LineKey, StepKey
from bench.sheet_words import (
    ask_of,
    cautions_of,
    good_piece_words,
    not_yet_of,
    part_name,
    piece_word,
    proofs_of,
    reason_words,
    spoons_words,
    starts_of,
    too_far_of,
    warning_words,
)
from bench.steps import by_hand, counts_pieces, divides, heats, is_judged, puts_in, runs_by_itself
from bench.weighing import reads_in
from bench.whole import Division, decimal, half_even, mass, reading, share_out, span, temperature, to_division
from bench.words import say, say_all

FINE_MG = 100_000  # an ingredient's total of less is said in hundredths
BLANK = "______"
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
    bowls = _Bowls(sheet, lines)
    on = {vessel["id"]: scales.get(vessel["scale"] or "") for vessel in sheet["vessels"]}
    titles = {step["id"]: step["title"] for step in sheet["steps"]}
    out += _before(sheet)
    out += [say("sheet-text-fetch"), *(f"   [ ] {row}" for row in _totals(sheet)), ""]
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
                    out += _step(sheet, step, _rows(step, lines, scales, bowls), titles)
                    out += [
                        f"       {name:<36} {_shown(mg, on[vessel]):>12}"
                        for name, mg, vessel in bowls.portions.get(step["id"], [])
                    ]
            loose = [line for line in _loose(sheet, component) if line["round"] == each["round"]]
            if loose:
                out.append("   " + say("sheet-text-loose"))
                out += [f"       {row}" for line in loose for row in _line(line, scales)]
        out.append("")
    return "\n".join(out + _good_piece(sheet) + _warnings(sheet))


def _before(sheet: Sheet) -> list[str]:
    """What is told before the first weighing: what must be so, what the scales show, and how the air is."""
    air = [say("prompting-air")] if sheet.get("asks_air") else []
    read = [f"{each}: {BLANK}" for each in (*proofs_of(sheet), *air)]
    rows = [f"   [ ] {each}" for each in (*starts_of(sheet), *read)]
    return [say("sheet-starts"), *rows, ""] if rows else []


def _good_piece(sheet: Sheet) -> list[str]:
    rows = [f"   [ ] {good_piece_words(each)}" for each in sheet.get("good_piece", [])]
    return [say("sheet-good-piece"), *rows, ""] if rows else []


def _warnings(sheet: Sheet) -> list[str]:
    if not sheet["warnings"]:
        return []
    names = {component["id"]: part_name(component) for component in sheet["components"]}
    out = [say("sheet-text-warnings")]
    for warning in sheet["warnings"]:
        about = names.get(warning["where"])
        out.append(f"   {about}: {warning_words(warning)}" if about else f"   {warning_words(warning)}")
    return [*out, ""]


def _loose(sheet: Sheet, component: SheetComponent) -> list[SheetLine]:
    """What no step weighs, such as a spray as needed."""
    return [line for line in sheet["lines"] if line["component"] == component["id"] and line["step"] is None]


class _Bowls:
    """What is in each vessel as the steps go on: what the scale will read, and what each portion weighs."""

    def __init__(self, sheet: Sheet, lines: dict[LineKey, SheetLine]) -> None:
        self._sheet, self._lines = sheet, lines
        self._held = {vessel["id"]: 0 for vessel in sheet["vessels"]}
        self._zero = dict(self._held)
        self.reads: dict[LineKey, int] = {}  # in mg, where not just what goes in
        self.portions: dict[StepKey, list[tuple[str, int, Id]]] = {}  # the last one stays in its bowl
        for step in sheet["steps"]:
            if puts_in(step):
                for key in step["lines"]:
                    self._put(lines[key], step["vessel"])
            elif by_hand(step):
                for vessel in step["tips"]:
                    self._held[step["into"]] += self._held[vessel]
                    self._held[vessel] = self._zero[vessel] = 0
            elif divides(step):
                shares = share_out(
                    self._held[step["vessel"]], [portion["share"] for portion in step["portions"]]
                )
                self._held[step["vessel"]] = 0
                for portion, mg in zip(step["portions"], shares, strict=True):
                    self._held[portion["vessel"]] += mg
                    self._zero[portion["vessel"]] += mg
                    self.portions.setdefault(step["id"], []).append((portion["name"], mg, portion["vessel"]))

    def _put(self, line: SheetLine, vessel: Id) -> None:
        mg = line["mg"]
        if mg is not None and not line["cup"]:
            if self._sheet["size"]["weigh"] == "tare":
                self._zero[vessel] = self._held[vessel]
            reads = self._held[vessel] - self._zero[vessel] + mg
            if reads != mg:
                self.reads[line["id"]] = reads
        self._held[vessel] += mg if mg is not None else line["about_mg"] or 0


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


def _totals(sheet: Sheet) -> list[str]:
    """Each ingredient's amount in the whole batch."""
    found = []
    for each in sheet["ingredients"]:
        if each["mg"]:
            much = mass(each["mg"], 10 if each["mg"] < FINE_MG else 1000)
        elif each["nl"]:
            much = f"{decimal(half_even(each['nl'], 100_000), 1)} ml"
        else:
            much = str(each["count"]) if each["count"] else say("prompting-to-texture")
        found.append(f"{each['name']:<36} {much:>12}")
    return found


def _rows(step: Step, lines: dict[LineKey, SheetLine], scales: dict[Id, Scale], bowls: _Bowls) -> list[str]:
    if not puts_in(step):
        return []
    return [row for key in step["lines"] for row in _line(lines[key], scales, bowls.reads.get(key))]


def _step(sheet: Sheet, step: Step, rows: list[str], titles: dict[StepKey, str]) -> list[str]:
    about = say("sheet-text-takes", span=span(step["about_ms"])) if by_hand(step) and step["about_ms"] else ""
    optional = say("sheet-text-optional") if step["optional"] else ""
    out = ["  ".join(filter(None, (f"   [ ] {step['title']}", about, optional)))]
    out += [f"       ! {caution}" for caution in once(cautions_of(step))]
    if step["says"]:
        out.append(f"       {step['says']}")
    if step["tools"]:
        out.append("       " + say("sheet-text-tools", tools=say_all(step["tools"])))
    out += [f"       {each}" for each in (*rows, *_own(sheet, step))]
    out += [f"       ( ) {_way(way)}" for way in step["ways"]]
    if step["window"]:
        within, stake = span(step["window"]["latest_ms"]), step["window"]["stake"]
        after = say_all([titles[key] for key in step["window"]["from"] if key in titles])
        said = (
            say("sheet-text-within-of", span=within, steps=after, stake=stake)
            if after
            else say("sheet-text-within", span=within, stake=stake)
        )
        out.append(f"       {said}")
    return out


def _way(way: SheetWay) -> str:
    return f"{way['name']}: {way['says']}" if way["says"] else way["name"]


def _own(sheet: Sheet, step: Step) -> list[str]:
    """What only a step of its kind says."""
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
        if "looks_at" in step:
            return [ask_of(step), f"{say('sheet-second-look-who')}: {BLANK}"]
        far = [] if step["too_far"] is None else [say("sheet-text-too-far", way=too_far_of(step))]
        return [ask_of(step), say("sheet-text-not-yet", way=not_yet_of(step)), *far]
    if runs_by_itself(step):
        word, earliest, usual = step["word"], span(step["earliest_ms"]), span(step["usual_ms"])
        test = [step["test"]] if step["test"] else []
        if step["latest_ms"] is None:
            return [say("sheet-text-wait", word=word, earliest=earliest, usual=usual), *test]
        latest = span(step["latest_ms"])
        told = say("sheet-text-wait-latest", word=word, earliest=earliest, usual=usual, latest=latest)
        stake = [say("sheet-text-latest", stake=step["stake"])] if step["stake"] else []
        return [told, *test, *stake]
    if counts_pieces(step):
        again = [say("sheet-text-after-each", again=step["again"])] if step["again"] else []
        return [*again, say("sheet-text-to-make", count=step["count"]) + " " + "_ " * min(step["count"], 30)]
    return []


def _line(line: SheetLine, scales: dict[Id, Scale], reads: int | None = None) -> list[str]:
    """What goes in, and on which scale; what that reads, where it reads another figure."""
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
        told = say("sheet-text-reads", reading=_shown(reads, scale)) if reads else ""
        rest = "  ".join(filter(None, (on, told, by_spoon)))
        out = [f"{line['name']:<36} {_shown(line['mg'], scale):>12}  {rest}".rstrip()]
    meant = line["instead_of"]
    out += ["  " + say("sheet-instead-of", name=meant)] if meant else []
    out += [f"  {line['note']}"] if line["note"] else []
    return out + ([f"  {say('sheet-text-optional')}"] if line["optional"] else [])
