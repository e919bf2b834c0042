"""Fixtures for every test of the page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page

from tests.conftest import WITHOUT_COPY
from tests.frontend.phones import studio_server
from tests.servers import Server


@pytest.fixture
def faultless(page: Page) -> Iterator[None]:
    """A fault of the page's scripts fails the test."""
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    yield
    assert faults == []


def answer_no_more(context: BrowserContext) -> None:
    """What a test still answers in the server's place as it ends is cut off, and that is no fault.

    A page that did not reach the server until now must not do so at the last moment: a context that closes on a busy
    machine is not offline to the end, and what a page still held was then in the studio of the next test. So each page
    is left while all is still cut off.
    """
    context.set_offline(True)
    for page in context.pages:
        with suppress(Error):  # it may have crashed, or be on its way elsewhere
            page.goto("about:blank", wait_until="commit")
        page.unroute_all(behavior="ignoreErrors")
    context.unroute_all(behavior="ignoreErrors")


@pytest.fixture(autouse=True)
def no_answer_at_the_end(request: pytest.FixtureRequest) -> Iterator[None]:
    context = request.getfixturevalue("context") if "context" in request.fixturenames else None
    yield
    if context:
        answer_no_more(context)


@pytest.fixture
def new_phone(new_context: Callable[..., BrowserContext]) -> Iterator[Callable[..., BrowserContext]]:
    """Makes another phone, that keeps no copy of the page."""
    made: list[BrowserContext] = []

    def make(**how: Any) -> BrowserContext:
        made.append(new_context(**how))
        made[-1].add_init_script(WITHOUT_COPY)
        return made[-1]

    yield make
    for context in made:
        answer_no_more(context)


class Lasting:
    """A page that stays open for all tests of a file: `at` leads it back to where each of them begins."""

    def __init__(self, browser: Browser) -> None:
        context = browser.new_context()
        context.add_init_script(WITHOUT_COPY)
        self.page = context.new_page()
        self.faults: list[str] = []
        self.page.on("pageerror", lambda error: self.faults.append(str(error)))

    def at(self, url: str, **size: int) -> Page:
        """The page at this studio's first screen, as large as a desk's or as is said."""
        self.faults.clear()
        self.page.emulate_media(color_scheme="light")
        self.page.set_viewport_size({"width": 1280, "height": 720, **size})
        self.page.evaluate("location.hash = '#/'")
        # Once only, and again where a test left something open.
        if not self.page.url.startswith(url) or self.page.locator("dialog").count():
            self.page.goto(url)
        return self.page


@pytest.fixture(scope="module")
def lasting_page(browser: Browser) -> Iterator[Lasting]:
    lasting = Lasting(browser)
    yield lasting
    lasting.page.context.close()


@pytest.fixture
def lasting(lasting_page: Lasting) -> Iterator[Lasting]:
    """For tests that leave nothing behind. A fault of the page's scripts fails the test in which it came."""
    yield lasting_page
    assert lasting_page.faults == []


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The server of a studio with the one recipe, for all tests of a file."""
    server = studio_server(tmp_path_factory.mktemp("home") / "studio.sqlite3")
    yield server
    server.kill()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """The same, a studio of its own for each test."""
    server = studio_server(tmp_path / "studio.sqlite3")
    yield server
    server.kill()
