"""The REST API over the bench: app factory, tables, schemas, errors and the command line.

Imports run one way. This package may import `bench` (through its public door only) and never the
frontend, which knows it over HTTP alone. `create_app` is the one place that wires everything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask

    from api.settings import Settings


def create_app(settings: Settings | None = None) -> Flask:
    """Make the application; with no settings, those of the environment.

    The database is not touched here: `api.store.migrate` brings it up to date.
    """
    # Imported here so that `bowlside --help`, which imports this package, stays quick.
    from flask import Flask

    from api import (
        audit,
        clock,
        door,
        entries,
        errors,
        exchange,
        generation,
        health,
        hours,
        kit,
        live,
        logs,
        lots,
        page,
        pictures,
        planner,
        plans,
        recipes,
        records,
        runs,
        security,
        shelf,
        store,
        studio_settings,
    )
    from api.door import devices, pairing
    from api.openapi import BowlsideApi
    from api.settings import Settings

    app = Flask(__name__, static_folder=None)
    app.config.from_mapping((settings or Settings.from_environ()).as_flask_config())
    app.json.sort_keys = True  # type: ignore[attr-defined]
    logs.init_app(app)
    store.init_app(app)
    security.init_app(app)
    door.init_app(app)
    generation.init_app(app)
    live.init_app(app)
    planner.init_app(app)
    api = BowlsideApi(app)
    resources = (
        recipes,
        kit,
        studio_settings,
        runs,
        entries,
        records,
        hours,
        plans,
        pictures,
        shelf,
        lots,
        exchange,
        audit,
        clock,
        live,
    )
    for module in (*resources, devices, pairing):
        api.register_blueprint(module.blueprint, url_prefix="/api/v1")
    health.init_app(app)
    errors.init_app(app)
    page.init_app(app)
    return app
