"""How the server is: /health for whoever watches it, and /metrics for those who ask for them.

Both stand outside the API. Anybody who reaches the server learns that it is alive and whether it is ready,
as one does by asking it anything. The rest is for a maker's device, and for this computer itself; behind a
proxy for makers alone, because there everybody comes from the proxy.

Metrics (BOWLSIDE_METRICS=1) are in the OpenMetrics text format
(https://prometheus.io/docs/specs/om/open_metrics_spec/). What is counted, each worker process counts for
itself, in files that all of them share while the server runs (the library's own way), and whichever is asked
adds them up; so counts start from nothing with the server. What is measured is measured when it is asked.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from importlib.metadata import version
from ipaddress import ip_address
from threading import Lock
from typing import Any

from flask import Flask, Response, current_app, g, request
from sqlalchemy.exc import SQLAlchemyError

from api import copies, generation
from api.clock import behind, now_ms
from api.door import gate, limits
from api.door.authority import Certificate
from api.moved import went_to
from api.security import DATA
from api.settings import Settings
from api.store import read_row, reading
from api.wire import answer
from bench import words

SHARED = "PROMETHEUS_MULTIPROC_DIR"  # the library's own name for the folder of the shared files
ROOM_BYTES = 64 * 1024 * 1024  # with less than this, a write may fail at any moment
COUNTS = """
    SELECT (SELECT count(*) FROM run), (SELECT count(*) FROM run WHERE finished_at IS NULL),
        (SELECT coalesce(max(seq), 0) FROM entry),
        (SELECT count(*) FROM device WHERE shut_out_at IS NULL),
        (SELECT count(*) FROM plan WHERE state = 'working')
"""


def init_app(app: Flask) -> None:
    app.add_url_rule("/health", "health", get_health)
    if app.config["BOWLSIDE"].metrics:
        _Metrics(app)


def get_health() -> Response:
    """Alive, if it answers; ready with 200, else 503; and how all stands, for those who may know."""
    settings: Settings = current_app.config["BOWLSIDE"]
    faults = _faults(settings)
    stands: dict[str, object] = {"alive": True, "ready": not faults}
    if sees_all():
        stands = {**stands, **_standing(settings), "faults": [*faults]}
    elif gate.sender() is None:
        limits.count(limits.STRANGER, limits.sender())
    response = answer(stands, 503 if faults else 200)
    response.headers["Cache-Control"] = "no-store"
    return response


def sees_all() -> bool:
    """Whether a maker's device asks, or this computer itself."""
    settings: Settings = current_app.config["BOWLSIDE"]
    device = gate.sender()
    if device is not None:
        return device.role == "maker"
    try:
        return settings.mode != "proxy" and ip_address(request.remote_addr or "").is_loopback
    except ValueError:
        return False


def _faults(settings: Settings) -> list[str]:
    """Why it is not ready, in plain words; nothing when it is."""
    faults = []
    try:
        with reading() as connection:
            if went_to(connection) is not None:
                faults.append(words.say("api-studio-moved"))
    except SQLAlchemyError:
        faults.append(words.say("api-studio-no-database"))
    if _room(settings) < ROOM_BYTES:
        faults.append(words.say("api-studio-disk-full"))
    return faults


