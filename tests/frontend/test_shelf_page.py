"""The shelf: what came, what is left, what went wrong with it and where it went; with no network too."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect

from tests.frontend.hands import NO_COPY, axe_finds_at_another_size, axe_finds_by_day_and_night, type_on_pad
from tests.frontend.phones import comes_true
from tests.frontend.shelves import (
    DETECTOR,
    KG,
    SIZES,
    begin_bars,
    card,
    enter,
    go,
    lot,
    open_page,
    overflowing,
    stock,
)
from tests.frontend.test_screens import TARGET_PX, too_small
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

# A box to tick is as large as its label.
PRESSED = "#page :is(button, a, summary, select, textarea, label.choice, input:not(.unseen, [type=checkbox], [type=radio]))"


@pytest.fixture
def phone(page: Page, home: Server, faultless: None) -> Page:
    """A phone whose server goes away once it has heard the recipes."""
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    page.route("**/api/**", lambda route: route.abort())
    return page


def row(page: Page, name: str) -> Any:
    return page.locator(".shelf-item").filter(has_text=name)


def receive(page: Page, **written: str) -> None:
    page.locator(".size-foot").get_by_role("button", name="Receive a lot").click()
    sheet = page.get_by_role("dialog")
    for label, text in written.items():
        sheet.get_by_label(label.replace("_", " "), exact=True).fill(text)
    sheet.get_by_role("button", name="Put on the shelf").click()


def test_a_lot_that_came_is_on_the_shelf_with_no_network_and_what_cannot_be_read_of_one_is_not(
    phone: Page,
) -> None:
    go(phone, "#/shelf")

    receive(phone, Trade_name="Shea butter", How_much="some", **{"Supplier's lot number": "S-17"})

    dialog = phone.get_by_role("dialog")
    expect(dialog.get_by_role("alert")).to_contain_text("“some” cannot be read")
    dialog.get_by_label("How much").fill("1 kg")
    dialog.get_by_label("Price paid").fill("1,250")
    dialog.get_by_label("Currency").fill("EUR")
    dialog.locator("button.copper").click()
    expect(dialog.get_by_role("alert")).to_contain_text("“1,250”: 1.25 or 1250? Write one of them.")
    phone.get_by_role("dialog").get_by_role("button", name="Back").click()
    expect(phone.locator(".shelf-item")).to_have_count(0)

    receive(
        phone,
        Trade_name="Shea butter",
        INCI_name="Butyrospermum Parkii Butter",
        How_much="1 kg",
        **{"Supplier's lot number": "S-17"},
        Best_before="2099-03-31",
        Price_paid="12,50",
        Currency="eur",
    )

    expect(row(phone, "Shea butter")).to_contain_text("1000 g")
    expect(row(phone, "Shea butter")).to_contain_text("12.50 EUR")
    phone.reload()
    expect(row(phone, "Shea butter")).to_contain_text("best before 31 Mar 2099")
    phone.get_by_role("button", name="Receive a lot", exact=True).click()
    expect(phone.get_by_label("Currency")).to_have_value(
        "EUR"
    )  # as the last was paid in; nobody is asked again


def test_correcting_and_writing_off_change_what_is_left_and_what_does_not_fit_or_is_past_is_said(
    phone: Page,
) -> None:
    stock(phone, card("oil", "Light oil"), lot("l1", "oil", KG))
    row(phone, "Light oil").locator("summary").click()

    phone.get_by_role("button", name="Correct L1").click()
    expect(phone.get_by_role("dialog")).to_contain_text("The shelf says 1000 g")
    type_on_pad(phone, "900")
    phone.locator("dialog .copper").click()
    expect(row(phone, "Light oil").locator(".shelf-left")).to_have_text("900 g")

    phone.get_by_role("button", name="Write off L1").click()
    phone.get_by_label("How much is gone").fill("150 g")
    phone.get_by_label("Why").fill("spilt")
    phone.get_by_role("button", name="Write off", exact=True).click()
    expect(row(phone, "Light oil").locator(".shelf-left")).to_have_text("750 g")
    expect(row(phone, "Light oil")).to_contain_text("150 g written off, spilt")

    phone.get_by_role("button", name="Undo: write-off of 150 g").click()
    expect(row(phone, "Light oil").locator(".shelf-left")).to_have_text("900 g")

    # What was written wrong is mended, and what it was stands beside.
    phone.get_by_role("button", name="Mend lot L1").click()
    sheet = phone.get_by_role("dialog")
    sheet.locator("button.copper").click()
    expect(sheet.get_by_role("alert")).to_contain_text("Nothing is changed")
    sheet.get_by_label("Supplier's lot number").fill("L-77")
    sheet.get_by_label("Price paid").fill("12,50")
    sheet.get_by_label("Currency").fill("EUR")
    sheet.locator("button.copper").click()
    expect(row(phone, "Light oil").locator(".lot b").first).to_have_text("L-77")
    expect(row(phone, "Light oil")).to_contain_text("mended; lot number was L1, price was empty")
    expect(row(phone, "Light oil")).to_contain_text("12.50 EUR")

    # What is past its date is said, and comes first.
    stock(
        phone,
        card("clay", "White clay"),
        lot("new", "clay", KG, best_before="2099-01-01"),
        lot("old", "clay", KG, best_before="2020-01-01"),
    )
    expect(row(phone, "White clay").locator("summary")).to_contain_text("past its date, 1 Jan 2020")
    row(phone, "White clay").locator("summary").click()
    expect(row(phone, "White clay").locator(".lot b").first).to_have_text("OLD")

    # A CAS number whose digits do not fit is not kept.
    stock(phone, card("soda", "Bicarbonate of soda"))
    row(phone, "Bicarbonate").locator("summary").click()
    phone.get_by_role("button", name="Card: Bicarbonate of soda").click()
    phone.get_by_label("CAS number").fill("144-55-9")
    phone.get_by_role("button", name="Save card").click()
    expect(phone.get_by_role("dialog").get_by_role("alert")).to_contain_text("CAS number is wrong")
    phone.get_by_label("CAS number").fill("144-55-8")
    phone.get_by_role("button", name="Save card").click()
    expect(row(phone, "Bicarbonate")).to_contain_text("144-55-8")


def test_the_camera_reads_a_code_and_is_off_again_refused_leaves_the_hand_and_without_one_nothing_offers(
    phone: Page,
) -> None:
    phone.add_init_script("delete window.BarcodeDetector")
    phone.reload()
    go(phone, "#/shelf")
    expect(phone.get_by_label("Find by name")).to_be_visible()
    expect(phone.get_by_role("button", name="Scan")).to_have_count(0)

    phone.add_init_script(DETECTOR)
    phone.reload()
    stock(phone, card("amber", "Amber oil"), card("wax", "Wax"), lot("a1", "amber", KG, code="4006381333931"))
    phone.evaluate("window.seen = '4006381333931'")

    phone.get_by_role("button", name="Scan").click()

    expect(phone.get_by_label("Find by name")).to_have_value("4006381333931")
    expect(phone.locator(".shelf-item")).to_have_count(1)
    assert phone.evaluate("window.asked.video.facingMode") == "environment"
    assert phone.evaluate("window.stopped") == 1

    phone.evaluate(
        """() => {
            navigator.mediaDevices.getUserMedia = async () => { throw new DOMException('', 'NotAllowedError'); };
        }"""
    )
    phone.get_by_role("button", name="Scan").click()

    expect(phone.get_by_role("dialog")).to_contain_text("NotAllowedError")
    phone.get_by_role("button", name="Back", exact=True).click()
    expect(phone.locator("shelf-screen")).to_be_visible()


def test_a_lot_leads_to_the_batches_it_went_into_and_is_less_by_them(phone: Page) -> None:
    stock(phone, card("butter", "Hard butter"), lot("b1", "butter", KG))
    run = begin_bars(phone)
    enter(
        phone,
        ("gathered", {"ingredient": "butter", "lot": "b1", "mg": 150_000}),
        ("weighed", {"line": "bar.1.butter", "mg": 152_000}),
    )
    go(phone, "#/shelf")

    expect(row(phone, "Hard butter").locator(".shelf-left")).to_have_text("848 g")
    row(phone, "Hard butter").locator("summary").click()
    phone.get_by_role("button", name="Where it went: B1").click()
    expect(row(phone, "Hard butter")).to_contain_text("Batches on this phone")
    expect(row(phone, "Hard butter").locator("[data-trace] li").nth(1)).to_contain_text("152 g")
    phone.locator(f"[data-trace] a[href='#/record/{run}']").click()
    expect(phone.locator("record-screen")).to_contain_text("2.00 g more than was booked")


def test_the_pages_are_clean_reachable_and_never_wider_than_the_screen(phone: Page) -> None:
    stock(
        phone,
        card("butter", "Hard butter", inci="Theobroma Cacao Seed Butter", limits=["at most 60 %"]),
        lot("b1", "butter", KG, best_before="2020-01-01", price={"amount": "9.00", "currency": "EUR"}),
        lot("b2", "butter", KG),
    )
    run = begin_bars(phone)
    enter(
        phone,
        ("gathered", {"ingredient": "butter", "lot": "b2", "mg": 150_000}),
        ("weighed", {"line": "bar.1.butter", "mg": 150_000}),
        ("finished", {}),
    )
    found = []
    for size in SIZES:
        phone.set_viewport_size(size)
        for address in ["#/shelf", f"#/gather/{run}", f"#/record/{run}", f"#/label/{run}"]:
            go(phone, address)
            expect(phone.locator("h1")).to_be_visible()
            expect(phone.locator("#page > *")).to_have_count(1)
            phone.wait_for_function(
                "name => document.documentElement.dataset.screen === name", arg=address.split("/")[1]
            )
            if address == "#/shelf":
                phone.locator(".shelf-item").evaluate_all(
                    "items => items.forEach(item => { item.open = true })"
                )
            look = axe_finds_by_day_and_night if size == SIZES[0] else axe_finds_at_another_size
            if report := look(phone):
                found.append(f"{address} {size}: {report}")
            if overflowing(phone):
                found.append(f"{address} {size} scrolls sideways")
            small = too_small(phone.locator(PRESSED), TARGET_PX)
            found += [f"{address} {size}: {each}" for each in small]
    assert found == []


@pytest.fixture
def online(page: Page, home: Server) -> Page:
    page.set_viewport_size(SIZES[1])
    return open_page(page, home)


def test_what_came_goes_to_the_server_and_from_there_to_another_phone(
    online: Page, home: Server, new_phone: Callable[[], BrowserContext]
) -> None:
    with online.expect_response(lambda answer: answer.url.endswith("/shelf/entries") and answer.ok):
        stock(online, card("dark", "Dark oil"), lot("d7", "dark", KG))

    other = open_page(new_phone().new_page(), home)
    go(other, "#/shelf")
    expect(row(other, "Dark oil").locator(".shelf-left")).to_have_text("1000 g")


def test_where_a_lot_went_is_one_touch_away_with_a_list_to_recall_by_and_asked_once_the_lot_is_told(
    online: Page,
) -> None:
    online.route("**/api/**", lambda route: route.abort())
    stock(online, card("green", "Green clay"), lot("g4", "green", KG))
    row(online, "Green clay").locator("summary").click()
    online.get_by_role("button", name="Where it went: G4").click()
    where = row(online, "Green clay").locator("[data-trace]")
    expect(where).to_contain_text("No connection. Batches on this phone:")
    online.unroute("**/api/**")

    online.get_by_role("button", name="Where it went: G4").click()
    recall = where.get_by_role("link", name="Recall list as a file")
    expect(recall).to_be_visible()
    expect(where).to_contain_text("In no batch.")
    with online.expect_download() as downloading:
        recall.click()
    assert downloading.value.path().read_text("utf-8-sig").startswith("ingredient,")

    # It stands while the shelf changes.
    with online.expect_response("**/lots/g4/trace*"):  # it may have gone somewhere since
        stock(online, {"kind": "noted", "body": {"ingredient": "green", "text": "Sieve it"}})
    expect(row(online, "Green clay")).to_contain_text("Sieve it")
    expect(recall).to_be_visible()


def test_a_papers_file_is_kept_with_its_lot_and_opened_from_shelf_record_and_recall(
    online: Page, tmp_path: Path
) -> None:
    """A PDF goes as it is, byte for byte; and once the server has it, this phone holds it no longer."""
    key = "0190a0a0-0000-7000-8000-00000000000b"
    stock(online, card("butter", "Hard butter"), lot(key, "butter", KG, number="B1"))
    item = row(online, "Hard butter")
    item.locator("summary").click()
    item.get_by_role("button", name="Paper about B1").click()
    sheet = online.get_by_role("dialog")
    bad, sheet_file = tmp_path / "sheet.heic", tmp_path / "sheet.pdf"
    bad.write_bytes(b"no picture")
    sheet_file.write_bytes(b"%PDF-1.7\n% made up\n%%EOF\n")
    sheet.get_by_label("File, PDF or photo").set_input_files(bad)
    expect(sheet.get_by_role("alert").filter(visible=True)).to_contain_text("picture")
    sheet.get_by_label("File, PDF or photo").set_input_files(sheet_file)
    expect(sheet.get_by_label("Its number, or where it is")).to_have_value("sheet.pdf")
    sheet.get_by_label("Valid until").fill("2020-01-31")
    with online.expect_response(lambda answer: "/pictures/" in answer.url and answer.status == 201):
        sheet.get_by_role("button", name="Save").click()
    expect(item).to_contain_text("past its date: Safety data sheet")

    run = begin_bars(online)
    enter(
        online,
        ("gathered", {"ingredient": "butter", "lot": key, "mg": 150_000}),
        ("weighed", {"line": "bar.1.butter", "mg": 150_000}),
    )
    for address in ("#/shelf", f"#/record/{run}", f"#/recall/lots.{key}"):
        go(online, address)
        if address == "#/shelf":
            row(online, "Hard butter").locator("summary").click()
        with online.expect_download() as downloading:
            online.get_by_role("link", name="Open: Safety data sheet").click()
        assert downloading.value.suggested_filename == "sheet.pdf"
        assert downloading.value.path().read_bytes() == sheet_file.read_bytes()
    comes_true(
        online,
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore();
            const { pictures } = await store.read("pictures");
            store.close();
            return pictures.length === 0;
        }""",
    )


def test_batches_that_only_the_server_holds_are_taken_off_too(online: Page) -> None:
    """Of the finished runs a phone holds the newest; the server's word counts for the others."""

    def more_than_here(route: Route) -> None:
        answer = route.fetch()
        route.fulfill(response=answer, json={**answer.json(), "total": 500})

    left = {"lots": [{"id": "e1", "left_mg": 400_000, "left_count": None}], "page": 1, "pages": 1, "total": 1}
    begin_bars(online)
    enter(online, ("finished", {}))
    stock(online, card("wax", "Hard wax"), lot("e1", "wax", KG))
    online.route("**/api/v1/lots?*", lambda route: route.fulfill(json=left))
    online.route("**/api/v1/runs?open=false*", more_than_here)

    online.reload()  # which asks at once

    expect(row(online, "Hard wax").locator(".shelf-left")).to_have_text("400 g")
