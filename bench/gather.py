"""Gathering: everything a sheet needs before the first weighing, and what is short or past its date.

`frontend/bench/gather.js` is the same, for a phone with no network.
"""

from typing import Any

from bench.lots import is_past, pick
from bench.shelf import card_for, left_of

Json = Any  # until its shape is named

# What to wear or lay ready, by how a caution of bench/cautions.py begins (common practice; the
# supplier's safety sheet rules).
PROTECTION: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Melted soap", ("Heatproof gloves", "Long sleeves", "Cold water near")),
    ("Hot butter or oil", ("Heatproof gloves", "Lid for the pan")),
    ("Fine powder", ("Dust mask", "Eye protection")),
    ("Alcohol vapour", ("Window open", "Heaters and flames off")),
    ("Wet hands", ("Dry towel",)),
    ("Microwaved liquid", ("Heatproof gloves",)),
    ("Spilt oil", ("Floor cloth",)),
)


def gather(
    recipe: Json, sheet: Json, state: Json, shelf: Json, uses: Json, on: str, past_too: bool = False
) -> Json:
    """What to lay out for a run, and what of it is there.

    recipe: the measured one. shelf: `fold_shelf`. uses: {lot: [{"mg", "count", "at"}]}, what all other runs took of each lot.
    on: the maker's day, "2027-03-31".

    {"ingredients": [{"ingredient", "name", "mg", "division_mg", "count", "shelf": the shelf's ingredient or None,
       "lots": [{"lot", "number", "best_before", "left", "take", "past", "gathered"}],
       "short": mg or pieces, "passed_over": [lot ids past their date], "by_hand"}],
     "things": [{"thing", "kind", "name", "ticked"}], "cautions": [text], "open": how many are left}
    by_hand: its amount is judged or spooned, so a lot is named with nothing to take, and none can be short of it.
    """
    ticked = state["ticked"]
    things = [{**thing, "ticked": thing["thing"] in ticked} for thing in things_for(recipe, sheet)]
    ingredients = [
        _ingredient(each, sheet, state, shelf, uses, on, past_too) for each in sheet["ingredients"]
    ]
    still = [each for each in ingredients if not any(lot["gathered"] for lot in each["lots"])]
    return {
        "ingredients": ingredients,
        "things": things,
        "cautions": _cautions(sheet),
        "open": len(still) + len([thing for thing in things if not thing["ticked"]]),
    }


def _ingredient(
    need: Json, sheet: Json, state: Json, shelf: Json, uses: Json, on: str, past_too: bool
) -> Json:
    key = card_for(shelf, need["name"])
    counted = sum(
        line["count"] or 0
        for line in sheet["lines"]
        if line["ingredient"] == need["id"] and line["unit"] == "pieces"
    )
    wanted = need["mg"] or counted
    measure = "mg" if need["mg"] else "count"
    lots = {
        lot_id: {**lot, "left": left_of(lot, uses.get(lot_id, []))}
        for lot_id, lot in shelf["lots"].items()
        if key is not None and lot["ingredient"] == key and (not wanted or lot[measure] is not None)
    }
    chosen = pick(
        wanted or 1,  # of what goes by hand, the lot whose turn it is
        [
            {"lot": lot_id, **{field: lot[field] for field in ("left", "best_before", "received_on")}}
            for lot_id, lot in lots.items()
        ],
        on,
        past_too,
    )
    rows = [
        {
            "lot": each["lot"],
            **{field: lots[each["lot"]][field] for field in ("number", "best_before", "left")},
            "take": each["take"] if wanted else 0,
            "past": each["past"],
            "gathered": False,
        }
        for each in chosen["picked"]
    ]
    for each in state["gathered"]:
        if each["ingredient"] != need["id"]:
            continue
        row = next((row for row in rows if row["lot"] == each["lot"]), None)
        if row is None:
            lot = shelf["lots"].get(each["lot"])
            row = {
                "lot": each["lot"],
                "number": lot["number"] if lot else None,
                "best_before": lot["best_before"] if lot else None,
                "left": left_of(lot, uses.get(each["lot"], [])) if lot else None,
                "take": each["mg"] if each["mg"] is not None else each["count"] or 0,
                "past": bool(lot) and is_past(lot["best_before"], on),
            }
            rows.append(row)
        row["gathered"] = True
    return {
        "ingredient": need["id"],
        "name": need["name"],
        "mg": need["mg"],
        "division_mg": _division(need, sheet),
        "count": counted,
        "shelf": key,
        "lots": rows,
        "short": chosen["short"] if wanted else 0,
        "passed_over": chosen["passed_over"],
        "by_hand": not wanted,
    }


def _division(need: Json, sheet: Json) -> int:
    """The finest division that an ingredient is weighed at, in mg: finer than that nobody can lay out."""
    lines = [line for line in sheet["lines"] if line["ingredient"] == need["id"]]
    return min((line["division_mg"] for line in lines if line["division_mg"]), default=1)


def things_for(recipe: Json, sheet: Json) -> list[Json]:
    """Scales, vessels, moulds, heaters, tools and protection, each once: [{"thing", "kind", "name"}]."""
    kit = sheet["kit"]
    lines, steps = sheet["lines"], sheet["steps"]
    scales = {each["scale"] for each in [*lines, *sheet["vessels"]]}
    heaters = {step["heater"] for step in steps if step["kind"] == "melt"}
    shapes = {each["mould"]["shape"] for each in recipe["components"] if each["mould"]}
    splits = [step["portions"] for step in steps if step["kind"] == "split"]
    portions = {portion["vessel"] for each in splits for portion in each}
    stay = {each[-1]["vessel"] for each in splits}  # the last portion stays in its bowl
    found: list[tuple[str, str]] = []
    found += [("scale", each["name"]) for each in kit["scales"] if each["id"] in scales]
    found += [("vessel", each["name"]) for each in sheet["vessels"] if each["id"] not in portions]
    found += [
        ("vessel", f"For {each['name']}")
        for each in sheet["vessels"]
        if each["id"] in portions and each["id"] not in stay
    ]
    found += [("vessel", "Small cup")] if any(line["cup"] for line in lines) else []
    found += [("mould", each["name"]) for each in kit["moulds"] if each["shape"] in shapes]
    found += [("heater", each["name"]) for each in kit["heaters"] if each["name"] in heaters]
    found += [("tool", tool) for step in steps for tool in step["tools"]]
    for caution in _cautions(sheet):
        for begins, worn in PROTECTION:
            if caution.startswith(begins):
                found += [("protection", each) for each in worn]
    worn_too = {slug(name) for kind, name in found if kind == "protection"}
    things: dict[str, Json] = {}
    for kind, name in found:
        if kind == "tool" and slug(name) in worn_too:
            continue  # it is laid out once, with what is worn
        key = f"{kind}.{slug(name)}"
        things.setdefault(key, {"thing": key, "kind": kind, "name": name})
    return list(things.values())


def slug(name: str) -> str:
    """A name as part of an entry's key: small letters and digits stay, other ASCII is "_", and what
    is beyond ASCII is its code point."""
    made = ""
    for each in name:
        if each.isascii():
            made += each.lower() if each.isalnum() else "_"
        else:
            made += f"{ord(each):x}"
    return made[:100]


def _cautions(sheet: Json) -> list[str]:
    """The sheet's cautions in the order in which they come up, each once."""
    told: dict[str, None] = {}
    for step in sheet["steps"]:
        ways = [caution for way in step["ways"] for caution in way["cautions"]]
        told.update(dict.fromkeys([*step["cautions"], *ways]))
    return list(told)
