"""The label: drawn at true size, its words by the rules, its letters measured, and printed as shown."""

from __future__ import annotations

import io
import re
from urllib.request import urlopen

import pdfplumber
import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

import bench
from bench.label_sheets import COMMON, label_places
from tests.frontend.hands import NO_COPY
from tests.frontend.phones import RECIPE, call
from tests.frontend.shelves import SIZES, begin_bars, card, enter, go, lot, open_page, stock
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

PX_PER_MM = 96 / 25.4
POINTS_PER_MM = 72 / 25.4
BUTTER = ("weighed", {"line": "bar.1.butter", "mg": 150_000})
OIL = ("weighed", {"line": "bar.1.oil", "mg": 50_000})
SEEN_BY_STUDIO = "async link => { while (!(await fetch(link.href)).ok); }"
KEPT_BY_STUDIO = (
    "async () => { while (!(await (await fetch('/api/v1/settings')).json()).document.label?.sheets); }"
)
CARDS = (
    card("butter", "Hard butter", inci="Theobroma Cacao Seed Butter"),
    card("oil", "Light oil", inci="Aqua 40 %, Helianthus Annuus Seed Oil 60 %"),
)


@pytest.fixture
def label(page: Page, home: Server, faultless: None) -> Page:
    """The label of a weighed batch, which the studio has."""
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    stock(page, *CARDS)
    run = begin_bars(page)
    enter(page, BUTTER, OIL)
    go(page, f"#/label/{run}")
    expect(page.locator(".label-list")).to_contain_text("Seed Oil")
    return page


def plate_mm(page: Page) -> tuple[float, float]:
    # Found and measured in one breath: the plate is drawn anew when the sheets, or the server's words, come in.
    box = page.evaluate("document.querySelector('.label-plate').getBoundingClientRect().toJSON()")
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
        assert text.replace(" ", "") == (shown + measure).replace(" ", ""), paper

    label.get_by_label("Width, mm").fill("55")
    label.get_by_label("Height, mm").fill("40")
    assert plate_mm(label) == pytest.approx((55, 40), abs=0.1)

    # With no connection the last that was seen stands, and says so. Its size reacts, and what is typed is kept.
    address = label.url
    label.route("**/api/**", lambda route: route.abort())
    label.get_by_label("What it is", exact=True).fill("Plain butter bar")
    expect(label.get_by_role("status").filter(has_text="No connection. As of")).to_be_visible()
    label.get_by_label("Width, mm").fill("60")
    assert plate_mm(label) == pytest.approx((60, 40), abs=0.1)
    go(label, "#/")
    go(label, address[address.index("#") :])
    expect(label.get_by_label("What it is", exact=True)).to_have_value("Plain butter bar")
    expect(label.locator(".label-name")).to_have_text("Plain bar")
    assert plate_mm(label) == pytest.approx((60, 40), abs=0.1)
    label.locator(".way", has_text="United States").click()
    expect(label.get_by_text("Not seen on this phone yet: it comes")).to_be_visible()
    expect(label.locator(".label-plate")).to_have_count(0)
    label.unroute("**/api/**")
    label.evaluate("() => dispatchEvent(new Event('online'))")
    expect(label.locator(".label-name")).to_have_text("Plain butter bar")
    expect(label.locator(".label-net")).to_have_text("Net Wt 1.7 oz (50 g)")


