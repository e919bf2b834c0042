"""Recipes on paper and from elsewhere: what is printed is what the sheet says, on both papers; what
is brought in is shown with its check before it is kept; versions are told in words."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect
from pypdf import PdfReader

import bench
from bench.sheet_words import cautions_of
from bench.whole import Division, reading
from tests.frontend.conftest import Lasting
from tests.frontend.hands import NO_COPY, WITH_COPY, at_rest, axe_finds_by_day_and_night, open_demo
from tests.frontend.phones import call, eventually
from tests.frontend.test_recipe_page import draft
from tests.make import (
    ASKED_AT_THE_END,
    ASKED_BEFORE,
    WHOLE_KIT,
    make_asking_recipe,
    make_recipe,
    uuid4,
    uuid7,
)
from tests.servers import Server, as_sent, demo_open, warm_bowlside

pytestmark = [pytest.mark.browser, NO_COPY]

POINTS = {"A4": (595, 842), "Letter": (612, 792)}
THREE_PARTS = "Pressed fizzing base"
OWN_WORDS = {"title", "says", "look_for", "ask", "not_yet", "too_far", "test", "stake", "again"}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The demo studio, for all tests that keep nothing in it."""
    server = demo_open(tmp_path_factory.mktemp("paper") / "bowlside.sqlite3")
    yield server
    server.kill()


@pytest.fixture
def desk(lasting: Lasting, demo: Server) -> Page:
    page = lasting.at(demo.url)
    at_rest(page)
    return page


@pytest.fixture
def own_desk(page: Page, live_server: Server, faultless: None) -> Page:
    """One whose studio nobody else reads."""
    return open_demo(page, live_server)


def recipe_of(server: Server, title: str = THREE_PARTS) -> dict[str, Any]:
    listed = call(server, "GET", "recipes")["recipes"]
    return call(server, "GET", f"recipes/{next(each['id'] for each in listed if title in each['title'])}")


def go(page: Page, address: str) -> None:
    page.evaluate("address => { location.hash = address }", address)


def bring(page: Page, text: str) -> Locator:
    """Give a recipe as text on a page that had none, and have it looked at; the field it went into."""
    go(page, "#/")
    expect(page.locator("recipes-screen")).to_be_visible()
    go(page, "#/bring")
    pasted = page.get_by_label("The recipe as text")
    pasted.fill(text)
    page.get_by_role("button", name="Check it").click()
    return pasted


def printed(page: Page, paper: str) -> tuple[str, Any]:
    """What a reader finds on the printed pages, blanks run together, and the first page."""
    reader = PdfReader(io.BytesIO(page.pdf(format=paper)))
    text = " ".join(each.extract_text() for each in reader.pages)
    return re.sub(r"\s+", " ", text), reader.pages[0]


def walked(sheet: dict[str, Any]) -> dict[str, str]:
    """What the bench says that the scale will read, line by line, when every answer is the strong one."""
    entries: list[dict[str, Any]] = []
    reads = {}
    for turn in range(2000):
        at = turn * 10**7
        said = bench.now(sheet, bench.fold(sheet, entries), at)
        # In the order of the sheet, as paper has it.
        order = {step["id"]: place for place, step in enumerate(sheet["steps"])}
        asked = sorted(
            (each for each in said["prompts"] if each["answers"]),
            key=lambda each: order.get(each["step"], 10**6),
        )
        if said["finished"] or not asked or asked[0]["kind"] == "finish":
            break
        prompt = asked[0]
        weighing = prompt.get("weigh")
        if weighing and weighing["line"] and weighing["reads"]:
            reads[weighing["line"]] = weighing["reads"]
        answer = next((each for each in prompt["answers"] if each["strong"]), prompt["answers"][0])
        body = dict(answer["body"])
        if answer["input"] == "count":
            body["good"] = 1
        entries.append(
            {"id": uuid7(), "run": "r", "device": "d", "at": at, "kind": answer["kind"], "body": body}
        )
    return reads


