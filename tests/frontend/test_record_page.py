"""The batch record as it is read, signed, printed and reckoned again; photographs; last time; dry or not."""

from __future__ import annotations

import io
import json
import re
import subprocess
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

import bench
from tests.frontend.conftest import Lasting
from tests.frontend.hands import NO_COPY, type_on_pad
from tests.frontend.phones import HOUR, RECIPE_ID, call, comes_true
from tests.frontend.shelves import KG, SIZES, begin_bars, card, enter, go, lot, open_page, stock
from tests.make import uuid7
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

EURO = {"amount": "10.00", "currency": "EUR"}
GATHERED = [
    ("gathered", {"ingredient": "butter", "lot": "b1", "mg": 150_000}),
    ("gathered", {"ingredient": "oil", "lot": "o1", "mg": 50_000}),
]
WEIGHED = [
    ("weighed", {"line": "bar.1.butter", "mg": 152_000}),
    ("weighed", {"line": "bar.1.oil", "mg": 50_000}),
]
FINISHED: tuple[str, dict[str, Any]] = ("finished", {})
ASK_ANEW = "() => dispatchEvent(new Event('online'))"
POINTS = {"A4": (595, 842), "Letter": (612, 792)}
SECRET = b"51.4778 N, 0.0014 W"


@pytest.fixture
def phone(page: Page, home: Server, faultless: None) -> Page:
    """A phone with a priced shelf and no network, its clock at a known instant."""
    return stocked(page, home)


@pytest.fixture(scope="module")
def stocked_page(lasting_page: Lasting, home: Server) -> Page:
    return stocked(lasting_page.page, home)


@pytest.fixture
def baker(lasting: Lasting, home: Server, stocked_page: Page) -> Page:
    """Such a phone, for tests whose batches may stand beside others and whose clock is left to go."""
    return lasting.at(home.url, **SIZES[1])


def stocked(page: Page, server: Server) -> Page:
    page.set_viewport_size(SIZES[1])
    page.clock.install(time=datetime.now(UTC))
    open_page(page, server)
    page.route("**/api/**", lambda route: route.abort())
    stock(
        page,
        card("butter", "Hard butter"),
        card("oil", "Light oil"),
        lot("b1", "butter", KG, price=EURO, best_before="2099-01-01"),
        lot("o1", "oil", KG, price=EURO),
    )
    return page


def bake(page: Page, *more: tuple[str, dict[str, Any]]) -> str:
    """A batch that was gathered and weighed, 2 g of butter over, and what else happened to it."""
    run = begin_bars(page)
    enter(page, *GATHERED, *WEIGHED, *more)
    return run


def record_of(page: Page, run: str) -> Any:
    go(page, f"#/record/{run}")
    expect(page.locator("record-screen .facts").first).to_be_visible()
    return page.locator("record-screen")


def part(page: Page, name: str) -> Any:
    return page.get_by_role("region", name=name, exact=True)


ALL_SENT = """async () => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    const { outbox } = await store.read("outbox");
    store.close();
    return outbox.length === 0;
}"""


def on_disk(page: Page, store: str) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = page.evaluate(
        """async (name) => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore();
            const rows = (await store.read(name))[name];
            store.close();
            return rows.map((row) => (row.bytes ? { ...row, bytes: [...new Uint8Array(row.bytes)] } : row));
        }""",
        store,
    )
    return rows


def test_a_line_that_was_off_is_drawn_against_what_is_allowed(baker: Page) -> None:
    record = record_of(baker, bake(baker))

    expect(record.get_by_role("img", name=re.compile(r"^2 g too much, .* allowed$"))).to_be_visible()
    expect(record.get_by_role("img", name=re.compile("^on target"))).to_be_visible()
    butter = record.get_by_role("row", name=re.compile("^Hard butter")).first
    expect(butter).to_contain_text(re.compile(r"± \d.*\+2 g"))
    expect(part(baker, "Lots")).to_contain_text("2.00 g more than was booked")
    expect(part(baker, "Photographs")).to_be_visible()
    baker.emulate_media(media="print")
    expect(part(baker, "Photographs")).to_be_hidden()  # a heading with nothing below it
    baker.emulate_media(media="null")


