"""Writes the shapes out: `page.d.ts` for the type check of the page, `schemas.json` as JSON Schema (2020-12).

    python -m bench.shapes.write

One walk over the TypedDicts of the modules below gives both. The two files are written in the order of
`MODULES`, so that changes in different modules seldom meet; where they do, run it again and take what it wrote.
No page loads `page.d.ts`. A comment behind a field here is a comment over it there.
"""

import ast
import importlib
import inspect
import json
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType, NoneType, UnionType
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

MODULES = (
    "units",
    "recipe",
    "kit",
    "sheet",
    "entries",
    "state",
    "prompts",
    "record",
    "shelf",
    "planning",
)
FOLDER = Path(__file__).parent

Schema: TypeAlias = (
    "dict[str, str | bool | Schema | list[Schema] | list[str] | list[str | int | bool | None]]"
)
Scalar: TypeAlias = "str | int | bool | None"

_SCALARS: dict[object, tuple[str, str]] = {
    str: ("string", "string"),
    bool: ("boolean", "boolean"),
    int: ("number", "integer"),
    float: ("number", "number"),
    NoneType: ("null", "null"),
}
_UNKNOWN = (
    "export type JsonValue =\n  | null\n  | boolean\n  | number\n  | string\n"
    "  | readonly JsonValue[]\n  | { readonly [key: string]: JsonValue };\n"
)


class Shapes:
    """Every shape of the modules that there are: by module the documents, and by value the names of aliases."""

    def __init__(self) -> None:
        self.modules = {name: _module(name) for name in MODULES}
        self.documents: dict[str, dict[str, type]] = {name: {} for name in MODULES}
        self.aliases: dict[str, dict[str, object]] = {name: {} for name in MODULES}
        self.home: dict[str, str] = {}
        self.named: dict[object, str] = {}
        for name, module in self.modules.items():
            for key, value in vars(module).items() if module else ():
                self._take(name, key, value)

    def _take(self, module: str, key: str, value: object) -> None:
        if key.startswith("_") or key == "JsonValue":
            return
        if is_typeddict(value) and isinstance(value, type):
            if value.__module__ == f"bench.shapes.{module}":
                if key in self.home:
                    raise ValueError(
                        f"{key} is defined in {self.home[key]} and in {module}. Name one otherwise."
                    )
                self.documents[module][key] = value
                self.home[key] = module
        elif get_origin(value) in (Annotated, Literal, Union, UnionType) and value not in self.named:
            self.aliases[module][key] = value
            self.named[value] = key

    # The page's types

    def page(self) -> str:
        parts = [
            "// Written by `python -m bench.shapes.write` from bench/shapes/*.py: change those, and write it again.\n"
        ]
        for name in MODULES:
            parts.append(f"// bench/shapes/{name}.py\n")
            parts += [_UNKNOWN] if name == "units" else []
            for key, value in self.aliases[name].items():
                parts.append(_noted(value) + f"export type {key} = {self.ts(value, own=True)};\n")
            parts += [self._interface(key, document) for key, document in self.documents[name].items()]
        return "\n".join(parts)

    def _interface(self, name: str, document: type) -> str:
        notes = _notes(document)
        out = [f"/** {note} */\n" if (note := _first_line(document)) else "", f"export interface {name} {{\n"]
        for key, hint, needed in _fields(document):
            out.append(f"  /** {notes[key]} */\n" if key in notes else "")
            out.append(f"  readonly {key}{'' if needed else '?'}: {self.ts(hint)};\n")
        return "".join(out) + "}\n"

    def ts(self, hint: object, own: bool = False) -> str:
        """own: say what an alias stands for, not its name."""
        if hint in _SCALARS:
            return _SCALARS[hint][0]
        if not own and hint in self.named:
            return self.named[hint]
        if isinstance(hint, ForwardRef) or hint is object:
            return "JsonValue"
        if is_typeddict(hint) and isinstance(hint, type):
            return hint.__name__
        origin, parts = get_origin(hint), get_args(hint)
        if origin is Annotated:
            return self.ts(parts[0])
        if origin is Literal:
            return " | ".join(json.dumps(each, ensure_ascii=False) for each in parts)
        if origin in (Union, UnionType):
            return " | ".join(dict.fromkeys(self.ts(each) for each in parts))
        if origin is list or (origin is tuple and parts[1:] == (...,)):
            inner = self.ts(parts[0])
            return f"readonly ({inner})[]" if " | " in inner else f"readonly {inner}[]"
        if origin is tuple:
            return f"readonly [{', '.join(self.ts(each) for each in parts)}]"
        if origin is dict:
            return f"{{ readonly [key: string]: {self.ts(parts[1])} }}"
        raise ValueError(f"{hint} has no place in a document.")

    # JSON Schema

    def schemas(self) -> dict[str, dict[str, Schema]]:
        """By module, each document's schema and each alias's; they refer to each other by "#/module/Name"."""
        return {
            name: {key: self.schema(value, own=True) for key, value in self.aliases[name].items()}
            | {key: self._object(document) for key, document in self.documents[name].items()}
            for name in MODULES
        }

    def _object(self, document: type) -> Schema:
        fields = list(_fields(document))
        return {
            "type": "object",
            "required": [key for key, _, needed in fields if needed],
            "properties": {key: self.schema(hint) for key, hint, _ in fields},
            "additionalProperties": False,
        }

    def schema(self, hint: object, own: bool = False) -> Schema:
        if hint in _SCALARS:
            return {"type": _SCALARS[hint][1]}
        if not own and hint in self.named:
            name = self.named[hint]
            module = next(each for each in MODULES if name in self.aliases[each])
            return {"$ref": f"#/{module}/{name}"}
        if isinstance(hint, ForwardRef) or hint is object:
            return {}
        if is_typeddict(hint) and isinstance(hint, type):
            return {"$ref": f"#/{self.home[hint.__name__]}/{hint.__name__}"}
        origin, parts = get_origin(hint), get_args(hint)
        if origin is Annotated:
            return self.schema(parts[0]) | {"description": str(parts[1])}
        if origin is Literal:
            return {"enum": list(parts)}
        if origin in (Union, UnionType):
            return {"anyOf": [self.schema(each) for each in parts]}
        if origin is list or (origin is tuple and parts[1:] == (...,)):
            return {"type": "array", "items": self.schema(parts[0])}
        if origin is tuple:
            return {"type": "array", "prefixItems": [self.schema(each) for each in parts], "items": False}
        if origin is dict:
            return {"type": "object", "additionalProperties": self.schema(parts[1])}
        raise ValueError(f"{hint} has no place in a document.")


