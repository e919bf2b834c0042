"""When it cannot be: who could be served instead, and what helps, each found by planning for the pieces alone again
with one thing loosened."""

from collections.abc import Callable, Iterator

from bench.planning.solver import available
from bench.shapes.planning import Equipment
from bench.shapes.week import Want, Week, WeekHelp, WeekLot, WeekPlan
from bench.week.aim_by_aim import MOST_BATCHES, Search, places_of
from bench.week.bound import least_short
from bench.week.joint import Joint
from bench.week.measure import measure
from bench.week.units import InUnits

HOUR_MS = 3_600_000
DAY_MS = 24 * HOUR_MS
MOST_LOOKED_AT = 40  # by the bound alone, which is quick
MOST_TRIED = 5
MOST_SERVED = 4
WORK_EACH = 1.0  # the solver's own seconds


def with_helps(week: Week, plan: WeekPlan, cancelled: Callable[[], bool] = lambda: False) -> WeekPlan:
    """The plan, and where something is short: who could be met instead, and what would help, the best first.

    cancelled is asked between one question and the next; on True what was found so far is given.
    """
    if not plan["short"]:
        return plan
    return {**plan, "served": _served(week, plan, cancelled), "helps": _helps(week, plan, cancelled)}


def _served(week: Week, plan: WeekPlan, cancelled: Callable[[], bool]) -> list[list[str]]:
    """For each want that is short now: the wants that can all be met when it is, where that can be at all."""
    found: list[list[str]] = []
    if not available():
        return found
    units = InUnits(week)
    for each in plan["short"][:MOST_SERVED]:
        if cancelled():
            break
        want = next(number for number, one in enumerate(week["wants"]) if one["id"] == each["want"])
        search = Search(units, WORK_EACH)
        model = Joint(units, places_of(units, search.made), {})
        model.model.add(model.short[want] == 0)
        model.hint(search.made)
        made = model.best("short", search.work, WORK_EACH).made
        if made is not None:
            short = made.short(units)
            met = [one["id"] for number, one in enumerate(week["wants"]) if number not in short]
            if met not in found:
                found.append(met)
    return found


def _helps(week: Week, plan: WeekPlan, cancelled: Callable[[], bool]) -> list[WeekHelp]:
    now = sum(each["short"] for each in plan["short"])
    looked: list[tuple[int, int, WeekHelp, Week]] = []
    for number, (told, other) in enumerate(_one_loosened(week, plan)):
        if number >= MOST_LOOKED_AT or cancelled():
            break
        least = least_short(InUnits(other)) if available() else 0
        if least < now:
            looked.append((least, number, told, other))
    looked.sort(key=lambda each: each[:2])
    found: list[WeekHelp] = []
    for _, _, told, other in looked[:MOST_TRIED]:
        if cancelled():
            break
        search = Search(InUnits(other), WORK_EACH)
        for _ in search.aim_by_aim(("short",)) if available() else ():
            pass
        short = measure(search.units, search.made)["short"]
        if short < now:
            found.append({**told, "short": short})
    return sorted(found, key=lambda each: each["short"])


def _one_loosened(week: Week, plan: WeekPlan) -> Iterator[tuple[WeekHelp, Week]]:
    yield from _later(week, plan)
    yield from _more_kit(week)
    yield from _more_stock(week)
    yield from _longer(week)


def _later(week: Week, plan: WeekPlan) -> Iterator[tuple[WeekHelp, Week]]:
    for each in plan["short"]:
        wants: list[Want] = [
            {**want, "by": want["by"] + DAY_MS} if want["id"] == each["want"] else want
            for want in week["wants"]
        ]
        yield {"what": "later", "short": 0, "want": each["want"], "ms": DAY_MS}, {**week, "wants": wants}


def _more_kit(week: Week) -> Iterator[tuple[WeekHelp, Week]]:
    """One more of a thing; of moulds, a tray more: as many as the smallest batch fills."""
    for key, thing in week["equipment"].items():
        fills = [
            hold["many"]
            for make in week["makes"]
            for size in make["sizes"]
            for hold in size["holds"]
            if hold["equipment"] == key
        ]
        if fills:
            one: Equipment = {**thing, "many": thing["many"] + min(fills)}
            more: dict[str, Equipment] = {**week["equipment"], key: one}
            yield {"what": "equipment", "short": 0, "equipment": key}, {**week, "equipment": more}


def _more_stock(week: Week) -> Iterator[tuple[WeekHelp, Week]]:
    """As much of an ingredient as anybody takes; of a part made ahead too."""
    last = max(want["by"] for want in week["wants"])
    for ingredient in sorted(InUnits(week).counted()):
        much = sum(
            max(size["takes"].get(ingredient, 0) for size in make["sizes"]) * MOST_BATCHES
            for make in week["makes"]
        )
        lot: WeekLot = {
            "id": "more",
            "ingredient": ingredient,
            "mg": much,
            "since": week["since"],
            "until": last,
        }
        yield {"what": "lot", "short": 0, "ingredient": ingredient}, {**week, "lots": [*week["lots"], lot]}


def _longer(week: Week) -> Iterator[tuple[WeekHelp, Week]]:
    """One stretch of one maker that closes an hour later."""
    last = max(want["by"] for want in week["wants"])
    for number, maker in enumerate(week["makers"]):
        for place, (opens, closes) in enumerate(maker["hours"]):
            if opens >= last:
                break
            after = maker["hours"][place + 1][0] if place + 1 < len(maker["hours"]) else closes + HOUR_MS
            longer = [opens, min(closes + HOUR_MS, after)]
            hours = [*maker["hours"][:place], longer, *maker["hours"][place + 1 :]]
            makers = [*week["makers"]]
            makers[number] = {**maker, "hours": hours}
            told: WeekHelp = {"what": "hours", "short": 0, "maker": number, "at": closes, "ms": HOUR_MS}
            yield told, {**week, "makers": makers}