def test_what_does_not_fit_goes_on_a_leaflet_and_the_us_net_content_keeps_to_the_base(label: Page) -> None:
    """Art. 19(2), read second-hand; 21 CFR 701.13: bottom 30 % of the panel."""
    leaflets = label.get_by_role("link", name="Leaflets as a PDF")
    expect(leaflets).to_be_hidden()
    label.get_by_label("List and precautions").select_option(label="On a leaflet (EU, UK)")
    expect(label.locator(".label-plate")).to_contain_text("see the leaflet")
    expect(label.locator(".label-list")).to_have_count(0)
    expect(leaflets).to_have_attribute("href", re.compile("leaflet=true.*of=leaflet"))
    label.get_by_label("Made in which country").fill("Utopia")
    expect(label.locator(".label-foot")).to_contain_text("Made in Utopia")

    label.locator(".way", has_text="United States").click()
    expect(label.locator(".label-list")).to_contain_text("Seed Oil")
    expect(leaflets).to_be_hidden()
    # Both in one moment: the label is drawn again with each answer of the server.
    net, plate = label.locator(".label-plate").evaluate(
        "plate => [plate.querySelector('.label-net'), plate].map((part) => part.getBoundingClientRect().toJSON())"
    )
    assert net["top"] >= plate["top"] + 0.7 * plate["height"] and net["bottom"] <= plate["bottom"]


def test_a_sheet_of_labels_is_printed_from_its_start_with_the_number_made_and_leads_to_the_same_pdf(
    label: Page, home: Server
) -> None:
    label.get_by_label("Sheet of labels").select_option(label="2 × 4 of 99.1 × 67.7 mm, A4")
    expect(label.get_by_label("How many")).to_have_value("4")
    expect(label.get_by_label("Width, mm")).to_be_disabled()
    assert plate_mm(label) == pytest.approx((99.1, 67.7), abs=0.1)
    label.get_by_label("First position").fill("6")
    label.get_by_label("Common name or purpose").fill("bath bar")

    label.evaluate("window.print = () => {}")
    label.get_by_role("button", name="Print at true size").click()
    printed = label.pdf(prefer_css_page_size=True)
    label.get_by_role("link", name="As a PDF").evaluate(SEEN_BY_STUDIO)
    drawn = drawn_by(home, label.get_by_role("link", name="As a PDF").get_attribute("href"))
    trial = drawn_by(home, label.get_by_role("link", name="Trial of the sheet").get_attribute("href"))

    places = [
        [(place["x_um"] / 1000, place["y_um"] / 1000) for place in page]
        for page in label_places(COMMON[0], 6, 4)
    ]
    assert [len(each) for each in places] == [3, 1]
    for file in (printed, drawn):
        pages = pdfplumber.open(io.BytesIO(file)).pages
        assert [
            (round(page.width / POINTS_PER_MM), round(page.height / POINTS_PER_MM)) for page in pages
        ] == [(210, 297)] * 2
        for page, cells in zip(pages, places, strict=True):
            found = [each for each in page.extract_words() if each["text"] == "Ingredients:"]
            at = [(each["x0"] / POINTS_PER_MM, each["top"] / POINTS_PER_MM) for each in found]
            assert [left for left, _ in at] == pytest.approx([left + 2 for left, _ in cells], abs=0.3)
            assert all(top < down < top + 67.7 for (_, down), (_, top) in zip(at, cells, strict=True))
    assert trial.startswith(b"%PDF")
    expect(label.locator(".label-pages")).to_have_count(0)  # printed: the page is itself again

    label.get_by_role("button", name="Count the labels").click()
    counted = label.get_by_role("dialog")
    expect(counted.get_by_label("On pieces", exact=True)).to_have_value("4")
    expect(counted).to_contain_text("On pieces")  # for who sees it, too
    counted.get_by_label("Binned", exact=True).fill("3")
    counted.get_by_role("button", name="Save").click()
    expect(counted.get_by_role("alert").filter(visible=True)).to_contain_text("Count again.")
    counted.get_by_label("Printed", exact=True).fill("8")
    counted.get_by_role("button", name="Save").click()
    expect(counted).to_have_count(0)
    expect(label.get_by_text("8 printed, 4 on pieces, 3 binned, 1 left")).to_be_visible()
    here = label.url.partition("#")[2]
    go(label, "#" + here.replace("label", "record"))
    stood = label.get_by_role("region", name="Labels", exact=True)
    expect(stood).to_contain_text("8 printed, 4 on pieces, 3 binned, 1 left")
    expect(stood).to_contain_text("Ingredients:")  # and what was on them
    go(label, f"#{here}")

    label.get_by_role("button", name="A sheet of your own").click()
    own = label.get_by_role("dialog")
    own.get_by_label("What you call it").fill("Jars")
    own.get_by_label("Measured in").select_option("in")
    for name, value in {
        "Columns": "2",
        "Rows": "3",
        "Label, width": "2 1/2",
        "Label, height": "3",
        "Left edge to first label": "1,5",
        "Top edge to first label": "½",
        "Step to the next column": "2",
        "Step to the next row": "3",
    }.items():
        own.get_by_label(name).fill(value)
    own.get_by_role("button", name="Save this sheet").click()
    expect(own.get_by_role("alert")).to_contain_text("lie over each other")
    own.get_by_label("Step to the next column").fill("2 3/4")
    own.get_by_role("button", name="Save this sheet").click()
    expect(label.get_by_label("Sheet of labels")).to_have_value("Jars")
    assert plate_mm(label) == pytest.approx((63.5, 76.2), abs=0.1)
    label.evaluate(KEPT_BY_STUDIO)
    [kept] = call(home, "GET", "settings")["document"]["label"]["sheets"]
    # A lot's stickers lie on the maker's own sheet too.
    stock(label, lot("b41", "butter", 1_000_000, best_before="2027-03-31"))
    label.get_by_text("Hard butter").click()
    label.get_by_role("button", name="Sticker for lot B41").click()
    stickers = label.get_by_role("dialog", name="Stickers: Hard butter, B41")
    expect(stickers.locator(".label-plate")).to_contain_text("Best before 2027-03-31")
    stickers.get_by_label("Sheet of labels").select_option("Jars")
    stickers.get_by_label("How many").fill("5")
    stickers.get_by_role("button", name="Print at true size").click()
    [one] = pdfplumber.open(io.BytesIO(label.pdf(prefer_css_page_size=True))).pages
    assert one.extract_text().count("Lot B41") == 5
    stickers.get_by_role("link", name="As a PDF").evaluate(SEEN_BY_STUDIO)

    assert [kept[key] for key in ("across_um", "top_um", "left_um")] == [69_850, 12_700, 38_100]


