"""Which batches have of which lots, both ways, and through parts made ahead: a lot that names the batch it was made in.

A lot leads to the batches that took of it, and through the lots made in those to further ones. A batch leads to its
lots, and through those that were made here to the lots of the batches that they were made in.
"""

from __future__ import annotations

import json
from functools import lru_cache

from sqlalchemy import Connection, text

from api import shelf
from bench import LotRun, OriginLot, Shelf

BATCHES_WITH = text(
    "SELECT run.id, title, recipe_version, batch_number, size, created_at, finished_at, mg, lot_use.count, release"
    " FROM lot_use JOIN run ON run.id = run_id WHERE lot_id = :lot ORDER BY created_at DESC, run.id"
)
LOTS_OF = text("SELECT lot_id FROM lot_use WHERE run_id = :run ORDER BY lot_id")


def batches_with(connection: Connection, lot_id: str) -> list[LotRun]:
    """Every batch that has of a lot: those that took of it, the newest first, then those that have it through others."""
    made_in = _lots_by_batch(shelf.current_stock())
    found: dict[str, LotRun] = {}
    lots, seen = [lot_id], {lot_id}
    for lot in lots:  # it grows
        for run in _took(connection, lot):
            if run["id"] not in found:
                found[run["id"]] = run
                further = [each for each in made_in.get(run["id"], []) if each not in seen]
                lots += further
                seen |= {*further}
    return list(found.values())


def batches_of(connection: Connection, run_id: str) -> list[LotRun]:
    """Every batch that has of a lot that was made in this one."""
    found: dict[str, LotRun] = {}
    for lot in _lots_by_batch(shelf.current_stock()).get(run_id, []):
        found |= {run["id"]: run for run in batches_with(connection, lot) if run["id"] not in found}
    return list(found.values())


def lots_in(connection: Connection, run_id: str) -> list[OriginLot]:
    """Every lot that a batch has of: those gathered for it, then those of the batches that these were made in."""
    there = shelf.current_stock()
    found: list[OriginLot] = []
    runs, seen = [run_id], {run_id}
    for run in runs:  # it grows
        for lot_id in connection.scalars(LOTS_OF, {"run": run}).all():
            lot = there["lots"].get(lot_id)
            card = there["ingredients"][lot["ingredient"]]["card"] if lot else None
            made_in = lot["run"] if lot else None
            found.append(
                {
                    "lot": lot_id,
                    "number": lot["number"] if lot else None,
                    "ingredient": card["name"] if card else None,
                    "into": run,
                    "made_in": made_in,
                }
            )
            if made_in and made_in not in seen:
                runs.append(made_in)
                seen.add(made_in)
    return found


def _lots_by_batch(there: Shelf) -> dict[str, list[str]]:
    """The lots that were made here, by the batch that they were made in."""
    lots: dict[str, list[str]] = {}
    for key, lot in there["lots"].items():
        if lot["run"]:
            lots.setdefault(lot["run"], []).append(key)
    return lots


def _took(connection: Connection, lot_id: str) -> list[LotRun]:
    return [
        {
            "id": run_id,
            "title": title,
            "recipe_version": version,
            "number": number,
            "pieces": _pieces(size),
            "at": created_at,
            "finished_at": finished_at,
            "mg": mg,
            "count": count,
            "release": release,
            "lot": lot_id,
        }
        for run_id, title, version, number, size, created_at, finished_at, mg, count, release in (
            connection.execute(BATCHES_WITH, {"lot": lot_id}).all()
        )
    ]


@lru_cache(maxsize=1024)
def _pieces(size: str) -> int:
    """How many pieces a kept size is of: thousands of batches have the same few."""
    pieces: int = json.loads(size)["pieces"]
    return pieces
