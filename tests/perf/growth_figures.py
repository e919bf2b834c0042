"""What a studio costs when it has grown: the server at 5,000 runs against 10, and a new phone at 2,000 runs.

The rows are made by a script, as the journals would have left them (tests/studios.py).
"""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Page
from playwright.sync_api import Request as BrowserRequest

from tests.perf.browser_figures import browsing, devtools
from tests.perf.http_figures import Client
from tests.perf.registry import figure
from tests.servers import bowlside
from tests.studios import grown_studio

FEW, MANY = 10, 5_000
ROUNDS, ASKED = 9, 20
SLOWDOWN = 4
LISTED = {
    "the first page of runs": "/runs?page_size=10",
    "the last page of runs": "/runs?page_size=10&page={last}",
    "the first page of figures": "/figures?page_size=10",
    "the last page of figures": "/figures?page_size=10&page={last}",
    "the last batches of each recipe, in figures": "/figures/by-recipe",
    "a page of lots": "/lots?page_size=20",
    "a page of ingredients": "/ingredients?page_size=20",
    "a page of recipes": "/recipes?page_size=20",
    "the trace of a lot": "/lots/lot-3/trace?page_size=10",
    "the recall of a lot": "/lots/lot-3/recall?rehearsal=true&page_size=10",
    "a search for a word that most have": "/search?q=bath",
    "a search for one batch number": "/search?q=G-00004",
    "a search for a word of one note": "/search?q=remark-00004",
    "a search for what nothing has": "/search?q=zzyzx",
}


def _ratio_of(asked: str) -> float:
    return _ratios()[asked]


for _asked in LISTED:
    figure(f"server at {MANY:,} runs / at {FEW}, time: {_asked}", "<= 2")(
        lambda asked=_asked: _ratio_of(asked)  # type: ignore[misc]
    )


@cache
def _ratios() -> dict[str, float]:
    """Each question's time at many runs over its time at few: the median of rounds taken in turn."""
    with ExitStack() as stack:
        sides = [
            stack.enter_context(_serving(runs, runs // 50, max(FEW, runs // 50))) for runs in (FEW, MANY)
        ]
        found = {}
        for asked, path in LISTED.items():
            took: list[list[float]] = [[], []]
            for _ in range(ROUNDS + 1):
                for (url, last), side in zip(sides, took, strict=True):
                    client = Client(url)  # a line that rested meanwhile may have been closed
                    client.ask("GET", "/api/v1/clock")
                    began = time.perf_counter()
                    for _ in range(ASKED):
                        client.ask("GET", "/api/v1" + path.format(last=last))
                    side.append(time.perf_counter() - began)
            few, many = (statistics.median(side[1:]) for side in took)
            found[asked] = many / few
        return found


@contextmanager
def _serving(runs: int, recipes: int, lots: int) -> Iterator[tuple[str, int]]:
    with TemporaryDirectory() as folder:
        file = Path(folder) / "studio.sqlite3"
        grown_studio(file, runs=runs, recipes=recipes, lots=lots, whole=0)
        server = bowlside(file).start()
        try:
            yield server.url, (runs + 3) // 10
        finally:
            server.stop()


GROWN = "500 recipes, 2,000 runs, 300 lots, 20,000 pieces"


@figure(f"{GROWN}: a new phone's requests until it rests", "<= 25")
def new_phone_requests() -> float:
    return _new_phone()["requests"]


@figure(f"{GROWN}: what a new phone is sent, compressed, MB of 10^6", "<= 1")
def new_phone_mb() -> float:
    return _new_phone()["mb"]


@figure(f"{GROWN}: a new phone's network is quiet after, CPU slowed 4x", "<= 5 s")
def new_phone_quiet_s() -> float:
    return _new_phone()["quiet_s"]


@figure(f"{GROWN}: home drawn again, CPU slowed 4x", "<= 0.3 s")
def home_again_s() -> float:
    return _new_phone()["again_s"]


# Home as it is left for another page and come back to; the longest of the drawing is what a maker waits for.
AGAIN = """async () => {
    const frame = () => new Promise((go) => requestAnimationFrame(() => setTimeout(go)));
    const took = [];
    for (let turn = 0; turn < 5; turn += 1) {
        location.hash = "#/kit";
        while (!document.querySelector("kit-screen")) await frame();
        await frame();
        const began = performance.now();
        location.hash = "#/";
        while (!document.querySelector("recipes-screen .recipe")) await frame();
        await frame();
        took.push(performance.now() - began);
    }
    return took.sort((one, other) => one - other)[2] / 1000;
}"""
# Longer than a busy machine takes to keep a page of recipes before it asks for the next.
QUIET_MS = 10_000


@cache
def _new_phone() -> dict[str, float]:
    """The page's own files count as requests and bytes too."""
    with TemporaryDirectory() as folder, browsing() as browser:
        file = Path(folder) / "studio.sqlite3"
        grown_studio(file, runs=2_000, recipes=500, lots=300, whole=60)
        server = bowlside(file).start()
        try:
            page = browser.new_page(viewport={"width": 390, "height": 844})
            devtools(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
            found = _first_visit(page, server.url)
            found["again_s"] = page.evaluate(AGAIN)
            return found
        finally:
            server.stop()


def _first_visit(page: Page, url: str) -> dict[str, float]:
    """Until nothing was on the wire for ten seconds; the line that stays open for news is no question."""
    sent: list[tuple[float, str, int]] = []

    def note(each: BrowserRequest) -> None:
        if "/live" not in each.url:
            sent.append((time.monotonic(), each.url, each.sizes()["responseBodySize"]))

    page.on("requestfinished", note)
    began = time.monotonic()
    page.goto(url, timeout=0)  # on a busy machine too
    page.wait_for_selector(".recipe", timeout=0)
    while time.monotonic() - max(at for at, _, _ in sent) < QUIET_MS / 1000:
        page.wait_for_timeout(100)
    page.remove_listener("requestfinished", note)
    counted: dict[str, int] = {}
    for _, address, _ in sent:
        path = address.partition("?")[0].removeprefix(url)
        name = "/".join(part if len(part) < 30 else "…" for part in path.split("/"))
        counted[name] = counted.get(name, 0) + 1
    print(json.dumps(counted), flush=True)
    return {
        "requests": float(len(sent)),
        "mb": sum(size for _, _, size in sent) / 1e6,
        "quiet_s": max(at for at, _, _ in sent) - began,
    }
