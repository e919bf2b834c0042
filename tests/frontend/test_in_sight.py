"""On every propped phone all of a prompt is in sight: what to do, the number, the answers, the pad (sight.js)."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from bench import words
from tests import pseudo
from tests.frontend.sight import SHAPES, Shape, drawing, out_of_sight, record, sheet_of, take
from tests.often import in_chaos

pytestmark = pytest.mark.browser

PROMPTS_AT_LEAST = 60
# Those at both ends of these are tighter or show more.
BETWEEN = [Shape(667, 375), Shape(360, 640)]
TIGHT = [Shape(667, 375), Shape(320, 568), Shape(390, 844, text_percent=200)]
OTHERS = """([place, count]) => {
    const moment = moments[place];
    const { at } = moment.bench;
    const others = Array.from({ length: count }, (_, each) => ({
        what: "window", step: `x.1.${each}`, letter: "C", title: "Pipe the tops", opened_at: at - 60_000,
        phase: each === count - 1 ? "soon_late" : "open", latest_at: at + (each + 1) * 120_000,
    }));
    sight.draw(moment, others);
}"""
# The first prompt whose caution has no room is drawn, and its caution told.
FOLDED = """() => {
    const isFolded = (moment) => {
        sight.draw(moment);
        return document.querySelector(".caution-fold").checkVisibility();
    };
    return moments.find(isFolded).bench.prompts[0].cautions[0].full;
}"""
ROW_END = """() => {
    const items = [...document.querySelectorAll(".strip > li")].map((item) => item.getBoundingClientRect().right);
    return Math.max(...items) - document.querySelector("wait-strip").getBoundingClientRect().right;
}"""


# So many answers, of which one is lit, drawn one after the other in one row: what each says, its foot, left and right.
ANSWERED = """([count, lit]) => {
    const row = document.querySelector("answer-row");
    const answer = (_, place) => ({ id: `a${place}`, label: `Answer ${place}`, says: "", strong: place === lit });
    row.data = { answers: Array.from({ length: count }, answer), settle: false, cards: false };
    return [...row.querySelectorAll("button")]
        .map((button) => [button.firstElementChild.textContent, button.getBoundingClientRect()])
        .map(([text, { bottom, left, right }]) => [text.replaceAll("\u00a0", " "), Math.round(bottom), Math.round(left), Math.round(right)]);
}"""


# A bench opens before its plan is here: the answers take a touch at once, and then the plan comes.
OPENED = """() => {
    const moment = moments.find(({ bench }) => bench.prompts.length > 2 && !bench.windows.length);
    const title = () => document.querySelector("h1").textContent.replaceAll("\u00a0", " ");
    const lead = () => document.querySelector(".lead");
    const other = moment.bench.prompts[2];
    sight.open(); // another bench
    sight.draw(moment, [], null);
    const first = title();
    const isTouchable = !document.querySelector("answer-row").hasAttribute("data-settling");
    sight.draw(moment, [], { step: other.step, advice: "", reason: "" });
    const offered = [title(), lead().textContent.replaceAll("\u00a0", " ")];
    lead().click();
    return { first, isTouchable, offered, other: other.title, turned: title() };
}"""


# A prompt whose bench has no room for the words of an undo, and what is told of it.
TOLD = """() => {
    document.querySelector("dialog")?.close("");
    const isShort = (moment) => {
        sight.draw(moment, [], undefined, true);
        return !document.querySelector(".undoes span").checkVisibility();
    };
    moments.find(isShort);
    document.querySelector(".undoes").removeAttribute("data-settling");
    window.told = [];
    document.querySelector("bench-screen").addEventListener("answer", ({ detail }) => told.push(detail));
}"""


@pytest.fixture(scope="module")
def bench(browser: Browser) -> Iterator[Page]:
    with drawing(browser) as page:
        assert record(page, sheet_of()) >= PROMPTS_AT_LEAST
        yield page


@pytest.mark.parametrize("shape", [in_chaos(each) if each in BETWEEN else each for each in SHAPES], ids=str)
def test_nothing_of_any_prompt_is_out_of_sight(bench: Page, shape: Shape) -> None:
    assert out_of_sight(bench, shape) == {}


@pytest.mark.parametrize(
    ("tongue", "shapes"),
    [
        *((tag, TIGHT[1:]) for tag in words.languages() if tag != words.DEFAULT),
        *(in_chaos(tag, TIGHT[:1]) for tag in words.languages() if tag != words.DEFAULT),
        (pseudo.TAG, [Shape(390, 844)]),  # longer than any there is: a common phone is enough
        in_chaos(pseudo.TAG, [Shape(360, 640)]),
    ],
)
def test_nothing_is_out_of_sight_in_another_language(
    browser: Browser, monkeypatch: pytest.MonkeyPatch, tongue: str, shapes: list[Shape]
) -> None:
    monkeypatch.setattr(words, "language", pseudo.language)
    monkeypatch.setattr(words, "languages", pseudo.languages)
    with drawing(browser, tongue) as page:
        assert record(page, sheet_of()) >= PROMPTS_AT_LEAST
        found = {str(shape): out_of_sight(page, shape) for shape in shapes}

    assert {shape: each for shape, each in found.items() if each} == {}


@pytest.mark.parametrize("count", range(1, 7))
def test_no_answer_changes_places_when_another_is_lit_and_none_leaves_a_hole(bench: Page, count: int) -> None:
    """From top left to bottom right they stand as the bench gives them; each row is as wide as any."""
    take(bench, Shape(390, 844))
    for lit in range(-1, count):
        stood = bench.evaluate(ANSWERED, [count, lit])
        assert [text for text, *_ in stood] == [f"Answer {each}" for each in range(count)]
        rows: dict[int, list[tuple[int, int]]] = {}
        for _, foot, left, right in stood:
            rows.setdefault(foot, []).append((left, right))
        assert list(rows) == sorted(rows) and all(row == sorted(row) for row in rows.values())
        assert len({(row[0][0], row[-1][1]) for row in rows.values()}) == 1
        if count == 2:
            assert len(rows) == 2


def test_a_part_that_is_hidden_is_seen_by_this_test(bench: Page) -> None:
    """The measure itself: a page that cuts what to do short is told of."""
    bench.add_style_tag(content=".bench h1 { max-height: 8px; overflow: hidden }")
    take(bench, Shape(390, 844))

    assert bench.evaluate("() => { sight.draw(moments[0]); return sight.outOfSight(); }") != []

    bench.evaluate("() => [...document.querySelectorAll('style')].at(-1).remove()")


@pytest.mark.parametrize("shape", SHAPES, ids=str)
def test_countdowns_stand_in_one_row_that_counts_what_it_leaves_out(bench: Page, shape: Shape) -> None:
    take(bench, shape)
    place = bench.evaluate("() => moments.findIndex(({ bench }) => bench.waits.length)")

    bench.evaluate(OTHERS, [place, 6])

    more = bench.locator(".wait-more")
    shown = bench.locator(".wait").count()
    total = 6 + bench.evaluate(
        "p => { const { waits, windows, guides } = moments[p].bench; return waits.length + windows.length + guides.length }",
        place,
    )
    expect(more).to_contain_text(f"+{total - shown} more")
    expect(more).to_contain_text("1 late" if shown < 3 else "more")
    assert bench.evaluate(ROW_END) <= 0
    expect(bench.locator(".wait-batch").first).to_have_text("K1")  # the batch in hand first, and named


def test_a_plan_that_comes_after_the_bench_opened_changes_nothing_under_the_hand(browser: Browser) -> None:
    """It is offered, and a touch turns to it; the first touch of a page is taken at once, for no bounce came before it."""
    with drawing(browser) as page:
        record(page, sheet_of())

        told = page.evaluate(OPENED)

    assert told["isTouchable"]
    assert told["offered"] == [told["first"], f"Next by the plan: “{told['other']}”"]
    assert told["turned"] == told["other"] != told["first"]


def test_all_countdowns_open_from_the_end_of_the_row(bench: Page) -> None:
    take(bench, Shape(320, 568))
    bench.evaluate(OTHERS, [0, 3])
    bench.evaluate("() => addEventListener('wait-chosen', ({ detail }) => { window.chosen = detail.step; })")

    bench.locator(".wait-more").click()
    dialog = bench.get_by_role("dialog")
    expect(dialog.locator(".choice-card")).to_have_count(3)
    dialog.get_by_role("button", name="Pipe the tops").last.click()

    bench.wait_for_function("() => window.chosen === 'x.1.1'")


def test_an_undo_without_room_says_what_it_undoes_before_it_does(bench: Page) -> None:
    """Two letters more of a name cannot be left out: it may be the one thing that tells it from another."""
    take(bench, Shape(320, 568))
    bench.evaluate(TOLD)
    undo = bench.locator(".undoes").first
    said = undo.text_content()
    assert said is not None and "\u2026" not in said

    undo.click()
    dialog = bench.get_by_role("dialog", name=said, exact=True)
    dialog.get_by_role("button", name="Back").click()
    assert bench.evaluate("() => told") == []

    undo.click()
    dialog.get_by_role("button", name="Undo", exact=True).click()
    bench.wait_for_function("() => told.length > 0")
    assert bench.evaluate("() => told[0].kind") == "undone"


def test_what_can_be_done_again_is_under_other_where_the_row_has_no_room(bench: Page) -> None:
    take(bench, Shape(320, 568))
    bench.evaluate(TOLD)

    bench.get_by_role("button", name=re.compile("^Other")).click()
    bench.get_by_role("dialog").get_by_role("button", name=re.compile("^Redo: ")).click()

    bench.wait_for_function("() => told.length > 0")
    assert bench.evaluate("() => told[0].body.entry") == "back"


def test_a_caution_without_room_is_one_line_that_opens(bench: Page) -> None:
    take(bench, Shape(320, 568))
    full = bench.evaluate(FOLDED)
    fold = bench.locator(".caution-fold")
    said = fold.locator("li").first
    expect(fold.locator("summary")).to_be_visible()
    expect(said).to_be_hidden()

    fold.locator("summary").click()

    expect(said).to_be_visible()
    assert said.inner_text().replace("\u00a0", " ") == full.replace("\u00a0", " ")


def test_a_common_phone_seldom_needs_the_bench_made_tighter(bench: Page) -> None:
    """Else every prompt would be cramped for the sake of one, as by a measure that never holds."""
    take(bench, SHAPES[0])

    steps = bench.evaluate(
        "() => moments.map((moment) => { sight.draw(moment); return document.querySelector('.bench').dataset.tight ?? ''; })"
    )

    assert steps.count("") > len(steps) / 2
    assert max(map(len, steps)) < len("1 2 3 4 5 6")
