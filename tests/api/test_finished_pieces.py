"""Finished pieces: what is there follows both journals, whatever comes first; recalls, complaints, parts made ahead."""

from __future__ import annotations

import json
from io import StringIO
from typing import Any

import pandas
import pytest
from flask_migrate import downgrade, upgrade
from sqlalchemy import text

from api.store import reading
from tests.api.stock import described, gathered, received, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.make import BEGUN, make_entry, make_recipe, make_run, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

MINUTE = 60_000
SHOP, MARKET = "0197a0e2-0000-4000-8000-0000000000c1", "0197a0e2-0000-4000-8000-0000000000c2"


def told(kind: str, run: str, at: int = 2000, **body: Any) -> dict[str, Any]:
    return make_entry("shelf", at=BEGUN + at, kind=kind, body={"run": run, **body})


def undo(entry: dict[str, Any], at: int = 3000) -> dict[str, Any]:
    return make_entry("shelf", at=BEGUN + at, kind="undone", body={"entry": entry["id"]})


def begun(studio: Studio, **said: Any) -> str:
    """The id of a batch of a recipe whose pieces are counted at its end."""
    document = make_recipe() | said
    document["components"][0]["steps"].append({"id": "press", "kind": "pieces", "title": "Press"})
    run, recipe = uuid4(), studio.put_recipe(uuid4(), document).json
    assert studio.put_run(run, make_run(recipe)).status_code == 201
    return run


def counted(studio: Studio, run: str, good: int, at: int = 100, **more: int) -> dict[str, Any]:
    sheet = studio.get(f"/runs/{run}").json["sheet"]
    step = next(step["id"] for step in sheet["steps"] if step["kind"] == "pieces")
    return make_entry(run, at=BEGUN + at, kind="counted", body={"step": step, "good": good, **more})


def finish(studio: Studio, run: str, good: int = 10, lot: str | None = None, **more: int) -> str:
    entries = [gathered(run, lot), weighed(run, 100_000)] if lot else []
    end = make_entry(run, at=BEGUN + 200, kind="finished", body={})
    studio.post(run, *entries, counted(studio, run, good, **more), end)
    return run


def stock(studio: Studio, run: str) -> tuple[int, ...] | None:
    batch = studio.get(f"/pieces/{run}").json["batch"]
    return batch and tuple(batch[name] for name in ("made", "in_stock", "left", "kept", "binned"))


def name_outlet(studio: Studio, outlet: str, name: str, contact: str | None = None) -> Any:
    return studio.client.put(f"/api/v1/outlets/{outlet}", json={"name": name, "contact": contact})


def test_pieces_are_there_once_a_batch_is_finished_and_leave_by_entries(studio: Studio) -> None:
    run = begun(studio)
    sold = told("sold", run, pieces=4, outlet=SHOP)
    to_shelf(studio, sold)  # before the batch is finished: it counts once that is
    assert stock(studio, run) is None and studio.get("/pieces").json["total"] == 0

    finish(studio, run, good=10, spoiled=1)
    seen = [stock(studio, run)]
    for entry in (
        told("given", run, pieces=1),
        told("returned", run, pieces=2, outlet=SHOP),
        told("binned", run, pieces=1, why="Cracked."),
        told("sampled", run, pieces=1),
        undo(sold),
    ):
        to_shelf(studio, entry)
        seen.append(stock(studio, run))

    assert seen == [
        (10, 6, 4, 0, 0),
        (10, 5, 5, 0, 0),
        (10, 7, 3, 0, 0),
        (10, 6, 3, 0, 1),
        (10, 5, 3, 1, 1),
        (10, 9, -1, 1, 1),
    ]
    (listed,) = studio.get("/pieces").json["pieces"]
    assert (listed["run"], listed["in_stock"], listed["made_on"]) == (run, 9, "2025-02-19")


def test_what_takes_back_may_come_before_what_it_takes_back(studio: Studio) -> None:
    run = finish(studio, begun(studio))
    sold = told("sold", run, pieces=4)
    first = undo(sold)
    again = undo(first, at=4000)

    to_shelf(studio, again, first)
    assert stock(studio, run) == (10, 10, 0, 0, 0)
    to_shelf(studio, sold)
    assert stock(studio, run) == (10, 6, 4, 0, 0)  # taken back, and brought again


def test_a_count_put_right_and_pieces_kept_later_are_counted_once(studio: Studio) -> None:
    run = finish(studio, begun(studio), good=8)
    to_shelf(studio, told("sold", run, pieces=8))

    studio.post(run, counted(studio, run, 2, at=300))
    assert stock(studio, run) == (10, 2, 8, 0, 0)
    studio.post(run, make_entry(run, at=BEGUN + 400, kind="kept", body={"pieces": 1}))
    to_shelf(studio, told("sampled", run, pieces=1))
    assert stock(studio, run) == (10, 0, 8, 2, 0)
    assert studio.get("/pieces").json["total"] == 0 and studio.get("/pieces?gone=true").json["total"] == 1


