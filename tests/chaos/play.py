"""Plays a history in a house, heals all of it, and says what is not as it must be."""

from __future__ import annotations

import http.client
import json
import sqlite3
import tempfile
import threading
import time
from collections import Counter
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

from playwright.sync_api import Browser

import bench
from tests.chaos.device import Device, File, Json, NoAnswer, Refused
from tests.chaos.history import History, Step
from tests.chaos.house import House, now_ms
from tests.chaos.lines import Line, Network
from tests.chaos.phone import LAST_WORDS, Phone
from tests.chaos.strangers import Strangers
from tests.frontend.phones import MINUTE
from tests.make import uuid7

WRONG_CLOCKS_MS = (0, 0, -7 * MINUTE, 7 * MINUTE)
REST_SECONDS = 60
RING_SECONDS = 40
NOT_KEPT = {503, 507}
LONG = 600  # some remarks fill a disk sooner


@dataclass(frozen=True)
class Outcome:
    """What is not as it must be, in sentences; nothing when all is well. And how much there was to go wrong."""

    faults: list[str]
    shown: int
    rang: int


def play(history: History, house: House, browser: Browser | None = None) -> Outcome:
    """Play a history to its end, heal the house, and look. The browser is for its real pages."""
    with ExitStack() as stack:
        play = _Play(history, house, browser, stack)
        for step in history.steps:
            play.step(step)
        play.heal()
        return play.outcome()


