"""What is in a bowl, what it comes to and what it makes up of the whole, by sums of our own."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import MORNING, Maker, demo_sheet, make_kit, make_recipe, sheet_of

from bench.capacity import carried, shares, too_full, weighed_lines
from bench.cost import cost
from bench.dryness import dryness_of
from bench.errors import SettingError
from bench.journal import carry_up, left_of_mix, portion_targets
from bench.record import record
from bench.shelf import fold_shelf
from bench.weighing import carry_factor
from bench.whole import PPM, span

PAIRS = st.lists(st.tuples(st.integers(1, 10**6), st.integers(1, 10**6)), max_size=6)
HOUR = 3_600_000
SHEET = demo_sheet()


def two_lines() -> Maker:
    """100 g and 50 g into one bowl on a kitchen scale that shows whole grams."""
    return Maker(sheet_of(make_recipe("100 g", "50 g", part_piece="15 g")))


def lines_of(maker: Maker) -> list[Any]:
    return weighed_lines(maker.sheet, maker.state, "mix", 1)


@given(PAIRS)
def test_all_is_carried_up_to_match_what_is_most_above_its_target(pairs: list[tuple[int, int]]) -> None:
    top, bottom = carry_factor(pairs)

    assert Fraction(top, bottom) == max((Fraction(*pair) for pair in pairs), default=Fraction(1))
    assert (top, bottom) in pairs or (top, bottom) == (1, 1)


def test_of_two_as_far_above_the_first_is_named() -> None:
    assert carry_factor([(6, 5), (12, 10)]) == (6, 5)


def test_only_what_is_in_is_matched_and_of_its_own_round() -> None:
    maker = two_lines()
    assert carry_up(maker.sheet, maker.state, "mix", 1) == (1, 1)

    maker.tell("weighed", line="mix.1.l0", mg=90_000)

    assert carry_up(maker.sheet, maker.state, "mix", 1) == (90_000, 100_000)
    assert (
        carry_up(maker.sheet, maker.state, "mix", 2) == carry_up(maker.sheet, maker.state, "top", 1) == (1, 1)
    )


# 100 g is in the bowl 2 g off at most (2 %, more than half a gram); 6/5 of it 2.4 g.
@pytest.mark.parametrize(
    ("poured", "kept", "ends", "over"),
    [
        (120_000, [], [120_000, 60_000], []),
        (122_400, [], [120_000, 60_000], []),
        (122_401, [], [122_401, 60_000], ["mix.1.l0"]),
        (122_401, ["mix.1.l0"], [122_401, 60_000], []),
        (50_000, ["mix.1.l0"], [50_000, 60_000], []),
    ],
)
def test_a_round_made_larger_says_what_each_line_comes_to_and_what_is_too_much(
    poured: int, kept: list[str], ends: list[int], over: list[str]
) -> None:
    maker = two_lines()
    maker.tell("weighed", line="mix.1.l0", mg=poured)

    told = carried(maker.sheet, lines_of(maker), 6, 5, kept)

    assert told == (dict(zip(["mix.1.l0", "mix.1.l1"], ends, strict=True)), over)


def test_a_line_left_out_stays_out_of_a_larger_round() -> None:
    maker = two_lines()
    maker.tell("left_out", line="mix.1.l1")

    assert carried(maker.sheet, lines_of(maker), 6, 5, []) == ({"mix.1.l0": 120_000, "mix.1.l1": 0}, [])


def test_what_was_let_pass_is_judged_anew_by_new_targets_but_for_what_stays() -> None:
    maker = two_lines()
    for line, mg in (("mix.1.l0", 110_000), ("mix.1.l1", 60_000)):
        maker.tell("weighed", line=line, mg=mg)
        maker.tell("left", line=line)
    assert [line["status"] for line in maker.state["lines"].values()] == ["left", "left"]

    maker.tell("carried", component="mix", round=1, num=2, den=1, left=["mix.1.l1"])

    assert [line["status"] for line in maker.state["lines"].values()] == ["short", "left"]
    maker.tell("carried", component="mix", round=9, num=2, den=1)
    maker.tell("carried", component="mix", round=1, num=1001, den=1)
    assert maker.state["unread"] == [each["id"] for each in maker.entries[-2:]]
    assert maker.state["factors"] == {"mix.1": [2, 1]}


@given(st.data())
def test_a_share_is_of_its_part_and_by_what_each_part_gives_to_a_piece(data: st.DataObject) -> None:
    maker = Maker(SHEET)
    lines = [line for line in SHEET["lines"] if line["mg"]]
    ends = {line["id"]: data.draw(st.sampled_from([0, line["mg"], 3 * line["mg"]])) for line in lines}
    ingredient = data.draw(st.sampled_from(sorted({line["ingredient"] for line in lines})))

    def share(part: str) -> int:
        of_part = [line for line in lines if line["component"] == part]
        whole = sum(ends[line["id"]] for line in of_part)
        mine = sum(ends[line["id"]] for line in of_part if line["ingredient"] == ingredient)
        return round(Fraction(mine * PPM, whole)) if whole else 0

    parts = {part["id"]: part["takes"] * part["piece_mg"] for part in SHEET["components"]}
    of_piece = round(Fraction(sum(share(part) * mg for part, mg in parts.items()), sum(parts.values())))

    for part in parts:
        assert shares(SHEET, maker.state, ends, ingredient, part) == (share(part), of_piece)


BOWLS = make_kit(
    ("5 kg", "1 g"),
    ("20 kg", "5 g"),
    vessels=[
        {"id": key, "name": key.title(), "kind": kind, "empty": empty, "holds": holds}
        for key, kind, empty, holds in (
            ("small", "bowl", "200 g", "1 kg"),
            ("deep", "bowl", "1 kg", "4.5 kg"),
            ("wide", "bowl", "300 g", "3 kg"),
            ("jug", "jug", "100 g", "2 kg"),
        )
    ],
)


@pytest.mark.parametrize(
    ("mg", "words", "fits"),
    [
        (1_000_000, None, None),
        (1_001_000, ["Small", "Wide"], True),  # a jug is no bowl, and of two bowls the smaller will do
        (3_001_000, ["Small", "Deep"], True),
        (4_200_000, ["Small", "Deep"], True),
        (4_501_000, ["Small"], False),
    ],
)
def test_what_a_bowl_does_not_take_goes_into_the_next_that_some_scale_carries(
    mg: int, words: list[str] | None, fits: bool | None
) -> None:
    maker = Maker(sheet_of(make_recipe("500 g"), BOWLS))

    found = too_full(maker.sheet, maker.state, {"mix.1.bowl": mg})

    assert (found and found.fits_another) == fits
    for name in ("Small", "Deep", "Wide", "Jug", "Scale 1"):
        assert (name in (found.says if found else "")) == (name in (words or []))


def test_a_vessel_that_is_moved_or_changed_counts_anew_from_what_is_in_it() -> None:
    maker = Maker(sheet_of(make_recipe("500 g"), BOWLS))
    maker.tell("weighed", line="mix.1.l0", mg=300_000)

    maker.tell("placed", vessel="mix.1.bowl", scale="s0")
    bowl = maker.state["vessels"]["mix.1.bowl"]
    assert (bowl["scale"], bowl["zero_mg"], bowl["in_mg"]) == ("s0", 300_000, 300_000)
    maker.tell("weighed", line="mix.1.l0", mg=100_000)
    maker.tell("took", vessel="mix.1.bowl", instead="deep")
    bowl = maker.state["vessels"]["mix.1.bowl"]
    assert (bowl["name"], bowl["holds_mg"], bowl["zero_mg"]) == ("Deep", 4_500_000, 400_000)

    maker.tell("placed", vessel="mix.1.bowl", scale="none")
    maker.tell("took", vessel="mix.1.bowl", instead="none")
    assert maker.state["unread"] == [each["id"] for each in maker.entries[-2:]]
    assert maker.state["vessels"]["mix.1.bowl"] == bowl


def test_one_lines_cup_goes_to_another_scale_and_the_bowl_stays() -> None:
    maker = Maker(sheet_of(make_recipe("100 g", "50 g"), BOWLS))
    maker.tell("placed", vessel="mix.1.bowl", scale="s1", line="mix.1.l1")

    lines = maker.state["lines"]
    assert [lines[key]["scale"] for key in ("mix.1.l0", "mix.1.l1")] == ["s0", "s1"]
    assert maker.state["vessels"]["mix.1.bowl"]["scale"] == "s0"


STEP = {"component": "mix", "round": 1, "of": [], "piece_mg": 10_000}
HELD = {"mix": 100_000, "half": 30_000, "other": 7_000}
VESSELS = {
    "vessels": [
        {"id": "mix", "component": "mix", "round": 1},
        {"id": "half", "component": "mix", "round": 1},
        {"id": "other", "component": "mix", "round": 2},
    ]
}


@pytest.mark.parametrize(
    ("of", "count", "left"),
    [
        ([], None, 130_000),
        ([], {"good": 3, "spoiled": 1, "partial": 1}, 80_000),
        (["half"], {"good": 2, "spoiled": 0, "partial": 0}, 10_000),
        (["half", "other"], {"good": 3, "spoiled": 0, "partial": 0}, 7_000),
        (["half"], {"good": 4, "spoiled": 0, "partial": 0}, 0),  # never below nought
    ],
)
def test_what_is_left_of_a_mix_is_what_went_in_less_every_piece(of: Any, count: Any, left: int) -> None:
    step: Any = {**STEP, "of": of}
    sheet: Any = VESSELS

    assert left_of_mix(step, HELD, count, sheet) == left


@pytest.mark.parametrize(
    ("status", "held", "out", "targets"),
    [
        ("open", 90_000, {}, [30_000, 60_000]),
        ("begun", 60_000, {"a": 33_000}, [31_000, 62_000]),  # by all that there is, in the bowl and out of it
        ("done", 57_000, {"a": 33_000}, [11_000, 22_000]),  # by what was portioned
    ],
)
def test_portions_are_shares_of_what_really_is_there(
    status: str, held: int, out: dict[str, int], targets: list[int]
) -> None:
    step: Any = {
        "id": "split",
        "vessel": "bowl",
        "portions": [{"vessel": "a", "share": 1}, {"vessel": "b", "share": 2}],
    }
    state: Any = {
        "vessels": {"bowl": {"in_mg": held}},
        "steps": {"split": {"status": status}},
        "portions": out,
    }

    assert portion_targets(step, state) == targets


def weighing(
    at: int, mg: int, piece: int | None = 1, what: str = "piece", step: str = "dry"
) -> dict[str, Any]:
    return {"at": at, "mg": mg, "piece": piece, "what": what, "step": step, "scale": "fine"}


def test_a_piece_is_held_against_its_last_weighing_an_hour_before_and_against_no_others() -> None:
    sheet: Any = {"kit": {"scales": [{"id": "fine", "division_mg": 10, "capacity_mg": 200_000}]}}
    measured = [
        weighing(MORNING, 100_000),
        weighing(MORNING, 50_000, piece=2),
        weighing(MORNING + 1, 7_000, what="left"),
        weighing(MORNING + 2, 8_000, step="set"),
        weighing(MORNING + 3, 9_000, piece=None),
        weighing(MORNING + HOUR, 99_000),
        weighing(MORNING + 2 * HOUR - 1, 98_500),
        weighing(MORNING + 2 * HOUR, 98_000),
    ]
    state: Any = {"measured": measured, "air": []}

    [test] = dryness_of(sheet, state, "dry", 20_000)

    assert (test["piece"], test["change_mg"], test["change_ppm"]) == (1, -1_000, -10_101)
    assert (test["constant"], test["own"]) == ("not_yet", "dry")
    state["measured"] = measured[-2:]  # none is an hour older: the one before it
    [test] = dryness_of(sheet, state, "dry")
    assert (test["change_mg"], test["constant"], test["own"]) == (-500, "too_soon", None)


@pytest.mark.parametrize(
    ("ms", "words"),
    [
        (0, "0 s"),
        (499, "0 s"),
        (59_500, "1 min"),
        (3_599_000, "59 min 59 s"),
        (3_600_000, "1 h"),
        (86_399_000, "23 h 59 min"),
        (86_400_000, "1 day"),
        (176_461_000, "2 days 1 h"),
    ],
)
def test_a_span_is_said_in_its_two_largest_units(ms: int, words: str) -> None:
    assert span(ms) == words


@pytest.mark.parametrize("field", ["hourly_rate", "wrap_cost"])
def test_a_setting_that_is_no_amount_is_named(field: str) -> None:
    maker = two_lines()
    settings: Any = {"currency": "EUR", field: "a lot"}

    with pytest.raises(SettingError) as refused:
        cost(record(maker.sheet, maker.state, []), maker.sheet, fold_shelf([]), settings, {})
    assert refused.value.where == field
