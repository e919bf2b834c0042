"""Replays a plan and names every rule it breaks. Written apart from the planner: it shares no code with it."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

Json = dict[str, Any]


def faults(problem: Json, made: Json) -> list[str]:
    """The broken rules, each as "rule: what"; [] for a plan that can be followed as told."""
    found: list[str] = []
    tasks = {task["id"]: task for task in problem["tasks"]}
    steps: dict[str, Json] = {}
    for step in made["steps"]:
        if step["id"] in steps or step["id"] not in tasks:
            found.append(f"once: {step['id']}")
        steps[step["id"]] = step
    found += [f"all: {key}" for key in tasks if key not in steps]
    if found:
        return found
    planned = {key: step for key, step in steps.items() if tasks[key]["status"] == "open"}
    found = _makers(problem, tasks, planned)
    if found:
        return found
    for key, step in planned.items():
        if step["ends_at"] - step["starts_at"] != tasks[key]["left_ms"]:
            found.append(f"length: {key}")
        if step["starts_at"] < made["since"]:
            found.append(f"past: {key}")
        if problem.get("ready_by") is not None and step["ends_at"] > problem["ready_by"]:
            found.append(f"ready_by: {key}")
    found += _hands(problem, tasks, planned)
    found += _gaps(problem, tasks, steps)
    found += _waits(problem, tasks, steps, made["since"])
    found += _equipment(problem, tasks, steps, made["since"])
    return found + _told(problem, tasks, planned, made)


def _makers(problem: Json, tasks: Json, planned: Json) -> list[str]:
    return [
        f"maker: {key}"
        for key, step in planned.items()
        if tasks[key]["kind"] == "hands" and step["maker"] not in range(len(problem["makers"]))
    ]


def _hands(problem: Json, tasks: Json, planned: Json) -> list[str]:
    found = []
    for number, maker in enumerate(problem["makers"]):
        theirs = [
            step for key, step in planned.items() if tasks[key]["kind"] == "hands" and step["maker"] == number
        ]
        theirs.sort(key=lambda step: step["starts_at"])
        for step in theirs:
            if not any(
                opens <= step["starts_at"] and step["ends_at"] <= closes for opens, closes in maker["hours"]
            ):
                found.append(f"hours: {step['id']}")
        found += [f"hands: {two['id']}" for one, two in pairwise(theirs) if two["starts_at"] < one["ends_at"]]
    return found


def _gaps(problem: Json, tasks: Json, steps: Json) -> list[str]:
    found = []
    for gap in problem["gaps"]:
        start = steps[gap["to"]]["starts_at"]
        if tasks[gap["to"]]["status"] != "open":
            continue
        ends = [steps[key]["ends_at"] for key in gap["from"]]
        if gap["least_ms"] is not None and any(start < end + gap["least_ms"] for end in ends):
            found.append(f"least: {gap['to']}")
        if gap["most_ms"] is not None and start > max(ends) + gap["most_ms"]:
            found.append(f"most: {gap['to']}")
    return found


def _waits(problem: Json, tasks: Json, steps: Json, since: int) -> list[str]:
    found = []
    for key, task in tasks.items():
        if task["kind"] == "wait" and task["status"] == "open":
            begins = [
                steps[need]["ends_at"] + gap["least_ms"]
                for gap in problem["gaps"]
                if gap["to"] == key and gap["least_ms"] is not None
                for need in gap["from"]
            ]
            if steps[key]["starts_at"] > max([since, *begins]):
                found.append(f"wait: {key}")
    return found


def _equipment(problem: Json, tasks: Json, steps: Json, since: int) -> list[str]:
    """At every instant at which something is taken up, no more of it is in use than there is."""
    used: dict[str, list[tuple[int, int, int]]] = {key: [] for key in problem["equipment"]}
    for key, task in tasks.items():
        for thing, many in task["uses"].items():
            if task["status"] == "open":
                used[thing].append((steps[key]["starts_at"], steps[key]["ends_at"], many))
    for hold in problem["holds"]:
        if tasks[hold["until"]]["status"] == "open":
            begins = steps[hold["from"]]["starts_at"] if tasks[hold["from"]]["status"] == "open" else since
            used[hold["equipment"]].append((begins, steps[hold["until"]]["ends_at"], hold["many"]))
    found = []
    for thing, spans in used.items():
        for at, _, _ in spans:
            if (
                sum(many for begins, ends, many in spans if begins <= at < ends)
                > problem["equipment"][thing]["many"]
            ):
                found.append(f"equipment: {thing}")
    return found


def _told(problem: Json, tasks: Json, planned: Json, made: Json) -> list[str]:
    """What the plan says of itself: its finish, its sessions, and the values of its aims."""
    found = []
    if planned and made["finish_at"] != max(step["ends_at"] for step in planned.values()):
        found.append("told: finish_at")
    visits: dict[tuple[int, int], list[Json]] = {}
    for key, step in planned.items():
        if tasks[key]["kind"] == "hands":
            hours = problem["makers"][step["maker"]]["hours"]
            place = next(
                (n for n, (opens, closes) in enumerate(hours) if opens <= step["starts_at"] < closes), -1
            )
            visits.setdefault((step["maker"], place), []).append(step)
    if sorted(sorted(session["steps"]) for session in made["sessions"]) != sorted(
        sorted(step["id"] for step in visit) for visit in visits.values()
    ):
        found.append("told: sessions")
    values = {aim["aim"]: aim for aim in made["aims"]}
    spans = [
        max(step["ends_at"] for step in visit) - min(step["starts_at"] for step in visit)
        for visit in visits.values()
    ]
    if "finish" in values and made["finish_at"] > values["finish"]["value"]:
        found.append("told: finish")
    if "start" in values and made["begins_at"] < values["start"]["value"]:
        found.append("told: start")
    if "sessions" in values and len(visits) != values["sessions"]["value"]:
        found.append("told: session count")
    if "span" in values and sum(spans) > values["span"]["value"]:
        found.append("told: span")
    if "changes" in values:
        ordered = sorted(
            (step for visit in visits.values() for step in visit), key=lambda step: step["starts_at"]
        )
        parts = [(step["run"], step["component"]) for step in ordered]
        if sum(one != two for one, two in pairwise(parts)) > values["changes"]["value"]:
            found.append("told: changes")
    for aim in values.values():
        if aim["proven"] != (aim["value"] == aim["bound"]):
            found.append(f"told: proof of {aim['aim']}")
    return found
