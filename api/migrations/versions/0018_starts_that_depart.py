"""What was asked before the first weighing and not told departs: such batches in figures are drawn anew."""

import sqlalchemy as sa
from alembic import op

from api import batches
from api.runs import load_run_in

revision = "0018"
down_revision = "0017"
branch_labels = None
depends_on = None

RUNS = """
    SELECT batch_figures.run_id FROM batch_figures JOIN run ON run.id = batch_figures.run_id
    WHERE run.sheet LIKE :asked
"""
ASKED = '%"before":%'


def upgrade() -> None:
    bind = op.get_bind()
    for run in list(bind.execute(sa.text(RUNS), {"asked": ASKED}).scalars()):
        batches.refresh(bind, run, load_run_in(bind, run))


def downgrade() -> None:
    pass
