"""Dry or not: a weighing test. Weigh a piece, again an hour later.

Constant weight (USP General Notices 6.40, read second-hand): two weighings, the second after a
further hour of drying (from memory), differ by no more than 0.50 mg for each gram taken. Each reading is
rounded to the scale's division d, so a difference may be off by d: a verdict is given only where that
changes nothing. A scale shows so little only on 2000 d or more: below that it cannot tell, and says so. Over
more than an hour a piece is still drying where its loss an hour is too much; where only the whole loss is,
the last hour is not known. What gains weight is in no balance. A constant weight is balance with that room's
air, and a slow fizz loses weight too: it is never called more than constant. A maker's own looser threshold
is judged beside it and always called theirs.
"""

from bench.brief import joined
from bench.shapes.kit import Scale
from bench.shapes.record import DryAnswer, Dryness, PieceDryness, PieceWeighing
from bench.shapes.sheet import Sheet
from bench.shapes.state import MeasuredMass, State
from bench.shapes.units import InstantMs, Mg, Ms
from bench.whole import PPM, ceiling, half_even, mass
from bench.words import say

CONSTANT_PPM = 500  # 0.50 mg for each g
APART_MS = 60 * 60_000


def dryness(
    first: PieceWeighing | MeasuredMass,
    second: PieceWeighing | MeasuredMass,
    division_mg: int,
    own_ppm: int | None = None,
    humidity: int | None = None,
) -> Dryness:
    """What two weighings of one piece say.

    first, second: in the order made. own_ppm: the maker's own threshold. humidity: the room's in per cent, if read.
    Too soon is less than an hour; it gains when it takes up moisture; slower: not dry by the whole loss, nor wet by
    that an hour; unclear: rounding decides.
    """
    change = second["mg"] - first["mg"]
    elapsed = second["at"] - first["at"]
    constant = _judged(first["mg"] * CONSTANT_PPM, change, elapsed, division_mg)
    own = None if own_ppm is None else _judged(first["mg"] * own_ppm, change, elapsed, division_mg)
    least = ceiling(division_mg * PPM, CONSTANT_PPM)
    return {
        "constant": constant,
        "own": own,
        "change_mg": change,
        "change_ppm": half_even(change * PPM, first["mg"]) if first["mg"] else None,
        "least_mg": least,
        "says": _says(constant, own, mass(least, division_mg), humidity),
    }


def _judged(allowed: int, change: Mg, elapsed: Ms, division: Mg) -> DryAnswer:
    """allowed: how much it may lose, in millionths of a mg."""
    off, moved = division * PPM, abs(change) * PPM
    if elapsed < APART_MS:
        return "too_soon"
    if allowed < off or allowed == 0:
        return "cannot_tell"
    if change > division:
        return "gains"
    if moved + off <= allowed:
        return "dry"
    if (moved - off) * APART_MS > allowed * elapsed:
        return "not_yet"
    return "slower" if moved - off > allowed else "unclear"


def _says(constant: DryAnswer, own: DryAnswer | None, least: str, humidity: int | None) -> str:
    says = say("dryness-says", constant=constant, least=least)
    if constant in ("dry", "gains"):
        known = "" if humidity is None else str(humidity)
        says = joined(says, say("dryness-air", known="yes" if known else "no", humidity=known))
    return joined(says, say("dryness-own") if _only_own(constant, own) else "")


def _only_own(constant: DryAnswer, own: DryAnswer | None) -> bool:
    """Whether it is dry by the maker's own threshold alone."""
    return constant in ("cannot_tell", "not_yet", "slower", "unclear") and own == "dry"


def dryness_of(sheet: Sheet, state: State, step: str, own_ppm: int | None = None) -> list[PieceDryness]:
    """The test of each piece weighed at a step at least twice.

    The last weighing is held against the latest one that is an hour older, else the one before it. The
    division is that of the scale the last weighing names, else of the finest that carries the piece.
    """
    weighings: dict[int, list[MeasuredMass]] = {}
    for each in state["measured"]:
        if each["what"] == "piece" and each["step"] == step and each["piece"] is not None:
            weighings.setdefault(each["piece"], []).append(each)
    tests: list[PieceDryness] = []
    for piece, of_piece in sorted(weighings.items()):
        if len(of_piece) < 2:
            continue
        last = of_piece[-1]
        older = [each for each in of_piece if last["at"] - each["at"] >= APART_MS]
        first = (older or of_piece[:-1])[-1]
        division = _division(sheet["kit"]["scales"], last)
        humidity = _humidity(state, first["at"], last["at"])
        tests.append({"piece": piece, **dryness(first, last, division, own_ppm, humidity)})
    return tests


def _humidity(state: State, began: InstantMs, ended: InstantMs) -> int | None:
    """The room's humidity as it was read last between two weighings, or within an hour of them; None: nobody did."""
    read = [each for each in state["air"] if began - APART_MS <= each["at"] <= ended + APART_MS]
    return read[-1]["humidity"] if read else None


def _division(scales: list[Scale], weighing: MeasuredMass) -> int:
    named = [scale for scale in scales if scale["id"] == weighing["scale"]]
    carry = [scale for scale in scales if scale["capacity_mg"] >= weighing["mg"]]
    return min((scale["division_mg"] for scale in named or carry or scales), default=1)
