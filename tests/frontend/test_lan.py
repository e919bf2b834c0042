"""A phone on the network: it learns to trust the studio, pairs, and from then on needs no network.

The server is the real one, opened by `serve --lan`. The phone is a real Chromium with a certificate store
of its own, in which the studio's authority is trusted, or is not.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import BrowserContext, Error, Page, Playwright, expect

from api.door.names import local_name
from api.serving import port_of, take_sockets
from tests.conftest import BROWSER_FLAGS, system_browser
from tests.frontend.hands import axe_finds_by_day_and_night
from tests.servers import ROOT, warm_bowlside

pytestmark = [
    pytest.mark.browser,
    pytest.mark.slow,
    pytest.mark.skipif(
        not shutil.which("certutil"), reason="certutil (libnss3-tools) puts trust into Chromium"
    ),
]

KEPT = """() => Promise.race([
    navigator.serviceWorker.ready.then(() => true),
    new Promise((over) => setTimeout(over, 20_000, false)),
])"""
PHONE = {"width": 390, "height": 844}


class Studio:
    """A studio open to the network: its address by name, and its landing page's."""

    def __init__(self, folder: Path) -> None:
        free = take_sockets(("127.0.0.1",), 0)
        landing_port = port_of(free)
        free[0].close()
        self.folder = folder
        self.database = folder / "bowlside.sqlite3"
        self.server = warm_bowlside(
            self.database, "--demo", "--lan", "--landing-port", str(landing_port)
        ).start()
        self.port = urlsplit(self.server.url).port
        self.url = f"https://{local_name()}:{self.port}/"
        self.landing = f"http://127.0.0.1:{landing_port}/"

    def pairing_code(self) -> str:
        """One from the terminal, as the maker gets it."""
        command = [sys.executable, "-m", "api.cli", "pair", "--database", str(self.database)]
        said = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
        found = re.search(r"code (\w{4}-\w{4})", said)
        assert found, said
        return found[1]


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    studio = Studio(tmp_path_factory.mktemp("studio"))
    yield studio
    studio.server.stop()


@pytest.fixture
def new_phone(
    playwright: Playwright, tmp_path: Path, studio: Studio
) -> Iterator[Callable[..., BrowserContext]]:
    """A Chromium that finds the studio by its name; it trusts the studio's authority if told to."""
    phones: list[BrowserContext] = []

    def make(*, trusts: bool) -> BrowserContext:
        home = tmp_path / f"phone-{len(phones)}"
        store = home / ".pki" / "nssdb"
        store.mkdir(parents=True)
        change_store(store, "-N", "--empty-password")
        if trusts:
            authority = str(studio.folder / "door" / "authority.crt")
            change_store(store, "-A", "-n", "studio", "-t", "C,,", "-i", authority)
        phones.append(
            playwright.chromium.launch_persistent_context(
                home / "profile",
                executable_path=system_browser(playwright),
                args=[*BROWSER_FLAGS, f"--host-resolver-rules=MAP {local_name()} 127.0.0.1"],
                env={"HOME": str(home), "PATH": "/usr/bin:/bin"},
                viewport=PHONE,
            )
        )
        return phones[-1]

    yield make
    for phone in phones:
        phone.close()


def change_store(store: Path, *options: str) -> None:
    subprocess.run(["certutil", "-d", f"sql:{store}", *options], check=True, capture_output=True)


def complaints(page: Page) -> list[str]:
    """What the browser refuses on the page by its policy, from here on."""
    said: list[str] = []
    page.on(
        "console", lambda message: said.append(message.text) if "Security Policy" in message.text else None
    )
    return said


def test_before_trust_the_studio_is_not_opened_and_the_landing_page_says_plainly_what_to_do(
    new_phone: Callable[..., BrowserContext], studio: Studio
) -> None:
    page = new_phone(trusts=False).new_page()
    refused = complaints(page)
    page.goto(studio.landing)

    expect(page.get_by_role("status")).to_contain_text("does not trust the studio yet")
    expect(page.get_by_role("link", name="Fetch the certificate")).to_be_visible()
    expect(page.locator("details[open] summary")).to_have_text("Linux")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert refused == []
    assert axe_finds_by_day_and_night(page) == ""
    with page.expect_download() as fetched:
        page.get_by_role("link", name="Fetch the certificate").click()
    assert b"-----BEGIN" not in fetched.value.path().read_bytes()[:20]

    with pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"):
        page.goto(studio.url)


def test_a_phone_that_trusts_the_studio_pairs_and_works_with_no_network(
    new_phone: Callable[..., BrowserContext], studio: Studio
) -> None:
    phone = new_phone(trusts=True)
    page = phone.new_page()
    page.goto(studio.landing)
    expect(page.get_by_role("status")).to_contain_text("This device trusts the studio.")
    page.get_by_role("link", name="Open the studio").click()

    page.goto(f"{studio.url}pair#{studio.pairing_code()}")
    page.get_by_label("Name of this device").fill("Phone by the bowl")
    page.get_by_role("button", name="Pair").click()
    recipe = page.get_by_text("Solid hand butter").first
    expect(recipe).to_be_visible()
    assert page.evaluate(KEPT), "no service worker keeps the page"
    assert page.evaluate("() => isSecureContext && 'wakeLock' in navigator")
    page.reload()
    phone.set_offline(True)

    opened = page.reload()

    assert opened is not None and opened.from_service_worker
    expect(recipe).to_be_visible()
    phone.set_offline(False)
    page.reload()
    expect(recipe).to_be_visible()
    me = page.evaluate("async () => (await (await fetch('/api/v1/studio')).json()).you")
    assert (me["name"], me["role"]) == ("Phone by the bowl", "maker")
