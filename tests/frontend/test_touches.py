"""Touches, forms and timers: none is lost, whatever else hangs, and each thing is said where it belongs."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, Route, expect

from tests.frontend.hands import NO_COPY, type_on_pad
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY, pytest.mark.usefixtures("faultless")]

# A phone that grants its screen lock, and tells whether it is held.
SCREEN_LOCK = """() => {
    window.locked = false;
    const request = async () => {
        const held = new EventTarget();
        window.locked = true;
        held.release = async () => { window.locked = false; held.dispatchEvent(new Event("release")); };
        return held;
    };
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
}"""


def begin_bar(page: Page, server: Server) -> str:
    """The one recipe begun on this phone; its run."""
    page.goto(server.url)
    page.locator(".recipe").click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("bench-screen h1")).to_contain_text("butter")
    return page.url.rsplit("/", 1)[1]


def go(page: Page, address: str, screen: str) -> None:
    page.evaluate("address => { location.hash = address; }", address)
    expect(page.locator(screen)).to_be_visible()


def kinds(page: Page, run: str) -> list[str]:
    """The kinds of the run's entries as they lie on the phone's disk."""
    found: list[str] = page.evaluate(
        """run => new Promise((resolve, reject) => {
            const opening = indexedDB.open("bowlside");
            opening.onerror = reject;
            opening.onsuccess = () => {
                const asked = opening.result.transaction("entries").objectStore("entries").index("run").getAll(run);
                asked.onsuccess = () => {
                    opening.result.close();
                    resolve(asked.result.sort((a, b) => a.at - b.at).map(({ kind }) => kind));
                };
            };
        })""",
        run,
    )
    return found


def test_a_touch_keeps_its_target_whatever_hangs_and_wherever_the_maker_is_by_then(
    page: Page, home: Server
) -> None:
    page.add_init_script(f"({SCREEN_LOCK})()")
    hanging: list[Route] = []
    page.route(
        "**/api/v1/kit",
        lambda route: hanging.append(route) if route.request.method == "PUT" else route.continue_(),
    )
    run = begin_bar(page, home)
    title = page.locator("bench-screen h1")
    undo, redo = (page.get_by_role("button", name=re.compile(f"^{verb}")) for verb in ("Undo", "Redo"))
    expect(undo).to_have_count(0)  # an untouched batch keeps its number

    # A save of the kit hangs, and the bench takes what is touched all the same; three on one answer are one.
    go(page, "#/kit", "kit-screen")
    with page.expect_request("**/api/v1/kit"):
        page.get_by_role("button", name="Keep this kit").click()
    go(page, f"#/bench/{run}", "bench-screen")
    page.evaluate(
        "() => { for (const _ of [1, 2, 3]) document.querySelector('answer-row .copper').click(); }"
    )
    expect(title).to_contain_text("oil")
    page.get_by_role("button", name="It reads something else").click()
    type_on_pad(page, "190")

    # Back with the pad open: it closes with its screen, and its reading was never accepted.
    page.go_back()
    expect(page.locator("kit-screen")).to_be_visible()
    expect(page.locator("dialog")).to_have_count(0)
    assert kinds(page, run) == ["numbered", "weighed"]

    # The kit's answer is said where it was asked for, and not at the bench.
    page.go_forward()
    expect(title).to_contain_text("oil")
    for route in hanging:
        route.continue_()
    expect(page.locator("bench-screen .trouble")).to_be_hidden()

    # Answered on the pad and left in the same moment: what was accepted is kept, in its own run.
    page.get_by_role("button", name="It reads something else").click()
    type_on_pad(page, "200")
    page.evaluate(
        """() => { document.querySelector("dialog.pad [value=given]").click(); location.hash = "#/studio"; }"""
    )
    expect(page.locator("studio-screen")).to_be_visible()
    go(page, f"#/bench/{run}", "bench-screen")
    expect(title).to_have_text("Let it set")
    assert kinds(page, run) == ["numbered", "weighed", "weighed"]

    # An undo says what it undoes, before and after; so does the redo; neither hides the prompt that is read out.
    expect(undo).to_have_text("Undo: light oil 50 g")
    undo.click()
    expect(title).to_contain_text("oil")
    expect(page.get_by_role("status").filter(has_text="Undone")).to_have_text("Undone: light oil 50 g.")
    expect(page.locator("bench-screen [aria-live]").last).to_contain_text("Light oil")
    expect(undo).to_have_text("Undo: hard butter 150 g")
    expect(redo).to_have_text("Redo: light oil 50 g")
    redo.click()
    expect(title).to_have_text("Let it set")
    expect(redo).to_have_count(0)

    # Something counts now: the screen is held on wherever the maker looks.
    for address, screen in (("day", "day"), ("gather", "gather"), ("record", "record")):
        go(page, f"#/{address}/{run}", f"{screen}-screen")
        assert page.evaluate("() => locked"), address
    for address, screen in (("", "recipes"), ("shelf", "shelf"), ("nobody/knows", "recipes")):
        go(page, f"#/{address}", f"{screen}-screen")
        assert page.evaluate("() => locked"), address
