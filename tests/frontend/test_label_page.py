"""The label: drawn at true size, its words by the rules, its letters measured, and printed as shown."""

from __future__ import annotations

import io
import re

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

import bench
from tests.frontend.hands import NO_COPY
from tests.frontend.phones import RECIPE
from tests.frontend.shelves import SIZES, begin_bars, card, enter, go, open_page, stock
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

PX_PER_MM = 96 / 25.4
POINTS_PER_MM = 72 / 25.4
BUTTER = ("weighed", {"line": "bar.1.butter", "mg": 150_000})
OIL = ("weighed", {"line": "bar.1.oil", "mg": 50_000})
CARDS = (
    card("butter", "Hard butter", inci="Theobroma Cacao Seed Butter"),
    card("oil", "Light oil", inci="Aqua 40 %, Helianthus Annuus Seed Oil 60 %"),
)


@pytest.fixture
def label(page: Page, home: Server, faultless: None) -> Page:
    """The label of a weighed batch, with no network."""
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    page.route("**/api/**", lambda route: route.abort())
    stock(page, *CARDS)
    run = begin_bars(page)
    enter(page, BUTTER, OIL)
    go(page, f"#/label/{run}")
    expect(page.locator(".label-plate")).to_be_visible()
    return page


def plate_mm(page: Page) -> tuple[float, float]:
    box = page.locator(".label-plate").bounding_box()
    assert box
    return box["width"] / PX_PER_MM, box["height"] / PX_PER_MM


def test_it_is_as_large_on_the_screen_as_it_will_be_on_the_jar(label: Page) -> None:
    assert plate_mm(label) == pytest.approx((70, 50), abs=0.1)

    label.get_by_label("Width, mm").fill("55")
    label.get_by_label("Height, mm").fill("40")

    assert plate_mm(label) == pytest.approx((55, 40), abs=0.1)


def test_its_list_is_what_the_rules_make_of_what_was_weighed(label: Page) -> None:
    """150 g of butter, and 50 g of which four tenths are water: 75 %, 15 %, 10 %."""
    expect(label.locator(".label-list")).to_have_text(
        "Ingredients: Theobroma Cacao Seed Butter, Helianthus Annuus Seed Oil, Aqua."
    )
    label.locator(".way", has_text="United States").click()
    expect(label.locator(".label-list")).to_contain_text("Seed Oil, Water.")
    expect(label.locator(".label-net")).to_have_text("Net Wt 1.7 oz (50 g)")


def test_its_words_are_those_of_the_reference(label: Page) -> None:
    sheet, entries = label.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore();
            const { runs, entries } = await store.read("runs", "entries");
            store.close();
            return [runs[0].sheet, entries.filter(({ run }) => run === runs[0].id)];
        }"""
    )
    cards = {"butter": CARDS[0]["body"]["card"], "oil": CARDS[1]["body"]["card"]}

    told = bench.label(bench.read_recipe(RECIPE), sheet, bench.fold(sheet, entries), "eu", {"cards": cards})

    expect(label.locator(".label-list")).to_have_text(f"Ingredients: {told['text']}.")
    expect(label.locator(".label-net")).to_have_text(told["net"])
    expect(label.locator(".label-foot")).to_contain_text(f"Batch {told['batch']}")


def test_letters_under_the_rules_height_are_warned_of_and_the_law_rules(label: Page) -> None:
    label.locator(".way", has_text="United States").click()
    expect(label.locator("label-screen")).not_to_contain_text("too small")

    label.get_by_label("Width, mm").fill("34")
    label.get_by_label("Height, mm").fill("24")
    label.get_by_label("Your own precautions").fill("Keep away from small children. " * 12)

    expect(label.get_by_role("region", name="Look at")).to_contain_text(
        "letters of the ingredient list are too small"
    )
    expect(label.locator(".law")).to_contain_text("the law where it is sold rules")
    expect(label.get_by_role("region", name="Still missing on it")).to_contain_text(
        "name and place of business"
    )


def test_the_height_that_is_judged_is_the_height_that_is_drawn(label: Page) -> None:
    """A small o as the canvas draws it at the label's own size, against what the page says of it."""
    said = label.get_by_role("region", name="Letters").inner_text()
    found = re.search(r"ingredient list: a small o is ([0-9.]+) mm", said)
    assert found

    drawn = label.locator(".label-list").evaluate(
        """list => {
            const { fontSize, fontFamily } = getComputedStyle(list);
            const canvas = Object.assign(document.createElement("canvas"), { width: 1400, height: 1400 });
            const pen = canvas.getContext("2d");
            pen.font = `1000px ${fontFamily}`;
            pen.fillText("o", 100, 1100);
            const { data } = pen.getImageData(0, 0, 1400, 1100);
            const rows = [];
            for (let y = 0; y < 1100; y += 1) if (data.subarray(y * 5600, (y + 1) * 5600).some((ink) => ink > 0)) rows.push(y);
            return ((1100 - rows[0]) / 1000) * parseFloat(fontSize) * 25.4 / 96;
        }"""
    )
    assert float(found[1]) == pytest.approx(drawn, abs=0.02)


def test_words_that_fit_no_label_of_that_size_are_said(label: Page) -> None:
    label.get_by_label("Width, mm").fill("10")
    label.get_by_label("Height, mm").fill("10")

    expect(label.get_by_role("alert")).to_contain_text("do not fit on a label of this size")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints_alone_with_its_words_as_shown(label: Page, paper: str) -> None:
    shown = re.sub(r"\s+", " ", label.locator(".label-plate").inner_text()).strip()

    pages = PdfReader(io.BytesIO(label.pdf(format=paper))).pages

    text = re.sub(r"\s+", " ", " ".join(each.extract_text() for each in pages)).strip()
    assert len(pages) == 1
    measure = "This bar is 50 mm at true size."
    assert text.replace("1 / 1", "").replace(" ", "") == (shown + measure).replace(" ", "")
