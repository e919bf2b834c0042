"""Small builders for recipes as their makers write them, and small edits that put a fault into one.

A line is written "bicarb 800 g": the ingredient, then the amount. A "?" after the name makes it optional, "@"
gives the line an id of its own: "scent@scent_white? 0.4 %".
"""

from __future__ import annotations

import copy
import re
from collections.abc import Callable, Iterator
from typing import Any

from faults.things import THINGS

Json = dict[str, Any]
Edit = Callable[[Json], None]
_LINE = re.compile(r"(?P<thing>\w+)(?:@(?P<id>\w+))?(?P<optional>\?)?\s+(?P<amount>.+)")


def line(text: str) -> Json:
    said = _LINE.fullmatch(text.strip())
    assert said, text
    made: Json = {
        "id": said["id"] or said["thing"],
        "ingredient": said["thing"],
        "amount": said["amount"],
    }
    return {**made, "optional": True} if said["optional"] else made


def part(id: str, name: str, piece: str | None, lines: str, *steps: Json, **other: Any) -> Json:
    made = {"id": id, "name": name, "lines": [line(each) for each in lines.split(";") if each.strip()]}
    return {**made, **({"piece": piece} if piece else {}), **other, "steps": list(steps)}


def recipe(title: str, pieces: int, *parts: Json, **other: Any) -> Json:
    """One part or more; `things` are ingredients of its own, or in place of those of the catalogue."""
    own = other.pop("things", {})
    made = {"format": "bowlside-recipe/1", "title": title, "written_for": pieces, **other}
    named = [each["ingredient"] for each in _lines({**made, "components": list(parts)})]
    known = {thing: {**THINGS.get(thing, {}), **own.get(thing, {})} for thing in [*named, *own]}
    return copy.deepcopy({**made, "ingredients": known, "components": list(parts)})


def _step(kind: str, id: str, title: str, **said: Any) -> Json:
    return {"id": id, "kind": kind, "title": title, **said}


def weigh(id: str, title: str, lines: str, **said: Any) -> Json:
    return _step("weigh", id, title, lines=lines.split(), **said)


def do(id: str, title: str, does: str = "", **said: Any) -> Json:
    return _step("do", id, title, **({"does": does} if does else {}), **said)


def pieces(id: str, title: str, does: str = "", **said: Any) -> Json:
    return _step("pieces", id, title, **({"does": does} if does else {}), **said)


def melt(id: str, title: str, of: str, heater: str, burst: str, to_c: str | None, **said: Any) -> Json:
    shown = {
        "look_for": "Only just liquid, no lump on the spoon.",
        **({"to_c": to_c} if to_c else {}),
        **said,
    }
    return _step("melt", id, title, of=of.split(), heater=heater, burst=burst, **shown)


def wait(id: str, title: str, word: str, earliest: str, usual: str, latest: str = "", **said: Any) -> Json:
    end = {"latest": latest} if latest else {}
    return _step("wait", id, title, word=word, earliest=earliest, usual=usual, **end, **said)


def look(id: str, title: str, ask: str, not_yet: str, **said: Any) -> Json:
    return _step("check", id, title, ask=ask, not_yet={"do": not_yet}, **said)


def within(latest: str, stake: str, start: str = "") -> Json:
    return {"latest": latest, "stake": stake, **({"from": start} if start else {})}


# Edits


def parts_of(made: Json) -> list[Json]:
    return [*made["components"], *([made["assembly"]] if "assembly" in made else [])]


def _lines(made: Json) -> Iterator[Json]:
    for each in parts_of(made):
        yield from each.get("lines", [])


def _home(made: Json, step: str) -> list[Json]:
    for each in parts_of(made):
        if any(found["id"] == step for found in each["steps"]):
            steps: list[Json] = each["steps"]
            return steps
    raise KeyError(step)


def _at(made: Json, step: str) -> int:
    return next(index for index, each in enumerate(_home(made, step)) if each["id"] == step)


def put(step: str, **said: Any) -> Edit:
    """Say something of a step otherwise; None takes it away."""

    def edit(made: Json) -> None:
        found = _home(made, step)[_at(made, step)]
        found.update(said)
        for key in [key for key, value in said.items() if value is None]:
            del found[key]

    return edit


def amounts(**said: str) -> Edit:
    def edit(made: Json) -> None:
        for each in _lines(made):
            each["amount"] = said.get(each["id"], each["amount"])

    return edit


def of_line(id: str, **said: Any) -> Edit:
    return lambda made: next(each for each in _lines(made) if each["id"] == id).update(said)


def of_part(id: str, **said: Any) -> Edit:
    return lambda made: next(each for each in made["components"] if each["id"] == id).update(said)


def whole(**said: Any) -> Edit:
    return lambda made: made.update(said)


def thing(id: str, **said: Any) -> Edit:
    """Say something of an ingredient otherwise; None takes it away."""

    def edit(made: Json) -> None:
        made["ingredients"][id].update(said)
        for key in [key for key, value in said.items() if value is None]:
            del made["ingredients"][id][key]

    return edit


def named(id: str, **said: Any) -> Edit:
    """An ingredient is something else altogether, under the same id."""
    return lambda made: made["ingredients"].update({id: said})


def becomes(id: str, other: str) -> Edit:
    """An ingredient is another one of the catalogue."""
    return lambda made: made["ingredients"].update({id: dict(THINGS[other])})


def more(text: str, step: str, **said: Any) -> Edit:
    """One more line, weighed in a step that weighs."""

    def edit(made: Json) -> None:
        new = line(text)
        home = next(each for each in parts_of(made) if any(found["id"] == step for found in each["steps"]))
        home.setdefault("lines", []).append(new)
        made["ingredients"].setdefault(new["ingredient"], {**THINGS.get(new["ingredient"], {}), **said})
        found = home["steps"][_at(made, step)]
        found["lines"] = [*found["lines"], new["id"]]

    return edit


def without(id: str) -> Edit:
    """A line was forgotten, in the list and in each step that named it."""

    def edit(made: Json) -> None:
        for each in parts_of(made):
            each["lines"] = [line for line in each.get("lines", []) if line["id"] != id]
            for step in each["steps"]:
                step.update(
                    {key: [ref for ref in step[key] if ref != id] for key in ("lines", "of") if key in step}
                )

    return edit


def drop(step: str) -> Edit:
    """A step was forgotten; what came after it comes after what came before it."""

    def edit(made: Json) -> None:
        steps, index = _home(made, step), _at(made, step)
        gone = steps.pop(index)
        if index < len(steps) and "after" in gone:
            steps[index].setdefault("after", gone["after"])
        for each in (each for part in parts_of(made) for each in part["steps"]):
            left = [ref for ref in each.get("after", []) if ref.split(".")[-1] != step]
            if left != each.get("after", []):
                each.pop("after")
                each.update({"after": left} if left else {})
            if each.get("window", {}).get("from", "").split(".")[-1] == step:
                del each["window"]["from"]

    return edit


def insert(before: str, new: Json) -> Edit:
    return lambda made: _home(made, before).insert(_at(made, before), copy.deepcopy(new))


def move(step: str, before: str) -> Edit:
    """A step stands where it does not belong. Nothing says what it comes after, so its place does."""

    def edit(made: Json) -> None:
        moved = _home(made, step).pop(_at(made, step))
        _home(made, before).insert(_at(made, before), moved)

    return edit


def edited(made: Json, edits: tuple[Edit, ...]) -> Json:
    made = copy.deepcopy(made)
    for edit in edits:
        edit(made)
    return made
