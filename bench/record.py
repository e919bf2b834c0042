"""The batch record: what was asked, what was done, and when. Drawn from the sheet and the journal.

It holds what a batch record is commonly asked to hold (common practice; of ISO 22716 only the titles of its
clauses were read, and those second-hand): product, batch number, recipe version, size, people, kit with scale
divisions, lots, target, actual and deviation of every line with its tolerance, corrections, bursts, waits
planned and real, checks and answers, steps skipped and added, pieces good and spoiled, the mass balance,
notes, photographs, and who signed. Nothing in it is rewritten: what was not signed stands under `remarks`.

Besides what is plain from the code below:

lots: [{"lot", "names": the ingredients', "mg", "count", "booked_mg", "over_mg"}]
corrections: each entry's own fields, and "because": the id of the line that it answers
signed: {"id", "at", "device", "name", "entries": how many it seals, "missing": how many of those are not here}
unsigned: the signings that were taken back: [{"at", "device", "name", "signed_at", "signed_by"}]
people: [{"device", "first_at", "last_at", "entries"}]; who a device is, the caller knows
balance: see `_balance`; None until finished pieces have been counted
hands: see bench/hands.py
"""

from collections.abc import Callable
from typing import TypeAlias

from bench.deviations import criteria_of, deviations_of, starts_of
from bench.hands import Places, hands_of
from bench.heating import heat_word
from bench.journal import WRAP, division_on, read_of
from bench.lots import uses_of
from bench.release import release_of
from bench.shapes.entries import Entry, RunEntry
from bench.shapes.pieces import PiecesMade
from bench.shapes.record import (
    Balance,
    Correction,
    PlacedStep,
    Record,
    RecordAdded,
    RecordBursts,
    RecordCount,
    RecordKit,
    RecordLine,
    RecordLooks,
    RecordLot,
    RecordPerson,
    RecordPortions,
    RecordSigned,
    RecordSkipped,
    RecordStep,
    RecordWait,
    RecordWindow,
    Yield,
)
from bench.shapes.sheet import Sheet, SheetComponent, SheetLine, Step
from bench.shapes.state import State, ToldOfRun
from bench.sheet_words import spoons_words
from bench.steps import counts_pieces, divides, heats, runs_by_itself
from bench.weighing import allowed_mg
from bench.whole import PPM, Division, half_even, to_division

Place: TypeAlias = Callable[[Step], PlacedStep]


def record(sheet: Sheet, state: State, entries: list[Entry]) -> Record:
    """The plain batch record of a run, finished or not. Masses in mg, instants and times in ms."""
    components = {component["id"]: component for component in sheet["components"]}
    place = _placing(components)
    live = read_of(state, entries)
    lines = [_line(line, sheet, state, components) for line in sheet["lines"]]
    counts = _counts(sheet, state, place)
    waits, windows = _waits(sheet, state, place), _windows(sheet, state, place)
    skipped, criteria = _skipped(sheet, state, place), criteria_of(sheet, state)
    by, starts = _told_by(sheet, live), starts_of(sheet, state)
    return {
        **_told_of_run(state),
        "recipe": sheet["recipe"],
        "size": sheet["size"],
        "piece": sheet["piece"],
        "signed": _signed(state),
        "people": _people(live),
        "kit": _kit(sheet, state),
        "lots": _lots(sheet, state, live),
        "lines": lines,
        "steps": [_step(step, state, place, by) for step in sheet["steps"]],
        "waits": waits,
        "windows": windows,
        "bursts": _bursts(sheet, state, place),
        "portions": _portions(sheet, state, place),
        "looks": _looks(sheet, state, place),
        "counts": counts,
        "corrections": _corrections(sheet, live),
        "skipped": skipped,
        "added": _added(sheet, live, place),
        "starts": starts,
        "criteria": criteria,
        "deviations": deviations_of(lines, waits, windows, skipped, criteria, starts),
        "release": release_of(state),
        "remarks": state["remarks"],
        "yield": _yield(sheet, state, counts, lines),
        "balance": _balance(sheet, state, counts),
        "hands": hands_of(sheet, state, live),
    }


