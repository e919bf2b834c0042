"""What bringing a delivery cost, shared over its lots so that it adds up to what was paid, to the smallest coin."""

from collections.abc import Sequence
from fractions import Fraction

from bench.delivery_cells import Doubt, read_money_cell
from bench.money import money_text, places_of
from bench.shapes.delivery import DeliveryQuestion, DeliveryRow, SharedBy
from bench.whole import ten_to
from bench.words import say


def largest_remainder(total: int, weights: Sequence[int]) -> list[int]:
    """Divide `total` in proportion to `weights`, in whole parts that sum to it.

    Each has its quota rounded down; what is left goes by one to the largest remainders, of equal ones to the first.
    (Hamilton's apportionment.) All weights nought: nobody has anything.
    """
    whole = sum(weights)
    if not whole:
        return [0] * len(weights)
    parts = [total * weight // whole for weight in weights]
    turns = sorted(range(len(weights)), key=lambda place: (-(total * weights[place] % whole), place))
    for place in turns[: total - sum(parts)]:
        parts[place] += 1
    return parts


def share_delivery(
    rows: Sequence[DeliveryRow], written: str, by: SharedBy, currency: str
) -> list[DeliveryQuestion]:
    """Give each row that is not left out its share of the delivery; what hinders that is asked, and nobody has any."""
    here = [row for row in rows if not row["out"]]
    try:
        paid = read_money_cell(written, currency, "delivery")
    except Doubt as doubt:
        return [{"field": "delivery", "says": doubt.says, "choices": doubt.choices}]
    places = places_of(paid.currency)
    coins = paid.amount * ten_to(places)
    if coins.denominator != 1:
        return [_asked(say("delivery-no-coin", written=written))]
    if any(row["price"] and row["price"]["currency"] != paid.currency for row in here):
        return [_asked(say("delivery-currencies", currency=paid.currency))]
    weights = [_weight(row, by) for row in here]
    if not coins:
        return []
    if not all(weights):
        return [_asked(say("delivery-unshared", by=by))]
    for row, part in zip(here, largest_remainder(int(coins), weights), strict=True):
        share = money_text(Fraction(part, ten_to(places)), places)
        price = row["price"] or {"amount": "0", "currency": paid.currency}
        row["price"] = {**price, "delivery": share}
    return []


def _asked(says: str) -> DeliveryQuestion:
    return {"field": "delivery", "says": says, "choices": []}


def _weight(row: DeliveryRow, by: SharedBy) -> int:
    """What a row counts for: millionths of a currency's unit, or mg."""
    if by == "mass":
        return row["mg"] or 0
    return int(Fraction(row["price"]["amount"]) * 10**6) if row["price"] else 0
