"""What a batch will cost, before it is made: its sheet's amounts at the prices of the lots that would be taken.

Of what goes off first is taken first, as gathering proposes it; what the shelf lacks costs what the newest lot did, or a
price that was noted since. Made just so, a batch costs the same afterwards (`tests/bench/test_cost_ahead.py`).
"""

from collections.abc import Iterator

from bench.book import Book
from bench.buying import free_of, needs_of, newest_price
from bench.cost import FINER, Made, total_cost, whole_price
from bench.gather import Uses, is_wrapped
from bench.journal import WRAP
from bench.lots import is_past
from bench.money import money_text
from bench.shapes.buying import BoughtBy, BuyingNeed, Purchases
from bench.shapes.entries import PriceBody
from bench.shapes.record import Cost, CostSettings, PaidRow, Unpriced
from bench.shapes.sheet import Sheet
from bench.shapes.shelf import Shelf
from bench.shelf import called


def cost_ahead(
    sheet: Sheet,
    shelf: Shelf,
    uses: Uses,
    told: Purchases,
    on: str,
    settings: CostSettings,
    places: dict[str, int],
) -> Cost:
    """The cost of a batch of this sheet, made on a day. uses: by lot, what was taken of it or set aside.

    Hands' time is what the sheet's steps say. What has no card or no price is listed under `unpriced`, and so is what
    goes in unweighed and the wrap, each where no price was said of it: the sum leaves out nothing in silence.
    """
    materials, unpriced = _rows(sheet, shelf, uses, told, on, settings, places)
    hands = sum(step["hands_ms"] or 0 for step in sheet["steps"])
    made = Made(sheet["size"]["pieces"], 0, hands, None)
    return total_cost(materials, unpriced, made, settings, places)


def _rows(
    sheet: Sheet,
    shelf: Shelf,
    uses: Uses,
    told: Purchases,
    on: str,
    settings: CostSettings,
    places: dict[str, int],
) -> tuple[list[PaidRow], list[Unpriced]]:
    book = Book(shelf)
    needs, unjoined = needs_of(sheet, on, book)
    wrap = book.card_for(WRAP)
    materials: list[PaidRow] = []
    unpriced = _left_out([each["name"] for each in unjoined], sheet, wrap, settings)
    for need in needs:
        name = called(shelf, need["card"])
        measure: BoughtBy = "mg" if "mg" in need else "count"
        for lot, much, price in _parts(need, measure, shelf, uses, told):
            mg = much if measure == "mg" else 0
            if price is None:
                unpriced.append({"lot": lot, "names": [name], "mg": mg})
                continue
            paid, of = price
            value = whole_price(paid, bool(settings.get("without_tax"))) * much / of
            materials.append(
                {
                    "lot": lot or "",
                    "number": shelf["lots"][lot]["number"] if lot else "",
                    "names": [name],
                    "wrap": need["card"] == wrap,
                    "mg": mg,
                    "count": much - mg,
                    "currency": paid["currency"],
                    "cost": money_text(value, places.get(paid["currency"], 2) + FINER),
                }
            )
    return materials, unpriced


def _left_out(unjoined: list[str], sheet: Sheet, wrap: str | None, settings: CostSettings) -> list[Unpriced]:
    """What nobody said a price of: no card has it, it goes in unweighed, or it is the wrap."""
    names = list(unjoined)
    if not settings.get("sprays_cost"):
        counted = {line["ingredient"] for line in sheet["lines"] if line["unit"] == "pieces"}
        names += [
            each["name"] for each in sheet["ingredients"] if not each["mg"] and each["id"] not in counted
        ]
    if wrap is None and is_wrapped(sheet) and not settings.get("wrap_cost"):
        names.append(WRAP)
    return [{"lot": None, "names": [name], "mg": 0} for name in names]


def _parts(
    need: BuyingNeed, measure: BoughtBy, shelf: Shelf, uses: Uses, told: Purchases
) -> Iterator[tuple[str | None, int, tuple[PriceBody, int] | None]]:
    """The lots that a need would take of, how much, and at which price for how much; None: the shelf lacks it."""
    rest = need.get("mg", need.get("count", 0))
    for lot in free_of(need["card"], measure, shelf, uses):
        take = 0 if is_past(lot.best_before, need["on"]) else min(rest, lot.much)
        received, price = shelf["lots"][lot.lot][measure], shelf["lots"][lot.lot]["price"]
        if take:
            yield lot.lot, take, (price, received) if price and received else None
        rest -= take
    if rest:
        newest = newest_price(shelf, need["card"], measure, told)
        yield None, rest, newest and (newest.price, newest.much)
