"""How many examples: a few in `make test`, which is waited for, and all of them in `make chaos`."""

from __future__ import annotations

import os

IS_CHAOS = os.environ.get("BOWLSIDE_OFTEN") == "1"


def often(few: int, many: int) -> int:
    return many if IS_CHAOS else few
