"""The kit: the maker's own scales, vessels, moulds, heaters and mixers, read into whole numbers."""

from typing import Any

from bench.errors import KitError
from bench.quantities import read_mass_mg
from bench.recipe_schema import ID, closed, listed, text
from bench.schema_words import say_what_is_wrong

Json = Any  # until its shape is named

KIT_FORMAT = "bowlside-kit/1"
_AMOUNT = text(40)
_NAME = text(80)

KIT_SCHEMA: Json = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Bowlside kit",
    "description": "What stands on one maker's bench.",
    **closed(
        ["format", "scales"],
        {
            "format": {"const": KIT_FORMAT},
            "scales": listed(
                closed(
                    ["id", "name", "capacity", "division"],
                    {"id": ID, "name": _NAME, "capacity": _AMOUNT, "division": _AMOUNT},
                ),
                20,
            ),
            "vessels": listed(
                closed(
                    ["id", "name", "kind", "empty", "holds"],
                    {"id": ID, "name": _NAME, "kind": ID, "empty": _AMOUNT, "holds": _AMOUNT},
                ),
                100,
            ),
            "moulds": listed(
                closed(
                    ["id", "name", "shape", "cavities"],
                    {
                        "id": ID,
                        "name": _NAME,
                        "shape": text(60),
                        "cavities": {"type": "integer", "minimum": 1, "maximum": 1000},
                        "sets": {"type": "integer", "minimum": 1, "maximum": 100},
                        "cavity": _AMOUNT,
                    },
                ),
                100,
            ),
            "heaters": listed(
                closed(
                    ["id", "name", "kind"],
                    {
                        "id": ID,
                        "name": _NAME,
                        "kind": text(60),
                        "absorbed_w": {"type": "integer", "minimum": 1, "maximum": 20_000},
                    },
                ),
                20,
            ),
            "mixers": listed(closed(["id", "name"], {"id": ID, "name": _NAME}), 20),
        },
    ),
}


def read_kit(document: Any) -> Json:
    """The measured kit: masses in whole mg. KitError or AmountError names the field at fault."""
    fault = say_what_is_wrong(document, KIT_SCHEMA)
    if fault:
        raise KitError(*fault)
    for group in ("scales", "vessels", "moulds", "heaters", "mixers"):
        seen: set[str] = set()
        for index, each in enumerate(document.get(group, [])):
            if each["id"] in seen:
                raise KitError(f"{group}.{index}.id", f"“{each['id']}” is used twice. Give each its own id.")
            seen.add(each["id"])
    return {
        "format": KIT_FORMAT,
        "scales": [_scale(scale, f"scales.{index}") for index, scale in enumerate(document["scales"])],
        "vessels": [
            {
                "id": vessel["id"],
                "name": vessel["name"],
                "kind": vessel["kind"],
                "empty_mg": read_mass_mg(vessel["empty"], f"vessels.{index}.empty"),
                "holds_mg": read_mass_mg(vessel["holds"], f"vessels.{index}.holds"),
            }
            for index, vessel in enumerate(document.get("vessels", []))
        ],
        "moulds": [
            {
                "id": mould["id"],
                "name": mould["name"],
                "shape": mould["shape"],
                "cavities": mould["cavities"],
                "sets": mould.get("sets", 1),
                "cavity_mg": read_mass_mg(mould["cavity"], f"moulds.{index}.cavity")
                if "cavity" in mould
                else None,
            }
            for index, mould in enumerate(document.get("moulds", []))
        ],
        "heaters": [
            {
                "id": heater["id"],
                "name": heater["name"],
                "kind": heater["kind"],
                "absorbed_w": heater.get("absorbed_w"),
            }
            for heater in document.get("heaters", [])
        ],
        "mixers": [{"id": mixer["id"], "name": mixer["name"]} for mixer in document.get("mixers", [])],
    }


def _scale(scale: Json, where: str) -> Json:
    capacity = read_mass_mg(scale["capacity"], f"{where}.capacity")
    division = read_mass_mg(scale["division"], f"{where}.division")
    if division < 1:
        raise KitError(
            f"{where}.division", "A division finer than 1 mg is past this bench. Write 0.001 g or more."
        )
    if capacity < 100 * division:
        raise KitError(
            f"{where}.capacity",
            "A scale shows at least a hundred of its divisions. Check capacity and division.",
        )
    return {"id": scale["id"], "name": scale["name"], "capacity_mg": capacity, "division_mg": division}
