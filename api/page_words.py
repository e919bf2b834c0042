"""The words that the page is sent: of one language, and those that its modules name.

A module names a message by its whole key in quotes, or by its beginning in a template: `kind-${kind}`. Whatever
else stands in quotes is no key of the catalogue, so a table of keys does as well as a call.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path

from api import page_tables
from bench import words

FILE = "words.js"
PLACE = re.compile(r"^const TABLE = \{.*\};$", re.MULTILINE)
KEY = re.compile(r'"([a-z]+(?:-[a-z0-9]+)+)"')
EITHER = re.compile(r'(?<![.\w])say\(([^()"]+\?\s?)"([a-z0-9-]+)"(\s?:\s?)"([a-z0-9-]+)"\)')
ALONE = re.compile(r'(?<![.\w])say\("([a-z]+(?:-[a-z0-9]+)+)"\)')
BEGINNING = re.compile(r"`([a-z]+(?:-[a-z0-9]+)*-)\$\{")
# What stands before any module runs has its words where %name% marks the place.
BEFORE_MODULES = frozenset({"index.html", "manifest.webmanifest", "oldest.js"})
WORDED = BEFORE_MODULES | {FILE}
MARKED = re.compile(r"%([a-z-]+)%")
OF_WORDS_ITSELF = {"list-and", "list-more"}


@cache
def _all_keys() -> frozenset[str]:
    return frozenset(words.language(words.DEFAULT).keys())


def keys_in(source: str) -> set[str]:
    """The messages that a module's source names."""
    named = set(KEY.findall(source)) & _all_keys()
    beginnings = tuple(BEGINNING.findall(source))
    return named | {key for key in _all_keys() if beginnings and key.startswith(beginnings)}


def messages(sources: Iterable[str]) -> Mapping[str, words.Pattern]:
    """What these modules may say in the language that is spoken, by key, in order."""
    keys = OF_WORDS_ITSELF.union(*map(keys_in, sources))
    tongue = words.language(words.spoken())
    return {key: tongue.pattern(key) for key in sorted(keys)}


def worded(source: str, sources: Iterable[str]) -> str:
    """words.js with the words of these modules in it."""
    tongue = words.language(words.spoken())
    named = {tag: words.language(tag).messages["language-name"]({}) for tag in words.languages()}
    table = {
        "language": tongue.tag,
        "point": tongue.point,
        "languages": named,
        "messages": messages(sources),
    }
    filled, places = PLACE.subn(lambda _: f"const TABLE = {as_json(table)};", source)
    if places != 1:
        raise ValueError(f"{FILE}: no place for the words")
    return filled


def put_in(source: str) -> str:
    """A module's source with what it says without arguments in place of the call."""

    def alone(call: re.Match[str]) -> str:
        return _plain(call[1]) or call[0]

    def either(call: re.Match[str]) -> str:
        one, other = _plain(call[2]), _plain(call[4])
        return f"({call[1]}{one}{call[3]}{other})" if one and other else call[0]

    return EITHER.sub(either, ALONE.sub(alone, source))


def _plain(key: str) -> str:
    """A message that takes no argument, in quotes; "" for any other."""
    pattern = words.language(words.spoken()).pattern(key) if key in _all_keys() else None
    return as_json(pattern) if isinstance(pattern, str) else ""


def shortened(*pieces: str) -> list[str]:
    """The pieces of a page with a short name for each key that they name whole alone: the same in all of them."""
    beginnings = tuple(each for piece in pieces for each in BEGINNING.findall(piece))
    named = {key for piece in pieces for key in KEY.findall(piece)} & _all_keys()
    short = {key: f"{n:x}" for n, key in enumerate(sorted(k for k in named if not k.startswith(beginnings)))}
    return [KEY.sub(lambda found: f'"{short.get(found[1], found[1])}"', piece) for piece in pieces]


def _first(mark: re.Match[str]) -> str:
    return words.spoken() if mark[1] == "language" else words.say(f"page-first-{mark[1]}")


def as_json(told: object) -> str:
    return json.dumps(told, ensure_ascii=False, separators=(",", ":"))


def as_it_is(file: Path) -> str:
    """A file as it lies there, but for those whose words or tables are written in.

    words.js has the words of all modules beside and beneath it.
    """
    text = page_tables.put_in(file, file.read_text("utf-8"))
    if file.name in BEFORE_MODULES:
        return MARKED.sub(_first, text)
    if file.name != FILE or not PLACE.search(text):  # a part of the page has that name, too
        return text
    return worded(text, (each.read_text("utf-8") for each in file.parent.rglob("*.js")))
