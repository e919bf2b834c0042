"""The recipe page in a real browser: written from paper by keyboard, checked, kept, and never lost."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Locator, Page, Route, expect

from bench import read_recipe
from bench.recipe_schema import RECIPE_SCHEMA
from tests.frontend.conftest import Lasting
from tests.frontend.hands import NO_COPY, WITH_COPY, axe_finds_by_day_and_night
from tests.frontend.phones import HOUR, MINUTE, RECIPE, RECIPE_ID, call, comes_true, eventually
from tests.frontend.test_screens import PHONE, SMALL, TABLET, TARGET_PX, too_small
from tests.make import uuid7
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

ROOT = Path(__file__).resolve().parents[2]
STEAMERS = json.loads((ROOT / "demo/recipes/shower-steamers.json").read_text("utf-8"))
KEPT = "Saved on this phone."
TURN = next(place for place, step in enumerate(STEAMERS["components"][0]["steps"]) if step["kind"] == "turn")
LATER = {"drying", "turn_1_due", "turn_1", "turn_2_due", "turn_2", "wrap"}


@pytest.fixture
def desk(lasting: Lasting, home: Server) -> Iterator[Page]:
    """A page that has read the studio's one recipe. What is written on it is forgotten with the test."""
    page = lasting.at(home.url, **PHONE)
    expect(page.locator(".recipe")).to_have_count(1)
    yield page
    forget(page)


@pytest.fixture
def own_desk(page: Page, server: Server, faultless: None) -> Page:
    """One whose studio nobody else reads."""
    page.set_viewport_size(PHONE)
    page.goto(server.url)
    expect(page.locator(".recipe")).to_have_count(1)
    return page


# Gives up what is written of a recipe, and of each that is written on this phone.
FORGET = """async ([here]) => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    const written = async () => (await store.read("drafts")).drafts.map(({ id }) => id);
    for (let ids = [here, ...(await written())]; ids.length; ids = await written()) {
        for (const id of ids) {
            const detail = { id };
            document.querySelector("#page > *").dispatchEvent(new CustomEvent("draft-dropped", { bubbles: true, detail }));
        }
        await new Promise((go) => setTimeout(go, 20));
    }
    store.close();
}"""


def forget(page: Page) -> None:
    here = page.url.rsplit("/", 1)[1]
    page.evaluate("location.hash = '#/'")
    expect(page.locator("recipes-screen")).to_be_visible()
    page.evaluate(FORGET, [here])


def go(page: Page, address: str) -> None:
    page.evaluate("address => { location.hash = address }", f"#/recipe/{address}")
    expect(page.locator("recipe-screen .r-part").first).to_be_visible()


def at(page: Page, path: str) -> Locator:
    return page.locator(f'[data-at="{path}"]')


def hint(page: Page, path: str) -> Locator:
    return page.locator(f'[id="hint-{path}"]')


def said(page: Page) -> Locator:
    return page.locator(".r-said")


def draft(page: Page) -> Any:
    """The document that is on this phone's disk, or None."""
    return page.evaluate(
        """() => new Promise((resolve, reject) => {
             const opening = indexedDB.open("bowlside");
             opening.onerror = () => reject(opening.error);
             opening.onsuccess = () => {
               const asked = opening.result.transaction("drafts").objectStore("drafts").getAll();
               asked.onsuccess = () => { opening.result.close(); resolve(asked.result[0]?.document ?? null); };
             };
           })"""
    )


