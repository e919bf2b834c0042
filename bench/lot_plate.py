"""What stands on a lot's sticker: what it is, its number, from whom, its dates, and a line for when it was opened.

It is for the studio's own shelf, so its days are written year first. The same as frontend/bench/lot-plate.js.
"""

from bench.shapes.record import PlateLine, PlatePart
from bench.shapes.shelf import ShelfLot
from bench.words import say


def lot_plate(lot: ShelfLot, name: str) -> list[PlateLine]:
    lines: list[tuple[PlatePart, str]] = [
        ("name", name),
        ("net", say("label-lot-number", number=lot["number"])),
        ("purpose", lot["supplier"] or ""),
        ("foot", say("label-lot-received", day=lot["received_on"])),
    ]
    if lot["best_before"]:
        lines.append(("foot", say("label-lot-best", day=lot["best_before"])))
    lines.append(("foot", say("label-lot-opened")))
    return [{"part": part, "text": text} for part, text in lines if text]
