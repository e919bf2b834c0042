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
from typing import Any

from bench import entries as common
from bench import kinds
from bench.errors import EntryError
from bench.kinds import fields_of
from bench.money import is_currency
from bench.recipe_schema import INGREDIENT, closed, listed, text
from bench.schema_words import say_what_is_wrong

Json = Any  # until its shape is named

SHELF_KINDS = fields_of(kinds.SHELF_KINDS)
CARD_SCHEMA: Json = closed(
    ["name"],
    {
        **INGREDIENT["properties"],
        "cas": text(12, 7),
        "limits": listed(text(300), 20),
        "answers_to": listed(text(200), 50),
    },
)
_CAS = re.compile(r"([1-9][0-9]{1,6})-([0-9]{2})-([0-9])")


def check_shelf_entry(entry: Any, closed: bool = True) -> None:
    """Raise EntryError, naming the field, when an entry of the shelf is malformed; closed: see `entries.check`."""
    common.check(entry, SHELF_KINDS, closed)
    body = entry["body"]
    if entry["kind"] == "described":
        fault = say_what_is_wrong(body["card"], CARD_SCHEMA)
        if fault:
            raise EntryError(".".join(filter(None, ("body.card", fault[0]))), fault[1])
        if "cas" in body["card"] and not is_cas(body["card"]["cas"]):
            raise EntryError(
                "body.card.cas",
                "This is no CAS number: its last digit does not fit the others. Copy it again.",
            )
    if entry["kind"] in ("received", "corrected", "wrote_off") and ("mg" in body) == ("count" in body):
        raise EntryError("body.mg", "Say how much: “mg” for what is weighed, or “count” for what is counted.")
    if "price" in body and entry["kind"] == "received" and not is_currency(body["price"]["currency"]):
        raise EntryError("body.price.currency", "This is no currency of ISO 4217, such as EUR, GBP or USD.")
    if entry["kind"] == "noted" and ("lot" in body) == ("ingredient" in body):
        raise EntryError("body.lot", "Say what the note is about: a “lot” or an “ingredient”.")


def is_cas(written: str) -> bool:
    """Whether a CAS number's check digit fits: the sum of the others, each times its place from the
    right, modulo ten (the registry's own rule, from memory; water is 7732-18-5)."""
    found = _CAS.fullmatch(written)
    if not found:
        return False
    digits = reversed(found[1] + found[2])
    return sum(place * int(digit) for place, digit in enumerate(digits, 1)) % 10 == int(found[3])


def fold_shelf(entries: list[Json]) -> Json:
    """What the shelf's entries say together. Never raises for any set of entries."""
    lives = common.less_undone(common.in_order(entries))
    ingredients: Json = {}
    lots: Json = {}
    unread: list[str] = []
    later: list[Json] = []
    for entry in lives:
        if not common.understood(entry, SHELF_KINDS):
            unread.append(entry["id"])
        elif entry["kind"] == "described":
            _known(ingredients, str(entry["body"]["ingredient"]))["card"] = entry["body"]["card"]
        elif entry["kind"] == "received":
            if not _receive(lots, entry):
                unread.append(entry["id"])
            else:
                _known(ingredients, str(entry["body"]["ingredient"]))
        else:
            later.append(entry)
    for entry in later:
        if not _TAKES[entry["kind"]](ingredients, lots, entry):
            unread.append(entry["id"])
    return {"ingredients": ingredients, "lots": lots, "unread": sorted(unread)}


def _known(ingredients: Json, key: str) -> Json:
    found: Json = ingredients.setdefault(key, {"card": None, "notes": []})
    return found


def _receive(lots: Json, entry: Json) -> bool:
    body = entry["body"]
    if body["lot"] in lots or ("mg" in body) == ("count" in body):
        return False
    lots[body["lot"]] = {
        "ingredient": body["ingredient"],
        "number": body["number"],
        "received_on": body["received_on"],
        **{key: body.get(key) for key in ("supplier", "best_before", "price", "code", "mg", "count")},
        "held": body["mg"] if "mg" in body else body["count"],
        "held_at": entry["at"],
        "wrote_off": [],
        "notes": [],
    }
    return True


def _measured(lots: Json, body: Json) -> tuple[Json, int] | None:
    """The lot that an entry speaks of, and how much, in the lot's own measure; None when it says it in
    the other, or when there is no such lot."""
    if body["lot"] not in lots:
        return None
    lot = lots[body["lot"]]
    measure = "mg" if lot["count"] is None else "count"
    return (lot, body[measure]) if measure in body else None


def _corrected(ingredients: Json, lots: Json, entry: Json) -> bool:
    found = _measured(lots, entry["body"])
    if found:
        lot, much = found
        lot["held"], lot["held_at"] = much, entry["at"]
    return found is not None


def _wrote_off(ingredients: Json, lots: Json, entry: Json) -> bool:
    found = _measured(lots, entry["body"])
    if found:
        lot, much = found
        lot["held"] -= much
        lot["wrote_off"].append({"at": entry["at"], "much": much, "why": entry["body"]["why"]})
    return found is not None


def _noted(ingredients: Json, lots: Json, entry: Json) -> bool:
    body = entry["body"]
    about = lots.get(body["lot"]) if "lot" in body else ingredients.get(body.get("ingredient"))
    if about is None:
        return False
    about["notes"].append({"at": entry["at"], "device": entry["device"], "text": body["text"]})
    return True


def _undone(ingredients: Json, lots: Json, entry: Json) -> bool:
    return False  # what it takes back is not here, or came after it


_TAKES = {"corrected": _corrected, "wrote_off": _wrote_off, "noted": _noted, "undone": _undone}


def left_of(lot: Json, uses: list[Json]) -> int:
    """What a lot of the folded shelf has left, in mg or pieces; below nought when more was used than booked.

    uses: [{"mg", "count", "at"}], what each run took of it (`lots.use_of`). A correction says what
    is really there, so only what was used after it counts.
    """
    measure = "mg" if lot["count"] is None else "count"
    gone = sum(use[measure] for use in uses if use["at"] > lot["held_at"])
    return int(lot["held"] - gone)


def plain(name: str) -> str:
    """A name as it is compared: one width and case, single spaces."""
    return re.sub(r"[ \t\r\n]+", " ", unicodedata.normalize("NFKC", name).lower()).strip(" ")


def card_for(shelf: Json, name: str) -> str | None:
    """The id of the shelf's ingredient that answers to a recipe ingredient's name; None when none does.

    An ingredient answers to its card's own name and to each of its `answers_to`. Of several, one
    whose own name it is, then the least id.
    """
    wanted = plain(name)
    found: list[tuple[bool, str]] = []
    for key, ingredient in shelf["ingredients"].items():
        card = ingredient["card"]
        if card is None:
            continue
        own = plain(card["name"]) == wanted
        also = card.get("answers_to")
        names = also if isinstance(also, list) else []
        if own or any(isinstance(each, str) and plain(each) == wanted for each in names):
            found.append((not own, key))
    return min(found)[1] if found else None
