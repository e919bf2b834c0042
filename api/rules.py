"""What a run takes in, beyond that an entry is well-formed (api/journals.py): who may write it, and when.

- An entry is its bench's own (api/door/client_ids.py), and not older than the run.
- Only a maker judges a batch, a deviation or a lot. A judgement is not undone, and a release names the signing.
- A record is signed once: while a signing holds, no other is taken, and only a maker takes it back, for good.
  A signing names entries that are here, by the digest that they have.
- After a restore a maker's device may give back what others had sent before it (`given_back`).

Each refusal is of one entry, by itself. A journal from elsewhere, out of a file, is not asked who wrote it.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import UTC, datetime
from typing import TypeGuard
from uuid import UUID

from sqlalchemy import Connection

import bench
from api import audit, generation
from api.door import client_ids, gate
from api.door.gate import DeviceRow
from api.runs import RunView, load_run_in, no_such_run
from api.store import HOLD, execute
from bench import Entry, EntryError, Judged, Signed, Undone, Weighed, words

MADE_AT = "SELECT made_at FROM run WHERE id = :run"
HELD = f"SELECT id FROM run WHERE id = :run {HOLD}"
ENTRY = "SELECT text FROM entry WHERE id = :id AND run_id = :run"
RESTORED = "SELECT 1 FROM audit WHERE what = 'restored' LIMIT 1"
# So many are looked at in one request: each means to read the whole journal.
MAX_SIGNINGS = 10


class Giving:
    """Whether a sender gives back what a restored studio lost: only what is older than the restore."""

    def __init__(self, connection: Connection, sender: DeviceRow | None, given_back: bool) -> None:
        if given_back and _is_helper(sender):
            gate.refuse_helper(sender)
        self._began_at = 0
        if given_back and execute(connection, RESTORED, {}).fetchone():
            self._began_at = generation.of(connection)[1]

    def covers(self, entry: Entry | Signed | Judged) -> bool:
        made_at = UUID(entry["id"]).int >> 80  # RFC 9562: version 7 begins with ms
        return max(made_at, entry["at"]) < self._began_at


def _is_helper(sender: DeviceRow | None) -> TypeGuard[DeviceRow]:
    """Whether a helper's device sent it; with no pairing, whoever is here is a maker."""
    return sender is not None and sender.role != "maker"


def _judged_by_a_maker(sender: DeviceRow | None) -> None:
    if _is_helper(sender):
        raise EntryError("kind", words.say("api-entries-judged-by-maker"))


def of_the_shelf(
    connection: Connection, sender: DeviceRow | None, given_back: bool
) -> Callable[[Entry], bool]:
    """What the shelf asks of an entry: that it is its bench's own, or given back."""
    giving = Giving(connection, sender, given_back)

    def judge(entry: Entry) -> bool:
        if entry["kind"] in bench.JUDGEMENTS:
            _judged_by_a_maker(sender)
        return _is_given(connection, sender, giving, entry)

    return judge


def _is_given(connection: Connection, sender: DeviceRow | None, giving: Giving, entry: Entry) -> bool:
    """Whether the entry is another bench's, given back; EntryError when it is another's and is not."""
    if sender is None:
        return False
    if not giving.covers(entry):
        client_ids.claim(connection, entry["device"], sender)
        return False
    return client_ids.owner_of(connection, entry["device"]) != sender.id


