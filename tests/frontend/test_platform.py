"""What engines and phones differ in: the rules that keep the page right in all of them, held in Chromium.

tests/engines looks at the same in WebKit and Firefox themselves, as far as they can be driven.
"""

from __future__ import annotations

import re
import struct
from pathlib import Path

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from api.places import FRONTEND
from tests.frontend.hands import NO_COPY
from tests.frontend.shelves import begin_bars, go, open_page
from tests.servers import Server

SCRIPTS = sorted(FRONTEND.rglob("*.js"))
STYLES = sorted(FRONTEND.rglob("*.css"))
ON_ITS_SIDE: list[ViewportSize] = [{"width": 844, "height": 390}, {"width": 667, "height": 375}]


def name_of(path: Path) -> str:
    return str(path.relative_to(FRONTEND))


# What is written


@pytest.mark.parametrize("path", SCRIPTS, ids=name_of)
def test_a_button_that_sends_a_dialog_has_a_value(path: Path) -> None:
    """One without sets the dialog's returnValue to "" in Firefox, and no longer leaves it (whatwg/html#11092)."""
    source = path.read_text("utf-8")
    if 'method: "dialog"' not in source:
        return

    assert [props for props in re.findall(r'{ type: "submit"[^}]*}', source) if "value:" not in props] == []


@pytest.mark.parametrize("path", STYLES, ids=name_of)
def test_a_phones_edges_are_named_in_one_place(path: Path) -> None:
    """So that a test can make them, which no browser on a desk has."""
    found = re.findall(r"env\(safe-area-inset-\w+", path.read_text("utf-8"))

    assert len(found) == (4 if path.name == "tokens.css" else 0)


def test_the_icon_of_the_home_screen_has_no_clear_corner() -> None:
    """An iPhone paints what is clear black."""
    link = re.search(r'rel="apple-touch-icon" href="([^"]+)"', (FRONTEND / "index.html").read_text("utf-8"))
    assert link
    png = (FRONTEND / link[1]).read_bytes()

    _, colour_type = struct.unpack(">BB", png[24:26])
    assert colour_type in (0, 2, 3) and b"tRNS" not in png


def test_no_type_of_the_page_draws_1_i_and_l_alike() -> None:
    """Gill Sans does (from memory)."""
    for path in [*STYLES, *Path(FRONTEND.parent / "api" / "door").glob("*.*")]:
        assert path.suffix == ".pyc" or "Gill Sans" not in path.read_text("utf-8"), path


def test_a_photograph_may_come_from_the_album() -> None:
    for path in SCRIPTS:
        assert "capture:" not in path.read_text("utf-8"), path


# What is done


@pytest.fixture
def phone(page: Page, home: Server, faultless: None) -> Page:
    return open_page(page, home)


@pytest.mark.browser
@NO_COPY
@pytest.mark.parametrize("size", ON_ITS_SIDE, ids=lambda size: f"{size['width']}x{size['height']}")
def test_on_its_side_all_of_the_pad_is_in_sight(page: Page, home: Server, size: ViewportSize) -> None:
    page.set_viewport_size(size)
    open_page(page, home)
    begin_bars(page)
    page.locator("answer-row").get_by_role("button", name="It reads something else").click()
    pad = page.get_by_role("dialog")
    expect(pad).to_be_visible()

    assert pad.evaluate("pad => pad.scrollHeight <= pad.clientHeight")
    for part in [*pad.locator("button").all(), pad.locator(".pad-shown"), pad.locator("h2")]:
        expect(part).to_be_in_viewport(ratio=1)
    keys = [key.bounding_box() for key in pad.locator(".key").all()]
    assert all(key and key["height"] >= 56 and key["width"] >= 56 for key in keys)


@pytest.mark.browser
@NO_COPY
def test_a_list_without_bullets_is_still_one_to_a_screen_reader(phone: Page) -> None:
    """VoiceOver passes over a list whose style is none, unless it says its role."""
    assert phone.locator("ul:not([role]), ol:not([role])").count() == 0


@pytest.mark.browser
@NO_COPY
def test_a_finger_that_a_menu_took_away_holds_nothing_up(phone: Page) -> None:
    """In WebKit no pointerup follows a right click, nor one that a menu or another window took."""
    freed = []
    for end in ("contextmenu", "blur", "pointercancel"):
        phone.evaluate("dispatchEvent(new PointerEvent('pointerdown', { button: 0 }))")
        phone.evaluate("end => dispatchEvent(new Event(end))", end)
        go(phone, "#/shelf" if len(freed) % 2 == 0 else "#/")
        freed.append(end)
        phone.evaluate("document.querySelector('#page').dispatchEvent(new Event('wait-turned'))")
        expect(phone.locator("shelf-screen" if len(freed) % 2 else "recipes-screen")).to_be_visible()


@pytest.mark.browser
@NO_COPY
def test_speech_is_opened_inside_the_first_touch(page: Page, home: Server) -> None:
    page.add_init_script(
        """window.said = [];
           speechSynthesis.speak = ({ text }) => said.push([text, navigator.userActivation.isActive]);"""
    )
    open_page(page, home)
    go(page, "#/studio")
    page.get_by_label("Say each step aloud").check()
    go(page, "#/")
    page.locator("h1").click()

    assert page.evaluate("said") == [["", True]]


@pytest.mark.browser
@NO_COPY
def test_a_density_with_a_comma_is_read_and_a_word_is_refused(phone: Page) -> None:
    go(phone, "#/shelf")
    phone.evaluate(
        """async () => {
             const { askCard } = await import("/parts/shelf-forms.js");
             askCard({ key: "oil", card: { name: "Light oil" } }).then((kept) => (window.kept = kept));
           }"""
    )
    dialog = phone.get_by_role("dialog")
    dialog.get_by_label("Density from where").fill("the supplier's sheet")
    dialog.get_by_label("Density, g/ml").fill("abc")
    dialog.get_by_role("button", name="Keep the card").click()
    expect(dialog.get_by_role("alert")).to_contain_text("a density in g/mL")

    dialog.get_by_label("Density, g/ml").fill("0,92")
    dialog.get_by_role("button", name="Keep the card").click()

    phone.wait_for_function("window.kept")
    assert phone.evaluate("kept[0].body.card.density.g_per_ml") == "0.92"
