"""What the phone keeps, how it tells the time, what it rings: each in a real browser."""

from __future__ import annotations

import os
import re
import signal
import uuid
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright

from tests.conftest import WITHOUT_COPY
from tests.frontend.hands import NO_COPY
from tests.frontend.phones import BLANK, HOUR, MINUTE, begin, entries_of, open_phone, studio_server
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

JUST_BEFORE_NOON, NOON = "2027-03-01T11:59:00Z", "2027-03-01T12:00:01Z"


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    with pytest.MonkeyPatch.context() as environment:
        environment.setenv("BOWLSIDE_HOSTS", "studio.test")
        server = studio_server(tmp_path_factory.mktemp("keep") / "studio.sqlite3")
    yield server
    server.kill()


@pytest.fixture(scope="module")
def blank(browser: Browser, server: Server) -> Iterator[Page]:
    """For what leaves nothing behind on the page."""
    page = browser.new_page()
    page.goto(server.url + BLANK)
    yield page
    page.close()


@pytest.fixture
def phone(page: Page, server: Server) -> Page:
    return open_phone(page, server.url)


@pytest.fixture(scope="module")
def steady(browser: Browser, server: Server) -> Iterator[Page]:
    """A phone for tests whose runs may stand beside others, and that leave it as it is."""
    context = browser.new_context()
    context.add_init_script(WITHOUT_COPY)
    yield open_phone(context.new_page(), server.url)
    context.close()


# Ids


def test_an_id_is_a_uuid_of_version_7_with_its_milliseconds_in_front(blank: Page) -> None:
    made = uuid.UUID(blank.evaluate("async () => (await import('/keep/ids.js')).newId(1645557742000)"))

    assert (made.version, made.variant) == (7, uuid.RFC_4122)
    assert made.int >> 80 == 0x017F22E279B0  # the vector of RFC 9562, appendix A.6


def test_ids_never_repeat(blank: Page) -> None:
    count = "async () => { const { newId } = await import('/keep/ids.js');"
    count += "return new Set(Array.from({ length: 20000 }, () => newId(1))).size; }"

    assert blank.evaluate(count) == 20_000


# The disk


def test_a_disk_that_refuses_tells_the_failed_requests_own_reason(blank: Page) -> None:
    """A transaction has no error yet while its request's is told (Indexed Database API 3.0, fire an error event)."""
    says = blank.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore({ name: "refuses" });
            const put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = function (row) { put.call(this, row); return this.add(row); };
            try {
                await store.write({ meta: { put: [{ key: "a", value: 1 }] } });
                return "kept";
            } catch ({ says }) {
                return says;
            } finally {
                IDBObjectStore.prototype.put = put;
                store.close();
            }
        }"""
    )

    assert "ConstraintError" in says


FAIL_PUTS = """(how) => {
    const put = IDBObjectStore.prototype.put;
    window.mend = () => (IDBObjectStore.prototype.put = put);
    IDBObjectStore.prototype.put = function (...row) {
        if (how === "throws") throw new DOMException("no room", "QuotaExceededError");
        if (how === "aborts") {
            const { transaction } = this;
            Object.defineProperty(transaction, "error", { value: new DOMException("", "QuotaExceededError") });
            // As the browser does when the disk turns out full, be it told to end or not.
            transaction.commit = () => queueMicrotask(() => transaction.abort());
            window.mend();
        }
        return put.apply(this, row);
    };
}"""
TRY = """async (run) => {
    try {
        await studio.enter(run, "noted", { text: "does it fit?" });
        return "kept";
    } catch ({ name, says }) {
        return [name, says];
    }
}"""

# What a run and its bench say is what all its entries say, whatever was worked out while one was being written.
IS_FOLDED = """async (run) => {
    const { fold, now } = await import("/bench/index.js");
    const { sheet, entries, state } = studio.run(run);
    const [said, told] = [fold(sheet, entries), studio.bench(run)];
    const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
    return same(state, said) && same(told, now(sheet, said, told.at));
}"""


def test_a_full_phone_says_so_and_pretends_nothing(phone: Page) -> None:
    run = begin(phone)
    phone.route("**/api/**", lambda route: route.abort())
    for there, how in enumerate(("throws", "aborts")):
        phone.evaluate("() => studio.sync()")  # from here on nothing but the maker's own touch writes
        phone.evaluate(FAIL_PUTS, how)

        name, says = phone.evaluate(TRY, run)

        assert name == "StorageFull", how
        assert "Free some space" in says, how
        assert phone.evaluate("(run) => studio.run(run).entries.length", run) == there, how
        assert phone.evaluate(IS_FOLDED, run), how
        phone.evaluate("() => mend()")
        assert phone.evaluate(TRY, run) == "kept", how
        assert phone.evaluate(IS_FOLDED, run), how


def test_a_write_that_fails_half_way_leaves_nothing(blank: Page) -> None:
    left = blank.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const store = await openStore({ name: "halfway" });
            const unfit = { id: "second", run: "r", cannotBeKept: () => {} };
            const error = await store
                .write({ entries: { put: [{ id: "first", run: "r" }, unfit] } })
                .catch(({ name }) => name);
            return [error, (await store.read("entries")).entries];
        }"""
    )

    assert left == ["StorageFailed", []]