def test_it_has_the_batch_number_that_the_bench_showed(phone: Page) -> None:
    run = begin_bars(phone)
    shown = phone.locator(".head-number").inner_text()
    assert re.fullmatch(r"\d{6}-[A-Z]{4}1", shown)
    again = begin_bars(phone)
    assert phone.locator(".head-number").inner_text() == shown[:-1] + "2"

    assert run != again
    expect(record_of(phone, run)).to_contain_text(shown)


def test_two_batches_with_one_number_each_name_the_other(baker: Page) -> None:
    """As two phones that share a mark would make them: nothing is renamed, and it is said."""
    begin_bars(baker)
    number = baker.locator(".head-number").inner_text()
    other = begin_bars(baker)
    own = next(
        each for each in on_disk(baker, "entries") if (each["run"], each["kind"]) == (other, "numbered")
    )
    enter(baker, ("undone", {"entry": own["id"]}), ("numbered", {"number": number}))

    expect(record_of(baker, other)).to_contain_text("Another batch has this number too: Plain bar")


def test_a_wait_is_drawn_as_planned_and_as_it_was(phone: Page) -> None:
    run = bake(phone)
    phone.clock.fast_forward(3 * HOUR)
    enter(phone, ("looked", {"step": "bar.1.set", "answer": "yes"}))
    record_of(phone, run)

    said = r"^set: planned 1 h to 12 h, usually 2 h; really 3 h$"
    expect(part(phone, "Waits, planned and real").get_by_role("img", name=re.compile(said))).to_be_visible()
    expect(part(phone, "Checks")).to_contain_text(re.compile(r"Let it set: \d\d:\d\d yes"))


def test_what_was_carried_says_for_which_line(baker: Page) -> None:
    carried = {"component": "bar", "round": 1, "num": 152, "den": 150}
    run = begin_bars(baker)
    enter(baker, WEIGHED[0], ("carried", carried))
    record_of(baker, run)

    expect(part(baker, "Corrections")).to_contain_text(
        "the rest scaled up to match, × 1.013; Hard butter came to 152 g, target 150 g"
    )


def test_who_made_an_entry_is_called_by_the_name_of_the_device(baker: Page) -> None:
    """A device that was never paired has none, and that is said."""
    told = baker.evaluate(
        """async () => {
            const { whoOf } = await import("/parts/record-parts.js");
            const place = { you: { name: "Phone by the bowl" }, benches: { "tablet-7": "Tablet at the press" } };
            const [who, alone] = [whoOf({ device: "me-0001", place }), whoOf({ device: "me-0001", place: null })];
            return [who("me-0001"), who("tablet-7"), who("lost-123456"), alone("me-0001")];
        }"""
    )

    assert told == [
        "Phone by the bowl",
        "Tablet at the press",
        "a device with no name, …123456",
        "this device with no name, …e-0001",
    ]


def test_each_step_says_by_whom_where_two_had_a_hand_in_the_batch(baker: Page) -> None:
    run = bake(baker)
    first = record_of(baker, run).locator(".times li").first
    expect(first).not_to_contain_text("no name")

    baker.evaluate(
        """async (run) => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore();
            const { entries } = await store.runs([run]);
            const last = entries.findLast(({ kind }) => kind === "weighed");
            await store.write({ entries: { put: [{ ...last, device: "another-567890" }] } });
            store.close();
        }""",
        run,
    )
    baker.reload()
    expect(first).to_contain_text("this device with no name")
    by_both = baker.locator(".times li").filter(has_text="…567890")
    expect(by_both).to_have_count(1)


