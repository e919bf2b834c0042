"""Words of ours that recipes and sheets of earlier versions hold, each known as the code that stands there today."""

from __future__ import annotations

import pytest

from bench.cautions import HAZARDS, by_code
from bench.former_words import coded
from bench.states import STATES

FORMER = {
    "hot_soap": "Melted soap clings and burns: 60 °C can burn deeply in about 5 s. Sleeves down, cold water near.",
    "hot_fat": "Hot butter or oil burns, and can catch. Low heat, never left alone, no water near it.",
    "powder": "Fine powder irritates eyes and lungs. Tip it low and slowly, mask on, no fan on the bench.",
    "alcohol": "Alcohol vapour lights easily: its flash point is near 12 °C. Heaters and flames off, window open.",
    "wet_sockets": "Wet hands and mains don't mix. Dry them before the plug, the switch or the mixer.",
    "superheated": "Microwaved liquid can boil over, when moved or stirred. Short bursts, then wait before you "
    "lift it.",
    "mixer": "Stop the mixer, unplug it: only then fingers or a spatula near the whisk.",
    "slippery": "Spilt oil or soap is slippery. Wipe it up before you carry anything.",
    "melted_base": "It sets in about 5 min: a skin first, then a plug.",
    "warm_fat": "It clouds and sets in about 15 min.",
    "wetted_fizz": "It dries and crumbles in about 30 min, sooner in dry air.",
    "whipped_base": "It sinks and dries in about 30 min.",
    "beaten_topping": "It stiffens in about 20 min and can no longer be piped.",
    "piped_top": "A skin forms in about 10 min.",
    "first_layer": "It goes cold in about 25 min, and the layers part.",
    "unwrapped": "It takes up water: in days at 40 % humidity, in hours at 70 %.",
    "too_wet": "Stop spraying. Spread it thin, turn it now and then.",
    "yes": "Yes, it does",
    "done": "done",
    "instead_of": "Instead of",
}


@pytest.mark.parametrize("code", FORMER)
def test_a_former_text_is_known(code: str) -> None:
    assert coded(FORMER[code]) == code
    assert coded(f"{FORMER[code]} ") == ""


def test_all_that_a_code_stands_for_today_had_its_words() -> None:
    assert set(FORMER) == {*HAZARDS, *STATES, "too_wet", "yes", "done", "instead_of"}


def test_cautions_in_words_are_told_apart_from_the_makers_own() -> None:
    own = "Mind the cat."

    assert by_code({"cautions": [FORMER["powder"], own, FORMER["mixer"], own]}) == {
        "hazards": ["powder", "mixer"],
        "cautions": [own],
    }
    assert by_code({"hazards": ["alcohol"], "cautions": [own]}) == {"hazards": ["alcohol"], "cautions": [own]}
    assert by_code({"cautions": [FORMER["piped_top"]]})["cautions"] == [FORMER["piped_top"]]
