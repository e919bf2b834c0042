"""What a page costs that stays open on a run for a week."""

from __future__ import annotations

import time
from datetime import UTC, datetime

from playwright.sync_api import CDPSession, Page

from tests.perf.browser_figures import HOUR, devtools, page_at, served
from tests.perf.registry import figure

WEEK_HOURS = 7 * 24
# The heap still settles in the first hours; in these one wait rings, so that what is made once, at the first
# ring of a page's life, is in the start. The other three ring within the week.
WARM_HOURS = 24
FIRST_RING = "8 h"
ENTRIES = 200
# What the engine compiles for speed lies in the same heap, comes by how often something ran, and is not ours to
# keep or let go: without this it was all of what a week added (200 of 217 kB, by a heap snapshot).
NO_MACHINE_CODE = "--js-flags=--jitless"


@figure("JavaScript heap after a week with the page open on a run / at its start", "<= 1.05")
def week_of_heap() -> float:
    """By a fake clock: four waits that tick and ring, and the server asked by itself all the while."""
    with (
        served(waits=4, entries=ENTRIES, wait="5 d", first=FIRST_RING) as (server, run),
        page_at(server.url, load=False, flags=[NO_MACHINE_CODE]) as page,
    ):
        page.clock.install(time=datetime.fromtimestamp(time.time(), UTC))
        page.goto(f"{server.url}#/bench/{run}")
        page.wait_for_selector("answer-row .copper")
        session = devtools(page)
        goes_on(page, WARM_HOURS)
        before = heap(session)
        goes_on(page, WEEK_HOURS)
        return heap(session) / before


def goes_on(page: Page, hours: int) -> None:
    for _ in range(hours):
        with page.expect_response("**/runs?open=true*"):
            page.clock.run_for(HOUR)


def heap(session: CDPSession) -> float:
    """Bytes in use once what is unreachable was collected."""
    for _ in range(3):  # what a finalizer lets go of is collected the next time
        session.send("HeapProfiler.collectGarbage")
    used: float = session.send("Runtime.getHeapUsage")["usedSize"]
    return used
