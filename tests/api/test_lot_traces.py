"""Lots: what runs took of them is kept in step with the journals, and traced."""

from __future__ import annotations

import shutil
from io import StringIO
from pathlib import Path
from typing import Any

import pandas
import pytest
from flask_migrate import downgrade, upgrade
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import text

import bench
from api import create_app, store
from api.settings import Settings
from api.spreadsheet import _cell
from api.store import reading
from tests.api.stock import EARLY, described, gathered, received, to_shelf, weighed, with_lot
from tests.api.studio import Studio
from tests.make import make_entry, make_run, uuid4
from tests.often import BOTH_DATABASES

pytestmark = BOTH_DATABASES


def used(studio: Studio, lot: str) -> dict[str, int]:
    return {run["id"]: run["mg"] for run in studio.get(f"/lots/{lot}/trace").json["runs"]}


def rows_of(app: Any) -> list[tuple[Any, ...]]:
    with app.app_context(), reading() as connection:
        said = "SELECT run_id, lot_id, mg, count, used_at FROM lot_use ORDER BY run_id, lot_id"
        return [tuple(row) for row in connection.execute(text(said))]


def test_a_lot_has_left_what_was_not_really_used(studio: Studio) -> None:
    lot, run = with_lot(studio, 600_000), studio.with_run()

    studio.post(run, gathered(run, lot, mg=600_000), weighed(run, 612_000))

    assert used(studio, lot) == {run: 612_000}
    assert studio.get(f"/lots/{lot}").json["left_mg"] == -12_000
    assert studio.get("/lots?open=true").json["total"] == 0
    assert studio.get("/lots?open=false").json["total"] == 1


def test_two_lots_are_drained_in_the_order_in_which_they_were_gathered(studio: Studio) -> None:
    one, other, run = with_lot(studio), with_lot(studio), studio.with_run()

    studio.post(run, gathered(run, one, mg=50_000), gathered(run, other, at=11), weighed(run, 120_000))

    assert (used(studio, one)[run], used(studio, other)[run]) == (50_000, 70_000)


def test_the_use_follows_undoing_taking_out_and_a_late_entry(studio: Studio) -> None:
    lot, run = with_lot(studio), studio.with_run()
    first = weighed(run, 100_000)
    seen = []
    for entry in (
        first,  # before the lot is known: the order of arrival does not matter
        gathered(run, lot),
        make_entry(run, at=EARLY + 30, kind="taken_out", body={"line": "soak.1.line_0", "mg": 1_000}),
        weighed(run, 3_000, line=1),
        make_entry(run, at=EARLY + 40, kind="undone", body={"entry": first["id"]}),
    ):
        studio.post(run, entry)
        seen.append(used(studio, lot).get(run))

    assert seen == [None, 100_000, 99_000, 102_000, 3_000]


def test_a_lot_that_was_not_taken_after_all_is_in_no_batch(studio: Studio, app: Any) -> None:
    lot, run = with_lot(studio), studio.with_run()
    taken = gathered(run, lot)
    studio.post(run, taken, weighed(run, 5_000))

    studio.post(run, make_entry(run, at=EARLY + 50, kind="undone", body={"entry": taken["id"]}))

    assert used(studio, lot) == {}
    assert rows_of(app) == []


def test_what_is_weighed_after_the_signing_uses_nothing(studio: Studio) -> None:
    lot, run = with_lot(studio), studio.with_run()
    studio.post(run, gathered(run, lot), weighed(run, 5_000))

    studio.post(run, make_entry(run, at=EARLY + 60, kind="signed", body={"name": "A. Maker"}))
    studio.post(run, weighed(run, 9_000, at=70))

    assert used(studio, lot) == {run: 5_000}


