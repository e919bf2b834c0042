"""The size page: what a stand-in changes, and a mix that is left, as the maker sees them."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, Route, expect

from tests.frontend.hands import NO_COPY
from tests.frontend.phones import call
from tests.frontend.test_screens import PHONE
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

THREE_PART = "Pressed fizzing base with a clear soap pebble and a whipped soap top"


@pytest.fixture
def size(page: Page, live_server: Server) -> Iterator[Page]:
    recipes = call(live_server, "GET", "recipes")["recipes"]
    found = next(each["id"] for each in recipes if each["title"] == THREE_PART)
    page.set_viewport_size(PHONE)
    page.goto(f"{live_server.url}#/size/{found}")
    expect(page.get_by_role("heading", name=THREE_PART)).to_be_visible()
    yield page


def test_a_stand_in_says_what_it_changes_and_the_run_records_it(size: Page, live_server: Server) -> None:
    size.get_by_label("Fizzing base: Cocoa butter").select_option(label="Instead: Shea butter")

    time = size.locator(".size-time")
    expect(time).to_contain_text(re.compile(r"^\d.* until done, .*\. \d.* of hand work\."))
    expect(time).to_contain_text("Planned by the server")
    told = size.locator(".swap-told:not(:empty)")
    expect(told).to_contain_text("55.00 g of Shea butter for 55.00 g of Cocoa butter")
    expect(told).to_contain_text("Off the label: Theobroma Cacao Seed Butter.")
    size.get_by_role("button", name="Begin 12 pieces").click()
    expect(size.locator("bench-screen")).to_be_visible()
    size.evaluate("location.hash = location.hash.replace('bench', 'record')")
    expect(size.locator("record-screen")).to_contain_text("Shea butter, instead of Cocoa butter")


def test_with_no_server_a_stand_in_is_weighed_all_the_same(size: Page, live_server: Server) -> None:
    expect(size.locator(".size-time")).to_contain_text("until done")
    live_server.stop()

    size.get_by_label("Fizzing base: Cocoa butter").select_option(label="Instead: Shea butter")

    expect(size.locator(".swap-told:not(:empty)")).to_contain_text("No connection. What it changes")
    size.get_by_role("button", name="Fewer: pieces").click()
    expect(size.locator(".size-time")).to_contain_text("Quick order from this phone")
    expect(size.get_by_role("rowheader", name="Shea butter")).to_be_visible()


def test_a_mix_that_is_left_says_how_many_pieces_it_gives(size: Page) -> None:
    """150 g a piece, 20 g stays behind and 2 % is lost: (700 x 0.98 - 20) / 150 is 4.4."""
    size.get_by_role("radio", name="Use up").check()
    size.get_by_label("All of what").select_option(label="Mixed already: Fizzing base")
    amount = size.get_by_role("textbox", name="grams there are")
    amount.fill("700")
    amount.blur()

    expect(size.locator(".size-says")).to_have_text("Fizzing base: 700 g gives 4 pieces")
    expect(size.get_by_role("button", name="Begin 4 pieces")).to_be_enabled()


def test_an_amount_that_was_kept_before_it_was_asked_about_is_asked_about(
    page: Page, live_server: Server
) -> None:
    """Here as if an earlier version had taken it in: this one would not."""

    def as_kept(route: Route) -> None:
        answer = route.fetch()
        whole = answer.json()
        places = [each["title"] for each in whole["recipes"]]
        said = whole["said"][places.index(THREE_PART)]
        first = said["document"]["components"][0]
        first["lines"][0]["amount"], first["piece"] = "1.000 g", "1,250 g"
        route.fulfill(response=answer, json=whole)

    page.route("**/api/v1/recipes/all?*", as_kept)
    recipes = call(live_server, "GET", "recipes")["recipes"]
    found = next(each["id"] for each in recipes if each["title"] == THREE_PART)
    page.goto(f"{live_server.url}#/size/{found}")

    said = page.locator(".size-what .cautions li")
    expect(said.nth(0)).to_have_text(re.compile("“1.000 g”: 1 g or 1000 g"))
    expect(said.filter(has_text="1.25 g or 1250 g?")).to_have_text(re.compile("^Fizzing base: "))
    page.get_by_role("link", name="Edit this recipe").click()
    expect(page.get_by_text("“1.000 g”: 1 g or 1000 g? Write one of them.").first).to_be_visible()
