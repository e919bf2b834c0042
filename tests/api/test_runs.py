from __future__ import annotations

import re
from hashlib import sha256
from typing import Any

import pytest
from sqlalchemy import text

import bench
from api import runs, searching
from api.kit import STARTER_KIT
from api.schemas import RunQuery
from api.store import reading
from tests.api.studio import Studio
from tests.make import BEGUN, Clock, make_entry, make_run, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

WHOLE_SIZE = {"pieces": 12, "without": [], "swaps": {}, "weigh": "running"}


def test_a_run_begins_once_and_the_same_put_gives_the_same_bytes(studio: Studio) -> None:
    run, body = uuid4(), make_run(studio.with_recipe())

    first = studio.put_run(run, body)
    again = studio.put_run(run, body)

    assert (first.status_code, again.status_code) == (201, 200)
    assert first.data == again.data == studio.get(f"/runs/{run}").data


def test_another_body_for_the_same_run_is_409(studio: Studio) -> None:
    run, body = uuid4(), make_run(studio.with_recipe())
    studio.put_run(run, body)

    assert studio.put_run(run, {**body, "size": {"pieces": 3}}).status_code == 409
    other_kit = bench.read_kit({**STARTER_KIT, "scales": [{**STARTER_KIT["scales"][0], "division": "5 g"}]})
    assert studio.put_run(run, {**body, "kit": other_kit}).status_code == 409


@pytest.mark.database("sqlite")
def test_the_sheet_is_the_one_that_the_bench_makes(studio: Studio) -> None:
    recipe = studio.with_recipe()
    kit = bench.read_kit(STARTER_KIT)
    ref = {"id": recipe["id"], "version": 1}
    sheet = bench.make_sheet(recipe["measured"], ref, WHOLE_SIZE, kit)
    body = {"recipe": ref, "size": WHOLE_SIZE, "kit": kit}

    agreed = studio.put_run(
        uuid4(), {**body, "sheet_sha256": sha256(bench.canonical(sheet).encode()).hexdigest()}
    )
    differs = studio.put_run(uuid4(), {**body, "sheet_sha256": "0" * 64})

    assert (agreed.status_code, agreed.json["sheet"]) == (201, sheet)
    assert differs.status_code == 409
    assert studio.get("/runs").json["total"] == 1


def test_a_run_of_a_recipe_that_is_not_here_is_404(studio: Studio) -> None:
    assert studio.put_run(uuid4(), make_run({"id": uuid4(), "version": 1})).status_code == 404


@pytest.mark.database("sqlite")
def test_a_measured_kit_out_of_shape_is_422(studio: Studio) -> None:
    body = make_run(studio.with_recipe())
    kit = bench.read_kit(STARTER_KIT)
    del kit["scales"][0]["division_mg"]

    answer = studio.put_run(uuid4(), {**body, "kit": kit})

    assert answer.status_code == 422
    assert answer.json["errors"][0]["field"] == "kit.scales.0.division_mg"


@pytest.mark.database("sqlite")
def test_a_kit_with_no_scale_still_gives_a_sheet_or_a_reason(studio: Studio) -> None:
    studio.put_kit({**STARTER_KIT, "scales": []})

    answer = studio.put_run(uuid4(), make_run(studio.with_recipe()))

    assert answer.status_code in (201, 422)
    assert answer.json["errors"] if answer.status_code == 422 else answer.json["sheet"]["warnings"]


def test_finished_runs_leave_the_open_list_and_an_undo_brings_them_back(studio: Studio) -> None:
    run = studio.with_run()
    finished = make_entry(run, kind="finished", body={}, at=BEGUN + 5)

    studio.post(run, finished)
    closed = studio.get("/runs?open=false").json["runs"]
    studio.post(run, make_entry(run, kind="undone", body={"entry": finished["id"]}, at=BEGUN + 6))

    assert [(each["id"], each["finished_at"]) for each in closed] == [(run, BEGUN + 5)]
    assert [each["id"] for each in studio.get("/runs?open=true").json["runs"]] == [run]


