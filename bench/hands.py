"""Hands-on time: how long hands were at work on a run, reckoned from its entries.

Between one entry of a device and its next, hands were on the step that the next one tells of. A
gap longer than PAUSE_MS, or than the step's own hands-on time where that is longer, was partly a
pause and counts only so far. What ends a wait was not hand work, and remarks, photographs and
corrections of the paperwork neither count nor break a gap. The maker's own word (`worked`) stands
over the reckoning, for one step or for all.
"""

from typing import Any

from bench.journal import told_of
from bench.kinds import NO_HANDS

Json = Any  # until its shape is named

PAUSE_MS = 10 * 60_000  # from common practice: most single acts at a bench take less


def hands_on(sheet: Json, state: Json, entries: list[Json]) -> Json:
    """{"ms": in all, "steps": {step: ms}, "told": whether the maker gave the whole}.

    Gathering and what belongs to no step are under "" in steps.
    """
    steps = {step["id"]: step for step in sheet["steps"]}
    step_of_line = {line["id"]: line["step"] for line in sheet["lines"]}
    step_of_portion = {
        portion["vessel"]: step["id"]
        for step in sheet["steps"]
        if step["kind"] == "split"
        for portion in step["portions"]
    }
    unread = set(state["unread"])
    before: dict[str, int] = {}
    spent: dict[str, int] = {}
    for entry in told_of(state, entries):
        body, at = entry["body"], entry["at"]
        if entry["kind"] in NO_HANDS or entry["id"] in unread:
            continue
        key = (
            body.get("step") or step_of_line.get(body.get("line")) or step_of_portion.get(body.get("vessel"))
        )
        step = steps.get(key or "")
        since = before.get(entry["device"], at)
        before[entry["device"]] = at
        if step and step["kind"] == "wait":
            continue
        most = max(PAUSE_MS, (step["hands_ms"] or 0) if step else 0)
        spent[key or ""] = spent.get(key or "", 0) + min(at - since, most)
    spent.update({key: ms for key, ms in state["worked"].items() if key})
    told = state["worked"].get("")
    return {"ms": sum(spent.values()) if told is None else told, "steps": spent, "told": told is not None}
