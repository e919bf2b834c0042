"""Random hands on the real page (touching.js): four batches, a slow network, saves that hang, and Back."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from tests.make import uuid4
from tests.perf.browser_figures import ROOMY, many_waits, put
from tests.servers import Server

DRIVER = Path(__file__).with_name("touching.js").read_text()
HERE = """async runs => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    while ((await store.runs(runs)).runs.length < runs.length) await new Promise((go) => setTimeout(go, 20));
    store.close();
}"""
BATCHES = 4
PIECES = 1_000


def four_batches(server: Server) -> list[str]:
    recipe = uuid4()
    put(server, f"recipes/{recipe}", many_waits(["10 h", "8 h"]))
    runs = [str(uuid4()) for _ in range(BATCHES)]
    for run in runs:
        begun = {"recipe": {"id": recipe, "version": 1}, "size": {"pieces": PIECES}, "kit": ROOMY}
        put(server, f"runs/{run}", begun)
    return runs


def touch_at_random(page: Page, server: Server, touches: int, seed: int) -> dict[str, Any]:
    """@returns what was told, and what was lost, missing or added of it."""
    runs = four_batches(server)
    page.route("**/touching.js", lambda route: route.fulfill(body=DRIVER, content_type="text/javascript"))
    page.goto(f"{server.url}#/bench/{runs[0]}")
    page.wait_for_selector("answer-row button")
    page.evaluate(HERE, runs)
    told: dict[str, Any] = page.evaluate(
        "async asked => (await import('/touching.js')).touchAtRandom(asked)",
        {"seed": seed, "touches": touches, "runs": runs},
    )
    return told
