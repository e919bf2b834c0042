"""Imports run one way: the API knows the bench by its public door, and the page not at all."""

from __future__ import annotations

import ast
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from tests.servers import ROOT

MODULES = sorted((ROOT / "api").rglob("*.py"))
BEYOND = ("bench.", "frontend", "tests")


def imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
    return names


def test_the_api_imports_the_bench_by_its_door_only() -> None:
    beyond = [(path.name, name) for path in MODULES for name in imported(path) if name.startswith(BEYOND)]

    assert len(MODULES) > 80 and beyond == []


def module_name(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imported_at_run_time(path: Path, known: set[str]) -> set[str]:
    """The modules of `known` that a file imports, inside its functions too, less what types alone need."""
    body = ast.parse(path.read_text(encoding="utf-8"))
    for_types = {
        id(each)
        for node in ast.walk(body)
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"
        for each in ast.walk(node)
    }
    names: set[str] = set()
    for node in ast.walk(body):
        if isinstance(node, ast.ImportFrom) and node.module and id(node) not in for_types:
            within = {f"{node.module}.{alias.name}" for alias in node.names}
            names |= within & known or {node.module}
        elif isinstance(node, ast.Import) and id(node) not in for_types:
            names |= {alias.name for alias in node.names}
    return names & known


@pytest.mark.parametrize("package", ["api", "bench"])
def test_no_module_needs_one_that_needs_it(package: str) -> None:
    """Not by an import inside a function either: that only hides a circle."""
    known = {module_name(path): path for path in sorted((ROOT / package).rglob("*.py"))}
    needs = {name: imported_at_run_time(path, {*known}) - {name} for name, path in known.items()}

    assert list(TopologicalSorter(needs).static_order())  # CycleError names a circle
