"""The screens in a real browser, on the real server with the demo: reach, size, contrast, keys."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Locator, Page, expect

from tests.frontend.hands import (
    DEMO_RECIPES,
    NO_COPY,
    at_rest,
    axe_finds_by_day_and_night,
    open_demo,
    type_on_pad,
)
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

PHONE = {"width": 390, "height": 844}
SMALL = {"width": 360, "height": 640}
TABLET = {"width": 1180, "height": 820}
KNUCKLE_PX = 64
TARGET_PX = 44
NUMBER_PX = 72
QUIET_PAGES = ["#/", "#/kit", "#/studio"]


@pytest.fixture
def bench(page: Page, live_server: Server, faultless: None) -> Page:
    """A phone that has read the demo's recipes and stands on them."""
    page.set_viewport_size(PHONE)
    return open_demo(page, live_server)


def begin(page: Page, recipe: str = "Pressed fizzing base") -> None:
    page.get_by_role("link", name=recipe).last.click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("bench-screen")).to_be_visible()


def answer(page: Page) -> None:
    """Give the strong answer and wait until the bench has gone on."""
    said = page.locator("bench-screen [aria-live]").last
    before = said.inner_text()
    page.locator(".bench-foot .copper").click()
    expect(said).not_to_have_text(before)


def each_screen(page: Page) -> Iterator[str]:
    """Walk to every screen in turn, with something on it."""
    for address in QUIET_PAGES:
        page.evaluate("address => { location.hash = address }", address)
        expect(page.locator("h1")).to_be_visible()
        yield address
    page.evaluate("location.hash = '#/'")
    page.locator("a[href^='#/record/']").first.click()
    expect(page.locator("record-screen")).to_be_visible()
    yield "record"
    page.evaluate("location.hash = '#/'")
    page.locator("a.recipe").first.click()
    expect(page.locator(".plate-part").first).to_be_visible()
    yield "size"
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("bench-screen")).to_be_visible()
    yield "bench, a thing to do"
    answer(page)
    yield "bench, a first weighing"
    answer(page)
    yield "bench, layers in the bowl"
    page.get_by_role("button", name="It reads something else").click()
    type_on_pad(page, "1700")
    yield "pad"
    page.locator("dialog .copper").click()
    expect(page.locator(".answers[data-cards]")).to_be_visible()
    yield "bench, too much"
    page.get_by_role("button", name="Other").click()
    yield "other things to do"
    page.keyboard.press("Escape")


def sizes(found: Locator) -> list[dict[str, Any]]:
    """Name, width and height of everything visible that a finger can press."""
    return found.evaluate_all(
        """nodes => nodes.filter(node => node.checkVisibility()).map(node => {
             const { width, height } = node.getBoundingClientRect();
             return { name: node.textContent || node.ariaLabel, width, height };
           })"""
    )


def too_small(found: Locator, least: int) -> list[dict[str, Any]]:
    return [each for each in sizes(found) if each["width"] < least - 0.5 or each["height"] < least - 0.5]


def test_every_screen_is_plain_to_axe_never_scrolls_sideways_and_all_of_it_can_be_hit(bench: Page) -> None:
    found = []

    for screen in each_screen(bench):
        if report := axe_finds_by_day_and_night(bench):
            found.append(f"{screen}: {report}")
        for width in (320, 360, 390, 1180):
            bench.set_viewport_size({"width": width, "height": 700})
            if bench.evaluate("document.documentElement.scrollWidth > innerWidth"):
                found.append(f"{screen} scrolls sideways at {width}")
        bench.set_viewport_size(PHONE)
        pressed = bench.locator("button, a.button, a.row, label.choice, select, summary")
        found += [f"{screen}, too small: {each}" for each in too_small(pressed, TARGET_PX)]

    assert found == []


def test_at_the_first_weighing_the_number_is_largest_and_all_is_read_and_hit_at_arms_length(
    bench: Page,
) -> None:
    begin(bench)
    answer(bench)
    number = bench.locator(".number")
    size = number.evaluate("node => parseFloat(getComputedStyle(node).fontSize)")
    others = bench.locator("bench-screen *:not(.number, .number *)").evaluate_all(
        "nodes => Math.max(...nodes.filter(node => node.textContent.trim()).map(node => parseFloat(getComputedStyle(node).fontSize)))"
    )
    assert size >= NUMBER_PX
    assert size > others

    # What is read has a contrast of seven, by day and by night.
    enhanced = "color-contrast-enhanced"
    bench.evaluate(AXE_SCRIPT)
    for theme in ("light", "dark"):
        bench.emulate_media(color_scheme=theme)
        report = bench.evaluate(
            "options => axe.run('bench-screen', options)",
            {"runOnly": [enhanced], "rules": {enhanced: {"enabled": True}}},
        )
        assert report["violations"] == [], theme
        assert [rule["id"] for rule in report["passes"]] == [enhanced], theme

    # What is pressed is sized for a knuckle, on the pad too.
    pad = bench.get_by_role("dialog")
    for shape in (PHONE, SMALL, TABLET):
        bench.set_viewport_size(shape)
        assert too_small(bench.locator(".bench-foot button"), KNUCKLE_PX) == [], shape
        bench.get_by_role("button", name="It reads something else").click()
        expect(pad).to_be_visible()
        assert too_small(pad.locator("button"), KNUCKLE_PX) == [], shape
        bench.keyboard.press("Escape")
        expect(pad).to_have_count(0)

    # An answer by keyboard never leaves the focus on a button that means something else.
    bench.set_viewport_size(PHONE)
    bench.get_by_role("button", name="It reads something else").focus()
    bench.keyboard.press("Enter")
    type_on_pad(bench, "1200")
    bench.keyboard.press("Enter")
    expect(bench.get_by_role("button", name="Take 99 g out")).to_be_focused()


