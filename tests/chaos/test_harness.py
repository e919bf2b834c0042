"""The harness itself: it sees what is broken, says what it takes, and leaves nothing behind."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack
from typing import Any

import pytest

import bench
from tests.chaos import play
from tests.chaos.__main__ import Stage, shrink
from tests.chaos.device import Device
from tests.chaos.history import History, make_history
from tests.chaos.lines import Fault, Line
from tests.frontend.phones import MINUTE

pytestmark = pytest.mark.slow

TOUCH, SYNC = ["touch", 0, 0, "noted", 1], ["sync", 0, []]
HISTORY = History(
    1, "sqlite", 0, 2, (["begin", 0], SYNC, ["touch", 0, 0, "done", 2], ["sync", 0, [["cut", 0]]], TOUCH)
)


@pytest.fixture
def stage() -> Iterator[Stage]:
    with ExitStack() as stack:
        yield Stage(stack)


def test_a_seed_always_makes_the_same_history_and_it_can_be_written_down() -> None:
    history = make_history(7, "sqlite", with_pages=True)

    assert history == make_history(7, "sqlite", with_pages=True) == History.from_json(history.to_json())
    assert history != make_history(8, "sqlite", with_pages=True)


def test_a_whole_history_is_whole(stage: Stage) -> None:
    outcome = stage.play(HISTORY)

    assert (outcome.faults, outcome.shown) == ([], 2)


def test_a_server_that_says_kept_and_keeps_nothing_is_caught(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What arrives at it is thrown away, and answered for as if it had been kept."""
    fate = Line._fate

    async def lying(line: Line, request: bytes) -> bytes:
        if not request.startswith(b"POST"):
            return await fate(line, request)
        id = request.split(b'"id": "')[1][:36]
        body = b'{"answers": [{"id": "%s", "result": "kept"}], "cursor": 0, "server_ms": 0}' % id
        return b"HTTP/1.1 200 OK\r\nContent-Length: %d\r\n\r\n%s" % (len(body), body)

    monkeypatch.setattr(Line, "_fate", lying)
    monkeypatch.setattr(play, "REST_SECONDS", 1)  # no device comes to rest: what it sent is not there

    faults = stage.play(HISTORY).faults

    assert any("showed what the server has not" in fault for fault in faults)
    assert any("otherwise than the server" in fault for fault in faults)


PUT_BACK = History(
    1,
    "sqlite",
    0,
    2,
    (["begin", 0], SYNC, ["sync", 1, []], ["copy"], TOUCH, SYNC, ["sync", 1, []], ["restore"], TOUCH, SYNC),
)


def test_what_a_restore_lost_is_sent_again_and_a_device_that_does_not_is_caught(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert stage.play(PUT_BACK).faults == []

    apply = Device._apply

    def heedless(device: Device, row: dict[str, Any]) -> None:
        apply(device, {"generation": row["generation"]} if "generation" in row else row)
        if "generation" in row:
            device._held.clear()  # what was read back once, it takes to be there for ever

    monkeypatch.setattr(Device, "_apply", heedless)

    assert any("showed what the server has not" in fault for fault in stage.play(PUT_BACK).faults)


SIGNED_WHILE_AWAY = History(
    1,
    "sqlite",
    0,
    2,
    (
        ["begin", 0],
        SYNC,
        ["sync", 1, []],
        ["cut", 0],
        ["touch", 0, 0, "weighed", 3],
        ["touch", 1, 0, "signed", 0],
        ["sync", 1, []],
        ["mend", 0],
        SYNC,
    ),
)


def test_what_comes_after_a_signing_is_a_remark_and_a_record_that_takes_it_in_is_caught(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert stage.play(SIGNED_WHILE_AWAY).faults == []

    fold = bench.fold
    # As it was before signings named what they seal: all that says it was earlier is taken in. A minute is given,
    # since the clocks of two devices agree only to the length of a question to the server.
    monkeypatch.setattr(
        bench,
        "fold",
        lambda sheet, entries, frozen=None: fold(
            sheet,
            [
                {**each, "at": each["at"] + MINUTE, "body": {"name": "the maker"}}
                if each["kind"] == "signed"
                else each
                for each in entries
            ],
        ),
    )

    assert any("more than what was signed" in fault for fault in stage.play(SIGNED_WHILE_AWAY).faults)


def test_a_history_is_shrunk_to_what_it_takes() -> None:
    history = make_history(7, "sqlite", with_pages=False)
    needed = [history.steps[3], history.steps[9]]

    least = shrink(history, lambda shorter: all(step in shorter.steps for step in needed))

    assert list(least.steps) == needed


def test_each_fault_of_a_line_does_what_it_says(stage: Stage) -> None:
    faults: list[Fault] = [(kind, 0) for kind in ("cut", "half", "lose", "torn", "twice", "again")]
    steps = [step for fault in faults for step in (TOUCH, ["sync", 0, [["fine", 0], list(fault)]])]

    outcome = stage.play(History(1, "sqlite", 0, 2, (["begin", 0], SYNC, *steps, ["late"])))

    assert (outcome.faults, outcome.shown) == ([], len(faults))
