"""JSON Schema (draft 2020-12) of a shape: closed objects, so that a misspelt field is a fault and not silence."""

from collections.abc import Callable, Iterator
from types import NoneType, UnionType
from typing import (
    Annotated,
    ForwardRef,
    Literal,
    NotRequired,
    TypeAlias,
    Union,
    get_args,
    get_origin,
    get_type_hints,
    is_typeddict,
)

from bench.shapes.units import JsonObject, JsonValue, Many, Pattern, Text, Within

Named: TypeAlias = Callable[[object], str | None]

SCALARS: dict[object, str] = {
    str: "string",
    bool: "boolean",
    int: "integer",
    float: "number",
    NoneType: "null",
}
UNIONS = (Union, UnionType)


def fields_of(document: object) -> Iterator[tuple[str, object, bool]]:
    """Each field of a TypedDict with its type, and whether it must be there."""
    # What a document inherits is read where it stands, and there JsonValue may have no name.
    here = {"JsonValue": JsonValue}
    hints: dict[str, object] = get_type_hints(document, localns=here, include_extras=True)
    for key, hint in hints.items():
        if get_origin(hint) is NotRequired:
            yield key, get_args(hint)[0], False
        else:
            yield key, hint, True


def items_of(hint: object) -> object | None:
    """What a list, or a tuple of any length, is of; None when it is neither."""
    origin, parts = get_origin(hint), get_args(hint)
    return parts[0] if origin is list or (origin is tuple and parts[1:] == (...,)) else None


def schema_of(hint: object, named: Named = lambda _: None, own: bool = False) -> JsonObject:
    """named: where else this type is defined, to be referred to; None to write it out here.
    own: this is that definition."""
    reference = None if own else named(hint)
    if reference:
        return {"$ref": reference}
    if hint in SCALARS:
        return {"type": SCALARS[hint]}
    if isinstance(hint, ForwardRef) or hint is object:
        return {}
    if is_typeddict(hint):
        return _object(hint, named)
    origin, parts = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _constrained(schema_of(parts[0], named), parts[1:])
    if origin is Literal:
        return {"enum": list(parts)} if len(parts) > 1 else {"const": parts[0]}
    if origin in UNIONS:
        return _tagged(parts, named) or {"anyOf": [schema_of(each, named) for each in parts]}
    items = items_of(hint)
    if items is not None:
        return {"type": "array", "items": schema_of(items, named)}
    if origin is tuple:
        return {"type": "array", "prefixItems": [schema_of(each, named) for each in parts], "items": False}
    if origin is dict:
        keys = schema_of(parts[0], named)
        ids = {} if keys == {"type": "string"} else {"propertyNames": keys}
        return {"type": "object", **ids, "additionalProperties": schema_of(parts[1], named)}
    raise ValueError(f"{hint} has no place in a document.")


def _object(document: object, named: Named) -> JsonObject:
    fields = list(fields_of(document))
    return {
        "type": "object",
        "required": [key for key, _, needed in fields if needed],
        "properties": {key: schema_of(hint, named) for key, hint, _ in fields},
        "additionalProperties": False,
    }


def _constrained(schema: JsonObject, marks: tuple[object, ...]) -> JsonObject:
    for mark in marks:
        match mark:
            case str():
                schema = {**schema, "description": mark}
            case Text(most, least):
                schema = {**schema, "minLength": least, "maxLength": most}
            case Within(least, most):
                schema = {**schema, "minimum": least, "maximum": most}
            case Pattern(regex):
                schema = {**schema, "pattern": regex}
            case Many(most, least):
                # How many there are is asked before what they are: one that is too long is not read through.
                what = "Items" if schema["type"] == "array" else "Properties"
                schema = {"type": schema["type"], f"max{what}": most, f"min{what}": least, **schema}
    return schema


def _tagged(members: tuple[object, ...], named: Named) -> JsonObject | None:
    """Objects told apart by the words of one field: that field is asked first, then the one object it names."""
    if len(members) < 2 or not all(is_typeddict(each) for each in members):
        return None
    told = [
        {key: get_args(hint) for key, hint, _ in fields_of(each) if get_origin(hint) is Literal}
        for each in members
    ]
    for tag in told[0]:
        words = [word for each in told for word in each.get(tag, ())]
        if all(tag in each for each in told) and len(set(words)) == len(words):
            cases: list[JsonValue] = [
                {
                    "if": {"properties": {tag: {"enum": list(each[tag])}}, "required": [tag]},
                    "then": schema_of(member, named),
                }
                for each, member in zip(told, members, strict=True)
            ]
            return {
                "type": "object",
                "required": [tag],
                "properties": {tag: {"enum": list(words)}},
                "allOf": cases,
            }
    return None
