"""The live line: what it tells, to whom, for how long, and at what cost."""

from __future__ import annotations

import json
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from sqlalchemy import text
from werkzeug.serving import make_server

from api import create_app, live, store
from api.door.keeper import DoorKeeper
from api.store import writing
from tests.api.edges import eventually, running
from tests.api.studio import Studio
from tests.api.test_served import ask
from tests.make import Clock, make_entry, make_run, uuid4
from tests.often import BOTH_DATABASES
from tests.servers import warm_bowlside

pytestmark = BOTH_DATABASES


@contextmanager
def listening(app: Any) -> Iterator[Iterator[bytes]]:
    """A line that somebody holds; gives what it says, piece by piece."""
    answer = app.test_client().get("/api/v1/live", buffered=False)
    assert answer.status_code == 200
    yield answer.iter_encoded()
    answer.close()


def moved(piece: bytes) -> dict[str, int]:
    event, data = piece.decode().removesuffix("\n\n").split("\n")
    assert event == "event: moved"
    told: dict[str, int] = json.loads(data.removeprefix("data: "))
    return told


def watchers() -> list[threading.Thread]:
    return [thread for thread in threading.enumerate() if thread.name == "live"]


def until_nobody_watches() -> None:
    for watcher in watchers():
        watcher.join(timeout=10)
    assert watchers() == []


@pytest.fixture(autouse=True)
def nobody_is_left_watching() -> Iterator[None]:
    yield
    until_nobody_watches()


def test_it_says_at_once_how_far_things_reach_and_then_whatever_moves(
    app: Any, studio: Studio, clock: Clock
) -> None:
    run = studio.with_run()
    with listening(app) as line:
        before = moved(next(line))
        answered = studio.post(run, make_entry(run)).json
        after = moved(next(line))

    assert before == {"reach": 0, "server_ms": clock.ms}
    assert after["reach"] == answered["cursor"] > 0


def test_a_line_hears_of_what_came_in_by_another_worker(app: Any, studio: Studio) -> None:
    run = studio.with_run()
    other = create_app(app.config["BOWLSIDE"])
    with listening(other) as line:
        next(line)
        reach = studio.post(run, make_entry(run)).json["cursor"]
        assert moved(next(line))["reach"] == reach
    until_nobody_watches()
    store.close(other)


@pytest.mark.slow
def test_lines_of_all_worker_processes_hear_of_an_entry_within_a_second(tmp_path: Path) -> None:
    server = warm_bowlside(tmp_path / "studio.sqlite3", "--demo", "--workers", "2").start()
    try:
        recipe, run = ask(server, "/api/v1/recipes")["recipes"][0], uuid4()
        ask(server, f"/api/v1/runs/{run}", "PUT", make_run(recipe))
        lines = [urlopen(f"{server.url}api/v1/live", timeout=10) for _ in range(12)]
        before = [next_moved(line) for line in lines]
        sent = time.monotonic()
        entries = {"entries": [make_entry(run)]}
        reach = ask(server, f"/api/v1/runs/{run}/entries", "POST", entries)["cursor"]
        after = [next_moved(line) for line in lines]
        took = time.monotonic() - sent
        for line in lines:
            line.close()
    finally:
        server.stop()

    assert {told["reach"] for told in before} == {reach - 1}
    assert {told["reach"] for told in after} == {reach}
    assert took < 1


def next_moved(line: Any) -> dict[str, int]:
    while not (said := line.readline()).startswith(b"data: "):
        pass
    told: dict[str, int] = json.loads(said.removeprefix(b"data: "))
    return told


def test_a_run_that_was_begun_moves_things(app: Any, studio: Studio) -> None:
    recipe = studio.with_recipe()
    with listening(app) as line:
        next(line)
        studio.put_run(uuid4(), make_run(recipe))
        assert moved(next(line))["reach"] == 0


def test_an_entry_committed_after_one_with_a_higher_number_moves_things(app: Any, studio: Studio) -> None:
    """As PostgreSQL may do between two runs."""
    run = studio.with_run()
    add = text("INSERT INTO entry (seq, id, run_id, text) VALUES (:seq, :id, :run, '{}')")

    def arrive(seq: int) -> None:
        with app.app_context(), writing() as connection:
            connection.execute(add, {"seq": seq, "id": uuid4(), "run": run})

    with listening(app) as line:
        next(line)
        arrive(11)
        assert moved(next(line))["reach"] == 11
        arrive(10)
        assert moved(next(line))["reach"] == 11


def test_shutting_a_device_out_ends_every_line_so_that_the_door_decides_anew(app: Any) -> None:
    shut_out = text(
        "INSERT INTO device (id, name, role, secret_sha256, paired_at, seen_at, shut_out_at)"
        " VALUES (:id, 'Old phone', 'helper', '', 0, 0, 1)"
    )
    with listening(app) as line:
        next(line)
        with app.app_context(), writing() as connection:
            connection.execute(shut_out, {"id": uuid4()})
        assert next(line, None) is None


def test_with_nobody_listening_nothing_looks(app: Any) -> None:
    assert watchers() == []
    with listening(app) as one, listening(app) as other:
        next(one)
        next(other)
        assert len(watchers()) == 1
    until_nobody_watches()
    with listening(app) as again:
        assert moved(next(again))["reach"] == 0


