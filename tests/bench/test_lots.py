"""Lots: which to take, and what of each was used. What was weighed is always all accounted for."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from workshop import MINUTE, MORNING, demo_sheet, entry, written

from bench import fold, fold_shelf, gather, pick, read_recipe, use_of
from bench.words import speaking

SHEET = demo_sheet()
LINES = [line["id"] for line in SHEET["lines"] if line["mg"]]
INGREDIENTS = sorted({line["ingredient"] for line in SHEET["lines"]})

lots = st.lists(
    st.fixed_dictionaries(
        {
            "lot": st.uuids().map(str),
            "left": st.integers(-5, 10**6),
            "best_before": st.none()
            | st.sampled_from(["2026-11-24", "2026-11-25", "2027-01-01", "2028-01-01"]),
            "received_on": st.sampled_from(["2026-01-01", "2026-02-01"]),
        }
    ),
    max_size=6,
    unique_by=lambda lot: lot["lot"],
)


@given(st.integers(0, 3 * 10**6), lots, st.booleans())
def test_a_pick_takes_what_is_needed_or_says_what_is_short(need, stock, past_too):
    told = pick(need, stock, "2026-11-25", past_too)
    of = {lot["lot"]: lot for lot in stock}

    assert sum(each["take"] for each in told["picked"]) + told["short"] == need
    assert all(0 < each["take"] <= of[each["lot"]]["left"] for each in told["picked"])
    untouched = [key for key in of if key not in {each["lot"] for each in told["picked"]}]
    if told["short"]:
        assert all(of[key]["left"] <= 0 or key in told["passed_over"] for key in untouched)
    days = [(each["past"], of[each["lot"]]["best_before"] or "9999") for each in told["picked"]]
    assert days == sorted(days)
    assert past_too or not any(past for past, _ in days)


@st.composite
def stories(draw):
    entries = []
    for _ in range(draw(st.integers(0, 12))):
        at = MORNING + draw(st.integers(0, 40)) * MINUTE
        booked = {"mg": draw(st.integers(0, 10**6))} if draw(st.booleans()) else {}
        key = {"ingredient": draw(st.sampled_from(INGREDIENTS)), "lot": draw(st.sampled_from("abcd"))}
        entries.append(
            draw(
                st.sampled_from(
                    [
                        entry("gathered", at, **key, **booked),
                        entry(
                            "weighed", at, line=draw(st.sampled_from(LINES)), mg=draw(st.integers(0, 10**6))
                        ),
                        entry(
                            "taken_out", at, line=draw(st.sampled_from(LINES)), mg=draw(st.integers(0, 10**6))
                        ),
                    ]
                )
            )
        )
    return entries


@given(stories())
def test_over_its_lots_the_uses_of_what_was_gathered_add_up_to_what_was_weighed(entries):
    state = fold(SHEET, entries)

    uses = use_of(SHEET, state, entries)

    gathered = {each["ingredient"] for each in state["gathered"]}
    weighed = sum(
        state["lines"][line["id"]]["in_mg"] for line in SHEET["lines"] if line["ingredient"] in gathered
    )
    assert sum(use["mg"] for use in uses.values()) == weighed
    assert all(use["mg"] >= 0 for use in uses.values())


def test_everything_the_three_part_piece_needs_is_named_once_with_what_to_wear():
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    told = gather(recipe, SHEET, fold(SHEET, []), fold_shelf([]), {}, "2026-11-25")

    names = [thing["name"] for thing in told["things"]]
    assert {"Bench scale", "Fine scale", "Round press", "Pebble tray", "Microwave at half power"} <= set(
        names
    )
    assert {"sieve", "For Rose half", "Dust mask", "Heatproof gloves", "Heaters and flames off"} <= set(names)
    assert "Bar tray" not in names and "Blue half" not in names
    assert len({name.lower() for name in names}) == len(names)
    with speaking("de"):  # a tick in one language is a tick in the other
        there = gather(recipe, SHEET, fold(SHEET, []), fold_shelf([]), {}, "2026-11-25")["things"]
    assert [thing["thing"] for thing in there] == [thing["thing"] for thing in told["things"]]
    assert {"protection.dust_mask": "Staubmaske", "vessel.for_rose_half": "Für Rose half"}.items() <= {
        thing["thing"]: thing["name"] for thing in there
    }.items()
    salt = next(each for each in told["ingredients"] if each["ingredient"] == "citric")
    assert salt["division_mg"] == 1000  # the scale it goes onto: no milligrams are shown of it
    assert [each["ingredient"] for each in told["ingredients"]] == [
        each["id"] for each in SHEET["ingredients"]
    ]
    assert all(each["short"] == each["mg"] for each in told["ingredients"])
    assert told["open"] == len(told["things"]) + len(told["ingredients"])


def test_of_what_goes_by_hand_the_lot_whose_turn_it_is_is_named_and_none_is_short():
    """So that a recall finds the batch that was sprayed from it."""
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    lot = {"ingredient": "hazel", "mg": 500_000, "received_on": "2026-01-01"}
    shelf = fold_shelf(
        [
            entry("described", ingredient="hazel", card={"name": "Witch hazel distillate"}),
            entry("received", lot="young", number="W 2", best_before="2028-01-01", **lot),
            entry("received", lot="old", number="W 1", best_before="2027-01-01", **lot),
        ]
    )
    told = gather(recipe, SHEET, fold(SHEET, []), shelf, {}, "2026-11-25")

    hazel = next(each for each in told["ingredients"] if each["ingredient"] == "witch_hazel")
    assert [(each["number"], each["take"]) for each in hazel["lots"]] == [("W 1", 0)]
    assert (hazel["short"], hazel["by_hand"]) == (0, True)


def test_a_tick_and_a_lot_each_leave_one_less_to_gather():
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    entries = [
        entry("ticked", MORNING, thing="protection.dust_mask"),
        entry("gathered", MORNING, ingredient="citric", lot="somewhere"),
    ]
    told = gather(recipe, SHEET, fold(SHEET, entries), fold_shelf([]), {}, "2026-11-25")

    assert told["open"] == len(told["things"]) + len(told["ingredients"]) - 2
    citric = next(each for each in told["ingredients"] if each["ingredient"] == "citric")
    assert citric["lots"] == [
        {"lot": "somewhere", "number": None, "best_before": None, "left": None, "take": 0, "past": False,
         "verdict": None, "papers_due": [], "gathered": True}
    ]  # fmt: skip


def test_a_held_or_rejected_lot_is_not_proposed_and_is_named():
    lots = [
        {
            "lot": "held",
            "left": 500,
            "best_before": "2027-01-01",
            "received_on": "2026-01-01",
            "barred": True,
        },
        {"lot": "free", "left": 300, "best_before": None, "received_on": "2026-01-02"},
    ]

    told = pick(400, lots, "2026-11-25", past_too=True)

    assert [each["lot"] for each in told["picked"]] == ["free"]
    assert (told["short"], told["barred"], told["passed_over"]) == (100, ["held"], [])


def test_the_maker_or_the_recipe_has_two_things_asked_at_the_start():
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    ticked = [entry("ticked", MORNING, thing="start.cleared")]

    def starts(sheet, before):
        told = gather(recipe, sheet, fold(sheet, ticked), fold_shelf([]), {}, "2026-11-25", before=before)
        return [(each["thing"], each["ticked"]) for each in told["things"] if each["kind"] == "start"]

    assert starts(SHEET, []) == []
    assert starts(SHEET, ["cleared"]) == [("start.cleared", True)]
    assert starts({**SHEET, "before": ["cleaned"]}, ["cleared"]) == [
        ("start.cleaned", False),
        ("start.cleared", True),
    ]


def test_a_held_lot_that_was_taken_all_the_same_counts_as_there():
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    name = next(each["name"] for each in SHEET["ingredients"] if each["id"] == "citric")
    shelf = fold_shelf(
        [
            entry("described", MORNING, ingredient="acid", card={"name": name}),
            entry(
                "received",
                MORNING,
                lot="k",
                ingredient="acid",
                number="K",
                mg=10**7,
                received_on="2026-01-01",
            ),
            entry("judged", MORNING, lot="k", verdict="held", why="No papers."),
        ]
    )

    def citric(*entries):
        told = gather(recipe, SHEET, fold(SHEET, entries), shelf, {}, "2026-11-25")
        return next(each for each in told["ingredients"] if each["ingredient"] == "citric")

    left_out, taken = citric(), citric(entry("gathered", MORNING, ingredient="citric", lot="k"))
    assert (left_out["lots"], left_out["barred"], left_out["short"] > 0) == ([], ["k"], True)
    assert (taken["short"], taken["barred"], taken["lots"][0]["verdict"]) == (0, [], "held")