def _told_of_run(state: State) -> ToldOfRun:
    return {
        "number": state["number"],
        "also_numbered": state["also_numbered"],
        "started_at": state["started_at"],
        "finished_at": state["finished_at"],
        "unsigned": state["unsigned"],
        "notes": state["notes"],
        "air": state["air"],
        "proved": state["proved"],
        "labelled": state["labelled"],
        "pictures": state["pictures"],
        "judgements": state["judgements"],
        "unread": state["unread"],
    }


def _placing(components: dict[str, SheetComponent]) -> Place:
    def place(step: Step) -> PlacedStep:
        return {
            "step": step["id"],
            "component": step["component"],
            "letter": components[step["component"]]["letter"],
            "round": step["round"],
            "title": step["title"],
        }

    return place


def _told_by(sheet: Sheet, live: list[RunEntry]) -> dict[str, list[str]]:
    """The devices that told of each step, in the order in which they first did."""
    places, by = Places(sheet), dict[str, dict[str, None]]()
    for entry in live:
        by.setdefault(places.told_by(entry["body"]), {})[entry["device"]] = None
    return {step: [*devices] for step, devices in by.items()}


def _step(step: Step, state: State, place: Place, by: dict[str, list[str]]) -> RecordStep:
    stands = state["steps"][step["id"]]
    return {
        **place(step),
        "kind": step["kind"],
        "status": stands["status"],
        "at": stands["at"],
        "why": stands["why"],
        "way": _way_name(step, stands["way"]),
        "by": by.get(step["id"], []),
    }


def _waits(sheet: Sheet, state: State, place: Place) -> list[RecordWait]:
    waits: list[RecordWait] = []
    for step in sheet["steps"]:
        stands = state["steps"][step["id"]]
        began = stands["ready_at"]
        if not runs_by_itself(step) or began is None or stands["status"] == "skipped":
            continue
        real = None if stands["at"] is None else _length(began, stands["at"])
        waits.append(
            {
                **place(step),
                "word": step["word"],
                "began_at": began,
                "ended_at": stands["at"],
                "earliest_ms": step["earliest_ms"],
                "usual_ms": step["usual_ms"],
                "latest_ms": step["latest_ms"],
                "real_ms": real,
                "early": real is not None and real < step["earliest_ms"],
                "late": real is not None and step["latest_ms"] is not None and real > step["latest_ms"],
            }
        )
    return waits


def _windows(sheet: Sheet, state: State, place: Place) -> list[RecordWindow]:
    """The windows that were opened: from the last step that opens one to the step that must follow."""
    windows: list[RecordWindow] = []
    for step in sheet["steps"]:
        window = step["window"]
        opened = [state["steps"][each]["at"] for each in window["from"]] if window else []
        instants = [at for at in opened if at is not None]
        if not window or not opened or len(instants) < len(opened):
            continue
        ended = state["steps"][step["id"]]["at"]
        real = None if ended is None else _length(max(instants), ended)
        windows.append(
            {
                **place(step),
                "opened_at": max(instants),
                "ended_at": ended,
                "latest_ms": window["latest_ms"],
                "real_ms": real,
                "late": real is not None and real > window["latest_ms"],
            }
        )
    return windows


def _bursts(sheet: Sheet, state: State, place: Place) -> list[RecordBursts]:
    return [
        {
            **place(step),
            "planned": len(step["bursts"]),
            "used": len(state["bursts"][step["id"]]),
            "word": heat_word(sheet, step),
            "mg": step["mg"],
            "heated_ms": sum(burst["ms"] for burst in state["bursts"][step["id"]]),
        }
        for step in sheet["steps"]
        if heats(step) and step["id"] in state["bursts"]
    ]


