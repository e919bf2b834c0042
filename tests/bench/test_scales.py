"""Which scale weighs what: the minimum-weight rule, the small cup, the vessel's own weight."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import line_of, make_kit, make_recipe, sheet_of

from bench import KitError, SizeError, read_kit
from bench.sheet_words import reason_words, spoons_words, warning_words
from bench.weighing import bowl_scale, cup_scale, least_mg, tolerance_mg, uncertainty_ppm
from bench.whole import Division, to_division


# USP <41> (2019): twice the standard uncertainty over the smallest net weight stays within the
# limit, and a reading of division d carries at least 0.41 d. So 2 x 0.41 d / t.
@pytest.mark.parametrize(
    ("division_mg", "tolerance_ppm", "least"),
    [
        (1000, 1_000, 820_000),  # d = 1 g at USP's own 0.10 %: 820 d
        (1000, 10_000, 82_000),
        (1000, 50_000, 16_400),
        (100, 1_000, 82_000),
        (100, 10_000, 8_200),
        (100, 50_000, 1_640),
        (10, 1_000, 8_200),
        (10, 10_000, 820),
        (10, 50_000, 164),
    ],
)
def test_the_smallest_weight_worth_weighing(division_mg, tolerance_ppm, least):
    assert least_mg(division_mg, tolerance_ppm) == least
    assert uncertainty_ppm(least, division_mg) == tolerance_ppm


@given(st.integers(1, 10**6), st.integers(100, 10**6))
def test_the_smallest_weight_is_the_smallest(division_mg, tolerance_ppm):
    least = least_mg(division_mg, tolerance_ppm)

    def held(mg):
        return 82 * division_mg * 1_000_000 <= 100 * tolerance_ppm * mg

    assert held(least) and not held(least - 1)


def test_a_tolerance_is_never_finer_than_the_scale_can_show():
    assert tolerance_mg(240_000, 20_000, 1000) == 4_800
    assert tolerance_mg(4_000, 20_000, 1000) == 500  # half a division, though 2 % is 80 mg


TWO = make_kit(("5 kg", "1 g"), ("200 g", "0.01 g"))


def test_the_coarsest_scale_that_meets_the_line_is_used():
    sheet = sheet_of(make_recipe({"amount": "82 g", "tolerance": "1 %"}), TWO)

    assert line_of(sheet, "mix.1.l0")["scale"] == "s0"


def test_a_line_just_too_small_for_the_bowl_scale_goes_into_a_small_cup_on_the_fine_one():
    sheet = sheet_of(make_recipe("1000 g", {"amount": "40 g", "tolerance": "2 %"}), TWO)

    line = line_of(sheet, "mix.1.l1")  # 41 g is the least at 1 g and 2 %
    assert (line["scale"], line["cup"], line["division_mg"]) == ("s1", True, 10)
    assert sheet["warnings"] == []


def test_a_line_no_scale_can_weigh_is_warned_about_with_how_far_off_it_may_be():
    sheet = sheet_of(make_recipe("1000 g", "4 g"), make_kit(("5 kg", "1 g")))

    (warning,) = sheet["warnings"]
    assert warning["where"] == "mix.1.l1"
    assert "20.5 %" in warning_words(warning)  # 0.82 g in 4 g


def test_the_vessel_takes_its_share_of_the_capacity_but_none_of_the_minimum_weight():
    """EURAMET cg-18: the net sample must reach the minimum; the tare does not count towards it."""
    assert bowl_scale(TWO, 200_000, [(190_000, 20_000)])["id"] == "s0"
    assert bowl_scale(TWO, 201_000, [(20_000, 20_000)])["id"] == "s0"  # only the bench scale carries it
    assert bowl_scale(TWO, 200_000, [(20_000, 20_000)])["id"] == "s1"
    assert bowl_scale(TWO, 5_001_000, [(500_000, 20_000)]) is None


def test_a_cup_counts_on_the_fine_scale_too():
    assert cup_scale(TWO, 30_000, 4_000, 20_000) == (TWO["scales"][1], True)
    assert cup_scale(TWO, 199_000, 4_000, 20_000) == (TWO["scales"][0], False)
    assert cup_scale(TWO, 5_000_000, 4_000, 20_000) is None


def test_more_than_any_scale_carries_is_said():
    kit = make_kit(
        ("2 kg", "1 g"),
        vessels=[{"id": "bowl", "name": "Bowl", "kind": "bowl", "empty": "600 g", "holds": "5 kg"}],
    )
    sheet = sheet_of(make_recipe("1500 g", part_piece="150 g"), kit)

    component = sheet["components"][0]
    assert [each["count"] for each in component["rounds"]] == [5, 5]  # 2000 - 600 g: nine pieces a round
    assert "1400 g at once" in reason_words(component["why"][0])


def test_a_weighed_recipe_needs_a_scale_and_a_spooned_one_does_not():
    bare = read_kit({"format": "bowlside-kit/1", "scales": []})

    with pytest.raises(KitError) as fault:
        sheet_of(make_recipe("240 g"), bare)
    assert fault.value.where == "scales" and "Add a scale" in fault.value.says
    line = line_of(sheet_of(make_recipe("3 tsp", measures="metric"), bare), "mix.1.l0")
    assert spoons_words(line["spoons"]) == "1 tbsp"


# OIML R 76-1:2006 tables 3 and 6, class III at e = 1 g: n = Max/e from 100 to 10 000, Min 20 e,
# and on first verification ±0.5 e to 500 e, ±1 e to 2000 e, ±1.5 e above.
def test_a_scale_has_at_least_a_hundred_divisions():
    with pytest.raises(KitError) as fault:
        make_kit(("99 g", "1 g"))

    assert fault.value.where == "scales.0.capacity"
    assert make_kit(("100 g", "1 g"))["scales"][0]["capacity_mg"] == 100_000


@pytest.mark.parametrize("tolerance_ppm", [1_000, 10_000, 20_000])
@pytest.mark.parametrize("division_mg", [100, 200, 500, 1000, 2000])
def test_the_rule_never_sends_a_line_below_the_least_load_of_a_class_iii_scale(division_mg, tolerance_ppm):
    assert least_mg(division_mg, tolerance_ppm) >= 20 * division_mg


@pytest.mark.parametrize(("load_g", "limit_d"), [(750, 1.0), (1500, 1.0), (3000, 1.5)])
def test_the_uncertainty_assumed_is_within_what_a_verified_scale_may_be_off(load_g, limit_d):
    """Class III, Max 3000 g, e = 1 g: ±1 g at 750 and 1500 g, ±1.5 g at 3000 g (OIML R 76-1 table 6)."""
    assumed_g = uncertainty_ppm(load_g * 1000, 1000) * load_g / 1_000_000

    assert assumed_g == pytest.approx(0.82, abs=0.002)
    assert assumed_g <= limit_d


def test_halves_of_a_division_go_to_the_even_reading():
    assert [to_division(mg, Division(1000)) for mg in (500, 1500, 2500, 2501)] == [0, 2000, 2000, 3000]


def test_a_division_past_this_bench_is_refused():
    with pytest.raises(KitError) as fault:
        make_kit(("10 g", "0.0001 g"))

    assert fault.value.where == "scales.0.division" and "0.001 g" in fault.value.says


def test_two_scales_of_one_id_are_refused():
    scale = {"id": "s", "name": "S", "capacity": "5 kg", "division": "1 g"}
    with pytest.raises(KitError) as fault:
        read_kit({"format": "bowlside-kit/1", "scales": [scale, scale]})

    assert fault.value.where == "scales.1.id"


def test_optional_lines_may_be_left_out_and_others_may_not():
    recipe = make_recipe("240 g", {"amount": "30 g", "optional": True})

    sheet = sheet_of(recipe, TWO, without=["mix.l1"])

    assert {line["line"]: line["mg"] for line in sheet["lines"]} == {"l0": 270_000}  # it fills the pieces
    with pytest.raises(SizeError):
        sheet_of(recipe, TWO, without=["mix.l0"])