def _module(name: str) -> ModuleType | None:
    return importlib.import_module(f"bench.shapes.{name}") if (FOLDER / f"{name}.py").exists() else None


def _fields(document: type) -> Iterator[tuple[str, object, bool]]:
    """Each field with its type and whether it must be there."""
    hints: dict[str, object] = get_type_hints(document, include_extras=True)
    for key, hint in hints.items():
        if get_origin(hint) is NotRequired:
            yield key, get_args(hint)[0], False
        else:
            yield key, hint, True


def _noted(alias: object) -> str:
    return f"/** {get_args(alias)[1]} */\n" if get_origin(alias) is Annotated else ""


def _first_line(document: type) -> str:
    note = document.__doc__ or ""
    return note.split("\n", 1)[0].strip() if not note.startswith("dict(") else ""


def _notes(document: type) -> dict[str, str]:
    """The comments behind the fields of a TypedDict, and of those it extends."""
    found: dict[str, str] = {}
    for base in getattr(document, "__orig_bases__", ()):
        found |= _notes(base) if is_typeddict(base) else {}
    module = inspect.getmodule(document)
    source = inspect.getsource(module) if module else ""
    rows = source.splitlines()
    for node in ast.walk(ast.parse(source)):
        fields: list[tuple[str, int]] = []
        if isinstance(node, ast.ClassDef) and node.name == document.__name__:
            fields = [
                (each.target.id, each.end_lineno or 0)
                for each in node.body
                if isinstance(each, ast.AnnAssign) and isinstance(each.target, ast.Name)
            ]
        if (
            isinstance(node, ast.Assign)
            and isinstance(node.targets[0], ast.Name)
            and isinstance(node.value, ast.Call)
        ):
            shape = node.value.args[1] if len(node.value.args) > 1 else None
            if node.targets[0].id == document.__name__ and isinstance(shape, ast.Dict):
                fields = [
                    (str(key.value), value.end_lineno or 0)
                    for key, value in zip(shape.keys, shape.values, strict=True)
                    if isinstance(key, ast.Constant)
                ]
        for key, line in fields:
            _, marked, note = rows[line - 1].partition("  # ")
            if marked:
                found[key] = note.strip()
    return found


def written() -> dict[str, str]:
    """What the two files should hold, by name."""
    shapes = Shapes()
    defined = shapes.schemas()
    # A module without shapes has its place all the same: what is added to one leaves the others' lines alone.
    told = ",\n".join(
        f'"{name}": {{\n'
        + ",\n".join(
            f" {json.dumps(key)}: {json.dumps(each, ensure_ascii=False, indent=1)}"
            for key, each in defined[name].items()
        )
        + "\n}"
        for name in MODULES
    )
    return {
        "page.d.ts": shapes.page(),
        "schemas.json": f'{{\n"$schema": "https://json-schema.org/draft/2020-12/schema",\n{told}\n}}\n',
    }


if __name__ == "__main__":
    for name, text in written().items():
        (FOLDER / name).write_text(text, encoding="utf-8")
