"""split: what is in one vessel is divided into portions; the last of them stays where it is."""

from bench.errors import RecipeError
from bench.shapes.recipe import RecipeHead, RecipePortion, RecipeSplit, WrittenPortion, WrittenSplit
from bench.shapes.sheet import SplitStep, StepHead
from bench.states import MINUTE_MS
from bench.steps.kind import Around, Batch, Traits
from bench.words import say

USUAL_HANDS_MS = 3 * MINUTE_MS  # common practice
TRAITS = Traits(divides=True)


def read(written: WrittenSplit, head: RecipeHead, around: Around) -> RecipeSplit:
    divided = written.get("from", "bowl")
    portions = written["portions"]
    if any(portion["id"] == divided for portion in portions):
        raise RecipeError(f"{around.at}.portions", say("recipe-portion-is-whole", portion=divided))
    by_mass = ["mass" in portion for portion in portions]
    if any(by_mass) and not all(by_mass):
        raise RecipeError(f"{around.at}.portions", say("recipe-divided-two-ways"))
    return {
        **head,
        "kind": "split",
        "from": divided,
        "portions": [
            _portion(portion, f"{around.at}.portions.{index}", around)
            for index, portion in enumerate(portions)
        ],
    }


def _portion(written: WrittenPortion, where: str, around: Around) -> RecipePortion:
    share = around.mass_mg(written["mass"], f"{where}.mass") if "mass" in written else written.get("share", 1)
    return {"id": written["id"], "name": written["name"], "share": share}


def lay_out(step: RecipeSplit, head: StepHead, batch: Batch) -> SplitStep:
    return {
        **head,
        "kind": "split",
        "vessel": f"{batch.prefix}.{step['from']}",
        "portions": [
            {
                "vessel": f"{batch.prefix}.{portion['id']}",
                "name": portion["name"],
                "share": portion["share"],
            }
            for portion in step["portions"]
        ],
    }
