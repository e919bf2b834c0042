"""The shelf's journal: its laws, its refusals, what is left of a lot."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workshop import MINUTE, MORNING, entry

from bench import EntryError, canonical, check_shelf_entry, fold_shelf
from bench.book import card_for, names_of
from bench.cautions import HAZARDS
from bench.gather import PROTECTION
from bench.kinds import OF_BUYING, OF_PIECES
from bench.shelf import (
    SHELF_KINDS,
    is_barred,
    is_cas,
    left_of,
    papers_about,
    papers_due,
    verdict_of,
)

LOTS = st.sampled_from(["lot-1", "lot-2", "lot-3"])
INGREDIENTS = st.sampled_from(["soda", "acid"])
DAYS = st.dates().filter(lambda day: 1900 <= day.year <= 2099).map(str)
BODIES = {
    "described": {"ingredient": INGREDIENTS, "card": st.fixed_dictionaries({"name": st.text(max_size=9)})},
    "received": {
        "lot": LOTS,
        "ingredient": INGREDIENTS,
        "number": st.just("K 41"),
        "mg": st.integers(0, 10**6),
        "received_on": DAYS,
    },
    "corrected": {"lot": LOTS, "mg": st.integers(0, 10**6)},
    "mended": {"lot": LOTS, "mg": st.integers(0, 10**6), "without": st.sampled_from([[], ["price"]])},
    "wrote_off": {"lot": LOTS, "mg": st.integers(0, 10**5), "why": st.just("Caked.")},
    "judged": {
        "lot": LOTS,
        "verdict": st.sampled_from(["held", "accepted", "rejected"]),
        "why": st.just("Damp."),
    },
    "papered": {
        "lot": LOTS,
        "paper": st.sampled_from(["safety_sheet", "analysis"]),
        "reference": st.just("Folder 3"),
        "expires": DAYS,
    },
    "noted": {"lot": LOTS, "text": st.just("Top shelf.")},
}


@st.composite
def shelves(draw):
    """A shelf's entries, some undone, some malformed, from two phones within some minutes."""
    at, device = st.integers(MORNING, MORNING + 9 * MINUTE), st.sampled_from(["phone", "tablet"])
    entries = []
    for kind in draw(st.lists(st.sampled_from(sorted(BODIES)), max_size=20)):
        body = draw(st.fixed_dictionaries(BODIES[kind]))
        if draw(st.integers(0, 9)) == 0:
            body[draw(st.sampled_from(sorted(body)))] = draw(st.none() | st.integers() | st.text(max_size=3))
        entries.append(entry(kind, draw(at), draw(device), **body))
    for _ in range(draw(st.integers(0, 3)) if entries else 0):
        entries.append(entry("undone", draw(at), draw(device), entry=draw(st.sampled_from(entries))["id"]))
    return entries


def test_every_kind_of_shelf_entry_is_tried_here():
    assert set(BODIES) | {"undone"} | OF_PIECES | OF_BUYING == set(SHELF_KINDS)


@given(shelves(), st.randoms(use_true_random=False))
def test_the_shelf_is_the_same_in_any_order_and_heard_twice(entries, random):
    shelf = canonical(fold_shelf(entries))

    shuffled = entries + random.choices(entries, k=3) if entries else []
    random.shuffle(shuffled)

    assert canonical(fold_shelf(shuffled)) == shelf


JSON = st.recursive(
    st.none() | st.integers() | st.text(max_size=5), lambda inner: st.lists(inner, max_size=2), max_leaves=4
)


@given(st.lists(JSON | shelves().flatmap(lambda made: st.sampled_from(made or [None])), max_size=8))
def test_nothing_makes_the_shelf_raise(entries):
    assert canonical(fold_shelf(entries))


@given(shelves())
@settings(max_examples=50)
def test_what_the_check_passes_is_on_the_shelf_or_unread(entries):
    for each in entries:
        try:
            check_shelf_entry(each)
        except EntryError as fault:
            assert fault.says
            continue
        shelf = fold_shelf([each])
        assert each["id"] in shelf["unread"] or shelf["ingredients"]


@given(st.integers(0, 10**6), st.lists(st.integers(0, 10**5), max_size=6), st.integers(0, 6))
def test_a_correction_says_what_is_there_and_only_later_use_comes_off(counted, used, before):
    received = entry(
        "received", MORNING, lot="l", ingredient="i", number="1", mg=10**6, received_on="2026-01-31"
    )
    corrected = entry("corrected", MORNING + before * MINUTE, lot="l", mg=counted)
    uses = [{"mg": mg, "count": 0, "at": MORNING + place * MINUTE} for place, mg in enumerate(used)]

    lot = fold_shelf([received, corrected])["lots"]["l"]

    assert left_of(lot, uses) == counted - sum(used[before + 1 :])


