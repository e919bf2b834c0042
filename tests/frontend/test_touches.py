"""Touches, forms and timers: none is lost, whatever else hangs, and each thing is said where it belongs."""

from __future__ import annotations

import json
import re
from typing import Any
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Page, Route, expect

from tests.frontend.hands import NO_COPY, type_on_pad
from tests.frontend.phones import RECIPE, RECIPE_ID, call, eventually
from tests.frontend.touching import touch_at_random
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY, pytest.mark.usefixtures("faultless")]

# A phone that grants its screen lock, and tells whether it is held.
SCREEN_LOCK = """() => {
    window.locked = false;
    const request = async () => {
        const held = new EventTarget();
        window.locked = true;
        held.release = async () => { window.locked = false; held.dispatchEvent(new Event("release")); };
        return held;
    };
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
}"""


# Touches the strong answer in the very frame in which it stands, and reloads in the one in which it shows as done.
TOUCH_AT_ONCE = """() => {
    if (sessionStorage.getItem("touched")) return;
    const title = () => document.querySelector("bench-screen h1")?.textContent;
    const leave = (was) => title() === was ? requestAnimationFrame(() => leave(was)) : location.reload();
    const touch = () => {
        const button = document.querySelector("answer-row .copper");
        if (!button?.checkVisibility({ visibilityProperty: true })) return requestAnimationFrame(touch);
        const { left, top, width, height } = button.getBoundingClientRect();
        const there = document.elementFromPoint(left + width / 2, top + height / 2)?.closest("button");
        sessionStorage.setItem("touched", there === button ? "taken" : "lost");
        const was = title();
        there?.click();
        leave(was);
    };
    touch();
}"""


def begin_bar(page: Page, server: Server) -> str:
    """The one recipe begun on this phone; its run."""
    page.goto(server.url)
    page.locator(".recipe").click()
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("bench-screen h1")).to_contain_text("butter")
    return page.url.rsplit("/", 1)[1]


def go(page: Page, address: str, screen: str) -> None:
    page.evaluate("address => { location.hash = address; }", address)
    expect(page.locator(screen)).to_be_visible()


def kinds(page: Page, run: str) -> list[str]:
    """The kinds of the run's entries as they lie on the phone's disk."""
    found: list[str] = page.evaluate(
        """run => new Promise((resolve, reject) => {
            const opening = indexedDB.open("bowlside");
            opening.onerror = reject;
            opening.onsuccess = () => {
                const asked = opening.result.transaction("entries").objectStore("entries").index("run").getAll(run);
                asked.onsuccess = () => {
                    opening.result.close();
                    resolve(asked.result.sort((a, b) => a.at - b.at).map(({ kind }) => kind));
                };
            };
        })""",
        run,
    )
    return found


