"""Labels as PDF: measured in millimetres with a library that had no part in drawing them, and as they are rendered."""

from __future__ import annotations

import io
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from PIL import ImageChops

import bench
from bench.label_sheets import COMMON
from tests.api.stock import described, gathered, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.make import make_entry

pytestmark = pytest.mark.database("sqlite")

POINTS_PER_MM = 72 / 25.4
DPI = 600
GRID = {sheet["name"]: sheet for sheet in COMMON}
SHEET_2X4 = GRID["a4-2x4"]
EARLY = 1_700_000_000_000


@pytest.fixture
def batch(studio: Studio) -> str:
    """A batch of salt, numbered and weighed."""
    lot, run = with_lot(studio), studio.with_run()
    to_shelf(studio, described(inci="Sodium Chloride", ingredient="salt-1"))
    numbered = make_entry(run, at=EARLY, kind="numbered", body={"number": "A7"})
    studio.post(run, numbered, gathered(run, lot), weighed(run, 120_000))
    return run


def test_a_best_before_is_held_against_today_though_nobody_says_the_day(studio: Studio, batch: str) -> None:
    def warned(asked: str) -> bool:
        told = studio.get(f"/runs/{batch}/label?market=eu&{asked}").json
        return any("date is past" in each["says"] for each in told["warnings"])

    assert warned("best_before=2020-01-31") and not warned("best_before=2099-01-31")
    assert not warned("best_before=2020-01-31&today=2020-01-31")


def pages_of(answer: Any) -> list[Any]:
    assert (answer.status_code, answer.mimetype) == (200, "application/pdf"), answer.text
    return list(pdfplumber.open(io.BytesIO(answer.data)).pages)


def mm(points: float) -> float:
    return points / POINTS_PER_MM


def boxes(page: Any, width: float, height: float, tolerance: float = 0.02) -> list[tuple[float, float]]:
    """The upper left corners, in mm, of what is drawn so large."""
    return [
        (mm(each["x0"]), mm(each["top"]))
        for each in page.rects
        if abs(mm(each["width"]) - width) < tolerance and abs(mm(each["height"]) - height) < tolerance
    ]


def ink_height_mm(page: Any, box: tuple[float, float, float, float]) -> float:
    """How high the ink is in a part of the page, as it is rendered."""
    drawn = (
        page.crop(box).to_image(resolution=DPI).original.convert("L").point(lambda grey: grey < 128 and 255)
    )
    _, upper, _, lower = drawn.getbbox()
    return float(lower - upper) / DPI * 25.4


def test_one_label_is_at_true_size_with_the_words_of_the_rules_and_a_bar_of_50_mm(
    studio: Studio, batch: str
) -> None:
    asked = "market=eu&width_mm=74&height_mm=52&function=salt+soak&opened_months=6&best_before=2027-03-31&keeps_months=36"
    told = studio.get(f"/runs/{batch}/label?{asked}").json
    [page] = pages_of(studio.get(f"/runs/{batch}/label.pdf?{asked}"))

    assert (mm(page.width), mm(page.height)) == pytest.approx((210, 297), abs=0.01)
    assert boxes(page, 74, 52) == [pytest.approx((14, 14), abs=0.01)]
    assert boxes(page, 50, 1.5) == [pytest.approx((14, 71), abs=0.01)]
    words = " ".join(
        page.within_bbox([mm_ * POINTS_PER_MM for mm_ in (14, 14, 88, 66)]).extract_text().split()
    )
    stands = " ".join(line["text"] for line in told["plate"])
    assert set(stands.split()) <= set(words.split())
    assert "6M" in words and "Best used before the end of 31/03/2027" in words
    assert "This bar is 50 mm at true size." in page.extract_text().replace("\n", " ")

    # The digits of 20 g are to be 2 mm high: the ink of the nought is measured as it is rendered.
    net = [
        each for each in page.chars if each["text"] == "0" and each["size"] == max_size(page, told["net"])
    ][0]
    box = (net["x0"], net["top"] - 1, net["x1"], net["bottom"] + 1)
    assert ink_height_mm(page, box) >= told["heights"]["net"]["least_um"] / 1000 - 25.4 / DPI


def max_size(page: Any, text: str) -> float:
    """The size of type in which a text stands."""
    letters = text.replace(" ", "")
    chars = [each for each in page.chars if each["text"].strip()]
    for place in range(len(chars)):
        if "".join(each["text"] for each in chars[place : place + len(letters)]) == letters:
            return float(chars[place]["size"])
    raise AssertionError(text)


@pytest.mark.parametrize("name", list(GRID))
def test_labels_lie_on_their_sheet_where_a_trial_shows_them_numbered(studio: Studio, name: str) -> None:
    sheet = GRID[name]
    [page] = pages_of(studio.get(f"/label-sheet.pdf?sheet={name}"))
    paper = [side / 1000 for side in bench.PAPERS[sheet["paper"]]]

    assert [mm(page.width), mm(page.height)] == pytest.approx(paper, abs=0.01)
    [places] = bench.label_places(sheet, 1, sheet["columns"] * sheet["rows"])
    found = boxes(page, sheet["width_um"] / 1000, sheet["height_um"] / 1000)
    wanted = [(place["x_um"] / 1000, place["y_um"] / 1000) for place in places]
    assert found == [pytest.approx(each, abs=0.01) for each in wanted]
    assert len(boxes(page, 50, 1.5)) == 1


