from __future__ import annotations

from typing import Any

import pytest

from tests.api.studio import Studio


@pytest.fixture
def studio(client: Any) -> Studio:
    return Studio(client)
