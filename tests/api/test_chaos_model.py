"""Devices, workers and a bad network in one process, against the one law: what was shown is kept once.

The sibling of `make chaos` (tests/chaos), which breaks real processes. Here Hypothesis chooses each step:
what is entered, by which worker it is answered, which answers are lost, what arrives again and when, when
the server starts anew and its clock is changed.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule, run_state_machine_as_test

import bench
from api import create_app, store
from api.settings import Settings
from tests.api.studio import Studio
from tests.chaos.device import Device, NoAnswer
from tests.chaos.play import body_of
from tests.frontend.phones import MINUTE, RECIPE
from tests.make import Clock, uuid4, uuid7
from tests.often import EITHER_DATABASE

pytestmark = EITHER_DATABASE

WORKERS = 2
KINDS = ("noted", "weighed", "done", "extended", "skipped", "undone", "finished")
WRONG_BY_MS = (0, -7 * MINUTE, 7 * MINUTE)
FATES = ("arrives", "never arrives", "is answered in vain")

devices = st.integers(0, len(WRONG_BY_MS) - 1)
workers = st.integers(0, WORKERS - 1)


class Crowd(RuleBasedStateMachine):
    """Three light devices, two of whose clocks are wrong, and two workers on one database."""

    def __init__(self, database: Callable[[], dict[str, Any]]) -> None:
        super().__init__()
        self.clock = Clock()
        self.settings = Settings(**database(), clock_ms=self.clock)
        self.apps = [create_app(self.settings) for _ in range(WORKERS)]
        self.worker = 0
        # What becomes of the next requests, one each; when there is no more of it all arrive.
        self.fates: list[str] = []
        self.requests: list[tuple[str, str, Any]] = []

    @initialize()
    def open_shop(self) -> None:
        studio = Studio(self.apps[0].test_client())
        self.recipe = {"id": uuid4(), "version": 1}
        assert studio.put_recipe(self.recipe["id"], RECIPE).status_code == 201
        self.devices = [
            Device(
                f"device-{number}",
                [],
                self.recipe,
                self.ask,
                lambda wrong_by=wrong_by: self.clock() + wrong_by,
            )
            for number, wrong_by in enumerate(WRONG_BY_MS)
        ]
        self.devices[0].begin(uuid7(self.clock()))
        for device in self.devices:
            device.sync()

    @rule(number=devices)
    def begin(self, number: int) -> None:
        if len(self.devices[number].entries) < 3:
            self.devices[number].begin(uuid7(self.clock()))

    @rule(number=devices, run=st.integers(0, 2), kind=st.sampled_from(KINDS), count=st.integers(0, 999))
    def touch(self, number: int, run: int, kind: str, count: int) -> None:
        device = self.devices[number]
        runs = list(device.entries)
        chosen = runs[run % len(runs)]
        known = list(device.entries[chosen].values())
        device.touch(chosen, kind if known else "noted", body_of(kind if known else "noted", count, known))
        self.clock.ms += count

    @rule(number=devices, worker=workers, fates=st.lists(st.sampled_from(FATES), max_size=5))
    def sync(self, number: int, worker: int, fates: list[str]) -> None:
        self.worker, self.fates = worker, list(fates)
        try:
            self.devices[number].sync()
        except NoAnswer:
            assert set(fates) - {"arrives"}
        self.fates = []
        kept = self.kept()
        for entry in self.devices[number].shown:
            assert not self.devices[number].has_sent(entry) or kept.count(bench.canonical(entry)) == 1

    @rule(back=st.integers(1, 20), worker=workers)
    def arrives_again(self, back: int, worker: int) -> None:
        """A request of before, though others came since."""
        self.worker = worker
        if back <= len(self.requests):
            status, _ = self.send(*self.requests[-back])
            assert status < 300

    @rule(number=devices)
    def device_dies(self, number: int) -> None:
        self.devices[number].die()

    @rule(worker=workers)
    def worker_starts_anew(self, worker: int) -> None:
        store.close(self.apps[worker])
        self.apps[worker] = create_app(self.settings)

    @rule(ms=st.integers(-10 * MINUTE, 10 * MINUTE))
    def clock_is_changed(self, ms: int) -> None:
        self.clock.ms += ms

    def teardown(self) -> None:
        """The network is mended: all arrives, late and twice, and all are of one mind."""
        try:
            for request in self.requests[::-3]:
                self.send(*request)
            for _ in range(2):
                for device in self.devices:
                    device.sync()
            self.all_are_of_one_mind()
        finally:
            for app in self.apps:
                store.close(app)

    def all_are_of_one_mind(self) -> None:
        assert sorted(self.kept()) == sorted(
            bench.canonical(e) for device in self.devices for e in device.shown
        )
        for run, sheet in self.devices[0].runs.items():
            entries = self.send("GET", f"/runs/{run}/entries?limit=1000", None)[1]["entries"]
            state = bench.fold(sheet, entries)
            assert [device.state(run) for device in self.devices] == [bench.canonical(state)] * len(
                self.devices
            )
            for self.worker in range(WORKERS):
                assert self.send("GET", f"/runs/{run}", None)[1]["finished_at"] == state["finished_at"]

    def kept(self) -> list[str]:
        """Every entry on the server, as it is written there."""
        runs = {run for device in self.devices for run in device.runs}
        pages = [self.send("GET", f"/runs/{run}/entries?limit=1000", None)[1] for run in runs]
        return [bench.canonical(entry) for page in pages for entry in page["entries"]]

    def ask(self, method: str, path: str, body: Any) -> tuple[int, Any]:
        """As a device asks: by the network."""
        fate = self.fates.pop(0) if self.fates else "arrives"
        if fate == "never arrives":
            raise NoAnswer(fate)
        if method != "GET":
            self.requests.append((method, path, body))
        answer = self.send(method, path, body)
        if fate == "is answered in vain":
            raise NoAnswer(fate)
        return answer

    def send(self, method: str, path: str, body: Any) -> tuple[int, Any]:
        client = self.apps[self.worker].test_client()
        answer = client.open(f"/api/v1{path}", method=method, json=body)
        return answer.status_code, json.loads(answer.data)


@pytest.mark.slow
def test_whatever_the_network_does_what_was_shown_is_kept_once_and_all_agree(
    database: Callable[[], dict[str, Any]],
) -> None:
    few = settings(
        max_examples=8,
        stateful_step_count=20,
        deadline=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )
    run_state_machine_as_test(lambda: Crowd(database), settings=few)
