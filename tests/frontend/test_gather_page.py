"""Gathering before the first weighing: lot by lot, what is short, what is past its date, what is passed over."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY, type_on_pad
from tests.frontend.phones import call
from tests.frontend.shelves import DETECTOR, KG, SIZES, begin_bars, card, enter, go, lot, open_page, stock
from tests.frontend.test_screens import KNUCKLE_PX, too_small
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

CARDS = (card("butter", "Hard butter"), card("oil", "Oil, light", answers_to=["Light oil"]))


BOWL = {"id": "bowl", "name": "Wide bowl", "kind": "bowl", "empty": "400 g", "holds": "2 kg"}


@pytest.fixture(scope="module", autouse=True)
def one_bowl(home: Server) -> None:
    """The studio has its scale, and one bowl."""
    scales = call(home, "GET", "kit")["document"]["scales"]
    call(home, "PUT", "kit", {"format": "bowlside-kit/1", "scales": scales, "vessels": [BOWL]})


@pytest.fixture
def phone(page: Page, home: Server, faultless: None) -> Page:
    """A phone with no network once it has heard the recipe."""
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    page.route("**/api/**", lambda route: route.abort())
    return page


def gather(page: Page, *entries: dict[str, Any]) -> str:
    """The gathering page of a new run, by the bench's own way to it, with this on the shelf."""
    stock(page, *CARDS, *entries)
    run = begin_bars(page)
    page.get_by_role("link", name="Gather first").click()
    expect(page.locator("gather-screen")).to_be_visible()
    return run


def need(page: Page, name: str) -> Any:
    return page.locator(".need").filter(has_text=name)


def test_the_oldest_lot_comes_first_and_everything_ticked_leads_to_the_bench_with_no_question(
    phone: Page,
) -> None:
    """A second lot makes up what the first lacks; a tick is for knuckles, and a second touch takes it back."""
    gather(
        phone,
        lot("young", "butter", KG, best_before="2099-06-01"),
        lot("old", "butter", 100_000, best_before="2099-01-01"),
        lot("oil1", "oil", KG),
    )
    lots = need(phone, "Hard butter").get_by_role("checkbox")
    expect(lots).to_have_count(2)
    expect(lots.nth(0)).to_contain_text("100 g of lot OLD")
    expect(lots.nth(1)).to_contain_text("50 g of lot YOUNG")
    box = need(phone, "Light oil").get_by_role("checkbox")
    expect(box).to_contain_text("50 g of lot OIL1")

    assert too_small(phone.locator(".tick-row"), KNUCKLE_PX) == []
    box.click()
    expect(box).to_be_checked()
    expect(box).to_be_focused()
    box.click()
    expect(box).not_to_be_checked()

    rows = phone.locator(".tick-row")
    for place in range(rows.count()):
        rows.nth(place).click()
        expect(rows.nth(place)).to_be_checked()
    phone.get_by_role("button", name="All here: to the bench").click()
    expect(phone.locator("bench-screen")).to_be_visible()
    expect(phone.get_by_role("dialog")).to_have_count(0)


def test_what_is_short_past_its_date_more_than_booked_or_strange_is_said_and_taken_only_when_asked(
    phone: Page,
) -> None:
    """Of the last lot the shelf says 600 g; the maker takes 612 g of it, and is asked whether that is meant."""
    phone.evaluate(DETECTOR)
    gather(phone, lot("past", "butter", KG, best_before="2020-01-01"), lot("bit", "butter", 40_000))
    expect(need(phone, "Hard butter")).to_contain_text("110 g missing")
    phone.get_by_role("button", name="Take it too").click()
    past = need(phone, "Hard butter").get_by_role("checkbox").filter(has_text="PAST")
    expect(past).to_contain_text("past its date, 1 Jan 2020")
    past.click()
    expect(phone.get_by_role("dialog")).to_contain_text("yours to judge")
    phone.get_by_role("button", name="Take it anyway").click()
    expect(past).to_be_checked()

    gather(
        phone,
        lot("first", "butter", KG, best_before="2099-01-01"),
        lot("other", "butter", 600_000),
        lot("o1", "oil", KG, code="5901234123457"),
    )
    phone.get_by_role("button", name="Another lot: Hard butter").click()
    phone.get_by_role("button", name="Lot OTHER").click()
    type_on_pad(phone, "612")
    phone.locator("dialog .copper").click()
    expect(phone.get_by_role("dialog")).to_contain_text("The shelf says 600 g")
    phone.get_by_role("button", name="Take it anyway").click()
    expect(need(phone, "Hard butter").get_by_role("checkbox").filter(has_text="OTHER")).to_be_checked()

    phone.evaluate("window.seen = '5901234123457'")
    phone.get_by_role("button", name="Scan a lot").click()
    expect(need(phone, "Light oil").get_by_role("checkbox")).to_be_checked()
    phone.evaluate("window.seen = '1'")
    phone.get_by_role("button", name="Scan a lot").click()
    expect(phone.get_by_role("dialog")).to_contain_text("No lot on the shelf has this code")