def test_an_undo_that_comes_before_what_it_undoes_counts_all_the_same(studio: Studio) -> None:
    run = studio.with_run()
    finished = make_entry(run, kind="finished", body={}, at=BEGUN + 5)

    studio.post(run, make_entry(run, kind="undone", body={"entry": finished["id"]}, at=BEGUN + 6))
    studio.post(run, finished)

    assert studio.get(f"/runs/{run}").json["finished_at"] is None


def test_the_run_says_how_far_its_journal_reaches(studio: Studio) -> None:
    run = studio.with_run()
    before = studio.get(f"/runs/{run}")
    studio.post(run, make_entry(run), make_entry(run))

    after = studio.get(f"/runs/{run}", **{"If-None-Match": before.headers["ETag"]})

    assert (before.json["entries"], after.json["entries"]) == (0, 2)
    assert after.json["cursor"] == studio.get(f"/runs/{run}/entries").json["cursor"]


def test_now_and_the_record_follow_the_journal_and_the_servers_clock(studio: Studio, clock: Clock) -> None:
    run = studio.with_run()
    studio.post(run, make_entry(run))

    now = studio.get(f"/runs/{run}/now").json

    assert now["at"] == clock.ms
    assert now["prompts"]
    assert "like wet sand" in studio.get(f"/runs/{run}/record").text


@pytest.mark.database("sqlite")
def test_now_says_which_other_batch_has_the_bowl_and_offers_the_next_that_fits(studio: Studio) -> None:
    """Two batches with two bowls; with one of them finished its bowl is free again."""
    bowl = {"kind": "bowl", "empty": "400 g", "holds": "2 kg"}
    kit = studio.get("/kit").json["document"] | {
        "vessels": [{**bowl, "id": "wide", "name": "Wide bowl"}, {**bowl, "id": "deep", "name": "White bowl"}]
    }
    assert studio.put_kit(kit).status_code == 201
    first, second = studio.with_run(), studio.with_run()
    step = studio.get(f"/runs/{second}/now").json["prompts"][0]
    line = step["weigh"]["line"]
    studio.post(first, make_entry(first, kind="weighed", body={"line": line, "mg": 1000}))
    studio.post(first, make_entry(first, kind="numbered", body={"number": "D-A41"}))

    (told,) = studio.get(f"/runs/{second}/now").json["in_use"]
    studio.post(
        second, make_entry(second, kind="took", body={"vessel": told["place"], "instead": told["instead"]})
    )

    assert told["says"] == "In use by D-A41: “White bowl”. Take “Wide bowl”."
    assert studio.get(f"/runs/{second}/now").json["in_use"] == []
    assert studio.get(f"/runs/{first}/now").json["in_use"] == []


@pytest.mark.database("sqlite")
def test_now_alone_is_enough_to_make_a_batch(studio: Studio) -> None:
    """A second client: it knows nothing but prompts, and posts the strong answer of the first."""
    run = studio.with_run()
    for at in range(1, 50):
        now = studio.get(f"/runs/{run}/now").json
        if now["finished"]:
            break
        prompt = now["prompts"][0]
        answer = next((each for each in prompt["answers"] if each["strong"]), prompt["answers"][0])
        posted = studio.post(run, make_entry(run, at=BEGUN + at, kind=answer["kind"], body=answer["body"]))
        assert posted.json["answers"][0]["result"] == "kept"

    assert studio.get(f"/runs/{run}/now").json["finished"]
    assert studio.get(f"/runs/{run}").json["finished_at"] is not None


def numbered(studio: Studio, title: str, number: str) -> str:
    """A run that has a number."""
    run = studio.with_run_of(title)
    studio.post(run, make_entry(run, kind="numbered", body={"number": number}))
    return run


def found(studio: Studio, **asked: Any) -> list[str]:
    answer = studio.client.get("/api/v1/runs", query_string=asked)
    assert answer.status_code == 200, answer.text
    assert answer.json["total"] == len(answer.json["runs"])
    return [run["id"] for run in answer.json["runs"]]


