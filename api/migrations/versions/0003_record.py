"""The record: the shelf's journal, what runs used of lots, batch numbers, pictures, the maker's settings."""

import json
from collections.abc import Iterator

import sqlalchemy as sa
from alembic import op

import bench

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    _shelf_and_settings()
    op.add_column("run", sa.Column("batch_number", sa.Text(), nullable=True))
    op.create_index("ix_run_batch_number", "run", ["batch_number"])
    _take_up_what_was_told(_lot_uses(), _pictures())


def _shelf_and_settings() -> None:
    op.create_table(
        "shelf_entry",
        sa.Column(
            "seq", sa.BigInteger().with_variant(sa.Integer(), "sqlite"), autoincrement=True, nullable=False
        ),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("sender", sa.Text(), nullable=True),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_shelf_entry")),
        sa.UniqueConstraint("id", name=op.f("uq_shelf_entry_id")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "studio_settings",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("updated_at", sa.BigInteger(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_studio_settings_only_one")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_studio_settings")),
    )


def _lot_uses() -> sa.Table:
    lot_use = op.create_table(
        "lot_use",
        sa.Column("run_id", sa.String(length=36), nullable=False),
        sa.Column("lot_id", sa.String(length=140), nullable=False),
        sa.Column("mg", sa.BigInteger(), nullable=False),
        sa.Column("count", sa.BigInteger(), nullable=False),
        sa.Column("used_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name=op.f("fk_lot_use_run_id")),
        sa.PrimaryKeyConstraint("run_id", "lot_id", name=op.f("pk_lot_use")),
    )
    op.create_index("ix_lot_use_lot_id", "lot_use", ["lot_id"])
    return lot_use


def _pictures() -> sa.Table:
    return op.create_table(
        "picture",
        sa.Column("id", sa.String(length=140), nullable=False),
        sa.Column("run_id", sa.String(length=36), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=True),
        sa.ForeignKeyConstraint(["run_id"], ["run.id"], name=op.f("fk_picture_run_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_picture")),
    )


def _take_up_what_was_told(lot_use: sa.Table, picture: sa.Table) -> None:
    pictures: dict[str, dict[str, str]] = {}
    for run_id, sheet, entries in told_of_lots():
        state = bench.fold(sheet, entries)
        op.execute(
            sa.text("UPDATE run SET batch_number = :number WHERE id = :run").bindparams(
                number=state["number"], run=run_id
            )
        )
        uses = bench.use_of(sheet, state, entries)
        op.bulk_insert(
            lot_use,
            [
                {
                    "run_id": run_id,
                    "lot_id": lot,
                    "mg": use["mg"],
                    "count": use["count"],
                    "used_at": use["at"],
                }
                for lot, use in uses.items()
            ],
        )
        for each in state["pictures"]:
            pictures.setdefault(
                each["picture"], {"id": each["picture"], "run_id": run_id, "sha256": each["sha256"]}
            )
    op.bulk_insert(picture, list(pictures.values()))


def told_of_lots() -> Iterator[tuple[str, bench.Sheet, list[bench.Entry]]]:
    """Runs whose phones already told what this server did not understand then: (id, sheet, entries)."""
    connection = op.get_bind()
    kinds = " OR ".join(f'text LIKE \'%"kind":"{kind}"%\'' for kind in ("numbered", "gathered", "pictured"))
    runs = connection.execute(sa.text(f"SELECT DISTINCT run_id FROM entry WHERE {kinds}")).scalars().all()
    for run_id in runs:
        values = {"run": run_id}
        sheet = connection.execute(sa.text("SELECT sheet FROM run WHERE id = :run"), values).scalar_one()
        texts = connection.execute(sa.text("SELECT text FROM entry WHERE run_id = :run"), values).scalars()
        yield run_id, json.loads(sheet), [json.loads(text) for text in texts]


def downgrade() -> None:
    op.drop_index("ix_run_batch_number", "run")
    op.drop_column("run", "batch_number")
    for table in ("studio_settings", "picture", "lot_use", "shelf_entry"):
        op.drop_table(table)
