"""Metal does not go into a microwave: what is proposed, what is said at the size, and what is asked at the bench."""

from __future__ import annotations

import pytest
from checking import SOAP, make, melt, weigh
from workshop import Maker, make_kit, sheet_of, step_of, unlike

from bench import read_kit, read_recipe
from bench.materials import is_metal
from bench.sheet_words import warning_words


def vessel(name, holds="3 kg", kind="bowl", **about):
    return {"id": name, "name": name, "kind": kind, "empty": "200 g", "holds": holds, **about}


def kit(*vessels):
    return make_kit(("10 kg", "1 g"), vessels=list(vessels))


def melted(heater="microwave", amount="1000 g", into="bowl"):
    steps = [
        weigh("in", "l0", into=into),
        melt("l0", heater=heater),
        {"id": "pour", "kind": "pieces", "title": "Pour"},
    ]
    return read_recipe(make(amount, facts=[SOAP], steps=steps))


STEEL, GLASS = vessel("steel", material="steel"), vessel("glass", "4 kg", material="glass")


def bowl_of(sheet):
    (bowl,) = {each["kit"] for each in sheet["vessels"]}
    return bowl


@pytest.mark.parametrize(
    ("name", "material", "metal"),
    [
        ("Big bowl", "steel", True),
        ("Big bowl", "enamel", True),  # glass on steel
        ("Steel grey bowl", "porcelain", False),  # what is said counts, not the name
        ("Big steel bowl", "", True),
        ("Edelstahlschüssel", "", True),
        ("Bol émaillé", "", True),
        ("Tinted bowl", "", False),
        ("White heatproof bowl", "", False),
    ],
)
def test_what_is_metal_is_said_by_the_kit_or_told_by_its_name(name, material, metal):
    told = vessel("v", **({"material": material} if material else {})) | {"name": name}
    assert is_metal(kit(told)["vessels"][0]) is metal


def test_a_kit_of_earlier_stays_as_it_was_read():
    assert "material" not in kit(vessel("bowl"))["vessels"][0]
    with pytest.raises(Exception, match="material"):
        read_kit({"format": "bowlside-kit/1", "scales": [], "vessels": [vessel("bowl", material="gold")]})


def test_no_metal_is_proposed_for_a_microwave_where_there_is_another():
    both = kit(STEEL, GLASS)
    assert bowl_of(sheet_of(melted(), both)) == "glass"
    assert bowl_of(sheet_of(melted("water_bath"), both)) == "steel"
    assert not sheet_of(melted(), both)["warnings"]
    two_jugs = kit(vessel("bowl"), {**STEEL, "kind": "jug"}, {**GLASS, "kind": "jug"})
    assert "glass" in {each["kit"] for each in sheet_of(melted(into="jug"), two_jugs)["vessels"]}


def test_rather_two_rounds_than_metal():
    """3 kg into steel at once, or in two rounds of glass that holds 2 kg."""
    sheet = sheet_of(melted(amount="3000 g"), kit(STEEL, vessel("glass", "2 kg", material="glass")))
    assert bowl_of(sheet) == "glass" and len(sheet["components"][0]["rounds"]) == 2


def test_where_metal_is_all_there_is_the_size_and_the_bench_say_so():
    jug = {**GLASS, "kind": "jug"}
    sheet = sheet_of(melted(), kit(STEEL, jug))
    assert not unlike("sheet/Sheet", sheet)
    (warning,) = sheet["warnings"]
    assert "steel is metal" in warning_words(warning)

    maker = Maker(sheet)
    maker.run_to("mix.1.melt")
    begin = maker.prompt["answers"][0]
    assert maker.prompt["says"].startswith("steel is metal.") and "steel is metal" in begin["ask"]
    maker.choose("took_glass")
    assert "metal" not in maker.prompt["says"] and not maker.prompt["answers"][0]["ask"]


def test_a_sheet_of_earlier_says_nothing_of_metal():
    sheet = sheet_of(melted(), kit(STEEL))
    step_of(sheet, "mix.1.melt").pop("vessels")
    maker = Maker(sheet)
    maker.run_to("mix.1.melt")
    assert "metal" not in maker.prompt["says"]
