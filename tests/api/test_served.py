"""The real server as a process: it answers this machine alone, and what it answered is there after kill -9."""

from __future__ import annotations

import json
import socket
import threading
import urllib.error
import urllib.request
from typing import Any

import pytest

from tests.make import make_entry, make_run, uuid4
from tests.servers import Server

pytestmark = pytest.mark.slow


def ask(server: Server, path: str, method: str = "GET", body: object = None) -> Any:
    request = urllib.request.Request(
        server.url + path.lstrip("/"),
        method=method,
        data=None if body is None else json.dumps(body).encode(),
        headers={"Content-Type": "application/json"},
    )
    with urllib.request.urlopen(request, timeout=10) as answer:
        return json.load(answer)


def begin_run(server: Server) -> str:
    run = uuid4()
    recipe = ask(server, "/api/v1/recipes")["recipes"][0]
    ask(server, f"/api/v1/runs/{run}", "PUT", make_run(recipe))
    return run


def test_what_was_answered_is_there_after_kill_9_in_the_middle_of_posting(live_server: Server) -> None:
    run = begin_run(live_server)
    answered: list[list[str]] = [[] for _ in range(4)]
    enough = threading.Event()

    def post_until_it_dies(mine: list[str]) -> None:
        while True:
            entry = make_entry(run, device="phone-b")
            try:
                answer = ask(live_server, f"/api/v1/runs/{run}/entries", "POST", {"entries": [entry]})
            except (OSError, ValueError):
                return
            mine += [each["id"] for each in answer["answers"] if each["result"] == "kept"]
            if len(mine) >= 25:
                enough.set()

    phones = [threading.Thread(target=post_until_it_dies, args=[mine]) for mine in answered]
    for phone in phones:
        phone.start()
    assert enough.wait(timeout=60)
    live_server.kill()
    for phone in phones:
        phone.join()
    live_server.start()

    kept = ids_of(live_server, run)
    said = [each for mine in answered for each in mine]
    assert set(said) <= set(kept)
    assert len(kept) == len(set(kept))


def ids_of(server: Server, run: str) -> list[str]:
    ids, after, more = [], 0, True
    while more:
        page = ask(server, f"/api/v1/runs/{run}/entries?after={after}&limit=1000")
        ids += [entry["id"] for entry in page["entries"]]
        after, more = page["cursor"], page["more"]
    return ids


def test_a_batch_cut_off_by_kill_9_can_be_sent_again(live_server: Server) -> None:
    run = begin_run(live_server)
    entries = [make_entry(run) for _ in range(20)]
    ask(live_server, f"/api/v1/runs/{run}/entries", "POST", {"entries": entries[:10]})
    live_server.kill()
    live_server.start()

    answer = ask(live_server, f"/api/v1/runs/{run}/entries", "POST", {"entries": entries})

    assert [each["result"] for each in answer["answers"]] == ["had"] * 10 + ["kept"] * 10


def test_only_this_machine_is_answered(live_server: Server) -> None:
    port = int(live_server.url.rsplit(":", 1)[1].strip("/"))
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as outward:
        try:
            outward.connect(("192.0.2.1", 9))  # sends nothing; tells the machine's own address
        except OSError:
            pytest.skip("this machine has no address but its own")
        address = outward.getsockname()[0]

    with pytest.raises(OSError):
        socket.create_connection((address, port), timeout=2)


def test_50_mb_over_the_wire_is_a_problem_not_a_crash(live_server: Server) -> None:
    with pytest.raises(urllib.error.HTTPError) as refused:
        ask(live_server, "/api/v1/kit", "PUT", "x" * 50_000_000)

    assert refused.value.code == 413
    assert refused.value.headers["Content-Type"] == "application/problem+json"
    assert ask(live_server, "/api/v1/clock")["server_ms"] > 0
