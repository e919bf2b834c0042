"""What a signing seals: the entries that it names, those of the record, and the signings that were taken back.

A `signed` of earlier versions names nothing. What it seals is then what stood before it, and whoever keeps the
journal keeps that set for it (`frozen_seal`), so that nothing that comes later can stand before it.
"""

from collections.abc import Iterable
from typing import NamedTuple, cast

from bench.digest import digest
from bench.entries import in_order, less_undone
from bench.journal.reading import is_signing
from bench.shapes.entries import Entry, FrozenSeal, RunEntry, Seal, Signed
from bench.shapes.state import State, Unsigned


def seal(entries: Iterable[object]) -> Seal:
    """What a `signed` says besides the name, for one who has these entries: their ids and their digest."""
    ordered = in_order(entries)
    return {"entries": sorted(entry["id"] for entry in ordered), "digest": digest(ordered)}


def frozen_seal(entries: Iterable[object], frozen: FrozenSeal | None = None) -> FrozenSeal | None:
    """What a signing that names nothing seals, if one holds.

    It is found once, by who keeps the journal, and handed to `fold` from then on.
    """
    judged = judge(in_order(entries), frozen)
    if judged.signing is None or "entries" in judged.signing["body"]:
        return None
    return {"signed": judged.signing["id"], "entries": sorted(judged.ids)}


def of_record(state: State, entries: Iterable[object]) -> list[Entry]:
    """The entries that a record is of, in order: all, or once it is signed the sealed ones and the signing."""
    ordered = in_order(entries)
    if not state["signed"]:
        return ordered
    ids = {*state["signed"]["entries"], state["signed"]["id"]}
    return [entry for entry in ordered if entry["id"] in ids]


def told_of(state: State, entries: Iterable[object]) -> list[Entry]:
    """Those of them that live: what the state is folded from."""
    return less_undone(of_record(state, entries))


def read_of(state: State, entries: Iterable[object]) -> list[RunEntry]:
    """Those of them that the state was folded from: what it lists as unread is not among them."""
    unread = set(state["unread"])
    read = [entry for entry in told_of(state, entries) if entry["id"] not in unread]
    return cast("list[RunEntry]", read)  # the fold found each of them readable


class Judged(NamedTuple):
    """The signing that holds and the ids of all that it seals, here or not; the signings that were taken
    back, and those whose digest does not fit."""

    signing: Signed | None
    ids: set[str]
    unsigned: list[Unsigned]
    unfit: set[str]


def judge(ordered: list[Entry], frozen: FrozenSeal | None) -> Judged:
    """Which of the signings among these entries, which are in order, holds."""
    judged = Judged(None, set(), [], set())
    if not any(entry["kind"] == "signed" for entry in ordered):
        return judged
    signings = [entry for entry in ordered if is_signing(entry)]
    place = {entry["id"]: index for index, entry in enumerate(ordered)}
    undos = _undos(ordered, place)
    for signing in signings:
        ids = _named_by(signing, frozen)
        if undo := _taken_back_by(signing["id"], undos, ids or set()):
            judged.unsigned.append(
                {
                    "at": undo["at"],
                    "device": undo["device"],
                    "name": signing["body"]["name"],
                    "signed_at": signing["at"],
                    "signed_by": signing["device"],
                }
            )
        elif judged.signing is None:
            if ids is None:
                ids = {entry["id"] for entry in ordered[: place[signing["id"]]]}
            if _fits(signing, ids, ordered, place):
                judged = judged._replace(signing=signing, ids=ids)
            else:
                judged.unfit.add(signing["id"])
    return judged


def _undos(ordered: list[Entry], place: dict[str, int]) -> dict[str, list[Entry]]:
    """The undos of each entry that came before them."""
    undos: dict[str, list[Entry]] = {}
    for index, entry in enumerate(ordered):
        key = entry["body"].get("entry") if entry["kind"] == "undone" else None
        if isinstance(key, str) and place.get(key, index) < index:
            undos.setdefault(key, []).append(entry)
    return undos


def _named_by(signing: Signed, frozen: FrozenSeal | None) -> set[str] | None:
    """The ids of all that a signing seals by name; None for all that stands before it."""
    named = frozen["entries"] if frozen and frozen["signed"] == signing["id"] else None
    named = signing["body"].get("entries", named)
    return None if named is None else {*named} - {signing["id"]}


def _fits(signing: Signed, ids: set[str], ordered: list[Entry], place: dict[str, int]) -> bool:
    """Whether the entries are those that were signed; who lacks some cannot tell."""
    if "digest" not in signing["body"] or not ids <= place.keys():
        return True
    return digest(ordered[place[key]] for key in ids) == signing["body"]["digest"]


def _taken_back_by(key: str, undos: dict[str, list[Entry]], sealed: set[str]) -> Entry | None:
    """The undo that takes a signing back; what it sealed itself does not."""
    chain = [key]
    for each in chain:
        chain += [undo["id"] for undo in undos.get(each, ()) if undo["id"] not in sealed]
    by: dict[str, Entry] = {}
    for each in reversed(chain):
        holding = (undo for undo in undos.get(each, ()) if undo["id"] not in sealed and undo["id"] not in by)
        if undo := next(holding, None):
            by[each] = undo
    return by.get(key)
