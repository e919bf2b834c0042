"""A light device: a second client of the API, with an outbox on a disk of its own.

It does what the contributor's guide asks of any client: an entry is on the disk before it is shown,
is sent until the server has answered for it, and what others did is read on from a cursor.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Protocol

import bench
from tests.make import uuid7

Json = dict[str, Any]
SENT_AT_ONCE = 5
READ_AT_ONCE = 7
NOT_NOW = (408, 425, 429)


class NoAnswer(Exception):
    """No answer, half of one, or one that says: not now."""


class Refused(Exception):
    """The server understood, and said no."""


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
        self._cursors: dict[str, int] = {}
        self._unsent: dict[str, Json] = {}
        self._unmade: dict[str, Json] = {}
        self._made_at: dict[str, int] = {}
        for row in self._paper:
            self._apply(row)

    def has_sent(self, entry: Json) -> bool:
        """The server has answered for this entry."""
        return entry["id"] not in self._unsent

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
        self._offset = self._said("GET", "/clock")["server_ms"] - self._clock_ms()
        for run, asked in list(self._unmade.items()):
            self._keep_run(run, self._said("PUT", f"/runs/{run}", asked))
        for run in self.entries:
            self._send(run)
        listed = self._said("GET", f"/runs?recipe={self._recipe['id']}&page_size=100")["runs"]
        for run, cursor in [(each["id"], each["cursor"]) for each in listed]:
            if run not in self.runs:
                self._keep_run(run, self._said("GET", f"/runs/{run}"))
            if self._cursors.get(run, 0) != cursor:
                self._hear(run)

    def state(self, run: str) -> str:
        return bench.canonical(bench.fold(self.runs[run], list(self.entries[run].values())))

    def _send(self, run: str) -> None:
        unsent = [entry for entry in self._unsent.values() if entry["run"] == run]
        for start in range(0, len(unsent), SENT_AT_ONCE):
            batch = {"entries": unsent[start : start + SENT_AT_ONCE]}
            answers = self._said("POST", f"/runs/{run}/entries", batch)["answers"]
            if any(answer["result"] == "refused" for answer in answers):
                raise Refused(f"of {batch}: {answers}")
            self._keep({"sent": [answer["id"] for answer in answers]})

    def _hear(self, run: str) -> None:
        more = True
        while more:
            after = self._cursors.get(run, 0)
            told = self._said("GET", f"/runs/{run}/entries?after={after}&limit={READ_AT_ONCE}")
            self._keep({"of": run, "heard": told["entries"], "cursor": told["cursor"]})
            more = told["more"]

    def _keep_run(self, run: str, told: Json) -> None:
        self._keep({"run": run, "sheet": told["sheet"], "made_at": told["made_at"]})

    def _said(self, method: str, path: str, body: Any = None) -> Json:
        status, answer = self._ask(method, path, body)
        if status >= 500 or status in NOT_NOW:
            raise NoAnswer(f"{status} {answer}")
        if status >= 400:
            raise Refused(f"{method} {path}: {status} {answer}")
        return answer

    def _keep(self, row: Json) -> None:
        self._paper.append(row)
        self._apply(row)

    def _apply(self, row: Json) -> None:
        match row:
            case {"begun": run, "asked": asked}:
                self._unmade[run] = asked
                self._made_at[run] = asked["made_at"]
                self.entries.setdefault(run, {})
            case {"run": run, "sheet": sheet, "made_at": made_at}:
                self._made_at[run] = made_at
                self._unmade.pop(run, None)
                self.runs[run] = sheet
                self.entries.setdefault(run, {})
            case {"shown": entry}:
                self.shown.append(entry)
                self._unsent[entry["id"]] = entry
                self.entries[entry["run"]][entry["id"]] = entry
            case {"sent": ids}:
                for id in ids:
                    self._unsent.pop(id, None)
            case {"of": run, "heard": entries, "cursor": cursor}:
                self.entries[run].update({entry["id"]: entry for entry in entries})
                self._cursors[run] = cursor
