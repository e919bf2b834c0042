"""The page's modules in fewer bytes say what they said: the same tokens, and each name means what it meant."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from tree_sitter import Node

from api.dense import Unread, dense, parsed
from api.page import slim
from api.places import FRONTEND
from api.scopes import BINDS, NAMES, OF_A_CLASS, bound_by, bound_in, text_of, walk
from tests.often import often

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
SHORTHANDS = NAMES - {"identifier"}
SAID_OUTSIDE = frozenset({"function_declaration", "generator_function_declaration", "method_definition"})
NAMED_OUTSIDE = frozenset({"function_declaration", "generator_function_declaration", "class_declaration"})


def source(path: str) -> str:
    return slim(FRONTEND / path).decode()


@pytest.mark.parametrize(
    ("text", "less"),
    [
        ("const held = (bowl) => {\n  return bowl.mass;\n};\n", "let e=e=>{return e.mass;};\n"),
        ("const { mass, cup: small = 1 } = bowl();\nmass + small;\n", "let{mass:e,cup:t=1}=bowl();\ne+t;\n"),
        ("const mass = 1;\nsend({ mass, [mass]: `${mass} g ${{ mass }}` });\n",
         "let e=1;\nsend({mass:e,[e]:`${e} g ${{mass:e}}`});\n"),
        ('import { mass as much, cup } from "./bowl.js";\nexport const weight = much + cup;\n',
         'import { mass as e, cup as t } from "./bowl.js";\nconst n=e+t;\nexport { n as weight };\n'),
        ('import * as bowls from "./bowl.js";\nexport { one, other as two } from "./jug.js";\nbowls.one();\n',
         'import * as e from "./bowl.js";\nexport { one, other as two } from "./jug.js";\ne.one();\n'),
        ("export class Bowl {\n  #mass = 1;\n  get mass() {\n    return this.#mass;\n  }\n}\n",
         "class e{#e=1;get mass(){return this.#e;}}\nexport { e as Bowl };\n"),
        ("const less = 1 - -1 + +2;\nif (/ a b/u.test(' a  b')) throw less;\n",
         "let e=1- -1+ +2;\nif(/ a b/u.test(' a  b'))throw e;\n"),
        ("for (const each of given) for (const name in each) sum += name.length;\n",
         "for(const e of given)for(const t in e)sum+=t.length;\n"),
        ("send(\n  [\n    1,\n    \",]\",\n  ],\n  { mass: 1, },\n);\nconst [, mass,] = [1, ,];\n",
         "send([1,\",]\"],{mass:1});\nlet[,e]=[1,,];\n"),
        # What is used within is not hidden there; what is the browser's keeps its name, and nothing hides it.
        ("const jug = 1;\nconst held = (bowl) => bowl + jug;\nconst other = (bowl) => e + bowl;\n",
         "let t=1,n=e=>e+t,r=t=>e+t;\n"),
        ("const one = () => {\n  const name = 1;\n  return name;\n};\nconst other = () => name;\n",
         "let e=()=>{let e=1;return e;},t=()=>name;\n"),
        # A body may not declare again what its function takes, used there or not; a block within may.
        ("function held(bowl) {\n  const jug = 1;\n  {\n    const cup = 1;\n  }\n}\n",
         "function e(e){let t=1;{let e=1;}}\n"),
        ("try {\n  hold();\n} catch (fault) {\n  let more;\n}\n", "try{hold();}catch(e){let t;}\n"),
        # Outside: the name of a function that is declared, of a method that is reckoned.
        ("function held(held) {}\nclass Bowl {\n  [held](held) {}\n}\nheld();\n",
         "function e(e){}class t{[e](e){}}e();\n"),
        ("const bowl = function held(jug) {\n  held(bowl);\n};\n", "let e=function t(n){t(e);};\n"),
    ],
)  # fmt: skip
def test_what_only_people_read_goes(text: str, less: str) -> None:
    assert dense(text).replace("\n", "") == less.replace("\n", "")


@pytest.mark.parametrize("text", ["const = 1;\n", "export class {\n", "`${`\n"])
def test_what_is_not_of_the_language_is_not_guessed_at(text: str) -> None:
    with pytest.raises(Unread):
        dense(text)


def test_a_module_has_the_same_tokens_and_each_name_means_what_it_meant() -> None:
    for path in MODULES[:: often(few=4, many=1)]:
        text = source(path)
        before, after = (list(tokens(parsed(each))) for each in (text, dense(text)))

        assert [kind for kind, *_ in before] == [kind for kind, *_ in after], path
        named: dict[tuple[int, str], str] = {}
        for (_, old, scope), (_, new, same) in zip(before, after, strict=True):
            assert scope == same, (path, old, new)
            assert new == (old if scope is None else named.setdefault((scope, old), new)), (path, old)
        assert len({(scope, new) for (scope, _), new in named.items()}) == len(named), path


Token = tuple[str, str, int | None]  # its kind, what it says, and of a module's own name which scope it is of
MODULE, CLASS = 0, -1


def tokens(root: Node) -> Iterator[Token]:
    """What a module says, token by token; what it gives to others comes last."""
    owners = dict(scoped(root))
    given: list[Token] = []
    for statement in root.children:
        declared = statement.child_by_field_name("declaration")
        names_only = statement.type in ("import_statement", "export_statement") and not declared
        specifiers = [
            each
            for each in (walk(statement) if names_only else ())
            if each.type in ("import_specifier", "export_specifier")
        ]
        pairs = [(text_of(each.named_children[0]), text_of(each.named_children[-1])) for each in specifiers]
        if statement.type == "import_statement" and specifiers:
            yield "import", text_of(statement.named_children[-1]), None
            for there, here in pairs:
                yield from (("name", there, None), ("identifier", here, MODULE))
        elif statement.type != "export_statement" or statement.child_by_field_name("source"):
            yield from said(statement, owners)
        elif declared:
            yield from said(declared, owners)
            names = [each.child_by_field_name("name") for each in (declared, *declared.named_children)]
            pairs = [(text_of(name), text_of(name)) for name in names if name]
        for here, there in pairs if statement.type == "export_statement" else ():
            given += [("identifier", here, MODULE), ("name", there, None)]
    yield from given


def said(root: Node, owners: dict[int, int]) -> Iterator[Token]:
    """`{ mass }` is what it stands for, `{ mass: mass }`."""
    for each in walk(root):
        kind = each.type
        if kind == OF_A_CLASS:
            yield "identifier", text_of(each), CLASS
        elif kind in SHORTHANDS:
            yield from (("property_identifier", text_of(each), None), (":", ":", None))
            yield "identifier", text_of(each), owners.get(each.start_byte)
        elif kind == "," and each.parent and each.parent.type == "lexical_declaration":
            yield from ((";", ";", None), ("let", "let", None))  # what the one goes on from
        elif kind in ("const", "let"):
            yield "let", "let", None
        elif each.child_count or kind == "comment":
            continue
        elif not (kind == "," and ends_list(each)) and not (kind in ("(", ")") and around_one(each)):
            yield kind, text_of(each), owners.get(each.start_byte)


def around_one(node: Node) -> bool:
    """A bracket is around the one plain parameter of an arrow function, which needs none."""
    given = node.parent
    of_an_arrow = (
        given and given.type == "formal_parameters" and given.parent and given.parent.type == "arrow_function"
    )
    return bool(of_an_arrow and given and [each.type for each in given.children] == ["(", "identifier", ")"])


def ends_list(node: Node) -> bool:
    """A comma is behind the last of a list, where there need be none; one behind a hole makes the list longer."""
    before, after = node.prev_sibling, node.next_sibling
    return bool(before and before.is_named and after and after.type in (")", "]", "}"))


def scoped(root: Node) -> Iterator[tuple[int, int]]:
    """Where each name that a scope binds stands, and the how-manieth scope that is."""
    numbers = count()
    waiting: list[tuple[Node, tuple[tuple[int, frozenset[str]], ...]]] = [(root, ())]
    while waiting:
        node, outside = waiting.pop()
        kind, scopes = node.type, outside
        if kind in SCOPES:
            scopes = (*outside, (next(numbers), frozenset(bound_here(node))))
        elif kind in NAMES:
            name = text_of(node)
            yield from [(node.start_byte, of) for of, names in reversed(scopes) if name in names][:1]
        said_outside = node.child_by_field_name("name") if kind in SAID_OUTSIDE else None
        waiting += [
            (child, outside if child == said_outside else scopes) for child in reversed(node.named_children)
        ]


def bound_here(scope: Node) -> Iterator[str]:
    """What a scope binds itself: its own parameters and declarations, not those of the scopes within it."""
    if scope.type not in NAMED_OUTSIDE:
        yield from map(text_of, bound_in(scope))
    if scope.type in NAMED_OUTSIDE | {"function_expression", "arrow_function", "method_definition"}:
        yield from map(text_of, bound_by(scope.child_by_field_name("parameters")))
    waiting = list(scope.named_children)
    while waiting:
        node = waiting.pop()
        kind = node.type
        if kind in BINDS and (kind in NAMED_OUTSIDE or kind not in SCOPES):
            yield from map(text_of, bound_in(node))
        if kind not in SCOPES:
            waiting += node.named_children


def test_the_scopes_here_are_told_apart() -> None:
    """The check above can see one: `name` is bound in the first function and the browser's in the second."""
    text = "function one() {\n  const name = 1;\n  return name;\n}\nfunction other() {\n  return name;\n}\n"

    told = [(what, scope) for _, what, scope in tokens(parsed(text)) if what in ("one", "name")]
    assert told == [("one", 0), ("name", 2), ("name", 2), ("name", None)]


def test_a_module_that_cannot_be_read_is_sent_as_it_is(tmp_path: Path) -> None:
    from api.page import files_as_they_are, pieces_of

    (tmp_path / "style").mkdir()
    for sheet in ("first", "later", "online"):
        (tmp_path / f"style/{sheet}.css").touch()
    (tmp_path / "app.js").write_text("let here = = 1;\n", "utf-8")
    pieces = pieces_of(tmp_path, files_as_they_are(tmp_path))

    assert "let here = = 1;" in pieces.content("app.js").decode()
