"""Every screen in a language made up for tests (tests/pseudo.py): nothing is cut, and nothing is said past the catalogue."""

from __future__ import annotations

import json
import re
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from playwright.sync_api import Page, expect

from bench import words
from tests import pseudo
from tests.frontend.hands import DEMO_RECIPES, NO_COPY
from tests.frontend.phones import call
from tests.frontend.sight import Shape, take
from tests.frontend.test_screens import PHONE
from tests.make import uuid4
from tests.servers import PseudoServer, Server, serve_on

pytestmark = [pytest.mark.browser, NO_COPY]

ROOT = Path(__file__).resolve().parents[2]
DIALOGS_AT_LEAST = 12
NARROW = [Shape(320, 700), Shape(390, 844, text_percent=200)]
SENT_MS = 60_000  # a page in another language is compressed when it is first asked for
# All that a screen says: its texts, and what is said of its parts to those who hear it.
SAID = """() => {
    const said = new Set([document.title]);
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode())
        if (!node.parentElement.closest("script, style, noscript, datalist, code, .recipe-picture")) said.add(node.data.trim());
    for (const node of document.querySelectorAll("[aria-label], [title], [placeholder], [alt], optgroup"))
        for (const name of ["aria-label", "title", "placeholder", "alt", "label"]) said.add(node.getAttribute(name) ?? "");
    return [...said].filter(Boolean);
}"""
# What of the page is wider than its place, by what it is: [what, by how much]. What scrolls in a box of its own may.
WIDE = """() => {
    const cut = new Map();
    const say = (node, why) => {
        const name = [node.localName, node.className && `.${node.className}`, (node.textContent || node.value || node.placeholder || "").trim().slice(0, 40)].filter(Boolean).join(" ");
        if (cut.size < 12) cut.set(name, why);
    };
    const doc = document.documentElement;
    if (doc.scrollWidth > innerWidth) cut.set("page", `scrolls sideways by ${doc.scrollWidth - innerWidth}`);
    const shown = [...document.querySelectorAll("dialog[open]")].at(-1) ?? document.querySelector("#page");
    for (const node of shown.querySelectorAll("*")) {
        if (!node.checkVisibility() || node.closest("svg, canvas, .unseen")) continue;
        const isField = node.matches("input, select, textarea"); // goes along with the caret
        const hasText = [...node.childNodes].some((each) => each.nodeType === Node.TEXT_NODE && each.data.trim());
        if (!hasText && !isField) continue;
        const box = node.getBoundingClientRect();
        if (box.width < 2 || box.height < 2) continue;
        const style = getComputedStyle(node);
        if (style.overflowX !== "visible" && node.scrollWidth > node.clientWidth + 1 && !isField) say(node, `holds ${node.scrollWidth} in ${node.clientWidth}`);
        let scrolls = false;
        for (let over = node.parentElement; over && over !== doc; over = over.parentElement) {
            const { overflowX } = getComputedStyle(over);
            if (overflowX === "visible") continue;
            if (["auto", "scroll"].includes(overflowX)) { scrolls = true; break; }
            const edge = over.getBoundingClientRect();
            if (box.right > edge.right + 1 || box.left < edge.left - 1) say(node, `is cut by ${Math.round(Math.max(box.right - edge.right, edge.left - box.left))}`);
            break;
        }
        if (!scrolls && (box.right > innerWidth + 1 || box.left < -1)) say(node, `leaves the glass by ${Math.round(Math.max(box.right - innerWidth, -box.left))}`);
    }
    return [...cut];
}"""
# A word that is broken in its middle for want of room.
BROKEN = f"""() => {{
    const found = [];
    const walker = document.createTreeWalker(
        [...document.querySelectorAll("dialog[open]")].at(-1) ?? document.querySelector("#page"), NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {{
        if (!node.data.includes("{pseudo.BEGIN}") || !node.parentElement.checkVisibility()) continue;
        if (node.parentElement.getBoundingClientRect().width < 2) continue; // for those who hear it
        for (const {{ 0: word, index }} of node.data.matchAll(/[^\\s\\u2009\\u00ad\\u2013\\u2014()/-]+/g)) {{
            if (/\\.\\w/.test(word)) continue; // the name of a file
            const range = document.createRange();
            range.setStart(node, index + (node.data[index - 1] === "\u00ad")); // a hyphen is drawn with what it ends
            range.setEnd(node, index + word.length);
            const lines = new Set([...range.getClientRects()].map(({{ top }}) => Math.round(top)));
            if (lines.size > 1) found.push(word);
        }}
    }}
    return found;
}}"""
# While `isQuiet`, nothing that is touched is told: nothing is entered, sent or chosen, and what opens is only looked at.
TELL_NOTHING = """() => {
    const { dispatchEvent } = EventTarget.prototype;
    EventTarget.prototype.dispatchEvent = function (event) {
        const isOfScreen = this.parentElement?.id === "page" || !this.isConnected; // or of one that has just gone
        const isTold = window.isQuiet && event instanceof CustomEvent && isOfScreen;
        return isTold || dispatchEvent.call(this, event);
    };
    window.print = () => {};
}"""
# Touches what was not touched on this screen yet, until a dialog opens that was not seen: the way to it, or null. One
# may open by way of another; that one is opened again until each of its answers was touched.
NEXT_DIALOG = """async () => {
    window.isQuiet = true;
    window.tried ??= new Set();
    const still = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done))));
    const shown = () => [...document.querySelectorAll("dialog[open]")].at(-1);
    const press = async (within, way) => {
        for (const button of [...within.querySelectorAll("button:not(:disabled)")]) {
            const name = `${way} / ${button.className} ${button.textContent.replace(/[0-9.]+/g, "0")}`;
            if (!button.isConnected || !button.checkVisibility() || tried.has(name)) continue;
            tried.add(name);
            const [address, before] = [location.hash, shown()];
            button.click();
            await still();
            if (location.hash !== address) location.hash = address;
            if (shown() && shown() !== before) return name;
            if (before && !shown()) return null; // it was an answer
        }
        return null;
    };
    let way = null;
    if (shown()) {
        const here = window.way;
        const count = tried.size;
        way = await press(shown(), here);
        if (tried.size > count) tried.delete(here);
        if (!way) for (const each of document.querySelectorAll("dialog[open]")) each.close("");
        await still();
    }
    window.way = way ?? (await press(document.querySelector("#page"), location.hash));
    window.isQuiet = Boolean(window.way);
    return window.way;
}"""
# The screens whose touches open dialogs; elsewhere what is touched is drawn into the page.
WITH_DIALOGS = ("shelf", "week", "studio", "bench/", "day/", "gather/", "record/", "recipes")
# What is no word of any language's: units, shares, what the law or a standard names.
EVERYWHERE = re.compile(
    r"\b(?:g|kg|mg|m[lL]|[lL]|oz|lb|h|min|s|d|pH|INCI|EUR|GBP|USD|UTC|CSV|Parquet|PDF|JSON|MB|kB|Bowlside|Net Wt|[0-9a-f]{64})\b"
)
DATES = re.compile(
    r"\b(?:(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day|Mon|Tue|Wed|Thu|Fri|Sat|Sun"
    r"|Jan|Feb|Mar|Apr|May|June?|July?|Aug|Sept?|Oct|Nov|Dec|[ap]m|AM|PM)\b"
)


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Server]:
    database = tmp_path / "studio.sqlite3"
    server = PseudoServer(serve_on(database, "--demo"), database.with_suffix(".log")).start()
    yield server
    server.kill()