def own_words(step: dict[str, Any]) -> Iterator[str]:
    """All that a recipe's maker wrote of a step, wherever in it: what the bench says of it too."""
    for name, value in step.items():
        if name in OWN_WORDS and value:
            yield value
        elif name == "ways":
            yield from (said for way in value for said in (way["name"], way["says"]) if said)
        elif name == "window" and value:
            yield from filter(None, [value["stake"]])


def test_a_card_a_sheet_and_a_record_take_few_pages(desk: Page, demo: Server) -> None:
    """The three-part card, a sheet of it, and the records of the demo's batches, the three-part one still open: they
    hang beside the bowl. What a lot cost is read in whole cents."""
    recipe = recipe_of(demo)["id"]
    records = [(f"record/{each['id']}", 4) for each in call(demo, "GET", "runs")["runs"]]
    assert len(records) == 2
    for address, most in ((f"card/{recipe}", 3), (f"card/{recipe}/14", 4), *records):
        go(desk, f"#/{address}")
        expect(desk.locator(".paper, .record .facts").first).to_be_visible()
        if (address, most) in records:
            cost = desk.get_by_role("region", name="Cost").locator("tbody td")
            expect(cost.first).to_be_visible()
            amounts = [re.sub(r"[^0-9.]", "", each) for each in cost.all_inner_texts()]
            assert all(re.fullmatch(r"\d+\.\d\d", each) for each in amounts), amounts
        assert len(PdfReader(io.BytesIO(desk.pdf(format="A4"))).pages) <= most, address


def test_the_printed_sheet_has_every_weight_reading_and_scale(desk: Page, demo: Server) -> None:
    recipe = recipe_of(demo)
    sheet = call(demo, "POST", f"recipes/{recipe['id']}/sheet", {"by": "pieces", "pieces": 14})["sheet"]
    scales = {scale["id"]: scale["name"] for scale in sheet["kit"]["scales"]}
    readings = walked(sheet)
    go(desk, f"#/card/{recipe['id']}/14")
    expect(desk.locator(".paper")).to_contain_text("14 pieces")

    weighed = [line for line in sheet["lines"] if line["mg"] is not None]
    assert len(readings) == len(weighed)
    for paper, points in POINTS.items():
        text, first = printed(desk, paper)
        sides = (float(first.mediabox.width), float(first.mediabox.height))
        assert sides == pytest.approx(points, abs=2), paper
        for line in weighed:
            weight = reading(line["mg"], Division(line["division_mg"]))
            row = rf"{re.escape(line['name'])}.*?{re.escape(weight)}\s+{re.escape(readings[line['id']])}"
            assert re.search(row, text), f"{paper}, {line['id']}: {weight}, {readings[line['id']]}"
            assert scales[line["scale"]] in text, paper
        for step in sheet["steps"]:
            for said in (*own_words(step), *cautions_of(step)):
                assert re.sub(r"\s+", " ", said) in text, (paper, said)
        for tool in {tool for step in sheet["steps"] for tool in step["tools"]}:
            assert tool in text, (paper, tool)
        assert {"began", "ended", "lot", "Notes"} <= set(text.split()), paper
        assert "Sheet for so many" not in text and "Print" not in text.split(), paper
    scrub = next(each for each in call(demo, "GET", "recipes")["recipes"] if "scrub" in each["title"].lower())
    told = call(demo, "POST", f"recipes/{scrub['id']}/sheet", {"by": "pieces", "pieces": 6})["sheet"]
    planned = as_sent("async sheet => (await import('/rest.js')).$parts_paper_plan.planOfSheet(sheet).totals")
    totals = dict(desk.evaluate(planned, told))
    [spooned] = [each for each in told["ingredients"] if each["nl"]]
    assert totals[spooned["name"]] == f"{round(spooned['nl'] / 100_000) / 10:g} ml"


