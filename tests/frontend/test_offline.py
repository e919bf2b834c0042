"""A run with the server away, killed, wrong or back again: nothing is lost and all phones agree."""

from __future__ import annotations

import json
import re
import sqlite3
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from threading import Event
from typing import Any
from uuid import uuid4

import pytest
from playwright.sync_api import BrowserContext, Page, Route

from tests.frontend.hands import NO_COPY, WITH_COPY
from tests.frontend.phones import (
    COPIED,
    HOUR,
    MINUTE,
    RECIPE,
    RECIPE_ID,
    begin,
    call,
    comes_true,
    entries_of,
    open_phone,
    studio_server,
)
from tests.servers import Server, as_sent

pytestmark = [pytest.mark.browser, NO_COPY]

API = "**/api/**"
NOTE = "([run, text]) => studio.enter(run, 'noted', { text })"
SYNC = "async () => { await studio.sync(); return { state: studio.link.state, unsent: studio.link.unsent }; }"
STATE = as_sent("""async (run) => {
    const { canonical } = (await import("/app.js")).$bench_index;
    return canonical(studio.run(run).state);
}""")
COPY_S = 10


@pytest.fixture
def server(home: Server) -> Iterator[Server]:
    """The module's server, for a test that kills it; it runs again afterwards."""
    yield home
    try:
        call(home, "GET", "clock")
    except OSError:
        home.start()


@pytest.fixture
def phone(page: Page, home: Server) -> Page:
    return open_phone(page, home.url)


def texts_of(entries: list[dict[str, Any]]) -> list[str]:
    return [entry["body"]["text"] for entry in sorted(entries, key=lambda entry: entry["at"])]


def no_answer(route: Route) -> None:
    route.abort()


def says_not_now(status: int) -> Callable[[Route], None]:
    return lambda route: route.fulfill(status=status, json={"detail": "not now"})


def cut(page: Page) -> Callable[[], None]:
    """The server cannot be reached from this page; gives what mends it."""
    page.route(API, no_answer)
    return lambda: page.unroute(API)


def real_ms() -> int:
    return time.time_ns() // 1_000_000


def iso(ms: int) -> str:
    return datetime.fromtimestamp(ms / 1000, UTC).isoformat()


# The server is away


@WITH_COPY
def test_a_whole_run_is_made_with_the_server_away_and_sent_when_it_is_back(
    phone: Page, server: Server
) -> None:
    comes_true(phone, COPIED, within_s=COPY_S)
    url = server.url
    server.kill()

    open_phone(phone, url, synced=False)  # a cold start, from the copy on the phone
    run = begin(phone)
    phone.evaluate("(run) => fill(run)", run)
    open_phone(phone, url, synced=False)
    phone.evaluate("(run) => studio.enter(run, 'skipped', { step: studio.bench(run).waits[0].step })", run)
    phone.evaluate("(run) => studio.enter(run, 'finished', {})", run)
    away = phone.evaluate(SYNC)
    here = phone.evaluate(STATE, run)
    server.start()
    back = phone.evaluate(SYNC)

    assert away == {"state": "offline", "unsent": 5}
    assert back == {"state": "online", "unsent": 0}
    assert json.loads(here)["finished_at"] is not None
    assert [entry["kind"] for entry in entries_of(server, run)] == [
        "weighed",
        "weighed",
        "skipped",
        "finished",
    ]
    assert call(server, "GET", f"runs/{run}")["finished_at"] == json.loads(here)["finished_at"]


@WITH_COPY
def test_a_first_visit_is_enough_to_open_the_page_and_write_a_recipe_with_no_network(
    page: Page, server: Server
) -> None:
    """The recipe page loads when it is first opened: from the copy, though this page came from the server."""
    page.goto(server.url)
    page.get_by_text("Plain bar").first.wait_for()
    comes_true(page, COPIED, within_s=COPY_S)
    page.wait_for_function("() => navigator.serviceWorker.controller !== null", timeout=1_000 * COPY_S)
    url = server.url
    server.kill()

    page.evaluate("location.hash = '#/recipe/new'")

    page.get_by_role("heading", name="New recipe").wait_for()

    page.goto(f"{url}?from=home-screen")

    page.get_by_text("Plain bar").first.wait_for()


