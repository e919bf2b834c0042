"""What is answered, described in OpenAPI from shapes, the bench's or the API's own, so that there is one truth about it.

    @blueprint.response(200, shape("KeptPlan"))        an answer that is a document of the bench
    @blueprint.response(200, shape(RunPage))           an answer of the API's own (`api/answers.py`)
    sheet = Document("Sheet", required=True)           a document of the bench inside what is asked

Each shape that is referred to becomes a component of that name. A later bench may say more, so what is closed in
`bench/shapes/schemas.json` is open here.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any, is_typeddict

from apispec import APISpec
from marshmallow import fields

import bench
from bench import JsonObject

PLACE = "#/components/schemas/"


@cache
def _schemas() -> dict[str, JsonObject]:
    """Each shape by its name; a name is that of one shape in all of the bench."""
    text = (Path(bench.__file__).parent / "shapes" / "schemas.json").read_text(encoding="utf-8")
    return {
        name: schema
        for module in json.loads(text).values()
        if isinstance(module, dict)
        for name, schema in module.items()
    }


# The API's own shapes, by name.
_OWN: dict[str, type] = {}


def shape(document: str | type) -> dict[str, str]:
    """The description of an answer, or of a part of it, that is this shape: the bench's by name, or the API's own."""
    if isinstance(document, type):
        return {"$ref": _named(document)}
    if document not in _schemas():
        raise LookupError(f"The bench has no shape {document}. See bench/shapes.")
    return {"$ref": PLACE + document}


def _named(document: type) -> str:
    name = document.__name__
    if not document.__module__.startswith("bench.") and _OWN.setdefault(name, document) is not document:
        raise LookupError(f"Two shapes of the API are called {name}. Rename one.")
    return PLACE + name


def _schema(name: str) -> JsonObject:
    """Of a name that something refers to: what stands there."""
    if name not in _OWN:
        return _schemas()[name]

    def reference(hint: object) -> str | None:
        return _named(hint) if isinstance(hint, type) and is_typeddict(hint) else None

    return bench.schema_of(_OWN[name], reference, own=True)


class Document(fields.Raw):
    """A document of the bench as a field of an answer."""

    def __init__(self, name: str, **more: Any) -> None:
        super().__init__(**more)
        self.described: JsonObject = {**shape(name)}


def described(_: object, field: fields.Field[Any], **__: Any) -> JsonObject:
    """For apispec: what to say of a field besides."""
    if not isinstance(field, Document):
        return {}
    return {"anyOf": [field.described, {"type": "null"}]} if field.allow_none else {**field.described}


def add_shapes(spec: APISpec) -> None:
    """Put each shape that something refers to among the components, and those that it refers to in turn."""
    whole = spec.to_dict()
    there = set(whole["components"]["schemas"])
    left = sorted(_referred(whole) - there)
    while left:
        name = left.pop()
        schema = _opened(_schema(name))
        spec.components.schema(name, schema)
        there.add(name)
        left += sorted(_referred(schema) - there - set(left))


def _referred(node: object) -> set[str]:
    if isinstance(node, list):
        return {name for each in node for name in _referred(each)}
    if not isinstance(node, dict):
        return set()
    ref = node.get("$ref")
    own = {ref.removeprefix(PLACE)} if isinstance(ref, str) and ref.startswith(PLACE) else set()
    return own | {name for each in node.values() for name in _referred(each)}


def _words(schema: dict[str, Any]) -> list[str]:
    """The words that a tag may be: several, or one alone."""
    return list(schema["enum"]) if "enum" in schema else [schema["const"]]


def _opened(node: Any) -> Any:
    """A schema of the shapes as OpenAPI has it: open, its references to components, of several the one that a tag names."""
    if isinstance(node, list):
        return [_opened(each) for each in node]
    if not isinstance(node, dict):
        return node
    if "allOf" in node:
        (tag,) = node["required"]
        cases = {
            word: _opened(case["then"])
            for case in node["allOf"]
            for word in _words(case["if"]["properties"][tag])
        }
        members = {each["$ref"]: each for each in cases.values()}
        mapping = {word: each["$ref"] for word, each in cases.items()}
        return {
            "oneOf": list(members.values()),
            "discriminator": {"propertyName": tag, "mapping": mapping},
        }
    return {
        key: PLACE + value.rpartition("/")[2] if key == "$ref" else _opened(value)
        for key, value in node.items()
        if (key, value) != ("additionalProperties", False)
    }
