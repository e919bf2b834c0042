"""The recipe page where it once let a maker down: refusals that come late, two edits, names, undo, focus, drag."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.frontend import test_recipe_page as writing
from tests.frontend.hands import NO_COPY, WITH_COPY
from tests.frontend.phones import RECIPE, RECIPE_ID, call, comes_true
from tests.frontend.test_recipe_page import KEPT, at, change, draft, go, hint, said
from tests.frontend.test_screens import PHONE, SMALL, TABLET
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

desk, own_desk = writing.desk, writing.own_desk

LINE = "components.0.lines.1"
DRAWN = "() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))"


def keep(page: Page) -> None:
    page.get_by_role("button", name="Save version").click()


def home(page: Page) -> None:
    page.evaluate("() => { location.hash = '#/' }")


def test_what_the_page_cannot_read_is_said_at_once_and_never_waits_for_the_server(desk: Page) -> None:
    go(desk, RECIPE_ID)
    desk.context.set_offline(True)
    at(desk, f"{LINE}.amount").fill("12 florps")

    keep(desk)

    expect(said(desk)).to_contain_text("Not saved as a version yet")
    expect(at(desk, f"{LINE}.amount")).to_be_focused()
    home(desk)
    expect(desk.get_by_text("sends later")).to_be_hidden()
    desk.context.set_offline(False)


@WITH_COPY
def test_a_refusal_that_comes_after_the_network_is_back_is_shown_here_and_in_the_list(
    own_desk: Page, server: Server
) -> None:
    own_desk.evaluate("() => navigator.serviceWorker.ready")
    go(own_desk, RECIPE_ID)
    own_desk.context.set_offline(True)
    at(own_desk, "components.0.steps.0.title").fill("")  # the server alone knows that a step must have words
    keep(own_desk)
    expect(said(own_desk)).to_contain_text("Saved on this phone; sends later")

    own_desk.context.set_offline(False)
    own_desk.evaluate("() => dispatchEvent(new Event('online'))")

    expect(said(own_desk)).to_contain_text("Not saved as a version yet")
    own_desk.get_by_role("button", name="Go to it").click()
    expect(at(own_desk, "components.0.steps.0.title")).to_be_focused()
    home(own_desk)
    expect(own_desk.get_by_text("Not saved as a version. Fix the marked field.")).to_be_visible()


@pytest.fixture
def two_edits(own_desk: Page, server: Server) -> Iterator[Page]:
    """Mine: 160 g butter and a usual wait of 3 h. Theirs: 60 g oil and a usual wait of 4 h."""
    go(own_desk, RECIPE_ID)
    at(own_desk, "components.0.lines.0.amount").fill("160 g")
    at(own_desk, "components.0.steps.1?").click()
    at(own_desk, "components.0.steps.1.usual").fill("3 h")
    expect(said(own_desk)).to_have_text(KEPT)
    theirs: Any = copy.deepcopy(RECIPE)
    theirs["components"][0]["lines"][1]["amount"] = "60 g"
    theirs["components"][0]["steps"][1]["usual"] = "4 h"
    change(server, theirs)
    keep(own_desk)
    yield own_desk


@pytest.mark.parametrize(("whose", "usual", "version"), [("Yours", "3 h", 3), ("Theirs", "4 h", 4)])
def test_two_edits_are_told_everywhere_go_together_and_only_what_both_changed_is_asked(
    two_edits: Page, server: Server, whose: str, usual: str, version: int
) -> None:
    """That someone changed it is said in the foot with a way there, and in the list."""
    expect(said(two_edits)).to_contain_text("Someone changed this recipe")
    two_edits.get_by_role("button", name="See what differs").click()
    heading = two_edits.get_by_role("heading", name="Someone changed this recipe")
    expect(heading).to_be_focused()
    expect(heading).to_be_in_viewport()
    home(two_edits)
    expect(two_edits.get_by_text("Someone changed this recipe meanwhile. Yours")).to_be_visible()
    two_edits.go_back()

    asked = two_edits.locator(".r-both")
    expect(asked).to_have_count(1)
    expect(asked).to_contain_text("Bar, “Let it set”: Usually")
    expect(two_edits.locator(".r-changed li")).to_have_count(2)
    together = two_edits.get_by_role("button", name="Save both together")

    together.click()
    expect(said(two_edits)).to_contain_text("Pick one first: Bar, “Let it set”: Usually")
    asked.get_by_label(whose).check()
    together.click()

    expect(said(two_edits)).to_have_text(f"Saved as version {version}.")
    kept = call(server, "GET", f"recipes/{RECIPE_ID}")["document"]["components"][0]
    assert [line["amount"] for line in kept["lines"]] == ["160 g", "60 g"]
    assert kept["steps"][1]["usual"] == usual
    usual_of = [
        call(server, "GET", f"recipes/{RECIPE_ID}/versions/{each}")["document"]["components"][0]["steps"][1][
            "usual"
        ]
        for each in range(1, version + 1)
    ]
    # What was given up is a version all the same.
    assert usual_of == (["2 h", "4 h", "3 h"] if whose == "Yours" else ["2 h", "4 h", "3 h", "4 h"])


def test_a_name_put_right_keeps_its_details_and_says_so(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, f"{LINE}?").click()
    at(desk, "ingredients.oil.density.g_per_ml").fill("0.84")
    at(desk, f"{LINE}.ingredient").fill("Light oil (5-fold)")
    at(desk, f"{LINE}.ingredient").press("Tab")

    expect(desk.locator(".r-ask:not(.known)").nth(1)).to_contain_text("It is “Light oil” by a new name")
    expect(at(desk, "ingredients.oil.density.g_per_ml")).to_have_value("0.84")

    desk.get_by_role("button", name="It is another ingredient").click()
    expect(at(desk, "ingredients.light_oil_5_fold.density.g_per_ml")).to_have_value("")


def test_a_name_of_which_nothing_more_was_written_is_put_right_and_nothing_is_asked(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, f"{LINE}.ingredient").fill("Warm oil")
    at(desk, f"{LINE}.ingredient").press("Tab")

    expect(said(desk)).to_have_text(KEPT)
    expect(desk.locator(".r-ask:not(.known):not(:empty)")).to_have_count(0)
    assert draft(desk)["ingredients"]["oil"] == {"name": "Warm oil"}


def test_undo_in_a_paste_is_the_fields_own_and_loses_nothing_of_the_paste(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "title").fill("Another bar")
    desk.get_by_text("From plain text").click()
    desk.get_by_label("Ingredients and steps").fill("240 g sea salt\n120 g soda")
    desk.get_by_role("button", name="Read it").click()
    words = desk.locator(".r-card").first.get_by_label("Words")
    words.focus()
    words.press("End")
    words.press_sequentially(" fine")

    while words.input_value() != "sea salt":
        desk.keyboard.press("Control+z")
    expect(at(desk, "title")).to_have_value("Another bar")
    desk.keyboard.press("Control+z")

    expect(at(desk, "title")).to_have_value("Plain bar")
    expect(desk.locator(".r-card")).to_have_count(2)
    expect(desk.get_by_label("Ingredients and steps")).to_have_value("240 g sea salt\n120 g soda")
    expect(words).to_be_focused()


def test_undo_down_to_nothing_and_taking_a_row_away_leave_the_focus_on_the_page(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "title").fill("Another bar")
    undo = desk.get_by_role("button", name="Undo")
    undo.focus()
    undo.press("Enter")
    expect(at(desk, "title")).to_have_value("Plain bar")
    expect(undo).to_have_attribute("aria-disabled", "true")
    expect(undo).to_be_focused()

    desk.get_by_role("button", name="Split").click()
    take = desk.get_by_role("button", name="Remove this portion").first
    take.focus()
    take.press("Enter")
    expect(at(desk, "components.0.steps.2.portions+")).to_be_focused()


# What has the focus where the foot covers it, null at the end of the page; that is drawn with the next frame, so it is
# asked again after one.
COVERED = """async () => {
    const foot = document.querySelector(".r-foot");
    const at = document.activeElement;
    if (at.matches(".r-foot .copper") || at === document.body) return null;
    if (foot.contains(at) || at.closest(".r-side")) return [];
    const isUnder = () => at.getBoundingClientRect().bottom > foot.getBoundingClientRect().top + 1;
    // What is laid out as it comes into sight moves for some frames on a machine that has other work.
    for (let left = 20; left && isUnder(); left--) await new Promise((drawn) => requestAnimationFrame(drawn));
    return isUnder() ? [at.dataset.at ?? at.textContent] : [];
}"""
CHECKS = "**/api/v1/checks*"
TALL = "() => document.documentElement.scrollHeight"
# Moves the page until what has the focus stands right above the foot.
LOWER = """() => scrollBy({
    top: document.activeElement.getBoundingClientRect().bottom
        - document.querySelector(".r-foot").getBoundingClientRect().top + 2,
    behavior: "instant",
})"""


def test_what_the_keyboard_stands_on_is_never_under_the_foot(desk: Page) -> None:
    """Nor when the foot has more to say, and grows, nor when the check above it comes late."""
    desk.route(CHECKS, lambda route: None)
    go(desk, RECIPE_ID)
    for path in (
        "recipe?",
        "components.0?",
        f"{LINE}?",
        "components.0.steps.1?",
        "components.0.steps.1.more?",
    ):
        at(desk, path).click()
    desk.set_viewport_size(PHONE)
    late = at(desk, f"{LINE}.substitutes+")
    late.focus()
    stood, tall = late.bounding_box(), desk.evaluate(TALL)
    desk.unroute(CHECKS)  # what was held goes on
    desk.wait_for_function(f"tall => ({TALL})() > tall", arg=tall)
    assert late.bounding_box() == stood

    for size in (PHONE, SMALL, TABLET):
        desk.set_viewport_size(size)
        at(desk, "title").focus()

        covered, stops = [], 0
        while (under := desk.evaluate(COVERED)) is not None:
            stops += 1
            covered += under
            desk.keyboard.press("Tab")

        assert covered == [] and stops > 60, (size, covered, stops)

    desk.set_viewport_size(PHONE)
    at(desk, f"{LINE}.amount").focus()
    desk.evaluate(LOWER)
    before = desk.locator(".r-foot").bounding_box()
    desk.keyboard.type(" ")
    expect(said(desk)).to_have_text(KEPT)
    after = desk.locator(".r-foot").bounding_box()
    assert before and after and before["height"] < after["height"]
    assert desk.evaluate(COVERED) == []


def test_a_kind_is_picked_by_its_first_letters_and_the_focus_stays(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, f"{LINE}?").click()
    kind = at(desk, "ingredients.oil.kind")
    kind.focus()
    desk.keyboard.type("fra")
    expect(kind).to_have_value("fragrance")
    expect(at(desk, "ingredients.oil.fragrance.limit")).to_be_visible()
    expect(kind).to_be_focused()

    at(desk, "components.0.steps.1?").click()
    at(desk, "components.0.steps.1.more?").click()
    kind = at(desk, "components.0.steps.1.kind")
    kind.focus()
    desk.keyboard.type("che")
    expect(at(desk, "components.0.steps.1.ask")).to_be_visible()
    expect(kind).to_be_focused()
    assert draft(desk)["components"][0]["steps"][1]["title"] == "Let it set"


def test_whose_spoons_is_asked_beside_the_line_and_the_check_leads_to_the_field(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, f"{LINE}.amount").fill("1½ tsp")
    at(desk, f"{LINE}.amount").press("Tab")
    expect(hint(desk, f"{LINE}.amount")).to_contain_text("Pick US, imperial or metric")
    finding = desk.locator(".r-findings li", has_text="differs between places")
    finding.get_by_role("button", name="Go there").click()
    expect(at(desk, "measures")).to_be_focused()

    at(desk, f"{LINE}.measures=us").click()

    expect(at(desk, "measures")).to_have_value("us")
    expect(hint(desk, f"{LINE}.amount")).to_contain_text("7.4 mL")
    expect(at(desk, f"{LINE}.amount")).to_be_focused()


ODD_AMOUNTS = {
    "10 drops": "1/20 mL a drop (UCUM’s convention: droppers differ)",
    "0.002 mg": "0.002 mg",
    "0.00001 mg": "less than a millionth of a gram",
    "5 parts": "Parts have no mass yet",
    "5 cc": "5.0 mL",
}


def test_what_an_odd_amount_means_is_said_beside_it(desk: Page) -> None:
    go(desk, RECIPE_ID)
    for text, says in ODD_AMOUNTS.items():
        at(desk, f"{LINE}.amount").fill(text)
        at(desk, f"{LINE}.amount").press("Tab")

        expect(hint(desk, f"{LINE}.amount"), text).to_contain_text(says)


def test_parts_beside_weights_lead_to_what_one_part_is(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, f"{LINE}.amount").fill("5 parts")
    desk.get_by_role("button", name="Say what one part is").click()

    expect(at(desk, "components.0.part")).to_be_focused()


def test_a_density_may_have_a_comma_and_what_is_none_is_told_how_one_is_written(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, f"{LINE}?").click()
    at(desk, "ingredients.oil.density.g_per_ml").fill("0,8,4")
    at(desk, "ingredients.oil.density.g_per_ml").press("Tab")

    expect(hint(desk, "ingredients.oil.density.g_per_ml")).to_have_text(
        "“0,8,4” is not a density in g/mL between 0.05 and 25, such as 1.26."
    )
    at(desk, "ingredients.oil.density.g_per_ml").fill("0,84")
    at(desk, "ingredients.oil.density.g_per_ml").press("Tab")

    expect(hint(desk, "ingredients.oil.density.g_per_ml")).to_have_text("")


def many_lines(server: Server) -> None:
    recipe: Any = copy.deepcopy(RECIPE)
    part = recipe["components"][0]
    for number in range(14):
        part["lines"].append({"id": f"more_{number}", "ingredient": "oil", "amount": f"{number + 1} g"})
        part["steps"][0]["lines"].append(f"more_{number}")
    recipe["components"].append(
        {
            "id": "top",
            "name": "Top",
            "piece": "10 g",
            "lines": [{"id": "oil", "ingredient": "oil", "amount": "40 g"}],
            "steps": [{"id": "weigh", "kind": "weigh", "title": "Weigh the top", "lines": ["oil"]}],
        }
    )
    recipe["assembly"] = {
        "takes": [{"component": "bar", "count": 1}, {"component": "top", "count": 1}],
        "steps": [{"id": "join", "kind": "do", "title": "Join them"}],
    }
    change(server, recipe)


def carry(page: Page, handle: str, to_y: float, until: str) -> None:
    """Take a handle to this height and hold it there until something is so."""
    at(page, handle).evaluate("node => node.scrollIntoView({ block: 'center' })")
    box = at(page, handle).bounding_box()
    assert box
    page.mouse.move(box["x"] + 20, box["y"] + 20)
    page.mouse.down()
    page.mouse.move(box["x"] + 20, to_y, steps=4)
    page.wait_for_function(until)
    page.mouse.up()


def test_lines_parts_and_steps_are_put_elsewhere_by_hand_and_from_their_folds(
    own_desk: Page, server: Server
) -> None:
    many_lines(server)
    own_desk.reload()
    comes_true(
        own_desk,
        "async id => (await (await fetch(`/api/v1/recipes/${id}`)).json()).version === 2",
        arg=RECIPE_ID,
    )
    go(own_desk, RECIPE_ID)
    expect(at(own_desk, "components.1.name")).to_have_value("Top")

    # The handles of a joining step stand beside it.
    handle = at(own_desk, "assembly.steps.0#")
    expect(handle).to_be_visible()
    box, field = handle.bounding_box(), at(own_desk, "assembly.steps.0.title").bounding_box()
    assert box and field and box["x"] + box["width"] <= field["x"] + 1
    assert abs(box["y"] + box["height"] / 2 - field["y"] - field["height"] / 2) < 20

    # A line is carried past the edge of the screen, and a part past another.
    last = "() => [...document.querySelectorAll('.dragged')].some(each => !each.nextElementSibling)"
    carry(own_desk, "components.0.lines.0#", PHONE["height"] - 150, last)
    expect(at(own_desk, "components.0.lines.15.ingredient")).to_have_value("Hard butter")
    carry(own_desk, "components.0#", PHONE["height"] - 150, last)
    expect(at(own_desk, "components.1.name")).to_have_value("Bar")

    # A step is put into another part from its fold.
    at(own_desk, "components.1.steps.1?").click()
    at(own_desk, "components.1.steps.1.to").select_option("components.0")
    expect(at(own_desk, "components.0.steps.1.title")).to_have_value("Let it set")
    expect(at(own_desk, "components.0.steps.1.title")).to_be_focused()


def test_words_are_not_cut_on_a_phone(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "components.0.lines.0.ingredient").fill("Bicarbonate of soda")
    at(desk, "components.0.lines.0.amount").fill("1 1/2 cups")
    at(desk, f"{LINE}.amount").fill("to texture")
    at(desk, "components.0.steps.0.title").fill(
        "Weigh the butter and the oil into one warm bowl, the oil last"
    )
    at(desk, "components.0.lines+").focus()
    expect(desk.locator(".recipe-picture")).to_contain_text("into one")  # the page has been drawn since

    for width in (360, 390):
        desk.set_viewport_size({"width": width, "height": 780})
        desk.evaluate(DRAWN)
        cut = desk.evaluate(
            """() => [...document.querySelectorAll("recipe-screen :is(input[type=text], .grow)")]
                 .filter(each => each.value && (each.scrollWidth > each.clientWidth + 1 || each.scrollHeight > each.clientHeight + 1))
                 .map(each => each.value)"""
        )
        assert cut == [], width


def test_each_finding_says_its_place_in_words(desk: Page) -> None:
    go(desk, RECIPE_ID)
    at(desk, "components.0.lines.0.amount").fill("0.002 g")

    finding = desk.locator(".r-findings li", has_text="its lines add up")
    expect(finding.locator("span.soft")).to_have_text("Bar")
