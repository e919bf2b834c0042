"""The vessels of a round, each with the scale it stands on while lines go in."""

from typing import NamedTuple

from bench import steps
from bench.lists import once
from bench.materials import is_metal, microwaved, unfit
from bench.shapes.kit import Kit, Vessel
from bench.shapes.recipe import Component, RecipeWeigh
from bench.shapes.sheet import SheetVessel
from bench.shapes.units import Id, Mg, Ppm
from bench.sheet.parts import Part, Warnings
from bench.sizing import room_mg, vessel_for
from bench.states import ASSEMBLY
from bench.steps import divides
from bench.weighing import bowl_scale
from bench.whole import ceiling


class _Portion(NamedTuple):
    """What a component is divided into. The last portion of a split stays in the vessel it was divided from,
    so it counts as the whole."""

    name: str
    share: int  # of `of`
    of: int
    stays_in: Id | None


class _Serves(NamedTuple):
    """What a vessel of the kit is in use for."""

    component: Id
    label: Id


class Places:
    def __init__(self, kit: Kit, components: list[Component], warnings: Warnings) -> None:
        self.kit = kit
        self.names = {each["id"]: each["name"] for each in components}
        self.warnings = warnings
        self.in_use: dict[Id, _Serves] = {}

    def of_round(self, part: Part, weighed_in: dict[Id, RecipeWeigh]) -> dict[Id, SheetVessel]:
        """The vessels of a round by label."""
        component = part.component
        portions = _portions(component)
        going_in: dict[Id, list[tuple[Mg, Ppm]]] = {label: [] for label in _labels(component)}
        for line, _ in part.lines:
            mg = part.masses[line["id"]]
            if line["id"] in weighed_in and mg:
                going_in[weighed_in[line["id"]]["into"]].append((mg, line["tolerance_ppm"]))
        whole = sum(mg for lines in going_in.values() for mg, _ in lines)
        vessels: dict[Id, Vessel | None] = {}
        places: dict[Id, SheetVessel] = {}
        for label, lines in going_in.items():
            portion = portions.get(label)
            load = sum(mg for mg, _ in lines)
            # All of a component ends up in its bowl, and is divided from there; the assembly's lines go
            # onto the pieces.
            if label == "bowl" and component["id"] != ASSEMBLY:
                load = whole
            elif portion:
                load = ceiling(whole * portion.share, portion.of)
            if portion and portion.stays_in in vessels:
                vessel = vessels[portion.stays_in]
            else:
                kind = component["vessel"] if label == "bowl" or portion else label
                vessel = self._vessel(component, label, kind, load)
            vessels[label] = vessel
            places[label] = self._place(part, label, portion, vessel, load, lines)
        return places

    def _place(
        self,
        part: Part,
        label: Id,
        portion: _Portion | None,
        vessel: Vessel | None,
        load: Mg,
        lines: list[tuple[Mg, Ppm]],
    ) -> SheetVessel:
        where = f"{part.prefix}.{label}"
        empty = vessel["empty_mg"] if vessel else 0
        scale = None
        if lines or (portion and self.kit["scales"]):
            scale = bowl_scale(self.kit, empty + load, lines)
            if scale is None:
                self.warnings.add({"where": where, "kind": "no_scale", "mg": empty + load})
        if vessel and load > vessel["holds_mg"]:
            self.warnings.add(
                {
                    "where": where,
                    "kind": "too_full",
                    "vessel": vessel["name"],
                    "holds_mg": vessel["holds_mg"],
                    "mg": load,
                }
            )
        in_the_kit = vessel["name"] if vessel else label.replace("_", " ").capitalize()
        return {
            "id": where,
            "component": part.component["id"],
            "round": part.number,
            "label": label,
            "name": portion.name if portion else in_the_kit,
            "scale": scale["id"] if scale else None,
            "empty_mg": empty,
            "holds_mg": vessel["holds_mg"] if vessel else None,
            "kit": vessel["id"] if vessel else None,
        }

    def _vessel(self, component: Component, label: Id, kind: str, load: Mg) -> Vessel | None:
        """The smallest vessel that takes the load and is not in use for another part of the batch.

        Parts are made side by side, so two of them in one bowl is a clash, and is said. Small cups
        are wiped and used again, and the rounds of one part follow each other.
        """
        serves = _Serves(component["id"], label)
        taken = frozenset(key for key, other in self.in_use.items() if other != serves and kind != "cup")
        not_for_it = unfit(self.kit, component, label, kind)
        vessel = vessel_for(self.kit, kind, load, besides=taken | not_for_it)
        room = room_mg(self.kit, vessel)
        if vessel is None or (room is not None and room < load):
            shared = vessel_for(self.kit, kind, load, besides=not_for_it)
            if shared and (vessel is None or (room_mg(self.kit, shared) or 0) >= load):
                vessel = shared
        if vessel and is_metal(vessel) and label in microwaved(component):
            where = f"{component['id']}.{label}"
            self.warnings.add({"where": where, "kind": "metal", "vessel": vessel["name"]})
        if vessel is None or kind == "cup":
            return vessel
        self._warn_shared(component, label, kind, vessel, self.in_use.setdefault(vessel["id"], serves))
        return vessel

    def _warn_shared(
        self, component: Component, label: Id, kind: str, vessel: Vessel, other: _Serves
    ) -> None:
        """That the vessel is another part's too, or stands for two things of one part."""
        where = f"{component['id']}.{label}"
        if other.component != component["id"]:
            self.warnings.add(
                {
                    "where": where,
                    "kind": "for_two_parts",
                    "vessel": vessel["name"],
                    "part": component["name"],
                    "other": self.names[other.component],
                }
            )
        elif other.label != label:
            self.warnings.add(
                {
                    "where": where,
                    "kind": "needed_twice",
                    "vessel": vessel["name"],
                    "part": component["name"],
                    "vessel_kind": kind,
                }
            )


def _labels(component: Component) -> list[Id]:
    """The vessels a component's steps name, in the order of their first use."""
    return once(label for step in component["steps"] for label in steps.vessels_named(step))


def _portions(component: Component) -> dict[Id, _Portion]:
    portions: dict[Id, _Portion] = {}
    for step in component["steps"]:
        if divides(step):
            of = sum(portion["share"] for portion in step["portions"])
            for portion in step["portions"][:-1]:
                portions[portion["id"]] = _Portion(portion["name"], portion["share"], of, None)
            last = step["portions"][-1]
            portions[last["id"]] = _Portion(last["name"], of, of, step["from"])
    return portions
