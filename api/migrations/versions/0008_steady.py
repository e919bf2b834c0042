"""The server's time goes on steadily: what it is reckoned from, one row for each boot of a computer."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "steady_clock",
        sa.Column("boot", sa.String(length=64), nullable=False),
        sa.Column("offset_ms", sa.BigInteger(), nullable=False),
        sa.Column("epoch", sa.Integer(), nullable=False),
        sa.Column("held_ms", sa.BigInteger(), nullable=False),
        sa.Column("leapt_at", sa.BigInteger(), nullable=True),
        sa.Column("looked_ms", sa.BigInteger(), nullable=False),
        sa.Column("floor_ms", sa.BigInteger(), nullable=True),
        sa.Column("since_seq", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("boot", name=op.f("pk_steady_clock")),
    )


def downgrade() -> None:
    op.drop_table("steady_clock")
