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
from pathlib import Path
from types import ModuleType
from typing import Annotated, ForwardRef, Literal, NamedTuple, is_typeddict

from bench.lists import kept
from bench.shapes.schema import SCALARS, fields_of, form_of, schema_of
from bench.shapes.units import JsonObject

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
    "delivery",
    "pieces",
    "buying",
    "product",
    "planning",
    "week",
    "figures",
    "outcomes",
)
FOLDER = Path(__file__).parent

_FOR_THE_PAGE = {"integer": "number"}
_UNKNOWN = (
    "export type JsonValue =\n  | null\n  | boolean\n  | number\n  | string\n"
    "  | readonly JsonValue[]\n  | JsonObject;\n\n"
    "export type JsonObject = { readonly [key: string]: JsonValue };\n"
)


class Shapes:
    """Every shape of the modules that there are: the documents by module, and aliases by what they stand for."""

    def __init__(self) -> None:
        self.defined: dict[str, dict[str, object]] = {name: {} for name in MODULES}
        self.home: dict[str, str] = {}
        self.named: dict[object, str] = {}
        for name in MODULES:
            for key, value in _names_of(name).items():
                if not key.startswith("_"):
                    self._take(name, key, value)

    def _take(self, module: str, key: str, value: object) -> None:
        if is_typeddict(value):
            if getattr(value, "__module__", "") != f"bench.shapes.{module}":
                return  # imported from where it is defined
        elif not _is_alias(value) or value in self.named:
            return
        if key in self.home:
            raise ValueError(f"{key} is defined in {self.home[key]} and in {module}. Rename one.")
        self.defined[module][key] = value
        self.home[key] = module
        self.named[value] = key

    def schemas(self) -> dict[str, dict[str, JsonObject]]:
        """By module and name; they refer to each other by "#/module/Name"."""

        def reference(hint: object) -> str | None:
            name = self.named.get(hint)
            return f"#/{self.home[name]}/{name}" if name else None

        return {
            module: {
                key: _described(value, schema_of(value, reference, own=True))
                for key, value in defined.items()
            }
            for module, defined in self.defined.items()
        }

    def page(self) -> str:
        parts = [
            "// Written by `python -m bench.shapes.write` from bench/shapes/*.py: change those, and write it again.\n"
        ]
        for name in MODULES:
            parts.append(f"// bench/shapes/{name}.py\n")
            parts += [_UNKNOWN] if name == "units" else []
            parts += [self._declared(key, value) for key, value in self.defined[name].items()]
        return "\n".join(parts)

    def _declared(self, name: str, value: object) -> str:
        if not is_typeddict(value):
            form = form_of(value)
            notes = [each for each in form.parts[1:] if isinstance(each, str)]
            return (
                _comment(notes[0] if form.origin is Annotated and notes else "")
                + f"export type {name} = {self._ts(value, own=True)};\n"
            )
        notes_of = _notes(value)
        doc = (value.__doc__ or "").split("\n", 1)[0]
        extended = self._extended(value)
        theirs = {key: field for base in extended for key, *field in fields_of(base)}
        bases = f" extends {', '.join(self.named[base] for base in extended)}" if extended else ""
        out = [_comment("" if doc.startswith("dict(") else doc), f"export interface {name}{bases} {{\n"]
        for key, hint, needed in fields_of(value):
            if theirs.get(key) == [hint, needed]:
                continue
            out.append(_comment(notes_of.get(key, ""), "  "))
            out.append(f"  readonly {key}{'' if needed else '?'}: {self._ts(hint)};\n")
        return "".join(out) + "}\n"

    def _extended(self, document: object) -> list[object]:
        """The shapes that one extends and that have a name here; a private one's fields are written out."""
        found: list[object] = []
        for base in _bases(document):
            found += [base] if base in self.named else self._extended(base)
        return found

    def _ts(self, hint: object, own: bool = False) -> str:
        """A type as the page's checker reads it. own: say what an alias stands for, not its name."""
        if not own and hint in self.named:
            return self.named[hint]
        if hint in SCALARS:
            return _FOR_THE_PAGE.get(SCALARS[hint], SCALARS[hint])
        if isinstance(hint, ForwardRef) or hint is object:
            return "JsonValue"
        form = form_of(hint)
        if form.origin is Annotated:
            return self._ts(form.parts[0])
        if form.origin is Literal:
            return " | ".join(json.dumps(each, ensure_ascii=False) for each in form.parts)
        if form.is_union:
            return " | ".join(dict.fromkeys(self._ts(each) for each in form.parts))
        if form.items is not None:
            inner = self._ts(form.items)
            is_plain = " | " not in inner and not inner.startswith("readonly ")
            return f"readonly {inner}[]" if is_plain else f"readonly ({inner})[]"
        if form.origin is tuple:
            return f"readonly [{', '.join(self._ts(each) for each in form.parts)}]"
        if form.origin is dict:
            return f"{{ readonly [key: string]: {self._ts(form.parts[1])} }}"
        raise ValueError(f"{hint} has no place in a document.")


