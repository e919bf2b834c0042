"""Several tabs of one phone, of which one leads; and a studio that was put back from a copy."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen
from uuid import uuid4

import pytest
from playwright.sync_api import BrowserContext, Page, Route

from tests.frontend.hands import NO_COPY
from tests.frontend.phones import (
    RECIPE,
    RECIPE_ID,
    begin,
    call,
    comes_true,
    entries_of,
    eventually,
    open_phone,
)
from tests.servers import Server

pytestmark = [pytest.mark.browser, NO_COPY]

NOTE = "([run, text]) => studio.enter(run, 'noted', { text })"
SYNC = "async () => { await studio.sync(); return studio.link; }"
OUTBOX = """async () => {
    const { openStore } = await import("/keep/store.js");
    const store = await openStore();
    const { outbox } = await store.read("outbox");
    store.close();
    return outbox;
}"""
NOBODY_ASKS = ("clock", "live")


@pytest.fixture
def tabs(context: BrowserContext, server: Server) -> tuple[Page, Page]:
    """Two tabs of one phone; the first was there before the second."""
    return open_phone(context.new_page(), server.url), open_phone(context.new_page(), server.url)


def asked_by(page: Page) -> list[str]:
    asked: list[str] = []

    def note(path: str) -> None:
        name = path.partition("/api/v1/")[2]
        if name and not name.startswith(NOBODY_ASKS):
            asked.append(name)

    page.on("request", lambda request: note(request.url))
    return asked


def until(page: Page, asked: list[str]) -> None:
    """Wait until this tab has asked something of the studio."""
    for _ in range(100):
        if asked:
            return
        page.evaluate(SYNC)
    raise AssertionError("it never asked")


def test_a_tab_waits_for_a_round_that_began_after_it_asked(tabs: tuple[Page, Page], server: Server) -> None:
    """The end of the round before is told to all tabs, and may reach one that has just asked for the next."""
    leader, other = tabs
    run = begin(other)
    other.evaluate(SYNC)
    held: list[Route] = []
    leader.route("**/entries", lambda route: held.append(route))  # noqa: PLW0108 - Playwright marks it
    other.evaluate(NOTE, [run, "told just now"])
    other.evaluate(
        """() => {
            window.isOver = false;
            studio.sync().then(() => { isOver = true; });
            window.reached = new Promise((done) => {
                new BroadcastChannel("bowlside").onmessage = ({ data }) => data.told?.rested && done();
            });
        }"""
    )
    leader.evaluate("() => new BroadcastChannel('bowlside').postMessage({ told: { rested: true } })")
    other.evaluate("() => reached")
    assert not other.evaluate("() => isOver")

    eventually(leader, lambda: held)
    leader.unroute("**/entries")  # what was held goes on
    comes_true(other, "() => isOver")
    assert [entry["body"]["text"] for entry in entries_of(server, run)] == ["told just now"]


def test_one_tab_asks_for_both_and_sends_what_the_other_does(tabs: tuple[Page, Page], server: Server) -> None:
    leader, other = tabs
    asked = asked_by(other)
    run = begin(other)
    other.evaluate(NOTE, [run, "in the other tab"])

    link = other.evaluate(SYNC)

    assert (link["state"], link["unsent"]) == ("online", 0)
    assert [entry["body"]["text"] for entry in entries_of(server, run)] == ["in the other tab"]
    assert asked == []
    assert leader.evaluate("(run) => studio.run(run).entries.length", run) == 1


def close(page: Page) -> None:
    page.close()


def freeze(page: Page) -> None:
    """As a browser does with a tab that was out of sight for long."""
    page.evaluate("() => document.dispatchEvent(new Event('freeze'))")


def fall_silent(page: Page) -> None:
    """Frozen, or hung, without a word before."""
    page.evaluate("() => { BroadcastChannel.prototype.postMessage = () => {}; }")


@pytest.mark.parametrize("leave", [close, freeze, fall_silent])
def test_when_the_leading_tab_is_closed_frozen_or_silent_the_other_leads(
    tabs: tuple[Page, Page], server: Server, leave: Callable[[Page], None]
) -> None:
    leader, other = tabs
    asked = asked_by(other)
    run = begin(other)

    leave(leader)
    other.evaluate(NOTE, [run, "on its own now"])
    until(other, asked)
    link = other.evaluate(SYNC)

    assert (link["state"], link["unsent"]) == ("online", 0)
    assert [entry["body"]["text"] for entry in entries_of(server, run)] == ["on its own now"]


def test_a_row_leaves_the_outbox_when_read_back_and_not_on_the_answer(page: Page, server: Server) -> None:
    open_phone(page, server.url)
    run = begin(page)
    page.evaluate(SYNC)
    page.route("**/entries?*", lambda route: route.abort())

    page.evaluate(NOTE, [run, "kept, says the server"])
    link = page.evaluate(SYNC)
    unread = page.evaluate(OUTBOX)
    page.unroute("**/entries?*")
    page.evaluate(SYNC)

    assert [entry["body"]["text"] for entry in entries_of(server, run)] == ["kept, says the server"]
    assert link["unsent"] == 0  # the server has it, so nothing is said of it
    assert [bool(row["sent"]) for row in unread] == [True]
    assert page.evaluate(OUTBOX) == []


def test_try_now_in_a_round_that_fails_is_answered_by_a_round_of_its_own(page: Page, server: Server) -> None:
    open_phone(page, server.url)
    held: list[Any] = []
    page.route(
        re.compile(r"/runs(/whole)?\?open=true"),
        lambda route: route.continue_() if held else held.append(route),
    )
    page.evaluate("() => { window.first = studio.sync(); }")
    while not held:
        page.evaluate("() => 0")

    page.evaluate("() => { window.pressed = studio.sync(); }")
    held[0].abort()
    page.evaluate("() => pressed")

    assert page.evaluate("() => studio.link.state") == "online"


# A restore


def put_back(server: Server, file: Path, *statements: str) -> None:
    """The studio as an older copy has it: less is there, and it is another generation."""
    server.stop()
    with closing(sqlite3.connect(file)) as database, database:
        for statement in (*statements, f"UPDATE studio SET generation = '{uuid4()}'"):
            database.execute(statement)
    server.start()


def edit(server: Server, title: str) -> None:
    """Somebody edits the recipe from elsewhere."""
    asked = Request(
        f"{server.url}api/v1/recipes/{RECIPE_ID}",
        method="PUT",
        data=json.dumps({**RECIPE, "title": title}).encode(),
        headers={"Content-Type": "application/json", "If-Match": "*"},
    )
    urlopen(asked).close()


def test_another_version_2_is_taken_over_and_the_lost_one_stays_as_a_draft(
    page: Page, server: Server, tmp_path: Path
) -> None:
    edit(server, "Mine, lost")
    open_phone(page, server.url)
    assert page.evaluate("() => [studio.recipes[0].version, studio.recipes[0].title]") == [2, "Mine, lost"]

    put_back(
        server,
        tmp_path / "studio.sqlite3",
        "UPDATE recipe SET version = 1, title = 'Plain bar'",
        "DELETE FROM recipe_version WHERE version = 2",
    )
    edit(server, "Theirs, since")
    page.evaluate(SYNC)

    assert page.evaluate("() => [studio.recipes[0].version, studio.recipes[0].title]") == [2, "Theirs, since"]
    assert page.evaluate("() => studio.drafts.all.map(({ base, document }) => [base, document.title])") == [
        [2, "Mine, lost"]
    ]
    assert call(server, "GET", f"recipes/{RECIPE_ID}")["title"] == "Theirs, since"


def test_what_a_finished_run_of_long_ago_lost_is_sent_again(
    page: Page, server: Server, tmp_path: Path
) -> None:
    """Not only what is open, or among the newest, is looked for."""
    open_phone(page, server.url)
    run = begin(page)
    for text in ("kept", "lost"):
        page.evaluate(NOTE, [run, text])
    page.evaluate("(run) => studio.enter(run, 'finished', {})", run)
    page.evaluate(SYNC)
    lost = "DELETE FROM entry WHERE text LIKE '%\"lost\"%'"
    page.route(
        re.compile(r"/runs(/whole)?\?"),
        lambda route: route.fulfill(json={"runs": [], "page": 1, "pages": 1, "total": 0}),
    )

    put_back(server, tmp_path / "studio.sqlite3", lost)
    for _ in range(2):
        link = page.evaluate(SYNC)

    assert {entry["body"].get("text") for entry in entries_of(server, run)} == {"kept", "lost", None}
    assert link["unsent"] == 0
    assert page.evaluate(OUTBOX) == []


def test_what_a_signing_names_is_given_back_before_the_signing_is_sent(
    page: Page, server: Server, tmp_path: Path
) -> None:
    """Signed before this phone has heard that the studio was put back, and of what it lost."""
    open_phone(page, server.url)
    run = begin(page)
    for text in ("kept", "lost"):
        page.evaluate(NOTE, [run, text])
    page.evaluate(SYNC)
    page.route("**/api/**", lambda route: route.abort())
    page.evaluate("(run) => studio.enter(run, 'signed', { name: 'A. Maker' })", run)

    put_back(server, tmp_path / "studio.sqlite3", "DELETE FROM entry WHERE text LIKE '%\"lost\"%'")
    page.unroute("**/api/**")
    for _ in range(2):
        link = page.evaluate(SYNC)

    assert (link["unsent"], page.evaluate("() => studio.link.refused.length")) == (0, 0)
    assert [each["kind"] for each in entries_of(server, run)].count("signed") == 1
    assert call(server, "GET", f"runs/{run}/record")["signed"]["missing"] == 0
