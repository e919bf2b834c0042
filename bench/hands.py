"""Hands-on time: how long hands were at work on a run, reckoned from its entries.

Between one entry of a device and its next, hands were on the step that the next one tells of. A
gap longer than PAUSE_MS, or than the step's own hands-on time where that is longer, was partly a
pause and counts only so far. What ends a wait was not hand work, and remarks, photographs and
corrections of the paperwork neither count nor break a gap. The maker's own word (`worked`) stands
over the reckoning, for one step or for all.
"""

from collections.abc import Mapping, Sequence

from bench.kinds import NO_HANDS
from bench.shapes.entries import RunEntry
from bench.shapes.record import HandsOn
from bench.shapes.sheet import Sheet
from bench.shapes.state import State
from bench.shapes.units import InstantMs, Ms
from bench.steps import divides, runs_by_itself

PAUSE_MS = 10 * 60_000  # from common practice: most single acts at a bench take less


def hands_of(sheet: Sheet, state: State, read: Sequence[RunEntry]) -> HandsOn:
    """How long in all, and by step, by entries that `read_of` has read. Gathering and what belongs to no step are under ""
    in steps."""
    steps = {step["id"]: step for step in sheet["steps"]}
    places = Places(sheet)
    before: dict[str, InstantMs] = {}
    spent: dict[str, Ms] = {}
    for entry in read:
        at = entry["at"]
        if entry["kind"] in NO_HANDS:
            continue
        key = places.told_by(entry["body"])
        step = steps.get(key)
        since = before.get(entry["device"], at)
        before[entry["device"]] = at
        if step and runs_by_itself(step):
            continue
        most = max(PAUSE_MS, (step["hands_ms"] or 0) if step else 0)
        spent[key] = spent.get(key, 0) + min(at - since, most)
    spent.update({key: ms for key, ms in state["worked"].items() if key})
    told = state["worked"].get("")
    return {"ms": sum(spent.values()) if told is None else told, "steps": spent, "told": told is not None}


class Places:
    """Which step of the sheet an entry's body tells of."""

    def __init__(self, sheet: Sheet) -> None:
        self.of_line = {line["id"]: line["step"] for line in sheet["lines"]}
        self.of_portion = {
            portion["vessel"]: step["id"]
            for step in sheet["steps"]
            if divides(step)
            for portion in step["portions"]
        }

    def told_by(self, body: Mapping[str, object]) -> str:
        """The step's id; "" for none."""
        step, line, vessel = body.get("step"), body.get("line"), body.get("vessel")
        if isinstance(step, str):
            return step
        if isinstance(line, str) and (found := self.of_line.get(line)):
            return found
        return self.of_portion.get(vessel, "") if isinstance(vessel, str) else ""