def test_the_printed_card_has_the_recipe_as_written(desk: Page, demo: Server) -> None:
    recipe = recipe_of(demo)
    go(desk, f"#/card/{recipe['id']}")
    expect(desk.locator(".paper")).to_contain_text("written for 12 pieces")

    written = recipe["document"]
    for paper in POINTS:
        text, _ = printed(desk, paper)
        for part in [*written["components"], written["assembly"]]:
            assert part["name"] in text, paper
            for line in part.get("lines", []):
                name = written["ingredients"][line["ingredient"]]["name"]
                assert re.search(rf"{re.escape(name)}.*?{re.escape(line['amount'])}", text), (paper, name)
            for step in part["steps"]:
                assert step["title"] in text, paper


def test_what_the_bench_asks_besides_the_steps_is_on_both_papers(desk: Page) -> None:
    written, kit = make_asking_recipe(), bench.read_kit(WHOLE_KIT)
    measured = bench.read_recipe(written)
    size = bench.choose_size(measured, kit, {"by": "pieces", "pieces": 4})["size"]
    sheet = bench.make_sheet(measured, {"id": uuid4(), "version": 1}, size, kit)
    drawn = as_sent("""async ([sheet, recipe]) => {
        const { $parts_paper_leaf: leaf, $parts_paper_plan: plan } = await import("/rest.js");
        const plans = [plan.planOfSheet(sheet), plan.planOfRecipe(recipe)];
        return plans.map((each) => leaf.paperLeaf(each, null).textContent);
    }""")

    papers = desk.evaluate(drawn, [sheet, {"version": 1, "document": written, "measured": measured}])

    for asked in [*ASKED_BEFORE, "Humidity of the room, in %", *ASKED_AT_THE_END, "who looked"]:
        assert all(asked in paper for paper in papers), asked
    assert "100 g test weight on Bench" in papers[0]
    assert not any("Undo" in paper for paper in papers)


def test_a_caution_stands_before_its_step(desk: Page, demo: Server) -> None:
    go(desk, f"#/card/{recipe_of(demo)['id']}/14")
    steps = desk.locator(".paper-step:has(.paper-caution)")
    numbered = desk.locator(".paper-part").first.locator(".paper-caution").all_inner_texts()
    assert [each.split()[0] for each in numbered] == [str(place + 1) for place in range(len(numbered))]
    assert len({each.partition(" ")[2] for each in numbered}) == len(
        numbered
    )  # each once; then by its number
    expect(desk.locator(".paper-mark").first).to_contain_text("caution 1")
    expect(steps).not_to_have_count(0)

    order = steps.evaluate_all("steps => steps.map(step => [...step.children].map(child => child.className))")

    assert order
    assert all(each.index("paper-caution") < each.index("paper-title") for each in order)


def test_print_from_the_size_page_keeps_what_was_chosen(desk: Page) -> None:
    desk.get_by_role("link", name=THREE_PARTS).last.click()
    desk.get_by_text("With: Bath fragrance").click()
    desk.get_by_text("Zero before each ingredient").click()
    expect(desk.get_by_role("button", name="Begin")).to_be_enabled()
    expect(desk.locator(".to-paper")).to_have_attribute("href", re.compile("tare"))

    desk.get_by_role("link", name="Print").click()

    expect(desk.locator(".paper-sub")).to_contain_text("zero the scale before each")
    expect(desk.locator(".paper")).not_to_contain_text("Bath fragrance")


@WITH_COPY
def test_paper_needs_no_server_and_printing_is_asked_of_the_browser(
    own_desk: Page, live_server: Server
) -> None:
    recipe = recipe_of(live_server)
    own_desk.evaluate("async () => { await navigator.serviceWorker.ready; }")
    own_desk.reload()  # now from the copy that the phone keeps
    expect(own_desk.locator(".recipe").filter(has_text=THREE_PARTS)).to_be_visible()
    own_desk.evaluate("() => { window.print = () => { document.title = 'printing'; } }")
    live_server.stop()

    go(own_desk, f"#/card/{recipe['id']}/7")

    expect(own_desk.locator(".paper")).to_contain_text("7 pieces")
    own_desk.get_by_role("button", name="Print").click()
    assert own_desk.title() == "printing"