def test_a_write_that_fails_once_the_disk_has_answered_says_why_and_is_no_fault_of_the_page(
    blank: Page,
) -> None:
    """What is put only after something was read is refused as what is put at once is: by the promise, with the reason."""
    told = blank.evaluate(
        """async () => {
            const fail = FAIL_PUTS;
            const { openStore } = await import("/keep/store.js");
            const store = await openStore({ name: "later" });
            const row = { key: "a", value: 1 };
            await store.write({ meta: { put: [row] } });
            const faults = [];
            addEventListener("error", ({ message }) => faults.push(message));
            fail("throws");
            const named = (write) => write.then(() => "kept", ({ name }) => name);
            const refused = [
                await named(store.write({ meta: { put: [{ key: "a", value: 2 }] } }, { under: null })),
                await named(store.write({ meta: { mark: [{ key: "a", value: 3 }] } })),
                await named(store.revise("a", () => 4)),
            ];
            mend();
            return [refused, faults, (await store.read("meta")).meta];
        }""".replace("FAIL_PUTS", FAIL_PUTS)
    )

    assert told == [["StorageFull"] * 3, [], [{"key": "a", "value": 1}]]


def test_a_recipe_lies_as_text_is_read_when_asked_for_and_one_of_an_earlier_page_stays_readable(
    blank: Page,
) -> None:
    told = blank.evaluate(
        """async () => {
            const [{ openStore }, { Book }] = await Promise.all([import("/keep/store.js"), import("/keep/book.js")]);
            const store = await openStore({ name: "lain" });
            const [document, measured] = [{ note: "½ – ✓" }, { lines: [1] }];
            await store.write({ recipes: { put: [{ id: "old", version: 1, title: "Old", document, measured }] } });
            const book = await Book.open(store);
            await book.commit({ recipes: { put: [{ id: "new", version: 2, title: "New", document, measured }] } });
            await book.commit({ recipes: { put: [{ ...book.recipes.get("new"), tags: ["a"] }] } });
            const lies = (await store.read("recipes")).recipes.map((row) => [row.id, typeof row.text, "document" in row]);
            const again = (await Book.open(store)).recipes;
            const read = JSON.parse;
            let asked = 0;
            JSON.parse = (...given) => { asked += 1; return read(...given); };
            const head = [...again.values()].map(({ title }) => title);
            const before = asked;
            const whole = [...again.values()].map((row) => [row.document, row.measured, row.tags ?? null]);
            JSON.parse = read;
            store.close();
            return { lies, head, before, asked, whole };
        }"""
    )

    assert told["lies"] == [["new", "string", False], ["old", "undefined", True]]
    assert (told["head"], told["before"], told["asked"]) == (["New", "Old"], 0, 1)
    said = [{"note": "½ – ✓"}, {"lines": [1]}]
    assert told["whole"] == [[*said, ["a"]], [*said, None]]


