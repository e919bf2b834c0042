"""What changed between two versions is said in words, all of it and nothing else."""

from __future__ import annotations

import copy
import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from bench import canonical, read_recipe, what_changed
from bench.versions import FIELDS, field_name
from bench.words import languages, speaking

DEMO = Path(__file__).resolve().parents[2] / "demo" / "recipes"
BATH = json.loads((DEMO / "fizzing-base-embed-whipped-top.json").read_text())
SEED = 20261125
TRIES = 80


def base(document: Any) -> Any:
    return document["components"][0]


def step(document: Any, key: str) -> Any:
    return next(each for each in base(document)["steps"] if each["id"] == key)


def line(document: Any, key: str) -> Any:
    return next(each for each in base(document)["lines"] if each["id"] == key)


def move(items: list[Any], frm: int, to: int) -> None:
    items.insert(to, items.pop(frm))


CHANGES: dict[str, tuple[Callable[[Any], Any], str, str]] = {
    "what it is for": (lambda d: d.update(use="air"), "The recipe", "used for: Scents the air, was Bath"),
    "where it is sold": (
        lambda d: d.update(sold_in=["us", "ni"]),
        "The recipe",
        "sold in: United States + Northern Ireland, was United States + European Union",
    ),
    "an amount": (
        lambda d: line(d, "citric").update(amount="500 g"),
        "Fizzing base, Citric acid, anhydrous",
        "500 g, was 550 g",
    ),
    "a line added": (
        lambda d: base(d)["lines"].append({"id": "more", "ingredient": "shea", "amount": "10 g"}),
        "Fizzing base, Shea butter",
        "added, 10 g",
    ),
    "a line taken away": (
        lambda d: base(d)["lines"].pop(9),
        "Fizzing base, Witch hazel distillate",
        "removed, was to texture",
    ),
    "another ingredient": (
        lambda d: line(d, "butter").update(ingredient="shea"),
        "Fizzing base, Shea butter",
        "ingredient: Shea butter, was Cocoa butter",
    ),
    "a line moved": (
        lambda d: move(base(d)["lines"], 1, 0),
        "Fizzing base, Citric acid, anhydrous",
        "moved to the front",
    ),
    "a step retitled": (
        lambda d: step(d, "sift").update(title="Sift it"),
        "Fizzing base, “Sift it”",
        "Sift it, was Sift and mix the dry things",
    ),
    "a step moved": (
        lambda d: move(base(d)["steps"], 2, 5),
        "Fizzing base, “Sift and mix the dry things”",
        "moved behind “Wipe the jug dry, outside and under”",
    ),
    "a step added": (
        lambda d: base(d)["steps"].append({"id": "dust", "kind": "do", "title": "Dust them"}),
        "Fizzing base, “Dust them”",
        "added, a step",
    ),
    "a step taken away": (
        lambda d: base(d)["steps"].pop(0),
        "Fizzing base, “Grind the citric acid finer”",
        "removed, a step",
    ),
    "a wait": (
        lambda d: step(d, "drying").update(usual="8 h"),
        "Fizzing base, “Let the bases dry”",
        "usual: 8 h, was 6 h",
    ),
    "a need": (
        lambda d: step(d, "join").update(after=["wet", "embed.cool"]),
        "Fizzing base, “Pour the jug into the bowl, all at once”",
        "comes after: “Weigh the solubiliser and the fragrance into the jug” + "
        "“Let the pebbles cool completely”, was “Sift and mix the dry things” + "
        "“Weigh the solubiliser and the fragrance into the jug”",
    ),
    "a spare": (lambda d: base(d).update(spares=2), "Fizzing base", "spares: 2, was not said"),
    "a loss no longer said": (
        lambda d: base(d).pop("loss"),
        "Fizzing base",
        "lost on the way: removed, was 2 %",
    ),
    "a note": (
        lambda d: line(d, "rose").update(note="For the half in rose."),
        "Fizzing base, Rose mica",
        "note: For the half in rose., was not said",
    ),
    "the title": (lambda d: d.update(title="Bath pieces"), "The recipe", "Bath pieces, was Pressed"),
    "the yield": (lambda d: d.update(written_for=14), "The recipe", "written for: 14, was 12"),
    "the summary": (lambda d: d.update(summary="Short."), "The recipe", "summary: rewritten"),
    "a density": (
        lambda d: d["ingredients"]["shea"]["density"].update(g_per_ml="0.90"),
        "Ingredient Shea butter",
        "density: g/ml 0.90",
    ),
    "an ingredient's name": (
        lambda d: d["ingredients"]["shea"].update(name="Shea"),
        "Ingredient Shea",
        "Shea, was Shea butter",
    ),
    "a part taken away": (
        lambda d: d["components"].pop(1),
        "Clear soap pebble",
        "removed, the whole part",
    ),
    "parts in another order": (
        lambda d: move(d["components"], 2, 0),
        "Whipped soap top",
        "moved to the front",
    ),
    "what a piece takes": (
        lambda d: d["assembly"]["takes"][2].update(count=2),
        "Joining and wrapping",
        "one piece takes:",
    ),
    "the heat of a water bath": (  # a burst is a microwave's alone
        lambda d: step(d, "melt_butter").update(burst="3 min"),
        "Fizzing base, “Melt the butter over the water bath”",
        "heats for: 3 min, was",
    ),
    "no assembly": (lambda d: d.pop("assembly"), "Joining and wrapping", "removed"),
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_is_said_in_words_where_it_is(name: str) -> None:
    edit, where, what = CHANGES[name]
    new = copy.deepcopy(BATH)
    edit(new)

    said = what_changed(BATH, new)

    assert len(said) == 1, said
    assert said[0]["where"] == where
    if name == "a need":
        assert said[0]["what"] in (what, "comes after: rewritten")
    else:
        assert said[0]["what"].startswith(what)


@pytest.mark.parametrize("tag", languages())
def test_every_field_that_a_recipe_may_have_is_named_where_it_changed(tag: str) -> None:
    with speaking(tag):
        assert all(field_name(field) for field in FIELDS)
        look = copy.deepcopy(BATH)
        base(look)["lines"][0]["second_look"] = True
        assert [each["what"] for each in what_changed(BATH, look)] != []


def test_one_step_that_moved_far_is_one_move_and_not_many() -> None:
    new = copy.deepcopy(BATH)
    steps = base(new)["steps"]
    move(steps, 0, len(steps) - 1)

    assert [each["what"] for each in what_changed(BATH, new)] == ["moved behind “Let the bases dry”"]


def test_the_order_of_names_in_a_file_is_no_change() -> None:
    assert what_changed(BATH, json.loads(canonical(BATH))) == []


@pytest.mark.parametrize("path", sorted(DEMO.glob("*-*.json")), ids=lambda path: path.stem)
def test_nothing_that_differs_goes_unsaid(path: Path) -> None:
    """Edits made at random to readable recipes: words come exactly when the texts differ."""
    document = json.loads(path.read_text())
    dice = random.Random(SEED)
    readable = 0
    for _ in range(TRIES):
        new = copy.deepcopy(document)
        for _ in range(dice.randint(0, 2)):
            edit_somewhere(new, dice)
        try:
            read_recipe(new)
        except ValueError:
            continue
        readable += 1

        assert (what_changed(document, new) == []) == (canonical(document) == canonical(new))
        assert all(each["where"] and each["what"] for each in what_changed(new, document))
    assert readable > TRIES // 4


def edit_somewhere(document: Any, dice: random.Random) -> None:
    """Change one text or number, drop one field, or exchange two list items."""
    holders: list[Any] = []
    stack = [document]
    while stack:
        here = stack.pop()
        if isinstance(here, dict | list) and here:
            holders.append(here)
            stack += here.values() if isinstance(here, dict) else here
    holder = dice.choice(holders)
    keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
    key = dice.choice(keys)
    if isinstance(holder, list):
        other = dice.choice(keys)
        holder[key], holder[other] = holder[other], holder[key]
    elif isinstance(holder[key], str) and dice.random() < 0.6:
        holder[key] = f"{holder[key]} x"
    elif type(holder[key]) is int:
        holder[key] += 1
    elif isinstance(holder[key], bool):
        holder[key] = not holder[key]
    elif key not in ("id", "kind", "format"):
        del holder[key]
