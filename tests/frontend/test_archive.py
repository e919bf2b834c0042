"""Any batch that the server has opens on any phone: by a link, by its number, or by a search."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from playwright.sync_api import Error, Locator, Page, Route, expect

import bench
from tests.frontend.conftest import Lasting
from tests.frontend.hands import NO_COPY, axe_finds, carry_on
from tests.frontend.phones import RECIPE, RECIPE_ID, call, comes_true, studio_server
from tests.make import make_entry, uuid4
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

FINISHED = 60
ON_PHONE = 40  # FINISHED_KEPT in keep/sync.js
OLDEST = "26-001"
LOT = {
    "lot": "0190a0a0-0000-7000-8000-0000000000b1",
    "ingredient": "butter",
    "number": "B1",
    "mg": 90_000_000,
}


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Server, dict[str, str]]]:
    """A studio with sixty finished batches, and the id of each by its number; two of them have one number."""
    server = studio_server(tmp_path_factory.mktemp("archive") / "studio.sqlite3")
    runs = {}
    told = [
        {"kind": "described", "body": {"ingredient": "butter", "card": {"name": "Hard butter"}}},
        {"kind": "received", "body": {**LOT, "received_on": "2026-01-02"}},
    ]
    call(server, "POST", "shelf/entries", {"entries": [make_entry("shelf", **each) for each in told]})
    for place in range(1, FINISHED + 1):
        run, number = uuid4(), f"26-{place:03}"
        asked = {"recipe": {"id": RECIPE_ID, "version": 1}, "size": {"pieces": 4}}
        at = call(server, "PUT", f"runs/{run}", asked)["created_at"]
        said = "26-002" if place == 3 else number
        entries = [
            make_entry(run, kind="numbered", body={"number": said}, at=at),
            make_entry(run, body={"text": f"Remark of {number}"}, at=at + 1),
            make_entry(
                run, kind="gathered", body={"ingredient": "butter", "lot": LOT["lot"], "mg": 1000}, at=at + 1
            ),
            make_entry(run, kind="weighed", body={"line": "bar.1.butter", "mg": 1000}, at=at + 1),
            make_entry(run, kind="finished", body={}, at=at + 2),
        ]
        call(server, "POST", f"runs/{run}/entries", {"entries": entries})
        runs[number] = run
    yield server, runs
    server.kill()


@pytest.fixture(scope="module")
def reading_page(lasting_page: Lasting, archive: tuple[Server, dict[str, str]]) -> Page:
    carry_on(lasting_page.page)
    return lasting_page.at(archive[0].url)


@pytest.fixture
def reader(reading_page: Page, lasting: Lasting, archive: tuple[Server, dict[str, str]]) -> Page:
    """A phone that has heard the studio, for tests that keep nothing on it."""
    reading_page.unroute_all()
    page = lasting.at(archive[0].url, width=390, height=844)
    page.reload()
    expect(page.get_by_role("button", name=f"All {ON_PHONE} batches made")).to_be_visible()
    return page


@pytest.fixture
def phone(page: Page, archive: tuple[Server, dict[str, str]], faultless: None) -> Page:
    page.set_viewport_size({"width": 390, "height": 844})
    carry_on(page)
    page.goto(archive[0].url)
    expect(page.get_by_role("button", name=f"All {ON_PHONE} batches made")).to_be_visible()
    return page


def runs_on_disk(page: Page) -> int:
    count: int = page.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore();
            const { runs } = await store.read("runs");
            store.close();
            return runs.length;
        }"""
    )
    return count


def test_a_search_finds_what_is_here_at_once_and_the_rest_on_the_server(
    reader: Page, archive: tuple[Server, dict[str, str]]
) -> None:
    search, found = reader.get_by_label("Find anything"), reader.get_by_role("region", name="Found")
    batches = found.get_by_role("region", name="Batches")
    search.fill("plain 26-06")
    expect(batches.locator("li")).to_have_count(1)
    expect(reader.get_by_role("region", name="Made")).to_be_hidden()
    search.fill(OLDEST)
    expect(batches.get_by_role("link")).to_have_count(1)
    expect(batches.get_by_role("link")).to_contain_text(OLDEST)
    expect(found.get_by_role("region", name="Notes").get_by_role("link")).to_contain_text(
        f"Remark of {OLDEST}"
    )
    assert axe_finds(reader) == ""

    batches.get_by_role("link").click()

    expect(reader.locator("record-screen")).to_contain_text(f"Remark of {OLDEST}")
    assert runs_on_disk(reader) == ON_PHONE
    reader.go_back()
    reader.get_by_label("Find anything").fill("26-0 26-09")
    expect(found.get_by_role("status")).to_have_text(
        "Nothing found on this phone or the server. Try part of a word."
    )


