"""The server answers to its own names alone, and to requests that its own page sends."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from api.door import hosts
from api.door.names import Names

pytestmark = pytest.mark.database("sqlite")

LOCAL: dict[str, Any] = {}
LAN = {"lan": True, "pairing": True}
PROXY = {"pairing": True, "proxies": 1, "hosts": ("studio.example",)}


@pytest.fixture(autouse=True)
def machine(monkeypatch: pytest.MonkeyPatch) -> None:
    own = Names(("bench.local", "bench"), ("192.168.1.20", "fd00::20"))  # type: ignore[arg-type]
    monkeypatch.setattr(hosts, "names_of_machine", lambda: own)
    hosts._own_names.cache_clear()


def status(app: Any, host: str) -> int:
    return int(app.test_client().get("/pair", headers={"Host": host}).status_code)


@pytest.mark.parametrize(
    ("settings", "host", "answered"),
    [
        (LOCAL, "127.0.0.1:8420", True),
        (LOCAL, "localhost:8420", True),
        (LOCAL, "LocalHost.", True),
        (LOCAL, "[::1]:8420", True),
        (LOCAL, "192.168.1.20:8420", False),
        (LOCAL, "bench.local", False),
        ({"hosts": ("tunnel.example",)}, "tunnel.example", True),
        (LAN, "192.168.1.20:8420", True),
        (LAN, "[fd00::20]:8420", True),
        (LAN, "[FD00:0:0::20]:8420", True),
        (LAN, "bench.local:8420", True),
        (LAN, "localhost:8420", True),
        (LAN, "192.168.1.21:8420", False),
        (PROXY, "studio.example", True),
        (PROXY, "bench.local", False),
    ],
)
def test_it_answers_to_its_own_names(
    new_app: Callable[..., Any], settings: dict[str, Any], host: str, answered: bool
) -> None:
    assert (status(new_app(**settings), host) == 421) is not answered


@pytest.mark.parametrize("settings", [LOCAL, LAN, PROXY])
def test_a_strangers_name_that_leads_here_reads_nothing(
    new_app: Callable[..., Any], settings: dict[str, Any]
) -> None:
    client = new_app(**settings).test_client()
    for host in (
        "evil.example",
        "localhost.evil.example",
        "evil.example:8420",
        "127.0.0.1.evil.example",
        "localhost@evil.example",
        "",
        "[",
        "localhost:x/",
    ):
        for path in ("/", "/app.js", "/api/v1/recipes", "/pair"):
            answer = client.get(path, headers={"Host": host})
            assert answer.status_code == 421, (host, path)
            assert "BOWLSIDE_HOSTS" in answer.json["detail"]


def test_names_are_looked_up_now_and_then_and_not_each_time(
    new_app: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    app, looked, now = new_app(**LAN), [], [1000.0]
    own = Names(("bench.local",), ())
    monkeypatch.setattr(hosts, "names_of_machine", lambda: looked.append(1) or own)
    monkeypatch.setattr("api.door.hosts.time.monotonic", lambda: now[0])

    for now[0] in (1000.0, 1001.0, 1010.0):
        status(app, "bench.local")
    assert len(looked) == 1
    now[0] += hosts.LOOK_AGAIN_S
    status(app, "bench.local")
    assert len(looked) == 2


@pytest.mark.parametrize(
    ("headers", "taken"),
    [
        ({}, True),  # not a browser: it has no cookie that was not given to it
        ({"Sec-Fetch-Site": "same-origin", "Origin": "http://localhost:8420"}, True),
        ({"Origin": "http://localhost:8420"}, True),
        ({"Sec-Fetch-Site": "none"}, True),
        ({"Sec-Fetch-Site": "same-site"}, False),
        ({"Sec-Fetch-Site": "cross-site", "Origin": "https://evil.example"}, False),
        ({"Origin": "https://evil.example"}, False),
        ({"Origin": "http://localhost:9999"}, False),
        ({"Origin": "http://localhost:8420.evil.example"}, False),
        ({"Origin": "null"}, False),
        ({"Origin": ""}, False),
        ({"Sec-Fetch-Site": "same-origin", "Origin": "https://evil.example"}, False),
    ],
)
def test_only_its_own_page_may_change_things(
    new_app: Callable[..., Any], headers: dict[str, str], taken: bool
) -> None:
    client = new_app(pairing=True).test_client()
    host = {"Host": "localhost:8420", **headers}

    for path, body in (("/api/v1/pair", {"json": {}}), ("/pair", {"data": {}})):
        answer = client.post(path, headers=host, **body)  # type: ignore[arg-type]
        assert answer.status_code == (422 if taken else 403), path


@pytest.mark.parametrize(
    ("settings", "host", "origin", "taken"),
    [
        (LAN, "bench.local:8420", "https://bench.local:8420", True),
        (LAN, "bench.local:8420", "http://bench.local:8420", False),
        (LAN, "192.168.1.20:8420", "http://192.168.1.20:8420", False),
        (PROXY, "studio.example", "https://studio.example", True),
        (PROXY, "studio.example", "http://studio.example", False),
        (LAN, "localhost:8420", "http://localhost:8420", True),  # this machine itself
        ({"hosts": ("bench.local",)}, "bench.local", "http://bench.local", True),
    ],
)
def test_a_page_that_came_without_tls_may_change_nothing_on_a_network(
    new_app: Callable[..., Any], settings: dict[str, Any], host: str, origin: str, taken: bool
) -> None:
    answer = (
        new_app(**settings)
        .test_client()
        .post("/api/v1/pair", json={}, headers={"Host": host, "Origin": origin})
    )

    assert answer.status_code == (422 if taken else 403)


def test_another_sites_page_may_not_make_it_change_anything_with_no_pairing(client: Any) -> None:
    answer = client.put("/api/v1/kit", data="{}", headers={"Sec-Fetch-Site": "cross-site"})

    assert answer.status_code == 403
    assert "Another site" in answer.json["detail"]


def test_another_sites_page_is_shown_no_data_and_may_link_here(client: Any) -> None:
    elsewhere = {"Sec-Fetch-Site": "cross-site"}

    assert client.get("/api/v1/export", headers=elsewhere).status_code == 403
    assert client.get("/", headers=elsewhere).status_code == 200
    assert client.get("/", headers=elsewhere).headers["Cross-Origin-Resource-Policy"] == "same-origin"


def test_no_other_origin_is_let_in(client: Any) -> None:
    answer = client.get("/api/v1/clock", headers={"Origin": "https://evil.example"})

    assert not [name for name, _ in answer.headers if name.startswith("Access-Control")]
