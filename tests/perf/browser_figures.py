"""What the page costs in a real browser: size, touch, countdowns, and the fold in JavaScript."""

from __future__ import annotations

import json
import statistics
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.request import Request, urlopen

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright
from playwright.sync_api import Request as BrowserRequest

import bench
from tests.conftest import BROWSER_FLAGS, system_browser
from tests.frontend import sight
from tests.make import make_entry, uuid4
from tests.perf.registry import figure
from tests.servers import Server, bowlside, demo_open

WAITS = 8
ENTRIES = 500
HOUR = 3_600_000
SLOWDOWN = 6
# A scale and no moulds or vessels, so that a thousand pieces are one round.
ROOMY = bench.read_kit(
    {
        "format": "bowlside-kit/1",
        "scales": [{"id": "floor", "name": "Floor scale", "capacity": "50 kg", "division": "1 g"}],
    }
)


@figure("first load, all of it, compressed", "<= 90 kB")
def first_load_kb() -> float:
    """Every file that the page asks for until it stands and can run a batch, in kB of 1000 bytes."""
    with served(waits=1, entries=0) as (server, run), page_at(server.url, load=False) as page:
        sent: dict[str, int] = {}

        def note(each: BrowserRequest) -> None:
            sent.setdefault(each.url, each.sizes()["responseBodySize"])

        page.on("requestfinished", note)
        page.goto(f"{server.url}#/bench/{run}")
        page.wait_for_selector("answer-row .copper")
        page.wait_for_load_state("load")
        page.remove_listener("requestfinished", note)
        return sum(size for url, size in sent.items() if "/api/" not in url) / 1000


KEPT = """async () => {
    const requests = await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()));
    return requests.flat().map(({ url }) => url);
}"""


@figure("everything kept for offline, the desk's pages too, compressed, as it is sent", "<= 210 kB")
def kept_kb() -> float:
    """All that the service worker is sent when it keeps its copy, as if nothing had been loaded before."""
    with served(waits=1, entries=0) as (server, _run), page_at(f"{server.url}sw.js") as page:
        sent: dict[str, int] = {}

        def note(each: BrowserRequest) -> None:
            if each.service_worker:
                sent.setdefault(each.url, each.sizes()["responseBodySize"])

        page.context.on("requestfinished", note)
        page.evaluate("() => void navigator.serviceWorker.register('/sw.js')")
        page.evaluate("() => navigator.serviceWorker.ready.then(() => null)")
        kept = set(page.evaluate(KEPT))
        while not kept <= set(sent):  # what was sent is told a little later
            page.wait_for_timeout(50)
        return sum(sent.values()) / 1000


@figure(
    "instructions, numbers, answers and pad keys out of sight, every prompt of the three parts, 7 shapes",
    "<= 0",
)
def out_of_sight() -> float:
    """Cut or hidden, counted one by one over all prompts and shapes; at 390x844 also with text at 200 %."""
    with browsing() as browser, sight.drawing(browser) as page:
        sight.record(page, sight.sheet_of())
        found = [sight.out_of_sight(page, shape) for shape in sight.SHAPES]
        return float(sum(len(each) for told in found for each in told.values()))


@figure("layout shift on a first visit, home and bench, phone and desk, CPU slowed 6x, the worst", "<= 0")
def layout_shift() -> float:
    """Cumulative layout shift, as browsers tell it, until the page has stood still for 30 frames."""
    with TemporaryDirectory() as folder, browsing() as browser:
        server = demo_open(Path(folder) / "studio.sqlite3")
        try:
            return max(
                shift_of(browser, server, size) for size in (sight.Shape(390, 844), sight.Shape(1180, 820))
            )
        finally:
            server.stop()


def shift_of(browser: Browser, server: Server, shape: sight.Shape) -> float:
    worst, address = 0.0, ""
    for stands in (".open-run", "answer-row .copper"):
        with sight.shifted_at(browser, server.url + address, shape, slowdown=SLOWDOWN) as (page, shifts):
            page.wait_for_selector(stands)
            worst = max(worst, shifts())
            address = page.locator(".open-run").first.get_attribute("href") if not address else address
    return worst


@figure("JavaScript fold of 5,000 entries / JSON.parse of the same text, time", "<= 5")
def javascript_fold() -> float:
    with served(waits=2, entries=0) as (server, run), page_at(server.url + "keep/ids.js") as page:
        sheet = get(server, f"runs/{run}")["sheet"]
        entries = [
            make_entry(run, at=at, kind="counted", body={"step": "tray.1.press", "good": 0, "spoiled": 0})
            for at in range(5_000)
        ]
        ratio: float = page.evaluate(
            """async ([sheet, text]) => {
                const { fold } = await import("/bench/index.js");
                const entries = JSON.parse(text);
                const took = (act) => { const began = performance.now(); act(); return performance.now() - began; };
                const ratios = [];
                for (let round = 0; round < 25; round += 1) {
                    const floor = took(() => JSON.parse(text));
                    ratios.push(took(() => fold(sheet, entries)) / floor);
                }
                return ratios.sort((a, b) => a - b)[12];
            }""",
            [sheet, json.dumps(entries)],
        )
        return ratio


