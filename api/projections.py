"""What tables say beside the journals, so that it can be asked over all runs at once: which runs are
finished and what they came to, which number each batch has, whether it is released, which lots went into it, where its
pieces are, and which pictures belong to it.

All of it follows from the run's whole journal, and is written in the transaction that adds to that.
"""

from __future__ import annotations

from sqlalchemy import Connection, delete, insert, update

import bench
from api import batches, finished, run_notes
from api.runs import RunView, load_run_in, sealed_columns
from api.searching import kept_to_search
from api.store import execute
from api.tables import LotUse, Run
from bench import MOVES_STOCK, STANDING, Entry, NamedRun
from bench import LotUse as Use

# What is asked over all runs moves by these; by those that move stock, only where a lot was gathered.
MOVED_BY = STANDING | MOVES_STOCK | {"pictured", "noted"}

HAS_LOTS = "SELECT 1 FROM lot_use WHERE run_id = :run LIMIT 1"
EXPECT_PICTURE = (
    "INSERT INTO picture (id, run_id, sha256) VALUES (:id, :run, :sha256) ON CONFLICT (id) DO NOTHING"
)
SAME_NUMBER = (
    "SELECT other.id, other.title FROM run JOIN run AS other ON other.batch_number = run.batch_number"
    " WHERE run.id = :run AND other.id <> run.id ORDER BY other.created_at, other.id"
)


def refresh(connection: Connection, run_id: str, new: list[Entry]) -> None:
    """Bring the tables up to what a run's journal says with these new entries in it."""
    kinds = {entry["kind"] for entry in new}
    run_notes.add(connection, run_id, new)
    for entry in new:
        if entry["kind"] == "pictured":
            body = entry["body"]
            execute(
                connection, EXPECT_PICTURE, {"id": body["picture"], "run": run_id, "sha256": body["sha256"]}
            )
    has_moved = kinds & STANDING or (
        kinds & MOVES_STOCK and execute(connection, HAS_LOTS, {"run": run_id}).fetchone()
    )
    if not has_moved:
        return
    run = load_run_in(connection, run_id)
    _refresh_run(connection, run_id, run)
    connection.execute(delete(LotUse).where(LotUse.run_id == run_id))
    uses = bench.use_of(run.sheet, run.state, run.entries)
    if uses:
        connection.execute(insert(LotUse), [_used(run_id, lot, use) for lot, use in uses.items()])
    finished.refresh(connection, run_id, run.sheet, run.state)
    batches.refresh(connection, run_id, run)
    if kinds & STANDING:
        run_notes.refresh(connection, run_id, run)


def _refresh_run(connection: Connection, run_id: str, run: RunView) -> None:
    sealed = bench.frozen_seal(run.entries, run.sealed)
    number = run.state["number"]
    connection.execute(
        update(Run)
        .where(Run.id == run_id)
        .values(
            finished_at=run.state["finished_at"],
            batch_number=number,
            release=bench.release_status(run.state),
            # Kept from when it was signed on: what comes later may stand before it.
            **({} if sealed is None or sealed == run.sealed else sealed_columns(sealed)),
            search=kept_to_search(f"{run.sheet['recipe']['title']} {number or ''}"),
        )
    )


def _used(run_id: str, lot: str, use: Use) -> dict[str, str | int]:
    return {"run_id": run_id, "lot_id": lot, "mg": use["mg"], "count": use["count"], "used_at": use["at"]}


def same_number(connection: Connection, run_id: str) -> list[NamedRun]:
    """The other runs that have this run's batch number, the oldest first."""
    found = execute(connection, SAME_NUMBER, {"run": run_id}).fetchall()
    return [{"id": each[0], "title": each[1]} for each in found]
