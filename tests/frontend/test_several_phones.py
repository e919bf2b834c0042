"""Several phones on one run: each hears of a touch on another at once, and all show one state."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page

import bench
from tests.frontend.hands import NO_COPY
from tests.frontend.phones import begin, call, entries_of, open_phone
from tests.make import make_entry
from tests.servers import Server, as_sent

pytestmark = [pytest.mark.browser, NO_COPY]

SYNC = "async () => { await studio.sync(); return { state: studio.link.state, unsent: studio.link.unsent }; }"
ALL_THERE = "([run, count]) => studio.run(run).entries.length === count && studio.link.unsent === 0"
STATE = as_sent("""async (run) => {
    const { canonical } = (await import("/app.js")).$bench_index;
    return canonical(studio.run(run).state);
}""")
HEAR = """(run) => { window.heard = new Promise((done) => {
    const look = () => studio.run(run).entries.length > 0 && done(Date.now());
    studio.addEventListener("change", look);
}); }"""
TOUCH = """async (run) => { const at = Date.now(); await studio.enter(run, "noted", { text: "touched" }); return at; }"""


@pytest.fixture
def phones(new_phone: Callable[[], BrowserContext], home: Server) -> list[Page]:
    """Two phones whose own asking is far apart, so that what they hear soon they heard by the line."""
    return [with_line(new_phone(), home) for _ in range(2)]


def with_line(context: BrowserContext, home: Server) -> Page:
    page = context.new_page()
    with page.expect_response("**/api/v1/live"):
        open_phone(page, home.url)
    return page


def test_a_run_and_a_touch_on_one_phone_are_on_the_other_within_a_second_and_a_page_unseen_holds_no_line(
    phones: list[Page],
) -> None:
    here, there = phones
    there.evaluate(
        """() => {
            const had = studio.runs.length;
            window.come = new Promise((done) =>
                studio.addEventListener("change", () => studio.runs.length > had && done(Date.now())));
        }"""
    )
    at = here.evaluate("() => Date.now()")
    run = begin(here)
    assert there.evaluate("() => come") - at < 1500

    here.evaluate(SYNC)
    there.wait_for_function("(run) => studio.run(run)", arg=run)
    took = []
    for _ in range(3):
        there.evaluate("(run) => { window.before = studio.run(run).entries.length; }", run)
        there.evaluate(HEAR.replace("> 0", "> before"), run)
        touched = here.evaluate(TOUCH, run)
        took.append(there.evaluate("() => heard") - touched)
    assert max(took) < 1000, took

    with here.expect_event("requestfailed", lambda request: request.url.endswith("/live")):
        here.evaluate(
            """() => {
                Object.defineProperty(document, "visibilityState", { value: "hidden", configurable: true });
                document.dispatchEvent(new Event("visibilitychange"));
            }"""
        )


def test_with_no_line_a_phone_asks_by_itself(
    new_phone: Callable[[], BrowserContext], home: Server, phones: list[Page]
) -> None:
    here, _ = phones
    run = begin(here)
    here.evaluate(SYNC)
    context = new_phone()
    context.route("**/live", lambda route: route.fulfill(status=503))
    alone = open_phone(context.new_page(), home.url)
    alone.evaluate(HEAR, run)

    touched = here.evaluate(TOUCH, run)

    assert alone.evaluate("() => heard") - touched < 5_000


def test_ten_phones_on_one_run_are_one_state(phones: list[Page], home: Server) -> None:
    """Two of them browsers, eight that speak to the server only, all at once."""
    run = begin(phones[0])
    phones[0].evaluate(SYNC)
    phones[1].wait_for_function("(run) => studio.run(run)", arg=run)
    now = int(time.time() * 1000)
    each_sends = 5

    def send(device: str) -> None:
        for number in range(each_sends):
            entry = make_entry(run, device=device, at=now + number, body={"text": f"{device} {number}"})
            call(home, "POST", f"runs/{run}/entries", {"entries": [entry]})

    others = [threading.Thread(target=send, args=[f"phone-{number}"]) for number in range(8)]
    began = time.monotonic()
    for other in others:
        other.start()
    for phone in phones:
        for number in range(each_sends):
            phone.evaluate("([run, text]) => studio.enter(run, 'noted', { text })", [run, f"here {number}"])
    for other in others:
        other.join()
    for phone in phones:
        phone.wait_for_function(ALL_THERE, arg=[run, 10 * each_sends], timeout=10_000)
    took = time.monotonic() - began

    entries = entries_of(home, run)
    folded = bench.canonical(bench.fold(call(home, "GET", f"runs/{run}")["sheet"], entries))
    assert len({entry["id"] for entry in entries}) == len(entries) == 10 * each_sends
    assert [phone.evaluate(STATE, run) for phone in phones] == [folded, folded]
    assert took < 10