def test_a_touch_keeps_its_target_whatever_hangs_and_wherever_the_maker_is_by_then(
    page: Page, home: Server
) -> None:
    page.add_init_script(f"({SCREEN_LOCK})()")
    hanging: list[Route] = []
    page.route(
        "**/api/v1/kit",
        lambda route: hanging.append(route) if route.request.method == "PUT" else route.continue_(),
    )
    run = begin_bar(page, home)
    title = page.locator("bench-screen h1")
    undo, redo = (page.get_by_role("button", name=re.compile(f"^{verb}")) for verb in ("Undo", "Redo"))
    expect(undo).to_have_count(0)  # an untouched batch keeps its number

    # A save of the kit hangs, and the bench takes what is touched all the same; three on one answer are one.
    go(page, "#/kit", "kit-screen")
    with page.expect_request("**/api/v1/kit"):
        page.get_by_role("button", name="Save kit").click()
    go(page, f"#/bench/{run}", "bench-screen")
    expect(page.locator("answer-row[data-settling]")).to_have_count(0)
    page.evaluate(
        "() => { for (const _ of [1, 2, 3]) document.querySelector('answer-row .copper').click(); }"
    )
    expect(title).to_contain_text("oil")
    page.get_by_role("button", name="It reads something else").click()
    type_on_pad(page, "190")

    # Back with the pad open: it closes with its screen, and its reading was never accepted.
    page.go_back()
    expect(page.locator("kit-screen")).to_be_visible()
    expect(page.locator("dialog")).to_have_count(0)
    assert kinds(page, run) == ["numbered", "weighed"]

    # The kit's answer is said where it was asked for, and not at the bench.
    page.go_forward()
    expect(title).to_contain_text("oil")
    for route in hanging:
        route.continue_()
    expect(page.locator("bench-screen .trouble")).to_be_hidden()

    # Answered on the pad and left in the same moment: what was accepted is kept, in its own run.
    page.get_by_role("button", name="It reads something else").click()
    type_on_pad(page, "200")
    page.evaluate(
        """() => { document.querySelector("dialog.pad [value=given]").click(); location.hash = "#/studio"; }"""
    )
    expect(page.locator("studio-screen")).to_be_visible()
    go(page, f"#/bench/{run}", "bench-screen")
    expect(title).to_have_text("Let it set")
    assert kinds(page, run) == ["numbered", "weighed", "weighed"]

    # An undo says what it undoes, before and after; so does the redo; neither hides the prompt that is read out.
    expect(undo).to_have_text("Undo: Light oil 50 g")
    undo.click()
    expect(title).to_contain_text("oil")
    expect(page.get_by_role("status").filter(has_text="Undone")).to_have_text("Undone: Light oil 50 g.")
    expect(page.locator("bench-screen [aria-live]").last).to_contain_text("Light oil")
    expect(undo).to_have_text("Undo: Hard butter 150 g")
    expect(redo).to_have_text("Redo: Light oil 50 g")
    redo.click()
    expect(title).to_have_text("Let it set")
    expect(redo).to_have_count(0)

    # Something counts now: the screen is held on wherever the maker looks.
    for address, screen in (("day", "day"), ("gather", "gather"), ("record", "record")):
        go(page, f"#/{address}/{run}", f"{screen}-screen")
        assert page.evaluate("() => locked"), address
    for address, screen in (("", "recipes"), ("shelf", "shelf"), ("nobody/knows", "recipes")):
        go(page, f"#/{address}", f"{screen}-screen")
        assert page.evaluate("() => locked"), address


def test_the_first_touch_of_a_page_is_taken_and_what_shows_as_done_is_on_the_disk(
    page: Page, home: Server
) -> None:
    run = begin_bar(page, home)
    page.add_init_script(f"({TOUCH_AT_ONCE})()")

    page.reload()

    page.wait_for_function(
        "() => sessionStorage.getItem('touched') === 'taken'"
    )  # then the page is left at once
    expect(page.locator("bench-screen h1")).to_contain_text("oil")
    page.wait_for_load_state()
    assert kinds(page, run) == ["numbered", "weighed"]


# A disk with no room, until it has some.
FULL = """full => {
    window.room ??= IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = full
        ? function () { throw new DOMException("no room", "QuotaExceededError"); }
        : window.room;
}"""


def test_what_was_written_is_there_still_when_the_disk_takes_it_at_last(page: Page, server: Server) -> None:
    """Every dialog is closed by the time the disk says no: what was given in it is given again with one touch."""
    run = begin_bar(page, server)  # whose shelf is empty: else what comes is asked for among what is there
    lot = {"Trade name": "Kaolin", "How much": "1 kg", "Supplier's lot number": "KL 5"}
    written = (
        (f"#/record/{run}", "record", "A note", {"": "Rain all day"}, "Rain all day"),
        ("#/shelf", "shelf", "Receive a lot", lot, "Kaolin"),
        (f"#/bench/{run}", "bench", "It reads something else", {}, "oil"),
    )
    for address, name, opens, fields, then in written:
        go(page, address, f"{name}-screen")
        page.evaluate(FULL, True)
        page.get_by_role("button", name=opens).first.click()
        dialog = page.get_by_role("dialog")
        for label, text in fields.items():
            (dialog.get_by_label(label, exact=True) if label else dialog.get_by_role("textbox")).fill(text)
        if not fields:
            type_on_pad(page, "152")
        dialog.locator("[type=submit].copper").click()

        asked = page.get_by_role("dialog", name="Not saved")
        expect(asked).to_contain_text("What you wrote is still here.")
        asked.get_by_role("button", name="Save again").click()
        expect(asked).to_be_visible()  # there is no room yet
        go(page, "#/studio", "studio-screen")
        page.evaluate(FULL, False)
        asked.get_by_role("button", name="Save again").click()

        expect(asked).to_have_count(0)
        go(page, address, f"{name}-screen")
        expect(page.locator(f"{name}-screen")).to_contain_text(then)


