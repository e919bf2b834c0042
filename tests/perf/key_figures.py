"""What a key costs in a real browser, and when its meaning stands: amounts in the editor, readings on the pad.

CPU is the main thread's own time (Performance metrics over CDP, in thread ticks) from one key to the next, at full speed
and times 6: a browser that is told to be slow spins by the clock, and so counts what else the machine does as its own.
That both give the same on a machine at rest was not tried. A text is typed in many fields; each of its keys counts by its
median over them, and the figure is the dearest key: what a key costs by nature is in every field, and a moment that
another program took from the core is not. Frames are the page's own, with the CPU slowed 6x, from the key to the last word that
follows it: 1 is the next one, and nothing comes after.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from statistics import median

from playwright.sync_api import CDPSession, Page

from tests.make import make_recipe, make_run, uuid4
from tests.perf.browser_figures import (
    ROOMY,
    SLOWDOWN,
    WAITS,
    begin_beside,
    devtools,
    metric,
    page_at,
    put,
    served,
)
from tests.perf.floors import bare_page, beside
from tests.perf.registry import figure

TYPED = "8 1/2 oz and more, or 240.25 g"
READING = "104812"
KEYSTROKE_MS = 120  # a quick typist
AMOUNTS = 10
READINGS = 30
# Counts, for each key, the frames until the last change of what is said of it: beside the field that is typed in, or
# where the selector says. What it changes in other lines is said when the hand rests, and not counted.
WATCH_FRAMES = """said => {
    window.late = [];
    let frame = 0;
    let at = null;
    const count = () => { frame += 1; requestAnimationFrame(count); };
    requestAnimationFrame(count);
    addEventListener("keydown", () => { at = frame; late.push(0); }, true);
    new MutationObserver((changes) => {
        const own = document.getElementById(document.activeElement.getAttribute("aria-describedby") ?? "");
        const isSaid = ({ target }) =>
            own?.contains(target) || (target.closest ? target : target.parentElement)?.closest(said);
        if (at !== null && changes.some(isSaid)) late[late.length - 1] = frame - at;
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
}"""


def typed(
    page: Page, session: CDPSession, texts: list[str], begin: Callable[[int], None]
) -> list[list[float]]:
    """What each key of each text cost the main thread until the next, in ms of a phone that is 6x slower."""
    took = []
    for place, text in enumerate(texts):
        begin(place)
        took.append([])
        for char in text:
            before = metric(session, "TaskDuration")
            page.keyboard.press(char)
            page.wait_for_timeout(KEYSTROKE_MS)
            took[-1].append((metric(session, "TaskDuration") - before) * 1000 * SLOWDOWN)
    return took


def dearest(took: list[list[float]]) -> float:
    """The key of a text that costs most, each by its median over all the times that the text was typed."""
    return max(median(times) for times in zip(*took, strict=True))


def measured(page: Page) -> CDPSession:
    session = devtools(page)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    return session


@contextmanager
def editing() -> Iterator[tuple[Page, Callable[[int], None]]]:
    """A recipe of sixty amounts in the editor, and what empties one of them to be typed over."""
    with served(waits=1, entries=0) as (server, _run), page_at(server.url, load=False) as page:
        recipe = uuid4()
        put(server, f"recipes/{recipe}", make_recipe(lines=60))
        page.goto(f"{server.url}#/recipe/{recipe}")

        def begin(line: int) -> None:
            amount = page.locator(f'[data-at="components.0.lines.{line}.amount"]')
            amount.fill("")
            page.wait_for_timeout(1_000)  # what its maker left the field with has been said by now

        begin(0)
        yield page, begin


@contextmanager
def reading() -> Iterator[tuple[Page, Callable[[int], None]]]:
    """The pad over a bench where a line is weighed, beside four open batches, and what opens it empty."""
    with served(WAITS, 500) as (server, run), page_at(server.url, load=False) as page:
        for _ in range(3):
            begin_beside(server, run)
        recipe, weighing = uuid4(), uuid4()
        put(server, f"recipes/{recipe}", make_recipe(lines=60))
        put(server, f"runs/{weighing}", make_run({"id": recipe, "version": 1}) | {"kit": ROOMY})
        page.goto(f"{server.url}#/bench/{weighing}")
        page.wait_for_selector("answer-row .copper")
        page.wait_for_load_state("networkidle")

        def begin(_place: int) -> None:
            if page.locator("dialog").count():
                page.keyboard.press("Escape")
            page.get_by_role("button", name="It reads something else").click()
            page.wait_for_selector("dialog.pad")

        yield page, begin


@figure("keystroke to meaning, CPU per key, 60 amounts in the editor, times 6, dearest key", "<= 60 ms")
def editor_key_ms() -> float:
    with editing() as (page, begin):
        ours = dearest(typed(page, measured(page), [TYPED] * AMOUNTS, begin))
    with bare_page() as page:

        def empty(_place: int) -> None:
            page.locator("input").fill("")

        return beside(ours, dearest(typed(page, measured(page), [TYPED] * AMOUNTS, empty)))


@figure("keystroke to meaning, CPU per key, the bench's number pad, times 6, dearest key", "<= 60 ms")
def pad_key_ms() -> float:
    with reading() as (page, begin):
        return dearest(typed(page, measured(page), [READING] * READINGS, begin))


@figure(
    "keystroke to meaning, frames until its last word stands, editor and pad, CPU slowed 6x, worst", "<= 1"
)
def key_frames() -> float:
    worst = 0
    for opened, said, text in (
        (editing, "dialog", TYPED),
        (reading, ".pad-shown, .pad-off, .copper", READING),
    ):
        with opened() as (page, begin):
            session = measured(page)
            session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
            begin(0)
            page.evaluate(WATCH_FRAMES, said)
            for place in range(3):
                begin(place)
                page.evaluate("() => { late = []; }")
                typed(page, session, [text], lambda _place: None)
                worst = max(worst, *page.evaluate("() => late"))
    return worst
