"""The record and what is drawn from it: digest, number, spreadsheet, cost, label, last times."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from io import StringIO
from typing import Any

import pandas
import pytest

import bench
from api.demo import seed
from tests.api.doorway import paired
from tests.api.stock import EARLY, described, gathered, received, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.make import make_entry, make_run, uuid4
from tests.servers import ROOT


@pytest.fixture
def demo(app: Any, studio: Studio) -> str:
    """The id of the demo's finished run."""
    with app.app_context():
        seed()
    run: str = studio.get("/runs?open=false").json["runs"][0]["id"]
    return run


@pytest.mark.database("sqlite")
def test_the_digest_is_reckoned_again_by_the_documented_line(
    studio: Studio, demo: str, tmp_path: Any
) -> None:
    line = re.search(
        r"^ {4}python3 -c '(.+)' record\.json$", (ROOT / "DEVELOPERS.md").read_text("utf-8"), re.M
    )
    assert line
    file = tmp_path / "record.json"
    printed = studio.get(f"/runs/{demo}/record").json["digest"]
    assert printed == bench.digest(studio.get(f"/runs/{demo}/entries?limit=1000").json["entries"])

    for remarks in range(2):
        told = studio.get(f"/runs/{demo}/record")
        file.write_bytes(told.data)
        reckoned = subprocess.run([sys.executable, "-c", line[1], str(file)], capture_output=True, text=True)
        assert (len(told.json["remarks"]), reckoned.stdout.strip()) == (remarks, printed)
        studio.post(demo, make_entry(demo, at=told.json["signed"]["at"] - 1))


@pytest.mark.database("sqlite")
def test_what_a_batch_cost_is_between_makers(new_app: Any) -> None:
    app = new_app(pairing=True)
    maker, helper = Studio(paired(app)), Studio(paired(app, "helper"))
    run = maker.with_run()
    settings = {"batch_number": "{mark}{n}", "currency": "EUR", "hourly_rate": "18", "wrap_cost": "0.2"}
    maker.client.put("/api/v1/settings", json=settings)

    refused = helper.get(f"/runs/{run}/cost")

    assert maker.get(f"/runs/{run}/cost").status_code == 200
    assert (refused.status_code, refused.json["type"]) == (403, "/problems/maker-only")
    assert maker.get("/settings").json["document"] == settings
    assert helper.get("/settings").json["document"] == {"batch_number": "{mark}{n}", "currency": "EUR"}


@pytest.mark.database("sqlite")
def test_one_entry_more_is_another_digest(studio: Studio) -> None:
    run = studio.with_run()
    seen = []
    for _ in range(3):
        studio.post(run, make_entry(run))
        seen.append(studio.get(f"/runs/{run}/record").json["digest"])

    assert len(set(seen)) == 3


def test_a_number_that_another_batch_has_is_kept_and_told(studio: Studio) -> None:
    recipe = studio.with_recipe()
    one, other = uuid4(), uuid4()
    answers = []
    for run in (one, other):
        studio.put_run(run, make_run(recipe))
        numbered = make_entry(run, kind="numbered", body={"number": "261125-A1"})
        answers += studio.post(run, numbered).json["answers"]

    told = [{"id": one, "title": recipe["title"]}]
    assert [each["result"] for each in answers] == ["kept", "kept"]
    assert [each.get("also_used_by") for each in answers] == [None, told]
    assert studio.get(f"/runs/{other}/record").json["also_used_by"] == told
    assert studio.get(f"/runs/{one}/record").json["also_used_by"][0]["id"] == other
    assert {each["number"] for each in studio.get("/runs").json["runs"]} == {"261125-A1"}


def test_the_first_number_stands_and_a_second_is_told_beside_it(studio: Studio) -> None:
    run = studio.with_run()
    for at, number in ((2, "B"), (1, "A")):
        studio.post(run, make_entry(run, at=EARLY + at, kind="numbered", body={"number": number}))

    record = studio.get(f"/runs/{run}/record").json

    assert (record["number"], record["also_numbered"]) == ("A", ["B"])
    assert studio.get(f"/runs/{run}").json["number"] == "A"