def test_it_sends_by_itself_when_the_server_is_back(page: Page, server: Server) -> None:
    page.clock.install(time=iso(real_ms()))
    open_phone(page, server.url)
    run = begin(page)
    server.kill()
    page.evaluate(NOTE, [run, "while away"])
    page.evaluate("() => studio.sync()")
    server.start()

    # Backed off, but never for longer than ten seconds while a run is before the maker's eyes.
    page.evaluate(
        """() => { window.sent = new Promise((done) =>
            studio.addEventListener("link", () => studio.link.unsent === 0 && done(true))); }"""
    )
    page.clock.run_for(10_500)

    assert page.evaluate("() => sent")
    assert texts_of(entries_of(server, run)) == ["while away"]


def test_killed_in_the_middle_of_a_sync_every_entry_arrives_once(phone: Page, server: Server) -> None:
    run = begin(phone)
    phone.evaluate("() => studio.sync()")
    mend = cut(phone)
    count = 450
    phone.evaluate(
        """async ([run, count]) => {
            for (let index = 0; index < count; index += 1) await studio.enter(run, "noted", { text: `note ${index}` });
        }""",
        [run, count],
    )
    taken: list[int] = []
    killed = Event()

    def kill_at_the_second(route: Route) -> None:
        if killed.is_set():
            return route.abort()  # by itself too a phone tries again
        taken.append(len(route.request.post_data_json["entries"]))
        if len(taken) != 2:
            return route.continue_()
        route.fetch()  # the server takes this batch and is killed before its answer arrives
        server.kill()
        killed.set()
        return route.abort()

    phone.route("**/entries", kill_at_the_second)
    mend()
    broken = phone.evaluate(SYNC)
    server.start()
    killed.clear()
    whole = phone.evaluate(SYNC)

    assert broken == {"state": "offline", "unsent": 250}
    assert whole == {"state": "online", "unsent": 0}
    assert taken == [200, 200, 200, 50]
    assert texts_of(entries_of(server, run)) == [f"note {index}" for index in range(count)]


def test_what_is_not_the_servers_answer_or_says_not_now_keeps_all_here_until_it_is_asked_again(
    phone: Page, home: Server
) -> None:
    run = begin(phone)
    phone.evaluate("() => studio.sync()")
    phone.route(API, lambda route: route.fulfill(status=200, body="<h1>Welcome to our wireless</h1>"))
    phone.evaluate(NOTE, [run, "kept here"])
    assert phone.evaluate(SYNC) == {"state": "offline", "unsent": 1}
    phone.unroute(API)

    told = {}
    for status in (500, 503, 507, 429):
        phone.route("**/entries", says_not_now(status))
        unsent = phone.evaluate(SYNC)["unsent"]
        told[status] = (unsent, phone.evaluate("() => studio.link.refused"), entries_of(home, run))
        phone.unroute("**/entries")
    assert told == dict.fromkeys(told, (1, [], []))

    assert phone.evaluate(SYNC) == {"state": "online", "unsent": 0}
    assert texts_of(entries_of(home, run)) == ["kept here"]


PHOTOGRAPH = """async (run) => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 8, height: 8 });
    canvas.getContext("2d").fillRect(0, 0, 4, 4);
    const blob = await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg"));
    const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", await blob.arrayBuffer()));
    const hex = [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return (await studio.enterPicture(run, blob, hex, { kind: "pictured", body: {} })).body.picture;
}"""
SHELVED = "text => studio.enter('shelf', 'described', { ingredient: 'salt', card: { name: text } })"


def lose(server: Server, file: Path, *statements: str) -> None:
    """Take something out of the database, as putting an older copy back does: it is another generation then."""
    server.stop()
    with closing(sqlite3.connect(file)) as database, database:
        for statement in (f"UPDATE studio SET generation = '{uuid4()}'", *statements):
            database.execute(statement)
    server.start()


