"""Makes things for tests: a clock, ids, entries and runs, with what does not matter filled in."""

from __future__ import annotations

import itertools
import uuid
from dataclasses import dataclass
from typing import Any

EVENINGS = {"makers": [{"name": "Ada", "hours": {"zone": "Europe/London", "daily": [["19:00", "22:00"]]}}]}


@dataclass
class Clock:
    """The server's clock, in ms, moved by hand."""

    ms: int = 1_800_000_000_000

    def __call__(self) -> int:
        return self.ms


BEGUN = 1_740_000_000_000

_count = itertools.count(1)


def uuid4() -> str:
    return str(uuid.uuid4())


def uuid7(ms: int = 1_800_000_000_000) -> str:
    """A UUIDv7 of an instant; each call gives another."""
    low = next(_count)
    return str(uuid.UUID(int=ms << 80 | 7 << 76 | (low >> 62) << 64 | 2 << 62 | low & (1 << 62) - 1))


def make_entry(run: str, **other: Any) -> dict[str, Any]:
    """A remark at the bench, in a run."""
    return {
        "id": uuid7(),
        "run": run,
        "device": "phone-a",
        "at": 1_750_000_000_000,
        "kind": "noted",
        "body": {"text": "like wet sand"},
        **other,
    }


# All that a maker can say of a kit; tests/api/test_kit.py says when something is missing here.
WHOLE_KIT: dict[str, Any] = {
    "format": "bowlside-kit/1",
    "scales": [
        {
            "id": "bench",
            "name": "Bench",
            "capacity": "5 kg",
            "division": "1 g",
            "test_weight": "100 g",
        },
        {"id": "ounces", "name": "Ounces", "capacity": "11 lb", "division": "0.05 oz"},
    ],
    "vessels": [
        {
            "id": "bowl",
            "name": "Bowl",
            "kind": "bowl",
            "empty": "1.2 kg",
            "holds": "3 kg",
            "material": "enamel",
        }
    ],
    "moulds": [{"id": "puck", "name": "Puck", "shape": "puck", "cavities": 6, "sets": 2, "cavity": "130 g"}],
    "heaters": [{"id": "micro", "name": "Microwave", "kind": "microwave", "absorbed_w": 500}],
    "mixers": [{"id": "hand", "name": "Hand mixer"}],
}


def make_run(recipe: dict[str, Any], pieces: int = 12, made_at: int = BEGUN) -> dict[str, Any]:
    """The body that begins a run of a recipe, early enough for whatever a test says of it."""
    ref = {"id": recipe["id"], "version": recipe["version"]}
    return {"recipe": ref, "size": {"pieces": pieces}, "made_at": made_at}


# As a sheet says it before the first weighing, and at the end.
ASKED_BEFORE = ["Bench, tools and vessels are clean", "Nothing of another batch is on the bench"]
ASKED_AT_THE_END = [
    "Mass: 48.50 g to 52 g",
    "pH: 4.5 to 5.5",
    "Look: Even, no drops on top",
    "Set: Hard to the thumb",
    "Scent after a day, 1 to 5",
]


def make_recipe(lines: int = 2, title: str = "Salt soak") -> dict[str, Any]:
    """A recipe of one component whose lines are weighed into one bowl, a hundred a step."""
    ids = [f"line_{number}" for number in range(lines)]
    weigh = [
        {"id": f"weigh_{start}", "kind": "weigh", "title": "Weigh", "lines": ids[start : start + 100]}
        for start in range(0, lines, 100)
    ]
    return {
        "format": "bowlside-recipe/1",
        "title": title,
        "written_for": 10,
        "ingredients": {"salt": {"name": "Sea salt"}},
        "components": [
            {
                "id": "soak",
                "name": "Soak",
                "lines": [{"id": each, "ingredient": "salt", "amount": "100 g"} for each in ids],
                "steps": [*weigh, {"id": "stir", "kind": "do", "title": "Stir"}],
            }
        ],
    }


def make_asking_recipe() -> dict[str, Any]:
    """A fizz that has all asked at the bench that can be, besides its steps."""
    recipe = make_recipe()
    recipe["ingredients"] = {
        "soda": {"name": "Bicarbonate of soda"},
        "citric": {"name": "Citric acid"},
    }
    for line, ingredient in zip(recipe["components"][0]["lines"], recipe["ingredients"], strict=True):
        line |= {"ingredient": ingredient, "second_look": ingredient == "citric"}
    return recipe | {
        "use": "bath",
        "before": ["cleaned", "cleared"],
        "good_piece": {
            "mass": {"least": "48.5 g", "most": "52 g"},
            "ph": {"least": "4.5", "most": "5.5"},
            "look": "Even, no drops on top",
            "set": "Hard to the thumb",
            "judge": ["Scent after a day, 1 to 5"],
        },
    }