def drawn_by(server: Server, path: str | None) -> bytes:
    with urlopen(f"{server.url.rstrip('/')}{path}") as answer:
        return bytes(answer.read())


def test_another_markets_words_and_what_is_too_small_or_missing_is_said_and_the_law_rules(
    label: Page,
) -> None:
    label.locator(".way", has_text="United States").click()
    expect(label.locator(".label-list")).to_contain_text("Seed Oil, Water.")
    expect(label.locator(".label-net")).to_have_text("Net Wt 1.7 oz (50 g)")
    expect(label.locator("label-screen")).not_to_contain_text("too small")

    # What was not checked is said first, and what the maker answers there is taken into account.
    # After it come the fields, before all findings.
    titles = [each.lower() for each in label.locator("label-screen .section-name").all_inner_texts()]
    assert titles[:2] == ["not checked", "what stands on it"] and "look at" in titles[2:]
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
    due = label.locator(".duties")
    label.get_by_label("What it is for").select_option("wash")
    expect(due).to_contain_text("SCPN")
    label.get_by_label("What it is for").select_option("air")
    expect(label.get_by_role("region", name="Look at")).to_contain_text("no cosmetic")
    expect(due).to_contain_text("Classify it as a mixture (GB CLP)")
    expect(label.locator(".label-list")).to_have_count(0)
    digits = label.get_by_role("region", name="Letters").inner_text()
    drawn = re.search(r"a digit is ([0-9.]+)\smm high.\s+The rule asks for 2.00", digits)
    assert drawn and float(drawn[1]) >= 2
    label.get_by_label("What it is for").select_option("wash")
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
