"""What makers said of the duties of selling: each word is kept, and the last one holds."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "duty_mark",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("recipe_id", sa.String(length=36), nullable=True),
        sa.Column("duty", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("day", sa.Text(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipe.id"], name=op.f("fk_duty_mark_recipe_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_duty_mark")),
    )
    op.create_index(op.f("ix_duty_mark_recipe_id"), "duty_mark", ["recipe_id"])


def downgrade() -> None:
    op.drop_table("duty_mark")