def _standing(settings: Settings) -> dict[str, object]:
    at = now_ms()
    copied = copies.status(settings)
    known: dict[str, object] = {"generation": None, "clock": {"at": at, "wrong": None}}
    try:
        with reading() as connection:
            known = {
                "generation": generation.of(connection)[0],
                "clock": {"at": at, "wrong": behind(connection)},
            }
    except SQLAlchemyError:
        pass  # it is among the faults
    return {
        **known,
        "version": version("bowlside"),
        "copies": {**copied, "age_s": (at - copied["last_at"]) // 1000 if copied["last_at"] else None},
        "certificate_ends_at": Certificate(settings.door).ends_at if settings.lan else None,
        "disk": {"free_bytes": _room(settings)},
    }


def _room(settings: Settings) -> int:
    """Free bytes where the database lies, or what is kept beside it."""
    folder = settings.database.absolute().parent
    while not folder.exists():
        folder = folder.parent
    return shutil.disk_usage(folder).free


# Metrics


def share_counts() -> None:
    """Before the workers are forked: where they count together. It goes when this process ends."""
    folder, master = tempfile.mkdtemp(prefix="bowlside-metrics-"), os.getpid()
    os.environ[SHARED] = folder

    def tidy() -> None:
        if os.getpid() == master:  # what is forked from here inherits this
            shutil.rmtree(folder, ignore_errors=True)

    atexit.register(tidy)


class _Counts:
    """What this process counts. Made in the worker: the library looks once, when loaded, where to count."""

    def __init__(self) -> None:
        from prometheus_client import CollectorRegistry, Counter, Histogram

        self.registry = CollectorRegistry()
        self.asked = Counter(
            "bowlside_requests",
            documentation="Requests answered",
            labelnames=["method", "endpoint", "status"],
            registry=self.registry,
        )
        self.took = Histogram(
            "bowlside_request_seconds",
            documentation="How long an answer took, within the application",
            buckets=(0.005, 0.02, 0.1, 0.3, 1, 3, 10),
            registry=self.registry,
        )


class _Metrics:
    def __init__(self, app: Flask) -> None:
        self._held: _Counts | None = None
        self._making = Lock()
        app.add_url_rule("/metrics", "metrics", self.show)
        app.before_request_funcs.setdefault(None, []).insert(0, self._begin)
        app.after_request(self._count)

    @property
    def _counts(self) -> _Counts:
        with self._making:
            self._held = self._held or _Counts()
        return self._held

    def show(self) -> Response:
        from prometheus_client import CollectorRegistry
        from prometheus_client.multiprocess import MultiProcessCollector
        from prometheus_client.openmetrics.exposition import CONTENT_TYPE_LATEST, generate_latest

        if not sees_all():
            limits.count(limits.STRANGER, limits.sender())
            gate.turn_away_from_makers_own()
        registry = self._counts.registry
        if SHARED in os.environ:
            registry = CollectorRegistry()
            MultiProcessCollector(registry)  # type: ignore[no-untyped-call]
        told = CollectorRegistry()
        told.register(_Now(registry))
        text = generate_latest(told)  # type: ignore[no-untyped-call]
        return Response(text, content_type=CONTENT_TYPE_LATEST, headers=[*DATA])

    def _begin(self) -> None:
        g.began = time.perf_counter()

    def _count(self, response: Response) -> Response:
        # Names from a known set alone: what a stranger makes up is no label.
        method = request.method if request.method in METHODS else "other"
        self._counts.asked.labels(method, request.endpoint or "none", str(response.status_code)).inc()
        if "began" in g and request.endpoint != "live.get_live":
            self._counts.took.observe(time.perf_counter() - g.began)
        return response


METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})


class _Now:
    """What was counted, and how things stand at this moment."""

    def __init__(self, counted: Any) -> None:
        self._counted = counted

    def collect(self) -> Iterator[Any]:
        from prometheus_client.core import GaugeMetricFamily, InfoMetricFamily

        yield from self._counted.collect()
        settings: Settings = current_app.config["BOWLSIDE"]
        copied, at = copies.status(settings), now_ms()
        yield InfoMetricFamily(
            "bowlside", documentation="Which version this is", value={"version": version("bowlside")}
        )
        runs, on_bench, entries, devices, planning = read_row(COUNTS, {})
        gauge = GaugeMetricFamily
        yield gauge("bowlside_runs", documentation="Batches there are", value=runs)
        yield gauge("bowlside_runs_open", documentation="Batches on the bench", value=on_bench)
        yield gauge(
            "bowlside_entries_last", documentation="The number of the last entry of a batch", value=entries
        )
        yield gauge("bowlside_devices", documentation="Devices that are paired", value=devices)
        yield gauge("bowlside_plans_working", documentation="Plans in the making", value=planning)
        yield gauge(
            "bowlside_disk_free_bytes", documentation="Room where the database lies", value=_room(settings)
        )
        yield gauge(
            "bowlside_copies_stopped",
            documentation="1 when a maker should look after the copies",
            value=int(copied["stopped"]),
        )
        yield gauge(
            "bowlside_ready",
            documentation="1 when requests can be answered",
            value=int(not _faults(settings)),
        )
        if copied["last_at"] is not None:
            age = (at - copied["last_at"]) / 1000
            yield gauge(
                "bowlside_copy_age_seconds", documentation="Since the newest copy was made", value=age
            )
