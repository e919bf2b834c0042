"""The recipe check: what a recipe's own numbers say before anything is weighed."""

from typing import Any

from bench.sizing import make_mg
from bench.whole import grams, per_cent

Json = dict[str, Any]

WIDE_PPM = 50_000  # written and needed masses further apart than this are worth a look: common practice


def check_recipe(recipe: Json) -> list[Json]:
    """Findings on a measured recipe, [{"level": "look" | "know", "where", "text"}]."""
    findings: list[Json] = []
    for component in recipe["components"]:
        written = sum(line["ug"] or 0 for line in component["lines"]) // 1000
        count = recipe["written_for"] * component["takes"] + component["spares"]
        needs = make_mg(component, count)
        if component["id"] != "assembly" and written and abs(written - needs) * 1_000_000 > needs * WIDE_PPM:
            findings.append(
                {
                    "level": "look",
                    "where": component["id"],
                    "text": f"The lines add up to {grams(written, 1000)}, but {count} pieces with what stays behind take "
                    f"{grams(needs, 1000)}, {per_cent(abs(written - needs), needs)} apart. The batch is sized by the pieces.",
                }
            )
        for line in component["lines"]:
            where = f"{component['id']}.{line['id']}"
            name = recipe["ingredients"][line["ingredient"]]["name"]
            if line["nl"] is not None:
                findings.append(
                    {
                        "level": "know",
                        "where": where,
                        "text": f"{name} has no density, so it is measured in spoons. Give a density, with its source, to weigh it.",
                    }
                )
            if line["unit"] == "drops":
                findings.append(
                    {
                        "level": "know",
                        "where": where,
                        "text": f"{name} is counted in drops, which differ from dropper to dropper.",
                    }
                )
    return findings
