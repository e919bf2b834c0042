"""Every prompt of the demo's three-part recipe, drawn at each shape of phone: what a maker could not see of it.

No server and no clock: the page's own screen is given its data, moment by moment (sight.js).
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

from playwright.sync_api import Browser, Page, Route, ViewportSize

import bench
from api import page_words
from bench import words
from tests.often import often

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
FRONTEND = ROOT / "frontend"
ORIGIN = "http://bowlside.test"
TYPES = {".js": "text/javascript", ".css": "text/css", ".html": "text/html", ".svg": "image/svg+xml"}
THREE_PARTS = "fizzing-base-embed-whipped-top.json"


class Shape(NamedTuple):
    width: int
    height: int
    text_percent: int = 100
    edges: tuple[int, int] = (0, 0)  # what the phone keeps above and below: a notch, a bar to swipe

    def __str__(self) -> str:
        more = f" at {self.text_percent} %" if self.text_percent > 100 else ""
        return f"{self.width}x{self.height}" + more + (" with a notch" if self.edges[0] else "")


SHAPES = [
    Shape(390, 844),
    Shape(844, 390),
    Shape(667, 375),
    Shape(360, 640),
    Shape(320, 568),
    Shape(390, 844, text_percent=200),
    Shape(390, 844, edges=(47, 34)),
]


def sheet_of(name: str = THREE_PARTS) -> dict[str, Any]:
    """A demo recipe's sheet at the size it was written for, on the demo's kit."""
    recipe = bench.read_recipe(json.loads((ROOT / "demo/recipes" / name).read_text("utf-8")))
    kit = bench.read_kit(json.loads((ROOT / "demo/kit.json").read_text("utf-8")))
    request = {"by": "pieces", "pieces": recipe["written_for"]}
    return bench.make_sheet(
        recipe, {"id": "walk", "version": 1}, bench.choose_size(recipe, kit, request)["size"], kit
    )


@contextmanager
def drawing(browser: Browser, tongue: str | words.Language = words.DEFAULT) -> Iterator[Page]:
    """A page with the bench's parts and styles in a language, and nothing of the app's."""

    def serve_in(route: Route) -> None:
        with words.speaking(tongue):  # a page asks in a context of its own
            serve(route)

    page = browser.new_page(reduced_motion="reduce")
    page.route(f"{ORIGIN}/**", serve_in)
    page.goto(f"{ORIGIN}/")
    page.evaluate("async () => { window.sight = await import('/sight.js'); sight.open(); }")
    yield page
    page.close()


def serve(route: Route) -> None:
    path = route.request.url.removeprefix(ORIGIN).lstrip("/") or "index.html"
    file = HERE / path if path == "sight.js" else FRONTEND / path
    text = page_words.as_it_is(file).replace('<script type="module" src="app.js"></script>', "")
    route.fulfill(content_type=TYPES.get(file.suffix, "text/plain"), body=text)


# What is so already stays untouched: the whole page is laid out anew for each. Gives the text size it was given.
SET_EDGES = """edges => {
    const { style } = document.documentElement;
    for (const [name, value] of Object.entries(edges))
        if (style.getPropertyValue(name) !== value) style.setProperty(name, value);
    return window.takenSize;
}"""
DRAWN = """size => {
    window.takenSize = size;
    return new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
}"""


def take(page: Page, shape: Shape) -> None:
    """Give the page a phone's shape, and the text size its owner has chosen in the browser."""
    sides = zip(("top", "bottom"), shape.edges, strict=True)
    had = page.evaluate(SET_EDGES, {f"--safe-{side}": f"{px}px" for side, px in sides})
    page.set_viewport_size(ViewportSize(width=shape.width, height=shape.height))
    size = round(16 * shape.text_percent / 100)
    if size != had:
        session = page.context.new_cdp_session(page)
        session.send("Page.setFontSizes", {"fontSizes": {"standard": size, "fixed": size}})
        session.detach()
    page.evaluate(DRAWN, size)


def record(page: Page, sheet: dict[str, Any]) -> int:
    """Walk through a making of the sheet; how many prompts there were."""
    count: int = page.evaluate("sheet => (window.moments = sight.record(sheet)).length", sheet)
    return count


# Each prompt stands with what can be undone, and with what can be done again besides: at each shape with one of them, so
# that the next shape has the other, or with both.
LOOK = """([turn, isBoth]) => Object.fromEntries(moments.map((moment, place) => {
    const rows = isBoth ? [false, true] : [(place + turn) % 2 > 0];
    const found = rows.map((isUndone) => {
        sight.draw(moment, [], undefined, isUndone);
        return sight.outOfSight();
    });
    return [moment.name, found.flat()];
}).filter(([, found]) => found.length))"""


def out_of_sight(page: Page, shape: Shape) -> dict[str, list[list[str]]]:
    """By prompt, what of it is cut or hidden at this shape: [what, its words, why]; the pad as a prompt of its own."""
    take(page, shape)
    found: dict[str, list[list[str]]] = page.evaluate(LOOK, [SHAPES.index(shape), often(few=0, many=1)])
    if pad := page.evaluate("() => sight.padOutOfSight(moments)"):
        found["the pad"] = pad
    return found


def out_of_sight_now() -> str:
    """A script for a page of the app's: what of the prompt that stands there is cut or hidden."""
    source = (HERE / "sight.js").read_text("utf-8")
    measure = source[
        source.index("/** What of a prompt must be seen") : source.index("/** The same of the pad")
    ]
    return f"() => {{ const screen = document; {measure.replace('export ', '')} return outOfSight(); }}"


WATCH_SHIFTS = """
    window.shifted = 0;
    new PerformanceObserver((list) => {
        for (const { value, hadRecentInput } of list.getEntries()) if (!hadRecentInput) window.shifted += value;
    }).observe({ type: "layout-shift", buffered: true });
"""
STILL = """async () => {
    const frames = (count) => new Promise((done) => {
        const next = () => (count-- ? requestAnimationFrame(next) : done());
        next();
    });
    await frames(30);
    return window.shifted;
}"""


@contextmanager
def shifted_at(
    browser: Browser, url: str, shape: Shape, slowdown: int = 1
) -> Iterator[tuple[Page, Callable[[], float]]]:
    """A first visit, and how far what stood on the page was moved by what came, as browsers reckon it."""
    context = browser.new_context(viewport=ViewportSize(width=shape.width, height=shape.height))
    context.add_init_script("delete Navigator.prototype.serviceWorker")
    context.add_init_script(WATCH_SHIFTS)
    page = context.new_page()
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slowdown})
    page.goto(url)
    yield page, lambda: float(page.evaluate(STILL))
    context.close()
