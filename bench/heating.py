"""Melting in short bursts: how many to expect, and how long each.

The heat to bring a mass from one temperature, through its melting point, to another:
solid heat + latent heat + liquid heat. A heater's *absorbed* power is what reaches the melt,
less than the figure on its door. The estimate is a first guess, shown as planned bursts; the
maker's look after each burst rules.
"""

from bench.shapes.recipe import Heat
from bench.shapes.record import HeatWord
from bench.shapes.sheet import Burst, MeltStep, Sheet
from bench.shapes.units import Mg, MilliK, Ms
from bench.whole import ceiling

MOST_BURSTS = 60
MICROWAVES = ("microwave", "mikrowelle")  # as makers write it, in the languages there are


def in_bursts(kind: str) -> bool:
    """Whether a kind of heater heats in bursts, with rests: a microwave does; anything else heats on and is looked at."""
    return any(name in kind.lower() for name in MICROWAVES)


def heat_word(sheet: Sheet, step: MeltStep) -> HeatWord:
    """What one heating of a melt is called."""
    kinds = {heater["name"]: heater["kind"] for heater in sheet["kit"]["heaters"]}
    return "burst" if in_bursts(kinds.get(step["heater"], step["heater"])) else "heat"


def heat_uj(mg: Mg, heat: Heat, from_mk: MilliK, to_mk: MilliK) -> int:
    """Heat in µJ to take `mg` of an ingredient from one temperature to another (m°C)."""
    melts = heat["melts_mk"]
    solid_mk = max(0, min(melts, to_mk) - from_mk)
    liquid_mk = max(0, to_mk - max(melts, from_mk))
    latent = heat["latent_j_per_kg"] if from_mk < melts <= to_mk else 0
    per_kg = heat["solid_j_per_kg_k"] * solid_mk + heat["liquid_j_per_kg_k"] * liquid_mk + 1000 * latent
    return ceiling(mg * per_kg, 1000)


def burst_plan(total_uj: int, absorbed_w: int, burst_ms: Ms, last_ms: Ms, rest_ms: Ms) -> list[Burst]:
    """The bursts to expect.

    Full bursts until one shorter last one will do, and a rest before that last one. A melt that
    would need more than sixty is left unplanned: [].
    """
    need_ms = ceiling(total_uj, 1000 * absorbed_w)
    full = max(0, ceiling(need_ms - last_ms, burst_ms))
    if full + 1 > MOST_BURSTS:
        return []
    whole: Burst = {"ms": burst_ms, "rest_ms": 0}
    return [*[whole] * full, {"ms": last_ms, "rest_ms": rest_ms if full else 0}]
