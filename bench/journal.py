"""The journal: what happened at the bench, and the fold that says where things stand.

A run is a grow-only set of entries. Merge is set union; the fold sorts by (at, device, id), so
order of arrival does not matter, a duplicate is harmless and two phones converge. An undo is an
entry that takes back an earlier one. Nothing that is well-formed is refused because another entry
came first: a step reported done before its needs were done is done. An entry this version does not
understand, or one that speaks of another sheet, is kept and listed as unread.

A `signed` names what it seals: the ids of the entries that its signer had, and their digest. While
it holds, the state is what those and the signing say. Every other entry, whatever its instant, is a
remark with its own time: it takes nothing sealed back, and only undoes among remarks. Of several
signings that were not taken back the first holds. `signed` of earlier versions names nothing; what
it seals is then what stood before it, and the server keeps that set for it (`frozen`), so that
nothing that comes later can stand before it. One whose digest is not that of the entries it names
seals nothing, and is listed as unread.

The fold never raises and never reads a clock. `frontend/bench/journal.js` is the same fold.
"""

from typing import Any, NamedTuple

from bench import entries as common
from bench.digest import digest
from bench.errors import EntryError
from bench.kinds import RUN_KINDS, fields_of
from bench.sizing import pieces_from
from bench.states import ASSEMBLY, open_window
from bench.weighing import allowed_mg, carry_factor
from bench.whole import half_even, share_out

Json = Any  # until its shape is named

COUNTED = ("good", "spoiled", "partial")
ONE_TOUCH_MS = 400  # nobody presses two pieces in that time; a wet thumb bounces within it
MOST_FACTOR = 1000  # a thousand times the batch is a slip of the finger too
WRAP = "wrap"  # what pieces are wrapped in: gathered like an ingredient, though no sheet lists it

# Every kind of entry and its fields: (type, required). The API refuses by this table, the fold
# sets aside by it, and DEVELOPERS.md lists it. A field not named here is refused when it is sent.
KINDS = fields_of(RUN_KINDS)


def check_entry(entry: Any, closed: bool = True) -> None:
    """Raise EntryError, naming the field, when an entry is malformed. Unknown kinds are well-formed.

    closed: see `entries.check`.
    """
    common.check(entry, KINDS, closed)
    if field := _lacks(entry):
        raise EntryError(f"body.{field}", LACKING[field])


# What a field is needed for, where another is there.
LACKING = {
    "mg": "“mg” is missing: what was read says nothing without the mass that it came to.",
    "entries": "“entries” is missing: say the ids of what the digest is of.",
    "digest": "“digest” is missing: say the digest of the entries that are signed.",
}


def _lacks(entry: Json) -> str:
    """The field that a well-formed entry lacks beside another that it has; "" for none."""
    body = entry["body"]
    if entry["kind"] == "weighed" and "reading_mg" in body and "mg" not in body:
        return "mg"
    if entry["kind"] == "signed" and ("entries" in body) != ("digest" in body):
        return "digest" if "entries" in body else "entries"
    return ""


def _readable(entry: Json) -> bool:
    return common.understood(entry, KINDS) and not _lacks(entry)


def seal(entries: list[Json]) -> Json:
    """What a `signed` says besides the name, for one who has these entries: their ids and their digest."""
    ordered = common.in_order(entries)
    return {"entries": sorted(entry["id"] for entry in ordered), "digest": digest(ordered)}


def frozen_seal(entries: list[Json], frozen: Json | None = None) -> Json | None:
    """What a signing that names nothing seals, if one holds: {"signed": its id, "entries": ids}.

    It is found once, by who keeps the journal, and handed to `fold` from then on.
    """
    ordered = common.in_order(entries)
    judged = _judged(ordered, frozen)
    if judged.signing is None or "entries" in judged.signing["body"]:
        return None
    return {"signed": judged.signing["id"], "entries": sorted(judged.ids)}


def of_record(state: Json, entries: list[Json]) -> list[Json]:
    """The entries that a record is of, in order: all, or once it is signed the sealed ones and the signing."""
    ordered = common.in_order(entries)
    if not state["signed"]:
        return ordered
    ids = {*state["signed"]["entries"], state["signed"]["id"]}
    return [entry for entry in ordered if entry["id"] in ids]


def told_of(state: Json, entries: list[Json]) -> list[Json]:
    """Those of them that live: what the state is folded from."""
    return common.less_undone(of_record(state, entries))