def test_those_that_go_off_first_come_first(studio: Studio) -> None:
    late, soon = with_lot(studio, best_before="2027-05-31"), with_lot(studio, best_before="2026-12-31")
    runs = [finish(studio, begun(studio), lot=lot) for lot in (late, soon, None)]

    listed = studio.get("/pieces").json["pieces"]

    assert [each["run"] for each in listed] == [runs[1], runs[0], runs[2]]
    assert [each["best_before"] for each in listed] == ["2026-12-31", "2027-05-31", None]


def test_a_recipe_says_how_long_its_pieces_keep_and_a_lot_may_end_sooner(studio: Studio) -> None:
    lot = uuid4()
    run = finish(studio, begun(studio, keeps_months=12), lot=lot)
    first = studio.get(f"/pieces/{run}").json["batch"]["best_before"]
    to_shelf(studio, described(), received(lot, best_before="2025-12-31"))  # known later than used

    assert (first, studio.get(f"/pieces/{run}").json["batch"]["best_before"]) == ("2026-02-19", "2025-12-31")


def test_a_recall_goes_on_to_the_outlets_says_what_is_found_and_can_be_rehearsed(studio: Studio) -> None:
    lot = with_lot(studio)
    run, other = (finish(studio, begun(studio), lot=each) for each in (lot, None))
    name_outlet(studio, SHOP, "The corner shop", "corner@example.test")
    to_shelf(
        studio,
        told("sold", run, pieces=4, outlet=SHOP),
        told("sold", run, pieces=3),
        told("binned", run, pieces=1, why="Cracked."),
        told("sold", other, pieces=5, outlet=SHOP),
    )
    before = studio.get("/export").json

    told_of = studio.get(f"/lots/{lot}/recall?rehearsal=true").json
    (batch,) = told_of["batches"]
    assert (told_of["made"], told_of["found"], told_of["unknown"], told_of["rehearsal"]) == (10, 7, 3, True)
    assert [(at["name"], at["contact"], at["there"]) for at in batch["at"]] == [
        ("The corner shop", "corner@example.test", 4),
        (None, None, 3),
    ]
    after = studio.get("/export").json
    assert {**after, "exported_at": 0} == {**before, "exported_at": 0}

    answer = studio.get(f"/lots/{lot}/recall-outlets.csv?rehearsal=true")
    table = pandas.read_csv(StringIO(answer.text.removeprefix("\ufeff")))
    assert "recall-rehearsal.csv" in answer.headers["Content-Disposition"]
    assert answer.headers["Cache-Control"] == "no-store"
    assert list(table["rehearsal"]) == ["rehearsal"] * 2 and list(table["pieces_there"]) == [4, 3]
    assert studio.get(f"/lots/{lot}/recall").json["rehearsal"] is False
    assert studio.get(f"/lots/{uuid4()}/recall").status_code == 404
    assert studio.get(f"/runs/{uuid4()}/recall").status_code == 404


def made_ahead(studio: Studio, run: str, lot: str) -> None:
    """A part of this batch, put on the shelf as a lot."""
    part = received(lot, run=run, number="Part", best_before="2026-12-01")
    to_shelf(studio, part, told("shelved", run, pieces=10, lot=lot))


def test_parts_made_ahead_are_traced_through_both_ways(studio: Studio) -> None:
    salt, part, further = with_lot(studio), uuid4(), uuid4()
    first = finish(studio, begun(studio), lot=salt)
    made_ahead(studio, first, part)
    second = finish(studio, begun(studio), lot=part)
    made_ahead(studio, second, further)
    third = finish(studio, begun(studio), lot=further)
    to_shelf(studio, told("sold", third, pieces=2, outlet=MARKET))

    assert stock(studio, first) == (10, 0, 10, 0, 0)
    traced = studio.get(f"/lots/{salt}/trace").json["runs"]
    assert [(run["id"], run["lot"]) for run in traced] == [(first, salt), (second, part), (third, further)]
    origin = studio.get(f"/runs/{third}/origin").json["lots"]
    assert [(each["lot"], each["made_in"]) for each in origin] == [
        (further, second),
        (part, first),
        (salt, None),
    ]
    assert [each["run"] for each in studio.get(f"/runs/{first}/recall").json["batches"]] == [
        first,
        second,
        third,
    ]
    assert studio.get(f"/lots/{salt}/recall").json["unknown"] == 2  # at an outlet that nobody named
    assert studio.get(f"/pieces/{third}").json["batch"]["best_before"] == "2026-12-01"


def in_parts(studio: Studio, path: str, name: str, size: int) -> list[dict[str, Any]]:
    """All of a list, asked for part by part; each part says how many there are in all."""
    told: list[dict[str, Any]] = []
    after, total = "", None
    while total is None or after:
        part = studio.get(f"{path}?page_size={size}{after}").json
        told += part[name]
        assert total in (None, part["total"]) and len(part[name]) <= size
        total, after = part["total"], part["next"] and f"&after={part['next']}"
    assert len(told) == total
    return told


