"""Runs cases over bench/; tests/parity/runner.js does the same over frontend/bench in the browser."""

from __future__ import annotations

from typing import Any

from bench import BenchError, choose_size, fold, make_sheet, now, record, waits, whole

Json = dict[str, Any]

CALLS = {
    "half_even": whole.half_even,
    "share_out": whole.share_out,
    "per_cent": whole.per_cent,
    "times": whole.times,
    "to_division": whole.to_division,
    "canonical": whole.canonical,
    "grams": whole.grams,
    "span": whole.span,
    "wait_phase": waits.wait_phase,
    "window_phase": waits.window_phase,
    "guide_phase": waits.guide_phase,
    "warn_at": waits.warn_at,
    "rings": waits.rings,
}
REF = {"id": "recipe-1", "version": 1}


def call(case: Json) -> Any:
    return CALLS[case["call"]](*case["with"])


def batch(case: Json) -> Json:
    """A batch from its size to its record: {sized, sheet, state, now: [one an instant], record}."""
    try:
        sized = choose_size(case["recipe"], case["kit"], case["request"])
        sheet = make_sheet(case["recipe"], REF, sized["size"], case["kit"])
    except BenchError as error:
        return {"error": {"where": error.where, "says": error.says}}
    state = fold(sheet, case["entries"])
    return {
        "sized": sized,
        "sheet": sheet,
        "state": state,
        "now": [now(sheet, state, at) for at in case["instants"]],
        "record": record(sheet, state, case["entries"]),
    }
