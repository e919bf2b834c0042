"""Finished pieces as a table beside the journals, so that it can be asked over all batches where their pieces are.

All of it follows from the batch's journal (how many were made, and kept) and from what the shelf's journal tells of
them, and is written in the transaction that adds to either. What tells of a batch that is not here yet stays in the
shelf's journal, and counts once the batch is.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import Connection, Select, delete, insert, select, update

import bench
from api.store import execute
from api.tables import BatchPieces, ShelfEntry
from bench import Entry, PiecesMade, PiecesTold, Sheet, State

# Of the shelf's journal, what is of finished pieces names its batch; what is of the shelf itself names none.
OF_THE_SHELF = (
    "SELECT '[' || coalesce(group_concat(text, ','), '') || ']' FROM shelf_entry WHERE run_id IS NULL"
)
OF_A_BATCH = "SELECT text FROM shelf_entry WHERE run_id = :run"
NAME_BATCH = "UPDATE shelf_entry SET run_id = :run WHERE id = :id"
BATCH_OF = "SELECT run_id FROM shelf_entry WHERE id = :id"
TEXT_OF = "SELECT text FROM shelf_entry WHERE id = :id"
UNDOS = "SELECT id, text FROM shelf_entry WHERE run_id IS NULL AND text LIKE :undo"
MADE = "SELECT good, kept_there FROM batch_pieces WHERE run_id = :run"
BATCHES_WITH = "SELECT run_id, made_on FROM batch_pieces WHERE run_id IN (SELECT run_id FROM lot_use WHERE lot_id = :lot)"
LOTS_IN = "SELECT lot_id FROM lot_use WHERE run_id = :run"
KEEPS = (
    "SELECT json_extract(measured, '$.keeps_months') FROM recipe_version JOIN run"
    " ON recipe_version.recipe_id = run.recipe_id AND version = recipe_version WHERE run.id = :run"
)
LAST_DAY = "9999-12-31"  # where a batch stands that has no day, among those that have one


def note(connection: Connection, new: Iterable[Entry]) -> None:
    """Bring the table up to what these new entries of the shelf's journal say."""
    named: dict[str, str] = {}
    lots: set[str] = set()
    for entry in new:
        if run := _batch_of(connection, entry):
            named[entry["id"]] = run
            execute(connection, NAME_BATCH, {"id": entry["id"], "run": run})
        elif lot := _lot_of(connection, entry):
            lots.add(lot)
    if named:
        _name_undos(connection, named)
    for run in sorted(set(named.values())):
        if found := execute(connection, MADE, {"run": run}).fetchone():
            made: PiecesMade = {"good": found[0], "kept": found[1]}
            values = _values(made, told_in(connection, run))
            connection.execute(update(BatchPieces).where(BatchPieces.run_id == run).values(**values))
    for lot in sorted(lots):
        for run, made_on in execute(connection, BATCHES_WITH, {"lot": lot}).fetchall():
            day = _best_before(connection, run, made_on)
            connection.execute(
                update(BatchPieces)
                .where(BatchPieces.run_id == run)
                .values(best_before=day, until=day or LAST_DAY)
            )


def _batch_of(connection: Connection, entry: Entry) -> str | None:
    """The batch of whose pieces an entry tells; what takes another back tells of the same."""
    if bench.is_of_pieces(entry):
        return entry["body"]["run"]
    if entry["kind"] != "undone":
        return None
    found = execute(connection, BATCH_OF, {"id": entry["body"]["entry"]}).fetchone()
    return found[0] if found else None


def _lot_of(connection: Connection, entry: Entry) -> str | None:
    """The lot of which an entry of the shelf tells."""
    if entry["kind"] == "undone":
        found = execute(connection, TEXT_OF, {"id": entry["body"]["entry"]}).fetchone()
        return _lot_of(connection, json.loads(found[0])) if found else None
    lot = entry["body"].get("lot")
    return lot if isinstance(lot, str) else None


def _name_undos(connection: Connection, named: dict[str, str]) -> None:
    """Put to its batch what took such an entry back and came before it. Looked for once, however many are new."""
    undos: dict[str, list[str]] = {}
    for id, text in execute(connection, UNDOS, {"undo": '%"kind":"undone"%'}).fetchall():
        undos.setdefault(json.loads(text)["body"]["entry"], []).append(id)
    reached = list(named.items())
    for entry, run in reached:
        for undo in undos.pop(entry, []):
            execute(connection, NAME_BATCH, {"id": undo, "run": run})
            reached.append((undo, run))


def told_in(connection: Connection, run: str) -> PiecesTold:
    """What the shelf's journal tells of a batch's pieces."""
    entries = [json.loads(text) for (text,) in execute(connection, OF_A_BATCH, {"run": run}).fetchall()]
    return bench.fold_pieces(entries).get(run) or bench.nothing_told()


def told_of(connection: Connection, runs: Select[Any] | list[str]) -> dict[str, PiecesTold]:
    """The same of several batches, of which something is told."""
    texts = connection.scalars(select(ShelfEntry.text).where(ShelfEntry.run_id.in_(runs)))
    return bench.fold_pieces([json.loads(text) for text in texts])


def refresh(connection: Connection, run_id: str, sheet: Sheet, state: State) -> None:
    """Bring the table up to what a batch's own journal says; its lots' table is as it is now."""
    connection.execute(delete(BatchPieces).where(BatchPieces.run_id == run_id))
    made, finished_at = bench.pieces_made(sheet, state), state["finished_at"]
    if made is None or finished_at is None:
        return
    made_on = datetime.fromtimestamp(finished_at / 1000, UTC).date().isoformat()
    day = _best_before(connection, run_id, made_on)
    connection.execute(
        insert(BatchPieces).values(
            run_id=run_id,
            good=made["good"],
            kept_there=made["kept"],
            made_on=made_on,
            best_before=day,
            until=day or LAST_DAY,
            **_values(made, told_in(connection, run_id)),
        )
    )


def _values(made: PiecesMade, told: PiecesTold) -> dict[str, int | bool | str | None]:
    now = bench.stand(made, told)
    return {
        "gone": now["in_stock"] == 0,
        "in_stock": now["in_stock"],
        "left_count": now["left"],
        "kept": now["kept"],
        "binned": now["binned"],
        "place": told["place"],
    }


def _best_before(connection: Connection, run_id: str, made_on: str) -> str | None:
    found = execute(connection, KEEPS, {"run": run_id}).fetchone()
    keeps = int(found[0]) if found and found[0] is not None else None
    lots = [lot for (lot,) in execute(connection, LOTS_IN, {"run": run_id}).fetchall()]
    if not lots:
        return bench.best_before(made_on, keeps, [])
    there = bench.fold_shelf(json.loads(execute(connection, OF_THE_SHELF, {}).fetchone()[0]))["lots"]
    return bench.best_before(made_on, keeps, [there[lot]["best_before"] for lot in lots if lot in there])