FINISHED = 300
# A finished run on the phone's disk becomes so many, each with a journal of its own.
MULTIPLY = """async many => {
    const { openStore } = await import("/keep/store.js");
    const { newId } = await import("/keep/ids.js");
    const store = await openStore();
    const [one] = await store.keys("runs");
    const { runs: [row], entries } = await store.runs([one]);
    for (let each = 1; each < many; each += 1) {
        const id = newId(Date.now());
        const journal = entries.map((entry) => ({ ...entry, id: newId(entry.at), run: id }));
        await store.write({ runs: { put: [{ ...row, id }] }, entries: { put: journal } });
    }
    store.close();
}"""
# It is noted at rest which runs are finished.
NOTED = """async many => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    const noted = async () =>
        Object.keys((await store.read("meta")).meta.find(({ key }) => key === "closed")?.value ?? {}).length;
    while ((await noted()) < many) await new Promise((go) => setTimeout(go, 100));
    store.close();
}"""
OPENED = """() => new Promise((opened) => {
    const look = () => {
        if (document.querySelector(".recipe")) requestAnimationFrame(() => opened(performance.now()));
        else requestAnimationFrame(look);
    };
    look();
})"""


@figure("opening with 300 finished runs of 63 entries kept / opening with none, 6x slower", "<= 2")
def opening_ratio() -> float:
    """From the start of a load until the recipes stand, by the page's own clock; the median of seven each."""
    with served(waits=1, entries=62) as (server, run), page_at(server.url) as page:
        page.wait_for_selector(".recipe")
        bare = opening_ms(page)
        finished = {"entries": [make_entry(run, at=int(time.time() * 1000), kind="finished", body={})]}
        put(server, f"runs/{run}/entries", finished, method="POST")
        page.reload()
        page.wait_for_selector("a[href^='#/record/']")
        page.goto(f"{server.url}keep/ids.js")
        page.evaluate(MULTIPLY, FINISHED)
        page.goto(server.url)
        page.evaluate(NOTED, FINISHED)
        return opening_ms(page) / bare


def opening_ms(page: Page) -> float:
    session = devtools(page)
    took = []
    for _ in range(7):
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWDOWN})
        page.reload()
        took.append(page.evaluate(OPENED))
        session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
        page.wait_for_timeout(1_500)  # what comes after the opening is not the next one's
    return float(statistics.median(took))


@figure("countdown against the clock after 8 faked hours, 12 waits, furthest off", "<= 1 s")
def countdown_off_s() -> float:
    """How far any countdown is from the clock; a ring before its instant counts as an hour off."""
    with served(waits=12, entries=0, wait="12 h") as (server, run), page_at(server.url, load=False) as page:
        page.clock.install(time=datetime.fromtimestamp(time.time(), UTC))
        page.goto(f"{server.url}keep/ids.js")
        page.evaluate(
            """async (run) => {
                const { openStudio } = await import("/keep/studio.js");
                window.early = 0;
                window.studio = await openStudio();
                await studio.sync();
                studio.addEventListener("ring", ({ detail }) => { if (studio.at() < detail.at) early += 1; });
            }""",
            run,
        )
        page.context.set_offline(True)
        due = page.evaluate("run => studio.bench(run).waits.map(wait => wait.earliest_at)", run)
        began = page.evaluate("() => Date.now()")
        page.clock.run_for(8 * HOUR)
        shown = page.evaluate(
            "run => studio.bench(run).waits.map(wait => wait.earliest_at - studio.at())", run
        )
        now = page.evaluate("() => Date.now()")
        assert len(shown) == 12 and now - began >= 8 * HOUR
        if page.evaluate("() => early"):
            return 3600.0
        return max(abs((at - now) - left) for at, left in zip(due, shown, strict=True)) / 1000


@figure("script time while only waits tick, 8 waits, 60 s, share of one core", "<= 1 %")
def ticking_percent() -> float:
    """In real time, with nothing touched: the share of a minute that the page's script ran."""
    with served(WAITS, ENTRIES) as (server, run), page_at(f"{server.url}#/bench/{run}") as page:
        page.wait_for_selector("answer-row .copper")
        session = devtools(page)
        session.send("Performance.enable")
        page.wait_for_timeout(3_000)  # what opening the page costs is not ticking
        before = metric(session, "ScriptDuration")
        page.wait_for_timeout(60_000)
        return (metric(session, "ScriptDuration") - before) / 60 * 100


