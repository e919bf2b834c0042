"""How many good pieces each count now expects, and which counts that settles."""

from bench.journal.amounts import left_of_mix
from bench.journal.tally import Tally
from bench.shapes.sheet import PiecesStep, SheetComponent
from bench.shapes.state import PieceCount
from bench.states import ASSEMBLY
from bench.steps import counts_pieces
from bench.whole import half_even
from bench.yields import pieces_from

_NONE: PieceCount = {"good": 0, "spoiled": 0, "partial": 0, "of": {}}


def settle_counting(tally: Tally) -> dict[str, int]:
    """How many good pieces each count now expects: no more than came out of the counts before it.

    What was spoiled is no piece: it is made again while another comes from before, or out of what is left of
    the mix. Counts of earlier versions, which do not say what they saw, took it for one, and stay as they were.
    """
    counting = _Counting(tally)
    for step in tally.sheet["steps"]:
        if counts_pieces(step):
            counting.expect(step)
    return counting.expected


class _Counting:
    def __init__(self, tally: Tally) -> None:
        self.tally = tally
        self.expected: dict[str, int] = {}
        self.pieces = {step["id"]: step for step in tally.sheet["steps"] if counts_pieces(step)}

    def expect(self, step: PiecesStep) -> int:
        tally, key = self.tally, step["id"]
        if key in self.expected:
            return self.expected[key]
        old = key in tally.unseeing
        self.expected[key] = step["count"] if old else _planned(tally, step)
        count = tally.counts.get(key, _NONE)
        made, spoiled = count["good"] + count["partial"], count["spoiled"]
        for source in step["follows"]:
            if not all(each in self.pieces for each in source["steps"]):
                continue  # of a later kind, which counts in a way that nobody here knows
            came = [(self.expect(self.pieces[each]), each) for each in source["steps"]]
            if all(tally.is_done(each) for _, each in came):
                pieces = sum(_usable(tally, each, expected) for expected, each in came)
                could = pieces // source["takes"] - (0 if old else spoiled)
                self.expected[key] = min(self.expected[key], max(0, could))
        first = not (step["follows"] or old)
        if first and made + spoiled >= self.expected[key] and not _makes_more(tally, step):
            self.expected[key] = min(self.expected[key], made)
        if key in tally.counts and made + (spoiled if old else 0) >= self.expected[key]:
            tally.settle(key, "done", tally.counted_at[key])
        return self.expected[key]


def _usable(tally: Tally, step: str, expected: int) -> int:
    count = tally.counts.get(step)
    return expected if count is None else count["good"] + count["partial"]


def _makes_more(tally: Tally, step: PiecesStep) -> bool:
    """Whether what is left of the mix is one more whole piece."""
    piece, count = step["piece_mg"], tally.counts.get(step["id"])
    return piece > 0 and left_of_mix(step, tally.vessel_mg, count, tally.sheet) >= piece


def _planned(tally: Tally, step: PiecesStep) -> int:
    """How many pieces a count is for, now that rounds were scaled up or down."""
    parts = tally.sheet["components"]
    part = next(each for each in parts if each["id"] == step["component"])
    if part["id"] != ASSEMBLY:
        return _asked_of(tally, part, step["round"], step["count"])
    pieces = tally.sheet["size"]["pieces"]
    more = min((_more_of(tally, each, pieces) for each in parts if each["id"] != ASSEMBLY), default=0)
    return step["count"] + (max(0, more) if step["round"] == len(part["rounds"]) else 0)


def _more_of(tally: Tally, part: SheetComponent, pieces: int) -> int:
    """How many finished pieces more than were asked for this part now is enough for."""
    made = sum(_asked_of(tally, part, each["round"], each["count"]) for each in part["rounds"])
    return (made - part["spares"]) // part["takes"] - pieces if part["takes"] else 0


def _asked_of(tally: Tally, part: SheetComponent, number: int, count: int) -> int:
    num, den = tally.factors.get(f"{part['id']}.{number}", (1, 1))
    if num == den or part["piece_mg"] <= 0:
        return count
    now = pieces_from(part, half_even(part["rounds"][number - 1]["make_mg"] * num, den))
    return max(count, now) if num > den else max(1, min(count, now))
