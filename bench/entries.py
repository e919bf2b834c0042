"""What the run's journal and the shelf's have in common: an entry's envelope, its fields, its undoing.

An entry is {"id", "run", "device", "at", "kind", "body"}: a UUIDv7, the run it belongs to (or
"shelf"), who, the time in ms, and what happened. A table of kinds says which fields a body has:
{kind: {field: (type, required)}}.

The API refuses by `check`, one entry at a time; a fold sets aside by `understood`. Both read the
same types, `FITS`, and `frontend/bench/entries.js` has the same ones. A field that the table of its
kind does not name is refused when it is sent; what was kept with one before stays kept, and a fold
does not look at it.
"""

import calendar
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeGuard, cast

from bench.brief import joined
from bench.errors import EntryError
from bench.kinds import JUDGEMENTS, Kinds
from bench.shapes.entries import (
    ComplaintSort,
    Entry,
    Judgement,
    LotVerdict,
    Market,
    Met,
    PaperKind,
    PaperMedia,
)
from bench.shapes.schema import form_of
from bench.whole import canonical
from bench.words import say

MOST_WHOLE = 2**53 - 1
MOST_AT = 8_640_000_000_000_000  # the last instant a JavaScript Date can hold
# What a fold asks of each kind's fields: its name, whether a value fits, whether it must be there.
Fits = Mapping[str, list[tuple[str, Callable[[object], bool], bool]]]

MOST_MG = 10**9  # a tonne in one touch is a slip of the finger
MOST_MS = 366 * 86_400_000
MOST_IDS = 20_000

_KEY = re.compile(r"[A-Za-z0-9_.\-]{1,140}")
_KIND = re.compile(r"[a-z_]{1,40}")
_DEVICE = re.compile(r"[A-Za-z0-9_\-]{1,64}")
_UUID7 = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}", re.IGNORECASE)
_UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_SHA256 = re.compile(r"[0-9a-f]{64}")
_DAY = re.compile(r"((?:19|20)[0-9]{2})-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")
_DECIMAL = re.compile(r"[0-9]{1,12}(\.[0-9]{1,6})?")
_CURRENCY = re.compile(r"[A-Z]{3}")


def whole_in(value: object, least: int, most: int) -> bool:
    return type(value) is int and least <= value <= most  # true and false are no numbers


def is_text(value: object, most: int = 2000) -> bool:
    return isinstance(value, str) and 1 <= len(value) <= most


def is_decimal(value: object) -> bool:
    """A decimal at or above nought written as text, with a point: "12.50". Money is never a float."""
    return isinstance(value, str) and bool(_DECIMAL.fullmatch(value))


def is_day(value: object) -> bool:
    """A day of the calendar, "2027-03-31", from 1900 to 2099."""
    found = _DAY.fullmatch(value) if isinstance(value, str) else None
    if not found:
        return False
    year, month, day = (int(part) for part in found.groups())
    return day <= calendar.monthrange(year, month)[1]


def days_before(day: str, days: int) -> str:
    """The day so many days before another, as "2027-03-31"."""
    year, month, left = (int(part) for part in day.split("-"))
    left -= days
    while left < 1:
        year, month = (year, month - 1) if month > 1 else (year - 1, 12)
        left += calendar.monthrange(year, month)[1]
    return f"{year:04d}-{month:02d}-{left:02d}"


def _object(value: object) -> dict[str, object] | None:
    """A JSON object as one, whose fields may be anything; None for all else."""
    return cast("dict[str, object]", value) if isinstance(value, dict) else None


def as_list(value: object) -> list[object] | None:
    return cast("list[object]", value) if isinstance(value, list) else None


def _is_set_of_ids(value: object) -> bool:
    """Ids, each once, in order: so one set has one spelling."""
    ids = [each for each in as_list(value) or () if isinstance(each, str) and _KEY.fullmatch(each)]
    return (
        isinstance(value, list)
        and len(ids) == len(value) <= MOST_IDS
        and all(one < other for one, other in zip(ids, ids[1:], strict=False))
    )


