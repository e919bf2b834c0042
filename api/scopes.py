"""The names of a module of the page: which scope binds each, and a short one for it.

A name is one of a scope's own, or the browser's. Each scope gives its own names the first short ones that mean nothing
else in it, as often as not the same as its neighbours' (`e`, `t`, `n`), which is what compresses well:

    const held = (bowl) => bowl.mass;            const e = (e) => e.mass;
    const left = (jug) => jug.mass;              const t = (e) => e.mass;

What the module takes from the browser keeps its name, and nothing of its own gets that name where it is used.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import chain, count, product

from tree_sitter import Node

NAMES = frozenset({"identifier", "shorthand_property_identifier", "shorthand_property_identifier_pattern"})
OF_A_CLASS = "private_property_identifier"
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
    "generator_function": "name",
    "class_declaration": "name",
    "class": "name",
    "arrow_function": "parameter",
    "catch_clause": "parameter",
    "for_in_statement": "left",
    "namespace_import": None,
    "import_specifier": None,
    "formal_parameters": None,
}
FUNCTIONS = frozenset(
    {
        "function_declaration",
        "generator_function_declaration",
        "function_expression",
        "generator_function",
        "arrow_function",
        "method_definition",
        "catch_clause",
    }
)
SCOPES = FUNCTIONS | {"statement_block", "for_statement", "for_in_statement", "switch_body", "class"}
# These bind their name in the scope that they stand in.
NAMED_OUTSIDE = frozenset({"function_declaration", "generator_function_declaration", "class_declaration"})
# Their name is said outside of the scope that they make.
SAID_OUTSIDE = frozenset({"function_declaration", "generator_function_declaration", "method_definition"})
# The letters that stand most often in what is sent come first: they cost least.
LETTERS = "etnrisouaflchpdvmgybwExTSCkLAOMDPHBjFIqRUzWXVJKQGYNZ"
KEYWORDS = frozenset({"as", "do", "get", "if", "in", "is", "let", "new", "of", "set", "try", "var", "for"})
# A module calls these by their own names to the end: what it says is put in in its place (api/page_words.py), and what
# makes an element stands so often that it costs less when every module says it alike.
KEPT = frozenset({"say", "h"})


class Scope:
    """What a stretch of the source binds, and which names of others are used in it or beneath it."""

    def __init__(self, above: Scope | None, *, is_body: bool = False) -> None:
        self.above = above
        self.is_body = is_body  # what a function's parameters are called, its body may not declare again
        self.names: dict[str, str] = {}  # its own, in their order, each with its short one
        self.others: set[tuple[Scope | None, str]] = set()  # whose they are; None: the browser's

    def use(self, name: str) -> Scope | None:
        """The scope that binds a name used here."""
        passed: list[Scope] = []
        at: Scope | None = self
        while at is not None and name not in at.names:
            passed.append(at)
            at = at.above
        for scope in passed:
            scope.others.add((at, name))
        return at

    def shorten(self) -> None:
        """Give each of its own a short name; those above have theirs."""
        taken = {owner.names[name] if owner else name for owner, name in self.others}
        if self.is_body and self.above:
            taken.update(self.above.names.values())
        free = (short for short in short_names() if short not in taken)
        self.names = {name: name if name in KEPT and not self.above else next(free) for name in self.names}


def short_names() -> Iterator[str]:
    letters = dict.fromkeys(LETTERS)
    words = ("".join(each) for length in count(1) for each in product(letters, repeat=length))
    return (word for word in words if word not in KEYWORDS | KEPT)


def walk(node: Node) -> Iterator[Node]:
    """A node and all beneath it, in the order of the text."""
    waiting = [node]
    while waiting:
        now = waiting.pop()
        yield now
        waiting += reversed(now.children)


def text_of(node: Node) -> str:
    return (node.text or b"").decode()


def bound_by(pattern: Node | None) -> Iterator[Node]:
    """The names that a pattern binds."""
    if pattern is None:
        return
    if pattern.type in NAMES:
        yield pattern
    elif pattern.type in PATTERNS:
        field = PATTERNS[pattern.type]
        parts = [pattern.child_by_field_name(field)] if field else pattern.named_children
        yield from chain.from_iterable(map(bound_by, parts))


def bound_in(node: Node) -> Iterator[Node]:
    """The names that a node itself binds; a loop's only where it declares them."""
    if node.type == "formal_parameters":
        yield from bound_by(node)
    elif node.type in BINDS and (node.type != "for_in_statement" or node.child_by_field_name("kind")):
        field = BINDS[node.type]
        # An import's name here is its last one.
        yield from bound_by(node.child_by_field_name(field) if field else node.named_children[-1])


def short_name_of(root: Node) -> dict[int, str]:
    """The short name of each name that the module binds, by where it stands (its first byte)."""
    scopes = [Scope(None)]
    used: list[tuple[Node, Scope]] = []
    private: list[Node] = []
    waiting = [(root, scopes[0])]
    while waiting:
        node, scope = waiting.pop()
        kind = node.type
        if kind in NAMES:
            used.append((node, scope))
        elif kind == OF_A_CLASS:
            private.append(node)
        outside = scope
        if kind in SCOPES:
            is_body = node.parent is not None and node.parent.type in FUNCTIONS
            scope = Scope(scope, is_body=is_body)
            scopes.append(scope)
        if kind in BINDS:
            names = map(text_of, bound_in(node))
            (outside if kind in NAMED_OUTSIDE else scope).names.update(dict.fromkeys(names, ""))
        said_outside = node.child_by_field_name("name") if kind in SAID_OUTSIDE else None
        waiting += [
            (each, outside if each == said_outside else scope) for each in reversed(node.named_children)
        ]
    owners = [(node, scope.use(text_of(node))) for node, scope in used]
    for scope in scopes:  # one above before those beneath it
        scope.shorten()
    found = {node.start_byte: owner.names[text_of(node)] for node, owner in owners if owner}
    return found | _of_classes(private)


def _of_classes(private: list[Node]) -> dict[int, str]:
    """The same for what a class keeps to itself: the more often it stands there, the shorter."""
    names = [name for name, _ in Counter(map(text_of, private)).most_common()]
    named = dict(zip(names, short_names(), strict=False))
    return {node.start_byte: f"#{named[text_of(node)]}" for node in private}
