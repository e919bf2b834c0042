"""A light device: a second client of the API, with an outbox on a disk of its own.

It does what the contributor's guide asks of any client: an entry is on the disk before it is shown, is sent,
and is done with when it was read back; what others did is read on from a cursor. Both count under the
generation that the server named: in another one all is read anew, and what is not there is sent again, as
given back, whoever made it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, Protocol

import bench
from tests.make import uuid7

Json = dict[str, Any]
SENT_AT_ONCE = 5
READ_AT_ONCE = 7
NOT_NOW = (408, 425, 429)
MOST_TURNS = 4


class NoAnswer(Exception):
    """No answer, half of one, or one that says: not now."""


class Refused(Exception):
    """The server understood, and said no."""

    def __init__(self, says: str, status: int = 0) -> None:
        super().__init__(says)
        self.status = status


class Renewed(Exception):
    """The server is of another generation than this round was begun under."""


class Paper(Protocol):
    """What a device writes on, a row after the other; what was appended is there after a crash."""

    def append(self, row: Json, /) -> None: ...
    def __iter__(self) -> Iterator[Json]: ...


class File:
    """Paper that is a file, flushed to the medium at each row."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._path.touch()

    def append(self, row: Json) -> None:
        with self._path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(row) + "\n")
            file.flush()
            os.fsync(file.fileno())

    def __iter__(self) -> Iterator[Json]:
        return map(json.loads, self._path.read_text(encoding="utf-8").splitlines())


