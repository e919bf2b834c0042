"""Weeks by the dozen, from a seed: tiny ones that can be tried out in full, and whole ones as a maker has them.

Nothing here comes from a recipe. The whole ones follow common practice: sittings of half an hour to an hour and a
half, hours of setting or drying between them, moulds that are held meanwhile, pieces that keep for days or for weeks.
"""

from __future__ import annotations

import random
from typing import Any

Json = dict[str, Any]

MINUTE = 60_000
HALF = 30 * MINUTE
HOUR = 60 * MINUTE
DAY = 24 * HOUR
MONDAY = 1_795_392_000_000  # a Monday, 0:00 UTC
CLASSES = ("ruin", "back", "quality")


def sized(good: int, lasts: list[int], **other: Any) -> Json:
    """One size, its sittings in ms; `waits`: the least from the end of one to the start of the next."""
    waits, mosts = other.get("waits", [0] * (len(lasts) - 1)), other.get("mosts", [None] * (len(lasts) - 1))
    tail = other.get("tail", 0)
    apart = [
        {
            "from": place,
            "to": place + 1,
            "least_ms": lasts[place] + waits[place],
            "most_ms": None if mosts[place] is None else lasts[place] + waits[place] + mosts[place],
            "class": other.get("name", "quality"),
            "price_ms": HALF,
        }
        for place in range(len(lasts) - 1)
    ]
    sittings = [
        {
            "name": f"sitting {place + 1}",
            "lasts_ms": ms,
            "until_ms": ms + (tail if place == len(lasts) - 1 else 0),
        }
        for place, ms in enumerate(lasts)
    ]
    return {
        "pieces": good,
        "good": good,
        "hands_ms": sum(lasts),
        "sittings": sittings,
        "apart": apart,
        "holds": other.get("holds", []),
        "takes": other.get("takes", {}),
    }


def hold(key: str, many: int, one: int, begins: int, two: int, ends: int) -> Json:
    return {"equipment": key, "many": many, "from": one, "from_ms": begins, "until": two, "until_ms": ends}


def week_of(makes: list[Json], wants: list[Json], makers: list[Json], **other: Any) -> Json:
    return {
        "since": MONDAY,
        "zone": "UTC",
        "makers": makers,
        "equipment": other.get("equipment", {}),
        "wants": wants,
        "makes": makes,
        "there": other.get("there", []),
        "lots": other.get("lots", []),
        "busy": other.get("busy", []),
    }


def tiny(seed: int) -> Json:
    """One or two recipes, two days of few half hours."""
    dice = random.Random(seed)
    makers = []
    for place in range(dice.choice([1, 1, 2])):
        hours = []
        for day in range(2):
            for opens in dice.sample([9, 13, 18], dice.choice([1, 1, 2])):
                at = MONDAY + day * DAY + opens * HOUR
                hours.append([at, at + dice.randint(2, 4) * HALF])
        makers.append({"name": f"maker {place}", "hours": sorted(hours)})
    lots = []
    if dice.random() < 0.3:
        lots.append({"id": "lot", "ingredient": "salt", "mg": dice.randint(2, 6) * 1000, "since": MONDAY})
        lots[0]["until"] = dice.choice([None, MONDAY + 18 * HOUR])
    makes = [_tiny_make(dice, f"make {place}") for place in range(dice.choice([1, 1, 2]))]
    wants = [
        {
            "id": f"want {place}",
            "make": dice.choice(makes)["id"],
            "pieces": dice.randint(2, 7),
            "by": MONDAY + dice.choice([14, 20, 24 + 12, 24 + 16, 24 + 24]) * HOUR,
        }
        for place in range(dice.choice([1, 2, 3]))
    ]
    there = []
    if dice.random() < 0.3:
        there.append({"make": makes[0]["id"], "pieces": dice.randint(1, 4), "since": MONDAY})
        there[0]["until"] = dice.choice([None, MONDAY + DAY])
    equipment = {"mould": {"name": "mould", "many": dice.choice([1, 2])}}
    busy = []
    if dice.random() < 0.3:
        since = MONDAY + dice.choice([0, 9, 18, 33]) * HOUR
        busy.append({"equipment": "mould", "many": dice.choice([1, 2]), "since": since})
        busy[0]["until"] = since + dice.choice([1, 10, 30]) * HOUR
    return week_of(makes, wants, makers, equipment=equipment, there=there, lots=lots, busy=busy)


