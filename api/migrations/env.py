"""Runs the migrations over the application's own connection, so that its transactions hold here too."""

from alembic import context
from flask import current_app

from api.store import hold_all

db = current_app.extensions["migrate"].db

with db.engine.connect() as connection:
    context.configure(
        connection=connection,
        target_metadata=db.metadata,
        render_as_batch=True,
        transactional_ddl=True,  # all steps or none: Alembic would take SQLite for unable (see api/store.py)
    )
    with context.begin_transaction():
        hold_all(connection)  # several servers may be started at once
        context.run_migrations()
