"""JSON Schema (draft 2020-12) of a shape: closed objects, so that a misspelt field is a fault and not silence."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
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


@dataclass(frozen=True, slots=True)
class Form:
    """What `typing` says of a type: its origin (list, Literal, Annotated …) and its parts."""

    origin: object
    parts: tuple[object, ...]

    @property
    def is_union(self) -> bool:
        return self.origin is Union or self.origin is UnionType

    @property
    def items(self) -> object | None:
        """What a list, or a tuple of any length, is of; None when it is neither."""
        any_length = self.origin is tuple and self.parts[1:] == (...,)
        return self.parts[0] if self.origin is list or any_length else None


def form_of(hint: object) -> Form:
    origin: object = get_origin(hint)
    parts: tuple[object, ...] = get_args(hint)
    return Form(origin, parts)


SCALARS: dict[object, str] = {
    str: "string",
    bool: "boolean",
    int: "integer",
    float: "number",
    NoneType: "null",
}


def fields_of(document: object) -> Iterator[tuple[str, object, bool]]:
    """Each field of a TypedDict with its type, and whether it must be there."""
    # What a document inherits is read where it stands, and there JsonValue may have no name.
    here = {"JsonValue": JsonValue}
    hints: dict[str, object] = get_type_hints(document, localns=here, include_extras=True)
    partly: frozenset[str] = getattr(
        document, "__optional_keys__", frozenset()
    )  # of a shape that is not total
    for key, hint in hints.items():
        form = form_of(hint)
        is_said = form.origin is NotRequired
        yield key, form.parts[0] if is_said else hint, not is_said and key not in partly


def words_of(form: Form) -> list[JsonValue]:
    """The words of a Literal."""
    return [each for each in form.parts if each is None or isinstance(each, str | int)]


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
    form = form_of(hint)
    if form.origin is Annotated:
        return _constrained(schema_of(form.parts[0], named), form.parts[1:])
    if form.origin is Literal:
        return _one_of(words_of(form))
    if form.is_union:
        return _tagged(form.parts, named) or {"anyOf": [schema_of(each, named) for each in form.parts]}
    if form.items is not None:
        return {"type": "array", "items": schema_of(form.items, named)}
    if form.origin is tuple:
        return {
            "type": "array",
            "prefixItems": [schema_of(each, named) for each in form.parts],
            "items": False,
        }
    if form.origin is dict:
        keys = schema_of(form.parts[0], named)
        ids: JsonObject = {} if keys == {"type": "string"} else {"propertyNames": keys}
        return {"type": "object", **ids, "additionalProperties": schema_of(form.parts[1], named)}
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


def _one_of(words: list[JsonValue]) -> JsonObject:
    return {"enum": words} if len(words) > 1 else {"const": words[0]}


def _tagged(members: tuple[object, ...], named: Named) -> JsonObject | None:
    """Objects told apart by the words of one field: that field is asked first, then the one object it names."""
    if len(members) < 2 or not all(is_typeddict(each) for each in members):
        return None
    told = [
        {key: words_of(form_of(hint)) for key, hint, _ in fields_of(each) if form_of(hint).origin is Literal}
        for each in members
    ]
    for tag in told[0]:
        words = [word for each in told for word in each.get(tag, [])]
        if all(tag in each for each in told) and len({str(word) for word in words}) == len(words):
            cases: list[JsonValue] = [
                {
                    "if": {"properties": {tag: _one_of(each[tag])}, "required": [tag]},
                    "then": schema_of(member, named),
                }
                for each, member in zip(told, members, strict=True)
            ]
            return {
                "type": "object",
                "required": [tag],
                "properties": {tag: _one_of(words)},
                "allOf": cases,
            }
    return None
