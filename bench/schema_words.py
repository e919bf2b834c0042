"""A JSON Schema's verdict, in the maker's words."""

from collections.abc import Callable, Iterable, Iterator, Sized
from typing import Protocol, cast

from bench.shapes.units import JsonObject
from bench.whole import canonical

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
            return "", "A text holds half of a character that nothing can show. Write it again."
        return None
    return ".".join(str(step) for step in fault.absolute_path), _words(fault)


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
            return f"“{_names(limit, besides=value)[0]}” is missing. Add it."
        case "additionalProperties":
            known = _names(fault.schema.get("properties"))
            extra = sorted(_names(value, besides=known))
            return f"“{extra[0][:40]}” is not known here. It could be {', '.join(known)}."
        case "maxLength":
            return f"This is {many} characters long; {limit} is the most. Shorten it."
        case "minLength":
            return "This is empty. Write something."
        case "maxItems" | "maxProperties":
            return f"There are {many} here; {limit} is the most."
        case "minItems" | "minProperties":
            return f"There are too few here; {limit} is the least."
        case "minimum":
            return f"{value} is too small; {limit} is the least."
        case "maximum":
            return f"{value} is too large; {limit} is the most."
        case "pattern":
            return (
                f"“{str(value)[:40]}” does not fit. Use small letters, digits and _, beginning with a letter."
            )
        case "enum":
            return f"“{str(value)[:40]}” is not known here. It could be {', '.join(_names(limit))}."
        case "const":
            return f"This should be “{limit}”."
        case "type":
            return f"This should be {_TYPES.get(str(limit), str(limit))}."
    return "This does not fit the published shape."


_TYPES = {
    "object": "an object",
    "array": "a list",
    "string": "text",
    "integer": "a whole number, without a point",
    "boolean": "true or false",
}


def _names(holder: object, besides: object = ()) -> list[str]:
    """The keys of an object or the words of a list, those in another left out."""
    left_out = set(besides) if isinstance(besides, dict | list) else set()
    return [str(each) for each in holder if each not in left_out] if isinstance(holder, dict | list) else []
