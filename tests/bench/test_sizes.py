"""How big: pieces, mass, moulds or stock; rounds and why; spoons, parts and stand-ins."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import (
    THREE_PART,
    demo_sheet,
    line_of,
    make_kit,
    make_recipe,
    make_size,
    sheet_of,
    sized,
    written,
)

from bench import KitError, SizeError, check_recipe, make_sheet, read_kit, read_recipe
from bench.sheet_words import note_of, reason_words, spoons_words, warning_words
from bench.sizing import spread
from bench.yields import make_mg, pieces_from

COMPONENT = {"piece_mg": 150_000, "stays_behind_mg": 20_000, "loss_ppm": 20_000}


def grams_of(sheet):
    return {line["line"]: line["mg"] / 1000 for line in sheet["lines"] if line["mg"] is not None}


# The formula: make = (pieces x mass a piece + what stays behind) / (1 - f)


def test_twelve_pieces_with_what_stays_behind_and_what_is_lost():
    assert make_mg(COMPONENT, 12) == 1_857_143  # (12 x 150 + 20) g / 0.98


def test_spares_are_made_too():
    embed = demo_sheet()["components"][1]

    assert (embed["count"], embed["spares"]) == (14, 2)
    assert embed["make_mg"] == 120_408  # (14 x 8 + 6) g / 0.98


@given(
    st.builds(
        lambda piece, behind, loss: {"piece_mg": piece, "stays_behind_mg": behind, "loss_ppm": loss},
        st.integers(1000, 10**6),
        st.integers(0, 10**5),
        st.integers(0, 500_000),
    ),
    st.integers(1, 1000),
)
def test_what_is_made_gives_the_pieces_it_was_made_for(component, count):
    assert count - 1 <= pieces_from(component, make_mg(component, count)) <= count
    assert pieces_from(component, make_mg(component, count) + 2) == count


def test_only_what_stays_behind_does_not_grow_with_the_batch():
    one, two = demo_sheet(pieces=6), demo_sheet(pieces=12)

    base_one, base_two = one["components"][0]["make_mg"], two["components"][0]["make_mg"]
    assert 2 * base_one - base_two == pytest.approx(20_000 / 0.98, abs=2)


# By pieces, mass, moulds and stock


def test_one_piece_and_a_thousand_are_both_sheets():
    assert demo_sheet(pieces=1)["components"][0]["count"] == 1
    assert sum(each["count"] for each in demo_sheet(pieces=1000)["components"][0]["rounds"]) == 1000


@pytest.mark.parametrize("pieces", [0, -1, 1001, 1_000_000])
def test_no_pieces_and_a_million_are_refused_with_the_way_out(pieces):
    with pytest.raises(SizeError) as fault:
        demo_sheet(pieces=pieces)

    assert fault.value.where == "pieces" and "from 1 to 1000" in fault.value.says


def test_a_mass_gives_the_whole_pieces_in_it():
    recipe = make_recipe("1000 g", part_piece="100 g")

    assert sized(recipe, by="mass", mg=1_999_999)["size"]["pieces"] == 19
    with pytest.raises(SizeError) as fault:
        sized(recipe, by="mass", mg=99_999)
    assert fault.value.where == "mg" and "100 g" in fault.value.says


def test_a_mass_past_the_largest_batch_says_what_it_gives():
    choice = sized(make_recipe("1000 g", part_piece="100 g"), by="mass", mg=10**9)

    assert choice["size"]["pieces"] == 1000
    assert choice["says"].startswith("1000 pieces")


TRAY = {"id": "tray", "name": "Tray", "shape": "pebble", "cavities": 15, "cavity": "8 g"}


def moulded(held=True, **other):
    return make_recipe("120 g", part_piece="8 g", part_mould={"shape": "pebble", "held": held}, **other)


def test_two_full_trays_less_the_spares():
    recipe = moulded(part_spares=2)

    assert (
        sized(recipe, make_kit(moulds=[TRAY]), by="moulds", component="mix", moulds=2)["size"]["pieces"] == 28
    )


@pytest.mark.parametrize(("kit", "component"), [(make_kit(), "mix"), (make_kit(moulds=[TRAY]), "rind")])
def test_sizing_by_a_mould_that_is_not_there_is_refused(kit, component):
    with pytest.raises(SizeError) as fault:
        sized(moulded(), kit, by="moulds", component=component, moulds=1)

    assert fault.value.where == "component"


def test_all_of_an_ingredient_names_what_runs_out_first():
    recipe = make_recipe("750 g", "250 g", part_piece="100 g")

    choice = sized(recipe, by="stock", stock={"i0": 2_250_000, "i1": 700_000})

    assert choice["runs_out"] == "i1"  # 28 pieces of it, 30 of the other
    assert choice["size"]["pieces"] == 28
    assert "Ingredient 1 is used up first" in choice["says"]


@given(st.integers(75_000, 10**8), st.integers(25_000, 10**8))
def test_the_stock_holds_the_batch_and_not_one_piece_more(i0, i1):
    recipe, kit = make_recipe("750 g", "250 g", part_piece="100 g"), make_kit(("500 kg", "1 g"))
    stock = {"i0": i0, "i1": i1}

    choice = sized(recipe, kit, by="stock", stock=stock)

    def enough(pieces):
        sheet = make_sheet(recipe, {"id": "", "version": 1}, make_size(pieces=pieces), kit)
        return all(each["mg"] <= stock[each["id"]] for each in sheet["ingredients"])

    pieces = choice["size"]["pieces"]
    assert enough(pieces)
    assert pieces == 1000 or not enough(pieces + 1)


@pytest.mark.parametrize(("stock", "where"), [({"i1": 24_000}, "stock.i1"), ({"gold": 1}, "stock.gold")])
def test_a_shelf_with_too_little_for_one_piece_or_the_wrong_thing_says_so(stock, where):
    with pytest.raises(SizeError) as fault:
        sized(make_recipe("750 g", "250 g", part_piece="100 g"), by="stock", stock=stock)

    assert fault.value.where == where


# Rounds


def bowl(empty="600 g", holds="3 kg"):
    return {"id": "bowl", "name": "Big bowl", "kind": "bowl", "empty": empty, "holds": holds}


@pytest.mark.parametrize(
    ("kit", "counts", "because"),
    [
        (make_kit(vessels=[bowl(holds="400 g")]), [4, 3, 3], "Big bowl takes 400 g at once"),
        (make_kit(("1 kg", "1 g"), vessels=[bowl()]), [4, 3, 3], "Big bowl takes 400 g at once"),
        (make_kit(("1 kg", "1 g")), [10], ""),
        (make_kit(("500 g", "1 g")), [5, 5], "scale Scale 0 takes 500 g at once"),
    ],
)
def test_a_bowl_or_a_scale_too_small_makes_rounds_and_says_why(kit, counts, because):
    component = sheet_of(make_recipe("1000 g", part_piece="100 g"), kit)["components"][0]

    assert [each["count"] for each in component["rounds"]] == counts
    assert [reason_words(each) for each in component["why"]] == ([because] if because else [])


def test_held_moulds_make_rounds_and_a_press_does_not():
    kit = make_kit(moulds=[TRAY])

    held = sheet_of(moulded(), kit, pieces=40)["components"][0]
    pressed = sheet_of(moulded(held=False), kit, pieces=40)["components"][0]

    assert [each["count"] for each in held["rounds"]] == [14, 13, 13]
    assert held["why"] == [{"kind": "moulds", "shape": "pebble", "holds": 15}]
    assert reason_words(held["why"][0]) == "the pebble moulds hold 15 at once"
    assert len(pressed["rounds"]) == 1


def test_the_rounds_of_a_part_together_make_what_the_part_needs():
    for component in demo_sheet(pieces=100)["components"][:3]:
        each = [make_mg(component, part["count"]) for part in component["rounds"]]
        assert [part["make_mg"] for part in component["rounds"]] == each
        assert sum(part["count"] for part in component["rounds"]) == component["count"]


@given(st.integers(1, 1000), st.integers(1, 100))
def test_rounds_are_as_even_as_can_be(count, over):
    parts = spread(count, over)

    assert sum(parts) == count and max(parts) - min(parts) <= 1


def test_a_piece_larger_than_every_cavity_is_refused():
    with pytest.raises(KitError) as fault:
        sheet_of(
            make_recipe("90 g", part_piece="9 g", part_mould={"shape": "pebble", "held": True}),
            make_kit(moulds=[TRAY]),
        )

    assert fault.value.where == "moulds" and "9.0 g" in fault.value.says and "8.0 g" in fault.value.says


def test_a_mould_the_kit_has_not_is_only_warned_about():
    sheet = sheet_of(moulded(), make_kit())

    assert [warning["where"] for warning in sheet["warnings"]][0] == "mix"


def test_a_piece_larger_than_the_bowl_is_refused():
    with pytest.raises(SizeError) as fault:
        sheet_of(make_recipe("5 kg", part_piece="500 g"), make_kit(vessels=[bowl(holds="400 g")]))

    assert fault.value.where == "pieces" and "larger vessel" in fault.value.says


def test_rounds_that_would_wait_for_each_other_are_refused_and_do_not_hang():
    """Nothing is in a circle as written; two rounds of held moulds make one."""
    document = written(THREE_PART)
    document["components"][0]["steps"][0]["after"] = ["embed.pour"]
    unmould = document["components"][1]["steps"][-1]
    unmould["after"] = ["cool", "base.drying"]
    recipe, kit = read_recipe(document), read_kit(written("kit.json"))

    assert sheet_of(recipe, kit, pieces=12)
    with pytest.raises(SizeError) as fault:
        sheet_of(recipe, kit, pieces=50)
    assert fault.value.where == "pieces"


# Spoons, drops, parts and per cents


@pytest.mark.parametrize(
    ("amount", "spoons"),
    [
        ("2¾ tsp", "2 tsp + ½ tsp + ¼ tsp"),
        ("1½ tbsp", "1 tbsp + 1 tsp + ½ tsp"),
        ("3 tsp", "1 tbsp"),
        ("1¼ cups", "1 cup + ¼ cup"),
        ("¾ cup", "½ cup + ¼ cup"),
        ("1/4 tsp", "¼ tsp"),
        ("2 cups", "2 cups"),
        ("1/8 tsp", "⅛ tsp"),
        ("3/8 tsp", "¼ tsp + ⅛ tsp"),
        ("7/8 tsp", "½ tsp + ¼ tsp + ⅛ tsp"),  # the drawer's rounding once made two quarters of it
        ("0.13 tsp", "⅛ tsp (4 % less)"),
        ("0.12 tsp", "⅛ tsp (4 % more)"),
        ("0.03 tsp", "24 % of ⅛ tsp"),
    ],
)
@pytest.mark.parametrize("measures", ["us", "metric"])
def test_a_volume_with_no_density_stays_in_spoons_a_drawer_holds(amount, spoons, measures):
    line = line_of(sheet_of(make_recipe(amount, measures=measures)), "mix.1.l0")

    assert (spoons_words(line["spoons"]), line["mg"]) == (spoons, None)


@given(st.integers(1, 400), st.sampled_from(["us", "imperial", "metric"]))
def test_spoons_are_within_half_the_smallest_of_what_was_asked_and_say_how_far_off(quarters, measures):
    recipe = make_recipe(f"{quarters}/4 tsp", measures=measures)
    line = line_of(sheet_of(recipe, pieces=7), "mix.1.l0")
    size = {spoon["name"]: spoon["nl"] for spoon in recipe["spoons"]}
    spoons, _, off = spoons_words(line["spoons"]).partition(" (")

    told = 0
    for part in spoons.split(" + "):
        count, _, name = part.partition(" ")
        told += size[part] if part in size else int(count) * size[{"cups": "cup"}.get(name, name)]
    assert abs(told - line["nl"]) <= size["⅛ tsp"] / 2 + 20
    assert bool(off) == (abs(told - line["nl"]) * 200 > line["nl"])


def test_less_than_the_smallest_spoon_is_warned_about():
    sheet = sheet_of(make_recipe("¼ tsp", measures="metric"), pieces=1)

    assert spoons_words(line_of(sheet, "mix.1.l0")["spoons"]) == "20 % of ⅛ tsp"
    assert sheet["warnings"][0]["where"] == "mix.l0"


def test_a_volume_with_a_density_becomes_a_weight():
    """Glycerin 1.26 g/mL: relative density 1.258 to 1.268, a supplier's sheet of the Ph. Eur. grade."""
    glycerin = {"name": "Glycerin", "density": {"g_per_ml": "1.26", "source": "supplier's sheet"}}
    recipe = make_recipe(
        {"amount": "2 tsp", "ingredient": "glycerin"}, measures="metric", ingredients={"glycerin": glycerin}
    )

    assert line_of(sheet_of(recipe), "mix.1.l0")["mg"] == 12_600