def test_an_old_page_gives_way_to_a_newer_one_that_changes_the_disk(blank: Page) -> None:
    assert blank.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            const closed = new Promise((onClosed) => openStore({ name: "newer", onClosed: () => onClosed(true) }));
            await openStore({ name: "newer" }).then((store) => store.close());
            indexedDB.open("newer", 99);
            return closed;
        }"""
    )


def test_an_entry_survives_the_browser_being_killed(
    playwright: Playwright,
    browser_type_launch_args: dict[str, Any],
    server: Server,
    tmp_path: Path,
) -> None:
    def launch() -> BrowserContext:
        return playwright.chromium.launch_persistent_context(
            str(tmp_path / "profile"), **browser_type_launch_args
        )

    context = launch()
    page = open_phone(context.pages[0], server.url)
    run = begin(page)
    page.route("**/api/**", lambda route: route.abort())
    page.evaluate("(run) => studio.enter(run, 'noted', { text: 'kept?' })", run)
    for process in Path("/proc").iterdir():
        if process.name.isdigit() and str(tmp_path / "profile") in _command_line(process):
            os.kill(int(process.name), signal.SIGKILL)
    with pytest.raises(Exception, match="closed"):
        page.evaluate("() => new Promise(() => {})")

    again = launch()
    page = open_phone(again.pages[0], server.url, synced=False)
    texts = page.evaluate("(run) => studio.run(run).entries.map(({ body }) => body.text)", run)
    again.close()

    assert texts == ["kept?"]


def _command_line(process: Path) -> str:
    try:
        return (process / "cmdline").read_text()
    except OSError:
        return ""


# The clock

CLOCK = """async ([steps, offset]) => {
    const { Clock } = await import("/keep/clock.js");
    let wall = 1_000_000;
    let steady = 0;
    const clock = new Clock(offset, { wall: () => wall, steady: () => steady });
    const went = (ms) => { wall += ms; steady += ms; };
    const said = [];
    let ticket;
    const acts = {
        now: () => said.push(clock.now()),
        doubtful: () => said.push(clock.doubtful),
        goes: went,
        wall: (ms) => (wall += ms),
        ask: () => (ticket = clock.ask()),
        hear: (ms) => clock.hear(ms, ticket),
    };
    for (const [act, value] of steps) acts[act](value);
    return said;
}"""


@pytest.mark.parametrize(
    ("why", "steps", "said"),
    [
        ("it goes with the time", [["now"], ["goes", 5000], ["now"]], [1_000_000, 1_005_000]),
        (
            "a clock 7 minutes slow is right once the server was heard, half way through the trip",
            [["ask"], ["goes", 200], ["hear", 1_420_100], ["now"]],
            [1_420_200],
        ),
        (
            "an answer that agrees within its trip moves nothing, so countdowns do not jitter",
            [["ask"], ["goes", 200], ["hear", 1_000_190], ["now"]],
            [1_000_200],
        ),
        (
            "an answer that took long says too little",
            [["ask"], ["goes", 5000], ["hear", 9_000_000], ["now"]],
            [1_005_000],
        ),
        (
            "a clock set back is noticed and not believed",
            [["goes", 1000], ["wall", -HOUR], ["now"]],
            [1_001_000],
        ),
        (
            "a leap forward is a sleep, and is in doubt until the server was asked",
            [["wall", HOUR], ["now"], ["doubtful"]],
            [1_000_000 + HOUR, True],
        ),
        (
            "a clock set forward is put right by the server",
            [["wall", HOUR], ["ask"], ["goes", 100], ["hear", 1_000_050], ["now"], ["doubtful"]],
            [1_000_100, False],
        ),
        (
            "an answer asked for before a leap says nothing about after it",
            [["ask"], ["wall", HOUR], ["goes", 100], ["hear", 1_000_050], ["now"], ["doubtful"]],
            [1_000_100 + HOUR, True],
        ),
    ],
)
def test_the_clock(blank: Page, why: str, steps: list[Any], said: list[Any]) -> None:
    assert blank.evaluate(CLOCK, [steps, 0]) == said, why


def test_the_correction_is_kept_for_the_next_life_of_the_page(blank: Page) -> None:
    assert blank.evaluate(CLOCK, [[["now"]], 420_000]) == [1_420_000]


# The run


def test_an_entry_changes_the_state_once_it_is_kept(steady: Page) -> None:
    run = begin(steady)

    steady.evaluate("(run) => fill(run)", run)

    bench = steady.evaluate("(run) => studio.bench(run)", run)
    assert [wait["word"] for wait in bench["waits"]] == ["set"]


def test_entries_written_at_once_are_all_in_the_state(phone: Page) -> None:
    run = begin(phone)

    phone.evaluate(
        """(run) => Promise.all(["a", "b", "c"].map((text) => studio.enter(run, "noted", { text })))""", run
    )

    assert phone.evaluate("(run) => studio.run(run).entries.length", run) == 3
    assert phone.evaluate(IS_FOLDED, run)


def test_an_entry_is_later_than_all_the_run_holds_and_no_other_run_is_carried_along(phone: Page) -> None:
    ahead, other = begin(phone), begin(phone)
    phone.evaluate("() => studio.close()")
    phone.evaluate(
        """async (run) => {
            const { openStore } = await import("/keep/store.js");
            const entry = { id: "from-elsewhere", run, device: "other", at: studio.at() + 3_600_000, kind: "noted", body: {} };
            await (await openStore()).write({ entries: { put: [entry] } });
        }""",
        ahead,
    )
    open_phone(phone, phone.url.removesuffix(BLANK), synced=False)

    at = phone.evaluate(
        """async (runs) => {
            const made = await Promise.all(runs.map((run) => studio.enter(run, "noted", { text: "mine" })));
            return made.map(({ at }) => at - studio.at());
        }""",
        [ahead, ahead, other],
    )

    assert HOUR - MINUTE < at[0] < at[1] == at[0] + 1
    assert abs(at[2]) < MINUTE


def test_an_entry_that_was_put_right_after_its_journal_came_whole_stays_so_on_the_disk(phone: Page) -> None:
    run = begin(phone)
    phone.evaluate(
        """async (run) => {
            const { openStore } = await import("/keep/store.js");
            const { whole } = await import("/keep/texts.js");
            const entry = (id, at) => ({ id, run, device: "other", at, kind: "noted", body: { text: id } });
            const store = await openStore();
            // Both ids stand before and after the row that the journal is.
            await store.write({ entries: { put: [whole(run, [entry("!", 1), entry("~", 2), entry("as it came", 3)])] } });
            await store.write({ entries: { put: [entry("!", 11), entry("~", 12)] } });
            studio.close();
        }""",
        run,
    )
    open_phone(phone, phone.url.removesuffix(BLANK), synced=False)

    assert phone.evaluate(
        """(run) => studio.run(run).entries.filter(({ device }) => device === "other").map(({ id, at }) => [id, at])""",
        run,
    ) == [["as it came", 3], ["!", 11], ["~", 12]]


UNDOES = """async () => {
    const { undoing } = await import("/keep/undoing.js");
    const { lessUndone } = await import("/bench/entries.js");
    let seed = 7;
    const chance = (most) => (seed = (seed * 48271) % 2147483647) % most;
    for (let round = 0; round < 300; round += 1) {
        const entries = [{ id: "n", kind: "numbered", device: "me", body: {} }];
        let [did, undid] = [[], []];
        for (let step = 0; step < 25; step += 1) {
            const add = (kind, device, body = {}) => entries.push({ id: `${step}`, kind, device, body }) && `${step}`;
            const { undo, redo } = undoing(entries, "me");
            if ((undo?.id ?? null) !== (did.at(-1) ?? null)) return { undo, did, entries };
            if ((redo?.deed.id ?? null) !== (undid.at(-1) ?? null)) return { redo, undid, entries };
            const what = chance(5);
            if (what === 0) add("noted", "another");
            else if (what === 1 && undo) { add("undone", "me", { entry: undo.id }); undid.push(did.pop()); }
            else if (what === 2 && redo) { add("undone", "me", { entry: redo.undo.id }); did.push(undid.pop()); }
            else { did.push(add("noted", "me")); undid = []; }
        }
        const stands = lessUndone(entries).filter(({ kind, device }) => kind === "noted" && device === "me").map(({ id }) => id);
        if (stands.join() !== did.join()) return { stands, did };
    }
    const signed = [{ id: "a", kind: "noted", device: "me", body: {} }, { id: "s", kind: "signed", device: "me", body: {} }];
    return undoing(signed, "me", ["a", "s"]);
}"""


def test_undo_and_redo_go_as_on_a_stack_and_never_to_a_number_a_signing_or_another_phones(
    blank: Page,
) -> None:
    """300 random walks against a stack; what is signed stands."""
    assert blank.evaluate(UNDOES) == {"undo": None, "redo": None}


def test_only_the_run_that_changed_is_folded_again(steady: Page) -> None:
    runs = [begin(steady), begin(steady)]

    same = steady.evaluate(
        """async ([one, other]) => {
            const before = [one, other].map((run) => studio.run(run).state);
            await studio.enter(one, "noted", { text: "" + 1 });
            return [one, other].map((run, index) => studio.run(run).state === before[index]);
        }""",
        runs,
    )

    assert same == [False, True]


def test_another_tab_of_the_phone_shows_it_at_once(
    phone: Page, context: BrowserContext, server: Server
) -> None:
    run = begin(phone)
    other = open_phone(context.new_page(), server.url)
    other.evaluate(
        """(run) => {
            window.heard = new Promise((done) => studio.addEventListener("change", ({ detail }) => {
                if (detail.run === run && studio.run(run).entries.length) done(studio.run(run).state.notes[0].text);
            }));
        }""",
        run,
    )

    phone.evaluate("(run) => studio.enter(run, 'noted', { text: 'from the first tab' })", run)

    assert other.evaluate("() => heard") == "from the first tab"
    assert other.evaluate("() => studio.device") == phone.evaluate("() => studio.device")


def test_a_preference_is_kept(phone: Page) -> None:
    phone.evaluate("() => studio.setPreference('theme', 'night')")
    phone.reload()
    open_phone(phone, phone.url.removesuffix(BLANK))

    assert phone.evaluate("() => studio.preferences") == {
        "sound": True,
        "speech": False,
        "theme": "night",
        "language": "",  # as the phone's
        "mass": "g",
        "warmth": "c",
        "weigh": "running",
    }


# Rings

START_WAIT = "async (run) => { await fill(run); return studio.bench(run).waits[0]; }"


@pytest.fixture
def clocked(page: Page, server: Server) -> Page:
    """A phone on whose page time goes as the test says. It heard of the recipe, and of no other run;
    now it does not reach the server, whose time goes its own way."""
    no_runs = {"runs": [], "page": 1, "pages": 0, "total": 0}
    page.context.route(re.compile(r"/runs(/whole)?\?"), lambda route: route.fulfill(json=no_runs))
    open_phone(page, server.url)
    page.evaluate("() => studio.close()")
    page.context.route("**/api/**", lambda route: route.abort())
    page.clock.install(time=JUST_BEFORE_NOON)  # it runs until it is paused
    page.clock.pause_at(NOON)
    return open_phone(page, server.url, synced=False)


def pass_by(phone: Page | BrowserContext, ms: int) -> None:
    """Time passes in which the phone sleeps but for the last minute, which it ticks through second by second."""
    phone.clock.fast_forward(ms - MINUTE)
    phone.clock.run_for(MINUTE)


def settle(page: Page) -> None:
    """Let what is under way on the page's disk come to its end; no timer of the page is involved."""
    page.evaluate(
        """async () => {
            const { openStore } = await import("/keep/store.js");
            for (let times = 0; times < 3; times += 1) await (await openStore()).revise("settled", () => times);
        }"""
    )


