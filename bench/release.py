"""Judgements beside a record: whether its batch may leave the house, and whether its deviations are accepted.

They are entries that no seal holds and no undo takes back: who judges otherwise later says so by a further one,
and all of them stay in the record. A batch is released by the signing that the one who released it saw. Where
that record was unsigned and signed anew, somebody judges it anew; what was held or rejected stays so.
`frontend/bench/release.js` is the same.
"""

from bench.shapes.record import Release
from bench.shapes.state import BatchVerdict, JudgementTold, State

BATCH = "batch"


def judgement_of(state: State, about: str) -> JudgementTold | None:
    """The judgement that stands: the last about it."""
    return next((each for each in reversed(state["judgements"]) if each["about"] == about), None)


def release_of(state: State) -> Release | None:
    """How the batch was judged last, and whether that still holds; None while nobody judged."""
    judged = judgement_of(state, BATCH)
    if judged is None:
        return None
    signed = state["signed"]
    holds = judged["verdict"] != "released" or (signed is not None and signed["id"] == judged["signing"])
    return {**judged, "holds": holds}


def release_status(state: State) -> BatchVerdict | None:
    """Released, held or rejected as it is now; None where nobody judged, or judged another record."""
    release = release_of(state)
    if release is None or not release["holds"]:
        return None
    verdict = release["verdict"]
    return None if verdict == "accepted" or verdict == "not_accepted" else verdict
