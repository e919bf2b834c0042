"""What the recipe check costs beside reading the same file."""

from __future__ import annotations

import json
import statistics
from typing import Any

import jsonschema

import bench
from tests.make import make_recipe
from tests.perf.bench_figures import KIT, ROUNDS, seconds
from tests.perf.registry import figure

AIR = {"temperature_c": 21.0, "humidity": 60.0}


@figure("check of a 60-line recipe / json.loads and schema validation of its file, time", "<= 3")
def check_against_reading() -> float:
    text = json.dumps(make_varied_recipe(60))
    measured = bench.read_recipe(json.loads(text))
    validator = jsonschema.Draft202012Validator(bench.RECIPE_SCHEMA)

    def read() -> Any:
        validator.validate(json.loads(text))

    def check() -> Any:
        bench.check_recipe(measured, AIR, KIT)

    read()
    return statistics.median(seconds(check) / seconds(read) for _ in range(ROUNDS * 3))


def make_varied_recipe(lines: int) -> dict[str, Any]:
    """So many lines of every kind of ingredient, so that every rule has something to look at."""
    document = make_recipe(lines=lines)
    kinds = bench.RECIPE_SCHEMA["properties"]["ingredients"]["additionalProperties"]["properties"]["kind"]
    component = document["components"][0]
    for number, line in enumerate(component["lines"]):
        key = f"thing_{number}"
        document["ingredients"][key] = {
            "name": key,
            "inci": key,
            "kind": kinds["enum"][number % len(kinds["enum"])],
        }
        line["ingredient"] = key
    return document
