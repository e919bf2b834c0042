"""Lots: which to take, and how much of each a run really used.

Masses are whole mg; a lot that is counted (sticks, wrappers) is reckoned in pieces the same way.
"""

from collections.abc import Sequence

from bench.entries import MOST_AT
from bench.journal import WRAP, read_of
from bench.shapes.entries import Entry, RunEntry
from bench.shapes.sheet import Sheet
from bench.shapes.shelf import LotOffered, LotUse, Pick, Picked, Taken
from bench.shapes.state import GatheredLot, State


def pick(need: int, lots: list[LotOffered], on: str, past_too: bool = False) -> Pick:
    """Which lots to take for a need: the oldest best-before first, several when one is short.

    on: the day it is used. Lots without a date come after those with one. A lot past its date is passed
    over, and taken, after all others, only when asked (past_too). One that is held or rejected is never proposed.
    """

    def turn(lot: LotOffered) -> tuple[bool, bool, str, str, str]:
        day = lot["best_before"]
        return (is_past(day, on), day is None, day or "", lot["received_on"], lot["lot"])

    lacking = need
    picked: list[Picked] = []
    passed_over: list[str] = []
    barred: list[str] = []
    for lot in sorted((each for each in lots if each["left"] > 0), key=turn):
        past = is_past(lot["best_before"], on)
        if lot.get("barred"):
            barred.append(lot["lot"])
        elif past and not past_too:
            passed_over.append(lot["lot"])
        elif lacking > 0:
            take = min(lacking, lot["left"])
            picked.append({"lot": lot["lot"], "take": take, "past": past})
            lacking -= take
    return {"picked": picked, "short": lacking, "passed_over": passed_over, "barred": barred}


def is_past(best_before: str | None, on: str) -> bool:
    """Whether a lot is past its date; on the day itself it is not."""
    return best_before is not None and best_before < on


def use_of(sheet: Sheet, state: State, entries: list[Entry]) -> dict[str, LotUse]:
    """What a run really used of each lot gathered for it, by lot.

    What was weighed of an ingredient is drained from its lots in the order in which they were
    gathered, each to what was booked on it, and the overrun from the last: 612 g of 600 g booked
    is 612 g used. A lot gathered with no mass books all that the sheet still wants. Over its lots, an
    ingredient's uses add up to what was weighed of it.
    """
    return uses_of(sheet, state, read_of(state, entries))


def uses_of(sheet: Sheet, state: State, read: Sequence[RunEntry]) -> dict[str, LotUse]:
    """The same, of entries that `read_of` has read."""
    weighed, counted = _used(sheet, state)
    last_at = _last_weighed_at(sheet, read)
    wanted = {each["id"]: each["mg"] for each in sheet["ingredients"]}
    by_ingredient: dict[str, list[GatheredLot]] = {}
    for each in state["gathered"]:
        by_ingredient.setdefault(each["ingredient"], []).append(each)
    uses: dict[str, LotUse] = {}
    for key, gathered in by_ingredient.items():
        rest_mg, rest_count = weighed.get(key, 0), counted.get(key, 0)
        unbooked = wanted.get(key, 0)
        for each in gathered:
            last = each is gathered[-1]
            booked = max(0, unbooked) if each["mg"] is None else each["mg"]
            unbooked -= booked
            mg = rest_mg if last else min(booked, rest_mg)
            rest_mg -= mg
            most = rest_count if each["count"] is None else each["count"]
            count = most if key == WRAP else rest_count if last else min(most, rest_count)
            rest_count -= count
            use = uses.setdefault(each["lot"], {"mg": 0, "count": 0, "booked_mg": 0, "at": each["at"]})
            use["mg"] += mg
            use["count"] += count
            use["booked_mg"] += booked
            use["at"] = max(use["at"], last_at.get(key, 0))
    return uses


def aside_of(sheet: Sheet, state: State, entries: list[Entry]) -> dict[str, Taken]:
    """What an open run gathered and has yet to weigh, by lot: nobody else may count on it. It stands there also where
    the lot was counted since, so it counts from the end of time. `frontend/parts/stock.js` has the same."""
    open_ = {line["ingredient"] for line in sheet["lines"] if state["lines"][line["id"]]["status"] == "open"}
    used = use_of(sheet, state, entries)
    counts: dict[str, int] = {}
    for each in state["gathered"]:
        counts[each["lot"]] = counts.get(each["lot"], 0) + (each["count"] or 0)
    return {
        lot: {
            "mg": max(0, used[lot]["booked_mg"] - used[lot]["mg"]),
            "count": max(0, counts[lot] - used[lot]["count"]),
            "at": MOST_AT,
        }
        for lot in {each["lot"] for each in state["gathered"] if each["ingredient"] in open_}
    }


def _used(sheet: Sheet, state: State) -> tuple[dict[str, int], dict[str, int]]:
    """What was weighed, in mg, and counted of each ingredient."""
    weighed: dict[str, int] = {}
    counted: dict[str, int] = {}
    for line in sheet["lines"]:
        key, stands = line["ingredient"], state["lines"][line["id"]]
        weighed[key] = weighed.get(key, 0) + stands["in_mg"]
        if line["unit"] == "pieces" and stands["status"] == "in":
            counted[key] = counted.get(key, 0) + (line["count"] or 0)
    return weighed, counted


def _last_weighed_at(sheet: Sheet, read: Sequence[RunEntry]) -> dict[str, int]:
    """When each ingredient was last poured or taken out."""
    ingredient_of = {line["id"]: line["ingredient"] for line in sheet["lines"]}
    last_at: dict[str, int] = {}
    for entry in read:
        if entry["kind"] == "weighed" or entry["kind"] == "taken_out":
            last_at[ingredient_of[entry["body"]["line"]]] = entry["at"]
    return last_at
