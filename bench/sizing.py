"""In how many rounds a component is made: when a vessel, a mould set or a scale is too small for all of it at once,
and the sheet says why.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from bench.errors import KitError, SizeError
from bench.materials import unfit
from bench.shapes.kit import Kit, Vessel
from bench.shapes.recipe import Component
from bench.shapes.sheet import MouldsHold, RoundsReason, ScaleTakes, VesselTakes
from bench.shapes.units import Id, Mg
from bench.sheet_words import reason_words
from bench.steps import divides, puts_in
from bench.weighing import coarsest_first
from bench.whole import ceiling, mass
from bench.words import say, say_all
from bench.yields import make_mg

MOST_MG = 10**10  # ten tonnes: past any bench, and every number on the sheet stays exact
MOST_ROUNDS = 100  # more is not a day's work, and what rounds ask of one another grows with their square


def room_mg(kit: Kit, vessel: Vessel | None) -> int | None:
    """The most that fits this vessel and the best scale under it, in mg; None without a scale."""
    scales = kit["scales"]
    empty = vessel["empty_mg"] if vessel else 0
    rooms = [scale["capacity_mg"] - empty for scale in scales]
    by_scale = max(rooms) if rooms else None
    if vessel is None:
        return by_scale
    return vessel["holds_mg"] if by_scale is None else min(vessel["holds_mg"], by_scale)


def vessels_of(kit: Kit, kind: str) -> list[Vessel]:
    """The kit's vessels of one kind, smallest first."""
    return sorted((vessel for vessel in kit["vessels"] if vessel["kind"] == kind), key=smallness)


def smallness(vessel: Vessel) -> tuple[Mg, str]:
    return vessel["holds_mg"], vessel["id"]


def vessel_for(kit: Kit, kind: str, mg: Mg, besides: frozenset[Id] = frozenset()) -> Vessel | None:
    """The smallest vessel of the kind that takes this mass, else the roomiest; None when there is none.

    besides: vessels that are not to be had.
    """
    vessels = [vessel for vessel in vessels_of(kit, kind) if vessel["id"] not in besides]
    for vessel in vessels:
        room = room_mg(kit, vessel)
        if room is not None and room >= mg:
            return vessel

    def roominess(vessel: Vessel) -> tuple[Mg, str]:
        return room_mg(kit, vessel) or 0, vessel["id"]

    return max(vessels, key=roominess) if vessels else None


def cavities(kit: Kit, component: Component, is_held: bool | None = None) -> int | None:
    """How many pieces the matching moulds hold at once; None when nothing limits it.

    is_held: whether the piece stays in its mould until it is turned out, where that is not to be as the part says.
    """
    mould = component["mould"]
    if not mould:
        return None
    matching = [each for each in kit["moulds"] if each["shape"] == mould["shape"]]
    fitting = [
        each for each in matching if each["cavity_mg"] is None or each["cavity_mg"] >= component["piece_mg"]
    ]
    if matching and not fitting:
        holds = max(each["cavity_mg"] or 0 for each in matching)
        raise KitError(
            "moulds",
            say(
                "sizing-piece-too-big",
                name=component["name"],
                piece=mass(component["piece_mg"], 100),
                shape=mould["shape"],
                held=mass(holds, 100),
            ),
        )
    if not fitting or not (mould["held"] if is_held is None else is_held):
        return None
    return sum(each["cavities"] * each["sets"] for each in fitting)


@dataclass(frozen=True, slots=True)
class _Limit:
    """What one kind of vessel takes of a component at once: `part` of `whole` of it goes in."""

    label: Id
    kind: str
    part: int
    whole: int

    def load_mg(self, component: Component, pieces: int) -> Mg:
        return ceiling(make_mg(component, pieces) * self.part, self.whole)


def rounds(component: Component, kit: Kit, count: int) -> tuple[list[int], list[RoundsReason]]:
    """How many pieces in each round, as even as can be, and the reasons.

    SizeError when not even one piece fits, or when it is too much for any bench.
    """
    if make_mg(component, count) > MOST_MG:
        raise SizeError("pieces", say("sizing-too-heavy", name=component["name"]))
    why: list[RoundsReason] = []
    least = 1
    mould, held = component["mould"], cavities(kit, component)
    if mould and held is not None and count > held:
        least = ceiling(count, held)
        hold: MouldsHold = {"kind": "moulds", "shape": mould["shape"], "holds": held}
        why.append(hold)
    for limit in _limits(component):
        least, reason = _rounds_for(limit, component, kit, count, least)
        why += [reason] if reason else []
    if least > MOST_ROUNDS:
        raise SizeError(
            "pieces",
            say(
                "sizing-too-many-rounds",
                name=component["name"],
                count=count,
                most=MOST_ROUNDS,
                why=say_all([reason_words(each) for each in why]),
            ),
        )
    return spread(count, least), why


def _rounds_for(
    limit: _Limit, component: Component, kit: Kit, count: int, least: int
) -> tuple[int, RoundsReason | None]:
    """The fewest rounds, from `least` on, in which it fits the kit's vessels of a kind; and why there are more."""
    besides = unfit(kit, component, limit.label, limit.kind)
    roomiest = vessel_for(kit, limit.kind, limit.load_mg(component, count), besides)
    room = room_mg(kit, roomiest)
    # A jug or pan that the kit lacks limits nothing; the bowl is always limited by its scale.
    if room is None or (roomiest is None and limit.kind != component["vessel"]):
        return least, None
    if limit.load_mg(component, ceiling(count, least)) <= room:
        return least, None
    one = limit.load_mg(component, 1)
    if one > room:
        raise SizeError(
            "pieces",
            say(
                "sizing-one-too-big",
                name=component["name"],
                piece=mass(one, 1000),
                vessel=limit.kind,
                room=mass(max(0, room), 1000),
            ),
        )
    while least <= MOST_ROUNDS and limit.load_mg(component, ceiling(count, least)) > room:
        least += 1
    if roomiest:
        vessel: VesselTakes = {"kind": "vessel", "name": roomiest["name"], "mg": room}
        return least, vessel
    scale: ScaleTakes = {"kind": "scale", "name": coarsest_first(kit)[0]["name"], "mg": room}
    return least, scale


def _limits(component: Component) -> Iterator[_Limit]:
    """What each kind of vessel takes of the component; the bowl takes it all.

    Portions are weighed out of the bowl, and small cups are emptied line by line: neither limits.
    """
    grams_of = {line["id"]: line["ug"] or 0 for line in component["lines"]}
    portions = {portion["id"] for step in component["steps"] if divides(step) for portion in step["portions"]}
    parts: dict[str, int] = {}
    for step in component["steps"]:
        if puts_in(step) and step["into"] not in portions and step["into"] not in ("bowl", "cup"):
            parts[step["into"]] = parts.get(step["into"], 0) + sum(grams_of[key] for key in step["lines"])
    yield _Limit("bowl", component["vessel"], 1, 1)
    for kind, part in parts.items():
        if part:
            yield _Limit(kind, kind, part, sum(grams_of.values()))


def spread(count: int, over: int) -> list[int]:
    """`count` pieces over that many rounds, the fuller rounds first."""
    base, more = divmod(count, over)
    return [base + (1 if index < more else 0) for index in range(over)]
