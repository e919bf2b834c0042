"""The shelf: what is in the house, as a second journal in the same format as a run's.

Receiving, correcting and writing off are entries (`bench/entries.py`, with "run": "shelf"), so the
shelf has a history, works with no network, and two phones converge. What `fold_shelf` gives is in
`bench/shapes/shelf.py`. A lot's `held` (mg, or pieces where it was counted) is what was on the shelf at
`held_at`, less what was written off since; runs take from it: see `left_of`.

A lot may be corrected by a phone whose clock runs behind the receiving one: what creates a lot or
an ingredient is therefore read first. The fold never raises and reads no clock;
`frontend/bench/shelf.js` is the same fold.
"""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from typing import Literal, TypeAlias, TypeGuard, cast

from bench import entries as common
from bench import kinds
from bench.errors import AmountError, EntryError
from bench.kinds import fields_of
from bench.money import is_currency
from bench.quantities import read_amount
from bench.schema_words import say_what_is_wrong
from bench.shapes.entries import (
    Corrected,
    Entry,
    LotJudged,
    LotVerdict,
    Mended,
    MendedBody,
    Papered,
    PaperedBody,
    QuotedBody,
    Received,
    ReceivedBody,
    ShelfEntry,
    ShelfNoted,
    ShelfNotedBody,
    Undone,
    WroteOff,
)
from bench.shapes.schema import schema_of
from bench.shapes.shelf import (
    Card,
    LotSaid,
    PaperDue,
    Shelf,
    ShelfIngredient,
    ShelfLot,
    ShelfPaper,
    Supply,
    Taken,
)
from bench.shapes.units import JsonObject
from bench.words import say

SHELF_KINDS = fields_of(kinds.SHELF_KINDS)
_BESIDE = kinds.OF_PIECES | kinds.OF_BUYING  # bench/pieces.py and bench/purchases.py read those
_FITS = common.fits_of({kind: row for kind, row in SHELF_KINDS.items() if kind not in _BESIDE})
CARD_SCHEMA = schema_of(Card)
MAY_LACK = ("best_before", "code", "price", "supplier")  # what a lot need not say of itself
PAPER_AHEAD_DAYS = 30  # common practice: time to ask a supplier for the next one
_WORD = re.compile(r"[^\W_]+")
_CAS = re.compile(r"[1-9][0-9]{1,6}-[0-9]{2}-[0-9]")


def check_shelf_entry(given: object, closed: bool = True) -> Entry:
    """The entry of the shelf, found well-formed; else EntryError, naming the field; closed: see `entries.check`."""
    entry = common.check(given, SHELF_KINDS, closed)
    if _is_entry(entry):  # of a kind that is known here
        _check_body(entry)
    elif entry["kind"] in ("ordered", "quoted"):
        _check_purchase(entry["body"])
    return entry


def _check_body(entry: ShelfEntry) -> None:
    if entry["kind"] == "described":
        _check_card(entry["body"]["card"])
    elif entry["kind"] == "noted" or entry["kind"] == "papered":
        if ("lot" in entry["body"]) == ("ingredient" in entry["body"]):
            raise EntryError("body.lot", say("shelf-note-about"))
    elif entry["kind"] == "judged":
        if entry["body"]["verdict"] != "accepted" and "why" not in entry["body"]:
            raise EntryError("body.why", say("entries-lacks-why"))
    elif entry["kind"] == "mended":
        _check_mending(entry["body"])
    elif entry["kind"] != "undone":
        if ("mg" in entry["body"]) == ("count" in entry["body"]):
            raise EntryError("body.mg", say("shelf-how-much"))
        if entry["kind"] == "received":
            _check_currency(entry["body"])


def _check_purchase(body: Mapping[str, object]) -> None:
    if ("mg" in body) == ("count" in body):
        raise EntryError("body.mg", say("shelf-how-much"))
    if "price" in body:
        _check_currency(cast(QuotedBody, body))


def _check_currency(body: ReceivedBody | MendedBody | QuotedBody) -> None:
    price = body.get("price")
    if price and not is_currency(price["currency"]):
        raise EntryError("body.price.currency", say("shelf-no-currency"))


def _check_mending(body: MendedBody) -> None:
    without = body.get("without", [])
    if not set(body) - {"lot", "without"} and not without:
        raise EntryError("body", say("shelf-mends-nothing"))
    if "mg" in body and "count" in body:
        raise EntryError("body.mg", say("shelf-how-much"))
    for field in without:
        if field not in MAY_LACK:
            raise EntryError("body.without", say("shelf-must-have", field=field, known=", ".join(MAY_LACK)))
        if field in body:
            raise EntryError(f"body.{field}", say("shelf-said-and-not", field=field))
    _check_currency(body)


def _check_card(card: JsonObject) -> None:
    fault = say_what_is_wrong(card, CARD_SCHEMA)
    if fault:
        raise EntryError(".".join(filter(None, ("body.card", fault[0]))), fault[1])
    if "cas" in card and not is_cas(str(card["cas"])):
        raise EntryError(
            "body.card.cas",
            say("shelf-cas-wrong"),
        )
    if _is_card(card):
        _check_supply(card.get("supply", {}))


