"""Whether each batch is released, held or rejected, so that lists can say it.

A database that was taken back to the version before may hold judgements already: they are read again here.
"""

import json

import sqlalchemy as sa
from alembic import op

import bench

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

JUDGED = """SELECT DISTINCT run_id FROM entry WHERE text LIKE '%"kind":"judged"%'"""
RUN = "SELECT sheet, sealed_by, sealed FROM run WHERE id = :run"
ENTRIES = "SELECT text FROM entry WHERE run_id = :run"


def upgrade() -> None:
    op.add_column("run", sa.Column("release", sa.Text(), nullable=True))
    bind = op.get_bind()
    for run in list(bind.execute(sa.text(JUDGED)).scalars()):
        sheet, signed, sealed = bind.execute(sa.text(RUN), {"run": run}).one()
        texts = bind.execute(sa.text(ENTRIES), {"run": run}).scalars()
        frozen: bench.FrozenSeal | None = (
            {"signed": signed, "entries": json.loads(sealed)} if signed and sealed else None
        )
        state = bench.fold(bench.open_sheet(json.loads(sheet)), [json.loads(text) for text in texts], frozen)
        bind.execute(
            sa.text("UPDATE run SET release = :status WHERE id = :run"),
            {"status": bench.release_status(state), "run": run},
        )


def downgrade() -> None:
    op.drop_column("run", "release")