def test_every_field_of_a_lot_can_be_mended_and_what_it_was_stands_beside():
    told = {
        **LOT,
        "mg": 1000,
        "supplier": "Hillside",
        "best_before": "2027-01-31",
        "price": PRICE,
        "code": "c",
    }
    now = {"ingredient": "j", "number": "2", "mg": 1200, "received_on": "2026-02-01"}
    entries = [
        entry("received", MORNING, **told),
        entry(
            "mended", MORNING + MINUTE, lot="l", **now, without=["best_before", "code", "price", "supplier"]
        ),
    ]

    shelf = fold_shelf(entries)

    lot, gone = shelf["lots"]["l"], dict.fromkeys(("supplier", "best_before", "price", "code"))
    assert {field: lot[field] for field in now | gone} == now | gone
    assert lot["mended"][0]["was"] == {field: told[field] for field in now | gone}
    assert "j" in shelf["ingredients"]
    assert left_of(lot, []) == 1200
    assert (
        fold_shelf([*entries, entry("undone", MORNING + 2 * MINUTE, entry=entries[1]["id"])])["lots"]["l"]
        == (fold_shelf(entries[:1])["lots"]["l"])
    )


def test_what_was_received_changes_what_is_there_until_it_is_counted():
    received = entry("received", MORNING, **{**LOT, "mg": 1000})
    spilt = entry("wrote_off", MORNING + 1, lot="l", mg=100, why="Spilt.")
    counted = entry("corrected", MORNING, lot="l", mg=700)
    mended = entry("mended", MORNING + 2, lot="l", mg=500)

    assert left_of(fold_shelf([received, spilt, mended])["lots"]["l"], []) == 400
    assert left_of(fold_shelf([received, counted, mended])["lots"]["l"], []) == 700
    in_pieces = entry("mended", MORNING + 2, lot="l", count=5)
    assert fold_shelf([received, in_pieces])["unread"] == [in_pieces["id"]]


LOT = {"lot": "l", "ingredient": "i", "number": "1", "mg": 1, "received_on": "2026-01-31"}
PRICE = {"amount": "12.50", "currency": "EUR"}


@pytest.mark.parametrize(
    ("kind", "body", "where"),
    [
        ("described", {"ingredient": "acid", "card": {"name": "Citric acid", "cas": "77-92-8"}}, "body.card.cas"),
        ("described", {"ingredient": "acid", "card": {"name": "Citric acid", "colour": "white"}}, "body.card"),
        ("described", {"ingredient": "acid", "card": {"inci": "Citric Acid"}}, "body.card"),
        ("described", {"ingredient": "acid", "card": {"name": "A", "hazards": ["fog"]}}, "body.card.hazards.0"),
        ("corrected", {"lot": "l"}, "body.mg"),
        ("corrected", {"lot": "l", "mg": 1, "count": 1}, "body.mg"),
        ("wrote_off", {"lot": "l", "mg": 1}, "body.why"),
        ("received", {"lot": "l", "ingredient": "i", "number": "1", "received_on": "2026-01-31"}, "body.mg"),
        ("received", {"lot": "l", "ingredient": "i", "number": "1", "mg": 1, "received_on": "31.1.26"}, "body.received_on"),
        ("noted", {"text": "Of what?"}, "body.lot"),
        ("mended", {"lot": "l"}, "body"),
        ("mended", {"lot": "l", "without": []}, "body"),
        ("mended", {"lot": "l", "mg": 1, "count": 1}, "body.mg"),
        ("mended", {"lot": "l", "without": ["number"]}, "body.without"),
        ("mended", {"lot": "l", "price": PRICE, "without": ["price"]}, "body.price"),
        ("mended", {"lot": "l", "price": {**PRICE, "currency": "QQQ"}}, "body.price.currency"),
        ("corrected", {"lot": "l", "mg": 1, "colour": "white"}, "body.colour"),
        ("received", {**LOT, "price": {**PRICE, "per": "kg"}}, "body.price.per"),
        ("received", {**LOT, "price": {**PRICE, "tax": {"percent": "19", "included": True, "of": ""}}}, "body.price.tax.of"),
    ],
)  # fmt: skip
def test_a_malformed_entry_is_refused_by_itself_and_the_field_is_named(kind, body, where):
    with pytest.raises(EntryError) as refused:
        check_shelf_entry(entry(kind, MORNING, **body))

    assert refused.value.where == where


