"""What a finished batch came to, in figures that stand beside those of other batches."""

from typing import TypedDict

from bench.shapes.record import Balance, RecordLot
from bench.shapes.units import InstantMs, Mg, Ms, Ppm


class BatchFigures(TypedDict):
    """Drawn from a batch's record. None: the batch does not tell, which is not zero."""

    started_at: InstantMs | None
    pieces_planned: int
    pieces_good: int | None  # those kept back among them
    pieces_kept: int | None
    pieces_spoiled: int | None
    yield_ppm: Ppm | None  # good pieces of those planned
    spoiled_ppm: Ppm | None  # spoiled pieces of those counted
    lost_ppm: Ppm | None  # of the mass that went in: left over, dried off, stuck, unaccounted
    hands_ms: Ms | None
    hands_ms_per_piece: Ms | None  # a good one
    deviations: int
    judged: dict[str, str]  # what the maker judges -> the number or word that was told of it


class CostBasis(TypedDict):
    """What of a batch's record its cost hangs on; all else of it are prices, which move."""

    lots: list[RecordLot]
    bare: dict[str, Mg]  # what came from no lot, by name; 0: it went in unweighed, or is the wrap
    good: int | None  # less what was kept back
    kept: int
    hands_ms: Ms
    balance: Balance | None
