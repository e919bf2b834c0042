"""Judgements beside a record, what a good piece is, samples kept back, and what departs and is judged."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import HOUR, MINUTE, MORNING, entry, make_document, make_recipe, sheet_of, unlike

from bench import (
    AmountError,
    EntryError,
    RecipeError,
    check_entry,
    digest,
    fold,
    of_record,
    read_recipe,
    record,
    release_of,
    release_status,
    seal,
)

GOOD_PIECE = {
    "mass": {"least": "95 g", "most": "105 g"},
    "ph": {"least": "5", "most": "6,5"},
    "look": "No cracks.",
}
PLAIN = sheet_of(make_recipe("600 g", "400 g"))
SHEET = sheet_of(make_recipe("600 g", "400 g", good_piece=GOOD_PIECE, before=["cleared"]))
LATER = MORNING + HOUR


def made(good=10, spoiled=0, partial=0):
    pours = [
        entry("weighed", MORNING, line=f"mix.1.l{place}", mg=mg)
        for place, mg in enumerate((600_000, 400_000))
    ]
    count = entry("counted", MORNING + 1, step="mix.1.press", good=good, spoiled=spoiled, partial=partial)
    return [*pours, count, entry("finished", MORNING + 2)]


def signed(entries, at=LATER, name="M. Marlwick"):
    return entry("signed", at, name=name, **seal(entries))


def judged(verdict, at=LATER + 1, about="batch", why=None, signing=None, name="A. Marlwick", device="desk"):
    more = {"why": why, "signing": signing}
    said = {key: value for key, value in more.items() if value is not None}
    return entry("judged", at, device, about=about, verdict=verdict, name=name, **said)


def status(*entries):
    return release_status(fold(PLAIN, entries))


def test_a_batch_is_released_apart_from_its_signing_and_by_the_signing_that_was_seen():
    entries = made()
    signing = signed(entries)
    release = judged("released", signing=signing["id"])

    state = fold(PLAIN, [*entries, signing, release])

    told = record(PLAIN, state, [*entries, signing, release])
    assert told["release"] == {
        "id": release["id"],
        "at": LATER + 1,
        "device": "desk",
        "about": "batch",
        "verdict": "released",
        "name": "A. Marlwick",
        "why": "",
        "signing": signing["id"],
        "holds": True,
    }
    assert told["remarks"] == [] and unlike("record/Record", told) == []
    assert fold(PLAIN, [*entries, signing])["finished_at"] == state["finished_at"]


def test_a_release_does_not_outlive_the_signing_that_it_names():
    entries = made()
    signing = signed(entries)
    release = judged("released", signing=signing["id"])
    back = entry("undone", LATER + 2, entry=signing["id"])
    again = signed([*entries, release], LATER + 3)

    assert status(*entries, signing, release) == "released"
    assert status(*entries, signing, release, back) is None
    assert status(*entries, signing, release, back, again) is None
    assert release_of(fold(PLAIN, [*entries, signing, release, back, again]))["holds"] is False
    anew = judged("released", LATER + 4, signing=again["id"])
    assert status(*entries, signing, release, back, again, anew) == "released"


@pytest.mark.parametrize("verdict", ["held", "rejected"])
def test_what_is_held_or_rejected_stays_so_whatever_is_signed(verdict):
    entries = [*made(), judged(verdict, MORNING + 3, why="A crack.")]

    assert status(*entries) == verdict
    assert status(*entries, signed(entries)) == verdict


def test_the_last_judgement_stands_and_all_are_kept_whichever_came_first():
    entries = made()
    signing = signed(entries)
    first = judged("held", LATER + 1, why="Waits for the pH.")
    second = judged("released", LATER + 2, signing=signing["id"])

    state = fold(PLAIN, [second, *entries, signing, first])

    assert release_status(state) == "released"
    assert [each["verdict"] for each in state["judgements"]] == ["held", "released"]


@pytest.mark.parametrize("sealed", [True, False])
def test_no_undo_reaches_a_judgement_a_further_entry_corrects_it(sealed):
    hold = judged("held", MORNING + 3, why="A crack.")
    undo = entry("undone", MORNING + 4, entry=hold["id"])
    entries = [*made(), hold]
    journal = [*entries, signed(entries), undo] if sealed else [*entries, undo]

    state = fold(PLAIN, journal)

    assert release_status(state) == "held" and len(state["judgements"]) == 1


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"about": "batch", "verdict": "accepted", "name": "A."}, "verdict"),
        ({"about": "line.mix.1.l0", "verdict": "released", "name": "A."}, "verdict"),
        ({"about": "batch", "verdict": "held", "name": "A."}, "why"),
        ({"about": "line.mix.1.l0", "verdict": "not_accepted", "name": "A."}, "why"),
        ({"about": "batch", "verdict": "released", "name": "A."}, "signing"),
        ({"about": "batch", "verdict": "maybe", "name": "A."}, "verdict"),
        ({"about": "batch", "verdict": "held", "why": "A crack."}, "name"),
    ],
)
def test_a_judgement_says_who_why_and_what_of(body, field):
    odd = entry("judged", LATER, **body)
    with pytest.raises(EntryError) as fault:
        check_entry(odd)

    assert fault.value.where == f"body.{field}" and fault.value.says
    assert fold(PLAIN, [odd])["unread"] == [odd["id"]]


KINDS_OF_LATER = st.sampled_from(
    [
        ("judged", {"about": "batch", "verdict": "rejected", "name": "A.", "why": "A crack."}),
        ("judged", {"about": "line.mix.1.l0", "verdict": "accepted", "name": "A."}),
        ("kept", {"pieces": 3}),
        ("met", {"criterion": "look", "answer": "no"}),
        ("noted", {"text": "Seen."}),
        ("weighed", {"line": "mix.1.l0", "mg": 5}),
        ("counted", {"step": "mix.1.press", "good": 4}),
        ("numbered", {"number": "X"}),
    ]
)


@given(st.lists(st.tuples(KINDS_OF_LATER, st.integers(0, 10**12)), min_size=1000, max_size=1000))
@settings(max_examples=3, deadline=None)
def test_a_thousand_later_entries_change_neither_a_signed_record_nor_its_digest(more):
    entries = made()
    signing = signed(entries)
    later = [entry(kind, at, "desk", **body) for (kind, body), at in more]
    undos = [
        entry("undone", at, "desk", entry=each["id"]) for each, (_, at) in zip(entries, more, strict=False)
    ]
    beside = ("remarks", "unread", "judgements", "release")

    def standing(journal):
        state = fold(SHEET, journal)
        told = record(SHEET, state, journal)
        return {key: told[key] for key in told if key not in beside}, digest(of_record(state, journal))

    assert standing([*entries, signing, *later, *undos]) == standing([*entries, signing])


@given(st.integers(0, 40), st.integers(0, 9), st.integers(0, 3), st.none() | st.integers(0, 60))
def test_all_pieces_that_were_made_are_good_kept_small_or_spoiled(good, spoiled, partial, kept):
    entries = made(good, spoiled, partial)
    entries += [] if kept is None else [entry("kept", MORNING + 2, pieces=kept)]

    told = record(PLAIN, fold(PLAIN, entries), entries)

    made_of = told["yield"]
    assert (
        made_of["good"] + made_of["kept"] + made_of["partial"] + made_of["spoiled"]
        == good + partial + spoiled
    )
    assert made_of["kept"] == min(good, kept or 0)
    balance = told["balance"]
    shares = ("good_mg", "kept_mg", "spoiled_mg", "spare_mg", "left_mg", "unaccounted_mg")
    assert balance["in_mg"] == sum(balance[share] for share in shares)


def test_what_a_good_piece_is_comes_from_the_recipe_and_is_answered_in_the_record():
    assert SHEET["good_piece"] == [
        {"criterion": "mass", "least": 95_000, "most": 105_000, "says": ""},
        {"criterion": "ph", "least": 5000, "most": 6500, "says": ""},
        {"criterion": "look", "least": None, "most": None, "says": "No cracks."},
    ]
    entries = [
        *made(),
        entry("met", MORNING + 3, criterion="ph", answer="no", text="7.1"),
        entry("met", MORNING + 4, criterion="look", answer="no"),
        entry("met", MORNING + 5, criterion="look", answer="yes"),
        entry("met", MORNING + 5, criterion="taste", answer="yes"),
        entry("ticked", MORNING, thing="start.cleaned"),
    ]

    told = record(SHEET, fold(SHEET, entries), entries)

    found = {each["criterion"]: each["found"] and each["found"]["answer"] for each in told["criteria"]}
    assert found == {"mass": None, "ph": "no", "look": "yes"}
    assert told["deviations"] == [
        {"about": "start.cleared", "kind": "start", "name": "cleared"},
        {"about": "good.ph", "kind": "criterion", "name": "ph"},
    ]
    assert told["starts"] == [{"what": "cleaned", "at": MORNING}, {"what": "cleared", "at": None}]


def test_a_recipe_that_does_not_say_has_a_sheet_as_it_was():
    assert "good_piece" not in PLAIN and "before" not in PLAIN


@pytest.mark.parametrize(
    ("good_piece", "where"),
    [
        ({"mass": {}}, "good_piece.mass"),
        ({"mass": {"least": "12 g", "most": "11 g"}}, "good_piece.mass"),
        ({"mass": {"least": "a handful"}}, "good_piece.mass.least"),
        ({"ph": {"most": "15"}}, "good_piece.ph.most"),
        ({"ph": {"most": "sour"}}, "good_piece.ph.most"),
    ],
)
def test_a_range_that_cannot_be_is_refused_by_its_field(good_piece, where):
    with pytest.raises((RecipeError, AmountError)) as fault:
        read_recipe(make_document("600 g", good_piece=good_piece))

    assert fault.value.where == where and fault.value.says


def test_every_departure_can_be_judged_by_a_key_that_stays():
    off = [
        entry("weighed", MORNING, line="mix.1.l0", mg=700_000),
        entry("left", MORNING, line="mix.1.l0"),
        entry("left_out", MORNING, line="mix.1.l1"),
        entry("skipped", MORNING + MINUTE, step="mix.1.press"),
    ]
    accepted = judged("accepted", about="line.mix.1.l0", why="Scaled by hand.")
    told = record(PLAIN, fold(PLAIN, [*off, accepted]), [*off, accepted])

    assert [(each["kind"], each["about"]) for each in told["deviations"]] == [
        ("weight", "line.mix.1.l0"),
        ("left_out", "line.mix.1.l1"),
        ("skipped", "skipped.mix.1.press"),
    ]
    assert [(each["about"], each["verdict"]) for each in told["judgements"]] == [
        ("line.mix.1.l0", "accepted")
    ]
    assert told["release"] is None


def test_each_step_says_which_devices_told_of_it():
    entries = made()
    entries[2] = {**entries[2], "device": "tablet"}
    told = record(PLAIN, fold(PLAIN, entries), entries)

    assert {step["step"]: step["by"] for step in told["steps"]} == {
        "mix.1.in": ["phone"],
        "mix.1.press": ["tablet"],
    }
