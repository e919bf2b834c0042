"""The edge: whatever a client does or leaves undone, others are answered, and it ends in time."""

from __future__ import annotations

import errno
import json
import socket
import ssl
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from api.door.authority import Certificate, open_authority, renew
from api.edge.channel import Patience, Phase
from api.edge.crowd import Bounds, counted_as
from api.edge.keeper import StrangersOnly
from api.edge.wsgi import Environ
from tests.api.edges import (
    ASK,
    PHONE,
    STRANGER,
    Running,
    TestKeeper,
    eventually,
    hello,
    is_closed,
    read_answer,
    running,
)
from tests.api.test_authority import HOME, NOW

SOON = 0.2
FROM_PHONE = b"GET / HTTP/1.1\r\nHost: studio\r\nCookie: phone\r\n\r\n"
BEGUN_BODY = b"POST / HTTP/1.1\r\nHost: studio\r\nContent-Length: 4000\r\n\r\nhalf"


@pytest.fixture
def now(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The edge's clock, moved by hand."""
    clock = [1000.0]
    for module in ("connection", "crowd", "serving"):
        monkeypatch.setattr(f"api.edge.{module}.monotonic", lambda: clock[0])
    return clock


@pytest.fixture
def certificate(tmp_path: Path) -> Certificate:
    made = Certificate(tmp_path)
    renew(made, open_authority(tmp_path, HOME, NOW), HOME, NOW)
    return made


def trusting_all() -> ssl.SSLContext:
    context = ssl.create_default_context()
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    return context


# What a client leaves undone.


@pytest.mark.parametrize("sent", [b"", b"GET / HTTP/1.1\r\nHost: ", BEGUN_BODY, ASK])
def test_one_who_never_ends_what_it_began_is_cut_off(sent: bytes) -> None:
    with running(hello, patience=Patience(head=SOON, body=SOON, idle=SOON)) as run, run.connect() as client:
        client.sendall(sent)
        assert is_closed(client)


def test_one_who_never_begins_tls_is_cut_off(certificate: Certificate) -> None:
    patience = Patience(handshake=SOON)
    with running(hello, context=certificate.context, patience=patience) as run, run.connect() as client:
        assert is_closed(client)


def test_a_body_may_last_as_long_as_it_moves_at_the_least_rate(now: list[float]) -> None:
    patience = Patience(body=10, body_rate=100)
    head = b"POST / HTTP/1.1\r\nHost: studio\r\nContent-Length: 5000\r\n\r\n"
    with running(hello, patience=patience) as run, run.connect() as client:
        client.sendall(head)
        for sent in range(1, 5):
            client.sendall(b"x" * 1000)
            eventually(lambda sent=sent: [each._size for each in run.edge.crowd.everybody()] == [1000 * sent])
            now[0] += 10  # 40 s in all, while ten are given to what does not move
        client.sendall(b"x" * 1000)
        assert read_answer(client)[0] == 200

        client.sendall(head + b"x" * 1000)
        eventually(lambda: [each._size for each in run.edge.crowd.everybody()] == [1000])
        now[0] += 21
        assert is_closed(client)


def test_one_who_takes_no_answers_is_cut_off_and_makes_no_more_of_them() -> None:
    made = []

    def large(_environ: Environ, start: Callable[..., Any]) -> Iterator[bytes]:
        start("200 OK", [("Content-Length", str(10**9))])
        for _ in range(1000):
            made.append(1)
            yield b"x" * 10**6

    with running(large, patience=Patience(answer=SOON)) as run, run.connect(buffer=4096) as client:
        client.sendall(ASK)
        eventually(lambda: made and not len(run.edge.crowd))
    assert len(made) < 20


def test_answers_that_are_not_taken_are_not_asked_for_further() -> None:
    """One request after the other with no answer read: they stay in the network, and nothing is worked on."""
    asked = []

    def answer(environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        asked.append(environ["PATH_INFO"])
        start("200 OK", [("Content-Length", "200000")])
        return [b"x" * 200_000]

    with running(answer, patience=Patience(answer=SOON)) as run, run.connect(buffer=4096) as client:
        client.setblocking(False)
        client.send(ASK * 1000)
        eventually(lambda: asked and not len(run.edge.crowd))
    assert len(asked) < 100


def test_who_reads_slowly_and_moves_gets_all_of_it(now: list[float]) -> None:
    def large(_environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        start("200 OK", [("Content-Length", str(8 * 10**6))])
        return [b"x" * 8 * 10**6]

    with (
        running(large, patience=Patience(answer=10, answer_rate=1000)) as run,
        run.connect(buffer=4096) as client,
    ):
        client.sendall(ASK)
        received = 0
        while received < 8 * 10**6:
            received += len(client.recv(10**6))
            now[0] += 0.001


def test_clients_that_never_close_their_side_hold_nobody() -> None:
    """What stopped the whole server before: closing waited for the client, on the thread that accepts."""
    close = ASK.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n")
    with running(hello) as run:
        rude = [run.connect(STRANGER) for _ in range(12)]
        for each in rude:
            each.sendall(close)
        for each in rude:
            assert read_answer(each)[0] == 200
        assert run.ask()[0] == 200
        eventually(lambda: not len(run.edge.crowd))
        for each in rude:
            each.close()


# How much a stranger may hold.


def test_threads_that_strangers_hold_are_few() -> None:
    held, let_go, inside = [], threading.Event(), threading.Lock()

    def slow_for_strangers(environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        if environ["REMOTE_ADDR"] != PHONE:
            with inside:
                held.append(environ["REMOTE_ADDR"])
            let_go.wait(10)
        return hello(environ, start)

    with running(slow_for_strangers, TestKeeper()) as run:
        strangers = [run.connect(f"127.0.0.{number}") for number in range(2, 42) for _ in range(2)]
        for each in strangers:
            each.sendall(ASK)
        eventually(lambda: len(held) == 2)
        assert run.ask(FROM_PHONE)[0] == 200
        assert len(set(held)) == 2  # and of one address only one
        let_go.set()
        for each in strangers:
            each.close()


def test_of_one_stranger_the_oldest_connection_gives_way() -> None:
    with running(hello, TestKeeper(), bounds=Bounds(of_one_stranger=3)) as run:
        clients = [run.connect(STRANGER) for _ in range(4)]
        assert is_closed(clients[0])
        for each in clients[1:]:
            each.sendall(ASK)
            assert read_answer(each)[0] == 200
            each.close()


def test_strangers_give_way_and_who_is_known_does_not() -> None:
    with running(hello, TestKeeper(), bounds=Bounds(connections=8, strangers=4)) as run:
        phone = run.connect()
        phone.sendall(FROM_PHONE)
        assert read_answer(phone)[0] == 200
        strangers = [run.connect(f"127.0.0.{number}") for number in range(2, 12)]
        assert all(is_closed(each) for each in strangers[:6])
        phones = [run.connect() for _ in range(3)]
        for each in [phone, *phones, *strangers[6:]]:
            each.sendall(FROM_PHONE)
            assert read_answer(each)[0] == 200
            each.close()


def test_a_stranger_who_connects_too_often_is_not_taken_in(now: list[float]) -> None:
    with running(hello, TestKeeper(), bounds=Bounds(connects_of_one=(1, 3))) as run:
        for _ in range(3):
            assert run.ask(address=STRANGER)[0] == 200
        with pytest.raises(ConnectionError):
            run.ask(address=STRANGER)
        assert run.ask(address="127.0.0.3")[0] == 200
        now[0] += 1
        assert run.ask(address=STRANGER)[0] == 200


def test_a_stranger_who_asks_too_often_hears_so_late_and_a_device_beside_it_does_not(
    now: list[float],
) -> None:
    seen = []

    def counting(environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        seen.append(environ["REMOTE_ADDR"])
        return hello(environ, start)

    bounds, patience = Bounds(requests_of_one=(1, 3)), Patience(late=0)
    with running(counting, TestKeeper(), bounds=bounds, patience=patience) as run:
        statuses = [run.ask(address=STRANGER)[0] for _ in range(4)]
        status, headers, body = run.ask(ASK.replace(b"\r\n\r\n", b"\r\nCookie: forged\r\n\r\n"), STRANGER)
        assert (*statuses, status) == (200, 200, 200, 429, 429)
        assert headers["content-type"] == "application/problem+json" and headers["retry-after"] == "60"
        assert json.loads(body)["status"] == 429
        assert len(seen) == 3  # the application saw nothing of the rest
        assert run.ask(FROM_PHONE, STRANGER)[0] == 200


def test_what_is_not_http_counts_too(now: list[float]) -> None:
    with running(hello, TestKeeper(), bounds=Bounds(requests_of_one=(1, 3))) as run:
        for _ in range(3):
            assert run.ask(b"nonsense\r\n\r\n", STRANGER)[0] == 400
        assert not run.edge.crowd.party(STRANGER).requests.take()


def test_of_a_strangers_body_no_more_is_read_than_a_code_needs() -> None:
    head = b"POST /import HTTP/1.1\r\nHost: studio\r\n%sContent-Length: 500000\r\n\r\n"
    with running(hello, TestKeeper()) as run, run.connect(STRANGER) as client:
        client.sendall(head % b"")
        status, headers, body = read_answer(client)  # before any of it was sent
        told = json.loads(body)
        assert (status, told["length"], told["read"]) == (200, "500000", 0)
        assert headers["connection"] == "close"
        whole = head % b"Cookie: phone\r\n" + b"x" * 500_000
        assert json.loads(run.ask(whole)[2])["read"] == 500_000


def test_one_who_is_refused_while_it_sends_hears_why() -> None:
    chunk = b"%x\r\n%s\r\n" % (60_000, b"x" * 60_000)
    with running(hello, TestKeeper()) as run, run.connect() as client:
        client.sendall(
            b"POST / HTTP/1.1\r\nHost: studio\r\nCookie: phone\r\nTransfer-Encoding: chunked\r\n\r\n"
        )
        for _ in range(40):
            client.sendall(chunk)
        client.sendall(b"0\r\n\r\n")
        status, _, body = read_answer(client)
        told = json.loads(body)
        assert status == 200 and told["read"] == 0 and int(told["length"]) > 1_000_000
        assert is_closed(client)


def test_half_a_family_of_addresses_is_counted_as_one() -> None:
    assert (
        counted_as("2001:db8:1:2::5") == counted_as("2001:db8:1:2:ffff::9") != counted_as("2001:db8:1:3::5")
    )
    assert counted_as("::ffff:192.168.1.7") == counted_as("192.168.1.7") != counted_as("192.168.1.8")
    assert counted_as("fe80::1%eth0") == counted_as("fe80::2")
    assert counted_as("unix") == "unix"


def test_nobody_is_remembered_for_ever(now: list[float]) -> None:
    with running(hello, TestKeeper()) as run:
        run.ask(address=STRANGER)
        eventually(lambda: not len(run.edge.crowd))
        now[0] += 3600
        eventually(lambda: STRANGER not in run.edge.crowd._parties)


# HTTP, as clients speak it.


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        (b"nonsense\r\n\r\n", 400),
        (b"GET / HTTP/1.1\r\n\r\n", 400),
        (b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", 400),
        (b"GET / HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n", 400),
        (b"GET / HTTP/1.1\r\nHost: a\r\nBad Name: 2\r\n\r\n", 400),
        (b"POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n", 400),
        (b"POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: gzip\r\n\r\n", 501),
        (
            b"POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 3\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
            400,
        ),
        (b"POST / HTTP/1.0\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n", 400),
        (b"GET /" + b"x" * 40_000, 414),
        (b"GET / HTTP/1.1\r\nX: " + b"x" * 40_000, 431),
    ],
)
def test_what_is_not_http_as_it_should_be_is_a_problem_too(sent: bytes, status: int) -> None:
    with running(hello, patience=Patience(refused=SOON, refused_of_stranger=SOON)) as run:
        answered, headers, body = run.ask(sent)

    assert answered == status
    assert headers["content-type"] == "application/problem+json"
    assert (headers["cache-control"], headers["connection"]) == ("no-store", "close")
    assert json.loads(body)["status"] == status


def test_requests_follow_each_other_on_one_connection_in_their_order() -> None:
    asks = b"".join(b"GET /%d?q=%d HTTP/1.1\r\nHost: studio\r\n\r\n" % (at, at) for at in range(20))
    with running(hello) as run, run.connect() as client:
        client.sendall(asks)
        received = b""
        while received.count(b"HTTP/1.1 200") < 20 or not received.endswith(b"}"):
            received += client.recv(65536)
        paths = [
            json.loads(each.partition(b"\r\n\r\n")[2])["path"] for each in received.split(b"HTTP/1.1 200")[1:]
        ]
    assert paths == [f"/{at}" for at in range(20)]


def test_a_head_is_answered_with_no_body_and_http_1_0_is_closed() -> None:
    with running(hello) as run, run.connect() as client:
        client.sendall(b"HEAD / HTTP/1.1\r\nHost: studio\r\n\r\nGET /next HTTP/1.0\r\n\r\n")
        received = b""
        while piece := client.recv(65536):
            received += piece
    first, second = received.split(b"HTTP/1.1 200 OK")[1:]
    assert first.endswith(b"\r\n\r\n") and b"/next" in second


def test_who_waits_to_be_asked_for_the_body_is_asked() -> None:
    with running(hello) as run, run.connect() as client:
        client.sendall(
            b"POST / HTTP/1.1\r\nHost: studio\r\nExpect: 100-continue\r\nContent-Length: 4\r\n\r\n"
        )
        assert client.recv(1000).startswith(b"HTTP/1.1 100")
        client.sendall(b"body")
        assert json.loads(read_answer(client)[2])["read"] == 4


def test_a_header_with_an_underscore_is_not_taken_for_another() -> None:
    forged = b"X_Forwarded_For: 1\r\nSCRIPT_NAME: /api\r\nX-True: 1\r\nCookie: a=1\r\nCookie: b=2"
    with running(hello) as run:
        told = json.loads(run.ask(ASK.replace(b"\r\n\r\n", b"\r\n" + forged + b"\r\n\r\n"))[2])
    assert told["headers"] == {"HTTP_HOST": "studio", "HTTP_X_TRUE": "1", "HTTP_COOKIE": "a=1; b=2"}


def test_a_path_is_read_as_it_was_written() -> None:
    with running(hello) as run:
        odd = json.loads(run.ask(b"GET http://studio/a%C3%A4?b=%41 HTTP/1.1\r\nHost: studio\r\n\r\n")[2])
    assert (odd["path"], odd["query"]) == ("/aä".encode().decode("latin-1"), "b=%41")


def test_a_fault_of_the_application_is_a_problem_and_the_next_is_answered(caplog: Any) -> None:
    def faulty(environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        if environ["PATH_INFO"] == "/fault":
            raise RuntimeError("secret")
        return hello(environ, start)

    with running(faulty) as run, run.connect() as client:
        client.sendall(ASK.replace(b"/ ", b"/fault ", 1))
        status, _, body = read_answer(client)
        assert status == 500 and b"secret" not in body
        client.sendall(ASK)
        assert read_answer(client)[0] == 200


def test_one_who_has_closed_its_own_side_is_answered() -> None:
    with running(hello) as run, run.connect() as client:
        client.sendall(ASK)
        client.shutdown(socket.SHUT_WR)
        assert read_answer(client)[0] == 200
        assert is_closed(client)


def test_what_an_answer_holds_is_let_go_when_the_client_goes() -> None:
    closed = threading.Event()

    class Made:
        def __iter__(self) -> Iterator[bytes]:
            while True:
                yield b"x" * 300_000

        def close(self) -> None:
            closed.set()

    def endless(_environ: Environ, start: Callable[..., Any]) -> Made:
        start("200 OK", [])
        return Made()

    with running(endless) as run:
        client = run.connect()
        client.sendall(ASK)
        client.recv(1000)
        client.close()
        assert closed.wait(10)


def test_a_new_certificate_is_shown_to_whoever_connects_next(
    certificate: Certificate, tmp_path: Path
) -> None:
    def shown(run: Running) -> bytes | None:
        with run.connect() as plain, trusting_all().wrap_socket(plain, server_hostname="x") as client:
            client.sendall(ASK)
            assert read_answer(client)[0] == 200
            return client.getpeercert(binary_form=True)

    with running(hello, context=certificate.context) as run:
        before = [shown(run), shown(run)]
        certificate.file.unlink()
        renew(certificate, open_authority(tmp_path, HOME, NOW), HOME, NOW)
        assert before[0] == before[1] != shown(run)


def test_the_landing_pages_keeper_takes_no_body() -> None:
    with running(hello, StrangersOnly()) as run:
        told = json.loads(run.ask(b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 9\r\n\r\n")[2])
    assert told["read"] == 0


def test_when_no_file_is_left_the_oldest_idle_connection_gives_way() -> None:
    class Full:
        """A listening socket of a process that has all the files it may have."""

        def accept(self) -> None:
            raise OSError(errno.EMFILE, "Too many open files")

    with running(hello, TestKeeper()) as run, run.connect(STRANGER) as idle, run.connect() as phone:
        phone.sendall(FROM_PHONE)
        assert read_answer(phone)[0] == 200
        eventually(lambda: len(run.edge.crowd) == 2)
        run.edge.call(lambda: run.edge._accept(Full()))  # type: ignore[arg-type]
        assert is_closed(idle)
        phone.sendall(FROM_PHONE)
        assert read_answer(phone)[0] == 200


def test_it_leaves_when_told_though_some_are_connected() -> None:
    with running(hello) as run:
        idle, asked = run.connect(), run.connect()
        asked.sendall(ASK)
        assert read_answer(asked)[0] == 200
        eventually(lambda: [each.phase for each in run.edge.crowd.everybody()] == [Phase.HEAD] * 2)
    assert is_closed(idle) and is_closed(asked)


# What one device may have held for it.


def test_bodies_that_one_device_sends_at_once_are_bounded_in_bytes_and_anothers_is_taken() -> None:
    class Two(TestKeeper):
        def device(self, shown: str) -> str | None:
            return shown

    head = b"POST / HTTP/1.1\r\nHost: studio\r\nCookie: %s\r\nContent-Length: 400000\r\n\r\n"
    bounds, patience = Bounds(bytes_of_one=1_000_000, bytes_of_all=10_000_000), Patience(late=0, refused=SOON)
    with running(hello, Two(), bounds=bounds, patience=patience) as run:
        sending = [run.connect() for _ in range(2)]
        for each in sending:
            each.sendall(head % b"phone" + b"x" * 1000)
        eventually(lambda: run.edge.memory._held["phone"] == 800_000)
        assert run.ask(head % b"phone")[0] == 503
        assert run.ask(head % b"tablet" + b"x" * 400_000)[0] == 200
        for each in sending:
            each.close()
        eventually(lambda: not run.edge.memory._held)


def test_answers_that_one_device_does_not_take_are_bounded_in_bytes() -> None:
    def large(_environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        start("200 OK", [("Content-Length", "6000000")])
        return [b"x" * 6_000_000]

    with running(large, TestKeeper(), bounds=Bounds(bytes_of_one=10_000_000)) as run:
        unread = run.connect(buffer=4096)
        unread.sendall(FROM_PHONE)
        eventually(lambda: run.edge.memory._held["phone"] == 6_000_000)
        assert run.ask(FROM_PHONE)[0] == 503
        unread.close()
        eventually(lambda: not run.edge.memory._held)
        assert run.ask(FROM_PHONE)[0] == 200


def test_a_large_body_waits_on_the_disk_and_a_full_one_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    on_disk = []

    def told(environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        on_disk.append(getattr(environ["wsgi.input"], "_rolled", None))
        return hello(environ, start)

    head = b"POST / HTTP/1.1\r\nHost: studio\r\nContent-Length: %d\r\n\r\n"
    with running(told) as run:
        for size in (0, 10, 3_000_000):
            assert json.loads(run.ask(head % size + b"x" * size)[2])["read"] == size
        assert on_disk == [None, False, True]

        def full(*_: Any, **__: Any) -> None:
            raise OSError(errno.ENOSPC, "No space left on device")

        monkeypatch.setattr("api.edge.connection.SpooledTemporaryFile", full)
        status, _, body = run.ask(head % 10 + b"x" * 10)
        assert status == 507 and b"disk is full" in body
        assert run.ask()[0] == 200