def every_screen(page: Page) -> Iterator[str]:
    """All that has an address, each as full as the demo makes it."""

    def id_in(link: str) -> str:
        return (page.locator(link).first.get_attribute("href") or "").split("/")[2]

    recipe, open_run, made = id_in("a.recipe"), id_in("a[href^='#/bench/']"), id_in("a[href^='#/record/']")
    for name, about in (
        *(
            (each, "")
            for each in ("shelf", "week", "kit", "studio", "audit", "bring", "buying", "figures", "practice")
        ),
        *((each, f"/{recipe}") for each in ("size", "recipe", "versions", "card")),
        *((each, f"/{open_run}") for each in ("bench", "day", "gather", "record")),
        *((each, f"/{made}") for each in ("record", "label")),
        ("recipe", "/new"),
    ):
        page.evaluate("address => { location.hash = address }", f"#/{name}{about}")
        expect(page.locator(f"{name}-screen")).to_be_visible()
        expect(page.locator(".opening")).to_have_count(0)
        yield f"{name}{about}"
    page.evaluate("location.hash = '#/'")
    expect(page.locator(".recipe").first).to_be_visible()
    yield "recipes"


def want_a_week(server: Server) -> None:
    """More than can be made, of two recipes and one that no card answers to, planned."""
    by = int(time.time() * 1000) + 86_400_000
    for recipe in call(server, "GET", "recipes")["recipes"][:2]:
        said = {"recipe": recipe["id"], "pieces": 60, "by": by, "note": recipe["title"]}
        call(server, "PUT", f"wants/{uuid4()}", said)
    call(server, "POST", "week/plan")


