"""The way into a WSGI application and back (PEP 3333): a request that is whole becomes an answer."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextvars import Context
from io import BytesIO
from typing import IO, Any, Protocol
from urllib.parse import unquote_to_bytes

import h11

Environ = dict[str, Any]
Application = Callable[[Environ, Callable[..., Any]], Any]
Headers = list[tuple[bytes, bytes]]

# Where an application may put a line that goes on after its answer began (api/live.py).
LINE = "bowlside.line"
# More than this of an answer is made only as it is taken.
AT_ONCE = 256 * 1024
OWN_HEADERS = {"CONTENT_TYPE", "CONTENT_LENGTH"}


class Line(Protocol):
    """What is told to a client piece by piece, for as long as it listens."""

    def on_news(self, wake: Callable[[], None]) -> None:
        """Call `wake`, in whatever thread, when there is something to say."""

    def next_piece(self) -> bytes | None:
        """What there is to say; None when all is said."""

    def leave(self) -> None: ...


class Answer:
    """Status, headers, what there is of the body so far, and the rest where that is long."""

    def __init__(self) -> None:
        self.status, self.reason = 500, b""
        self.headers: Headers = []
        self.body = b""
        self.rest: Iterator[bytes] | None = None
        self.line: Line | None = None
        self.context = Context()
        self._close: Callable[[], None] | None = None
        self._input: IO[bytes] | None = None

    def start(self, status: str, headers: list[tuple[str, str]], _error: Any = None) -> None:
        code, _, reason = status.partition(" ")
        self.status, self.reason = int(code), reason.encode("latin-1")
        self.headers = [(name.encode("latin-1"), value.encode("latin-1")) for name, value in headers]

    def next_piece(self) -> bytes | None:
        """More of the rest, in the context in which the answer began; None at its end. In a thread."""
        assert self.rest is not None
        return self.context.run(next, self.rest, None)

    def close(self) -> None:
        """Let go of what the application holds for this answer. In a thread."""
        if self._close:
            close, self._close = self._close, None
            self.context.run(close)
        if self._input:
            self._input.close()
            self._input = None

    def fill(self, application: Application, environ: Environ) -> Answer:
        """Have the application answer. In a thread."""
        self._input = environ["wsgi.input"]
        try:
            self.context.run(self._fill, application, environ)
        finally:
            if self.rest is None:
                self.close()
        return self

    def _fill(self, application: Application, environ: Environ) -> None:
        made = application(environ, self.start)
        self._close = getattr(made, "close", None)
        pieces, size, rest = [], 0, iter(made)
        for piece in rest:
            pieces.append(piece)
            size += len(piece)
            if size > AT_ONCE:
                self.rest = rest
                break
        self.body = b"".join(pieces)
        self.line = environ.get(LINE)


def environ_of(request: h11.Request, scheme: str, peer: str, here: tuple[str, int]) -> Environ:
    """All of the environment but the body."""
    target = request.target.decode("ascii")
    if not target.startswith("/"):  # in the absolute form, or "*"
        _, _, target = target.partition("://")
        target = f"/{target.partition('/')[2]}"
    path, _, query = target.partition("?")
    environ: Environ = {
        "REQUEST_METHOD": request.method.decode("ascii"),
        "SCRIPT_NAME": "",
        "PATH_INFO": unquote_to_bytes(path.partition("#")[0]).decode("latin-1"),
        "QUERY_STRING": query,
        "SERVER_NAME": here[0],
        "SERVER_PORT": str(here[1]),
        "SERVER_PROTOCOL": f"HTTP/{request.http_version.decode('ascii')}",
        "REMOTE_ADDR": peer,
        "wsgi.version": (1, 0),
        "wsgi.url_scheme": scheme,
        "wsgi.errors": sys.stderr,
        "wsgi.multithread": True,
        "wsgi.multiprocess": True,
        "wsgi.run_once": False,
        LINE: None,
    }
    for raw_name, raw_value in request.headers:
        if b"_" in raw_name:
            continue  # would be read as the same header with a hyphen, which a proxy may vouch for
        name, value = raw_name.decode("ascii").upper().replace("-", "_"), raw_value.decode("latin-1")
        if name in ("TRANSFER_ENCODING", "EXPECT"):
            continue  # between the client and this server
        key = name if name in OWN_HEADERS else f"HTTP_{name}"
        if key in environ:
            value = f"{environ[key]}{'; ' if name == 'COOKIE' else ','}{value}"
        environ[key] = value
    return environ


def give_body(environ: Environ, body: IO[bytes], size: int) -> None:
    if size:
        body.seek(0)
    environ["wsgi.input"] = body if size else BytesIO()
    environ["wsgi.input_terminated"] = True
    if size or "CONTENT_LENGTH" in environ:
        environ["CONTENT_LENGTH"] = str(size)


def give_too_much(environ: Environ, at_least: int) -> None:
    """Of a body that is not read: how large it is, which is all that the application needs to refuse it."""
    environ["wsgi.input"] = BytesIO()
    environ["CONTENT_LENGTH"] = str(at_least)