def test_each_ring_comes_once_and_never_early(clocked: Page) -> None:
    wait = clocked.evaluate(START_WAIT, begin(clocked))
    warned = wait["latest_at"] - HOUR  # the last tenth of 12 hours is more than an hour
    heard = []
    for due in (wait["earliest_at"], wait["usual_at"], warned, wait["latest_at"]):
        pass_by(clocked, due - 1000 - clocked.evaluate("() => studio.at()"))
        settle(clocked)
        heard.append(len(clocked.evaluate("() => rings")))
        clocked.clock.run_for(1000)
        settle(clocked)

    rings = clocked.evaluate("() => rings")

    assert heard == [0, 1, 2, 3]
    assert [ring["phase"] for ring in rings] == ["look", "ready", "late", "over"]
    assert [ring["at"] - ring["due"] for ring in rings] == [0, 0, 0, 0]


def test_after_a_sleep_the_last_ring_of_a_wait_rings_and_what_was_missed_is_told(clocked: Page) -> None:
    clocked.evaluate(START_WAIT, begin(clocked))
    before = clocked.evaluate("() => studio.at()")
    clocked.clock.set_system_time("2027-03-01T15:00:00Z")  # the phone slept: no timer ran
    clocked.clock.run_for(2 * MINUTE)
    settle(clocked)
    clocked.clock.run_for(5000)
    settle(clocked)

    assert [ring["phase"] for ring in clocked.evaluate("() => rings")] == ["ready"]
    missed = clocked.evaluate(
        "(since) => studio.missed(since).map(({ phase, wait }) => [phase, wait.title])", before
    )
    assert missed == [["ready", "Let it set"]]


