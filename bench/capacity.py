"""What a vessel and its scale still take, and what the lines of a part come to in the end.

The sheet's vessel and scale are a proposal: what counts is what the state says of them (`took`, `placed`).
All of a part ends up in its bowl and is divided from there; a jug takes what is weighed into it.
`frontend/bench/capacity.js` is the same.
"""

from typing import Any

from bench.journal import division_of
from bench.states import ASSEMBLY
from bench.weighing import allowed_mg
from bench.whole import PPM, grams, half_even

Json = Any  # until its shape is named

_TO_COME = ("open", "short")


def weighed_lines(sheet: Json, component: str, number: int) -> list[Json]:
    """The lines of one round that have a mass and are weighed in a step."""
    return [
        line
        for line in sheet["lines"]
        if (line["component"], line["round"]) == (component, number) and line["mg"] is not None
    ]


def coming(sheet: Json, state: Json, component: str, number: int) -> dict[str, int]:
    """What each weighed line of a round comes to in the end, in mg, as things stand: its target while it is
    still to come, else what went in."""
    told = state["lines"]
    return {
        line["id"]: told[line["id"]]["target_mg" if told[line["id"]]["status"] in _TO_COME else "in_mg"]
        for line in weighed_lines(sheet, component, number)
    }


def carried(
    sheet: Json, state: Json, component: str, number: int, num: int, den: int, kept: list[str]
) -> tuple[dict[str, int], list[str]]:
    """What each line comes to once the round is made num / den of the sheet's, and which of them would then be
    too much: they are in already. kept: lines that stay as they are."""
    ends: dict[str, int] = {}
    over = []
    for line in weighed_lines(sheet, component, number):
        told = state["lines"][line["id"]]
        target = half_even(line["mg"] * num, den)
        too_much = told["in_mg"] - target > allowed_mg(line, division_of(sheet, told["scale"]), num, den)
        stays = line["id"] in kept or told["status"] == "left_out"
        ends[line["id"]] = told["in_mg"] if stays or too_much else target
        over += [line["id"]] if too_much and not stays else []
    return ends, over


def loads(sheet: Json, component: str, number: int, ends: dict[str, int]) -> dict[str, int]:
    """What each vessel of a round holds at its fullest, in mg, when its lines come to this much."""
    portions = {
        portion["vessel"]
        for step in sheet["steps"]
        if step["kind"] == "split"
        for portion in step["portions"]
    }
    held: dict[str, int] = {}
    for line in weighed_lines(sheet, component, number):
        if line["vessel"] is not None:
            held[line["vessel"]] = held.get(line["vessel"], 0) + ends[line["id"]]
    bowl = f"{component}.{number}.bowl"
    if component != ASSEMBLY and any(vessel["id"] == bowl for vessel in sheet["vessels"]):
        held[bowl] = sum(ends.values())
    return {vessel: mg for vessel, mg in held.items() if vessel not in portions}


def too_full(sheet: Json, state: Json, held: dict[str, int]) -> tuple[str, str, bool] | None:
    """The first vessel that does not take this, or whose scale does not: it, what to say, and whether another
    of the kit would; None where all fits. held: {vessel: mg}."""
    for key, mg in held.items():
        vessel = state["vessels"][key]
        says = _passed(sheet, vessel, mg)
        if not says:
            continue
        kit = sheet["kit"]
        kind = next((each["kind"] for each in kit["vessels"] if each["id"] == vessel["kit"]), None)
        larger = sorted(
            (
                each
                for each in kit["vessels"]
                if each["id"] != vessel["kit"] and kind in (None, each["kind"]) and each["holds_mg"] >= mg
            ),
            key=lambda each: (each["holds_mg"], each["id"]),
        )
        for each in [{**vessel, "id": None}, *larger]:
            for scale in kit["scales"]:
                if not _passed(sheet, {**vessel, **each, "scale": scale["id"]}, mg):
                    parts = [each["name"]] if each["id"] else []
                    parts += [scale["name"]] if scale["id"] != vessel["scale"] else []
                    return key, f"{says} Take {' on '.join(parts)}.", True
        return key, says, False
    return None


def _passed(sheet: Json, vessel: Json, mg: int) -> str:
    """What is passed when this much is in a vessel; "" when nothing is."""
    if vessel["holds_mg"] is not None and mg > vessel["holds_mg"]:
        return f"{grams(mg, 1000)} goes in, but {vessel['name']} holds {grams(vessel['holds_mg'], 1000)}."
    scale = next((each for each in sheet["kit"]["scales"] if each["id"] == vessel["scale"]), None)
    if scale and vessel["empty_mg"] + mg > scale["capacity_mg"]:
        whole = grams(vessel["empty_mg"] + mg, 1000)
        most = grams(scale["capacity_mg"], 1000)
        return f"{whole} with {vessel['name']}, but {scale['name']} weighs up to {most}."
    return ""


def shares(
    sheet: Json, state: Json, ends: dict[str, int], ingredient: str, component: str
) -> tuple[int, int]:
    """An ingredient's share of a part and of the finished piece, in ppm, when the lines come to this much.

    ends: of the rounds that it does not name, what the state says holds.
    """
    of_part = of_piece = whole = 0
    pieces = sheet["size"]["pieces"]
    for part in sheet["components"]:
        mine = all_of = 0
        for each in part["rounds"]:
            masses = coming(sheet, state, part["id"], each["round"])
            for line in weighed_lines(sheet, part["id"], each["round"]):
                mg = ends.get(line["id"], masses[line["id"]])
                all_of += mg
                mine += mg if line["ingredient"] == ingredient else 0
        share = half_even(mine * PPM, all_of) if all_of else 0
        of_part = share if part["id"] == component else of_part
        takes = (part["count"] - part["spares"]) // pieces if pieces else 0
        weight = takes * part["piece_mg"]
        of_piece += share * weight
        whole += weight
    return of_part, half_even(of_piece, whole) if whole else of_part
