"""Makes things for tests: ids, entries and runs, with what does not matter filled in."""

from __future__ import annotations

import itertools
import uuid
from typing import Any

_count = itertools.count(1)


def uuid4() -> str:
    return str(uuid.uuid4())


def uuid7(ms: int = 1_800_000_000_000) -> str:
    """A UUIDv7 of an instant; each call gives another."""
    low = next(_count)
    return str(uuid.UUID(int=ms << 80 | 7 << 76 | (low >> 62) << 64 | 2 << 62 | low & (1 << 62) - 1))


def make_entry(run: str, **other: Any) -> dict[str, Any]:
    """A remark at the bench, in a run."""
    return {
        "id": uuid7(),
        "run": run,
        "device": "phone-a",
        "at": 1_750_000_000_000,
        "kind": "noted",
        "body": {"text": "like wet sand"},
        **other,
    }


def make_run(recipe: dict[str, Any], pieces: int = 12) -> dict[str, Any]:
    """The body that begins a run of a recipe."""
    return {"recipe": {"id": recipe["id"], "version": recipe["version"]}, "size": {"pieces": pieces}}