def test_drops_are_counted_and_their_weight_is_only_about():
    """UCUM [drp] is 1/20 mL, by convention: 12 drops of 0.95 g/mL are about 0.57 g."""
    oil = {"name": "Blend", "density": {"g_per_ml": "0.95", "source": "its own sheet"}}
    sheet = sheet_of(
        make_recipe("240 g", {"amount": "12 drops", "ingredient": "oil"}, ingredients={"oil": oil})
    )

    line = line_of(sheet, "mix.1.l1")
    assert (line["count"], line["unit"], line["about_mg"], line["mg"]) == (12, "drops", 570, None)
    assert "dropper" in warning_words(sheet["warnings"][0])


def test_two_parts_to_one():
    recipe = make_recipe("2 parts", "1 part", part_piece="30 g")

    assert grams_of(sheet_of(recipe)) == {"l0": 200, "l1": 100}


def test_what_one_part_is_may_be_said():
    recipe = make_recipe("2 parts", "1 part", "50 g", part_part="100 g")

    assert grams_of(sheet_of(recipe)) == {"l0": 200, "l1": 100, "l2": 50}


def test_a_per_cent_is_of_the_whole_not_of_the_rest():
    recipe = make_recipe("95 g", "5 %", part_piece="10 g")

    assert grams_of(sheet_of(recipe)) == {"l0": 95, "l1": 5}