def test_a_sheet_is_filled_from_its_start_with_as_many_as_there_are_good_pieces(
    studio: Studio, batch: str
) -> None:
    asked = f"/runs/{batch}/label.pdf?market=eu&sheet=a4-2x4"
    good = studio.get(f"/runs/{batch}/record").json["yield"]["planned"]
    name = studio.get(f"/runs/{batch}/label?market=eu").json["identity"].split()[0]

    for start, count, pages in ((1, None, [8, good - 8]), (7, 11, [2, 8, 1]), (8, 1, [1])):
        more = f"&start={start}" + (f"&count={count}" if count else "")
        drawn = pages_of(studio.get(asked + more))
        cells = [
            [(place["x_um"] / 1000, place["y_um"] / 1000) for place in page]
            for page in bench.label_places(SHEET_2X4, start, count or good)
        ]
        assert [len(each) for each in cells] == pages
        for page, places in zip(drawn, cells, strict=True):
            starts = [each for each in page.extract_words() if each["text"] == name]
            assert len(starts) == len(places)
            for word, (x, y) in zip(starts, places, strict=True):
                assert mm(word["x0"]) - x == pytest.approx(2, abs=0.2) and 2 <= mm(word["top"]) - y < 4
            assert all(
                any(
                    x <= mm(each["x0"])
                    and mm(each["x1"]) <= x + 99.1
                    and y <= mm(each["top"])
                    and mm(each["bottom"]) <= y + 67.7
                    for x, y in places
                )
                or mm(each["bottom"]) < 13.1
                for each in page.chars
            )


def test_the_makers_own_sheet_is_kept_and_one_that_cannot_be_is_refused(studio: Studio, batch: str) -> None:
    own = {**SHEET_2X4, "name": "Jars", "columns": 1, "rows": 2, "width_um": 80_000, "left_um": 10_000}
    settings = {"batch_number": "{mark}{n}", "label": {"sheets": [own]}}

    assert studio.client.put("/api/v1/settings", json=settings).status_code in (200, 201)
    assert studio.get("/settings").json["document"] == settings
    assert len(pages_of(studio.get(f"/runs/{batch}/label.pdf?market=us&sheet=Jars&count=3"))) == 2
    over = {**settings, "label": {"sheets": [{**own, "down_um": 60_000}]}}
    etag = studio.get("/settings").headers["ETag"]
    answer = studio.client.put("/api/v1/settings", json=over, headers={"If-Match": etag})
    assert answer.status_code == 422 and "lie over each other" in answer.text
    unknown = studio.get(f"/runs/{batch}/label.pdf?market=us&sheet=Tins")
    assert unknown.status_code == 422 and "a4-3x8" in unknown.json["detail"]


def test_a_mixtures_label_has_its_pictogram_as_large_as_it_must_be_and_its_statements(
    studio: Studio, batch: str
) -> None:
    to_shelf(studio, described(inci="Citric Acid", ingredient="salt-1"))
    asked = "market=eu&use=air&width_mm=74&height_mm=52"
    [page] = pages_of(studio.get(f"/runs/{batch}/label.pdf?{asked}"))
    text = " ".join(page.extract_text().split())

    assert "Warning" in text and "Causes serious eye irritation." in text and "Ingredients" not in text
    # A fifteenth of the label is 16.02 mm from side to side; from point to point of the diamond as it is rendered:
    red, green, _ = page.to_image(resolution=300).original.convert("RGB").split()
    inked = ImageChops.darker(
        red.point(lambda each: each > 180 and 255), green.point(lambda each: each < 90 and 255)
    )
    left, upper, right, lower = inked.getbbox()
    for across in (right - left, lower - upper):
        assert across / 300 * 25.4 / 2**0.5 == pytest.approx(16.02, abs=0.15)


def test_what_the_font_lacks_or_what_does_not_fit_is_refused_and_western_letters_stand(
    studio: Studio, batch: str, tmp_path: Path
) -> None:
    base = f"/runs/{batch}/label.pdf?market=eu"
    [page] = pages_of(studio.get(f"{base}&identity=M%C3%BCsli+%C3%9F+%C3%A9+%C2%B5+%E2%80%9EBad%E2%80%9C"))
    assert "Müsli ß é µ „Bad“" in page.extract_text().replace("\n", " ")

    lacking = studio.get(f"{base}&identity=F%C3%BCrd%C5%91")
    assert lacking.status_code == 422 and "ő" in lacking.json["detail"]
    small = studio.get(f"{base}&width_mm=10&height_mm=10")
    assert small.status_code == 422 and "do not fit" in small.json["detail"]


