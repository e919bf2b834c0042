"""What engines and phones differ in: the rules that keep the page right in all of them, held in Chromium.

tests/engines looks at the same in WebKit and Firefox themselves, as far as they can be driven.
"""

from __future__ import annotations

import json
import re
import struct
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from api.places import FRONTEND
from tests.frontend.conftest import Lasting
from tests.frontend.hands import NO_COPY, carry_on
from tests.frontend.shelves import begin_bars, go, open_page
from tests.servers import ROOT, Server

SCRIPTS = sorted(FRONTEND.rglob("*.js"))
STYLES = sorted(FRONTEND.rglob("*.css"))
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko)"
    " Version/18.5 Mobile/15E148 Safari/604.1"
)


def name_of(path: Path) -> str:
    return str(path.relative_to(FRONTEND))


# What is written


def test_a_button_that_sends_a_dialog_has_a_value() -> None:
    """One without sets the dialog's returnValue to "" in Firefox, and no longer leaves it (whatwg/html#11092)."""
    sources = {name_of(path): path.read_text("utf-8") for path in SCRIPTS}
    sending = {
        name: re.findall(r'{ type: "submit"[^}]*}', source)
        for name, source in sources.items()
        if 'method: "dialog"' in source
    }

    assert len(sending) > 1
    assert {name: props for name, each in sending.items() for props in each if "value:" not in props} == {}


@pytest.mark.parametrize("path", STYLES, ids=name_of)
def test_a_phones_edges_are_named_in_one_place(path: Path) -> None:
    """So that a test can make them, which no browser on a desk has."""
    found = re.findall(r"env\(safe-area-inset-\w+", path.read_text("utf-8"))

    assert len(found) == (4 if path.name == "tokens.css" else 0)


@pytest.mark.parametrize("path", STYLES, ids=name_of)
def test_no_style_asks_by_a_state_or_a_place_what_is_within(path: Path) -> None:
    """A browser then styles all of the bench anew whenever a letter of it changes: 2.5 ms of a touch, as traced."""
    asking = re.findall(r":has\(([^{]*)\{", re.sub(r"/\*.*?\*/", "", path.read_text("utf-8"), flags=re.S))

    assert [each for each in asking if re.match(r"[^)]*:(?!is\()", each) or "> *" in each] == []


def test_the_oldest_browsers_can_read_every_style_sheet_and_know_every_call() -> None:
    """Against lightningcss for Safari 16, Chrome 105 and Firefox 121; newer built-ins are refused by tsc's `lib`."""
    reader = Path(__file__).with_name("oldest.mjs")
    said = subprocess.run(["node", reader, *STYLES], cwd=ROOT, capture_output=True, text=True, check=True)
    newer = re.compile(
        r"\.(checkVisibility|showPopover|startViewTransition|setHTML|randomUUID)\(|AbortSignal\.any"
    )  # MDN

    assert said.stdout == ""
    assert [name_of(path) for path in SCRIPTS if newer.search(path.read_text("utf-8"))] == []


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
        # A listener may hear a touch on its way down; no input may ask for the camera.
        said = re.sub(r"addEventListener\([^;]*;", "", path.read_text("utf-8"))
        assert "capture:" not in said, path


# What is done


@pytest.fixture
def phone(lasting: Lasting, home: Server) -> Page:
    page = lasting.at(home.url)
    expect(page.locator(".recipe")).not_to_have_count(0)
    return page


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
    expect(phone.locator("shelf-screen")).to_be_visible()
    phone.evaluate(
        """async () => {
             const { askCard } = await import("/parts/shelf-forms.js");
             const propose = async () => null; // no connection
             askCard({ key: "oil", card: { name: "Light oil" }, propose }).then((kept) => (window.kept = kept));
           }"""
    )
    dialog = phone.get_by_role("dialog")
    dialog.get_by_label("Density from where").fill("the supplier's sheet")
    dialog.get_by_label("Density, g/ml").fill("abc")
    dialog.get_by_role("button", name="Save card").click()
    expect(dialog.get_by_role("alert")).to_contain_text("a density in g/mL")

    dialog.get_by_label("Density, g/ml").fill("0,92")
    dialog.get_by_role("button", name="Save card").click()

    phone.wait_for_function("() => window.kept")
    assert phone.evaluate("kept[0].body.card.density.g_per_ml") == "0.92"


