"""Ounce scales, read exactly; and masses and temperatures in the units that are asked for."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshop import Maker, demo_kit, line_of, make_kit, make_recipe, sheet_of, walk, written

from bench import AmountError, KitError, check_recipe, read_kit, read_recipe, record, sheet_text, words
from bench.weighing import allowed_mg, least_mg, reads_in, tolerance_mg
from bench.whole import Division, mass, reading, temperature, to_division, uoz_to_mg, warmer

OUNCE = Fraction("28.349523125")  # g, exactly: NIST SP 811 (2008), B.8; NIST Handbook 44, App. C
WRITTEN = (
    "1 oz",
    "0.5 oz",
    "1/4 oz",
    "0.2 oz",
    "1/8 oz",
    "0.1 oz",
    "1/16 oz",
    "0.05 oz",
    "0.02 oz",
    "0.01 oz",
)
WRITTEN = (*WRITTEN, "0.005 oz", "0.002 oz", "0.001 oz")
OUNCES, FAHRENHEIT = words.Units("oz", "c"), words.Units("g", "f")


def of_scale(division: str) -> Division:
    return reads_in(make_kit(("11 lb", division))["scales"][0])


def in_ounces(text: str) -> Fraction:
    assert text.endswith(" oz")
    return Fraction(text.removesuffix(" oz"))


@pytest.mark.parametrize("division", WRITTEN)
@given(data=st.data())
def test_what_an_ounce_scale_showed_is_shown_again(division: str, data: st.DataObject) -> None:
    scale = of_scale(division)
    step = Fraction(division.removesuffix(" oz"))
    assert Fraction(scale.uoz or 0, 10**6) == step
    shown = data.draw(st.integers(0, int(176 / step)), "divisions") * step

    mg = uoz_to_mg(int(shown * 10**6))

    assert abs(mg - shown * OUNCE * 1000) <= Fraction(1, 2)
    assert to_division(mg, scale) == mg
    assert in_ounces(reading(mg, scale)) == shown


@given(st.sampled_from(WRITTEN), st.integers(0, 5_000_000), st.sampled_from([1_000, 20_000, 200_000]))
def test_a_target_is_the_nearest_division_and_reading_it_is_within_tolerance(
    division: str, mg: int, tolerance_ppm: int
) -> None:
    scale = of_scale(division)
    step = Fraction(division.removesuffix(" oz"))

    reads = to_division(mg, scale)

    assert (in_ounces(reading(reads, scale)) / step).denominator == 1
    assert abs(in_ounces(reading(reads, scale)) * OUNCE * 1000 - mg) <= step * OUNCE * 1000 / 2
    allowed: Any = {"tolerance_mg": tolerance_mg(mg, tolerance_ppm, scale.mg)}
    assert abs(reads - mg) <= allowed_mg(allowed, scale.mg)


def test_what_follows_from_a_division_follows_from_its_grams() -> None:
    kit = make_kit(("11 lb", "0.05 oz"))

    assert kit["scales"][0] == {
        "id": "s0",
        "name": "Scale 0",
        "capacity_mg": 4_989_516,  # 11 x 453.59237 g
        "division_mg": 1417,
        "division_uoz": 50_000,
    }
    assert least_mg(1417, 20_000) == 58_097  # 2 x 0.41 x 1.417 g / 2 %
    assert of_scale("0.1 lb") == Division(45_359, 1_600_000)  # read in ounces too
    assert "division_uoz" not in make_kit(("5 kg", "1 g"))["scales"][0]


@pytest.mark.parametrize("division", ["1/3 oz", "0.0005 oz", "0.00125 oz"])
def test_a_division_that_no_scale_shows_is_asked_for_again(division: str) -> None:
    with pytest.raises(AmountError) as fault:
        make_kit(("11 lb", division))

    assert fault.value.where == "scales.0.division" and "0.05 oz" in fault.value.says
    with pytest.raises(KitError):
        make_kit(("4 oz", "0.05 oz"))  # fewer than a hundred divisions


def test_a_batch_on_an_ounce_scale_is_told_and_recorded_in_ounces() -> None:
    sheet = sheet_of(make_recipe("150 g", "60 g"), make_kit(("11 lb", "0.05 oz")))
    maker = Maker(sheet)
    first = maker.prompt["weigh"]
    assert (first["add"], first["reads"]) == ("5.30 oz", "5.30 oz")
    assert (first["division_mg"], first["division_uoz"]) == (1417, 50_000)
    assert "Anzeige" not in maker.prompt["title"] and "5.30 oz" in maker.prompt["title"]

    maker.reads(151_670)  # 5.35 oz
    second = maker.prompt["weigh"]
    assert (second["add"], second["reads"]) == ("2.10 oz", "7.45 oz")
    maker.choose("reads")

    told = record(sheet, maker.state, maker.entries)
    kept = told["lines"][0]
    assert kept["actual_mg"] == 151_670 and kept["division_uoz"] == 50_000
    assert reading(kept["actual_mg"], Division(kept["division_mg"] or 1, kept["division_uoz"])) == "5.35 oz"
    assert "  5.30 oz  Scale 0" in sheet_text(sheet)


def an_ounce_kit() -> Any:
    """The demo's kit, its scales such as read in ounces."""
    kit = written("kit.json")
    for scale, division in zip(kit["scales"], ("0.05 oz", "0.001 oz"), strict=False):
        scale["division"] = division
    return read_kit(kit)


