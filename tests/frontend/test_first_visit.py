"""How the page opens: nothing moves while it fills, dark where it is night, in the system's colours where it has its own."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Route, expect

from tests.frontend.hands import DEMO_RECIPES, NO_COPY
from tests.frontend.sample import SAMPLE, sample_text
from tests.frontend.sight import FRONTEND, Shape, out_of_sight_now, shifted_at
from tests.servers import Server, warm_bowlside

pytestmark = [pytest.mark.browser, NO_COPY]

PHONE = {"width": 390, "height": 844}
GROUND = "getComputedStyle(document.documentElement).backgroundColor"
DAY, NIGHT = "rgb(251, 248, 240)", "rgb(19, 27, 37)"


KEPT = """async () => {
    const open = (name) => new Promise((resolve) => {
        const asked = indexedDB.open(name);
        asked.onsuccess = () => resolve(asked.result);
    });
    const counts = {};
    for (const { name } of await indexedDB.databases()) {
        const store = await open(name);
        for (const each of ["runs", "entries", "outbox", "recipes"].filter((of) => store.objectStoreNames.contains(of))) {
            const asked = store.transaction(each).objectStore(each).count();
            counts[each] = await new Promise((resolve) => { asked.onsuccess = () => resolve(asked.result); });
        }
        store.close();
    }
    return counts;
}"""
REAL_MINUTES = 10
# The page that waits for all of a studio gives up after ten seconds: here it never does.
NO_PATIENCE = """(() => {
    const { setTimeout } = window;
    window.setTimeout = (act, ms, ...given) => (ms === 10_000 ? 0 : setTimeout(act, ms, ...given));
})()"""


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[Server]:
    """A studio as it is first served: no recipe, no kit, no batch."""
    server = warm_bowlside(tmp_path / "studio.sqlite3").start()
    yield server
    server.kill()


def test_the_sample_that_is_shipped_is_what_the_bench_makes_of_it() -> None:
    """And its waits are minutes where the recipe says hours."""
    shipped = (FRONTEND / SAMPLE).read_text("utf-8")
    assert shipped == sample_text()
    waits = [step for step in json.loads(shipped)["steps"] if step["kind"] == "wait"]
    assert [step["earliest_ms"] for step in waits] == [120_000, 60_000]


def test_an_empty_studio_offers_three_ways_at_once_and_nothing_on_it_is_an_error(
    page: Page, empty: Server, faultless: None
) -> None:
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.goto(empty.url)
    first = page.get_by_role("region", name="Begin")

    for way in ("Try a sample", "Write a recipe", "Bring one in"):
        expect(first.get_by_role("link", name=way)).to_be_in_viewport(ratio=1)
    for said in ("what to do now", "scales and bowls"):
        expect(first.get_by_text(said)).to_be_in_viewport(ratio=1)
    for language in ("en", "de"):  # on its side
        page.context.add_cookies([{"name": "language", "value": language, "url": empty.url}])
        page.reload()
        for wide, high in ((844, 390), (667, 375)):
            page.set_viewport_size({"width": wide, "height": high})
            expect(page.locator("html")).to_have_attribute("lang", language)
            expect(page.locator(".way-in")).to_have_count(3)
            for way in page.locator(".way-in").all():
                expect(way).to_be_in_viewport(ratio=1)
    page.context.clear_cookies(name="language")
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.reload()
    expect(first).not_to_contain_text("°F")
    page.add_init_script("Object.defineProperty(navigator, 'languages', { get: () => ['en-US', 'en'] })")
    page.reload()
    first.get_by_role("link", name="Use ounces and °F").click()
    expect(page.get_by_role("group", name="Masses")).to_be_visible()
    for address in ("#/recipe/new", "#/bring", "#/kit", "#/shelf", "#/studio", "#/"):
        page.evaluate("address => { location.hash = address }", address)
        expect(page.locator("h1")).to_be_visible()
        assert page.locator("[data-fault], [aria-invalid=true], [role=alert]:visible").count() == 0, address


def test_asked_to_keep_nothing_the_recipe_page_says_what_it_needs(page: Page, empty: Server) -> None:
    page.goto(f"{empty.url}#/recipe/new")

    page.get_by_role("button", name="Save version").click()

    expect(page.locator("[aria-invalid=true]").first).to_be_focused()


def test_the_sample_is_made_in_ten_minutes_and_leaves_no_trace(
    page: Page, empty: Server, faultless: None
) -> None:
    """Every prompt by its strong answer, with time passing as hands and waits take it; then nothing is anywhere."""
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.clock.install()
    page.goto(empty.url)
    page.get_by_role("link", name="Try a sample").click()
    title, strong = page.locator("practice-screen h1"), page.locator("answer-row .copper")
    expect(page.get_by_text("Practice: 1 min here is 1 h")).to_be_visible()
    began = page.evaluate("Date.now()")

    for turn in range(160):
        assert page.evaluate(out_of_sight_now()) == []
        if title.inner_text() == "That was practice":
            break
        if turn == 4:
            here = title.inner_text()
            page.reload()  # an interruption is normal, in practice too
            expect(title).to_have_text(here)
            page.get_by_role(
                "button", name=re.compile("^Other")
            ).click()  # nothing in it asks for a real batch
            expect(page.get_by_role("dialog")).not_to_contain_text("Will it ring?")
            page.get_by_role("dialog").get_by_role("button", name="Back").click()
        if strong.is_visible():
            page.evaluate("document.querySelector('answer-row .copper').click()")
        page.clock.run_for(5_000)

    expect(title).to_have_text("That was practice")
    assert page.evaluate("Date.now()") - began < REAL_MINUTES * 60_000
    assert page.evaluate(KEPT) == {"runs": 0, "entries": 0, "outbox": 0, "recipes": 0}
    assert page.request.get(f"{empty.url}api/v1/runs").json()["total"] == 0
    page.get_by_role("button", name="Practise again").click()
    expect(title).to_have_text(re.compile("^Bicarbonate of soda: add "))


# What of the first drawing can be seen whenever a piece of the work it is made in has ended.
WATCH_RISING = """(() => {
    window.turns = [];
    new MutationObserver(() => {
        const screen = document.querySelector("main[data-rising] > :last-child");
        if (screen) turns.push([
            getComputedStyle(screen).visibility, document.querySelectorAll(".opening").length,
            screen.querySelectorAll("[data-unlaid]").length]);
    }).observe(document, { subtree: true, attributeFilter: ["data-unlaid", "data-rising"] });
})()"""


def test_the_first_drawing_is_made_unseen_and_in_pieces(page: Page, live_server: Server) -> None:
    """What says that the page opens stands until all of it does; between its parts a touch would be heard."""
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.add_init_script(WATCH_RISING)
    page.goto(live_server.url)
    run = page.locator(".open-run").first.get_attribute("href")
    for address in ("", run):
        page.goto("about:blank")
        page.goto(f"{live_server.url}{address}")
        expect(page.locator(".open-run, answer-row .copper").first).to_be_visible()

        turns = page.evaluate("turns")
        assert {(visibility, opening) for visibility, opening, _ in turns} == {("hidden", 1)}
        assert len({unlaid for *_, unlaid in turns}) > 3, turns
        assert page.locator("[data-unlaid], [data-rising], .opening").count() == 0


def test_on_a_first_visit_nothing_that_stands_is_moved(browser: Browser, live_server: Server) -> None:
    """Home with the demo's batches and recipes, and a link straight to the bench."""
    with shifted_at(browser, live_server.url, Shape(390, 844)) as (page, shifts):
        expect(page.locator(".recipe")).to_have_count(DEMO_RECIPES)
        run = page.locator(".open-run").get_attribute("href")
        assert shifts() == 0
    with shifted_at(browser, f"{live_server.url}{run}", Shape(390, 844)) as (page, shifts):
        expect(page.locator("answer-row .copper")).to_be_visible()
        assert shifts() == 0


