"""Write the demo's runs by doing what the bench asks for, so that they always fit its sheets.

    python -m demo.make_runs        (from the root of the project)

A stand-in maker answers the first prompt that is not worth waiting with, mostly as asked, and
slips where the tables below say so. The same recipes and kit always give the same files. Times
are kept as milliseconds before now; the loader of the demo makes instants of them.
"""

import json
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from bench import card_for, fold, fold_shelf, make_sheet, now, pick, read_kit, read_recipe
from demo.make_shelf import entries_at

Json = dict[str, Any]

HERE = Path(__file__).parent
SECOND, MINUTE, HOUR = 1_000, 60_000, 3_600_000
DEVICE = "demo-phone"
START = 1_800_000_000_000  # any instant: only the distances from the end are kept


@dataclass(frozen=True)
class Story:
    """How one run differs from doing exactly as asked.

    readings: line -> how far the added mass is off, in mg.
    answers: (step, how often that step was asked before, from 0) -> id of the answer to give, or
    its id and a count for an answer that wants one. An answer repeats until the next number given.
    fixes: line -> id of the answer to "too much" or "too little".
    skips: step -> why.
    slips: steps whose first count is made twice, and the second taken back.
    ways: step of pieces -> the way chosen for it.
    notes: step -> what is written down once it is done.
    number: the batch number. wraps: how many paper bands were laid out. pieces_mg: what the pieces
    that were put on the scale at the end weighed. left_mg: what was scraped out of the bowls.
    signed: who closed the record.
    """

    file: str
    id: str
    recipe: str
    pieces: int
    enough: Callable[[Json], bool]
    until_now_ms: int
    readings: dict[str, int] = field(default_factory=dict)
    answers: dict[tuple[str, int], str | tuple[str, int]] = field(default_factory=dict)
    fixes: dict[str, str] = field(default_factory=dict)
    skips: dict[str, str] = field(default_factory=dict)
    slips: frozenset[str] = frozenset()
    ways: dict[str, str] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    number: str = ""
    wraps: int = 0
    pieces_mg: tuple[int, ...] = ()
    left_mg: int = 0
    signed: str = ""


STORIES = [
    Story(
        file="three-waits-at-once.json",
        id="ce20a68e-6cae-43d5-be0d-c70bdc4eb7ad",
        recipe="fizzing-base-embed-whipped-top.json",
        pieces=13,
        enough=lambda told: len(told["waits"]) == 3,
        until_now_ms=12 * MINUTE,
        readings={
            "base.1.bicarb": 3_000,
            "base.1.citric": 19_000,
            "base.1.kaolin": 2_000,
            "base.1.fragrance": -120,
            "base.1.rose": 60,
            "embed.1.clear": 1_000,
        },
        answers={
            ("base.1.damp_rose", 0): "not_yet_witch_hazel",
            ("base.1.damp_rose", 2): "yes",
            ("base.1.damp_blue", 0): "not_yet_witch_hazel",
            ("base.1.damp_blue", 1): "yes",
            ("base.1.press", 4): "respray",
            ("base.1.press", 5): "one",
            ("base.1.press", 9): "spoiled",
            ("base.1.press", 10): "one",
            ("embed.1.even", 0): "not_yet",
            ("embed.1.even", 1): "yes",
            ("embed.1.pour", 0): ("some", 14),
            ("embed.1.pour", 1): "partial",
        },
        fixes={"base.1.citric": "take_out", "base.1.kaolin": "leave"},
        skips={"embed.1.scent_in": "The base is scented enough."},
        slips=frozenset({"base.1.press"}),
        notes={
            "base.1.damp_blue": "Room dial says 56 % humidity. The blue half took one spray fewer than the rose.",
            "embed.1.pour": "Mica clumped on the spoon; wet it first next time.",
        },
        number="D-A42",
    ),
    Story(
        file="finished-layered-bars.json",
        id="fc9f57c6-3a15-4e73-8a6d-c5fefb600115",
        recipe="two-layer-soap-bars.json",
        pieces=12,
        enough=lambda told: told["finished"],
        until_now_ms=26 * HOUR,
        readings={
            "bar.1.clear": 21_000,
            "bar.1.glycerin": 110,
            "bar.1.white": -2_000,
            "bar.1.scent_clear": 90,
        },
        answers={
            ("bar.1.unmould", 0): ("some", 11),
            ("bar.1.unmould", 1): "partial",
            ("bar.1.wrap", 0): ("some", 11),
            ("bar.1.wrap", 1): "partial",
        },
        fixes={"bar.1.clear": "carry"},
        skips={"bar.1.scent_white_in": "Top left plain, for the one who asked for less scent."},
        ways={"bar.1.wrap": "film"},
        notes={
            "bar.1.pour_second": "Layers took well: first layer still warm through the tray.",
            "bar.1.unmould": "The last bar came out short: too much stayed in the jug.",
            "bar.1.wrap": "The short bar is marked, and stays here for trying.",
        },
        number="D-A41",
        wraps=12,
        pieces_mg=(99_400, 100_100, 99_800),
        left_mg=14_000,
        signed="the maker of Marlwick Scullery",
    ),
]


