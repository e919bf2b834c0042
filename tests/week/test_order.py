"""The order of work: promises against every way there is, and that nothing is counted twice or lost."""

from __future__ import annotations

from itertools import product
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from bench.week.order import begun_for, order_lines, promised, to_make

Json = dict[str, Any]


def line(key: str, recipe: str, pieces: int, by: int) -> Json:
    told = {"id": key, "recipe": recipe, "pieces": pieces, "by": by}
    return {**told, "version": 1, "outlet": None, "note": "", "state": "open"}


def batch(run: str, recipe: str, pieces: int, until: int | None) -> Json:
    return {"run": run, "recipe": recipe, "pieces": pieces, "until": until}


@st.composite
def orders(draw: st.DrawFn, most: int = 4, pieces: int = 3) -> tuple[list[Json], list[Json]]:
    lines = [
        line(
            f"line-{place}",
            draw(st.sampled_from("ab")),
            draw(st.integers(1, pieces)),
            draw(st.integers(0, 4)),
        )
        for place in range(draw(st.integers(0, most)))
    ]
    until = st.none() | st.integers(0, 4)
    stock = [
        batch(f"run-{place}", draw(st.sampled_from("ab")), draw(st.integers(-1, pieces)), draw(until))
        for place in range(draw(st.integers(0, 3)))
    ]
    return lines, stock


def most_served(lines: list[Json], stock: list[Json]) -> int:
    """By trying, piece by piece, every line that each could go to."""
    pieces = [each for each in stock for _ in range(max(0, each["pieces"]))][:6]
    fits = [
        [
            None,
            *(
                each["id"]
                for each in lines
                if each["recipe"] == piece["recipe"]
                and (piece["until"] is None or each["by"] <= piece["until"])
            ),
        ]
        for piece in pieces
    ]
    wanted = {each["id"]: each["pieces"] for each in lines}
    return max(
        (
            sum(way.count(key) for key in wanted)
            for way in product(*fits)
            if all(way.count(key) <= many for key, many in wanted.items())
        ),
        default=0,
    )


@given(orders())
def test_finished_pieces_serve_as_many_as_any_way_there_is(told: tuple[list[Json], list[Json]]) -> None:
    lines, stock = told
    kept = 0
    for each in stock:  # six pieces, so that every way can be tried
        each["pieces"] = min(each["pieces"], max(0, 6 - kept))
        kept += max(0, each["pieces"])

    found = promised(lines, stock)

    assert sum(some for runs in found.values() for some in runs.values()) == most_served(lines, stock)


@given(orders(most=8, pieces=40))
def test_a_piece_is_promised_once_and_to_nobody_who_comes_too_late(
    told: tuple[list[Json], list[Json]],
) -> None:
    lines, stock = told
    found = promised(lines, stock)

    for each in stock:
        assert sum(runs.get(each["run"], 0) for runs in found.values()) <= max(0, each["pieces"])
    by_key = {each["id"]: each for each in lines}
    by_run = {each["run"]: each for each in stock}
    for key, runs in found.items():
        assert sum(runs.values()) <= by_key[key]["pieces"]
        for run, some in runs.items():
            until = by_run[run]["until"]
            assert some > 0 and by_run[run]["recipe"] == by_key[key]["recipe"]
            assert until is None or by_key[key]["by"] <= until


@given(orders(most=8, pieces=40), st.integers(-1, 4), st.integers(0, 5), st.integers(1, 3), st.data())
def test_every_line_is_past_or_later_or_served_or_short_to_the_piece(
    told: tuple[list[Json], list[Json]], at: int, last: int, most: int, data: st.DataObject
) -> None:
    lines, stock = told
    promises = promised(lines, stock)
    made = to_make(lines, promises, at, last, most, 2)
    shares = {each["id"]: data.draw(st.integers(0, each["pieces"])) for each in made.wants}
    coming = {key: data.draw(st.integers(0, many)) for key, many in shares.items()}
    gives = {key: many - coming[key] for key, many in shares.items()}
    plan: Any = {"from_there": coming, "batches": [{"gives": gives}]}

    rows = {each["want"]: each for each in order_lines(promises, made, plan)}

    assert len(made.wants) <= most
    for each in lines:
        row = rows.get(each["id"], {"there": 0, "coming": 0, "made": 0, "short": 0})
        sums = row["there"] + row["coming"] + row["made"] + row["short"]
        aside = each["id"] in made.past or each["id"] in made.later
        assert sums == each["pieces"] or (aside and sums == row["there"])
        assert (each["id"] in made.past) == (each["by"] <= at)
    for want in made.wants:
        assert at < want["by"] <= last
        mine = [rows[key] for key, _ in made.lines[want["id"]]]
        assert sum(row["coming"] + row["made"] for row in mine) == shares[want["id"]]


def test_a_thousand_and_one_customers_of_one_morning_are_one_want() -> None:
    lines = [line(f"line-{place:04}", "a", 1, 9) for place in range(1_001)]
    made = to_make(lines, promised(lines, [batch("run", "a", 1, None)]), 0, 10, 40, 12)

    assert [each["pieces"] for each in made.wants] == [1_000]
    assert made.later == made.past == []


def test_what_is_later_than_a_want_that_has_no_place_has_none_either() -> None:
    """A later want is not planned before a sooner one: it would take its hands."""
    lines = [line("one", "a", 1, 1), line("two", "b", 1, 2), line("three", "a", 1, 3)]

    made = to_make(lines, {}, 0, 10, 40, 1)

    assert [each["id"] for each in made.wants] == ["0"] and made.later == ["two", "three"]


def test_a_run_is_the_first_planned_batch_of_its_recipe_and_no_second_one() -> None:
    plan: Any = [{"make": "a"}, {"make": "b"}, {"make": "a"}]
    runs: Any = [
        {"run": key, "recipe": recipe, "begun_at": at, "finished_at": None, "good": None}
        for key, recipe, at in [("third", "a", 9), ("first", "a", 1), ("other", "c", 2), ("more", "a", 10)]
    ]

    assert [(each["run"], each["batch"]) for each in begun_for(plan, runs)] == [("first", 0), ("third", 2)]