def _check_supply(supply: Supply) -> None:
    for field, written in (("pack", supply.get("pack")), ("reorder_at", supply.get("reorder_at"))):
        if written is not None:
            try:
                read_amount(written, None)
            except AmountError as fault:
                raise EntryError(f"body.card.supply.{field}", fault.says) from fault


def is_cas(written: str) -> bool:
    """Whether a CAS number's check digit fits: the sum of the others, each times its place from the
    right, modulo ten (the registry's own rule, from memory; water is 7732-18-5)."""
    if not _CAS.fullmatch(written):
        return False
    *others, last = (int(digit) for digit in written if digit != "-")
    return sum(place * digit for place, digit in enumerate(reversed(others), 1)) % 10 == last


_Later: TypeAlias = Corrected | Mended | WroteOff | LotJudged | Papered | ShelfNoted | Undone


def fold_shelf(entries: Sequence[object]) -> Shelf:
    """What the shelf's entries say together. Never raises for any set of entries."""
    shelf: Shelf = {"ingredients": {}, "lots": {}, "unread": []}
    later: list[_Later] = []
    counted: set[str] = set()  # lots of which somebody said what is really there
    for entry in common.less_undone(common.in_order(entries)):
        if entry["kind"] in _BESIDE:
            continue
        if not _is_entry(entry):
            shelf["unread"].append(entry["id"])
        elif entry["kind"] == "described":
            card = entry["body"]["card"]
            if _is_card(card):
                _known(shelf, entry["body"]["ingredient"])["card"] = card
        elif entry["kind"] == "received":
            if _receive(shelf, entry):
                _known(shelf, entry["body"]["ingredient"])
            else:
                shelf["unread"].append(entry["id"])
        else:
            later.append(entry)
    for change in later:
        if not _take(shelf, change, counted):
            shelf["unread"].append(change["id"])
    shelf["unread"].sort()
    return shelf


def _is_entry(entry: Entry) -> TypeGuard[ShelfEntry]:
    """Whether a placeable entry is of a kind that is known, with every field as it should be."""
    return common.understood(entry, _FITS)


def _is_card(card: JsonObject) -> TypeGuard[Card]:
    """A card has a name. Its other fields were checked when it was sent; of one that was kept before that, who
    reads them looks at what they are."""
    return isinstance(card.get("name"), str)


def _known(shelf: Shelf, key: str) -> ShelfIngredient:
    return shelf["ingredients"].setdefault(key, {"card": None, "notes": [], "papers": []})


def _receive(shelf: Shelf, entry: Received) -> bool:
    body = entry["body"]
    much = _much(body)
    if body["lot"] in shelf["lots"] or much is None:
        return False
    shelf["lots"][body["lot"]] = {
        "ingredient": body["ingredient"],
        "number": body["number"],
        "received_on": body["received_on"],
        "supplier": body.get("supplier"),
        "best_before": body.get("best_before"),
        "price": body.get("price"),
        "code": body.get("code"),
        "run": body.get("run"),
        "mg": body.get("mg"),
        "count": body.get("count"),
        "held": much,
        "held_at": entry["at"],
        "wrote_off": [],
        "mended": [],
        "notes": [],
        "judgements": [],
        "papers": [],
    }
    return True


def _much(body: ReceivedBody) -> int | None:
    """How much was received, in the one measure that it is said in; None where it is both or neither."""
    if ("mg" in body) == ("count" in body):
        return None
    return body["mg"] if "mg" in body else body["count"]


def _take(shelf: Shelf, entry: _Later, counted: set[str]) -> bool:
    """Take in what speaks of something that was received or described; False when it is not here."""
    if entry["kind"] == "noted":
        return _note(shelf, entry)
    if entry["kind"] == "papered":
        return _paper(shelf, entry)
    if entry["kind"] == "judged":
        return _judge(shelf, entry)
    if entry["kind"] == "mended":
        return _mend(shelf, entry, counted)
    if entry["kind"] == "undone":
        return False  # what it takes back is not here, or came after it
    body = entry["body"]
    lot = shelf["lots"].get(body["lot"])
    if lot is None:
        return False
    much = body.get(_measure_of(lot))
    if much is None:
        return False  # it is said in the other measure
    if entry["kind"] == "corrected":
        lot["held"], lot["held_at"] = much, entry["at"]
        counted.add(body["lot"])
    else:
        lot["held"] -= much
        lot["wrote_off"].append({"at": entry["at"], "much": much, "why": entry["body"]["why"]})
    return True