def test_a_reload_does_not_ring_again_and_tells_what_was_missed(clocked: Page) -> None:
    clocked.evaluate(START_WAIT, begin(clocked))
    pass_by(clocked, 60 * MINUTE + 30_000)
    settle(clocked)
    assert [ring["phase"] for ring in clocked.evaluate("() => rings")] == ["look"]
    url = clocked.url.removesuffix(BLANK)

    clocked.goto("about:blank")
    clocked.clock.set_system_time("2027-03-01T14:30:00Z")
    open_phone(clocked, url, synced=False)
    clocked.clock.run_for(1000)
    settle(clocked)

    assert [ring["phase"] for ring in clocked.evaluate("() => rings")] == ["ready"]
    assert [missed["phase"] for missed in clocked.evaluate("() => studio.missed()")] == ["ready"]


def test_two_tabs_of_a_phone_ring_once_between_them(clocked: Page, context: BrowserContext) -> None:
    url = clocked.url.removesuffix(BLANK)
    run = begin(clocked)
    other = open_phone(context.new_page(), url, synced=False)
    clocked.evaluate(START_WAIT, run)
    settle(other)
    assert len(other.evaluate("() => studio.waits()")) == 1

    pass_by(context, 60 * MINUTE + 30_000)
    settle(clocked)
    settle(other)

    assert len(clocked.evaluate("() => rings") + other.evaluate("() => rings")) == 1


