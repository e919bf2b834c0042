"""What to buy at the desk: from a shortage to an order, to the delivery, to the shelf."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, Route, expect

from tests.frontend.hands import NO_COPY, axe_finds_by_day_and_night
from tests.frontend.shelves import SIZES, card, go, lot, open_page, overflowing, stock
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

LOW = {
    "card": "oil",
    "name": "Light oil",
    "measure": "mg",
    "left": 1_000_000,
    "on_order": 0,
    "at": 2_000_000,
    "due": True,
    "by": "maker",
    "batches": 0,
    "a_week": None,
    "lead_days": None,
    "packs": None,
}


def test_from_what_lacks_to_an_order_and_to_the_delivery(page: Page, server: Server, faultless: None) -> None:
    page.set_viewport_size(SIZES[1])
    open_page(page, server)
    supply = {"supplier": "Hillside", "pack": "100 g", "lead_days": 5}
    stock(
        page,
        card("shea", "Hard butter", supply=supply),
        lot("s1", "shea", 20_000, price={"amount": "3.00", "currency": "EUR"}),
        card("oil", "Light oil", supply={"pack": "1 kg", "reorder_at": "2 kg"}),
        lot("o1", "oil", 1_000_000),
    )
    go(page, "#/")
    page.locator("a.recipe").click()

    # 150 g of butter at 15 cents a gram, the 130 g that lack as well; the oil has no price.
    expect(page.locator(".cost-ahead summary")).to_have_text("About 22.50 EUR, 5.62 EUR a piece.")
    page.locator(".cost-ahead summary").click()
    expect(page.locator(".cost-ahead")).to_contain_text("No price, not counted: Light oil")

    page.get_by_role("link", name="What to buy").click()

    rows = page.locator("buying-screen section[aria-label='To buy'] .buying-row")
    expect(page.get_by_label("Pieces")).to_have_value("4")
    # 150 g of shea for four bars: 20 g are there, so 130 g in packs of 100 g, at 15 cents a gram.
    shea = rows.filter(has_text="Hard butter")
    expect(shea).to_contain_text("2 × 100 g")
    expect(shea).to_contain_text("Too late: order by")
    expect(shea).to_contain_text("Hillside, about 30.00 EUR")
    expect(rows.filter(has_text="Light oil")).to_contain_text("Low: order again")  # though it is enough
    for size in SIZES:
        page.set_viewport_size(size)
        assert not overflowing(page)
    assert axe_finds_by_day_and_night(page) == ""

    shea.get_by_label("Ordered").check()
    dialog = page.get_by_role("dialog", name="Ordered: Hard butter")
    expect(dialog.get_by_label("How much")).to_have_value("200 g")
    dialog.get_by_role("button", name="Save").click()
    expect(shea).to_have_count(0)
    expect(page.get_by_text("130 g comes too late: Hard butter")).to_be_visible()
    page.get_by_label("Arrived: Hard butter").check()
    page.get_by_role("link", name="Bring in 1 that came").click()

    expect(page.get_by_label("Supplier", exact=True)).to_have_value("Hillside")
    page.get_by_role("button", name="Look at it").click()
    row = page.locator(".delivery-row")
    expect(row).to_contain_text("200 g")
    row.get_by_text("Put it right").click()
    row.get_by_label("Lot number").fill("S-2")
    row.get_by_label("Lot number").press("Tab")
    page.get_by_role("button", name="Put 1 lot on the shelf").click()
    expect(page.get_by_text("1 lot is on the shelf.")).to_be_visible()

    go(page, "#/buying")
    expect(rows.filter(has_text="Light oil")).to_be_visible()
    expect(page.get_by_text("On order")).to_have_count(0)


def test_how_an_ingredient_is_bought_is_written_on_its_card(
    page: Page, home: Server, faultless: None
) -> None:
    page.set_viewport_size(SIZES[0])
    open_page(page, home)
    stock(page, card("shea", "Hard butter", inci="Butyrospermum Parkii Butter"), lot("s1", "shea", 20_000))
    page.locator(".shelf-item summary").filter(has_text="Hard butter").click()
    page.get_by_role("button", name="Buying: Hard butter").click()
    dialog = page.get_by_role("dialog", name="Buying: Hard butter")
    dialog.get_by_label("Price of a pack").fill("12,50")
    dialog.get_by_label("Currency").fill("eur")
    dialog.get_by_role("button", name="Save").click()
    expect(dialog.get_by_role("alert")).to_have_text("Write what is in a pack: the price is for that.")
    dialog.get_by_label("In one pack").fill("1/2 kg")
    dialog.get_by_label("Days until it comes").fill("4")
    dialog.get_by_label("Order again at").fill("200 g")
    assert not overflowing(page)
    dialog.get_by_role("button", name="Save").click()
    expect(page.locator("shelf-screen").get_by_role("status")).to_have_text("Card saved.")

    page.get_by_role("link", name="What to buy").click()

    row = page.locator(".buying-row").filter(has_text="Hard butter")
    expect(row).to_contain_text("1 × 500 g")
    expect(row).to_contain_text("about 12.50 EUR")
    expect(row).to_contain_text("order again at 200 g, your figure")


def answering(told: dict[str, object]) -> Callable[[Route], None]:
    return lambda route: route.fulfill(json=told)


def test_the_list_as_text_has_all_that_stands_on_paper(page: Page, server: Server, faultless: None) -> None:
    """Also what goes in by hand or by the spoon, and what has no card; even where nothing else is to be bought."""
    page.set_viewport_size(SIZES[0])
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    open_page(page, server)
    told = {
        "rows": [],
        "reorder": [],
        "orders": [],
        "unjoined": [{"name": "Rose clay", "recipes": ["Bars"], "maybe": {"c": "Pink clay"}}],
        "by_hand": [
            {"name": "Witch hazel", "recipes": ["Bombs", "Bars"]},
            {"name": "Mica", "recipes": ["Bars"]},
        ],
    }
    for more in ({}, {"reorder": [LOW]}):
        page.route("**/api/v1/buying", answering({**told, **more}))
        go(page, "#/")
        go(page, "#/buying")
        page.get_by_role("button", name="Copy as text").click()
        expect(page.get_by_role("status").filter(has_text="Copied")).to_be_visible()

        text = page.evaluate("navigator.clipboard.readText()").splitlines()
        listed = page.locator("buying-screen section li:not(.buying-row)").all_text_contents()
        names = page.locator("buying-screen section h2").all_text_contents()
        assert [line for line in text if line in listed] == listed
        assert {line.removesuffix(":") for line in text} >= set(names) - {"To buy", "What it is for"}
        assert any("Light oil" in line for line in text) == bool(more)
