"""From a finger's lifting to the painted answer in a real browser: of the bench, and of a bare page beside it."""

from __future__ import annotations

from playwright.sync_api import Page

from tests.perf.browser_figures import (
    ENTRIES,
    SLOWDOWN,
    WAITS,
    begin_beside,
    devtools,
    page_at,
    served,
)
from tests.perf.floors import bare_page, beside
from tests.perf.registry import figure

TOUCHES = 200
ONE_TOUCH_MS = 420  # a piece counted twice in less is one touch
# From the finger's lifting to the end of the frame that shows another number. A message that a frame posts comes once it
# is drawn, so what changed before is in it.
WATCH_TOUCHES = """() => {
    window.took = [];
    let lifted = 0;
    let changed = 0;
    addEventListener("pointerup", ({ timeStamp }) => { lifted = timeStamp; }, true);
    new MutationObserver(() => { changed = lifted; lifted = 0; }).observe(
        document.querySelector(".number"), { subtree: true, childList: true, characterData: true });
    const drawn = new MessageChannel();
    drawn.port1.onmessage = () => {
        if (changed) took.push(performance.now() - changed);
        changed = 0;
    };
    const frame = () => { drawn.port2.postMessage(null); requestAnimationFrame(frame); };
    frame();
}"""


def p98(took: list[float]) -> float:
    return sorted(took)[min(len(took) - 1, int(len(took) * 0.98))]


@figure("touch to painted answer, CPU slowed 6x, 8 waits, 500 entries, four batches open, p98", "<= 60 ms")
def touch_to_paint_ms() -> float:
    """Touches that each count one piece, until the frame in which the count stands, which may not be the first."""
    with served(WAITS, ENTRIES) as (server, run), page_at(server.url, touch=True, load=False) as page:
        for _ in range(3):
            begin_beside(server, run)
        page.goto(f"{server.url}#/bench/{run}")
        page.wait_for_selector("answer-row .copper")
        page.wait_for_load_state("networkidle")
        ours = p98(touched(page))
    with bare_page() as page:
        return beside(ours, p98(touched(page)))


def touched(page: Page) -> list[float]:
    """What each of many touches took, in ms."""
    devtools(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
    page.evaluate(WATCH_TOUCHES)
    counted = int(page.locator(".number").inner_text())
    for touch in range(TOUCHES):
        page.locator("answer-row .copper").tap()
        page.wait_for_function(
            "count => document.querySelector('.number').textContent.trim() === String(count)",
            arg=counted + touch + 1,
            timeout=10_000,
        )
        page.wait_for_timeout(ONE_TOUCH_MS)
    took: list[float] = page.evaluate("took")
    assert len(took) == TOUCHES
    return took
