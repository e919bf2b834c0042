"""Taking in what happened at the bowls: poured, taken out, zeroed, moved to another scale, portioned."""

from bench.journal.amounts import in_reach
from bench.journal.tally import Tally
from bench.shapes.entries import (
    Carried,
    Left,
    LeftOut,
    Placed,
    Portioned,
    Switched,
    TakenOut,
    Took,
    Weighed,
    Zeroed,
)

AtTheBowls = Weighed | TakenOut | Left | LeftOut | Carried | Zeroed | Placed | Took | Switched | Portioned


def take(tally: Tally, entry: AtTheBowls) -> bool:
    """Whether the entry made sense on this sheet."""
    match entry["kind"]:
        case "weighed":
            return _weighed(tally, entry)
        case "taken_out":
            return _taken_out(tally, entry)
        case "left" | "left_out":
            tally.decided[entry["body"]["line"]] = entry["kind"]
            tally.touched[entry["body"]["line"]] = entry["at"]
            return True
        case "carried":
            return _carried(tally, entry)
        case "zeroed":
            _zero(tally, entry["body"]["vessel"])
            return True
        case "placed":
            return _placed(tally, entry)
        case "took":
            return _took(tally, entry)
        case "switched":
            tally.weigh = entry["body"]["weigh"]
            return True
        case "portioned":
            return _portioned(tally, entry)


def _zero(tally: Tally, vessel: str) -> None:
    tally.zero_mg[vessel] = tally.vessel_mg[vessel]


def _weighed(tally: Tally, entry: Weighed) -> bool:
    body, device = entry["body"], entry["device"]
    line = tally.lines[body["line"]]
    key, vessel = line["id"], line["vessel"]
    if "mg" not in body and line["mg"] is not None:
        return False
    mg = body.get("mg", 0)
    if vessel is not None:
        if tally.weigh == "tare" and not line["cup"]:
            _zero(tally, vessel)
        tally.vessel_mg[vessel] += mg
    tally.in_mg[key] += mg
    tally.out_twice.pop(key, None)
    tally.touched[key] = entry["at"]
    tally.weighed_on[key] = tally.scale_now(line)
    if tally.poured_by.setdefault(key, device) != device:
        tally.twice[key] = entry["id"]
    if tally.decided.get(key) == "left_out":
        del tally.decided[key]
    return True


def _taken_out(tally: Tally, entry: TakenOut) -> bool:
    body, device = entry["body"], entry["device"]
    line = tally.lines[body["line"]]
    if "seen" in body and tally.took_out.setdefault((line["id"], body["seen"]), device) != device:
        tally.out_twice[line["id"]] = entry["id"]
    mg = min(body["mg"], tally.in_mg[line["id"]])
    tally.in_mg[line["id"]] -= mg
    if line["vessel"] is not None:
        tally.vessel_mg[line["vessel"]] -= mg
    tally.touched[line["id"]] = entry["at"]
    return True


def _carried(tally: Tally, entry: Carried) -> bool:
    body = entry["body"]
    part = (body["component"], body["round"])
    lines = [line for line in tally.sheet["lines"] if (line["component"], line["round"]) == part]
    if not lines or not in_reach(body["num"], body["den"]):
        return False
    tally.factors[f"{body['component']}.{body['round']}"] = (body["num"], body["den"])
    for line in lines:  # new targets, so what was let pass is judged again
        if tally.decided.get(line["id"]) == "left":
            del tally.decided[line["id"]]
        if line["id"] in body.get("left", ()) and line["id"] in tally.touched:
            tally.decided.setdefault(line["id"], "left")
    return True


def _placed(tally: Tally, entry: Placed) -> bool:
    """A vessel stands on another scale from now on, zeroed with what is in it; or one line's small cup does."""
    body = entry["body"]
    vessel, line = body["vessel"], body.get("line")
    if body["scale"] not in tally.scales:
        return False
    if line is None:
        tally.scale_of[vessel] = body["scale"]
        _zero(tally, vessel)
    elif tally.lines[line]["vessel"] == vessel:
        tally.placed[line] = body["scale"]
    return line is None or tally.lines[line]["vessel"] == vessel


def _took(tally: Tally, entry: Took) -> bool:
    """Another vessel of the kit is used, with all that was in this one; the scale is zeroed with it."""
    body = entry["body"]
    if body["instead"] not in tally.kit_vessels:
        return False
    tally.taken[body["vessel"]] = body["instead"]
    _zero(tally, body["vessel"])
    return True


def _portioned(tally: Tally, entry: Portioned) -> bool:
    vessel, mg, seen = entry["body"]["vessel"], entry["body"]["mg"], entry["body"].get("seen")
    step = tally.split_of.get(vessel)
    if step is None or vessel == step["portions"][-1]["vessel"]:
        return False
    if seen is not None and (vessel, seen) in tally.portioned_of:
        return True  # two phones told of one portion
    if seen is not None:
        tally.portioned_of.add((vessel, seen))
    tally.portions[vessel] = tally.portions.get(vessel, 0) + mg
    tally.vessel_mg[vessel] += mg
    tally.zero_mg[vessel] += mg
    tally.vessel_mg[step["vessel"]] -= mg
    tally.portioned_at[vessel] = entry["at"]
    return True