def test_pages_of_the_server_follow_each_other_and_none_stands_twice(reader: Page) -> None:
    batches = reader.get_by_role("region", name="Batches")
    reader.get_by_label("Find anything").fill("plain")
    expect(batches.get_by_role("button", name="Show more")).to_be_visible()
    for page in range(2, 7):
        with reader.expect_response(lambda answer, page=page: f"kind=batch&page={page}" in answer.url):
            batches.get_by_role("button", name="Show more").click()
    expect(batches.locator("li")).to_have_count(FINISHED)
    expect(batches.get_by_role("button", name="Show more")).to_have_count(0)
    links = batches.get_by_role("link").evaluate_all("(all) => all.map((each) => each.href)")
    assert len(set(links)) == FINISHED


def test_the_page_folds_every_letter_as_the_server_does(reader: Page) -> None:
    """Latin, Greek and Cyrillic with all their marks, ligatures and wide forms; Python's tables are the reference."""
    blocks = [
        (0x20, 0x250),
        (0x300, 0x530),
        (0x1E00, 0x2000),
        (0x2100, 0x2190),
        (0xFB00, 0xFB07),
        (0xFF01, 0xFF5F),
    ]
    letters = [chr(code) for first, end in blocks for code in range(first, end)]
    texts = [*letters, "Crème  BRÛLÉE", "ΟΔΟΣ ὀδός", "İstanbul", "\tStraße\n", "ﬁne ½"]
    theirs = reader.evaluate(
        "async (texts) => { const { folded } = await import('/bench/folding.js'); return texts.map(folded); }",
        texts,
    )
    assert [pair for pair in zip(texts, theirs, strict=True) if bench.folded(pair[0]) != pair[1]] == []


def test_a_lot_of_many_batches_is_told_in_parts_and_what_is_here_of_them_stays(
    phone: Page, archive: tuple[Server, dict[str, str]]
) -> None:
    """Trace and recall: a part that does not come leaves those that did, and news of the shelf take none away."""
    phone.evaluate("location.hash = '#/shelf'")
    item = phone.locator(".shelf-item").filter(has_text="Hard butter")
    item.locator("summary").first.click()
    item.get_by_role("button", name="Where it went: B1").click()
    where = item.locator("[data-trace]")
    batches = where.locator("a.trace-link")

    def goes_on(more: Locator, links: Locator, at: str) -> None:
        expect(links).to_have_count(50)
        phone.route(at, lambda route: route.abort())
        more.click()
        expect(phone.get_by_text("No connection").filter(visible=True).first).to_be_visible()
        expect(links).to_have_count(50)
        phone.unroute(at)
        more.click()
        expect(links).to_have_count(FINISHED)
        assert len(set(links.evaluate_all("(all) => all.map((each) => each.href)"))) == FINISHED

    goes_on(where.get_by_role("button", name="Show more"), batches, "**/trace*")

    note = {"kind": "noted", "body": {"ingredient": "butter", "text": "Sieve it"}}
    with phone.expect_response(lambda answer: "/trace?" in answer.url and "after=" in answer.url):
        call(archive[0], "POST", "shelf/entries", {"entries": [make_entry("shelf", **note)]})
        expect(item).to_contain_text("Sieve it")
    expect(batches).to_have_count(FINISHED)

    where.get_by_role("link", name="Recall").last.click()
    recall = phone.locator("recall-screen")
    goes_on(recall.get_by_role("button", name="Show more"), recall.locator("a.trace-link"), "**/recall*")


def test_with_no_connection_the_search_and_a_link_say_so_and_the_way_out(
    reader: Page, archive: tuple[Server, dict[str, str]]
) -> None:
    reader.route("**/api/**", lambda route: route.abort())
    found = reader.get_by_role("region", name="Found")
    reader.get_by_label("Find anything").fill("26-06")
    expect(found.get_by_role("region", name="Batches").locator("li")).to_have_count(1)
    expect(found.get_by_role("status")).to_have_text("No connection. Looked on this phone only.")
    for words, group in (("plain", "Recipes"), ("remark of 26-06", "Notes")):
        reader.get_by_label("Find anything").fill(words)
        expect(found.get_by_role("region", name=group).locator("li")).to_have_count(1)

    reader.goto(f"{archive[0].url}#/record/{archive[1][OLDEST]}")
    expect(reader.get_by_role("status")).to_contain_text("No connection. This batch opens once there is one.")

    reader.unroute("**/api/**")
    reader.get_by_role("button", name="Try again").click()
    expect(reader.locator("record-screen")).to_contain_text(f"Remark of {OLDEST}")


