"""The web server: gunicorn, run in this process, which becomes the master of the workers.

The sockets are taken here, before anything else starts, so that a port that is taken is said at once.
The workers are forked from the loaded application; one that dies is replaced. Beside them runs the
porter (api/porter.py). Whatever ends the master ends them all within seconds: they look who their
parent is.
"""

from __future__ import annotations

import errno
import gc
import os
import signal
import socket
import threading
import time
from collections.abc import Callable
from typing import Any

from flask import Flask
from gunicorn.app.base import BaseApplication
from gunicorn.arbiter import Arbiter
from gunicorn.glogging import Logger
from gunicorn.workers.gthread import TConn, ThreadWorker

from api import logs
from api.door.authority import Certificate
from api.porter import Porter

THREADS = 64  # a phone that listens for news holds one
KEEP_ALIVE_SECONDS = 20
HEAD_SECONDS = 20
BODY_SECONDS = 120  # a studio's whole file over a poor network takes less
LEAVE_SECONDS = 1
REFUSED_SECONDS = 10
REFUSED_BYTES = 128 * 1024 * 1024
BODILESS = frozenset({"GET", "HEAD"})
NO_IPV6 = (errno.EAFNOSUPPORT, errno.EADDRNOTAVAIL)


def take_sockets(hosts: tuple[str, ...], port: int) -> list[socket.socket]:
    """A listening socket for each of the hosts, all on one port; OSError when it is taken.

    A machine without IPv6 gets none for an IPv6 host.
    """
    taken: list[socket.socket] = []
    for host in hosts:
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        try:
            taken.append(socket.create_server((host, port), family=family, backlog=256))
        except OSError as error:
            if family != socket.AF_INET6 or error.errno not in NO_IPV6:
                raise
        else:
            port = port_of(taken)
    return taken


def port_of(sockets: list[socket.socket]) -> int:
    port: int = sockets[0].getsockname()[1]
    return port


def serve(
    app: Flask,
    sockets: list[socket.socket],
    *,
    porter: Porter | None = None,
    certificate: Certificate | None = None,
    ready: Callable[[], None] = lambda: None,
) -> None:
    """Answer on the sockets until a signal says stop; ends with SystemExit, as gunicorn does.

    With a certificate by TLS, without one plainly. `ready` is called once, when whoever asks is answered.
    """
    options: dict[str, Any] = {
        "bind": [f"fd://{each.detach()}" for each in sockets],
        "workers": app.config["BOWLSIDE"].workers if "BOWLSIDE" in app.config else 1,
        "worker_class": Worker,
        "threads": THREADS,
        "keepalive": KEEP_ALIVE_SECONDS,
        "graceful_timeout": 2 * LEAVE_SECONDS,
        # As a warning gunicorn logs what it could not read, and that may be a header with a secret.
        "loglevel": "error",
        "logger_class": ServerLog,
        "control_socket_disable": True,
        # What proxies say of a request is read in one place, api/door, and never by default.
        "forwarded_allow_ips": "",
        "secure_scheme_headers": {},
        "forwarder_headers": "",
        "post_fork": lambda _master, _worker: porter.let_go() if porter else None,
        "post_worker_init": lambda worker: ready() if worker.age == 1 else None,
    }
    if certificate:
        options |= {
            "certfile": str(certificate.file),
            "ssl_context": lambda _config, _default: certificate.context(),
        }
    # What is loaded by now stays; the collector need not go through it again and again.
    gc.collect()
    gc.freeze()
    Master(Served(app, options), porter).run()


class ServerLog(Logger):
    """The web server's log, by the rules of all the others."""

    def setup(self, cfg: Any) -> None:
        super().setup(cfg)
        for each in (self.error_log, self.access_log):
            logs.adopt(each)


class Served(BaseApplication):
    """The application and how it is to be served, in gunicorn's terms."""

    def __init__(self, app: Flask, options: dict[str, Any]) -> None:
        self._app = app
        self._options = options
        super().__init__()

    def load_config(self) -> None:
        for name, value in self._options.items():
            self.cfg.set(name, value)

    def load(self) -> Flask:
        return self._app


class Master(Arbiter):
    """Keeps the workers and the porter. It ends when the terminal goes, and knows no other signals.

    One that was ignored when we were started (nohup) stays ignored.
    """

    SIGNALS = [
        each
        for each in (signal.SIGHUP, signal.SIGINT, signal.SIGQUIT, signal.SIGTERM)
        if signal.getsignal(each) is not signal.SIG_IGN
    ]

    def __init__(self, served: Served, porter: Porter | None) -> None:
        super().__init__(served)
        self._porter = porter

    def handle_hup(self) -> None:
        self.handle_term()

    def manage_workers(self) -> None:
        super().manage_workers()
        if self._porter:
            self._porter.look(self.LISTENERS)

    def stop(self, graceful: bool = True) -> None:
        if self._porter:
            self._porter.stop()
        super().stop(graceful)


class Worker(ThreadWorker):
    """Answers requests. One that is not there in time is cut off, so that no thread waits for ever."""

    def __init__(self, *given: Any) -> None:
        super().__init__(*given)
        self._due: dict[TConn, float] = {}

    def handle(self, connection: TConn) -> Any:
        self._due[connection] = time.monotonic() + HEAD_SECONDS
        try:
            return super().handle(connection)
        finally:
            self._due.pop(connection, None)

    def handle_request(self, request: Any, connection: TConn) -> bool:
        if request.method in BODILESS:
            del self._due[connection]  # its answer may last, as the live line's does
        else:
            self._due[connection] = time.monotonic() + BODY_SECONDS
        keep: bool = super().handle_request(request, connection)
        if request.method not in BODILESS:
            # A browser takes a connection closed while it sends for no answer at all: let one whose
            # request was refused send to the end, within reason.
            until = time.monotonic() + REFUSED_SECONDS
            keep &= connection.parser.finish_body(deadline=until, max_bytes=REFUSED_BYTES)
        return keep

    def notify(self) -> None:
        """Called about once a second."""
        super().notify()
        now = time.monotonic()
        for connection in [each for each, due in list(self._due.items()) if now > due]:
            if self._due.pop(connection, 0.0):
                # Not the TLS socket's own shutdown, which is not for another thread to call.
                socket.socket.shutdown(connection.sock, socket.SHUT_RDWR)

    def handle_exit(self, signum: int, frame: Any) -> None:
        self._leave_soon()
        super().handle_exit(signum, frame)

    handle_quit = handle_exit

    def is_parent_alive(self) -> bool:
        alive: bool = super().is_parent_alive()
        if not alive:
            self._leave_soon()
        return alive

    def _leave_soon(self) -> None:
        """Finish what is being answered, and go, though a phone may still listen for news."""
        going = threading.Timer(LEAVE_SECONDS, os._exit, [0])
        going.daemon = True
        going.start()