KIT = {
    "format": "bowlside-kit/1",
    "scales": [{"id": "bench", "name": "Bench scale", "capacity": "5 kg", "division": "1 g"}],
    "vessels": [{"id": "bowl", "name": "Mixing bowl", "kind": "bowl", "empty": "400 g", "holds": "3 kg"}],
}
# Where something is typed: the address, the field, and what is typed in it. RUN is a finished batch. The size comes
# first, while the recipe has no summary: the one that news brings has its place.
TYPED = (
    ("#/size/RECIPE", "bars", "12"),
    ("#/", "Find anything", "261"),
    ("#/recipe/RECIPE", "Title", "Plain bar, softer"),
    ("#/day/RUN", "Each day", "8:00 to 11:00"),
    ("#/record/RUN", "Signed off by", "Ada"),
    ("#/label/RUN", "Common name or purpose", "bath bar"),
    ("#/shelf", "Find by name", "butter"),
    ("#/kit", "Weighs empty", "431 g"),
    ("#/studio", "Name and address for labels", "Ada, 3 Mill Lane"),
    ("#/bring", "The recipe as text", "{}"),
)
# What is typed, where the caret is, and where on the glass it stands.
STANDS = """() => {
    const { value, selectionStart } = document.activeElement;
    return [value, selectionStart, document.activeElement.getBoundingClientRect().top];
}"""
DRAWN = "() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(drawn))))"


def news_from_elsewhere(page: Page, home: Server, turn: int) -> None:
    """Everything that another device can change, and another tab, and a round that fails before."""
    page.context.set_offline(True)
    with page.expect_event("requestfailed"):
        page.evaluate("() => dispatchEvent(new Event('online'))")
    page.evaluate(DRAWN)
    page.context.set_offline(False)
    for name in ("kit", "settings", "hours"):
        document = call(home, "GET", name)["document"]
        if name == "kit":
            document["vessels"][0]["empty"] = f"{400 + turn} g"
        elif name == "settings":
            document["maker"] = f"Bea, {turn} Hill Road"
        else:
            document["makers"][0]["hours"]["daily"] = [[f"{6 + turn % 3}:00", "20:00"]]
        put(home, name, document)
    put(home, f"recipes/{RECIPE_ID}", {**RECIPE, "summary": f"Changed {turn} times."})
    # Comes last: the day asks for its hours when something happened in its batch.
    page.evaluate("() => other.enter(other.runs[0].id, 'noted', { text: 'from another tab' })")
    page.evaluate("() => dispatchEvent(new Event('online'))")
    page.wait_for_function(
        """turn => other.kitDocument.vessels[0].empty === `${400 + turn} g`
            && other.recipes[0].document.summary === `Changed ${turn} times.`""",
        arg=turn,
        polling=50,
    )
    page.evaluate(DRAWN)


def put(home: Server, path: str, document: Any) -> None:
    asked = Request(
        f"{home.url}api/v1/{path}",
        json.dumps(document).encode(),
        {"Content-Type": "application/json", "If-Match": "*"},
        method="PUT",
    )
    urlopen(asked).close()


def test_what_is_typed_stands_while_every_screen_is_drawn_anew(page: Page, server: Server) -> None:
    """Its value, its caret, its focus and how far down the page is, on every screen that has a field."""
    page.set_viewport_size({"width": 390, "height": 500})
    put(server, "kit", KIT)
    run = begin_bar(page, server)
    page.evaluate(
        """async run => {
            const { openStudio } = await import("/keep/studio.js");
            window.other = await openStudio(); // as another tab of this phone
            const { lines } = other.run(run).sheet;
            for (const { id, mg } of lines) await other.enter(run, "weighed", { line: id, mg });
            await other.enter(run, "finished");
        }""",
        run,
    )
    for turn, (address, name, typed) in enumerate(TYPED):
        screen = "recipes" if address == "#/" else address.split("/")[1]
        to = address.replace("RECIPE", RECIPE_ID).replace("RUN", run)
        go(page, to, f"{screen}-screen")
        field = page.locator("input, textarea").and_(page.get_by_label(name)).first
        field.fill("")
        page.keyboard.type(typed)
        page.keyboard.press("ArrowLeft")
        before = page.evaluate(STANDS)
        assert before[:2] == [typed, len(typed) - 1], address

        news_from_elsewhere(page, server, turn)

        after = page.evaluate(STANDS)
        assert after[:2] == before[:2], address
        assert abs(after[2] - before[2]) < 4, address
        theirs = page.get_by_role("status").filter(has_text="Saved elsewhere")
        expect(theirs).to_have_count(1 if screen in ("day", "kit", "studio") else 0)
        if screen == "kit":  # and it can be taken
            theirs.get_by_role("button", name="Use that").click()
            expect(field).to_have_value(f"{400 + turn} g")
        if screen == "record":  # signed without a name, then with one: the error goes
            field.fill("")
            page.get_by_role("button", name="Sign the record").click()
            expect(page.locator("record-screen .trouble")).to_be_visible()
            field.fill(typed)
            page.get_by_role("button", name="Sign the record").click()
            expect(page.locator("record-screen")).to_contain_text(f"Signed{typed}")
            expect(page.locator("record-screen .trouble")).to_be_hidden()


