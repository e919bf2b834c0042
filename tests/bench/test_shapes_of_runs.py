"""Every entry, state and "now" of the demo recipes, of the kept vectors and of the demo's runs is of its shape."""

from __future__ import annotations

import json
from typing import get_args

import pytest
from workshop import DEMO, DEMO_RECIPES, MORNING, Json, Maker, demo_sheet, unlike

from bench.kinds import RUN_KINDS, SHELF_KINDS
from bench.shapes.entries import BuyingEntry, PiecesEntry, RunEntry, RunKind, ShelfEntry, ShelfKind

RUNS = sorted(path.name for path in (DEMO / "runs").glob("*.json"))


@pytest.mark.parametrize("name", DEMO_RECIPES)
def test_states_and_prompts_of_a_whole_making_are_of_their_shape(name: str) -> None:
    maker = Maker(demo_sheet(name))
    seen: dict[str, Json] = {}
    while not maker.state["finished_at"]:
        for prompt in maker.sees["prompts"]:
            seen.setdefault(prompt["kind"], maker.sees)
        maker.strong()

    assert unlike("state/State", maker.state) == []
    assert {fault for sees in seen.values() for fault in unlike("prompts/Now", sees)} == set()
    assert {fault for each in maker.entries for fault in unlike("entries/RunEntry", each)} == set()


@pytest.mark.parametrize("name", RUNS)
def test_the_runs_of_the_demo_are_of_their_shape(name: str) -> None:
    run = json.loads((DEMO / "runs" / name).read_text(encoding="utf-8"))
    entries = [_envelope(each) for each in run["entries"]]

    assert [fault for each in entries for fault in unlike("entries/RunEntry", each)] == []


def _envelope(written: Json) -> Json:
    """A demo's entry says how long ago it was; the run that is made of it says when."""
    return {key: value for key, value in written.items() if key != "before_ms"} | {"at": MORNING}


def test_the_kinds_of_entry_are_those_that_the_shapes_tell_apart() -> None:
    for kinds, entries, table in (
        (RunKind, RunEntry, RUN_KINDS),
        (ShelfKind, ShelfEntry | BuyingEntry | PiecesEntry, SHELF_KINDS),
    ):
        told_apart = [get_args(each.__annotations__["kind"])[0] for each in get_args(entries)]

        assert list(get_args(kinds)) == list(table)
        assert sorted(told_apart) == sorted(table)
