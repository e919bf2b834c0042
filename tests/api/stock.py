"""Puts things on the shelf and takes them into runs, in the words of the entries."""

from __future__ import annotations

from typing import Any

from tests.api.studio import Studio
from tests.make import BEGUN, make_entry, uuid4

EARLY = BEGUN


def described(name: str = "Sea salt", ingredient: str = "salt-1", **card: Any) -> dict[str, Any]:
    return make_entry(
        "shelf", at=EARLY, kind="described", body={"ingredient": ingredient, "card": {"name": name, **card}}
    )


def received(lot: str, mg: int = 1_000_000, **more: Any) -> dict[str, Any]:
    body = {
        "lot": lot,
        "ingredient": "salt-1",
        "number": "S-17",
        "mg": mg,
        "received_on": "2025-03-01",
        **more,
    }
    return make_entry("shelf", at=EARLY + 1, kind="received", body=body)


def to_shelf(studio: Studio, *entries: Any) -> Any:
    return studio.client.post("/api/v1/shelf/entries", json={"entries": list(entries)})


def gathered(run: str, lot: str, at: int = 10, **much: int) -> dict[str, Any]:
    return make_entry(run, at=EARLY + at, kind="gathered", body={"ingredient": "salt", "lot": lot, **much})


def weighed(run: str, mg: int, line: int = 0, at: int = 20) -> dict[str, Any]:
    body = {"line": f"soak.1.line_{line}", "mg": mg}
    return make_entry(run, at=EARLY + at, kind="weighed", body=body)


def with_lot(studio: Studio, mg: int = 1_000_000, **more: Any) -> str:
    """The id of a lot of salt that is on the shelf."""
    lot = uuid4()
    answers = to_shelf(studio, described(), received(lot, mg, **more)).json["answers"]
    assert {each["result"] for each in answers} <= {"kept"}
    return lot
