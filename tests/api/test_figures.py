"""The table over all batches is what their records and costs say, by pages, as CSV and as Parquet."""

from __future__ import annotations

import csv
import json
from datetime import UTC, datetime
from decimal import Decimal
from io import BytesIO, StringIO
from itertools import count
from typing import Any

import pandas
import pyarrow.parquet
import pytest
from flask_migrate import downgrade, upgrade
from sqlalchemy import text

import bench
from api import batches, figures, parquet
from api.store import reading, writing
from tests.api.stock import gathered, received, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.make import BEGUN, make_entry, make_recipe, make_run, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES

MINUTE = 60_000
LATER = BEGUN + 10**9
PRICE = {"amount": "9.00", "currency": "EUR"}
_turn = count(1)


def recipe_of(studio: Studio, title: str = "Salt soak") -> dict[str, Any]:
    document = make_recipe(title=title)
    document["components"][0]["steps"].append({"id": "press", "kind": "pieces", "title": "Press"})
    made: dict[str, Any] = studio.put_recipe(uuid4(), document).json
    return made


def make(
    studio: Studio,
    recipe: dict[str, Any],
    *,
    lot: str | None = None,
    good: int | None = 9,
    spoiled: int = 1,
    worked: int | None = 45 * MINUTE,
) -> str:
    """A finished batch, later than the ones made before; good: None, nobody counted."""
    run, at = uuid4(), BEGUN + next(_turn) * 1000
    assert studio.put_run(run, make_run(recipe)).status_code == 201
    taken = [gathered(run, lot), weighed(run, 110_000)] if lot else []
    step = "soak.1.press"
    pieces = {"step": step, "good": good, "spoiled": spoiled}
    counted = [] if good is None else [make_entry(run, at=at, kind="counted", body=pieces)]
    hands = [] if worked is None else [make_entry(run, at=at + 1, kind="worked", body={"ms": worked})]
    end = make_entry(run, at=at + 2, kind="finished", body={})
    answers = studio.post(run, *taken, *counted, *hands, end).json["answers"]
    assert {each["result"] for each in answers} == {"kept"}, answers
    return run


def rows(studio: Studio, asked: str = "") -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = studio.get(f"/figures?page_size=100{asked}").json["batches"]
    return found


def as_record_and_cost_say(studio: Studio, run: str) -> dict[str, Any]:
    """A row of the table, put together from what other addresses say of the batch."""
    record, cost = studio.get(f"/runs/{run}/record").json, studio.get(f"/runs/{run}/cost").json
    made, hands = record["yield"], record["hands"]["ms"] or None
    good = None if made["good"] is None else made["good"] + made["kept"]
    counted = (good or 0) + (made["spoiled"] or 0)
    total = cost["totals"][cost["currency"]]
    return {
        "number": record["number"],
        "finished_at": record["finished_at"],
        "started_at": record["started_at"],
        "pieces_planned": made["planned"],
        "pieces_good": good,
        "pieces_kept": made["kept"],
        "pieces_spoiled": made["spoiled"],
        "yield_ppm": None if good is None else round(good * 10**6 / made["planned"]),
        "spoiled_ppm": round(made["spoiled"] * 10**6 / counted) if counted else None,
        "hands_ms": hands,
        "hands_ms_per_piece": round(hands / good) if hands and good else None,
        "deviations": len(record["deviations"]),
        "cost": {
            "currency": cost["currency"],
            "decimals": 2,
            "total": total["total"],
            "per_piece": total["per_piece"],
            "unpriced": len(cost["unpriced"]),
        },
    }


@pytest.mark.database("sqlite")
@pytest.mark.parametrize("asked", [{}, {"recipe": "r"}, {"recipe": "r", "version": 1}, {"finished_from": 0}])
def test_a_page_walks_an_index_and_sorts_no_more_than_its_own_rows(app: Any, asked: Any) -> None:
    """So the last page of five thousand batches costs little more than that of ten."""
    with app.app_context(), reading() as connection:
        where, named = figures._wanted(asked)
        query = batches.ROWS.format(where=where, page=figures.PAGE)
        plan = connection.execute(text("EXPLAIN QUERY PLAN " + query), {**named, "limit": 10, "offset": 4990})
        steps = [step.detail for step in plan]
    within = steps[steps.index(next(each for each in steps if each.startswith("LIST SUBQUERY"))) :]
    assert "COVERING INDEX ix_batch_figures" in within[1], steps
    assert sum("TEMP B-TREE" in each for each in steps) <= 1, steps


