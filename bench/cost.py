"""What a batch cost: material by lot at what was really used, the hands' minutes, the wrap and all else; and a price.

Decimals as text in and out, exact in between (`bench/money.py`). Several currencies are never added:
each has totals of its own. What has no price is listed, not guessed. A lot's row has two decimals
more than its currency, since a gram of mica costs less than a cent; the totals are sums of the rows, rounded
once, and what is read of each row adds up to them. Each thing is counted once: where a priced lot of
wrap was gathered, the wrap for each piece of the settings is not added.
"""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from bench.journal import WRAP
from bench.money import money_text, read_money, sharing
from bench.shapes.entries import PriceBody
from bench.shapes.figures import CostBasis
from bench.shapes.record import (
    Balance,
    Cost,
    CostParts,
    CostRow,
    CostSettings,
    CostTotal,
    PaidRow,
    Record,
    RecordLot,
    SalePrice,
    Unpriced,
)
from bench.shapes.sheet import Sheet
from bench.shapes.shelf import Shelf, ShelfLot
from bench.whole import ten_to

FINER = 2  # decimals more than a currency's own, for rows
HOUR_MS = 3_600_000
NOUGHT = Fraction(0)


class Made(NamedTuple):
    """What of a batch its cost hangs on besides the materials."""

    good: int | None
    kept: int
    hands_ms: int
    balance: Balance | None


def cost(record: Record, sheet: Sheet, shelf: Shelf, settings: CostSettings, places: dict[str, int]) -> Cost:
    """The cost of a recorded batch; see `cost_of`."""
    return cost_of(cost_basis(record, sheet), shelf, settings, places)


def cost_of(basis: CostBasis, shelf: Shelf, settings: CostSettings, places: dict[str, int]) -> Cost:
    """The cost of a batch, from what of its record that hangs on.

    places: the decimals of each currency (`money.places_of`), 2 where not said. lost (dried off, stuck,
    scraped out, unaccounted) and spoiled are the materials' share of the mass balance, kept is the share of the
    pieces kept back; they are within the total. They and per_piece are None until pieces are counted.
    """
    materials, unpriced = _rows(basis, shelf, settings, places)
    made = Made(basis["good"], basis["kept"], basis["hands_ms"], basis["balance"])
    return total_cost(materials, unpriced, made, settings, places)


def cost_basis(record: Record, sheet: Sheet) -> CostBasis:
    """What of a record its cost hangs on, so that it can be kept and asked again when prices move."""
    count = record["yield"]
    lotted = {name for use in record["lots"] for name in use["names"]}
    reckoned = {name for use in record["lots"] if use["mg"] or use["count"] for name in use["names"]}
    bare: dict[str, int] = {}
    for line in record["lines"]:
        name, mg = line["name"], line["actual_mg"]
        went_in = line["asked_mg"] is None and line["status"] in ("in", "by_hand")
        if (went_in and not mg and name not in reckoned) or (mg and name not in lotted):
            bare[name] = bare.get(name, 0) + mg
    unwrapped = {each["step"] for each in record["skipped"]}
    wraps = [each["id"] for each in sheet["steps"] if each["does"] == "wrap" and each["id"] not in unwrapped]
    if wraps and not any(use["wrap"] for use in record["lots"]):
        bare[WRAP] = 0
    return {
        "lots": record["lots"],
        "bare": bare,
        "good": count["good"],
        "kept": count["kept"] or 0,
        "hands_ms": record["hands"]["ms"],
        "balance": record["balance"],
    }


def total_cost(
    materials: list[PaidRow],
    unpriced: list[Unpriced],
    made: Made,
    settings: CostSettings,
    places: dict[str, int],
) -> Cost:
    """The cost of these materials and of what is not material, by currency."""
    own = settings["currency"]
    totals = {
        currency: _total(
            _Parts(made, materials, settings, currency), made, settings, currency, places.get(currency, 2)
        )
        for currency in sorted({own, *(row["currency"] for row in materials)})
    }
    return {
        "materials": _read(materials, places),
        "unpriced": unpriced,
        "hands_ms": made.hands_ms,
        "good": made.good,
        "totals": totals,
    }