class Keyboard:
    """Writes with the keyboard alone and counts: one for each key pressed, letters included."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.letters = 0
        self.others = 0

    def write(self, text: str) -> None:
        self.page.keyboard.insert_text(text)
        self.letters += len(text)

    def press(self, key: str) -> None:
        self.page.keyboard.press(key)
        self.others += 1

    def tab_to(self, target: Locator) -> None:
        """Tab on until the place is reached; it must be further on in the page."""
        for _ in range(40):
            if target.evaluate("node => node === document.activeElement"):
                return
            self.press("Tab")
        raise AssertionError("The keyboard does not get there.")


def test_the_single_part_recipe_is_entered_from_paper_by_keyboard_alone(
    own_desk: Page, server: Server, capsys: Any
) -> None:
    part = STEAMERS["components"][0]
    keys = Keyboard(own_desk)
    go(own_desk, "new")
    expect(at(own_desk, "use")).to_be_focused()
    for key in "sce":  # a pick goes by its first letters
        keys.press(key)
    for market in STEAMERS["sold_in"]:
        keys.tab_to(at(own_desk, f"sold_in={market}"))
        keys.press("Space")

    for path, text in [
        ("title", STEAMERS["title"]),
        ("written_for", "10"),
        ("piece.one", "steamer"),
        ("piece.many", "steamers"),
        ("components.0.name", part["name"]),
        ("components.0.piece", part["piece"]),
    ]:
        keys.tab_to(at(own_desk, path))
        keys.write(text)
    keys.tab_to(at(own_desk, "components.0?"))
    keys.press("Enter")
    for key in ("stays_behind", "loss"):
        keys.tab_to(at(own_desk, f"components.0.{key}"))
        keys.write(part[key])
    for index, line in enumerate(part["lines"]):
        keys.tab_to(at(own_desk, f"components.0.lines.{index}.ingredient"))
        keys.write(STEAMERS["ingredients"][line["ingredient"]]["name"])
        keys.press("Enter")
        keys.write(line["amount"])
        if index + 1 < len(part["lines"]):
            keys.press("Enter")
    for index, step in enumerate(part["steps"]):
        _enter_step(own_desk, keys, index, step)
    keys.press("Control+s")
    expect(said(own_desk)).to_have_text("Saved as version 1.")

    kept = next(
        each for each in call(server, "GET", "recipes")["recipes"] if each["title"] == STEAMERS["title"]
    )
    measured = call(server, "GET", f"recipes/{kept['id']}")["measured"]
    assert (measured["use"], measured["sold_in"]) == (STEAMERS["use"], ["us", "eu"])
    measured = measured["components"][0]
    wanted = read_recipe(STEAMERS)["components"][0]
    assert [line["ug"] for line in measured["lines"]] == [line["ug"] for line in wanted["lines"]]
    assert measured["piece_mg"] == wanted["piece_mg"]
    same = ("kind", "title", "says", "earliest_ms", "usual_ms", "latest_ms", "about_ms", "ask", "verb")
    for step, other in zip(measured["steps"], wanted["steps"], strict=True):
        assert {key: step.get(key) for key in same} == {key: other.get(key) for key in same}
    weighed = [len(step["lines"]) for step in measured["steps"] if step["kind"] == "weigh"]
    assert weighed == [4, 1]
    with capsys.disabled():
        print(f"\nsingle-part recipe from paper: {keys.letters} letters, {keys.others} other keys, 0 touches")


def _enter_step(desk: Page, keys: Keyboard, index: int, step: dict[str, Any]) -> None:
    root = f"components.0.steps.{index}"
    kinds = ["weigh", "do", "melt", "split", "check", "pieces", "wait", "turn"]
    keys.tab_to(at(desk, "components.0.steps+"))
    for _ in range(kinds.index(step["kind"])):
        keys.press("Tab")
    keys.press("Enter")
    expect(at(desk, f"{root}.title")).to_be_focused()
    keys.write(step["title"])
    if index == 0:  # the blend goes in later: untick it
        keys.tab_to(at(desk, f"{root}.lines=shower_blend_eucalyptus_and_mint"))
        keys.press("Space")
    fields = {
        "do": ["about"],
        "check": ["ask", "yes", "not_yet.do", "too_far.do"],
        "pieces": ["verb"],
        "wait": ["word", "earliest", "usual", "latest", "test", "stake"],
        "turn": ["every", "during", "word"],
    }
    for key in [*fields.get(step["kind"], []), "says"]:
        value: Any = step
        for each in key.split("."):
            value = value.get(each, {})
        if not value:
            continue
        keys.tab_to(at(desk, f"{root}.{key}"))
        if key == "during":  # a list, and the first of it is the drying
            keys.press("ArrowDown")
        else:
            keys.write(value)


def test_pieces_are_turned_as_the_recipe_says_and_the_record_shows_it(own_desk: Page, server: Server) -> None:
    """From the row in the editor through the bench and its waits to the record."""
    recipe = "018f0000-0000-7000-8000-000000000008"
    call(server, "PUT", f"recipes/{recipe}", STEAMERS)
    own_desk.reload()
    expect(own_desk.locator(".recipe")).to_have_count(2)
    go(own_desk, recipe)
    at(own_desk, f"components.0.steps.{TURN}?").click()
    every = at(own_desk, f"components.0.steps.{TURN}.every")
    expect(every).to_have_value("4 h")
    every.fill("5 h")
    own_desk.keyboard.press("Control+s")
    expect(said(own_desk)).to_have_text("Saved as version 2.")

    pressed = round(datetime.now(UTC).timestamp() * 1000) - 6 * HOUR
    run = uuid7(pressed)
    begun = {"recipe": {"id": recipe, "version": 2}, "size": {"pieces": 10}, "made_at": pressed}
    sheet = call(server, "PUT", f"runs/{run}", begun)["sheet"]
    before = [step["id"] for step in sheet["steps"] if step["id"].split(".")[2] not in LATER]
    told = [
        {
            "id": uuid7(pressed + n),
            "run": run,
            "device": "desk",
            "at": pressed,
            "kind": "done",
            "body": {"step": step},
        }
        for n, step in enumerate(before)
    ]
    call(server, "POST", f"runs/{run}/entries", {"entries": told})
    own_desk.evaluate("run => { location.hash = `#/bench/${run}`; location.reload(); }", run)

    strip = own_desk.locator("wait-strip")
    expect(strip).to_contain_text("turnedready")
    expect(own_desk.locator("bench-screen")).to_contain_text("Turn the steamers (1/2)")
    turn = own_desk.locator('[data-answer="done"]', has_text="It's turned")
    expect(turn).to_be_visible()
    with own_desk.expect_response(
        lambda answer: answer.request.method == "POST" and run in answer.url and answer.ok
    ):
        turn.click()

    expect(strip).to_contain_text(re.compile(r"Aturned(5 h|4 h 59)"))
    expect(strip).to_contain_text("Adry")
    record = call(server, "GET", f"runs/{run}/record")
    turned = next(each for each in record["waits"] if each["title"] == "Turn the steamers (1/2)")
    assert turned["ended_at"] - turned["began_at"] > 6 * HOUR - MINUTE


def test_what_an_amount_means_is_said_as_it_is_typed(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "measures").select_option("us")
    at(desk, "components.0.lines.1.amount").fill("1½ tsp")
    expect(hint(desk, "components.0.lines.1.amount")).to_have_text("7.4 mL, no density: it stays in spoons")

    at(desk, "components.0.lines.1?").click()
    at(desk, "ingredients.oil.density.g_per_ml").fill("1.09")
    at(desk, "ingredients.oil.density.source").fill("supplier's sheet")

    expect(hint(desk, "components.0.lines.1.amount")).to_have_text(
        "7.4 mL → 8.06 g, density 1.09 g/mL (supplier's sheet); 5.1 % of the whole"
    )
    expect(desk.locator(".r-mass").first).to_contain_text("158 g as written")


def test_what_cannot_be_read_is_said_beside_the_field_and_what_was_typed_stays(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "components.0.lines.0.amount").fill("1,500 g")
    at(desk, "components.0.lines.0.amount").press("Tab")

    expect(hint(desk, "components.0.lines.0.amount")).to_contain_text("1.5 g or 1500 g?")
    expect(at(desk, "components.0.lines.0.amount")).to_have_attribute("aria-invalid", "true")
    assert at(desk, "components.0.lines.0.amount").input_value() == "1,500 g"

    # What is left stays one line until the touch that left it is over: nothing moves from under the hand.
    at(desk, "components.0.lines.1.amount").fill("8 1/2 oz and more, or less than that,")
    expect(desk.locator(".r-line").nth(1)).to_have_class(re.compile("long"))
    add = at(desk, "components.0.lines+")
    add.scroll_into_view_if_needed()
    before = add.bounding_box()
    assert before
    desk.mouse.move(before["x"] + 20, before["y"] + 20)
    desk.mouse.down()
    expect(at(desk, "components.0.lines.1.amount")).to_have_attribute("aria-invalid", "true")
    assert add.bounding_box() == before
    desk.mouse.up()
    expect(at(desk, "components.0.lines.2.amount")).to_be_visible()
    expect(hint(desk, "components.0.lines.1.amount")).not_to_have_attribute("data-typing", "")
    at(desk, "components.0.lines.1.amount").fill("50 g")

    at(desk, "title").fill("")
    desk.get_by_role("button", name="Save version").click()
    expect(said(desk)).to_contain_text("Not saved as a version yet")
    assert draft(desk)["components"][0]["lines"][0]["amount"] == "1,500 g"


def test_the_servers_word_is_put_beside_the_field_it_names_past_lines_still_empty(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "components.0.lines+").click()
    at(desk, "components.0.lines+").click()
    at(desk, "components.0.lines.3.ingredient").fill("Light oil")
    at(desk, "components.0.lines.3.amount").fill("5 g")
    at(desk, "components.0.lines.3.amount").press("Tab")

    finding = desk.locator(".r-findings li").first
    expect(finding).to_contain_text("No step weighs")
    finding.get_by_role("button", name="Go there").click()

    expect(at(desk, "components.0.lines.3.ingredient")).to_be_focused()


def test_the_check_is_listed_and_leads_to_the_place(own_desk: Page, server: Server) -> None:
    call(server, "PUT", "recipes/018f0000-0000-7000-8000-000000000009", STEAMERS)
    own_desk.reload()
    expect(own_desk.locator(".recipe")).to_have_count(2)
    go(own_desk, "018f0000-0000-7000-8000-000000000009")

    spoon = own_desk.locator('.r-findings [data-level="look"], .r-findings [data-level="know"]').first
    expect(spoon).to_be_visible()
    before = own_desk.locator(".r-findings li").count()
    own_desk.get_by_text("Today’s air").click()
    at(own_desk, "air.temperature_c").fill("24")
    at(own_desk, "air.humidity").fill("78")

    expect(own_desk.get_by_text("Dew point").first).to_be_visible()
    assert own_desk.locator(".r-findings li").count() > before


def test_lines_and_steps_change_places_by_keys_and_by_buttons(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "components.0.lines.1.amount").focus()
    desk.keyboard.press("Alt+ArrowUp")
    expect(said(desk)).to_have_text(f"Light oil: now 1 of 2. {KEPT}")
    expect(at(desk, "components.0.lines.0.amount")).to_be_focused()
    expect(at(desk, "components.0.lines.0.ingredient")).to_have_value("Light oil")

    at(desk, "components.0.steps.0?").click()
    desk.get_by_role("button", name="Down: Weigh the bar").click()
    expect(at(desk, "components.0.steps.0.title")).to_have_value("Let it set")

    desk.keyboard.press("Control+z")
    desk.keyboard.press("Control+z")
    expect(at(desk, "components.0.lines.0.ingredient")).to_have_value("Hard butter")
    expect(at(desk, "components.0.steps.0.title")).to_have_value("Weigh the bar")


def test_a_line_is_dragged_by_its_handle(desk: Page) -> None:
    go(desk, RECIPE_ID)
    handle = at(desk, "components.0.lines.0#")
    handle.evaluate("node => node.scrollIntoView({ block: 'center' })")
    box = handle.bounding_box()
    other = at(desk, "components.0.lines.1#").bounding_box()
    assert box and other

    desk.mouse.move(box["x"] + 20, box["y"] + 20)
    desk.mouse.down()
    desk.mouse.move(other["x"] + 20, other["y"] + 90, steps=6)
    desk.mouse.up()

    expect(at(desk, "components.0.lines.0.ingredient")).to_have_value("Light oil")


@WITH_COPY
def test_a_draft_written_with_no_network_survives_a_reload_and_is_sent_when_the_server_answers(
    own_desk: Page, server: Server
) -> None:
    own_desk.evaluate("() => navigator.serviceWorker.ready")
    go(own_desk, RECIPE_ID)
    own_desk.context.set_offline(True)
    at(own_desk, "title").fill("Plain bar, harder")
    expect(said(own_desk)).to_have_text(KEPT)
    expect(own_desk.get_by_text("No connection, so no check yet")).to_be_visible()

    own_desk.reload()
    expect(at(own_desk, "title")).to_have_value("Plain bar, harder")
    own_desk.get_by_role("button", name="Save version").click()
    expect(said(own_desk)).to_contain_text("Saved on this phone; sends later")
    own_desk.context.set_offline(False)
    own_desk.evaluate("() => dispatchEvent(new Event('online'))")

    comes_true(
        own_desk,
        "async id => (await (await fetch(`/api/v1/recipes/${id}`)).json()).title === 'Plain bar, harder'",
        arg=RECIPE_ID,
    )
    own_desk.wait_for_function("() => !document.querySelector('.r-changed:not([hidden])')")


def test_a_new_recipe_is_kept_from_its_first_letter(desk: Page) -> None:
    go(desk, "new")
    with desk.expect_response("**/api/v1/checks"):
        at(desk, "title").press_sequentially("Scrub")
    expect(said(desk)).to_have_text(KEPT)
    # In the check's words too, which has read what this page has not asked yet.
    expect(desk.locator(".r-findings")).to_contain_text("Say for how many pieces it is written")
    expect(desk.locator(".r-findings")).not_to_contain_text("without a point")

    desk.reload()

    expect(at(desk, "title")).to_have_value("Scrub")
    desk.goto(desk.url.split("#")[0] + "#/")
    expect(desk.get_by_role("link", name="Go on writing Scrub")).to_be_visible()


def test_when_someone_else_changed_it_both_are_kept_until_the_maker_says(
    own_desk: Page, server: Server
) -> None:
    version = 1
    for way in ("both together", "new recipe", "Take theirs"):
        mine, theirs = f"Mine, {way}", f"Theirs, {way}"
        go(own_desk, RECIPE_ID)
        at(own_desk, "title").fill(mine)
        expect(said(own_desk)).to_have_text(KEPT)
        change(server, {**RECIPE, "title": theirs})
        version += 1

        own_desk.get_by_role("button", name="Save version").click()

        expect(own_desk.get_by_role("heading", name="Someone changed this recipe")).to_be_visible()
        asked = own_desk.locator(".r-both", has_text="The recipe: Title")
        expect(asked).to_contain_text(f"Theirs: {theirs}")
        expect(asked).to_contain_text(f"Yours: {mine}")
        assert draft(own_desk)["title"] == mine
        assert call(server, "GET", f"recipes/{RECIPE_ID}")["title"] == theirs

        asked.get_by_label("Yours").check()
        own_desk.get_by_role("button", name=way).click()

        if way == "both together":
            version += 1
            expect(said(own_desk)).to_have_text(f"Saved as version {version}.")
            assert call(server, "GET", f"recipes/{RECIPE_ID}")["title"] == mine
            assert call(server, "GET", f"recipes/{RECIPE_ID}/versions/{version - 1}")["title"] == theirs
        elif way == "new recipe":
            expect(at(own_desk, "title")).to_have_value(f"{mine} (second)")
            assert RECIPE_ID not in own_desk.url
        else:
            expect(at(own_desk, "title")).to_have_value(theirs)
            assert draft(own_desk) is None
        expect(own_desk.get_by_role("heading", name="Someone changed this recipe")).to_be_hidden()
        forget(own_desk)


def change(server: Server, document: Any) -> None:
    """Somebody else's edit, from another device."""
    urlopen(
        Request(
            f"{server.url}api/v1/recipes/{RECIPE_ID}",
            method="PUT",
            data=json.dumps(document).encode(),
            headers={"Content-Type": "application/json", "If-Match": "*"},
        )
    )


