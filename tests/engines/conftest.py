"""One studio and one session of an engine for all the checks of a file."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.engines.checks import PLAIN, PLAIN_ID
from tests.frontend.phones import call
from tests.servers import Server, demo_open


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The demo studio, with a recipe of one part beside it."""
    server = demo_open(tmp_path_factory.mktemp("studio") / "studio.sqlite3")
    call(server, "PUT", f"recipes/{PLAIN_ID}", PLAIN)
    yield server
    server.kill()
