"""weigh: lines go into a vessel by weight, by count or by the spoon."""

from bench.cautions import by_code
from bench.lists import once
from bench.shapes.recipe import RecipeHead, RecipeWeigh, WrittenWeigh
from bench.shapes.sheet import StepHead, WeighStep
from bench.shapes.units import Ms
from bench.states import MINUTE_MS
from bench.steps.kind import Around, Batch, Traits

# Common practice, both: to set up, and for each line.
SETTING_UP_MS, LINE_MS = MINUTE_MS, MINUTE_MS
TRAITS = Traits(puts_in=True)


def read(written: WrittenWeigh, head: RecipeHead, around: Around) -> RecipeWeigh:
    lines = around.known_lines(written["lines"], "lines")
    return {**head, "kind": "weigh", "lines": lines, "into": written.get("into", "bowl")}


def lay_out(step: RecipeWeigh, head: StepHead, batch: Batch) -> WeighStep:
    keys = batch.chosen(step["lines"])
    ingredients = [batch.ingredients[key] for key in keys]
    more = [by_code(each) for each in {id(each): each for each in ingredients}.values()]
    return {
        **head,
        "kind": "weigh",
        "hazards": once([*head["hazards"], *(hazard for each in more for hazard in each["hazards"])]),
        "cautions": once([*head["cautions"], *(caution for each in more for caution in each["cautions"])]),
        "lines": [f"{batch.prefix}.{key}" for key in keys],
        "vessel": f"{batch.prefix}.{step['into']}",
    }


def usual_hands_ms(step: WeighStep) -> Ms:
    return SETTING_UP_MS + LINE_MS * len(step["lines"])
