"""The best of a tiny week by trying every batch at every start: slow, plain, and apart from the planner."""

from __future__ import annotations

from itertools import product
from typing import Any, NamedTuple

from tests.week.weeks import DAY, HALF, MONDAY

Json = dict[str, Any]
Value = tuple[int, int, int, int, int]  # short, back, quality, batches, hands in half hours

HORIZON = 2 * DAY // HALF


def ways_there_are(week: Json, places: dict[str, int]) -> int:
    """How many ways there would be, if none were ruled out."""
    count = 1
    for make in week["makes"]:
        count *= (1 + len(_ways(week, make))) ** places[make["id"]]
    return count


class Way(NamedTuple):
    """One batch with its times, in half hours."""

    spans: list[tuple[int, int, int]]  # maker, begins, ends
    holds: list[tuple[str, int, int, int]]
    ready: int
    good: int
    hands: int
    back: int
    quality: int
    takes: dict[str, int]


def best(week: Json, places: dict[str, int]) -> Value:
    """The least over all ways. places: how many batches of each make may be made."""
    ways = {make["id"]: _ways(week, make) for make in week["makes"]}
    slots = [make["id"] for make in week["makes"] for _ in range(places[make["id"]])]
    found: list[Value] = []

    def go(slot: int, first: int, chosen: list[tuple[str, Way]]) -> None:
        if found and not _could_win(week, slots[slot:], ways, chosen, found[0]):
            return
        value = _value(week, chosen)
        if _parts_last(week, chosen) and (not found or value < found[0]):
            found[:] = [value]
        for place in range(slot, len(slots)):
            begin = first if place == slot else 0
            if place > slot and slots[place] == slots[place - 1]:
                continue  # an empty place before a used one of the same recipe is nothing new
            for number in range(begin, len(ways[slots[place]])):
                way = ways[slots[place]][number]
                if _fits(week, way, chosen):
                    again = number if place + 1 < len(slots) and slots[place + 1] == slots[place] else 0
                    go(place + 1, again, [*chosen, (slots[place], way)])

    go(0, 0, [])
    return found[0]


def _could_win(
    week: Json, left: list[str], ways: dict[str, list[Way]], chosen: list[tuple[str, Way]], best: Value
) -> bool:
    """Whether what could still be added may beat the best: all of it good for everybody."""
    short = 0
    for key in ways:
        wanted = sum(want["pieces"] for want in week["wants"] if want["make"] == key)
        there = sum(each["pieces"] for each in week["there"] if each["make"] == key)
        mine = sum(way.good for of, way in chosen if of == key)
        more = left.count(key) * max((way.good for way in ways[key]), default=0)
        short += max(0, wanted - there - mine - more)
    spent = (sum(way.back for _, way in chosen), sum(way.quality for _, way in chosen), len(chosen))
    return (short, *spent, sum(way.hands for _, way in chosen)) < best


def _halves(ms: int) -> int:
    whole, rest = divmod(ms, HALF)
    assert not rest
    return whole


