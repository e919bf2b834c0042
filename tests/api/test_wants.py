"""The order of work over HTTP: kept line by line, changed by who has read it, and carried like all else."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from flask_migrate import downgrade, upgrade
from sqlalchemy import text

from api import copies
from api.store import writing
from tests.api.doorway import paired
from tests.api.studio import Studio
from tests.api.test_finished_pieces import SHOP, name_outlet
from tests.make import uuid4

Json = dict[str, Any]
SATURDAY = 1_764_400_000_000
NOBODY = "00000000-0000-4000-8000-000000000000"


def put(studio: Studio, want: str, said: Json, tag: str | None = None) -> Any:
    headers = {"If-Match": tag} if tag else {}
    return studio.client.put(f"/api/v1/wants/{want}", json=said, headers=headers)


@pytest.fixture
def said(studio: Studio) -> Json:
    return {"recipe": studio.with_recipe()["id"], "pieces": 60, "by": SATURDAY}


def listed(studio: Studio, state: str = "open") -> list[Json]:
    found: list[Json] = studio.get(f"/wants?state={state}").json["wants"]
    return found


def test_a_line_is_kept_changed_met_and_dropped(studio: Studio, said: Json) -> None:
    want = uuid4()
    name_outlet(studio, SHOP, "Corner shop")

    made = put(studio, want, {**said, "outlet": SHOP, "note": "In the blue box"})
    again = put(studio, want, {**said, "outlet": SHOP, "note": "In the blue box"})
    changed = put(studio, want, {**said, "pieces": 40}, made.headers["ETag"])

    assert (made.status_code, again.status_code, changed.status_code) == (201, 200, 200)
    assert (again.json["version"], changed.json["version"]) == (1, 2)
    assert [(each["pieces"], each["outlet"]) for each in listed(studio)] == [(40, None)]
    for state in ("met", "dropped", "open"):
        tag = studio.get(f"/wants/{want}").headers["ETag"]
        assert put(studio, want, {**said, "state": state}, tag).json["state"] == state
        assert [each["id"] for each in listed(studio, state)] == [want]
    assert studio.get(f"/wants/{want}", **{"If-None-Match": studio.tag(5)}).status_code == 304


def test_of_two_devices_that_change_one_line_the_second_is_told(studio: Studio, said: Json) -> None:
    want = uuid4()
    tag = put(studio, want, said).headers["ETag"]

    first = put(studio, want, {**said, "state": "dropped"}, tag)
    second = put(studio, want, {**said, "pieces": 80}, tag)
    unread = put(studio, want, {**said, "pieces": 80})

    assert (first.status_code, second.status_code, unread.status_code) == (200, 412, 428)
    assert studio.get(f"/wants/{want}").json["state"] == "dropped"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"pieces": 0}, "pieces"),
        ({"pieces": 10_001}, "pieces"),
        ({"by": -1}, "by"),
        ({"recipe": NOBODY}, "recipe"),
        ({"outlet": NOBODY}, "outlet"),
        ({"note": "x" * 401}, "note"),
        ({"state": "lost"}, "state"),
        ({"more": 1}, "more"),
    ],
)
@pytest.mark.database("sqlite")
def test_what_cannot_be_kept_names_its_field(studio: Studio, said: Json, change: Json, field: str) -> None:
    found = put(studio, uuid4(), {**said, **change})

    assert found.status_code == 422
    assert [each["field"] for each in found.json["errors"]] == [field]
    assert listed(studio) == []


def test_a_thousand_and_one_lines_stand_on_eleven_pages_by_their_instant(
    studio: Studio, said: Json, app: Any
) -> None:
    one = {**said, "outlet_id": None, "note": "", "state": "open", "version": 1}
    rows = [{**one, "id": uuid4(), "by": SATURDAY + turn % 7} for turn in range(1_001)]
    columns = "(id, version, recipe_id, pieces, due, outlet_id, note, state)"
    values = "(:id, :version, :recipe, :pieces, :by, :outlet_id, :note, :state)"
    with app.app_context(), writing() as connection:
        connection.execute(text(f"INSERT INTO want {columns} VALUES {values}"), rows)

    pages = [studio.get(f"/wants?page={page}&page_size=100").json for page in range(1, 13)]

    assert (pages[0]["total"], pages[0]["pages"]) == (1_001, 11)
    found = [(each["by"], each["id"]) for page in pages for each in page["wants"]]
    assert found == sorted((each["by"], each["id"]) for each in rows)


def test_an_order_goes_out_and_in_and_never_over_another(studio: Studio, said: Json, new_app: Any) -> None:
    want, gone = uuid4(), uuid4()
    put(studio, want, {**said, "note": "Kurz vor neun"})
    put(studio, gone, {**said, "state": "met"})
    export = studio.get("/export").json
    other = Studio(new_app().test_client())

    assert other.import_(export).json["refused"] == []
    assert other.get("/export").json["wants"] == export["wants"]
    again = other.import_(export).json
    assert (again["kept"], again["refused"]) == (0, [])

    put(other, want, {**said, "pieces": 7}, other.get(f"/wants/{want}").headers["ETag"])
    refused = other.import_(export).json["refused"]
    assert [each["field"] for each in refused] == [f"wants.{export['wants'].index(listed(studio)[0])}"]
    assert [each["pieces"] for each in listed(other)] == [7]

    lacking = {**export, "recipes": [], "runs": []}
    third = Studio(new_app().test_client()).import_(lacking).json
    assert [each["field"] for each in third["refused"]] == ["wants.0", "wants.1"]


def test_an_order_is_in_a_copy_and_back_in_a_restore(
    studio: Studio, said: Json, app: Any, tmp_path: Path
) -> None:
    want = uuid4()
    put(studio, want, said)
    with app.app_context():
        copies.write(tmp_path / "copy.jsonl.gz")
        tag = studio.get(f"/wants/{want}").headers["ETag"]
        put(studio, want, {**said, "pieces": 1}, tag)
        copies.restore(app, tmp_path / "copy.jsonl.gz")

    assert [each["pieces"] for each in listed(studio)] == [60]
    assert put(studio, want, {**said, "pieces": 2}, tag).status_code in (409, 412)  # of the former generation


def test_a_line_outlives_its_outlet_and_its_recipes_number(studio: Studio, said: Json) -> None:
    want = uuid4()
    name_outlet(studio, SHOP, "Zebulon's stall")
    put(studio, want, {**said, "outlet": SHOP})
    studio.client.delete(f"/api/v1/outlets/{SHOP}")

    kept = studio.get(f"/wants/{want}")
    assert "Zebulon" not in kept.text and kept.json["outlet"] == SHOP
    moved = put(studio, want, {**said, "outlet": SHOP, "pieces": 61}, kept.headers["ETag"])
    assert moved.status_code == 200


def test_the_table_goes_and_comes_with_its_migration(app: Any) -> None:
    with app.app_context():
        downgrade(revision="0011")
        upgrade()
    assert Studio(app.test_client()).get("/wants").json["total"] == 0


@pytest.mark.database("sqlite")
def test_a_helper_reads_the_order_and_changes_nothing(new_app: Any) -> None:
    locked = new_app(pairing=True)
    maker, helper = (Studio(paired(locked, role, role)) for role in ("maker", "helper"))
    said = {"recipe": maker.with_recipe()["id"], "pieces": 60, "by": SATURDAY}
    want = uuid4()
    put(maker, want, said)

    assert [each["id"] for each in listed(helper)] == [want]
    assert put(helper, uuid4(), said).status_code == 403
    assert put(helper, want, {**said, "state": "met"}, studio_tag(helper, want)).status_code == 403


def studio_tag(studio: Studio, want: str) -> str:
    tag: str = studio.get(f"/wants/{want}").headers["ETag"]
    return tag