def test_a_link_by_number_leads_to_the_record_or_lists_those_that_share_it(
    reader: Page, archive: tuple[Server, dict[str, str]]
) -> None:
    reader.goto(f"{archive[0].url}#/batch/{OLDEST}")
    expect(reader.locator("record-screen")).to_contain_text(f"Remark of {OLDEST}")

    reader.goto(f"{archive[0].url}#/batch/26-002")
    expect(reader.get_by_role("heading", name="2 batches have this number")).to_be_visible()
    expect(reader.locator("main li a")).to_have_count(2)

    reader.goto(f"{archive[0].url}#/batch/none%20such")
    expect(reader.get_by_text("No batch has the number none such.")).to_be_visible()

    for broken in ("#/record/%", "#/batch/%E0%A4%A", "#/record/constructor"):
        reader.goto(archive[0].url + broken)
        expect(reader.get_by_role("link", name="Recipes and batches")).to_be_visible()
    reader.goto(archive[0].url + "#/constructor")
    expect(reader.locator("recipes-screen")).to_be_visible()


def test_only_so_many_opened_batches_are_held(reader: Page) -> None:
    held = reader.evaluate(
        """async () => {
            const { Archive } = await import("/keep/archive.js");
            const sheet = { recipe: {}, lines: [], steps: [], components: [] };
            const answer = (path) => path.includes("entries") ? { entries: [], cursor: 0, more: false } : { id: path.slice(6), sheet, recipe: {}, size: {}, created_at: 0 };
            const archive = new Archive({ runs: new Map() }, { get: async (path) => ({ body: answer(path) }) });
            const ids = Array.from({ length: 40 }, (_, place) => `run-${place}`);
            for (const id of ids) await archive.fetch(id);
            return ids.filter((id) => archive.run(id)).length;
        }"""
    )

    assert held == 12


def test_of_many_batches_the_last_finished_stand_there_and_a_touch_brings_the_rest(reader: Page) -> None:
    made = reader.get_by_role("region", name="Made")
    expect(made.locator("li")).to_have_count(12)
    expect(made.locator("li").nth(0)).to_contain_text("26-060")
    expect(made.locator("li").nth(11)).to_contain_text("26-049")
    made.get_by_role("button", name=f"All {ON_PHONE} batches made").click()
    expect(made.locator("li")).to_have_count(ON_PHONE)
    expect(made.get_by_role("button")).to_be_hidden()
    assert axe_finds(reader) == ""


# What follows is entered, or told, on a phone of its own.


def test_what_is_entered_in_such_a_batch_is_kept_here_and_sent(
    phone: Page, archive: tuple[Server, dict[str, str]]
) -> None:
    server, runs = archive
    phone.goto(f"{server.url}#/record/{runs['26-004']}")
    phone.get_by_role("button", name="Write a note").click()
    phone.get_by_role("dialog").get_by_role("textbox").fill("Found a year later")
    phone.get_by_role("dialog").locator("button.copper").click()

    expect(phone.locator("record-screen")).to_contain_text("Found a year later")
    assert runs_on_disk(phone) == ON_PHONE + 1
    comes_true(
        phone,
        """async (run) => (await (await fetch(`/api/v1/runs/${run}/entries`)).text()).includes("Found a year later")""",
        arg=runs["26-004"],
    )


DAY = 86_400_000
COPIES = {
    "file": "studio.gz",
    "read_back": "whole",
    "entries": 28_400,
    "sent_at": None,
    "failed_at": None,
    "failed_why": None,
    "stopped": False,
}


def told_of_copies(page: Page, **copies: object) -> None:
    """Let the server say so of its copies, and the phone hear it."""

    def answer(route: Route) -> None:
        with suppress(Error):  # the page went on while it was asked
            said = route.fetch().json()
            route.fulfill(json={**said, "copies": {**COPIES, **copies}})

    page.unroute("**/api/v1/studio")
    page.route("**/api/v1/studio", answer)
    page.reload()


