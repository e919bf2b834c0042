"""A second look on the page: marked in the editor, asked at the bench right after its pour, told by the record."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY, axe_finds_by_day_and_night
from tests.frontend.phones import call
from tests.frontend.shelves import SIZES, cut_when_large, go, open_page
from tests.make import make_recipe
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]
SOAK = "0197a0e2-0000-4000-8000-0000000000f1"


def test_somebody_else_looks_at_the_marked_weighing_and_the_record_names_them(
    page: Page, server: Server, faultless: None
) -> None:
    call(server, "PUT", f"recipes/{SOAK}", make_recipe())
    page.set_viewport_size(SIZES[0])
    open_page(page, server)
    go(page, f"#/recipe/{SOAK}")
    expect(page.get_by_role("button", name="Save version")).to_be_visible()
    page.locator("details").evaluate_all("all => all.forEach((each) => { each.open = true })")
    page.get_by_label("Somebody else looks too").first.check()
    with page.expect_response(lambda answer: answer.request.method == "PUT" and answer.ok):
        page.get_by_role("button", name="Save version").click()

    go(page, f"#/size/{SOAK}")
    page.get_by_role("button", name="Begin").click()
    bench = page.locator("bench-screen")
    expect(bench).to_contain_text("Leave it on the scale: somebody else looks next.")
    bench.get_by_role("button", name="It reads 100 g").click()
    expect(bench).to_contain_text("Somebody else checks amount and label. Both right?")
    assert axe_finds_by_day_and_night(page) == "" and cut_when_large(page) == []
    bench.get_by_role("button", name="Both right").click()
    dialog = page.get_by_role("dialog")
    dialog.get_by_role("textbox").fill("Ben")
    dialog.get_by_role("button", name="Both right").click()
    expect(bench).to_contain_text("Sea salt: add 100 g")

    go(page, page.url.split("#")[1].replace("bench", "record"))
    expect(page.get_by_role("region", name="Checks")).to_contain_text("yes, Ben")
