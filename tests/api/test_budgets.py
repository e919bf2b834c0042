"""What one device may ask: far more than a hard day's work, and not so much that others notice."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from hashlib import sha256
from typing import Any

import pytest

from api.clock import now_ms
from api.door import budgets
from api.door.budgets import BYTES_A_DAY, BYTES_A_MINUTE, MIB, RUNS_AN_HOUR, Budgets
from api.plans import MAX_IN_HAND, MAX_OF_ONE
from api.store import writing
from api.tables import Plan
from tests.api.doorway import paired
from tests.api.studio import Studio
from tests.api.test_pictures import jpeg
from tests.make import make_entry, make_run, uuid4

pytestmark = pytest.mark.database("sqlite")


@pytest.fixture
def app(new_app: Callable[..., Any]) -> Any:
    return new_app(pairing=True)


class Clock:
    s = 1_000.0

    def __call__(self) -> float:
        return self.s


@pytest.fixture
def clock_s(app: Any) -> Clock:
    clock = Clock()
    app.extensions[budgets.EXTENSION].clock = clock
    return clock


def test_a_device_that_sends_too_much_waits_and_others_do_not(app: Any, clock_s: Clock) -> None:
    helper, other = paired(app, "helper"), paired(app, "helper", "Other")
    held: Budgets = app.extensions[budgets.EXTENSION]
    body = json.dumps({"entries": [], "padding": "x" * 1000})
    while not held.spend(helper.device["id"], BYTES_A_MINUTE, MIB):
        pass
    held.spend(helper.device["id"], BYTES_A_MINUTE, MIB - 500)

    def send(client: Any) -> Any:
        return client.post(f"/api/v1/runs/{uuid4()}/entries", data=body, content_type="application/json")

    refused = send(helper)
    assert (refused.status_code, refused.headers["Retry-After"]) == (429, "60")
    assert refused.json["detail"] == (
        "This device has sent 64 MB in a minute. Nothing of this was saved. Go on in 60 s."
    )
    assert send(other).status_code != 429
    assert helper.get("/api/v1/runs").status_code == 200  # what has no body goes on
    clock_s.s += 60
    assert send(helper).status_code != 429


def test_a_days_bytes_are_counted_too(app: Any, clock_s: Clock) -> None:
    held: Budgets = app.extensions[budgets.EXTENSION]
    for _ in range(1024):
        assert held.spend("phone", BYTES_A_DAY, MIB) == 0.0
    clock_s.s += 3_600

    assert held.spend("phone", BYTES_A_DAY, 1) == 82_800.0


def test_runs_begun_are_counted_and_the_same_put_again_is_not(app: Any, clock_s: Clock) -> None:
    helper = Studio(paired(app, "helper"))
    recipe = Studio(paired(app)).with_recipe()
    runs = [uuid4() for _ in range(3)]
    app.extensions[budgets.EXTENSION].spend(helper.client.device["id"], RUNS_AN_HOUR, RUNS_AN_HOUR.much - 2)

    statuses = [helper.put_run(run, make_run(recipe)).status_code for run in runs]

    assert statuses == [201, 201, 429]
    assert helper.put_run(runs[0], make_run(recipe)).status_code == 200
    assert helper.get(f"/runs/{runs[-1]}").status_code == 404
    clock_s.s += 3_600
    assert helper.put_run(runs[-1], make_run(recipe)).status_code == 201


def in_hand(app: Any, count: int, by: str | None) -> None:
    """Plans that another process is at."""
    asked = {
        "runs": [],
        "recipes": [],
        "aim": "finish",
        "ready_by": None,
        "savings": False,
        **({"by": by} if by else {}),
    }
    with app.app_context(), writing() as connection:
        rows = [
            {
                "id": uuid4(),
                "asked": json.dumps(asked),
                "asked_at": now_ms(),
                "state": "working",
                "beat_at": now_ms(),
                "cancelled": False,
            }
            for _ in range(count)
        ]
        connection.execute(Plan.__table__.insert(), rows)


def ask_plan(client: Any, recipe: dict[str, Any]) -> Any:
    asked = {
        "id": recipe["id"],
        "version": recipe["version"],
        "size": {"pieces": 12, "without": [], "swaps": {}, "weigh": "running"},
    }
    return client.post("/api/v1/plans", json={"recipes": [asked]})


@pytest.mark.database("sqlite", "postgresql")
def test_one_device_has_so_many_plans_in_hand_and_all_together_so_many(app: Any) -> None:
    maker, helper = paired(app), paired(app, "helper")
    recipe = Studio(maker).with_recipe()
    in_hand(app, MAX_OF_ONE, helper.device["id"])

    refused = ask_plan(helper, recipe)
    assert (refused.status_code, refused.headers["Retry-After"]) == (429, "10")
    assert "3 plans in the making already" in refused.json["detail"]
    assert ask_plan(maker, recipe).status_code in (201, 202)

    in_hand(app, MAX_IN_HAND, None)
    run = Studio(maker).with_run()
    assert ask_plan(maker, recipe).status_code == 429
    assert maker.get(f"/api/v1/runs/{run}/plan").status_code == 429


def test_a_hard_day_of_three_phones_passes(app: Any) -> None:
    """One of them was away for a week: a dozen batches, 5,000 entries and 20 photographs at once."""
    maker = Studio(paired(app))
    recipe = maker.with_recipe()
    phones = [maker, *(Studio(paired(app, "helper", f"Phone {number}")) for number in (2, 3))]
    away = phones[1]
    statuses = []
    for batch in range(12):
        run = uuid4()
        statuses.append(away.put_run(run, make_run(recipe)).status_code)
        entries = [make_entry(run, device="away", at=1_750_000_000_000 + number) for number in range(417)]
        for start in range(0, len(entries), 200):
            statuses.append(away.post(run, *entries[start : start + 200]).status_code)
        if batch >= 10:
            continue
        for number in range(2):
            picture = jpeg() + os.urandom(400_000)
            said = {"picture": uuid4(), "sha256": sha256(picture).hexdigest()}
            away.post(
                run, make_entry(run, device="away", kind="pictured", body=said, at=1_750_000_100_000 + number)
            )
            statuses.append(
                away.client.put(
                    f"/api/v1/pictures/{said['picture']}", data=picture, content_type="image/jpeg"
                ).status_code
            )
    for phone in (phones[0], phones[2]):
        statuses += [phone.get("/runs?open=true").status_code for _ in range(100)]
        statuses += [ask_plan(phone.client, recipe).status_code]

    assert 429 not in statuses
    assert len(statuses) > 200


def test_what_is_used_is_counted_over_all_processes() -> None:
    held = Budgets()
    children = []
    for _ in range(4):
        child = os.fork()
        if not child:
            for _ in range(500):
                held.spend("phone", BYTES_A_MINUTE, 1000)
            os._exit(0)
        children.append(child)
    for child in children:
        os.waitpid(child, 0)

    used = held.used("phone", BYTES_A_MINUTE)

    assert used == 4 * 500 * 1000


def test_a_process_that_dies_in_the_middle_stops_nobody() -> None:
    held = Budgets()
    if not (child := os.fork()):
        with held._alone():
            os._exit(0)
    os.waitpid(child, 0)

    assert held.spend("phone", BYTES_A_MINUTE, 1) == 0.0


def test_more_devices_than_there_is_room_for_put_out_the_one_seen_longest_ago() -> None:
    held, clock = Budgets(), Clock()
    held.clock = clock
    for number in range(budgets.DEVICES + 1):
        clock.s += 1
        held.spend(f"phone {number}", BYTES_A_MINUTE, number + 1)

    assert held.used("phone 0", BYTES_A_MINUTE) == 0
    assert held.used(f"phone {budgets.DEVICES}", BYTES_A_MINUTE) == budgets.DEVICES + 1
