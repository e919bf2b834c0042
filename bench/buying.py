"""What to buy for what is planned: needs less what is there and free, in whole packs, and by when to order.

    to_buy(needs, shelf, uses, "2026-12-01")    needs: of an ingredient, how much and on what day

Whoever plans gives the needs: recipes chosen by hand (`needs_of`), or an order of work. A lot counts for a day when it
is not past its date then, and not held or rejected; what goes off first is used first, which leaves no less for any
later day than another order would (`tests/bench/test_buying.py` tries them all).
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple, cast

from bench.book import Book
from bench.entries import days_before, is_day
from bench.errors import AmountError, SettingError
from bench.gather import Uses, is_wrapped
from bench.journal import WRAP
from bench.lots import is_past
from bench.money import money_text, places_of
from bench.purchases import nothing_bought
from bench.quantities import read_amount, read_density
from bench.schema_words import say_what_is_wrong
from bench.shapes.buying import (
    BoughtBy,
    BuyingByHand,
    BuyingNeed,
    BuyingPacks,
    BuyingRow,
    BuyingUnjoined,
    BuyingUnusable,
    OpenOrder,
    Purchases,
    WrittenBuying,
)
from bench.shapes.entries import PriceBody
from bench.shapes.schema import schema_of
from bench.shapes.sheet import Sheet, SheetIngredient, SheetLine
from bench.shapes.shelf import Card, Shelf
from bench.shapes.state import State
from bench.shelf import called, card_of, is_barred, left_of
from bench.whole import ceiling, half_even
from bench.words import say

SETTLED = ("done", "skipped")
_SCHEMA = schema_of(WrittenBuying)


def check_buying(given: object) -> WrittenBuying:
    """Which recipes are to be made, found well-formed; else SettingError, naming the field."""
    fault = say_what_is_wrong(given, _SCHEMA)
    if fault:
        raise SettingError(*fault)
    asked = cast(WrittenBuying, given)
    days = [("today", asked["today"])] + [
        (f"wants.{place}.on", want["on"]) for place, want in enumerate(asked["wants"])
    ]
    for where, day in days:
        if not is_day(day):
            raise SettingError(where, say("entries-fits-day", field=where))
    return asked


class Free(NamedTuple):
    """What of a lot nobody has used or set aside."""

    lot: str
    much: int
    best_before: str | None


def needs_of(sheet: Sheet, on: str, book: Book) -> tuple[list[BuyingNeed], list[BuyingUnjoined]]:
    """What a batch of this sheet wants on a day, wrap too, and what of it no card answers to. What goes by hand is no
    need."""
    needs: list[BuyingNeed] = []
    unjoined: list[BuyingUnjoined] = []
    title = sheet["recipe"]["title"]
    for each in sheet["ingredients"]:
        counted = _counted(each, sheet)
        if not each["mg"] and not counted:
            continue
        card = book.card_for(each["name"])
        if card is None:
            maybe = {key: book.cards[key]["name"] for key in book.alike(each["name"])}
            unjoined.append({"name": each["name"], "recipes": [title], "maybe": maybe})
        elif each["mg"]:
            needs.append({"card": card, "on": on, "mg": each["mg"], "what": title})
        else:
            needs.append({"card": card, "on": on, "count": counted, "what": title})
    if (wrap := book.card_for(WRAP)) is not None and is_wrapped(sheet):
        needs.append({"card": wrap, "on": on, "count": sheet["size"]["pieces"], "what": title})
    return needs, unjoined


def by_hand_of(sheets: Iterable[Sheet]) -> list[BuyingByHand]:
    """What these batches want of no known mass, each name once, with the recipes that want it."""
    found: dict[str, BuyingByHand] = {}
    for sheet in sheets:
        title = sheet["recipe"]["title"]
        for each in sheet["ingredients"]:
            if each["mg"] or _counted(each, sheet):
                continue
            recipes = found.setdefault(each["name"], {"name": each["name"], "recipes": []})["recipes"]
            recipes += [title] if title not in recipes else []
    return list(found.values())


def _counted(each: SheetIngredient, sheet: Sheet) -> int:
    """How many pieces of it go in."""
    lines = [line for line in sheet["lines"] if line["ingredient"] == each["id"] and line["unit"] == "pieces"]
    return sum(line["count"] or 0 for line in lines)


def ungathered(sheet: Sheet, state: State) -> Sheet:
    """Of an open batch's sheet what it has still to lay out: what has open lines or is to be wrapped, and no lot."""
    gathered = {each["ingredient"] for each in state["gathered"]}
    rest: dict[str, int] = {}
    lines: list[SheetLine] = []
    for line in sheet["lines"]:
        stands = state["lines"][line["id"]]
        if line["ingredient"] not in gathered and stands["status"] == "open":
            lines.append(line)
            much = max(0, (line["mg"] or 0) - stands["in_mg"])
            rest[line["ingredient"]] = rest.get(line["ingredient"], 0) + much
    ingredients: list[SheetIngredient] = [
        {**each, "mg": rest[each["id"]]} for each in sheet["ingredients"] if each["id"] in rest
    ]
    steps = [
        each
        for each in sheet["steps"]
        if each["does"] != "wrap"
        or (WRAP not in gathered and state["steps"][each["id"]]["status"] not in SETTLED)
    ]
    return {**sheet, "lines": lines, "ingredients": ingredients, "steps": steps}


