"""The floors of what a finger waits for: a page of ours with nothing on it, in the same browser, measured alike.

A number, one button, and what a touch must do whatever the page: one entry on the disk, strictly, then the next number.
A field, and nothing that listens to it. What a figure has above its floor is the page's own doing.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Page

from tests.perf.browser_figures import page_at

BARE = """<!doctype html>
<title>bare</title>
<style>button { width: 100%; height: 80px; touch-action: manipulation; } .number { font-size: 120px; }</style>
<p class="number">0</p>
<answer-row><button class="copper">Another</button></answer-row>
<input data-at="amount">
<script>
const number = document.querySelector(".number");
const opening = indexedDB.open("bare", 1);
opening.onupgradeneeded = () => opening.result.createObjectStore("entries", { keyPath: "id" });
opening.onsuccess = () => { document.body.dataset.open = ""; };
let count = 0;
document.querySelector("button").addEventListener("touchend", (event) => {
    event.preventDefault();
    const id = count + 1;
    const write = opening.result.transaction("entries", "readwrite", { durability: "strict" });
    write.objectStore("entries").put({ id, at: Date.now(), kind: "counted", body: { good: 1 } });
    write.oncomplete = () => { count = id; number.firstChild.nodeValue = String(count); };
});
</script>
"""


@contextmanager
def bare_page() -> Iterator[Page]:
    with page_at("", load=False, touch=True) as page:
        page.route("**/*", lambda route: route.fulfill(body=BARE, content_type="text/html"))
        page.goto("http://localhost/")  # an origin, which a disk wants
        page.wait_for_selector("[data-open]")
        yield page


def beside(value: float, floor: float) -> float:
    """The value, once it was told beside its floor."""
    told = {"value": round(value, 1), "floor": round(floor, 1), "ratio": round(value / floor, 2)}
    print(json.dumps(told), file=sys.stderr)
    return value