def test_a_server_that_lost_the_shelf_a_picture_the_end_of_a_run_or_everything_gets_it_again(
    page: Page, tmp_path: Path
) -> None:
    file = tmp_path / "studio.sqlite3"
    server = studio_server(file)
    open_phone(page, server.url)
    run = begin(page)
    picture = page.evaluate(PHOTOGRAPH, run)
    page.evaluate(SHELVED, "Sea salt")
    page.evaluate("() => studio.sync()")
    assert call(server, "GET", "pictures")["awaited"] == []
    give_back = "async () => { await studio.sync(); await studio.sync(); }"

    lose(server, file, "DELETE FROM shelf_entry", "UPDATE picture SET content = NULL")
    assert call(server, "GET", "pictures")["awaited"] == [{"id": picture, "run": run}]
    page.evaluate(give_back)
    shelved = call(server, "GET", "shelf/entries")["entries"]
    assert [entry["body"]["card"]["name"] for entry in shelved] == ["Sea salt"]
    assert call(server, "GET", "pictures")["awaited"] == []

    for text in ("before the copy", "after the copy"):
        page.evaluate(NOTE, [run, text])
        page.evaluate("() => studio.sync()")
    lose(server, file, "DELETE FROM entry WHERE text LIKE '%after the copy%'")
    assert notes_of(server, run) == ["before the copy"]
    page.evaluate(give_back)
    assert notes_of(server, run) == ["before the copy", "after the copy"]

    server.stop()
    for each in tmp_path.glob("studio.sqlite3*"):
        each.unlink()
    server.start()
    call(server, "PUT", f"recipes/{RECIPE_ID}", RECIPE)
    page.evaluate(give_back)
    arrived = notes_of(server, run)
    server.stop()
    assert arrived == ["before the copy", "after the copy"]


def notes_of(server: Server, run: str) -> list[str]:
    return texts_of([entry for entry in entries_of(server, run) if entry["kind"] == "noted"])


def test_what_came_on_the_shelf_in_the_middle_of_a_round_is_missed_at_once_when_it_is_lost(
    page: Page, tmp_path: Path
) -> None:
    file = tmp_path / "studio.sqlite3"
    server = studio_server(file)
    open_phone(page, server.url)
    begin(page)
    page.evaluate(SYNC)
    page.evaluate(
        """() => new Promise((done) => {
            const { fetch } = window;
            window.fetch = async (path, ...how) => {
                const answer = await fetch(path, ...how);
                if (!path.includes("open=true")) return answer;
                window.fetch = fetch; // once: sent by now is all that was there before
                await (SHELVED)("Sea salt");
                studio.sync().then(done);
                return answer;
            };
            studio.sync();
        })""".replace("SHELVED", SHELVED)
    )
    assert len(call(server, "GET", "shelf/entries")["entries"]) == 1

    lose(server, file, "DELETE FROM shelf_entry")
    page.evaluate("async () => { await studio.sync(); await studio.sync(); }")
    shelved = call(server, "GET", "shelf/entries")["entries"]
    server.stop()

    assert [entry["body"]["card"]["name"] for entry in shelved] == ["Sea salt"]


@pytest.mark.parametrize(("line", "seconds"), [("down", 3), ("up", 15)])
def test_waiting_costs_the_server_one_small_question_every_few_seconds(
    page: Page, home: Server, line: str, seconds: int
) -> None:
    if line == "down":
        page.route("**/live", no_answer)
    page.clock.install(time=iso(real_ms()))
    open_phone(page, home.url)
    begin(page)
    page.evaluate(SYNC)
    page.route("**/clock", lambda route: route.fulfill(json={}))  # the server's time goes its own way
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.partition("/api/v1/")[2]))
    page.evaluate("() => { window.told = 0; studio.addEventListener('link', () => (told += 1)); }")

    page.evaluate(
        """() => { window.due = 0; const { setTimeout } = window;
            window.setTimeout = (work, ms, ...rest) => { due += ms >= 1000; return setTimeout(work, ms, ...rest); }; }"""
    )

    for turn in range(1, 4):
        with page.expect_response("**/runs?*open=true*"):
            page.clock.run_for(seconds * 1000 + 100)
        page.wait_for_function("turn => due >= turn", arg=turn)  # the next question is set for later

    times = Counter(each for each in asked if each != "live")
    assert times["runs?open=true&page=1&page_size=100"] == 3, asked
    assert max(times.values()) == 3, asked
    assert line == "up" or len(times) == 1, asked  # in the longer time it also looks at the lists
    if line == "down":  # the live line's own pulse does not follow the faked clock, and may seem to stop
        assert page.evaluate("() => told") == 0  # nothing new: no screen is drawn again


