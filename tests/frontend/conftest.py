"""Fixtures for every test of the page."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.frontend.phones import studio_server
from tests.servers import Server


@pytest.fixture
def faultless(page: Page) -> Iterator[None]:
    """A fault of the page's scripts fails the test."""
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    yield
    assert faults == []


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The server of a studio with the one recipe, for all tests of a file."""
    server = studio_server(tmp_path_factory.mktemp("home") / "studio.sqlite3")
    yield server
    server.stop()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """The same, a studio of its own for each test."""
    server = studio_server(tmp_path / "studio.sqlite3")
    yield server
    server.kill()