def test_stickers_for_lots_say_what_is_in_them_with_the_code_they_came_with(studio: Studio) -> None:
    lot = with_lot(
        studio, number="LOT-41", best_before="2027-03-31", supplier="Mill & Marsh", code="4006381333931"
    )
    other = with_lot(studio, number="LOT-42")
    [page] = pages_of(studio.get(f"/lot-stickers.pdf?lot={lot}&lot={other}&sheet=a4-3x7&start=5&count=2"))
    text = page.extract_text()

    assert text.count("LOT-41") == text.count("LOT-42") == 2
    assert "2027-03-31" in text and "Opened" in text and "Mill & Marsh" in text
    [places] = bench.label_places(GRID["a4-3x7"], 5, 4)
    modules = [each for each in page.rects if mm(each["width"]) < 2 and mm(each["height"]) < 2]
    for place, has_code in zip(places, (True, True, False, False), strict=True):
        x, y = place["x_um"] / 1000, place["y_um"] / 1000
        there = [each for each in modules if x < mm(each["x0"]) < x + 63.5 and y < mm(each["top"]) < y + 38.1]
        assert bool(there) is has_code
    alone = pages_of(studio.get(f"/lot-stickers.pdf?lot={lot}&lot={other}"))
    assert [boxes(each, 63, 38) for each in alone] == [[pytest.approx((14, 14), abs=0.01)]] * 2
    assert studio.get("/lot-stickers.pdf?lot=none").status_code == 404
    assert studio.get("/lot-stickers.pdf").status_code == 422


def test_letters_are_never_drawn_below_what_the_rule_asks_for(studio: Studio, batch: str) -> None:
    """21 CFR 701.3(b): from 12 square inches a sixteenth of an inch, 1.5875 mm, by the outline of the small o."""
    large = "market=us&width_mm=100&height_mm=80&precautions=" + "+".join(["Keep+dry"] * 30)
    [page] = pages_of(studio.get(f"/runs/{batch}/label.pdf?{large}"))
    size = max_size(page, "Sodium")
    assert size / POINTS_PER_MM * 0.56 >= 1.587  # the library's own font has an o of 0.56 of its size

    words = "&precautions=".join(["+".join(["word"] * 50)] * 12)
    refused = studio.get(f"/runs/{batch}/label.pdf?market=us&width_mm=100&height_mm=80&precautions={words}")
    fits = studio.get(f"/runs/{batch}/label.pdf?market=eu&width_mm=100&height_mm=80&precautions={words}")
    assert (refused.status_code, fits.status_code) == (422, 200)


def test_type_is_as_large_as_fits(studio: Studio, batch: str) -> None:
    sizes = []
    for width, height in ((40, 25), (60, 40), (90, 60)):
        [page] = pages_of(
            studio.get(f"/runs/{batch}/label.pdf?market=us&width_mm={width}&height_mm={height}")
        )
        sizes.append(max_size(page, "Sodium"))
    assert all(one < other for one, other in pairwise(sizes[:2])) and sizes[-1] <= 14.001


@pytest.mark.parametrize(("width", "height"), [(74, 52), (100, 40), (60, 80)])
def test_a_us_labels_net_content_lies_within_its_lower_30_per_cent(
    studio: Studio, batch: str, width: int, height: int
) -> None:
    """21 CFR 701.13: bottom 30 % of the panel, and as far from other print as its letters are high."""
    asked = f"market=us&width_mm={width}&height_mm={height}&maker=A+Maker%0ATown,+OH+44101&origin=Utopia"
    told = studio.get(f"/runs/{batch}/label?{asked}").json
    [page] = pages_of(studio.get(f"/runs/{batch}/label.pdf?{asked}"))
    size = max_size(page, told["net"])
    within = [each for each in page.chars if mm(each["bottom"]) < 14 + height]
    net = [each for each in within if each["size"] == size and "bold" in each["fontname"].lower()]
    others = [each for each in within if each not in net and each["text"].strip()]

    assert "".join(each["text"] for each in net).replace(" ", "") == told["net"].replace(" ", "")
    assert mm(min(each["top"] for each in net)) >= 14 + 0.7 * height
    assert mm(max(each["bottom"] for each in net)) <= 14 + height
    letters = told["heights"]["net"]["least_um"] / 1000
    assert mm(min(each["top"] for each in net) - max(each["bottom"] for each in others)) >= letters
    assert "Made in Utopia" in page.extract_text()


def test_leaflets_lie_four_on_a_sheet_and_hold_what_the_label_refers_to(studio: Studio, batch: str) -> None:
    asked = f"/runs/{batch}/label.pdf?market=eu&width_mm=40&height_mm=30&precautions=Keep+dry."
    label_ = pages_of(studio.get(f"{asked}&leaflet=true"))[0].extract_text()
    pages = pages_of(studio.get(f"{asked}&leaflet=true&of=leaflet&count=5"))
    leaflets = [" ".join(page.extract_text().split()) for page in pages]

    assert "see the leaflet" in " ".join(label_.split()) and "Sodium Chloride" not in label_
    assert [page.count("Sodium Chloride") for page in leaflets] == [4, 1]
    assert [page.count("Keep dry.") for page in leaflets] == [4, 1]
    refused = studio.get(f"{asked}&of=leaflet")
    assert refused.status_code == 422 and "leaflet=true" in refused.json["detail"]