# Two phones


def test_two_phones_on_one_run_agree_after_one_was_away_for_an_hour(
    new_phone: Callable[[], BrowserContext], home: Server
) -> None:
    passed = 0

    def with_time_passed(route: Route) -> None:
        """The server's clock, gone on as far as the phones' has. The live line cannot be told so, and is down."""
        if route.request.url.endswith("/live"):
            route.abort()
            return
        answer = route.fetch()
        told = re.sub(r'("server_ms": ?)(\d+)', lambda m: m[1] + str(int(m[2]) + passed), answer.text())
        route.fulfill(response=answer, body=told)

    contexts = [new_phone() for _ in range(2)]
    start = iso(real_ms())
    phones = []
    for context in contexts:
        context.clock.install(time=start)
        context.route(API, with_time_passed)
        phones.append(open_phone(context.new_page(), home.url))
    here, away = phones
    run = begin(here)
    here.evaluate(SYNC)
    away.evaluate(SYNC)
    contexts[1].route(API, no_answer)
    here.evaluate(NOTE, [run, "here, at once"])
    here.evaluate(SYNC)
    away.evaluate("(run) => fill(run)", run)
    passed = HOUR
    for context in contexts:
        context.clock.fast_forward(HOUR)
    away.evaluate(NOTE, [run, "away, an hour on"])
    here.evaluate(NOTE, [run, "here, an hour on"])
    assert here.evaluate(STATE, run) != away.evaluate(STATE, run)

    contexts[1].unroute(API)
    contexts[1].route(API, with_time_passed)
    for phone in (away, here, away):
        assert phone.evaluate(SYNC) == {"state": "online", "unsent": 0}

    assert here.evaluate(STATE, run) == away.evaluate(STATE, run)
    entries = entries_of(home, run)
    notes = {entry["body"]["text"]: entry["at"] for entry in entries if entry["kind"] == "noted"}
    assert len(entries) == 5
    assert HOUR <= notes["away, an hour on"] - notes["here, at once"] < HOUR + MINUTE


def test_a_second_phone_hears_of_a_run_and_its_entries_by_itself(
    phone: Page, home: Server, new_phone: Callable[[], BrowserContext]
) -> None:
    context = new_phone()
    context.clock.install(time=iso(real_ms()))
    second = open_phone(context.new_page(), home.url)
    run = begin(phone)
    phone.evaluate(SYNC)
    second.evaluate(SYNC)
    second.evaluate(
        """(run) => { window.heard = new Promise((done) => studio.addEventListener("change", () =>
            studio.run(run).entries.length && done(studio.run(run).entries[0].body.text))); }""",
        run,
    )
    phone.evaluate(NOTE, [run, "from the first"])
    phone.evaluate(SYNC)

    second.clock.run_for(3_500)

    assert second.evaluate("() => heard") == "from the first"


# Clocks that are wrong


