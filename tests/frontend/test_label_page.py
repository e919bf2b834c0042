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


def test_it_is_as_large_on_the_screen_and_on_paper_as_it_will_be_and_its_words_and_letters_are_by_the_rules(
    label: Page,
) -> None:
    assert plate_mm(label) == pytest.approx((70, 50), abs=0.1)

    # What the rules make of what was weighed, 150 g of butter, and 50 g of which four tenths are water: 75, 15, 10 %.
    listed = label.locator(".label-list")
    expect(listed).to_have_text("Ingredients: Theobroma Cacao Seed Butter, Helianthus Annuus Seed Oil, Aqua.")
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
    expect(listed).to_have_text(f"Ingredients: {told['text']}.")
    expect(label.locator(".label-net")).to_have_text(told["net"])
    expect(label.locator(".label-foot")).to_contain_text(f"Batch {told['batch']}")

    # The height that is judged is that of a small o as the canvas draws it at the label's own size.
    said = label.get_by_role("region", name="Letters").inner_text()
    found = re.search(r"ingredient list: a small o is ([0-9.]+)\smm", said)
    assert found
    drawn = listed.evaluate(
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

    # It prints alone, with its words as shown.
    shown = re.sub(r"\s+", " ", label.locator(".label-plate").inner_text()).strip()
    for paper in ("A4", "Letter"):
        pages = PdfReader(io.BytesIO(label.pdf(format=paper))).pages
        text = re.sub(r"\s+", " ", " ".join(each.extract_text() for each in pages)).strip()
        assert len(pages) == 1, paper
        measure = "This bar is 50 mm at true size."
        assert text.replace("1 / 1", "").replace(" ", "") == (shown + measure).replace(" ", ""), paper

    label.get_by_label("Width, mm").fill("55")
    label.get_by_label("Height, mm").fill("40")
    assert plate_mm(label) == pytest.approx((55, 40), abs=0.1)


def test_another_markets_words_and_what_is_too_small_or_missing_is_said_and_the_law_rules(
    label: Page,
) -> None:
    label.locator(".way", has_text="United States").click()
    expect(label.locator(".label-list")).to_contain_text("Seed Oil, Water.")
    expect(label.locator(".label-net")).to_have_text("Net Wt 1.7 oz (50 g)")
    expect(label.locator("label-screen")).not_to_contain_text("too small")

    # What was not checked is said first, and what the maker answers there is taken into account.
    titles = label.locator("label-screen .section-name")
    assert titles.first.inner_text().lower() == "not checked"
    label.locator(".way", has_text="United Kingdom").click()
    expect(label.locator(".label-list")).to_contain_text("Seed Oil, Aqua.")
    missing = label.get_by_role("region", name="Still missing on it")
    expect(missing).to_contain_text("responsible person in the UK")
    expect(missing).to_contain_text("best before, or the period")
    open_ = label.get_by_role("region", name="Not checked")
    expect(open_).to_contain_text("30 months?")
    label.get_by_label("Keeps unopened, months").fill("36")
    label.get_by_label("Is it used up at once?").select_option("yes")
    expect(open_).not_to_contain_text("30 months?")
    expect(missing).not_to_contain_text("best before, or the period")
    label.get_by_label("What it is for").select_option("air")
    expect(label.get_by_role("region", name="Look at")).to_contain_text("no cosmetic")
    expect(label.get_by_role("region", name="Due before it is sold")).to_contain_text("SCPN")
    digits = label.get_by_role("region", name="Letters").inner_text()
    drawn = re.search(r"a digit is ([0-9.]+)\smm high.\s+The rule asks for 2.00", digits)
    assert drawn and float(drawn[1]) >= 2
    label.locator(".way", has_text="United States").click()

    label.get_by_label("Width, mm").fill("34")
    label.get_by_label("Height, mm").fill("24")
    label.get_by_label("Your own precautions").fill("Keep away from small children. " * 12)

    expect(label.get_by_role("region", name="Look at")).to_contain_text(
        "letters of the ingredient list are too small"
    )
    expect(label.locator(".law")).to_contain_text("the law where it is sold rules")
    expect(label.get_by_role("region", name="Still missing on it")).to_contain_text(
        "name, city, state and ZIP code"
    )

    label.get_by_label("Your own precautions").fill("")
    label.get_by_label("Width, mm").fill("10")
    label.get_by_label("Height, mm").fill("10")

    expect(label.get_by_role("alert")).to_contain_text("do not fit on a label of this size")
