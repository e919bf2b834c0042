"""What the recipe page works out by itself: a pasted text read, two edits put together, names and places changed."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.frontend.phones import BLANK, RECIPE, studio_server

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def modules(browser: Browser, tmp_path_factory: Any) -> Iterator[Page]:
    """A page of the right origin, to import our modules on."""
    directory: Path = tmp_path_factory.mktemp("reading")
    server = studio_server(directory / "studio.sqlite3")
    page = browser.new_page()
    page.goto(server.url + BLANK)
    yield page
    page.close()
    server.stop()


def read(page: Page, text: str, has_title: bool = False) -> list[dict[str, Any]]:
    items: list[dict[str, Any]] = page.evaluate(
        """async ([text, hasTitle]) => {
             const { assignParts, readText } = await import("/parts/recipe-text.js");
             const items = readText(text, "us", hasTitle);
             assignParts(items, "home");
             return items;
           }""",
        [text, has_title],
    )
    return [item for item in items if "text" in item]


def test_a_heading_for_a_part_is_a_part_and_never_the_title(modules: Page) -> None:
    items = read(
        modules, "For the fizz:\n240 g citric acid\nBase\n100 g soap base\nFor the top:\n20 g cornflour"
    )

    assert [(item["as"], item["name"]) for item in items if item["as"] != "line"] == [
        ("part", "Fizz"),
        ("part", "Base"),
        ("part", "Top"),
    ]
    keys = {item["name"]: item["key"] for item in items if item["as"] == "part"}
    assert [item["part"] for item in items if item["as"] == "line"] == list(keys.values())


def test_a_decimal_comma_is_an_amount_and_a_figure_begins_no_part(modules: Page) -> None:
    items = read(modules, "Base:\n0,4 g green mica\n7,5 % oil\n1,000 g salt\n2 g salt\n1. Mix")

    assert [(item["as"], item.get("amount")) for item in items[1:5]] == [
        ("line", "0,4 g"),
        ("line", "7,5 %"),
        ("", ""),  # a gram or a thousand: it is asked
        ("line", "2 g"),
    ]
    assert items[5]["part"] == "home" and not any(item["as"] == "part" for item in items)


def test_ingredients_are_split_from_their_amounts_in_each_form_that_people_paste(modules: Page) -> None:
    forms = {
        "1 lb 8 oz Dead Sea salt\n8 lb 2 oz Epsom salt\n1 kg 200 g soda": [
            ("1 lb 8 oz", "Dead Sea salt"),
            ("8 lb 2 oz", "Epsom salt"),
            ("1 kg 200 g", "soda"),
        ],
        "Water 70%\nE-wax: 5%\nPreservative - 1 %": [
            ("70%", "Water"),
            ("5%", "E-wax"),
            ("1 %", "Preservative"),
        ],
        "Ingredient\tAmount\nCitric acid\t120 g\n| Starch | 60 g |\n|---|---|\n| Kaolin | 20 g |": [
            ("120 g", "Citric acid"),
            ("60 g", "Starch"),
            ("20 g", "Kaolin"),
        ],
        "**240 g** citric acid\n* **120 g** starch\n- Shea butter **30 g**": [
            ("240 g", "citric acid"),
            ("120 g", "starch"),
            ("30 g", "Shea butter"),
        ],
        "120 g d\u2019acide citrique\n2 c. à soupe d'huile d'amande\n1 cuillère à café de mica": [
            ("120 g", "acide citrique"),
            ("2 tbsp", "huile d'amande"),
            ("1 tsp", "mica"),
        ],
        "1/4 c sea salt\n1 cup (240 g) baking soda\n240 g (1 cup) soda\n1 pint water (473 ml)": [
            ("1/4 cup", "sea salt"),
            ("240 g", "baking soda"),  # of two amounts the weight
            ("240 g", "soda"),
            ("1 pint", "water"),
        ],
    }
    for text, wanted in forms.items():
        found = [(item.get("amount"), item["name"]) for item in read(modules, text, True)]
        assert found == wanted


def test_a_title_that_is_typed_already_is_not_written_over(modules: Page) -> None:
    assert read(modules, "Oat soak\n240 g salt")[0]["as"] == "title"
    assert read(modules, "Oat soak:\n240 g salt")[0]["as"] == "title"
    assert read(modules, "Oat soak:\n240 g salt", True)[0]["as"] == "part"
    assert read(modules, "An old favourite of the house, slowly\n240 g salt", True)[0]["as"] == ""


def test_of_one_method_for_many_parts_a_step_goes_where_it_says_or_is_asked(modules: Page) -> None:
    items = read(
        modules,
        "Base:\n100 g soap\nFizz:\n240 g acid\nMethod\n1. Melt the base\n2. Sift everything\nFizz:\n3. Press it",
    )

    keys = {item["name"]: item["key"] for item in items if item["as"] == "part"}
    steps = [(item["name"], item["part"]) for item in items if item["as"] == "step"]
    assert steps == [("Melt the base", keys["Base"]), ("Sift everything", ""), ("Press it", keys["Fizz"])]


@pytest.mark.parametrize(
    ("text", "kind", "times"),
    [
        ("1. Let it dry 4 to 6 hours", "wait", {"earliest": "4 hours", "usual": "6 hours"}),
        ("1. Leave 1-2 days", "wait", {"earliest": "1 days", "usual": "2 days"}),
        ("1. Rest for 30 min to 1 h", "wait", {"earliest": "30 min", "usual": "1 h"}),
        ("1. Let it dry 12 h", "wait", {"usual": "12 h"}),
        ("1. Mix for 2-3 minutes", "do", {"about": ""}),  # no one number is it: asked
        ("1. Mix for 3 min", "do", {"about": "3 min"}),
        ("1. 4 bis 6 Stunden trocknen lassen", "wait", {"earliest": "4 h", "usual": "6 h"}),
        ("Schritt 1: Abgedeckt 12 Std. ruhen lassen", "wait", {"usual": "12 h"}),
        ("1. 3 Minuten rühren", "do", {"about": "3 min"}),
        ("1. Lavendelöl 30 Sekunden einschmelzen", "melt", {"about": "30 s"}),
    ],
)
def test_times_are_read_as_written_and_no_end_of_a_range_is_guessed(
    modules: Page, text: str, kind: str, times: dict[str, str]
) -> None:
    [step] = read(modules, text)

    assert step["kind"] == kind
    assert {key: value for key, value in step["times"].items() if key != "said"} == times


def test_a_wait_at_the_end_of_a_step_is_offered_as_a_step_of_its_own(modules: Page) -> None:
    work, wait = read(modules, "1. Press into moulds and leave for 24 hours")

    assert (work["kind"], work["name"]) == ("pieces", "Press into moulds")
    assert (wait["kind"], wait["name"], wait["times"]["usual"]) == (
        "wait",
        "Leave for 24 hours",
        "24 hours",
    )
    assert len(read(modules, "1. Press into moulds and leave room for the loop")) == 1
    work, wait = read(modules, "1. In die Form drücken und 24 Stunden trocknen lassen.")
    assert (work["kind"], work["name"]) == ("pieces", "In die Form drücken")
    assert (wait["kind"], wait["times"]["usual"]) == ("wait", "24 h")


def test_a_recipe_in_german_is_read_as_one_in_english_whatever_the_page_speaks(modules: Page) -> None:
    items = read(
        modules,
        "Badekugel\nFür die Sprudelmasse:\n240 g Zitronensäure\n2 TL Wasser\n12 Tropfen Lavendelöl\n"
        "Wasser nach Bedarf\nZubereitung:\n1. Alles abwiegen\n2. Masse in zwei Hälften teilen\n3. Gut mischen",
    )

    assert [(item["as"], item["name"], item.get("amount")) for item in items[:6]] == [
        ("title", "Badekugel", None),
        ("part", "Sprudelmasse", None),
        ("line", "Zitronensäure", "240 g"),
        ("line", "Wasser", "2 tsp"),
        ("line", "Lavendelöl", "12 drops"),
        ("line", "Wasser", "nach Bedarf"),
    ]
    assert [(item["kind"], item["part"]) for item in items[6:]] == [
        (kind, items[1]["key"]) for kind in ("weigh", "split", "do")
    ]


@pytest.mark.parametrize(
    ("text", "name", "said"),
    [
        ("1-2 tsp water", "water", "1-2 tsp"),
        ("2 to 3 drops of colour", "colour", "2 to 3 drops"),
        ("a pinch of salt", "salt", "a pinch"),
        ("a handful of oats", "oats", "a handful"),
        ("Fragrance, to taste", "Fragrance", "to taste"),
        ("1 bis 2 EL Wasser", "Wasser", "1 bis 2 EL"),
        ("eine Prise Salz", "Salz", "eine Prise"),
        ("Duftöl nach Geschmack", "Duftöl", "nach Geschmack"),
    ],
)
def test_what_no_scale_can_give_is_an_ingredient_whose_amount_is_asked(
    modules: Page, text: str, name: str, said: str
) -> None:
    [line] = read(modules, text)

    assert (line["as"], line["name"], line["said"], line["amount"]) == ("line", name, said, "")


def merge(page: Page, was: Any, mine: Any, theirs: Any, answers: dict[str, str] | None = None) -> Any:
    return page.evaluate(
        """async ([was, mine, theirs, answers]) => {
             const { mergeRecipes } = await import("/parts/recipe-merge.js");
             return mergeRecipes(was, mine, theirs, new Map(Object.entries(answers)));
           }""",
        [was, mine, theirs, answers or {}],
    )


def edited(change: Any) -> Any:
    document = copy.deepcopy(RECIPE)
    change(document)
    return document


def bar(document: Any) -> Any:
    return document["components"][0]


def test_what_only_one_side_changed_is_taken_from_that_side(modules: Page) -> None:
    mine = edited(lambda doc: bar(doc)["lines"][0].update(amount="160 g"))
    theirs = edited(lambda doc: bar(doc)["lines"][1].update(amount="60 g"))

    merged = merge(modules, RECIPE, mine, theirs)

    assert [line["amount"] for line in bar(merged["document"])["lines"]] == ["160 g", "60 g"]
    assert [(row["where"], row["from"]) for row in merged["rows"]] == [
        ("Bar, Hard butter: Amount", "mine"),
        ("Bar, Light oil: Amount", "theirs"),
    ]


def test_what_both_changed_is_asked_and_nothing_else_is(modules: Page) -> None:
    mine = edited(lambda doc: bar(doc)["steps"][1].update(usual="3 h"))
    theirs = edited(lambda doc: bar(doc)["steps"][1].update(usual="4 h", latest="20 h"))

    merged = merge(modules, RECIPE, mine, theirs)
    [asked] = [row for row in merged["rows"] if row["from"] == "asked"]

    assert (asked["where"], asked["was"], asked["mine"], asked["theirs"]) == (
        "Bar, “Let it set”: Usually",
        "2 h",
        "3 h",
        "4 h",
    )
    assert bar(merged["document"])["steps"][1]["latest"] == "20 h"
    answered = merge(modules, RECIPE, mine, theirs, {asked["at"]: "theirs"})
    assert bar(answered["document"])["steps"][1]["usual"] == "4 h"


def test_things_added_on_both_sides_are_both_there_and_one_taken_away_is_gone(modules: Page) -> None:
    def add(document: Any, name: str) -> None:
        document["ingredients"][name] = {"name": name}
        bar(document)["lines"].insert(1, {"id": name, "ingredient": name, "amount": "1 g"})
        bar(document)["steps"][0]["lines"].append(name)

    def leave_out_the_oil(document: Any) -> None:
        add(document, "clay")
        bar(document)["lines"] = [line for line in bar(document)["lines"] if line["id"] != "oil"]
        bar(document)["steps"][0]["lines"].remove("oil")
        del document["ingredients"]["oil"]

    merged = merge(modules, RECIPE, edited(lambda doc: add(doc, "salt")), edited(leave_out_the_oil))

    part = bar(merged["document"])
    assert {line["id"] for line in part["lines"]} == {"butter", "salt", "clay"}
    assert set(part["steps"][0]["lines"]) == {"butter", "salt", "clay"}
    assert [row for row in merged["rows"] if row["from"] == "asked"] == []
    assert set(merged["document"]["ingredients"]) == {"butter", "salt", "clay"}


def test_an_ingredient_that_a_line_still_uses_stays(modules: Page) -> None:
    def without_oil(document: Any) -> None:
        del bar(document)["lines"][1], document["ingredients"]["oil"]
        bar(document)["steps"][0]["lines"].remove("oil")

    mine = edited(lambda doc: bar(doc)["lines"][1].update(amount="55 g"))

    merged = merge(modules, RECIPE, mine, edited(without_oil))

    [asked] = [row for row in merged["rows"] if row["from"] == "asked"]
    assert (asked["where"], asked["mine"], asked["theirs"]) == ("Bar, Light oil", "Light oil, 55 g", "–")
    assert "oil" in merged["document"]["ingredients"]


def test_an_order_that_both_changed_is_asked_by_the_names(modules: Page) -> None:
    def ordered(*ids: str) -> Any:
        return edited(lambda doc: bar(doc).update(lines=[lines[each] for each in ids]))

    lines = {each: {"id": each, "ingredient": each, "amount": "1 g"} for each in ("a", "b", "c")}
    names = {each: {"name": each.upper()} for each in lines}
    was, mine, theirs = ({**ordered(*order), "ingredients": names} for order in ("abc", "bac", "acb"))

    merged = merge(modules, was, mine, theirs)

    [asked] = merged["rows"]
    assert asked["where"] == "Bar: order" and asked["theirs"].startswith("A, 1 g, C")
    assert [line["id"] for line in bar(merged["document"])["lines"]] == ["b", "a", "c"]


def edits(page: Page, script: str, *given: Any) -> Any:
    return page.evaluate(
        f"""async given => {{
             const edits = await import("/parts/recipe-edits.js");
             return ({script})(...given);
           }}""".replace("edits = await", "edits = window.edits = await"),
        list(given),
    )


ORANGE = edited(
    lambda doc: doc["ingredients"]["oil"].update(
        name="Sweet orange oil", density={"g_per_ml": "0.84", "source": "supplier's sheet"}, kind="fragrance"
    )
)
LINE = "components.0.lines.1"


def test_a_name_put_right_keeps_all_that_was_written_of_the_ingredient(modules: Page) -> None:
    renamed = edits(
        modules,
        "(doc, at) => edits.settleLine(edits.nameLine(doc, at, 'Sweet orange oil (5-fold)'), at, doc.ingredients.oil, [])",
        ORANGE,
        LINE,
    )

    assert renamed["ingredients"]["oil"] == {
        **ORANGE["ingredients"]["oil"],
        "name": "Sweet orange oil (5-fold)",
    }
    another = edits(modules, "(doc, at) => edits.asAnother(doc, at)", renamed, LINE)
    assert another["ingredients"][bar(another)["lines"][1]["ingredient"]] == {
        "name": "Sweet orange oil (5-fold)"
    }
    assert "oil" not in another["ingredients"]


def test_a_name_that_others_use_too_stays_theirs_until_it_is_said_to_be_one(modules: Page) -> None:
    shared = copy.deepcopy(ORANGE)
    bar(shared)["lines"].append({"id": "oil_2", "ingredient": "oil", "amount": "5 g"})

    here = edits(
        modules,
        "(doc, at) => edits.settleLine(edits.nameLine(doc, at, 'Light oil, warm'), at, doc.ingredients.oil, [])",
        shared,
        LINE,
    )
    assert here["ingredients"]["oil"] == shared["ingredients"]["oil"]
    assert bar(here)["lines"][1]["ingredient"] != "oil" and bar(here)["lines"][2]["ingredient"] == "oil"

    everywhere = edits(modules, "(doc, at) => edits.renamedEverywhere(doc, at, 'oil')", here, LINE)
    assert everywhere["ingredients"] == {
        "butter": {"name": "Hard butter"},
        "oil": {**shared["ingredients"]["oil"], "name": "Light oil, warm"},
    }


def test_a_step_and_a_line_go_to_another_part_and_others_go_on_naming_the_step(modules: Page) -> None:
    def with_top(document: Any) -> None:
        document["components"].append(
            {
                "id": "top",
                "name": "Top",
                "lines": [],
                "steps": [{"id": "wrap", "kind": "do", "title": "Wrap", "after": ["bar.set"]}],
            }
        )
        bar(document)["steps"].append({"id": "turn", "kind": "do", "title": "Turn out", "after": ["set"]})

    two = edited(with_top)

    moved = edits(modules, "doc => edits.shifted(doc, 'components.0.steps.1', 'components.1')", two)
    assert [step["id"] for step in moved["components"][1]["steps"]] == ["wrap", "set"]
    assert moved["components"][1]["steps"][0]["after"] == ["set"]
    assert bar(moved)["steps"][1]["after"] == ["top.set"]

    lines = edits(modules, "doc => edits.shifted(doc, 'components.0.lines.1', 'components.1')", two)
    assert [line["id"] for line in lines["components"][1]["lines"]] == ["oil"]
    assert bar(lines)["steps"][0]["lines"] == ["butter"]


def sketch(page: Page, document: Any) -> Any:
    return page.evaluate(
        """async document => {
             const { sketch } = await import("/bench/draft.js");
             const { components, faults, piece_mg } = sketch(document);
             return { components, faults: Object.fromEntries(faults), piece_mg };
           }""",
        document,
    )


def test_with_no_number_of_pieces_nothing_is_said_of_a_piece(modules: Page) -> None:
    def unsaid(document: Any) -> None:
        document["written_for"] = ""
        del bar(document)["piece"]

    drawn = sketch(modules, edited(unsaid))

    assert drawn["piece_mg"] == 0 and "how many pieces" in drawn["faults"]["written_for"]
    assert drawn["components"][0]["total_ug"] == 200_000_000