def _spelt(pattern: re.Pattern[str]) -> Callable[[object], bool]:
    """Asked of every entry of a journal, so the pattern is bound once."""
    found = pattern.fullmatch
    return lambda value: isinstance(value, str) and found(value) is not None


def _one_of(words: object) -> Callable[[object], bool]:
    """words: a Literal of them."""
    return lambda value: value in form_of(words).parts


_is_key, _is_device, _is_currency, _is_uuid7 = map(_spelt, (_KEY, _DEVICE, _CURRENCY, _UUID7))


def _is_price(value: object) -> bool:
    price = _object(value)
    if price is None or not is_decimal(price.get("amount")):
        return False
    if not _is_currency(price.get("currency")):
        return False
    if "delivery" in price and not is_decimal(price["delivery"]):
        return False
    if "tax" not in price:
        return True
    tax = _object(price["tax"])
    return tax is not None and is_decimal(tax.get("percent")) and isinstance(tax.get("included"), bool)


def _is_card(value: object) -> bool:
    card = _object(value)
    return card is not None and is_text(card.get("name"), 200)


# Type -> whether a value is one; what to say when it is not stands in entries.ftl.
FITS: dict[str, Callable[[object], bool]] = {
    "id": _is_key,
    "mass": lambda value: whole_in(value, 0, MOST_MG),
    "whole": lambda value: whole_in(value, -MOST_WHOLE, MOST_WHOLE),
    "count": lambda value: whole_in(value, 0, 10_000),
    "factor": lambda value: whole_in(value, 1, 10**12),
    "weigh": lambda value: value in ("running", "tare"),
    "answer": lambda value: value in ("yes", "not_yet", "too_far"),
    "span": lambda value: whole_in(value, 1, MOST_MS),
    "humidity": lambda value: whole_in(value, 1, 100),
    "warmth": lambda value: whole_in(value, -40_000, 60_000),
    "measured": lambda value: value in ("piece", "left", "spoiled"),
    "judgement": _one_of(Judgement),
    "lot_verdict": _one_of(LotVerdict),
    "met": _one_of(Met),
    "market": _one_of(Market),
    "paper": _one_of(PaperKind),
    "media": _one_of(PaperMedia),
    "complaint": _one_of(ComplaintSort),
    "text": is_text,
    "uuid": _spelt(_UUID),
    "sha256": _spelt(_SHA256),
    "ids": _is_set_of_ids,
    "key": _is_key,
    "day": is_day,
    "price": _is_price,
    "card": _is_card,
}


# The fields that there may be, each with those inside it; None: its own schema says them.
Known = Mapping[str, "Known | None"]
_ENVELOPE: Known = {"id": None, "run": None, "device": None, "at": None, "kind": None, "body": None}
INSIDE: dict[str, Known] = {
    "price": {"amount": None, "delivery": None, "currency": None, "tax": {"percent": None, "included": None}}
}


def check(entry: object, kinds: Kinds, closed: bool = True) -> Entry:
    """The entry, found well-formed; else EntryError, naming the field. Unknown kinds are well-formed.

    closed: whether a field that nobody reads is refused too. Journals of before had some: what comes
    out of an older export may keep them.
    """
    envelope = _object(entry)
    if envelope is None:
        raise EntryError("", say("entries-envelope"))
    if not _is_uuid7(envelope.get("id")):
        raise EntryError("id", say("entries-id"))
    if not _is_device(envelope.get("device")):
        raise EntryError("device", say("entries-device"))
    if not whole_in(envelope.get("at"), 0, MOST_AT):
        raise EntryError("at", say("entries-at"))
    kind = envelope.get("kind")
    if not (isinstance(kind, str) and _KIND.fullmatch(kind)):
        raise EntryError("kind", say("entries-kind"))
    body = _object(envelope.get("body"))
    if body is None:
        raise EntryError("body", say("entries-body"))
    _check_fields(body, kinds.get(kind, {}))
    if closed:
        _refuse_unread(envelope, _ENVELOPE, "entry", kind)
        if kind in kinds:
            known = {field: INSIDE.get(fits) for field, (fits, _) in kinds[kind].items()}
            _refuse_unread(body, known, "body", kind, "body.")
    return cast(Entry, envelope)


