"""The language of the page: the phone's where all is said in it, until the maker chooses one; kept with no network."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.frontend.hands import NO_COPY, WITH_COPY
from tests.frontend.phones import COPIED, comes_true
from tests.servers import Server, as_sent

pytestmark = [pytest.mark.browser, NO_COPY]
SENT_MS = 60_000  # a page in another language is compressed when it is first asked for


@WITH_COPY
def test_the_maker_chooses_a_language_and_it_stays_with_no_network(page: Page, live_server: Server) -> None:
    page.goto(f"{live_server.url}#/studio")
    comes_true(page, COPIED)
    html = page.locator("html")
    assert html.get_attribute("lang") == "en"

    page.get_by_label("Deutsch").check()
    expect(html).to_have_attribute("lang", "de", timeout=SENT_MS)
    expect(page.get_by_role("group", name="Sprache")).to_be_visible()

    live_server.kill()
    page.reload()
    expect(html).to_have_attribute("lang", "de", timeout=SENT_MS)
    page.get_by_label("English").check()
    expect(page.get_by_text("Keine Verbindung. Die Sprache wechselt")).to_be_visible()
    expect(html).to_have_attribute("lang", "de", timeout=SENT_MS)

    live_server.start()
    page.get_by_label("Deutsch").check()
    page.get_by_label("English").check()
    expect(html).to_have_attribute("lang", "en", timeout=SENT_MS)


# A browser tells a page by two messages that a worker is installed and that it is the one that waits.
WAITS_LATE = "Object.defineProperty(ServiceWorkerRegistration.prototype, 'waiting', { get: () => null })"


@WITH_COPY
def test_a_language_is_taken_though_the_browser_is_late_to_say_that_its_copy_waits(
    page: Page, live_server: Server
) -> None:
    page.add_init_script(WAITS_LATE)
    page.goto(f"{live_server.url}#/studio")
    comes_true(page, COPIED)

    page.get_by_label("Deutsch").check()

    expect(page.locator("html")).to_have_attribute("lang", "de", timeout=SENT_MS)


def test_a_phone_is_spoken_to_in_its_own_language_until_another_is_chosen(
    new_phone, live_server: Server
) -> None:
    """With no copy: a browser's worker asks in the browser's language, and not in the one made up for this page."""
    page = new_phone(locale="de-AT").new_page()
    page.goto(f"{live_server.url}#/studio")
    expect(page.locator("html")).to_have_attribute("lang", "de", timeout=SENT_MS)
    dated = "async () => (await import('/app.js')).$parts_words.day(Date.UTC(2026, 10, 25, 13, 5))"
    assert page.evaluate(as_sent(dated)).startswith("25. Nov. 2026, ")

    page.get_by_label("English").check()
    expect(page.locator("html")).to_have_attribute("lang", "en", timeout=SENT_MS)