def every_dialog(page: Page, screen: str) -> Iterator[str]:
    """Whatever opens on this screen by touches, one after the other; nothing of it is answered."""
    seen: set[str] = set()
    while screen.startswith(WITH_DIALOGS) and (way := page.evaluate(NEXT_DIALOG)):
        if way not in seen:
            seen.add(way)
            yield way


def strings_in(told: Any) -> Iterator[str]:
    """What is written in a document, and the names of what is in it."""
    if isinstance(told, str):
        yield told
    elif isinstance(told, list | dict):
        for each in told.values() if isinstance(told, dict) else told:
            yield from strings_in(each)


def makers_words(server: Server) -> re.Pattern[str]:
    """What a maker wrote stands on a screen as it was written."""
    told: set[str] = set()
    for path in ("recipes", "kit", "settings", "devices", "shelf/entries", "runs"):
        with urlopen(f"{server.url}api/v1/{path}") as answered:
            told |= set(strings_in(json.load(answered)))
    for file in (ROOT / "demo").rglob("*.json"):
        told |= set(strings_in(json.loads(file.read_text("utf-8"))))
    told |= {words.language(tag).messages["language-name"]({}) for tag in words.languages()}
    told |= {each.split(",")[0] for each in told}  # an undo says the short of a name
    written = {" ".join(each.split()) for each in told if re.search(r"[^\W\d_]{2}", each)}
    longest = "|".join(map(re.escape, sorted(written, key=len, reverse=True)))
    return re.compile(rf"(?<!\w)(?:{longest})(?!\w)", re.IGNORECASE)


def past_the_catalogue(said: list[str], written: re.Pattern[str]) -> set[str]:
    left = set()
    for text in said:
        if text.endswith("…") and text[:-1] in written.pattern.replace("\\", ""):
            continue  # a maker's name, cut to its place in a picture
        rest = written.sub(" ", pseudo.unmarked(re.sub(r"\s+", " ", text)))
        if re.search(r"[^\W\d_]{2}", DATES.sub(" ", EVERYWHERE.sub(" ", rest))):
            left.add(text)
    return left


def test_in_a_language_of_long_words_nothing_is_cut_and_all_is_of_the_catalogue(
    page: Page, studio: Server
) -> None:
    want_a_week(studio)
    page.set_viewport_size(PHONE)
    page.context.add_cookies([{"name": "language", "value": pseudo.TAG, "url": studio.url}])
    page.goto(studio.url, timeout=SENT_MS)
    expect(page.locator("html")).to_have_attribute("lang", pseudo.TAG, timeout=SENT_MS)
    expect(page.locator(".recipe")).to_have_count(DEMO_RECIPES, timeout=SENT_MS)
    written = makers_words(studio)
    found: dict[str, Any] = {}
    opened = 0
    page.evaluate(TELL_NOTHING)

    for screen in every_screen(page):
        page.evaluate(
            "() => document.querySelectorAll('#page details').forEach((each) => { each.open = true; })"
        )
        take(page, Shape(390, 844))
        if broken := page.evaluate(BROKEN):
            found[f"{screen}, words broken"] = broken
        if left := past_the_catalogue(page.evaluate(SAID), written):
            found[f"{screen}, past the catalogue"] = sorted(left)
        for shape in NARROW:
            take(page, shape)
            if wide := page.evaluate(WIDE):
                found[f"{screen}, {shape}"] = wide
            if shape == NARROW[0] and (broken := page.evaluate(BROKEN)):
                found[f"{screen}, words broken at {shape.width}"] = broken
        for dialog in every_dialog(page, screen):
            opened += 1
            take(page, Shape(390, 844))
            if broken := page.evaluate(BROKEN):
                found[f"{dialog}, words broken"] = broken
            take(page, NARROW[-1])
            if wide := page.evaluate(WIDE):
                found[f"{dialog}, {NARROW[-1]}"] = wide
            if left := past_the_catalogue(page.evaluate(SAID), written):
                found[f"{dialog}, past the catalogue"] = sorted(left)

    assert opened >= DIALOGS_AT_LEAST
    assert found == {}, json.dumps(found, ensure_ascii=False, indent=1)