def _names_of(module: str) -> dict[str, object]:
    """What a module names; nothing where it is still to come."""
    if not (FOLDER / f"{module}.py").exists():
        return {}
    names: dict[str, object] = vars(importlib.import_module(f"bench.shapes.{module}"))
    return names


def _is_alias(value: object) -> bool:
    form = form_of(value)
    return form.is_union or form.origin is Annotated or form.origin is Literal


def _described(document: object, schema: JsonObject) -> JsonObject:
    """The schema of a shape with the comments behind its fields."""
    fields = schema.get("properties")
    if not is_typeddict(document) or not isinstance(fields, dict):
        return schema
    notes_of = _notes(document)
    described: JsonObject = {
        key: {**field, "description": notes_of[key]} if key in notes_of and isinstance(field, dict) else field
        for key, field in fields.items()
    }
    return {**schema, "properties": described}


def _comment(note: str, margin: str = "") -> str:
    return f"{margin}/** {note} */\n" if note else ""


def _bases(document: object) -> list[object]:
    """The shapes that a shape extends. Python 3.11 keeps them nowhere but in its source."""
    name: str = getattr(document, "__name__", "")
    module = inspect.getmodule(document)
    bases: list[object] = [
        getattr(module, base.id, None)
        for node in _source(module).tree.body
        if isinstance(node, ast.ClassDef) and node.name == name
        for base in node.bases
        if isinstance(base, ast.Name)
    ]
    return [base for base in bases if is_typeddict(base)]


class Source(NamedTuple):
    rows: list[str]
    tree: ast.Module


@kept
def _source(module: ModuleType | None) -> Source:
    text = inspect.getsource(module) if module else ""
    return Source(text.splitlines(), ast.parse(text))


def _notes(document: object) -> dict[str, str]:
    """The comments behind the fields of a TypedDict, and of those it extends."""
    found: dict[str, str] = {}
    for base in _bases(document):
        found |= _notes(base)
    rows, tree = _source(inspect.getmodule(document))
    for node in tree.body:
        for key, line in _rows(node, getattr(document, "__name__", "")):
            _, marked, note = rows[line - 1].partition("  # ")
            if marked:
                found[key] = note.strip()
    return found


def _rows(node: ast.stmt, name: str) -> list[tuple[str, int]]:
    """The fields of a TypedDict of this name with the rows on which they end, in either way to write one."""
    match node:
        case ast.ClassDef(name=found, body=body) if found == name:
            return [
                (target.id, end)
                for each in body
                if isinstance(each, ast.AnnAssign)
                if isinstance(target := each.target, ast.Name) and (end := each.end_lineno)
            ]
        case ast.Assign(
            targets=[ast.Name(id=found)], value=ast.Call(args=[_, ast.Dict(keys=keys, values=values)])
        ) if found == name:
            return [
                (str(key.value), end)
                for key, value in zip(keys, values, strict=True)
                if isinstance(key, ast.Constant) and (end := value.end_lineno)
            ]
    return []


def written() -> dict[str, str]:
    """What the files should hold, by name."""
    shapes = Shapes()
    modules = []
    for name, defined in shapes.schemas().items():
        told = [f"{json.dumps(key)}: {_spread(each)}" for key, each in defined.items()]
        # A module without shapes has its place all the same: what is added to one leaves the others' lines alone.
        modules.append(f'"{name}": {{\n' + ",\n".join(told) + "\n}")
    head = '{\n"$schema": "https://json-schema.org/draft/2020-12/schema",\n'
    return {
        "page.d.ts": shapes.page(),
        "schemas.json": head + ",\n".join(modules) + "\n}\n",
    }


def _spread(schema: JsonObject) -> str:
    return json.dumps(schema, ensure_ascii=False, indent=1)


if __name__ == "__main__":
    for name, text in written().items():
        (FOLDER / name).write_text(text, encoding="utf-8")