@pytest.fixture
def named_server(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Server]:
    """The demo studio, that answers to a name of its own as well."""
    monkeypatch.setenv("BOWLSIDE_HOSTS", "studio.localhost")
    server = warm_bowlside(tmp_path / "named.sqlite3", "--demo").start()
    yield server
    server.stop()


def test_the_code_is_on_the_card_where_another_device_can_use_it_and_its_link_opens_it_there(
    page: Page, new_phone: Callable[[], BrowserContext], named_server: Server
) -> None:
    recipe = recipe_of(named_server)
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    code = page.get_by_role("img", name="QR code")
    for host, codes in (("127.0.0.1", 0), ("studio.localhost", 1)):
        page.goto(f"{named_server.url.replace('127.0.0.1', host)}#/card/{recipe['id']}")
        expect(page.locator(".paper")).to_be_visible()

        expect(code).to_have_count(codes)
    expect(code).not_to_have_js_property("naturalWidth", 0)

    page.get_by_role("button", name="Copy the link").click()
    expect(page.get_by_role("status")).to_have_text("The link is copied.")
    other = new_phone().new_page()
    other.goto(page.evaluate("navigator.clipboard.readText()"))

    expect(other.locator(".paper")).to_contain_text(recipe["title"])


def test_what_is_saved_can_be_brought_in_and_is_known_again(desk: Page, demo: Server) -> None:
    recipe = recipe_of(demo)
    go(desk, f"#/card/{recipe['id']}")
    with desk.expect_download() as saved:
        desk.get_by_role("button", name="Save as a file").click()
    assert json.loads(saved.value.path().read_text()) == recipe["document"]

    go(desk, "#/bring")
    desk.get_by_label("A recipe file").set_input_files(saved.value.path())

    expect(desk.locator("bring-screen")).to_contain_text("here already, word for word")


def test_a_recipe_is_shown_with_its_check_before_it_is_kept_and_asked_about_when_it_is_here(
    own_desk: Page, live_server: Server
) -> None:
    document = {**make_recipe(title="Soak from elsewhere")}
    before = call(live_server, "GET", "recipes")["total"]
    bring(own_desk, json.dumps(document))

    expect(own_desk.get_by_role("heading", name="Soak from elsewhere")).to_be_visible()
    assert call(live_server, "GET", "recipes")["total"] == before
    own_desk.get_by_role("button", name="Save recipe").click()
    expect(own_desk.locator(".paper")).to_contain_text("Soak from elsewhere")
    assert recipe_of(live_server, "Soak from elsewhere")["document"] == document

    recipe = recipe_of(live_server)
    changed = {**recipe["document"], "written_for": 13}
    bring(own_desk, json.dumps({"id": recipe["id"], "document": changed}))
    expect(own_desk.locator("bring-screen")).to_contain_text("names a recipe that is here already")

    own_desk.get_by_role("button", name="Save as its new version").click()

    expect(own_desk.locator(".paper-sub")).to_contain_text("version 2")
    own_desk.get_by_role("link", name="Versions").click()
    expect(own_desk.get_by_role("region", name="Version 2")).to_contain_text("written for: 13, was 12")
    expect(own_desk.get_by_role("region", name="Version 1")).to_contain_text("13")

    live_server.stop()
    bring(own_desk, json.dumps(make_recipe()))
    expect(own_desk.get_by_role("alert")).to_contain_text("What you picked stays here")


NOT_BROUGHT_IN = {
    "nothing": ("", "Nothing here yet"),
    "not json": ("no json at all", "not a recipe’s file: it is not JSON"),
    "a slip": ('{\n"format": 01\n}', "it cannot be read past line 2"),
    "cut off": ('{"format":', "it breaks off"),
    "not text": ("PK\x03\x04 \ufffd\ufffd", "it is not text"),
    "another format": ('{"format": "something/9"}', "not a recipe of Bowlside"),
    "a list": ("[1, 2]", "not a recipe of Bowlside"),
    "a text": ('"text"', "not a recipe of Bowlside"),
    "a wrong number": (json.dumps({**make_recipe(), "written_for": 0}), "Written for"),
    "a studio with no recipe": (
        json.dumps({"format": "bowlside-export/1", "recipes": []}),
        "holds no recipe",
    ),
    "nearly nothing": (json.dumps({"format": "bowlside-recipe/1"}), "cannot be read as it is"),
}


