"""The studio's door: paired devices, the codes that pair them, and which device sent an entry."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "device",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.String(length=6), nullable=False),
        sa.Column("bench", sa.Text(), nullable=True),
        sa.Column("secret_sha256", sa.String(length=64), nullable=False),
        sa.Column("paired_at", sa.BigInteger(), nullable=False),
        sa.Column("seen_at", sa.BigInteger(), nullable=False),
        sa.Column("shut_out_at", sa.BigInteger(), nullable=True),
        sa.CheckConstraint("role IN ('maker', 'helper')", name=op.f("ck_device_role")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
    )
    op.create_table(
        "pairing",
        sa.Column("code_sha256", sa.String(length=64), nullable=False),
        sa.Column("role", sa.String(length=6), nullable=False),
        sa.Column("made_at", sa.BigInteger(), nullable=False),
        sa.Column("expires_at", sa.BigInteger(), nullable=False),
        sa.Column("tries_left", sa.Integer(), nullable=False),
        sa.Column("used_at", sa.BigInteger(), nullable=True),
        sa.CheckConstraint("role IN ('maker', 'helper')", name=op.f("ck_pairing_role")),
        sa.PrimaryKeyConstraint("code_sha256", name=op.f("pk_pairing")),
    )
    op.add_column("entry", sa.Column("sender", sa.Text(), nullable=True))


def downgrade() -> None:
    op.drop_column("entry", "sender")
    op.drop_table("pairing")
    op.drop_table("device")
