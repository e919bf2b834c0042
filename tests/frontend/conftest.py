"""Fixtures for every test of the page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Frame, Page

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


EMPTIED = {"storageTypes": "cookies,indexeddb,local_storage"}
IS_REAL_TIME = "() => Date.toString().includes('[native code]')"


class HandedOn:
    """A phone that each test hands to the next, emptied: the page's files stay fetched and compiled on it.

    What cannot be taken back (a clock that was set, a page that crashed) is the end of it, and the next test has
    another. It keeps no copy of the page: a worker would outlive its test.
    """

    def __init__(self, browser: Browser, how: dict[str, Any]) -> None:
        self._browser = browser
        self._how = how
        self._context: BrowserContext | None = None
        self._origins: set[str] = set()

    def take(self) -> BrowserContext:
        if self._context is None:
            self._context = self._browser.new_context(**self._how)
            self._context.add_init_script(WITHOUT_COPY)
            self._context.on("page", lambda page: page.on("framenavigated", self._been))
        return self._context

    def _been(self, frame: Frame) -> None:
        self._origins.add("/".join(frame.url.split("/")[:3]))

    def give_back(self) -> None:
        assert self._context
        try:
            if not self._is_emptied(self._context):
                self.end()
        except Error:
            self.end()

    def _is_emptied(self, context: BrowserContext) -> bool:
        *others, page = context.pages or [context.new_page()]
        for other in others:
            other.close()
        if not page.evaluate(IS_REAL_TIME):
            return False
        session = context.new_cdp_session(page)
        for origin in self._origins:
            if origin.startswith("http"):
                session.send("Storage.clearDataForOrigin", {"origin": origin, **EMPTIED})
        self._origins.clear()
        context.clear_cookies()
        context.clear_permissions()
        page.close()
        context.set_offline(False)
        return True

    def end(self) -> None:
        if self._context:
            self._context.close()
            self._context = None


@pytest.fixture(scope="session")
def handed_on(browser: Browser, browser_context_args: dict[str, Any]) -> Iterator[HandedOn]:
    phone = HandedOn(browser, browser_context_args)
    yield phone
    phone.end()


@pytest.fixture
def no_copy() -> None:
    """The page keeps no copy of itself, as in a browser that has no service worker."""


@pytest.fixture
def context(
    request: pytest.FixtureRequest, handed_on: HandedOn, new_context: Callable[..., BrowserContext]
) -> Iterator[BrowserContext]:
    """A phone where nothing is left of any other test; of its own where the page keeps a copy of itself."""
    if "no_copy" not in request.fixturenames or request.node.get_closest_marker("with_copy"):
        yield new_context()
        return
    yield handed_on.take()
    handed_on.give_back()


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
    server.leave()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """The same, a studio of its own for each test."""
    server = studio_server(tmp_path / "studio.sqlite3")
    yield server
    server.leave()
