"""Phones for tests: a page of the right origin with a studio open on it, and a recipe to make.

The page is one of our files opened as text, so that nothing runs on it but what the test starts. It takes its modules
from the pieces that the page is sent as (api/pieces.py), so that a phone opens with no network, as the page does.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen

from playwright.sync_api import Page

from tests.servers import Server, WarmServer, as_sent, warm_bowlside

BLANK = "oldest.js"
MINUTE = 60_000
HOUR = 60 * MINUTE

RECIPE_ID = "018f0000-0000-7000-8000-000000000001"
RECIPE = {
    "format": "bowlside-recipe/1",
    "title": "Plain bar",
    "written_for": 4,
    "piece": {"one": "bar", "many": "bars"},
    "ingredients": {"butter": {"name": "Hard butter"}, "oil": {"name": "Light oil"}},
    "components": [
        {
            "id": "bar",
            "name": "Bar",
            "piece": "50 g",
            "lines": [
                {"id": "butter", "ingredient": "butter", "amount": "150 g"},
                {"id": "oil", "ingredient": "oil", "amount": "50 g"},
            ],
            "steps": [
                {"id": "fill", "kind": "weigh", "title": "Weigh the bar", "lines": ["butter", "oil"]},
                {
                    "id": "set",
                    "kind": "wait",
                    "title": "Let it set",
                    "word": "set",
                    "earliest": "1 h",
                    "usual": "2 h",
                    "latest": "12 h",
                    "stake": "It cracks when it is turned out.",
                },
            ],
        }
    ],
}

COPIED = "async () => (await navigator.serviceWorker.ready).active.state === 'activated'"
OPEN = as_sent("""async () => {
    const { openStudio } = (await import("/app.js")).$keep_studio;
    window.rings = [];
    window.studio = await openStudio();
    studio.addEventListener("ring", ({ detail }) => rings.push({ phase: detail.phase, due: detail.at, at: studio.at() }));
    window.fill = async (run) => {
        for (const { id, mg } of studio.run(run).sheet.lines) await studio.enter(run, "weighed", { line: id, mg });
    };
    window.plain = ({ recipe, size, state, unsent }) => ({ recipe, size, state, unsent });
}""")


def comes_true(page: Page, script: str, arg: Any = None, within_s: float = 30) -> None:
    """Wait until a script that may have to wait itself gives something true.

    Playwright's own `wait_for_function` takes the promise of such a script for true and never waits.
    """
    eventually(page, lambda: page.evaluate(script, arg), within_s)


def eventually(page: Page, ask: Callable[[], Any], within_s: float = 30) -> Any:
    """What was asked for, once it is there; the page goes on meanwhile."""
    deadline = time.monotonic() + within_s
    while not (told := ask()):
        assert time.monotonic() < deadline, f"it did not come true in {within_s} s"
        page.wait_for_timeout(20)
    return told


def studio_server(database: Path) -> WarmServer:
    """The real server with the one recipe in it."""
    server = warm_bowlside(database).start()
    call(server, "PUT", f"recipes/{RECIPE_ID}", RECIPE)
    return server


def call(server: Server, method: str, path: str, body: Any = None) -> Any:
    """One call to the API from outside any browser."""
    request = Request(
        f"{server.url}api/v1/{path}",
        method=method,
        data=None if body is None else json.dumps(body).encode(),
        headers={"Content-Type": "application/json"},
    )
    with urlopen(request) as response:
        return json.load(response)


def entries_of(server: Server, run: str) -> list[dict[str, Any]]:
    return call(server, "GET", f"runs/{run}/entries?limit=1000")["entries"]


def open_phone(page: Page, url: str, *, synced: bool = True) -> Page:
    """A phone with its studio open as `studio`; synced: it has heard the server once."""
    page.goto(url + BLANK)
    page.evaluate(OPEN)
    if synced:
        page.evaluate("() => studio.sync()")
        assert page.evaluate("() => studio.link.state") == "online", page.evaluate("() => studio.link")
    return page


def begin(page: Page, pieces: int = 4) -> str:
    """A new run on this phone."""
    run: str = page.evaluate(
        as_sent("""async (pieces) => {
            const { chooseSize } = (await import("/rest.js")).$bench_sheet_index;
            const recipe = studio.recipes[0];
            return studio.begin(recipe, chooseSize(recipe.measured, studio.kit, { by: "pieces", pieces }).size);
        }"""),
        pieces,
    )
    return run
