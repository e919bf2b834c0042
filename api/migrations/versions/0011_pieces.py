"""Finished pieces: where those of each batch are, and the outlets that they went to.

A database that was taken back to the version before may tell of pieces already; the batches that are finished are
there in any case. Both are read again here, as the arithmetic reads them.
"""

import json

import sqlalchemy as sa
from alembic import op

from api import finished
from api.runs import load_run_in

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

RUNS = "SELECT id FROM run WHERE finished_at IS NOT NULL"


def upgrade() -> None:
    op.add_column("shelf_entry", sa.Column("run_id", sa.String(36), nullable=True))
    op.create_index("ix_shelf_entry_run_id_seq", "shelf_entry", ["run_id", "seq"])
    op.create_table(
        "batch_pieces",
        sa.Column("run_id", sa.String(36), nullable=False),
        sa.Column("good", sa.Integer(), nullable=False),
        sa.Column("kept_there", sa.Integer(), nullable=False),
        sa.Column("in_stock", sa.Integer(), nullable=False),
        sa.Column("left_count", sa.Integer(), nullable=False),
        sa.Column("kept", sa.Integer(), nullable=False),
        sa.Column("binned", sa.Integer(), nullable=False),
        sa.Column("place", sa.Text(), nullable=True),
        sa.Column("made_on", sa.Text(), nullable=False),
        sa.Column("best_before", sa.Text(), nullable=True),
        sa.Column("gone", sa.Boolean(), nullable=False),
        sa.Column("until", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name="fk_batch_pieces_run_id_run"),
        sa.PrimaryKeyConstraint("run_id", name="pk_batch_pieces"),
    )
    op.create_index("ix_batch_pieces_gone_until_run_id", "batch_pieces", ["gone", "until", "run_id"])
    op.create_table(
        "outlet",
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("contact", sa.Text(), nullable=True),
        sa.Column("erased_at", sa.BigInteger(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_outlet"),
    )
    _read_again(op.get_bind())


def _read_again(bind: sa.Connection) -> None:
    told = [
        json.loads(text)
        for text in bind.execute(sa.text("SELECT text FROM shelf_entry ORDER BY seq")).scalars()
    ]
    finished.note(bind, told)
    for run in list(bind.execute(sa.text(RUNS)).scalars()):
        view = load_run_in(bind, run)
        finished.refresh(bind, run, view.sheet, view.state)


def downgrade() -> None:
    op.drop_table("outlet")
    op.drop_index("ix_batch_pieces_gone_until_run_id", "batch_pieces")
    op.drop_table("batch_pieces")
    op.drop_index("ix_shelf_entry_run_id_seq", "shelf_entry")
    op.drop_column("shelf_entry", "run_id")