@settings(max_examples=12, deadline=None)
@given(order=st.permutations(range(7)), cuts=st.sets(st.integers(1, 6)))
def test_in_whatever_order_and_batches_entries_come_the_table_says_what_the_journal_says(
    order: list[int], cuts: set[int], empty_database: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    file = shutil.copy(empty_database, tmp_path_factory.mktemp("order") / "bowlside.sqlite3")
    app = create_app(Settings(database=file, clock_ms=lambda: 1_760_000_000_000))
    studio = Studio(app.test_client())
    run, one, other = studio.with_run(), uuid4(), uuid4()
    story = [
        gathered(run, one, mg=30_000),
        gathered(run, other, at=11),
        weighed(run, 70_000),
        weighed(run, 20_000, line=1, at=21),
        make_entry(run, at=EARLY + 25, kind="left", body={"line": "soak.1.line_1"}),
    ]
    story += [
        make_entry(run, at=EARLY + 30, kind="undone", body={"entry": story[3]["id"]}),
        make_entry(run, at=EARLY + 40, kind="signed", body={"name": "A. Maker"}),
    ]
    shuffled = [story[each] for each in order]
    bounds = [0, *sorted(cuts), len(story)]
    for start, end in zip(bounds, bounds[1:], strict=False):
        studio.post(run, *shuffled[start:end])

    told = studio.get(f"/runs/{run}").json
    sheet = told["sheet"]
    uses = bench.use_of(sheet, bench.fold(sheet, story, told["sealed"]), story)
    assert rows_of(app) == sorted((run, lot, use["mg"], use["count"], use["at"]) for lot, use in uses.items())
    store.close(app)


def test_a_correction_stands_for_all_that_was_used_before_it(studio: Studio) -> None:
    lot, run = with_lot(studio), studio.with_run()
    studio.post(run, gathered(run, lot), weighed(run, 100_000, at=20), weighed(run, 1_000, line=1, at=90))
    correction = make_entry("shelf", at=EARLY + 100, kind="corrected", body={"lot": lot, "mg": 850_000})
    to_shelf(studio, correction)
    assert studio.get(f"/lots/{lot}").json["left_mg"] == 850_000

    later = studio.with_run()
    studio.post(later, gathered(later, lot, at=110), weighed(later, 50_000, at=120))

    assert studio.get(f"/lots/{lot}").json["left_mg"] == 800_000


def test_what_is_counted_is_left_in_pieces(studio: Studio) -> None:
    lot, run = uuid4(), studio.with_run()
    bands = received(lot, ingredient="wrap-1", count=40)
    del bands["body"]["mg"]
    to_shelf(studio, described("Paper bands", "wrap-1"), bands)
    wrap = {"ingredient": "wrap", "lot": lot, "count": 12}

    studio.post(run, make_entry(run, at=EARLY + 5, kind="gathered", body=wrap))

    told = studio.get(f"/lots/{lot}").json
    assert (told["left_mg"], told["left_count"]) == (None, 28)


def test_the_lots_of_an_ingredient_come_by_when_they_go_off(studio: Studio) -> None:
    undated, late, soon = (uuid4() for _ in range(3))
    to_shelf(
        studio,
        described(),
        received(undated),
        received(late, best_before="2027-01-31"),
        received(soon, best_before="2026-02-01"),
        received(uuid4(), ingredient="other"),
    )

    page = studio.get("/lots?ingredient=salt-1&page_size=2").json

    assert ([each["id"] for each in page["lots"]], page["total"]) == ([soon, late], 3)
    assert studio.get("/lots?ingredient=salt-1&page=2&page_size=2").json["lots"][0]["id"] == undated


def test_a_trace_names_every_batch_and_a_batch_every_lot(studio: Studio) -> None:
    lot = with_lot(studio)
    recipe = studio.with_recipe()
    runs = [uuid4() for _ in range(3)]
    for number, run in enumerate(runs):
        studio.put_run(run, make_run(recipe))
        numbered = make_entry(run, at=EARLY, kind="numbered", body={"number": f"A{number}"})
        studio.post(run, numbered, gathered(run, lot), weighed(run, 1_000 + number))

    traced = studio.get(f"/lots/{lot}/trace").json["runs"]

    assert {each["id"]: (each["number"], each["mg"]) for each in traced} == {
        run: (f"A{number}", 1_000 + number) for number, run in enumerate(runs)
    }
    assert [each["lot"] for each in studio.get(f"/runs/{runs[0]}/record").json["lots"]] == [lot]


def test_a_lot_that_only_a_run_knows_is_traced_and_one_that_nobody_knows_is_404(studio: Studio) -> None:
    lot, run = uuid4(), studio.with_run()
    studio.post(run, gathered(run, lot))

    assert used(studio, lot) == {run: 0}
    assert studio.get(f"/lots/{lot}/recall.csv").status_code == 200
    for path in ("", "/trace", "/recall.csv"):
        assert studio.get(f"/lots/{uuid4()}{path}").status_code == 404


@pytest.mark.database("sqlite")
def test_a_recall_list_opens_as_a_spreadsheet_with_its_types(studio: Studio) -> None:
    lot = uuid4()
    to_shelf(studio, described("Sea salt, fine"), received(lot, supplier="=HYPERLINK(1)", number="0047"))
    run = uuid4()
    studio.put_run(run, make_run(studio.with_recipe(title="Soak; “blue”,\nstill")))
    numbered = make_entry(run, at=EARLY, kind="numbered", body={"number": "26E5"})
    studio.post(run, numbered, gathered(run, lot), weighed(run, 120_000))

    answer = studio.get(f"/lots/{lot}/recall.csv")
    table = pandas.read_csv(StringIO(answer.data.decode("utf-8-sig")), parse_dates=["begun", "finished"])

    assert answer.mimetype == "text/csv"
    assert 'attachment; filename="recall.csv"' in answer.headers["Content-Disposition"]
    [row] = table.to_dict("records")
    assert (row["used_mg"], row["pieces_planned"]) == (120_000, 12)
    assert table["used_mg"].dtype.kind == "i" and table["begun"].dtype.kind == "M"
    assert (row["batch"], row["lot_number"], row["supplier"]) == ("'26E5", "'0047", "'=HYPERLINK(1)")
    assert row["product"] == "Soak; “blue”,\nstill"


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1+2", "@SUM(A1)", "\t1", " =1", "＝1", "\r1"])
def test_no_cell_is_a_formula(text: str) -> None:
    assert _cell(text) == f"'{text}"


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("a;=cmd", "a;'=cmd"),
        ("a; =cmd|' /C calc'!A0", "a; '=cmd|' /C calc'!A0"),
        ("a|=1", "a|'=1"),
        ("a\t=1", "a\t'=1"),
        ("\t=1", "'\t'=1"),
        ("a\n=1;@x", "a\n'=1;'@x"),
        ("a;b", "a;b"),
        ("a, =b", "a, =b"),
    ],
)
def test_nor_is_what_follows_a_mark_at_which_cells_are_parted_elsewhere(text: str, written: str) -> None:
    assert _cell(text) == written


