"""Reads the table of substances, once."""

import json
from functools import cache
from importlib.resources import files
from typing import cast

from bench.shapes.substances import Substance


@cache
def table() -> tuple[Substance, ...]:
    """Every row of table.json, in its order."""
    text = files(__package__).joinpath("table.json").read_text("utf-8")
    return tuple(cast(list[Substance], json.loads(text)))
