"""Sync as a state machine: every order of things in a small world is tried, and what could be wrong in it is seen.

The world is tests/frontend/sync_world.js, and runs in the browser, as the machine itself does.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from api import page_words

pytestmark = pytest.mark.browser

HERE = Path(__file__).parent
FRONTEND = HERE.parents[1] / "frontend"
ORIGIN = "http://bowlside.test"

# How many entries each phone makes, and how often what may happen to it.
ONE_PHONE = {"phones": [1], "enter": [2], "restore": 1, "giveUp": 1}
KILLED = {"phones": [1], "enter": [1], "restore": 1, "kill": 1, "now": 1}
TWO_PHONES = {"phones": [1, 1], "enter": [1, 1], "restore": 1, "page": 2}
TWO_TABS = {"phones": [2], "enter": [1], "restore": 1}
TWO_TABS_AND_A_LOCK = {"phones": [2], "enter": [1], "restore": 1, "swap": 1, "giveUp": 1}

SEARCH = "async ([given, how]) => (await import('/sync_world.js')).search(given, how)"
MUTANTS = {
    "any answer is taken": ONE_PHONE,
    "any generation is taken": ONE_PHONE,
    "an answer to a POST empties the outbox": ONE_PHONE,
    "nothing is looked for in a new generation": ONE_PHONE,
    "what is not read back is forgotten": ONE_PHONE,
    "what is not read back is waited for": ONE_PHONE,
    "a tab writes under a generation that is over": TWO_TABS,
    "a row that is gone comes back": TWO_TABS,
    "the round goes on with what was turned meanwhile": TWO_TABS_AND_A_LOCK,
}


@pytest.fixture(scope="module")
def page(browser: Any) -> Iterator[Any]:
    """The files themselves, with no server."""
    page = browser.new_page()

    def serve(route: Any) -> None:
        path = route.request.url.removeprefix(ORIGIN)
        if path == "/":
            route.fulfill(content_type="text/html", body="<!doctype html><title>sync</title>")
            return
        file = HERE / "sync_world.js" if path == "/sync_world.js" else FRONTEND / path.lstrip("/")
        route.fulfill(content_type="text/javascript", body=page_words.as_it_is(file))

    page.route(f"{ORIGIN}/**", serve)
    page.goto(f"{ORIGIN}/")
    yield page
    page.close()


@pytest.mark.parametrize(
    ("name", "given", "states"),
    [
        ("one phone", ONE_PHONE, None),
        ("one phone that is killed", KILLED, None),
        ("two phones", TWO_PHONES, 30_000),
        ("two tabs that go each by itself", TWO_TABS, 30_000),
        ("two tabs of which one leads", TWO_TABS_AND_A_LOCK, 15_000),
    ],
)
def test_in_every_order_nothing_is_lost_and_all_agree(
    page: Any, name: str, given: dict[str, Any], states: int | None
) -> None:
    """`states`: tried so many, the shortest orders first; None for all that there are."""
    found = page.evaluate(SEARCH, [given, {"healEvery": 100, **({"states": states} if states else {})}])

    print(f"{name}: {found['states']} states in {found['depth']} steps, {found['healed']} of them healed")
    assert found["wrong"] is None
    assert found["states"] >= (states or 10_000)


@pytest.mark.parametrize(("mutant", "given"), MUTANTS.items(), ids=MUTANTS)
def test_a_fault_in_the_machine_would_be_seen(page: Any, mutant: str, given: dict[str, Any]) -> None:
    found = page.evaluate(SEARCH, [given, {"mutant": mutant, "healEvery": 20, "states": 40_000}])

    assert found["wrong"] is not None


def test_every_mutant_is_tried(page: Any) -> None:
    there = page.evaluate("async () => Object.keys((await import('/sync_world.js')).MUTANTS)")

    assert sorted(there) == sorted(MUTANTS)


@pytest.mark.parametrize(
    ("pressed", "follows"), [({"now": True}, True), ({"now": False}, False)], ids=["try now", "a touch"]
)
def test_try_now_in_the_middle_of_a_round_that_fails_is_followed_by_one_of_its_own(
    page: Any, pressed: dict[str, Any], follows: bool
) -> None:
    told = page.evaluate(
        """async (pressed) => {
            const { begun, reduce } = await import("/keep/sync-machine.js");
            let state = begun("g");
            let commands;
            const tell = (event) => ({ state, commands } = reduce(state, event));
            tell({ type: "start" });
            tell({ type: "asked", round: state.round });
            tell({ type: "wanted", ...pressed });
            tell({ type: "failed", round: state.round });
            return [state.name, commands.map((command) => command.do)];
        }""",
        pressed,
    )

    assert told == (["working", ["tell", "step"]] if follows else ["failed", ["tell", "rest"]])


def test_two_servers_under_one_address_are_asked_again_but_not_without_end(page: Any) -> None:
    """Each answer names another generation."""
    told = page.evaluate(
        """async () => {
            const { begun, reduce } = await import("/keep/sync-machine.js");
            let state = begun("g");
            let turns = 0;
            const tell = (event) => ({ state } = reduce(state, event));
            tell({ type: "start" });
            while (state.name !== "failed" && turns < 50) {
                tell({ type: "asked", round: state.round });
                tell({ type: "answered", request: state.request, generation: `g${turns += 1}` });
                tell({ type: "renewed", round: state.round, generation: `g${turns}` });
            }
            return [state.name, turns];
        }"""
    )

    assert told == ["failed", 3]