def test_per_cents_parts_and_the_piece_say_everything():
    recipe = make_recipe("10 %", "2 parts", "1 part", part_piece="30 g")

    assert grams_of(sheet_of(recipe)) == {"l0": 30, "l1": 180, "l2": 90}


def test_a_substitute_is_measured_by_its_own_density():
    """Almond oil SG 0.910 to 0.915 (USP 29 NF), middle taken; the stand-in's figure is this test's own."""
    recipe = make_recipe(
        {
            "amount": "100 ml",
            "ingredient": "almond",
            "substitutes": [{"ingredient": "heavy", "says": "Stir longer."}],
        },
        ingredients={
            "almond": {"name": "Almond oil", "density": {"g_per_ml": "0.9125", "source": "USP 29 NF"}},
            "heavy": {"name": "Heavy oil", "density": {"g_per_ml": "0.95", "source": "this test"}},
        },
        steps=[{"id": "in", "kind": "weigh", "title": "Weigh", "lines": ["l0"]}],
    )
    (line,) = recipe["components"][0]["lines"]

    assert (line["ug"], line["substitutes"][0]["ug"]) == (91_250_000, 95_000_000)
    swapped = line_of(sheet_of(recipe, swaps={"mix.l0": "heavy"}), "mix.1.l0")
    assert (swapped["name"], swapped["instead_of"]) == ("Heavy oil", "Almond oil")
    assert swapped["note"] == "Stir longer."
    assert note_of(swapped) == "Instead of: Almond oil. Stir longer."