def _portions(sheet: Sheet, state: State, place: Place) -> list[RecordPortions]:
    return [
        {
            **place(step),
            "portions": [
                {"name": portion["name"], "mg": state["portions"][portion["vessel"]]}
                for portion in step["portions"]
                if portion["vessel"] in state["portions"]
            ],
        }
        for step in sheet["steps"]
        if divides(step) and any(each["vessel"] in state["portions"] for each in step["portions"])
    ]


def _looks(sheet: Sheet, state: State, place: Place) -> list[RecordLooks]:
    steps = {step["id"]: step for step in sheet["steps"]}
    return [
        {
            **place(steps[key]),
            "tries": len([look for look in looks if look["answer"] != "yes"]),
            "looks": looks,
        }
        for key, looks in sorted(state["looks"].items())
    ]


def _counts(sheet: Sheet, state: State, place: Place) -> list[RecordCount]:
    counts: list[RecordCount] = []
    for step in sheet["steps"]:
        counted = state["counts"].get(step["id"])
        if counts_pieces(step) and (counted or state["steps"][step["id"]]["status"] == "done"):
            counts.append(
                {
                    **place(step),
                    "planned": step["count"],
                    "expected": state["expected"][step["id"]],
                    "good": counted["good"] if counted else 0,
                    "spoiled": counted["spoiled"] if counted else 0,
                    "partial": counted["partial"] if counted else 0,
                }
            )
    return counts


def _corrections(sheet: Sheet, live: list[RunEntry]) -> list[Correction]:
    """Each correction with the line that it answers: its own, or the one last weighed in the round that was carried."""
    told: list[Correction] = []
    for at, entry in enumerate(live):
        if entry["kind"] == "carried":
            because = _last_weighed(sheet, live[:at], entry["body"]["component"], entry["body"]["round"])
            told.append(
                {
                    "at": entry["at"],
                    "device": entry["device"],
                    "kind": "carried",
                    **entry["body"],
                    "because": because,
                }
            )
        else:
            told += _at_a_line(entry)
    return told


def _skipped(sheet: Sheet, state: State, place: Place) -> list[RecordSkipped]:
    """Steps passed over. A wait and the thing to do that it is for, one step as written, are told of once."""
    steps = [step for step in sheet["steps"] if state["steps"][step["id"]]["status"] == "skipped"]
    done_after = {(step["title"], *step["after"]) for step in steps if "until" in step}
    return [
        {**place(step), "at": state["steps"][step["id"]]["at"], "why": state["steps"][step["id"]]["why"]}
        for step in steps
        if (step["title"], step["id"]) not in done_after
    ]


def _added(sheet: Sheet, live: list[RunEntry], place: Place) -> list[RecordAdded]:
    steps = {step["id"]: step for step in sheet["steps"]}
    return [
        {**place(steps[entry["body"]["step"]]), "at": entry["at"], "ms": entry["body"]["ms"]}
        for entry in live
        if entry["kind"] == "extended"
    ]


def _at_a_line(entry: RunEntry) -> list[Correction]:
    """A correction that says itself which line it answers, if it is one."""
    at, device = entry["at"], entry["device"]
    if entry["kind"] == "taken_out":
        taken = entry["body"]
        return [{"at": at, "device": device, "kind": "taken_out", **taken, "because": taken["line"]}]
    if entry["kind"] == "left" or entry["kind"] == "left_out":
        left = entry["body"]
        return [{"at": at, "device": device, "kind": entry["kind"], **left, "because": left["line"]}]
    if entry["kind"] == "placed":
        placed = entry["body"]
        return [{"at": at, "device": device, "kind": "placed", **placed, "because": placed.get("line")}]
    if entry["kind"] == "took":
        return [{"at": at, "device": device, "kind": "took", **entry["body"], "because": None}]
    return []


