"""Indexes in the order of the lists, and one of every three letters that are searched.

SQLite has that index in tables of its own (FTS5), which triggers keep; so it is part of no copy, and is made by filling
the tables. PostgreSQL has it as an index, where this role may have the extension that comes with it; without, a search
looks at every row, and finds the same.
"""

import logging

import sqlalchemy as sa
from alembic import op

from api.searching import INDEXED
from api.store import on_postgresql

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None

NEW = {
    "ix_run_listed": "run (created_at DESC, id, finished_at)",
    "ix_run_of_recipe": "run (recipe_id, created_at DESC, id, finished_at)",
    "ix_run_finished": "run (finished_at, created_at DESC, id)",
    "ix_run_found": "run (created_at DESC, id, finished_at, recipe_id, search)",
    "ix_run_note_found": "run_note (at DESC, id, run_id, search)",
    "ix_lot_use_told": "lot_use (lot_id, used_at DESC, run_id)",
}
FORMER = {
    "ix_run_created_at": "run (created_at)",
    "ix_run_finished_at_created_at_id": "run (finished_at, created_at, id)",
    "ix_run_recipe_id_created_at_id_finished_at": "run (recipe_id, created_at, id, finished_at)",
    "ix_run_search": "run (created_at, id, finished_at, recipe_id, search)",
    "ix_run_note_search": "run_note (at, id, search)",
    "ix_lot_use_lot_id": "lot_use (lot_id)",
}


def upgrade() -> None:
    _swap(FORMER, NEW)
    bind = op.get_bind()
    if on_postgresql(bind):
        _index_on_postgresql(bind)
        return
    for table, keys in INDEXED.items():
        for statement in _on_sqlite(table, keys):
            op.execute(statement)


def downgrade() -> None:
    for table in INDEXED:
        if on_postgresql(op.get_bind()):
            op.execute(f"DROP INDEX IF EXISTS ix_{table}_letters")
            continue
        for what in ("added", "changed", "gone"):
            op.execute(f"DROP TRIGGER {table}_{what}")
        op.execute(f"DROP TABLE {table}_letters")
        op.execute(f"DROP TABLE {table}_place")
    _swap(NEW, FORMER)


def _swap(old: dict[str, str], new: dict[str, str]) -> None:
    for name in old:
        op.execute(f"DROP INDEX {name}")
    for name, what in new.items():
        op.execute(f"CREATE INDEX {name} ON {what}")


def _index_on_postgresql(bind: sa.Connection) -> None:
    try:
        with bind.begin_nested():
            op.execute("CREATE EXTENSION IF NOT EXISTS pg_trgm")
            for table in INDEXED:
                op.execute(f"CREATE INDEX ix_{table}_letters ON {table} USING gin (search gin_trgm_ops)")
    except sa.exc.DBAPIError as error:
        logging.getLogger("alembic").warning("Searching without an index: %s", error.orig)


def _on_sqlite(table: str, keys: tuple[str, ...]) -> list[str]:
    columns, new, old = (", ".join(f"{of}{key}" for key in keys) for of in ("", "new.", "old."))
    letters, place = f"{table}_letters", f"{table}_place"
    of_old = f"FROM {place} WHERE ({columns}) = ({old})"
    take_out = f"INSERT INTO {letters} ({letters}, rowid, search) SELECT 'delete', n, old.search {of_old}"
    return [
        f"CREATE TABLE {place} (n INTEGER PRIMARY KEY, {' TEXT NOT NULL, '.join(keys)} TEXT NOT NULL, UNIQUE ({columns}))",
        f"CREATE VIRTUAL TABLE {letters} USING fts5"
        " (search, content='', columnsize=0, tokenize='trigram case_sensitive 1')",
        f"INSERT INTO {place} ({columns}) SELECT {columns} FROM {table}",
        f"INSERT INTO {letters} (rowid, search) SELECT n, search FROM {place} JOIN {table} USING ({columns})",
        f"CREATE TRIGGER {table}_added AFTER INSERT ON {table} BEGIN"
        f" INSERT INTO {place} ({columns}) VALUES ({new});"
        f" INSERT INTO {letters} (rowid, search) SELECT n, new.search FROM {place} WHERE ({columns}) = ({new}); END",
        f"CREATE TRIGGER {table}_changed AFTER UPDATE OF search ON {table} WHEN old.search <> new.search BEGIN"
        f" {take_out}; INSERT INTO {letters} (rowid, search) SELECT n, new.search {of_old}; END",
        f"CREATE TRIGGER {table}_gone AFTER DELETE ON {table} BEGIN"
        f" {take_out}; DELETE FROM {place} WHERE ({columns}) = ({old}); END",
    ]