@pytest.mark.parametrize("weigh", ["running", "tare"])
def test_all_that_is_asked_for_on_an_ounce_scale_is_a_whole_number_of_its_divisions(weigh: str) -> None:
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    sheet = sheet_of(recipe, an_ounce_kit(), weigh=weigh)
    steps = {scale["name"]: Fraction(scale["division_uoz"], 10**6) for scale in sheet["kit"]["scales"]}
    shown: dict[str | None, Fraction] = {}
    asked = 0
    for prompt in walk(sheet):
        told = prompt["weigh"]
        if told is None or told["reads_mg"] is None or told["how"] == "over":
            continue
        asked += 1
        add, reads = in_ounces(told["add"]), in_ounces(told["reads"])
        assert (add / steps[told["scale"]]).denominator == (reads / steps[told["scale"]]).denominator == 1
        if told["how"] == "running":
            before = shown.get(told["vessel"], Fraction(0)) if told["before_mg"] else Fraction(0)
            assert before + add == reads
            shown[told["vessel"]] = reads
    assert asked > 5


@given(st.lists(st.integers(1, 2000), min_size=1, max_size=12))
def test_what_was_weighed_adds_up_in_ounces(pours: list[int]) -> None:
    """Zeroed before each: the bowl holds what its lines hold to the milligram, and their sum in ounces is its own."""
    scale = of_scale("0.05 oz")
    sheet = sheet_of(make_recipe(*("60 g" for _ in pours)), make_kit(("330 lb", "0.05 oz")), weigh="tare")
    maker = Maker(sheet)
    for line, divisions in zip(sheet["lines"], pours, strict=True):
        mg = uoz_to_mg(divisions * 50_000)
        maker.tell("weighed", line=line["id"], mg=mg, reading_mg=mg)

    lines = [maker.state["lines"][line["id"]]["in_mg"] for line in sheet["lines"]]
    held = sum(vessel["in_mg"] for vessel in maker.state["vessels"].values())

    assert sum(lines) == held
    assert in_ounces(reading(held, scale)) == sum(in_ounces(reading(mg, scale)) for mg in lines)
    assert in_ounces(reading(held, scale)) == Fraction(sum(pours), 20)


def test_a_sheet_of_an_earlier_version_is_read_as_it_was() -> None:
    """It held an ounce scale's division in whole milligrams alone, and its batch goes on in grams."""
    sheet = sheet_of(make_recipe("150 g"), make_kit(("11 lb", "0.05 oz")))
    former = json.loads(json.dumps(sheet))
    del former["kit"]["scales"][0]["division_uoz"]

    assert Maker(former).prompt["weigh"]["reads"] == "150.202 g"  # 106 x 1417 mg
    assert "division_uoz" not in Maker(former).prompt["weigh"]
    assert line_of(former, "mix.1.l0") == line_of(sheet, "mix.1.l0")


@pytest.mark.parametrize(
    ("mg", "fineness", "said"),
    [
        (0, 1000, "0.00 oz"),
        (150_000, 1000, "5.29 oz"),
        (450, 10, "0.016 oz"),
        (45, 1, "0.0016 oz"),
        (453_592, 1000, "1 lb"),
        (544_311, 1000, "1 lb 3.2 oz"),  # 19.2 oz
        (907_185, 1000, "2 lb"),
        (2_000_000, 1000, "4 lb 6.5 oz"),
        (-150_000, 1000, "-5.29 oz"),
    ],
)
def test_a_mass_is_said_in_the_units_that_are_asked_for(mg: int, fineness: int, said: str) -> None:
    assert mass(mg, fineness).endswith(" g")
    with words.measuring(OUNCES):
        assert mass(mg, fineness) == said
        assert reading(150_000, Division(1000)) == "150 g"  # a scale that shows grams shows grams
    with words.measuring(OUNCES), words.speaking("de"):
        assert mass(mg, fineness) == said.replace(".", ",")


@pytest.mark.parametrize(
    ("mk", "said", "apart"),
    [
        (60_000, "140 °F", "108 °F"),
        (37_000, "99 °F", "66.6 °F"),
        (37_500, "99.5 °F", "67.5 °F"),
        (0, "32 °F", "0 °F"),
        (-40_000, "-40 °F", "-72 °F"),
    ],
)
def test_a_temperature_is_said_in_the_units_that_are_asked_for(mk: int, said: str, apart: str) -> None:
    assert temperature(mk) == warmer(mk) == f"{mk / 1000:g} °C"
    with words.measuring(FAHRENHEIT):
        assert (temperature(mk), warmer(mk)) == (said, apart)


def test_the_choice_is_read_as_it_is_written() -> None:
    assert [words.units_of(each) for each in ("g-c", "oz-c", "g-f", "oz-f")] == [
        ("g", "c"),
        ("oz", "c"),
        ("g", "f"),
        ("oz", "f"),
    ]
    assert {words.units_of(each) for each in ("", "oz", "oz-k", "stone-f", "oz-f-")} == {words.METRIC}
    with words.measuring(words.Units("oz", "f")), words.speaking("de"):
        assert words.manner() == "de-oz-f"
    assert words.manner() == "en-g-c"


def test_no_finding_says_celsius_to_who_asked_for_fahrenheit() -> None:
    recipe = read_recipe(written("recipes/fizzing-base-embed-whipped-top.json"))
    with words.measuring(words.Units("oz", "f")):
        told = json.dumps(
            check_recipe(recipe, {"temperature_c": 21, "humidity": 65}, demo_kit()), ensure_ascii=False
        )
    assert "°F" in told and "°C" not in told
