"""A real page in a browser: the phone's own code, its own disk, its own timers and rings."""

from __future__ import annotations

import itertools
import time
from contextlib import suppress
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Error, Page

from tests.chaos.device import Json, NoAnswer
from tests.chaos.lines import Line
from tests.frontend.phones import BLANK, COPIED, begin, comes_true
from tests.servers import as_sent

# The page is one of our files opened as text. Its rings go to the harness at once, so that they outlive it.
OPEN = as_sent("""async () => {
    const { openStudio } = (await import("/app.js")).$keep_studio;
    window.studio = await openStudio();
    const short = ({ wait, phase, at }) => ({ run: wait.run, step: wait.step, phase, due: at });
    studio.addEventListener("ring", ({ detail }) => rang({ ...short(detail), at: studio.at(), really: trueNow() }));
    return studio.missed().map(short);
}""")
SYNC = (
    "async () => { await studio.sync(); return studio.link.state === 'online' && studio.link.unsent === 0; }"
)
ENTER = as_sent("""async ([run, kind, body]) => {
    const { canonical } = (await import("/app.js")).$bench_index;
    try { return canonical(await studio.enter(run, kind, body)); } catch ({ name }) { return name; }
}""")
ENTRIES = as_sent("""async (run) => {
    const { canonical } = (await import("/app.js")).$bench_index;
    return studio.run(run)?.entries.map((entry) => [entry.id, canonical(entry)]) ?? [];
}""")
STATE = as_sent("""async (run) => {
    const { canonical } = (await import("/app.js")).$bench_index;
    const found = studio.run(run);
    return found ? canonical(found.state) : null;
}""")
REFUSED = """() => {
    const ofASigning = ({ entry }) => entry && ["signed", "undone"].includes(entry.kind);
    const { refused } = studio.link;
    return {
        signings: refused.filter(ofASigning).map(({ entry }) => entry.id),
        others: refused.filter((row) => !ofASigning(row)).map(({ detail }) => detail),
    };
}"""
DUE = as_sent("""async () => {
    const { ringsOf } = (await import("/app.js")).$keep_rings;
    return studio.waits().flatMap((item) => ringsOf(item).map(({ phase, at }) => ({ run: item.run, step: item.step, phase, due: at })));
}""")
WRONG_CLOCK = """(wrong_by) => {
    const { now } = Date;
    window.trueNow = () => now();
    Date.now = () => now() + wrong_by;
}"""
LAST_WORDS = "and then the page was killed"
GASP = "(text) => { for (const { id } of studio.runs) void studio.enter(id, 'noted', { text }).catch(() => {}); }"
# What a page sees of a full disk: the browser's own error where something is to be kept.
FULL_DISK = """() => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = function (...row) {
        if (window.full) throw new DOMException("no room", "QuotaExceededError");
        return put.apply(this, row);
    };
}"""
OPENING_MS = 60_000
DYING_MS = 3_000
EARLY_MS = 1_000  # so far may two devices' ideas of the server's time be apart
_numbers = itertools.count(1)


class Phone:
    """A device whose page can die and be opened again; what is on its disk stays."""

    def __init__(self, browser: Browser, line: Line, wrong_by: int) -> None:
        self.name = f"page {next(_numbers)}"
        self._line = line
        self._context: BrowserContext = browser.new_context()
        self._context.set_default_timeout(OPENING_MS)
        self._context.expose_binding("rang", self._hear_ring)
        self._context.add_init_script(f"({WRONG_CLOCK})({wrong_by})")
        self._context.add_init_script(f"({FULL_DISK})()")
        self._page: Page | None = None
        self.shown: list[str] = []  # entries, as they were shown
        self.rang: list[Json] = []
        self.told: list[Json] = []
        self.early: list[Json] = []
        self.open()
        assert self._page is not None
        comes_true(self._page, COPIED)
        self.sync()

    def open(self) -> None:
        """Open the page unless it is open; with no server, from the copy on the phone."""
        if self._page:
            return
        page = self._context.new_page()
        try:
            page.goto(self._line.url + BLANK)
            self.told += page.evaluate(OPEN)
        except Error as error:
            page.close()
            raise NoAnswer(str(error)) from None
        self._page = page

    def die(self) -> None:
        """The page's process is killed, whatever it is doing."""
        if self._page is None:
            return
        page, self._page = self._page, None
        with suppress(Error):  # an address of Chromium's own, at which the page's process kills itself
            page.goto("chrome://crash", timeout=DYING_MS)
        page.close()

    def gasp(self) -> None:
        """Begin to enter something, and do not wait for it: nobody saw whether it was kept."""
        if self._page:
            self._page.evaluate(GASP, LAST_WORDS)

    def crowd(self, full: bool) -> None:
        """The phone's disk is full, or has room again."""
        if self._page:
            self._page.evaluate("(full) => { window.full = full; }", full)

    def begin(self) -> None:
        if self._page:
            with suppress(Error):  # a phone that is full says so and begins nothing
                begin(self._page)

    def touch(self, run: str, kind: str, body: Json) -> None:
        if self._page and self._page.evaluate("(run) => Boolean(studio.run(run))", run):
            entry = self._page.evaluate(ENTER, [run, kind, body])
            if entry.startswith("{"):
                self.shown.append(entry)

    def sync(self) -> bool:
        """One round; whether all of it went through."""
        if self._page is None:
            return False
        return self._page.evaluate(SYNC) is True

    @property
    def runs(self) -> list[str]:
        return self._page.evaluate("() => studio.runs.map(({ id }) => id).reverse()") if self._page else []

    def entries(self, run: str) -> dict[str, str]:
        """By id, each entry's bytes as this phone has them."""
        return dict(self._page.evaluate(ENTRIES, run)) if self._page else {}

    def state(self, run: str) -> str | None:
        return self._page.evaluate(STATE, run) if self._page else None

    @property
    def refused(self) -> list[str]:
        """Why the server said no, but for signings: one of those holds at a time."""
        return self._page.evaluate(REFUSED)["others"] if self._page else []

    @property
    def aside(self) -> list[str]:
        """The ids of signings, and of undos of one, that the server said no to: they count no more."""
        return self._page.evaluate(REFUSED)["signings"] if self._page else []

    def hear_it_out(self, patience_s: float) -> list[Json]:
        """Wait until all that counts has rung for the last time; gives what was due and not rung or told of.

        What a light device began by a clock that is minutes ahead, and what insists minutes later, is due when
        nobody here waits any more.
        """
        assert self._page is not None
        until, last = time.monotonic() + patience_s, time.time_ns() // 1_000_000 + patience_s * 1000
        while True:
            due = self._page.evaluate(DUE)
            silent = [ring for ring in due if ring["due"] < last and not self._is_said(ring, due)]
            if not silent:
                return []
            if time.monotonic() > until:
                return [ring for ring in silent if ring["due"] < time.time_ns() // 1_000_000 - EARLY_MS]
            self._page.wait_for_timeout(100)

    def close(self) -> None:
        self._context.close()

    def _is_said(self, ring: Json, due: list[Json]) -> bool:
        """It rang or was told of on opening, or a later one of its wait did, which overtakes it."""
        said = [{key: each[key] for key in ring} for each in [*self.rang, *self.told]]
        later = [each for each in due if (each["run"], each["step"]) == (ring["run"], ring["step"])]
        return any(each in said for each in later if each["due"] >= ring["due"])

    def _hear_ring(self, _source: Any, ring: Json) -> None:
        self.rang.append(ring)
        if ring["at"] < ring["due"] or ring["really"] < ring["due"] - EARLY_MS:
            self.early.append(ring)