def test_plain_text_is_confirmed_line_by_line_and_nothing_is_guessed_in_silence(desk: Page) -> None:
    go(desk, "new")
    desk.get_by_text("From plain text").click()
    desk.get_by_label("Ingredients and steps").fill(
        "Oat soak:\n- 240 g sea salt\nBicarbonate of soda: 120 g\na handful of oats\nMethod\n1. Mix well for 3 min\n2. Let it dry 12 h"
    )
    desk.get_by_role("button", name="Read it").click()
    cards = desk.locator(".r-card")
    expect(cards).to_have_count(6)
    expect(cards.nth(3)).to_contain_text("“a handful” is no measure. Write one amount, or “as needed”")
    expect(cards.nth(3).get_by_role("button", name="That is right")).to_be_disabled()
    expect(cards.nth(5)).to_contain_text("A time is named: 12 h")
    put = desk.get_by_role("button", name="Put these into the recipe")
    expect(put).to_be_hidden()

    cards.nth(3).get_by_label("Understood as").select_option("")
    expect(cards.nth(3)).to_contain_text("Say what this is, or remove it.")
    cards.nth(3).get_by_role("button", name="Remove it").click()
    for place in (0, 1, 2, 4, 5):
        expect(put).to_be_hidden()
        cards.nth(place).get_by_role("button", name="That is right").click()
    put.click()

    expect(at(desk, "title")).to_have_value("Oat soak")
    expect(said(desk)).to_have_text(KEPT)
    written = draft(desk)
    part = written["components"][0]
    assert [line["amount"] for line in part["lines"]] == ["240 g", "120 g"]
    assert [each["name"] for each in written["ingredients"].values()] == ["sea salt", "Bicarbonate of soda"]
    assert [(step["kind"], step["title"]) for step in part["steps"]] == [
        ("do", "Mix well for 3 min"),
        ("wait", "Let it dry 12 h"),
    ]
    assert part["steps"][1]["usual"] == "12 h" and part["steps"][1]["earliest"] == ""


