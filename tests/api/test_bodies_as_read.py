"""What a view reads of a request has one type: the TypedDict beside it has the fields of the schema that loads it."""

from __future__ import annotations

import importlib
import re
from typing import Any, NotRequired, get_origin, get_type_hints, is_typeddict

import pytest
from marshmallow import Schema, missing

import bench
from api import schemas
from tests.servers import ROOT

READ = re.compile(r"`(api\.\w+)\.(\w+)`, read")


def read_shapes() -> list[Any]:
    """Every TypedDict of the API that says which schema it is read by, with that schema."""
    found = []
    for path in sorted((ROOT / "api").rglob("*.py")):
        if (
            "migrations" in path.parts
            or path.name.startswith("__")
            or not READ.search(path.read_text("utf-8"))
        ):
            continue
        module = importlib.import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))
        for shape in vars(module).values():
            named = READ.search(getattr(shape, "__doc__", None) or "") if is_typeddict(shape) else None
            if named and shape.__module__ == module.__name__:
                schema = getattr(importlib.import_module(named[1]), named[2])
                found.append(pytest.param(shape, schema, id=shape.__name__))
    return found


def is_always_there(shape: Any) -> dict[str, bool]:
    """Each field of a TypedDict, and whether it must be there."""
    hints = get_type_hints(shape, include_extras=True)
    # Where hints are text, NotRequired stands in the hint alone.
    return {
        name: name in shape.__required_keys__ and get_origin(hint) is not NotRequired
        for name, hint in hints.items()
    }


@pytest.mark.parametrize(("shape", "schema"), read_shapes())
def test_what_is_read_has_the_fields_of_its_schema(shape: Any, schema: type[Schema]) -> None:
    fields = {
        name: each.required or each.load_default is not missing for name, each in schema().load_fields.items()
    }

    assert is_always_there(shape) == fields


@pytest.mark.parametrize(
    ("shape", "schema"),
    [(bench.Size, schemas.Size), (bench.FrozenSeal, schemas.Sealed)],
)
def test_a_document_of_the_bench_that_is_sent_has_the_fields_of_its_shape(
    shape: Any, schema: type[Schema]
) -> None:
    assert get_type_hints(shape).keys() == schema().load_fields.keys()


def test_enough_shapes_are_read() -> None:
    assert len(read_shapes()) >= 15
