"""How the server is: a word for anybody, the rest for makers and for its own computer."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from prometheus_client.openmetrics.parser import text_string_to_metric_families
from sqlalchemy import update

from api import copies, health
from api.settings import RELEASED_MS
from api.store import writing
from api.tables import Studio
from tests.api.doorway import paired
from tests.api.studio import Studio as Client
from tests.make import Clock
from tests.servers import bowlside

ELSEWHERE = {"REMOTE_ADDR": "192.168.1.77"}
DETAILS = {"version", "copies", "clock", "disk", "generation", "certificate_ends_at", "faults"}


@pytest.fixture
def app(new_app: Callable[..., Any], clock: Clock) -> Any:
    clock.ms = RELEASED_MS + 1_000_000
    return new_app(pairing=True, lan=True, metrics=1)


def test_a_stranger_learns_that_it_is_alive_and_ready_and_no_more(app: Any) -> None:
    client = app.test_client()

    answer = client.get("/health", environ_overrides=ELSEWHERE)

    assert (answer.status_code, answer.json) == (200, {"alive": True, "ready": True})
    assert answer.headers["Cache-Control"] == "no-store"
    assert client.get("/metrics", environ_overrides=ELSEWHERE).status_code == 401
    asked = [client.get("/health", environ_overrides=ELSEWHERE).status_code for _ in range(320)]
    assert asked[-1] == 429


def test_makers_and_this_computer_learn_how_all_stands(app: Any, clock: Clock) -> None:
    maker, helper = paired(app), paired(app, "helper")
    with app.app_context():
        copies.nightly(app)
    clock.ms += 60_000

    for client in (maker, app.test_client()):
        told = client.get("/health").json
        assert told.keys() == {"alive", "ready"} | DETAILS
        assert (told["copies"]["age_s"], told["copies"]["stopped"], told["faults"]) == (60, False, [])
        assert told["clock"] == {"at": clock.ms, "wrong": None}
        assert told["disk"]["free_bytes"] > 0
    for path in ("/health", "/metrics"):
        assert maker.get(path, environ_overrides=ELSEWHERE).status_code == 200
    assert helper.get("/health").json == {"alive": True, "ready": True}
    assert helper.get("/metrics").status_code == 403


@pytest.mark.database("sqlite")
def test_behind_a_proxy_nobody_is_this_computer(new_app: Callable[..., Any]) -> None:
    app = new_app(pairing=True, proxies=1, hosts=("localhost",), metrics=1)

    assert app.test_client().get("/health").json.keys() == {"alive", "ready"}
    assert app.test_client().get("/metrics").status_code == 401
    assert paired(app).get("/health").json.keys() >= DETAILS


def test_a_full_disk_a_moved_studio_and_a_wrong_clock_are_told(
    app: Any, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = app.test_client()
    clock.ms = RELEASED_MS - 86_400_000
    wrong = client.get("/health")
    assert (wrong.status_code, "before this version" in wrong.json["clock"]["wrong"]) == (200, True)

    with app.app_context(), writing() as connection:
        connection.execute(update(Studio).values(moved_to="elsewhere"))
    monkeypatch.setattr(health.shutil, "disk_usage", lambda _: shutil._ntuple_diskusage(10, 9, 1))  # type: ignore[attr-defined]
    answer = client.get("/health")

    assert (answer.status_code, answer.json["ready"]) == (503, False)
    assert answer.json["faults"] == ["The studio has moved to another place.", "The disk is full."]


def test_a_database_that_is_gone_is_told_too(app: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def gone() -> Any:
        raise health.SQLAlchemyError("gone")

    monkeypatch.setattr(health, "reading", gone)

    answer = app.test_client().get("/health")

    assert (answer.status_code, answer.json["faults"]) == (503, ["No connection to the database."])


def families(text: str) -> dict[str, Any]:
    return {family.name: family for family in text_string_to_metric_families(text)}


def by_label(family: Any) -> dict[tuple[str, ...], float]:
    return {
        (each.labels["method"], each.labels["endpoint"], each.labels["status"]): each.value
        for each in family.samples
        if each.name.endswith("_total")
    }


@pytest.mark.database("sqlite")
def test_metrics_can_be_read_as_openmetrics(app: Any) -> None:
    maker = paired(app)
    Client(maker).with_run()
    maker.open("/api/v1/runs", method="MADE-UP")
    maker.get("/nope-of-a-stranger")

    answer = maker.get("/metrics")

    assert answer.content_type == "application/openmetrics-text; version=1.0.0; charset=utf-8"
    told = families(answer.text)
    assert told["bowlside_runs"].samples[0].value == told["bowlside_runs_open"].samples[0].value == 1
    asked = by_label(told["bowlside_requests"])
    assert asked[("PUT", "runs.put_run", "201")] == 1
    assert "MADE-UP" not in answer.text and "stranger" not in answer.text
    assert told["bowlside_request_seconds"].type == "histogram"


@pytest.mark.database("sqlite")
def test_metrics_are_told_only_where_they_are_asked_for(new_app: Callable[..., Any]) -> None:
    assert new_app().test_client().get("/metrics").status_code == 404


@pytest.mark.slow
@pytest.mark.database("sqlite")
def test_counts_of_all_workers_are_added_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLSIDE_METRICS", "1")
    before = set(Path(os.environ.get("TMPDIR", "/tmp")).glob("bowlside-metrics-*"))
    server = bowlside(tmp_path / "bowlside.sqlite3", "--workers", "2").start()
    try:
        for _ in range(24):
            urlopen(f"{server.url}api/v1/clock").read()
        seen = set()
        for _ in range(6):
            told = families(urlopen(f"{server.url}metrics").read().decode())
            seen.add(by_label(told["bowlside_requests"])[("GET", "clock.read_clock", "200")])
    finally:
        server.stop()

    assert seen == {24.0}
    assert set(Path(os.environ.get("TMPDIR", "/tmp")).glob("bowlside-metrics-*")) <= before