def test_a_row_is_what_record_and_cost_say_and_none_where_they_say_nothing(studio: Studio) -> None:
    recipe, lot = recipe_of(studio), with_lot(studio, price=PRICE)
    runs = [
        make(studio, recipe, lot=lot),
        make(studio, recipe, lot=lot, good=None),
        make(studio, recipe, lot=lot, worked=None, good=0, spoiled=0),
        make(studio, recipe, lot=lot, good=7, spoiled=3),
    ]
    studio.put_run(uuid4(), make_run(recipe))  # on the bench: not in the table
    bare = make(studio, recipe)

    told = {each["run"]: each for each in rows(studio)}

    assert list(told) == [bare, *runs[::-1]]
    for run in runs:
        said = as_record_and_cost_say(studio, run)
        assert {key: told[run][key] for key in said} == said
    uncounted, none_good, first = told[runs[1]], told[runs[2]], told[runs[0]]
    assert (uncounted["pieces_good"], uncounted["yield_ppm"], uncounted["spoiled_ppm"]) == (None, None, None)
    assert (none_good["yield_ppm"], none_good["hands_ms_per_piece"]) == (0, None)
    assert (first["hands_ms_per_piece"], first["spoiled_ppm"], first["yield_ppm"]) == (
        5 * MINUTE,
        10**5,
        75 * 10**4,
    )
    # 110 g of a kilogram at 9.00, over nine good pieces.
    assert (first["cost"]["total"], first["cost"]["per_piece"]) == ("0.99", "0.11")
    assert told[bare]["cost"] is None  # nothing of it has a price: that is not a cost of 0


def test_what_comes_to_a_finished_batch_and_new_prices_are_in_the_table_at_once(studio: Studio) -> None:
    recipe, lot = recipe_of(studio), with_lot(studio)
    run = make(studio, recipe, lot=lot)
    assert (rows(studio)[0]["hands_ms"], rows(studio)[0]["cost"]) == (45 * MINUTE, None)

    for kind, body in (("worked", {"ms": 90 * MINUTE}), ("skipped", {"step": "soak.1.stir"})):
        answer = studio.post(run, make_entry(run, at=LATER, kind=kind, body=body))
        assert answer.json["answers"][0]["result"] == "kept"
        last = rows(studio)[0]
        record = studio.get(f"/runs/{run}/record").json
        assert (last["hands_ms"], last["deviations"]) == (
            record["hands"]["ms"],
            len(record["deviations"]),
        ), kind
    mend = {"lot": lot, "price": PRICE}
    to_shelf(studio, make_entry("shelf", at=LATER, kind="mended", body=mend))
    assert rows(studio)[0]["cost"]["total"] == "0.99"
    ended = next(e for e in studio.get(f"/runs/{run}/entries").json["entries"] if e["kind"] == "finished")
    studio.post(run, make_entry(run, at=LATER + 1, kind="undone", body={"entry": ended["id"]}))
    assert rows(studio) == []


