"""How much is tried: a part in `make test`, which is waited for, and all of it in `make chaos`.

`often` says how many examples, `in_chaos` and `pytest.mark.thorough` which tests are left to `make chaos`.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from typing import Any

import pytest

IS_CHAOS = os.environ.get("BOWLSIDE_OFTEN") == "1"


def in_chaos(*values: object) -> Any:
    """A row of a test's parameters that is left to `make chaos`."""
    return pytest.param(*values, marks=pytest.mark.thorough)


EITHER_DATABASE = pytest.mark.database("sqlite", in_chaos("postgresql"))
BOTH_DATABASES = pytest.mark.database("sqlite", "postgresql")


def often(few: int, many: int) -> int:
    return many if IS_CHAOS else few


def for_now(
    items: Iterable[pytest.Item], *, all_of_them: bool = IS_CHAOS
) -> tuple[list[pytest.Item], list[pytest.Item]]:
    """The tests that run, and those that are left to `make chaos`."""
    parted: tuple[list[pytest.Item], list[pytest.Item]] = [], []
    for item in items:
        parted[not all_of_them and item.get_closest_marker("thorough") is not None].append(item)
    return parted