def _last_weighed(sheet: Sheet, before: list[RunEntry], component: str, number: int) -> str | None:
    """The line that was weighed last in a round of a component."""
    mine = {
        line["id"] for line in sheet["lines"] if (line["component"], line["round"]) == (component, number)
    }
    weighed = (each["body"]["line"] for each in reversed(before) if each["kind"] == "weighed")
    return next((line for line in weighed if line in mine), None)


def _length(began: int, ended: int) -> int:
    """How long something took, in ms: zero, and not less, where a clock was set back meanwhile."""
    return max(0, ended - began)


def _signed(state: State) -> RecordSigned | None:
    """Who signed and when, how many entries that seals, and how many of them are missing here."""
    signed = state["signed"]
    if not signed:
        return None
    return {
        "id": signed["id"],
        "at": signed["at"],
        "device": signed["device"],
        "name": signed["name"],
        "entries": len(signed["entries"]),
        "missing": signed["missing"],
    }


def _people(live: list[RunEntry]) -> list[RecordPerson]:
    people: dict[str, RecordPerson] = {}
    for entry in live:
        device, at = entry["device"], entry["at"]
        one = people.setdefault(device, {"device": device, "first_at": at, "last_at": at, "entries": 0})
        one["last_at"] = at
        one["entries"] += 1
    return [people[device] for device in sorted(people)]


def _kit(sheet: Sheet, state: State) -> RecordKit:
    """The scales that lines and portions were weighed on, the vessels and the heaters."""
    lines, vessels = state["lines"].values(), state["vessels"].values()
    scales = {each["weighed_on"] or each["scale"] for each in lines} | {each["scale"] for each in vessels}
    melts = [step for step in sheet["steps"] if heats(step)]
    return {
        "scales": [scale for scale in sheet["kit"]["scales"] if scale["id"] in scales],
        "vessels": list({vessel["name"]: None for vessel in vessels}),
        "heaters": list({step["heater"]: None for step in melts}),
    }


def _lots(sheet: Sheet, state: State, live: list[RunEntry]) -> list[RecordLot]:
    names = {each["id"]: each["name"] for each in sheet["ingredients"]}
    return [
        {
            "lot": lot,
            "names": list(
                {
                    names.get(each["ingredient"], each["ingredient"]): None
                    for each in state["gathered"]
                    if each["lot"] == lot
                }
            ),
            "wrap": all(each["ingredient"] == WRAP for each in state["gathered"] if each["lot"] == lot),
            "mg": use["mg"],
            "count": use["count"],
            "booked_mg": use["booked_mg"],
            "over_mg": max(0, use["mg"] - use["booked_mg"]),
        }
        for lot, use in uses_of(sheet, state, live).items()
    ]


def _way_name(step: Step, way: str | None) -> str:
    return next((each["name"] for each in step["ways"] if each["id"] == way), "")


def _line(line: SheetLine, sheet: Sheet, state: State, components: dict[str, SheetComponent]) -> RecordLine:
    stands = state["lines"][line["id"]]
    num, den = state["factors"].get(f"{line['component']}.{line['round']}", (1, 1))
    scale = stands["weighed_on"] or stands["scale"]
    division = division_on(sheet, scale)
    asked = stands["target_mg"]
    deviation = None if asked is None else stands["in_mg"] - asked
    told: RecordLine = {
        "line": line["id"],
        "component": line["component"],
        "letter": components[line["component"]]["letter"],
        "round": line["round"],
        "step": line["step"],
        "name": line["name"],
        "instead_of": line["instead_of"],
        "planned_mg": line["mg"],
        "asked_mg": asked,
        "actual_mg": stands["in_mg"],
        "deviation_mg": deviation,
        "deviation_ppm": half_even(deviation * PPM, asked) if deviation is not None and asked else None,
        "tolerance_mg": line["tolerance_mg"],
        "within": None
        if deviation is None
        else abs(deviation) <= allowed_mg(line, division.mg if division else None, num, den),
        "spoons": spoons_words(line["spoons"]),
        "count": line["count"],
        "unit": line["unit"],
        "scale": scale,
        "division_mg": division.mg if division else None,
        "status": stands["status"],
    }
    if division and division.uoz is not None:
        told["division_uoz"] = division.uoz
    return told


