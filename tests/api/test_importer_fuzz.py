"""Six hundred spoiled recipes (`make chaos` takes ten thousand): never a fault of ours, never a half-kept recipe.

Each is a demo recipe with one to four things done to it. Most go to the check, which reads as the
importer does and is the front of the page's own; every so often one is put over a recipe that is
there, or imported. The mutations and the seed are printed, so that a failure can be made again.
"""

from __future__ import annotations

import copy
import json
import os
import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.api.studio import Studio
from tests.make import uuid4

pytestmark = pytest.mark.database("sqlite")  # the database is not its subject

SEED = 20261125
MUTATIONS = int(os.environ.get("MUTATIONS", "600"))
PUT_EVERY, IMPORT_EVERY = 20, 50

DEMO = Path(__file__).resolve().parents[2] / "demo" / "recipes"
RECIPES = [json.loads(path.read_text()) for path in sorted(DEMO.glob("*-*.json"))]


def parts_of(recipe: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Each component as a small recipe of its own: most faults need no more, and it is quick to read."""
    for written in recipe["components"]:
        component = copy.deepcopy(written)
        for step in component["steps"]:
            if "after" in step:
                step["after"] = [each for each in step["after"] if "." not in each]
            if "." in step.get("window", {}).get("from", ""):
                del step["window"]
        used = {line["ingredient"] for line in component["lines"]}
        used |= {each["ingredient"] for line in component["lines"] for each in line.get("substitutes", [])}
        part = {key: value for key, value in recipe.items() if key not in ("assembly", "summary")}
        ingredients = {key: value for key, value in recipe["ingredients"].items() if key in used}
        yield {**part, "ingredients": ingredients, "components": [component]}


PARTS = sorted((part for recipe in RECIPES for part in parts_of(recipe)), key=lambda part: len(str(part)))
SMALL = PARTS[: len(PARTS) * 2 // 3]
WHOLE_EVERY = 50  # so often a whole recipe is spoiled

STRANGE: list[Any] = [
    None, True, False, 0, -1, 1, 40, 1001, 2**53, 2**63, 10**40, 0.5, "", " ", "\x00", "\ud800", "🛁",
    "240 g", "-3 g", "0 g", "1e9 kg", "1½ tsp", "2 parts", "120 %", "to texture", "9" * 400, "½", "1/0 g", "NaN",
    "lye", "../../etc", "<script>", "after", "base.press", "assembly", [], {}, [[]], [None], {"id": "x"}, "a" * 5_000,
]  # fmt: skip


def spoiled(dice: random.Random, whole: bool) -> Any:
    document = copy.deepcopy(dice.choice(RECIPES if whole else SMALL))
    for _ in range(dice.randint(1, 4)):
        holder, key = somewhere(document, dice)
        match dice.randrange(7):
            case 0:
                del holder[key]
            case 1 | 2:
                holder[key] = copy.deepcopy(dice.choice(STRANGE))
            case 3:
                other, there = somewhere(document, dice)
                holder[key] = copy.deepcopy(other[there])
            case 4 if isinstance(holder, list):
                holder.extend(copy.deepcopy(holder[:1]) * dice.choice([1, 2, 500]))
            case 4:
                holder[dice.choice(["id", "lines", "steps", "after", "x", "\x00", ""])] = holder[key]
            case 5 if isinstance(holder[key], str) and holder[key]:
                place = dice.randrange(len(holder[key]))
                holder[key] = (
                    holder[key][:place]
                    + dice.choice(["", "0", " ", ".", "%", "½", "\n"])
                    + holder[key][place + 1 :]
                )
            case 5 if type(holder[key]) is int:
                holder[key] += dice.choice([-100, -1, 1, 10**6])
            case 6 if isinstance(holder, list):
                dice.shuffle(holder)
            case _:
                holder[key] = [holder[key]]
    return document


def somewhere(document: Any, dice: random.Random) -> tuple[Any, Any]:
    """A holder and a key in it, at any depth."""
    holder: Any = {"document": document}
    key: Any = "document"
    while (
        isinstance(holder[key], dict | list) and holder[key] and (key == "document" or dice.random() < 0.85)
    ):
        holder = holder[key]
        key = dice.choice(list(holder)) if isinstance(holder, dict) else dice.randrange(len(holder))
    return (
        (document, next(iter(document)))
        if key == "document" and holder.get("document") is document
        else (holder, key)
    )


def test_the_parts_that_are_spoiled_could_be_read_before(studio: Studio) -> None:
    for part in PARTS:
        assert studio.client.post("/api/v1/checks", json=part).status_code == 200


@pytest.mark.slow
def test_spoiled_recipes_are_answered_in_words_and_never_half_kept(studio: Studio) -> None:
    dice = random.Random(SEED)
    recipe = studio.put_recipe(uuid4(), RECIPES[0]).json
    statuses: Counter[tuple[str, int]] = Counter()
    for turn in range(MUTATIONS):
        text = body_of(spoiled(dice, turn % WHOLE_EVERY == 0), dice)
        way = "put" if turn % PUT_EVERY == 0 else "import" if turn % IMPORT_EVERY == 1 else "check"

        answer = sent(studio, way, text, recipe)

        statuses[way, answer.status_code] += 1
        said = f"seed {SEED}, turn {turn}, {way}: {answer.status_code} {answer.text[:300]}\n{text[:2000]!r}"
        assert answer.status_code < 500, said
        if answer.status_code >= 400:
            problem = answer.get_json(force=True)
            assert problem["detail"], said
            assert all(each["detail"] for each in problem["errors"]), said
        if way == "put":
            now = studio.get(f"/recipes/{recipe['id']}").json
            assert (now == recipe) == (answer.status_code != 200 or answer.json == recipe), said
            recipe = now
    print(f"\n{MUTATIONS} mutations, seed {SEED}: {dict(sorted(statuses.items()))}")
    assert {status for _, status in statuses} >= {200, 422}
    assert_all_kept_are_whole(studio)


def body_of(document: Any, dice: random.Random) -> bytes:
    """The document as sent: now and then cut short, or with a byte that is no UTF-8."""
    body = json.dumps(document).encode()
    match dice.randrange(60):
        case 0:
            return body[: dice.randrange(len(body) + 1)]
        case 1:
            return body.replace(b"a", b"\xff", 1)
    return body


def sent(studio: Studio, way: str, body: bytes, recipe: dict[str, Any]) -> Any:
    headers = {"Content-Type": "application/json"}
    if way == "put":
        headers["If-Match"] = studio.tag(recipe["version"])
        return studio.client.put(f"/api/v1/recipes/{recipe['id']}", data=body, headers=headers)
    path = "/api/v1/import" if way == "import" else "/api/v1/checks"
    return studio.client.post(path, data=body, headers=headers)


def assert_all_kept_are_whole(studio: Studio) -> None:
    """Whatever was taken in can be read again, and every list entry has its recipe and versions."""
    pages = studio.get("/recipes?page_size=100").json["pages"]
    for page in range(1, pages + 1):
        for item in studio.get(f"/recipes?page_size=100&page={page}").json["recipes"]:
            whole = studio.get(f"/recipes/{item['id']}").json
            assert studio.client.post("/api/v1/checks", json=whole["document"]).status_code == 200
            assert studio.get(f"/recipes/{item['id']}/versions").json["total"] == whole["version"]
