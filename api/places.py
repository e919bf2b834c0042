"""Where the page, the demo studio and the migrations are.

A wheel carries the first two inside this package; in a checkout they stand beside it.
"""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parent
MIGRATIONS = PACKAGE / "migrations"


def _carried(name: str) -> Path:
    installed = PACKAGE / f"_{name}"
    return installed if installed.is_dir() else PACKAGE.parent / name


FRONTEND = _carried("frontend")
DEMO = _carried("demo")
