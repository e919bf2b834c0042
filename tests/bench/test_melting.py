"""Melting in short bursts: the heat a melt takes, and how many bursts that makes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import demo_sheet, make_document, make_kit, sheet_of, step_of, walk

from bench import read_recipe
from bench.heating import burst_plan, heat_uj, in_bursts

# Industrial chocolate handbook, 4th edition 2009, table of useful constants; a calorimeter note
# elsewhere gives half this latent heat, so the figures stand for the arithmetic, not for every butter.
COCOA_BUTTER = {
    "solid_j_per_kg_k": 2010,
    "liquid_j_per_kg_k": 2090,
    "latent_j_per_kg": 157_000,
    "melts_mk": 34_000,
}
# Water at 20 °C, IAPWS by way of CoolProp: 4184 J/(kg K). Already liquid, so nothing to melt.
WATER = {"solid_j_per_kg_k": 2100, "liquid_j_per_kg_k": 4184, "latent_j_per_kg": 334_000, "melts_mk": 0}
UJ = 1_000_000


def test_a_gram_of_cocoa_butter_from_the_shelf_to_sixty_degrees_takes_239_joules():
    assert heat_uj(1000, COCOA_BUTTER, 20_000, 60_000) == 239_480_000  # 28.14 + 157 + 54.34 J


def test_a_hundred_grams_takes_24_kilojoules_and_48_seconds_at_500_watts():
    total = heat_uj(100_000, COCOA_BUTTER, 20_000, 60_000)

    assert total == 23_948 * UJ
    assert burst_plan(total, 500, 10_000, 10_000, 0) == [{"ms": 10_000, "rest_ms": 0}] * 5
    assert total / UJ / 500 == pytest.approx(47.9, abs=0.05)


def test_water_takes_its_specific_heat_and_nothing_more():
    assert heat_uj(1_000_000, WATER, 20_000, 21_000) == 4184 * UJ


def test_the_latent_heat_is_paid_once_and_only_when_the_melting_point_is_passed():
    below = heat_uj(1000, COCOA_BUTTER, 20_000, 33_000)
    through = heat_uj(1000, COCOA_BUTTER, 33_000, 35_000)
    above = heat_uj(1000, COCOA_BUTTER, 35_000, 60_000)

    assert through > 157 * UJ > below
    assert below + through + above == heat_uj(1000, COCOA_BUTTER, 20_000, 60_000)


def test_what_is_already_warm_enough_takes_nothing():
    assert heat_uj(100_000, COCOA_BUTTER, 60_000, 60_000) == 0
    assert burst_plan(0, 500, 15_000, 10_000, 30_000) == [{"ms": 10_000, "rest_ms": 0}]


def test_the_last_burst_is_shorter_and_comes_after_a_rest():
    plan = burst_plan(20_000 * UJ, 500, 15_000, 10_000, 30_000)  # 40 s of heat

    assert plan == [{"ms": 15_000, "rest_ms": 0}] * 2 + [{"ms": 10_000, "rest_ms": 30_000}]


def test_a_melt_of_more_than_sixty_bursts_is_left_unplanned():
    assert burst_plan(10_000_000 * UJ, 500, 10_000, 10_000, 0) == []


@given(st.integers(0, 10**13), st.integers(1, 20_000), st.integers(1, 600_000), st.integers(1, 600_000))
def test_the_bursts_give_the_heat_and_not_one_burst_more(total_uj, watts, burst_ms, last_ms):
    plan = burst_plan(total_uj, watts, burst_ms, last_ms, 0)

    given_uj = sum(burst["ms"] for burst in plan) * 1000 * watts
    assert len(plan) <= 60
    if plan:
        assert given_uj >= total_uj
    if len(plan) > 1:
        assert given_uj - burst_ms * 1000 * watts < total_uj


def melting(heat, **step):
    ingredient = {"name": "Cocoa butter", **({"heat": {**heat, "source": "as above"}} if heat else {})}
    return make_document(
        {"amount": "100 g", "ingredient": "butter"},
        ingredients={"butter": ingredient},
        steps=[
            {"id": "in", "kind": "weigh", "title": "Weigh it", "lines": ["l0"]},
            {
                "id": "melt",
                "kind": "melt",
                "title": "Melt it",
                "of": ["l0"],
                "heater": "microwave",
                "burst": "10 s",
                "from_c": "20",
                "to_c": "60",
                "look_for": "Clear",
                **step,
            },
        ],
    )


HEAT = {"solid_j_per_kg_k": 2010, "liquid_j_per_kg_k": 2090, "latent_j_per_kg": 157_000, "melts_c": "34"}
MICROWAVE = make_kit(heaters=[{"id": "m", "name": "Microwave", "kind": "microwave", "absorbed_w": 500}])


def test_a_sheet_plans_five_bursts_for_a_hundred_grams():
    step = step_of(sheet_of(read_recipe(melting(HEAT)), MICROWAVE), "mix.1.melt")

    assert [burst["ms"] for burst in step["bursts"]] == [10_000] * 5
    assert step["mg"] == 100_000


def test_a_microwave_is_one_in_every_language_its_maker_writes():
    assert [in_bursts(kind) for kind in ("Microwave", "Mikrowelle 700 W", "water bath", "Wasserbad")] == [
        True,
        True,
        False,
        False,
    ]


def test_twice_the_batch_takes_twice_the_bursts_of_the_same_length():
    step = step_of(sheet_of(read_recipe(melting(HEAT)), MICROWAVE, pieces=20), "mix.1.melt")

    assert [burst["ms"] for burst in step["bursts"]] == [10_000] * 10


@pytest.mark.parametrize(
    ("document", "kit"),
    [
        (melting(None), MICROWAVE),  # no heat figures
        (melting(HEAT), make_kit()),  # no such heater
        (melting(HEAT, heater="water_bath"), MICROWAVE),
    ],
)
def test_without_what_an_estimate_needs_no_number_is_made_up(document, kit):
    step = step_of(sheet_of(read_recipe(document), kit), "mix.1.melt")

    assert step["bursts"] == []
    assert step["more"] == {"ms": 10_000, "rest_ms": 0}


def test_first_aid_for_burns_stands_beside_each_melt_and_nowhere_else() -> None:
    """20 minutes under cool running tap water: British Burn Association, April 2018."""
    for prompt in walk(demo_sheet()):
        hot = prompt["kind"] in ("melt", "heating")
        assert ("aid" in prompt) is hot
        if hot:
            assert "20 min" in prompt["aid"][0] and "local emergency service" in " ".join(prompt["aid"])
