"""What of the shelf a week hangs on: lots of what there may be too little of, and when an order of it would be here."""

from typing import NamedTuple

from bench.shapes.units import Id, InstantMs, Mg
from bench.shapes.week import Make, Want, Week, WeekLot
from bench.week.aim_by_aim import MOST_BATCHES
from bench.whole import ceiling

ORDER = "order."  # how the lot is named that an order would be


class OnCard(NamedTuple):
    """What is free of a card: its lots, those that go off first coming first, and when an order would be here."""

    lots: list[tuple[str, Mg, InstantMs | None]]  # id, how much, mixed by then; None: it keeps
    ordered_from: InstantMs | None  # None: nobody knows, and then it is thought to be here in time


def with_lots(week: Week, cards: dict[str, dict[Id, str]], shelf: dict[str, OnCard]) -> Week:
    """The week with what its batches take by the shelf's cards, and with the lots that could hold one of them up.

    cards: make -> ingredient of its recipe -> card; what has none is not counted. What there is enough of until the
    last want is left out, and what nobody knows the lead time of: what lacks of it is told by `to_buy`.
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
    lots: list[WeekLot] = []
    for card in sorted({card for make in makes for size in make["sizes"] for card in size["takes"]}):
        there = shelf.get(card)
        need = sum(_need(make, week["wants"], card) for make in makes)
        if there is None or there.ordered_from is None or need <= _lasting(there, last):
            continue
        lots += [
            {"id": lot, "ingredient": card, "mg": mg, "since": week["since"], "until": until}
            for lot, mg, until in there.lots
            if mg > 0 and (until is None or until > week["since"])
        ]
        lots.append(
            {
                "id": f"{ORDER}{card}",
                "ingredient": card,
                "mg": need * MOST_BATCHES,
                "since": there.ordered_from,
                "until": None,
            }
        )
    return {**week, "makes": makes, "lots": lots}


def _by_card(takes: dict[Id, Mg], cards: dict[Id, str]) -> dict[str, Mg]:
    found: dict[str, Mg] = {}
    for ingredient, mg in takes.items():
        if ingredient in cards:
            found[cards[ingredient]] = found.get(cards[ingredient], 0) + mg
    return found


def _need(make: Make, wants: list[Want], card: str) -> Mg:
    """The most that the batches of a recipe could take: as many as meet its wants at the size that takes most a piece,
    and one more, since sizes are whole."""
    pieces = sum(want["pieces"] for want in wants if want["make"] == make["id"])
    each = [(size["takes"].get(card, 0), size["good"]) for size in make["sizes"] if size["good"]]
    return max((mg * (ceiling(pieces, good) + 1) for mg, good in each), default=0)


def _lasting(there: OnCard, last: InstantMs) -> Mg:
    return sum(mg for _, mg, until in there.lots if until is None or until >= last)
