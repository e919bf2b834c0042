"""The server's time goes on steadily: a computer's clock that leaps moves no wait, for no phone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from api import create_app, steady, store
from api.settings import Settings
from api.steady import LEAP_MS, SLEW_PPM, begun, regulated
from tests.api.studio import Studio
from tests.frontend.phones import RECIPE
from tests.make import uuid4, uuid7

HOUR = 3_600_000
START = 1_800_000_000_000


@dataclass
class Computer:
    """Its clock, which may be set, and its steady clock, which goes on through everything but a boot."""

    wall: int = START
    steady: int = 50_000
    boot: str = "first"

    def goes(self, ms: int) -> None:
        self.wall += ms
        self.steady += ms

    def boots(self, wall: int) -> None:
        self.wall, self.steady, self.boot = wall, 1_000, uuid4()


class House:
    """Two processes on one database."""

    def __init__(self, database: dict[str, Any]) -> None:
        self.computer = Computer()
        self._database = database
        self.apps: list[Any] = []
        self.open()

    def open(self) -> None:
        given = Settings(
            **self._database,
            clock_ms=lambda: self.computer.wall,
            steady_ms=lambda: self.computer.steady,
            boot=self.computer.boot,
        )
        self.close()
        self.apps = [create_app(given), create_app(given)]

    def close(self) -> None:
        for app in self.apps:
            store.close(app)

    def studio(self, process: int = 0) -> Studio:
        return Studio(self.apps[process].test_client())

    def clock(self, process: int = 0) -> dict[str, Any]:
        """What a fresh phone is told."""
        told: dict[str, Any] = self.studio(process).get("/clock").json
        return told

    def porter(self) -> None:
        with self.apps[1].app_context():
            steady.look(follow=True)


@pytest.fixture
def house(database: Callable[[], dict[str, Any]]) -> Any:
    house = House(database())
    yield house
    house.close()


def begin_wait(house: House) -> tuple[str, int]:
    """A wait of 1 to 12 hours that counts from now; the run, and the instant that ends it."""
    studio = house.studio()
    recipe, at = uuid4(), house.clock()["server_ms"]
    run = uuid7(at)
    studio.put_recipe(recipe, RECIPE)
    studio.put_run(run, {"recipe": {"id": recipe, "version": 1}, "size": {"pieces": 4}})
    lines = studio.get(f"/runs/{run}").json["sheet"]["lines"]
    for nth, line in enumerate(lines):
        touch(house, run, "weighed", {"line": line["id"], "mg": line["mg"]}, at + nth)
    wait = studio.get(f"/runs/{run}/now").json["waits"][0]
    assert wait["phase"] == "counting"
    return run, wait["usual_at"]


def touch(house: House, run: str, kind: str, body: dict[str, Any], at: int) -> None:
    entry = {"id": uuid7(at), "run": run, "device": "d", "at": at, "kind": kind, "body": body}
    (answer,) = house.studio().post(run, entry).json["answers"]
    assert answer["result"] == "kept", answer


@pytest.mark.parametrize("leap", [2 * HOUR, -2 * HOUR, 400 * 24 * HOUR])
def test_a_leap_in_the_middle_of_a_wait_moves_no_wait_and_is_followed_when_nothing_counts(
    house: House, leap: int
) -> None:
    run, ends_at = begin_wait(house)
    left = ends_at - house.clock()["server_ms"]
    house.computer.goes(HOUR // 2)
    house.computer.wall += leap

    told = [house.clock(process) for process in (1, 0)]
    house.porter()
    told.append(house.clock())

    for each in told:
        assert abs(ends_at - each["server_ms"] - (left - HOUR // 2)) < 1_000
        assert (each["epoch"], each["held_back_ms"]) == (1, leap)
    assert house.studio().get("/studio").json["held_back_ms"] == leap

    touch(house, run, "finished", {}, house.clock()["server_ms"])
    assert house.clock()["held_back_ms"] == leap  # who only asks the time leaves it
    house.porter()

    assert [house.clock(process)["server_ms"] for process in (0, 1)] == [house.computer.wall] * 2
    assert (house.clock()["epoch"], house.clock()["held_back_ms"]) == (1, None)


def test_a_clock_that_goes_back_to_where_it_was_was_one_leap_and_nothing_more(house: House) -> None:
    house.clock()
    house.computer.wall += 2 * HOUR
    assert house.clock()["held_back_ms"] == 2 * HOUR
    house.computer.wall -= 2 * HOUR

    assert house.clock() | {"generation": ""} == {
        "generation": "",
        "epoch": 1,
        "held_back_ms": None,
        "server_ms": house.computer.wall,
    }


def test_after_a_boot_it_is_never_before_what_was_received(house: House) -> None:
    runs = [begin_wait(house)[0]]
    house.computer.goes(HOUR)
    received = house.clock()["server_ms"]
    runs.append(begin_wait(house)[0])
    house.computer.boots(wall=86_400_000)
    house.open()

    for _ in range(3):
        assert house.clock()["server_ms"] >= received
        house.porter()
        house.computer.goes(60_000)
    for run in runs:
        touch(house, run, "finished", {}, house.clock()["server_ms"] + 1_000)
    house.porter()
    assert house.clock()["server_ms"] >= received  # nothing counts, and the clock is still wrong

    house.computer.wall = received + 24 * HOUR  # it is set at last
    house.porter()
    house.porter()
    assert house.clock()["server_ms"] == house.computer.wall


def test_a_boot_follows_the_clock_and_a_time_that_was_left_again_says_nothing(house: House) -> None:
    """Two years ahead, then put right with nothing counting: what was received meanwhile is no measure."""
    house.clock()
    house.computer.wall += 2 * 365 * 24 * HOUR
    house.clock()
    house.porter()
    run, _ = begin_wait(house)
    touch(house, run, "finished", {}, house.clock()["server_ms"] + 1_000)
    house.computer.wall -= 2 * 365 * 24 * HOUR
    house.clock()
    house.porter()
    assert house.clock()["server_ms"] == house.computer.wall

    house.computer.boots(wall=house.computer.wall + HOUR)
    house.open()

    assert house.clock()["server_ms"] == house.computer.wall


def test_with_no_steady_clock_the_time_is_the_computers(app: Any, studio: Studio, clock: Any) -> None:
    clock.ms += 5 * HOUR

    assert studio.get("/clock").json["server_ms"] == clock.ms
    assert studio.get("/clock").json["epoch"] == 0


# In any order

goes = st.tuples(st.just("goes"), st.integers(1, 3 * HOUR))
leaps = st.tuples(
    st.just("leaps"), st.integers(LEAP_MS, 10**12).flatmap(lambda ms: st.sampled_from([ms, -ms]))
)
looks = st.tuples(st.sampled_from(["looks", "counts", "counts no more"]), st.just(0))


@given(st.lists(st.one_of(goes, leaps, looks), max_size=40))
@settings(max_examples=200, deadline=None)
def test_while_something_counts_what_is_left_of_it_is_right_for_whoever_asks(
    steps: list[tuple[str, int]],
) -> None:
    computer, counts, lasted = Computer(), False, 0
    anchor = begun(computer.wall, computer.steady, None, 0, 0)
    began_at = anchor.now(computer.steady)
    for step, ms in steps:
        if step == "goes":
            computer.goes(ms)
            lasted += ms
        elif step == "leaps":
            computer.wall += ms
        elif step != "looks" and counts != (step == "counts"):
            counts = step == "counts"
            began_at, lasted = anchor.now(computer.steady), 0
        anchor = regulated(anchor, computer.wall, computer.steady, lambda: counts, lambda: 0)  # noqa: B023
        if counts:
            assert abs(anchor.now(computer.steady) - began_at - lasted) < LEAP_MS
        else:
            assert abs(anchor.now(computer.steady) - computer.wall) < LEAP_MS


@given(st.lists(st.tuples(st.integers(1, 10 * 60_000), st.integers(-400, 400)), max_size=30))
@settings(max_examples=100, deadline=None)
def test_small_differences_are_followed_and_slowly(steps: list[tuple[int, int]]) -> None:
    computer = Computer()
    anchor = begun(computer.wall, computer.steady, None, 0, 0)
    for ms, drift in steps:
        before = anchor.now(computer.steady)
        computer.goes(ms)
        computer.wall = anchor.now(computer.steady) + drift
        anchor = regulated(anchor, computer.wall, computer.steady, lambda: True, lambda: 0)
        went = anchor.now(computer.steady) - before
        most = (
            (computer.steady - 50_000) * SLEW_PPM // 1_000_000
        )  # since it was last followed, at most all of it
        assert abs(went - ms) <= most
        assert (anchor.epoch, anchor.held_ms) == (0, 0)