def _read(materials: list[PaidRow], places: dict[str, int]) -> list[CostRow]:
    """The rows, each with what is read of it: in the currency's own decimals, adding up to the sum of its kind."""
    kinds: dict[tuple[str, bool], list[int]] = {}
    for index, row in enumerate(materials):
        kinds.setdefault((row["currency"], row["wrap"]), []).append(index)
    read: dict[int, str] = {}
    for (currency, _), rows in kinds.items():
        costs = [Fraction(materials[index]["cost"]) for index in rows]
        read |= zip(rows, sharing(costs, places.get(currency, 2)), strict=True)
    return [{**row, "read": read[index]} for index, row in enumerate(materials)]


def _rows(
    basis: CostBasis, shelf: Shelf, settings: CostSettings, places: dict[str, int]
) -> tuple[list[PaidRow], list[Unpriced]]:
    """What was used, by lot where it has a price; the rest, and what came from no lot, has none.

    What goes in unweighed, by spray or spoon, and wrap of no lot have no price of their own, and are covered where one
    is set for a batch.
    """
    materials: list[PaidRow] = []
    unpriced: list[Unpriced] = []
    for use in basis["lots"]:
        lot = shelf["lots"].get(use["lot"])
        paid = _paid(lot, use, bool(settings.get("without_tax"))) if lot else None
        if not lot or paid is None:
            unpriced.append({"lot": use["lot"], "names": use["names"], "mg": use["mg"]})
            continue
        currency, price = paid
        materials.append(
            {
                "lot": use["lot"],
                "number": lot["number"],
                "names": use["names"],
                "wrap": use["wrap"],
                "mg": use["mg"],
                "count": use["count"],
                "currency": currency,
                "cost": money_text(price, places.get(currency, 2) + FINER),
            }
        )
    unpriced += [
        {"lot": None, "names": [name], "mg": mg}
        for name, mg in basis["bare"].items()
        if mg or not settings.get("wrap_cost" if name == WRAP else "sprays_cost")
    ]
    return materials, unpriced


def _paid(lot: ShelfLot, use: RecordLot, without_tax: bool) -> tuple[str, Fraction] | None:
    """What the used part of a lot cost with its delivery, in which currency; None when it has no price or was
    received as nothing."""
    price = lot["price"]
    received, used = (lot["mg"], use["mg"]) if lot["count"] is None else (lot["count"], use["count"])
    if price is None or not received:
        return None
    return price["currency"], whole_price(price, without_tax) * used / received


def whole_price(price: PriceBody, without_tax: bool) -> Fraction:
    """A price with its delivery, and with or without its tax, as the maker reckons."""
    tax = price.get("tax")
    percent = tax["percent"] if tax and tax["included"] == without_tax else "0"
    return _whole(price["amount"], price.get("delivery", "0"), percent, without_tax)


@lru_cache(maxsize=1024)
def _whole(amount: str, delivery: str, percent: str, without_tax: bool) -> Fraction:
    """With its delivery, and with this tax or without it. A table over all batches asks for the same lots again."""
    paid, with_tax = Fraction(amount) + Fraction(delivery), 1 + Fraction(percent) / 100
    return paid / with_tax if without_tax else paid * with_tax