def test_a_phone_whose_clock_is_wrong_enters_the_right_instants_before_and_after_it_hears_the_server(
    phone: Page, home: Server
) -> None:
    """What was entered before is put right before it is sent."""
    phone.clock.install(time=iso(real_ms()))
    for wrong_by in (-7 * MINUTE, 7 * MINUTE, 400 * 24 * HOUR):
        phone.goto("about:blank")  # a page that stands notices that its clock is set
        phone.clock.set_system_time(iso(real_ms() + wrong_by))
        mend = cut(phone)
        open_phone(phone, home.url, synced=False)
        run = begin(phone)
        for text in ("first", "second", "third"):
            phone.evaluate(NOTE, [run, text])
        mend()
        assert phone.evaluate(SYNC) == {"state": "online", "unsent": 0}, wrong_by
        entries = entries_of(home, run)
        assert texts_of(entries) == ["first", "second", "third"], wrong_by
        assert all(abs(entry["at"] - real_ms()) < MINUTE for entry in entries), wrong_by

        since = begin(phone)
        for each in (run, since):
            phone.evaluate(NOTE, [each, "after"])
        phone.evaluate(SYNC)
        for each in (run, since):
            (after,) = (entry for entry in entries_of(home, each) if entry["body"]["text"] == "after")
            assert abs(after["at"] - real_ms()) < MINUTE, wrong_by


def test_a_clock_set_forward_or_back_in_the_middle_of_a_run_rings_nothing_early_and_changes_nothing(
    page: Page, home: Server
) -> None:
    page.clock.install(time=iso(real_ms()))
    open_phone(page, home.url)
    run = begin(page)
    page.evaluate("(run) => fill(run)", run)

    page.clock.set_system_time(iso(real_ms() + 3 * HOUR))
    page.evaluate("async () => { studio.at(); await studio.sync(); }")

    assert abs(page.evaluate("() => studio.at()") - real_ms()) < MINUTE
    assert page.evaluate("() => rings") == []
    assert [wait["phase"] for wait in page.evaluate("() => studio.waits()") if wait["run"] == run] == [
        "counting"
    ]

    cut(page)
    page.clock.set_system_time(iso(real_ms() - 3 * HOUR))

    assert abs(page.evaluate("() => studio.at()") - real_ms()) < MINUTE
    page.evaluate(NOTE, [run, "after"])
    assert abs(page.evaluate("(run) => studio.run(run).entries.at(-1).at", run) - real_ms()) < MINUTE
    open_phone(page, home.url, synced=False)  # and after a reload, with the clock still wrong
    assert abs(page.evaluate("() => studio.at()") - real_ms()) < MINUTE


# Entries that the server refuses

REFUSED = "() => studio.link.refused.map(({ run, entry, detail }) => ({ run, kind: entry?.kind, detail }))"


def test_a_refused_entry_stays_with_the_reason_holds_nothing_up_and_is_sent_again_or_set_aside(
    phone: Page, home: Server
) -> None:
    run = begin(phone)
    phone.evaluate("(run) => studio.enter(run, 'weighed', { line: 7 })", run)
    phone.evaluate(NOTE, [run, "a good one"])

    assert phone.evaluate(SYNC) == {"state": "online", "unsent": 0}

    (refused,) = phone.evaluate(REFUSED)
    assert (refused["run"], refused["kind"]) == (run, "weighed")
    assert len(refused["detail"]) > 10
    assert texts_of(entries_of(home, run)) == ["a good one"]
    open_phone(phone, home.url)
    assert phone.evaluate(REFUSED) == [refused]
    assert phone.evaluate("(run) => studio.run(run).entries.length", run) == 2

    phone.evaluate("() => studio.sendAgain(studio.link.refused[0])")
    assert len(phone.evaluate(REFUSED)) == 1
    phone.evaluate("() => studio.setAside(studio.link.refused[0])")

    assert phone.evaluate(REFUSED) == []
    assert phone.evaluate("(run) => studio.run(run).entries.map(({ kind }) => kind)", run) == ["noted"]
    open_phone(phone, home.url)
    assert phone.evaluate(REFUSED) == []
    assert texts_of(entries_of(home, run)) == ["a good one"]

    # A kind from the future is no fault: it is kept and listed.
    phone.evaluate("(run) => studio.enter(run, 'levitated', { height: 7 })", run)
    phone.evaluate(SYNC)
    assert [entry["kind"] for entry in entries_of(home, run)] == ["noted", "levitated"]
    assert len(phone.evaluate("(run) => studio.run(run).state.unread", run)) == 1