@pytest.mark.browser
def test_an_older_browser_is_told_what_it_takes_and_nothing_fails(
    new_phone: Callable[[], BrowserContext], home: Server
) -> None:
    readme = (FRONTEND.parent / "README.md").read_text("utf-8")
    faults: list[str] = []
    for without in (
        "delete AbortSignal.timeout",
        "CSS.supports = () => false",
        "delete Array.prototype.findLast",
    ):
        page = new_phone().new_page()
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.add_init_script(without)
        page.goto(home.url)

        expect(page.get_by_role("alert"), without).to_contain_text("too old for Bowlside")
        assert page.locator("recipes-screen").count() == 0, without
        for oldest in ("Safari 16", "Chrome or Edge 105", "Firefox 121"):
            expect(page.get_by_role("alert")).to_contain_text(oldest)
            assert oldest in readme
        assert faults == [], without


@pytest.mark.browser
@NO_COPY
def test_a_screen_that_may_go_dark_is_said_while_something_counts(page: Page, live_server: Server) -> None:
    page.add_init_script(
        """navigator.wakeLock.request = async () => {
               if (window.grants) return Object.assign(new EventTarget(), { release: async () => {} });
               throw new DOMException("low on power", "NotAllowedError");
           };"""
    )
    carry_on(page)
    page.goto(live_server.url)
    page.locator(".open-run").click()
    sign = page.locator(".head-sign")
    expect(sign).to_contain_text("screen may go dark")

    page.evaluate("window.grants = true; document.dispatchEvent(new Event('visibilitychange'))")
    page.locator("bench-screen h1").click()

    expect(sign).not_to_contain_text("screen may go dark")


@pytest.mark.browser
@NO_COPY
def test_a_bench_that_cannot_ring_says_so_until_it_is_touched(page: Page, live_server: Server) -> None:
    carry_on(page)
    page.goto(live_server.url)
    run = page.locator(".open-run").get_attribute("href")
    page.goto(f"{live_server.url}{run}")
    page.reload()  # as a phone does by itself, with nobody's touch
    sign = page.locator(".head-sign")
    expect(sign).to_contain_text("no sound")
    page.set_viewport_size({"width": 390, "height": 844})
    assert sign.evaluate(
        "(each) => each.scrollWidth <= each.clientWidth"
    )  # whole, whatever the batch is called

    page.locator("bench-screen h1").click()

    expect(sign).not_to_contain_text("no sound")


@pytest.fixture
def iphone(browser: Browser, home: Server) -> Iterator[BrowserContext]:
    """A browser that says it is an iPhone's; the engine is Chromium all the same."""
    context = browser.new_context(
        user_agent=IPHONE, viewport={"width": 390, "height": 844}, has_touch=True, reduced_motion="reduce"
    )
    context.add_init_script("delete Navigator.prototype.serviceWorker")
    yield context
    context.close()


@pytest.mark.browser
def test_it_is_told_in_order_what_an_iphone_needs_and_only_there(
    iphone: BrowserContext, page: Page, home: Server
) -> None:
    for phone, steps in ((iphone.new_page(), 4), (page, 0)):
        open_page(phone, home)
        go(phone, "#/studio")
        ring = phone.get_by_role("region", name="Will it ring?")
        expect(ring).to_contain_text("It rings while this page is open and the screen is on.")
        expect(ring.locator("ol li")).to_have_count(steps)
        if steps:
            order = ring.locator("ol").inner_text()
            words = ("Add to Home Screen", "pair it there", "Auto-Lock", "Silent switch")
            assert sorted(words, key=order.index) == list(words)
            expect(ring).to_contain_text("With the screen off, or another app in front, nothing rings.")
            expect(phone.locator("studio-screen")).to_contain_text("after 7 days without a visit")