def to_buy(
    needs: Iterable[BuyingNeed], shelf: Shelf, uses: Uses, today: str, told: Purchases | None = None
) -> list[BuyingRow]:
    """What to buy, the soonest to order first. uses: by lot, what all runs took of it or set aside.

    What is on order comes in time from its day on; one that is overdue, or due on no day, may come any day.
    """
    wanted: dict[tuple[str, BoughtBy], list[tuple[str, int]]] = {}
    for need in needs:
        measure: BoughtBy = "mg" if "mg" in need else "count"
        much = need.get("mg", need.get("count", 0))
        wanted.setdefault((need["card"], measure), []).append((max(need["on"], today), much))
    rows = [
        _row(card, measure, sorted(of_it), shelf, uses, today, told or nothing_bought())
        for (card, measure), of_it in wanted.items()
    ]
    return sorted(rows, key=lambda row: (row["order_by"] is None, row["order_by"] or "", row["name"]))


def free_of(card: str, measure: BoughtBy, shelf: Shelf, uses: Uses) -> list[Free]:
    """The lots of a card with something free, those that go off first coming first."""
    lots = [
        Free(key, left_of(lot, uses.get(key, [])), lot["best_before"])
        for key, lot in shelf["lots"].items()
        if lot["ingredient"] == card and lot[measure] is not None and not is_barred(lot)
    ]
    return sorted((lot for lot in lots if lot.much > 0), key=lambda lot: (lot.best_before or "9999", lot.lot))


class _Found(NamedTuple):
    """Where a card's needs come from, and what is lacking still."""

    free: int
    on_order: int
    comes_late: int
    lacking: int
    first: str | None
    unusable: list[str]


def _row(
    card: str,
    measure: BoughtBy,
    wanted: list[tuple[str, int]],
    shelf: Shelf,
    uses: Uses,
    today: str,
    told: Purchases,
) -> BuyingRow:
    orders = orders_of(told["orders"], card, measure)
    found = _found(wanted, free_of(card, measure, shelf, uses), orders)
    lead = lead_days(card_of(shelf, card))
    order_by = days_before(found.first, lead or 0) if found.first else None
    return {
        "card": card,
        "name": called(shelf, card),
        "measure": measure,
        "wanted": found.free + found.on_order + found.comes_late + found.lacking,
        "free": found.free,
        "on_order": found.on_order,
        "comes_late": found.comes_late,
        "lacking": found.lacking,
        "first_lacking_on": found.first,
        "order_by": order_by,
        "late": order_by is not None and order_by < today,
        "lead_days": lead,
        "packs": packs_for(shelf, card, measure, found.lacking, told),
        "unusable": [_unusable(shelf, key) for key in found.unusable],
    }


def _found(wanted: list[tuple[str, int]], lots: list[Free], orders: list[tuple[str, int]]) -> _Found:
    """From lots first, then from what is on order by then; what is ordered is not bought twice, though it be late."""
    rest = {lot.lot: lot.much for lot in lots}
    taken = coming = comes_late = lacking = 0
    shorts: list[tuple[str, int]] = []
    for on, much in wanted:
        for lot in lots:
            if is_past(lot.best_before, on):
                continue
            take = min(much, rest[lot.lot])
            rest[lot.lot] -= take
            taken += take
            much -= take
        for place, (due, there) in enumerate(orders):
            take = min(much, there) if due <= on else 0
            orders[place] = (due, there - take)
            coming += take
            much -= take
        if much:
            shorts.append((on, much))
    ordered = sum(there for _, there in orders)
    first: str | None = None
    unusable: set[str] = set()
    for on, much in shorts:
        take = min(much, ordered)
        ordered -= take
        comes_late += take
        lacking += much - take
        if much > take:
            first = first or on
            unusable |= {lot.lot for lot in lots if is_past(lot.best_before, on) and rest[lot.lot]}
    return _Found(taken, coming, comes_late, lacking, first, sorted(unusable))


