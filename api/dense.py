"""A module of the page in fewer bytes that does the same: no space that only people read, short local names.

    const held = (bowl) => {                     const a=b=>{const c=b.massMg??0;return{bowl:b,massMg:c};};
      const massMg = bowl.massMg ?? 0;
      return { bowl, massMg };
    };

The module is parsed, never guessed at. A name gets another one wherever it stands in the module, and no two get the
same: whatever a scope binds, it binds under the new names too. Imports, exports, properties and what the module does
not bind keep theirs. A name that a module both binds and takes from the browser must keep its own: OF_THE_BROWSER, which
tests/api/test_dense.py holds against the scopes of all of them.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import chain, count, product
from string import ascii_letters

import tree_sitter_javascript
from tree_sitter import Language, Node, Parser

NAMES = frozenset({"identifier", "shorthand_property_identifier", "shorthand_property_identifier_pattern"})
# Of a pattern, where the names that it binds stand.
PATTERNS = {
    "object_pattern": None,
    "array_pattern": None,
    "rest_pattern": None,
    "formal_parameters": None,
    "pair_pattern": "value",
    "assignment_pattern": "left",
    "object_assignment_pattern": "left",
}
# Of what binds names, where they stand.
BINDS = {
    "variable_declarator": "name",
    "function_declaration": "name",
    "generator_function_declaration": "name",
    "function_expression": "name",
    "class_declaration": "name",
    "class": "name",
    "arrow_function": "parameter",
    "catch_clause": "parameter",
    "for_in_statement": "left",
}
WHOLE = frozenset({"template_string", "string", "regex"})
ON_THEIR_OWN = frozenset(
    {"import_statement", "export_statement"}
)  # join.py reads them at the beginning of a line
SHORT = 3
WORD = re.compile(r"[\w$]")
OF_THE_BROWSER = frozenset({"document"})
KEYWORDS = frozenset({"as", "do", "get", "if", "in", "is", "let", "new", "of", "set", "try", "var", "for"})


class Unread(ValueError):
    """A module that is not of the language, or that leaves out what ends a statement."""


@lru_cache(maxsize=512)
def dense(text: str) -> str:
    """The module in fewer bytes. Unread for what cannot be parsed. Held: the same in every language of the page."""
    root = parsed(text)
    named = short_names(root)
    written: list[str] = []
    for statement in root.children:
        own = statement.type in ON_THEIR_OWN
        said = _as_it_is(statement) if own and _of_others(statement) else _written(statement, named)
        written.append(f"{said}\n" if said else "")
    return "".join(written)


def parsed(text: str) -> Node:
    root = _parser().parse(text.encode()).root_node
    if root.has_error:
        raise Unread("not of the language")
    return root


@cache
def _parser() -> Parser:
    return Parser(Language(tree_sitter_javascript.language()))


def walk(node: Node) -> Iterator[Node]:
    """A node and all beneath it, in the order of the text."""
    waiting = [node]
    while waiting:
        now = waiting.pop()
        yield now
        waiting += reversed(now.children)


def text_of(node: Node) -> str:
    return (node.text or b"").decode()


def bound_by(pattern: Node | None) -> Iterator[str]:
    """The names that a pattern binds."""
    if pattern is None:
        return
    if pattern.type in NAMES:
        yield text_of(pattern)
    elif pattern.type in PATTERNS:
        field = PATTERNS[pattern.type]
        parts = [pattern.child_by_field_name(field)] if field else pattern.named_children
        yield from chain.from_iterable(map(bound_by, parts))


def bound_in(node: Node) -> Iterator[str]:
    """The names that a node itself binds; a loop's only where it declares them."""
    if node.type == "formal_parameters":
        yield from bound_by(node)
    elif node.type in BINDS and (node.type != "for_in_statement" or node.child_by_field_name("kind")):
        yield from bound_by(node.child_by_field_name(BINDS[node.type]))


def short_names(root: Node) -> dict[str, str]:
    """A short name for each that the module binds and keeps to itself; the more often it stands there, the shorter."""
    uses: Counter[str] = Counter()
    bound: set[str] = set()
    stays = {*OF_THE_BROWSER}
    for node in walk(root):
        if node.type in NAMES:
            uses[text_of(node)] += 1
        bound.update(bound_in(node))
    for statement in root.children:
        if statement.type in ON_THEIR_OWN:
            stays.update(_given_or_taken(statement))
    own = [name for name, _ in uses.most_common() if name in bound - stays and len(name) > SHORT]
    taken = {*uses} - {*own} | KEYWORDS
    free = (short for short in _letters() if short not in taken)
    return {name: next(free) for name in own}


def _letters() -> Iterator[str]:
    return ("".join(each) for length in count(1) for each in product(ascii_letters, repeat=length))


def _given_or_taken(statement: Node) -> Iterator[str]:
    """The names that an import takes or an export gives."""
    declared = statement.child_by_field_name("declaration")
    if declared is None:
        yield from (text_of(node) for node in walk(statement) if node.type == "identifier")
        return
    for each in (declared, *declared.named_children):
        yield from bound_by(each.child_by_field_name("name"))


def _of_others(statement: Node) -> bool:
    return statement.child_by_field_name("declaration") is None


def _as_it_is(node: Node) -> str:
    return re.sub(r"\s+", " ", text_of(node))


def _written(statement: Node, named: dict[str, str]) -> str:
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


def _tokens(statement: Node, named: dict[str, str]) -> Iterator[str]:
    waiting = [statement]
    while waiting:
        node = waiting.pop()
        if node.type == "comment":
            continue
        if node.type == "template_string":
            yield "".join(_template(node, named))
        elif node.type in WHOLE:
            yield text_of(node)
        elif node.type in NAMES:
            name = text_of(node)
            new = named.get(name, name)
            yield new if node.type == "identifier" or new == name else f"{name}:{new}"
        elif children := node.children:
            waiting += reversed(children)
        elif node.is_missing or (node.start_byte == node.end_byte and node.type == ";"):
            raise Unread(f"a statement without its end at {node.start_point}")
        else:
            yield text_of(node)


def _template(node: Node, named: dict[str, str]) -> Iterator[str]:
    """A template's own text as it is, and what is put into it in fewer bytes."""
    at = node.start_byte
    source, start = node.text or b"", node.start_byte
    for child in node.children:
        if child.type == "template_substitution":
            yield source[at - start : child.start_byte - start].decode()
            yield _written(child, named)
            at = child.end_byte
    yield source[at - start :].decode()
