"""The batch record: what was asked, what was done, and when. Drawn from the sheet and the journal.

It holds what a batch record is asked to hold by ISO 22716 (its list from memory): product, batch
number, recipe version, size, people, kit with scale divisions, lots, target, actual and deviation
of every line with its tolerance, corrections, bursts, waits planned and real, checks and answers,
steps skipped and added, pieces good and spoiled, the mass balance, notes, photographs, and who
signed. Nothing in it is rewritten: what was not signed stands under `remarks`.

Besides what is plain from the code below:

lots: [{"lot", "names": the ingredients', "mg", "count", "booked_mg", "over_mg"}]
corrections: each entry's own fields, and "because": the id of the line that it answers
signed: {"id", "at", "device", "name", "entries": how many it seals, "missing": how many of those are not here}
unsigned: the signings that were taken back: [{"at", "device", "name", "signed_at", "signed_by"}]
people: [{"device", "first_at", "last_at", "entries"}]; who a device is, the caller knows
balance: see `_balance`; None until finished pieces have been counted
hands: see bench/hands.py
"""

from typing import Any

from bench.hands import hands_on
from bench.journal import division_of, told_of
from bench.kinds import CORRECTIONS
from bench.lots import use_of
from bench.weighing import allowed_mg
from bench.whole import PPM, half_even, to_division

Json = Any  # until its shape is named


def record(sheet: Json, state: Json, entries: list[Json]) -> Json:
    """The plain batch record of a run, finished or not. Masses in mg, instants and times in ms."""
    components = {component["id"]: component for component in sheet["components"]}
    steps = {step["id"]: step for step in sheet["steps"]}

    def placed(step: Json) -> Json:
        return {
            "step": step["id"],
            "component": step["component"],
            "letter": components[step["component"]]["letter"],
            "round": step["round"],
            "title": step["title"],
        }

    lines = [_line(line, sheet, state, components) for line in sheet["lines"]]
    unread = set(state["unread"])
    told = [entry for entry in told_of(state, entries) if entry["id"] not in unread]
    waits = []
    for step in sheet["steps"]:
        stands = state["steps"][step["id"]]
        if step["kind"] != "wait" or stands["ready_at"] is None or stands["status"] == "skipped":
            continue
        ended = stands["at"]
        real = None if ended is None else _length(stands["ready_at"], ended)
        waits.append(
            {
                **placed(step),
                "word": step["word"],
                "began_at": stands["ready_at"],
                "ended_at": ended,
                "earliest_ms": step["earliest_ms"],
                "usual_ms": step["usual_ms"],
                "latest_ms": step["latest_ms"],
                "real_ms": real,
                "early": real is not None and real < step["earliest_ms"],
                "late": real is not None and step["latest_ms"] is not None and real > step["latest_ms"],
            }
        )
    windows = []
    for step in sheet["steps"]:
        if not step["window"]:
            continue
        opened = [state["steps"][each]["at"] for each in step["window"]["from"]]
        if any(at is None for at in opened) or not opened:
            continue
        ended = state["steps"][step["id"]]["at"]
        real = None if ended is None else _length(max(opened), ended)
        windows.append(
            {
                **placed(step),
                "opened_at": max(opened),
                "ended_at": ended,
                "latest_ms": step["window"]["latest_ms"],
                "real_ms": real,
                "late": real is not None and real > step["window"]["latest_ms"],
            }
        )
    counts = [
        {
            **placed(step),
            "planned": step["count"],
            "expected": state["expected"][step["id"]],
            **{
                field: state["counts"].get(step["id"], {}).get(field, 0)
                for field in ("good", "spoiled", "partial")
            },
        }
        for step in sheet["steps"]
        if step["kind"] == "pieces"
        and (step["id"] in state["counts"] or state["steps"][step["id"]]["status"] == "done")
    ]
    return {
        "recipe": sheet["recipe"],
        "number": state["number"],
        "also_numbered": state["also_numbered"],
        "size": sheet["size"],
        "piece": sheet["piece"],
        "started_at": state["started_at"],
        "finished_at": state["finished_at"],
        "signed": _signed(state),
        "unsigned": state["unsigned"],
        "people": _people(told),
        "kit": _kit(sheet, state),
        "lots": _lots(sheet, state, entries),
        "lines": lines,
        "steps": [
            {
                **placed(step),
                "kind": step["kind"],
                **{field: state["steps"][step["id"]][field] for field in ("status", "at", "why")},
                "way": _way_name(step, state["steps"][step["id"]]["way"]),
            }
            for step in sheet["steps"]
        ],
        "waits": waits,
        "windows": windows,
        "bursts": [
            {
                **placed(step),
                "planned": len(step["bursts"]),
                "used": len(state["bursts"][step["id"]]),
                "mg": step["mg"],
                "heated_ms": sum(burst["ms"] for burst in state["bursts"][step["id"]]),
            }
            for step in sheet["steps"]
            if step["kind"] == "melt" and step["id"] in state["bursts"]
        ],
        "portions": [
            {
                **placed(step),
                "portions": [
                    {"name": portion["name"], "mg": state["portions"][portion["vessel"]]}
                    for portion in step["portions"]
                    if portion["vessel"] in state["portions"]
                ],
            }
            for step in sheet["steps"]
            if step["kind"] == "split"
            and any(each["vessel"] in state["portions"] for each in step["portions"])
        ],
        "looks": [
            {
                **placed(steps[key]),
                "tries": len([look for look in looks if look["answer"] != "yes"]),
                "looks": looks,
            }
            for key, looks in sorted(state["looks"].items())
        ],
        "counts": counts,
        "corrections": [
            {
                "at": entry["at"],
                "device": entry["device"],
                "kind": entry["kind"],
                **entry["body"],
                "because": _because(sheet, told[:place], entry),
            }
            for place, entry in enumerate(told)
            if entry["kind"] in CORRECTIONS
        ],
        "skipped": [
            {**placed(step), **{field: state["steps"][step["id"]][field] for field in ("at", "why")}}
            for step in sheet["steps"]
            if state["steps"][step["id"]]["status"] == "skipped"
        ],
        "added": [
            {**placed(steps[entry["body"]["step"]]), "at": entry["at"], "ms": entry["body"]["ms"]}
            for entry in told
            if entry["kind"] == "extended"
        ],
        "notes": state["notes"],
        "pictures": state["pictures"],
        "remarks": state["remarks"],
        "unread": state["unread"],
        "yield": _yield(sheet, state, counts, lines),
        "balance": _balance(sheet, state, counts),
        "hands": hands_on(sheet, state, entries),
    }