def _unusable(shelf: Shelf, key: str) -> BuyingUnusable:
    lot = shelf["lots"][key]
    return {"lot": key, "number": lot["number"], "best_before": lot["best_before"]}


def orders_of(orders: Iterable[OpenOrder], card: str, measure: BoughtBy) -> list[tuple[str, int]]:
    """What is on order of a card, by the day that it is due ("" where none is said), the soonest first."""
    return sorted(
        (each["due"] or "", much) for each in orders if each["card"] == card and (much := each[measure])
    )


# ---- what a card says of buying; one that was kept before it was checked may hold anything


def lead_days(card: Card | None) -> int | None:
    """How many days after an order it is there; None: the card does not say."""
    days = card.get("supply", {}).get("lead_days") if card else None
    return days if type(days) is int and 0 <= days <= 366 else None


def pack_of(card: Card | None, measure: BoughtBy) -> int | None:
    """What is in one pack, in mg or pieces; a volume by the card's density. None: the card does not say."""
    return _much(card, card.get("supply", {}).get("pack") if card else None, measure)


def own_point(card: Card | None, measure: BoughtBy) -> int | None:
    """At how much the maker wants to order again; None: the card does not say."""
    return _much(card, card.get("supply", {}).get("reorder_at") if card else None, measure)


def _much(card: Card | None, written: object, measure: BoughtBy) -> int | None:
    if not isinstance(written, str):
        return None
    try:
        amount = read_amount(written, None)
        value = amount.value
        if measure == "count":
            whole = amount.kind == "counted" and amount.unit == "pieces" and value.denominator == 1
            return int(value) if whole else None
        if amount.kind == "volume" and card and "density" in card:
            value *= read_density(card["density"]["g_per_ml"], "density")
        elif amount.kind != "mass":
            return None
    except AmountError:
        return None
    return half_even(value.numerator, value.denominator * 1000) or None


def packs_for(shelf: Shelf, key: str, measure: BoughtBy, lacking: int, told: Purchases) -> BuyingPacks | None:
    """So many whole packs that nothing lacks; None where nothing does, or the card knows no pack."""
    card = card_of(shelf, key)
    each = pack_of(card, measure)
    if card is None or not each or lacking <= 0:
        return None
    count = ceiling(lacking, each)
    newest = newest_price(shelf, key, measure, told)
    currency = newest.price["currency"] if newest else None
    return {
        "count": count,
        "each": each,
        "supplier": card.get("supply", {}).get("supplier"),
        "price": newest
        and money_text(
            Fraction(newest.price["amount"]) * each * count / newest.much, places_of(currency or "")
        ),
        "currency": currency,
    }


class PriceOf(NamedTuple):
    """What so many mg, or pieces, cost."""

    price: PriceBody
    much: int


def newest_price(shelf: Shelf, key: str, measure: BoughtBy, told: Purchases) -> PriceOf | None:
    """What was paid for the newest lot with a price, or a price that was noted since."""
    prices = [
        (lot["received_on"], lot_id, PriceOf(lot["price"], much))
        for lot_id, lot in shelf["lots"].items()
        if lot["ingredient"] == key and lot["price"] and (much := lot[measure])
    ]
    quote = told["quotes"].get(key)
    if quote and quote["measure"] == measure and quote["much"]:
        prices.append((quote["on"], "", PriceOf(quote["price"], quote["much"])))
    return max(prices, key=lambda each: each[:2])[2] if prices else None


def joined_unjoined(found: Sequence[BuyingUnjoined]) -> list[BuyingUnjoined]:
    """Each name once, with all the recipes that want it."""
    by_name: dict[str, BuyingUnjoined] = {}
    for each in found:
        had = by_name.setdefault(each["name"], {**each, "recipes": []})
        had["recipes"] += [title for title in each["recipes"] if title not in had["recipes"]]
    return list(by_name.values())
