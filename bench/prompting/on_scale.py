"""What stands beside a weighing: the scale, what it reads, and when more would not fit."""

from bench.capacity import coming, loads, too_full
from bench.prompting.view import View
from bench.shapes.prompts import OnScale, WeighHow
from bench.shapes.sheet import SheetLine
from bench.shapes.units import Mg
from bench.weighing import allowed_mg
from bench.whole import reading


def on_scale(
    view: View, line: SheetLine, how: WeighHow, add: Mg, amount: str, reads: Mg | None, before: Mg
) -> OnScale:
    scale, division = view.scale(line), view.division(line)
    told: OnScale = {
        "line": line["id"],
        "name": line["name"],
        "add_mg": add,
        "add": amount,
        "reads_mg": reads,
        "reads": reading(reads, division) if reads is not None else "",
        "before_mg": before,
        "how": how,
        "scale": scale["name"] if scale else "",
        "division_mg": scale["division_mg"] if scale else None,
        "tolerance_mg": allowed_mg(line, division.mg, *view.factor(line)),
        "vessel": line["vessel"],
    }
    if division.uoz is not None:
        told["division_uoz"] = division.uoz
    return told


def filling(view: View, line: SheetLine) -> str:
    """That what is still to come is more than the vessel or its scale takes, before it is passed."""
    held = loads(view.sheet, line["component"], line["round"], coming(view.round_of(line)))
    excess = too_full(view.sheet, view.state, held)
    return excess.says if excess else ""