def test_an_entry_a_year_ahead_is_refused_and_goes_through_with_an_instant_of_now(
    phone: Page, home: Server
) -> None:
    run = begin(phone)
    phone.evaluate(SYNC)
    phone.evaluate(
        """async (run) => {
            const { openStore } = await import("/keep/store.js");
            const { newId } = await import("/keep/ids.js");
            const at = studio.at() + 366 * 86_400_000;
            const entry = { id: newId(at), run, device: studio.device, at, kind: "noted", body: { text: "next year" } };
            const store = await openStore();
            await store.write({ entries: { put: [entry] }, outbox: { put: [{ id: entry.id, run }] } });
        }""",
        run,
    )
    open_phone(phone, home.url)
    (refused,) = phone.evaluate(REFUSED)
    assert "clock" in refused["detail"]

    phone.evaluate("() => studio.sendAgain(studio.link.refused[0])")

    assert phone.evaluate(REFUSED) == []
    (entry,) = entries_of(home, run)
    assert abs(entry["at"] - real_ms()) < MINUTE
    phone.evaluate(NOTE, [run, "after"])
    assert abs(phone.evaluate("(run) => studio.run(run).entries.at(-1).at", run) - real_ms()) < MINUTE


def test_a_run_the_server_refuses_is_shown_and_goes_on_and_its_other_sheet_is_taken_over(phone: Page) -> None:
    phone.route("**/runs/*", lambda route: route.fulfill(status=422, json={"detail": "No such version."}))
    run = begin(phone)
    phone.evaluate(NOTE, [run, "goes on"])
    phone.evaluate(SYNC)
    assert phone.evaluate(REFUSED) == [{"run": run, "kind": None, "detail": "No such version."}]
    assert phone.evaluate("(run) => studio.run(run).entries.length", run) == 1

    phone.unroute("**/runs/*")
    phone.evaluate("() => studio.sendAgain(studio.link.refused[0])")

    assert phone.evaluate(REFUSED) == []
    assert phone.evaluate("() => studio.link.unsent") == 0

    def otherwise(route: Route) -> None:
        if route.request.method != "PUT":
            route.continue_()
            return
        answer = route.fetch()
        told = answer.json()
        told["sheet"]["lines"][0]["mg"] += 1000
        route.fulfill(response=answer, json=told)

    phone.route("**/runs/*", otherwise)
    run = begin(phone)
    before = phone.evaluate("(run) => studio.run(run).sheet.lines[0].mg", run)
    phone.evaluate(SYNC)

    after = phone.evaluate("(run) => studio.run(run).sheet.lines[0].mg", run)

    assert before in (after, after - 1000)
    assert after == 151_000


# The kit


def test_the_kit_is_changed_on_the_server_and_here_and_neither_blindly_nor_with_the_server_away(
    phone: Page, home: Server
) -> None:
    kit = {**call(home, "GET", "kit")["document"], "mixers": [{"id": "hand", "name": "Hand mixer"}]}
    trying = "(kit) => studio.setKit(kit).then(() => 'kept', ({ says }) => says)"

    assert phone.evaluate(trying, kit) == "kept"
    assert phone.evaluate("() => studio.kit.mixers[0].name") == "Hand mixer"
    assert call(home, "GET", "kit")["document"] == kit

    before = phone.evaluate("() => studio.kit")
    mend = cut(phone)
    assert "No connection" in phone.evaluate(trying, {})
    assert phone.evaluate("() => studio.kit") == before
    mend()

    # Changed elsewhere meanwhile, it is not overwritten.
    phone.evaluate("() => studio.sync()")
    other = {**kit, "mixers": [{"id": "stick", "name": "Stick blender"}]}
    mine = {**kit, "mixers": [{"id": "whisk", "name": "Whisk"}]}
    open_phone(phone.context.new_page(), home.url).evaluate("(kit) => studio.setKit(kit)", other)
    phone.evaluate("() => studio.close()")  # so that it does not hear of it from its other tab
    open_phone(phone, home.url, synced=False)
    phone.route("**/kit", lambda route: route.fulfill(status=412, json={"detail": "changed"}))
    assert "changed on another device" in phone.evaluate(trying, mine)
    assert call(home, "GET", "kit")["document"] == other