@pytest.mark.parametrize("text", ["007", "1E5", "3-4", "12/11/26", "1234567890123456", "1.50"])
def test_no_text_of_figures_is_taken_for_another(text: str) -> None:
    assert _cell(text) == f"'{text}"


@pytest.mark.parametrize("cell", ["M2607", "261125-A7", "261125", "Salz, fein", -5, None, "2025-10-09"])
def test_what_nobody_would_misread_stays_as_it_is(cell: Any) -> None:
    assert _cell(cell) == cell


def test_what_phones_told_before_the_tables_were_there_is_in_them_afterwards(
    studio: Studio, app: Any
) -> None:
    lot, run = with_lot(studio), studio.with_run()
    picture = {"picture": uuid4(), "sha256": "ab" * 32}
    studio.post(
        run,
        make_entry(run, at=EARLY, kind="numbered", body={"number": "A1"}),
        gathered(run, lot),
        weighed(run, 7_000),
        make_entry(run, at=EARLY + 99, kind="pictured", body=picture),
    )
    before = rows_of(app)

    with app.app_context():
        downgrade(revision="0002")
        upgrade()

    assert rows_of(app) == before != []
    assert studio.get(f"/runs/{run}").json["number"] == "A1"
    with app.app_context(), reading() as connection:
        kept = connection.execute(text("SELECT id, run_id, sha256, content FROM picture")).all()
    assert [tuple(each) for each in kept] == [(picture["picture"], run, picture["sha256"], None)]
