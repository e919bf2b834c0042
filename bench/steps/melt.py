"""melt: lines are melted in short bursts, with a look after each."""

from bench.heating import burst_plan, heat_uj, in_bursts
from bench.lists import once
from bench.quantities import read_celsius_mk, read_duration_ms
from bench.shapes.kit import Heater
from bench.shapes.recipe import Component, RecipeHead, RecipeMelt, WrittenMelt
from bench.shapes.sheet import Burst, MeltStep, StepHead
from bench.shapes.units import Id, Ms
from bench.states import MINUTE_MS
from bench.steps.kind import Around, Batch, Traits

# Common practice, both: a melt with no plan of bursts; a stir and a look after a burst.
USUAL_HANDS_MS, LOOK_MS = 5 * MINUTE_MS, 30_000
TRAITS = Traits(heats=True, ends_by_look=True)


def read(written: WrittenMelt, head: RecipeHead, around: Around) -> RecipeMelt:
    at = around.at
    lines = around.known_lines(written["of"], "of")
    burst = read_duration_ms(written["burst"], f"{at}.burst")
    return {
        **head,
        "kind": "melt",
        "of": lines,
        "heater": written["heater"],
        "burst_ms": burst,
        "last_burst_ms": read_duration_ms(written["last_burst"], f"{at}.last_burst")
        if "last_burst" in written
        else burst,
        "rest_ms": read_duration_ms(written["rest"], f"{at}.rest") if "rest" in written else 0,
        "from_mk": read_celsius_mk(written["from_c"], f"{at}.from_c") if "from_c" in written else None,
        "to_mk": read_celsius_mk(written["to_c"], f"{at}.to_c") if "to_c" in written else None,
        "look_for": written["look_for"],
    }


def lay_out(step: RecipeMelt, head: StepHead, batch: Batch) -> MeltStep:
    heater = next((each for each in batch.heaters if each["kind"] == step["heater"]), None)
    rest_ms = step["rest_ms"] if in_bursts(step["heater"]) else 0
    bursts = _planned(step, heater, rest_ms, batch)
    return {
        **head,
        "kind": "melt",
        "mg": sum(batch.masses[key] for key in batch.chosen(step["of"])),
        "vessels": [f"{batch.prefix}.{label}" for label in heated_in(step, batch.component)],
        "heater": heater["name"] if heater else step["heater"],
        "bursts": bursts,
        "more": {"ms": step["last_burst_ms"], "rest_ms": rest_ms}
        if bursts
        else {"ms": step["burst_ms"], "rest_ms": 0},
        "to_mk": step["to_mk"],
        "look_for": step["look_for"],
    }


def heated_in(step: RecipeMelt, component: Component) -> list[Id]:
    """The vessels, by label, that what is melted was weighed into."""
    return once(
        other["into"]
        for other in component["steps"]
        if other["kind"] == "weigh" and set(other["lines"]) & set(step["of"])
    )


def _planned(step: RecipeMelt, heater: Heater | None, rest_ms: Ms, batch: Batch) -> list[Burst]:
    """The bursts to expect, [] when the recipe or the kit does not give what an estimate needs."""
    absorbed = heater["absorbed_w"] if heater else None
    if not absorbed or step["from_mk"] is None or step["to_mk"] is None:
        return []
    keys = batch.chosen(step["of"])
    total_uj = 0
    for key in keys:
        heat = batch.ingredients[key]["heat"]
        if heat is None:
            return []
        total_uj += heat_uj(batch.masses[key], heat, step["from_mk"], step["to_mk"])
    if not any(batch.masses[key] for key in keys):
        return []
    return burst_plan(total_uj, absorbed, step["burst_ms"], step["last_burst_ms"], rest_ms)


def planned_ms(step: MeltStep) -> Ms:
    """How long its bursts take, with a stir and a look after each."""
    return sum(burst["ms"] + burst["rest_ms"] + LOOK_MS for burst in step["bursts"])
