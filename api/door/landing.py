"""The landing page: how a device comes to trust the studio's authority.

It goes over plain http, because a device that does not trust the studio yet can read nothing else from
it; so it serves the page and the authority's certificate, both public, and nothing more. Someone on the
network could put a page of their own in its place: that is what the fingerprint is for, which the maker
compares with the terminal's.
"""

from __future__ import annotations

import asyncio
import json
import socket
from base64 import b64encode
from collections.abc import Callable, Mapping
from hashlib import sha256
from http import HTTPStatus
from pathlib import Path
from time import monotonic
from typing import Any, NamedTuple

import jinja2
import segno

from api import language
from api.door.authority import Authority
from api.edge.keeper import StrangersOnly
from api.edge.serving import LOOK_S, Edge
from api.edge.wsgi import Environ
from bench import words

PAGE = Path(__file__).with_name("landing.html")
STYLE = Path(__file__).with_name("landing.css")
SCRIPT = Path(__file__).with_name("landing.js")
CERTIFICATE_PATH = "/bowlside-authority.crt"
LOOK_AGAIN_SECONDS = 60


class Answer(NamedTuple):
    status: int
    kind: str
    content: bytes
    headers: Mapping[str, str] = {}


EVERY_ANSWER = {
    "Cache-Control": "no-store",
    "Vary": "Accept-Language",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


def nothing_else(status: int = 404) -> Answer:
    said = words.say("api-door-landing-nothing-else")
    return Answer(status, "text/plain; charset=utf-8", f"{said}\n".encode())


def _policy(style: str, script: str, addresses: list[str]) -> str:
    """What the page may load and where it may ask: its own two texts and the studio."""
    return "; ".join(
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


def landing_answers(authority: Authority, addresses: list[str]) -> dict[str, Answer]:
    """Everything that the landing page answers, by path; the addresses are the studio's, best first.

    The page is there in each language, "/de", and at "/" in the one that all is said in.
    """
    style, script = STYLE.read_text("utf-8"), SCRIPT.read_text("utf-8")
    template = jinja2.Template(PAGE.read_text("utf-8"), autoescape=True)
    same = dict(
        addresses=addresses,
        fingerprint=authority.fingerprint.split(":"),
        certificate=CERTIFICATE_PATH,
        qr=segno.make(addresses[0], micro=False).svg_inline(scale=5, border=2, dark="#14202e", light="#fff"),
        style=style,
        script=script,
        addresses_json=json.dumps(addresses),
    )
    policy = _policy(style, script, addresses)
    pages = {}
    for tag in words.languages():
        with words.speaking(tag):
            page = template.render(same, language=tag, say=_say)
        pages[f"/{tag}"] = Answer(
            200, "text/html; charset=utf-8", page.encode(), {"Content-Security-Policy": policy}
        )
    return {
        **pages,
        "/": pages[f"/{words.DEFAULT}"],
        f"/open{CERTIFICATE_PATH}": Answer(200, "application/x-x509-ca-cert", authority.der, {}),
        CERTIFICATE_PATH: Answer(
            200,
            "application/x-x509-ca-cert",
            authority.der,
            {"Content-Disposition": f'attachment; filename="{CERTIFICATE_PATH[1:]}"'},
        ),
    }


def _say(name: str, **values: str) -> str:
    return words.say(f"api-door-landing-{name}", **values)


class LandingPage:
    """Serves `answers`, which may be exchanged while it does, on a socket that listens already.

    It is a process of its own, so that nothing that strangers do to it keeps the house from being looked after.
    """

    def __init__(
        self,
        listening: socket.socket,
        look_again: Callable[[], Mapping[str, Answer]] | None = None,
        **bounds: Any,
    ) -> None:
        self.socket = listening
        self.answers: Mapping[str, Answer] = look_again() if look_again else {}
        self.port: int = listening.getsockname()[1]
        self._look_again = look_again
        self._bounds = bounds

    def serve(self, goes_on: Callable[[], bool] = lambda: True) -> None:
        asyncio.run(self._serve(goes_on))

    async def _serve(self, goes_on: Callable[[], bool]) -> None:
        every_answer = [(name.encode(), value.encode()) for name, value in EVERY_ANSWER.items()]
        edge = Edge(self._answer, StrangersOnly(), every_answer=every_answer, **self._bounds)
        edge.listen([self.socket])
        next_look = monotonic() + LOOK_AGAIN_SECONDS
        while goes_on():
            edge.look()
            if self._look_again and monotonic() > next_look:
                next_look = monotonic() + LOOK_AGAIN_SECONDS
                edge.run(self._renew(edge, self._look_again))
            await asyncio.sleep(LOOK_S)
        await edge.leave(LOOK_S)

    async def _renew(self, edge: Edge, look_again: Callable[[], Mapping[str, Answer]]) -> None:
        """The machine's names and addresses may have become others."""
        self.answers = await edge.in_a_thread(look_again)

    def _answer(self, environ: Environ, start: Callable[..., Any]) -> list[bytes]:
        method = environ["REQUEST_METHOD"]
        path = environ["PATH_INFO"]
        if path == "/":
            path = f"/{language.best_of(environ.get('HTTP_ACCEPT_LANGUAGE', ''))}"
        answer = self.answers.get(path) or self.answers.get(environ["PATH_INFO"]) or nothing_else()
        if method not in ("GET", "HEAD"):
            answer = nothing_else(501)
        headers = {
            **EVERY_ANSWER,
            **answer.headers,
            "Content-Type": answer.kind,
            "Content-Length": str(len(answer.content)),
        }
        start(f"{answer.status} {HTTPStatus(answer.status).phrase}", list(headers.items()))
        return [] if method == "HEAD" else [answer.content]


def _hash(inline: str) -> str:
    return f"sha256-{b64encode(sha256(inline.encode()).digest()).decode()}"