def test_the_record_follows_the_shelf_though_its_own_journal_stands(studio: Studio) -> None:
    lot, run = uuid4(), studio.with_run()
    studio.post(run, gathered(run, lot), weighed(run, 4_000))
    assert [each["number"] for each in studio.get(f"/runs/{run}/record").json["lots"]] == [None]

    to_shelf(studio, received(lot))

    assert [each["number"] for each in studio.get(f"/runs/{run}/record").json["lots"]] == ["S-17"]


def test_the_record_follows_a_devices_name(new_app: Any) -> None:
    app = new_app(pairing=True)
    client = paired(app)
    studio = Studio(client)
    run = studio.with_run()
    studio.post(run, make_entry(run))
    assert studio.get(f"/runs/{run}/record").json["people"][0]["name"] == "Phone by the bowl"

    client.patch(f"/api/v1/devices/{client.device['id']}", json={"name": "Old phone"})

    assert studio.get(f"/runs/{run}/record").json["people"][0]["name"] == "Old phone"


@pytest.mark.database("sqlite")
def test_the_record_opens_as_a_spreadsheet_with_its_types(studio: Studio, demo: str) -> None:
    studio.post(demo, make_entry(demo, body={"text": "=cmd|'/c calc'!A1"}, at=1_800_000_000_000))
    record = studio.get(f"/runs/{demo}/record").json

    answer = studio.get(f"/runs/{demo}/record.csv")
    table = pandas.read_csv(StringIO(answer.data.decode("utf-8-sig")), parse_dates=["began", "ended"])

    numbers = ["planned", "actual", "deviation", "tolerance", "round"]
    assert all(table[each].dtype.kind == "f" for each in numbers)  # with gaps, so not whole to pandas
    assert table["ended"].dtype.kind == "M"
    lines = table[table["part"] == "line"]
    assert lines["actual"].sum() == record["yield"]["actual_mg"]
    assert len(lines) == len(record["lines"])
    assert table[table["what"] == "digest"]["says"].item() == record["digest"]
    assert table[table["what"] == "number"]["says"].item() == "D-A41"
    assert table[table["part"] == "remark"]["says"].item() == "'=cmd|'/c calc'!A1"
    parts = {"batch", "yield", "balance", "scale", "person", "lot", "step", "wait", "bursts", "look", "hands"}
    assert parts <= set(table["part"])


@pytest.mark.database("sqlite")
def test_the_cost_is_that_of_the_lots_as_they_were_used(studio: Studio) -> None:
    price = {"amount": "10.00", "currency": "EUR"}
    lot, run = with_lot(studio, 1_000_000, price=price), studio.with_run()
    studio.post(run, gathered(run, lot), weighed(run, 123_400))

    told = studio.get(f"/runs/{run}/cost").json

    assert told["currency"] == "EUR"
    assert [each["cost"] for each in told["materials"]] == ["1.2340"]
    assert told["totals"]["EUR"]["materials"] == "1.23"


@pytest.mark.database("sqlite")
def test_hands_and_currency_are_the_makers_and_currencies_are_never_added(studio: Studio) -> None:
    lot = with_lot(studio, price={"amount": "10.00", "currency": "USD"})
    run = studio.with_run()
    worked = make_entry(run, kind="worked", body={"ms": 30 * 60_000})
    studio.post(run, gathered(run, lot), weighed(run, 100_000), worked)
    settings = {"batch_number": "{mark}{n}", "currency": "JPY", "hourly_rate": "2000"}
    studio.client.put("/api/v1/settings", json=settings)

    totals = studio.get(f"/runs/{run}/cost").json["totals"]

    assert (totals["JPY"]["hands"], totals["JPY"]["total"]) == ("1000", "1000")
    assert (totals["USD"]["hands"], totals["USD"]["total"]) == ("0.00", "1.00")


@pytest.mark.database("sqlite")
def test_with_no_currency_anywhere_the_cost_says_the_way_out(studio: Studio) -> None:
    answer = studio.get(f"/runs/{studio.with_run()}/cost")

    assert answer.status_code == 409
    assert "/api/v1/settings" in answer.json["detail"]


