"""The landing page: it says how to trust the studio, and serves nothing else."""

from __future__ import annotations

import os
import pty
import re
import socket
import ssl
import subprocess
import sys
from collections.abc import Iterator
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from threading import Event, Thread, active_count

import pytest
from cryptography import x509

from api.door.authority import Authority, open_authority
from api.door.landing import CERTIFICATE_PATH, LandingPage, landing_answers
from api.edge.channel import Patience
from api.edge.crowd import Bounds
from api.serving import take_sockets
from tests.api.edges import eventually, is_closed
from tests.api.test_authority import HOME, NOW
from tests.servers import ROOT, START_SECONDS

ADDRESSES = ["https://bench.local:8420/", "https://192.168.1.20:8420/"]


@pytest.fixture(scope="module")
def authority(tmp_path_factory: pytest.TempPathFactory) -> Authority:
    return open_authority(tmp_path_factory.mktemp("door"), HOME, NOW)


@pytest.fixture(scope="module")
def landing(authority: Authority) -> LandingPage:
    page = LandingPage(take_sockets(("127.0.0.1",), 0)[0])
    page.answers = landing_answers(authority, ADDRESSES)
    Thread(target=page.serve, daemon=True).start()
    return page


def ask(landing: LandingPage, path: str, method: str = "GET", **headers: str) -> tuple[HTTPResponse, bytes]:
    connection = HTTPConnection("127.0.0.1", landing.port, timeout=5)
    connection.request(method, path, headers=headers)
    answer = connection.getresponse()
    return answer, answer.read()


def test_the_page_says_where_the_studio_is_and_how_to_know_its_certificate(
    landing: LandingPage, authority: Authority
) -> None:
    answer, body = ask(landing, "/?from=qr")
    page = body.decode()

    assert answer.status == 200 and answer.getheader("Content-Type") == "text/html; charset=utf-8"
    assert "".join(re.findall(r"<span>([0-9A-F]{2})</span>", page)) == authority.fingerprint.replace(":", "")
    for address in ADDRESSES:
        assert f'href="{address}"' in page
    for system in ("Android", "iPhone", "Windows", "macOS", "Linux"):
        assert f"<summary>{system}" in page


def test_the_page_is_in_the_language_that_the_browser_asks_for(landing: LandingPage) -> None:
    asked = {"Accept-Language": "de-AT,de;q=0.9,en;q=0.5"}

    answer, german = ask(landing, "/", **asked)

    assert answer.getheader("Vary") == "Accept-Language"
    assert german == ask(landing, "/de")[1] and b'<html lang="de">' in german
    assert b'<html lang="en">' in ask(landing, "/")[1]


def test_the_certificate_is_the_authority_s(landing: LandingPage, authority: Authority) -> None:
    answer, body = ask(landing, CERTIFICATE_PATH)

    assert answer.getheader("Content-Type") == "application/x-x509-ca-cert"
    assert x509.load_der_x509_certificate(body) == authority.certificate


def test_an_iphone_may_open_the_certificate_instead_of_putting_it_away(
    landing: LandingPage, authority: Authority
) -> None:
    """As an attachment it goes to Files, where nothing asks to install it (from memory; no iPhone was touched)."""
    answer, body = ask(landing, f"/open{CERTIFICATE_PATH}")

    assert (answer.status, body) == (200, authority.der)
    assert answer.getheader("Content-Disposition") is None
    assert answer.getheader("Content-Type") == "application/x-x509-ca-cert"


@pytest.mark.parametrize("path", ["/", CERTIFICATE_PATH, "/nothing"])
def test_every_answer_is_kept_by_nobody_and_shown_in_no_frame(landing: LandingPage, path: str) -> None:
    headers = ask(landing, path)[0].headers

    assert headers["Cache-Control"] == "no-store"
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"
    assert len(headers.get_all("Content-Security-Policy")) == 1
    policy = headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'") and "frame-ancestors 'none'" in policy
    assert not re.search(r"unsafe|\*|http:", policy)


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/index.html", 404),
        ("GET", "/pair", 404),
        ("GET", "/api/v1/clock", 404),
        ("GET", "/authority.key", 404),
        ("GET", "/../server.pem", 404),
        ("POST", "/", 501),
        ("PUT", CERTIFICATE_PATH, 501),
        ("DELETE", "/", 501),
        ("OPTIONS", "*", 501),
    ],
)
def test_nothing_else_is_here(landing: LandingPage, method: str, path: str, status: int) -> None:
    answer, body = ask(landing, path, method)

    assert (answer.status, body) == (status, b"Only the landing page is here: /\n")