def test_a_name_known_from_another_recipe_brings_its_details(own_desk: Page, server: Server) -> None:
    known = {**json.loads(json.dumps(RECIPE)), "title": "Bars with a dense oil"}
    known["ingredients"]["oil"]["density"] = {"g_per_ml": "0.91", "source": "supplier's sheet"}
    change(server, known)
    own_desk.reload()
    expect(own_desk.locator(".recipe")).to_contain_text("Bars with a dense oil")
    go(own_desk, "new")
    at(own_desk, "measures").select_option("metric")
    at(own_desk, "components.0.lines.0.ingredient").fill("light oil")
    at(own_desk, "components.0.lines.0.amount").fill("2 tbsp")

    expect(hint(own_desk, "components.0.lines.0.amount")).to_contain_text(
        "30.0 mL → 27.3 g, density 0.91 g/mL (supplier's sheet)"
    )


def test_steps_picked_begin_with_what_a_step_came_after_so_that_none_comes_loose(
    own_desk: Page, server: Server
) -> None:
    longer: Any = copy.deepcopy(RECIPE)
    longer["components"][0]["steps"].insert(1, {"id": "melt", "kind": "do", "title": "Melt it"})
    change(server, longer)
    own_desk.reload()
    go(own_desk, RECIPE_ID)
    for path in ("components.0.steps.2?", "components.0.steps.2.more?"):
        at(own_desk, path).click()
    at(own_desk, "components.0.steps.2.after-which").select_option("these")
    expect(said(own_desk)).to_have_text(KEPT)
    assert draft(own_desk)["components"][0]["steps"][2]["after"] == ["melt"]

    along = own_desk.evaluate(
        """async () => {
             const { comesAfter } = await import("/parts/recipe-forms.js");
             const part = (id) => ({ id, name: id, lines: [], steps: [{ id: "in" }, { id: "dry" }] });
             const document = { components: [part("base"), part("top")],
                                assembly: { takes: [], steps: [{ id: "pipe" }] } };
             return ["assembly.steps.0", "components.0.steps.1", "components.1.steps.0"]
               .map((at) => comesAfter(document, at));
           }"""
    )
    assert along == [["base.dry", "top.dry"], ["in"], []]


