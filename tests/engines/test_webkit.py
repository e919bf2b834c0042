"""The page in WebKit, as checks.py has it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.engines.checks import Checks
from tests.engines.engine import Engine, webkit
from tests.servers import Server

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def engine(studio: Server, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Engine]:
    with webkit(tmp_path_factory.mktemp("webkit")) as engine:
        yield engine


class TestWebKit(Checks):
    """Every check, in WebKit."""
