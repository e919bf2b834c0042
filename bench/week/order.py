"""The order of work around a plan: which finished pieces are for whom, what is left to make, and what each line gets."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from bench.shapes.week import (
    BatchBegun,
    BegunRun,
    OrderLine,
    OrderWant,
    StockedPieces,
    Want,
    WeekBatch,
    WeekPlan,
)

Promises = dict[str, dict[str, int]]  # line of the order -> batch -> finished pieces


class ToMake(NamedTuple):
    """What is left to make: wants of one recipe by one instant are one, and `lines` says whose each is."""

    wants: list[Want]
    lines: dict[str, list[tuple[str, int]]]  # want -> (line, pieces), the first line first
    past: list[str]  # lines whose instant is past
    later: list[str]  # lines beyond what is planned at once


def promised(order: Iterable[OrderWant], stock: Sequence[StockedPieces]) -> Promises:
    """Finished pieces to lines: to the first wanted first, and of those that go off first. No other way serves more."""
    by_recipe: dict[str, list[StockedPieces]] = {}
    for each in sorted(stock, key=lambda one: (one["until"] is None, one["until"] or 0, one["run"])):
        by_recipe.setdefault(each["recipe"], []).append(each)
    left = {each["run"]: each["pieces"] for each in stock}
    found: Promises = {}
    for line in by_instant(order):
        lacks = line["pieces"]
        for each in by_recipe.get(line["recipe"], []):
            some = min(lacks, left[each["run"]])
            if some > 0 and (each["until"] is None or line["by"] <= each["until"]):
                found.setdefault(line["id"], {})[each["run"]] = some
                left[each["run"]] -= some
                lacks -= some
    return found


def to_make(
    order: Iterable[OrderWant], promises: Promises, at: int, last: int, most: int, most_recipes: int
) -> ToMake:
    """What is wanted after `at` and no later than `last`, less what is promised: so many wants and recipes at most."""
    told = ToMake([], {}, [], [])
    places: dict[tuple[str, int], Want] = {}
    recipes: set[str] = set()
    is_full = False
    for line in by_instant(order):
        pieces = line["pieces"] - sum(promises.get(line["id"], {}).values())
        if line["by"] <= at:
            told.past.append(line["id"])
            continue
        if not pieces:
            continue
        key = line["recipe"], line["by"]
        want = places.get(key)
        if want is None:
            many = len(told.wants) >= most or len(recipes | {line["recipe"]}) > most_recipes
            is_full = is_full or many or line["by"] > last
            if is_full:
                told.later.append(line["id"])
                continue
            want = {"id": str(len(told.wants)), "make": line["recipe"], "pieces": 0, "by": line["by"]}
            places[key] = want
            recipes.add(line["recipe"])
            told.wants.append(want)
            told.lines[want["id"]] = []
        want["pieces"] += pieces
        told.lines[want["id"]].append((line["id"], pieces))
    return told


def by_instant(order: Iterable[OrderWant]) -> list[OrderWant]:
    return sorted(order, key=lambda line: (line["by"], line["id"]))


def order_lines(promises: Promises, made: ToMake, plan: WeekPlan | None) -> list[OrderLine]:
    """What each line gets: of one want's lines, the first is served first."""
    found: dict[str, OrderLine] = {
        line: {"want": line, "there": sum(runs.values()), "coming": 0, "made": 0, "short": 0}
        for line, runs in promises.items()
    }
    for want in made.wants:
        coming = plan["from_there"].get(want["id"], 0) if plan else 0
        planned = sum(batch["gives"].get(want["id"], 0) for batch in plan["batches"]) if plan else 0
        for line, pieces in made.lines[want["id"]]:
            told = found.setdefault(line, {"want": line, "there": 0, "coming": 0, "made": 0, "short": 0})
            told["coming"] = min(pieces, coming)
            told["made"] = min(pieces - told["coming"], planned)
            told["short"] = pieces - told["coming"] - told["made"]
            coming -= told["coming"]
            planned -= told["made"]
    return list(found.values())


def begun_for(batches: Sequence[WeekBatch], runs: Iterable[BegunRun]) -> list[BatchBegun]:
    """Which planned batch each run is: of its recipe the first planned that was not begun."""
    open_places = dict(enumerate(batches))
    found: list[BatchBegun] = []
    for run in sorted(runs, key=lambda each: (each["begun_at"], each["run"])):
        place = next((at for at, batch in open_places.items() if batch["make"] == run["recipe"]), None)
        if place is not None:
            del open_places[place]
            found.append({**run, "batch": place})
    return found
