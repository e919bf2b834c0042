"""Which entries can be read: those of a kind of this version, with every field as it should be."""

from typing import TypeGuard

from bench import entries as common
from bench.errors import EntryError
from bench.kinds import RUN_KINDS, fields_of
from bench.shapes.entries import Entry, RunEntry, Signed
from bench.shapes.units import JsonObject
from bench.words import say

# Every kind of entry and its fields: (type, required). The API refuses by this table, the fold
# sets aside by it, and DEVELOPERS.md lists it. A field not named here is refused when it is sent.
KINDS = fields_of(RUN_KINDS)
_FITS = common.fits_of(KINDS)


def check_entry(entry: object, closed: bool = True) -> Entry:
    """The entry, found well-formed; else EntryError, naming the field. Unknown kinds are well-formed.

    closed: see `entries.check`.
    """
    found = common.check(entry, KINDS, closed)
    if field := _lacks(found):
        raise EntryError(f"body.{field}", say(f"entries-lacks-{field}"))
    return found


def is_readable(entry: Entry) -> TypeGuard[RunEntry]:
    return common.understood(entry, _FITS) and not _lacks(entry)


def is_signing(entry: Entry) -> TypeGuard[Signed]:
    return entry["kind"] == "signed" and is_readable(entry)


def _lacks(entry: Entry) -> str:
    """The field that a well-formed entry lacks beside another that it has; "" for none."""
    body = entry["body"]
    if entry["kind"] == "weighed":
        return "mg" if "reading_mg" in body and "mg" not in body else ""
    if entry["kind"] == "judged":
        return _lacks_of_a_judgement(body)
    if entry["kind"] == "signed" and ("entries" in body) != ("digest" in body):
        return "digest" if "entries" in body else "entries"
    return ""


def _lacks_of_a_judgement(body: JsonObject) -> str:
    """What a judgement lacks beside its verdict: a verdict that fits what it is about, a reason, the signing."""
    verdict = body["verdict"]
    if (body["about"] == "batch") != (verdict in ("released", "held", "rejected")):
        return "verdict"
    if verdict not in ("released", "accepted") and "why" not in body:
        return "why"
    return "signing" if (verdict == "released") != ("signing" in body) else ""
