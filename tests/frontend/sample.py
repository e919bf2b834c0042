"""Writes frontend/sample.json, the sheet that is made for practice, from the recipe and kit in demo/sample.json.

    python -m tests.frontend.sample

Its waits are short: an hour of the recipe is a minute of the sheet's, and so the page says. Nothing else differs.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import bench

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "demo" / "sample.json"
SAMPLE = "sample.json"
SHORTER = 60
WAIT = ("earliest_ms", "usual_ms", "latest_ms")


def sample_text() -> str:
    """The sheet as the page is sent it."""
    return json.dumps(make_sample(), ensure_ascii=False, separators=(",", ":")) + "\n"


def make_sample() -> dict[str, Any]:
    given = json.loads(SOURCE.read_text("utf-8"))
    recipe, kit = bench.read_recipe(given["recipe"]), bench.read_kit(given["kit"])
    for part in recipe["components"]:
        part["steps"] = [shortened(step) for step in part["steps"]]
    request = {"by": "pieces", "pieces": recipe["written_for"]}
    return bench.make_sheet(
        recipe, {"id": "practice", "version": 1}, bench.choose_size(recipe, kit, request)["size"], kit
    )


def shortened(step: dict[str, Any]) -> dict[str, Any]:
    if step["kind"] != "wait":
        return step
    return {**step, **{key: step[key] // SHORTER for key in WAIT if step[key] is not None}}


if __name__ == "__main__":
    (ROOT / "frontend" / SAMPLE).write_text(sample_text(), "utf-8")
