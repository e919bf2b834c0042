"""What each finished batch came to, as a table of its own. It is read here as the arithmetic reads it."""

import sqlalchemy as sa
from alembic import op

from api import batches
from api.runs import load_run_in

revision = "0015"
down_revision = "0014"
branch_labels = None
depends_on = None

RUNS = "SELECT id FROM run WHERE finished_at IS NOT NULL"


def upgrade() -> None:
    op.create_table(
        "batch_figures",
        sa.Column("run_id", sa.String(36), nullable=False),
        sa.Column("recipe_id", sa.String(36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("number", sa.Text(), nullable=True),
        sa.Column("release", sa.Text(), nullable=True),
        sa.Column("finished_at", sa.BigInteger(), nullable=False),
        sa.Column("reach", sa.BigInteger(), nullable=False),
        sa.Column("figures", sa.Text(), nullable=False),
        sa.Column("basis", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name="fk_batch_figures_run_id_run"),
        sa.PrimaryKeyConstraint("run_id", name="pk_batch_figures"),
    )
    op.create_index("ix_batch_figures_finished_at_run_id", "batch_figures", ["finished_at", "run_id"])
    op.create_index(
        "ix_batch_figures_recipe_id_finished_at_run_id_version",
        "batch_figures",
        ["recipe_id", "finished_at", "run_id", "version"],
    )
    bind = op.get_bind()
    for run in list(bind.execute(sa.text(RUNS)).scalars()):
        batches.refresh(bind, run, load_run_in(bind, run))


def downgrade() -> None:
    op.drop_table("batch_figures")