# A page turner that bounces: its key comes once more with the very prompt that the first one brings.
BOUNCE = """() => new MutationObserver((_, watching) => {
    watching.disconnect();
    document.dispatchEvent(new KeyboardEvent("keydown", { key: "PageDown", bubbles: true, cancelable: true }));
    window.bounced = true;
}).observe(document.querySelector("bench-screen h1"), { childList: true, characterData: true, subtree: true })"""


def test_keys_alone_weigh_choose_and_take_back(bench: Page) -> None:
    """Space, Enter, arrows, digits and Escape: what a foot pedal and a keyboard can send."""
    begin(bench)
    title = bench.locator("bench-screen h1")
    settling = bench.locator("answer-row[data-settling]")

    def press(key: str) -> None:
        expect(settling).to_have_count(0)
        bench.keyboard.press(key)

    expect(title).to_have_text("Grind the citric acid finer")

    bench.evaluate(BOUNCE)
    press("PageDown")  # what a page turner sends; one that bounces is one
    expect(title).to_have_text(re.compile("^Bicarbonate of soda: add "))
    press("Shift")  # once it has settled: nothing more has come of it
    assert bench.evaluate("window.bounced")
    expect(title).to_have_text(re.compile("^Bicarbonate of soda: add "))
    press("Enter")
    expect(title).to_have_text(re.compile("^Citric acid, anhydrous: add "))

    press("ArrowDown")
    expect(bench.get_by_role("button", name="It reads 1651 g")).to_be_focused()
    press("ArrowDown")
    expect(bench.get_by_role("button", name="It reads something else")).to_be_focused()
    press("Enter")
    expect(bench.locator(".pad-shown")).to_be_visible()
    bench.keyboard.type("1700,5")  # a scale of 1 g: never 17005
    expect(bench.locator(".pad-shown")).to_have_text("1700 g")
    expect(bench.locator(".pad-off")).to_have_text("this scale shows whole grams")
    press("Backspace")
    expect(bench.locator(".pad-off")).to_have_text("49 g too much, target 1651 g")
    press("Enter")
    expect(title).to_have_text("Citric acid, anhydrous: 49 g too much")

    bench.get_by_role("button", name="Undo: Citric acid").focus()
    press("Enter")
    expect(title).to_have_text(re.compile("^Citric acid, anhydrous: add "))

    bench.locator("#page").focus()
    press("ArrowRight")
    expect(title).not_to_have_text(re.compile("^Citric acid, anhydrous: add "))
    press("Escape")
    expect(title).to_have_text(re.compile("^Citric acid, anhydrous: add "))


def test_markup_in_a_name_stays_text(page: Page, live_server: Server) -> None:
    """A recipe's words are never markup, whatever they hold."""
    wicked = "<img src=x onerror=alert(1)> \u202eright to left\u202c \U0001f6c1 " + "long " * 12
    document = {
        "format": "bowlside-recipe/1",
        "title": wicked,
        "written_for": 2,
        "ingredients": {"salt": {"name": wicked}},
        "components": [
            {
                "id": "soak",
                "name": wicked,
                "lines": [{"id": "salt", "ingredient": "salt", "amount": "100 g"}],
                "steps": [{"id": "weigh", "kind": "weigh", "title": wicked, "lines": ["salt"]}],
            }
        ],
    }
    page.set_viewport_size(SMALL)
    answered = page.request.put(
        f"{live_server.url}api/v1/recipes/0198c1c0-0000-7000-8000-000000000001", data=document
    )
    assert answered.ok, answered.text()
    page.goto(live_server.url)
    expect(page.locator(".recipe")).to_have_count(DEMO_RECIPES + 1)

    begin(page, "img src")

    assert page.locator("#page img").count() == 0
    expect(page.locator("bench-screen h1")).to_contain_text("<img src=x")
    assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")


def test_ticking_countdowns_move_nothing_and_coming_back_says_first_what_rang(
    page: Page, live_server: Server
) -> None:
    """The page is put away for fifty minutes with no server; two of three waits fall due."""
    page.clock.install()
    page.set_viewport_size(PHONE)
    page.goto(live_server.url)
    page.clock.run_for(2000)
    at_rest(page)
    page.locator(".open-run").first.click()
    expect(page.locator(".wait")).to_have_count(3)
    live_server.stop()  # else it would set the fake clock right
    where = """() => [...document.querySelectorAll('.wait, .wait *, h1, .number, .bench-foot')]
                 .map(node => { const box = node.getBoundingClientRect(); return [box.x, box.y, box.height].join() })"""
    before, digits = page.evaluate(where), page.locator(".wait-left").first.inner_text()

    page.clock.run_for(61_000)

    assert page.locator(".wait-left").first.inner_text() != digits
    assert page.evaluate(where) == before

    see = """state => {
      Object.defineProperty(document, "visibilityState", { value: state, configurable: true });
      Object.defineProperty(document, "hidden", { value: state === "hidden", configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    }"""
    page.evaluate(see, "hidden")
    page.clock.fast_forward("50:00")

    page.evaluate(see, "visible")
    page.clock.run_for(5_000)

    sheet = page.get_by_role("dialog")
    expect(sheet).to_contain_text("While you were away, 50 min")
    expect(sheet.get_by_role("listitem").filter(has_text="may be ready")).not_to_have_count(0)
    sheet.get_by_role("button", name="Go on", exact=True).click()
    expect(sheet).to_have_count(0)
