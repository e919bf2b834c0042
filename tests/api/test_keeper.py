"""Who comes, as the edge is told before a body is read: by cookie, and by the address that proxies say."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest

from api.door.gate import COOKIE, ENTRANCE_BODY
from api.door.keeper import DoorKeeper
from api.edge.channel import Patience
from api.edge.crowd import Bounds
from tests.api.doorway import cookie_of, paired
from tests.api.edges import PHONE, STRANGER, read_answer, running

pytestmark = pytest.mark.database("sqlite")

LARGE = b"POST /api/v1/%s HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n%sContent-Length: 500000\r\n\r\n"


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True, lan=True)


def cookie(client: Any) -> bytes:
    return f"Cookie: {COOKIE}={cookie_of(client)}\r\n".encode()


def from_proxy(says: str) -> dict[str, str]:
    return {"REMOTE_ADDR": PHONE, "HTTP_X_FORWARDED_FOR": says}


@pytest.mark.parametrize(
    ("hops", "says", "address"),
    [
        (1, "192.0.2.1", "192.0.2.1"),
        (1, "203.0.113.9, 192.0.2.1", "192.0.2.1"),  # what the client claimed, then what the proxy saw
        (2, "203.0.113.9, 192.0.2.1, 192.0.2.2", "192.0.2.1"),
        (2, "192.0.2.1", PHONE),
        (1, "", PHONE),
    ],
)
def test_behind_proxies_the_address_is_what_the_last_of_them_say(
    new_app: Callable[..., Any], hops: int, says: str, address: str
) -> None:
    keeper = DoorKeeper(new_app(pairing=True, proxies=hops, hosts=("studio.example",)))

    assert keeper.address(from_proxy(says)) == address
    assert not keeper.knows_addresses and not keeper.is_alone


def test_on_a_network_nobody_says_where_another_is(app: Any) -> None:
    assert DoorKeeper(app).address(from_proxy("192.0.2.1")) == PHONE


def test_a_device_is_known_by_its_cookie_until_it_is_shut_out(app: Any) -> None:
    keeper, phone, maker = DoorKeeper(app), paired(app), paired(app)
    shown = keeper.shows({"HTTP_COOKIE": f"a=b; {COOKIE}={cookie_of(phone)}; c"})

    assert shown == cookie_of(phone)
    assert keeper.device(shown) == phone.device["id"]
    assert keeper.device(shown[:-1] + "x") is None and keeper.device("") is None
    assert keeper.shows({}) is None and keeper.shows({"HTTP_COOKIE": "a=b"}) is None
    maker.delete(f"/api/v1/devices/{phone.device['id']}")
    assert keeper.device(shown) is None


def test_of_a_strangers_body_the_studio_reads_no_more_than_a_code_needs(app: Any) -> None:
    phone = paired(app)
    with running(app, DoorKeeper(app), patience=Patience(refused=1, refused_of_stranger=1)) as run:
        for path, status in ((b"import", 401), (b"pair", 413)):
            answered, headers, body = run.ask(LARGE % (path, b""), STRANGER)  # nothing of the body is sent
            assert (answered, json.loads(body)["status"]) == (status, status), path
            assert headers["connection"] == "close"
        status, _, body = run.ask(LARGE % (b"import", cookie(phone)) + b" " * 500_000)
        assert status == 400 and b"JSON" in body.upper()
    assert DoorKeeper(app).most({}, is_known=False) == ENTRANCE_BODY


def test_behind_a_proxy_strangers_are_counted_by_the_address_it_says_and_devices_are_not(
    new_app: Callable[..., Any],
) -> None:
    app = new_app(pairing=True, proxies=1, hosts=("studio.example",))
    phone = paired(app)
    ask = b"GET /api/v1/clock HTTP/1.1\r\nHost: studio.example\r\nX-Forwarded-For: %s\r\n%s\r\n"
    bounds, patience = Bounds(requests_of_one=(0, 2)), Patience(late=0)
    with running(app, DoorKeeper(app), bounds=bounds, patience=patience) as run:
        assert [run.ask(ask % (b"192.0.2.1", b""))[0] for _ in range(4)] == [401, 401, 429, 429]
        assert run.ask(ask % (b"192.0.2.2", b""))[0] == 401
        with run.connect() as proxy:  # whose connections carry whoever comes
            for sent, status in ((b"", 401), (cookie(phone), 200)):
                proxy.sendall(ask % (b"192.0.2.3", sent))
                assert read_answer(proxy)[0] == status
        assert run.ask(ask % (b"192.0.2.1", cookie(phone)))[0] == 200


def test_a_paired_phone_is_answered_where_a_stranger_with_its_address_is_not(app: Any) -> None:
    phone = paired(app)
    ask = b"GET /api/v1/clock HTTP/1.1\r\nHost: localhost\r\n%s\r\n"
    bounds, patience = Bounds(requests_of_one=(0, 0)), Patience(late=0)
    with running(app, DoorKeeper(app), bounds=bounds, patience=patience) as run:
        assert run.ask(ask % b"")[0] == 429
        assert run.ask(ask % cookie(phone))[0] == 200
        assert run.ask(ask % b"")[0] == 429
