"""Trust: the studio's generation, when and by whom entries were received, whose bench is whose, an audit log.

What is known of former entries is filled in: a bench belongs to the first paired device that sent for it,
and a run was made no later than the first thing that happened in it.
"""

import time
from uuid import uuid4

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

ONLY_GROWS = "the audit log only grows"


def upgrade() -> None:
    studio = op.create_table(
        "studio",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("generation", sa.String(length=36), nullable=False),
        sa.Column("began_at", sa.BigInteger(), nullable=False),
        sa.Column("moved_to", sa.Text(), nullable=True),
        sa.Column("moved_at", sa.BigInteger(), nullable=True),
        sa.CheckConstraint("id = 1", name=op.f("ck_studio_only_one")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_studio")),
    )
    op.bulk_insert(studio, [{"id": 1, "generation": str(uuid4()), "began_at": time.time_ns() // 1_000_000}])
    op.create_table(
        "audit",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("actor", sa.String(length=36), nullable=True),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("what", sa.String(length=40), nullable=False),
        sa.Column("about", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_audit")),
    )
    op.create_index("ix_audit_at", "audit", ["at"])
    op.create_table(
        "bench_owner",
        sa.Column("bench", sa.String(length=64), nullable=False),
        sa.Column("device_id", sa.String(length=36), nullable=False),
        sa.Column("since", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("bench", name=op.f("pk_bench_owner")),
    )
    op.create_index("ix_bench_owner_device_id", "bench_owner", ["device_id"])
    op.add_column("entry", sa.Column("received_at", sa.BigInteger(), nullable=True))
    op.add_column("shelf_entry", sa.Column("received_at", sa.BigInteger(), nullable=True))
    op.add_column("run", sa.Column("made_at", sa.BigInteger(), nullable=True))
    _fill_in()
    _let_the_audit_only_grow()


def _on_postgresql() -> bool:
    return op.get_bind().dialect.name == "postgresql"


def _fill_in() -> None:
    def said(field: str) -> str:
        return f"text::json->>'{field}'" if _on_postgresql() else f"json_extract(text, '$.{field}')"

    at = f"CAST({said('at')} AS BIGINT)"
    first = " UNION ALL ".join(
        f"SELECT {said('device')} AS bench, sender, {at} AS at FROM {table} WHERE sender IS NOT NULL"
        f" AND seq IN (SELECT min(seq) FROM {table} WHERE sender IS NOT NULL GROUP BY {said('device')})"
        for table in ("entry", "shelf_entry")
    )
    op.execute(
        "INSERT INTO bench_owner (bench, device_id, since)"
        f" SELECT bench, min(sender), min(at) FROM ({first}) AS found GROUP BY bench"
    )
    op.execute(
        "UPDATE run SET made_at = coalesce((SELECT CASE WHEN min(began) < run.created_at THEN min(began)"
        f" ELSE run.created_at END FROM (SELECT {at} AS began, run_id FROM entry) AS begun"
        " WHERE begun.run_id = run.id), created_at)"
    )


def _let_the_audit_only_grow() -> None:
    if _on_postgresql():
        op.execute(
            "CREATE FUNCTION audit_only_grows() RETURNS trigger LANGUAGE plpgsql AS"
            f" $$ BEGIN RAISE EXCEPTION '{ONLY_GROWS}'; END $$"
        )
        op.execute(
            "CREATE TRIGGER audit_only_grows BEFORE UPDATE OR DELETE ON audit"
            " FOR EACH ROW EXECUTE FUNCTION audit_only_grows()"
        )
        return
    for change in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER audit_no_{change.lower()} BEFORE {change} ON audit"
            f" BEGIN SELECT RAISE(ABORT, '{ONLY_GROWS}'); END"
        )


def downgrade() -> None:
    if _on_postgresql():
        op.execute("DROP TRIGGER audit_only_grows ON audit")
        op.execute("DROP FUNCTION audit_only_grows")
    else:
        op.execute("DROP TRIGGER audit_no_update")
        op.execute("DROP TRIGGER audit_no_delete")
    op.drop_column("run", "made_at")
    op.drop_column("shelf_entry", "received_at")
    op.drop_column("entry", "received_at")
    for table in ("bench_owner", "audit", "studio"):
        op.drop_table(table)
