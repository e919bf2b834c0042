"""A JSON Schema's verdict, in the maker's words."""

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Any

from bench.whole import canonical

Json = Any  # until its shape is named

MOST_FAULTS = 50


@cache
def _validator(schema_id: int) -> Any:
    from jsonschema import Draft202012Validator
    from jsonschema.validators import extend

    # JSON Schema calls 12.0 an integer; in Python it is a float, and no float goes further than here.
    whole = Draft202012Validator.TYPE_CHECKER.redefine(
        "integer", lambda _, value: isinstance(value, int) and not isinstance(value, bool)
    )
    return extend(Draft202012Validator, type_checker=whole)(_SCHEMAS[schema_id])


_SCHEMAS: dict[int, Json] = {}


def say_what_is_wrong(document: Any, schema: Json) -> tuple[str, str] | None:
    """Where and what the first fault is, or None. `schema` must be a module's constant."""
    from jsonschema.exceptions import best_match

    _SCHEMAS[id(schema)] = schema
    fault = best_match(_first(_validator(id(schema)).iter_errors(document)), key=_deepest)
    if fault is None:
        try:
            canonical(document).encode()
        except UnicodeEncodeError:
            return "", "A text holds half of a character that nothing can show. Write it again."
        return None
    return ".".join(str(step) for step in fault.absolute_path), _words(fault)


def _first(faults: Iterable[Any]) -> Iterator[Any]:
    """As many faults as it is worth looking for; none after a list that is too long to be read through."""
    for number, fault in enumerate(faults, 1):
        yield fault
        if number == MOST_FAULTS or fault.validator in ("maxItems", "maxProperties"):
            return


def _deepest(fault: Any) -> Any:
    """The first fault in the order of the document reads better than the shallowest."""
    return (-len(fault.absolute_path), fault.validator != "additionalProperties")


def _words(fault: Any) -> str:
    value, limit = fault.instance, fault.validator_value
    match fault.validator:
        case "required":
            missing = [name for name in limit if name not in value]
            return f"“{missing[0]}” is missing. Add it."
        case "additionalProperties":
            known = fault.schema.get("properties", {})
            extra = sorted(str(name) for name in value if name not in known)
            return f"“{extra[0][:40]}” is not known here. It could be {', '.join(known)}."
        case "maxLength":
            return f"This is {len(value)} characters long; {limit} is the most. Shorten it."
        case "minLength":
            return "This is empty. Write something."
        case "maxItems" | "maxProperties":
            return f"There are {len(value)} here; {limit} is the most."
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
            return f"“{str(value)[:40]}” is not known here. It could be {', '.join(str(each) for each in limit)}."
        case "const":
            return f"This should be “{limit}”."
        case "type":
            kinds = {
                "object": "an object",
                "array": "a list",
                "string": "text",
                "integer": "a whole number, without a point",
                "boolean": "true or false",
            }
            return f"This should be {kinds.get(str(limit), str(limit))}."
    return "This does not fit the published shape."
