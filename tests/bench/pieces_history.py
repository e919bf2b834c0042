"""Random histories of finished pieces, and where the pieces then are by double entry.

Here a piece that leaves one place arrives at another, one entry after the other, as a bookkeeper would write it;
`bench/pieces.py` counts up and subtracts. Two devices with clocks of their own write, some entries are taken back
and brought again, some are broken, some come twice, and all come in any order.
"""

from __future__ import annotations

from collections import Counter
from random import Random
from typing import Any

from tests.bench.workshop import MORNING, entry

RUNS = ["0197a0e2-0000-7000-8000-00000000000a", "0197a0e2-0000-7000-8000-00000000000b"]
OUTLETS = ["0197a0e2-0000-7000-8000-0000000000c1", "0197a0e2-0000-7000-8000-0000000000c2", None]
# From where to where a kind moves pieces.
MOVES = {
    "sold": ("stock", "out"),
    "given": ("stock", "out"),
    "returned": ("out", "stock"),
    "binned": ("stock", "bin"),
    "sampled": ("stock", "kept"),
    "shelved": ("stock", "lot"),
}
SPOILT = [None, -1, 1.5, "two", [], 10_001, True]


def history(rng: Random) -> tuple[list[Any], dict[str, Counter[str]]]:
    """Entries in the order in which they come in, and of each batch how many pieces moved to (or from) each place."""
    clocks = {"phone": MORNING, "stall": MORNING + rng.randint(-(10**7), 10**7)}
    told: list[Any] = []
    for _ in range(rng.randint(0, 25)):
        device = rng.choice(list(clocks))
        clocks[device] += rng.choice([0, 1, 60_000])
        told.append(_one(rng, told, clocks[device], device))
    moved: dict[str, Counter[str]] = {run: Counter() for run in RUNS}
    for each in told:
        if each["kind"] in MOVES and _is_sound(each) and _holds(each, told):
            body, (source, target) = each["body"], MOVES[each["kind"]]
            outlet = body.get("outlet") or ""
            moved[body["run"]][source + (outlet if source == "out" else "")] -= body["pieces"]
            moved[body["run"]][target + (outlet if target == "out" else "")] += body["pieces"]
    came = told + [each for each in told if rng.random() < 0.2]
    rng.shuffle(came)
    return came, moved


def _one(rng: Random, told: list[Any], at: int, device: str) -> Any:
    if told and rng.random() < 0.2:
        return entry("undone", at, device, entry=rng.choice(told)["id"])
    kind = rng.choice(list(MOVES))
    body: dict[str, Any] = {"run": rng.choice(RUNS), "pieces": rng.randint(0, 30)}
    if "out" in MOVES[kind] and (outlet := rng.choice(OUTLETS)):
        body["outlet"] = outlet
    body |= {"binned": {"why": "Cracked."}, "shelved": {"lot": "embeds-1"}}.get(kind, {})
    if rng.random() < 0.1:
        body["pieces"] = rng.choice(SPOILT)
    return entry(kind, at, device, **body)


def _is_sound(each: Any) -> bool:
    return type(each["body"]["pieces"]) is int and 0 <= each["body"]["pieces"] <= 10_000


def _holds(each: Any, told: list[Any]) -> bool:
    """Whether nobody took it back later, by an undo that holds itself."""
    place = (each["at"], each["device"], each["id"])
    return not any(
        undo["kind"] == "undone"
        and undo["body"]["entry"] == each["id"]
        and (undo["at"], undo["device"], undo["id"]) > place
        and _holds(undo, told)
        for undo in told
    )
