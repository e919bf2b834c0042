"""Tables that both languages read stand once, in bench; a module of the page has a place for each, filled as it is sent.

const STATES = [];                           const STATES = ["melted_base","warm_fat"];
"""

from __future__ import annotations

import json
import re
from pathlib import Path

from bench import page_tables

PLACE = re.compile(r"^((?:export )?const (\w+) = )(?:\{\}|\[\]);$", re.MULTILINE)
PLAIN_KEY = re.compile(r'"([A-Za-z_]\w*)":')  # within a text a quote is escaped, so this stands in none


def put_in(file: Path, source: str) -> str:
    """A module's source with its tables in their places; ValueError: one has no place."""
    tables = dict(page_tables().get(f"{file.parent.name}/{file.name}", {}))

    def filled(place: re.Match[str]) -> str:
        if place[2] not in tables:
            return place[0]
        told = json.dumps(tables.pop(place[2]), separators=(",", ":"))
        return place[1] + PLAIN_KEY.sub(r"\1:", told) + ";"

    source = PLACE.sub(filled, source)
    if tables:
        raise ValueError(f"{file.name}: no place for {', '.join(tables)}")
    return source