def _yield(sheet: Sheet, state: State, counts: list[RecordCount], lines: list[RecordLine]) -> Yield:
    """Pieces asked and made (by the last count on the sheet), and the mass that went in.

    What was kept back is counted apart: all that were made are good, kept, partial and spoiled.
    """
    ends = _final_counts(sheet, counts)
    good = sum(count["good"] for count in ends)
    kept = _kept_of(state, good)
    return {
        "planned": sheet["size"]["pieces"],
        "good": good - kept if ends else None,
        "spoiled": sum(count["spoiled"] for count in ends) if ends else None,
        "partial": sum(count["partial"] for count in ends) if ends else None,
        "kept": kept if ends else None,
        "planned_mg": sum(line["planned_mg"] or 0 for line in lines),
        "actual_mg": sum(line["actual_mg"] for line in lines),
    }


def pieces_made(sheet: Sheet, state: State) -> PiecesMade | None:
    """What a finished batch's record says of its pieces; None while it is open, and where nobody counted them."""
    if state["finished_at"] is None:
        return None
    ends = _ends(sheet, state)
    good = sum(count["good"] for count in ends)
    return {"good": good, "kept": _kept_of(state, good)} if ends else None


def good_so_far(sheet: Sheet, state: State) -> int | None:
    """Of a batch on the bench the good pieces, once those of every round are counted; None before."""
    ends = _ends(sheet, state)
    whole = len(ends) >= len(sheet["components"][-1]["rounds"]) > 0
    good = sum(count["good"] for count in ends)
    return good - _kept_of(state, good) if whole else None


def _ends(sheet: Sheet, state: State) -> list[RecordCount]:
    place = _placing({component["id"]: component for component in sheet["components"]})
    return _final_counts(sheet, _counts(sheet, state, place))


def _final_counts(sheet: Sheet, counts: list[RecordCount]) -> list[RecordCount]:
    """Of each round of the last part, the last count."""
    final = sheet["components"][-1]["id"]
    return list(_last_counts([count for count in counts if count["component"] == final]).values())


def _kept_of(state: State, good: int) -> int:
    """How many of the good pieces were kept back: no more than there are."""
    return min(state["kept"] or 0, good)


def _coarsest(sheet: Sheet, state: State) -> Division:
    """The coarsest division that was weighed on."""
    scales = [each["weighed_on"] or each["scale"] for each in state["lines"].values()]
    divisions = [division_on(sheet, scale) or Division(1) for scale in scales]
    return max(divisions, key=_fineness, default=Division(1))


def _fineness(division: Division) -> int:
    return division.mg


def _loss_mg(component: SheetComponent) -> int:
    """What of a part is made beyond its pieces, as its recipe expects."""
    return max(0, component["make_mg"] - component["count"] * component["piece_mg"])