def test_the_yield_of_each_batch_is_a_bar_as_high_as_its_good_pieces(baker: Page) -> None:
    """12 good of 12, and 6 good with 3 spoiled: of a picture 78 high, half of it, and a quarter on top."""
    label, heights = baker.evaluate(
        """async () => {
            const { yieldBars } = await import("/parts/record-bars.js");
            const whole = { name: "M-1", planned: 12, good: 12, spoiled: 0, here: false };
            const half = { name: "M-2", planned: 12, good: 6, spoiled: 3, here: true };
            const drawn = yieldBars([whole, half]);
            const high = (kind) => [...drawn.querySelectorAll(kind)].map((bar) => Number(bar.getAttribute("height")));
            const heights = [...high("rect.real"), ...high("rect.spoiled")];
            return [drawn.getAttribute("aria-label"), heights];
        }"""
    )

    assert label == "M-1: 12 good of 12; M-2: 6 good of 12, 3 spoiled"
    assert heights == [78, 39, 0, 19.5]


def test_once_it_is_signed_what_is_said_is_a_remark(baker: Page) -> None:
    run = bake(baker, ("noted", {"text": "Softer than usual."}), FINISHED)
    record = record_of(baker, run)
    expect(part(baker, "Notes")).to_contain_text("Softer than usual.")

    record.get_by_role("button", name="Sign the record").click()
    expect(record.get_by_role("alert")).to_contain_text("Write your name")
    record.get_by_label("Signed off by").fill("A. Maker")
    record.get_by_role("button", name="Sign the record").click()
    expect(record.locator(".facts").first).to_contain_text("A. Maker")

    printed = baker.locator(".digest").inner_text()
    record.get_by_role("button", name="Add a remark").click()
    baker.get_by_role("dialog").get_by_label("A remark").fill("One cracked in the post.")
    baker.get_by_role("button", name="Save", exact=True).click()
    expect(part(baker, "Remarks after signing")).to_contain_text("One cracked in the post.")
    expect(part(baker, "Notes")).not_to_contain_text("cracked")
    # Labels are most often counted then: their numbers stand, and seal nothing.
    enter(baker, ("labelled", {"market": "eu", "printed": 12, "on": 10, "binned": 1}))
    told = "EU: 12 printed, 10 on pieces, 1 binned, 1 left"
    expect(part(baker, "Remarks after signing")).to_contain_text(told)
    expect(baker.locator(".digest")).to_have_text(printed)

    journal = {entry["id"]: entry for entry in on_disk(baker, "entries") if entry["run"] == run}
    (signing,) = (entry for entry in journal.values() if entry["kind"] == "signed")
    sealed = [journal[key] for key in signing["body"]["entries"]]
    assert signing["body"] == {"name": "A. Maker", **bench.seal(sealed)} and len(sealed) == len(journal) - 3

    released_and_held(baker, record)
    expect(baker.locator(".digest")).to_have_text(printed)

    record.get_by_role("button", name="Undo the signature").click()
    baker.get_by_role("dialog").get_by_role("button", name="Undo the signature").click()
    expect(record.locator(".facts").first).to_contain_text("A. Maker had signed")
    expect(part(baker, "Release")).to_contain_text("Held by B. Maker")
    expect(part(baker, "Notes")).to_contain_text("One cracked in the post.")


def released_and_held(page: Page, record: Any) -> None:
    """Judge a signed batch with no network, twice: a hold needs its reason."""
    judging = page.get_by_role("dialog")
    expect(part(page, "Release")).to_contain_text("not judged yet")
    record.get_by_role("button", name="Judge the batch").click()
    judging.get_by_role("button", name="Release", exact=True).click()
    expect(judging.get_by_role("alert")).to_contain_text("A name is missing")
    judging.get_by_label("Who judges").fill("B. Maker")
    judging.get_by_role("button", name="Release", exact=True).click()
    expect(record.locator(".facts").first).to_contain_text("Released by B. Maker")

    record.get_by_role("button", name="Judge the batch").click()
    judging.get_by_role("button", name="Hold").click()
    expect(judging.get_by_role("alert")).to_contain_text("A reason is missing")
    judging.get_by_label("Why").fill("A complaint came.")
    judging.get_by_role("button", name="Hold").click()
    expect(part(page, "Release")).to_contain_text("A complaint came.")
    expect(part(page, "Release").get_by_role("listitem")).to_have_count(2)
    expect(record.get_by_role("button", name="Redo")).to_be_hidden()


