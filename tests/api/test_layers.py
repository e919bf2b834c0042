"""Imports run one way: the API knows the bench by its public door, and the page not at all."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.servers import ROOT

MODULES = sorted((ROOT / "api").rglob("*.py"))


def imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return names


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.name)
def test_the_api_imports_the_bench_by_its_door_only(path: Path) -> None:
    assert not {name for name in imported(path) if name.startswith(("bench.", "frontend", "tests"))}
