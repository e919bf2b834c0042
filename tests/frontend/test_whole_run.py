"""The main job, as the maker does it: the whole three-part demo recipe, by touch alone.

The phone hears the server once and then has no network until the last piece is wrapped. Its clock
is faked, so the hours of drying pass in no time. Every touch is counted.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from datetime import UTC, datetime
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.frontend.hands import open_demo
from tests.frontend.phones import HOUR, MINUTE, call
from tests.servers import Server

pytestmark = pytest.mark.browser

WRITTEN_FOR = 12
PIECES = 3
TOO_MUCH_G = 9
MOST_TOUCHES = 400  # a run that needs more than this has gone in a circle
BETWEEN_TOUCHES_MS = 15_000
LOOK_EVERY_MS = 5 * MINUTE


@pytest.fixture
def maker(browser: Browser, live_server: Server) -> Iterator[Maker]:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True, timezone_id="Europe/London"
    )
    page = context.new_page()
    page.clock.install(time=datetime.fromtimestamp(time.time(), UTC))
    open_demo(page, live_server)
    yield Maker(context, page)
    context.close()


class Maker:
    """Two hands at a phone: taps what can be seen, and counts the taps by what they were for."""

    def __init__(self, context: BrowserContext, page: Page) -> None:
        self.context = context
        self.page = page
        self.touches: Counter[str] = Counter()
        self.faults: list[str] = []
        page.on("pageerror", lambda error: self.faults.append(str(error)))

    @property
    def title(self) -> str:
        return self.page.locator("bench-screen h1").inner_text()

    def tap(self, found: Any, what: str) -> None:
        found.tap()
        self.touches[what] += 1
        assert self.touches.total() < MOST_TOUCHES, f"going in a circle at “{what}”"

    def begin(self, recipe: str, pieces: int) -> str:
        """Size a recipe with the buttons and begin; gives the run's id."""
        self.tap(self.page.locator("a.recipe", has_text=recipe), "Choose the recipe")
        begin = self.page.get_by_role("button", name="Begin")
        for count in range(WRITTEN_FOR - 1, pieces - 1, -1):
            self.tap(self.page.get_by_role("button", name="fewer"), "Size it")
            expect(begin).to_have_text(f"Begin {count} pieces")
        self.tap(begin, "Begin")
        expect(self.page.locator("bench-screen")).to_be_visible()
        return self.page.url.rsplit("/", 1)[1]

    def answer(self, name: str | None = None) -> None:
        """Give the strong answer, or the one of that name, and wait until the bench goes on."""
        # How much is unsent changes with each answer. What the day says does not count: it comes a moment after.
        said = self.page.locator(".head-link, .bench-words > :not(.lead)")
        before = said.all_inner_texts()
        title = self.title
        row = self.page.locator("answer-row")
        self.tap(row.get_by_role("button", name=name) if name else row.locator(".copper"), title)
        expect(said).not_to_have_text(before, use_inner_text=True)
        self.page.clock.run_for(BETWEEN_TOUCHES_MS)

    def read_too_much(self) -> None:
        """Enter on the big pad that the scale reads some grams past the mark."""
        title = self.title
        mark = self.page.locator(".number span").first.inner_text()
        reading = str(int(mark) + TOO_MUCH_G)
        self.tap(self.page.locator("answer-row").get_by_role("button", name="It reads something else"), title)
        pad = self.page.get_by_role("dialog")
        for digit in reading:
            self.tap(pad.get_by_role("button", name=digit, exact=True), title)
        self.tap(pad.locator(".copper"), title)
        expect(self.page.locator("bench-screen h1")).not_to_have_text(title)
        self.page.clock.run_for(BETWEEN_TOUCHES_MS)

    @property
    def has_something_to_do(self) -> bool:
        return self.page.locator("answer-row .copper").is_visible()

    def wait_for_something(self) -> None:
        """Put the phone down until it asks for something."""
        for _ in range(24 * HOUR // LOOK_EVERY_MS):
            if self.has_something_to_do:
                return
            self.page.clock.fast_forward(LOOK_EVERY_MS)  # a phone that is put down sleeps
        raise AssertionError(f"nothing to do for a whole day, at “{self.title}”")

    def until_all_is_sent(self) -> None:
        """Let time pass, a minute at a go, until the page no longer says that something is unsent."""
        unsent = self.page.locator(".head-link")
        for _ in range(10):
            self.page.clock.run_for(MINUTE)
            with suppress(AssertionError):
                return expect(unsent).to_be_hidden(timeout=2_000)
        raise AssertionError(f"still unsent: {unsent.inner_text()}")

    def bounce(self) -> None:
        """Press one piece with a wet thumb: the browser tells of two touches, and it is one piece."""
        self.page.locator("answer-row .copper").evaluate("button => { button.click(); button.click(); }")
        self.touches[self.title] += 1
        self.page.clock.run_for(BETWEEN_TOUCHES_MS)
        expect(self.page.locator("bench-screen .number")).to_have_text("1")

    def slide_off(self) -> None:
        """Put a thumb on the answer and lift it elsewhere, or beside another finger that stays: nothing is answered."""
        button = self.page.locator("answer-row .copper")
        box = button.bounding_box()
        assert box
        on = {"x": box["x"] + 9, "y": box["y"] + 9, "id": 0}
        beside, off = {**on, "x": on["x"] + 60, "id": 1}, {**on, "y": 9}
        heard = "() => { window.told = 0; addEventListener('answer', () => { told += 1; }, true); }"
        self.page.evaluate(heard)
        finger = self.page.context.new_cdp_session(self.page)
        for kind, points in (
            ("Start", [on]),
            ("Move", [off]),
            ("End", []),
            ("Start", [on, beside]),
            ("End", [beside]),
            ("Cancel", []),
        ):
            finger.send("Input.dispatchTouchEvent", {"type": f"touch{kind}", "touchPoints": points})
        assert self.page.evaluate("() => told") == 0
        self.tap(button, self.title)
        assert self.page.evaluate("() => told") == 1
        self.page.clock.run_for(BETWEEN_TOUCHES_MS)
        expect(self.page.locator("bench-screen .number")).to_have_text("2")

    def work(self) -> None:
        """Do what the bench asks for until the run is finished, with a slip and two judgements on the way."""
        carried = sprayed = dried = False
        while self.title != "This batch is finished":
            self.wait_for_something()
            if self.title.startswith("Citric acid, anhydrous: add") and not carried:
                carried = True
                self.read_too_much()
                self.answer("Scale up the rest")
            elif self.title == "Judge the rose half" and not sprayed:
                sprayed = True
                self.answer("Not yet: Witch hazel")
            elif self.title == "Press the pieces" and not dried:
                dried = True
                self.bounce()
                self.slide_off()
                self.answer("It has dried")
            else:
                self.answer()

    def note_at_the_end(self, text: str) -> None:
        """Undo the batch's end, so that the bench asks for it; write a note there, and end the batch again."""
        self.tap(self.page.get_by_role("button", name="Undo: finish"), "Undo the end")
        expect(self.page.locator("bench-screen h1")).to_have_text("Finish the batch")
        self.page.clock.run_for(BETWEEN_TOUCHES_MS)
        self.tap(self.page.get_by_role("button", name="Other"), "Write a note")
        dialog = self.page.get_by_role("dialog")
        self.tap(dialog.get_by_role("button", name="Write a note"), "Write a note")
        dialog.get_by_role("textbox").fill(text)
        self.tap(dialog.locator(".copper"), "Write a note")
        expect(dialog).to_have_count(0)
        self.answer()


def test_the_three_part_recipe_is_made_by_touch_alone_without_a_network(
    maker: Maker, live_server: Server
) -> None:
    maker.page.evaluate("async () => { await navigator.serviceWorker.ready; }")  # the page's own copy is here
    maker.context.set_offline(True)
    run = maker.begin("Pressed fizzing base", PIECES)
    maker.work()
    maker.note_at_the_end("Smells of roses")
    maker.context.set_offline(False)
    maker.until_all_is_sent()

    record = call(live_server, "GET", f"runs/{run}/record")

    assert maker.faults == []
    assert record["finished_at"] is not None
    assert record["unread"] == []
    assert [note["text"] for note in record["notes"]] == ["Smells of roses"]
    assert [step["title"] for step in record["steps"] if step["status"] != "done"] == []
    assert (record["yield"]["good"], record["yield"]["spoiled"]) == (PIECES, 0)
    assert all(wait["real_ms"] >= wait["earliest_ms"] and not wait["late"] for wait in record["waits"])
    assert len(record["waits"]) == 4
    assert [window["title"] for window in record["windows"] if window["late"]] == []
    lines = {line["line"]: line for line in record["lines"]}
    bicarbonate, citric = lines["base.1.bicarb"], lines["base.1.citric"]
    # The bowl held the bicarbonate as it was read, so the reading tells what went in beside it.
    mark_mg = round((bicarbonate["planned_mg"] + citric["planned_mg"]) / 1000) * 1000
    assert citric["actual_mg"] == mark_mg + TOO_MUCH_G * 1000 - round(bicarbonate["planned_mg"] / 1000) * 1000
    assert [each["kind"] for each in record["corrections"]] == ["carried"]
    # Carried up: every line of the round keeps its share, within half a division of its scale.
    for line in record["lines"]:
        if line["component"] == "base" and line["planned_mg"]:
            wanted = line["planned_mg"] * citric["actual_mg"] / citric["planned_mg"]
            assert abs(line["actual_mg"] - wanted) <= line["division_mg"] / 2 + 1
    tries = {looks["step"]: looks["tries"] for looks in record["looks"]}
    assert tries["base.1.damp_rose"] == 1 and tries["base.1.press"] == 1

    steps = len(record["steps"])
    touches = maker.touches.total()
    print(f"\n{touches} touches for {steps} steps and {PIECES} pieces, {touches / steps:.2f} a step")
    for what, count in maker.touches.items():
        print(f"{count:4d}  {what}")