def test_what_departs_is_judged_and_only_a_signed_record_is_released(baker: Page) -> None:
    off = ("weighed", {"line": "bar.1.butter", "mg": 200_000})
    run = begin_bars(baker)
    enter(baker, *GATHERED, off, WEIGHED[1], ("left", {"line": "bar.1.butter"}), FINISHED)
    record = record_of(baker, run)
    judging = baker.get_by_role("dialog")

    expect(part(baker, "Deviations")).to_contain_text("Hard butter: off its target")
    record.get_by_label("Signed off by").fill("A. Maker")
    record.get_by_role("button", name="Sign the record").click()
    record.get_by_role("button", name="Judge the batch").click()
    expect(judging).to_contain_text("1 deviation is not accepted.")
    judging.get_by_label("Who judges").fill("B. Maker")
    judging.get_by_role("button", name="Release", exact=True).click()
    expect(judging.get_by_role("alert")).to_contain_text("A reason is missing")
    judging.get_by_role("button", name="Back").click()
    record.get_by_role("button", name="Undo the signature").click()
    judging.get_by_role("button", name="Undo the signature").click()

    record.get_by_role("button", name="Judge: Hard butter").click()
    judging.get_by_label("Who judges").fill("B. Maker")
    judging.get_by_role("button", name="Accept", exact=True).click()
    expect(part(baker, "Deviations")).to_contain_text("Accepted by B. Maker")

    record.get_by_role("button", name="Judge the batch").click()
    expect(judging).to_contain_text("Only a signed record is released.")
    expect(judging.get_by_role("button", name="Release", exact=True)).to_have_count(0)
    judging.get_by_role("button", name="Back").click()


def test_a_signing_that_the_server_refuses_does_not_count_here_and_says_why(
    page: Page, server: Server, faultless: None
) -> None:
    phone = stocked(page, server)
    run = bake(phone, FINISHED)
    record = record_of(phone, run)
    record.get_by_label("Signed off by").fill("Too Late")
    record.get_by_role("button", name="Sign the record").click()
    expect(record.locator(".facts").first).to_contain_text("Too Late")
    journal = [entry for entry in on_disk(phone, "entries") if entry["run"] == run]
    (row,) = (each for each in on_disk(phone, "runs") if each["id"] == run)
    others = [entry for entry in journal if entry["kind"] != "signed"]
    begun = {
        "recipe": {"id": row["recipe"]["id"], "version": 1},
        "size": row["size"],
        "kit": row["sheet"]["kit"],
    }
    call(server, "PUT", f"runs/{run}", {**begun, "made_at": row["created_at"]})
    last = max(entry["at"] for entry in others)
    first = {"id": uuid7(last), "run": run, "device": "desk", "at": last + 1, "kind": "signed"}
    body = {"name": "A. Maker", **bench.seal(others)}
    call(server, "POST", f"runs/{run}/entries", {"entries": [*others, {**first, "body": body}]})

    phone.unroute("**/api/**")
    phone.evaluate("dispatchEvent(new Event('online'))")

    expect(
        record.get_by_text(re.compile(r"Your signature was refused\. Signed on .*: A\. Maker\."))
    ).to_be_visible()
    expect(record.locator(".facts").first).to_contain_text("A. Maker")
    expect(record.locator(".facts").first).not_to_contain_text("Too Late")