def test_the_head_alone_can_be_asked_for(landing: LandingPage) -> None:
    answer, body = ask(landing, "/", "HEAD")

    assert (answer.status, body) == (200, b"")


def test_what_is_not_http_is_refused(landing: LandingPage) -> None:
    with socket.create_connection(("127.0.0.1", landing.port), timeout=5) as stranger:
        stranger.sendall(b"\x16\x03\x01 hello\r\n\r\n")
        assert stranger.recv(2000).startswith(b"HTTP/1.1 400 ")


def test_those_who_drip_hold_no_threads_give_way_and_end_in_time(authority: Authority) -> None:
    page = LandingPage(
        take_sockets(("127.0.0.1",), 0)[0],
        lambda: landing_answers(authority, ADDRESSES),
        patience=Patience(head=1),
        bounds=Bounds(strangers=20, of_one_stranger=5),
    )
    over = Event()
    serving = Thread(target=page.serve, args=[lambda: not over.is_set()])
    before = active_count()
    serving.start()
    dripping = []
    for number in range(60):
        stranger = socket.socket()
        stranger.bind((f"127.0.0.{2 + number % 10}", 0))
        stranger.settimeout(5)
        stranger.connect(("127.0.0.1", page.port))
        stranger.send(b"G")
        dripping.append(stranger)

    assert ask(page, "/")[0].status == 200
    assert active_count() <= before + 5
    assert all(is_closed(each) for each in dripping)
    over.set()
    serving.join()


def test_it_says_where_the_studio_is_by_now(authority: Authority, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("api.door.landing.LOOK_AGAIN_SECONDS", 0)
    where = ["https://bench.local:8420/"]
    page, over = (
        LandingPage(take_sockets(("127.0.0.1",), 0)[0], lambda: landing_answers(authority, [*where])),
        Event(),
    )
    serving = Thread(target=page.serve, args=[lambda: not over.is_set()])
    serving.start()

    where.append("https://192.168.1.99:8420/")

    eventually(lambda: b"192.168.1.99" in page.answers["/"].content)
    over.set()
    serving.join()


@pytest.fixture
def terminal(tmp_path: Path) -> Iterator[str]:
    """What `serve --lan` says in a terminal, up to the first code."""
    ours, theirs = pty.openpty()
    options = [
        "--lan",
        "--port",
        "0",
        "--landing-port",
        "0",
        "--database",
        str(tmp_path / "bowlside.sqlite3"),
    ]
    server = subprocess.Popen(
        [sys.executable, "-m", "api.cli", "serve", *options],
        cwd=ROOT,
        stdout=theirs,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    os.close(theirs)
    said = ""
    try:
        while not re.search(r"code \w{4}-\w{4}", said):
            said += os.read(ours, 10_000).decode(errors="replace")
        yield said
    finally:
        server.terminate()
        os.close(ours)
        server.wait(timeout=START_SECONDS)


@pytest.mark.slow
def test_the_terminal_says_where_how_to_trust_it_and_the_first_code(terminal: str, tmp_path: Path) -> None:
    address = re.search(r"Bowlside is at https://([\w.-]+):(\d+)/", terminal)
    page = re.search(r"trust it at http://([\d.]+):(\d+)/", terminal)
    assert address and page

    connection = HTTPConnection("127.0.0.1", int(page[2]), timeout=5)
    connection.request("GET", CERTIFICATE_PATH)
    authority = connection.getresponse().read()
    trusting = ssl.create_default_context(cadata=authority)
    with (
        socket.create_connection(("127.0.0.1", int(address[2])), timeout=5) as plain,
        trusting.wrap_socket(plain, server_hostname=address[1]) as over_tls,
    ):
        over_tls.sendall(f"GET /api/v1/recipes HTTP/1.1\r\nHost: {address[1]}\r\n\r\n".encode())
        assert over_tls.recv(2000).startswith(b"HTTP/1.1 401")

    kept = open_authority(tmp_path / "door", HOME, NOW)
    assert kept.fingerprint in terminal
    assert kept.der == authority


@pytest.mark.slow
def test_nothing_is_answered_without_tls(terminal: str) -> None:
    address = re.search(r"Bowlside is at https://([\w.-]+):(\d+)/", terminal)
    assert address

    with socket.create_connection(("127.0.0.1", int(address[2])), timeout=5) as plain:
        plain.sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n")
        assert b"Bowlside" not in plain.recv(2000)