def each_state(page: Page) -> Iterator[str]:
    go(page, RECIPE_ID)
    expect(page.locator(".recipe-picture")).to_be_visible()
    yield "a recipe"
    for path in (
        "recipe?",
        "components.0?",
        "components.0.lines.0?",
        "components.0.steps.1?",
        "components.0.steps.1.more?",
        "text?",
    ):
        at(page, path).click()
    at(page, "components.0.lines.0.amount").fill("some")
    at(page, "components.0.lines.0.amount").press("Tab")
    expect(page.locator(".r-findings li").first).to_be_visible()
    yield "every fold open, and a fault"
    at(page, "components+").click()
    yield "two parts and how they are joined"


def test_the_recipe_page_is_plain_to_axe_never_runs_off_the_side_and_all_of_it_can_be_pressed(
    desk: Page,
) -> None:
    pressed = (
        "recipe-screen :is(button, a, select, summary, label.choice, input:not([type=checkbox]), textarea)"
    )
    found = []

    for state in each_state(desk):
        if report := axe_finds_by_day_and_night(desk):
            found.append(f"{state}: {report}")
        for shape in (SMALL, TABLET, PHONE):
            desk.set_viewport_size(shape)
            width, inner = desk.evaluate("() => [document.documentElement.scrollWidth, innerWidth]")
            if width > inner:
                found.append(f"{state} runs off the side at {shape}")
            small = too_small(desk.locator(pressed), TARGET_PX)
            found += [f"{state} at {shape}, too small: {each}" for each in small]

    assert found == []


