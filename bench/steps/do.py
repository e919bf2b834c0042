"""do: a hand does something; it may tip one vessel into another."""

from bench.errors import RecipeError
from bench.quantities import read_duration_ms
from bench.shapes.recipe import RecipeDo, RecipeHead, WrittenDo
from bench.shapes.sheet import DoStep, StepHead
from bench.states import MINUTE_MS
from bench.steps.kind import Around, Batch, Traits
from bench.words import say

USUAL_HANDS_MS = 3 * MINUTE_MS  # common practice
TRAITS = Traits(by_hand=True)


def read(written: WrittenDo, head: RecipeHead, around: Around) -> RecipeDo:
    into = written.get("into", "bowl")
    tips = written.get("tips", [])
    if into in tips:
        raise RecipeError(f"{around.at}.tips", say("recipe-tipped-into-itself", vessel=into))
    return {
        **head,
        "kind": "do",
        "about_ms": read_duration_ms(written["about"], f"{around.at}.about") if "about" in written else None,
        "of": around.known_lines(written.get("of", []), "of"),
        "tips": tips,
        "into": into,
    }


def lay_out(step: RecipeDo, head: StepHead, batch: Batch) -> DoStep:
    return {
        **head,
        "kind": "do",
        "about_ms": step["about_ms"],
        "mg": sum(batch.masses[key] for key in batch.chosen(step["of"])) or None,
        "tips": [f"{batch.prefix}.{label}" for label in step["tips"]],
        "into": f"{batch.prefix}.{step['into']}",
    }
