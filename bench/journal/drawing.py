"""Drawing the state: what follows from all that was told."""

from bench.journal.amounts import division_of
from bench.journal.counting import settle_counting
from bench.journal.running import running
from bench.journal.tally import Tally
from bench.shapes.sheet import SheetLine, SheetVessel, Step
from bench.shapes.state import JudgementTold, LineState, LineStatus, State, StepState, StepStatus, VesselState
from bench.shapes.units import InstantMs, Mg
from bench.steps import divides, puts_in
from bench.weighing import allowed_mg
from bench.whole import half_even


def _when(told: JudgementTold) -> tuple[int, str, str]:
    return told["at"], told["device"], told["id"]


def draw(tally: Tally) -> State:
    """The state, once all is taken in."""
    lines, expected = _settle(tally)
    steps = {key: _step(tally, step) for key, step in tally.steps.items()}
    return {
        "started_at": tally.started_at,
        "finished_at": tally.finished_at,
        "last_at": tally.last_at,
        "weigh": tally.weigh,
        "steps": steps,
        "lines": lines,
        "vessels": {key: _vessel(tally, vessel) for key, vessel in tally.vessels.items()},
        "bursts": tally.bursts,
        "looks": tally.looks,
        "counts": tally.counts,
        "expected": expected,
        "portions": tally.portions,
        "factors": {key: list(factor) for key, factor in tally.factors.items()},
        **running(tally, steps),
        "number": tally.number,
        "also_numbered": tally.also_numbered,
        "gathered": tally.gathered,
        "ticked": tally.ticked,
        "measured": tally.measured,
        "air": tally.air,
        "proved": tally.proved,
        "labelled": tally.labelled,
        "pictures": tally.pictures,
        "worked": tally.worked,
        "signed": tally.signed,
        "unsigned": tally.unsigned,
        "remarks": tally.remarks,
        "notes": tally.notes,
        "kept": tally.kept,
        "met": tally.met,
        "judgements": sorted(tally.judgements, key=_when),
        "unread": sorted(tally.unread),
    }


def _settle(tally: Tally) -> tuple[dict[str, LineState], dict[str, int]]:
    """What dividing, weighing and counting settle; the lines as they stand then, and how many pieces each step gives."""
    _settle_splitting(tally)
    lines = {key: _line(tally, line) for key, line in tally.lines.items()}
    _settle_weighing(tally, lines)
    return lines, settle_counting(tally)


def _settle_splitting(tally: Tally) -> None:
    for step in tally.sheet["steps"]:
        if not divides(step):
            continue
        weighed = [portion["vessel"] for portion in step["portions"][:-1]]
        if all(key in tally.portions for key in weighed):
            tally.settle(step["id"], "done", max(tally.portioned_at[key] for key in weighed))
        if tally.is_done(step["id"]):
            last = step["portions"][-1]["vessel"]
            rest = tally.vessel_mg[step["vessel"]]
            tally.portions[last] = rest
            tally.vessel_mg[last] += rest
            tally.zero_mg[last] += rest
            tally.vessel_mg[step["vessel"]] = 0


def _settle_weighing(tally: Tally, lines: dict[str, LineState]) -> None:
    for step in tally.sheet["steps"]:
        if not puts_in(step) or not step["lines"]:
            continue
        if any(lines[key]["status"] in ("open", "short", "over") for key in step["lines"]):
            continue
        times = [tally.touched[key] for key in step["lines"] if key in tally.touched]
        if times:
            tally.settle(step["id"], "done", max(times))


def _vessel(tally: Tally, vessel: SheetVessel) -> VesselState:
    """What is in a vessel, and which one it is by now: its name, how it is empty and filled, its scale."""
    key = vessel["id"]
    now = tally.kit_vessels[tally.taken[key]] if key in tally.taken else vessel
    return {
        "in_mg": tally.vessel_mg[key],
        "zero_mg": tally.zero_mg[key],
        "name": now["name"],
        "empty_mg": now["empty_mg"],
        "holds_mg": now["holds_mg"],
        "scale": tally.scale_of[key],
        "kit": tally.taken.get(key, vessel.get("kit")),
    }


