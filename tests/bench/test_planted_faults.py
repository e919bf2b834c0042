"""Planted faults are found; recipes that are sound are left in peace.

The faults and the sound recipes stand in `faults/`. They were made by people who had not read the rules, at two times.
Of the second set's 33 faults 17 were found at first, and 2 of 12 sound recipes had a false alarm; then the rules were
mended as classes.
"""

from __future__ import annotations

import copy
import re
from functools import cache
from typing import Any

import pytest
from faults.planted import DESK, OWN, Fault
from faults.planted_again import AGAIN
from faults.sound import SOUND as FIRST
from faults.sound_again import AGAIN as SOUND_AGAIN
from workshop import demo_kit

from bench import BenchError, check_recipe, read_recipe

Json = dict[str, Any]
FAULTS = [*DESK, *OWN, *AGAIN]
SOUND = {**FIRST, **SOUND_AGAIN}


def said_of(document: Json, air: tuple[float, float] | None = None) -> list[Json]:
    """All that is found, with no kit and with one; a recipe that is not read has its refusal for a finding."""
    room = {"temperature_c": air[0], "humidity": air[1]} if air else None
    try:
        measured = read_recipe(document)
    except BenchError as fault:
        return [{"level": "will_not_run", "where": fault.where, "what": fault.says, "refused": True}]
    found: list[Json] = []
    for kit in (None, demo_kit()):
        found.extend(each for each in check_recipe(measured, room, kit) if each not in found)
    return found


@cache
def said_of_sound(id: str) -> list[Json]:
    return said_of(copy.deepcopy(SOUND[id].document))


def words_of(finding: Json) -> str:
    return " | ".join(str(finding.get(key, "")) for key in ("what", "why", "do"))


def bare(words: str, document: Json) -> str:
    """Without what the recipe itself calls things, and without what is quoted from it."""
    names = sorted((each["name"] for each in document["ingredients"].values()), key=len, reverse=True)
    for name in names:
        words = re.sub(re.escape(name), "…", words, flags=re.IGNORECASE)
    return re.sub(r"“[^”]*”", "…", words)


def counts(finding: Json, fault: Fault, document: Json) -> bool:
    everything = f"{finding['where']} | {finding.get('place', '')} | {words_of(finding)}"
    first, *rest = fault.found
    own_words = everything if finding.get("refused") else bare(words_of(finding), document)
    return bool(re.search(first, everything, re.IGNORECASE)) and all(
        re.search(each, own_words, re.IGNORECASE) for each in rest
    )


@cache
def findings_of(id: str) -> list[Json]:
    """The findings that a fault made, and the sound recipe has not."""
    fault = next(each for each in FAULTS if each.id == id)
    before = {(each["where"], each["what"]) for each in said_of_sound(fault.upon)}
    document = fault.document
    made = [each for each in said_of(document, fault.air) if (each["where"], each["what"]) not in before]
    return [each for each in made if counts(each, fault, document)]


# Planted and not found: each by its name, so that none is missed in silence.
MISSED: frozenset[str] = frozenset()
# What hurts people, and is said no louder than good to know.
MILD: frozenset[str] = frozenset()
FOUND_AT_LEAST = 0.95
ALARMS_AT_MOST = 1  # a sound recipe

# What is asked or said of a sound recipe at "look", and rightly: true, and of use to its maker.
RIGHTLY: dict[str, tuple[str, ...]] = {
    # The maker says that it looks like food, and the duty to weigh it is the law's.
    "like-food": (
        *("bath_melts", "bath_whip", "bubble_bars", "coffee_scrub", "shower_jelly", "sugar_scrub"),
        *("three_parts", "truffles", "whipped_butter", "whipped_scrub"),
    ),
    "citric-form": ("badekugeln", "sales"),  # it is not said, and it is 9 % of the acid
    "water-bath": ("badekugeln", "bath_melts", "foam_bombs", "three_parts"),  # nothing wipes the jug dry
    "alcohol-heater": ("embeds", "foam_bombs", "three_parts", "two_layers"),  # nothing keeps them apart
    "unknown-kind": ("bare_salts", "rebatch", "sachets", "shower_jelly"),  # a question
    "too-small": ("embeds", "three_parts"),  # 0.2 g on the demo's kit
    "colour-use": ("bubble_bars",),  # CI 77289 is for outside use in the US
    "in-fizz-draws-water": ("sales",),  # a quarter of sea salt
    "trait-airways": ("foot_soak",),  # peppermint, and nothing is said of children
}


def alarms_of(id: str) -> list[Json]:
    return [
        each
        for each in said_of_sound(id)
        if each["level"] != "know" and id not in RIGHTLY.get(each["rule"], ())
    ]


@pytest.mark.parametrize("fault", FAULTS, ids=[each.id for each in FAULTS])
def test_a_planted_fault_is_found(fault: Fault) -> None:
    assert bool(findings_of(fault.id)) != (fault.id in MISSED), fault.what


def test_so_many_of_the_planted_faults_are_found() -> None:
    assert (
        len(DESK) >= 39
        and len(OWN) >= 60
        and len(AGAIN) >= 20
        and len({each.id for each in FAULTS}) == len(FAULTS)
    )
    assert MISSED <= {each.id for each in FAULTS}
    assert len(MISSED) <= (1 - FOUND_AT_LEAST) * len(FAULTS), sorted(MISSED)


def test_what_hurts_people_is_not_merely_good_to_know() -> None:
    mild = {
        fault.id
        for fault in FAULTS
        if fault.harm == "hurts" and {each["level"] for each in findings_of(fault.id)} == {"know"}
    }
    assert mild == MILD


def test_sound_recipes_are_left_in_peace() -> None:
    assert len(SOUND) >= 40 and all(each.ground for each in SOUND.values())
    alarms = {id: [f"{each['where']}: {each['what']}" for each in alarms_of(id)] for id in SOUND}
    assert sum(map(len, alarms.values())) <= ALARMS_AT_MOST * len(SOUND), alarms


def test_what_is_rightly_said_is_said() -> None:
    said = {(each["rule"], id) for id in SOUND for each in said_of_sound(id)}
    assert {(rule, id) for rule, ids in RIGHTLY.items() for id in ids} <= said
