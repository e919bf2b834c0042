"""Finished pieces: what became of those of each batch.

How many were made, and how many of them were kept, the batch's own record says. All that comes after is told by
entries of the shelf's journal (the trait `of_pieces` of `bench/kinds.py`), which name the batch: so a record that
is signed stays as it is, and a piece may be sold with no network by a phone that has never seen the batch.

Pieces are counted up, never moved about: what is told in another order, twice or late comes to the same, and
`made = in_stock + left + kept + binned` holds for any journal. What cannot be (more sold than was made, more back
than had gone) is a number below zero, to be looked into, and not an entry set aside. The fold never raises and reads
no clock; `frontend/bench/pieces.js` is the same.
"""

import calendar
from collections.abc import Iterable, Sequence
from typing import TypeGuard

from bench import entries as common
from bench.kinds import OF_PIECES, SHELF_KINDS, fields_of
from bench.shapes.entries import Binned, Complained, Entry, Given, PiecesEntry, Returned, Sold
from bench.shapes.pieces import BinnedPieces, OutletPieces, PiecesMade, PiecesStand, PiecesTold

_FITS = common.fits_of({kind: row for kind, row in fields_of(SHELF_KINDS).items() if kind in OF_PIECES})


def is_of_pieces(entry: Entry) -> TypeGuard[PiecesEntry]:
    """Whether an entry of the shelf's journal tells of finished pieces, and can be read."""
    return entry["kind"] in OF_PIECES and common.understood(entry, _FITS)


def fold_pieces(entries: Sequence[object]) -> dict[str, PiecesTold]:
    """What the shelf's journal tells of finished pieces, by batch. Never raises for any set of entries."""
    told: dict[str, PiecesTold] = {}
    for entry in common.less_undone(common.in_order(entries)):
        if is_of_pieces(entry):
            _take(told.setdefault(entry["body"]["run"], nothing_told()), entry)
    for each in told.values():
        each["outlets"].sort(key=lambda outlet: outlet["outlet"] or "")
    return told


def nothing_told() -> PiecesTold:
    return {
        "sold": 0,
        "given": 0,
        "returned": 0,
        "binned": 0,
        "sampled": 0,
        "shelved": 0,
        "place": None,
        "outlets": [],
        "bins": [],
        "complaints": [],
    }


def _take(told: PiecesTold, entry: PiecesEntry) -> None:
    if entry["kind"] == "stood":
        told["place"] = entry["body"]["place"]
    elif entry["kind"] == "complained":
        _complain(told, entry)
    elif entry["kind"] == "binned":
        told["binned"] += entry["body"]["pieces"]
        told["bins"].append(_bin(entry))
    elif entry["kind"] == "sampled" or entry["kind"] == "shelved":
        told[entry["kind"]] += entry["body"]["pieces"]
    else:
        _leave(told, entry)


def _leave(told: PiecesTold, entry: Sold | Given | Returned) -> None:
    kind, pieces, outlet = entry["kind"], entry["body"]["pieces"], entry["body"].get("outlet")
    told[kind] += pieces
    there = next((each for each in told["outlets"] if each["outlet"] == outlet), None)
    if there is None:
        there = {"outlet": outlet, "sold": 0, "given": 0, "returned": 0}
        told["outlets"].append(there)
    there[kind] += pieces


def _bin(entry: Binned) -> BinnedPieces:
    body = entry["body"]
    return {"at": entry["at"], "device": entry["device"], "pieces": body["pieces"], "why": body["why"]}


def _complain(told: PiecesTold, entry: Complained) -> None:
    body = entry["body"]
    told["complaints"].append(
        {
            "id": entry["id"],
            "run": body["run"],
            "at": entry["at"],
            "device": entry["device"],
            "sort": body["sort"],
            "text": body["text"],
            "pieces": body.get("pieces"),
            "outlet": body.get("outlet"),
        }
    )


def at_outlet(there: OutletPieces) -> int:
    """How many pieces an outlet has had and not sent back; below zero where more came back."""
    return there["sold"] + there["given"] - there["returned"]


def stand(made: PiecesMade | None, told: PiecesTold) -> PiecesStand:
    """Where the pieces of a batch are now."""
    good, kept = (made["good"], made["kept"]) if made else (0, 0)
    left = told["sold"] + told["given"] + told["shelved"] - told["returned"]
    kept += told["sampled"]
    return {
        "made": good,
        "in_stock": good - left - kept - told["binned"],
        "left": left,
        "kept": kept,
        "binned": told["binned"],
    }


def best_before(made_on: str, keeps_months: int | None, lots: Iterable[str | None]) -> str | None:
    """The day up to which a batch's pieces are good: the least of its own life and its lots' days; None for none.

    made_on: the day on which it was finished. keeps_months: how long the recipe says that a piece keeps.
    lots: of each lot that went in the day that its supplier says. A month after the 31st is the last of that month.
    """
    days = [day for day in lots if day]
    if keeps_months is not None:
        days.append(_months_after(made_on, keeps_months))
    return min(days, default=None)


def _months_after(day: str, months: int) -> str:
    year, month, date = (int(part) for part in day.split("-"))
    years, before = divmod(month - 1 + months, 12)
    last = calendar.monthrange(year + years, before + 1)[1]
    return f"{year + years:04}-{before + 1:02}-{min(date, last):02}"
