"""The server's processes: who replaces whom, who leaves with whom, and how soon."""

from __future__ import annotations

import signal
import socket
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from urllib.parse import urlsplit

import psutil
import pytest

from api.serving import port_of, take_sockets
from tests.api.test_served import ask
from tests.servers import Server, bowlside

pytestmark = pytest.mark.slow

WITHIN_SECONDS = 10


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    # A server leaves alone what was ignored when it began, as where these tests run under nohup or in the background.
    former = {each: signal.signal(each, signal.SIG_DFL) for each in (signal.SIGHUP, signal.SIGINT)}
    server = bowlside(tmp_path / "bowlside.sqlite3", "--workers", "2").start()
    for each, handler in former.items():
        signal.signal(each, handler)
    eventually(lambda: len(household(server)) == 3)
    yield server
    server.stop()


def household(server: Server) -> list[psutil.Process]:
    """The master's children in the order in which they were started: two workers and the porter."""
    return sorted(psutil.Process(server.master).children(), key=lambda child: child.create_time())


def eventually(comes_true: Callable[[], object]) -> None:
    until = time.monotonic() + WITHIN_SECONDS
    while not comes_true():
        assert time.monotonic() < until, "it did not come true in time"
        time.sleep(0.02)


def are_gone(processes: list[psutil.Process]) -> bool:
    """One that has ended may still be listed until its parent has asked how."""
    return not any(each.is_running() and each.status() != psutil.STATUS_ZOMBIE for each in processes)


def test_a_worker_or_the_porter_that_is_killed_is_replaced(server: Server) -> None:
    before = household(server)

    for member in before:
        member.kill()

    eventually(lambda: len(household(server)) == 3 and not set(household(server)) & set(before))
    assert ask(server, "/api/v1/clock")["server_ms"] > 0


def test_the_landing_page_has_a_process_of_its_own_that_is_replaced_too(tmp_path: Path) -> None:
    """Strangers reach it, and the porter must go on whatever they do to it."""
    server = bowlside(tmp_path / "bowlside.sqlite3", "--lan", "--landing-port", "0").start()
    try:
        eventually(lambda: len(household(server)) == 3)

        def listening() -> dict[psutil.Process, set[int]]:
            """Who listens on one port, which is not the studio's."""
            found = {}
            for each in household(server):
                with suppress(psutil.NoSuchProcess):
                    found[each] = {at.laddr.port for at in each.net_connections() if at.status == "LISTEN"}
            return {
                each: ports
                for each, ports in found.items()
                if len(ports) == 1 and ports != {urlsplit(server.url).port}
            }

        eventually(lambda: len(listening()) == 1)  # a child lets go of others' sockets first
        [(page, [port])] = listening().items()
        others = [each for each in household(server) if each != page]
        page.kill()
        eventually(lambda: len(now := listening()) == 1 and page not in now)
        assert set(others) < set(household(server))
        with socket.create_connection(("127.0.0.1", port), timeout=WITHIN_SECONDS) as stranger:
            stranger.sendall(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
            assert stranger.recv(100).startswith(b"HTTP/1.1 200")
    finally:
        server.stop()


@pytest.mark.parametrize("sign", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
def test_it_stops_though_somebody_is_connected_and_waits_for_nobody(
    server: Server, sign: signal.Signals
) -> None:
    """Ctrl+C, a service manager, and a terminal that is closed."""
    master, all_of_them = psutil.Process(server.master), household(server)
    kept_open = connect(server)
    kept_open.sendall(b"GET /api/v1/clock HTTP/1.1\r\nHost: localhost\r\n\r\n")
    assert kept_open.recv(1000).startswith(b"HTTP/1.1 200")

    master.send_signal(sign)

    assert master.wait(timeout=WITHIN_SECONDS) == 0
    eventually(lambda: are_gone(all_of_them))
    assert kept_open.recv(1000) == b""


def test_all_leave_when_the_master_is_killed(server: Server) -> None:
    all_of_them = household(server)

    psutil.Process(server.master).kill()

    eventually(lambda: are_gone(all_of_them))


def test_nothing_is_left_when_the_group_is_killed(server: Server) -> None:
    all_of_them = household(server)

    server.kill()

    eventually(lambda: are_gone(all_of_them))


def test_what_proxies_say_is_not_believed_unless_asked(server: Server) -> None:
    """gunicorn by itself believes a proxy on the same machine."""
    asked = connect(server)
    forged = "X-Forwarded-Proto: https\r\nX-Forwarded-For: 192.0.2.9\r\nSCRIPT_NAME: /api"
    asked.sendall(f"GET /v1/clock HTTP/1.1\r\nHost: localhost\r\n{forged}\r\n\r\n".encode())

    assert asked.recv(1000).startswith((b"HTTP/1.1 404", b"HTTP/1.1 400"))


def connect(server: Server) -> socket.socket:
    address = urlsplit(server.url)
    return socket.create_connection((address.hostname, address.port), timeout=WITHIN_SECONDS)


def test_all_sockets_take_one_port() -> None:
    taken = take_sockets(("127.0.0.1", "::1"), 0)

    assert {port_of([each]) for each in taken} == {port_of(taken)}


def test_an_ipv6_address_that_the_machine_does_not_have_is_done_without() -> None:
    assert len(take_sockets(("127.0.0.1", "2001:db8::1"), 0)) == 1


def test_a_port_that_is_taken_is_an_error() -> None:
    taken = take_sockets(("127.0.0.1",), 0)

    with pytest.raises(OSError):
        take_sockets(("127.0.0.1",), port_of(taken))