def test_waits_of_all_open_runs_stand_most_urgent_first(clocked: Page) -> None:
    first = begin(clocked)
    clocked.evaluate(START_WAIT, first)
    pass_by(clocked, 90 * MINUTE)
    second = begin(clocked)
    clocked.evaluate(START_WAIT, second)

    waits = clocked.evaluate(
        "() => studio.waits().map(({ run, phase, run_name, what }) => [run, phase, run_name, what])"
    )

    assert waits == [[first, "look", "Plain bar", "wait"], [second, "counting", "Plain bar", "wait"]]


# Ears, voice and screen

RENDER = """async (kind) => {
    const { ringLength, scheduleRing } = await import("/sense/sounds.js");
    const rate = 16_000;
    const context = new OfflineAudioContext(1, Math.ceil(rate * (ringLength(kind) + 0.1)), rate);
    scheduleRing(context, kind, 0);
    const wave = (await context.startRendering()).getChannelData(0);
    let loudest = 0;
    let energy = 0;
    for (const value of wave) { loudest = Math.max(loudest, Math.abs(value)); energy += value * value / rate; }
    const first = wave.subarray(0.03 * rate, 0.11 * rate); // the first note, without its edges
    const power = (hz) => {
        let re = 0; let im = 0;
        first.forEach((value, index) => {
            const hann = 1 - Math.cos(2 * Math.PI * index / first.length);
            re += hann * value * Math.cos(2 * Math.PI * hz * index / rate);
            im += hann * value * Math.sin(2 * Math.PI * hz * index / rate);
        });
        return re * re + im * im;
    };
    let fundamental = 0;
    for (let hz = 100; hz < 1100; hz += 1) if (!fundamental || power(hz) > power(fundamental)) fundamental = hz;
    const below = (hz) => 10 * Math.log10(power(fundamental) / power(hz));
    return {
        seconds: ringLength(kind), loudest, energy, fundamental,
        harmonics: [2, 3, 4, 5].map((times) => ({ hz: times * fundamental, below: below(times * fundamental) })),
    };
}"""


def test_a_ring_is_rich_enough_to_carry_over_a_mixer_and_they_differ_and_insist_the_later_it_is(
    blank: Page,
) -> None:
    """The shape that IEC 60601-1-8 asks of alarm sounds, as a second-hand source gives it."""
    sounds = {kind: blank.evaluate(RENDER, kind) for kind in ("look", "ready", "late", "over")}

    for kind, sound in sounds.items():
        assert 150 <= sound["fundamental"] <= 1000, kind
        assert all(
            300 <= harmonic["hz"] <= 4000 and abs(harmonic["below"]) <= 15 for harmonic in sound["harmonics"]
        ), kind
        assert sound["loudest"] <= 1.0, kind

    look, ready, late, over = sounds.values()
    assert len({round(sound["fundamental"] / 20) for sound in (look, ready, late)}) == 3
    assert look["energy"] < ready["energy"] < late["energy"] < over["energy"]
    assert late["seconds"] > 2 * ready["seconds"] > 2 * look["seconds"] * 1.2


