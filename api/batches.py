"""What each finished batch came to as a table beside the journals, so that one over all batches folds none.

It is written where what is asked over all runs is (api/projections.py). Of what comes to a finished batch later only
some kinds bring it up to date; so a row says how far its journal reached, and one that reaches further is read again.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from sqlalchemy import Connection, delete, insert, text

import bench
from api.runs import RunView, load_run_in
from api.store import execute
from api.tables import BatchRow
from bench import BatchFigures, BatchVerdict

REACH = "SELECT coalesce(max(seq), 0) FROM entry WHERE run_id = :run"
OF_RUN = "SELECT recipe_id, recipe_version, title FROM run WHERE id = :run"
# The inner question is answered out of an index; the outer one reads the rows of a page alone.
ROWS = """
    SELECT run_id, recipe_id, version, title, number, release, finished_at, figures, basis,
        reach = (SELECT coalesce(max(seq), 0) FROM entry WHERE entry.run_id = batch_figures.run_id) AS is_current
    FROM batch_figures
    WHERE run_id IN (
        SELECT run_id FROM batch_figures {where} ORDER BY finished_at DESC, run_id {page})
    ORDER BY finished_at DESC, run_id
"""
AT_ONCE = 200


class Batch(NamedTuple):
    """A finished batch, and what it came to."""

    run: str
    recipe: str
    version: int
    title: str
    number: str | None
    release: BatchVerdict | None
    finished_at: int
    figures: BatchFigures
    basis: str  # what its cost hangs on (`CostBasis`), as JSON


def refresh(connection: Connection, run_id: str, run: RunView) -> None:
    """Bring the table up to what a batch's journal says; one that is on the bench is not in it."""
    connection.execute(delete(BatchRow).where(BatchRow.run_id == run_id))
    finished_at = run.state["finished_at"]
    if finished_at is None:
        return
    recipe, version, title = execute(connection, OF_RUN, {"run": run_id}).fetchone()
    figures, basis = _drawn(run)
    connection.execute(
        insert(BatchRow).values(
            run_id=run_id,
            recipe_id=recipe,
            version=version,
            title=title,
            number=run.state["number"],
            release=bench.release_status(run.state),
            finished_at=finished_at,
            reach=execute(connection, REACH, {"run": run_id}).fetchone()[0],
            figures=json.dumps(figures),
            basis=basis,
        )
    )


def batches_in(
    connection: Connection, where: str, named: Mapping[str, object], page: str = ""
) -> Iterator[Batch]:
    """The finished batches that meet a condition, the newest first, a few hundred in memory at a time."""
    found = connection.execution_options(yield_per=AT_ONCE).execute(
        text(ROWS.format(where=where, page=page)), named
    )
    for row in found:
        figures, basis = (
            (json.loads(row.figures), row.basis)
            if row.is_current
            else _drawn(load_run_in(connection, row.run_id))
        )
        yield Batch(
            row.run_id,
            row.recipe_id,
            row.version,
            row.title,
            row.number,
            row.release,
            row.finished_at,
            figures,
            basis,
        )


def _drawn(run: RunView) -> tuple[BatchFigures, str]:
    record = bench.record(run.sheet, run.state, run.entries)
    return bench.figures_of(record), json.dumps(bench.cost_basis(record, run.sheet))
