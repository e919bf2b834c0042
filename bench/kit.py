"""The kit: the maker's own scales, vessels, moulds, heaters and mixers, read into whole numbers."""

from collections.abc import Sequence
from typing import cast

from bench.errors import KitError
from bench.quantities import read_division, read_mass_mg
from bench.schema_words import say_what_is_wrong
from bench.shapes.kit import (
    Heater,
    Kit,
    Mould,
    Scale,
    Vessel,
    WrittenHeater,
    WrittenKit,
    WrittenMixer,
    WrittenMould,
    WrittenScale,
    WrittenVessel,
)
from bench.shapes.schema import schema_of
from bench.shapes.units import JsonObject
from bench.words import say

KIT_SCHEMA: JsonObject = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "Bowlside kit",
    "description": "What stands on one maker's bench.",
    **schema_of(WrittenKit),
}

MEASURED_SCHEMA: JsonObject = schema_of(Kit)


def as_measured(document: object) -> Kit:
    """A kit that is measured already, as a device made its sheet from it. KitError names the field at fault."""
    fault = say_what_is_wrong(document, MEASURED_SCHEMA)
    if fault:
        raise KitError(*fault)
    return cast(Kit, document)  # the schema says so


def read_kit(document: object) -> Kit:
    """The measured kit: masses in whole mg. KitError or AmountError names the field at fault."""
    fault = say_what_is_wrong(document, KIT_SCHEMA)
    if fault:
        raise KitError(*fault)
    written = cast(WrittenKit, document)  # the schema says so
    vessels, moulds = written.get("vessels", []), written.get("moulds", [])
    heaters, mixers = written.get("heaters", []), written.get("mixers", [])
    _unique("scales", written["scales"])
    _unique("vessels", vessels)
    _unique("moulds", moulds)
    _unique("heaters", heaters)
    _unique("mixers", mixers)
    return {
        "format": "bowlside-kit/1",
        "scales": [_scale(scale, f"scales.{index}") for index, scale in enumerate(written["scales"])],
        "vessels": [_vessel(vessel, f"vessels.{index}") for index, vessel in enumerate(vessels)],
        "moulds": [_mould(mould, f"moulds.{index}") for index, mould in enumerate(moulds)],
        "heaters": [_heater(heater) for heater in heaters],
        "mixers": [{"id": mixer["id"], "name": mixer["name"]} for mixer in mixers],
    }


def _unique(
    group: str, things: Sequence[WrittenScale | WrittenVessel | WrittenMould | WrittenHeater | WrittenMixer]
) -> None:
    seen: set[str] = set()
    for index, each in enumerate(things):
        if each["id"] in seen:
            raise KitError(f"{group}.{index}.id", say("schema-used-twice", kind="thing", id=each["id"]))
        seen.add(each["id"])


def _scale(scale: WrittenScale, where: str) -> Scale:
    capacity = read_mass_mg(scale["capacity"], f"{where}.capacity")
    division = read_division(scale["division"], f"{where}.division")
    if division.mg < 1:
        raise KitError(f"{where}.division", say("kit-division-too-fine"))
    if capacity < 100 * division.mg:
        raise KitError(
            f"{where}.capacity",
            say("kit-capacity-too-small"),
        )
    read: Scale = {
        "id": scale["id"],
        "name": scale["name"],
        "capacity_mg": capacity,
        "division_mg": division.mg,
    }
    if division.uoz is not None:
        read["division_uoz"] = division.uoz
    if "test_weight" in scale:
        read["test_mg"] = read_mass_mg(scale["test_weight"], f"{where}.test_weight")
    return read


def _vessel(vessel: WrittenVessel, where: str) -> Vessel:
    read: Vessel = {
        "id": vessel["id"],
        "name": vessel["name"],
        "kind": vessel["kind"],
        "empty_mg": read_mass_mg(vessel["empty"], f"{where}.empty"),
        "holds_mg": read_mass_mg(vessel["holds"], f"{where}.holds"),
    }
    if "material" in vessel:
        read["material"] = vessel["material"]
    return read


def _mould(mould: WrittenMould, where: str) -> Mould:
    return {
        "id": mould["id"],
        "name": mould["name"],
        "shape": mould["shape"],
        "cavities": mould["cavities"],
        "sets": mould.get("sets", 1),
        "cavity_mg": read_mass_mg(mould["cavity"], f"{where}.cavity") if "cavity" in mould else None,
    }


def _heater(heater: WrittenHeater) -> Heater:
    return {
        "id": heater["id"],
        "name": heater["name"],
        "kind": heater["kind"],
        "absorbed_w": heater.get("absorbed_w"),
    }
