"""What the bench says, described in OpenAPI from the bench's own shapes, so that there is one truth about it.

    @blueprint.response(200, shape("KeptPlan"))        an answer that is a document of the bench
    sheet = Document("Sheet", required=True)           such a document inside an answer of the API's own

Each shape that is referred to becomes a component of that name. A later bench may say more, so what is closed in
`bench/shapes/schemas.json` is open here.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from apispec import APISpec
from marshmallow import fields

import bench

Json = dict[str, Any]

PLACE = "#/components/schemas/"


@cache
def _schemas() -> dict[str, Json]:
    """Each shape by its name; a name is that of one shape in all of the bench."""
    text = (Path(bench.__file__).parent / "shapes" / "schemas.json").read_text(encoding="utf-8")
    return {
        name: schema
        for module in json.loads(text).values()
        if isinstance(module, dict)
        for name, schema in module.items()
    }


def shape(name: str) -> dict[str, str]:
    """The description of an answer, or of a part of it, that is this shape of the bench."""
    if name not in _schemas():
        raise LookupError(f"The bench has no shape {name}. See bench/shapes.")
    return {"$ref": PLACE + name}


class Document(fields.Raw):
    """A document of the bench as a field of an answer."""

    def __init__(self, name: str, **more: Any) -> None:
        super().__init__(**more)
        self.described = shape(name)


def described(_: object, field: fields.Field[Any], **__: Any) -> Json:
    """For apispec: what to say of a field besides."""
    if not isinstance(field, Document):
        return {}
    return {"anyOf": [field.described, {"type": "null"}]} if field.allow_none else {**field.described}


def add_shapes(spec: APISpec) -> None:
    """Put each shape that something refers to among the components, and those that it refers to in turn."""
    told: Json = spec.to_dict()
    there = set(told["components"]["schemas"])
    left = sorted(_referred(told) - there)
    while left:
        name = left.pop()
        schema = _opened(_schemas()[name])
        spec.components.schema(name, schema)
        there.add(name)
        left += sorted(_referred(schema) - there - set(left))


def _referred(node: Any) -> set[str]:
    if isinstance(node, list):
        return {name for each in node for name in _referred(each)}
    if not isinstance(node, dict):
        return set()
    ref = node.get("$ref")
    own = {ref.removeprefix(PLACE)} if isinstance(ref, str) and ref.startswith(PLACE) else set()
    return own | {name for each in node.values() for name in _referred(each)}


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
            for word in case["if"]["properties"][tag]["enum"]
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
