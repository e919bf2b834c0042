"""Histories that once showed a fault, or that come close to one: each must stay whole."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.chaos.__main__ import Stage
from tests.chaos.history import History

KEPT = sorted((Path(__file__).parent / "kept").glob("*.json"))

pytestmark = [pytest.mark.slow, pytest.mark.browser]


@pytest.fixture(scope="module")
def stage(browser: Browser) -> Iterator[Stage]:
    with ExitStack() as stack:
        yield Stage(stack, browser)


@pytest.mark.parametrize("kept", KEPT, ids=lambda kept: kept.stem)
def test_a_kept_history_stays_whole(stage: Stage, kept: Path) -> None:
    assert stage.play(History.from_json(kept.read_text())).faults == []
