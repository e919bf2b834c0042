"""What is done to the studio is noted with who and when, only grows, and is the makers' to read."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from click.testing import CliRunner
from sqlalchemy import delete, update
from sqlalchemy.exc import DBAPIError

from api import copies
from api.audit import KINDS, by_itself, note, says
from api.cli import main
from api.store import writing
from api.tables import Audit
from bench import words
from tests.api.doorway import code_for, pair, paired
from tests.api.studio import Studio as Client
from tests.make import Clock

pytestmark = pytest.mark.database("sqlite", "postgresql")


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True)


@pytest.fixture
def maker(app: Any) -> Any:
    return paired(app, name="Anna's phone")


def told(maker: Any, **asked: Any) -> list[dict[str, Any]]:
    answer = maker.get("/api/v1/audit", query_string=asked)
    assert answer.status_code == 200, answer.text
    rows: list[dict[str, Any]] = answer.json["audit"]
    return rows


def lines(maker: Any, **asked: Any) -> list[str]:
    return [f"{row['who']} {row['says']}" for row in told(maker, **asked)]


def test_who_let_whom_in_gave_a_role_renamed_and_shut_out(app: Any, maker: Any, clock: Clock) -> None:
    code = maker.post("/api/v1/pairings", json={"role": "helper"}).json["code"]
    clock.ms += 60_000
    tablet = pair(app.test_client(), code, "Tablet").json["device"]["id"]
    for change in ({"name": "Press"}, {"role": "maker", "confirm": "maker"}, {"name": "Press"}):
        assert maker.patch(f"/api/v1/devices/{tablet}", json=change).status_code == 200
    maker.delete(f"/api/v1/devices/{tablet}")
    maker.put("/api/v1/settings", json={"batch_number": "{mark}{n}", "currency": "EUR"})

    assert sorted(lines(maker)) == [
        "Anna's phone changed the settings: batch numbers, currency",
        "Anna's phone made Press a maker",
        "Anna's phone made a code for a helper's device",
        "Anna's phone renamed Tablet to Press",
        "Anna's phone shut out Press",
        "Anna's phone was paired as a maker",
        "Tablet was paired as a helper",
        "the terminal made a code for a maker's device",
    ]
    (helper, _) = told(maker, what="paired")
    assert (helper["actor"], helper["at"]) == (tablet, clock.ms)
    assert helper["about"] == {"role": "helper", "address": "127.0.0.1", "again": 0}


def test_a_code_that_wrong_tries_used_up_is_noted_once(app: Any, maker: Any) -> None:
    code_for(app)
    for _ in range(5):
        pair(app.test_client(), "WRONG000")

    (spent,) = told(maker, what="code_spent")
    assert (spent["who"], spent["actor"], spent["about"]) == (
        "a stranger",
        None,
        {"address": "127.0.0.1", "codes": 1},
    )


def test_what_was_not_kept_is_not_noted(app: Any, maker: Any) -> None:
    before = len(told(maker))

    for change in ({"name": ""}, {"role": "helper", "confirm": "helper"}, {"name": "Anna's phone"}):
        maker.patch(f"/api/v1/devices/{maker.device['id']}", json=change)
    maker.put("/api/v1/settings", json={"batch_number": "{never}"})

    assert len(told(maker)) == before


def test_the_log_is_read_page_by_page_the_newest_first_and_nothing_comes_twice(
    app: Any, maker: Any, clock: Clock
) -> None:
    with app.app_context():
        for number in range(120):
            clock.ms += number % 3  # some at one instant
            with writing() as connection:
                note(connection, "exported", number=number)
    seen, before = [], None
    while True:
        page = maker.get(
            "/api/v1/audit",
            query_string={"limit": 25, "what": "exported"} | ({"before": before} if before else {}),
        ).json
        seen += page["audit"]
        before = page["before"]
        if before is None:
            break
        with app.app_context(), writing() as connection:
            note(connection, "exported", number=1000)  # it grows meanwhile

    numbers = [row["about"]["number"] for row in seen]
    assert sorted(number for number in numbers if number < 1000) == list(range(120))
    assert [row["at"] for row in seen] == sorted((row["at"] for row in seen), reverse=True)


def test_since_and_until_are_instants(app: Any, maker: Any, clock: Clock) -> None:
    clock.ms += 1000
    maker.patch(f"/api/v1/devices/{maker.device['id']}", json={"name": "Desk"})

    assert lines(maker, since=clock.ms) == ["Anna's phone renamed Anna's phone to Desk"]
    assert "renamed" not in str(told(maker, until=clock.ms))


def test_the_log_is_the_makers_to_read(app: Any, maker: Any) -> None:
    assert paired(app, "helper").get("/api/v1/audit").status_code == 403
    assert app.test_client().get("/api/v1/audit").status_code == 401
    assert maker.get("/api/v1/audit").headers["Cache-Control"] == "no-store"


def test_the_database_lets_the_log_only_grow(app: Any, maker: Any) -> None:
    before = told(maker)

    for change in (delete(Audit), update(Audit).values(who="nobody")):
        with app.app_context(), pytest.raises(DBAPIError, match="only grows"), writing() as connection:
            connection.execute(change)

    assert before == told(maker) != []


@pytest.mark.parametrize("said", [{}, {"confirm": "helper"}])
def test_a_makers_role_is_given_only_by_saying_it_twice(app: Any, maker: Any, said: dict[str, str]) -> None:
    helper = paired(app, "helper")

    asked = [
        maker.patch(f"/api/v1/devices/{helper.device['id']}", json={"role": "maker", **said}),
        maker.post("/api/v1/pairings", json={"role": "maker", **said}),
    ]

    assert [(each.status_code, each.json["errors"][0]["field"]) for each in asked] == [(422, "confirm")] * 2
    assert helper.get("/api/v1/devices").status_code == 403
    assert maker.post("/api/v1/pairings", json={"role": "maker", "confirm": "maker"}).status_code == 201


def test_a_helper_cannot_fill_the_log_by_naming_itself(app: Any, maker: Any) -> None:
    helper = paired(app, "helper")

    answers = [
        helper.patch(f"/api/v1/devices/{helper.device['id']}", json={"name": f"Name {number}"})
        for number in range(70)
    ]

    assert answers[-1].status_code == 429 and answers[-1].headers["Retry-After"]
    assert len(told(maker, what="renamed", limit=200)) == 60


def test_what_has_no_words_yet_is_told_by_its_name() -> None:
    assert says("bench_taken_over", '{"bench": "tablet-b"}') == "bench taken over: bench tablet-b"
    assert says("settings_changed", "{}") == "settings changed"
    assert says("exported", '{"runs": 11, "entries": 1}').endswith("11 batches, 1 entry")
    for tag in words.languages():
        with words.speaking(tag):
            assert all(says(what, "{}") for what in KINDS)
    with words.speaking("de"):
        assert says("exported", '{"runs": 11, "entries": 1}').endswith("11 Chargen, 1 Eintrag")


def test_what_the_servers_own_program_notes_has_words(app: Any, maker: Any) -> None:
    Client(maker).with_run()
    assert maker.get("/api/v1/export").status_code == 200
    with app.app_context(), by_itself():
        copies.nightly(app)

    (copied,) = lines(maker, what="copied")
    assert re.fullmatch(r"the server made a copy, [\w.-]+: 1 batch, 0 entries", copied)
    assert lines(maker, what="exported") == ["Anna's phone saved everything as a file: 1 batch, 0 entries"]


@pytest.mark.database("sqlite")
def test_the_terminal_reads_it(app: Any, maker: Any, clock: Clock) -> None:
    database = str(app.config["BOWLSIDE"].database)

    read = CliRunner().invoke(main, ["audit", "--database", database])
    filtered = CliRunner().invoke(
        main, ["audit", "--what", "paired", "--since", "2025-01-01", "--most", "1", "--database", database]
    )

    assert "the terminal made a code for a maker's device\n" in read.stdout
    assert filtered.stdout == "2027-01-15 08:00 UTC  Anna's phone was paired as a maker\n"
