"""Sheets of the first format are opened alike on the server and on the phone."""

from __future__ import annotations

from typing import Any

import pytest

from bench import canonical
from tests.former_sheets import former_runs
from tests.parity.python_side import call

pytestmark = pytest.mark.browser


def test_runs_of_the_version_before_are_opened_alike(in_browser: Any) -> None:
    asked = [
        {"call": "opened", "with": [run.sheet, recipe, entries, entries[-1]["at"]]}
        for run in former_runs()
        for recipe in (run.measured, None)
        for entries in (run.entries, run.entries[: len(run.entries) // 2])
    ]

    assert in_browser("call", asked) == [canonical(call(case)) for case in asked]