def test_a_clock_put_right_moves_the_beginning_and_what_was_signed_by_the_wrong_one(
    page: Page, home: Server, faultless: None
) -> None:
    """Begun and signed by a clock that was set back two hours, before the server was heard again."""
    began = datetime.now(UTC)
    page.clock.install(time=began)
    open_page(page, home)
    page.route("**/api/**", lambda route: route.abort())
    page.goto("about:blank")  # a page that stands notices that its clock is set back
    page.clock.set_system_time(began - timedelta(hours=2))
    page.goto(home.url)
    expect(page.locator("a.recipe")).to_be_visible()
    run = begin_bars(page)
    enter(page, *WEIGHED, FINISHED, ("signed", {"name": "A. Maker"}))
    (before,) = (each for each in on_disk(page, "runs") if each["id"] == run)

    page.unroute("**/api/**")
    with page.expect_response(lambda answer: answer.request.method == "POST" and run in answer.url):
        page.evaluate("dispatchEvent(new Event('online'))")

    told = call(home, "GET", f"runs/{run}/record")
    (after,) = (each for each in on_disk(page, "runs") if each["id"] == run)
    assert after["created_at"] - before["created_at"] == pytest.approx(2 * HOUR, abs=120_000)
    assert told["signed"]["missing"] == 0 and told["started_at"] >= after["created_at"]


def test_what_is_off_by_less_than_the_scale_shows_is_not_said(baker: Page) -> None:
    run = begin_bars(baker)
    almost = {"line": "bar.1.butter", "mg": 149_900}
    enter(baker, ("weighed", almost), ("weighed", {"line": "bar.1.oil", "mg": 51_000}), FINISHED)

    record = record_of(baker, run)

    rows = [record.get_by_role("row", name=name).locator("td").last for name in ("Hard butter", "Light oil")]
    expect(rows[0]).to_have_text("")
    expect(rows[1]).to_have_text("+1 g")


def test_its_digest_is_the_references_and_its_own_one_liner_reckons_it_again(baker: Page) -> None:
    run = bake(baker, ("noted", {"text": "Zoë’s half-pan"}), FINISHED)
    record_of(baker, run)
    entries = [entry for entry in on_disk(baker, "entries") if entry["run"] == run]
    expected = bench.digest(entries)
    expect(baker.locator(".digest")).to_have_text(expected)

    with baker.expect_download() as downloading:
        baker.get_by_role("button", name="JSON").click()
    saved = Path(downloading.value.path()).read_bytes()
    reckoned = subprocess.run(
        ["sh", "-c", baker.locator("pre code").inner_text().replace("< record.json", "")],
        input=saved,
        capture_output=True,
        check=True,
    )

    assert reckoned.stdout.decode().strip() == expected
    assert json.loads(saved)["record"]["signed"] is None


def test_on_paper_it_says_what_it_says_on_the_screen(baker: Page) -> None:
    record = record_of(baker, bake(baker, FINISHED))
    expect(baker.locator(".digest")).to_have_text(re.compile("^[0-9a-f]{64}$"))

    kept = record.locator(".facts dd, .amounts :is(th, td), .digest")
    shown = [re.sub(r"\s", "", text) for text in kept.all_inner_texts()]

    for paper, points in POINTS.items():
        reader = PdfReader(io.BytesIO(baker.pdf(format=paper)))
        read = re.sub(r"\s", "", "".join(page.extract_text() for page in reader.pages))
        assert [text for text in shown if text not in read] == [], paper
        assert "Takeaphotograph" not in read, paper
        box = reader.pages[0].mediabox
        assert (float(box.width), float(box.height)) == pytest.approx(points, abs=1)


def photograph(page: Page, width: int, height: int) -> bytes:
    """A JPEG as a camera writes it: large, and with a place in its Exif."""
    plain = bytes(
        page.evaluate(
            """async ([width, height]) => {
                const canvas = Object.assign(document.createElement("canvas"), { width, height });
                canvas.getContext("2d").fillRect(0, 0, width / 2, height / 2);
                const blob = await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg"));
                return [...new Uint8Array(await blob.arrayBuffer())];
            }""",
            [width, height],
        )
    )
    exif = b"Exif\0\0" + SECRET
    return plain[:2] + b"\xff\xe1" + (len(exif) + 2).to_bytes(2) + exif + plain[2:]


