"""Reads the table of substances, and the older list of fragrance allergens, once."""

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


@cache
def former_allergens() -> frozenset[str]:
    """The allergens of Annex III before Regulation (EU) 2023/1545, less two that are forbidden; from memory."""
    text = files(__package__).joinpath("former_allergens.json").read_text("utf-8")
    return frozenset(cast(list[str], json.loads(text)))
