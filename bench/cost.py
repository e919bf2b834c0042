"""What a batch cost: material by lot at what was really used, the hands' minutes, and the wrap.

Decimals as text in and out, exact in between (`bench/money.py`). Several currencies are never added:
each has totals of its own. What has no price is listed, not guessed. A lot's row has two decimals
more than its currency, since a gram of mica costs less than a cent; the totals are sums of the rows
as shown, rounded once.
"""

from fractions import Fraction

from bench.money import money_text, read_money
from bench.shapes.record import Balance, Cost, CostRow, CostSettings, CostTotal, Record, RecordLot, Unpriced
from bench.shapes.shelf import Shelf, ShelfLot

FINER = 2  # decimals more than a currency's own, for rows
HOUR_MS = 3_600_000


def cost(record: Record, shelf: Shelf, settings: CostSettings, places: dict[str, int]) -> Cost:
    """The cost of a recorded batch.

    places: the decimals of each currency (`money.places_of`), 2 where not said. lost (dried off, stuck,
    scraped out, unaccounted) and spoiled are the materials' share of the mass balance and are within the
    total; they and per_piece are None until pieces are counted.
    """
    materials, unpriced = _rows(record, shelf, bool(settings.get("without_tax")), places)
    sums: dict[str, Fraction] = {}
    for row in materials:
        sums[row["currency"]] = sums.get(row["currency"], Fraction(0)) + Fraction(row["cost"])
    own = settings["currency"]
    good = record["yield"]["good"]
    hourly = read_money(settings.get("hourly_rate") or "0", "hourly_rate")
    each_wrap = read_money(settings.get("wrap_cost") or "0", "wrap_cost")
    hands = hourly * record["hands"]["ms"] / HOUR_MS
    wrap = each_wrap * (good or 0)
    totals = {
        currency: _total(
            sums.get(currency, Fraction(0)),
            hands if currency == own else Fraction(0),
            wrap if currency == own else Fraction(0),
            record["balance"],
            good,
            places.get(currency, 2),
        )
        for currency in sorted({own, *sums})
    }
    return {
        "materials": materials,
        "unpriced": unpriced,
        "hands_ms": record["hands"]["ms"],
        "good": good,
        "totals": totals,
    }


def _rows(
    record: Record, shelf: Shelf, without_tax: bool, places: dict[str, int]
) -> tuple[list[CostRow], list[Unpriced]]:
    """What was used, by lot where it has a price; the rest, and what came from no lot, has none."""
    materials: list[CostRow] = []
    unpriced: list[Unpriced] = []
    for use in record["lots"]:
        lot = shelf["lots"].get(use["lot"])
        paid = _paid(lot, use, without_tax) if lot else None
        if not lot or paid is None:
            unpriced.append({"lot": use["lot"], "names": use["names"], "mg": use["mg"]})
            continue
        currency, price = paid
        materials.append(
            {
                "lot": use["lot"],
                "number": lot["number"],
                "names": use["names"],
                "mg": use["mg"],
                "count": use["count"],
                "currency": currency,
                "cost": money_text(price, places.get(currency, 2) + FINER),
            }
        )
    lotted = {name for use in record["lots"] for name in use["names"]}
    bare: dict[str, int] = {}
    for line in record["lines"]:
        if line["name"] not in lotted and line["actual_mg"]:
            bare[line["name"]] = bare.get(line["name"], 0) + line["actual_mg"]
    for name, mg in bare.items():
        unpriced.append({"lot": None, "names": [name], "mg": mg})
    return materials, unpriced


def _paid(lot: ShelfLot, use: RecordLot, without_tax: bool) -> tuple[str, Fraction] | None:
    """What the used part of a lot cost, in which currency; None when it has no price or was received as nothing."""
    price = lot["price"]
    received, used = (lot["mg"], use["mg"]) if lot["count"] is None else (lot["count"], use["count"])
    if price is None or not received:
        return None
    amount = Fraction(price["amount"])
    tax = price.get("tax")
    if tax:
        with_tax = 1 + Fraction(tax["percent"]) / 100
        if tax["included"] and without_tax:
            amount /= with_tax
        if not tax["included"] and not without_tax:
            amount *= with_tax
    return price["currency"], amount * used / received


def _total(
    materials: Fraction,
    hands: Fraction,
    wrap: Fraction,
    balance: Balance | None,
    good: int | None,
    places: int,
) -> CostTotal:
    # The total is the sum of what is shown, so that it adds up on paper.
    shown = [money_text(value, places) for value in (materials, hands, wrap)]
    total = sum((Fraction(value) for value in shown), Fraction(0))
    lost = spoiled = None
    if balance and balance["in_mg"] > 0:
        share = materials / balance["in_mg"]
        lost = money_text(share * (balance["unaccounted_mg"] + balance["left_mg"]), places)
        spoiled = money_text(share * balance["spoiled_mg"], places)
    return {
        "materials": shown[0],
        "hands": shown[1],
        "wrap": shown[2],
        "total": money_text(total, places),
        "lost": lost,
        "spoiled": spoiled,
        "per_piece": money_text(total / good, places) if good else None,
    }
