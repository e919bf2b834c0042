"""A supplier's list at the desk: looked at row by row, asked about, and put on the shelf once it is said."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY, axe_finds
from tests.frontend.shelves import SIZES, card, go, open_page, overflowing, stock
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

LIST = """Artikel;Menge;Charge;MHD;Preis
Natron, fein;1.000 g;N-7;31.03.2028;12,50
Rosa Tonerde;2 x 250 g;R-1;04/2028;8,00
Versand;;;;4,10"""


def test_a_pasted_list_asks_what_it_cannot_know_and_then_fills_the_shelf(
    page: Page, home: Server, faultless: None
) -> None:
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    stock(page, card("bicarb", "Sodium bicarbonate"))
    page.get_by_role("link", name="Bring in a supplier's list").click()
    page.get_by_label("The supplier's list").fill(LIST)
    page.get_by_label("Currency").fill("EUR")

    page.get_by_role("button", name="Look at it").click()

    rows = page.locator(".delivery-row")
    put = page.locator("delivery-screen button.copper")
    expect(rows).to_have_count(3)
    expect(put).to_be_disabled()
    expect(put).to_have_text("2 questions are open")
    assert not overflowing(page)
    assert axe_finds(page) == ""

    rows.first.get_by_role("button", name="It is Sodium bicarbonate").click()
    rows.first.get_by_role("button", name="1000 g").click()
    expect(rows.first).to_contain_text(
        "1000 g; lot N-7; best before 31 Mar 2028; 12.50 EUR, and 2.50 EUR of the delivery"
    )
    rows.nth(1).get_by_text("Put it right").click()
    rows.nth(1).get_by_label("Lot number").fill("R-2")
    rows.nth(1).get_by_label("Lot number").press("Tab")
    expect(rows.nth(1)).to_contain_text(
        "500 g; lot R-2; best before 30 Apr 2028; 8.00 EUR, and 1.60 EUR of the delivery"
    )
    put.click()
    expect(page.get_by_text("2 lots are on the shelf.")).to_be_visible()

    page.get_by_role("link", name="Go to the shelf").click()
    expect(page.locator(".shelf-item")).to_have_count(2)
    expect(page.locator(".shelf-item").filter(has_text="Rosa Tonerde")).to_contain_text("500 g")
    go(page, "#/delivery")
    page.get_by_label("The supplier's list").fill(LIST)
    page.get_by_role("button", name="Look at it").click()
    expect(rows.first).to_contain_text("Lot N-7 is on the shelf")
