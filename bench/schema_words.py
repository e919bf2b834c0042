"""A JSON Schema's verdict, in the maker's words."""

from collections.abc import Callable, Iterable, Iterator, Sized
from typing import Protocol, cast

from bench.shapes.units import JsonObject
from bench.whole import canonical
from bench.words import say

MOST_FAULTS = 50


class Fault(Protocol):
    """What is read of a fault that jsonschema finds."""

    @property
    def validator(self) -> str: ...
    @property
    def validator_value(self) -> object: ...
    @property
    def instance(self) -> object: ...
    @property
    def schema(self) -> JsonObject: ...
    @property
    def absolute_path(self) -> Iterable[str | int]: ...


Faults = Callable[[object], Iterable[Fault]]

_FAULTS: dict[int, Faults] = {}


def _faults_of(schema: JsonObject) -> Faults:
    """What finds the faults of documents of this schema; kept, since making it takes long."""
    if id(schema) not in _FAULTS:
        from jsonschema import Draft202012Validator
        from jsonschema.validators import extend

        # JSON Schema calls 12.0 an integer; in Python it is a float, and no float goes further than here.
        whole = Draft202012Validator.TYPE_CHECKER.redefine(
            "integer", lambda _, value: isinstance(value, int) and not isinstance(value, bool)
        )
        _FAULTS[id(schema)] = cast(
            Faults, extend(Draft202012Validator, type_checker=whole)(schema).iter_errors
        )
    return _FAULTS[id(schema)]


def say_what_is_wrong(document: object, schema: JsonObject) -> tuple[str, str] | None:
    """Where and what the first fault is, or None. `schema` must be a module's constant."""
    from jsonschema.exceptions import best_match

    fault = cast(Fault | None, best_match(_first(_faults_of(schema)(document)), key=_deepest))
    if fault is None:
        try:
            canonical(document).encode()
        except UnicodeEncodeError:
            return "", say("schema-half-character")
        return None
    path = [str(step) for step in fault.absolute_path]
    missing = (
        _names(fault.validator_value, besides=fault.instance)[:1] if fault.validator == "required" else []
    )
    return ".".join([*path, *missing]), _words(fault)


def _first(faults: Iterable[Fault]) -> Iterator[Fault]:
    """As many faults as it is worth looking for; none after a list that is too long to be read through."""
    for number, fault in enumerate(faults, 1):
        yield fault
        if number == MOST_FAULTS or fault.validator in ("maxItems", "maxProperties"):
            return


def _deepest(fault: Fault) -> tuple[int, bool]:
    """The first fault in the order of the document reads better than the shallowest."""
    return (-len(list(fault.absolute_path)), fault.validator != "additionalProperties")


def _words(fault: Fault) -> str:
    value, limit = fault.instance, fault.validator_value
    many = len(value) if isinstance(value, Sized) else 0
    match fault.validator:
        case "required":
            return say("schema-missing", name=_names(limit, besides=value)[0])
        case "additionalProperties":
            known = _names(fault.schema.get("properties"))
            extra = sorted(_names(value, besides=known))
            return say("schema-unknown", name=extra[0][:40], could=", ".join(known))
        case "maxLength":
            return say("schema-too-long", count=many, most=_whole(limit))
        case "minLength":
            return say("schema-empty")
        case "maxItems" | "maxProperties":
            return say("schema-too-many", count=many, most=_whole(limit))
        case "minItems" | "minProperties":
            return say("schema-too-few", least=_whole(limit))
        case "minimum":
            return say("schema-too-small", written=str(value), least=_whole(limit))
        case "maximum":
            return say("schema-too-large", written=str(value), most=_whole(limit))
        case "pattern":
            return say("schema-not-an-id", written=str(value)[:40])
        case "enum":
            return say("schema-unknown", name=str(value)[:40], could=", ".join(_names(limit)))
        case "const":
            return say("schema-not-this", wanted=str(limit))
        case "type":
            return say("schema-type", type=str(limit))
    return say("schema-misfit")


def _whole(limit: object) -> int | str:
    return limit if isinstance(limit, int) else str(limit)


def _names(holder: object, besides: object = ()) -> list[str]:
    """The keys of an object or the words of a list, those in another left out."""
    left_out: set[object] = set(besides) if isinstance(besides, dict | list) else set()
    return [str(each) for each in holder if each not in left_out] if isinstance(holder, dict | list) else []
