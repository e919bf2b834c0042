"""What a vessel and its scale still take, and what the lines of a part come to in the end.

The sheet's vessel and scale are a proposal: what counts is what the state says of them (`took`, `placed`).
All of a part ends up in its bowl and is divided from there; a jug takes what is weighed into it.
`frontend/bench/capacity.js` is the same.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from bench.brief import joined
from bench.journal import division_of
from bench.shapes.kit import Scale, Vessel
from bench.shapes.sheet import Sheet, SheetLine
from bench.shapes.state import LineState, State, VesselState
from bench.shapes.units import Mg, Ppm
from bench.states import ASSEMBLY
from bench.steps import divides
from bench.weighing import allowed_mg
from bench.whole import PPM, half_even, mass
from bench.words import say


class WeighedLine(NamedTuple):
    """A line that has a mass: the sheet's, where it stands, and the mass that it should come to by now."""

    line: SheetLine
    mg: Mg
    told: LineState
    target: Mg

    @property
    def id(self) -> str:
        return self.line["id"]

    @property
    def name(self) -> str:
        return self.line["name"]

    @property
    def in_mg(self) -> Mg:
        return self.told["in_mg"]


class Excess(NamedTuple):
    """That a vessel, or the scale beneath it, does not take what is to go in."""

    says: str
    fits_another: bool  # whether another vessel or scale of the kit would take it


def as_weighed(line: SheetLine, state: State) -> WeighedLine | None:
    """None for a line without a mass."""
    told = state["lines"][line["id"]]
    if line["mg"] is None or told["target_mg"] is None:
        return None
    return WeighedLine(line, line["mg"], told, told["target_mg"])


def weighed_lines(sheet: Sheet, state: State, component: str, number: int) -> list[WeighedLine]:
    """The lines of one round that have a mass and are weighed in a step."""
    lines = (
        as_weighed(line, state)
        for line in sheet["lines"]
        if line["component"] == component and line["round"] == number
    )
    return [line for line in lines if line]


def coming(lines: Iterable[WeighedLine]) -> dict[str, Mg]:
    """What each line comes to in the end, in mg, as things stand: its target while it is still to come, else
    what went in."""
    return {
        each.id: each.target if each.told["status"] in ("open", "short") else each.in_mg for each in lines
    }


def carried(
    sheet: Sheet, lines: Iterable[WeighedLine], num: int, den: int, kept: list[str]
) -> tuple[dict[str, Mg], list[str]]:
    """What each line comes to once its round is made num / den of the sheet's, and which of them would then be
    too much: they are in already. kept: lines that stay as they are."""
    ends: dict[str, Mg] = {}
    over: list[str] = []
    for each in lines:
        target = half_even(each.mg * num, den)
        off = allowed_mg(each.line, division_of(sheet, each.told["scale"]), num, den)
        too_much = each.in_mg - target > off
        stays = each.id in kept or each.told["status"] == "left_out"
        ends[each.id] = each.in_mg if stays or too_much else target
        over += [each.id] if too_much and not stays else []
    return ends, over


def loads(sheet: Sheet, component: str, number: int, ends: Mapping[str, Mg]) -> dict[str, Mg]:
    """What each vessel of a round holds at its fullest, in mg, when its lines come to this much."""
    portions = {portion["vessel"] for step in sheet["steps"] if divides(step) for portion in step["portions"]}
    held: dict[str, Mg] = {}
    for line in sheet["lines"]:
        if line["vessel"] is not None and line["id"] in ends:
            held[line["vessel"]] = held.get(line["vessel"], 0) + ends[line["id"]]
    bowl = f"{component}.{number}.bowl"
    if component != ASSEMBLY and any(vessel["id"] == bowl for vessel in sheet["vessels"]):
        held[bowl] = sum(ends.values())
    return {vessel: mg for vessel, mg in held.items() if vessel not in portions}


def too_full(sheet: Sheet, state: State, held: Mapping[str, Mg]) -> Excess | None:
    """The first vessel that does not take this, or whose scale does not; None where all fits. held: by vessel."""
    for key, mg in held.items():
        vessel = state["vessels"][key]
        says = _passed(sheet, vessel, vessel["scale"], mg)
        if not says:
            continue
        for another, scale in _alternatives(sheet, vessel, mg):
            if not _passed(sheet, another or vessel, scale["id"], mg):
                take = say("capacity-take", vessel=another["name"]) if another else ""
                weigh = (
                    say("capacity-weigh-on", scale=scale["name"]) if scale["id"] != vessel["scale"] else ""
                )
                return Excess(joined(says, take, weigh), True)
        return Excess(says, False)
    return None


def _alternatives(sheet: Sheet, vessel: VesselState, mg: Mg) -> Iterator[tuple[Vessel | None, Scale]]:
    """Each vessel of its kind that holds this much on each scale, the smallest first; None is the vessel itself."""
    kit = sheet["kit"]
    kind = next((each["kind"] for each in kit["vessels"] if each["id"] == vessel["kit"]), None)
    others = (
        each
        for each in kit["vessels"]
        if each["id"] != vessel["kit"] and kind in (None, each["kind"]) and each["holds_mg"] >= mg
    )
    for another in (None, *sorted(others, key=_size)):
        for scale in kit["scales"]:
            yield another, scale


def _size(vessel: Vessel) -> tuple[Mg, str]:
    return vessel["holds_mg"], vessel["id"]


def _passed(sheet: Sheet, vessel: VesselState | Vessel, on: str | None, mg: Mg) -> str:
    """What is passed when this much is in a vessel on this scale; "" when nothing is."""
    if vessel["holds_mg"] is not None and mg > vessel["holds_mg"]:
        holds = mass(vessel["holds_mg"], 1000)
        return say("capacity-holds", mass=mass(mg, 1000), vessel=vessel["name"], most=holds)
    scale = next((each for each in sheet["kit"]["scales"] if each["id"] == on), None)
    if scale and vessel["empty_mg"] + mg > scale["capacity_mg"]:
        whole = mass(vessel["empty_mg"] + mg, 1000)
        most = mass(scale["capacity_mg"], 1000)
        return say("capacity-weighs", mass=whole, vessel=vessel["name"], scale=scale["name"], most=most)
    return ""


def shares(
    sheet: Sheet, state: State, ends: Mapping[str, Mg], ingredient: str, component: str
) -> tuple[Ppm, Ppm]:
    """An ingredient's share of a part and of the finished piece, in ppm, when the lines come to this much.

    ends: of the rounds that it does not name, what the state says holds.
    """
    of_part = of_piece = whole = 0
    for part in sheet["components"]:
        mine = all_of = 0
        for each in part["rounds"]:
            lines = weighed_lines(sheet, state, part["id"], each["round"])
            masses = {**coming(lines), **ends}
            all_of += sum(masses[line.id] for line in lines)
            mine += sum(masses[line.id] for line in lines if line.line["ingredient"] == ingredient)
        share = half_even(mine * PPM, all_of) if all_of else 0
        of_part = share if part["id"] == component else of_part
        weight = part["takes"] * part["piece_mg"]
        of_piece += share * weight
        whole += weight
    return of_part, half_even(of_piece, whole) if whole else of_part
