"""What a batch cost: material by lot at what was really used, the hands' minutes, and the wrap.

Decimals as text in and out, exact in between (`bench/money.py`). Several currencies are never added:
each has totals of its own. What has no price is listed, not guessed. A lot's row has two decimals
more than its currency, since a gram of mica costs less than a cent; the totals are sums of the rows
as shown, rounded once.
"""

from fractions import Fraction
from typing import Any

from bench.money import money_text, read_money

Json = Any  # until its shape is named

FINER = 2  # decimals more than a currency's own, for rows
HOUR_MS = 3_600_000


def cost(record: Json, shelf: Json, settings: Json, places: dict[str, int]) -> Json:
    """The cost of a recorded batch.

    record: `bench.record`. shelf: `fold_shelf`. settings: {"currency",
    "hourly_rate"?, "wrap_cost"? (for each good piece), "without_tax"?: whether tax is reclaimed}, the
    amounts in that currency. places: the decimals of each currency (`money.places_of`), 2 where not said.

    {"materials": [{"lot", "number", "names", "mg", "count", "currency", "cost"}],
     "unpriced": [{"lot" or None, "names", "mg"}], "hands_ms", "good",
     "totals": {currency: {"materials", "hands", "wrap", "total", "lost", "spoiled", "per_piece"}}}
    lost (dried off, stuck, scraped out, unaccounted) and spoiled are the materials' share of the mass
    balance and are within the total; they and per_piece are None until pieces are counted.
    """
    sums: dict[str, Fraction] = {}
    materials, unpriced = [], []
    lotted: set[str] = set()
    for use in record["lots"]:
        lotted.update(use["names"])
        lot = shelf["lots"].get(use["lot"])
        price = lot and _paid(lot, use, bool(settings.get("without_tax")))
        if not lot or price is None:
            unpriced.append({field: use[field] for field in ("lot", "names", "mg")})
            continue
        currency = lot["price"]["currency"]
        row = money_text(price, places.get(currency, 2) + FINER)
        sums[currency] = sums.get(currency, Fraction(0)) + Fraction(row)
        materials.append(
            {
                "lot": use["lot"],
                "number": lot["number"],
                **{field: use[field] for field in ("names", "mg", "count")},
                "currency": currency,
                "cost": row,
            }
        )
    bare: dict[str, int] = {}
    for line in record["lines"]:
        if line["name"] not in lotted and line["actual_mg"]:
            bare[line["name"]] = bare.get(line["name"], 0) + line["actual_mg"]
    unpriced += [{"lot": None, "names": [name], "mg": mg} for name, mg in bare.items()]
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


def _paid(lot: Json, use: Json, without_tax: bool) -> Fraction | None:
    """What the used part of a lot cost; None when it has no price or was received as nothing."""
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
    return amount * int(used) / int(received)


def _total(
    materials: Fraction, hands: Fraction, wrap: Fraction, balance: Json | None, good: int | None, places: int
) -> Json:
    shown = {
        name: money_text(value, places)
        for name, value in (("materials", materials), ("hands", hands), ("wrap", wrap))
    }
    total = sum((Fraction(value) for value in shown.values()), Fraction(0))
    lost = spoiled = None
    if balance and balance["in_mg"] > 0:
        share = materials / balance["in_mg"]
        lost = money_text(share * (balance["unaccounted_mg"] + balance["left_mg"]), places)
        spoiled = money_text(share * balance["spoiled_mg"], places)
    return {
        **shown,
        "total": money_text(total, places),
        "lost": lost,
        "spoiled": spoiled,
        "per_piece": money_text(total / good, places) if good else None,
    }