@pytest.mark.database("sqlite")
def test_the_label_is_the_benchs_own_with_the_shelfs_names_and_the_makers(studio: Studio) -> None:
    lot, run = with_lot(studio), studio.with_run()
    to_shelf(studio, described(inci="Sodium Chloride", ingredient="salt-1"))
    numbered = make_entry(run, at=EARLY, kind="numbered", body={"number": "A7"})
    studio.post(run, numbered, gathered(run, lot), weighed(run, 120_000))
    label = {"width_mm": 50, "height_mm": 30, "opened_months": 12}
    settings = {"batch_number": "{mark}{n}", "maker": "Marlwick Scullery", "label": label}
    studio.client.put("/api/v1/settings", json=settings)

    us = studio.get(f"/runs/{run}/label?market=us&list_um=500&best_before=2027-03-31").json
    eu = studio.get(f"/runs/{run}/label?market=eu&precautions=Keep+dry.&precautions=Not+food.").json

    assert us["maker"] == eu["maker"] == "Marlwick Scullery"
    assert (us["text"], us["batch"], us["opened"], us["best_before"]) == (
        "Sodium Chloride",
        "A7",
        "12M",
        "2027-03-31",
    )
    assert us["heights"]["list"] == {"least_um": 794, "has_um": 500, "fits": False}
    assert [each["says"] for each in eu["precautions"][:2]] == ["Keep dry.", "Not food."]
    asked = (
        "use=bath&single_use=true&keeps_months=36&meant_for=adults&today=2027-04-01&best_before=2027-03-31"
    )
    uk = studio.get(f"/runs/{run}/label?market=uk&{asked}").json
    own = studio.get(f"/runs/{run}/label?market=us&maker=Sink+Lane&width_um=12500&height_um=9000").json
    assert own["maker"] == "Sink Lane" and own["heights"]["list"]["least_um"] == 794
    cleared = studio.get(f"/runs/{run}/label?market=us&maker=&opened_months=0").json
    assert cleared["maker"] is None and cleared["opened"] is None
    assert uk["opened"] is None and "The best before date is past" in str(uk["warnings"])
    assert studio.get(f"/runs/{run}/label?market=uk&use=eating").status_code == 422
    assert studio.get(f"/runs/{run}/label").status_code == 422
    assert studio.get(f"/runs/{run}/label?market=eu&best_before=soon").status_code == 422


@pytest.mark.database("sqlite")
def test_the_last_times_are_told_and_three_teach(studio: Studio) -> None:
    recipe = studio.with_recipe()
    for number in range(3):
        run = uuid4()
        studio.put_run(run, make_run(recipe))
        worked = make_entry(run, at=EARLY + 30, kind="worked", body={"ms": 60_000 * (1 + number)})
        studio.post(run, weighed(run, 121_000 + 1000 * number, at=number), worked)
        studio.post(run, make_entry(run, at=EARLY + 99, kind="finished", body={}))
    studio.with_run()  # unfinished, and of another recipe

    told = studio.get(f"/recipes/{recipe['id']}/last").json

    assert told["runs"] == 3
    assert told["last"]["soak.weigh_0/line_0"] and "soak.weigh_0" not in told["last"]
    assert told["learned"][""]["hands_ms"] == {
        "runs": 3,
        "median": 120_000,
        "low": 90_000,
        "high": 150_000,
    }
    assert studio.get(f"/recipes/{uuid4()}/last").status_code == 404


@pytest.mark.database("sqlite")
@pytest.mark.parametrize("what", ["record", "record.csv", "cost", "label?market=eu"])
def test_of_a_run_that_is_not_here_there_is_nothing(studio: Studio, what: str) -> None:
    assert studio.get(f"/runs/{uuid4()}/{what}").status_code == 404


def test_a_run_of_nothing_but_odd_entries_has_all_of_it(studio: Studio) -> None:
    run = studio.with_run()
    far = make_entry(run, at=EARLY, kind="levitated", body={"height": [1]})
    studio.post(
        run, far, make_entry(run, at=EARLY + 1, kind="gathered", body={"ingredient": "moon", "lot": "x"})
    )

    assert studio.get(f"/runs/{run}/record").json["unread"]
    for what in ("record.csv", "label?market=us", "label?market=eu"):
        assert studio.get(f"/runs/{run}/{what}").status_code == 200
    assert json.loads(studio.get(f"/runs/{run}/entries").data)["entries"][0] == far
    assert bench.digest([]) != studio.get(f"/runs/{run}/record").json["digest"]