def _check_fields(body: dict[str, object], fields: dict[str, tuple[str, bool]]) -> None:
    for field, (kind, required) in fields.items():
        if field not in body:
            if required:
                says = joined(say("entries-missing", field=field), _wanted(field, kind))
                raise EntryError(f"body.{field}", says)
        elif not FITS[kind](body[field]):
            raise EntryError(f"body.{field}", _wanted(field, kind))


def _wanted(field: str, kind: str) -> str:
    return say(f"entries-fits-{kind}", field=field, most=MOST_IDS)


def _refuse_unread(value: dict[str, object], known: Known, what: str, name: str, where: str = "") -> None:
    """Raise EntryError for the first field that is not known. what: "entry", "body", or "within" a field."""
    for field, each in value.items():
        if field not in known:
            names, many = ", ".join(known), len(known)
            says = say(f"entries-unknown-{what}", name=name, field=field[:80], known=names, count=many)
            raise EntryError(f"{where}{field[:80]}", says)
        inside, fields = _object(each), known[field]
        if fields is not None and inside is not None:
            _refuse_unread(inside, fields, "within", field, f"{where}{field}.")


def fits_of(kinds: Kinds) -> Fits:
    """What `understood` asks of each kind's fields, looked up once for a whole journal."""
    return {
        kind: [(field, FITS[fits], required) for field, (fits, required) in fields.items()]
        for kind, fields in kinds.items()
    }


def understood(entry: Entry, fits: Fits) -> bool:
    """Whether a fold can read the body of a placeable entry: a known kind with every field as it should be."""
    fields = fits.get(entry["kind"])
    if fields is None:
        return False
    body = entry["body"]
    for field, is_fit, required in fields:
        if not (is_fit(body[field]) if field in body else not required):
            return False
    return True


def _is_placeable(entry: object) -> TypeGuard[Entry]:
    """Whether a fold can place an entry at all: it has an id, a device, a time, a kind and a body."""
    if not isinstance(entry, dict):
        return False
    get = cast("dict[str, object]", entry).get
    return (
        _is_key(get("id"))
        and _is_device(get("device"))
        and whole_in(get("at"), 0, MOST_AT)
        and isinstance(get("kind"), str)
        and isinstance(get("body"), dict)
    )


def in_order(entries: Iterable[object]) -> list[Entry]:
    """Each placeable entry once, by (at, device, id). Of two with one id the lesser spelling stays."""
    kept: dict[str, Entry] = {}
    for entry in entries:
        if not _is_placeable(entry):
            continue
        other = kept.get(entry["id"])
        if other is None or (entry is not other and canonical(entry) < canonical(other)):
            kept[entry["id"]] = entry
    return sorted(kept.values(), key=_place)


def _place(entry: Entry) -> tuple[int, str, str]:
    return entry["at"], entry["device"], entry["id"]


def less_undone(ordered: Sequence[Entry]) -> list[Entry]:
    """Entries in order, less the undone and their undos. An undo takes back only what came before it, and no
    judgement: a further one corrects that."""
    undos = [index for index, entry in enumerate(ordered) if entry["kind"] == "undone"]
    could = enumerate(ordered) if undos else ()
    place = {entry["id"]: index for index, entry in could if entry["kind"] not in JUDGEMENTS}
    gone: set[str] = set()
    for index in reversed(undos):
        entry = ordered[index]
        if entry["id"] in gone:
            continue
        key = entry["body"].get("entry")
        if isinstance(key, str) and _KEY.fullmatch(key) and place.get(key, index) < index:
            gone.update((key, entry["id"]))
    return [entry for entry in ordered if entry["id"] not in gone]