def test_a_cost_is_worked_out_once_until_the_shelf_or_the_settings_move(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    reckoned: list[object] = []
    real = bench.cost_of

    def counted(*asked: Any) -> bench.Cost:
        reckoned.append(asked)
        return real(*asked)

    monkeypatch.setattr(bench, "cost_of", counted)
    recipe = recipe_of(studio)
    for _ in range(3):
        make(studio, recipe, lot=with_lot(studio, mg=1_000_000, price=PRICE))
    first = [row["cost"] for row in rows(studio)]
    for address in ("/figures", "/figures/by-recipe"):
        assert studio.get(address).status_code == 200
    assert len(reckoned) == 3 and {each["total"] for each in first} == {"0.99"}, first

    there = studio.get("/settings")
    money = {**there.json["document"], "currency": "EUR", "overhead_cost": "1.00"}
    said = studio.client.put("/api/v1/settings", json=money, headers={"If-Match": there.headers["ETag"]})
    assert said.status_code == 201, said.json

    assert {each["cost"]["total"] for each in rows(studio)} == {"1.99"}
    assert len(reckoned) == 6


def test_other_currencies_are_never_added(studio: Studio) -> None:
    recipe, euros, lot = recipe_of(studio), with_lot(studio, price=PRICE), uuid4()
    to_shelf(studio, received(lot, price={"amount": "5000", "currency": "JPY"}))
    run = make(studio, recipe, lot=euros)
    studio.post(run, gathered(run, lot, at=30), weighed(run, 50_000, line=1, at=40))

    assert studio.get(f"/runs/{run}/cost").json["totals"].keys() == {"EUR", "JPY"}
    cost = rows(studio)[0]["cost"]
    assert (cost["currency"], cost["unpriced"]) == ("EUR", 1)
    assert cost["total"] == studio.get(f"/runs/{run}/cost").json["totals"]["EUR"]["total"]


def test_a_list_is_asked_by_recipe_version_time_and_page(studio: Studio) -> None:
    one, other = recipe_of(studio), recipe_of(studio, "Another")
    first = [make(studio, one) for _ in range(3)]
    changed = make_recipe(title="Salt soak") | {"summary": "Less salt."}
    studio.put_recipe(one["id"], changed, studio.tag(1))
    second = make(studio, studio.get(f"/recipes/{one['id']}").json, good=None)
    third = make(studio, other)
    every = [third, second, *first[::-1]]
    cut = rows(studio)[2]["finished_at"]

    def asked(query: str) -> list[str]:
        return [each["run"] for each in rows(studio, query)]

    assert asked("") == every
    assert asked(f"&recipe={one['id']}") == every[1:]
    assert asked(f"&recipe={one['id']}&version=2") == [second]
    assert asked(f"&finished_from={cut}") == every[:3] and asked(f"&finished_to={cut}") == every[3:]
    paged = [studio.get(f"/figures?page_size=2&page={page}").json for page in (1, 2, 3, 4)]
    assert [each["run"] for page in paged for each in page["batches"]] == every
    assert {(page["total"], page["pages"]) for page in paged} == {(5, 3)} and paged[3]["batches"] == []
    panels = [studio.get(f"/figures/by-recipe?page_size=1&page={page}").json for page in (1, 2)]
    told = [(each["title"], [b["run"] for b in each["batches"]]) for p in panels for each in p["recipes"]]
    assert told == [("Another", [third]), ("Salt soak", [*first, second])]
    assert studio.get("/figures?version=0").status_code == 422


def test_csv_and_parquet_hold_what_the_list_does(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> None:
    """Read back by Python's csv, pandas and pyarrow, over several parts of a file and of what the database gives."""
    monkeypatch.setattr(parquet, "ROWS_AT_ONCE", 2)
    monkeypatch.setattr(batches, "AT_ONCE", 2)
    recipe, lot = recipe_of(studio, '=2+2, "quoted"\nand on'), with_lot(studio, price=PRICE)
    for good in (9, None, 0, 8, 7):
        make(studio, recipe, lot=lot, good=good, worked=None if good == 8 else 7_000_001)
    items = rows(studio)

    sent = {kind: studio.get(f"/figures.{kind}") for kind in ("csv", "parquet")}

    for answer in sent.values():
        assert (answer.status_code, answer.headers["Cache-Control"]) == (200, "no-store")
        assert answer.content_length == len(answer.data)
    text = sent["csv"].data.decode("utf-8-sig")
    assert (
        text.count("\r\n") == text.count("\n") - 5
    )  # those within a title; else lines end as RFC 4180 has it
    listed = list(csv.DictReader(StringIO(text, newline="")))
    file = pyarrow.parquet.ParquetFile(BytesIO(sent["parquet"].data))
    assert file.num_row_groups == 3
    table = file.read().to_pylist()
    names = [each.name for each in figures.COLUMNS]
    assert list(listed[0]) == names == file.schema_arrow.names
    assert all(field.metadata[b"description"] for field in file.schema_arrow)
    assert len(listed) == len(table) == len(items) == 5
    for item, plain, typed in zip(items, listed, table, strict=True):
        assert typed == as_columns(item)
        for name, value in as_columns(item).items():
            written = f"'{value}" if name == "recipe" else "" if value is None else str(value)
            assert plain[name] == written, name
    read = pandas.read_csv(BytesIO(sent["csv"].data), dtype_backend="pyarrow")
    framed = pandas.read_parquet(BytesIO(sent["parquet"].data), dtype_backend="pyarrow")
    for name in ("good_pieces", "hands_ms_per_piece", "spoiled_ppm", "cost_units", "cost_units_per_piece"):
        assert read[name].equals(framed[name].astype(read[name].dtype)), name
    assert framed["good_pieces"].isna().sum() == 1


def as_columns(item: dict[str, Any]) -> dict[str, Any]:
    """The columns of a row as the list tells of it, by their documented names."""
    cost = item["cost"] or {
        "currency": None,
        "decimals": None,
        "total": None,
        "per_piece": None,
        "unpriced": None,
    }
    units = {
        key: None if cost[key] is None else int(Decimal(cost[key]) * 10 ** cost["decimals"])
        for key in ("total", "per_piece")
    }
    return {
        "batch_id": item["run"],
        "batch_number": item["number"],
        "recipe_id": item["recipe"],
        "recipe_version": item["version"],
        "recipe": item["title"],
        "started_utc": to_second(item["started_at"]),
        "finished_utc": to_second(item["finished_at"]),
        "release": item["release"],
        "planned_pieces": item["pieces_planned"],
        "good_pieces": item["pieces_good"],
        "kept_pieces": item["pieces_kept"],
        "spoiled_pieces": item["pieces_spoiled"],
        "yield_ppm": item["yield_ppm"],
        "spoiled_ppm": item["spoiled_ppm"],
        "lost_ppm": item["lost_ppm"],
        "hands_ms": item["hands_ms"],
        "hands_ms_per_piece": item["hands_ms_per_piece"],
        "deviations": item["deviations"],
        "currency": cost["currency"],
        "currency_decimals": cost["decimals"],
        "cost_units": units["total"],
        "cost_units_per_piece": units["per_piece"],
        "cost_unpriced": cost["unpriced"],
    }


def to_second(ms: int | None) -> str | None:
    return None if ms is None else datetime.fromtimestamp(ms // 1000, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


@pytest.mark.database("sqlite")
def test_with_no_batch_the_files_have_their_columns_and_without_pyarrow_there_is_a_way_out(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    empty = pyarrow.parquet.read_table(BytesIO(studio.get("/figures.parquet").data))
    assert (empty.num_rows, empty.num_columns) == (0, len(figures.COLUMNS))
    assert len(studio.get("/figures.csv").data.decode("utf-8-sig").splitlines()) == 1
    assert studio.get("/figures").json["parquet"] is True

    monkeypatch.setattr(figures, "can_write", lambda: False)
    refused = studio.get("/figures.parquet")
    assert refused.status_code == 501
    assert "bowlside[parquet]" in refused.json["detail"] and "/figures.csv" in refused.json["detail"]
    assert studio.get("/figures").json["parquet"] is False


def test_the_table_is_the_same_after_a_migration_and_out_of_an_export(
    studio: Studio, app: Any, new_app: Any
) -> None:
    other = Studio(new_app().test_client())
    recipe, lot = recipe_of(studio), with_lot(studio, price=PRICE)
    make(studio, recipe, lot=lot)
    make(studio, recipe, good=None)
    was = rows(studio)
    assert other.import_(studio.get("/export").json).json["refused"] == []
    with app.app_context():
        downgrade(revision="0014")
        upgrade()

    assert rows(studio) == was and rows(other) == was


def test_a_start_that_nobody_told_departs_in_the_table_of_a_studio_made_before_it_did(
    studio: Studio, app: Any
) -> None:
    document = make_recipe()
    document["before"] = ["cleaned"]
    run = uuid4()
    recipe = studio.put_recipe(uuid4(), document).json
    assert studio.put_run(run, make_run(recipe)).status_code == 201
    weighing = make_entry(run, at=BEGUN, kind="weighed", body={"line": "soak.1.line_0", "mg": 100_000})
    studio.post(run, weighing, make_entry(run, at=BEGUN + 1, kind="finished", body={}))
    departing = len(studio.get(f"/runs/{run}/record").json["deviations"])
    with app.app_context():
        downgrade(revision="0017")
        with writing() as connection:
            drawn = json.loads(connection.execute(text("SELECT figures FROM batch_figures")).scalar_one())
            former = json.dumps({**drawn, "deviations": departing - 1})
            connection.execute(text("UPDATE batch_figures SET figures = :former"), {"former": former})
        upgrade()

    assert [each["deviations"] for each in rows(studio)] == [departing]