class _Play:
    def __init__(self, history: History, house: House, browser: Browser | None, stack: ExitStack) -> None:
        self._history = history
        self._house = house
        house.heal()
        house.forget_copies()  # they are without this history's recipe
        self._recipe = house.with_recipe()
        network = self._network = Network(lambda: house.url, house.kill)
        stack.callback(network.close)
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        clocks = Random(history.seed)
        self._phones: list[Phone] = []
        self._devices: list[Device] = []
        for number in range(history.devices):
            line, wrong_by = network.line(), clocks.choice(WRONG_CLOCKS_MS)
            if number < history.pages:
                assert browser is not None
                self._phones.append(phone := Phone(browser, line, wrong_by))
                stack.callback(phone.close)
            else:
                self._devices.append(light_device(f"device-{number}", folder, self._recipe, line, wrong_by))
        self._strangers: Strangers | None = None
        stack.callback(self._calm)
        self._unrest: list[str] = []

    def step(self, step: Step) -> None:
        name, *given = step
        getattr(self, f"_{name}")(*given)

    def heal(self) -> None:
        """All is put right, and then all devices are given time to come to rest."""
        self._calm()
        self._house.heal()
        for line in self._network.lines:
            line.is_cut = False
            line.faults.clear()
        for phone in self._phones:
            with suppress(NoAnswer):
                phone.open()
            phone.crowd(False)
        why = self._rest()
        self._network.deliver_late()
        # What came late was had already; a second round shows that it moved nobody.
        self._unrest += why or self._rest()

    def outcome(self) -> Outcome:
        faults = [
            *self._unrest,
            *self._unforeseen(),
            *self._lost_or_changed(),
            *self._of_two_minds(),
            *self._signed_otherwise(),
            *self._rung_wrong(),
        ]
        shown = sum(len(device.shown) for device in self._all)
        return Outcome(faults, shown, sum(len(phone.rang) for phone in self._phones))

    # Steps

    def _begin(self, number: int) -> None:
        if number < len(self._phones):
            self._phones[number].begin()
        else:
            self._light(number).begin(uuid7(now_ms()))

    def _touch(self, number: int, run_number: int, kind: str, count: int) -> None:
        device = self._phones[number] if number < len(self._phones) else self._light(number)
        runs = list(device.runs if isinstance(device, Phone) else device.entries)
        if runs:
            run = runs[run_number % len(runs)]
            known = (
                [json.loads(text) for text in device.entries(run).values()]
                if isinstance(device, Phone)
                else list(device.entries[run].values())
            )
            if kind == "undone" and not known:
                kind = "noted"
            device.touch(run, kind, body_of(kind, count, known))

    def _sync(self, number: int, faults: list[Any]) -> None:
        line = self._network.lines[number]
        line.faults.extend((what, ms) for what, ms in faults)
        if number < len(self._phones):
            self._phones[number].sync()
        else:
            try:
                self._light(number).sync()
            except Refused as error:
                self._unrest.append(f"{self._light(number).name} was refused: {error}")
            except NoAnswer:
                pass  # what the harness is for
        line.faults.clear()

    def _together(self, numbers: list[int], ms: list[int]) -> None:
        for number, late in zip(numbers, ms, strict=True):
            self._network.lines[number].faults.append(("slow", late))
        light = [number for number in numbers if number >= len(self._phones)]
        going = [threading.Thread(target=self._sync, args=[number, []]) for number in light]
        for each in going:
            each.start()
        for number in set(numbers) - set(light):
            self._sync(number, [])
        for each in going:
            each.join()

    def _cut(self, number: int) -> None:
        self._network.lines[number].is_cut = True

    def _mend(self, number: int) -> None:
        self._network.lines[number].is_cut = False

    def _die(self, number: int) -> None:
        if number < len(self._phones):
            self._phones[number].die()
        else:
            self._light(number).die()

    def _wake(self, number: int) -> None:
        with suppress(NoAnswer):  # not even the copy of the page is there yet
            self._phones[number].open()

    def _pause(self, ms: int) -> None:
        time.sleep(ms / 1000)

    def _kill(self, what: str) -> None:
        self._house.kill(what)

    def _start(self) -> None:
        self._house.heal()

    def _fill(self) -> None:
        self._house.fill()

    def _free(self) -> None:
        self._house.heal()

    def _copy(self) -> None:
        self._house.copy()

    def _restore(self) -> None:
        self._house.put_back()

    def _crowding(self, how: str) -> None:
        self._calm()
        self._strangers = Strangers(self._house.port, how)

    def _calm(self) -> None:
        if self._strangers:
            self._strangers.leave()
        self._strangers = None

    def _crowd(self, number: int) -> None:
        self._phones[number].crowd(True)

    def _ease(self, number: int) -> None:
        self._phones[number].crowd(False)

    def _gasp(self, number: int) -> None:
        self._phones[number].gasp()
        self._die(number)

    def _late(self) -> None:
        self._network.deliver_late()

    @property
    def _all(self) -> list[Phone | Device]:
        return [*self._phones, *self._devices]

    def _light(self, number: int) -> Device:
        return self._devices[number - len(self._phones)]

    # What must hold

    def _rest(self) -> list[str]:
        """Round after round until all rest: a worker may still hold a line to a database that was killed."""
        until = time.monotonic() + REST_SECONDS
        while (why := self._bring_to_rest()) and time.monotonic() < until:
            time.sleep(0.05)
        return why

    def _bring_to_rest(self) -> list[str]:
        """One round of each device, and one more, so that each hears the others; why some do not rest."""
        why: list[str] = []
        for _ in range(2):
            why = []
            for phone in self._phones:
                try:
                    phone.open()
                    if not phone.sync():
                        why.append(f"{phone.name} does not come to rest")
                except NoAnswer as error:
                    why.append(f"{phone.name} does not open: {error}")
            for device in self._devices:
                try:
                    device.sync()
                except (NoAnswer, Refused) as error:
                    why.append(f"{device.name} does not come to rest: {error}")
        return why

    def _unforeseen(self) -> list[str]:
        """Answers that no breakage excuses."""
        excused = NOT_KEPT if self._is_broken else set()
        said = set().union(*(line.statuses for line in self._network.lines))
        faults = [f"the server said {status}" for status in said if status >= 500 and status not in excused]
        faults += [
            f"{phone.name} was refused: {detail}" for phone in self._phones for detail in phone.refused
        ]
        if self._house.file and self._is_broken:
            with sqlite3.connect(self._house.file) as connection:
                (says,) = connection.execute("PRAGMA integrity_check").fetchone()
            connection.close()
            faults += [f"the file is broken: {says}"] if says != "ok" else []
        return faults

    @property
    def _is_broken(self) -> bool:
        return any(step[0] in ("fill", "kill") or "kill_" in str(step) for step in self._history.steps)

    def _lost_or_changed(self) -> list[str]:
        """Every entry that was shown is on the server once, byte for byte, and nothing else is."""
        kept = self._kept
        texts = {text for each in kept.values() for text in each}
        times = Counter(json.loads(text)["id"] for each in kept.values() for text in each)
        faults = [f"entry {id} is on the server {count} times" for id, count in times.items() if count > 1]
        made: set[str] = set()
        for device in self._devices:
            for entry in device.shown:
                made.add(entry["id"])
                if entry["id"] not in device.aside and bench.canonical(entry) not in texts:
                    faults.append(f"{device.name} showed what the server has not: {entry}")
        for phone in self._phones:
            # An instant that was entered before the server was heard is put right: as it stands now.
            now = {id: text for run in kept for id, text in phone.entries(run).items()}
            aside = phone.aside
            for shown in phone.shown:
                made.add(id := json.loads(shown)["id"])
                if id in aside:
                    continue
                if now.get(id) not in texts or _but_for_time(now[id]) != _but_for_time(shown):
                    faults.append(f"{phone.name} showed what the server has not: {shown}")
            made |= {id for id, text in now.items() if json.loads(text)["body"].get("text") == LAST_WORDS}
        faults += [f"entry {id} was made by nobody" for id in times if id not in made]
        return faults

    def _of_two_minds(self) -> list[str]:
        """All fold to what the server's sheet and journal say, and its own note of the end agrees."""
        faults = []
        for run, texts in self._kept.items():
            told = json.loads(self._house.ask("GET", f"/runs/{run}"))
            state = bench.fold(told["sheet"], [json.loads(text) for text in texts])
            if told["finished_at"] != state["finished_at"]:
                faults.append(
                    f"the server says that {run} ended {told['finished_at']}, not {state['finished_at']}"
                )
            for device in self._all:
                if device.state(run) != bench.canonical(state):
                    faults.append(f"{device.name} sees run {run} otherwise than the server")
        return faults

    def _signed_otherwise(self) -> list[str]:
        """A signed record says what was signed: all else, whenever it came and whatever it says of when, is a remark."""
        faults = []
        for run, texts in self._kept.items():
            entries = [json.loads(text) for text in texts]
            sheet = json.loads(self._house.ask("GET", f"/runs/{run}"))["sheet"]
            state = bench.fold(sheet, entries)
            if not state["signed"]:
                continue
            (signing,) = (entry for entry in entries if entry["id"] == state["signed"]["id"])
            ids = {*signing["body"]["entries"], signing["id"]}
            alone = [entry for entry in entries if entry["id"] in ids]
            if figures(sheet, entries) != figures(sheet, alone):
                faults.append(f"the record of {run} says more than what was signed")
        return faults

    def _rung_wrong(self) -> list[str]:
        faults = []
        for phone in self._phones:
            faults += [
                f"{phone.name} missed without a word: {ring}" for ring in phone.hear_it_out(RING_SECONDS)
            ]
            faults += [f"{phone.name} rang early: {ring}" for ring in phone.early]
        return faults

    @property
    def _kept(self) -> dict[str, list[str]]:
        """The server's journals, by run: each entry's bytes as they came over the wire."""
        listed = json.loads(self._house.ask("GET", f"/runs?recipe={self._recipe['id']}&page_size=100"))[
            "runs"
        ]
        return {
            each["id"]: _texts(self._house.ask("GET", f"/runs/{each['id']}/entries?limit=1000"))
            for each in listed
        }