def test_when_nothing_moves_it_breathes(app: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(live, "HEARTBEAT_S", 0.01)
    with listening(app) as line:
        next(piece for piece in line if piece.startswith(b"event"))
        assert [next(line), next(line), next(line)] == [b":", b"\n\n", b":"]


def test_only_so_many_lines_are_held_and_the_rest_ask_now_and_then(
    app: Any, client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live, "MAX_LINES", 1)
    with listening(app) as line:
        next(line)
        refused = client.get("/api/v1/live")

    assert (refused.status_code, refused.headers["Retry-After"]) == (503, "60")
    assert refused.mimetype == "application/problem+json"


def test_of_many_who_ask_for_a_line_at_once_no_more_get_one_than_there_are(
    app: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Checked and then taken, all of them got one: the check must be the taking."""
    monkeypatch.setattr(live, "MAX_LINES", 20)
    lines, taken, at_once = app.extensions[live.LINES], [], threading.Barrier(50)

    def take() -> None:
        at_once.wait()
        taken.append(lines.take(""))

    threads = [threading.Thread(target=take) for _ in range(50)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    held = [line for line in taken if line]
    assert (len(taken), len(held)) == (50, 20)
    for line in held:
        line.leave()
    again = lines.take("")
    assert again is not None
    again.leave()


def test_a_device_with_many_lines_loses_its_oldest(app: Any) -> None:
    lines = app.extensions[live.LINES]
    own = [lines.take("phone") for _ in range(live.MAX_OF_ONE + 1)]
    other = lines.take("tablet")

    assert own[0].next_piece() is None
    assert None not in [line.next_piece() for line in [*own[1:], other]]
    for line in [*own, other]:
        line.leave()


def test_when_all_lines_are_held_one_with_none_gets_one_of_who_has_most(
    app: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live, "MAX_LINES", 4)
    lines = app.extensions[live.LINES]
    phone, tablet = [lines.take("phone") for _ in range(3)], lines.take("tablet")

    newcomer = lines.take("newcomer")

    assert newcomer is not None and phone[0].next_piece() is None and tablet.next_piece() is not None
    assert lines.take("another") is not None and lines.take("one more") is None
    for line in list(lines._held):
        line.leave()


def test_two_hundred_lines_at_once_hold_no_thread_and_hear_soon(app: Any, studio: Studio) -> None:
    run = studio.with_run()
    ask_for_line = b"GET /api/v1/live HTTP/1.1\r\nHost: localhost\r\n\r\n"
    with running(app, DoorKeeper(app)) as at:
        clients = [at.connect() for _ in range(200)]
        for client in clients:
            client.sendall(ask_for_line)
        for client in clients:
            hear(client, b"data: ")
        threads = threading.active_count()
        studio.post(run, make_entry(run))
        began = time.monotonic()
        for client in clients:
            hear(client, b'"reach": 1')
        took = time.monotonic() - began
        assert at.ask(b"GET /api/v1/clock HTTP/1.1\r\nHost: localhost\r\n\r\n")[0] == 200
        for client in clients:
            client.close()
        eventually(lambda: not app.extensions[live.LINES]._held)

    assert threads < 60
    assert took < 1


def hear(client: socket.socket, what: bytes) -> None:
    heard = b""
    while what not in heard:
        heard += client.recv(4096)
        assert heard


def test_it_reaches_the_browser_as_it_is_said(app: Any) -> None:
    answer = app.test_client().get("/api/v1/live", headers={"Accept-Encoding": "br, gzip"}, buffered=False)
    headers = answer.headers
    answer.close()

    assert headers["Content-Type"].startswith("text/event-stream")
    assert headers["Cache-Control"] == "no-store"
    assert "Content-Encoding" not in headers
    assert "Content-Length" not in headers


def test_a_database_that_is_away_for_a_moment_ends_no_line(
    app: Any, studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    run = studio.with_run()
    looked = threading.Event()

    def away(_sql: str, _values: object) -> None:
        looked.set()
        raise OSError("the database is away")

    with listening(app) as line:
        next(line)
        with monkeypatch.context() as broken:
            broken.setattr(live, "read_row", away)
            assert looked.wait(timeout=10)
        studio.post(run, make_entry(run))
        assert moved(next(line))["reach"] > 0


def test_a_browser_that_closes_frees_its_thread_within_a_heartbeat(
    app: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live, "HEARTBEAT_S", 0.3)
    server = make_server("127.0.0.1", 0, app, threaded=True)
    serving = threading.Thread(target=server.serve_forever)
    serving.start()
    try:
        browser = socket.create_connection(("127.0.0.1", server.port))
        browser.sendall(b"GET /api/v1/live HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        heard = b""
        while b"moved" not in heard:
            heard += browser.recv(4096)
        browser.close()
        began = time.monotonic()
        until_nobody_watches()
        took = time.monotonic() - began
    finally:
        server.shutdown()
        serving.join()
        server.server_close()

    assert took < live.HEARTBEAT_S + 10 * live.LOOK_S
