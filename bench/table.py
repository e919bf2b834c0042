"""Reads the tables that stand beside the code as JSON: the one door to them."""

import json
from importlib.resources import files


def read_table(name: str) -> object:
    """name: within bench, "checks/rules.json"."""
    return json.loads(files("bench").joinpath(name).read_text("utf-8"))
