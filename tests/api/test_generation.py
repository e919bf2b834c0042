"""A restore makes the studio another generation: no version, tag or cursor of the former one is taken for this one's."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread
from typing import Any

import pytest

from api import copies, generation
from api.kit import STARTER_KIT
from api.store import writing
from bench import canonical
from tests.api.studio import Studio
from tests.chaos.device import Device
from tests.frontend.phones import RECIPE
from tests.make import Clock, make_entry, make_recipe, make_run, uuid4, uuid7
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

SHELF = "/shelf/entries"


def renewed(app: Any) -> str:
    with app.app_context(), writing() as connection:
        return generation.renew(connection, 1_760_000_000_000)


def restored(app: Any, make_change: Callable[[], None], file: Path) -> None:
    """The studio is put back as it is now, after a change that nobody kept a copy of."""
    with app.app_context():
        copies.write(file)
    make_change()
    copies.restore(app, file)


def with_kit(name: str) -> dict[str, Any]:
    return {**STARTER_KIT, "mixers": [{"id": "hand", "name": name}]}


def test_every_answer_names_the_generation(studio: Studio) -> None:
    run = studio.with_run()

    named = {
        studio.get(path).headers["Bowlside-Generation"]
        for path in ("/clock", "/studio", "/runs", f"/runs/{run}", f"/runs/{run}/entries", "/nowhere", "/kit")
    }
    said = {
        studio.get(path).json["generation"] for path in ("/clock", "/studio", f"/runs/{run}/entries", SHELF)
    }
    said.add(studio.post(run, make_entry(run)).json["generation"])
    said.add(studio.client.post("/api/v1/shelf/entries", json={"entries": []}).json["generation"])

    assert named == said
    assert len(said) == 1


def test_another_version_2_is_no_304_and_no_edit_goes_over_it(
    app: Any, studio: Studio, tmp_path: Path
) -> None:
    recipe = studio.with_recipe()["id"]
    studio.put_kit(with_kit("one"))

    def second() -> None:
        studio.put_recipe(recipe, make_recipe(title="Lost"), if_match=studio.tag(1))
        studio.put_kit(with_kit("lost"), studio.tag(1))

    former = f'"{studio.generation[:8]}.2"'
    restored(app, second, tmp_path / "copy.gz")
    assert studio.put_recipe(recipe, make_recipe(title="Other"), if_match=former).status_code == 412
    assert studio.put_recipe(recipe, make_recipe(title="Other"), if_match=studio.tag(1)).json["version"] == 2
    assert studio.put_kit(with_kit("other"), studio.tag(1)).json["version"] == 2

    for path in (f"/recipes/{recipe}", "/kit"):
        assert studio.get(path, **{"If-None-Match": former}).status_code == 200
        assert studio.get(path, **{"If-None-Match": studio.tag(2)}).status_code == 304
    assert studio.put_recipe(recipe, make_recipe(title="Third"), if_match=former).status_code == 412
    assert studio.put_kit(with_kit("third"), former).status_code == 412
    assert studio.get("/kit").json["document"] == with_kit("other")


def test_a_versions_number_alone_is_412_and_says_what_to_send(studio: Studio) -> None:
    recipe = studio.with_recipe()["id"]

    answer = studio.put_recipe(recipe, make_recipe(title="Edited"), if_match='"1"')

    assert answer.status_code == 412
    assert "whole ETag" in answer.json["detail"]


@pytest.mark.parametrize("way", ["entries", "shelf", "run", "recipe", "kit", "hours", "settings"])
def test_what_is_meant_for_another_generation_is_refused_and_nothing_of_it_kept(
    app: Any, studio: Studio, way: str
) -> None:
    run, recipe, client = studio.with_run(), studio.with_recipe(), studio.client
    entry = make_entry(run)
    ways: dict[str, Callable[[dict[str, str]], Any]] = {
        "entries": lambda h: client.post(f"/api/v1/runs/{run}/entries", json={"entries": [entry]}, headers=h),
        "shelf": lambda h: client.post(f"/api/v1{SHELF}", json={"entries": []}, headers=h),
        "run": lambda h: client.put(f"/api/v1/runs/{uuid4()}", json=make_run(recipe), headers=h),
        "recipe": lambda h: client.put(f"/api/v1/recipes/{uuid4()}", json=make_recipe(), headers=h),
        "kit": lambda h: client.put("/api/v1/kit", json=STARTER_KIT, headers=h),
        "hours": lambda h: client.put("/api/v1/hours", json=studio.get("/hours").json["document"], headers=h),
        "settings": lambda h: client.put(
            "/api/v1/settings", json={"batch_number": "{yy}-{mark}{n}"}, headers=h
        ),
    }
    former = {"Bowlside-Generation": studio.generation}
    renewed(app)

    refused = ways[way](former)

    assert (refused.status_code, refused.json["type"]) == (409, "/problems/other-generation")
    assert refused.headers["Bowlside-Generation"] == studio.generation != former["Bowlside-Generation"]
    assert studio.get(f"/runs/{run}/entries").json["entries"] == []
    assert studio.get("/runs").json["total"] == 1
    assert studio.get("/recipes").json["total"] == 2
    assert {studio.get(f"/{each}").json["version"] for each in ("kit", "hours", "settings")} == {0}
    assert ways[way]({"Bowlside-Generation": studio.generation}).status_code in (200, 201)


def test_a_restore_by_another_process_is_seen_at_once(app: Any, new_app: Any, studio: Studio) -> None:
    """What is held in memory by how far a journal reaches is of one generation too."""
    run = studio.with_run()
    entries = [make_entry(run), make_entry(run)]
    studio.post(run, entries[0])
    before = studio.get(f"/runs/{run}/entries").json
    reader = app.test_client()
    assert Studio(reader).get(f"/runs/{run}/entries").json == before

    with app.app_context(), writing() as connection:
        generation.renew(connection, 0)
        connection.exec_driver_sql("DELETE FROM entry")
        text = canonical(entries[1])
        connection.exec_driver_sql(
            "INSERT INTO entry (seq, id, run_id, text)"
            f" VALUES ({before['cursor']}, '{entries[1]['id']}', '{run}', '{text}')"
        )

    after = Studio(reader).get(f"/runs/{run}/entries").json
    assert (after["cursor"], after["entries"]) == (before["cursor"], [entries[1]])
    assert after["generation"] != before["generation"]


@pytest.mark.database("postgresql")
def test_no_restore_comes_between_the_question_and_what_is_written(app: Any, studio: Studio) -> None:
    """On PostgreSQL entries are written beside others: the restore waits for those who asked before it."""
    former, asked, done = studio.generation, Event(), Event()

    def restore() -> None:
        asked.wait()
        renewed(app)
        done.set()

    restoring = Thread(target=restore)
    restoring.start()
    with app.test_request_context(method="POST", headers={generation.HEADER: former}):
        with writing(alone=False) as connection:
            asked.set()
            while not connection.exec_driver_sql("SELECT 1 FROM pg_locks WHERE NOT granted").fetchone():
                assert not done.wait(0.02)
            assert generation.in_writing(connection) == former
        restoring.join()
        with pytest.raises(generation.Problem), writing(alone=False):
            pass


class TestTwoClientsAndARestore:
    """The light device (tests/chaos/device.py) is a second client, and follows the same rule."""

    @pytest.fixture
    def devices(self, app: Any, studio: Studio, clock: Clock) -> list[Device]:
        recipe = {"id": uuid4(), "version": 1}
        studio.put_recipe(recipe["id"], RECIPE)

        def ask(method: str, path: str, body: Any) -> tuple[int, Any]:
            answer = app.test_client().open(f"/api/v1{path}", method=method, json=body)
            return answer.status_code, answer.get_json()

        return [Device(name, [], recipe, ask, clock) for name in ("one", "two")]

    @pytest.mark.parametrize("copied", ["before the run", "in the middle of it"])
    def test_what_a_restore_lost_comes_back_from_the_devices(
        self, app: Any, studio: Studio, clock: Clock, devices: list[Device], tmp_path: Path, copied: str
    ) -> None:
        one, two = devices
        file, run = tmp_path / "copy.gz", uuid7(clock())
        one.sync()
        if copied == "before the run":
            with app.app_context():
                copies.write(file)
        one.begin(run)
        one.touch(run, "noted", {"text": "first"})
        one.sync()
        two.sync()
        if copied == "in the middle of it":
            with app.app_context():
                copies.write(file)
        for device in devices:
            device.touch(run, "noted", {"text": f"of {device.name}"})
            device.sync()
        one.sync()
        assert one.is_done and two.is_done

        copies.restore(app, file)
        two.touch(run, "noted", {"text": "after"})
        for device in (two, one, two):
            device.sync()

        kept = studio.get(f"/runs/{run}/entries").json["entries"]
        assert {entry["id"] for entry in kept} == {each["id"] for device in devices for each in device.shown}
        assert one.is_done and two.is_done
        assert one.state(run) == two.state(run)

    def test_an_answer_alone_is_not_enough(self, devices: list[Device], clock: Clock) -> None:
        """What was answered for and not read back is sent again in another generation."""
        one, _ = devices
        run = uuid7(clock())
        one.sync()
        one.begin(run)
        one.sync()
        entry = one.touch(run, "noted", {"text": "x"})
        one._send(run)
        assert one.has_sent(entry) and not one.is_done

        one._keep({"generation": uuid4()})

        assert not one.has_sent(entry)
