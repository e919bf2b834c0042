"""The week on the page: typed in a few touches, planned, begun, changed elsewhere, and with no connection."""

from __future__ import annotations

import json
import re
from datetime import datetime, timedelta
from typing import Any
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Browser, Page, expect

from api.weeks import MAX_S
from tests.frontend.hands import NO_COPY, axe_finds_by_day_and_night
from tests.frontend.phones import call, comes_true
from tests.frontend.shelves import SIZES, go, open_page, overflowing
from tests.frontend.test_screens import TARGET_PX, too_small
from tests.frontend.test_shelf_page import PRESSED
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]
PLANNED_MS = 60_000  # a full plan takes up to 15 s of a quiet machine
# How long the page would wait for each thing that it asks.
WATCH_PATIENCE = """() => {
    const timeout = AbortSignal.timeout.bind(AbortSignal);
    window.patience = [];
    AbortSignal.timeout = (ms) => { patience.push(ms); return timeout(ms); };
}"""


def add(page: Page, pieces: str, note: str = "") -> None:
    page.get_by_role("button", name="Add what is wanted").click()
    dialog = page.get_by_role("dialog")
    dialog.get_by_label(re.compile("^Pieces: ")).fill(pieces)
    dialog.get_by_label("Note").fill(note)
    dialog.get_by_role("button", name="Save").click()


def lines(server: Server, state: str = "open") -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = call(server, "GET", f"wants?state={state}")["wants"]
    return found


def change_elsewhere(server: Server, line: dict[str, Any], **said: Any) -> None:
    """As another device does, that has read it."""
    url = f"{server.url}api/v1/wants/{line['id']}"
    with urlopen(url) as read:
        tag = read.headers["ETag"]
    body = {name: line[name] for name in ("recipe", "pieces", "by", "outlet", "note", "state")} | said
    headers = {"Content-Type": "application/json", "If-Match": tag}
    with urlopen(Request(url, method="PUT", data=json.dumps(body).encode(), headers=headers)) as answer:
        assert answer.status == 200


def test_a_market_becomes_a_plan_and_a_batch_of_it_is_begun_in_one_touch(
    page: Page, browser: Browser, server: Server, faultless: None
) -> None:
    page.set_viewport_size(SIZES[0])
    open_page(page, server)
    page.evaluate(WATCH_PATIENCE)
    page.get_by_role("link", name="Week").click()
    screen = page.locator("week-screen")
    expect(screen).to_contain_text("Nothing is wanted yet")

    add(page, "12", "Saturday’s market")
    expect(screen.locator(".shelf-item")).to_have_count(1)
    (line,) = lines(server)
    due = datetime.fromtimestamp(line["by"] / 1000)
    assert (line["pieces"], due.weekday(), due.hour) == (12, 5, 9)
    assert timedelta(0) < due - datetime.now() <= timedelta(days=7, hours=9)
    expect(screen.locator(".week-batch")).to_have_count(1, timeout=PLANNED_MS)
    expect(screen.get_by_text("Everything is ready in time, in 1 batch.")).to_be_visible()
    expect(screen.get_by_text(re.compile("^Planning"))).to_be_hidden(timeout=PLANNED_MS)
    expect(screen.locator(".shelf-item")).to_contain_text("12 planned")
    assert max(page.evaluate("patience")) >= 2 * 1000 * MAX_S  # a slow server's plan is waited for
    assert not overflowing(page) and too_small(page.locator(PRESSED), TARGET_PX) == []
    assert axe_finds_by_day_and_night(page) == ""

    go(page, "#/")
    expect(page.get_by_role("link", name=re.compile("^12 × .*: begin "))).to_be_visible()
    other = browser.new_page()  # another device, whose first page is home
    other.goto(server.url)
    expect(other.get_by_role("link", name=re.compile("^12 × .*: begin "))).to_be_visible(timeout=PLANNED_MS)
    other.close()
    go(page, "#/week")
    screen.get_by_role("link", name="Begin").click()
    expect(page.locator("size-screen .stepper-field").first).to_have_value("12")
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("bench-screen")).to_be_visible()
    comes_true(
        page,
        "() => fetch('/api/v1/runs').then((answer) => answer.json()).then(({ total }) => total === 1)",
    )

    go(page, "#/week")  # nothing moves by itself: the new plan is offered
    expect(screen.get_by_role("link", name="Go on")).to_be_visible()
    take = screen.get_by_role("button", name="Take the new plan")
    expect(take).to_be_visible(timeout=PLANNED_MS)
    expect(screen.locator(".shelf-item")).to_contain_text("12 planned")
    take.click()
    expect(screen.locator(".shelf-item")).to_contain_text("12 on the bench")
    expect(screen.locator(".week-batch")).to_have_count(0)


def test_what_another_device_changed_is_told_and_what_was_typed_is_not_lost(
    page: Page, server: Server, faultless: None
) -> None:
    page.set_viewport_size(SIZES[1])
    open_page(page, server)
    go(page, "#/week")
    screen = page.locator("week-screen")
    add(page, "8")
    row = screen.locator(".shelf-item")
    expect(row).to_have_count(1)
    expect(screen.locator(".week-batch")).to_have_count(1, timeout=PLANNED_MS)
    expect(screen.get_by_text(re.compile("^Planning"))).to_be_hidden(timeout=PLANNED_MS)
    (line,) = lines(server)

    row.locator("summary").click()
    screen.get_by_role("button", name=re.compile("^Change: 8 × ")).click()
    change_elsewhere(server, line, pieces=5)
    dialog = page.get_by_role("dialog")
    dialog.get_by_label("Pieces", exact=True).fill("20")
    dialog.get_by_role("button", name="Save").click()
    expect(screen.get_by_role("alert")).to_contain_text("Somebody has changed this line")
    expect(row).to_contain_text("5 ×")
    assert [each["pieces"] for each in lines(server)] == [5]
    screen.get_by_role("button", name="Send again").click()  # now that it was seen
    expect(row).to_contain_text("20 ×")
    expect(screen.get_by_text(re.compile("^Planning"))).to_be_hidden(timeout=PLANNED_MS)

    screen.get_by_role("button", name=re.compile("^Remove: 20 × ")).click()
    expect(row).to_have_count(0)
    assert [each["pieces"] for each in lines(server, "dropped")] == [20]
    screen.get_by_role("button", name="Put back").click()
    expect(row).to_have_count(1)

    page.route("**/api/v1/wants/*", lambda route: route.abort())
    add(page, "3", "Shop")
    expect(screen.get_by_role("button", name="Send again")).to_be_visible()
    page.unroute("**/api/v1/wants/*")
    screen.get_by_role("button", name="Send again").click()
    expect(row).to_have_count(2)
    expect(screen.get_by_role("button", name="Send again")).to_be_hidden()


def test_what_cannot_be_read_is_said_and_stays_as_it_is_written(page: Page, home: Server) -> None:
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    go(page, "#/week")
    page.get_by_role("button", name="Add what is wanted").click()
    dialog = page.get_by_role("dialog")
    save, pieces = dialog.get_by_role("button", name="Save"), dialog.get_by_label(re.compile("^Pieces: "))
    for written in ("", "0", "ten", "10001", "1,5"):
        pieces.fill(written)
        save.click()
        expect(dialog.get_by_role("alert")).to_contain_text("Say how many")
        expect(pieces).to_have_value(written)
    pieces.fill("12")
    dialog.get_by_label("By", exact=True).fill("2020-01-04T09:00")
    save.click()
    expect(dialog.get_by_role("alert")).to_contain_text("That time has passed")
    assert lines(home) == []
