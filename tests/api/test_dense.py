"""The page's modules in fewer bytes say what they said: the same tokens, under names of which no two are one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from tree_sitter import Node

from api.dense import NAMES, OF_THE_BROWSER, Unread, bound_by, bound_in, dense, parsed, text_of, walk
from api.page import slim
from api.places import FRONTEND

MODULES = sorted(path.relative_to(FRONTEND).as_posix() for path in FRONTEND.rglob("*.js"))
SCOPES = frozenset(
    {
        "program",
        "statement_block",
        "function_declaration",
        "generator_function_declaration",
        "function_expression",
        "arrow_function",
        "method_definition",
        "for_statement",
        "for_in_statement",
        "catch_clause",
        "switch_body",
        "class",
    }
)
NAMED_OUTSIDE = frozenset({"function_declaration", "generator_function_declaration", "class_declaration"})


def source(path: str) -> str:
    return slim(FRONTEND / path).decode()


@pytest.mark.parametrize(
    ("text", "less"),
    [
        ("const held = (bowl) => {\n  return bowl.mass;\n};\n", "const b=(a)=>{return a.mass;};\n"),
        ("const { mass, cup: small = 1 } = bowl();\nmass + small;\n", "const{mass:a,cup:b=1}=bowl();\na+b;\n"),
        ("const mass = 1;\nsend({ mass, [mass]: `${mass} g ${{ mass }}` });\n",
         "const a=1;\nsend({mass:a,[a]:`${a} g ${{mass:a}}`});\n"),
        ('import { mass as much } from "./bowl.js";\nexport const weight = much;\n',
         'import { mass as much } from "./bowl.js";\nexport const weight=much;\n'),
        ("export class Bowl {\n  #mass = 1;\n  get mass() {\n    return this.#mass;\n  }\n}\n",
         "export class Bowl{#mass=1;get mass(){return this.#mass;}}\n"),
        ("const less = 1 - -1 + +2;\nif (/ a b/u.test(' a  b')) throw less;\n",
         "const a=1- -1+ +2;\nif(/ a b/u.test(' a  b'))throw a;\n"),
        ("for (const each of given) for (const name in each) sum += name.length;\n",
         "for(const a of given)for(const b in a)sum+=b.length;\n"),
        ("send(\n  [\n    1,\n    \",]\",\n  ],\n  { mass: 1, },\n);\nconst [, mass,] = [1, ,];\n",
         "send([1,\",]\"],{mass:1});\nconst[,a]=[1,,];\n"),
    ],
)  # fmt: skip
def test_what_only_people_read_goes(text: str, less: str) -> None:
    assert "".join(f"{line}\n" for line in dense(text).splitlines()) == less


@pytest.mark.parametrize("text", ["const = 1;\n", "export class {\n", "`${`\n"])
def test_what_is_not_of_the_language_is_not_guessed_at(text: str) -> None:
    with pytest.raises(Unread):
        dense(text)


def test_a_module_has_the_same_tokens_and_each_name_one_other() -> None:
    for path in MODULES:
        before, after = (list(tokens(parsed(text))) for text in (source(path), dense(source(path))))

        assert [kind for kind, _ in before] == [kind for kind, _ in after], path
        named: dict[str, str] = {}
        for (kind, old), (_, new) in zip(before, after, strict=True):
            assert new == (named.setdefault(old, new) if kind == "identifier" else old), path
        assert len(set(named.values())) == len(named), path


def test_no_module_binds_a_name_that_it_takes_from_the_browser_too() -> None:
    """Both would get the new name, and the browser knows it by the old one."""
    both = {}
    for path in MODULES:
        root = parsed(source(path))
        bound = {name for node in walk(root) for name in bound_in(node)}
        if found := bound & set(unbound(root, ())) - OF_THE_BROWSER:
            both[path] = found

    assert both == {}


def tokens(node: Node) -> Iterator[tuple[str, str]]:
    """What a module says, token by token; `{ mass }` as what it stands for, `{ mass: mass }`."""
    for each in walk(node):
        if each.type in NAMES - {"identifier"}:
            yield from (("property_identifier", text_of(each)), (":", ":"), ("identifier", text_of(each)))
        elif each.child_count == 0 and each.type != "comment" and not ends_list(each):
            yield each.type, text_of(each)


def ends_list(node: Node) -> bool:
    """A comma behind the last of a list, where there need be none; one behind a hole makes the list longer."""
    before, after = node.prev_sibling, node.next_sibling
    return node.type == "," and bool(before and before.is_named and after and after.type in (")", "]", "}"))


def unbound(node: Node, scopes: tuple[frozenset[str], ...]) -> Iterator[str]:
    """The names that no scope around them binds."""
    if node.type in SCOPES:
        scopes = (*scopes, frozenset(bound_here(node)))
    if node.type in NAMES and not any(text_of(node) in scope for scope in scopes):
        yield text_of(node)
    for child in node.children:
        yield from unbound(child, scopes)


def bound_here(scope: Node) -> Iterator[str]:
    """What a scope binds itself: its own parameters and declarations, not those of the scopes within it."""
    if scope.type not in NAMED_OUTSIDE:
        yield from bound_in(scope)
    if scope.type in NAMED_OUTSIDE | {"function_expression", "arrow_function", "method_definition"}:
        yield from bound_by(scope.child_by_field_name("parameters"))
    if scope.type == "program":
        statements = [each for each in scope.children if each.type == "import_statement"]
        yield from (text_of(node) for each in statements for node in walk(each) if node.type == "identifier")
    waiting = list(scope.children)
    while waiting:
        node = waiting.pop()
        if node.type in NAMED_OUTSIDE or node.type not in SCOPES:
            yield from bound_in(node)
        if node.type not in SCOPES:
            waiting += node.children


def test_the_scopes_here_are_told_apart() -> None:
    """The check above can see one: `name` is bound in the first function and the browser's in the second."""
    text = "function one() {\n  const name = 1;\n  return name;\n}\nfunction other() {\n  return name;\n}\n"

    assert list(unbound(parsed(text), ())) == ["name"]


def test_a_module_that_cannot_be_read_is_sent_as_it_is(tmp_path: Path) -> None:
    from api.page import files_as_they_are, pieces_of

    (tmp_path / "style").mkdir()
    for sheet in ("first", "later"):
        (tmp_path / f"style/{sheet}.css").touch()
    (tmp_path / "app.js").write_text("let here = = 1;\n", "utf-8")
    pieces = pieces_of(tmp_path, files_as_they_are(tmp_path))

    assert "let here = = 1;" in pieces.content("app.js").decode()