def test_a_photograph_is_kept_with_no_network_small_and_without_what_the_camera_wrote(baker: Page) -> None:
    record_of(baker, bake(baker))
    taken = photograph(baker, 3200, 2400)
    assert SECRET in taken

    baker.get_by_label("Take a photograph").set_input_files(
        {"name": "bench.jpg", "mimeType": "image/jpeg", "buffer": taken}
    )
    baker.get_by_role("dialog").get_by_role("textbox").fill("The bars, turned out")
    baker.get_by_role("button", name="Save photograph").click()

    image = part(baker, "Photographs").get_by_role("img", name="The bars, turned out")
    baker.emulate_media(media="print")
    expect(image).to_be_visible()
    baker.emulate_media(media="null")
    expect(image).to_be_visible()
    image.evaluate("image => image.decode()")
    assert image.evaluate("image => [image.naturalWidth, image.naturalHeight]") == [1600, 1200]
    (kept,) = (each for each in on_disk(baker, "pictures") if each["id"] not in ("then", "now"))
    told = next(entry for entry in on_disk(baker, "entries") if entry["kind"] == "pictured")
    picture = bytes(kept["bytes"])
    assert (kept["id"], sha256(picture).hexdigest()) == (told["body"]["picture"], told["body"]["sha256"])
    assert SECRET not in picture
    assert b"Exif" not in picture


