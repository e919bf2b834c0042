"""The page at the studio's door: paired, helper, shut out, let in again; and a server that was lost."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from api import create_app, store
from api.audit import note
from api.door.pairing import make_code
from api.settings import Settings, system_clock_ms
from tests.frontend.conftest import answer_no_more
from tests.frontend.hands import axe_finds, axe_finds_by_day_and_night, carry_on
from tests.frontend.phones import RECIPE, RECIPE_ID, begin, call, entries_of, open_phone
from tests.servers import Server, warm_bowlside

pytestmark = pytest.mark.browser

NOTE = "([run, text]) => studio.enter(run, 'noted', { text })"
SYNC = "async () => { await studio.sync(); return studio.link; }"
SIZES = [{"width": 360, "height": 640}, {"width": 390, "height": 844}, {"width": 1180, "height": 820}]
HELD = "This phone was shut out before this was sent. Look at it, then send it again or set it aside."


class Studio:
    """A studio that phones are paired with, by TLS that these browsers are told to take."""

    def __init__(self, folder: Path) -> None:
        self.database = folder / "studio.sqlite3"
        self.server = warm_bowlside(self.database, "--demo", "--lan", "--landing-port", "0").start()
        self.url = f"https://127.0.0.1:{self.server.url.rsplit(':', 1)[1]}"

    def code(self, role: str) -> str:
        app = create_app(Settings(database=self.database))
        with app.app_context(), store.writing() as connection:
            code = make_code(connection, role, system_clock_ms())  # type: ignore[arg-type]
        store.close(app)
        return code.digits

    def pair(self, page: Page, name: str, role: str = "maker") -> None:
        """As the pairing page does when the code and a name were given."""
        given = {"code": self.code(role), "name": name}
        assert page.request.post(f"{self.url}api/v1/pair", data=given).ok

    def pair_by_hand(self, page: Page, name: str, role: str = "maker") -> None:
        """As a person does: the pairing page, the code, a name."""
        page.goto(self.url + "pair")
        page.get_by_label("Code", exact=True).fill(self.code(role))
        page.get_by_label("Name of this device").fill(name)
        page.get_by_role("button", name="Pair").click()
        page.wait_for_url(self.url)

    def rename_all(self) -> None:
        with closing(sqlite3.connect(self.database)) as kept, kept:
            kept.execute("UPDATE device SET name = 'Of a test before'")


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    studio = Studio(tmp_path_factory.mktemp("door"))
    yield studio
    studio.server.stop()


@pytest.fixture
def another(browser: Browser, studio: Studio) -> Iterator[Callable[[], Page]]:
    """Makes another phone, that takes the certificate without asking. No test, asked once more, meets its own of before."""
    contexts: list[BrowserContext] = []

    def make() -> Page:
        contexts.append(browser.new_context(ignore_https_errors=True, viewport=SIZES[1]))
        return contexts[-1].new_page()

    yield make
    for context in contexts:
        answer_no_more(context)
        context.close()
    studio.rename_all()


def look_at(page: Page, studio: Studio, address: str) -> None:
    """Open the page anew at this address, and pass over what it says of the time away."""
    carry_on(page)
    page.goto("about:blank")
    page.goto(studio.url + address)
    expect(page.locator("main > *")).not_to_have_class("opening")


def go(page: Page, address: str) -> None:
    page.evaluate("address => { location.hash = address }", address)
    expect(page.locator("#page > *")).to_have_count(1)


# Who is here


def test_the_studio_screen_says_who_is_here_and_lets_a_helper_in(
    studio: Studio, another: Callable[[], Page]
) -> None:
    maker, helper = another(), another()
    studio.pair_by_hand(maker, "Phone by the bowl")
    look_at(maker, studio, "#/studio")
    expect(maker.get_by_text("Phone by the bowl, maker")).to_be_visible()
    expect(maker.get_by_text("maker, this phone")).to_be_visible()

    maker.get_by_role("button", name="Pair a helper's device").click()
    expect(maker.get_by_role("timer")).to_contain_text("Good for one device")
    code = maker.locator(".code").inner_text()
    expect(maker.locator(".code-qr")).to_be_visible()
    helper.goto(studio.url + "pair")
    helper.get_by_label("Code", exact=True).fill(code)
    helper.get_by_label("Name of this device").fill("Phone by the window")
    helper.get_by_role("button", name="Pair").click()

    expect(maker.get_by_text("Phone by the window is paired.")).to_be_visible(timeout=10_000)
    expect(maker.locator(".code-card")).to_be_hidden()
    look_at(helper, studio, "#/studio")
    expect(helper.get_by_text("Phone by the window, helper")).to_be_visible()
    expect(helper.locator("device-list")).to_have_count(0)


def test_a_makers_role_is_given_a_device_renamed_and_shut_out_after_a_question_and_makers_read_who_did_what(
    studio: Studio, another: Callable[[], Page]
) -> None:
    maker, other = another(), another()
    studio.pair(maker, "Anna's phone")
    studio.pair(other, "Press", "helper")
    look_at(other, studio, "#/audit")
    expect(other.get_by_role("heading", name="Only for makers")).to_be_visible()
    look_at(maker, studio, "#/studio")
    row = maker.locator(".device", has_text="Press")

    row.get_by_role("button", name="Make maker").click()
    maker.get_by_role("dialog").get_by_role("button", name="Back").click()
    row.get_by_role("button", name="Make maker").click()
    maker.get_by_role("dialog").get_by_role("button", name="Make Press a maker").click()
    expect(row).to_contain_text("maker, ")
    maker.get_by_role("button", name="Pair a helper's device").click()
    expect(maker.locator(".code-card")).to_be_visible()
    expect(maker.get_by_text("Connected.", exact=True)).to_be_visible()  # so it comes back nowhere below
    maker.get_by_role("link", name="Who did what").click()

    told = maker.locator("audit-screen .times li")
    # The server makes its copies beside them, whenever it comes to it.
    said = told.filter(has_text="Anna's phone made")
    expect(said.first).to_contain_text("Anna's phone made a code for a helper's device")
    expect(said.nth(1)).to_contain_text("Anna's phone made Press a maker")
    assert axe_finds(maker) == ""

    # A long log is read a page at a time, and says when there is no connection.
    app = create_app(Settings(database=studio.database))
    with app.app_context():
        for number in range(70):
            with store.writing() as connection:
                note(connection, "renamed", was="Tablet", name=f"Tablet {number}")
    store.close(app)
    asked: list[str] = []
    maker.on("request", lambda request: asked.append(request.url) if "/v1/audit" in request.url else None)
    maker.route("**/api/v1/audit**", lambda route: route.abort())
    go(maker, "#/studio")
    go(maker, "#/audit")
    expect(maker.get_by_text("No connection. The server keeps this list.")).to_be_visible()
    maker.evaluate("() => { document.querySelector('audit-screen').data = { isOnline: true } }")
    assert len(asked) == 1, "drawn again, it asks by its button alone, which stays what it was"
    maker.unroute("**/api/v1/audit**")
    maker.get_by_role("button", name="Try again").click()
    rows = maker.locator("audit-screen .times li")
    expect(rows).to_have_count(50)
    maker.get_by_role("button", name="Show older").click()
    expect(rows.nth(69)).to_be_visible()
    expect(rows.filter(has_text=re.compile("the terminal renamed Tablet to Tablet 12$"))).to_have_count(1)

    go(maker, "#/studio")
    row.get_by_role("button", name="Rename").click()
    maker.get_by_label("Name", exact=True).filter(visible=True).fill("Older press")
    maker.get_by_role("button", name="Save", exact=True).filter(visible=True).click()
    row = maker.locator(".device", has_text="Older press")
    expect(row).to_be_visible()
    row.get_by_role("button", name="Shut out").click()
    maker.get_by_role("dialog").get_by_role("button", name="Back").click()
    expect(row).to_be_visible()
    row.get_by_role("button", name="Shut out").click()
    maker.get_by_role("dialog").get_by_role("button", name="Shut out Older press").click()
    expect(row).to_have_count(0)
    other.goto(studio.url)
    expect(other.get_by_label("Code", exact=True)).to_be_visible()


def test_the_studio_screen_is_readable_and_reachable_at_every_size(
    studio: Studio, another: Callable[[], Page]
) -> None:
    phone = another()
    studio.pair(phone, "Phone by day and night")
    look_at(phone, studio, "#/studio")
    phone.get_by_role("button", name="Pair a maker's phone").click()
    phone.get_by_role("dialog").get_by_role("button", name="Make a maker").click()
    for size in SIZES:
        phone.set_viewport_size(size)  # type: ignore[arg-type]
        expect(phone.locator(".code")).to_be_visible()
        wide = phone.evaluate("() => document.documentElement.scrollWidth")
        assert wide <= size["width"]
        small = phone.evaluate(
            """() => [...document.querySelectorAll("studio-screen :is(button, a, input)")]
                .filter((each) => each.offsetParent && !each.matches(".choice input"))
                .map((each) => [each.textContent, each.getBoundingClientRect().height])
                .filter(([, height]) => height < 44)"""
        )
        assert small == []
    assert axe_finds_by_day_and_night(phone) == ""
    assert phone.locator("studio-screen .copper:visible").count() == 0


# A helper


def test_a_helper_is_shown_no_way_to_change_recipes_or_kit(
    studio: Studio, another: Callable[[], Page]
) -> None:
    phone = another()
    studio.pair(phone, "Helper", "helper")
    look_at(phone, studio, "#/studio")
    expect(phone.get_by_text("Helper, helper")).to_be_visible()
    expect(phone.get_by_role("link", name="Save everything from the server")).to_be_hidden()

    go(phone, "#/")
    expect(phone.locator(".recipe").first).to_be_visible()
    expect(phone.get_by_role("link", name="Write a new recipe")).to_be_hidden()
    expect(phone.get_by_role("link", name="Bring in a recipe")).to_be_hidden()
    phone.locator(".recipe").first.click()
    expect(phone.get_by_role("button", name="Begin")).to_be_visible()
    expect(phone.get_by_role("link", name="Edit this recipe")).to_be_hidden()
    go(phone, "#/kit")
    expect(phone.locator("kit-screen input").first).to_be_disabled()
    expect(phone.locator("kit-screen button:visible")).to_have_count(0)
    go(phone, "#/recipe/new")
    expect(phone.get_by_role("heading", name="Only for makers")).to_be_visible()


def test_what_only_a_maker_may_is_refused_calmly_and_a_helpers_phone_gives_nothing_back(
    studio: Studio, another: Callable[[], Page]
) -> None:
    phone = another()
    studio.pair(phone, "Bold helper", "helper")
    open_phone(phone, studio.url)

    says = phone.evaluate("() => studio.setKit({}).then(() => 'kept', ({ says }) => says)")

    assert "a maker" in says
    assert phone.evaluate(SYNC)["state"] == "online"

    had = phone.evaluate("() => studio.recipes.length")
    asked: list[str] = []
    phone.on("request", lambda request: asked.append(request.method))

    def nothing_there(route: Route) -> None:
        name = "kit" if "/kit" in route.request.url else "recipes"
        empty = {"version": 0, "document": {}, "measured": {}}
        body = empty if name == "kit" else {"recipes": [], "page": 1, "pages": 0, "total": 0}
        route.fulfill(body=json.dumps(body), content_type="application/json")

    for address in ("**/recipes?**", "**/kit"):
        phone.route(address, nothing_there)
    link = phone.evaluate(SYNC)

    assert (link["state"], set(asked)) == ("online", {"GET"})
    assert phone.evaluate("() => [studio.recipes.length, studio.kit !== null]") == [had, True]


PRICES = "() => studio.shelfEntries.filter(({ body }) => body.price).length"
ROLE = """async ([device, role]) => (await fetch(`/api/v1/devices/${device}`, {
    method: "PATCH", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ role, confirm: role }),
})).status"""


def test_a_phone_has_the_prices_while_it_is_a_makers(studio: Studio, another: Callable[[], Page]) -> None:
    maker, phone = another(), another()
    studio.pair(maker, "Desk with prices")
    studio.pair(phone, "Phone of two roles", "helper")
    for page in (maker, phone):
        open_phone(page, studio.url)
    device = phone.evaluate("() => studio.place.you.id")
    # The journal says which paired device was at which bench.
    benches = maker.evaluate(
        "async () => (await (await studio.door()).devices()).map(({ name, bench }) => [name, bench])"
    )
    for page, name in ((maker, "Desk with prices"), (phone, "Phone of two roles")):
        assert [name, page.evaluate("() => studio.device")] in benches
    lots = maker.evaluate(PRICES)
    assert lots > 0 and phone.evaluate(PRICES) == 0
    assert phone.evaluate("() => studio.shelfEntries.length") == maker.evaluate(
        "() => studio.shelfEntries.length"
    )

    for role, priced in (("maker", lots), ("helper", 0)):
        assert maker.evaluate(ROLE, [device, role]) == 200
        phone.evaluate("() => studio.sync()")
        assert phone.evaluate(PRICES) == priced, role
    assert phone.evaluate("() => [studio.link.unsent, studio.link.refused]") == [0, []]


# Not let in


def test_a_phone_that_lost_its_pairing_keeps_everything_and_sends_it_when_paired_again(
    studio: Studio, another: Callable[[], Page]
) -> None:
    phone = another()
    studio.pair(phone, "Forgetful phone")
    open_phone(phone, studio.url)
    run = begin(phone)
    phone.evaluate(SYNC)
    phone.context.clear_cookies()

    phone.evaluate(NOTE, [run, "not paired"])
    link = phone.evaluate(SYNC)
    assert (link["state"], link["shut"], link["unsent"], link["refused"]) == ("offline", "unpaired", 1, [])
    assert "not paired" in link["trouble"]

    studio.pair(phone, "Forgetful phone")
    open_phone(phone, studio.url)
    link = phone.evaluate(SYNC)
    assert (link["state"], link["shut"], link["unsent"], link["refused"]) == ("online", None, 0, [])


def test_a_phone_that_is_shut_out_goes_on_and_the_maker_decides_what_is_sent_later(
    studio: Studio, another: Callable[[], Page]
) -> None:
    maker, phone = another(), another()
    studio.pair(maker, "Maker's desk")
    open_phone(maker, studio.url)
    studio.pair(phone, "Lost phone", "helper")
    open_phone(phone, studio.url)
    run = begin(phone)
    phone.evaluate(SYNC)
    phone.context.set_offline(True)
    phone.evaluate(NOTE, [run, "while away"])
    device = phone.evaluate("() => studio.place.you.id")
    maker.evaluate("async (id) => { await (await studio.door()).shutOut(id); }", device)
    phone.context.set_offline(False)

    link = phone.evaluate(SYNC)
    assert (link["state"], link["shut"], link["unsent"]) == ("offline", "shut-out", 0)
    assert [item["detail"] for item in link["refused"]] == [HELD]
    other = begin(phone)
    phone.evaluate(NOTE, [run, "shut out"])
    phone.evaluate(NOTE, [other, "a run that the studio never heard of"])
    phone.evaluate(SYNC)
    assert [len(phone.evaluate("(run) => studio.run(run).entries", each)) for each in (run, other)] == [2, 1]

    studio.pair(phone, "Found phone", "helper")
    open_phone(phone, studio.url)
    phone.evaluate(SYNC)  # it may have joined a round that was under way
    phone.wait_for_function("() => studio.link.state === 'online' && studio.link.refused.length === 4")
    assert phone.evaluate("() => studio.link.shut") is None
    texts = "(run) => studio.run(run).entries.map(({ body }) => body.text)"
    maker.evaluate(SYNC)
    assert maker.evaluate(texts, run) == []

    phone.evaluate(
        """async () => {
            const [aside] = studio.link.refused.filter(({ entry }) => entry?.body.text === "shut out");
            await studio.setAside(aside);
            for (const item of studio.link.refused) await studio.sendAgain(item);
        }"""
    )
    link = phone.evaluate(SYNC)
    maker.evaluate(SYNC)
    assert (link["unsent"], link["refused"]) == (0, [])
    assert maker.evaluate(texts, run) == ["while away"]
    assert maker.evaluate(texts, other) == ["a run that the studio never heard of"]


def test_the_screens_of_a_phone_that_is_shut_out_say_so(studio: Studio, another: Callable[[], Page]) -> None:
    maker, phone = another(), another()
    studio.pair(maker, "Maker's tablet")
    open_phone(maker, studio.url)
    studio.pair(phone, "Phone in the drawer", "helper")
    look_at(phone, studio, "#/")
    expect(phone.locator(".recipe").first).to_be_visible()
    look_at(phone, studio, "#/studio")
    expect(phone.get_by_text("Phone in the drawer, helper")).to_be_visible()
    devices = maker.evaluate("async () => (await studio.door()).devices()")
    (device,) = [each["id"] for each in devices if each["name"] == "Phone in the drawer"]

    maker.evaluate("async (id) => { await (await studio.door()).shutOut(id); }", device)
    phone.get_by_role("button", name="Try now").click()

    expect(phone.get_by_role("link", name="Pair this phone")).to_be_visible()
    expect(phone.get_by_text("This phone was shut out of the studio. Batches here go on")).to_be_visible()
    assert axe_finds(phone) == ""
    phone.get_by_role("link", name="Recipes").click()
    expect(phone.locator("recipes-screen").get_by_text("shut out")).to_be_visible()
    expect(phone.locator(".recipe").first).to_be_visible()


# A server that was lost


def records(server: Server) -> dict[str, Any]:
    """All that matters of what a server has, by run, recipe and kit."""
    runs = call(server, "GET", "runs?page_size=100")["runs"]
    recipes = call(server, "GET", "recipes?page_size=100")["recipes"]
    return {
        "kit": call(server, "GET", "kit")["document"],
        "recipes": {each["id"]: call(server, "GET", f"recipes/{each['id']}")["document"] for each in recipes},
        "records": {each["id"]: call(server, "GET", f"runs/{each['id']}/record") for each in runs},
        "sheets": {each["id"]: call(server, "GET", f"runs/{each['id']}")["sheet"] for each in runs},
        "entries": {each["id"]: {entry["id"] for entry in entries_of(server, each["id"])} for each in runs},
        "finished": {each["id"]: each["finished_at"] for each in runs},
    }


def lose(server: Server, database: Path) -> None:
    server.kill()
    for file in database.parent.glob(f"{database.name}*"):
        file.unlink()


def test_a_server_that_was_lost_is_refilled_from_a_phone(page: Page, tmp_path: Path) -> None:
    database = tmp_path / "studio.sqlite3"
    server = warm_bowlside(database, "--demo").start()
    call(server, "PUT", f"recipes/{RECIPE_ID}", RECIPE)
    open_phone(page, server.url)
    run = page.evaluate(
        """async (id) => {
            const { chooseSize } = await import("/bench/sheet/index.js");
            const recipe = studio.recipes.find((each) => each.id === id);
            return studio.begin(recipe, chooseSize(recipe.measured, studio.kit, { by: "pieces", pieces: 4 }).size);
        }""",
        RECIPE_ID,
    )
    page.evaluate(NOTE, [run, "before the loss"])
    page.evaluate(SYNC)
    newer = {**RECIPE, "title": "Plainer bar"}
    with_match = page.evaluate(
        """async ([id, newer]) => (await fetch(`/api/v1/recipes/${id}`, { method: "PUT", body: JSON.stringify(newer),
            headers: { "Content-Type": "application/json", "If-Match": "*" } })).status""",
        [RECIPE_ID, newer],
    )
    assert with_match == 200
    page.evaluate(SYNC)  # the phone's recipe is version 2, its run was made by version 1
    before = records(server)
    assert len(before["records"]) >= 2 and any(before["finished"].values())

    lose(server, database)
    empty = warm_bowlside(database)
    empty.url = server.url
    empty.start()
    assert records(empty)["records"] == {}
    for _ in range(2):
        link = page.evaluate(SYNC)
    after = records(empty)
    empty.stop()

    assert (link["state"], link["unsent"], link["refused"]) == ("online", 0, [])
    for told in (before, after):
        for record in told["records"].values():
            record.pop("late")  # a server that knows of no restore got all of it late, and says so
    assert after == before


def test_a_server_put_back_to_an_older_copy_gets_the_newer_recipe_back(page: Page, tmp_path: Path) -> None:
    database = tmp_path / "studio.sqlite3"
    server = warm_bowlside(database).start()
    call(server, "PUT", f"recipes/{RECIPE_ID}", RECIPE)
    open_phone(page, server.url)
    newer = {**RECIPE, "title": "Plainer bar"}
    page.evaluate(
        """async ([id, document]) => {
            await studio.drafts.write({ id, base: 1, document });
            await studio.drafts.send(id);
        }""",
        [RECIPE_ID, newer],
    )
    lose(server, database)
    older = warm_bowlside(database)
    older.url = server.url
    older.start()
    call(older, "PUT", f"recipes/{RECIPE_ID}", RECIPE)

    page.evaluate(SYNC)
    now = call(older, "GET", f"recipes/{RECIPE_ID}")
    first = call(older, "GET", f"recipes/{RECIPE_ID}/versions/1")
    older.stop()

    assert (now["version"], now["document"]["title"], first["document"]["title"]) == (
        2,
        "Plainer bar",
        "Plain bar",
    )


def test_an_iphone_is_told_to_install_before_it_pairs_and_installs_the_studio(
    studio: Studio, browser: Browser
) -> None:
    """An installed page has its own storage (from memory), so a pairing in Safari would be asked for twice."""
    agents = {
        "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 Safari/604.1": True,
        "Mozilla/5.0 (Linux; Android 16) AppleWebKit/537.36 Chrome/140.0 Mobile Safari/537.36": False,
    }
    for agent, told in agents.items():
        context = browser.new_context(user_agent=agent, ignore_https_errors=True)
        page = context.new_page()
        page.goto(f"{studio.url}pair#7F3K2M9Q")

        expect(page.get_by_text("install first, then pair")).to_be_visible(visible=told)
        assert page.url == studio.url + (
            "" if told else "pair"
        )  # what goes to the home screen is this address
        assert page.get_by_label("Code", exact=True).input_value() == "7F3K2M9Q"
        context.close()
