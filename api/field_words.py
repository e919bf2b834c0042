"""What marshmallow says of a field, in our words and in the language of the request.

It holds a text for each fault from the moment a schema is made, and fills it in when it finds one. So it is given
texts that are looked up then, in the places that it leaves for others' texts (`default_error_messages`).
"""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields, validate

from bench import words


class Said(str):
    """How a message's key ends, after "api-fields-". It is worded when it is filled in or said."""

    __slots__ = ()

    def format(self, *_: object, **values: Any) -> str:
        # A range fills its own in twice, first when it is made.
        if values.keys() & {"min_op", "max_op"}:
            return self
        return words.say(f"api-fields-{self[:]}", **values)

    def __str__(self) -> str:
        return self.format()


OF_FIELDS: dict[type[fields.Field[Any]], dict[str, str]] = {
    fields.Field: {"required": "missing", "null": "null", "validator_failed": "unusable"},
    fields.Nested: {"type": "object"},
    fields.List: {"invalid": "list"},
    fields.String: {"invalid": "text", "invalid_utf8": "text"},
    fields.UUID: {"invalid_uuid": "uuid"},
    fields.Number: {"invalid": "number", "too_large": "number"},
    fields.Integer: {"invalid": "whole"},
    fields.Float: {"special": "number"},
    fields.Boolean: {"invalid": "flag"},
    fields.DateTime: {"invalid": "date", "invalid_awareness": "date", "format": "date"},
    fields.Date: {"invalid": "date", "format": "date"},
    fields.Dict: {"invalid": "object"},
}
OF_VALIDATORS: dict[type[validate.Validator], dict[str, str]] = {
    validate.Range: {"message_min": "least", "message_max": "most", "message_all": "between"},
    validate.Length: {
        "message_min": "shortest",
        "message_max": "longest",
        "message_all": "length",
        "message_equal": "exactly",
    },
    validate.Equal: {"default_message": "equal"},
    validate.OneOf: {"default_message": "one-of"},
    validate.Regexp: {"default_message": "pattern"},
}


def put_in() -> None:
    """Before the first schema is made."""
    for kind, faults in OF_FIELDS.items():
        said = {name: Said(code) for name, code in faults.items()}
        kind.default_error_messages = {**getattr(kind, "default_error_messages", {}), **said}
    for validator, faults in OF_VALIDATORS.items():
        for name, code in faults.items():
            setattr(validator, name, Said(code))
    Schema.error_messages = {"type": Said("object"), "unknown": Said("unknown")}
