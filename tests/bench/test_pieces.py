"""Finished pieces: none is lost and none counted twice, whatever is told of them; what leaves first."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pieces_history import OUTLETS, RUNS, history
from workshop import MINUTE, MORNING, Maker, entry, make_recipe, sheet_of

from bench import (
    EntryError,
    at_outlet,
    best_before,
    canonical,
    check_shelf_entry,
    fold_pieces,
    fold_shelf,
    nothing_told,
    pieces_made,
    record,
    stand,
)

RUN = RUNS[0]
HISTORIES = st.integers(0, 2**40).map(Random)


@given(HISTORIES, st.integers(0, 200), st.integers(0, 9), st.integers(0, 200))
@settings(max_examples=300)
def test_pieces_made_are_in_stock_left_kept_or_binned_and_each_once(rng, good, kept, counted_later):
    came, moved = history(rng)
    told = fold_pieces(came)
    for run in RUNS:
        there, was = told.get(run, nothing_told()), moved[run]
        for made in (good, counted_later):  # a count that is put right moves no piece that was told of
            now = stand({"good": made, "kept": min(kept, made)}, there)

            assert now["made"] == now["in_stock"] + now["left"] + now["kept"] + now["binned"] == made
            assert now["in_stock"] == made - min(kept, made) + was["stock"]
            assert now["binned"] == was["bin"]
            assert now["kept"] == min(kept, made) + was["kept"]
            at_outlets = {each["outlet"]: at_outlet(each) for each in there["outlets"]}
            assert now["left"] == sum(at_outlets.values()) + was["lot"]
            assert all(at_outlets.get(outlet, 0) == was["out" + (outlet or "")] for outlet in OUTLETS)


@given(HISTORIES)
@settings(max_examples=100)
def test_what_is_told_is_the_same_in_any_order_and_no_part_of_the_shelf(rng):
    came, _ = history(rng)
    told = canonical(fold_pieces(came))
    rng.shuffle(came)

    assert canonical(fold_pieces(came)) == told
    assert fold_shelf([each for each in came if each["kind"] != "undone"]) == fold_shelf([])


JUNK = st.recursive(
    st.none() | st.integers() | st.text(max_size=4), lambda inner: st.lists(inner, max_size=2), max_leaves=3
)


@given(st.lists(JUNK | HISTORIES.map(lambda rng: history(rng)[0]), max_size=4))
@settings(max_examples=50)
def test_nothing_makes_it_raise(given):
    entries = [each for some in given for each in (some if isinstance(some, list) else [some])]

    assert canonical(fold_pieces(entries))


def made(*counts: tuple[int, int], finished: bool = True, **later: int):
    """A batch of ten whose pieces were counted, and its record."""
    maker = Maker(sheet_of(make_recipe("100 g")))
    press = next(step["id"] for step in maker.sheet["steps"] if step["kind"] == "pieces")
    for good, spoiled in counts:
        maker.tell("counted", step=press, good=good, spoiled=spoiled)
    for kind, pieces in later.items():
        maker.tell(kind, pieces=pieces)
    if finished:
        maker.tell("finished")
    return maker


def test_good_pieces_are_made_once_spoiled_ones_never_and_kept_ones_are_kept():
    maker = made((7, 2), (1, 0), kept=2)
    yielded = record(maker.sheet, maker.state, maker.entries)["yield"]

    assert pieces_made(maker.sheet, maker.state) == {"good": 8, "kept": 2}
    assert yielded["good"] + yielded["kept"] == 8 and yielded["spoiled"] == 2
    assert pieces_made(maker.sheet, made((7, 2), finished=False).state) is None
    assert pieces_made(maker.sheet, made().state) is None  # nobody counted
    assert pieces_made(maker.sheet, made((3, 0), kept=9).state) == {"good": 3, "kept": 3}


def test_a_sample_of_the_record_and_one_put_aside_later_are_two():
    told = fold_pieces([entry("sampled", run=RUN, pieces=1)])[RUN]

    assert stand({"good": 10, "kept": 2}, told) == {
        "made": 10,
        "in_stock": 7,
        "left": 0,
        "kept": 3,
        "binned": 0,
    }


def test_more_sold_than_made_is_said_and_not_hidden():
    told = fold_pieces([entry("sold", run=RUN, pieces=12)])[RUN]

    assert stand({"good": 10, "kept": 0}, told)["in_stock"] == -2


def test_the_last_place_holds_and_a_complaint_moves_no_piece():
    entries = [
        entry("stood", MORNING, run=RUN, place="Shelf 2"),
        entry("complained", MORNING, run=RUN, sort="reaction", text="Itching.", pieces=1, outlet=OUTLETS[0]),
        entry("stood", MORNING + MINUTE, "stall", run=RUN, place="Market box"),
    ]
    told = fold_pieces(entries)[RUN]

    assert told["place"] == "Market box"
    assert [each["text"] for each in told["complaints"]] == ["Itching."]
    assert stand({"good": 3, "kept": 0}, told)["in_stock"] == 3


@pytest.mark.parametrize(
    ("kind", "body", "field"),
    [
        ("sold", {"run": RUN, "pieces": -1}, "body.pieces"),
        ("sold", {"run": RUN}, "body.pieces"),
        ("sold", {"run": "R", "pieces": 1}, "body.run"),
        ("given", {"run": RUN, "pieces": 1, "outlet": "The corner shop"}, "body.outlet"),
        ("returned", {"run": RUN, "pieces": 1, "name": "Somebody"}, "body.name"),  # no place for a name
        ("binned", {"run": RUN, "pieces": 1}, "body.why"),
        ("complained", {"run": RUN, "sort": "praise", "text": "Lovely."}, "body.sort"),
    ],
)
def test_what_is_wrong_with_an_entry_is_said_by_its_field(kind, body, field):
    with pytest.raises(EntryError) as refused:
        check_shelf_entry(entry(kind, **body))

    assert refused.value.where == field


@given(st.dates(date(2020, 1, 1), date(2090, 1, 1)), st.integers(1, 120))
def test_a_month_after_is_the_same_day_or_the_last_of_its_month(day, months):
    # The calendar's own months, walked one at a time from the first of the month.
    first = day.replace(day=1)
    for _ in range(months):
        first = (first + timedelta(days=31)).replace(day=1)
    last = calendar.monthrange(first.year, first.month)[1]

    assert best_before(day.isoformat(), months, []) == first.replace(day=min(day.day, last)).isoformat()


@pytest.mark.parametrize(
    ("months", "lots", "day"),
    [
        (12, [], "2027-11-30"),
        (12, ["2027-03-31", None, "2028-01-01"], "2027-03-31"),
        (None, ["2027-03-31"], "2027-03-31"),
        (3, ["2027-03-31"], "2027-02-28"),
        (None, [None], None),
    ],
)
def test_a_batch_is_good_up_to_the_least_of_its_days(months, lots, day):
    assert best_before("2026-11-30", months, lots) == day
