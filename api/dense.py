"""A module of the page in fewer bytes that does the same: no space that only people read, short local names.

    const held = (bowl) => {                     let e=e=>{let t=e.massMg??0;return{bowl:e,massMg:t};};
      const massMg = bowl.massMg ?? 0;
      return { bowl, massMg };
    };

The module is parsed, never guessed at. A name gets another one wherever it means the same (api/scopes.py). What the
module gives to others and takes from them it names as they do, where it says so; properties keep their names, but for
those that a class keeps to itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache, lru_cache
from itertools import chain

import tree_sitter_javascript
from tree_sitter import Language, Node, Parser

from api.scopes import NAMES, OF_A_CLASS, bound_by, bound_in, short_name_of, text_of, walk

SPECIFIER = "import_specifier"
WHOLE = frozenset({"template_string", "string", "regex"})
WORD = re.compile(r"[\w$#]")


class Unread(ValueError):
    """A module that is not of the language, that leaves out what ends a statement, or binds a name as no other does."""


@lru_cache(maxsize=512)
def dense(text: str) -> str:
    """The module in fewer bytes. Unread for what cannot be parsed. Held: the same in every language of the page."""
    root = parsed(text)
    named = short_name_of(root)
    return "".join(line for statement in root.children for line in _lines(statement, named))


def parsed(text: str) -> Node:
    root = _parser().parse(text.encode()).root_node
    if root.has_error:
        raise Unread("not of the language")
    return root


@cache
def _parser() -> Parser:
    return Parser(Language(tree_sitter_javascript.language()))


def _lines(statement: Node, named: dict[int, str]) -> Iterator[str]:
    """A statement; join.py reads imports and exports at the beginning of a line."""
    declared = statement.child_by_field_name("declaration")
    if statement.type == "import_statement":
        yield _taken(statement, named)
    elif statement.type != "export_statement":
        if written := _written(statement, named):
            yield f"{written}\n"
    elif declared is None:
        yield _on_one_line(text_of(statement))
    else:
        yield f"{_written(declared, named)}\n"
        given = ", ".join(f"{named[each.start_byte]} as {text_of(each)}" for each in _names_of(declared))
        yield f"export {{ {given} }};\n"


def _taken(statement: Node, named: dict[int, str]) -> str:
    """An import, under the names that its module has for what it takes."""
    start, said = statement.start_byte, statement.text or b""
    for name in reversed(
        [*chain.from_iterable(map(bound_in, walk(statement)))]
    ):  # what is before stays in place
        is_theirs = name.parent is not None and name.parent.child_count == 1 and name.parent.type == SPECIFIER
        here = f"{text_of(name)} as {named[name.start_byte]}" if is_theirs else named[name.start_byte]
        said = said[: name.start_byte - start] + here.encode() + said[name.end_byte - start :]
    return _on_one_line(said.decode())


def _on_one_line(text: str) -> str:
    return re.sub(r"\s+", " ", text) + "\n"


def _names_of(declared: Node) -> Iterator[Node]:
    for each in (declared, *declared.named_children):
        yield from bound_by(each.child_by_field_name("name"))


def _written(statement: Node, named: dict[int, str]) -> str:
    """The tokens of a statement, with a space only where two would be one without it, and no comma behind the last
    of a list; but one that stands for a hole in it."""
    written: list[str] = []
    last = ""
    for token in _tokens(statement, named):
        if last == "," and token in (")", "]", "}") and written[-2] not in (",", "["):
            written.pop()
            last = written[-1]
        between = " " if last and _would_join(last[-1], token[0]) else ""
        written.append(between + token)
        last = token
    return "".join(written)


def _would_join(one: str, other: str) -> bool:
    return bool(WORD.match(one) and WORD.match(other)) or (one == other and one in "+-/")


def _tokens(statement: Node, named: dict[int, str]) -> Iterator[str]:
    waiting: list[Node | str] = [statement]
    while waiting:
        node = waiting.pop()
        if isinstance(node, str):
            yield node
        elif node.type == "comment":
            continue
        elif node.type == "template_string":
            yield "".join(_template(node, named))
        elif node.type in WHOLE:
            yield text_of(node)
        elif node.type in NAMES:
            name = text_of(node)
            new = named.get(node.start_byte, name)
            yield new if node.type == "identifier" or new == name else f"{name}:{new}"
        elif node.type == OF_A_CLASS:
            yield named[node.start_byte]
        elif children := _parts(node):
            waiting += reversed(children)
        elif node.is_missing or (node.start_byte == node.end_byte and node.type == ";"):
            raise Unread(f"a statement without its end at {node.start_point}")
        else:
            yield text_of(node)


def _parts(node: Node) -> Sequence[Node | str]:
    """What a node is made of: a declaration goes on where one stands before it, and one parameter needs no brackets."""
    parts: list[Node | str] = [*node.children]
    if node.type == "lexical_declaration" and node.parent and node.parent.type != "export_statement":
        before, after = node.prev_sibling, node.next_sibling
        goes_on = before is not None and before.type == node.type
        parts[0] = "," if goes_on else "let"
        if after is not None and after.type == node.type:
            del parts[-1]
    elif node.type == "formal_parameters" and node.parent and node.parent.type == "arrow_function":
        if [each.type for each in node.children] == ["(", "identifier", ")"]:
            return [node.children[1]]
    return parts


def _template(node: Node, named: dict[int, str]) -> Iterator[str]:
    """A template's own text as it is, and what is put into it in fewer bytes."""
    at = node.start_byte
    source, start = node.text or b"", node.start_byte
    for child in node.children:
        if child.type == "template_substitution":
            yield source[at - start : child.start_byte - start].decode()
            yield _written(child, named)
            at = child.end_byte
    yield source[at - start :].decode()