def test_gathering_may_be_passed_over_which_the_record_says_and_its_way_goes_once_something_is_weighed(
    phone: Page,
) -> None:
    run = gather(phone, lot("b1", "butter", KG))
    need(phone, "Hard butter").get_by_role("checkbox").click()

    phone.get_by_role("button", name="Start without").click()
    expect(phone.get_by_role("dialog")).to_contain_text("Not ticked: Light oil")
    phone.get_by_role("button", name="Go to the bench").click()
    expect(phone.locator("bench-screen")).to_be_visible()

    go(phone, f"#/record/{run}")
    expect(phone.locator("record-screen")).to_contain_text("Not gathered: Light oil")

    go(phone, f"#/gather/{run}")
    phone.get_by_role("button", name="Start without").click()
    expect(phone.locator("bench-screen")).to_be_visible()  # it is asked once a batch
    expect(phone.get_by_role("link", name="Gather first")).to_be_visible()
    enter(phone, ("ticked", {"thing": "tool.knife"}))
    expect(phone.get_by_role("link", name="Gather first")).to_be_visible()

    phone.locator("answer-row .copper").click()
    expect(phone.locator("bench-screen h1")).to_contain_text("Light oil")
    expect(phone.get_by_role("link", name="Gather first")).to_be_hidden()
    go(phone, f"#/gather/{run}")
    expect(phone.get_by_role("button", name="Go on without")).to_be_visible()

    begin_bars(phone)  # a second batch, whose bowl the first one has in use
    expect(phone.locator("bench-screen .beside")).to_have_text(
        re.compile("^In use by .+: “Wide bowl”. No other fits: empty it first.")
    )


def test_what_the_shelf_lacks_is_said_before_a_batch_is_begun_with_what_it_is_enough_for(phone: Page) -> None:
    """Four bars want 150 g of butter and 50 g of oil: 120 g of butter are three bars' (112.5 g)."""
    stock(phone, *CARDS, lot("b1", "butter", 120_000), lot("o1", "oil", KG))
    go(phone, "#/")
    phone.locator("a.recipe").click()

    short = phone.locator(".size-short")
    expect(short).to_contain_text("The shelf has too little of 1 ingredient.")
    expect(short).to_contain_text("Hard butter: 30 g missing")
    short.get_by_role("button", name="Make 3 bars: enough for that").click()

    expect(phone.get_by_role("button", name="Begin 3 bars")).to_be_enabled()
    expect(short).to_be_hidden()


def test_a_gram_that_one_batch_has_set_aside_is_not_promised_to_another(phone: Page) -> None:
    gather(phone, lot("b1", "butter", 200_000), lot("o1", "oil", KG))
    need(phone, "Hard butter").get_by_role("checkbox").click()
    expect(need(phone, "Hard butter").get_by_role("checkbox")).to_be_checked()

    go(phone, "#/")
    phone.locator("a.recipe").click()
    expect(phone.locator(".size-short")).to_contain_text("Hard butter: 100 g missing")
    phone.get_by_role("button", name="Begin").click()
    phone.get_by_role("link", name="Gather first").click()

    expect(need(phone, "Hard butter")).to_contain_text("200 g left; 150 g set aside for another batch")
    expect(need(phone, "Hard butter")).to_contain_text("100 g missing")


def test_what_is_asked_before_the_first_weighing_is_asked_first(
    page: Page, server: Server, faultless: None
) -> None:
    """Who begins comes to it, though gathering was not asked for; it stands before what goes in."""
    call(server, "PUT", "settings", {"batch_number": "{mark}{n}", "before": ["cleaned"]})
    page.set_viewport_size(SIZES[1])
    open_page(page, server)
    go(page, "#/studio")
    expect(page.get_by_label("Bench, tools and vessels are clean")).to_be_checked()

    go(page, "#/")
    page.locator("a.recipe").click()
    page.get_by_role("button", name="Begin").click()

    first = page.locator("gather-screen section").first
    expect(first).to_contain_text("Before the first weighing")
    expect(first.get_by_role("checkbox", name="Bench, tools and vessels are clean")).to_be_visible()