def _balance(sheet: Sheet, state: State, counts: list[RecordCount]) -> Balance | None:
    """Where the mass that went in has gone; None before the last count.

    Every mass is shown to the coarsest division that was weighed on, and at that division the balance closes
    exactly; unaccounted is what dried off, stuck, spilt or was never weighed, unweighed part pieces among it.
    """
    final = sheet["components"][-1]["id"]
    ends = _last_counts(counts)
    if not any(component == final for component, _ in ends):
        return None
    pieces = _Pieces(sheet, state, counts)
    division = _coarsest(sheet, state)
    in_mg = to_division(sum(state["lines"][line["id"]]["in_mg"] for line in sheet["lines"]), division)
    good_mg = to_division(pieces.good * pieces.mean_mg[final], division)
    kept_mg = to_division(pieces.kept * pieces.mean_mg[final], division)
    spoiled_mg = to_division(pieces.spoiled_mg, division)
    spare_mg = to_division(pieces.spare_mg, division)
    left_mg = to_division(sum(each["mg"] for each in state["measured"] if each["what"] == "left"), division)
    told: Balance = {
        "in_mg": in_mg,
        "good_mg": good_mg,
        "kept_mg": kept_mg,
        "spoiled_mg": spoiled_mg,
        "spare_mg": spare_mg,
        "left_mg": left_mg,
        "unaccounted_mg": in_mg - good_mg - kept_mg - spoiled_mg - spare_mg - left_mg,
        "expected_loss_mg": sum(map(_loss_mg, sheet["components"])),
        "division_mg": division.mg,
        "good": pieces.good,
        "kept": pieces.kept,
        "partial": pieces.partial,
        "spoiled": sum(pieces.spoiled.values()),
        "piece_mg": pieces.mean_mg[final],
        "weighed": pieces.weighed,
    }
    if division.uoz is not None:
        told["division_uoz"] = division.uoz
    return told


class _Pieces:
    """What was counted and weighed of pieces, once the last count was made.

    A piece weighs what the weighed ones do on average (`measured`, the last weighing of each), else what the
    recipe says.
    """

    def __init__(self, sheet: Sheet, state: State, counts: list[RecordCount]) -> None:
        final = sheet["components"][-1]["id"]
        ends = _last_counts(counts)
        takes = {each["id"]: each["takes"] for each in sheet["components"]}
        weighed = _weighed_pieces(sheet, state, final)
        self.weighed = len(weighed.get(final, []))
        self.mean_mg = {
            each["id"]: half_even(sum(weighed[each["id"]]), len(weighed[each["id"]]))
            if each["id"] in weighed
            else each["piece_mg"]
            for each in sheet["components"]
        }
        if final not in weighed:
            self.mean_mg[final] = sum(takes[key] * mg for key, mg in self.mean_mg.items())
        self.spoiled = dict.fromkeys(self.mean_mg, 0)
        usable = dict.fromkeys(self.mean_mg, 0)
        for count in counts:
            self.spoiled[count["component"]] += count["spoiled"]
        for (component, _), count in ends.items():
            usable[component] += count["good"] + count["partial"]
        finished = [count for (component, _), count in ends.items() if component == final]
        made = sum(count["good"] for count in finished)
        self.kept = _kept_of(state, made)
        self.good = made - self.kept
        self.partial = sum(count["partial"] for count in finished)
        begun = made + self.partial + self.spoiled[final]
        binned = [each["mg"] for each in state["measured"] if each["what"] == "spoiled"]
        self.spoiled_mg = (
            sum(binned) if binned else sum(many * self.mean_mg[key] for key, many in self.spoiled.items())
        )
        self.spare_mg = sum(
            max(0, usable[key] - takes[key] * begun) * mg for key, mg in self.mean_mg.items() if key != final
        )


def _last_counts(counts: list[RecordCount]) -> dict[tuple[str, int], RecordCount]:
    """Of several counts in one round of a component, the last one on the sheet."""
    return {(count["component"], count["round"]): count for count in counts}


def _weighed_pieces(sheet: Sheet, state: State, final: str) -> dict[str, list[int]]:
    """The masses of the pieces that were weighed, by component, each as it was last weighed."""
    component_of = {step["id"]: step["component"] for step in sheet["steps"]}
    last: dict[tuple[str, int], int] = {}
    for place, each in enumerate(state["measured"]):
        if each["what"] == "piece":
            number = -place - 1 if each["piece"] is None else each["piece"]
            last[(component_of.get(each["step"] or "", final), number)] = each["mg"]
    weighed: dict[str, list[int]] = {}
    for (component, _), mg in last.items():
        weighed.setdefault(component, []).append(mg)
    return weighed
