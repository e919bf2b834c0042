"""The order of work: what is wanted by when, and the plan of it."""

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "want",
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("recipe_id", sa.String(36), nullable=False),
        sa.Column("pieces", sa.Integer(), nullable=False),
        sa.Column("due", sa.BigInteger(), nullable=False),
        sa.Column("outlet_id", sa.String(36), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("state", sa.String(7), nullable=False),
        sa.CheckConstraint("state IN ('open', 'met', 'dropped')", name=op.f("ck_want_state")),
        sa.PrimaryKeyConstraint("id", name="pk_want"),
    )
    op.create_index("ix_want_state_due_id", "want", ["state", "due", "id"])
    op.create_table(
        "week_plan",
        sa.Column("place", sa.String(36), nullable=False),
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("place", name="pk_week_plan"),
    )


def downgrade() -> None:
    op.drop_table("week_plan")
    op.drop_index("ix_want_state_due_id", "want")
    op.drop_table("want")