def test_the_page_knows_every_field_that_a_recipe_may_have(desk: Page) -> None:
    """The page's tables of fields against the published schema."""
    tables = desk.evaluate(
        """async () => {
             const forms = await import("/parts/recipe-forms.js");
             const names = (table) => table.map(([key]) => key.split(".")[0]);
             return {
               kinds: Object.fromEntries(Object.entries(forms.KINDS).map(([kind, { main, more }]) => [kind, names([...main, ...more])])),
               step: names(forms.STEP_MORE), ingredient: names([...forms.INGREDIENT, ...Object.values(forms.INGREDIENT_OF_KIND).flat()]), line: names(forms.LINE),
               labels: Object.values(forms.KINDS).flatMap(({ main, more }) => [...main, ...more].map(([, label]) => label)),
               component: names([...forms.COMPONENT, ...forms.COMPONENT_MORE]), recipe: names([...forms.RECIPE, ...forms.RECIPE_MORE]),
             };
           }"""
    )
    labels = tables.pop("labels")
    assert labels and not [each for each in labels if "burst" in each.lower()]  # it is a microwave's alone
    published = RECIPE_SCHEMA["properties"]
    component = published["components"]["items"]["properties"]
    beside = {"format", "ingredients", "components", "assembly", "trial", "written_from"}
    assert set(tables["recipe"]) | beside == set(published)
    assert set(tables["component"]) | {"id", "lines", "steps"} == set(component)
    assert set(tables["line"]) | {"id", "ingredient", "amount"} == set(
        component["lines"]["items"]["properties"]
    )
    # Heat data come with the demo or a file; the page keeps them as they are.
    ingredient = published["ingredients"]["additionalProperties"]
    assert set(tables["ingredient"]) | {"heat"} == set(ingredient["properties"])
    kinds = {
        case["if"]["properties"]["kind"]["const"]: set(case["then"]["properties"])
        for case in component["steps"]["items"]["allOf"]
    }
    common = set.intersection(*kinds.values())
    assert {kind: set(names) for kind, names in tables["kinds"].items()} == {
        kind: names - common for kind, names in kinds.items()
    }


