"""How the page opens: nothing moves while it fills, dark where it is night, in the system's colours where it has its own."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.frontend.hands import DEMO_RECIPES, NO_COPY
from tests.frontend.sight import Shape, shifted_at
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

PHONE = {"width": 390, "height": 844}
GROUND = "getComputedStyle(document.documentElement).backgroundColor"
DAY, NIGHT = "rgb(251, 248, 240)", "rgb(19, 27, 37)"


def test_on_a_first_visit_nothing_that_stands_is_moved(browser: Browser, live_server: Server) -> None:
    """Home with the demo's batches and recipes, and a link straight to the bench."""
    with shifted_at(browser, live_server.url, Shape(390, 844)) as (page, shifts):
        expect(page.locator(".recipe")).to_have_count(DEMO_RECIPES)
        run = page.locator(".open-run").get_attribute("href")
        assert shifts() == 0
    with shifted_at(browser, f"{live_server.url}{run}", Shape(390, 844)) as (page, shifts):
        expect(page.locator("answer-row .copper")).to_be_visible()
        assert shifts() == 0


def before_the_script(page: Page, url: str) -> str:
    """The ground of the page while its script is still on its way."""
    page.route("**/app.js", lambda route: route.abort())
    page.goto(url)
    page.unroute("**/app.js")
    ground: str = page.evaluate(GROUND)
    return ground


def test_at_night_the_page_opens_dark_before_its_script_runs(page: Page, live_server: Server) -> None:
    page.emulate_media(color_scheme="dark")
    assert before_the_script(page, live_server.url) == NIGHT
    page.emulate_media(color_scheme="light")
    assert before_the_script(page, live_server.url) == DAY

    page.goto(f"{live_server.url}#/studio")
    page.reload()  # and as the maker has chosen, whatever the phone says
    page.get_by_role("radio", name="Night").check()
    page.wait_for_function("() => localStorage.getItem('theme') === 'night'")

    assert before_the_script(page, live_server.url) == NIGHT


def test_in_forced_colours_the_thing_to_do_and_the_bowl_still_stand_out(
    page: Page, live_server: Server
) -> None:
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.emulate_media(forced_colors="active", color_scheme="dark")
    page.goto(live_server.url)
    page.locator(".open-run").click()
    expect(page.locator("answer-row .copper")).to_be_visible()
    told: dict[str, Any] = page.evaluate(
        """() => {
            const of = (selector, what) => getComputedStyle(document.querySelector(selector))[what];
            return {
                ground: getComputedStyle(document.body).backgroundColor,
                strong: of("answer-row .copper", "backgroundColor"),
                other: of("answer-row .outlined", "backgroundColor"),
                wall: of(".plate-figure .wall, .plate-figure .taper-body", "stroke") + of(".plate-figure .wall", "fill"),
                inside: of(".plate-figure .inside", "fill"),
            };
        }"""
    )
    assert told["strong"] != told["other"]
    assert told["inside"] not in told["wall"]
