"""The web server: gunicorn, run in this process, which becomes the master of the workers.

The sockets are taken here, before anything else starts, so that a port that is taken is said at once.
The workers are forked from the loaded application; one that dies is replaced. Beside them runs the
porter (api/porter.py). Whatever ends the master ends them all within seconds: they look who their
parent is.
"""

from __future__ import annotations

import asyncio
import errno
import gc
import os
import resource
import signal
import socket
import sys
import threading
from collections.abc import Callable
from ssl import SSLContext
from typing import Any

from flask import Flask
from gunicorn.app.base import BaseApplication
from gunicorn.arbiter import Arbiter
from gunicorn.glogging import Logger
from gunicorn.workers.base import Worker as BaseWorker

from api import logs, page
from api.door.authority import Certificate
from api.door.keeper import DoorKeeper
from api.edge.keeper import Keeper
from api.edge.serving import LOOK_S, Edge
from api.porter import Porter
from api.security import DATA

BACKLOG = 1024
OPEN_FILES = 8192
LEAVE_SECONDS = 1
# A thread that reckons lets the loop go on after so long; Python's own 5 ms add up where several do.
SWITCH_SECONDS = 0.001
NO_IPV6 = (errno.EAFNOSUPPORT, errno.EADDRNOTAVAIL)


def take_sockets(hosts: tuple[str, ...], port: int) -> list[socket.socket]:
    """A listening socket for each of the hosts, all on one port; OSError when it is taken.

    A machine without IPv6 gets none for an IPv6 host.
    """
    taken: list[socket.socket] = []
    for host in hosts:
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        try:
            taken.append(socket.create_server((host, port), family=family, backlog=BACKLOG))
        except OSError as error:
            if family != socket.AF_INET6 or error.errno not in NO_IPV6:
                raise
        else:
            port = port_of(taken)
    if not taken:
        raise OSError(errno.EADDRNOTAVAIL, os.strerror(errno.EADDRNOTAVAIL))
    return taken


def port_of(sockets: list[socket.socket]) -> int:
    port: int = sockets[0].getsockname()[1]
    return port


def raise_open_files() -> None:
    """Each connection is a file, and many systems allow 1,024 at first."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = OPEN_FILES if hard == resource.RLIM_INFINITY else min(OPEN_FILES, hard)
    resource.setrlimit(resource.RLIMIT_NOFILE, (max(soft, wanted), hard))


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
    around: dict[str, Any] = {"keeper": DoorKeeper(app) if "BOWLSIDE" in app.config else Keeper()}
    if certificate:
        around["context"] = staticmethod(certificate.context)
    raise_open_files()
    options: dict[str, Any] = {
        "bind": [f"fd://{each.detach()}" for each in sockets],
        "workers": app.config["BOWLSIDE"].workers if "BOWLSIDE" in app.config else 1,
        "worker_class": type("Worker", (Worker,), around),
        "graceful_timeout": 2 * LEAVE_SECONDS,
        "loglevel": "error",
        "logger_class": ServerLog,
        "control_socket_disable": True,
        "post_fork": lambda _master, _worker: porter.let_go() if porter else None,
        "post_worker_init": lambda worker: ready() if worker.age == 1 else None,
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


class Worker(BaseWorker):
    """Answers requests: the edge (api/edge), with a loop of its own, around the application."""

    keeper: Keeper
    context: staticmethod[[], SSLContext] | None = None

    def run(self) -> None:
        sys.setswitchinterval(SWITCH_SECONDS)
        asyncio.run(self._serve())

    async def _serve(self) -> None:
        edge = Edge(
            self.wsgi,
            self.keeper,
            self.context,
            every_answer=[
                (name.encode(), value.encode()) for name, value in (("Cache-Control", "no-store"), *DATA)
            ],
            log=self.log.error_log,
        )
        edge.listen(self.sockets)
        # Beside the first answers, since a server that starts again after a fault must answer at once.
        threading.Thread(target=page.make_ready, name="page", daemon=True).start()
        while self.alive and self._is_parent_alive():
            self.notify()
            edge.look()
            await asyncio.sleep(LOOK_S)
        self._leave_soon()
        await edge.leave(LEAVE_SECONDS)
        os._exit(0)  # a thread that is still at work is waited for no longer

    def handle_exit(self, signum: int, frame: Any) -> None:
        self.alive = False
        self._leave_soon()

    handle_quit = handle_exit

    def _is_parent_alive(self) -> bool:
        alive: bool = self.ppid == os.getppid()
        return alive

    def _leave_soon(self) -> None:
        """Finish what is being answered, and go, though a phone may still listen for news."""
        going = threading.Timer(LEAVE_SECONDS + 2 * LOOK_S, os._exit, [0])
        going.daemon = True
        going.start()