def test_a_draft_can_be_removed_once_asked_about_and_the_saved_version_stays(own_desk: Page) -> None:
    go(own_desk, RECIPE_ID)
    remove = own_desk.get_by_role("button", name="Remove this draft")
    expect(remove).to_be_hidden()
    at(own_desk, "title").fill("Not this")
    expect(said(own_desk)).to_have_text(KEPT)

    remove.click()
    expect(own_desk.get_by_role("dialog")).to_contain_text("The saved version stays.")
    own_desk.get_by_role("button", name="Remove it").click()

    expect(at(own_desk, "title")).to_have_value(RECIPE["title"])
    expect(remove).to_be_hidden()
    assert draft(own_desk) is None


def test_an_earlier_version_is_written_on_or_copied_and_no_draft_is_lost_to_it(
    own_desk: Page, server: Server
) -> None:
    change(server, {**RECIPE, "title": "The second way"})
    own_desk.reload()
    expect(own_desk.locator(".recipe")).to_contain_text("The second way")  # else it is a change to be told of
    versions = f"#/versions/{RECIPE_ID}"
    own_desk.evaluate("address => { location.hash = address }", versions)
    first = own_desk.get_by_role("region", name="Version 1")

    first.get_by_role("button", name="Duplicate as a variant").click()
    expect(at(own_desk, "title")).to_have_value(f"{RECIPE['title']} (second)")
    assert RECIPE_ID not in own_desk.url

    own_desk.evaluate("address => { location.hash = address }", versions)
    first.get_by_role("button", name="Write on from this version").click()
    expect(at(own_desk, "title")).to_have_value(RECIPE["title"])
    assert RECIPE_ID in own_desk.url
    own_desk.evaluate("address => { location.hash = address }", versions)
    first.get_by_role("button", name="Write on from this version").click()
    expect(own_desk.locator("versions-screen").get_by_role("alert")).to_contain_text(
        "This recipe has a draft"
    )

    go(own_desk, RECIPE_ID)
    own_desk.get_by_role("button", name="Save version").click()
    expect(said(own_desk)).to_have_text("Saved as version 3.")
    assert call(server, "GET", f"recipes/{RECIPE_ID}")["title"] == RECIPE["title"]
    assert call(server, "GET", f"recipes/{RECIPE_ID}/versions/2")["title"] == "The second way"


