"""Two versions of a recipe, and what changed between them, in words.

Works on recipes as written, not measured: what the maker typed is what the maker changed. Things
are told apart by their ids, so a renamed step is a renamed step and not one gone and one come.
Nothing that differs goes unsaid: `what_changed` is empty only when the two say the same.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TypeVar, cast

from bench.lists import once
from bench.recipe import ASSEMBLY
from bench.recipe_schema import RECIPE_SCHEMA
from bench.shapes.recipe import (
    Change,
    WrittenAssembly,
    WrittenComponent,
    WrittenLine,
    WrittenRecipe,
    WrittenStep,
)
from bench.shapes.units import Id
from bench.words import say

Listed = TypeVar("Listed", WrittenLine, WrittenStep)
Identified = TypeVar("Identified", WrittenLine, WrittenStep, WrittenComponent)

SHORT = 90  # a text up to this long is quoted as it was and as it is; a longer one is only "rewritten"


def _fields_of(schema: object) -> Iterator[str]:
    """The names of all fields that a schema has."""
    if isinstance(schema, dict):
        yield from schema.get("properties", {})
        for each in schema.values():
            yield from _fields_of(each)
    elif isinstance(schema, list):
        for each in schema:
            yield from _fields_of(each)


FIELDS = frozenset(_fields_of(RECIPE_SCHEMA))


def what_changed(old_document: WrittenRecipe, new_document: WrittenRecipe) -> list[Change]:
    """What is different in the new one: [{"where", "what"}], in the order of the recipe.

    Both are documents that `read_recipe` reads. `where` names the part and the line or step in the
    maker's own words; `what` says what it is now and what it was.
    """
    return list(_Comparison(old_document, new_document).all())


class _Comparison:
    def __init__(self, old: WrittenRecipe, new: WrittenRecipe) -> None:
        self.old, self.new = old, new
        # A thing that is gone is still called by the name it had.
        self.names: dict[str, str] = {}
        for document in (old, new):
            self.names |= {key: each["name"] for key, each in document["ingredients"].items()}
        self.titles = _titles(old) | _titles(new)

    def all(self) -> Iterator[Change]:
        apart = ("ingredients", "components", "assembly")
        yield from self._fields(say("versions-recipe"), self.old, self.new, apart)
        yield from self._ingredients()
        before, after = _by_id(self.old["components"]), _by_id(self.new["components"])
        for key, component in after.items():
            if key in before:
                yield from self._component(key, component["name"], before[key], component)
            else:
                yield _change(component["name"], say("versions-added-part"))
        for key, component in before.items():
            if key not in after:
                yield _change(component["name"], say("versions-removed-part"))
        for key, place in _moves(before, after):
            yield _change(after[key]["name"], _moved(place, {k: each["name"] for k, each in after.items()}))
        yield from self._assembly()

    def _assembly(self) -> Iterator[Change]:
        before, after = self.old.get("assembly"), self.new.get("assembly")
        name = assembly_name(after or before)
        if before is None and after is not None:
            yield _change(name, say("versions-added"))
        elif before is not None and after is None:
            yield _change(name, say("versions-removed"))
        elif before is not None and after is not None:
            yield from self._component(ASSEMBLY, name, before, after)

    def _ingredients(self) -> Iterator[Change]:
        before, after = self.old["ingredients"], self.new["ingredients"]
        for key, ingredient in after.items():
            where = say("versions-ingredient", name=ingredient["name"])
            if key in before:
                yield from self._fields(where, before[key], ingredient)
            else:
                yield _change(where, say("versions-added"))
        for key, ingredient in before.items():
            if key not in after:
                yield _change(say("versions-ingredient", name=ingredient["name"]), say("versions-removed"))

    def _component(
        self,
        key: Id,
        name: str,
        old: WrittenComponent | WrittenAssembly,
        new: WrittenComponent | WrittenAssembly,
    ) -> Iterator[Change]:
        yield from self._fields(name, old, new, ("id", "lines", "steps"))
        yield from self._listed(
            key,
            name,
            _by_id(old.get("lines", [])),
            _by_id(new.get("lines", [])),
            lambda line: self.names.get(line["ingredient"], line["ingredient"]),
            lambda kind, line: say(f"versions-line-{kind}", amount=line["amount"]),
        )
        yield from self._listed(
            key,
            name,
            _by_id(old["steps"]),
            _by_id(new["steps"]),
            quoted,
            lambda kind, step: say(f"versions-step-{kind}"),
        )
        # An empty list and none at all are the same to a maker, and not the same text.
        if ("lines" in old) != ("lines" in new) and not old.get("lines") and not new.get("lines"):
            yield _change(name, say("versions-no-lines"))

    def _listed(
        self,
        component: Id,
        name: str,
        old: dict[Id, Listed],
        new: dict[Id, Listed],
        called: Callable[[Listed], str],
        told: Callable[[str, Listed], str],
    ) -> Iterator[Change]:
        """Lines or steps: added, changed, taken away, moved."""
        for key, item in new.items():
            where = say("versions-in-part", part=name, name=called(item))
            if key in old:
                yield from self._fields(where, old[key], item, ("id",), component)
            else:
                yield _change(where, told("added", item))
        for key, item in old.items():
            if key not in new:
                yield _change(say("versions-in-part", part=name, name=called(item)), told("removed", item))
        for key, place in _moves(old, new):
            names = {each: called(item) for each, item in new.items()}
            yield _change(say("versions-in-part", part=name, name=names[key]), _moved(place, names))

    def _fields(
        self,
        where: str,
        old: Mapping[str, object],
        new: Mapping[str, object],
        apart: Iterable[str] = (),
        component: str = "",
    ) -> Iterator[Change]:
        for field in once([*new, *old]):
            before, after = old.get(field), new.get(field)
            if field in apart or (before == after and (field in old) == (field in new)):
                continue
            yield _change(where, self._said(field, before, after, component))

    def _said(self, field: str, before: object, after: object, component: str) -> str:
        name = field_name(field)
        is_, was = (self._words(field, each, component) for each in (after, before))
        if before is None:
            if len(is_) > SHORT:
                return say("versions-field-new-long", field=name)
            return say("versions-field-new", field=name, now=is_)
        if after is None:
            if len(was) > SHORT:
                return say("versions-field-gone-long", field=name)
            return say("versions-field-gone", field=name, was=was)
        if is_ == was or max(len(is_), len(was)) > SHORT:
            return say("versions-field-rewritten", field=name)
        # An amount, a title or a name is its own word.
        if field in ("amount", "title", "name"):
            return say("versions-changed", now=is_, was=was)
        return say("versions-field-changed", field=name, now=is_, was=was)

    def _words(self, field: str, value: object, component: str) -> str:
        """A value as a maker reads it: ids by what they stand for."""
        if isinstance(value, bool):
            return say("versions-yes" if value else "versions-no")
        if isinstance(value, list):
            items = cast(list[object], value)
            return " + ".join(self._words(field, each, component) for each in items) or say(
                "versions-nothing"
            )
        if isinstance(value, dict):
            fields = cast(dict[str, object], value)
            return ", ".join(
                f"{field_name(key)} {self._words(key, each, component)}" for key, each in fields.items()
            )
        text = str(value)
        if field == "use":
            return say("product-use", use=text)
        if field == "sold_in":
            return say("product-market", market=text)
        if field in ("after", "from"):
            return self.titles.get(text if "." in text else f"{component}.{text}", text)
        if field == "component":
            return self.titles.get(text, text)
        if field in ("lines", "of"):
            return self.titles.get(f"{component}.{text}.line", text)
        return self.names.get(text, text) if field == "ingredient" else text


def _titles(document: WrittenRecipe) -> dict[str, str]:
    """What ids stand for: components, steps as "component.step", lines as "component.line.line"."""
    titles = {ASSEMBLY: say("sheet-assembly")}
    parts: list[tuple[Id, str, WrittenComponent | WrittenAssembly]] = [
        (component["id"], component["name"], component) for component in document["components"]
    ]
    if "assembly" in document:
        parts.append((ASSEMBLY, assembly_name(document["assembly"]), document["assembly"]))
    for key, name, part in parts:
        titles[key] = name
        titles |= {f"{key}.{step['id']}": quoted(step) for step in part["steps"]}
        for line in part.get("lines", []):
            used = document["ingredients"].get(line["ingredient"])
            titles[f"{key}.{line['id']}.line"] = used["name"] if used else line["id"]
    return titles


def _by_id(items: Iterable[Identified]) -> dict[Id, Identified]:
    return {item["id"]: item for item in items}


def _moves(old: Iterable[str], new: Iterable[str]) -> list[tuple[str, str | None]]:
    """The fewest things that must have moved to get from one order to the other.

    Each with what it now comes after (None: it comes first). What stays is a longest run of ids
    that stand in the same order in both.
    """
    there = {key: place for place, key in enumerate(old)}
    order = list(new)
    shared = [key for key in order if key in there]
    ends: list[int] = []  # the smallest old place that ends a run of each length
    runs: list[list[str]] = []
    for key in shared:
        length = bisect_left(ends, there[key])
        run = [*(runs[length - 1] if length else []), key]
        ends[length : length + 1] = [there[key]]
        runs[length : length + 1] = [run]
    stays = set(runs[-1]) if runs else set()
    return [
        (key, order[place - 1] if place else None)
        for place, key in enumerate(order)
        if key in there and key not in stays
    ]


def _moved(after: str | None, names: dict[str, str]) -> str:
    return say("versions-moved-first") if after is None else say("versions-moved-behind", name=names[after])


def assembly_name(assembly: WrittenAssembly | None) -> str:
    named = assembly.get("name") if assembly else None
    return named or say("sheet-assembly")


def quoted(step: WrittenStep) -> str:
    return say("versions-quoted", title=step["title"])


def field_name(field: str) -> str:
    """What a field is called. A recipe of a later version may have one that has no name here."""
    return say(f"versions-name-{field}") if field in FIELDS else field.replace("_", " ")


def _change(where: str, what: str) -> Change:
    return {"where": where, "what": what}
