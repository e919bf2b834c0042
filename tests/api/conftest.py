from __future__ import annotations

import resource
from collections.abc import Iterator
from typing import Any

import pytest

from tests.api.studio import Studio


@pytest.fixture
def studio(client: Any) -> Studio:
    return Studio(client)


@pytest.fixture
def small_disk() -> Iterator[None]:
    """No file may grow beyond 20 kB: the system's own answer, as from a full disk."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, hard))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