@pytest.mark.browser
def test_an_installed_iphone_page_shares_a_file_instead_of_losing_it(
    iphone: BrowserContext, home: Server
) -> None:
    iphone.add_init_script(
        """navigator.standalone = true;
           navigator.canShare = () => true;
           navigator.share = async ({ files: [file] }) => (window.shared = [file.name, file.type, file.size > 2]);"""
    )
    phone = open_page(iphone.new_page(), home)
    go(phone, "#/studio")
    expect(phone.get_by_role("region", name="Will it ring?").locator("ol li")).to_have_count(2)

    phone.get_by_role("button", name="Save what is on this phone").click()
    phone.wait_for_function("() => window.shared")
    assert phone.evaluate("shared") == ["bowlside-phone.json", "application/json", True]

    phone.evaluate("window.shared = null")
    phone.get_by_role("link", name="Save everything from the server").click()
    phone.wait_for_function("() => window.shared")
    assert phone.evaluate("shared") == ["bowlside.json", "application/json", True]


@pytest.mark.browser
def test_an_iphones_keyboard_covers_no_button_of_a_note(iphone: BrowserContext, home: Server) -> None:
    phone = open_page(iphone.new_page(), home)
    begin_bars(phone)
    phone.get_by_role("button", name="Other").click()
    phone.get_by_role("dialog").get_by_role("button", name="Write a note").click()
    dialog = phone.get_by_role("dialog")
    phone.evaluate(
        """Object.defineProperty(visualViewport, "height", { value: innerHeight - 336 });
           visualViewport.dispatchEvent(new Event("resize"))"""
    )

    box = dialog.bounding_box()
    assert box and box["y"] >= 0 and box["y"] + box["height"] <= 844 - 336
    expect(dialog.get_by_role("button", name="Save")).to_be_in_viewport(ratio=1)


def config(name: str) -> dict[str, Any]:
    lines = (ROOT / name).read_text(encoding="utf-8").splitlines()
    told: dict[str, Any] = json.loads("\n".join(line for line in lines if not line.lstrip().startswith("//")))
    return told


def test_the_type_check_reads_every_script_and_nothing_is_kept_from_it() -> None:
    """`make lint` runs it by both: a worker has other globals than a page."""
    page, worker = config("tsconfig.json"), config("tsconfig.worker.json")

    assert page["include"] == ["types/*.d.ts", "frontend/**/*.js"]
    assert page["exclude"] == worker["include"] == ["frontend/sw.js"]
    assert page["compilerOptions"]["strict"] and page["compilerOptions"]["checkJs"]
    for path in [*SCRIPTS, *sorted((ROOT / "types").glob("*.d.ts"))]:
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"@ts-|[:<{|(] *any\b *[\[\]>},;|)]", text), path.name


def test_a_piece_more_draws_its_own_place_and_the_next_anew_and_no_other(
    page: Page, live_server: Server
) -> None:
    """What a touch changes is drawn: of forty-eight places those two, and what the plate says."""
    page.goto(f"{live_server.url}keep/ids.js")

    told = page.evaluate(
        """async () => {
            const { registerPlateRow } = await import("/parts/plate-rows.js");
            registerPlateRow();
            const plate = document.createElement("plate-row");
            document.documentElement.append(plate);
            const draw = (good) => {
                plate.data = { kind: "cavities", letter: "A", verb: "", good, spoiled: 1, partial: 0, count: 60 };
                const svg = plate.querySelector("svg");
                return { places: [...svg.children], says: svg.getAttribute("aria-label") };
            };
            const before = draw(4);
            const after = draw(5);
            return {
                all: after.places.length,
                anew: after.places.flatMap((node, place) => (node === before.places[place] ? [] : [place])),
                classes: after.places.slice(3, 8).map((node) => node.firstChild.getAttribute("class")),
                says: before.says !== after.says,
            };
        }"""
    )

    assert told == {
        "all": 48,
        "anew": [4, 5, 6],
        "classes": ["cavity good", "cavity good", "cavity spoiled", "cavity next", "cavity empty"],
        "says": True,
    }
