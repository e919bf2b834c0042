"""Gathering: everything a sheet needs before the first weighing, and what is short or past its date.

`frontend/bench/gather.js` is the same, for a phone with no network.
"""

from collections.abc import Sequence
from typing import Literal, TypeAlias, TypedDict

from bench.book import card_for, names_of
from bench.deviations import STARTS
from bench.journal import WRAP
from bench.lists import once
from bench.lots import is_past, pick
from bench.shapes.entries import LotVerdict
from bench.shapes.recipe import Hazard, MeasuredRecipe, Start
from bench.shapes.sheet import Sheet, SheetIngredient
from bench.shapes.shelf import (
    Gather,
    GatherIngredient,
    GatherLot,
    GatherThing,
    LotOffered,
    PaperDue,
    Shelf,
    ShelfLot,
    Taken,
    Thing,
    ThingKind,
)
from bench.shapes.state import GatheredLot, State
from bench.sheet_words import cautions_of, hazards_of
from bench.shelf import called, is_barred, left_of, papers_about, papers_due, verdict_of
from bench.steps import divides, heats
from bench.words import say

Uses: TypeAlias = dict[str, list[Taken]]  # by lot, what all other runs took of it

# What to wear or lay ready (common practice; the supplier's safety sheet rules).
PROTECTION: dict[Hazard, tuple[str, ...]] = {
    "hot_soap": ("heatproof_gloves", "long_sleeves", "cold_water_near"),
    "hot_fat": ("heatproof_gloves", "lid_for_the_pan"),
    "powder": ("dust_mask", "eye_protection"),
    "alcohol": ("window_open", "heaters_and_flames_off"),
    "wet_sockets": ("dry_towel",),
    "superheated": ("heatproof_gloves",),
    "slippery": ("floor_cloth",),
}


def gather(
    recipe: MeasuredRecipe,
    sheet: Sheet,
    state: State,
    shelf: Shelf,
    uses: Uses,
    on: str,
    past_too: bool = False,
    before: Sequence[Start] = (),
) -> Gather:
    """What to lay out for a run, and what of it is there.

    on: the maker's day, "2027-03-31". before: what the maker wants asked before every batch, beside what the
    recipe asks.
    """
    ticked = state["ticked"]
    things: list[GatherThing] = [
        {**thing, "ticked": thing["thing"] in ticked}
        for thing in [*starts_for(sheet, before), *things_for(recipe, sheet)]
    ]
    names = names_of(shelf)
    ingredients = [
        _ingredient(each, card_for(names, each["name"]), sheet, state, shelf, uses, on, past_too)
        for each in [*sheet["ingredients"], *wraps_of(sheet, shelf, names)]
    ]
    still = [each for each in ingredients if not any(lot["gathered"] for lot in each["lots"])]
    return {
        "ingredients": ingredients,
        "things": things,
        "cautions": once(each for step in sheet["steps"] for each in cautions_of(step)),
        "open": len(still) + len([thing for thing in things if not thing["ticked"]]),
    }


def wraps_of(sheet: Sheet, shelf: Shelf, names: dict[str, str]) -> list[SheetIngredient]:
    """What the pieces are wrapped in, one each, which no sheet lists: where a step wraps and a card answers to "wrap".

    names: those of `names_of`.
    """
    key = card_for(names, WRAP)
    if key is None or not is_wrapped(sheet):
        return []
    return [{"id": WRAP, "name": called(shelf, key), "mg": 0, "nl": 0, "count": sheet["size"]["pieces"]}]


def is_wrapped(sheet: Sheet) -> bool:
    return any(step["does"] == "wrap" for step in sheet["steps"])


def _ingredient(
    need: SheetIngredient,
    key: str | None,
    sheet: Sheet,
    state: State,
    shelf: Shelf,
    uses: Uses,
    on: str,
    past_too: bool,
) -> GatherIngredient:
    counted = _counted(need, sheet)
    wanted = need["mg"] or counted
    measure: Literal["mg", "count"] = "mg" if need["mg"] else "count"
    lots = {
        lot_id: lot
        for lot_id, lot in shelf["lots"].items()
        if key is not None and lot["ingredient"] == key and (not wanted or lot[measure] is not None)
    }
    taken = {each["lot"] for each in state["gathered"] if each["ingredient"] == need["id"]}
    # A lot that was taken all the same counts as there.
    offered = [
        _offered(lot_id, lot, uses, is_barred(lot) and lot_id not in taken) for lot_id, lot in lots.items()
    ]
    chosen = pick(wanted or 1, offered, on, past_too)  # of what goes by hand, the lot whose turn it is
    rows = [_row(each["lot"], each["take"] if wanted else 0, shelf, uses, on) for each in chosen["picked"]]
    for gathered in (each for each in state["gathered"] if each["ingredient"] == need["id"]):
        _tick(rows, gathered, shelf, uses, on)
    return {
        "ingredient": need["id"],
        "name": need["name"],
        "mg": need["mg"],
        "division_mg": _division(need, sheet),
        "count": counted,
        "shelf": key,
        "lots": rows,
        "short": chosen["short"] if wanted else 0,
        "passed_over": chosen["passed_over"],
        "barred": chosen["barred"],
        "by_hand": not wanted,
    }


def _counted(need: SheetIngredient, sheet: Sheet) -> int:
    """How many pieces of an ingredient the sheet wants."""
    if need["id"] == WRAP:
        return need["count"]
    lines = [line for line in sheet["lines"] if line["ingredient"] == need["id"] and line["unit"] == "pieces"]
    return sum(line["count"] or 0 for line in lines)