def test_a_maker_is_told_how_copies_stand_and_when_they_have_stopped(
    phone: Page, archive: tuple[Server, dict[str, str]]
) -> None:
    url, banner = archive[0].url, phone.get_by_text("of the studio since")
    now = phone.evaluate("() => new Date().setHours(3, 10, 0, 0)")
    told_of_copies(phone, last_at=now)
    phone.goto(f"{url}#/studio")
    expect(phone.get_by_text("Last copy 03:10, read back whole, 28\u2009400 entries")).to_be_visible()
    phone.goto(f"{url}#/")
    expect(phone.locator("recipes-screen")).to_be_visible()
    expect(banner).to_be_hidden()

    told_of_copies(phone, last_at=now - 3 * DAY, failed_why="The disk is full.", stopped=True)
    expect(banner).to_be_visible()
    phone.get_by_role("link", name="See why").click()
    expect(phone.get_by_text("The last try failed: The disk is full. Copies have stopped.")).to_be_visible()
    assert axe_finds(phone) == ""

    told_of_copies(phone, last_at=None, stopped=True)
    phone.goto(f"{url}#/")
    expect(phone.get_by_text("No copy of the studio yet")).to_be_visible()


def test_of_many_recipes_some_stand_there_and_a_word_finds_the_rest(page: Page, tmp_path: Path) -> None:
    """Thirty come in one question, and twelve are drawn; the last has an ingredient of its own."""
    server = studio_server(tmp_path / "studio.sqlite3")
    for place in range(1, 30):
        butter = {"name": "Weiße Tonerde" if place == 29 else "Hard butter"}
        written = {"title": f"Bar {place:02}", "ingredients": {**RECIPE["ingredients"], "butter": butter}}
        call(server, "PUT", f"recipes/{uuid4()}", {**RECIPE, **written})
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.partition("/api/v1")[2]))
    carry_on(page)
    page.goto(server.url)
    recipes = page.locator(".recipe")
    expect(page.get_by_role("button", name="All 30 recipes")).to_be_visible()
    # None is asked for by itself, and no page again.
    of_recipes = [each for each in asked if each.startswith("/recipes/")]
    assert len(of_recipes) == 1 and of_recipes[0].startswith("/recipes/all?"), of_recipes
    expect(recipes).to_have_count(12)

    field, found = page.get_by_label("Find anything"), page.get_by_role("region", name="Found")
    field.fill("weisse TÖN")
    expect(found.get_by_role("region", name="Recipes").get_by_role("link")).to_have_count(1)
    expect(found).to_contain_text("Bar 29")
    field.fill("")
    page.get_by_role("button", name="All 30 recipes").click()
    expect(recipes).to_have_count(30)
    server.stop()


def test_tags_and_the_archive_of_the_server_order_the_list(page: Page, tmp_path: Path) -> None:
    server = studio_server(tmp_path / "studio.sqlite3")
    filed = {"Winter bar": (["market"], False), "Old bar": (["market"], True), "Gift bar": (["gifts"], False)}
    for title, (tags, archived) in filed.items():
        recipe = uuid4()
        call(server, "PUT", f"recipes/{recipe}", {**RECIPE, "title": title})
        call(server, "PUT", f"recipes/{recipe}/filing", {"tags": tags, "archived": archived})
    carry_on(page)
    page.goto(server.url)
    titles = page.locator(".recipe-title")
    expect(titles).to_have_text(["Gift bar", RECIPE["title"], "Winter bar"])
    page.get_by_role("group", name="Tags").get_by_role("button", name="market").click()
    expect(titles).to_have_text(["Winter bar"])
    page.get_by_role("button", name="1 archived recipe").click()
    expect(titles).to_have_text(["Old bar"])
    assert axe_finds(page) == ""
    page.get_by_label("Find anything").fill("old bar")
    expect(page.get_by_role("region", name="Recipes")).to_contain_text("archived")
    # Another device takes it back: this one hears of it.
    recipe = next(
        each["id"] for each in call(server, "GET", "recipes")["recipes"] if each["title"] == "Old bar"
    )
    call(server, "PUT", f"recipes/{recipe}/filing", {"tags": ["market"], "archived": False})
    page.reload()
    expect(titles).to_have_text(["Gift bar", "Old bar", RECIPE["title"], "Winter bar"])
    server.stop()
