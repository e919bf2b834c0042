"""The indexes of finished batches in figures run in the order of their list, the newest first.

So its last page walks an index and sorts nothing, on either database.
"""

from alembic import op

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None

NEW = {
    "ix_batch_figures_listed": "batch_figures (finished_at DESC, run_id)",
    "ix_batch_figures_of_recipe": "batch_figures (recipe_id, finished_at DESC, run_id, version)",
}
FORMER = {
    "ix_batch_figures_finished_at_run_id": "batch_figures (finished_at, run_id)",
    "ix_batch_figures_recipe_id_finished_at_run_id_version": "batch_figures (recipe_id, finished_at, run_id, version)",
}


def upgrade() -> None:
    _swap(FORMER, NEW)


def downgrade() -> None:
    _swap(NEW, FORMER)


def _swap(old: dict[str, str], new: dict[str, str]) -> None:
    for name in old:
        op.execute(f"DROP INDEX {name}")
    for name, what in new.items():
        op.execute(f"CREATE INDEX {name} ON {what}")