def _ways(week: Json, make: Json) -> list[Way]:
    found = []
    hours = [
        [tuple((at - MONDAY) // HALF for at in span) for span in maker["hours"]] for maker in week["makers"]
    ]
    for size in make["sizes"]:
        lasts = [_halves(sitting["lasts_ms"]) for sitting in size["sittings"]]
        each = [
            [
                (maker, at, at + length)
                for maker, spans in enumerate(hours)
                for opens, closes in spans
                for at in range(opens, closes - length + 1)
            ]
            for length in lasts
        ]
        for spans in product(*each):
            way = _way(size, list(spans))
            if way is not None:
                found.append(way)
    return found


def _way(size: Json, spans: list[tuple[int, int, int]]) -> Way | None:
    back = quality = brought = 0
    for gap in size["apart"]:
        apart = spans[gap["to"]][1] - spans[gap["from"]][1]
        if apart < _halves(gap["least_ms"]):
            return None
        if gap["most_ms"] is not None and apart > _halves(gap["most_ms"]):
            if gap["class"] == "ruin":
                return None
            if gap["class"] == "back":
                back += _halves(gap["price_ms"])
                brought += 1
            else:
                quality += 1
    if brought > 2:
        return None
    holds = [
        (
            each["equipment"],
            each["many"],
            spans[each["from"]][1] + _halves(each["from_ms"]),
            spans[each["until"]][1] + _halves(each["until_ms"]),
        )
        for each in size["holds"]
    ]
    ready = max(
        span[1] + _halves(sitting["until_ms"]) for span, sitting in zip(spans, size["sittings"], strict=True)
    )
    return Way(spans, holds, ready, size["good"], _halves(size["hands_ms"]), back, quality, size["takes"])


def _fits(week: Json, way: Way, chosen: list[tuple[str, Way]]) -> bool:
    for _, other in chosen:
        for maker, begins, ends in way.spans:
            if any(maker == of and begins < two and one < ends for of, one, two in other.spans):
                return False
    every = [held for _, other in chosen for held in other.holds] + way.holds
    on_bench = [
        (each["equipment"], each["many"], _halves(each["since"] - MONDAY), _halves(each["until"] - MONDAY))
        for each in week["busy"]
    ]
    for key, thing in week["equipment"].items():
        those = [held for held in every if held[0] == key]
        busy = [held for held in on_bench if held[0] == key]
        for _, _, at, _ in [*those, *busy]:
            mine = sum(many for _, many, one, two in those if one <= at < two)
            if mine and mine + sum(many for _, many, one, two in busy if one <= at < two) > thing["many"]:
                return False
    return _lots_last(week, [*(each for _, each in chosen), way])


def _lots_last(week: Json, ways: list[Way]) -> bool:
    """There is one lot at most."""
    for lot in week["lots"]:
        if sum(way.takes.get(lot["ingredient"], 0) for way in ways) > lot["mg"]:
            return False
        if lot["until"] is not None and any(MONDAY + way.spans[0][1] * HALF > lot["until"] for way in ways):
            return False
    return True


def _value(week: Json, chosen: list[tuple[str, Way]]) -> Value:
    ways = [way for _, way in chosen]
    short = _short(week, chosen)
    return (
        short,
        sum(way.back for way in ways),
        sum(way.quality for way in ways),
        len(ways),
        sum(way.hands for way in ways),
    )


def _parts_last(week: Json, chosen: list[tuple[str, Way]]) -> bool:
    return _flow(week, chosen)[0] == 0


def _short(week: Json, chosen: list[tuple[str, Way]]) -> int:
    """What is short at the least."""
    return _flow(week, chosen)[1]


def _flow(week: Json, chosen: list[tuple[str, Way]]) -> tuple[int, int]:
    """What batches lack of parts, and what the wants lack once no batch does: a flow from what there is to what is
    asked for, made larger piece by piece. A part is counted in pieces here, each of which is one."""
    keeps = {make["id"]: make["keeps_ms"] for make in week["makes"]}
    gives = []  # (how many, make, from, until)
    for key, way in chosen:
        since = MONDAY + way.ready * HALF
        gives.append((way.good, key, since, None if keeps[key] is None else since + keeps[key]))
    gives += [(each["pieces"], each["make"], each["since"], each["until"]) for each in week["there"]]
    parts = {make["part"]["ingredient"]: make["id"] for make in week["makes"] if "part" in make}
    asked = [  # (how many, make, at): the batches first
        (many, parts[key], MONDAY + way.spans[0][1] * HALF)
        for _, way in chosen
        for key, many in way.takes.items()
        if key in parts
    ]
    of_batches = len(asked)
    asked += [(want["pieces"], want["make"], want["by"]) for want in week["wants"]]
    edges = [
        [make == of and since <= at and (until is None or at <= until) for _, of, at in asked]
        for _, make, since, until in gives
    ]
    flow = [[0] * len(asked) for _ in gives]
    left = [many for many, *_ in gives]
    lacks = []
    for last in (of_batches, len(asked)):
        room = [many if place < last else 0 for place, (many, *_) in enumerate(asked)]
        for place in range(len(gives)):
            while left[place] and _more(place, edges, flow, room, set()):
                left[place] -= 1
        lacks.append(sum(room) - sum(map(sum, flow)))
    return lacks[0], lacks[1] - lacks[0]


def _more(
    place: int, edges: list[list[bool]], flow: list[list[int]], room: list[int], seen: set[int]
) -> bool:
    for want, could in enumerate(edges[place]):
        if not could or want in seen:
            continue
        seen.add(want)
        if sum(row[want] for row in flow) < room[want]:
            flow[place][want] += 1
            return True
        for other, row in enumerate(flow):
            if row[want] and other != place and _more(other, edges, flow, room, seen):
                row[want] -= 1
                flow[place][want] += 1
                return True
    return False
