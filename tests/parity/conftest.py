"""A browser page in which frontend/bench runs, served from the files with no server."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from api import page_words
from bench import words

HERE = Path(__file__).parent
FRONTEND = HERE.parents[1] / "frontend"
ORIGIN = "http://bowlside.test"

InBrowser = Callable[..., list[str]]


def table_of(tongue: str) -> dict[str, Any]:
    """All the words of a language, as the page has them."""
    language = words.language(tongue)
    messages = {key: language.pattern(key) for key in language.keys()}
    return {"language": tongue, "point": language.point, "languages": {}, "messages": messages}


@pytest.fixture(scope="module")
def in_browser(browser: Any) -> Iterator[InBrowser]:
    """in_browser("batch", cases) -> the canonical JSON of each result, as the page computes it.

    A third argument is the language that it is worded in, a fourth the units.
    """
    page = browser.new_page()

    def serve(route: Any) -> None:
        path = route.request.url.removeprefix(ORIGIN)
        file = HERE / "runner.js" if path == "/runner.js" else FRONTEND / path.lstrip("/")
        if path == "/":
            route.fulfill(content_type="text/html", body="<!doctype html><title>parity</title>")
        else:
            route.fulfill(content_type="text/javascript", body=page_words.as_it_is(file))

    page.route(f"{ORIGIN}/**", serve)
    page.goto(f"{ORIGIN}/")

    def run(
        name: str, cases: list[Any], tongue: str = words.DEFAULT, units: words.Units = words.METRIC
    ) -> list[str]:
        page.evaluate(
            "async ([table, units]) => { const { speak, measure } = await import('/words.js');"
            " speak(table); measure(units); }",
            [table_of(tongue), units._asdict()],
        )
        told: str = page.evaluate(
            "async ([name, cases]) => (await import('/runner.js')).run(name, cases)",
            [name, json.dumps(cases)],
        )
        results: list[str] = json.loads(told)
        return results

    yield run
    page.close()
