"""The batch record: what was asked, what was done, and when. Drawn from the sheet and the journal."""

from typing import Any

from bench.journal import living
from bench.whole import PPM, half_even

Json = dict[str, Any]

CORRECTIONS = ("taken_out", "left", "left_out", "carried")


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

    lines = [_line(line, state["lines"][line["id"]], components) for line in sheet["lines"]]
    waits = []
    for step in sheet["steps"]:
        told = state["steps"][step["id"]]
        if step["kind"] != "wait" or told["ready_at"] is None or told["status"] == "skipped":
            continue
        ended = told["at"]
        real = None if ended is None else ended - told["ready_at"]
        waits.append(
            {
                **placed(step),
                "word": step["word"],
                "began_at": told["ready_at"],
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
        real = None if ended is None else ended - max(opened)
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
        "size": sheet["size"],
        "piece": sheet["piece"],
        "started_at": state["started_at"],
        "finished_at": state["finished_at"],
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
            {"at": entry["at"], "device": entry["device"], "kind": entry["kind"], **entry["body"]}
            for entry in living(entries)
            if entry["kind"] in CORRECTIONS and entry["id"] not in state["unread"]
        ],
        "notes": state["notes"],
        "unread": state["unread"],
        "yield": _yield(sheet, state, counts, lines),
    }


def _way_name(step: Json, way: str | None) -> str:
    return next((each["name"] for each in step["ways"] if each["id"] == way), "")


def _line(line: Json, told: Json, components: Json) -> Json:
    asked = told["target_mg"]
    deviation = None if asked is None else told["in_mg"] - asked
    return {
        "line": line["id"],
        "component": line["component"],
        "letter": components[line["component"]]["letter"],
        "round": line["round"],
        "name": line["name"],
        "instead_of": line.get("instead_of", ""),
        "planned_mg": line["mg"],
        "asked_mg": asked,
        "actual_mg": told["in_mg"],
        "deviation_mg": deviation,
        "deviation_ppm": half_even(deviation * PPM, asked) if deviation is not None and asked else None,
        "tolerance_mg": line["tolerance_mg"],
        "spoons": line["spoons"],
        "count": line["count"],
        "unit": line["unit"],
        "scale": line["scale"],
        "division_mg": line["division_mg"],
        "status": told["status"],
    }


def _yield(sheet: Json, state: Json, counts: list[Json], lines: list[Json]) -> Json:
    """Pieces asked and made (by the last count on the sheet), and the mass that went in."""
    last = sheet["components"][-1]["id"]
    final = [count for count in counts if count["component"] == last]
    ends: dict[str, Json] = {}
    for count in final:  # of several counts in one round, the last one stands
        ends[f"{count['component']}.{count['round']}"] = count
    return {
        "planned": sheet["size"]["pieces"],
        **{
            field: sum(count[field] for count in ends.values()) if ends else None
            for field in ("good", "spoiled", "partial")
        },
        "planned_mg": sum(line["planned_mg"] or 0 for line in lines),
        "actual_mg": sum(line["actual_mg"] for line in lines),
    }
