"""What a recipe is for and where it is sold: answered at the label, kept in the recipe, and the duties that follow."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY, axe_finds_by_day_and_night
from tests.frontend.phones import RECIPE_ID, call
from tests.frontend.shelves import SIZES, begin_bars, enter, go, open_page
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

ASK_ANEW = "() => dispatchEvent(new Event('online'))"
WEIGHED = (
    ("weighed", {"line": "bar.1.butter", "mg": 150_000}),
    ("weighed", {"line": "bar.1.oil", "mg": 50_000}),
)


def test_the_label_asks_once_and_says_first_what_is_open_and_no_duty_stops_any_work(
    page: Page, server: Server, faultless: None
) -> None:
    page.set_viewport_size(SIZES[1])
    open_page(page, server)
    run = begin_bars(page)
    enter(page, *WEIGHED, ("finished", {}))
    go(page, f"#/label/{run}")
    duties = page.locator(".duties")
    expect(duties.locator("summary")).to_contain_text("say first what it is for")

    # Answered here, it becomes the recipe's next version; this batch goes by it too.
    page.get_by_label("What it is for").select_option("wash")
    expect(duties.locator("summary")).to_have_text("Duties of selling: 6 of 6 are open")
    expect(page.locator("label-screen section").first).to_contain_text("6 duties of selling are open.")
    page.get_by_role("button", name="Save in the recipe").click()
    expect(page.get_by_role("button", name="Save in the recipe")).to_be_hidden()
    expect(page.get_by_text("Saved in the recipe.")).to_be_visible()
    expect(page.get_by_label("What it is for")).to_have_value("wash")
    kept = call(server, "GET", f"recipes/{RECIPE_ID}")
    assert (kept["version"], kept["document"]["use"], kept["document"]["sold_in"]) == (2, "wash", ["eu"])

    # A duty is seen to, with today for its day and a note; the label counts one less.
    duties.locator("summary").click()
    report = duties.locator("[data-duty=eu-report]")
    report.get_by_label("How it stands").select_option("seen_to")
    expect(duties.locator("summary")).to_have_text("Duties of selling: 5 of 6 are open")
    # What is typed stands while the connection goes and comes.
    note = report.get_by_label("Note")
    note.press_sequentially("by an")
    page.context.set_offline(True)
    page.evaluate(ASK_ANEW)
    expect(duties.get_by_text("No connection")).to_be_visible()
    expect(note).to_be_focused()
    page.context.set_offline(False)
    page.evaluate(ASK_ANEW)
    expect(duties.get_by_text("No connection")).to_be_hidden()
    note.press_sequentially(" assessor")
    note.press("Tab")
    expect(page.locator("label-screen section").first).to_contain_text("5 duties of selling are open.")
    expect(report.get_by_label("Date")).not_to_have_value("")
    assert not axe_finds_by_day_and_night(page)

    # It is shown before a batch is signed, and stops nothing.
    go(page, f"#/record/{run}")
    expect(page.locator(".duties summary")).to_have_text("Duties of selling: 5 of 6 are open")
    expect(page.get_by_role("button", name="Sign the record")).to_be_enabled()
    go(page, f"#/recipe/{RECIPE_ID}")
    expect(page.locator("[data-at=use]")).to_have_value("wash")
    expect(page.locator(".duties summary")).to_have_text("Duties of selling: 5 of 6 are open")
    (mark,) = call(server, "GET", "duties")["marks"]
    assert (mark["duty"], mark["state"], mark["note"]) == ("eu-report", "seen_to", "by an assessor")

    # Where it is not sold there is none. With no connection the last that was seen stands, and nothing can be said.
    page.get_by_label("Not sold").check()
    expect(page.locator(".duties summary")).to_have_text("Duties of selling: none, it is not sold")
    page.get_by_label("European Union").check()
    page.route("**/api/**", lambda route: route.abort())
    go(page, f"#/record/{run}")
    page.locator(".duties summary").click()
    expect(report.get_by_label("Note")).to_have_value("by an assessor")
    report.get_by_label("How it stands").select_option("not_mine")
    expect(page.locator("record-screen .trouble")).to_contain_text("Not saved: No connection")
    assert call(server, "GET", "duties")["marks"] == [mark]
