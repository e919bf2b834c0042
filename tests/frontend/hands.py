"""What hands do on the page that every test does in the same way, and what the demo shows when it is at rest."""

from __future__ import annotations

import re
from typing import Any, Literal

import pytest
from axe_playwright_python.base import AXE_SCRIPT, AxeResults
from playwright.sync_api import Page, expect

from tests.servers import Server

DEMO_RECIPES = 5
# The page's own copy of itself is fetched beside it, which a test of what is on a screen need not wait for.
NO_COPY = pytest.mark.usefixtures("no_copy")
WITH_COPY = pytest.mark.with_copy
AXE_FINDS = "async options => ({ violations: (await axe.run(document, options)).violations })"
GO_ON = re.compile("^Go on$")
# By night only what is said about colours is asked again.
BY_SCHEME: dict[Literal["light", "dark"], dict[str, Any]] = {
    "light": {},
    "dark": {"runOnly": ["color-contrast", "link-in-text-block"]},
}


def open_demo(page: Page, server: Server) -> Page:
    """The demo's recipes on a phone that has heard them all, so that nothing moves under the next touch."""
    carry_on(page)
    page.goto(server.url)
    at_rest(page)
    return page


def at_rest(page: Page) -> None:
    """The demo's recipes, its open run and its finished one are there, and nothing is said above them."""
    expect(page.locator(".recipe")).to_have_count(DEMO_RECIPES)
    expect(page.locator(".open-run")).to_have_count(1)
    expect(page.locator("a[href^='#/record/']")).to_have_count(1)
    expect(page.locator("recipes-screen .notice.small").first).to_be_hidden()


def carry_on(page: Page) -> None:
    """Pass over what is said of the time away, whenever it is said."""
    # Looked for before all that is done or expected: by its place, for to ask each button's name takes as long again.
    page.add_locator_handler(page.locator("dialog button", has_text=GO_ON), lambda button: button.click())


def type_on_pad(page: Page, digits: str) -> None:
    """Type a number on the keyboard once the pad is there to take it."""
    shown = page.locator("dialog.pad .pad-shown")
    expect(shown).to_be_visible()
    page.keyboard.type(digits)
    expect(shown).to_contain_text(digits)


def axe_finds(page: Page, **options: Any) -> str:
    """What axe has to say of the page as it stands, "" for nothing."""
    if not page.evaluate("'axe' in window"):  # half of its work is to begin
        page.evaluate(AXE_SCRIPT)
    asked = {"resultTypes": ["violations"], **options}
    report = AxeResults(page.evaluate(AXE_FINDS, asked))  # not what passed, which is fifty times as long
    return str(report.generate_report()) if report.violations_count else ""


def axe_finds_at_another_size(page: Page) -> str:
    """The same of a screen that was looked at already: its colours, most of axe's work, are no others."""
    return axe_finds(page, rules={rule: {"enabled": False} for rule in BY_SCHEME["dark"]["runOnly"]})


def axe_finds_by_day_and_night(page: Page) -> str:
    """The same in both of the page's schemes, which differ in their colours alone."""
    found = []
    for scheme, options in BY_SCHEME.items():
        page.emulate_media(color_scheme=scheme)
        if report := axe_finds(page, **options):
            found.append(f"{scheme}: {report}")
    return "\n".join(found)
