"""Sheets of the first format: opened, they are what this version makes of the same recipe, size and kit."""

from __future__ import annotations

import copy
import json
from hashlib import sha256
from typing import Any

import pytest
from workshop import make_kit, make_recipe, sheet_of, unlike

from bench import canonical, fold, make_sheet, open_sheet, reason_words, record, warning_words
from bench.sheet.former import _in_spoons
from bench.sheet.lines import in_spoons
from bench.sheet_words import note_of, spoons_words
from tests.former_sheets import FOLDER, FormerRun, former_runs

RUNS = former_runs()
SAID = json.loads((FOLDER / "said.json").read_text("utf-8"))


@pytest.fixture(params=RUNS, ids=[run.id[-6:] for run in RUNS])
def run(request: pytest.FixtureRequest) -> FormerRun:
    former: FormerRun = request.param
    return former


def in_words(sheet: Any) -> Any:
    """A sheet whose codes of a kind that the first format said in words are in words."""
    told = copy.deepcopy(sheet)
    for part in told["components"]:
        part["why"] = [reason_words(each) for each in part["why"]]
    told["warnings"] = [[each["where"], warning_words(each)] for each in told["warnings"]]
    return told


def test_opened_beside_its_recipe_it_is_the_sheet_that_is_made_today(run: FormerRun) -> None:
    made = make_sheet(run.measured, run.sheet["recipe"], run.sheet["size"], run.sheet["kit"])

    assert in_words(open_sheet(run.sheet, run.measured)) == in_words(made)


def test_opened_alone_it_lacks_only_what_its_recipe_says(run: FormerRun) -> None:
    kept = canonical(run.sheet)
    alone = open_sheet(run.sheet)

    assert unlike("sheet/Sheet", alone) == []
    assert alone["written_for"] is None
    assert open_sheet(alone, run.measured) == open_sheet(run.sheet, run.measured)
    assert open_sheet(alone) is alone
    assert canonical(run.sheet) == kept


def test_its_words_are_those_that_were_kept(run: FormerRun) -> None:
    for was, line in zip(run.sheet["lines"], open_sheet(run.sheet)["lines"], strict=True):
        assert (spoons_words(line["spoons"]), spoons_words(line["by_spoon"])) == (
            was["spoons"],
            was["by_spoon"],
        )
        assert note_of(line) == was["note"]


def test_its_journal_folds_to_the_state_that_was_kept(run: FormerRun) -> None:
    state = fold(open_sheet(run.sheet), run.entries)
    told = record(open_sheet(run.sheet), state, run.entries)

    said = SAID[run.id]
    assert {
        name: sha256(canonical(state[name]).encode()).hexdigest()[:16] for name in said["state_sha256"]
    } == (said["state_sha256"])
    assert [[line["line"], line["actual_mg"], line["status"]] for line in told["lines"]] == said["masses"]
    assert [[step["step"], step["status"], step["at"]] for step in told["steps"]] == said["steps"]


def test_spoons_are_read_as_they_were_said() -> None:
    drawer = make_recipe("1 tsp", measures="us")["spoons"]
    for nl in [*range(1, 40_000_000, 77_777), *(spoon["nl"] for spoon in drawer)]:
        spoons = in_spoons(drawer, nl)
        assert _in_spoons(spoons_words(spoons)) == spoons


def test_a_sheet_holds_no_word_of_ours() -> None:
    """Only codes, values, and what the recipe and the kit say: here, nothing with a space in it."""
    recipe = make_recipe(
        {"amount": "3 tsp"},
        {"amount": "2 drops"},
        {"amount": "90 kg"},
        steps=[
            {"id": "in", "kind": "weigh", "title": "In", "lines": ["l0", "l1", "l2"], "hazards": ["powder"]},
            {"id": "look", "kind": "check", "title": "Look", "ask": "Even", "not_yet": {"do": "Stir"}},
            {"id": "press", "kind": "pieces", "title": "Press"},
        ],
        title="Mix",
        part_piece="9 kg",
        part_mould={"shape": "bar", "held": True},
        ingredients={f"i{place}": {"name": f"I{place}"} for place in range(3)},
        measures="us",
    )
    kit = make_kit(
        vessels=[{"id": "bowl", "name": "Bowl", "kind": "bowl", "holds": "99 kg", "empty": "1 kg"}]
    )
    kit["scales"][0].update(name="Scale", capacity_mg=20_000_000)
    sheet = sheet_of(recipe, kit)

    assert sheet["warnings"] and any(part["why"] for part in sheet["components"])
    drawer = {spoon["name"] for spoon in recipe["spoons"]}
    assert [text for text in texts(sheet) if " " in text and text not in drawer] == []


def texts(value: Any) -> list[str]:
    if isinstance(value, str):
        return [value]
    values = value.values() if isinstance(value, dict) else value if isinstance(value, list) else []
    return [text for each in values for text in texts(each)]