def _because(sheet: Json, before: list[Json], entry: Json) -> str | None:
    """The line that a correction answers: its own, or the one last weighed in the round that was carried."""
    body = entry["body"]
    if entry["kind"] != "carried":
        line: str | None = body.get("line")
        return line
    mine = {
        line["id"]
        for line in sheet["lines"]
        if (line["component"], line["round"]) == (body["component"], body["round"])
    }
    weighed = (each["body"]["line"] for each in reversed(before) if each["kind"] == "weighed")
    return next((line for line in weighed if line in mine), None)


def _length(began: int, ended: int) -> int:
    """How long something took, in ms: nought, and not less, where a clock was set back meanwhile."""
    return max(0, ended - began)


def _signed(state: Json) -> Json | None:
    """Who signed and when, how many entries that seals, and how many of them are missing here."""
    if not state["signed"]:
        return None
    return {**state["signed"], "entries": len(state["signed"]["entries"])}


def _people(told: list[Json]) -> list[Json]:
    people: dict[str, Json] = {}
    for entry in told:
        one = people.setdefault(
            entry["device"], {"device": entry["device"], "first_at": entry["at"], "entries": 0}
        )
        one["last_at"] = entry["at"]
        one["entries"] += 1
    return sorted(people.values(), key=lambda one: str(one["device"]))


def _kit(sheet: Json, state: Json) -> Json:
    """The scales that lines and portions were weighed on, the vessels and the heaters."""
    lines, vessels = state["lines"].values(), state["vessels"].values()
    scales = {each.get("weighed_on") or each["scale"] for each in [*lines, *vessels]}
    melts = [step for step in sheet["steps"] if step["kind"] == "melt"]
    return {
        "scales": [scale for scale in sheet["kit"]["scales"] if scale["id"] in scales],
        "vessels": list(dict.fromkeys(vessel["name"] for vessel in vessels)),
        "heaters": list(dict.fromkeys(step["heater"] for step in melts)),
    }


def _lots(sheet: Json, state: Json, entries: list[Json]) -> list[Json]:
    names = {each["id"]: each["name"] for each in sheet["ingredients"]}
    return [
        {
            "lot": lot,
            "names": list(
                dict.fromkeys(
                    names.get(each["ingredient"], each["ingredient"])
                    for each in state["gathered"]
                    if each["lot"] == lot
                )
            ),
            **{field: use[field] for field in ("mg", "count", "booked_mg")},
            "over_mg": max(0, use["mg"] - use["booked_mg"]),
        }
        for lot, use in use_of(sheet, state, entries).items()
    ]


def _way_name(step: Json, way: str | None) -> str:
    return next((each["name"] for each in step["ways"] if each["id"] == way), "")


def _line(line: Json, sheet: Json, state: Json, components: Json) -> Json:
    told = state["lines"][line["id"]]
    num, den = state["factors"].get(f"{line['component']}.{line['round']}", (1, 1))
    scale = told["weighed_on"] or told["scale"]
    division = division_of(sheet, scale)
    asked = told["target_mg"]
    deviation = None if asked is None else told["in_mg"] - asked
    return {
        "line": line["id"],
        "component": line["component"],
        "letter": components[line["component"]]["letter"],
        "round": line["round"],
        "step": line["step"],
        "name": line["name"],
        "instead_of": line.get("instead_of", ""),
        "planned_mg": line["mg"],
        "asked_mg": asked,
        "actual_mg": told["in_mg"],
        "deviation_mg": deviation,
        "deviation_ppm": half_even(deviation * PPM, asked) if deviation is not None and asked else None,
        "tolerance_mg": line["tolerance_mg"],
        "within": None if deviation is None else abs(deviation) <= allowed_mg(line, division, num, den),
        "spoons": line["spoons"],
        "count": line["count"],
        "unit": line["unit"],
        "scale": scale,
        "division_mg": division,
        "status": told["status"],
    }


