"""What a name is called on a label of each market, and which allergens are one."""

import re

from bench.shapes.entries import Market
from bench.substances.on_label import OnLabel, on_label, plain

_NUMBER = re.compile(r"\bCI ?([0-9]{5})\b", re.IGNORECASE | re.ASCII)
_MIRROR = re.compile(r"^(?:\((?:[+-]|±|[RSrs])\)-?|(?:dl|[dlDL])-)+")


def allergen_name(written: str) -> str:
    """The name without what tells its mirror image: "d-Limonene" and "(R)-(+)-Limonene" are "Limonene"."""
    bare = _MIRROR.sub("", written.strip())
    return bare[:1].upper() + bare[1:]


def on_market(written: str, market: Market) -> tuple[str, OnLabel | None]:
    """A name as this market wants it, and what is known of it.

    "Iron Oxides (CI 77491)" is Iron Oxides in the US and CI 77491 in the EU. A lake is named after its dye.
    """
    number = _NUMBER.search(written)
    bare = plain(written)
    if number:
        found = on_label().get(f"ci {number[1]}")
        return (found["us"] if market == "us" and found else f"CI {number[1]}"), found
    found = on_label().get(bare)
    if found:
        return found["us" if market == "us" else "eu"], found
    dye = on_label().get(bare.removesuffix(" lake")) if bare.endswith(" lake") else None
    if dye and dye.get("colour"):
        return (f"{dye['us']} Lake" if market == "us" else dye["eu"]), dye
    return written, None


def is_number(written: str) -> bool:
    """Whether it is named by a Colour Index number."""
    return bool(_NUMBER.search(written))
