"""Runs cases over bench/; tests/parity/runner.js does the same over frontend/bench in the browser."""

from __future__ import annotations

from fractions import Fraction
from hashlib import sha256
from typing import Any

from bench import (
    BenchError,
    batch_number,
    choose_size,
    dryness,
    dryness_of,
    fold,
    frozen_seal,
    gather,
    if_you_stop,
    lots,
    make_problem,
    make_sheet,
    next_step,
    now,
    of_record,
    open_sheet,
    pieces,
    quantities,
    read_recipe,
    record,
    seal,
    shelf,
    tasks_of,
    waits,
    whole,
)
from bench.batch_number import recipe_code
from bench.digest import digest_text
from bench.holding import in_use, mould_holds, vessel_holds
from bench.label_sheets import COMMON, label_places, sheet_fault, sheet_title
from bench.planning import stretches
from bench.planning.emptying import can_empty
from bench.planning.foresight import with_who_stayed
from bench.planning.layout import Day, Layout
from bench.states import keeps_ms

Json = dict[str, Any]


def _as_text(value: Fraction) -> str:
    return f"{value.numerator}/{value.denominator}"


def at_the_bench(sheet: Json, entries: list[Any], at: int) -> Json:
    state = fold(sheet, entries)
    return {"state": state, "now": now(sheet, state, at), "tasks": tasks_of(sheet, state)}


def _amount(*given: Any) -> Json:
    amount = quantities.read_amount(*given)
    return {"kind": amount.kind, "value": _as_text(amount.value), "unit": amount.unit}


def _as_written(part: Json) -> list[list[Json]]:
    """The measured steps of a part, all those together that one written step was lowered to."""
    together: dict[str, list[Json]] = {}
    for step in part["steps"]:
        together.setdefault(step.get("written", step["id"]), []).append(step)
    return list(together.values())


def sketch(document: Json) -> Json:
    """What the phone's sketch of a recipe must say of one that can be read."""
    parts = read_recipe(document)["components"]
    told = [
        {
            "id": part["id"],
            "piece_mg": part["piece_mg"],
            "lines": [line["ug"] for line in part["lines"]],
            "after": [steps[0]["after"] for steps in _as_written(part)],
            "waits": [steps[0].get("usual_ms") if len(steps) == 1 else None for steps in _as_written(part)],
        }
        for part in parts
        if part["id"] != "assembly" or "assembly" in document
    ]
    return {"components": told, "faults": []}


def lay_out(problem: Json, order: list[str], at: int, pace: int) -> Json:
    """A day laid out by an order; by the plain rule's when there is none."""
    day = Day(problem, at)
    numbers = day.by_need(order or day.latest_finish_first())
    laid = Layout(day, numbers, pace=pace)
    return {
        "order": numbers,
        "placed": laid.placed,
        "start": laid.start,
        "end": laid.end,
        "maker": laid.maker,
        "finish": laid.finish,
        "broken": [{"over": over, "to": gap["to"]} for over, gap in laid.broken],
    }


def laid(run: Json) -> Json:
    return {**run, "state": fold(run["sheet"], run["entries"])}


def opened(kept: Json, recipe: Json | None, entries: list[Json], at: int) -> Json:
    """A sheet of a former version opened, its journal folded, and what the bench says of both."""
    sheet = open_sheet(kept, recipe)
    state = fold(sheet, entries)
    return {
        "sheet": sheet,
        "state": state,
        "now": now(sheet, state, at),
        "holds": mould_holds(sheet),
        "record": record(sheet, state, entries),
    }


