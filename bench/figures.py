"""What a finished batch came to: the figures of its record that stand beside those of other batches.

Each is worked out here once, for the table over all batches and for what followed when a version changed. What a batch
does not tell is None and never zero: pieces that nobody counted, hands whose time nobody told.
"""

from bench.shapes.figures import BatchFigures
from bench.shapes.record import Record
from bench.whole import PPM, half_even


def figures_of(record: Record) -> BatchFigures:
    """The figures of a finished batch's record."""
    count, hands = record["yield"], record["hands"]["ms"] or None
    kept, spoiled = count["kept"], count["spoiled"]
    good = None if count["good"] is None else count["good"] + (kept or 0)
    counted = (good or 0) + (spoiled or 0)
    planned = count["planned"]
    return {
        "started_at": record["started_at"],
        "pieces_planned": planned,
        "pieces_good": good,
        "pieces_kept": kept,
        "pieces_spoiled": spoiled,
        "yield_ppm": half_even(good * PPM, planned) if good is not None and planned else None,
        "spoiled_ppm": half_even((spoiled or 0) * PPM, counted) if counted else None,
        "lost_ppm": _lost(record),
        "hands_ms": hands,
        "hands_ms_per_piece": half_even(hands, good) if hands and good else None,
        "deviations": len(record["deviations"]),
        "judged": {
            each["says"]: each["found"]["text"] or each["found"]["answer"]
            for each in record["criteria"]
            if each["found"] and each["criterion"].startswith("judge-")
        },
    }


def _lost(record: Record) -> int | None:
    balance = record["balance"]
    if balance is None or balance["in_mg"] <= 0:
        return None
    return half_even((balance["unaccounted_mg"] + balance["left_mg"]) * PPM, balance["in_mg"])
