"""Recipes filed by tags and an archive, and all that can be searched: recipes, notes, and text less its accents.

A database that was taken back to the version before may hold what was filed since; that is lost with the columns.
"""

import json

import sqlalchemy as sa
from alembic import op

from api import run_notes
from api.filing import searched
from api.runs import load_run_in
from api.searching import kept_to_search

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None

RUNS_WITH_NOTES = 'SELECT DISTINCT run_id FROM entry WHERE text LIKE \'%"kind":"noted"%\''
RECIPES = (
    "SELECT recipe.id, document FROM recipe JOIN recipe_version"
    " ON recipe_version.recipe_id = recipe.id AND recipe_version.version = recipe.version"
)


def upgrade() -> None:
    op.add_column("recipe", sa.Column("tags", sa.Text(), server_default="[]", nullable=False))
    op.add_column("recipe", sa.Column("archived_at", sa.BigInteger(), nullable=True))
    op.add_column("recipe", sa.Column("search", sa.Text(), server_default="", nullable=False))
    op.create_table(
        "run_note",
        sa.Column("run_id", sa.String(36), nullable=False),
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("search", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name="fk_run_note_run_id_run"),
        sa.PrimaryKeyConstraint("run_id", "id", name="pk_run_note"),
    )
    op.create_index("ix_run_note_search", "run_note", ["at", "id", "search"])
    _read_again(op.get_bind())


def _read_again(bind: sa.Connection) -> None:
    recipe = sa.table("recipe", sa.column("id"), sa.column("search"))
    for recipe_id, document in bind.execute(sa.text(RECIPES)).all():
        text = searched(json.loads(document), [])
        bind.execute(recipe.update().where(recipe.c.id == recipe_id).values(search=text))
    run = sa.table("run", *(sa.column(name) for name in ("id", "title", "batch_number", "search")))
    for run_id, title, number in bind.execute(sa.select(run.c.id, run.c.title, run.c.batch_number)).all():
        text = kept_to_search(f"{title} {number or ''}")
        bind.execute(run.update().where(run.c.id == run_id).values(search=text))
    for run_id in list(bind.execute(sa.text(RUNS_WITH_NOTES)).scalars()):
        run_notes.refresh(bind, run_id, load_run_in(bind, run_id))


def downgrade() -> None:
    op.drop_index("ix_run_note_search", "run_note")
    op.drop_table("run_note")
    op.drop_column("recipe", "search")
    op.drop_column("recipe", "archived_at")
    op.drop_column("recipe", "tags")
