"""The first tables: recipes with versions, the kit, runs and their journals."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    _kit_and_recipes()
    _runs()


def _kit_and_recipes() -> None:
    op.create_table(
        "kit",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("measured", sa.Text(), nullable=False),
        sa.Column("updated_at", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_kit_only_one")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_kit")),
    )
    op.create_table(
        "recipe",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("summary", sa.Text(), nullable=False),
        sa.Column("updated_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_recipe")),
    )
    op.create_table(
        "recipe_version",
        sa.Column("recipe_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("measured", sa.Text(), nullable=False),
        sa.Column("created_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["recipe_id"], ["recipe.id"], name=op.f("fk_recipe_version_recipe_id")),
        sa.PrimaryKeyConstraint("recipe_id", "version", name=op.f("pk_recipe_version")),
    )


def _runs() -> None:
    op.create_table(
        "run",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("recipe_id", sa.String(length=36), nullable=False),
        sa.Column("recipe_version", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("size", sa.Text(), nullable=False),
        sa.Column("sheet", sa.Text(), nullable=False),
        sa.Column("created_at", sa.BigInteger(), nullable=False),
        sa.Column("finished_at", sa.BigInteger(), nullable=True),
        sa.ForeignKeyConstraint(
            ["recipe_id", "recipe_version"],
            ["recipe_version.recipe_id", "recipe_version.version"],
            name=op.f("fk_run_recipe_id_recipe_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_run")),
    )
    op.create_index("ix_run_created_at", "run", ["created_at"])

    op.create_table(
        "entry",
        sa.Column(
            "seq", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True, nullable=False
        ),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("run_id", sa.String(length=36), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name=op.f("fk_entry_run_id")),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_entry")),
        sa.UniqueConstraint("id", name=op.f("uq_entry_id")),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_entry_run_id_seq", "entry", ["run_id", "seq"])


def downgrade() -> None:
    for table in ("entry", "run", "recipe_version", "recipe", "kit"):
        op.drop_table(table)
