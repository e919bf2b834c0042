"""Trials on the page: variants of a recipe, a small batch of each, and the one that becomes the recipe."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, Route, expect

from tests.frontend.hands import NO_COPY, axe_finds_by_day_and_night
from tests.frontend.phones import call
from tests.frontend.shelves import SIZES, cut_when_large, go, open_page, overflowing
from tests.make import make_recipe
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]
SOAK = "0197a0e2-0000-4000-8000-0000000000d1"


def test_variants_are_tried_once_though_an_answer_is_lost_and_one_becomes_the_recipe(
    page: Page, server: Server, faultless: None
) -> None:
    call(server, "PUT", f"recipes/{SOAK}", make_recipe())
    page.set_viewport_size(SIZES[0])
    open_page(page, server)
    go(page, f"#/trials/{SOAK}")
    trials = page.locator("trials-screen")
    for _ in range(4):
        trials.get_by_role("button", name="Add a variant").click()
    expect(trials.get_by_role("button", name="Add a variant")).to_be_hidden()  # five at one time
    page.reload()

    trials.get_by_label("To", exact=True).fill("11 oz")
    page.route("**/trials", answer_is_lost)
    trials.get_by_role("button", name="Try variants").click()
    expect(trials.get_by_role("alert")).to_contain_text("No connection")
    page.unroute("**/trials")
    trials.get_by_role("button", name="Try variants").click()
    expect(trials.get_by_role("heading", name="Variant")).to_have_text(
        ["Variant A", "Variant B", "New variants"]
    )
    assert not overflowing(page) and axe_finds_by_day_and_night(page) == ""
    assert cut_when_large(page) == []

    variant = call(server, "GET", f"recipes/{SOAK}/trials")["variants"][0]["recipe"]
    go(page, f"#/recipe/{variant}")  # what is judged is changed where the recipe says what a good piece is
    judged = page.get_by_label("Judged at the end, with commas between")
    page.locator("details").evaluate_all("all => all.forEach((each) => { each.open = true })")
    expect(judged).to_have_value("Hardness, Fizz time, Feel, Scent")
    judged.fill("Hardness, Foam")
    with page.expect_response(lambda answer: answer.request.method == "PUT" and answer.ok):
        page.get_by_role("button", name="Save version").click()
    document = call(server, "GET", f"recipes/{variant}")["document"]
    assert document["good_piece"] == {"judge": ["Hardness", "Foam"]}

    go(page, f"#/trials/{SOAK}")
    begin = trials.get_by_role("link", name="Make some 100 g")
    expect(trials.locator("a.copper")).to_have_count(1)  # the next to be made
    begin.first.click()
    expect(page.locator("size-screen")).to_contain_text("Salt soak, A")

    go(page, f"#/trials/{SOAK}")
    trials.get_by_role("button", name="Make this the recipe: B").click()
    expect(trials.get_by_role("status")).to_have_text("Variant B is the recipe now. Its trial is archived.")
    assert call(server, "GET", f"recipes/{SOAK}")["version"] == 2


def answer_is_lost(route: Route) -> None:
    """The server takes what is asked, and the phone never hears of it."""
    if route.request.method == "POST":
        route.fetch()
        return route.abort()
    return route.continue_()