def test_a_stand_in_that_is_not_one_is_refused_with_those_that_are():
    recipe = make_recipe("100 g", {"amount": "50 g", "substitutes": [{"ingredient": "i0"}]})

    with pytest.raises(SizeError) as fault:
        sheet_of(recipe, swaps={"mix.l1": "i1"})
    assert fault.value.where == "swaps.mix.l1" and "i0" in fault.value.says


def test_to_texture_has_no_number():
    line = line_of(sheet_of(make_recipe("240 g", "to texture")), "mix.1.l1")

    assert (line["mg"], line["nl"], line["count"]) == (None, None, None)


# What the recipe's own numbers say


def test_lines_that_do_not_add_up_to_the_pieces_are_pointed_out():
    finding = next(
        each for each in check_recipe(make_recipe("1200 g", part_piece="100 g")) if each["level"] == "look"
    )

    assert finding["where"] == "mix"
    assert "1200 g" in finding["what"] and "1000 g" in finding["what"]
    assert finding["by"] == "20.0 % apart"


@pytest.mark.parametrize("count", [1, 2, 13, 14, 999])
def test_what_is_made_for_so_many_pieces_gives_that_many(count):
    component = {"piece_mg": 120_408, "stays_behind_mg": 15_000, "loss_ppm": 20_000}

    assert pieces_from(component, make_mg(component, count)) == count
    assert pieces_from(component, make_mg(component, count) - 2) == count - 1
