"""What is known of an ingredient by its name: proposed, taken over by a touch, asked once; by keys, and with no network."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.frontend.hands import NO_COPY
from tests.frontend.phones import call, eventually
from tests.frontend.test_recipe_page import at, draft
from tests.frontend.test_screens import PHONE
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]
LINE = "components.0.lines.0"


@pytest.fixture
def editor(page: Page, server: Server, faultless: None) -> Page:
    page.set_viewport_size(PHONE)
    page.goto(f"{server.url}#/recipe/new")
    expect(at(page, f"{LINE}.ingredient")).to_be_visible()
    return page


def options(page: Page) -> Locator:
    return page.locator(".combo-list:visible [role=option]")


def written(page: Page, is_there: Callable[[Any], bool]) -> Any:
    """The one ingredient of the draft, once the disk has it so."""
    return eventually(page, lambda: next(filter(is_there, draft(page)["ingredients"].values()), None))


def test_a_name_is_taken_from_the_list_by_keys_and_brings_what_is_known(editor: Page) -> None:
    name = at(editor, f"{LINE}.ingredient")
    expect(name).to_have_role("combobox")
    name.press_sequentially("Natr")
    expect(options(editor).first).to_contain_text("Natron")
    expect(name).to_have_attribute("aria-expanded", "true")
    name.press("ArrowUp")
    name.press("ArrowDown")
    expect(options(editor).first).to_have_attribute("aria-selected", "true")
    marked = name.get_attribute("aria-activedescendant")
    assert marked == options(editor).first.get_attribute("id")
    name.press("Escape")
    expect(name).to_have_attribute("aria-expanded", "false")
    assert name.input_value() == "Natr"
    name.press("ArrowDown")
    expect(options(editor).first).to_be_visible()
    name.press("ArrowDown")
    name.press("Enter")
    expect(name).to_have_value("Natron")
    expect(options(editor)).to_have_count(0)
    row = editor.locator(".r-line .known", has_text="Taken for: sodium bicarbonate.")
    expect(row).to_be_visible()
    assert written(editor, lambda about: "inci" in about) == {
        "name": "Natron",
        "kind": "bicarbonate",
        "inci": "Sodium Bicarbonate",
        "density": {
            "g_per_ml": "0.869",
            "tapped_g_per_ml": "1.369",
            "source": "excipients handbook: loose and tapped powder",
        },
        "hazards": ["powder"],
    }


def test_what_was_written_stays_until_its_maker_takes_the_other(editor: Page) -> None:
    name = at(editor, f"{LINE}.ingredient")
    name.fill("Polysorbate 80")
    expect(options(editor).first).to_have_text("Polysorbate 80")  # as its maker writes it
    name.press("Enter")
    editor.get_by_text("Details").first.click()
    at(editor, "ingredients.polysorbate_80.kind").select_option("oil")
    row = editor.locator(".r-line .known")
    expect(row).to_contain_text("yours oil, known solubiliser")
    row.get_by_role("button", name="Take over").click()
    about = written(editor, lambda about: "inci" in about)
    assert (about["inci"], about["kind"]) == ("Polysorbate 80", "oil")
    assert about["density"]["source"] == "USP-NF 23, specific gravity: 1.06 to 1.09 g/ml"
    row.get_by_role("button", name="Take what is known instead").click()
    expect(row.get_by_role("button")).to_have_count(0)
    assert written(editor, lambda about: about["kind"] == "solubiliser")


def test_what_was_taken_over_is_offered_to_go_with_the_old_name_and_what_was_written_stays(
    editor: Page,
) -> None:
    name = at(editor, f"{LINE}.ingredient")
    name.fill("Polysorbate 80")
    name.press("Enter")
    row = editor.locator(".r-line .known")
    row.get_by_role("button", name="Take over").click()
    editor.get_by_text("Details").first.click()
    at(editor, "ingredients.polysorbate_80.kind").select_option("oil")
    about = written(editor, lambda about: about.get("kind") == "oil")
    assert {"inci", "density"} <= set(about)

    name.fill("House blend")
    name.press("Enter")
    leave = editor.get_by_role("button", name="Remove what was known of it")
    expect(leave).to_contain_text("INCI name")
    expect(leave).not_to_contain_text("what it is")
    leave.click()
    assert written(editor, lambda about: "inci" not in about) == {"name": "House blend", "kind": "oil"}
    expect(leave).to_have_count(0)

    name.fill("Another blend")  # nothing was taken over of that name
    name.press("Enter")
    expect(editor.get_by_role("button", name="That is right")).to_be_visible()
    expect(leave).to_have_count(0)


def test_what_nobody_knows_is_asked_once_and_the_shelf_keeps_it(editor: Page, server: Server) -> None:
    at(editor, "measures").select_option("metric")
    name, amount = at(editor, f"{LINE}.ingredient"), at(editor, f"{LINE}.amount")
    name.fill("Moonlight dust")
    amount.fill("2 tsp")
    amount.press("Tab")
    asked = editor.locator(".r-line .known")
    expect(asked).to_contain_text("Say it once")
    asked.get_by_label("What it is").select_option("powder")
    asked.get_by_label("Density, g/mL").fill("0,5")
    asked.get_by_label("Density is from").fill("weighed: 100 ml")
    asked.get_by_role("button", name="Keep it").click()
    expect(asked).to_contain_text("The shelf’s card knows it.")
    expect(asked.get_by_role("button")).to_have_count(0)
    known = {"kind": "powder", "density": {"g_per_ml": "0.5", "source": "weighed: 100 ml"}}
    assert written(editor, lambda about: "kind" in about) == {"name": "Moonlight dust", **known}

    def cards() -> list[Any]:
        return [each["card"] for each in call(server, "GET", "ingredients")["ingredients"] if each["card"]]

    assert {**known, "name": "Moonlight dust"} in eventually(editor, cards)
    # The next recipe that names it has it at once, and with no network too.
    editor.context.set_offline(True)
    editor.evaluate("location.hash = '#/'")
    editor.evaluate("location.hash = '#/recipe/new'")
    expect(at(editor, f"{LINE}.ingredient")).to_have_value("")
    at(editor, f"{LINE}.ingredient").press_sequentially("moonl")
    expect(options(editor)).to_have_text(["Moonlight dust"])
    options(editor).first.click()
    expect(editor.locator(".r-line .known")).to_contain_text("The shelf’s card knows it.")
    expect(editor.locator(".r-line .known").get_by_role("button")).to_have_count(0)
