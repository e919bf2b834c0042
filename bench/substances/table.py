"""Reads the table of substances, and the older list of fragrance allergens, once."""

from typing import cast

from bench.lists import kept
from bench.shapes.substances import Substance
from bench.table import read_table


@kept
def table() -> tuple[Substance, ...]:
    """Every row of table.json, in its order."""
    return tuple(cast(list[Substance], read_table("substances/table.json")))


@kept
def former_allergens() -> frozenset[str]:
    """The allergens of Annex III before Regulation (EU) 2023/1545, less two that are forbidden; from memory."""
    return frozenset(cast(list[str], read_table("substances/former_allergens.json")))