def test_a_card_may_say_all_that_a_recipe_says_of_an_ingredient_and_more():
    card = {
        "name": "Citric acid, anhydrous",
        "inci": "Citric Acid",
        "cas": "77-92-9",
        "kind": "citric_acid",
        "density": {"g_per_ml": "1.665", "source": "Excipients handbook, from memory"},
        "limits": ["As little as does the job (the supplier's sheet)"],
        "hazards": ["powder"],
        "answers_to": ["Citric acid"],
    }

    check_shelf_entry(entry("described", MORNING, ingredient="acid", card=card))


@pytest.mark.parametrize("cas", ["7732-18-5", "77-92-9", "144-55-8", "56-81-5", "67-63-0", "13463-67-7"])
def test_the_cas_numbers_of_the_trade_pass_their_check_digit(cas):
    """Water, citric acid, bicarbonate, glycerol, 2-propanol, titanium dioxide (from memory)."""
    assert is_cas(cas)
    assert not is_cas(cas[:-1] + str((int(cas[-1]) + 1) % 10))


def test_an_ingredient_answers_to_its_own_name_before_another_card_that_also_does():
    shelf = fold_shelf(
        [
            entry("described", MORNING, ingredient="a", card={"name": "Soda", "answers_to": ["Citric Acid"]}),
            entry("described", MORNING, ingredient="b", card={"name": "citric  acid"}),
        ]
    )

    assert card_for(names_of(shelf), "CITRIC ACID") == "b"
    assert card_for(names_of(shelf), "Tartar") is None


def test_every_hazard_but_one_asks_for_protection():
    assert set(HAZARDS) - set(PROTECTION) == {"mixer"}  # unplugging is a deed
    assert set(PROTECTION) <= set(HAZARDS)


# Whether a lot may be used, and its papers

RECEIVED = {"lot": "l", "ingredient": "i", "number": "K 41", "mg": 10**6, "received_on": "2026-01-31"}


def test_the_last_judgement_of_a_lot_stands_and_no_undo_reaches_it():
    received = entry("received", MORNING, **RECEIVED)
    held = entry(
        "judged", MORNING + 1, lot="l", verdict="held", why="No certificate yet.", name="A. Marlwick"
    )
    accepted = entry("judged", MORNING + 2, lot="l", verdict="accepted")
    undo = entry("undone", MORNING + 3, entry=accepted["id"])

    assert verdict_of(fold_shelf([received])["lots"]["l"]) is None
    assert is_barred(fold_shelf([received, held])["lots"]["l"])
    shelf = fold_shelf([undo, accepted, held, received])
    assert [each["verdict"] for each in shelf["lots"]["l"]["judgements"]] == ["held", "accepted"]
    assert not is_barred(shelf["lots"]["l"]) and shelf["unread"] == [undo["id"]]


def test_a_lot_is_not_held_or_rejected_without_a_reason():
    with pytest.raises(EntryError) as fault:
        check_shelf_entry(entry("judged", MORNING, lot="l", verdict="held"))

    assert fault.value.where == "body.why"
    assert check_shelf_entry(entry("judged", MORNING, lot="l", verdict="accepted"))


def test_a_paper_is_of_a_lot_or_of_an_ingredient_and_the_newest_of_its_kind_counts():
    received = entry("received", MORNING, **RECEIVED)
    sheet = {"paper": "safety_sheet", "reference": "Folder 3", "dated": "2025-01-01"}
    old = entry("papered", MORNING + 1, ingredient="i", expires="2026-11-24", **sheet)
    certificate = entry(
        "papered",
        MORNING + 2,
        lot="l",
        paper="ifra_certificate",
        reference="C-17",
        amendment="51",
        category="9",
    )
    new = entry("papered", MORNING + 3, lot="l", expires="2026-11-25", **sheet)

    def past(*entries, on="2026-11-25"):
        shelf = fold_shelf([received, certificate, *entries])
        due = papers_due(papers_about(shelf, shelf["lots"]["l"]), on)
        return [(each["paper"], each["expires"], each["past"]) for each in due]

    assert past() == []
    assert past(old) == [("safety_sheet", "2026-11-24", True)]
    # Told 30 days ahead (common practice), and on the day itself it still holds.
    assert past(new, old) == past(new, old, on="2026-10-26") == [("safety_sheet", "2026-11-25", False)]
    assert past(new, old, on="2026-10-25") == []
    assert past(new, old, on="2026-11-26") == [("safety_sheet", "2026-11-25", True)]
    told = fold_shelf([received, certificate])["lots"]["l"]["papers"][0]
    assert (told["amendment"], told["category"], told["expires"]) == ("51", "9", None)
    for about in ({}, {"lot": "l", "ingredient": "i"}):
        with pytest.raises(EntryError):
            check_shelf_entry(entry("papered", MORNING, **about, **sheet))