class _Parts:
    """What a batch cost in one currency, part by part, exactly. What settings say is in the maker's own."""

    def __init__(self, made: Made, materials: list[PaidRow], settings: CostSettings, currency: str) -> None:
        rows = [row for row in materials if row["currency"] == currency]
        mine = currency == settings["currency"]
        pieces = (made.good or 0) + made.kept
        hourly = _money(settings.get("hourly_rate"), "hourly_rate") if mine else NOUGHT
        minutes = Fraction(settings.get("cleaning_minutes", 0), 60)
        labelling = Fraction(settings.get("labelling_seconds", 0) * pieces, 3600)
        wrapped = any(row["wrap"] for row in materials)
        each_wrap = NOUGHT if wrapped or not mine else _money(settings.get("wrap_cost"), "wrap_cost")
        packaging = _money(settings.get("packaging_cost"), "packaging_cost") if mine else NOUGHT
        self.materials = sum((Fraction(row["cost"]) for row in rows if not row["wrap"]), NOUGHT)
        self.sprays = _money(settings.get("sprays_cost"), "sprays_cost") if mine else NOUGHT
        self.hands = hourly * made.hands_ms / HOUR_MS
        self.cleaning = hourly * minutes
        self.labelling = hourly * labelling
        self.wrap = sum((Fraction(row["cost"]) for row in rows if row["wrap"]), NOUGHT) + each_wrap * pieces
        self.packaging = packaging * pieces
        self.overhead = _money(settings.get("overhead_cost"), "overhead_cost") if mine else NOUGHT

    def shown(self, places: int) -> CostParts:
        return {
            "materials": money_text(self.materials, places),
            "sprays": money_text(self.sprays, places),
            "hands": money_text(self.hands, places),
            "cleaning": money_text(self.cleaning, places),
            "labelling": money_text(self.labelling, places),
            "wrap": money_text(self.wrap, places),
            "packaging": money_text(self.packaging, places),
            "overhead": money_text(self.overhead, places),
        }


def _money(written: str | None, where: str) -> Fraction:
    return read_money(written or "0", where)


def _total(parts: _Parts, made: Made, settings: CostSettings, currency: str, places: int) -> CostTotal:
    # The total is the sum of what is shown, so that it adds up on paper.
    shown = parts.shown(places)
    total = sum((Fraction(str(each)) for each in shown.values()), NOUGHT)
    good, kept = made.good, made.kept
    each = total / good if good else None
    lost, spoiled = _shares(parts.materials, made.balance, places)
    is_own = currency == settings["currency"]
    return {
        **shown,
        "total": money_text(total, places),
        "lost": lost,
        "spoiled": spoiled,
        "kept": money_text(total * kept / ((good or 0) + kept), places) if kept else None,
        "sale": sale_price(each, settings, places) if each is not None and is_own else None,
        "per_piece": None if each is None else money_text(each, places),
    }


def _shares(materials: Fraction, balance: Balance | None, places: int) -> tuple[str | None, str | None]:
    """What of the materials was lost, and what was spoiled; None while nothing was counted."""
    if not balance or balance["in_mg"] <= 0:
        return None, None
    share = materials / balance["in_mg"]
    lost = share * (balance["unaccounted_mg"] + balance["left_mg"])
    return money_text(lost, places), money_text(share * balance["spoiled_mg"], places)


def sale_price(each: Fraction, settings: CostSettings, places: int) -> SalePrice | None:
    """The least price of a piece that leaves the margin, once its cost, the fees and the tax are paid.

    each: what a piece cost. Of a price p with the share t of tax in it, p / (1 + t) is the maker's before fees; the
    margin is a share of that. None where no margin is asked, or where fees and margin would take all of it.
    """
    if not settings.get("margin_percent"):
        return None
    margin = _money(settings.get("margin_percent"), "margin_percent") / 100
    fee = _money(settings.get("fee_percent"), "fee_percent") / 100
    tax = _money(settings.get("tax_percent"), "tax_percent") / 100
    cost_shown = Fraction(money_text(each, places))
    fee_each = _money(settings.get("fee_each"), "fee_each")
    stays = (1 - margin) / (1 + tax) - fee
    if stays <= 0:
        return None
    units = -(-(each + fee_each) * ten_to(places) // stays)
    price = Fraction(units, ten_to(places))
    tax_shown = Fraction(money_text(price - price / (1 + tax), places))
    fees_shown = Fraction(money_text(price * fee + fee_each, places))
    left = price - tax_shown - fees_shown - cost_shown
    return {
        "price": money_text(price, places),
        "tax": money_text(tax_shown, places),
        "fees": money_text(fees_shown, places),
        "cost": money_text(cost_shown, places),
        "margin": money_text(left, places),
    }
