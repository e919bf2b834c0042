"""Reads a room's messages from its file, and makes of each what says it.

The syntax is Fluent's, read by its own library; of it are used text, arguments, choices by an argument (a count by
exact number or plural, a code by its name), and references to messages and terms of the same language, which are
put in when the file is read. A line that is broken goes on with a space. What is left is small enough for a phone:

    pattern   text, or a list of parts
    part      text, or [argument], or [argument, {variant: pattern}, default]

$degrees is given to every message, by no code: "c" or "f", in which a temperature that stands in the text is written.

The page is sent exactly these (frontend/words.js evaluates them); here they are made into functions, once.
"""

from collections.abc import Callable, Mapping
from typing import TypeAlias

from fluent.syntax import FluentParser, ast

from bench.words.units import units

Part: TypeAlias = "str | list[str | dict[str, Pattern]]"
Pattern: TypeAlias = "str | list[Part]"
Values: TypeAlias = Mapping[str, str | int]
Said: TypeAlias = Callable[[Values], str]
Entry: TypeAlias = "ast.Message | ast.Term"

DEGREES = "degrees"
THIN_SPACE = "\u2009"
GROUPED_FROM = 10_000  # four figures are read at one glance, and are what a scale shows


class CatalogueError(Exception):
    """A catalogue's file cannot be read, or uses what the page cannot say. A fault of ours, not of a maker's."""


def read(text: str, where: str) -> dict[str, Entry]:
    """The messages of one file, and its terms, whose names begin with "-"."""
    entries: dict[str, Entry] = {}
    for entry in FluentParser(with_spans=False).parse(text).body:
        if isinstance(entry, ast.Junk):
            raise CatalogueError(f"{where}: {(entry.content or '').strip().splitlines()[:1]}")
        if isinstance(entry, ast.Message | ast.Term):
            key = f"-{entry.id.name}" if isinstance(entry, ast.Term) else entry.id.name
            if key in entries:
                raise CatalogueError(f"{where}: {key} stands there twice")
            entries[key] = entry
    return entries


def pattern_of(key: str, found: Callable[[str], Entry]) -> Pattern:
    """A message as parts. found: gives an entry by its name, for what is referred to."""
    entry = found(key)
    if entry.value is None or entry.attributes:
        raise CatalogueError(f"{key}: a message has a text, and nothing besides")
    return _joined(_parts(entry.value, found))


def _parts(pattern: ast.Pattern, found: Callable[[str], Entry]) -> list[Part]:
    parts: list[Part] = []
    for element in pattern.elements:
        if isinstance(element, ast.TextElement):
            parts.append(" ".join(element.value.split("\n")))
        elif isinstance(element, ast.Placeable):
            parts += _placed(element.expression, found)
    return parts


def _placed(expression: object, found: Callable[[str], Entry]) -> list[Part]:
    match expression:
        case ast.Placeable():
            return _placed(expression.expression, found)
        case ast.StringLiteral():
            return [str(expression.parse()["value"])]
        case ast.VariableReference():
            return [[expression.id.name]]
        case ast.TermReference(arguments=None, attribute=None):
            pattern = pattern_of(f"-{expression.id.name}", found)
        case ast.MessageReference(attribute=None):
            pattern = pattern_of(expression.id.name, found)
        case ast.SelectExpression(selector=ast.VariableReference() as selector):
            default = next(each for each in expression.variants if each.default)
            variants: dict[str, Pattern] = {
                _name(each): _joined(_parts(each.value, found)) for each in expression.variants
            }
            return [[selector.id.name, variants, _name(default)]]
        case _:
            raise CatalogueError(f"the page cannot say {type(expression).__name__}")
    return [pattern] if isinstance(pattern, str) else pattern


def _name(variant: ast.Variant) -> str:
    key = variant.key
    return key.value if isinstance(key, ast.NumberLiteral) else key.name


def _joined(parts: list[Part]) -> Pattern:
    """Text beside text made one; text alone as itself."""
    joined: list[Part] = []
    for part in parts:
        if isinstance(part, str) and joined and isinstance(joined[-1], str):
            joined[-1] += part
        else:
            joined.append(part)
    if not joined:
        return ""
    only = joined[0]
    return only if len(joined) == 1 and isinstance(only, str) else joined


def arguments_of(pattern: Pattern) -> set[str]:
    """The names of the arguments that a message asks for."""
    if isinstance(pattern, str):
        return set()
    names: set[str] = set()
    for part in pattern:
        if not isinstance(part, str):
            names.update(each for each in part[:1] if isinstance(each, str) and each != DEGREES)
            for variants in part[1:2]:
                assert isinstance(variants, dict)
                names.update(*map(arguments_of, variants.values()))
    return names


def made(pattern: Pattern, plural: Callable[[int], str]) -> Said:
    """What says a pattern. An argument that is missing is a KeyError: tests see to it that none is."""
    if isinstance(pattern, str):
        text = pattern
        return lambda values: text
    sayings = [_made_part(part, plural) for part in pattern]
    if len(sayings) == 1:
        return sayings[0]
    return lambda values: "".join([each(values) for each in sayings])


def _made_part(part: Part, plural: Callable[[int], str]) -> Said:
    if isinstance(part, str):
        text = part
        return lambda values: text
    name = part[0]
    assert isinstance(name, str)
    if len(part) == 1:
        return lambda values: shown(values[name])
    choices, default = part[1], part[2]
    assert isinstance(choices, dict) and isinstance(default, str)
    variants = {key: made(each, plural) for key, each in choices.items()}

    def chosen(values: Values) -> str:
        value = units().warmth if name == DEGREES else values[name]
        key = str(value)
        if key not in variants:
            key = plural(value) if isinstance(value, int) else default
        return variants.get(key, variants[default])(values)

    return chosen


def shown(value: str | int) -> str:
    """An argument in its place: text as it is, a whole number with its thousands apart where it is long."""
    if isinstance(value, str):
        return value
    return str(value) if -GROUPED_FROM < value < GROUPED_FROM else f"{value:,}".replace(",", THIN_SPACE)
