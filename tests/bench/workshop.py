"""A bench to test at: small recipes and kits with what does not matter filled in, and a maker who
answers prompts against a fake clock."""

from __future__ import annotations

import copy
import itertools
import json
import uuid
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator

from bench import choose_size, fold, make_sheet, now, read_kit, read_recipe

Json = dict[str, Any]

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo"
REF = {"id": "1d3584bc-0598-40a6-9e48-87a20a490215", "version": 1}
MORNING = 1_764_057_600_000  # an ordinary instant to begin a batch at, ms
SECOND, MINUTE, HOUR = 1000, 60_000, 3_600_000


SHAPES: Json = json.loads((ROOT / "bench/shapes/schemas.json").read_text(encoding="utf-8"))


def unlike(shape: str, document: Any) -> list[str]:
    """Where a document is not of the shape ("sheet/Sheet"), which names each of its fields; [] when it is."""
    faults = Draft202012Validator({**SHAPES, "$ref": f"#/{shape}"}).iter_errors(document)
    return [f"{fault.json_path}: {fault.message[:300]}" for fault in faults]


def written(name: str) -> Json:
    """A demo document as its maker wrote it, fresh each time."""
    document: Json = json.loads((DEMO / name).read_text(encoding="utf-8"))
    return document


THREE_PART = "recipes/fizzing-base-embed-whipped-top.json"
DEMO_RECIPES = [f"recipes/{entry['file']}" for entry in json.loads((DEMO / "recipes/index.json").read_text())]


def make_document(*lines: Any, steps: list[Json] | None = None, **other: Any) -> Json:
    """A one-part recipe for ten pieces. A line is an amount, or an object with what differs.

    Lines are l0, l1, ... of ingredients i0, i1, ...; one step weighs them all unless `steps` says
    otherwise. Fields of the component go under `part_`: part_piece="10 g".
    """
    about: list[Json] = []
    ingredients: Json = {}
    for index, line in enumerate(lines):
        line = {"amount": line} if isinstance(line, str) else line
        about.append({"id": f"l{index}", "ingredient": f"i{index}", **line})
        ingredients[f"i{index}"] = {"name": f"Ingredient {index}"}
    component = {key[5:]: other.pop(key) for key in list(other) if key.startswith("part_")}
    weigh = {"id": "in", "kind": "weigh", "title": "Weigh them in", "lines": [line["id"] for line in about]}
    press = {"id": "press", "kind": "pieces", "title": "Press the pieces"}
    return {
        "format": "bowlside-recipe/1",
        "title": "A plain mix",
        "written_for": 10,
        **other,
        "ingredients": {**ingredients, **other.get("ingredients", {})},
        "components": [
            {
                "id": "mix",
                "name": "Mix",
                "lines": about,
                "steps": [weigh, press] if steps is None else steps,
                **component,
            }
        ],
    }


def make_recipe(*lines: Any, **other: Any) -> Json:
    return read_recipe(make_document(*lines, **other))


def make_kit(*scales: tuple[str, str], **other: Any) -> Json:
    """A kit with these (capacity, division) scales, s0, s1, ...; one of 5 kg by 1 g when none is named."""
    return read_kit(
        {
            "format": "bowlside-kit/1",
            "scales": [
                {"id": f"s{index}", "name": f"Scale {index}", "capacity": capacity, "division": division}
                for index, (capacity, division) in enumerate(scales or [("5 kg", "1 g")])
            ],
            **other,
        }
    )


def make_size(pieces: int = 10, **other: Any) -> Json:
    return {"pieces": pieces, "without": [], "swaps": {}, "weigh": "running", **other}


def sheet_of(recipe: Json, kit: Json | None = None, **size: Any) -> Json:
    size.setdefault("pieces", recipe["written_for"])
    return make_sheet(recipe, REF, make_size(**size), kit or make_kit())


@cache
def _read(name: str) -> str:
    """A demo recipe, or the kit, as the bench reads it: reading takes longer than most that is asked of it."""
    document = written(name)
    return json.dumps(read_kit(document) if name == "kit.json" else read_recipe(document))


def demo_recipe(name: str = THREE_PART) -> Json:
    """A demo recipe as the bench reads it, fresh each time."""
    recipe: Json = json.loads(_read(name))
    return recipe


def demo_kit() -> Json:
    kit: Json = json.loads(_read("kit.json"))
    return kit


def demo_sheet(name: str = THREE_PART, **size: Any) -> Json:
    return sheet_of(demo_recipe(name), demo_kit(), **size)


def sized(recipe: Json, kit: Json | None = None, **request: Any) -> Json:
    return choose_size(recipe, kit or make_kit(), request)


def line_of(sheet: Json, key: str) -> Json:
    line: Json = next(line for line in sheet["lines"] if line["id"] == key)
    return line


def step_of(sheet: Json, key: str) -> Json:
    step: Json = next(step for step in sheet["steps"] if step["id"] == key)
    return step


_count = itertools.count(1)


def entry(kind: str, at: int = MORNING, device: str = "phone", **body: Any) -> Json:
    """One thing that happened; each call gives another id."""
    low = next(_count)
    return {
        "id": str(uuid.UUID(int=at << 80 | 7 << 76 | 2 << 62 | low)),
        "run": "0" * 8,
        "device": device,
        "at": at,
        "kind": kind,
        "body": body,
    }