class Device:
    """`ask(method, path, body)` gives (status, JSON), or raises NoAnswer; `clock_ms` may be wrong."""

    def __init__(
        self,
        name: str,
        paper: Paper,
        recipe: Json,
        ask: Callable[[str, str, Any], tuple[int, Json]],
        clock_ms: Callable[[], int],
    ) -> None:
        self.name = name
        self._paper = paper
        self._recipe = recipe
        self._ask = ask
        self._clock_ms = clock_ms
        self.die()

    def die(self) -> None:
        """Forget all that is not on the disk."""
        self._offset = 0
        self.shown: list[Json] = []
        self.runs: dict[str, Json] = {}
        self.entries: dict[str, dict[str, Json]] = {}
        self.generation: str | None = None
        self._cursors: dict[str, int] = {}
        self._unsent: dict[str, Json] = {}
        # What the server answered for and what a former generation had: to be read back, by id.
        self._sent: dict[str, Json] = {}
        self._held: dict[str, Json] = {}
        # To be sent because a restore lost them, whoever made them.
        self._back: set[str] = set()
        self._unmade: dict[str, Json] = {}
        self._made_at: dict[str, int] = {}
        # Signings that were refused because one holds, and what would have taken one back: they count no more.
        self.aside: set[str] = set()
        self._asked: dict[str, Json] = {}
        for row in self._paper:
            self._apply(row)

    def has_sent(self, entry: Json) -> bool:
        """The server has answered for this entry, in this generation."""
        return entry["id"] not in self._unsent and entry["id"] not in self._held

    @property
    def is_done(self) -> bool:
        """All that this device holds was read back."""
        return not (self._unsent or self._sent or self._held or self._unmade)

    def begin(self, run: str) -> None:
        asked = {"recipe": self._recipe, "size": {"pieces": 4}, "made_at": self._clock_ms() + self._offset}
        self._keep({"begun": run, "asked": asked})

    def touch(self, run: str, kind: str, body: Json) -> Json:
        """Something happened; gives the entry, which may be shown as done from now on."""
        latest = max((entry["at"] for entry in self.entries[run].values()), default=0)
        at = max(self._clock_ms() + self._offset, latest + 1, self._made_at.get(run, 0))
        entry = {"id": uuid7(at), "run": run, "device": self.name, "at": at, "kind": kind, "body": body}
        self._keep({"shown": entry})
        return entry

    def sync(self) -> None:
        """One round. May end anywhere with NoAnswer, and then simply begins again."""
        for _ in range(MOST_TURNS):
            with suppress(Renewed):
                self._round()
                return
        raise NoAnswer("another generation each time")

    def _round(self) -> None:
        self._offset = self._said("GET", "/clock")["server_ms"] - self._clock_ms()
        if self._held:
            self._hear_all()  # what a restore lost goes first: a signing names it
        for _ in range(MOST_TURNS):
            for run, asked in list(self._unmade.items()):
                self._keep_run(run, self._said("PUT", f"/runs/{run}", asked))
            for run in list(self.entries):
                try:
                    self._send(run)
                except Refused as refused:
                    if refused.status != 404 or run not in self._asked:
                        raise
                    self._keep({"lost": run})
            self._hear_all()
            if not (self._unsent or self._unmade):
                return
        raise NoAnswer("what it took is not there each time")

    def _hear_all(self) -> None:
        listed = self._said("GET", f"/runs?recipe={self._recipe['id']}&page_size=100")["runs"]
        for each in listed:
            if each["id"] not in self.runs:
                self._keep_run(each["id"], self._said("GET", f"/runs/{each['id']}"))
        cursors = {each["id"]: each["cursor"] for each in listed}
        unread = {entry["run"] for entry in (*self._sent.values(), *self._held.values())}
        for run in self.runs:
            if run in unread or self._cursors.get(run, 0) != cursors.get(run, 0):
                self._hear(run)

    def state(self, run: str) -> str:
        return bench.canonical(bench.fold(self.runs[run], list(self.entries[run].values())))

    def _send(self, run: str) -> None:
        unsent = [entry for entry in self._unsent.values() if entry["run"] == run]
        for is_back in (True, False):
            chosen = [entry for entry in unsent if (entry["id"] in self._back) == is_back]
            for start in range(0, len(chosen), SENT_AT_ONCE):
                batch: Json = {"entries": chosen[start : start + SENT_AT_ONCE]}
                if is_back:
                    batch["given_back"] = True
                answers = self._said("POST", f"/runs/{run}/entries", batch)["answers"]
                refused = {answer["id"]: answer for answer in answers if answer["result"] == "refused"}
                aside = [id for id, answer in refused.items() if self._is_of_a_signing(id, answer)]
                if refused.keys() - set(aside):
                    raise Refused(f"of {batch}: {answers}")
                self._keep({"sent": [answer["id"] for answer in answers], "aside": aside})

    def _is_of_a_signing(self, id: str, refusal: Json) -> bool:
        """One signing holds at a time, and one that was undone stays so: the server says no to what is later."""
        entry = self._unsent[id]
        if entry["kind"] == "signed":
            return refusal["field"] in ("", "id")
        return entry["kind"] == "undone" and refusal["field"] in ("body.entry", "at")

    def _hear(self, run: str) -> None:
        """Read on to the end; what was to be read back and did not come is not there."""
        sought = [id for id, entry in (self._sent | self._held).items() if entry["run"] == run]
        more = True
        while more:
            after = self._cursors.get(run, 0)
            try:
                told = self._said("GET", f"/runs/{run}/entries?after={after}&limit={READ_AT_ONCE}")
            except Refused as refused:
                if refused.status != 404:
                    raise
                self._keep({"lost": run})
                break
            self._keep({"of": run, "heard": told["entries"], "cursor": told["cursor"]})
            more = told["more"]
        if missed := [id for id in sought if id in self._sent or id in self._held]:
            self._keep({"missed": missed})

    def _keep_run(self, run: str, told: Json) -> None:
        # Made again, it is to be the same, whatever the kit is by then.
        recipe = {name: told["recipe"][name] for name in ("id", "version")}
        asked = {
            "recipe": recipe,
            "size": told["size"],
            "kit": told["sheet"]["kit"],
            "made_at": told["made_at"],
        }
        self._keep({"run": run, "sheet": told["sheet"], "asked": asked})

    def _said(self, method: str, path: str, body: Any = None) -> Json:
        status, answer = self._ask(method, path, body)
        if status >= 500 or status in NOT_NOW:
            raise NoAnswer(f"{status} {answer}")
        if status >= 400:
            raise Refused(f"{method} {path}: {status} {answer}", status)
        if answer.get("generation", self.generation) != self.generation:
            self._keep({"generation": answer["generation"]})
            raise Renewed
        return answer

    def _keep(self, row: Json) -> None:
        self._paper.append(row)
        self._apply(row)

    def _apply(self, row: Json) -> None:
        match row:
            case {"begun": run, "asked": asked}:
                self._unmade[run] = self._asked[run] = asked
                self._made_at[run] = asked["made_at"]
                self.entries.setdefault(run, {})
            case {"run": run, "sheet": sheet, "asked": asked}:
                self._made_at[run] = asked["made_at"]
                self._asked[run] = asked
                self._unmade.pop(run, None)
                self.runs[run] = sheet
                self.entries.setdefault(run, {})
            case {"lost": run}:
                self._unmade[run] = self._asked[run]
            case {"shown": entry}:
                self.shown.append(entry)
                self._unsent[entry["id"]] = entry
                self.entries[entry["run"]][entry["id"]] = entry
            case {"sent": ids, "aside": aside}:
                for id in ids:
                    if id in self._unsent:
                        self._sent[id] = self._unsent.pop(id)
                for id in aside:
                    self.aside.add(id)
                    entry = self._sent.pop(id)
                    del self.entries[entry["run"]][id]
            case {"missed": ids}:
                self._back |= self._held.keys() & set(ids)
                for id in ids:
                    self._unsent[id] = self._sent.pop(id, None) or self._held.pop(id)
            case {"generation": generation}:
                self.generation = generation
                self._cursors = {}
                self._unsent |= self._sent
                self._sent = {}
                whole = {id: entry for run in self.entries.values() for id, entry in run.items()}
                self._held = {id: entry for id, entry in whole.items() if id not in self._unsent}
            case {"of": run, "heard": entries, "cursor": cursor}:
                self.entries[run].update({entry["id"]: entry for entry in entries})
                self._cursors[run] = cursor
                for entry in entries:
                    for waiting in (self._unsent, self._sent, self._held):
                        waiting.pop(entry["id"], None)
