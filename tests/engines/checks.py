"""What must work in every engine, each of it in one session that goes from one check to the next.

An engine is tried where it went another way than Chromium, or may; the rest of the page's tests are
Chromium's. The first check opens the page; each of the others goes by itself to where it looks.
"""

from __future__ import annotations

import base64
from typing import Any

import pytest
from pypdf import PdfReader

from tests.engines.engine import PHONE, Engine
from tests.frontend.phones import call
from tests.make import uuid7
from tests.servers import Server

PLAIN_ID = "018f0000-0000-7000-8000-0000000000e1"
PLAIN: dict[str, Any] = {
    "format": "bowlside-recipe/1",
    "title": "Plain bar",
    "written_for": 2,
    "piece": {"one": "bar", "many": "bars"},
    "ingredients": {"butter": {"name": "Hard butter"}, "oil": {"name": "Light oil"}},
    "components": [
        {
            "id": "bar",
            "name": "Bar",
            "piece": "50 g",
            "lines": [
                {"id": "butter", "ingredient": "butter", "amount": "75 g"},
                {"id": "oil", "ingredient": "oil", "amount": "25 g"},
            ],
            "steps": [
                {"id": "fill", "kind": "weigh", "title": "Weigh the bars", "lines": ["butter", "oil"]},
                {
                    "id": "set",
                    "kind": "wait",
                    "title": "Let them set",
                    "word": "set",
                    "earliest": "1 s",
                    "usual": "2 s",
                },
                {
                    "id": "out",
                    "kind": "pieces",
                    "does": "unmould",
                    "title": "Turn the bars out",
                    "verb": "turned out",
                },
            ],
        }
    ],
}
SIZES = [PHONE, (768, 1024), (1280, 800)]
MOST_TOUCHES = 20
POINTS_PER_MM = 72 / 25.4
# One red pixel as a PNG.
RED = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR4nGP4z8DwHwAFAAH/iZk9HQAAAABJRU5ErkJggg=="
)

# A sound that only a touch brings on, as on an iPhone; Firefox has none at all where there is no sound card.
STRICT_SOUND = """
    window.AudioContext = class {
        state = "suspended";
        constructor() { window.heard = this; }
        async resume() {
            if (!navigator.userActivation.isActive) throw new DOMException("Not inside a touch", "NotAllowedError");
            this.state = "running";
        }
    };
"""
CUT = """
    const cut = (field) => field.scrollHeight > field.clientHeight + 1 || field.scrollWidth > field.clientWidth + 1;
    const fields = [...document.querySelectorAll("textarea, input:not([type=checkbox], [type=radio])")];
    return fields.filter((field) => field.checkVisibility() && field.value && cut(field)).map((field) => field.value);
"""