def test_a_long_list_is_told_in_parts_and_leaves_none_out(studio: Studio) -> None:
    salt, part = with_lot(studio), uuid4()
    runs = [finish(studio, begun(studio), lot=salt) for _ in range(5)]
    made_ahead(studio, runs[0], part)
    through = [finish(studio, begun(studio), lot=part) for _ in range(2)]
    both = finish(studio, begun(studio), lot=salt)
    studio.post(both, gathered(both, part))
    to_shelf(studio, *(told("sold", run, pieces=2, outlet=MARKET) for run in (*runs, *through)))

    for size in (1, 2, 3, 100):
        traced = in_parts(studio, f"/lots/{salt}/trace", "runs", size)
        assert {run["id"] for run in traced[:6]} == {*runs, both}
        assert {run["id"] for run in traced[6:]} == {*through}
        recalled = in_parts(studio, f"/lots/{salt}/recall", "batches", size)
        assert [each["run"] for each in recalled] == [run["id"] for run in traced]
        of_run = in_parts(studio, f"/runs/{runs[0]}/recall", "batches", size)
        assert [each["run"] for each in of_run][0] == runs[0]
        assert {each["run"] for each in of_run} == {runs[0], both, *through}
    first = studio.get(f"/lots/{salt}/recall?page_size=1").json
    assert (first["total"], first["made"], first["unknown"]) == (8, 80, 14)
    listed = studio.get(f"/lots/{salt}/recall-outlets.csv").text
    assert all(run in listed for run in (*runs, *through, both))
    lost = studio.get(f"/lots/{salt}/trace?after={uuid4()}")
    assert (lost.status_code, lost.json["errors"][0]["field"]) == (422, "after")


def test_a_part_that_is_said_to_be_made_of_itself_ends(studio: Studio) -> None:
    lot = uuid4()
    run = finish(studio, begun(studio), lot=lot)
    made_ahead(studio, run, lot)

    assert [each["id"] for each in studio.get(f"/lots/{lot}/trace").json["runs"]] == [run]
    assert [each["lot"] for each in studio.get(f"/runs/{run}/origin").json["lots"]] == [lot]


def test_a_complaint_leads_to_its_batch_its_lots_and_others_alike(studio: Studio) -> None:
    lot = with_lot(studio)
    run, alike, unlike = (finish(studio, begun(studio), lot=each) for each in (lot, lot, None))
    to_shelf(
        studio,
        told("complained", run, sort="reaction", text="Itching.", pieces=1, outlet=SHOP),
        told("complained", alike, at=2500, sort="complaint", text="Crumbles."),
        told("complained", unlike, sort="complaint", text="Faded."),
    )

    listed = studio.get("/complaints").json["complaints"]
    assert [each["text"] for each in listed][0] == "Crumbles." and len(listed) == 3
    mine = next(each for each in listed if each["run"] == run)
    told_of = studio.get(f"/complaints/{mine['id']}").json
    assert [each["lot"] for each in told_of["lots"]] == [lot]
    assert {each["run"] for each in told_of["others"]} == {run, alike}
    assert [each["text"] for each in told_of["told_of_others"]] == ["Crumbles."]
    assert studio.get(f"/complaints/{uuid4()}").status_code == 404


def test_everything_comes_back_out_of_an_export(studio: Studio, new_app: Any) -> None:
    other_studio = Studio(new_app().test_client())
    lot = with_lot(studio)
    run = finish(studio, begun(studio), lot=lot)
    name_outlet(studio, SHOP, "The corner shop")
    to_shelf(studio, told("sold", run, pieces=4, outlet=SHOP), told("stood", run, place="Box 3"))

    answer = other_studio.client.post("/api/v1/import", json=studio.get("/export").json)

    assert answer.json["refused"] == []
    for path in ("/pieces", f"/pieces/{run}", "/outlets", f"/lots/{lot}/recall"):
        assert other_studio.get(path).json == studio.get(path).json, path


@pytest.mark.database("sqlite")
def test_a_batch_that_nobody_has_is_not_found(studio: Studio) -> None:
    for path in ("/pieces", "/runs"):
        rest = "" if path == "/pieces" else "/origin"
        assert studio.get(f"{path}/{uuid4()}{rest}").status_code == 404


def test_the_table_is_what_the_journals_say_after_a_migration_back_and_forth(
    studio: Studio, app: Any
) -> None:
    run = finish(studio, begun(studio))
    to_shelf(studio, told("sold", run, pieces=4))
    was = stock(studio, run)
    with app.app_context():
        downgrade(revision="0010")
        upgrade()
        with reading() as connection:
            assert connection.scalar(text("SELECT count(*) FROM shelf_entry WHERE run_id IS NOT NULL")) == 1

    assert stock(studio, run) == was
    assert json.dumps(was) == "[10, 6, 4, 0, 0]"