class _Judged(NamedTuple):
    """The signing that holds and the ids of all that it seals, here or not; the signings that were taken
    back, and those whose digest does not fit."""

    signing: Json | None
    ids: set[str]
    unsigned: list[Json]
    unfit: set[str]


def _judged(ordered: list[Json], frozen: Json | None) -> _Judged:
    signings = [entry for entry in ordered if entry["kind"] == "signed" and _readable(entry)]
    judged = _Judged(None, set(), [], set())
    if not signings:
        return judged
    place = {entry["id"]: index for index, entry in enumerate(ordered)}
    undos: dict[str, list[Json]] = {}
    for index, entry in enumerate(ordered):
        key = entry["body"].get("entry") if entry["kind"] == "undone" else None
        if isinstance(key, str) and place.get(key, index) < index:
            undos.setdefault(key, []).append(entry)
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


def _named_by(signing: Json, frozen: Json | None) -> set[str] | None:
    """The ids of all that a signing seals by name; None for all that stands before it."""
    named = frozen["entries"] if frozen and frozen["signed"] == signing["id"] else None
    named = signing["body"].get("entries", named)
    return None if named is None else {*named} - {signing["id"]}


def _fits(signing: Json, ids: set[str], ordered: list[Json], place: dict[str, int]) -> bool:
    """Whether the entries are those that were signed; who lacks some cannot tell."""
    if "digest" not in signing["body"] or not ids <= place.keys():
        return True
    return digest([ordered[place[key]] for key in ids]) == str(signing["body"]["digest"])


def _taken_back_by(key: str, undos: dict[str, list[Json]], sealed: set[str]) -> Json | None:
    """The undo that takes a signing back; what it sealed itself does not."""
    chain = [key]
    for each in chain:
        chain += [undo["id"] for undo in undos.get(each, ()) if undo["id"] not in sealed]
    by: dict[str, Json] = {}
    for each in reversed(chain):
        holding = (undo for undo in undos.get(each, ()) if undo["id"] not in sealed and undo["id"] not in by)
        if undo := next(holding, None):
            by[each] = undo
    return by.get(key)


def fold(sheet: Json, entries: list[Json], frozen: Json | None = None) -> Json:
    """The state: what the sheet and the journal together say. Never raises for any set of entries.

    frozen: what a signing that names nothing seals, {"signed", "entries"}; see `frozen_seal`.
    """
    ordered = common.in_order(entries)
    judged = _judged(ordered, frozen)
    state = _Fold(sheet)
    state.unsigned = judged.unsigned
    signing, ids = judged.signing, judged.ids
    sealed = ordered if signing is None else [entry for entry in ordered if entry["id"] in ids]
    for entry in common.less_undone(sealed):
        if entry["id"] in judged.unfit or not (_readable(entry) and state.take(entry)):
            state.unread.append(entry["id"])
    if signing is not None:
        state.sign(signing, [entry["id"] for entry in sealed], len(ids))
        for entry in common.less_undone([entry for entry in ordered if entry["id"] not in ids]):
            if entry is not signing and not (
                entry["id"] not in judged.unfit and _readable(entry) and state.remark(entry)
            ):
                state.unread.append(entry["id"])
    return state.told()


