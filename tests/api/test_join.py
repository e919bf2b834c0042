"""Modules joined into one mean what they mean one by one, and what would not is refused."""

from __future__ import annotations

import re
from typing import Any

import pytest

from api.join import LATER, CannotJoin, asked_later, imports_of, in_order, joined, later_of, name_of
from api.page import files_as_they_are, pieces_of, slim
from api.places import FRONTEND

MODULES = sorted(path.relative_to(FRONTEND).as_posix() for path in FRONTEND.rglob("*.js"))
BY_ITSELF = {"early.js", "oldest.js", "sw.js"}
JOINED = [path for path in MODULES if path not in BY_ITSELF]
NAMES = {"$version", "$rest", "$online", "$asked", "$times", *map(name_of, JOINED)}


def source(path: str) -> str:
    return (FRONTEND / path).read_text("utf-8")


def of(**modules: str) -> Any:
    return lambda path: modules[path.removesuffix(".js").replace("/", "_")]


def test_imports_exports_and_what_is_asked_for_later_are_joined_in_order() -> None:
    read = of(
        app='import {\n  one,\n  two as second,\n} from "./parts/b.js";\nimport * as all from "./a.js";\n'
        'export function begin() {\nreturn import("./later.js");\n}\nconst here = import.meta.url;\n',
        parts_b='import "../a.js";\nexport const one = 1;\nexport { three as two } from "../a.js";\n',
        a="export class Three {}\nexport async function* three() {}\nexport function*four(){}\n",
        later='export * from "./a.js";\nexport const again = () => import("./parts/b.js");\n',
    )

    assert in_order(read, ["app.js"]) == ["a.js", "parts/b.js", "app.js"]
    assert asked_later(read, ["a.js", "parts/b.js", "app.js"]) == ["later.js"]
    assert joined(read, ["a.js", "parts/b.js", "app.js"], ["a.js"], lambda name: f'$rest("{name}")') == (
        "export const $a=(()=>{class Three {}\nasync function* three() {}\nfunction*four(){}\nreturn{Three,three,four};\n})();\n"
        "export const $parts_b=(()=>{const one = 1;\nreturn{two:$a.three,one};\n})();\n"
        "export const $app=(()=>{const{one,two:second}=$parts_b;\nconst all=$a;\n"
        'function begin() {\nreturn $rest("$later");\n}\nconst here = new URL("app.js", import.meta.url).href;\n'
        "return{begin};\n})();\n"
    )
    assert joined(read, ["later.js"], ["parts/b.js"], str) == (
        "export const $later=(()=>{const again = () => Promise.resolve($parts_b);\n"
        "return{...$a,again};\n})();\n"
    )


def test_what_is_given_under_another_name_is_joined_where_it_stays_what_it_is() -> None:
    read = of(a="const e = 1;\nexport { e as one };\n", b='import { one as e } from "./a.js";\n')

    assert joined(read, ["a.js", "b.js"], [], str) == (
        "export const $a=(()=>{const e = 1;\nreturn{one:e};\n})();\n"
        "export const $b=(()=>{const{one:e}=$a;\nreturn{};\n})();\n"
    )


@pytest.mark.parametrize(
    "line",
    [
        "export default 1;",
        "export let counted = 0;",
        "export var old = 0;",
        "export { counted };",
        "export const { one, two } = both;",
        'import one from "./a.js";',
        'import "elsewhere";',
        "const { origin } = import.meta;",
        "const asked = (path) => import(path);",
    ],
)
def test_what_would_mean_something_else_when_joined_is_refused(line: str) -> None:
    with pytest.raises(CannotJoin, match="^b.js cannot be joined with others: "):
        joined(of(b=f"let counted = 0;\n{line}\n"), ["b.js"], [], str)


def test_modules_in_a_circle_are_refused() -> None:
    read = of(a='import { b } from "./b.js";\n', b='import { a } from "./a.js";\n')

    with pytest.raises(CannotJoin, match=re.escape("a.js > b.js > a.js")):
        in_order(read, ["a.js"])


def test_a_module_waits_for_nothing_as_it_runs_and_leaves_the_names_of_modules_alone() -> None:
    waits = re.compile(r"^(?:(?:export )?(?:const|let) .*= )?await\b|^for await", re.MULTILINE)
    text = {path: source(path) for path in JOINED}

    assert [path for path in JOINED if waits.search(text[path])] == []
    assert {path: taken for path in JOINED if (taken := {*re.findall(r"\$\w+", text[path])} & NAMES)} == {}


def test_every_import_of_a_module_is_seen() -> None:
    unseen = {}
    for path in JOINED:
        text = slim(FRONTEND / path).decode()
        named = re.findall(r'(?:\bfrom|^import|\bimport\() ?"(\.[^"]*)"', text, re.MULTILINE)
        imported, later = (list(of(lambda _, text=text: text, path)) for of in (imports_of, later_of))
        if len(named) != len(imported) + len(LATER.findall(text)) or not {*imported, *later} <= {*JOINED}:
            unseen[path] = named

    assert unseen == {}


def test_every_module_is_in_one_piece_once() -> None:
    pieces = pieces_of(FRONTEND, files_as_they_are(FRONTEND))

    assert sorted([*pieces.first, *pieces.later, *pieces.online]) == JOINED
    assert len({name_of(path) for path in JOINED}) == len(JOINED)
