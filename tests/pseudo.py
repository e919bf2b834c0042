"""A language made up for tests: every message of English, longer by two fifths and with a mark at both ends.

What is seen without its marks is said past the catalogue, and what is cut would be cut in a language of long words.
Made from the English files, and spoken beside the languages there are: so a third one is its files alone.

python -m tests.pseudo serve …     the command, with this language: for whom the cookie `language` is TAG
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import Any

from fluent.syntax import FluentParser, FluentSerializer, ast

from bench import words

TAG = "en-XA"
BEGIN, END = "⟦", "⟧"
LONGER = 1.4
VOWEL = re.compile("[aeiou]", re.IGNORECASE)
FILLING = "·"


class Pseudo(words.Language):
    """English in all but its words."""

    @property
    def point(self) -> str:  # type: ignore[override]
        return _english().point

    @property
    def plural(self) -> Callable[[int], str]:  # type: ignore[override]
        return _english().plural


@cache
def pseudo() -> words.Language:
    return Pseudo(TAG, {room: longer_words(source) for room, source in _english().sources.items()})


def longer_words(source: str) -> str:
    """A room's file in the made-up language."""
    resource = FluentParser(with_spans=False).parse(source)
    for entry in resource.body:
        if isinstance(entry, ast.Message | ast.Term) and entry.value:
            _lengthen(entry.value)
        if isinstance(entry, ast.Message) and entry.value:
            entry.value.elements = [ast.TextElement(BEGIN), *entry.value.elements, ast.TextElement(END)]
    return FluentSerializer().serialize(resource)


def longer(text: str) -> str:
    """Its vowels twice, filled up where it has few; what is no word stays as it is."""
    if not re.search(r"[^\W\d_]{2}", text):
        return text
    told = VOWEL.sub(lambda vowel: vowel[0] * 2, text)
    missing = round(len(text.strip()) * LONGER) - len(told.strip())
    filling = f" {FILLING * missing}" if missing > 0 else ""
    return re.sub(r"(\s*)$", lambda end: filling + end[0], told, count=1)


def _lengthen(pattern: ast.Pattern) -> None:
    for element in pattern.elements:
        if isinstance(element, ast.TextElement):
            element.value = longer(element.value)
        elif isinstance(element, ast.Placeable) and isinstance(element.expression, ast.SelectExpression):
            for variant in element.expression.variants:
                _lengthen(variant.value)


@cache
def _english() -> words.Language:
    return _language(words.DEFAULT)


def unmarked(text: str) -> str:
    """What of a text stands in no message."""
    while (less := re.sub(f"{BEGIN}[^{BEGIN}{END}]*{END}", " ", text)) != text:
        text = less
    # Of a message of several sentences one may stand alone.
    return re.sub(f"{BEGIN}.*|.*{END}", " ", text, flags=re.DOTALL).strip()


_language, _languages = words.language, words.languages


def language(tag: str) -> words.Language:
    """In the place of `words.language`."""
    return pseudo() if tag == TAG else _language(tag)


def languages() -> tuple[str, ...]:
    """In the place of `words.languages`."""
    return (*_languages(), TAG)


def main(*arguments: Any, **how: Any) -> None:
    """The command, in a process of its own: this language is there until it ends."""
    from api import page
    from api.cli import main as bowlside

    page.make_ready = lambda: None  # each piece when it is asked for, which in the other languages is never
    words.language, words.languages = language, languages  # type: ignore[assignment]
    bowlside(*arguments, **how)


if __name__ == "__main__":
    main()
