from __future__ import annotations

import pytest

from tests.api.shelf_kills import faults_after


@pytest.mark.slow
def test_a_few_kills_lose_nothing_that_two_devices_were_told_is_kept() -> None:
    faults, kept = faults_after(kills=3, seed=7)

    assert faults == []
    assert kept > 0