def _mend(shelf: Shelf, entry: Mended, counted: set[str]) -> bool:
    """What was received changes what is there, until somebody counts it."""
    body = entry["body"]
    lot = shelf["lots"].get(body["lot"])
    if lot is None or ("count" if lot["count"] is None else "mg") in body:
        return False  # it is not here, or is said in the other measure
    measure = _measure_of(lot)
    said: dict[str, object] = {key: value for key, value in body.items() if key not in ("lot", "without")}
    said |= {field: None for field in body.get("without", []) if field in MAY_LACK}
    standing = cast("dict[str, object]", lot)
    was = {field: standing[field] for field in said if field in LotSaid.__annotations__}
    before = lot[measure] or 0
    standing.update({field: said[field] for field in was})
    if body["lot"] not in counted:
        lot["held"] += (lot[measure] or 0) - before
    lot["mended"].append({"at": entry["at"], "device": entry["device"], "was": cast(LotSaid, was)})
    _known(shelf, lot["ingredient"])
    return True


def _about(shelf: Shelf, body: ShelfNotedBody | PaperedBody) -> ShelfLot | ShelfIngredient | None:
    if "lot" in body:
        return shelf["lots"].get(body["lot"])
    return shelf["ingredients"].get(body.get("ingredient", ""))


def _judge(shelf: Shelf, entry: LotJudged) -> bool:
    body = entry["body"]
    lot = shelf["lots"].get(body["lot"])
    if lot is None:
        return False
    lot["judgements"].append(
        {
            "at": entry["at"],
            "device": entry["device"],
            "verdict": body["verdict"],
            "name": body.get("name"),
            "why": body.get("why"),
        }
    )
    return True


def _paper(shelf: Shelf, entry: Papered) -> bool:
    body = entry["body"]
    about = _about(shelf, body)
    if about is None:
        return False
    told: ShelfPaper = {
        "at": entry["at"],
        "device": entry["device"],
        "paper": body["paper"],
        "reference": body["reference"],
        "dated": body.get("dated"),
        "expires": body.get("expires"),
        "amendment": body.get("amendment"),
        "category": body.get("category"),
    }
    if "picture" in body and "media" in body:
        told["picture"], told["media"] = body["picture"], body["media"]
    about["papers"].append(told)
    return True


def verdict_of(lot: ShelfLot) -> LotVerdict | None:
    """How a lot was judged last; None where nobody judged it."""
    return lot["judgements"][-1]["verdict"] if lot["judgements"] else None


def card_of(shelf: Shelf, key: str) -> Card | None:
    """The card of an ingredient; None where none was written."""
    there = shelf["ingredients"].get(key)
    return there["card"] if there else None


def called(shelf: Shelf, key: str) -> str:
    """What an ingredient is called on its card; its id where it has none."""
    card = card_of(shelf, key)
    return card["name"] if card else key


def is_barred(lot: ShelfLot) -> bool:
    """Whether a lot is held or rejected, so that nobody takes of it unasked."""
    return verdict_of(lot) in ("held", "rejected")


def papers_due(papers: Sequence[ShelfPaper], on: str) -> list[PaperDue]:
    """Of each kind the newest paper, where it is past its date or soon will be: on the day itself it is not."""
    newest = {each["paper"]: each["expires"] for each in papers}
    return [
        {"paper": kind, "expires": expires, "past": expires < on}
        for kind, expires in sorted(newest.items())
        if expires is not None and common.days_before(expires, PAPER_AHEAD_DAYS) <= on
    ]


def papers_about(shelf: Shelf, lot: ShelfLot) -> list[ShelfPaper]:
    """The papers of a lot and of its ingredient, as they were told."""
    ingredient = shelf["ingredients"].get(lot["ingredient"])
    papers = [*(ingredient["papers"] if ingredient else []), *lot["papers"]]
    return sorted(papers, key=lambda each: each["at"])


def _note(shelf: Shelf, entry: ShelfNoted) -> bool:
    body = entry["body"]
    about = _about(shelf, body)
    if about is None:
        return False
    about["notes"].append({"at": entry["at"], "device": entry["device"], "text": body["text"]})
    return True


def _measure_of(lot: ShelfLot) -> Literal["mg", "count"]:
    return "mg" if lot["count"] is None else "count"


def left_of(lot: ShelfLot, uses: Sequence[Taken]) -> int:
    """What a lot of the folded shelf has left, in mg or pieces; below zero when more was used than booked.

    uses: what each run took of it (`lots.use_of`). A correction says what is really there, so only what was
    used after it counts.
    """
    measure = _measure_of(lot)
    return lot["held"] - sum(use[measure] for use in uses if use["at"] > lot["held_at"])


def plain(text: str) -> str:
    """A lot's number, or any text, as it is compared: one width and case, single spaces."""
    return re.sub(r"[ \t\r\n]+", " ", unicodedata.normalize("NFKC", text).lower()).strip(" ")


def name_key(name: str) -> str:
    """A name as it is compared: by its letters and digits. "Citric acid, anhydrous" is "citric acid anhydrous",
    "Huile d’amande" is "huile d amande"; where a name has neither, all of it as `plain` has it."""
    bare = plain(name)
    return " ".join(_WORD.findall(bare)) or bare