def light_device(name: str, folder: Path, recipe: Json, line: Line, wrong_by: int) -> Device:
    def ask(method: str, path: str, body: Any) -> tuple[int, Json]:
        connection = http.client.HTTPConnection("127.0.0.1", line.port, timeout=30)
        try:
            data = None if body is None else json.dumps(body)
            connection.request(method, f"/api/v1{path}", data, {"Content-Type": "application/json"})
            answer = connection.getresponse()
            return answer.status, json.loads(answer.read())
        except (OSError, http.client.HTTPException, ValueError) as error:
            raise NoAnswer(repr(error)) from None
        finally:
            connection.close()

    return Device(name, File(folder / f"{name}.jsonl"), recipe, ask, lambda: now_ms() + wrong_by)


def figures(sheet: Json, entries: list[Json]) -> Json:
    """What a record says, less what came after it was signed."""
    told = bench.record(sheet, bench.fold(sheet, entries), entries)
    beside = ("remarks", "unread", "unsigned", "judgements", "release")
    return {key: value for key, value in told.items() if key not in beside}


def body_of(kind: str, count: int, known: list[Json]) -> Json:
    """A body for an entry of this kind in a run of the harness's recipe; `known` are its entries so far."""
    bodies: dict[str, Json] = {
        "noted": {"text": f"like wet sand, überall: {count} " + "." * (count % 3 * LONG)},
        "weighed": {"line": f"bar.1.{('butter', 'oil')[count % 2]}", "mg": 1 + 150 * count},
        "done": {"step": "bar.1.fill"},
        "extended": {"step": "bar.1.set", "ms": 1 + count},
        "skipped": {"step": "bar.1.set"},
        "undone": {"entry": known[count % len(known)]["id"] if known else ""},
        "finished": {},
        "signed": {"name": "the maker", **bench.seal(known)},
    }
    return bodies[kind]


def _but_for_time(text: str) -> Json:
    return {**json.loads(text), "at": 0}


def _texts(page: bytes) -> list[str]:
    """Each entry of a page of them, as it was written."""
    decoder, text, texts = json.JSONDecoder(), page.decode(), []
    at = text.index("[") + 1
    while text[at] != "]":
        _, end = decoder.raw_decode(text, at)
        texts.append(text[at:end])
        at = end + (text[end] == ",")
    return texts