class _Fold:
    """Entries in, one at a time and in order; `told` draws what follows from them."""

    def __init__(self, sheet: Json) -> None:
        self.sheet = sheet
        self.steps = {step["id"]: step for step in sheet["steps"]}
        self.lines = {line["id"]: line for line in sheet["lines"]}
        self.vessels = {vessel["id"]: vessel for vessel in sheet["vessels"]}
        self.split_of = {
            portion["vessel"]: step
            for step in sheet["steps"]
            if step["kind"] == "split"
            for portion in step["portions"]
        }
        self.weigh: str = sheet["size"]["weigh"]
        self.started_at: int | None = None
        self.finished_at: int | None = None
        self.last_at: int | None = None
        self.settled: dict[str, Json] = {}  # step -> {"status", "at", "way", "why"}
        self.way: dict[str, str] = {}
        self.began: dict[str, int] = {}
        self.in_mg = dict.fromkeys(self.lines, 0)
        self.touched: dict[str, int] = {}  # line -> when last
        self.decided: dict[str, str] = {}  # line -> left | left_out
        self.poured_by: dict[str, str] = {}  # line -> the device that told its first pour
        self.twice: dict[str, str] = {}  # line -> the last pour told by another device
        self.factors: dict[str, tuple[int, int]] = {}
        self.scales = {scale["id"]: scale for scale in sheet["kit"]["scales"]}
        self.kit_vessels = {vessel["id"]: vessel for vessel in sheet["kit"]["vessels"]}
        self.scale_of = {key: vessel["scale"] for key, vessel in self.vessels.items()}
        self.placed: dict[str, str] = {}  # line -> the scale that its small cup was put on
        self.taken: dict[str, str] = {}  # vessel -> the one of the kit that was taken instead
        self.weighed_on: dict[str, str | None] = {}  # line -> the scale of its last pour
        self.vessel_mg = dict.fromkeys(self.vessels, 0)
        self.zero_mg = dict.fromkeys(self.vessels, 0)
        self.portions: dict[str, int] = {}
        self.portioned_at: dict[str, int] = {}
        self.bursts: dict[str, list[Json]] = {}
        self.looks: dict[str, list[Json]] = {}
        self.counts: dict[str, Json] = {}
        self.counted_at: dict[str, int] = {}
        self.counted_by: dict[tuple[str, str], Json] = {}  # step and device -> what it counted last
        self.unseeing: set[str] = set()  # steps of which somebody counted without saying how many were seen
        self.extended: dict[str, int] = {}
        self.gatherable = {each["id"] for each in sheet["ingredients"]} | {WRAP}
        self.number: str | None = None
        self.also_numbered: list[str] = []
        self.gathered: list[Json] = []
        self.ticked: dict[str, int] = {}
        self.measured: list[Json] = []
        self.pictures: list[Json] = []
        self.worked: dict[str, int] = {}
        self.signed: Json | None = None
        self.unsigned: list[Json] = []
        self.remarks: list[Json] = []
        self.notes: list[Json] = []
        self.unread: list[str] = []

    def take(self, entry: Json) -> bool:
        """Take one well-formed entry in; False when it speaks of something not on this sheet."""
        at: int = entry["at"]
        if not (self._is_here(entry) and getattr(self, f"_{entry['kind']}")(at, entry["body"], entry)):
            return False
        if self.started_at is None:
            self.started_at = at
        self.last_at = at
        return True

    def remark(self, entry: Json) -> bool:
        """Put one that was not signed beside the record; False when it speaks of something not on this sheet."""
        if not self._is_here(entry):
            return False
        self.remarks.append({field: entry[field] for field in ("id", "at", "device", "kind", "body")})
        return True

    def sign(self, signing: Json, sealed: list[str], named: int) -> None:
        """Close the record by this signing, which named so many entries, of which these are here."""
        self.signed = {
            "id": signing["id"],
            "at": signing["at"],
            "device": signing["device"],
            "name": signing["body"]["name"],
            "entries": sorted(sealed),
            "missing": named - len(sealed),
        }
        at: int = signing["at"]
        self.started_at = at if self.started_at is None else self.started_at
        self.finished_at = at if self.finished_at is None else self.finished_at
        self.last_at = at

    def _is_here(self, entry: Json) -> bool:
        """Whether the step, line and vessel that an entry names are on this sheet."""
        body, fields = entry["body"], KINDS[entry["kind"]]
        return not any(
            field in body and field in fields and body[field] not in known
            for field, known in (("step", self.steps), ("line", self.lines), ("vessel", self.vessels))
        )

    # One method a kind. Each answers whether the entry made sense on this sheet.

    def _weighed(self, at: int, body: Json, entry: Json) -> bool:
        line = self.lines[body["line"]]
        if "mg" not in body and line["mg"] is not None:
            return False
        mg = body.get("mg", 0)
        vessel = line["vessel"]
        if vessel is not None:
            if self.weigh == "tare" and not line["cup"]:
                self.zero_mg[vessel] = self.vessel_mg[vessel]
            self.vessel_mg[vessel] += mg
        self.in_mg[line["id"]] += mg
        self.touched[line["id"]] = at
        self.weighed_on[line["id"]] = self._scale_now(line)
        if self.poured_by.setdefault(line["id"], entry["device"]) != entry["device"]:
            self.twice[line["id"]] = entry["id"]
        if self.decided.get(line["id"]) == "left_out":
            del self.decided[line["id"]]
        return True

    def _taken_out(self, at: int, body: Json, entry: Json) -> bool:
        line = self.lines[body["line"]]
        mg = min(body["mg"], self.in_mg[line["id"]])
        self.in_mg[line["id"]] -= mg
        if line["vessel"] is not None:
            self.vessel_mg[line["vessel"]] -= mg
        self.touched[line["id"]] = at
        return True

    def _left(self, at: int, body: Json, entry: Json) -> bool:
        self.decided[body["line"]] = "left"
        self.touched[body["line"]] = at
        return True

    def _left_out(self, at: int, body: Json, entry: Json) -> bool:
        self.decided[body["line"]] = "left_out"
        self.touched[body["line"]] = at
        return True

    def _carried(self, at: int, body: Json, entry: Json) -> bool:
        key = f"{body['component']}.{body['round']}"
        lines = [line for line in self.sheet["lines"] if f"{line['component']}.{line['round']}" == key]
        if not lines or not in_reach(body["num"], body["den"]):
            return False
        self.factors[key] = (body["num"], body["den"])
        for line in lines:  # new targets, so what was let pass is judged again
            if self.decided.get(line["id"]) == "left":
                del self.decided[line["id"]]
            if line["id"] in body.get("left", ()) and line["id"] in self.touched:
                self.decided.setdefault(line["id"], "left")
        return True

    def _zeroed(self, at: int, body: Json, entry: Json) -> bool:
        self.zero_mg[body["vessel"]] = self.vessel_mg[body["vessel"]]
        return True

    def _placed(self, at: int, body: Json, entry: Json) -> bool:
        """A vessel stands on another scale from now on, zeroed with what is in it; or one line's small cup does."""
        vessel, line = body["vessel"], body.get("line")
        if body["scale"] not in self.scales:
            return False
        if line is None:
            self.scale_of[vessel] = body["scale"]
            self.zero_mg[vessel] = self.vessel_mg[vessel]
        elif self.lines[line]["vessel"] == vessel:
            self.placed[line] = body["scale"]
        return line is None or self.lines[line]["vessel"] == vessel

    def _took(self, at: int, body: Json, entry: Json) -> bool:
        """Another vessel of the kit is used, with all that was in this one; the scale is zeroed with it."""
        if body["instead"] not in self.kit_vessels:
            return False
        self.taken[body["vessel"]] = body["instead"]
        self.zero_mg[body["vessel"]] = self.vessel_mg[body["vessel"]]
        return True

    def _switched(self, at: int, body: Json, entry: Json) -> bool:
        self.weigh = body["weigh"]
        return True

    def _chose(self, at: int, body: Json, entry: Json) -> bool:
        if not any(way["id"] == body["way"] for way in self.steps[body["step"]]["ways"]):
            return False
        self.way[body["step"]] = body["way"]
        return True

    def _settle(self, step: str, status: str, at: int, why: str = "") -> None:
        known = self.settled.get(step)
        if known is None or known["status"] != status:
            self.settled[step] = {"status": status, "at": at, "why": why}

    def _done(self, at: int, body: Json, entry: Json) -> bool:
        step = self.steps[body["step"]]
        if "way" in body and not self._chose(at, body, entry):
            return False
        was_done = self.settled.get(step["id"], {}).get("status") == "done"
        self._settle(step["id"], "done", at)
        if step["kind"] == "do" and not was_done:
            for jug in step["tips"]:
                self.vessel_mg[step["into"]] += self.vessel_mg[jug]
                self.vessel_mg[jug] = 0
                self.zero_mg[jug] = 0
        return True

    def _skipped(self, at: int, body: Json, entry: Json) -> bool:
        self._settle(body["step"], "skipped", at, body.get("why", ""))
        return True

    def _began(self, at: int, body: Json, entry: Json) -> bool:
        self.began.setdefault(body["step"], at)
        return True

    def _heated(self, at: int, body: Json, entry: Json) -> bool:
        bursts = self.bursts.setdefault(body["step"], [])
        if bursts and bursts[-1]["answer"] is None:
            bursts[-1]["answer"] = "not_yet"
        bursts.append({"at": at, "ms": body["ms"], "answer": None})
        return True

    def _looked(self, at: int, body: Json, entry: Json) -> bool:
        step = self.steps[body["step"]]
        if "way" in body and not self._chose(at, body, entry):
            return False
        bursts = self.bursts.get(step["id"])
        if bursts and bursts[-1]["answer"] is None:
            bursts[-1]["answer"] = body["answer"]
        self.looks.setdefault(step["id"], []).append(
            {"at": at, "answer": body["answer"], "way": body.get("way")}
        )
        if body["answer"] == "yes" and step["kind"] in ("melt", "check", "wait"):
            self._settle(step["id"], "done", at)
        return True

    def _portioned(self, at: int, body: Json, entry: Json) -> bool:
        vessel = body["vessel"]
        step = self.split_of.get(vessel)
        if step is None or vessel == step["portions"][-1]["vessel"]:
            return False
        self.portions[vessel] = self.portions.get(vessel, 0) + body["mg"]
        self.vessel_mg[vessel] += body["mg"]
        self.zero_mg[vessel] += body["mg"]
        self.vessel_mg[step["vessel"]] -= body["mg"]
        self.portioned_at[vessel] = at
        return True

    def _counted(self, at: int, body: Json, entry: Json) -> bool:
        step = self.steps[body["step"]]
        part = body.get("of")
        if step["kind"] != "pieces" or (part is not None and part != "joined" and part not in step["of"]):
            return False
        if "way" in body and not self._chose(at, body, entry):
            return False
        if "seen" not in body:
            self.unseeing.add(step["id"])
        elif self._is_one_touch(entry):
            return True
        count = self.counts.setdefault(step["id"], {"good": 0, "spoiled": 0, "partial": 0, "of": {}})
        made = 0
        for field in COUNTED:
            count[field] += body.get(field, 0)
            made += body.get(field, 0)
        if part is not None:
            count["of"][part] = count["of"].get(part, 0) + made
        self.counted_at[step["id"]] = at
        return True

    def _is_one_touch(self, entry: Json) -> bool:
        """Whether a device said the same of the same count a moment ago: a thumb that bounced, not a piece."""
        key = (entry["body"]["step"], entry["device"])
        last = self.counted_by.get(key)
        self.counted_by[key] = entry
        return last is not None and last["body"] == entry["body"] and entry["at"] - last["at"] < ONE_TOUCH_MS

    def _extended(self, at: int, body: Json, entry: Json) -> bool:
        if self.steps[body["step"]]["kind"] != "wait":
            return False
        self.extended[body["step"]] = at + body["ms"]
        return True

    def _numbered(self, at: int, body: Json, entry: Json) -> bool:
        if self.number is None:
            self.number = body["number"]
        elif body["number"] not in (self.number, *self.also_numbered):
            self.also_numbered.append(body["number"])
        return True

    def _gathered(self, at: int, body: Json, entry: Json) -> bool:
        if body["ingredient"] not in self.gatherable:
            return False
        self.gathered.append(
            {
                "at": at,
                "ingredient": body["ingredient"],
                "lot": body["lot"],
                "mg": body.get("mg"),
                "count": body.get("count"),
            }
        )
        return True

    def _ticked(self, at: int, body: Json, entry: Json) -> bool:
        self.ticked.setdefault(body["thing"], at)
        return True

    def _measured(self, at: int, body: Json, entry: Json) -> bool:
        optional = {field: body.get(field) for field in ("step", "piece", "scale")}
        self.measured.append({"at": at, "what": body["what"], "mg": body["mg"], **optional})
        return True

    def _pictured(self, at: int, body: Json, entry: Json) -> bool:
        self.pictures.append(
            {
                "at": at,
                "device": entry["device"],
                "picture": body["picture"],
                "sha256": body["sha256"],
                "text": body.get("text", ""),
                "step": body.get("step"),
            }
        )
        return True

    def _worked(self, at: int, body: Json, entry: Json) -> bool:
        self.worked[body.get("step", "")] = body["ms"]
        return True

    def _signed(self, at: int, body: Json, entry: Json) -> bool:
        return True  # it was taken back, or seals nothing here

    def _noted(self, at: int, body: Json, entry: Json) -> bool:
        self.notes.append(
            {"at": at, "device": entry["device"], "step": body.get("step"), "text": body["text"]}
        )
        return True

    def _finished(self, at: int, body: Json, entry: Json) -> bool:
        if self.finished_at is None:
            self.finished_at = at
        return True

    def _undone(self, at: int, body: Json, entry: Json) -> bool:
        return False  # what it takes back is not here, or came after it

    # What follows from the entries

    def told(self) -> Json:
        self._settle_splitting()
        lines = {key: self._line(line) for key, line in self.lines.items()}
        self._settle_weighing(lines)
        expected = self._settle_counting()
        steps = {key: self._step(step) for key, step in self.steps.items()}
        waits, windows, guides = self._running(steps)
        return {
            "started_at": self.started_at,
            "finished_at": self.finished_at,
            "last_at": self.last_at,
            "weigh": self.weigh,
            "steps": steps,
            "lines": lines,
            "vessels": {key: self._vessel(vessel) for key, vessel in self.vessels.items()},
            "bursts": self.bursts,
            "looks": self.looks,
            "counts": self.counts,
            "expected": expected,
            "portions": self.portions,
            "factors": {key: list(factor) for key, factor in self.factors.items()},
            "waits": waits,
            "windows": windows,
            "guides": guides,
            "number": self.number,
            "also_numbered": self.also_numbered,
            "gathered": self.gathered,
            "ticked": self.ticked,
            "measured": self.measured,
            "pictures": self.pictures,
            "worked": self.worked,
            "signed": self.signed,
            "unsigned": self.unsigned,
            "remarks": self.remarks,
            "notes": self.notes,
            "unread": sorted(self.unread),
        }

    def _vessel(self, vessel: Json) -> Json:
        """What is in a vessel, and which one it is by now: its name, how it is empty and filled, its scale."""
        key = vessel["id"]
        now = self.kit_vessels[self.taken[key]] if key in self.taken else vessel
        return {
            "in_mg": self.vessel_mg[key],
            "zero_mg": self.zero_mg[key],
            "name": now["name"],
            "empty_mg": now["empty_mg"],
            "holds_mg": now["holds_mg"],
            "scale": self.scale_of[key],
            "kit": self.taken.get(key, vessel.get("kit")),
        }

    def _scale_now(self, line: Json) -> str | None:
        """The scale that the next of a line is weighed on: the sheet's is a proposal."""
        planned: str | None = line["scale"]
        if planned is None or line["vessel"] is None:
            return planned
        key: str = line["vessel"]
        moved = not line["cup"] and self.scale_of[key] != self.vessels[key]["scale"]
        return self.placed.get(line["id"]) or (self.scale_of[key] if moved else planned)

    def _line(self, line: Json) -> Json:
        """Where a line stands. `scale` is the one that its next pour goes onto, `weighed_on` that of its last."""
        on = {"scale": self._scale_now(line), "weighed_on": self.weighed_on.get(line["id"])}
        return {**self._stands(line, on["weighed_on"] or on["scale"]), **on}

    def _stands(self, line: Json, scale: str | None) -> Json:
        in_mg = self.in_mg[line["id"]]
        twice = self.twice.get(line["id"])
        target = line["mg"]
        if target is None and line["step"] is None:
            return {"target_mg": None, "in_mg": in_mg, "status": "by_hand", "twice": None}
        if target is None:
            status = self.decided.get(line["id"]) or ("in" if line["id"] in self.touched else "open")
            return {"target_mg": None, "in_mg": in_mg, "status": status, "twice": twice}
        num, den = self.factors.get(f"{line['component']}.{line['round']}", (1, 1))
        target = self._by_portion(line["vessel"], half_even(target * num, den))
        if line["id"] in self.decided:
            status = self.decided[line["id"]]
        elif in_mg == 0 and target > 0:
            status = "open"
        elif abs(in_mg - target) <= allowed_mg(line, division_of(self.sheet, scale), num, den):
            status = "in"
        else:
            status = "short" if in_mg < target else "over"
        return {"target_mg": target, "in_mg": in_mg, "status": status, "twice": twice}

    def _settle_weighing(self, lines: Json) -> None:
        for step in self.sheet["steps"]:
            if step["kind"] != "weigh" or not step["lines"]:
                continue
            if any(lines[key]["status"] in ("open", "short", "over") for key in step["lines"]):
                continue
            times = [self.touched[key] for key in step["lines"] if key in self.touched]
            if times:
                self._settle(step["id"], "done", max(times))

    def _by_portion(self, vessel: str | None, target: int) -> int:
        """A target for what goes into a portion, by what that portion really came to."""
        step = self.split_of.get(vessel or "")
        if step is None or self.settled.get(step["id"], {}).get("status") != "done":
            return target
        total = sum(self.portions.get(portion["vessel"], 0) for portion in step["portions"])
        held = self.portions.get(vessel or "", 0)
        if total <= 0 or not 0 <= held <= total:
            return target
        share = next(portion["share"] for portion in step["portions"] if portion["vessel"] == vessel)
        shares = sum(portion["share"] for portion in step["portions"])
        return half_even(target * held * shares, total * share)

    def _settle_counting(self) -> dict[str, int]:
        """How many good pieces each count now expects: no more than came out of the counts before it.

        What was spoiled is no piece: it is made again while another comes from before, or out of what is left of
        the mix. Counts of earlier versions, which do not say what they saw, took it for one, and stay as they were.
        """
        expected: dict[str, int] = {}

        def reckon(step: Json) -> int:
            key = step["id"]
            if key in expected:
                return expected[key]
            old = key in self.unseeing
            expected[key] = step["count"] if old else self._planned(step)
            count = self.counts.get(key, {"good": 0, "spoiled": 0, "partial": 0})
            made, spoiled = count["good"] + count["partial"], count["spoiled"]
            for source in step["follows"]:
                came = [(reckon(self.steps[each]), each) for each in source["steps"]]
                if all(self.settled.get(each, {}).get("status") == "done" for _, each in came):
                    pieces = sum(self._usable(each, count) for count, each in came)
                    could = pieces // source["takes"] - (0 if old else spoiled)
                    expected[key] = min(expected[key], max(0, could))
            if (
                not (step["follows"] or old)
                and made + spoiled >= expected[key]
                and not self._makes_more(step)
            ):
                expected[key] = min(expected[key], made)
            if key in self.counts and made + (spoiled if old else 0) >= expected[key]:
                self._settle(key, "done", self.counted_at[key])
            return expected[key]

        for step in self.sheet["steps"]:
            if step["kind"] == "pieces":
                reckon(step)
        return expected

    def _planned(self, step: Json) -> int:
        """How many pieces a count is for, now that rounds were scaled up or down."""
        if step["component"] != ASSEMBLY:
            return self._asked_of(self._part(step["component"]), step["round"], step["count"])
        parts = [part for part in self.sheet["components"] if part["id"] != ASSEMBLY]
        pieces = self.sheet["size"]["pieces"]
        more = min((self._more_of(part, pieces) for part in parts), default=0)
        last = len(self._part(ASSEMBLY)["rounds"])
        return int(step["count"]) + (max(0, more) if step["round"] == last else 0)

    def _more_of(self, part: Json, pieces: int) -> int:
        """How many finished pieces more than were asked for this part now is enough for."""
        takes = (part["count"] - part["spares"]) // pieces
        made = sum(self._asked_of(part, each["round"], each["count"]) for each in part["rounds"])
        return (made - part["spares"]) // takes - pieces if takes else 0

    def _asked_of(self, part: Json, number: int, count: int) -> int:
        num, den = self.factors.get(f"{part['id']}.{number}", (1, 1))
        if num == den or part["piece_mg"] <= 0:
            return count
        now = pieces_from(part, half_even(part["rounds"][number - 1]["make_mg"] * num, den))
        return max(count, now) if num > den else max(1, min(count, now))

    def _part(self, key: str) -> Json:
        found: Json = next(part for part in self.sheet["components"] if part["id"] == key)
        return found

    def _makes_more(self, step: Json) -> bool:
        """Whether what is left of the mix is one more whole piece."""
        piece: int = step["piece_mg"]
        return (
            piece > 0 and left_of_mix(step, self.vessel_mg, self.counts.get(step["id"]), self.sheet) >= piece
        )

    def _usable(self, step: str, expected: int) -> int:
        count = self.counts.get(step)
        return expected if count is None else int(count["good"] + count["partial"])

    def _settle_splitting(self) -> None:
        for step in self.sheet["steps"]:
            if step["kind"] != "split":
                continue
            weighed = [portion["vessel"] for portion in step["portions"][:-1]]
            if all(key in self.portions for key in weighed):
                self._settle(step["id"], "done", max(self.portioned_at[key] for key in weighed))
            if self.settled.get(step["id"], {}).get("status") == "done":
                last = step["portions"][-1]["vessel"]
                rest = self.vessel_mg[step["vessel"]]
                self.portions[last] = rest
                self.vessel_mg[last] += rest
                self.zero_mg[last] += rest
                self.vessel_mg[step["vessel"]] = 0

    def _ready_at(self, step: Json) -> int | None:
        """When the last of a step's needs was settled; None while one is not."""
        times = [self.started_at or 0]
        for need in step["after"]:
            settled = self.settled.get(need)
            if settled is None:
                return None
            times.append(settled["at"])
        return max(times)

    def _step(self, step: Json) -> Json:
        key = step["id"]
        settled = self.settled.get(key)
        ready_at = self._ready_at(step)
        if settled:
            status, at, why = settled["status"], settled["at"], settled["why"]
        else:
            status, at, why = ("waiting" if ready_at is None else "ready"), None, ""
            if self._touched_step(step):
                status = "begun"
        return {"status": status, "ready_at": ready_at, "at": at, "way": self.way.get(key), "why": why}

    def _touched_step(self, step: Json) -> bool:
        key = step["id"]
        return (
            key in self.began
            or key in self.bursts
            or key in self.looks
            or key in self.counts
            or (step["kind"] == "weigh" and any(line in self.touched for line in step["lines"]))
            or (
                step["kind"] == "split"
                and any(portion["vessel"] in self.portions for portion in step["portions"])
            )
        )

    def _running(self, steps: Json) -> tuple[list[Json], list[Json], list[Json]]:
        """The waits, windows and guides that run now, with absolute instants."""
        waits: list[Json] = []
        windows: list[Json] = []
        guides: list[Json] = []
        if self.started_at is None or self.finished_at is not None:
            return waits, windows, guides
        ended = {key: each["at"] for key, each in self.settled.items()}
        for step in self.sheet["steps"]:
            key = step["id"]
            if key in self.settled:
                continue
            ready_at = steps[key]["ready_at"]
            if step["kind"] == "wait" and ready_at is not None:
                again = self.extended.get(key)
                waits.append(
                    {
                        "step": key,
                        "began_at": ready_at,
                        "earliest_at": ready_at + step["earliest_ms"] if again is None else again,
                        "usual_at": ready_at + step["usual_ms"] if again is None else again,
                        "latest_at": None if step["latest_ms"] is None else ready_at + step["latest_ms"],
                    }
                )
            window = open_window(step, ended)
            if window:
                windows.append(
                    {"step": key, "opened_at": window["opened_at"], "latest_at": window["latest_at"]}
                )
            if step["kind"] == "do" and step["about_ms"] is not None and key in self.began:
                guides.append(
                    {"step": key, "began_at": self.began[key], "until": self.began[key] + step["about_ms"]}
                )
            bursts = self.bursts.get(key)
            if bursts and bursts[-1]["answer"] is None:
                guides.append(
                    {"step": key, "began_at": bursts[-1]["at"], "until": bursts[-1]["at"] + bursts[-1]["ms"]}
                )
            elif rest_ms := self._rests(step):
                looked_at = self.looks[key][-1]["at"]
                guides.append({"step": key, "began_at": looked_at, "until": looked_at + rest_ms})
        return waits, windows, guides

    def _rests(self, step: Json) -> int:
        """How long what was judged last is to be left: a melt before its next burst, a mix that went too far."""
        look = self.looks.get(step["id"], [{"answer": ""}])[-1]
        if step["kind"] == "check" and look["answer"] == "too_far":
            return int(step.get("too_far_ms") or 0)
        bursts = self.bursts.get(step["id"])
        if (
            step["kind"] != "melt"
            or not bursts
            or look["answer"] != "not_yet"
            or look["at"] < bursts[-1]["at"]
        ):
            return 0
        following = step["bursts"][len(bursts)] if len(bursts) < len(step["bursts"]) else step["more"]
        return int(following["rest_ms"])


