"""What of the shelf a week hangs on: lots of what there may be too little of, and when an order of it would be here."""

from typing import NamedTuple

from bench.shapes.units import Id, InstantMs
from bench.shapes.week import Make, Want, Week, WeekLot
from bench.week.aim_by_aim import MOST_BATCHES
from bench.week.units import COUNTED, InUnits
from bench.whole import ceiling

ORDER = "order."  # how the lot is named that an order would be


class OnCard(NamedTuple):
    """What is free of a card: its lots, those that go off first coming first, and when an order would be here."""

    lots: list[tuple[str, int, InstantMs | None]]  # id, how much, mixed by then; None: it keeps
    ordered_from: InstantMs | None  # None: nobody knows, and then it is thought to be here in time


def with_lots(week: Week, cards: dict[str, dict[Id, str]], shelf: dict[str, OnCard]) -> Week:
    """The week with what its batches take by the shelf's cards, and with the lots that could hold one of them up.

    cards: make -> ingredient of its recipe -> card; what has none is not counted. shelf: by card, after `COUNTED` for
    what is there in pieces. What there is enough of until the last want is left out, and so is a part of it that nobody
    wants else; and what nobody makes or knows the lead time of: what lacks of it is told by `to_buy`.
    """
    makes: list[Make] = [
        {
            **make,
            "sizes": [
                {**size, "takes": _by_card(size["takes"], cards[make["id"]])} for size in make["sizes"]
            ],
        }
        for make in week["makes"]
    ]
    last = max(want["by"] for want in week["wants"])
    needed = InUnits({**week, "makes": makes, "lots": []}).needed()
    made = {make["part"]["ingredient"] for make in makes if "part" in make}
    enough: set[str] = set()
    lots: list[WeekLot] = []
    for card in sorted({card for make in makes for size in make["sizes"] for card in size["takes"]}):
        there = shelf.get(card, OnCard([], None))
        need = sum(_need(make, pieces, card) for make, pieces in zip(makes, needed, strict=True))
        if need <= _lasting(there, last):
            enough.add(card)
        elif card in made or there.ordered_from is not None:
            lots += _lots_of(card, there, need, week["since"])
    return {**week, "makes": _still_made(makes, week["wants"], enough), "lots": lots}


def _lots_of(card: str, there: OnCard, need: int, since: InstantMs) -> list[WeekLot]:
    lots: list[WeekLot] = [
        {"id": lot, "ingredient": card, "mg": much, "since": since, "until": until}
        for lot, much, until in there.lots
        if much > 0 and (until is None or until > since)
    ]
    if there.ordered_from is not None:
        order: WeekLot = {
            "id": f"{ORDER}{card}",
            "ingredient": card,
            "mg": need * MOST_BATCHES,
            "since": there.ordered_from,
            "until": None,
        }
        lots.append(order)
    return lots


def _still_made(makes: list[Make], wants: list[Want], enough: set[str]) -> list[Make]:
    wanted = {want["make"] for want in wants}
    found: list[Make] = []
    for make in makes:
        if "part" in make and make["part"]["ingredient"] in enough:
            make.pop("part")
        if "part" in make or make["id"] in wanted:
            found.append(make)
    return found


def _by_card(takes: dict[Id, int], cards: dict[Id, str]) -> dict[str, int]:
    found: dict[str, int] = {}
    for key, much in takes.items():
        ingredient = key.removeprefix(COUNTED)
        if ingredient in cards:
            card = key.removesuffix(ingredient) + cards[ingredient]
            found[card] = found.get(card, 0) + much
    return found


def _need(make: Make, pieces: int, card: str) -> int:
    """The most that the batches of a recipe could take: as many as give so many pieces at the size that takes most a
    piece, and one more, since sizes are whole."""
    each = [(size["takes"].get(card, 0), size["good"]) for size in make["sizes"] if size["good"] and pieces]
    return max((much * (ceiling(pieces, good) + 1) for much, good in each), default=0)


def _lasting(there: OnCard, last: InstantMs) -> int:
    return sum(much for _, much, until in there.lots if until is None or until >= last)