class Checks:
    """Subclassed once for each engine."""

    def test_it_opens_keeps_its_copy_and_opens_again_with_no_server(
        self, engine: Engine, studio: Server
    ) -> None:
        engine.driver.get(studio.url)
        engine.find("a.recipe", "Plain bar")
        engine.until("return (await navigator.serviceWorker.ready).active.state === 'activated'")

        studio.kill()
        try:
            engine.driver.get("about:blank")  # asked to reload, Firefox goes past the worker
            engine.driver.get(studio.url)
            engine.find("a.recipe", "Plain bar")
        finally:
            studio.start()

    def test_one_part_is_made_by_touch_and_the_pad_is_believed(self, engine: Engine, studio: Server) -> None:
        run = begin(engine)

        engine.touch("answer-row button", "something else")
        for digit in "83":
            engine.touch("dialog.pad .key", digit)
        engine.touch("dialog.pad .copper", "83 g")
        engine.touch("answer-row button", "Leave it")
        engine.find("bench-screen h1", "oil")
        make(engine)

        engine.until(
            "return (await (await fetch(`/api/v1/runs/${given[0]}/record`)).json()).finished_at", run
        )
        record = call(studio, "GET", f"runs/{run}/record")
        assert {line["line"]: line["actual_mg"] for line in record["lines"]} == {
            "bar.1.butter": 83_000,
            "bar.1.oil": 25_000,
        }

    def test_a_photograph_is_taken_kept_and_sent(self, engine: Engine, studio: Server) -> None:
        run = begin(engine)
        picture = engine.where / "picture.png"
        picture.write_bytes(RED)
        engine.go(f"#/record/{run}", "record-screen h1")

        engine.driver.find_element("css selector", "record-screen input[type=file]").send_keys(str(picture))
        engine.touch("dialog[open] .copper", "photograph")

        engine.until("return document.querySelector('.photograph img')?.naturalWidth > 0")
        engine.until(
            """const { pictures } = await (await fetch(`/api/v1/runs/${given[0]}/record`)).json();
               return pictures.length === 1 && (await fetch(`/api/v1/pictures/${pictures[0].picture}`)).ok;""",
            run,
        )

    def test_what_others_do_is_seen_after_a_right_click(self, engine: Engine, studio: Server) -> None:
        run = begin(engine)
        engine.right_click("bench-screen h1")

        engine.until("return (await fetch(`/api/v1/runs/${given[0]}`)).ok", run)
        at = call(studio, "GET", "clock")["server_ms"]
        finished = {
            "id": uuid7(at),
            "run": run,
            "device": "another-phone",
            "at": at,
            "kind": "finished",
            "body": {},
        }
        call(studio, "POST", f"runs/{run}/entries", {"entries": [finished]})

        engine.find("bench-screen h1", "This batch is finished")

    def test_a_printed_label_carries_a_measure_of_50_mm(self, engine: Engine) -> None:
        """No engine prints at true size unasked for certain; the bar is what tells, and by how much."""
        run = begin(engine)
        make(engine)
        engine.go(f"#/label/{run}", ".label-plate")

        boxes = rectangles(engine.printed())

        bar = next(width for width, height in boxes if 40 < width < 60 and 1.5 < height < 3)
        label = max(width for width, height in boxes if 60 < width < 85)
        assert label / bar == pytest.approx(70 / 50, rel=0.01)

    def test_no_field_of_a_recipe_is_cut(self, engine: Engine) -> None:
        three_parts = engine.run(
            "return (await (await fetch('/api/v1/recipes')).json()).recipes.find(({ title }) => title.includes('soap pebble')).id"
        )
        try:
            for size in SIZES:
                engine.resize(*size)
                engine.go(f"#/recipe/{three_parts}", "recipe-screen textarea")
                engine.run(
                    "for (const fold of document.querySelectorAll('recipe-screen details')) fold.open = true"
                )
                engine.comes_to(CUT, [])
        finally:
            engine.resize(*PHONE)

    def test_a_sound_that_was_taken_away_comes_back_at_the_next_touch(
        self, engine: Engine, studio: Server
    ) -> None:
        engine.driver.get("about:blank")
        engine.driver.get(studio.url)
        engine.find("a.recipe")
        engine.run(STRICT_SOUND)
        engine.touch("recipes-screen h1")
        engine.until("return window.heard?.state === 'running'")
        engine.run("heard.state = 'interrupted'")  # as a call does, or the phone's lock

        engine.touch("recipes-screen h1")

        engine.until("return heard.state === 'running'")

    def test_nothing_to_touch_lies_under_the_edges_of_a_phone(self, engine: Engine) -> None:
        begin(engine)
        edges = {"top": 47, "bottom": 34, "left": 0, "right": 0}
        for side, px in edges.items():
            engine.run(
                "document.documentElement.style.setProperty(given[0], given[1])", f"--safe-{side}", f"{px}px"
            )
        try:
            under = """
                const [top, bottom] = [given[0], innerHeight - given[1]];
                const where = document.querySelector("dialog[open]") ?? document;
                return [...where.querySelectorAll("a, button, input")]
                    .filter((each) => each.checkVisibility() && each.getBoundingClientRect().height > 2)
                    .filter((each) => { const box = each.getBoundingClientRect(); return box.top < top - 1 || box.bottom > bottom + 1; })
                    .map((each) => each.textContent || each.outerHTML);
            """
            assert engine.run(under, edges["top"], edges["bottom"]) == []
            engine.touch("answer-row button", "something else")
            assert engine.run(under, edges["top"], edges["bottom"]) == []
            engine.touch("dialog.pad button", "Back")
        finally:
            engine.run("document.documentElement.removeAttribute('style')")


def begin(engine: Engine) -> str:
    """Two plain bars on the bench; gives the run's id."""
    engine.go("#/", "recipes-screen h1")
    engine.touch("a.recipe", "Plain bar")
    engine.touch("size-screen button.copper", "Begin")
    engine.find("bench-screen h1")
    run: str = engine.run("return location.hash.split('/')[2]")
    return run


def make(engine: Engine) -> None:
    """Do what the bench asks for until it is done, and stay there.

    A touch is done when another thing is asked: clocks, and what is said beside, change by themselves, and a touch too
    many would fall on the finished run's "See the record".
    """
    asked = "return document.querySelector('bench-screen h1').textContent"
    for _ in range(MOST_TOUCHES):
        before = engine.run(asked)
        if before == "This batch is finished":
            return
        engine.touch("answer-row .copper")
        engine.until(f"{asked} !== given[0]", before)
    raise AssertionError(f"not done after {MOST_TOUCHES} touches, at {before}")


def rectangles(printed: Any) -> list[tuple[float, float]]:
    """The filled rectangles of a PDF's first page, width and height in mm."""
    found: list[tuple[float, float]] = []

    def read(operator: bytes, operands: Any, matrix: list[float], _text: Any) -> None:
        if operator == b"re":
            found.append(
                tuple(
                    abs(float(size)) * abs(matrix[at]) / POINTS_PER_MM
                    for size, at in zip(operands[2:], (0, 3), strict=True)
                )
            )

    PdfReader(printed).pages[0].extract_text(visitor_operand_before=read)
    return found