# A phone whose sound goes by the page's own clock, and tells when each note is to sound, and which were taken off.
SOUND = """() => {
    window.notes = [];
    window.AudioContext = class extends EventTarget {
        state = "running";
        began = Date.now();
        destination = {};
        get currentTime() { return (Date.now() - this.began) / 1000; }
        async resume() {}
        createPeriodicWave() { return {}; }
        createGain() { return { gain: { setValueAtTime() {}, linearRampToValueAtTime() {} }, connect: (to) => to }; }
        createOscillator() {
            const note = { off: false };
            notes.push(note);
            const start = (at) => { note.at = this.began + at * 1000; };
            return { frequency: {}, setPeriodicWave() {}, connect: (to) => to, start, stop() {}, disconnect: () => { note.off = true; } };
        }
    };
    window.said = [];
    speechSynthesis.speak = ({ text }) => text && said.push(text);
}"""
TOLD = "() => notes.filter(({ off }) => !off).map(({ at }) => Math.round((at - Date.now()) / 1000))"
TWO_LOOKS, A_READY = 4, 3  # how many notes they are of (sense/sounds.js)
MINUTE = 60_000


def test_each_ring_is_laid_ahead_says_whose_it_is_and_a_sleep_is_told_in_one(
    page: Page, server: Server
) -> None:
    page.add_init_script(f"({SOUND})()")
    page.clock.install()
    begin_bar(page, server)
    page.clock.run_for(1_000)
    go(page, "#/studio", "studio-screen")
    will = page.get_by_role("region", name="Will it ring?")
    expect(will.get_by_role("status")).to_have_text("It will ring.")
    expect(will.locator(".ringing li")).to_have_count(5)
    page.get_by_label("Say each step aloud").check()
    for _ in range(2):
        begin_bar(page, server)
        page.clock.run_for(1_000)
        page.locator("answer-row .copper").click()
        expect(page.locator("bench-screen h1")).to_contain_text("oil")
        page.clock.run_for(1_000)
        page.locator("answer-row .copper").click()
        expect(page.locator("bench-screen h1")).to_have_text("Let it set")
    assert "add 50 g. 200 g" in " ".join(page.evaluate("() => said"))
    server.stop()  # else it would set the fake clock right

    # Before its time the ring lies on the sound's clock; an undo takes it off, and a redo lays it again. How long the
    # machine took between the two batches is not known, so the clock goes on until both are laid.
    for minutes in (25, 25, 6):
        page.clock.fast_forward(minutes * MINUTE)
        page.clock.run_for(1_000)
    assert page.evaluate(TOLD) == []
    for _ in range(60):
        page.clock.run_for(2_000)
        if len(page.evaluate(TOLD)) == TWO_LOOKS:
            break
    assert 60 < max(page.evaluate(TOLD)) <= 120
    page.get_by_role("button", name=re.compile("^Undo: Light oil")).click()
    expect(page.locator("bench-screen h1")).to_contain_text("oil")
    eventually(page, lambda: len(page.evaluate(TOLD)) == TWO_LOOKS / 2)
    page.get_by_role("button", name=re.compile("^Redo: Light oil")).click()
    expect(page.locator("bench-screen h1")).to_have_text("Let it set")
    eventually(page, lambda: len(page.evaluate(TOLD)) == TWO_LOOKS)

    # It rings once, and says the batch, the part and what is asked.
    page.clock.run_for(2 * MINUTE)
    assert len(page.evaluate(TOLD)) == TWO_LOOKS
    expect(page.locator(".rang")).to_contain_text(re.compile(r"Bar, Let it set: may be ready, check\."))
    page.clock.run_for(1_000)  # until the answers take a touch
    page.locator("answer-row button").first.click()
    expect(page.locator(".rang")).to_be_hidden()  # answered, so it is said no longer
    page.get_by_role("button", name="Undo: finish").click()  # the last step's end was the batch's
    page.get_by_role("button", name=re.compile("^Undo: Let it set")).click()
    expect(page.get_by_role("button", name=re.compile("^Redo: Let it set"))).to_be_visible()

    # Two hours frozen in sight: one ring, and one summary of all that was missed.
    page.evaluate("() => { notes.length = 0; said.length = 0; }")
    page.clock.fast_forward("02:10:00")
    page.clock.run_for(30_000)
    missed = page.get_by_role("dialog")
    expect(missed).to_have_count(1)
    expect(missed.get_by_role("listitem").filter(has_text="ready")).to_have_count(2)
    eventually(page, lambda: page.evaluate("() => notes.length"))
    assert page.evaluate("() => notes.length") == A_READY
    eventually(
        page, lambda: page.evaluate("() => said.filter((words) => !words.startsWith('Undone')).length")
    )
    assert page.evaluate("() => said.filter((words) => !words.startsWith('Undone')).length") == 1