class Maker:
    """Answers the bench's prompts for one story, entry by entry."""

    def __init__(self, story: Story, sheet: Json) -> None:
        self.story = story
        self.sheet = sheet
        self.steps = {step["id"]: step for step in sheet["steps"]}
        self.at = START
        self.entries: list[Json] = []
        self.asked: dict[str, int] = {}
        self.hand = random.Random(story.id)

    def work(self) -> list[Json]:
        """The story's entries, each with its `at`."""
        noted: set[str] = set()
        self._gather()
        told = self._told()
        while not self.story.enough(told):
            self._answer(self._next(told["prompts"]))
            settled = {key for key, step in self._state()["steps"].items() if step["status"] == "done"}
            for key, text in self.story.notes.items():
                if key in settled - noted:
                    noted.add(key)
                    self._post("noted", {"text": text, "step": key}, 20 * SECOND)
            told = self._told()
        self._close()
        return self.entries

    def _gather(self) -> None:
        """The number, and for every ingredient the lots that the shelf would pick."""
        shelf = fold_shelf(entries_at(_read("shelf.json"), START))
        day = str(datetime.fromtimestamp(START / 1000, UTC).date())
        self._post("numbered", {"number": self.story.number}, 0)
        for need in self.sheet["ingredients"]:
            key = card_for(shelf, need["name"])
            lots = [
                {
                    "lot": lot,
                    "left": each["held"],
                    **{name: each[name] for name in ("best_before", "received_on")},
                }
                for lot, each in shelf["lots"].items()
                if each["ingredient"] == key
            ]
            # What is sprayed to texture is not weighed; a lot stands ready for it all the same.
            for each in pick(max(need["mg"], 1), lots, day)["picked"]:
                booked = {"mg": each["take"]} if need["mg"] else {}
                self._post("gathered", {"ingredient": need["id"], "lot": each["lot"], **booked}, 0)
        if self.story.wraps:
            bands = next(lot for lot, each in shelf["lots"].items() if each["count"])
            self._post("gathered", {"ingredient": "wrap", "lot": bands, "count": self.story.wraps}, 0)

    def _close(self) -> None:
        """What goes onto the scale once all is done, and the signing."""
        for piece, mg in enumerate(self.story.pieces_mg, 1):
            self._post("measured", {"what": "piece", "piece": piece, "mg": mg, "scale": "fine"}, 20 * SECOND)
        if self.story.left_mg:
            self._post("measured", {"what": "left", "mg": self.story.left_mg, "scale": "bench"}, 30 * SECOND)
        if self.story.signed:
            self._post("signed", {"name": self.story.signed}, MINUTE)

    def _state(self) -> Json:
        return fold(self.sheet, self.entries)

    def _told(self) -> Json:
        return now(self.sheet, self._state(), self.at)

    def _next(self, prompts: list[Json]) -> Json:
        """The first prompt for the hands; with none left, the clock moves on to the next wait's end."""
        waits = {wait["step"]: wait for wait in self._state()["waits"]}
        settled = {
            key for key, step in self._state()["steps"].items() if step["status"] in ("done", "skipped")
        }
        for prompt in prompts:
            step = self.steps.get(prompt["step"])
            held = step is not None and any(need not in settled for need in step["hold_for"])
            if prompt["step"] not in waits and not held:
                return prompt
        soonest = min(waits.values(), key=lambda wait: wait["usual_at"])
        self.at = max(self.at, soonest["usual_at"])
        return next(prompt for prompt in self._told()["prompts"] if prompt["step"] == soonest["step"])

    def _answer(self, prompt: Json) -> None:
        key = prompt["step"]
        if key in self.story.skips:
            self._post("skipped", {"step": key, "why": self.story.skips[key]}, 10 * SECOND)
            return
        if key in self.story.ways and key not in self.asked:
            self._post("chose", {"step": key, "way": self.story.ways[key]}, 5 * SECOND)
        answer, count = self._choose(prompt)
        body = dict(answer["body"])
        if answer["input"] == "reading":
            body |= self._reading(prompt["weigh"])
        if answer["input"] == "count":
            body["good"] = count
        self._post(answer["kind"], body, self._takes(prompt, answer))
        if key in self.story.slips and self.asked[key] == 1:
            self._slip(answer["kind"], body)

    def _choose(self, prompt: Json) -> tuple[Json, int]:
        """The answer to give, and the count that goes with it (0 where none is wanted)."""
        key = prompt["step"]
        nth = self.asked.get(key, 0)
        self.asked[key] = nth + 1
        answers = {answer["id"]: answer for answer in prompt["answers"]}
        weigh = prompt["weigh"] or {"line": None}
        if prompt["kind"] in ("over", "short"):
            return answers[self.story.fixes[weigh["line"]]], 0
        if weigh["line"] in self.story.readings and "other" in answers:
            return answers["other"], 0
        if prompt["kind"] == "heating":
            planned = len(self.steps[key]["bursts"])
            heated = sum(entry["kind"] == "heated" and entry["body"]["step"] == key for entry in self.entries)
            return answers["yes" if heated >= planned - 1 else "again"], 0
        told = [asked for step, asked in self.story.answers if step == key and asked <= nth]
        if told:
            said = self.story.answers[(key, max(told))]
            return (answers[said], 0) if isinstance(said, str) else (answers[said[0]], said[1])
        return next(answer for answer in prompt["answers"] if answer["strong"]), 0

    def _reading(self, weigh: Json) -> Json:
        """What the scale read, off by what the story says, to the scale's division."""
        division = weigh["division_mg"]
        wanted = weigh["reads_mg"] + self.story.readings[weigh["line"]]
        reading = (wanted + division // 2) // division * division
        return {"mg": reading - weigh["before_mg"], "reading_mg": reading}

    def _takes(self, prompt: Json, answer: Json) -> int:
        """How long until this answer is given, in ms: a step's guide or burst, and a little by hand."""
        key = prompt["step"]
        begun = next((guide for guide in self._state()["guides"] if guide["step"] == key), None)
        by_hand = self.hand.randint(20, 45) * SECOND
        if begun:
            return max(0, begun["until"] - self.at) + by_hand
        if prompt["kind"] == "do":
            return (self.steps[key]["about_ms"] or 0) + by_hand
        if prompt["kind"] in ("pieces", "check") and answer["id"] != "yes":
            return by_hand + 30 * SECOND
        return by_hand

    def _slip(self, kind: str, body: Json) -> None:
        """A touch too many, taken back."""
        slipped = self._post(kind, body, 2 * SECOND)
        self._post("undone", {"entry": slipped}, 4 * SECOND)

    def _post(self, kind: str, body: Json, after_ms: int) -> str:
        """Keep one entry and give its id: a UUID of version 7 whose time says nothing, and must not
        change from one writing to the next."""
        self.at += after_ms
        key = f"01900000-0000-7000-8{self.story.id[:3]}-{len(self.entries):012x}"
        self.entries.append({"id": key, "device": DEVICE, "at": self.at, "kind": kind, "body": body})
        return key


def run_of(story: Story) -> Json:
    """The run of one story, as it stands in its file."""
    kit = read_kit(_read("kit.json"))
    recipe = next(each["id"] for each in _read("recipes/index.json") if each["file"] == story.recipe)
    size = {"pieces": story.pieces, "without": [], "swaps": {}, "weigh": "running"}
    ref = {"id": recipe, "version": 1}
    maker = Maker(story, make_sheet(read_recipe(_read(f"recipes/{story.recipe}")), ref, size, kit))
    entries = maker.work()
    end = maker.at + story.until_now_ms
    return {
        "id": story.id,
        "recipe": ref,
        "size": size,
        "entries": [
            {name: entry[name] for name in ("id", "device", "kind", "body")}
            | {"before_ms": end - entry["at"]}
            for entry in entries
        ],
    }


def text_of(run: Json) -> str:
    """The run as JSON with one entry a line, so that a change shows as the lines it changed."""
    head = json.dumps({name: run[name] for name in run if name != "entries"}, indent=2)
    entries = ",\n".join(f"    {json.dumps(entry)}" for entry in run["entries"])
    return f'{head[:-2]},\n  "entries": [\n{entries}\n  ]\n}}\n'


def _read(name: str) -> Any:
    return json.loads((HERE / name).read_text(encoding="utf-8"))


def main() -> None:
    for story in STORIES:
        (HERE / "runs" / story.file).write_text(text_of(run_of(story)), encoding="utf-8")


if __name__ == "__main__":
    main()