def keeping(routes: list[Route]) -> Callable[[Route], None]:
    """Keeps back what is asked for, until it is let go on."""
    return lambda route: routes.append(route)


def test_home_shows_what_it_knows_as_it_comes_the_upper_first_and_moves_nothing(
    browser: Browser, live_server: Server
) -> None:
    """Its batches, while recipes are kept back; and these, while what was made is; each whole when it is shown."""
    kept: dict[str, list[Route]] = {"**/api/v1/recipes/all?*": [], "**/api/v1/runs/whole?open=false*": []}

    def go_on(address: str) -> None:
        for route in kept[address]:
            route.continue_()

    with shifted_at(browser, "about:blank", Shape(390, 844)) as (page, shifts):
        page.add_init_script(NO_PATIENCE)
        for address, routes in kept.items():
            page.route(address, keeping(routes))
        recipes, made = page.locator(".recipe"), page.locator("a[href^='#/record/']")
        asked: list[str] = []
        page.on(
            "request",
            lambda each: "/api/" in each.url and asked.append(urlsplit(each.url).path.split("/")[3]),
        )

        with page.expect_request("**/api/v1/recipes/all?*"):
            page.goto(live_server.url)
        assert [each for each in asked if each != "clock"] == ["runs", "studio", "recipes"]
        expect(page.locator(".open-run")).to_have_count(1)
        expect(recipes).to_have_count(0)

        with page.expect_request("**/api/v1/runs/whole?open=false*"):
            go_on("**/api/v1/recipes/all?*")
        expect(recipes).to_have_count(DEMO_RECIPES)
        expect(made).to_have_count(0)

        go_on("**/api/v1/runs/whole?open=false*")
        expect(made).to_have_count(1)
        expect(page.locator(".open-run")).to_have_count(1)
        expect(page.locator(".open-run")).to_contain_text(
            "D-A42, "
        )  # two batches of a recipe lie side by side
        assert shifts() == 0


