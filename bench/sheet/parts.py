"""One round of one part, and the warnings that are said while a sheet is made."""

from dataclasses import dataclass, field

from bench.shapes.recipe import Component, MeasuredRecipe
from bench.shapes.sheet import Warn
from bench.shapes.units import Id, Mg
from bench.sheet.chosen import ChosenLine
from bench.states import ASSEMBLY
from bench.whole import half_even, share_out
from bench.yields import make_mg


@dataclass(slots=True)
class Warnings:
    said: list[Warn] = field(default_factory=list)

    def add(self, warning: Warn) -> None:
        """Each is said once."""
        if warning not in self.said:
            self.said.append(warning)


class Part:
    """One round of one component: its pieces, its mass and what that gives each line."""

    def __init__(
        self, recipe: MeasuredRecipe, component: Component, number: int, count: int, lines: list[ChosenLine]
    ) -> None:
        self.component = component
        self.number = number
        self.count = count
        self.lines = lines
        self.prefix = f"{component['id']}.{number}"
        weights = [each.line["ug"] or 0 for each in lines]
        whole = sum(weights)
        self.mg: Mg = make_mg(component, count)
        if component["id"] == ASSEMBLY:  # its lines are written for so many pieces
            self.mg = half_even(whole * count, 1000 * recipe["written_for"])
        self.masses: dict[Id, Mg] = dict(
            zip((each.line["id"] for each in lines), share_out(self.mg, weights), strict=True)
        )
        # Volumes, drops and counts grow with the mass of the component, or with the pieces where
        # it has no weighed line at all.
        written = recipe["written_for"] * component["takes"] + component["spares"]
        self.factor = (self.mg * 1000, whole) if whole else (count, written)
