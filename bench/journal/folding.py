"""The fold: entries in, in order; the state out. What an entry tells is taken in at the bowls, by steps or on paper."""

from collections.abc import Iterable
from typing import TypeGuard

from bench.entries import in_order, less_undone
from bench.journal import bowls, paper, steps
from bench.journal.drawing import draw
from bench.journal.reading import KINDS, is_readable
from bench.journal.signing import judge
from bench.journal.tally import Tally
from bench.kinds import JUDGEMENTS
from bench.shapes.entries import Entry, FrozenSeal, RunEntry
from bench.shapes.sheet import Sheet
from bench.shapes.state import Remark, State

# What each kind of entry names of the sheet.
_NAMES = {kind: [name for name in ("step", "line", "vessel") if name in KINDS[kind]] for kind in KINDS}


def fold(sheet: Sheet, entries: Iterable[object], frozen: FrozenSeal | None = None) -> State:
    """The state: what the sheet and the journal together say. Never raises for any set of entries.

    frozen: what a signing that names nothing seals; see `frozen_seal`.
    """
    ordered = in_order(entries)
    judged = judge(ordered, frozen)
    signing, ids = judged.signing, judged.ids
    tally = Tally(sheet)
    tally.unsigned = judged.unsigned
    sealed = ordered if signing is None else [entry for entry in ordered if entry["id"] in ids]
    for entry in less_undone(sealed):
        if entry["id"] in judged.unfit or not _take(tally, entry):
            tally.unread.append(entry["id"])
    if signing is not None:
        tally.sign(signing, [entry["id"] for entry in sealed], len(ids))
        for entry in less_undone([entry for entry in ordered if entry["id"] not in ids]):
            if entry["id"] != signing["id"] and (entry["id"] in judged.unfit or not _remark(tally, entry)):
                tally.unread.append(entry["id"])
    return draw(tally)


def _take(tally: Tally, entry: Entry) -> bool:
    """Take one entry in; False when it cannot be read, or speaks of something not on this sheet."""
    if not (_is_of_sheet(entry, tally) and _tell(tally, entry)):
        return False
    if entry["kind"] in JUDGEMENTS:
        return True  # it is no work at the bench
    if tally.started_at is None:
        tally.started_at = entry["at"]
    tally.last_at = entry["at"]
    return True


def _remark(tally: Tally, entry: Entry) -> bool:
    """Put one that was not signed beside the record; False when it cannot be read, or speaks of another sheet."""
    if entry["kind"] in JUDGEMENTS:
        return _take(tally, entry)
    remark: Remark = {
        "id": entry["id"],
        "at": entry["at"],
        "device": entry["device"],
        "kind": entry["kind"],
        "body": entry["body"],
    }
    if not _is_of_sheet(entry, tally):
        return False
    tally.remarks.append(remark)
    return True


def _is_of_sheet(entry: Entry, tally: Tally) -> TypeGuard[RunEntry]:
    """Whether an entry can be read, and the step, line and vessel that it names are on this sheet."""
    kind, body = entry["kind"], entry["body"]
    if not is_readable(entry):
        return False
    for name in _NAMES[kind]:
        if name in body and body[name] not in tally.by_id[name]:
            return False
    return True


def _tell(tally: Tally, entry: RunEntry) -> bool:
    """Whether the entry made sense on this sheet."""
    match entry["kind"]:
        case "weighed" | "taken_out" | "left" | "left_out" | "carried" | "zeroed":
            return bowls.take(tally, entry)
        case "placed" | "took" | "switched" | "portioned":
            return bowls.take(tally, entry)
        case "done" | "counted" | "looked" | "heated" | "began" | "extended" | "chose" | "skipped":
            return steps.take(tally, entry)
        case _:
            return paper.take(tally, entry)