def _offered(lot_id: str, lot: ShelfLot, uses: Uses, barred: bool) -> LotOffered:
    return {
        "lot": lot_id,
        "left": left_of(lot, uses.get(lot_id, [])),
        "best_before": lot["best_before"],
        "received_on": lot["received_on"],
        "barred": barred,
    }


class _Judged(TypedDict):
    verdict: LotVerdict | None
    papers_due: list[PaperDue]


def _judged(lot: ShelfLot | None, shelf: Shelf, on: str) -> _Judged:
    """How a lot was judged, and which of its papers are past their date or soon will be."""
    if lot is None:
        return {"verdict": None, "papers_due": []}
    return {"verdict": verdict_of(lot), "papers_due": papers_due(papers_about(shelf, lot), on)}


def _tick(rows: list[GatherLot], gathered: GatheredLot, shelf: Shelf, uses: Uses, on: str) -> None:
    """Mark the row of a lot that was gathered; one that nobody would have picked gets a row of its own."""
    row = next((row for row in rows if row["lot"] == gathered["lot"]), None)
    if row is not None:
        row["gathered"] = True
        return
    take = gathered["mg"] if gathered["mg"] is not None else gathered["count"] or 0
    rows.append({**_row(gathered["lot"], take, shelf, uses, on), "gathered": True})


def _row(lot_id: str, take: int, shelf: Shelf, uses: Uses, on: str) -> GatherLot:
    """A lot as it is offered; one that is not on the shelf has its id alone."""
    lot = shelf["lots"].get(lot_id)
    return {
        "lot": lot_id,
        "number": lot["number"] if lot else None,
        "best_before": lot["best_before"] if lot else None,
        "left": left_of(lot, uses.get(lot_id, [])) if lot else None,
        "take": take,
        "past": lot is not None and is_past(lot["best_before"], on),
        **_judged(lot, shelf, on),
        "gathered": False,
    }


def _division(need: SheetIngredient, sheet: Sheet) -> int:
    """The finest division that an ingredient is weighed at, in mg: finer than that nobody can lay out."""
    lines = [line for line in sheet["lines"] if line["ingredient"] == need["id"]]
    return min((line["division_mg"] for line in lines if line["division_mg"]), default=1)


def starts_for(sheet: Sheet, before: Sequence[Start]) -> list[Thing]:
    """What is asked before the first weighing: one question each, ticked like a thing that is laid out."""
    asked = {*before, *sheet.get("before", [])}
    return [
        {"thing": f"start.{each}", "kind": "start", "name": say(f"gather-start-{each}")}
        for each in STARTS
        if each in asked
    ]


def things_for(recipe: MeasuredRecipe, sheet: Sheet) -> list[Thing]:
    """Scales, vessels, moulds, heaters, tools and protection, each once."""
    kit = sheet["kit"]
    lines, steps = sheet["lines"], sheet["steps"]
    scales = {each["scale"] for each in lines} | {each["scale"] for each in sheet["vessels"]}
    heaters = {step["heater"] for step in steps if heats(step)}
    shapes = {each["mould"]["shape"] for each in recipe["components"] if each["mould"]}
    splits = [step["portions"] for step in steps if divides(step)]
    portions = {portion["vessel"] for each in splits for portion in each}
    stay = {each[-1]["vessel"] for each in splits}  # the last portion stays in its bowl
    found: list[tuple[ThingKind, str, str]] = []  # what its key is made of, and its name
    found += _named("scale", [each["name"] for each in kit["scales"] if each["id"] in scales])
    found += _named("vessel", [each["name"] for each in sheet["vessels"] if each["id"] not in portions])
    found += [
        ("vessel", f"for {each['name']}", say("gather-vessel-for", name=each["name"]))
        for each in sheet["vessels"]
        if each["id"] in portions and each["id"] not in stay
    ]
    if any(line["cup"] for line in lines):
        found.append(("vessel", "small cup", say("gather-small-cup")))
    found += _named("mould", [each["name"] for each in kit["moulds"] if each["shape"] in shapes])
    found += _named("heater", [each["name"] for each in kit["heaters"] if each["name"] in heaters])
    found += _named("tool", [tool for step in steps for tool in step["tools"]])
    worn = [each for hazard in once(hazards_of(steps)) for each in PROTECTION.get(hazard, ())]
    found += [("protection", each, say("gather-protection", thing=each)) for each in worn]
    worn_too = {slug(known) for kind, known, _ in found if kind == "protection"}
    things: dict[str, Thing] = {}
    for kind, known, name in found:
        if kind == "tool" and slug(known) in worn_too:
            continue  # it is laid out once, with what is worn
        key = f"{kind}.{slug(known)}"
        things.setdefault(key, {"thing": key, "kind": kind, "name": name})
    return list(things.values())


def _named(kind: ThingKind, names: list[str]) -> list[tuple[ThingKind, str, str]]:
    return [(kind, name, name) for name in names]


def slug(name: str) -> str:
    """A name as part of an entry's key: small letters and digits stay, other ASCII is "_", and what
    is beyond ASCII is its code point."""
    made = ""
    for each in name:
        if each.isascii():
            made += each.lower() if each.isalnum() else "_"
        else:
            made += f"{ord(each):x}"
    return made[:100]