CALLS = {
    "at_the_bench": at_the_bench,
    "held": lambda sheet: [*vessel_holds(sheet), *mould_holds(sheet)],
    "opened": opened,
    "in_use": lambda run, others: in_use(laid(run), [laid(each) for each in others]),
    "stretches": stretches,
    "keeps_ms": keeps_ms,
    "lay_out": lay_out,
    "can_empty": lambda problem, at: can_empty(Day(problem, at)),
    "next_step": next_step,
    "with_who_stayed": lambda problem, order, at: with_who_stayed(Day(problem, at), order).problem,
    "if_you_stop": if_you_stop,
    "read_amount": _amount,
    "read_density": lambda *given: _as_text(quantities.read_density(*given)),
    "read_celsius_mk": quantities.read_celsius_mk,
    "read_duration_ms": quantities.read_duration_ms,
    "read_mass_mg": quantities.read_mass_mg,
    "read_ppm": quantities.read_ppm,
    "sketch": sketch,
    "half_even": whole.half_even,
    "share_out": whole.share_out,
    "per_cent": whole.per_cent,
    "times": whole.times,
    "more_by": whole.more_by,
    "to_division": lambda mg, *division: whole.to_division(mg, whole.Division(*division)),
    "canonical": whole.canonical,
    "mass": whole.mass,
    "reading": lambda mg, *division: whole.reading(mg, whole.Division(*division)),
    "temperature": whole.temperature,
    "span": whole.span,
    "wait_phase": waits.wait_phase,
    "window_phase": waits.window_phase,
    "guide_phase": waits.guide_phase,
    "warn_at": waits.warn_at,
    "rings": waits.rings,
    "fold_shelf": shelf.fold_shelf,
    "left_of": shelf.left_of,
    "nameKey": shelf.name_key,
    "pick": lots.pick,
    "batch_number": batch_number,
    "recipe_code": recipe_code,
    "dryness": dryness,
    "common_sheets": lambda: [
        {"title": sheet_title(each), "fault": sheet_fault(each), "places": label_places(each, 3, 70)}
        for each in COMMON
    ],
    "sheet_fault": sheet_fault,
    "digest_text": digest_text,
    "sha256": lambda text: sha256(text.encode()).hexdigest(),
}
REF = {"id": "recipe-1", "version": 1}


def call(case: Json) -> Any:
    try:
        return CALLS[case["call"]](*case["with"])
    except BenchError as error:
        return {"error": {"where": error.where, "says": error.says}}


HOURS = {"zone": "Europe/London", "daily": [["9:00", "12:30"], ["19:00", "22:00"]]}
DAY_MS = 86_400_000
MOST_LED = 25  # steps of a day that is led through; more would take minutes over all the cases


def day_of(sheet: Json, state: Json, at: int) -> Json:
    """The run's day from an instant on: what there is to do, and what is said of it."""
    try:
        part = tasks_of(sheet, state, run="run", hands={sheet["steps"][0]["id"]: 100_000})
    except BenchError as error:
        return {"error": {"where": error.where, "says": error.says}}
    problem = make_problem([part], [{"name": "You", "hours": HOURS}], at, at + 30 * DAY_MS)
    if len(problem["tasks"]) > MOST_LED:
        return {"problem": problem}
    return {
        "problem": problem,
        "laid": lay_out(problem, [], at, 1000),
        "next": next_step(problem, Day(problem, at).latest_finish_first(), at),
    }


def _pieces(entries: list[Json]) -> Json:
    """Where the pieces of each batch are that the shelf's journal tells of."""
    return {
        run: {**pieces.stand({"good": 60, "kept": 1}, told), "place": told["place"]}
        for run, told in pieces.fold_pieces(entries).items()
    }


def batch(case: Json) -> Json:
    """A batch from its size to its record, with what the shelf says to gather and what was used of it."""
    try:
        sized = choose_size(case["recipe"], case["kit"], case["request"])
        sheet = make_sheet(case["recipe"], REF, sized["size"], case["kit"])
    except BenchError as error:
        return {"error": {"where": error.where, "says": error.says}}
    frozen = case["frozen"]
    state = fold(sheet, case["entries"], frozen)
    stock = shelf.fold_shelf(case["shelf"])
    told = record(sheet, state, case["entries"])
    return {
        "days": [day_of(sheet, state, at) for at in case["instants"][:1]],
        "sized": sized,
        "sheet": sheet,
        "state": state,
        "of_record": [each["id"] for each in of_record(state, case["entries"])],
        "seal": seal(case["tame"]),
        "frozen": frozen_seal(case["entries"], frozen),
        "now": [now(sheet, state, at) for at in case["instants"]],
        "record": told,
        "shelf": stock,
        "pieces": _pieces(case["shelf"]),
        "uses": lots.use_of(sheet, state, case["entries"]),
        "gather": gather(
            case["recipe"], sheet, state, stock, case["uses"], "2026-11-25", before=case.get("before", [])
        ),
        "dryness": [each for step in sheet["steps"] for each in dryness_of(sheet, state, step["id"], 20_000)],
    }
