"""What a record departs in: from the sheet, from its times, from what the recipe wants of a good piece.

Each is known by a key that never changes ("line.base.1.l0"), so that it can be judged (`bench/release.py`): accepted
or not, by whom and why. `frontend/bench/deviations.js` is the same.
"""

from collections.abc import Mapping, Sequence

from bench.shapes.recipe import Start
from bench.shapes.record import (
    DeviationKind,
    RecordCriterion,
    RecordDeviation,
    RecordLine,
    RecordSkipped,
    RecordStart,
    RecordWait,
    RecordWindow,
)
from bench.shapes.sheet import Sheet
from bench.shapes.state import State

# What the maker may have asked at the start (ISO 22716 has clauses on premises and equipment, R2: clauses 4 and 5).
STARTS: tuple[Start, ...] = ("cleaned", "cleared")


def criteria_of(sheet: Sheet, state: State) -> list[RecordCriterion]:
    """What the recipe wants of a good piece, and what was found."""
    return [
        {**wanted, "found": state["met"].get(wanted["criterion"])} for wanted in sheet.get("good_piece", [])
    ]


def starts_of(sheet: Sheet, state: State) -> list[RecordStart]:
    """What was asked before the first weighing, and when it was told; what nobody asked and told is not there."""
    asked = sheet.get("before", [])
    ticked: Mapping[str, int] = state["ticked"]
    return [
        {"what": each, "at": ticked.get(f"start.{each}")}
        for each in STARTS
        if each in asked or f"start.{each}" in ticked
    ]


def deviations_of(
    lines: Sequence[RecordLine],
    waits: Sequence[RecordWait],
    windows: Sequence[RecordWindow],
    skipped: Sequence[RecordSkipped],
    criteria: Sequence[RecordCriterion],
    starts: Sequence[RecordStart],
) -> list[RecordDeviation]:
    """Everything that departs, in the order of the record. What was asked before the first weighing, and not told,
    departs once something was weighed."""
    found: list[tuple[DeviationKind, str, str]] = []
    if any(line["actual_mg"] for line in lines):
        found += [("start", f"start.{each['what']}", each["what"]) for each in starts if each["at"] is None]
    for line in lines:
        if line["status"] == "left_out":
            found.append(("left_out", f"line.{line['line']}", line["name"]))
        elif line["actual_mg"] and line["within"] is False:
            found.append(("weight", f"line.{line['line']}", line["name"]))
    found += [("early", f"wait.{each['step']}", each["title"]) for each in waits if each["early"]]
    found += [("late", f"wait.{each['step']}", each["title"]) for each in waits if each["late"]]
    found += [("window", f"window.{each['step']}", each["title"]) for each in windows if each["late"]]
    found += [("skipped", f"skipped.{each['step']}", each["title"]) for each in skipped]
    found += [
        ("criterion", f"good.{each['criterion']}", each["criterion"])
        for each in criteria
        if each["found"] and each["found"]["answer"] == "no"
    ]
    return [{"about": about, "kind": kind, "name": name} for kind, about, name in found]
