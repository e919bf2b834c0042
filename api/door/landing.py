"""The landing page: how a device comes to trust the studio's authority.

It goes over plain http, because a device that does not trust the studio yet can read nothing else from
it; so it serves the page and the authority's certificate, both public, and nothing more. Someone on the
network could put a page of their own in its place: that is what the fingerprint is for, which the maker
compares with the terminal's.
"""

from __future__ import annotations

import json
import socket
from base64 import b64encode
from collections.abc import Mapping
from hashlib import sha256
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, NamedTuple

import jinja2
import segno

from api.door.authority import Authority

PAGE = Path(__file__).with_name("landing.html")
STYLE = Path(__file__).with_name("landing.css")
SCRIPT = Path(__file__).with_name("landing.js")
CERTIFICATE_PATH = "/bowlside-authority.crt"
PATIENCE_SECONDS = 10


class Answer(NamedTuple):
    status: int
    kind: str
    content: bytes
    headers: Mapping[str, str] = {}


NOTHING_ELSE = Answer(404, "text/plain; charset=utf-8", b"Only the landing page is here: /\n")

EVERY_ANSWER = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


def landing_answers(authority: Authority, addresses: list[str]) -> dict[str, Answer]:
    """Everything that the landing page answers, by path. The addresses are the studio's, best first."""
    style, script = STYLE.read_text("utf-8"), SCRIPT.read_text("utf-8")
    page = jinja2.Template(PAGE.read_text("utf-8"), autoescape=True).render(
        addresses=addresses,
        fingerprint=authority.fingerprint.split(":"),
        certificate=CERTIFICATE_PATH,
        qr=segno.make(addresses[0], micro=False).svg_inline(scale=5, border=2, dark="#14202e", light="#fff"),
        style=style,
        script=script,
        addresses_json=json.dumps(addresses),
    )
    policy = "; ".join(
        (
            "default-src 'none'",
            f"style-src '{_hash(style)}'",
            f"script-src '{_hash(script)}'",
            f"connect-src {' '.join(addresses)}",
            "base-uri 'none'",
            "form-action 'none'",
            "frame-ancestors 'none'",
        )
    )
    return {
        "/": Answer(200, "text/html; charset=utf-8", page.encode(), {"Content-Security-Policy": policy}),
        CERTIFICATE_PATH: Answer(
            200,
            "application/x-x509-ca-cert",
            authority.der,
            {"Content-Disposition": f'attachment; filename="{CERTIFICATE_PATH[1:]}"'},
        ),
    }


class LandingPage:
    """Serves `answers`, which may be exchanged while it does, on a socket that listens already."""

    def __init__(self, listening: socket.socket) -> None:
        self.socket = listening
        self.answers: Mapping[str, Answer] = {}
        self.port: int = listening.getsockname()[1]

    def serve(self) -> None:
        page = self

        class Handler(LandingHandler):
            def answer_to(self, path: str) -> Answer:
                return page.answers.get(path, NOTHING_ELSE)

        server = ThreadingHTTPServer(self.socket.getsockname(), Handler, bind_and_activate=False)
        server.socket.close()
        server.socket = self.socket
        server.daemon_threads = True
        server.serve_forever()


class LandingHandler(BaseHTTPRequestHandler):
    timeout = PATIENCE_SECONDS

    def answer_to(self, path: str) -> Answer:
        raise NotImplementedError

    def do_GET(self) -> None:
        self._send(self.answer_to(self.path.partition("?")[0]))

    do_HEAD = do_GET

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Any other method, and what is not HTTP at all."""
        self.close_connection = True
        self._send(NOTHING_ELSE._replace(status=code))

    def _send(self, answer: Answer) -> None:
        self.send_response(answer.status)
        headers = {**EVERY_ANSWER, **answer.headers}
        for name, value in headers.items():
            self.send_header(name, value)
        self.send_header("Content-Type", answer.kind)
        self.send_header("Content-Length", str(len(answer.content)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(answer.content)

    def version_string(self) -> str:
        return "bowlside"

    def log_message(self, format: str, *args: Any) -> None:
        """Who looked at a public page is nobody's business."""


def _hash(inline: str) -> str:
    return f"sha256-{b64encode(sha256(inline.encode()).digest()).decode()}"