def _yield(sheet: Json, state: Json, counts: list[Json], lines: list[Json]) -> Json:
    """Pieces asked and made (by the last count on the sheet), and the mass that went in."""
    last = sheet["components"][-1]["id"]
    ends = _last_counts([count for count in counts if count["component"] == last])
    return {
        "planned": sheet["size"]["pieces"],
        **{
            field: sum(count[field] for count in ends.values()) if ends else None
            for field in ("good", "spoiled", "partial")
        },
        "planned_mg": sum(line["planned_mg"] or 0 for line in lines),
        "actual_mg": sum(line["actual_mg"] for line in lines),
    }


def _balance(sheet: Json, state: Json, counts: list[Json]) -> Json | None:
    """Where the mass that went in has gone: in = good + spoiled + spare + left + unaccounted.

    Every mass is shown to the coarsest division that was weighed on, and at that division the
    balance closes exactly; unaccounted is what dried off, stuck, spilt or was never weighed, and may
    be below nought. A piece weighs what the weighed ones do on average (`measured`, the last weighing
    of each), else what the recipe says. Part pieces that were not weighed are unaccounted.
    expected_loss_mg: what the sheet allows for the bowl and for loss. None before the last count.
    """
    final = sheet["components"][-1]["id"]
    ends = _last_counts(counts)
    if not any(component == final for component, _ in ends):
        return None
    pieces = sheet["size"]["pieces"]
    takes = {each["id"]: (each["count"] - each["spares"]) // pieces for each in sheet["components"]}
    weighed = _weighed_pieces(sheet, state, final)
    mean = {
        each["id"]: half_even(sum(weighed[each["id"]]), len(weighed[each["id"]]))
        if each["id"] in weighed
        else each["piece_mg"]
        for each in sheet["components"]
    }
    if final not in weighed:
        mean[final] = sum(takes[key] * mg for key, mg in mean.items())
    spoiled = dict.fromkeys(mean, 0)
    for count in counts:
        spoiled[count["component"]] += count["spoiled"]
    good = sum(count["good"] for (component, _), count in ends.items() if component == final)
    partial = sum(count["partial"] for (component, _), count in ends.items() if component == final)
    begun = good + partial + spoiled[final]
    usable = dict.fromkeys(mean, 0)
    for (component, _), count in ends.items():
        usable[component] += count["good"] + count["partial"]
    spare = {key: max(0, usable[key] - takes[key] * begun) for key in mean if key != final}
    scraped = [each["mg"] for each in state["measured"] if each["what"] == "left"]
    binned = [each["mg"] for each in state["measured"] if each["what"] == "spoiled"]
    scales = [each["weighed_on"] or each["scale"] for each in state["lines"].values()]
    division = max((division_of(sheet, scale) or 1 for scale in scales), default=1)
    masses = {
        "in_mg": sum(state["lines"][line["id"]]["in_mg"] for line in sheet["lines"]),
        "good_mg": good * mean[final],
        "spoiled_mg": sum(binned) if binned else sum(spoiled[key] * mean[key] for key in mean),
        "spare_mg": sum(count * mean[key] for key, count in spare.items()),
        "left_mg": sum(scraped),
    }
    shown = {key: to_division(mg, division) for key, mg in masses.items()}
    return {
        **shown,
        "unaccounted_mg": 2 * shown["in_mg"] - sum(shown.values()),  # shown holds in_mg once itself
        "expected_loss_mg": sum(
            max(0, each["make_mg"] - each["count"] * each["piece_mg"]) for each in sheet["components"]
        ),
        "division_mg": division,
        "good": good,
        "partial": partial,
        "spoiled": sum(spoiled.values()),
        "piece_mg": mean[final],
        "weighed": len(weighed.get(final, [])),
    }


def _last_counts(counts: list[Json]) -> dict[tuple[str, int], Json]:
    """Of several counts in one round of a component, the last one on the sheet."""
    return {(count["component"], count["round"]): count for count in counts}


def _weighed_pieces(sheet: Json, state: Json, final: str) -> dict[str, list[int]]:
    """The masses of the pieces that were weighed, by component, each as it was last weighed."""
    component_of = {step["id"]: step["component"] for step in sheet["steps"]}
    last: dict[tuple[str, int], int] = {}
    for place, each in enumerate(state["measured"]):
        if each["what"] == "piece":
            number = -place - 1 if each["piece"] is None else each["piece"]
            last[(component_of.get(each["step"], final), number)] = each["mg"]
    weighed: dict[str, list[int]] = {}
    for (component, _), mg in last.items():
        weighed.setdefault(component, []).append(mg)
    return weighed
