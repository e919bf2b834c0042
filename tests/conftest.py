"""Fixtures for every kind of test: the application on a database of its own, a clock that stands
still, the real server as a process, and the browser.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from api import create_app, store
from api.settings import Settings
from api.tables import db
from tests.make import Clock
from tests.servers import Server, bowlside

BROWSER_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database with its tables and nothing in them, made once and copied by each test."""
    database = tmp_path_factory.mktemp("empty") / "bowlside.sqlite3"
    app = create_app(Settings(database=database))
    store.migrate(app)
    with app.app_context():
        db.engine.dispose()  # the last connection writes all of the WAL into the file
    return database


@pytest.fixture
def app(tmp_path: Path, empty_database: Path, clock: Clock) -> Any:
    database = tmp_path / "bowlside.sqlite3"
    shutil.copy(empty_database, database)
    return create_app(Settings(database=database, clock_ms=clock))


@pytest.fixture
def client(app: Any) -> Any:
    return app.test_client()


@pytest.fixture
def live_server(tmp_path: Path) -> Iterator[Server]:
    """The real server with the demo studio: `.url`, `.kill()` (-9), `.stop()` and `.start()` again."""
    server = bowlside(tmp_path / "bowlside.sqlite3", "--demo").start()
    yield server
    server.stop()


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any], playwright: Any) -> dict[str, Any]:
    return {**browser_type_launch_args, "args": BROWSER_FLAGS, "executable_path": system_browser(playwright)}


def system_browser(playwright: Any) -> str | None:
    """The system's Chromium, or None where Playwright has its own."""
    if Path(playwright.chromium.executable_path).exists():
        return None
    return shutil.which("chromium") or shutil.which("chromium-browser")