def test_a_photograph_that_an_earlier_page_kept_still_opens(baker: Page) -> None:
    """It kept the Blob itself, which WebKit refuses in a private session."""
    opens = baker.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const { Book } = await import("/keep/book.js");
            const store = await openStore();
            const bytes = new TextEncoder().encode("a picture");
            await store.write({ pictures: { put: [{ id: "then", blob: new Blob([bytes]) }, { id: "now", bytes: bytes.buffer }] } });
            const book = await Book.open(store);
            const texts = [];
            for (const id of ["then", "now"]) texts.push(await (await book.picture(id)).text());
            book.close();
            return texts;
        }"""
    )

    assert opens == ["a picture", "a picture"]


def test_a_file_that_is_no_picture_is_said(baker: Page) -> None:
    record_of(baker, bake(baker))

    baker.get_by_label("Take a photograph").set_input_files(
        {"name": "notes.txt", "mimeType": "text/plain", "buffer": b"not a picture"}
    )

    expect(baker.get_by_role("alert")).to_contain_text("This browser cannot read that file")


def test_cost_and_last_times_are_the_servers_and_stand_as_last_seen_with_no_connection(
    page: Page, server: Server, faultless: None
) -> None:
    """150 g, with 1 and 3 g over, and 50 g at 10 a kilogram. The next one is begun before all is sent."""
    stocked(page, server)
    page.unroute("**/api/**")
    page.evaluate(ASK_ANEW)

    def bake_with(over: int) -> str:
        run = begin_bars(page)
        weighed = ("weighed", {"line": "bar.1.butter", "mg": 150_000 + over})
        enter(page, *GATHERED, weighed, WEIGHED[1], FINISHED)
        return run

    bake_with(1_000)
    comes_true(page, ALL_SENT)
    page.route("**/entries", lambda route: None)
    run = bake_with(3_000)
    third = begin_bars(page)
    beside = page.locator(".beside")
    expect(beside).to_contain_text("Last time: 1 g too much.")
    page.unroute("**/entries")  # what was held goes on
    expect(beside).to_contain_text("Last time: 3 g too much. Before: 1 g too much.")

    record_of(page, run)
    cost = part(page, "Cost")
    expect(cost).to_contain_text("1.53 EUR")
    expect(cost.get_by_role("row", name="Material")).to_contain_text("2.03")

    page.route("**/api/**", lambda route: route.abort())
    go(page, "#/")
    expect(page.locator("recipes-screen")).to_be_visible()
    record_of(page, run)
    expect(cost).to_contain_text("No connection. As of")
    expect(cost.get_by_role("row", name="Material")).to_contain_text("2.03")
    page.reload()
    go(page, f"#/bench/{third}")
    expect(beside).to_contain_text("Last time: 3 g too much. Before: 1 g too much.")
    other = begin_bars(page)
    enter(page, *GATHERED, *WEIGHED, FINISHED)
    record_of(page, other)
    expect(cost).to_contain_text("This comes once it is sent")


def test_a_piece_weighed_an_hour_apart_is_dry_or_not(phone: Page) -> None:
    """On a scale of 1 g nothing under 2 kg can be told dry; the bench says so."""
    bake(phone)
    weigh = ("measured", {"what": "piece", "step": "bar.1.set", "piece": 1, "mg": 48_000})
    enter(phone, weigh)
    phone.clock.fast_forward(HOUR)

    phone.get_by_role("button", name="Other").click()
    phone.get_by_role("button", name="is it dry?").click()
    phone.get_by_role("button", name="Piece 1 again").click()
    pad = phone.get_by_role("dialog", name=re.compile("^Piece 1 .* 48 g before"))
    expect(pad).not_to_contain_text("Target")
    type_on_pad(phone, "48")
    phone.locator("dialog .copper").click()

    expect(phone.locator(".beside")).to_contain_text("cannot tell constant weight below")


@pytest.mark.parametrize(
    ("mg", "scale"), [(48_000, "fine"), (200_000, "fine"), (200_001, "bench"), (9_000_000, "bench")]
)
def test_a_piece_is_weighed_on_the_finest_scale_that_takes_it(
    stocked_page: Page, mg: int, scale: str
) -> None:
    found = stocked_page.evaluate(
        """async (mg) => (await import("/bench/weighing.js")).finestFor({ scales: [
            { id: "fine", name: "", division_mg: 10, capacity_mg: 200_000 },
            { id: "bench", name: "", division_mg: 1000, capacity_mg: 5_000_000 },
        ] }, mg).id""",
        mg,
    )
    assert found == scale


def test_what_the_studio_says_of_money_counts_in_the_cost(page: Page, home: Server) -> None:
    page.set_viewport_size(SIZES[1])
    open_page(page, home)
    go(page, "#/studio")
    form = page.get_by_role("region", name="Batches, money and labels")
    form.get_by_label("Batch numbers by this pattern").fill("{yy}-{n}")
    form.get_by_role("button", name="Save the settings").click()
    expect(form.get_by_role("alert").first).to_contain_text("Add {mark}")
    form.get_by_label("Batch numbers by this pattern").fill("K{yy}-{mark}{n}")
    form.get_by_label("Currency").fill("gbp")
    form.get_by_label("Wrap for each piece").fill("0,25")
    form.get_by_role("button", name="Save the settings").click()
    expect(form.get_by_role("status")).to_have_text("Saved.")

    run = bake(page, FINISHED)

    record_of(page, run)
    expect(page.locator(".facts").first).to_contain_text(re.compile(r"K\d\d-[A-Z]{4}1"))
    expect(part(page, "Cost")).to_contain_text("GBP")
    expect(part(page, "Cost").get_by_role("row", name="Wrap")).to_have_count(0)  # no piece was counted


def test_what_reached_the_server_late_is_listed_on_the_record(page: Page, home: Server) -> None:
    """Half an hour after it was entered, by a phone that was out of reach; and one that came at once is not."""
    now = round(datetime.now(UTC).timestamp() * 1000)
    run = uuid7(now - 2 * HOUR)
    begun = {"recipe": {"id": RECIPE_ID, "version": 1}, "size": {"pieces": 4}, "made_at": now - 2 * HOUR}
    call(home, "PUT", f"runs/{run}", {**begun, "kit": call(home, "GET", "kit")["measured"]})
    entries = [
        {"id": uuid7(at), "run": run, "device": "desk", "at": at, "kind": "noted", "body": {"text": text}}
        for at, text in ((now - HOUR // 2, "Out of reach"), (now - 1000, "Back again"))
    ]
    call(home, "POST", f"runs/{run}/entries", {"entries": entries})

    open_page(page, home)
    go(page, f"#/record/{run}")

    late = part(page, "Received late")
    expect(late.get_by_role("listitem")).to_have_count(1)
    expect(late).to_contain_text(re.compile(r"Note.* Entered .+, received .+desk\."))