def test_runs_are_found_by_words_of_title_and_number_however_written(studio: Studio) -> None:
    rose = numbered(studio, "Rosé soak", "261129-K1")
    plain = numbered(studio, "100 % salt_soak!", "261129-K2")
    other = studio.with_run_of("Straße bar")

    assert found(studio, q="ROSÉ") == found(studio, q="Rose\u0301 k1") == [rose]
    assert set(found(studio, q="soak")) == set(found(studio, q=" 261129 SOAK ")) == {rose, plain}
    assert found(studio, q="strasse") == [other]
    assert found(studio, q="%") == found(studio, q="_") == found(studio, q="!") == [plain]
    assert found(studio, q="soak bar") == []
    assert found(studio, number="261129-K1") == [rose]
    assert found(studio, number="261129") == []


def test_a_run_is_found_by_the_number_it_has_now(studio: Studio) -> None:
    run = numbered(studio, "Salt soak", "first")
    entry = studio.get(f"/runs/{run}/entries").json["entries"][0]["id"]
    studio.post(run, make_entry(run, kind="undone", body={"entry": entry}))

    assert found(studio, q="first") == found(studio, number="first") == []
    assert found(studio, q="salt") == [run]


def test_runs_are_found_by_the_day_they_were_finished(studio: Studio, clock: Clock) -> None:
    three = [studio.with_run() for _ in range(3)]
    for run, at in zip(three[:2], (1_750_000_000_000, 1_750_000_100_000), strict=True):
        studio.post(run, make_entry(run, kind="finished", body={}, at=at))

    assert found(studio, finished_from=1_750_000_000_000, finished_to=1_750_000_100_000) == [three[0]]
    assert set(found(studio, finished_from=0)) == set(three[:2])
    assert found(studio, q="salt", open="true", finished_from=0) == []
    assert set(found(studio, q="salt", open="false")) == set(three[:2])


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    "asked", [{"q": ""}, {"q": " "}, {"q": "\0"}, {"q": "x" * 101}, {"finished_from": -1}]
)
def test_what_cannot_be_looked_for_is_422(studio: Studio, asked: dict[str, Any]) -> None:
    assert studio.client.get("/api/v1/runs", query_string=asked).status_code == 422


@pytest.mark.database("sqlite")
@pytest.mark.parametrize(
    "asked",
    [
        {"open": "true"},
        {"open": "false", "page": 3},
        {"q": "salt", "open": "false"},
        {"q": "salt soak", "finished_from": 0},
        {"number": "261129-K1"},
        {"recipe": "11111111-1111-4111-8111-111111111111"},
        {"finished_from": 0, "finished_to": 5},
    ],
)
def test_a_list_reads_the_sheets_of_its_own_page_alone(
    app: Any, asked: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is looked through lies in an index, so five thousand runs cost what ten do; and none is sorted."""
    monkeypatch.setattr(searching, "FEW", -1)  # walked, as words are that many have
    with app.app_context(), reading() as connection:
        where, named = runs._wanted(connection, RunQuery().load(asked))
        named |= {"limit": 50, "offset": 0}
        for sql in (runs.RUN_LIST, runs.RUN_COUNT):
            query = sql.format(where=where, columns=runs.HEAD)
            plan = connection.execute(text("EXPLAIN QUERY PLAN " + query), named).all()
            looks = [step.detail for step in plan if re.search(r"\brun\b", step.detail)]
            assert looks and all("INDEX" in look for look in looks), looks
            assert "COVERING INDEX ix_run" in looks[-1] or "number" in asked, looks


def test_runs_are_told_whole_by_pages_as_each_by_itself(studio: Studio) -> None:
    made = [studio.with_run() for _ in range(3)]
    long = [make_entry(made[0], at=BEGUN + each) for each in range(501)]
    for first in (0, 500):
        studio.post(made[0], *long[first : first + 500])

    pages = [studio.get(f"/runs/whole?open=true&page={page}&page_size=2").json for page in (1, 2)]

    assert [(page["pages"], page["total"], len(page["runs"])) for page in pages] == [(2, 3, 2), (2, 3, 1)]
    told = {run["id"]: run for page in pages for run in page["runs"]}
    assert [*told] == [run["id"] for run in studio.get("/runs").json["runs"]]
    for run, whole in told.items():
        journal = studio.get(f"/runs/{run}/entries?limit=500").json
        assert (whole.pop("journal"), whole.pop("read_to")) == (journal["entries"], journal["cursor"])
        assert whole == studio.get(f"/runs/{run}").json
    assert studio.get("/runs/whole?page_size=21").status_code == 422