def test_a_bench_stands_once_the_open_batches_are_here_and_what_comes_later_moves_nothing(
    browser: Browser, live_server: Server
) -> None:
    """The recipes are kept back: a link to a bench waits for its batch, not for all the studio has."""
    kept: list[Route] = []
    with shifted_at(browser, "about:blank", Shape(390, 844)) as (page, shifts):
        page.add_init_script(NO_PATIENCE)
        run = page.request.get(f"{live_server.url}api/v1/runs?open=true").json()["runs"][0]["id"]
        page.route("**/api/v1/recipes/all?*", lambda route: kept.append(route))

        with page.expect_request("**/api/v1/recipes/all?*"):
            page.goto(f"{live_server.url}#/bench/{run}")

        expect(page.locator("answer-row .copper")).to_be_visible()
        with page.expect_response("**/api/v1/pictures"):  # the last that a first round asks
            for route in kept:
                route.continue_()
        assert shifts() == 0


def before_the_script(page: Page, url: str) -> str:
    """The ground of the page while its script is still on its way."""
    page.route("**/app.js", lambda route: route.abort())
    page.goto(url)
    page.unroute("**/app.js")
    ground: str = page.evaluate(GROUND)
    return ground


def test_at_night_the_page_opens_dark_before_its_script_runs(page: Page, live_server: Server) -> None:
    page.emulate_media(color_scheme="dark")
    assert before_the_script(page, live_server.url) == NIGHT
    page.emulate_media(color_scheme="light")
    assert before_the_script(page, live_server.url) == DAY

    page.goto(f"{live_server.url}#/studio")
    page.reload()  # and as the maker has chosen, whatever the phone says
    page.get_by_role("radio", name="Night").check()
    page.wait_for_function("() => localStorage.getItem('theme') === 'night'")

    assert before_the_script(page, live_server.url) == NIGHT


def test_in_forced_colours_the_thing_to_do_and_the_bowl_still_stand_out(
    page: Page, live_server: Server
) -> None:
    page.set_viewport_size(PHONE)  # type: ignore[arg-type]
    page.emulate_media(forced_colors="active", color_scheme="dark")
    page.goto(live_server.url)
    page.locator(".open-run").click()
    expect(page.locator("answer-row .copper")).to_be_visible()
    told: dict[str, Any] = page.evaluate(
        """() => {
            const of = (selector, what) => getComputedStyle(document.querySelector(selector))[what];
            return {
                ground: getComputedStyle(document.body).backgroundColor,
                strong: of("answer-row .copper", "backgroundColor"),
                other: of("answer-row .outlined", "backgroundColor"),
                wall: of(".plate-figure .wall, .plate-figure .taper-body", "stroke") + of(".plate-figure .wall", "fill"),
                inside: of(".plate-figure .inside", "fill"),
            };
        }"""
    )
    assert told["strong"] != told["other"]
    assert told["inside"] not in told["wall"]