class Maker:
    """Someone at the bench: sees what it says, answers, and lets the clock run."""

    def __init__(self, sheet: Json, at: int = MORNING) -> None:
        self.sheet = sheet
        self.entries: list[Json] = []
        self.at = at
        self._folded: tuple[int, Json] | None = None

    @property
    def state(self) -> Json:
        if self._folded is None or self._folded[0] != len(self.entries):
            self._folded = (len(self.entries), fold(self.sheet, self.entries))
        return self._folded[1]

    @property
    def sees(self) -> Json:
        return now(self.sheet, self.state, self.at)

    @property
    def prompt(self) -> Json:
        prompt: Json = self.sees["prompts"][0]
        return prompt

    def prompt_for(self, step: str) -> Json:
        prompt: Json = next(each for each in self.sees["prompts"] if each["step"] == step)
        return prompt

    def wait(self, ms: int) -> None:
        self.at += ms

    def tell(self, kind: str, **body: Any) -> None:
        self.entries.append(entry(kind, self.at, **body))
        self.at += SECOND

    def answer(
        self,
        answer: Json,
        reading: int | None = None,
        before: int = 0,
        count: int | None = None,
        note: str | None = None,
    ) -> None:
        """Post an answer's entry; an input fills in what the contract says it fills in."""
        body = dict(answer["body"])
        if answer["input"] == "reading":
            assert reading is not None
            body["mg"] = reading - before
            if answer["kind"] == "weighed":
                body["reading_mg"] = reading
        if answer["input"] == "count":
            body["good"] = count
        if answer["input"] == "air":
            body["humidity"] = 45
        if answer["input"] == "note" and note is not None:
            body["why" if answer["kind"] == "skipped" else "text"] = note
        self.tell(answer["kind"], **body)

    def all_of(self, answer: Json) -> None:
        """Give an answer with all that its one touch tells."""
        self.answer(answer)
        for each in answer.get("also", []):
            self.tell(each["kind"], **each["body"])

    def choose(self, key: str, prompt: Json | None = None, **filled: Any) -> None:
        """Give the answer whose id this is, to the first prompt unless another is named."""
        prompt = prompt or self.prompt
        before = prompt["weigh"]["before_mg"] if prompt["weigh"] else 0
        answer = next(each for each in prompt["answers"] if each["id"] == key)
        self.answer(answer, before=before, **filled)

    def reads(self, mg: int) -> None:
        """The scale reads something else."""
        self.choose("other", reading=mg)

    def strong(self) -> Json:
        """Give the first prompt its strong answer; what still counts, a wait or a burst, is waited for first."""
        prompt = self.prompt
        if not any(answer["strong"] for answer in prompt["answers"]):
            counts, ends = ("waits", "usual_at") if prompt["kind"] == "wait" else ("guides", "until")
            counting = next(each for each in self.sees[counts] if each["step"] == prompt["step"])
            self.at = max(self.at, counting[ends])
            prompt = self.prompt_for(prompt["step"])
        self.answer(next(answer for answer in prompt["answers"] if answer["strong"]))
        return prompt

    def briefly(self) -> Json:
        """The touch that tells most of what goes right: all pieces of a row, what is done and right, the end."""
        told = {answer["id"]: answer for answer in self.prompt["answers"]}
        short = next((told[key] for key in ("all", "done_yes") if key in told), None)
        short = short or next(
            (answer for answer in told.values() if answer["strong"] and answer.get("also")), None
        )
        if short is None:
            return self.strong()
        prompt = self.prompt
        self.all_of(short)
        return prompt

    def run_to(self, step: str) -> None:
        """Answer strongly until the first prompt is for this step."""
        for _ in range(500):
            if self.prompt["step"] == step:
                return
            self.strong()
        raise AssertionError(f"the bench never came to {step}")


def walk(sheet: Json) -> Iterator[Json]:
    """Each prompt in turn of a batch from its beginning to its end, answered as it should be, and each wait's
    as it begins: a maker may turn to that at once."""
    maker = Maker(sheet)
    waiting: set[str] = set()
    while not maker.state["finished_at"]:
        prompt, *others = maker.sees["prompts"]
        yield from (each for each in others if each["kind"] == "wait" and each["step"] not in waiting)
        waiting |= {each["step"] for each in others if each["kind"] == "wait"}
        yield prompt
        answered = maker.strong()
        if answered != prompt:  # it counted first: what it says then is another thing
            yield answered


def words_of(prompt: Json) -> str:
    return " ".join(prompt[field] for field in ("title", "says", "more", "why"))


def unsaid(sheet: Json) -> list[str]:
    """The steps of which the title, what they say, the reason or a wait's test never stands in a prompt of theirs."""
    said: dict[str, str] = {}
    for prompt in walk(sheet):
        said[prompt["step"]] = said.get(prompt["step"], "") + " " + words_of(prompt)
    fields = ("title", "says", "reason", "test", "look_for", "ask")
    return [
        f"{step['id']}.{field}"
        for step in sheet["steps"]
        for field in fields
        if step.get(field) and step[field] not in said[step["id"]]
    ]


def untouched(*things: Any) -> Any:
    """Deep copies to compare with afterwards."""
    return copy.deepcopy(things)