def test_what_cannot_be_brought_in_is_answered_in_words_and_stays(desk: Page) -> None:
    for name, (text, words) in NOT_BROUGHT_IN.items():
        pasted = bring(desk, text)

        expect(desk.locator("bring-screen"), name).to_contain_text(words)
        assert pasted.input_value() == text, name
        expect(desk.get_by_role("button", name="Save recipe"), name).to_have_count(0)

    too_much = 4 * 1024 * 1024 + 1
    pasted.evaluate("(field, long) => { field.value = ' '.repeat(long); }", too_much)
    desk.get_by_role("button", name="Check it").click()
    expect(desk.locator("bring-screen")).to_contain_text("more than 4 MB")
    assert pasted.evaluate("field => field.value.length") == too_much


def built_otherwise() -> dict[str, dict[str, Any]]:
    """A recipe whose build is broken in one place each, and one that is wrong in an amount alone."""

    def broken(break_it: Callable[[dict[str, Any]], None]) -> dict[str, Any]:
        document: dict[str, Any] = make_recipe()
        break_it(document)
        return document

    def first(document: dict[str, Any], field: str) -> dict[str, Any]:
        found: dict[str, Any] = document["components"][0][field][0]
        return found

    return {
        "a kind of step": broken(lambda document: first(document, "steps").update(kind="boil")),
        "no steps": broken(lambda document: document["components"][0].update(steps=None)),
        "a step": broken(lambda document: document["components"][0].update(steps=[None])),
        "an ingredient": broken(lambda document: document["ingredients"].update(salt=None)),
        "no ingredients": broken(lambda document: document.update(ingredients=None)),
        "a number": broken(lambda document: first(document, "lines").update(amount=240)),
        "the joining": broken(lambda document: document.update(assembly=[])),
        "its parts": broken(lambda document: document.update(components=[None])),
        "a window": broken(lambda document: first(document, "steps").update(window=[], after="in")),
        "no such amount": broken(lambda document: first(document, "lines").update(amount="12 florps")),
    }


# Nothing of these is a recipe's; what each says is somewhere to be read once it is open.
NO_RECIPES = {
    "a text": ("Grandmother's soak: 240 g salt", "Grandmother's soak"),
    "a list": ("[1, 2]", "[1,2]"),
    "another format": ('{"format": "something/9", "title": "A soak", "jars": 3}', '"jars":3'),
    "nothing of a recipe": ("{}", ""),
}


def test_whatever_was_picked_opens_to_be_put_right_and_shows_what_it_says(own_desk: Page) -> None:
    """The recipe page once left itself blank over what has no steps, with a draft that stayed."""
    mend = own_desk.get_by_role("button", name="Put it right here")
    files = {name: (json.dumps(document), "") for name, document in built_otherwise().items()} | NO_RECIPES
    for name, (text, shown) in files.items():
        bring(own_desk, text)
        mend.click()

        expect(own_desk.locator("recipe-screen [data-at='title']"), name).to_be_visible()
        expect(own_desk.locator("recipe-screen .r-findings li").first, name).to_be_attached()
        if shown:
            more = own_desk.locator("recipe-screen details", has_text="More about it").first
            more.evaluate("fold => { fold.open = true; }")
            summary = own_desk.locator("recipe-screen [data-at='summary']")
            expect(summary, name).to_have_value(re.compile(re.escape(shown)))
        if name == "a number":
            expect(own_desk.locator("[data-at='components.0.lines.0.amount']")).to_have_value("240")
        if name == "no such amount":
            expect(own_desk.locator("[data-at='components.0.lines.0.amount']")).to_have_value("12 florps")


