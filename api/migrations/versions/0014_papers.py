"""The files of papers, beside the photographs: of no run, and of more sorts than one.

A database that was taken back to the version before may tell of papers' files already: they are awaited again.
"""

import json

import sqlalchemy as sa
from alembic import op

from api import papers

revision = "0014"
down_revision = "0013"
branch_labels = None
depends_on = None

TOLD = """SELECT text FROM shelf_entry WHERE text LIKE '%"kind":"papered"%' ORDER BY seq"""


def upgrade() -> None:
    with op.batch_alter_table("picture") as table:
        table.alter_column("run_id", existing_type=sa.String(36), nullable=True)
        table.add_column(sa.Column("media", sa.Text(), nullable=True))
    bind = op.get_bind()
    papers.expect(bind, [json.loads(text) for text in bind.execute(sa.text(TOLD)).scalars()])


def downgrade() -> None:
    op.execute("DELETE FROM picture WHERE run_id IS NULL")
    with op.batch_alter_table("picture") as table:
        table.drop_column("media")
        table.alter_column("run_id", existing_type=sa.String(36), nullable=False)
