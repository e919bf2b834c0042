"""What the shelf's journal tells of buying: what was ordered and did not come yet, and what suppliers ask.

An order is known by the id of the entry that told of it; another entry says that it arrived, and what came is lots of
its own. A price that was noted stands until a newer one is noted or paid. None of these moves what is on the shelf. The
fold never raises and reads no clock.
"""

from collections.abc import Sequence
from typing import TypeGuard

from bench import entries as common
from bench.kinds import OF_BUYING, SHELF_KINDS, fields_of
from bench.shapes.buying import OpenOrder, Purchases, Quote
from bench.shapes.entries import BuyingEntry, Entry, Ordered, Quoted
from bench.shapes.shelf import Shelf
from bench.shelf import called

_FITS = common.fits_of({kind: row for kind, row in fields_of(SHELF_KINDS).items() if kind in OF_BUYING})


def nothing_bought() -> Purchases:
    return {"orders": [], "quotes": {}}


def fold_purchases(entries: Sequence[object], shelf: Shelf) -> Purchases:
    """What was ordered and did not come yet, and the last price of each card; entries: the shelf's."""
    told = nothing_bought()
    arrived: set[str] = set()
    for entry in common.less_undone(common.in_order(entries)):
        if not _is_of_buying(entry):
            continue
        if entry["kind"] == "arrived":
            arrived.add(entry["body"]["order"])
        elif ("mg" in entry["body"]) == ("count" in entry["body"]):
            continue  # it says how much twice, or not at all
        elif entry["kind"] == "ordered":
            told["orders"].append(_order(entry, shelf))
        else:
            told["quotes"][entry["body"]["ingredient"]] = _quote(entry)
    still = [each for each in told["orders"] if each["order"] not in arrived]
    told["orders"] = sorted(still, key=lambda each: (each["due"] or "9999", each["name"], each["order"]))
    return told


def _is_of_buying(entry: Entry) -> TypeGuard[BuyingEntry]:
    return entry["kind"] in OF_BUYING and common.understood(entry, _FITS)


def _order(entry: Ordered, shelf: Shelf) -> OpenOrder:
    body = entry["body"]
    return {
        "order": entry["id"],
        "card": body["ingredient"],
        "name": called(shelf, body["ingredient"]),
        "mg": body.get("mg"),
        "count": body.get("count"),
        "due": body.get("due"),
        "supplier": body.get("supplier"),
    }


def _quote(entry: Quoted) -> Quote:
    body = entry["body"]
    return {
        "on": body["on"],
        "measure": "mg" if "mg" in body else "count",
        "much": body.get("mg", body.get("count", 0)),
        "price": body["price"],
    }
