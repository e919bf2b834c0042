"""How much may be asked for, and how often."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest

from api.door import limits
from api.wire import DEEPEST
from tests.api.doorway import paired

pytestmark = pytest.mark.database("sqlite")


@pytest.fixture
def seconds(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The counters' clock, moved by hand."""
    now = [1_760_000_000.0]
    monkeypatch.setattr("time.time", lambda: now[0])
    return now


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True)


def test_a_device_that_has_run_away_waits_and_others_do_not(
    app: Any, seconds: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "DEVICE", limits.parse("3 per minute"))
    one, other = paired(app), paired(app)

    statuses = [one.get("/api/v1/clock").status_code for _ in range(4)]

    assert statuses == [200, 200, 200, 429]
    refused = one.get("/api/v1/clock")
    assert refused.mimetype == "application/problem+json"
    assert 0 < int(refused.headers["Retry-After"]) <= 60
    assert other.get("/api/v1/clock").status_code == 200
    seconds[0] += int(refused.headers["Retry-After"])
    assert one.get("/api/v1/clock").status_code == 200


def test_a_device_may_ask_far_oftener_than_a_page_does() -> None:
    """The page asks a few times in three seconds, and at each touch; a batch holds hundreds of entries."""
    assert limits.DEVICE.amount / limits.DEVICE.get_expiry() >= 50


def test_who_is_not_paired_may_ask_now_and_then(app: Any, client: Any, seconds: list[float]) -> None:
    phone = paired(app)  # which was a stranger once
    statuses = [client.get("/api/v1/clock").status_code for _ in range(limits.STRANGER.amount)]

    assert statuses == [401] * (limits.STRANGER.amount - 1) + [429]
    assert client.get("/api/v1/clock").headers["Retry-After"]
    assert phone.get("/api/v1/clock").status_code == 200


@pytest.mark.parametrize(
    ("asked", "status"),
    [
        ({"path": "/api/v1/clock", "headers": {"Host": "elsewhere.example"}}, 421),
        ({"path": "/api/v1/clock", "headers": {"Sec-Fetch-Site": "cross-site"}}, 403),
        ({"path": "/api/v1/kit", "method": "PUT", "headers": {"Origin": "https://elsewhere.example"}}, 403),
        ({"path": "/pair"}, 200),
        ({"path": "/"}, 401),
    ],
)
def test_whatever_a_stranger_asks_is_counted_before_it_is_refused_or_logged(
    app: Any, client: Any, seconds: list[float], asked: dict[str, Any], status: int, caplog: Any
) -> None:
    statuses = [client.open(**asked).status_code for _ in range(limits.STRANGER.amount)]
    caplog.clear()

    assert statuses == [status] * limits.STRANGER.amount
    assert client.open(**asked).status_code == 429
    assert caplog.records == []


def test_a_stranger_with_many_ipv6_addresses_is_one(
    app: Any, seconds: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "STRANGER", limits.parse("3 per minute"))
    client = app.test_client()

    def ask(address: str) -> int:
        status: int = client.get("/api/v1/clock", environ_base={"REMOTE_ADDR": address}).status_code
        return status

    assert [ask(f"2001:db8::{number}") for number in range(1, 5)] == [401, 401, 401, 429]
    assert ask("2001:db8:0:1::1") == 401


def test_codes_are_not_made_without_end(app: Any, seconds: list[float]) -> None:
    maker = paired(app)

    statuses = [maker.post("/api/v1/pairings", json={"role": "helper"}).status_code for _ in range(31)]

    assert statuses == [201] * 30 + [429]


def test_whoever_sits_at_this_machine_is_not_counted(
    new_app: Callable[..., Any], seconds: list[float]
) -> None:
    client = new_app().test_client()

    assert {client.get("/api/v1/clock").status_code for _ in range(limits.STRANGER.amount + 1)} == {200}


def test_a_body_is_bounded_in_size_and_in_depth(app: Any) -> None:
    maker = paired(app)
    deep = "[" * (DEEPEST + 2) + "]" * (DEEPEST + 2)

    too_deep = maker.put("/api/v1/kit", data=deep, content_type="application/json")
    too_large = maker.put("/api/v1/kit", data=b" " * 5_000_000, content_type="application/json")

    assert (too_deep.status_code, too_large.status_code) == (400, 413)


def test_the_way_in_takes_no_large_body(app: Any, client: Any) -> None:
    for path, kind in (("/api/v1/pair", "application/json"), ("/pair", "application/x-www-form-urlencoded")):
        answer = client.post(path, data=b"x" * 100_000, content_type=kind)
        assert answer.status_code == 413, path


def test_counting_holds_when_many_ask_at_once(app: Any) -> None:
    rate, rates, let_through = limits.parse("500 per hour"), app.extensions[limits.RATES], []
    ready = threading.Barrier(8)

    def ask() -> None:
        ready.wait()
        let_through.extend(rates.hit(rate, "phone") for _ in range(100))

    threads = [threading.Thread(target=ask) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert (len(let_through), sum(let_through)) == (800, 500)