class OfARun:
    """What a run asks of each entry of one request. from_file: it comes from elsewhere, in a maker's file."""

    def __init__(
        self,
        connection: Connection,
        run_id: str,
        sender: DeviceRow | None,
        given_back: bool = False,
        from_file: bool = False,
    ) -> None:
        self._connection = connection
        self._run_id = run_id
        self._sender = sender
        self._from_file = from_file
        self._giving = Giving(connection, sender, given_back)
        found = execute(connection, MADE_AT, {"run": run_id}).fetchone()
        self._made_at: int = 0 if from_file or not found else found[0] or 0
        self._run: RunView | None = None
        self._signings = 0
        self._unsigned: dict[str, Entry] = {}

    def __call__(self, entry: Entry) -> bool:
        """Raise EntryError for what is not taken; gives whether it was given back by another than its bench."""
        if entry["at"] < self._made_at:
            raise EntryError(
                "at",
                words.say("api-entries-before-batch"),
            )
        readable = entry
        if bench.is_readable(readable):
            if readable["kind"] == "signed":
                self._judge_signing(readable)
            elif readable["kind"] == "undone":
                self._judge_undo(readable)
            elif readable["kind"] == "judged":
                self._judge_judgement(readable)
            elif readable["kind"] == "weighed" and "mg" not in readable["body"]:
                self._judge_weighing(readable)
        given = _is_given(self._connection, self._sender, self._giving, entry)
        if entry["kind"] in ("signed", "undone"):
            self._run = None  # it says something else from here on
        return given

    def note(self, new: list[Entry]) -> None:
        """Note in the audit log which of these, now kept, took a signing back."""
        for entry in new:
            if signing := self._unsigned.get(entry["id"]):
                audit.note(
                    self._connection,
                    "unsigned",
                    run=self._run_id,
                    name=signing["body"]["name"],
                    signed_at=signing["at"],
                )

    def _now(self) -> RunView:
        """The run as it is, which from here on nobody else changes."""
        if self._run is None:
            if execute(self._connection, HELD, {"run": self._run_id}).fetchone() is None:
                no_such_run()
            self._run = load_run_in(self._connection, self._run_id)
        return self._run

    def _judge_signing(self, entry: Signed) -> None:
        self._signings += 1
        if self._signings > MAX_SIGNINGS:
            raise EntryError("", words.say("api-entries-signings"))
        run = self._now()
        if signed := run.state["signed"]:
            day = datetime.fromtimestamp(signed["at"] / 1000, UTC).strftime("%Y-%m-%d %H:%M UTC")
            raise EntryError(
                "",
                words.say("api-entries-signed", at=day, name=signed["name"][:200]),
            )
        here = {each["id"]: each for each in run.entries}
        body = entry["body"]
        if any(each["kind"] == "undone" and each["body"].get("entry") == entry["id"] for each in run.entries):
            raise EntryError("id", words.say("api-entries-signing-undone"))
        if "entries" not in body or self._giving.covers(entry) or self._from_file:
            return
        if missing := len(set(body["entries"]) - here.keys()):
            raise EntryError(
                "body.entries",
                words.say("api-entries-signing-missing", count=missing),
            )
        if bench.seal([here[each] for each in body["entries"]])["digest"] != body["digest"]:
            raise EntryError(
                "body.digest",
                words.say("api-entries-signing-digest"),
            )

    def _judge_undo(self, entry: Undone) -> None:
        target = self._kept(entry["body"]["entry"])
        if target is None:
            return
        if target["kind"] in bench.JUDGEMENTS:
            raise EntryError("body.entry", words.say("api-entries-judgement-stays"))
        if target["kind"] == "undone":
            of = self._kept(str(target["body"].get("entry")))
            if of is not None and of["kind"] == "signed":
                raise EntryError("body.entry", words.say("api-entries-stays-undone"))
        if target["kind"] != "signed":
            return
        if _is_helper(self._sender):
            raise EntryError("body.entry", words.say("api-entries-undo-by-maker"))
        if self._from_file:
            return
        signed = self._now().state["signed"]
        if signed and signed["id"] == target["id"]:
            order = [(each["at"], each["device"], each["id"]) for each in (target, entry)]
            if order != sorted(order):
                raise EntryError(
                    "at",
                    words.say("api-entries-before-signing"),
                )
            self._unsigned[entry["id"]] = target

    def _judge_judgement(self, entry: Judged) -> None:
        """A judgement is a maker's; a release is of the record as it is signed now."""
        _judged_by_a_maker(self._sender)
        if entry["body"]["verdict"] != "released" or self._from_file or self._giving.covers(entry):
            return
        signed = self._now().state["signed"]
        if signed is None or signed["id"] != entry["body"].get("signing"):
            raise EntryError("body.signing", words.say("api-entries-release-unsigned"))

    def _judge_weighing(self, entry: Weighed) -> None:
        lines = {line["id"]: line for line in self._now().sheet["lines"]}
        line = lines.get(entry["body"]["line"])
        if line and line["mg"] is not None:
            raise EntryError("body.mg", words.say("api-entries-mg-missing", name=line["name"]))

    def _kept(self, key: str) -> Entry | None:
        found = execute(self._connection, ENTRY, {"id": key, "run": self._run_id}).fetchone()
        entry: Entry | None = json.loads(found[0]) if found else None
        return entry