def test_sound_is_let_out_by_the_first_touch(page: Page, server: Server) -> None:
    page.add_init_script(
        """addEventListener("DOMContentLoaded", async () => {
            const { senses } = await import("/sense/index.js");
            addEventListener("pointerdown", async () => (window.unlocked = await senses.unlock()));
            window.listening = true;
        });"""
    )
    page.goto(server.url + BLANK)
    page.wait_for_function("() => window.listening")

    page.mouse.click(50, 50)

    page.wait_for_function("() => window.unlocked === true")


def test_it_says_and_says_again(page: Page, server: Server) -> None:
    page.add_init_script("window.said = []; speechSynthesis.speak = ({ text }) => said.push(text);")
    page.goto(server.url + BLANK)

    page.evaluate(
        "async () => { const { senses } = await import('/sense/index.js'); senses.say('612 grams'); senses.sayAgain(); }"
    )

    assert page.evaluate("() => said") == ["612 grams", "612 grams"]


def test_the_screen_is_held_on_again_each_time_the_page_comes_back(page: Page, server: Server) -> None:
    page.add_init_script(
        """window.asked = 0;
        navigator.wakeLock.request = async () => {
            asked += 1;
            window.held = new EventTarget();
            held.release = async () => held.dispatchEvent(new Event("release"));
            return held;
        };
        window.show = (state) => {
            Object.defineProperty(document, "visibilityState", { value: state, configurable: true });
            if (state === "hidden") held.release(); // as a phone does
            document.dispatchEvent(new Event("visibilitychange"));
        };"""
    )
    page.goto(server.url + BLANK)

    asked = page.evaluate(
        """async () => {
            const { senses } = await import("/sense/index.js");
            const counts = [];
            const note = async () => counts.push(asked);
            await Promise.all([senses.awake(true), senses.awake(true)]); await note();
            show("hidden"); await note();
            show("visible"); await note();
            await senses.awake(false); show("hidden"); show("visible"); await note();
            return counts;
        }"""
    )

    assert asked == [1, 1, 2, 2]


def test_a_phone_that_says_no_to_that_is_not_asked_again_at_every_touch(page: Page, server: Server) -> None:
    page.add_init_script(
        """window.asked = 0;
        navigator.wakeLock.request = async () => {
            asked += 1;
            throw new DOMException("low on power", "NotAllowedError");
        };"""
    )
    page.goto(server.url + BLANK)

    told = page.evaluate(
        """async () => {
            const { senses } = await import("/sense/index.js");
            const counts = [];
            for (const on of [true, true, true, false, true]) {
                await senses.awake(on);
                counts.push([asked, senses.mayGoDark()]);
            }
            document.dispatchEvent(new Event("visibilitychange"));
            return [...counts, asked];
        }"""
    )

    assert told == [[1, True], [1, True], [1, True], [1, False], [2, True], 3]


# Plain http


def test_over_plain_http_it_works_while_open_and_says_what_it_cannot(
    playwright: Playwright, browser_type_launch_args: dict[str, Any], server: Server
) -> None:
    arguments = [*browser_type_launch_args.get("args", []), "--host-resolver-rules=MAP studio.test 127.0.0.1"]
    browser: Browser = playwright.chromium.launch(**{**browser_type_launch_args, "args": arguments})
    page = open_phone(browser.new_page(), server.url.replace("127.0.0.1", "studio.test"))
    run = begin(page)

    page.evaluate("(run) => fill(run)", run)
    page.evaluate("() => studio.sync()")
    link = page.evaluate("() => studio.link")
    browser.close()

    assert len(entries_of(server, run)) == 2
    assert (link["secure"], link["durable"], link["kept"], link["unsent"]) == (False, False, False, 0)
    assert len(link["cannot"]) == 3
    assert all(each["because"] == "insecure" for each in link["cannot"])


def test_over_a_secure_address_only_what_is_missing_is_said(steady: Page) -> None:
    link = steady.evaluate("() => studio.link")

    assert link["secure"]
    assert not any(each["because"] == "insecure" for each in link["cannot"])