def test_any_version_is_opened_made_and_put_back_and_any_two_compared(own_desk: Page, server: Server) -> None:
    butter = {**RECIPE["ingredients"]["butter"], "name": "Mango butter"}
    change(server, {**RECIPE, "title": "The second way"})
    change(
        server,
        {**RECIPE, "title": "The third way", "ingredients": {**RECIPE["ingredients"], "butter": butter}},
    )
    own_desk.reload()
    expect(own_desk.locator(".recipe")).to_contain_text("The third way")
    versions = f"#/versions/{RECIPE_ID}"
    own_desk.evaluate("address => { location.hash = address }", versions)
    screen = own_desk.locator("versions-screen")

    comparing = screen.get_by_role("region", name="Compare two versions")
    comparing.get_by_role("button").click()  # the first with the newest, as it stands
    expect(comparing).to_contain_text("Mango butter")
    expect(comparing).to_contain_text("The third way")
    expect(comparing).to_contain_text("No finished batches of both yet.")
    comparing.get_by_label("To").select_option("1")
    comparing.get_by_role("button").click()
    expect(comparing).to_contain_text("No difference.")

    # An answer that comes late stands under no other question.
    held: list[Route] = []
    own_desk.route("**/changes*", lambda route: held.append(route))
    for newest in ("3", "2"):
        comparing.get_by_label("To").select_option(newest)
        comparing.get_by_role("button").click()
    eventually(own_desk, lambda: len(held) == 2)
    for route in reversed(held):  # the first that was asked is answered last
        with own_desk.expect_response(route.request.url):
            route.continue_()
    own_desk.unroute("**/changes*")
    expect(comparing).to_contain_text("The second way")
    expect(comparing).not_to_contain_text("Mango butter")

    second = screen.get_by_role("region", name="Version 2")
    second.get_by_role("link", name="Open or print").click()
    expect(own_desk.locator("card-screen")).to_contain_text("The second way")
    own_desk.go_back()
    second.get_by_role("link", name="Make this version").click()
    expect(own_desk.locator("size-screen")).to_contain_text("Version 2, not the newest")
    own_desk.get_by_role("button", name="Begin 4").click()
    expect(own_desk.locator("bench-screen")).to_be_visible()
    comes_true(own_desk, "async () => (await (await fetch('/api/v1/runs')).json()).total === 1")
    assert call(server, "GET", "runs")["runs"][0]["recipe"]["version"] == 2

    own_desk.evaluate("address => { location.hash = address }", versions)
    screen.get_by_role("region", name="Version 1").get_by_role(
        "button", name="Make it the newest again"
    ).click()
    expect(screen).to_contain_text("Version 1 is the newest again.")
    expect(screen.get_by_role("region", name="Version 4")).to_be_visible()
    assert call(server, "GET", f"recipes/{RECIPE_ID}")["title"] == RECIPE["title"]


def test_a_recipe_is_tagged_archived_and_brought_back_for_all_devices(own_desk: Page, server: Server) -> None:
    own_desk.evaluate("address => { location.hash = address }", f"#/versions/{RECIPE_ID}")
    filing = own_desk.get_by_role("region", name="Tags and archive")
    filing.get_by_label("Tags").fill("market, winter ,, market")
    filing.get_by_role("button", name="Save tags").click()
    expect(own_desk.get_by_text("Saved for all devices.")).to_be_visible()
    expect(filing.get_by_label("Tags")).to_have_value("market, winter")
    filing.get_by_role("button", name="Archive this recipe").click()
    expect(filing).to_contain_text("Archived on")
    (told,) = call(server, "GET", "recipes")["recipes"]
    assert told["tags"] == ["market", "winter"] and told["archived_at"]

    # What is being written stands, whatever another device saves meanwhile.
    filing.get_by_label("Tags").fill("market, summer")
    filed = call(server, "GET", "recipes")["recipes"][0]
    call(
        server,
        "PUT",
        f"recipes/{RECIPE_ID}/filing",
        {"tags": ["fair"], "archived": bool(filed["archived_at"])},
    )
    own_desk.evaluate("() => dispatchEvent(new Event('online'))")
    expect(filing).to_contain_text("Saved elsewhere: fair")
    expect(filing.get_by_label("Tags")).to_have_value("market, summer")

    filing.get_by_label("Tags").fill("a" * 41)
    filing.get_by_role("button", name="Take it out of the archive").click()
    expect(own_desk.get_by_role("alert")).to_contain_text("40")
    expect(filing.get_by_label("Tags")).to_have_value("a" * 41)
    filing.get_by_label("Tags").fill("")
    filing.get_by_role("button", name="Take it out of the archive").click()
    expect(filing.get_by_role("button", name="Archive this recipe")).to_be_visible()
    own_desk.evaluate("() => { location.hash = '#/' }")
    expect(own_desk.locator(".recipe")).to_have_count(1)
