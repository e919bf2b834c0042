"""What a signing of before seals, kept as a set; and which entries were given back after a restore.

Until now a signing sealed whatever stood before it, so that an entry sent later could come to stand there.
"""

import json

import sqlalchemy as sa
from alembic import op

import bench

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("run", sa.Column("sealed_by", sa.String(length=36), nullable=True))
    op.add_column("run", sa.Column("sealed", sa.Text(), nullable=True))
    op.add_column("entry", sa.Column("given_back", sa.Boolean(), nullable=True))
    bind = op.get_bind()
    signed = bind.execute(
        sa.text("""SELECT DISTINCT run_id FROM entry WHERE text LIKE '%"kind":"signed"%'""")
    ).scalars()
    for run in list(signed):
        texts = bind.execute(sa.text("SELECT text FROM entry WHERE run_id = :run"), {"run": run}).scalars()
        kept = bench.frozen_seal([json.loads(text) for text in texts])
        if kept:
            bind.execute(
                sa.text("UPDATE run SET sealed_by = :signed, sealed = :ids WHERE id = :run"),
                {"signed": kept["signed"], "ids": bench.canonical(kept["entries"]), "run": run},
            )


def downgrade() -> None:
    op.drop_column("entry", "given_back")
    op.drop_column("run", "sealed")
    op.drop_column("run", "sealed_by")
