"""A browser page in which frontend/bench runs, served from the files with no server."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent
FRONTEND = HERE.parents[1] / "frontend"
ORIGIN = "http://bowlside.test"

InBrowser = Callable[[str, list[Any]], list[str]]


@pytest.fixture(scope="module")
def in_browser(browser: Any) -> Iterator[InBrowser]:
    """in_browser("batch", cases) -> the canonical JSON of each result, as the page computes it."""
    page = browser.new_page()

    def serve(route: Any) -> None:
        path = route.request.url.removeprefix(ORIGIN)
        file = HERE / "runner.js" if path == "/runner.js" else FRONTEND / path.lstrip("/")
        if path == "/":
            route.fulfill(content_type="text/html", body="<!doctype html><title>parity</title>")
        else:
            route.fulfill(content_type="text/javascript", body=file.read_text("utf-8"))

    page.route(f"{ORIGIN}/**", serve)
    page.goto(f"{ORIGIN}/")

    def run(name: str, cases: list[Any]) -> list[str]:
        told: str = page.evaluate(
            "async ([name, cases]) => (await import('/runner.js')).run(name, cases)",
            [name, json.dumps(cases)],
        )
        results: list[str] = json.loads(told)
        return results

    yield run
    page.close()
