"""The REST API over the bench: app factory, tables, schemas, errors and the command line.

Imports run one way. This package may import `bench` (through its public door only) and never the
frontend, which knows it over HTTP alone. `create_app` is the one place that wires everything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from flask import Flask

    from api.settings import Settings


def create_app(settings: Settings | None = None) -> Flask:
    """Make the application; with no settings, those of the environment.

    The database is not touched here: `api.store.migrate` brings it up to date.
    """
    # Imported here so that `bowlside --help`, which imports this package, stays quick.
    from flask import Flask

    from api import door, errors, generation, health, language, live, logs, page, planner, security, store
    from api.settings import Settings

    app = Flask(__name__, static_folder=None)
    app.config.from_mapping((settings or Settings.from_environ()).as_flask_config())
    app.json.sort_keys = True  # type: ignore[attr-defined]
    for part in (logs, language, store, security, door, generation, live, planner):
        part.init_app(app)
    _add_resources(app)
    for part in (health, errors, page):
        part.init_app(app)
    return app


def _add_resources(app: Flask) -> None:
    """All that has an address under /api/v1."""
    from api.openapi import BowlsideApi

    api = BowlsideApi(app)
    for module in _resources():
        api.register_blueprint(module.blueprint, url_prefix="/api/v1")


def _resources() -> tuple[Any, ...]:
    """The modules that have addresses, in the order in which the API's document has them."""
    from api import (
        audit,
        buying,
        clock,
        costs,
        deliveries,
        duties,
        entries,
        exchange,
        filing,
        hours,
        kit,
        live,
        lots,
        outlets,
        plans,
        recipes,
        runs,
        search,
        shelf,
        stock,
        studio_settings,
        substances,
        wants,
        week_plans,
        weeks,
    )
    from api.door import devices, pairing

    makings = (recipes, filing, kit, studio_settings, runs, entries, *_results())
    plannings = (hours, plans, wants, weeks, week_plans)
    stocks = (shelf, lots, stock, outlets, deliveries, buying, costs)
    studio = (search, duties, substances, exchange, audit, clock, live, devices, pairing)
    return (*makings, *plannings, *stocks, *studio)


def _results() -> tuple[Any, ...]:
    """Those of what batches came to."""
    from api import figures, labels, pictures, records, trials

    return records, labels, pictures, figures, trials