def test_no_touch_is_lost_by_random_hands(page: Page, server: Server) -> None:
    """A small one of the 10,000 touches of `python -m tests.perf touches`."""
    told = touch_at_random(page, server, touches=60, seed=20261129)

    # Hands that come to the end of all four batches sooner have nothing left to touch.
    assert {**told, "told": told["told"] >= 40} == {"told": True, "lost": [], "missing": [], "added": []}


# Sixty finished batches put on the phone's disk, copies of the one that is there, and what the page reads of them.
FINISHED = """async ([run, many]) => {
    const { openStore } = await import("/keep/store.js");
    const { newId } = await import("/keep/ids.js");
    const store = await openStore();
    const [row] = (await store.runs([run])).runs;
    const { entries } = await store.runs([run]);
    for (let each = 0; each < many; each += 1) {
        const id = newId(Date.now());
        const copy = (entry) => ({ ...entry, id: newId(entry.at), run: id });
        await store.write({ runs: { put: [{ ...row, id }] }, entries: { put: entries.map(copy) } });
    }
    store.close();
}"""
NOTED = """async many => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    const noted = async () => Object.keys((await store.read("meta")).meta.find(({ key }) => key === "closed")?.value ?? {});
    while ((await noted()).length < many) await new Promise((go) => setTimeout(go, 50));
    store.close();
}"""
READ = """() => {
    window.read = 0;
    const getAll = IDBIndex.prototype.getAll;
    IDBIndex.prototype.getAll = function (...asked) { window.read += 1; return getAll.apply(this, asked); };
}"""


def test_opening_reads_open_batches_only_and_the_finished_ones_come_after(page: Page, server: Server) -> None:
    run = begin_bar(page, server)
    page.evaluate(
        """async run => {
            const { openStudio } = await import("/keep/studio.js");
            const studio = await openStudio();
            for (const { id, mg } of studio.run(run).sheet.lines) await studio.enter(run, "weighed", { line: id, mg });
            await studio.enter(run, "finished");
            await studio.sync();
            studio.close();
        }""",
        run,
    )
    page.goto(f"{server.url}keep/ids.js")
    page.evaluate(FINISHED, [run, 12])
    page.goto(server.url)
    made = page.locator("a[href^='#/record/']")
    expect(made).to_have_count(12)
    expect(page.get_by_role("button", name="All 13 batches made")).to_be_visible()
    page.evaluate(NOTED, 13)  # which are finished is noted at rest
    page.add_init_script(f"({READ})()")
    page.add_init_script(
        "const later = setTimeout; window.setTimeout = (act, ms, ...more) => (ms === 300 ? (window.goOn = act) : later(act, ms, ...more));"
    )

    page.reload()

    expect(made).to_have_count(12)
    assert page.evaluate("() => read") == 1  # the shelf's
    page.evaluate("() => goOn()")
    page.wait_for_function("() => read === 14")
    page.reload()
    page.evaluate("run => { location.hash = `#/record/${run}`; }", run)
    expect(page.locator("record-screen")).to_contain_text("Finished")
    assert page.evaluate("() => read") == 14