def division_of(sheet: Json, scale: str | None) -> int | None:
    """The division of a scale of the kit, in mg; None where there is no such scale."""
    return next((each["division_mg"] for each in sheet["kit"]["scales"] if each["id"] == scale), None)


def portion_targets(step: Json, state: Json) -> list[int]:
    """What each portion of a split should weigh, in mg, from what really is in the bowl."""
    held = state["vessels"][step["vessel"]]["in_mg"]
    done = state["steps"][step["id"]]["status"] == "done"
    out = sum(state["portions"].get(portion["vessel"], 0) for portion in step["portions"])
    total = out if done else held + out
    return share_out(total, [portion["share"] for portion in step["portions"]])


def left_of_mix(step: Json, held_mg: dict[str, int], count: Json | None, sheet: Json) -> int:
    """What is left of a part's mix, in mg, after the pieces that were counted; never below nought.

    held_mg: what went into each vessel.
    """
    own = [
        each["id"]
        for each in sheet["vessels"]
        if (each["component"], each["round"]) == (step["component"], step["round"])
    ]
    held = sum(held_mg[vessel] for vessel in step["of"] or own)
    gone = sum(count[field] for field in COUNTED) if count else 0
    return max(0, held - gone * int(step["piece_mg"]))


def in_reach(num: int, den: int) -> bool:
    """Whether a carry by num / den can be meant: between a thousandth and a thousand times."""
    return num <= MOST_FACTOR * den and den <= MOST_FACTOR * num


def carry_up(sheet: Json, state: Json, component: str, number: int) -> tuple[int, int]:
    """k = max(actual / target) over what is in this round's bowl, as (numerator, denominator)."""
    pairs = [
        (state["lines"][line["id"]]["in_mg"], line["mg"])
        for line in sheet["lines"]
        if line["component"] == component and line["round"] == number and line["mg"]
    ]
    return carry_factor([(actual, target) for actual, target in pairs if actual > 0])