def metric(session: CDPSession, name: str) -> float:
    found: float = next(
        each["value"] for each in session.send("Performance.getMetrics")["metrics"] if each["name"] == name
    )
    return found


def devtools(page: Page) -> CDPSession:
    return page.context.new_cdp_session(page)


@contextmanager
def browsing(flags: Iterable[str] = ()) -> Iterator[Browser]:
    with sync_playwright() as playwright:
        executable = system_browser(playwright)
        browser = playwright.chromium.launch(args=[*BROWSER_FLAGS, *flags], executable_path=executable)
        yield browser
        browser.close()


@contextmanager
def page_at(url: str, *, load: bool = True, touch: bool = False, flags: Iterable[str] = ()) -> Iterator[Page]:
    with browsing(flags) as browser:
        context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=touch)
        page = context.new_page()
        if load:
            page.goto(url)
        yield page


@contextmanager
def served(waits: int, entries: int, wait: str = "10 h", first: str = "") -> Iterator[tuple[Server, str]]:
    """A server with one run on it: so many waits counting, and so many entries in its journal.

    first: how long the first of the waits lasts, where that differs.
    """
    with TemporaryDirectory() as folder:
        server = bowlside(Path(folder) / "studio.sqlite3").start()
        try:
            recipe, run = uuid4(), uuid4()
            put(server, f"recipes/{recipe}", many_waits([first or wait, *[wait] * (waits - 1)]))
            now = int(time.time() * 1000)
            size, made = {"pieces": 1000}, now - 120_000  # before what is told of it
            begun = {"recipe": {"id": recipe, "version": 1}, "size": size, "kit": ROOMY, "made_at": made}
            put(server, f"runs/{run}", begun)
            press = {"step": "tray.1.press", "good": 1}
            told = [make_entry(run, at=now - 60_000, kind="done", body={"step": "tray.1.start"})]
            weighed = {"line": "tray.1.salt", "mg": 1_000_000}
            told += [make_entry(run, at=now - 55_000, kind="weighed", body=weighed)]
            told += [make_entry(run, at=now - 50_000, kind="counted", body=press)]
            told += [make_entry(run, at=now - 40_000 + each) for each in range(entries - 3)]
            for start in range(0, len(told), 500):
                put(server, f"runs/{run}/entries", {"entries": told[start : start + 500]}, method="POST")
            yield server, run
        finally:
            server.stop()


def begin_beside(server: Server, run: str) -> None:
    """Another open batch of the same recipe, in which something was done."""
    made_by = get(server, f"runs/{run}")["recipe"]
    recipe = {"id": made_by["id"], "version": made_by["version"]}
    other = uuid4()
    put(server, f"runs/{other}", {"recipe": recipe, "size": {"pieces": 1000}, "kit": ROOMY})
    now = int(time.time() * 1000)
    told = [make_entry(other, at=now - 60_000, kind="weighed", body={"line": "tray.1.salt", "mg": 1_000_000})]
    told += [make_entry(other, at=now - 50_000 + each) for each in range(60)]
    put(server, f"runs/{other}/entries", {"entries": told}, method="POST")


def many_waits(lengths: list[str]) -> dict[str, Any]:
    """A recipe with a thousand pieces to press, and waits of these lengths that one step sets going."""
    weigh = {"id": "weigh", "kind": "weigh", "title": "Weigh", "lines": ["salt"]}
    start = {"id": "start", "kind": "do", "title": "Start the waits", "after": []}
    drying = [
        {
            "id": f"dry_{each}",
            "kind": "wait",
            "title": f"Let tray {each + 1} dry",
            "after": ["start"],
            "word": "dry",
            "earliest": usual,
            "usual": usual,
        }
        for each, usual in enumerate(lengths)
    ]
    press = {"kind": "pieces", "title": "Press", "one_by_one": True, "verb": "pressed", "after": []}
    return {
        "format": "bowlside-recipe/1",
        "title": "Many waits",
        "written_for": 10,
        "ingredients": {"salt": {"name": "Sea salt"}},
        "components": [
            {
                "id": "tray",
                "name": "Tray",
                "piece": "1 g",
                "lines": [{"id": "salt", "ingredient": "salt", "amount": "10 g"}],
                "steps": [weigh, start, {"id": "press", **press}, *drying],
            }
        ],
    }


def put(server: Server, path: str, body: object, method: str = "PUT") -> None:
    request = Request(
        f"{server.url}api/v1/{path}",
        method=method,
        data=json.dumps(body).encode(),
        headers={"Content-Type": "application/json"},
    )
    urlopen(request).close()


def get(server: Server, path: str) -> Any:
    with urlopen(f"{server.url}api/v1/{path}") as answer:
        return json.load(answer)
