"""How much of a component gives how many pieces, and the other way round.

Each component is sized by what the assembly takes from it, not by one factor for the whole
recipe: make = ((pieces + spares) x mass a piece + what stays behind) / (1 - f).
"""

from typing import TypedDict

from bench.shapes.units import Mg, Ppm
from bench.whole import PPM, half_even

MOST_PIECES = 1000


class Yield(TypedDict):
    """What says how much of a part gives how many pieces: a recipe's part has it, and a sheet's."""

    piece_mg: Mg
    stays_behind_mg: Mg
    loss_ppm: Ppm


def make_mg(component: Yield, count: int) -> int:
    """The mass to make, in mg, so that `count` pieces come of it."""
    return half_even(
        (count * component["piece_mg"] + component["stays_behind_mg"]) * PPM, PPM - component["loss_ppm"]
    )


def pieces_from(component: Yield, mg: int) -> int:
    """How many whole pieces this mass of the component gives: `make_mg` turned round."""
    if component["piece_mg"] <= 0:
        return 0
    left = mg * (PPM - component["loss_ppm"]) // PPM - component["stays_behind_mg"]
    pieces = max(0, left // component["piece_mg"])
    # What `make_mg` rounded down for one more piece is still enough for it.
    return pieces + 1 if make_mg(component, pieces + 1) <= mg else pieces
