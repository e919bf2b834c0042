"""Finished pieces on the page: what is there, two touches with no network at a market stall, and a recall."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.api.test_finished_pieces import MARKET, SHOP
from tests.frontend.hands import NO_COPY, axe_finds_by_day_and_night
from tests.frontend.phones import call, comes_true
from tests.frontend.shelves import SIZES, cut_when_large, go, open_page, overflowing
from tests.frontend.test_screens import TARGET_PX, too_small
from tests.frontend.test_shelf_page import PRESSED
from tests.make import BEGUN, make_entry, make_recipe, make_run, uuid4
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]
DAY_MS = 86_400_000


def finished(server: Server, number: str, good: int, days: int) -> str:
    """A batch that was finished so many days later, of what is sold."""
    document, run = make_recipe() | {"use": "bath", "sold_in": ["us"]}, uuid4()
    document["components"][0]["steps"].append({"id": "press", "kind": "pieces", "title": "Press"})
    recipe = call(server, "PUT", "recipes/0197a0e2-0000-4000-8000-0000000000d1", document)
    begun = call(server, "PUT", f"runs/{run}", make_run(recipe))
    step = next(each["id"] for each in begun["sheet"]["steps"] if each["kind"] == "pieces")
    ends = [
        make_entry(run, at=BEGUN + 1, kind="numbered", body={"number": number}),
        make_entry(run, at=BEGUN + 100, kind="counted", body={"step": step, "good": good}),
        make_entry(run, at=BEGUN + days * DAY_MS, kind="finished", body={}),
    ]
    call(server, "POST", f"runs/{run}/entries", {"entries": ends})
    return run


def test_pieces_leave_in_two_touches_with_no_network_and_are_recalled_with_one(
    page: Page, server: Server, faultless: None
) -> None:
    first, second = finished(server, "A-1", 2, 1), finished(server, "A-2", 10, 2)
    call(server, "PUT", f"outlets/{SHOP}", {"name": "Corner shop", "contact": "corner@example.test"})
    call(server, "PUT", f"outlets/{MARKET}", {"name": "Market", "contact": None})
    page.set_viewport_size(SIZES[0])
    open_page(page, server)
    with page.expect_response(lambda answer: "/api/v1/pieces" in answer.url):  # its own question, no round's
        go(page, "#/pieces")
    screen = page.locator("pieces-screen")
    expect(screen.locator(".shelf-item")).to_have_count(2)

    screen.get_by_role("button", name="Pieces out: Salt soak").click()
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("duties of selling are open: see the recipe.")
    page.keyboard.press("Escape")
    page.route("**/api/**", lambda route: route.abort())
    screen.get_by_role("button", name="Pieces out: Salt soak").click()
    expect(dialog).to_contain_text("duties of selling are open: see the recipe.")  # as last seen
    dialog.get_by_label("Pieces", exact=True).fill("3")
    dialog.get_by_label("Pieces", exact=True).press("Tab")
    dialog.get_by_label("Outlet").select_option(label="Corner shop")
    expect(dialog.get_by_role("status").first).to_have_text(  # the older one first
        "2 of A-1: not released, 1 of A-2: not released"
    )
    dialog.get_by_role("button", name="Save").click()
    expect(screen.locator(".shelf-item")).to_have_count(1)
    expect(screen.locator(".shelf-item")).to_contain_text("9 of 10")
    screen.get_by_role(
        "button", name="Pieces out: Salt soak"
    ).click()  # two touches: the outlet is remembered
    again = page.get_by_role("dialog")
    again.get_by_label("Pieces", exact=True).fill("some")
    again.get_by_role("button", name="Save").click()  # what could not be read is said, and not sold as 1
    expect(again.get_by_role("alert").filter(visible=True)).to_contain_text("“some” is not a whole number")
    again.get_by_label("Pieces", exact=True).fill("1")
    again.get_by_role("button", name="Save").click()
    expect(screen.locator(".shelf-item")).to_contain_text("8 of 10")
    screen.get_by_role("button", name="Undo: 1 sold").click()
    expect(screen.locator(".shelf-item")).to_contain_text("9 of 10")
    screen.locator("summary").click()
    screen.get_by_role("button", name="Place: A-2").click()
    page.get_by_role("dialog").get_by_label("Place").fill("By the door")
    page.get_by_role("dialog").get_by_role("button", name="Save").click()
    expect(screen.locator(".shelf-item")).to_contain_text("By the door")
    expect(screen.get_by_role("button", name="Undo: place “By the door”")).to_be_visible()
    assert not overflowing(page) and too_small(page.locator(PRESSED), TARGET_PX) == []
    assert axe_finds_by_day_and_night(page) == ""

    page.unroute("**/api/**")
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(screen.get_by_role("button", name="Where it went: A-2")).to_be_visible()
    comes_true(
        page,
        "path => fetch(path).then((answer) => answer.json()).then(({ batch }) => batch.in_stock === 9)",
        arg=f"/api/v1/pieces/{second}",
    )
    assert call(server, "GET", f"pieces/{first}")["batch"]["in_stock"] == 0
    screen.get_by_role("button", name="Where it went: A-2").click()
    expect(screen.locator(".shelf-item")).to_contain_text("Corner shop: 1")

    page.route("**/api/**", lambda route: route.abort())
    screen.get_by_role("link", name="Recall").click()
    recall = page.locator("recall-screen")
    expect(recall.get_by_role("status").first).to_contain_text("No connection")
    page.unroute("**/api/**")
    # It comes with the connection unasked, and the button is gone then; or it is asked for again.
    recall.locator("button.outlined").evaluate("button => button.click()")
    expect(recall).to_contain_text("10 of 10 pieces found: 100 %")
    expect(recall).to_contain_text("Corner shop: 1, corner@example.test")
    recall.get_by_role("button", name="Rehearse").click()
    expect(recall).to_contain_text("Rehearsal: nothing is recalled.")
    assert axe_finds_by_day_and_night(page) == ""

    go(page, "#/recall/runs.0197")  # cut short on its way
    expect(page.get_by_role("heading", name="Not on this phone")).to_be_visible()

    go(page, "#/pieces")
    screen.get_by_role("link", name="All batches").click()
    figures = page.locator("figures-screen")
    expect(figures.locator("tbody")).to_have_text(  # the newest first: a share of 12, and what was never told
        [
            re.compile(r"A-2.*10 of 12 good.*Salt soak\u2013?.*83\u2013.*"),
            re.compile(r"A-1.*2 of 12 good.*17\u2013.*"),
        ]
    )
    figures.get_by_label("Show").select_option(label="Yield, %")
    expect(figures.get_by_role("img")).to_have_attribute(
        "aria-label", "Salt soak: 2 batches, 17 to 83, last 83."
    )
    expect(figures.locator("circle")).to_have_count(2)
    file = call(server, "GET", "figures")
    assert figures.get_by_role("link", name="CSV").get_attribute("href") == "/api/v1/figures.csv?"
    assert (figures.get_by_role("link", name="Parquet").count() == 1) == file["parquet"]
    assert not overflowing(page) and axe_finds_by_day_and_night(page) == ""
    assert cut_when_large(page) == []
    aside = "table => [table.scrollWidth - table.clientWidth, document.documentElement.style.fontSize = '']"
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert figures.locator(".figures-table").evaluate(aside)[0] <= 0, (
        "at twice the text the table moves aside"
    )
    figures.get_by_role("link", name="Salt soak").click()
    expect(figures.get_by_role("img")).to_have_count(5)
    figures.get_by_label("Finished until").fill("2024-01-01")
    expect(figures).to_contain_text("No batch fits.")

    go(page, "#/pieces")
    screen.get_by_role("button", name="Outlets").click()
    screen.get_by_role("button", name="Erase: Corner shop").click()
    page.get_by_role("dialog").get_by_role("button", name="Erase").click()
    expect(screen).to_contain_text(
        re.compile("Erased. (No copy in the folder has|These copies still have) the name")
    )
    assert [each["name"] for each in call(server, "GET", "outlets")["outlets"]] == ["Market", None]

    rejected = {
        **{"run": first, "number": "A-1", "title": "Salt soak", "in_stock": 5},
        **{"best_before": None, "made_on": "2025-02-19", "release": "rejected"},
    }
    page.evaluate(
        """async (batch) => {
            const { askLeaving } = await import("/parts/pieces-forms.js");
            const last = { way: "sold", outlet: "" };
            askLeaving({ title: "", outlets: [], today: "", last, duties: Promise.resolve(0), batches: [batch] });
        }""",
        rejected,
    )
    expect(page.get_by_role("dialog").get_by_role("status").first).to_have_text("A-1: rejected")