def tiny_with_a_part(seed: int) -> Json:
    """Two evenings: bars that each take a piece of a part made ahead, of which somebody may want some too."""
    dice = random.Random(seed)
    hours = [
        [at, at + dice.randint(2, 3) * HALF]
        for day in range(2)
        for at in [MONDAY + day * DAY + opens * HOUR for opens in sorted(dice.sample([9, 13, 18], 2))]
    ]
    part = {"id": "part", "title": "Part", "keeps_ms": dice.choice([None, 6 * HOUR, 20 * HOUR])}
    part["part"] = {"ingredient": "embed", "each": 1}
    part["sizes"] = [
        sized(good, [HALF], tail=dice.choice([0, HALF])) for good in dice.choice([[2], [3], [2, 4]])
    ]
    takes = dice.choice([1, 2])
    bars = {"id": "bars", "title": "Bars", "keeps_ms": dice.choice([None, 12 * HOUR])}
    bars["sizes"] = [
        sized(good, [(1 + place) * HALF], takes={"embed": takes * good // 2})
        for place, good in enumerate(dice.choice([[2], [2, 4], [4]]))
    ]
    dues = [MONDAY + at * HOUR for at in (14, 24 + 12, 24 + 16, 24 + 23)]
    wants = [{"id": "market", "make": "bars", "pieces": dice.randint(2, 6), "by": dice.choice(dues)}]
    if dice.random() < 0.4:
        wants.append({"id": "parts", "make": "part", "pieces": dice.randint(1, 2), "by": dice.choice(dues)})
    there = []
    if dice.random() < 0.4:
        there.append({"make": "part", "pieces": dice.randint(1, 2), "since": MONDAY})
        there[0]["until"] = dice.choice([None, MONDAY + DAY])
    return week_of([bars, part], wants, [{"name": "maker", "hours": hours}], there=there)


def _tiny_make(dice: random.Random, key: str) -> Json:
    count, sizes = dice.choice([1, 2, 2]), []
    waits = [dice.choice([0, HALF, 4 * HOUR, 12 * HOUR])]
    mosts = [dice.choice([None, HALF, 3 * HOUR])]
    name, held = dice.choice(CLASSES), dice.random() < 0.5
    good = sorted(dice.sample(range(2, 7), dice.choice([1, 2])))
    for place, pieces in enumerate(good):
        lasts = [(dice.randint(1, 2) + place) * HALF, *([HALF] * (count - 1))]
        holds = [hold("mould", 1 + place, 0, 0, count - 1, lasts[-1])] if held else []
        sizes.append(
            sized(
                pieces,
                lasts,
                waits=waits[: count - 1],
                mosts=mosts[: count - 1],
                name=name,
                holds=holds,
                takes={"salt": pieces * 500},
            )
        )
    return {"id": key, "title": key, "keeps_ms": dice.choice([None, None, 12 * HOUR]), "sizes": sizes}


def whole(seed: int, makers: int = 2, recipes: int = 6) -> Json:
    """A week of seven days: six recipes, eight to twelve batches' worth of wants, morning and evening hours."""
    dice = random.Random(seed)
    hands = []
    for place in range(makers):
        opens = [(9, 210), (19, 180)] if place == 0 else [(18, 240)]
        hours = [
            [MONDAY + day * DAY + at * HOUR, MONDAY + day * DAY + at * HOUR + lasts * MINUTE]
            for day in range(7)
            for at, lasts in opens
        ]
        hands.append({"name": f"maker {place}", "hours": hours})
    equipment = {
        "bowl": {"name": "bowl", "many": 2},
        "mixer": {"name": "mixer", "many": 1},
        "bar": {"name": "bar mould", "many": 24},
        "puck": {"name": "puck mould", "many": 30},
    }
    makes = [_make(dice, f"make {place}") for place in range(recipes)]
    wants: list[Json] = []
    for make in makes:
        for _ in range(dice.choice([1, 1, 2])):
            wants.append(
                {
                    "id": f"want {len(wants)}",
                    "make": make["id"],
                    "pieces": dice.randint(6, 24),
                    "by": MONDAY + dice.choice([3, 4, 5, 5, 6]) * DAY + dice.choice([8, 14, 17]) * HOUR,
                }
            )
    return week_of(makes, wants, hands, equipment=equipment)


def _make(dice: random.Random, key: str) -> Json:
    mould, tray = dice.choice([("bar", 6), ("puck", 10)])
    fixed, each = dice.randint(4, 9) * 5, dice.randint(1, 3) * 5
    setting, drying = dice.choice([2, 4, 6, 12]) * HOUR, dice.choice([0, 12, 24]) * HOUR
    most = dice.choice([20 * HOUR, 36 * HOUR, None])
    mixes = dice.random() < 0.5
    sizes = []
    for trays in range(1, 4):
        fill, turn = (fixed + each * trays) * MINUTE, (10 + 5 * trays) * MINUTE
        holds = [
            hold("bowl", 1, 0, 0, 0, fill),
            hold(mould, tray * trays, 0, fill - 10 * MINUTE, 1, turn),
        ]
        holds += [hold("mixer", 1, 0, 10 * MINUTE, 0, 25 * MINUTE)] if mixes else []
        lasts, waits, mosts = [fill, turn], [setting], [most]
        if drying:
            lasts, waits, mosts = [*lasts, 15 * MINUTE + 5 * trays * MINUTE], [*waits, drying], [*mosts, None]
        sizes.append(sized(int(tray * trays * 0.95), lasts, waits=waits, mosts=mosts, holds=holds))
    return {"id": key, "title": key, "keeps_ms": dice.choice([None, None, 3 * DAY]), "sizes": sizes}
