"""How much of each component today's batch takes, and in how many rounds.

Each component is sized by what the assembly takes from it, not by one factor for the whole
recipe: make = ((pieces + spares) x mass a piece + what stays behind) / (1 - f). When a vessel,
a mould set or a scale is too small the component is made in rounds, and the sheet says why.
"""

from typing import Any

from bench.errors import KitError, SizeError
from bench.weighing import coarsest_first
from bench.whole import PPM, ceiling, grams, half_even

Json = Any  # until its shape is named

MOST_PIECES = 1000
MOST_MG = 10**10  # ten tonnes: past any bench, and every number on the sheet stays exact
MOST_ROUNDS = 100  # more is not a day's work, and what rounds ask of one another grows with their square


def make_mg(component: Json, count: int) -> int:
    """The mass to make, in mg, so that `count` pieces come of it."""
    return half_even(
        (count * component["piece_mg"] + component["stays_behind_mg"]) * PPM, PPM - component["loss_ppm"]
    )


def pieces_from(component: Json, mg: int) -> int:
    """How many whole pieces this mass of the component gives: `make_mg` turned round."""
    if component["piece_mg"] <= 0:
        return 0
    left = mg * (PPM - component["loss_ppm"]) // PPM - component["stays_behind_mg"]
    pieces: int = max(0, left // component["piece_mg"])
    # What `make_mg` rounded down for one more piece is still enough for it.
    return pieces + 1 if make_mg(component, pieces + 1) <= mg else pieces


def room_mg(kit: Json, vessel: Json | None) -> int | None:
    """The most that fits this vessel and the best scale under it, in mg; None without a scale."""
    scales = kit["scales"]
    empty = vessel["empty_mg"] if vessel else 0
    rooms = [scale["capacity_mg"] - empty for scale in scales]
    by_scale = max(rooms) if rooms else None
    if vessel is None:
        return by_scale
    holds: int = vessel["holds_mg"]
    return holds if by_scale is None else min(holds, by_scale)


def vessels_of(kit: Json, kind: str) -> list[Json]:
    """The kit's vessels of one kind, smallest first."""
    return sorted(
        (vessel for vessel in kit["vessels"] if vessel["kind"] == kind),
        key=lambda each: (each["holds_mg"], each["id"]),
    )


def vessel_for(kit: Json, kind: str, mg: int) -> Json | None:
    """The smallest vessel of the kind that takes this mass, else the roomiest; None when there is none."""
    vessels = vessels_of(kit, kind)
    for vessel in vessels:
        room = room_mg(kit, vessel)
        if room is not None and room >= mg:
            return vessel
    return max(vessels, key=lambda each: (room_mg(kit, each) or 0, each["id"])) if vessels else None


def cavities(kit: Json, component: Json) -> int | None:
    """How many pieces the matching moulds hold at once; None when nothing limits it."""
    mould = component["mould"]
    if not mould:
        return None
    matching = [each for each in kit["moulds"] if each["shape"] == mould["shape"]]
    fitting = [
        each for each in matching if each["cavity_mg"] is None or each["cavity_mg"] >= component["piece_mg"]
    ]
    if matching and not fitting:
        holds = max(each["cavity_mg"] for each in matching)
        raise KitError(
            "moulds",
            f"A piece of {component['name']} is {grams(component['piece_mg'], 100)}, but the largest "
            f"{mould['shape']} cavity holds {grams(holds, 100)}. Use a larger mould or a smaller piece.",
        )
    if not fitting or not mould["held"]:
        return None
    held: int = sum(each["cavities"] * each["sets"] for each in fitting)
    return held


def rounds(component: Json, kit: Json, count: int) -> tuple[list[int], list[str]]:
    """How many pieces in each round, as even as can be, and the reasons in words.

    SizeError when not even one piece fits, or when it is too much for any bench.
    """
    if make_mg(component, count) > MOST_MG:
        raise SizeError(
            "pieces", f"{component['name']} would come to more than ten tonnes. Make fewer pieces."
        )
    why: list[str] = []
    least = 1
    moulds = cavities(kit, component)
    if moulds is not None and count > moulds:
        least = ceiling(count, moulds)
        why.append(f"the {component['mould']['shape']} moulds hold {moulds} at once")
    for kind, part, whole in _going_in(component):

        def load(pieces: int, part: int = part, whole: int = whole) -> int:
            return ceiling(make_mg(component, pieces) * part, whole)

        roomiest = vessel_for(kit, kind, load(count))
        room = room_mg(kit, roomiest)
        # A jug or pan that the kit lacks limits nothing; the bowl is always limited by its scale.
        if (
            room is None
            or (roomiest is None and kind != component["vessel"])
            or load(ceiling(count, least)) <= room
        ):
            continue
        if load(1) > room:
            raise SizeError(
                "pieces",
                f"One piece of {component['name']} takes {grams(load(1), 1000)}, but the largest {kind} "
                f"on its scale takes {grams(max(0, room), 1000)}. Use a larger vessel or scale, or a smaller piece.",
            )
        while least <= MOST_ROUNDS and load(ceiling(count, least)) > room:
            least += 1
        name = roomiest["name"] if roomiest else f"scale {coarsest_first(kit)[0]['name']}"
        why.append(f"{name} takes {grams(room, 1000)} at once")
    if least > MOST_ROUNDS:
        raise SizeError(
            "pieces",
            f"{count} of {component['name']} would take more than {MOST_ROUNDS} rounds: {'; '.join(why)}. "
            "Make fewer pieces, or use larger moulds and vessels.",
        )
    return spread(count, least), why


def _going_in(component: Json) -> list[tuple[str, int, int]]:
    """What each kind of vessel takes of the component, as (kind, part, whole); the bowl takes it all.

    Portions are weighed out of the bowl, and small cups are emptied line by line: neither limits.
    """
    grams_of = {line["id"]: line["ug"] or 0 for line in component["lines"]}
    whole = sum(grams_of.values())
    portions = {
        portion["id"]
        for step in component["steps"]
        if step["kind"] == "split"
        for portion in step["portions"]
    }
    parts: dict[str, int] = {}
    for step in component["steps"]:
        if step["kind"] == "weigh" and step["into"] not in portions and step["into"] not in ("bowl", "cup"):
            parts[step["into"]] = parts.get(step["into"], 0) + sum(grams_of[key] for key in step["lines"])
    return [(component["vessel"], 1, 1), *((kind, part, whole) for kind, part in parts.items() if part)]


def spread(count: int, over: int) -> list[int]:
    """`count` pieces over that many rounds, the fuller rounds first."""
    base, more = divmod(count, over)
    return [base + (1 if index < more else 0) for index in range(over)]