def test_a_step_of_a_kind_not_known_here_stays_that_through_other_edits_until_it_is_given_another(
    own_desk: Page,
) -> None:
    document = make_recipe()
    cured = {**document["components"][0]["steps"][1], "kind": "cure", "lamp": {"nm": 365}, "of": ["salt"]}
    document["components"][0]["steps"][1] = cured
    bring(own_desk, json.dumps(document))
    own_desk.get_by_role("button", name="Put it right here").click()
    recipe = own_desk.locator("recipe-screen")
    place = "components.0.steps.1"
    kind = recipe.locator(f"[data-at='{place}.kind']")

    def unfold() -> None:
        """A fold within a fold is there once the outer one is open."""
        shut = recipe.locator(".r-part details:not([open])")
        eventually(
            own_desk, lambda: not shut.evaluate_all("all => all.filter((each) => each.open = true).length")
        )

    unfold()
    expect(recipe.locator(".r-field", has=own_desk.locator(f"[data-at='{place}.title']"))).to_contain_text(
        "A2 cure"
    )
    expect(kind).to_have_value("cure")
    expect(recipe.locator(".r-findings")).to_contain_text("“cure” is not known here")

    recipe.locator("[data-at='components.0.lines.0.amount']").fill("8 oz")
    recipe.locator(f"[data-at='{place}.title']").fill("Cure it")
    recipe.get_by_role("button", name="Weigh", exact=True).first.click()  # drawn anew, with a step more
    eventually(
        own_desk,
        lambda: len(draft(own_desk)["components"][0]["steps"]) > len(document["components"][0]["steps"]),
    )
    assert draft(own_desk)["components"][0]["steps"][1] == {**cured, "title": "Cure it"}

    unfold()
    expect(kind).to_have_value("cure")
    kind.select_option("do")
    eventually(own_desk, lambda: draft(own_desk)["components"][0]["steps"][1]["kind"] == "do")
    changed = draft(own_desk)["components"][0]["steps"][1]
    assert (
        changed["title"] == "Cure it" and "lamp" not in changed
    )  # what is of no kind known here could not be sent
    unfold()
    expect(kind.locator("option")).to_have_count(8)


def test_of_a_whole_studios_file_one_recipe_is_picked(desk: Page, demo: Server) -> None:
    export = call(demo, "GET", "export")
    titles = [each["versions"][-1]["document"]["title"] for each in export["recipes"]]
    bring(desk, json.dumps(export))
    assert desk.locator("bring-screen button").all_inner_texts()[-len(titles) :] == titles

    desk.get_by_role("button", name=titles[0]).click()

    expect(desk.locator("bring-screen")).to_contain_text("here already, word for word")


def test_a_finding_on_what_is_brought_in_says_its_place_in_words(desk: Page, demo: Server) -> None:
    bring(desk, json.dumps({**make_recipe(), "written_for": 3}))

    expect(desk.locator("bring-screen .found").first).to_be_visible()
    assert "ingredients." not in desk.locator("bring-screen").inner_text()


def test_these_pages_are_plain_to_axe_and_fit_a_small_phone(desk: Page, demo: Server) -> None:
    recipe = recipe_of(demo)["id"]
    findings = []

    for address in (f"#/card/{recipe}", f"#/card/{recipe}/14", f"#/versions/{recipe}", "#/bring"):
        go(desk, address)
        expect(desk.locator("h1").first).to_be_visible()
        if report := axe_finds_by_day_and_night(desk):
            findings.append(f"{address}: {report}")
        desk.set_viewport_size({"width": 360, "height": 700})
        if desk.evaluate("document.documentElement.scrollWidth > innerWidth"):
            findings.append(f"{address} is too wide")

    assert findings == []


def test_a_link_to_a_recipe_that_is_not_here_says_so(desk: Page) -> None:
    go(desk, f"#/card/{uuid4()}")

    expect(desk.get_by_role("heading", name="Not on this phone")).to_be_visible()
