"""What the tests of the shelf's pages share: a phone on the page itself, with a shelf of their own."""

from __future__ import annotations

import time
from typing import Any

from playwright.sync_api import Page, ViewportSize, expect

from tests.frontend.hands import carry_on
from tests.frontend.sight import Shape, take
from tests.servers import Server

SIZES: list[ViewportSize] = [
    {"width": 360, "height": 640},
    {"width": 390, "height": 844},
    {"width": 1180, "height": 820},
]
KG = 1_000_000
DETECTOR = """
    window.stopped = 0;
    window.BarcodeDetector = class { async detect() { return [{ rawValue: window.seen }]; } };
    navigator.mediaDevices.getUserMedia = async (asked) => {
        window.asked = asked;
        const stream = Object.assign(document.createElement("canvas"), { width: 8, height: 8 }).captureStream(5);
        for (const track of stream.getTracks()) {
            const stop = track.stop.bind(track);
            track.stop = () => { window.stopped += 1; stop(); };
        }
        return stream;
    };
"""


def open_page(page: Page, server: Server) -> Page:
    """The page, with the recipes of its server heard."""
    carry_on(page)
    page.goto(server.url)
    expect(page.locator(".recipe")).not_to_have_count(0)
    return page


def go(page: Page, address: str) -> None:
    page.evaluate("address => { location.hash = address }", address)


def card(ingredient: str, name: str, **more: Any) -> dict[str, Any]:
    return {"kind": "described", "body": {"ingredient": ingredient, "card": {"name": name, **more}}}


def lot(key: str, ingredient: str, mg: int, **more: Any) -> dict[str, Any]:
    body = {
        "lot": key,
        "ingredient": ingredient,
        "number": key.upper(),
        "mg": mg,
        "received_on": "2026-01-05",
        **more,
    }
    return {"kind": "received", "body": body}


def stock(page: Page, *entries: dict[str, Any]) -> None:
    """Put entries on the phone's shelf, as its page would."""
    go(page, "#/shelf")
    shelf = page.locator("shelf-screen")
    expect(shelf).to_be_visible()
    shelf.evaluate(
        """(screen, entries) => screen.dispatchEvent(
             new CustomEvent("shelf-written", { bubbles: true, detail: { entries, says: "Stocked." } }))""",
        list(entries),
    )
    expect(shelf.get_by_role("status")).to_have_text("Stocked.")


def begin_bars(page: Page) -> str:
    """A run of the one recipe (150 g butter and 50 g oil for four bars); gives its id."""
    go(page, "#/")
    page.locator("a.recipe").click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("bench-screen")).to_be_visible()
    run: str = page.evaluate("location.hash.split('/')[2]")
    return run


def enter(page: Page, *entries: tuple[str, dict[str, Any]]) -> None:
    """Entries of the run whose page stands there."""
    for kind, body in entries:
        before = page.evaluate(KEPT_OF, kind)
        page.locator("#page > *").evaluate(
            """(screen, detail) => screen.dispatchEvent(new CustomEvent("answer", { bubbles: true, detail }))""",
            {"kind": kind, "body": body},
        )
        deadline = time.monotonic() + KEPT_WITHIN_S
        while page.evaluate(KEPT_OF, kind) <= before:
            assert time.monotonic() < deadline, f"{kind} was not kept"


KEPT_WITHIN_S = 30
# Of its kind alone: a batch that is begun writes an entry of its own beside them.
KEPT_OF = """async (kind) => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    const { entries } = await store.read("entries");
    store.close();
    return entries.filter((each) => each.kind === kind).length;
}"""


LARGE = [Shape(390, 844, 200), Shape(320, 568, 200), Shape(844, 390)]
# What is written in a field and runs out of it, and a text that is wider than the screen, though it be in a table that
# can be moved aside.
CUT = """() => {
    const fields = [...document.querySelectorAll("#page :is(textarea, input[type=text])")];
    const texts = [...document.querySelectorAll("#page :is(p, li, h1, h2, th > div)")];
    return [
        ...fields.filter((field) => field.scrollWidth > field.clientWidth + 1).map(({ value }) => value),
        ...texts.filter((text) => text.offsetWidth > innerWidth).map((text) => text.textContent),
    ];
}"""


def cut_when_large(page: Page) -> list[str]:
    """What is cut or runs off the screen at twice the text and on its side; the page is left as it was."""
    size, found = page.viewport_size, []
    for shape in LARGE:
        take(page, shape)
        found += [f"{shape}: {each}" for each in page.evaluate(CUT)]
        found += [f"{shape} scrolls sideways"] if overflowing(page) else []
    if size:
        take(page, Shape(size["width"], size["height"]))
    return found


def overflowing(page: Page) -> bool:
    wide: bool = page.evaluate("document.documentElement.scrollWidth > innerWidth")
    return wide
