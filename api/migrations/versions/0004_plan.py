"""The plan: bench hours and makers, plans as they were kept, and which plan a run follows."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "bench_hours",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("updated_at", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_bench_hours_only_one")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_hours")),
    )
    op.create_table(
        "plan",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("asked", sa.Text(), nullable=False),
        sa.Column("asked_at", sa.BigInteger(), nullable=False),
        sa.Column("state", sa.String(length=7), nullable=False),
        sa.Column("beat_at", sa.BigInteger(), nullable=False),
        sa.Column("cancelled", sa.Boolean(), nullable=False),
        sa.Column("progress", sa.Text(), nullable=True),
        sa.Column("fault", sa.Text(), nullable=True),
        sa.Column("made", sa.Text(), nullable=True),
        sa.CheckConstraint("state IN ('working', 'made', 'refused')", name=op.f("ck_plan_state")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan")),
    )
    op.create_table(
        "planned_run",
        sa.Column("run_id", sa.String(length=36), nullable=False),
        sa.Column("plan_id", sa.String(length=36), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name=op.f("fk_planned_run_run_id")),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_planned_run_plan_id")),
        sa.PrimaryKeyConstraint("run_id", name=op.f("pk_planned_run")),
    )
    op.create_index("ix_planned_run_plan_id", "planned_run", ["plan_id"])


def downgrade() -> None:
    for table in ("planned_run", "plan", "bench_hours"):
        op.drop_table(table)