def _line(tally: Tally, line: SheetLine) -> LineState:
    """Where a line stands. `scale` is the one that its next pour goes onto, `weighed_on` that of its last."""
    key = line["id"]
    scale, weighed_on = tally.scale_now(line), tally.weighed_on.get(key)
    target = _target(tally, line)
    told: LineState = {
        "target_mg": target,
        "in_mg": tally.in_mg[key],
        "status": _line_status(tally, line, target, weighed_on or scale),
        "twice": tally.twice.get(key) if target is not None or line["step"] is not None else None,
        "scale": scale,
        "weighed_on": weighed_on,
    }
    if key in tally.out_twice:
        told["out_twice"] = tally.out_twice[key]
    return told


def _target(tally: Tally, line: SheetLine) -> Mg | None:
    """What of a line should be in by now: carried up or down, and by what its portion really came to."""
    if line["mg"] is None:
        return None
    num, den = _factor(tally, line)
    return _by_portion(tally, line["vessel"], half_even(line["mg"] * num, den))


def _factor(tally: Tally, line: SheetLine) -> tuple[int, int]:
    return tally.factors.get(f"{line['component']}.{line['round']}", (1, 1))


def _line_status(tally: Tally, line: SheetLine, target: Mg | None, scale: str | None) -> LineStatus:
    key = line["id"]
    if target is None and line["step"] is None:
        return "by_hand"
    if key in tally.decided:
        return tally.decided[key]
    if target is None:
        return "in" if key in tally.touched else "open"
    in_mg = tally.in_mg[key]
    if in_mg == 0 < target:
        return "open"
    if abs(in_mg - target) <= allowed_mg(line, division_of(tally.sheet, scale), *_factor(tally, line)):
        return "in"
    return "short" if in_mg < target else "over"


def _by_portion(tally: Tally, vessel: str | None, target: Mg) -> Mg:
    """A target for what goes into a portion, by what that portion really came to."""
    step = tally.split_of.get(vessel or "")
    if step is None or vessel is None or not tally.is_done(step["id"]):
        return target
    total = sum(tally.portions.get(portion["vessel"], 0) for portion in step["portions"])
    held = tally.portions.get(vessel, 0)
    if total <= 0 or not 0 <= held <= total:
        return target
    share = next(portion["share"] for portion in step["portions"] if portion["vessel"] == vessel)
    shares = sum(portion["share"] for portion in step["portions"])
    return half_even(target * held * shares, total * share)


def _step(tally: Tally, step: Step) -> StepState:
    key = step["id"]
    settled = tally.settled.get(key)
    ready_at = _ready_at(tally, step)
    status: StepStatus = "waiting" if ready_at is None else "ready"
    if settled:
        status = settled.status
    elif _is_begun(tally, step):
        status = "begun"
    return {
        "status": status,
        "ready_at": ready_at,
        "at": settled.at if settled else None,
        "way": tally.way.get(key),
        "why": settled.why if settled else "",
    }


def _ready_at(tally: Tally, step: Step) -> InstantMs | None:
    """When the last of a step's needs was settled; None while one is not."""
    times = [tally.started_at or 0]
    for need in step["after"]:
        settled = tally.settled.get(need)
        if settled is None:
            return None
        times.append(settled.at)
    return max(times)


def _is_begun(tally: Tally, step: Step) -> bool:
    key = step["id"]
    if key in tally.began or key in tally.bursts or key in tally.looks or key in tally.counts:
        return True
    if puts_in(step):
        return any(line in tally.touched for line in step["lines"])
    return divides(step) and any(each["vessel"] in tally.portions for each in step["portions"])
